//! What the page is, around any view: the way through it, what stands on top, finding, opening, what is wrong with the record.

pub mod app;
pub mod faults;
pub mod field_link;
pub mod find;
pub mod fold;
pub mod ids;
pub mod navigation;
pub mod open_record;
pub mod route;
pub mod same_record;
pub mod start;
pub mod still;
pub mod top;
pub mod units;

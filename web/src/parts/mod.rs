//! Small parts of the page.

pub mod export;
pub mod faults;
pub mod field_link;
pub mod file_text;
pub mod find;
pub mod fold;
pub mod navigation;
pub mod open_record;
pub mod start;
pub mod top;
pub mod units;

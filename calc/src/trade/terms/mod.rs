//! Terms that several sheets use: declared once, with one id everywhere.

pub mod carbon;
pub mod chemical;
pub mod chlorine;
pub mod cost;
pub mod day;
pub mod drain;
pub mod event;
pub mod heat;
pub mod machine;
pub mod mains;
pub mod membrane;
pub mod moment;
pub mod place;
pub mod report;
pub mod sediment;
pub mod softener;
pub mod tap;

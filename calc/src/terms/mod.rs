//! Terms that several sheets use: declared once, with one id everywhere.

pub mod carbon;
pub mod heat;
pub mod tap;

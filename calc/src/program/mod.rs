//! The program's own data: the list of its sheets, and what each was checked against.

pub mod catalogue;
pub mod evidence;
pub mod search;

//! The program's own data: the list of its sheets, and what each was checked against, which hand numbers to one another.

pub mod catalogue;
pub mod evidence;
pub mod hand_over;
pub mod search;

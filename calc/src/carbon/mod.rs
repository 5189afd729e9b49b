//! The carbons: time in them, and the rule by which a place relies on them.

mod contact_time;

pub use contact_time::{ContactTime, Outputs as ContactTimes, Rule, TEN_MINUTES};

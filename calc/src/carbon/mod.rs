//! The carbons: time in them, how long they may last, and the rule by which a place relies on them.

mod contact_time;
mod kind;
mod kinetics;
mod life;
mod rating;

pub use contact_time::{ContactTime, Outputs as ContactTimes, Rule, TEN_MINUTES, TEST_BEFORE_EVERY_SESSION};
pub use kind::CarbonKind;
pub use kinetics::Species;
pub use life::{CARBON_LIFE, CarbonLife, Life, Outputs as LifeOfCarbon};
pub use rating::RatedFor;

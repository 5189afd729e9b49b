//! The carbons: time in them, how long they may last, and the rule by which a place relies on them.

mod chlorine_decision;
mod chlorine_test;
mod contact_time;
mod kind;
mod kinetics;
mod life;
mod rating;
mod vessel;

pub use chlorine_decision::{Decision, Reason};
pub use chlorine_test::{
    AFTER_FIRST_CARBON, AFTER_LAST_CARBON, Action, Carbons, ChlorineTest, Outputs as TestOfChlorine, ToDo,
};
pub use contact_time::{
    ContactTime, FIVE_IN_FINAL, Outputs as ContactTimes, Rule, TEN_MINUTES, TEST_BEFORE_EVERY_SESSION,
    TWO_CARBONS, judge_carbons,
};
pub use kind::CarbonKind;
pub use kinetics::Species;
pub use life::{CARBON_LIFE, CARBON_TEST_DECIDES, CarbonLife, Life, Outputs as LifeOfCarbon};
pub use rating::RatedFor;
pub use vessel::{CarbonVessel, Outputs as VesselOfCarbon, WANTED_CONTACT_TIME};

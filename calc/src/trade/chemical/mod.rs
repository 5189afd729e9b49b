//! Chemical disinfection: how much concentrate, and how long to rinse.

mod dilution;
mod rinse;

pub use dilution::{Agent, CountedAs, Dilution, Outputs as Mixed};
pub use rinse::{
    Outputs as Rinsed, RESIDUAL_AFTER_PAUSE, RESIDUAL_AFTER_RINSE, RinseOut, RinseReading, TestKind,
};

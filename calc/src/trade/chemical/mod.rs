//! Chemical disinfection: how much stock, and how long to rinse.

mod agent;
mod cycles;
mod dilution;
mod residual;
mod rinse;
mod strength;

pub use agent::{Agent, TestKind};
pub use dilution::{Dilution, Outputs as Mixed};
pub use residual::ResidualTests;
pub use rinse::{
    ACID_RINSED_OUT, Outputs as Rinsed, RESIDUAL_AFTER_PAUSE, RESIDUAL_AFTER_RINSE, RinseOut, RinseReading,
};
pub use strength::{PercentMeans, RatioMeans, StockForm, StrengthAs};

//! The RO membrane: temperature, recovery, rejection, and the product flow through the year.

mod allowances;
pub mod correction;
mod ion_passage;
mod normalized;
mod operation;
mod product_flow_year;
mod recovery;
mod reject_setting;
mod rejection;
mod same_membrane;
pub mod scale;
mod temperature_correction;
mod tempering;
mod year_end;

pub use allowances::{Allowance, Allowed, AppliesTo, FormBand, Switched};
pub use ion_passage::{Contaminant, Expectation, IonPassage, NEVER_MET, Outputs as Contaminants, Passes};
pub use normalized::{NormalizedPerformance, Outputs as Normalized, SameInstruments};
pub use operation::{Anchor, Control, Forms, NEVER_FLUSHES};
pub use product_flow_year::{
    CAPACITY, COLD_FEED_TEMPERED, MonthFlow, MonthTemperature, Outputs as YearOfFlows, ProductFlowYear,
    Season, SeasonFlow,
};
pub use recovery::{
    Outputs as Recoveries, RECOVERY_BOUND, Recovery, mean_factor as mean_concentration_factor,
};
pub use reject_setting::{Outputs as RejectSettings, RejectSetting};
pub(crate) use rejection::at_limit;
pub use rejection::{Outputs as Rejections, Rejection};
pub use same_membrane::{Outputs as OfOneMembrane, SameMembrane};
pub use scale::{Outputs as ScaleForecast, ScaleTendency};
pub use temperature_correction::{Outputs as Corrections, TemperatureCorrection};
pub use tempering::{FEED_WITHIN, HOT_SIDE, Outputs as TemperedFeed, TEMPERED_WITHIN, Tempering};
pub use year_end::{YearEnd, tempered, year_end};

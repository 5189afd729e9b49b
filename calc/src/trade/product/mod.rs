//! What the water must be when it reaches the dialysis machine: laboratory reports against the chosen set of limits.

mod chemical;
mod culture;
mod microbial;
pub mod poisson;

pub use chemical::{
    CHEMICAL_LIMITS, ChemicalLimits, Elsewhere, Judgement, NotTested, Outputs as ReportJudged, ProductResult,
    Verdict,
};
pub use culture::{Medium, SamplePort, Technique};
pub use microbial::{MicrobialLimits, Outputs as CountJudged};

/// A value that differs from the limit by the last bits of a conversion alone is the limit itself: 5 µg/L are 0.005 mg/L.
fn onto<Q: crate::engine::quantity::Quantity>(value: Q, limit: Q) -> Q {
    if (value.si() - limit.si()).abs() <= 1e-12 * limit.si().abs() { limit } else { value }
}

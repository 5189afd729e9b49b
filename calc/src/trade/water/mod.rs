//! Water as a liquid: how dense and how viscous it is, how a pipe slows it; and what is dissolved in it.
//!
//! Properties follow the releases of the International Association for the Properties of Water and Steam (IAPWS):
//! SR6-08(2011), simple equations for the liquid at 0.1 MPa, with R12-08 as their witness. Friction follows Colebrook.
//! What a laboratory reports is an [`Analyte`] each; their activities are in [`activity`], their equilibrium in
//! [`carbonate`]. Not covered: what salts do to density and viscosity, ice and steam. The pressure of the mains matters little: 0.7 MPa make water at 1 °C
//! 0.03 % denser and 0.07 % less viscous (IAPWS-95 and R12-08 as computed by `iapws` 1.5.5), warmer water less still.

pub mod activity;
mod analyte;
pub mod carbonate;
mod density;
pub mod pipe;
mod report;
mod viscosity;

pub use analyte::{Analyte, Substance};
pub use density::density;
pub use report::Report;
pub use viscosity::{viscosity, viscosity_iapws_2008};

use crate::engine::quantity::Temperature;

/// The lowest temperature of SR6-08(2011): −20 °C, supercooled.
pub const LOWEST: Temperature = Temperature::of(253.15);

/// The highest temperature of SR6-08(2011): 110 °C, superheated.
pub const HIGHEST: Temperature = Temperature::of(383.15);

/// Heat to warm 1 kg of water by 1 K, in J/(kg K): the mean from 1 to 40 °C and from 1 to 99 °C, within 0.7 % at every
/// temperature there (IAPWS-IF97 as computed by `iapws` 1.5.5).
pub const HEAT_CAPACITY: f64 = 4190.0;

/// The temperature in kelvin, held to the range of SR6-08(2011) so that its equations stay far from their poles.
fn held(temperature: Temperature) -> f64 {
    temperature.si().clamp(LOWEST.si(), HIGHEST.si())
}

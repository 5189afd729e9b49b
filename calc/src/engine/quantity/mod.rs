//! Typed quantities: thin types in SI, so that adding a pressure to a flow does not compile.
//!
//! * [`kinds`] has one type and one row of units for each kind, with exact factors;
//! * [`products`] says which products and quotients exist;
//! * [`text`] reads what a person typed, [`show`] writes numbers for a person.

pub mod kinds;
mod products;
pub mod show;
pub mod text;
pub mod unit;

pub use kinds::{
    AbsoluteTemperature, Area, Chlorine, ColonyCount, Concentration, Conductivity, Current, Density,
    Endotoxin, Energy, ExchangeCapacity, Flow, FlowCoefficient, Hardness, HardnessPerMetal, HeatCapacity,
    HeatDose, Length, Mass, Molality, Ph, Power, Pressure, PressureDifference, Rate, Ratio, ResinCapacity,
    SaturationIndex, Temperature, TemperatureDifference, Time, Velocity, Viscosity, Voltage, Volume,
};
pub use unit::{Kind, Unit, UnitSet};

/// A number with its kind. A bare `f64` is one too: a pure number.
pub trait Quantity: Copy + PartialEq + PartialOrd + std::fmt::Debug + 'static {
    /// What may be added to what.
    const KIND: &'static Kind;
    /// The value in the SI unit.
    fn si(self) -> f64;
    /// From the value in the SI unit.
    fn from_si(si: f64) -> Self;
}

/// The functions that stand for a number with its unit, in code as in a shown formula: `minutes(10.0)`.
macro_rules! constants {
    ($( $name:ident $type:ident $symbol:literal; )+) => {
        $(
            #[doc = concat!("So many ", $symbol, ".")]
            pub const fn $name(value: f64) -> $type {
                $type::of(<$type as Quantity>::KIND.unit($symbol).to_si(value))
            }
        )+
        /// The unit behind each of these names, for the reader of shown formulas.
        pub fn constant(name: &str) -> Option<(&'static Kind, &'static Unit)> {
            match name {
                $( stringify!($name) => Some((<$type as Quantity>::KIND, <$type as Quantity>::KIND.unit($symbol))), )+
                _ => None,
            }
        }
    };
}

constants! {
    litres Volume "L";
    litres_per_minute Flow "L/min";
    minutes Time "min";
    seconds Time "s";
    hours Time "h";
    days Time "d";
    metres Length "m";
    millimetres Length "mm";
    bar Pressure "bar";
    bar_difference PressureDifference "bar";
    celsius Temperature "°C";
    kelvin AbsoluteTemperature "K";
    kelvin_difference TemperatureDifference "K";
    percent Ratio "%";
    milligrams_per_litre Chlorine "mg/L";
    grains_per_gallon Hardness "gpg";
    gpg_per_milligram_per_litre HardnessPerMetal "gpg per mg/L";
    kilograms_per_cubic_metre Density "kg/m³";
    per_minute Rate "1/min";
}

//! Every kind of quantity with its units. Factors are exact expressions from definitions:
//! the inch, the pound and standard gravity (international yard and pound agreement of 1959; BIPM SI brochure),
//! the US gallon of 231 cubic inches and the grain of 1/7000 pound (NIST Handbook 44, appendix C).

use super::unit::{Kind, Unit};

const INCH: f64 = 0.0254;
const FOOT: f64 = 12.0 * INCH;
const POUND: f64 = 0.453_592_37;
const GRAVITY: f64 = 9.806_65;
const LITRE: f64 = 1e-3;
const GALLON: f64 = 231.0 * INCH * INCH * INCH;
const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;
const PSI: f64 = POUND * GRAVITY / (INCH * INCH);
const GRAIN: f64 = POUND / 7000.0;
/// Molar masses as CaCO3 and CaO in kg/mol, from the abridged standard atomic weights (IUPAC 2021).
const CACO3: f64 = 0.100_086;
const CAO: f64 = 0.056_077;

const fn unit(
    symbol: &'static str,
    factor: f64,
    words: &'static str,
    aliases: &'static [&'static str],
) -> Unit {
    Unit { symbol, aliases, words, factor, offset: 0.0 }
}

const fn affine(
    symbol: &'static str,
    factor: f64,
    offset: f64,
    words: &'static str,
    aliases: &'static [&'static str],
) -> Unit {
    Unit { symbol, aliases, words, factor, offset }
}

/// Declares the kinds, each as a thin type around its SI value.
macro_rules! kinds {
    ($( $(#[$doc:meta])* $type:ident $konst:ident $id:literal $name:literal ($metric:literal, $us:literal)
        $($zero:ident)? : [ $($unit:expr),+ $(,)? ] )+) => {
        $(
            $(#[$doc])*
            #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
            pub struct $type(f64);

            #[doc = concat!("The kind of [`", stringify!($type), "`] and its units.")]
            pub const $konst: Kind = Kind {
                id: $id, name: $name, units: &[$($unit),+], metric: $metric, us: $us,
                true_zero: kinds!(@zero $($zero)?), difference: None,
            };

            impl $type {
                /// From the value in the SI unit.
                pub const fn of(si: f64) -> Self {
                    Self(si)
                }

                /// The value in the SI unit.
                pub const fn si(self) -> f64 {
                    self.0
                }
            }

            impl super::Quantity for $type {
                const KIND: &'static Kind = &$konst;
                fn si(self) -> f64 {
                    self.0
                }
                fn from_si(si: f64) -> Self {
                    Self(si)
                }
            }
        )+
        /// Every kind but the affine one and the pure number.
        pub const LINEAR: &[&Kind] = &[$(&$konst),+];
    };
    (@zero) => { true };
    (@zero arbitrary) => { false };
}

kinds! {
    /// A volume; SI unit m³.
    Volume VOLUME "volume" "volume" ("L", "gal"): [
        unit("L", LITRE, "litres", &["l", "liter", "litre", "liters", "litres", "dm³"]),
        unit("mL", 1e-3 * LITRE, "millilitres", &["cm³", "cc"]),
        unit("m³", 1.0, "cubic metres", &["m^3"]),
        unit("gal", GALLON, "US gallons", &["US gal", "gallon", "gallons", "US gallons"]),
        unit("ft³", FOOT * FOOT * FOOT, "cubic feet", &["ft^3", "cu ft", "cuft", "cf"]),
    ]
    /// A volume flow; SI unit m³/s.
    Flow FLOW "flow" "flow" ("L/min", "gal/min"): [
        unit("L/min", LITRE / MINUTE, "litres per minute", &["lpm", "l/m"]),
        unit("mL/min", 1e-3 * LITRE / MINUTE, "millilitres per minute", &["cc/min"]),
        unit("L/h", LITRE / HOUR, "litres per hour", &["lph"]),
        unit("m³/h", 1.0 / HOUR, "cubic metres per hour", &["m^3/h"]),
        unit("m³/s", 1.0, "cubic metres per second", &["m^3/s"]),
        unit("gal/min", GALLON / MINUTE, "US gallons per minute", &["gpm", "US gpm", "US gal/min"]),
        unit("gal/d", GALLON / DAY, "US gallons per day", &["gpd", "gal/day", "US gal/d"]),
    ]
    /// A length of time; SI unit s.
    Time TIME "time" "time" ("min", "min"): [
        unit("min", MINUTE, "minutes", &["minute", "minutes"]),
        unit("s", 1.0, "seconds", &["sec", "second", "seconds"]),
        unit("h", HOUR, "hours", &["hr", "hour", "hours"]),
        unit("d", DAY, "days", &["day", "days"]),
    ]
    /// A length; SI unit m.
    Length LENGTH "length" "length" ("m", "ft"): [
        unit("m", 1.0, "metres", &["metre", "metres", "meter", "meters"]),
        unit("mm", 1e-3, "millimetres", &[]),
        unit("cm", 1e-2, "centimetres", &[]),
        unit("µm", 1e-6, "micrometres", &["micron", "microns"]),
        unit("in", INCH, "inches", &["inch", "inches", "\""]),
        unit("ft", FOOT, "feet", &["foot", "feet", "'"]),
    ]
    /// An area; SI unit m².
    Area AREA "area" "area" ("cm²", "ft²"): [
        unit("cm²", 1e-4, "square centimetres", &["cm^2"]),
        unit("m²", 1.0, "square metres", &["m^2"]),
        unit("in²", INCH * INCH, "square inches", &["in^2", "sq in"]),
        unit("ft²", FOOT * FOOT, "square feet", &["ft^2", "sq ft"]),
    ]
    /// A velocity; SI unit m/s.
    Velocity VELOCITY "velocity" "velocity" ("m/s", "ft/s"): [
        unit("m/s", 1.0, "metres per second", &[]),
        unit("ft/s", FOOT, "feet per second", &["fps"]),
        unit("m/h", 1.0 / HOUR, "metres per hour", &[]),
        unit("gal/min/ft²", GALLON / MINUTE / (FOOT * FOOT), "US gallons per minute and square foot", &["gpm/ft²", "gal/(min ft²)"]),
    ]
    /// A pressure above the atmosphere's, as a gauge shows it; SI unit Pa. Its zero is the atmosphere.
    Pressure PRESSURE "pressure" "gauge pressure" ("bar", "psi"): [
        unit("bar", 1e5, "bar", &["bar g", "barg"]),
        unit("kPa", 1e3, "kilopascals", &[]),
        unit("Pa", 1.0, "pascals", &[]),
        unit("psi", PSI, "pounds per square inch", &["psig", "psi g", "lbf/in²", "lb/in²", "lb/sq in"]),
    ]
    /// A difference of two pressures; SI unit Pa.
    PressureDifference PRESSURE_DIFFERENCE "pressure-difference" "pressure difference" ("bar", "psi"): [
        unit("bar", 1e5, "bar", &[]),
        unit("kPa", 1e3, "kilopascals", &[]),
        unit("Pa", 1.0, "pascals", &[]),
        unit("psi", PSI, "pounds per square inch", &["psid", "lbf/in²", "lb/in²", "lb/sq in"]),
    ]
    /// A difference of two temperatures; SI unit K.
    TemperatureDifference TEMPERATURE_DIFFERENCE "temperature-difference" "temperature difference" ("K", "°F"): [
        unit("K", 1.0, "kelvin", &["°C", "C", "kelvin", "deg C"]),
        unit("°F", 5.0 / 9.0, "degrees Fahrenheit", &["F", "deg F"]),
    ]
    /// A temperature above absolute zero, for exponentials; SI unit K.
    AbsoluteTemperature ABSOLUTE_TEMPERATURE "absolute-temperature" "absolute temperature" ("K", "K"): [
        unit("K", 1.0, "kelvin", &[]),
    ]
    /// A share of a whole; SI unit 1.
    Ratio RATIO "ratio" "share" ("%", "%"): [
        unit("%", 0.01, "per cent", &["percent", "pct", "per cent"]),
        unit("", 1.0, "as a fraction", &[]),
    ]
    /// Chlorine of any form, reported as Cl2; SI unit kg/m³.
    Chlorine CHLORINE "chlorine" "chlorine as Cl2" ("mg/L", "mg/L"): [
        unit("mg/L", 1e-3, "milligrams per litre as Cl2", &["ppm", "mg/L as Cl2", "mg/L Cl2", "ppm Cl2", "ppm as Cl2", "mg Cl2/L", "g/m³"]),
        unit("kg/m³", 1.0, "kilograms per cubic metre as Cl2", &[]),
    ]
    /// Hardness reported as calcium carbonate; SI unit kg/m³ as CaCO3.
    Hardness HARDNESS "hardness" "hardness as CaCO3" ("mg/L", "gpg"): [
        unit("mg/L", 1e-3, "milligrams per litre as CaCO3", &["ppm", "mg/L as CaCO3", "mg/L CaCO3", "ppm CaCO3", "ppm as CaCO3", "mg CaCO3/L"]),
        unit("gpg", GRAIN / GALLON, "grains per US gallon", &["gr/gal", "grains"]),
        unit("°dH", 0.01 * CACO3 / CAO, "German degrees", &["dH", "°d"]),
        unit("°fH", 1e-2, "French degrees", &["fH", "°f H"]),
        unit("mmol/L", CACO3, "millimoles of calcium and magnesium per litre", &[]),
        unit("kg/m³", 1.0, "kilograms per cubic metre as CaCO3", &[]),
    ]
    /// Mass of a substance in a volume of water; SI unit kg/m³.
    Concentration CONCENTRATION "concentration" "concentration" ("mg/L", "mg/L"): [
        unit("mg/L", 1e-3, "milligrams per litre", &["ppm", "g/m³"]),
        unit("µg/L", 1e-6, "micrograms per litre", &["ppb"]),
        unit("g/L", 1.0, "grams per litre", &["kg/m³"]),
    ]
    /// Electrical conductivity; SI unit S/m.
    Conductivity CONDUCTIVITY "conductivity" "conductivity" ("µS/cm", "µS/cm"): [
        unit("µS/cm", 1e-4, "microsiemens per centimetre", &["uS", "umho/cm", "micromho/cm"]),
        unit("mS/cm", 1e-1, "millisiemens per centimetre", &["mS"]),
        unit("mS/m", 1e-3, "millisiemens per metre", &[]),
        unit("S/m", 1.0, "siemens per metre", &[]),
    ]
    /// Power; SI unit W.
    Power POWER "power" "power" ("kW", "kW"): [
        unit("kW", 1e3, "kilowatts", &["kilowatt", "kilowatts"]),
        unit("W", 1.0, "watts", &["watt", "watts"]),
    ]
    /// Energy; SI unit J.
    Energy ENERGY "energy" "energy" ("kWh", "kWh"): [
        unit("kWh", 1e3 * HOUR, "kilowatt hours", &["kW h", "kilowatt hour", "kilowatt hours"]),
        unit("kJ", 1e3, "kilojoules", &["kilojoule", "kilojoules"]),
        unit("MJ", 1e6, "megajoules", &["megajoule", "megajoules"]),
        unit("J", 1.0, "joules", &["joule", "joules"]),
    ]
    /// Heat for each kelvin that a body is warmed by; SI unit J/K.
    HeatCapacity HEAT_CAPACITY "heat-capacity" "heat capacity" ("kJ/K", "kJ/K"): [
        unit("kJ/K", 1e3, "kilojoules per degree Celsius", &["kJ/°C"]),
        unit("J/K", 1.0, "joules per degree Celsius", &["J/°C"]),
    ]
    /// Electric current; SI unit A.
    Current CURRENT "current" "electric current" ("A", "A"): [
        unit("A", 1.0, "amperes", &["amp", "amps", "ampere", "amperes"]),
    ]
    /// Electric voltage; SI unit V.
    Voltage VOLTAGE "voltage" "electric voltage" ("V", "V"): [
        unit("V", 1.0, "volts", &["volt", "volts"]),
    ]
    /// Density; SI unit kg/m³.
    Density DENSITY "density" "density" ("kg/m³", "kg/m³"): [
        unit("kg/m³", 1.0, "kilograms per cubic metre", &["g/L"]),
        unit("g/mL", 1e3, "grams per millilitre", &["g/cm³", "kg/L"]),
        unit("lb/ft³", POUND / (FOOT * FOOT * FOOT), "pounds per cubic foot", &["lb/cu ft", "lbs/ft³"]),
    ]
    /// A mass; SI unit kg.
    Mass MASS "mass" "mass" ("kg", "lb"): [
        unit("kg", 1.0, "kilograms", &["kilogram", "kilograms"]),
        unit("g", 1e-3, "grams", &["gram", "grams"]),
        unit("lb", POUND, "pounds", &["lbs", "pound", "pounds"]),
    ]
    /// How much hardness something takes up, as calcium carbonate; SI unit kg.
    ExchangeCapacity EXCHANGE_CAPACITY "exchange-capacity" "exchange capacity as CaCO3" ("g", "gr"): [
        unit("g", 1e-3, "grams as CaCO3", &["g CaCO3"]),
        unit("kg", 1.0, "kilograms as CaCO3", &[]),
        unit("gr", GRAIN, "grains as CaCO3", &["grain", "grains"]),
    ]
    /// How much hardness each volume of resin takes up, as calcium carbonate; SI unit kg/m³.
    ResinCapacity RESIN_CAPACITY "resin-capacity" "capacity of resin as CaCO3" ("g/L", "gr/ft³"): [
        unit("g/L", 1.0, "grams as CaCO3 per litre", &["g CaCO3/L", "kg/m³"]),
        unit("gr/ft³", GRAIN / (FOOT * FOOT * FOOT), "grains as CaCO3 per cubic foot", &["gr/cu ft", "grains/ft³"]),
        unit("kgr/ft³", 1e3 * GRAIN / (FOOT * FOOT * FOOT), "thousand grains as CaCO3 per cubic foot", &["kgr/cu ft"]),
    ]
    /// Hardness counted for a dissolved metal that fouls resin; SI unit 1 (mg as CaCO3 for each mg).
    HardnessPerMetal HARDNESS_PER_METAL "hardness-per-metal" "hardness counted for dissolved metal" ("mg/mg", "gpg per mg/L"): [
        unit("mg/mg", 1.0, "milligrams as CaCO3 for each milligram", &["g/g"]),
        unit("gpg per mg/L", GRAIN / GALLON / 1e-3, "grains per US gallon for each milligram per litre", &["gpg per ppm", "gpg/(mg/L)"]),
    ]
    /// How fast a share of something goes; SI unit 1/s.
    Rate RATE "rate" "rate" ("1/min", "1/min"): [
        unit("1/min", 1.0 / MINUTE, "for each minute", &["/min", "per min", "min⁻¹"]),
        unit("1/s", 1.0, "for each second", &["/s", "per s", "s⁻¹"]),
    ]
    /// Colony-forming units in a volume of water; SI unit CFU/m³.
    ColonyCount COLONY_COUNT "colony-count" "colony count" ("CFU/mL", "CFU/mL"): [
        unit("CFU/mL", 1e6, "colony-forming units per millilitre", &["cfu/cm³", "/mL"]),
        unit("CFU/100 mL", 1e4, "colony-forming units in a hundred millilitres", &[]),
        unit("CFU/L", 1e3, "colony-forming units per litre", &[]),
        unit("CFU/m³", 1.0, "colony-forming units per cubic metre", &[]),
    ]
    /// Endotoxin activity in a volume of water; SI unit EU/m³. One EU is one IU.
    Endotoxin ENDOTOXIN "endotoxin" "endotoxin" ("EU/mL", "EU/mL"): [
        unit("EU/mL", 1e6, "endotoxin units per millilitre", &["IU/mL"]),
        unit("EU/L", 1e3, "endotoxin units per litre", &["IU/L"]),
        unit("EU/m³", 1.0, "endotoxin units per cubic metre", &[]),
    ]
    /// Dynamic viscosity; SI unit Pa·s.
    Viscosity VISCOSITY "viscosity" "dynamic viscosity" ("mPa·s", "mPa·s"): [
        unit("mPa·s", 1e-3, "millipascal seconds", &["cP"]),
        unit("Pa·s", 1.0, "pascal seconds", &[]),
    ]
    /// Moist-heat dose A0: the equivalent time at 80 °C; SI unit s.
    HeatDose HEAT_DOSE "heat-dose" "heat dose A0" ("s", "s"): [
        unit("s", 1.0, "equivalent seconds at 80 degrees Celsius", &["sec", "seconds"]),
        unit("min", MINUTE, "equivalent minutes at 80 degrees Celsius", &["minutes"]),
    ]
    /// Amount of dissolved substance for the mass of water; SI unit mol/kg.
    Molality MOLALITY "molality" "molality" ("mmol/kg", "mmol/kg"): [
        unit("mmol/kg", 1e-3, "millimoles per kilogram of water", &[]),
        unit("mol/kg", 1.0, "moles per kilogram of water", &["mol/kgw"]),
    ]
    /// pH: the negative decadic logarithm of the activity of the hydrogen ion.
    Ph PH "ph" "pH" ("", "") arbitrary: [
        unit("", 1.0, "", &[]),
    ]
    /// Decadic logarithm of ion product over solubility product, or an index that stands for it.
    SaturationIndex SATURATION_INDEX "saturation-index" "saturation index" ("", "") arbitrary: [
        unit("", 1.0, "", &[]),
    ]
    /// How much water a fitting passes at a given pressure drop; SI unit m³/s at 1 bar.
    FlowCoefficient FLOW_COEFFICIENT "flow-coefficient" "flow coefficient" ("Kv", "Cv"): [
        unit("Kv", 1.0 / HOUR, "cubic metres per hour at one bar", &["m³/h"]),
        // water at 60 °F, 1 gal/min at 1 psi: Kv = Cv (gal/min in m³/h) / sqrt(psi in bar)
        unit("Cv", GALLON / MINUTE * 3.808_382_041_368_87, "US gallons per minute at one psi", &["gal/min"]),
        unit("m³/s", 1.0, "cubic metres per second at one bar", &[]),
    ]
}

/// A temperature on a scale with an arbitrary zero; SI unit K. Two of them have no sum.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Temperature(f64);

/// The kind of [`Temperature`] and its units.
pub const TEMPERATURE: Kind = Kind {
    id: "temperature",
    name: "temperature",
    units: &[
        affine("°C", 1.0, 273.15, "degrees Celsius", &["C", "deg C", "celsius"]),
        affine(
            "°F",
            5.0 / 9.0,
            273.15 - 32.0 * 5.0 / 9.0,
            "degrees Fahrenheit",
            &["F", "deg F", "fahrenheit"],
        ),
        affine("K", 1.0, 0.0, "kelvin", &["kelvin"]),
    ],
    metric: "°C",
    us: "°F",
    true_zero: false,
    difference: Some(&TEMPERATURE_DIFFERENCE),
};

impl Temperature {
    /// From kelvin.
    pub const fn of(si: f64) -> Self {
        Self(si)
    }

    /// In kelvin.
    pub const fn si(self) -> f64 {
        self.0
    }

    /// The same temperature counted from absolute zero.
    pub const fn absolute(self) -> AbsoluteTemperature {
        AbsoluteTemperature::of(self.0)
    }
}

impl super::Quantity for Temperature {
    const KIND: &'static Kind = &TEMPERATURE;
    fn si(self) -> f64 {
        self.0
    }
    fn from_si(si: f64) -> Self {
        Self(si)
    }
}

/// The kind of a pure number.
pub const NUMBER: Kind = Kind {
    id: "number",
    name: "number",
    units: &[unit("", 1.0, "", &[])],
    metric: "",
    us: "",
    true_zero: true,
    difference: None,
};

impl super::Quantity for f64 {
    const KIND: &'static Kind = &NUMBER;
    fn si(self) -> f64 {
        self
    }
    fn from_si(si: f64) -> Self {
        si
    }
}

/// Every kind.
pub fn all() -> impl Iterator<Item = &'static Kind> {
    LINEAR.iter().copied().chain([&TEMPERATURE, &NUMBER])
}

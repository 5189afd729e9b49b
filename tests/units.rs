//! Every unit of every kind against its definition, written out here a second time with whole numbers only, and
//! against `uom` as an outside witness. No expected value comes from the table under test.

use calc::engine::quantity::Kind;
use calc::engine::quantity::kinds::{self, FLOW, FLOW_COEFFICIENT, HARDNESS, PRESSURE, TEMPERATURE};
use uom::si::f64 as si;
use uom::si::{
    area, dynamic_viscosity as mu, electric_current, electric_potential, electrical_conductivity as kappa,
    energy, frequency, heat_capacity, length, mass, mass_concentration as content, mass_density, power,
    pressure, ratio, temperature_interval as step, thermodynamic_temperature as temperature, time, velocity,
    volume, volume_rate as flow,
};

/// A positive rational number, exact.
#[derive(Clone, Copy)]
struct Exact(u128, u128);

impl Exact {
    /// `digits / 10^decimals`: `decimal(254, 4)` is 0.0254.
    fn decimal(digits: u128, decimals: u32) -> Exact {
        Exact(digits, 10u128.pow(decimals)).reduced()
    }
    fn reduced(self) -> Exact {
        let (mut a, mut b) = (self.0, self.1);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        Exact(self.0 / a, self.1 / a)
    }
    fn times(self, other: Exact) -> Exact {
        let (a, b) = (Exact(self.0, other.1).reduced(), Exact(other.0, self.1).reduced());
        Exact(a.0 * b.0, a.1 * b.1)
    }
    fn per(self, other: Exact) -> Exact {
        self.times(Exact(other.1, other.0))
    }
    fn cubed(self) -> Exact {
        self.times(self).times(self)
    }
    fn value(self) -> f64 {
        self.0 as f64 / self.1 as f64
    }
}

/// A unit as its definition says, and as `uom` says where it has it.
struct Row {
    kind: &'static str,
    symbol: &'static str,
    factor: f64,
    offset: f64,
    witness: Option<f64>,
}

fn row(kind: &'static str, symbol: &'static str, factor: Exact, witness: impl Into<Option<f64>>) -> Row {
    Row { kind, symbol, factor: factor.value(), offset: 0.0, witness: witness.into() }
}

fn definitions() -> Vec<Row> {
    let one = Exact(1, 1);
    let ten_to = |power: i32| {
        let power_of_ten = Exact(10u128.pow(power.unsigned_abs()), 1);
        if power < 0 { one.per(power_of_ten) } else { power_of_ten }
    };
    // International yard and pound agreement of 1959; standard gravity of the CGPM of 1901; NIST Handbook 44,
    // appendix C: a US gallon is 231 cubic inches, a pound 7000 grains.
    let inch = Exact::decimal(254, 4);
    let foot = inch.times(Exact(12, 1));
    let pound = Exact::decimal(45_359_237, 8);
    let gravity = Exact::decimal(980_665, 5);
    let gallon = inch.cubed().times(Exact(231, 1));
    let grain = pound.per(Exact(7000, 1));
    let psi = pound.times(gravity).per(inch.times(inch));
    let (litre, minute, hour, day) = (ten_to(-3), Exact(60, 1), Exact(3600, 1), Exact(86_400, 1));
    // Abridged standard atomic weights, IUPAC 2021: Ca 40.078, C 12.011, O 15.999. In g/mol.
    let calcium_carbonate = Exact::decimal(40_078 + 12_011 + 3 * 15_999, 3);
    let calcium_oxide = Exact::decimal(40_078 + 15_999, 3);

    let gallons_per_minute = si::VolumeRate::new::<flow::gallon_per_minute>(1.0).value;
    let psi_witness = si::Pressure::new::<pressure::pound_force_per_square_inch>(1.0).value;
    let milligrams = si::MassConcentration::new::<content::milligram_per_liter>(1.0).value;
    let kilograms = si::MassConcentration::new::<content::kilogram_per_cubic_meter>(1.0).value;
    let hours = si::Time::new::<time::hour>(1.0).value;
    let minutes = si::Time::new::<time::minute>(1.0).value;
    let seconds = si::Time::new::<time::second>(1.0).value;
    let bar = si::Pressure::new::<pressure::bar>(1.0).value;
    let pascal = si::Pressure::new::<pressure::pascal>(1.0).value;
    let kilopascal = si::Pressure::new::<pressure::kilopascal>(1.0).value;
    let grains = si::Mass::new::<mass::grain>(1.0).value;
    let millilitres = si::Volume::new::<volume::milliliter>(1.0).value;
    let cubic_feet = si::Volume::new::<volume::cubic_foot>(1.0).value;
    let gallons = si::Volume::new::<volume::gallon>(1.0).value;
    let siemens_per_centimetre = si::ElectricalConductivity::new::<kappa::siemens_per_centimeter>(1.0).value;

    let mut rows = vec![
        row("volume", "L", litre, si::Volume::new::<volume::liter>(1.0).value),
        row("volume", "mL", ten_to(-6), millilitres),
        row("volume", "m³", one, si::Volume::new::<volume::cubic_meter>(1.0).value),
        row("volume", "gal", gallon, gallons),
        row("volume", "ft³", foot.cubed(), si::Volume::new::<volume::cubic_foot>(1.0).value),
        row("flow", "L/min", litre.per(minute), si::VolumeRate::new::<flow::liter_per_minute>(1.0).value),
        row("flow", "mL/min", ten_to(-6).per(minute), millilitres / minutes),
        row("flow", "L/h", litre.per(hour), 1e3 * millilitres / hours),
        row("flow", "m³/h", one.per(hour), si::VolumeRate::new::<flow::cubic_meter_per_hour>(1.0).value),
        row("flow", "m³/s", one, si::VolumeRate::new::<flow::cubic_meter_per_second>(1.0).value),
        row("flow", "gal/min", gallon.per(minute), gallons_per_minute),
        row("flow", "gal/d", gallon.per(day), si::VolumeRate::new::<flow::gallon_per_day>(1.0).value),
        row("time", "min", minute, minutes),
        row("time", "s", one, seconds),
        row("time", "h", hour, hours),
        row("time", "d", day, si::Time::new::<time::day>(1.0).value),
        row("length", "m", one, si::Length::new::<length::meter>(1.0).value),
        row("length", "mm", ten_to(-3), si::Length::new::<length::millimeter>(1.0).value),
        row("length", "cm", ten_to(-2), si::Length::new::<length::centimeter>(1.0).value),
        row("length", "µm", ten_to(-6), si::Length::new::<length::micrometer>(1.0).value),
        row("length", "in", inch, si::Length::new::<length::inch>(1.0).value),
        row("length", "ft", foot, si::Length::new::<length::foot>(1.0).value),
        row("area", "m²", one, si::Area::new::<area::square_meter>(1.0).value),
        row("area", "cm²", ten_to(-4), si::Area::new::<area::square_centimeter>(1.0).value),
        row("area", "in²", inch.times(inch), si::Area::new::<area::square_inch>(1.0).value),
        row("area", "ft²", foot.times(foot), si::Area::new::<area::square_foot>(1.0).value),
        row("velocity", "m/s", one, si::Velocity::new::<velocity::meter_per_second>(1.0).value),
        row("velocity", "ft/s", foot, si::Velocity::new::<velocity::foot_per_second>(1.0).value),
        row("velocity", "m/h", one.per(hour), 1.0 / hours),
        row(
            "velocity",
            "gal/min/ft²",
            gallon.per(minute).per(foot.times(foot)),
            gallons_per_minute / si::Area::new::<area::square_foot>(1.0).value,
        ),
        row("power", "W", one, si::Power::new::<power::watt>(1.0).value),
        row("power", "kW", ten_to(3), si::Power::new::<power::kilowatt>(1.0).value),
        row("energy", "kWh", ten_to(3).times(hour), si::Energy::new::<energy::kilowatt_hour>(1.0).value),
        row("energy", "kJ", ten_to(3), si::Energy::new::<energy::kilojoule>(1.0).value),
        row("energy", "MJ", ten_to(6), si::Energy::new::<energy::megajoule>(1.0).value),
        row("energy", "J", one, si::Energy::new::<energy::joule>(1.0).value),
        row(
            "heat-capacity",
            "kJ/K",
            ten_to(3),
            si::HeatCapacity::new::<heat_capacity::kilojoule_per_kelvin>(1.0).value,
        ),
        row("heat-capacity", "J/K", one, si::HeatCapacity::new::<heat_capacity::joule_per_kelvin>(1.0).value),
        row("current", "A", one, si::ElectricCurrent::new::<electric_current::ampere>(1.0).value),
        row("voltage", "V", one, si::ElectricPotential::new::<electric_potential::volt>(1.0).value),
        row("temperature-difference", "K", one, si::TemperatureInterval::new::<step::kelvin>(1.0).value),
        row(
            "temperature-difference",
            "°F",
            Exact(5, 9),
            si::TemperatureInterval::new::<step::degree_fahrenheit>(1.0).value,
        ),
        row("absolute-temperature", "K", one, None),
        row("ratio", "%", ten_to(-2), si::Ratio::new::<ratio::percent>(1.0).value),
        row("ratio", "", one, si::Ratio::new::<ratio::ratio>(1.0).value),
        row("chlorine", "mg/L", ten_to(-3), milligrams),
        row("chlorine", "kg/m³", one, kilograms),
        row("hardness", "mg/L", ten_to(-3), milligrams),
        row("hardness", "gpg", grain.per(gallon), grains / gallons),
        // a German degree is 10 mg/L of CaO, a French one 10 mg/L of CaCO3
        row("hardness", "°dH", ten_to(-2).times(calcium_carbonate).per(calcium_oxide), None),
        row("hardness", "°fH", ten_to(-2), 10.0 * milligrams),
        row("hardness", "mmol/L", calcium_carbonate.times(ten_to(-3)), None),
        row("hardness", "kg/m³", one, kilograms),
        row("molality", "mmol/kg", ten_to(-3), None),
        row("molality", "mol/kg", one, None),
        row("ph", "", one, None),
        row("saturation-index", "", one, None),
        row("concentration", "mg/L", ten_to(-3), milligrams),
        row(
            "concentration",
            "µg/L",
            ten_to(-6),
            si::MassConcentration::new::<content::microgram_per_liter>(1.0).value,
        ),
        row("concentration", "g/L", one, si::MassConcentration::new::<content::gram_per_liter>(1.0).value),
        row("conductivity", "µS/cm", ten_to(-4), 1e-6 * siemens_per_centimetre),
        row("conductivity", "mS/cm", ten_to(-1), 1e-3 * siemens_per_centimetre),
        row("conductivity", "mS/m", ten_to(-3), None),
        row(
            "conductivity",
            "S/m",
            one,
            si::ElectricalConductivity::new::<kappa::siemens_per_meter>(1.0).value,
        ),
        row(
            "density",
            "kg/m³",
            one,
            si::MassDensity::new::<mass_density::kilogram_per_cubic_meter>(1.0).value,
        ),
        row(
            "density",
            "g/mL",
            ten_to(3),
            si::MassDensity::new::<mass_density::gram_per_cubic_centimeter>(1.0).value,
        ),
        row(
            "density",
            "lb/ft³",
            pound.per(foot.cubed()),
            si::MassDensity::new::<mass_density::pound_per_cubic_foot>(1.0).value,
        ),
        row("mass", "kg", one, si::Mass::new::<mass::kilogram>(1.0).value),
        row("mass", "g", ten_to(-3), si::Mass::new::<mass::gram>(1.0).value),
        row("mass", "lb", pound, si::Mass::new::<mass::pound>(1.0).value),
        row("exchange-capacity", "kg", one, si::Mass::new::<mass::kilogram>(1.0).value),
        row("exchange-capacity", "g", ten_to(-3), si::Mass::new::<mass::gram>(1.0).value),
        row("exchange-capacity", "gr", grain, grains),
        row("resin-capacity", "g/L", one, si::MassConcentration::new::<content::gram_per_liter>(1.0).value),
        row("resin-capacity", "gr/ft³", grain.per(foot.cubed()), grains / cubic_feet),
        row("resin-capacity", "kgr/ft³", grain.per(foot.cubed()).times(ten_to(3)), 1e3 * grains / cubic_feet),
        row("hardness-per-metal", "mg/mg", one, None),
        row(
            "hardness-per-metal",
            "gpg per mg/L",
            grain.per(gallon).per(ten_to(-3)),
            grains / gallons / milligrams,
        ),
        row("rate", "1/min", one.per(minute), si::Frequency::new::<frequency::cycle_per_minute>(1.0).value),
        row("rate", "1/s", one, si::Frequency::new::<frequency::hertz>(1.0).value),
        row("colony-count", "CFU/mL", ten_to(6), 1.0 / millilitres),
        row("colony-count", "CFU/100 mL", ten_to(4), 0.01 / millilitres),
        row("colony-count", "CFU/L", ten_to(3), 1e-3 / millilitres),
        row("colony-count", "CFU/m³", one, None),
        row("endotoxin", "EU/mL", ten_to(6), 1.0 / millilitres),
        row("endotoxin", "EU/L", ten_to(3), 1e-3 / millilitres),
        row("endotoxin", "EU/m³", one, None),
        row("viscosity", "mPa·s", ten_to(-3), si::DynamicViscosity::new::<mu::millipascal_second>(1.0).value),
        row("viscosity", "Pa·s", one, si::DynamicViscosity::new::<mu::pascal_second>(1.0).value),
        row("heat-dose", "s", one, seconds),
        row("heat-dose", "min", minute, minutes),
        row("flow-coefficient", "Kv", one.per(hour), 1.0 / hours),
        row("flow-coefficient", "m³/s", one, None),
        row("temperature", "K", one, si::ThermodynamicTemperature::new::<temperature::kelvin>(1.0).value),
        row("number", "", one, None),
        // The flow at a drop of 1 bar of what passes a gallon per minute at 1 psi: flow grows with the root of the drop.
        Row {
            kind: "flow-coefficient",
            symbol: "Cv",
            factor: gallon.per(minute).value() * ten_to(5).per(psi).value().sqrt(),
            offset: 0.0,
            witness: Some(gallons_per_minute * (bar / psi_witness).sqrt()),
        },
        Row {
            kind: "temperature",
            symbol: "°C",
            factor: 1.0,
            offset: Exact::decimal(27_315, 2).value(),
            witness: Some(si::ThermodynamicTemperature::new::<temperature::degree_celsius>(1.0).value),
        },
        // absolute zero is −459.67 °F
        Row {
            kind: "temperature",
            symbol: "°F",
            factor: Exact(5, 9).value(),
            offset: Exact::decimal(45_967, 2).times(Exact(5, 9)).value(),
            witness: Some(si::ThermodynamicTemperature::new::<temperature::degree_fahrenheit>(1.0).value),
        },
    ];
    for kind in ["pressure", "pressure-difference"] {
        rows.extend([
            row(kind, "bar", ten_to(5), bar),
            row(kind, "kPa", ten_to(3), kilopascal),
            row(kind, "Pa", one, pascal),
            row(kind, "psi", psi, psi_witness),
        ]);
    }
    rows
}

fn near(ours: f64, expected: f64, share: f64) -> bool {
    (ours - expected).abs() <= share * expected.abs()
}

#[test]
fn every_unit_is_what_its_definition_says() {
    let mut unchecked: Vec<_> =
        kinds::all().flat_map(|kind| kind.units.iter().map(move |unit| (kind.id, unit.symbol))).collect();
    for Row { kind, symbol, factor, offset, .. } in definitions() {
        let found = kinds::all().find(|k| k.id == kind).and_then(|k| k.find(symbol));
        let unit = found.unwrap_or_else(|| panic!("{kind} has no {symbol}"));
        // what the rounding of a few products leaves
        assert!(near(unit.factor, factor, 2e-15), "{kind} in {symbol}: {} for {factor}", unit.factor);
        assert!(near(unit.offset, offset, 1e-15), "{kind} in {symbol}: {} for {offset}", unit.offset);
        unchecked.retain(|pair| *pair != (kind, symbol));
    }
    assert!(unchecked.is_empty(), "units without a definition in this test: {unchecked:?}");
}

#[test]
fn every_unit_is_what_another_library_says() {
    let mut seen = 0;
    for Row { kind, symbol, witness, .. } in definitions() {
        let unit = kinds::all().find(|k| k.id == kind).and_then(|k| k.find(symbol));
        if let (Some(unit), Some(witness)) = (unit, witness) {
            // uom 0.38 rounds the gallon, the cubic foot and the psi to seven digits
            assert!(
                near(unit.to_si(1.0), witness, 1e-6),
                "{kind} in {symbol}: {}, {witness}",
                unit.to_si(1.0)
            );
            seen += 1;
        }
    }
    assert!(seen >= 55, "only {seen} units have a witness");
}

#[test]
fn conversions_return() {
    for kind in kinds::all() {
        for unit in kind.units {
            for value in [-40.0, -1.0, 0.0, 1e-6, 0.1, 1.0, 12.34, 1e6] {
                let back = unit.of_si(unit.to_si(value));
                let error = (back - value).abs();
                assert!(error <= 1e-12 * value.abs().max(1.0), "{value} {} came back as {back}", unit.symbol);
            }
        }
    }
}

#[test]
fn thermometers_agree_at_known_points() {
    // by definition of the scales: ice point, steam point, where they meet, absolute zero, body temperature
    for (celsius, fahrenheit) in
        [(0.0, 32.0), (100.0, 212.0), (-40.0, -40.0), (-273.15, -459.67), (37.0, 98.6)]
    {
        let kelvin = TEMPERATURE.unit("°C").to_si(celsius);
        assert!((kelvin - (celsius + 273.15)).abs() < 1e-12);
        assert!((TEMPERATURE.unit("°F").to_si(fahrenheit) - kelvin).abs() < 1e-12, "{fahrenheit} °F");
        assert!((TEMPERATURE.unit("K").of_si(kelvin) - kelvin).abs() < 1e-12);
    }
}

#[test]
fn a_difference_has_no_offset() {
    for kind in kinds::all() {
        assert!(kind.of_difference().units.iter().all(|unit| unit.offset == 0.0), "{}", kind.id);
    }
    let step = TEMPERATURE.of_difference();
    for (symbol, value) in [("°C", 1.0), ("K", 1.0), ("°F", 1.8)] {
        let si = step.written(symbol).map(|unit| unit.to_si(value));
        assert!(si.is_some_and(|si| (si - 1.0).abs() < 1e-12), "{value} {symbol}: {si:?}");
    }
    // every way to write a temperature is a way to write its tolerance
    for unit in TEMPERATURE.units {
        let difference = step.written(unit.symbol);
        assert!(difference.is_some_and(|difference| difference.factor == unit.factor), "{}", unit.symbol);
    }
}

/// One quantity in several units: kind, equal values, share by which they may differ, where that comes from.
type Equal = (&'static Kind, &'static [(f64, &'static str)], f64, &'static str);

#[test]
fn printed_conversions_hold() {
    let rows: [Equal; 6] = [
        (&FLOW, &[(12.0, "L/min"), (3.170, "gal/min"), (0.720, "m³/h")], 2e-4, "by hand: 12/3.785412"),
        (&PRESSURE, &[(60.0, "psi"), (413.69, "kPa"), (4.1369, "bar")], 2e-5, "by hand: 60 × 6.894757"),
        (
            &HARDNESS,
            &[(100.0, "mg/L"), (5.842, "gpg"), (5.603, "°dH"), (10.0, "°fH"), (0.9991, "mmol/L")],
            1e-4,
            "by hand: 100/17.118, 100/17.848, 100/10, 100/100.086",
        ),
        (&HARDNESS, &[(1.0, "mmol/L"), (5.608, "°dH")], 1e-4, "memory: German tables of hardness"),
        (&FLOW_COEFFICIENT, &[(0.8650, "Kv"), (1.0, "Cv")], 6e-5, "memory: valve catalogues"),
        (
            &FLOW_COEFFICIENT,
            &[(0.8649776554423017, "Kv"), (1.0, "Cv"), (1.0, "gal/min")],
            1e-9,
            "independent: fluids 1.3.1, Cv_to_Kv(1)",
        ),
    ];
    for (kind, equal, share, source) in rows {
        let si: Vec<f64> =
            equal.iter().filter_map(|(value, name)| Some(kind.written(name)?.to_si(*value))).collect();
        assert_eq!(si.len(), equal.len(), "{equal:?}");
        assert!(si.iter().all(|value| near(*value, si[0], share)), "{equal:?}, {source}: {si:?}");
    }
}

//! Osmotic pressure: of water with so much salt, counted as sodium chloride, and of the very ions of a report.
//!
//! Van 't Hoff's law is the limit of high dilution; the osmotic coefficient mends it: after Pitzer and Mayorga (1973) for
//! sodium chloride, from Davies' activity coefficients by the equation of Gibbs and Duhem for a mixed water. The
//! approximation of ASTM D4516 takes every milligram for sodium chloride. Pressure and heat of mixing are left out.

use crate::engine::quantity::{
    AbsoluteTemperature, Concentration, Density, Molality, PressureDifference, Temperature, kinds,
};
use crate::engine::sheet::{
    Caution, Evaluate, Known, Missing, Sentence, Slot, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::report::{FEED_REPORT, FeedResult};
use crate::trade::terms::{membrane::FEED_CONCENTRATION, tap::TAP_TEMPERATURE};
use crate::trade::water::activity::{DebyeHueckel, RELIABLE};
use crate::trade::water::{Report, density};
use crate::{absolute, sheet, step};

static NOT_THE_PUMP: Caution = Caution {
    id: "osmotic-pressure-is-a-bound",
    text: "Osmotic pressure is what the pump must overcome before any water passes. It is small beside pump pressure, not beside tap pressure. Never raise a pressure setting past the RO's instructions.",
};

const PRESSURE: Term =
    Term::number(&kinds::PRESSURE_DIFFERENCE, "Osmotic pressure, with the osmotic coefficient", "π")
        .units("kPa", "psi");

sheet! {
    /// The osmotic pressure of a water, from its TDS counted as sodium chloride and from the ions of a report.
    OsmoticPressure, "osmotic-pressure", "Osmotic pressure", Stage::Bench,
    also: &["NDP", "net driving pressure"],
    sources: &[&source::VANT_HOFF_1887, &source::PITZER_MAYORGA_1973, &source::DAVIES_1962, &source::MALMBERG_MARYOTT_1956, &source::ASTM_D4516, &source::CODATA_2018],
    cautions: &[&NOT_THE_PUMP],
    criteria: &[],
    inputs: {
        salt        "feed-concentration": Known<Concentration>   = FEED_CONCENTRATION,
        report      "feed-report":        Known<Vec<FeedResult>> = FEED_REPORT,
        temperature "tap-temperature":    Temperature            = TAP_TEMPERATURE,
    }
    outputs Outputs: {
        molality        "salt-molality":                 Known<Molality>           = Term::number(&kinds::MOLALITY, "TDS, as sodium chloride", "m"),
        coefficient     "osmotic-coefficient":           Known<f64>                = Term::number(&kinds::NUMBER, "Osmotic coefficient", "φ"),
        ideal           "ideal-osmotic-pressure":        Known<PressureDifference> = PRESSURE.named("Osmotic pressure by van 't Hoff").symbol("π_0"),
        pressure        "osmotic-pressure":              Known<PressureDifference> = PRESSURE,
        by_standard     "osmotic-pressure-d4516":        Known<PressureDifference> = PRESSURE.named("Osmotic pressure by the approximation of ASTM D4516").symbol("π_D"),
        all_solutes     "report-molality":               Known<Molality>           = Term::number(&kinds::MOLALITY, "All solutes of the report", "Σm"),
        of_report       "report-osmotic-coefficient":    Known<f64>                = Term::number(&kinds::NUMBER, "Osmotic coefficient of the report's water", "φ_r"),
        ideal_report    "report-ideal-osmotic-pressure": Known<PressureDifference> = PRESSURE.named("Osmotic pressure of the report's water by van 't Hoff").symbol("π_r0"),
        pressure_report "report-osmotic-pressure":       Known<PressureDifference> = PRESSURE.named("Osmotic pressure of the report's water, with the osmotic coefficient").symbol("π_r"),
    }
}

impl Evaluate for OsmoticPressure {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let temperature = self.temperature;
        let report = match &self.report {
            Ok(rows) => Ok(Report::read(rows, w)?),
            Err(missing) => Err(*missing),
        };
        absolute!(w, kelvins "T_K" = temperature);
        let water = density(temperature);
        w.procedure(("water", "ρ"), water, || {
            Sentence::plain("density of pure water at {temperature}, IAPWS SR6-08")
                .quantity("temperature", temperature)
        });
        let debye = DebyeHueckel::at(temperature);
        let a = debye.a;
        w.procedure(("a", "A"), a, || {
            Sentence::plain(
                "Debye and Hückel's constant at {temperature}, from density and dielectric constant of water",
            )
            .quantity("temperature", temperature)
        });
        step!(w, a_osmotic "A_φ": f64 = a * 10.0_f64.ln() / 3.0);
        let of_salt = self.salt.map(|salt| of_salt(salt, a_osmotic, kelvins, water, w));
        let by_standard = self.salt.and_then(|salt| {
            w.bind("salt", "C", salt);
            as_sodium_chloride(salt, temperature, w)
        });
        let of_report = report.map(|report| of_report(&report, a_osmotic, kelvins, water, w));
        Ok(Outputs {
            molality: of_salt.map(|found| found.0),
            coefficient: of_salt.map(|found| found.1),
            ideal: of_salt.map(|found| found.2),
            pressure: of_salt.map(|found| found.3),
            by_standard,
            all_solutes: of_report.map(|found| found.0),
            of_report: of_report.map(|found| found.1),
            ideal_report: of_report.map(|found| found.2),
            pressure_report: of_report.map(|found| found.3),
        })
    }
}

/// Molality, osmotic coefficient, pressure without and with it.
type Found = (Molality, f64, PressureDifference, PressureDifference);

/// The salt counted as sodium chloride.
///
/// # Formula
/// φ = 1 − A_φ √m / (1 + 1.2 √m) + m (β_0 + β_1 exp(−2 √m)) + C m², π = 2 φ m ρ R T
///
/// # Source
/// `pitzer-mayorga-1973`: β_0 = 0.0765, β_1 = 0.2664, C = 0.00127 at 25 °C; their change with temperature is left out:
/// at 0.1 mol/kg and 5 °C that makes φ
/// 0.0025 too high. Volume of the salt in water 17.5 mL/mol (common practice, no source).
fn of_salt(
    salt: Concentration,
    a_osmotic: f64,
    kelvins: AbsoluteTemperature,
    water: Density,
    w: &mut Working,
) -> Found {
    w.bind("salt", "C", salt);
    w.bind("kelvins", "T_K", kelvins);
    step!(w, molality "m": Molality = salt.si() / 58.44 / (water.si() / 1000.0 * (1.0 - 0.0175 * salt.si() / 58.44)));
    step!(w, root "√m": f64 = molality.si().sqrt());
    step!(w, coefficient "φ": f64 = 1.0 - a_osmotic * root / (1.0 + 1.2 * root) + molality.si() * (0.0765 + 0.2664 * (-2.0 * root).exp()) + 0.00127 * molality.si().powi(2));
    step!(w, ideal "π_0": PressureDifference = 2.0 * molality.si() * water.si() * 8.314462618 * kelvins.si());
    step!(w, pressure "π" = coefficient * ideal);
    (molality, coefficient, ideal, pressure)
}

/// The ions of a report.
///
/// # Formula
/// (1 − φ) Σm = 2 ln10 A ((1 + √I) − 2 ln(1 + √I) − 1/(1 + √I) − 0.15 I²), π = φ Σm ρ R T
///
/// # Source
/// `davies-1962`, by the equation of Gibbs and Duhem: dφΣm = Σm + Σ m d ln γ.
fn of_report(
    report: &Report,
    a_osmotic: f64,
    kelvins: AbsoluteTemperature,
    water: Density,
    w: &mut Working,
) -> Found {
    w.bind("kelvins", "T_K", kelvins);
    let count = report.solutes().count() as i64;
    let all = Molality::of(report.solutes().map(|(_, molality, _)| molality.si()).sum());
    w.procedure(("all", "Σm"), all, || {
        Sentence::plain("amounts of the {count} solutes added up; alkalinity as hydrogen carbonate, a litre as a kilogram")
            .with("count", Slot::Count(count))
    });
    let strength = report.ionic_strength();
    w.procedure(("strength", "I"), strength, || {
        Sentence::plain("half of the sum of amount times squared charge, over {count} solutes")
            .with("count", Slot::Count(count))
    });
    if strength > RELIABLE {
        w.warn(
            "feed-report",
            "strong-water",
            Sentence::plain("the ionic strength of {strength} is above {reliable}, the limit of this method: the osmotic pressures are rough")
                .quantity("strength", strength)
                .quantity("reliable", RELIABLE),
        );
    }
    step!(w, root "√I": f64 = strength.si().sqrt());
    let coefficient = if all.si() > 0.0 {
        // three times A_φ is the constant of natural logarithms
        step!(w, coefficient "φ_r": f64 = 1.0 - 6.0 * a_osmotic * ((1.0 + root) - 2.0 * (1.0 + root).ln() - 1.0 / (1.0 + root) - 0.15 * strength.si().powi(2)) / all.si());
        coefficient
    } else {
        1.0
    };
    step!(w, ideal_report "π_r0": PressureDifference = all.si() * water.si() * 8.314462618 * kelvins.si());
    step!(w, pressure_report "π_r" = coefficient * ideal_report);
    (all, coefficient, ideal_report, pressure_report)
}

/// The approximation of ASTM D4516: every milligram is sodium chloride, at one osmotic coefficient.
///
/// # Formula
/// π = 0.2654 C T / (1000 − C/1000)
///
/// | Symbol | Meaning | Unit | Range |
/// |---|---|---|---|
/// | C | salt, as sodium chloride | mg/L | 0 to 50 000 |
/// | T | temperature | K | |
/// | π | osmotic pressure (returned) | kPa | |
///
/// # Accuracy
/// Too low by 5.5 % at 60 mg/L of sodium chloride, right at 6 g/L; too high by half for tap water whose salt is mostly
/// calcium hydrogen carbonate.
///
/// # Errors
/// None exists where there is no water left.
///
/// # Source
/// `astm-d4516-19a`, from memory. Check values: tests/published/bench.csv.
///
/// # Example
/// ```
/// use calc::{trade::bench::as_sodium_chloride, engine::quantity::{Concentration, celsius}, engine::sheet::Working};
/// let pressure = as_sodium_chloride(Concentration::of(1.0), celsius(25.0), &mut Working::silent()).unwrap();
/// assert!((pressure.si() - 79_208.0).abs() < 1.0);
/// ```
pub fn as_sodium_chloride(
    salt: Concentration,
    temperature: Temperature,
    w: &mut Working,
) -> Known<PressureDifference> {
    if salt.si() >= 900.0 {
        return Err(Missing::none_exists("that is more salt than water"));
    }
    w.bind("salt", "C", salt);
    w.bind("temperature", "T", temperature);
    absolute!(w, kelvins "T_K" = temperature);
    // C in kg/m³: 0.2654 kPa · 1000 · 1000 / 1000
    step!(w, by_standard "π_D": PressureDifference = 265.4 * 1000.0 * salt.si() * kelvins.si() / (1000.0 - salt.si()));
    Ok(by_standard)
}

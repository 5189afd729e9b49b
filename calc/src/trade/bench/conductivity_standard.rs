//! What a potassium chloride standard reads at its temperature, and how far a conductivity meter is off.
//!
//! Rests on the conductivities of 0.01 and 0.1 mol/kg potassium chloride that the CRC Handbook prints from 0 to 40 °C. A
//! standard by the litre changes with the temperature as that by the kilogram does, within 0.3 % of a printed table for 1413
//! µS/cm. Says nothing of a meter far below its standard: product water at 5 µS/cm needs a check of its own.

use crate::engine::quantity::{
    Conductivity, Ratio, Temperature, celsius,
    kinds::{CONDUCTIVITY, RATIO, TEMPERATURE},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Sentence, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::membrane::at_limit;
use crate::trade::tap::Compensated;
use crate::trade::terms::place::COMPENSATED;
use crate::{choice, sheet, step};

choice!(/// What stands on the bottle.
Standard {
    Micro1413 "kcl-1413" "1413 µS/cm at 25 °C: KCl 0.01 mol/L",
    Micro147 "kcl-147" "147 µS/cm (146.9) at 25 °C: KCl 0.001 mol/L",
    Milli1288 "kcl-12880" "12.88 mS/cm at 25 °C: KCl 0.1 mol/L",
    Micro1408 "kcl-1408" "1408 µS/cm at 25 °C: KCl 0.01 mol/kg",
});

static WITHIN: Criterion = Criterion {
    id: "meter-deviation",
    sentence: "Conductivity meter, deviation from the standard",
    stage: Stage::Bench,
    side: Side::AtMost,
    forecast: false,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

static FRESH: Caution = Caution {
    id: "fresh-standard",
    text: "Use fresh standard from a closed bottle, rinse probe and cup with it first, and never pour it back. Check near 25 °C. A meter that is right at 1413 µS/cm can still be wrong in product water: check it at a low standard too. Adjust it only as its instructions say.",
};

sheet! {
    /// What a conductivity standard reads at its temperature, and how far a meter is off.
    ConductivityStandard, "conductivity-standard", "Conductivity meter check", Stage::Bench,
    also: &["KCl", "calibration"],
    sources: &[&source::CRC_KCL, &source::STANDARD_METHODS_2510, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&FRESH],
    criteria: &[&WITHIN],
    inputs: {
        standard    "standard":             Standard            = Term::other("Standard").help("As on the bottle."),
        temperature "standard-temperature": Temperature         = Term::number(&TEMPERATURE, "Temperature of the standard", "T")
            .help("A thermometer in the cup.").plausible(15.0, 30.0, "°C").possible(0.0, 40.0, "°C").within(0.5, "K").read_with("thermometer"),
        read        "meter-reading":        Known<Conductivity> = Term::number(&CONDUCTIVITY, "Meter reading in the standard", "κ_m")
            .help("Probe rinsed with the standard, stirred, once it is steady.").plausible(100.0, 20_000.0, "µS/cm").possible(0.1, 100_000.0, "µS/cm"),
        compensated "compensated":          Compensated         = COMPENSATED,
        allowed     "meter-tolerance":      Known<Ratio>        = Term::number(&RATIO, "Meter accuracy (±)", "d_max")
            .help("From the meter's or the RO's instructions, or the facility's rule.").plausible(0.5, 5.0, "%").possible(0.1, 50.0, "%"),
    }
    outputs Outputs: {
        at_temperature "standard-conductivity": Conductivity        = Term::number(&CONDUCTIVITY, "Conductivity of the standard at this temperature", "κ_T"),
        expected       "expected-reading":      Known<Conductivity> = Term::number(&CONDUCTIVITY, "What the meter should read", "κ_s"),
        deviation      "meter-deviation":       Known<Ratio>        = Term::number(&RATIO, "Meter reads too high (+) or too low (−)", "d"),
    }
}

/// Far from 25 °C the meter's own compensation is checked as well, which differs from that of potassium chloride.
const NEAR: (Temperature, Temperature) = (celsius(20.0), celsius(30.0));

impl Evaluate for ConductivityStandard {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &ConductivityStandard { standard, temperature, read, compensated, allowed } = self;
        let at_25 = standard.at_25();
        let share = standard.share_of_25(temperature);
        w.procedure(("share", "κ_T/κ_25"), share, || {
            Sentence::plain("conductivity of potassium chloride at {temperature} over that at 25 °C, by the curve through the seven printed values from 0 to 40 °C")
                .quantity("temperature", temperature)
        });
        w.bind("at_25", "κ_25", at_25);
        step!(w, at_temperature "κ_T" = at_25 * share);
        let expected = match compensated {
            Compensated::At25 => Ok(at_25),
            Compensated::AsItIs => Ok(at_temperature),
            Compensated::NotKnown => Err(Missing::empty("compensated", COMPENSATED.name)),
        };
        let deviation = expected.and_then(|expected| {
            let read = read?;
            w.bind("read", "κ_m", read);
            w.bind("expected", "κ_s", expected);
            step!(w, deviation "d": Ratio = read / expected - 1.0);
            Ok(deviation)
        });
        if compensated == Compensated::At25 && !(NEAR.0..=NEAR.1).contains(&temperature) {
            w.warn(
                "standard-temperature",
                "far-from-25",
                "far from 25 °C the meter's temperature compensation counts as well: repeat between 20 and 30 °C",
            );
        }
        let size = deviation.and_then(|deviation| Ok(at_limit(Ratio::of(deviation.si().abs()), allowed?)));
        w.judge_known(&WITHIN, size, allowed);
        Ok(Outputs { at_temperature, expected, deviation })
    }
}

/// °C, and µS/cm of potassium chloride at 0.01 and at 0.1 mol/kg, without that of the water (CRC Handbook).
const PRINTED: [(f64, f64, f64); 7] = [
    (0.0, 772.92, 7116.85),
    (10.0, 1013.95, 9291.72),
    (18.0, 1219.93, 11_140.6),
    (20.0, 1273.03, 11_615.9),
    (25.0, 1408.23, 12_824.6),
    (35.0, 1687.79, 15_316.0),
    (40.0, 1831.27, 16_591.0),
];

impl Standard {
    fn at_25(self) -> Conductivity {
        Conductivity::of(match self {
            Self::Micro1413 => 0.1413,
            Self::Micro147 => 0.01469,
            Self::Milli1288 => 1.288,
            Self::Micro1408 => 0.140_823,
        })
    }

    /// The polynomial of Lagrange through the printed values, over the printed one of 25 °C.
    fn share_of_25(self, temperature: Temperature) -> f64 {
        let celsius = temperature.si() - 273.15;
        let of =
            |row: &(f64, f64, f64)| if self == Self::Milli1288 { row.2 / 12_824.6 } else { row.1 / 1408.23 };
        let weight = |at: f64| -> f64 {
            PRINTED
                .iter()
                .map(|row| row.0)
                .filter(|other| *other != at)
                .map(|other| (celsius - other) / (at - other))
                .product()
        };
        PRINTED.iter().map(|row| of(row) * weight(row.0)).sum()
    }
}

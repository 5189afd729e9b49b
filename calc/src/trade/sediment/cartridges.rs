//! How many sediment cartridges of which length a flow needs, and their pressure drop while they are clean.
//!
//! The guideline flow comes from the cartridge's label. The drop is scaled from one point of its maker's curve: laminar in
//! the medium, so in proportion to flow and viscosity and inversely to length (Darcy). Not covered: the housing with its
//! ports, whose part grows with the square of the flow, and how the drop grows while the filter loads.

use crate::engine::quantity::{
    Flow, Length, PressureDifference, Temperature, celsius, kinds::FLOW, kinds::LENGTH, kinds::NUMBER,
    kinds::PRESSURE_DIFFERENCE, metres,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Sentence, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::tap::looked_up_viscosity;
use crate::trade::terms::{carbon::HIGHEST_FLOW, sediment, tap::TAP_TEMPERATURE};
use crate::{output_row, sheet, step};

/// What the cartridge's label allows.
pub static CARTRIDGE_FLOW: Criterion = Criterion {
    id: "cartridge-flow",
    sentence: "Flow per 10 inches of sediment cartridge, within the label's guideline",
    stage: Stage::Sediment,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["cartridges", "cartridge-length"],
    cases: &[],
    judges: Judges::Output("flow-per-10-inch"),
};

static NO_CHLORINE_BARRIER: Caution = Caution {
    id: "sediment-filter-is-no-barrier",
    text: "A sediment filter removes particles only: no chlorine, nothing dissolved. Bacteria can grow in it. Record flow and water temperature with every pressure drop: without them two drops cannot be compared.",
};

output_row! {
    /// How many cartridges of one length would do.
    LengthChoice {
        length     "cartridge-length": Length                    = Term::number(&LENGTH, "Nominal length", "L").units("in", "in"),
        cartridges "cartridges":       f64                       = Term::number(&NUMBER, "Cartridges side by side", "n"),
        each       "flow-per-10-inch": Flow                      = Term::number(&FLOW, "Flow per 10 inches", "Q_each"),
        drop       "clean-drop-now":   Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Clean pressure drop at this flow and temperature", "Δp"),
    }
}

sheet! {
    /// How many sediment cartridges of which length this flow needs, and their pressure drop while clean at this temperature.
    SedimentFilter, "sediment-filter", "Sediment filter", Stage::Sediment,
    also: &["prefilter", "cartridge", "delta P"],
    sources: &[&source::COMMON_PRACTICE, &source::IAPWS_SR6_08],
    cautions: &[&NO_CHLORINE_BARRIER],
    criteria: &[&CARTRIDGE_FLOW],
    inputs: {
        flow             "flow":                   Flow                      = HIGHEST_FLOW.named("Highest flow through the filter"),
        cartridges       "cartridges":             Option<f64>               = sediment::CARTRIDGES,
        length           "cartridge-length":       Option<Length>            = sediment::CARTRIDGE_LENGTH,
        guideline        "guideline-flow":         Known<Flow>               = sediment::GUIDELINE_FLOW,
        temperature      "tap-temperature":        Known<Temperature>        = TAP_TEMPERATURE,
        drop             "clean-drop":             Known<PressureDifference> = sediment::CLEAN_DROP,
        drop_flow        "clean-drop-flow":        Known<Flow>               = sediment::CLEAN_DROP_FLOW,
        drop_temperature "clean-drop-temperature": Option<Temperature>       = sediment::CLEAN_DROP_TEMPERATURE,
        drop_length      "clean-drop-length":      Option<Length>            = sediment::CLEAN_DROP_LENGTH,
    }
    outputs Outputs: {
        equivalents "ten-inch-equivalents":        f64                       = Term::number(&NUMBER, "10-inch equivalents, fitted", "n_10"),
        each        "flow-per-10-inch":            Flow                      = Term::number(&FLOW, "Flow per 10 inches", "Q_each"),
        needed      "needed-ten-inch-equivalents": Known<f64>                = Term::number(&NUMBER, "10-inch equivalents, needed", "n_need"),
        choices     "choices":                     Known<Vec<LengthChoice>>  = Term::other("Cartridges needed, by length"),
        drop        "clean-drop-now":              Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Clean pressure drop at this flow and temperature", "Δp"),
    }
}

const TEN_INCHES: Length = metres(0.254);
/// The nominal lengths in which cartridges are sold: 10, 20, 30 and 40 inches.
const SOLD: [Length; 4] = [TEN_INCHES, metres(0.508), metres(0.762), metres(1.016)];
/// The cautious side where a maker's curve names no temperature.
const WARMEST_CURVE: Temperature = celsius(25.0);
/// So that 2 · 10 inches for twice the guideline are not 3 by a rounding in the last digit.
const LAST_DIGITS: f64 = 1e-9;

impl Evaluate for SedimentFilter {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let (flow, guideline) = (self.flow, self.guideline);
        let cartridges = self.cartridges.unwrap_or_else(|| {
            w.assume("cartridges", "one cartridge is assumed");
            1.0
        });
        let length = self.length.unwrap_or_else(|| {
            w.assume("cartridge-length", "a nominal length of 10 inches is assumed");
            TEN_INCHES
        });
        w.bind("cartridges", "n", cartridges);
        w.bind("length", "L", length);
        let ten_inches = TEN_INCHES;
        w.bind("ten_inches", "L_10", ten_inches);
        step!(w, equivalents "n_10" = cartridges * (length / ten_inches));
        step!(w, each "Q_each" = flow / equivalents);
        w.judge_known(&CARTRIDGE_FLOW, Ok(each), guideline);
        let needed = match guideline {
            Ok(guideline) => {
                step!(w, needed "n_need" = flow / guideline);
                Ok(needed)
            }
            Err(missing) => Err(missing),
        };
        let curve = self.curve(length, w);
        let drop = self.clean(equivalents, curve, w);
        let choices = needed.map(|needed| {
            w.quietly(|w| {
                SOLD.iter().map(|&length| self.choice(length, needed, curve, w)).collect::<Vec<_>>()
            })
        });
        Ok(Outputs { equivalents, each, needed, choices, drop })
    }
}

/// One point of the maker's curve.
#[derive(Debug, Clone, Copy)]
struct Curve {
    drop: PressureDifference,
    flow: Flow,
    temperature: Temperature,
    equivalents: f64,
}

impl SedimentFilter {
    /// The maker's point, with what is taken where it is silent.
    fn curve(&self, fitted: Length, w: &mut Working) -> Known<Curve> {
        let (drop, flow) = (self.drop?, self.drop_flow?);
        let temperature = self.drop_temperature.unwrap_or_else(|| {
            w.assume(
                "clean-drop-temperature",
                Sentence::plain("the maker's curve is taken to be for {temperature}, the cautious side")
                    .quantity("temperature", WARMEST_CURVE),
            );
            WARMEST_CURVE
        });
        let equivalents = self.drop_length.unwrap_or(fitted) / TEN_INCHES;
        Ok(Curve { drop, flow, temperature, equivalents })
    }

    /// The drop of clean cartridges at this flow and temperature.
    ///
    /// # Formula
    /// Δp = Δp₀ · (Q / Q₀) · (μ / μ₀) · (n₁₀,₀ / n₁₀)
    ///
    /// # Source
    /// Darcy's law in the medium; viscosity `iapws-sr6-08`. Check values: tests/published/sediment.csv.
    fn clean(&self, equivalents: f64, curve: Known<Curve>, w: &mut Working) -> Known<PressureDifference> {
        let Curve { drop, flow: drop_flow, temperature: then, equivalents: curve_equivalents } = curve?;
        let (flow, temperature) = (self.flow, self.temperature?);
        w.bind("drop", "Δp_0", drop);
        w.bind("drop_flow", "Q_0", drop_flow);
        w.bind("curve_equivalents", "n_10,0", curve_equivalents);
        let viscosity = looked_up_viscosity(("viscosity", "μ"), temperature, w);
        let viscosity_then = looked_up_viscosity(("viscosity_then", "μ_0"), then, w);
        step!(w, clean "Δp" = drop * (flow / drop_flow) * (viscosity / viscosity_then) * (curve_equivalents / equivalents));
        Ok(clean)
    }

    /// The fewest cartridges of one length that keep the guideline.
    fn choice(&self, length: Length, needed: f64, curve: Known<Curve>, w: &mut Working) -> LengthChoice {
        let of_one = length / TEN_INCHES;
        let cartridges = (needed / of_one - LAST_DIGITS).ceil().max(1.0);
        let equivalents = cartridges * of_one;
        LengthChoice {
            length,
            cartridges,
            each: self.flow / equivalents,
            drop: self.clean(equivalents, curve, w),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::quantity::{bar_difference, litres_per_minute};
    use crate::engine::sheet::{Missing, Sheet, State};

    fn filter(flow: f64) -> SedimentFilter {
        SedimentFilter {
            flow: litres_per_minute(flow),
            cartridges: Some(1.0),
            length: Some(TEN_INCHES),
            guideline: Ok(litres_per_minute(5.0)),
            temperature: Ok(celsius(20.0)),
            drop: Ok(bar_difference(0.05)),
            drop_flow: Ok(litres_per_minute(25.0)),
            drop_temperature: Some(celsius(20.0)),
            drop_length: None,
        }
    }

    #[test]
    fn the_guideline_itself_is_met() {
        let mut w = Working::silent();
        filter(5.0).run(&mut w).unwrap();
        assert_eq!(w.checks()[0].state, State::Met);
        let outputs = filter(10.0).run(&mut w).unwrap();
        assert_eq!(w.checks()[1].state, State::NotMet);
        let counts: Vec<f64> = outputs.choices.unwrap().iter().map(|choice| choice.cartridges).collect();
        assert_eq!(counts, [2.0, 1.0, 1.0, 1.0]);
    }

    #[test]
    fn the_drop_is_not_known_without_the_curve() {
        let mut sheet = filter(5.0);
        sheet.drop_flow = Err(Missing::empty("clean-drop-flow", "Flow at that point"));
        let outputs = sheet.run(&mut Working::silent()).unwrap();
        assert_eq!(outputs.drop.unwrap_err().field, "clean-drop-flow");
        assert!(outputs.choices.unwrap().iter().all(|choice| choice.drop.is_err()));
    }

    #[test]
    fn what_the_curve_does_not_say_is_taken_on_the_cautious_side() {
        let known = filter(5.0).run(&mut Working::silent()).unwrap().drop.unwrap();
        let mut sheet = filter(5.0);
        sheet.drop_temperature = None;
        let mut w = Working::silent();
        assert!(sheet.run(&mut w).unwrap().drop.unwrap() > known);
        assert!(
            w.warnings().iter().any(|warning| warning.assumed && warning.field == "clean-drop-temperature")
        );
    }
}

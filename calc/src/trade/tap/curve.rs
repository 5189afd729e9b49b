//! The tap's curve from two points: shut, and wide open.
//!
//! The loss in the supply is taken to grow with the square of the flow (valves, fittings, rough pipe), or with its power
//! 1.85 (long smooth pipes), as the formula of hydrant tests has it: NFPA 291, Q ∝ Δp^0.54. A pump or a pressure tank in
//! the building has steps that two points do not show.

use crate::engine::quantity::{
    Flow, Pressure, PressureDifference, kinds::FLOW, kinds::PRESSURE, kinds::PRESSURE_DIFFERENCE,
};
use crate::engine::sheet::{
    Caution, Evaluate, Known, Missing, Problem, Sentence, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::tap::{
    LEAST_INLET_PRESSURE, LOWEST_SHUT_PRESSURE, OPEN_FLOW, OPEN_PRESSURE, RUNNING_FLOW, SHUT_PRESSURE,
};
use crate::{choice, sheet, step};

choice!(/// How pressure loss in the supply grows with the flow.
LossLaw {
    Square "square" "With the square of the flow: valves and fittings",
    Hydrant "power-1-85" "With the power 1.85: long pipes (hydrant formula)",
});

pub(super) static HIGHEST_DEMAND: Caution = Caution {
    id: "measure-at-highest-demand",
    text: "The tap is weakest when the building uses most water. Measure then. Ask facilities (estates) about pumps, pressure tanks and work on the supply.",
};

sheet! {
    /// Pressure and flow at the tap from two readings: tap closed, and tap wide open.
    TapCurve, "tap-curve", "Tap pressure and flow", Stage::Tap,
    also: &["static pressure", "water pressure"],
    sources: &[&source::MASS_BALANCE, &source::NFPA_291],
    cautions: &[&HIGHEST_DEMAND],
    criteria: &[],
    inputs: {
        shut          "shut-pressure":        Pressure      = SHUT_PRESSURE,
        open_flow     "open-flow":            Flow          = OPEN_FLOW,
        open_pressure "open-pressure":        Pressure      = OPEN_PRESSURE,
        lowest        "lowest-shut-pressure": Option<Pressure> = LOWEST_SHUT_PRESSURE,
        flow          "running-flow":         Known<Flow>   = RUNNING_FLOW,
        least         "least-inlet-pressure": Known<Pressure> = LEAST_INLET_PRESSURE.named("Pressure needed at the tap"),
        law           "loss-law":             Option<LossLaw> = Term::other("How pressure loss in the supply grows")
            .help("Up to the measured flow, the power 1.85 gives slightly less pressure; above it, the square does.")
            .assumed("with the square of the flow"),
    }
    outputs Outputs: {
        pressure "pressure-at-flow":  Known<Pressure>    = Term::number(&PRESSURE, "Tap pressure at this flow", "p"),
        drop     "drop-at-flow":      Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Pressure loss in the supply at this flow", "Δp"),
        most     "highest-flow":      Known<Flow>        = Term::number(&FLOW, "Highest flow at that pressure", "Q_max"),
    }
}

impl Evaluate for TapCurve {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &TapCurve { shut, open_flow, open_pressure, lowest, flow, least, law } = self;
        // the loss in the supply was read at one shut pressure and is taken off the lowest one
        let start = lowest.unwrap_or(shut).min(shut);
        w.bind("start", "p_start", start);
        if open_pressure > shut {
            let sentence = Sentence::plain(
                "the flowing pressure ({open}) is above the static pressure ({shut}): read both on one gauge at one time",
            );
            return Err(Problem::new(
                "open-pressure",
                sentence.quantity("open", open_pressure).quantity("shut", shut),
            )
            .into());
        }
        let drop = match flow {
            Ok(flow) => {
                w.bind("power", "n", power(law));
                let power = power(law);
                step!(w, drop "Δp" = (shut - open_pressure) * (flow / open_flow).powf(power));
                Ok(drop)
            }
            Err(missing) => Err(missing),
        };
        let pressure = match drop {
            Ok(drop) => {
                step!(w, pressure "p" = start - drop);
                Ok(pressure)
            }
            Err(missing) => Err(missing),
        };
        if pressure.is_ok_and(|pressure| pressure.si() < 0.0) {
            w.warn(
                "running-flow",
                "tap-cannot-give",
                "the tap cannot give this flow: the pressure below zero only shows how far short it is",
            );
        }
        Ok(Outputs { pressure, drop, most: self.most(start, least, w) })
    }
}

impl TapCurve {
    fn most(&self, start: Pressure, least: Known<Pressure>, w: &mut Working) -> Known<Flow> {
        let &TapCurve { shut, open_flow, open_pressure, law, .. } = self;
        let least = least?;
        if least > start {
            return Err(Missing::none_exists("even the static pressure is lower"));
        }
        if open_pressure == shut {
            return Err(Missing::none_exists("both readings are equal: they show no loss in the supply"));
        }
        let inverse = 1.0 / power(law);
        w.bind("inverse", "1/n", inverse);
        step!(w, most "Q_max" = open_flow * ((start - least) / (shut - open_pressure)).powf(inverse));
        Ok(most)
    }
}

/// The power of the flow with which the loss grows.
fn power(law: Option<LossLaw>) -> f64 {
    match law {
        Some(LossLaw::Square) | None => 2.0,
        Some(LossLaw::Hydrant) => 1.0 / 0.54,
    }
}

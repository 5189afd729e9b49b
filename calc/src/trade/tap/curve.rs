//! The tap's curve from two points: shut, and wide open.
//!
//! The loss in the supply is taken to grow with the square of the flow (fully turbulent; by algebra from two points).
//! A pump or a pressure tank in the house has steps that two points do not show.

use crate::engine::quantity::{
    Flow, Pressure, PressureDifference, kinds::FLOW, kinds::PRESSURE, kinds::PRESSURE_DIFFERENCE,
};
use crate::engine::sheet::{
    Caution, Evaluate, Known, Missing, Problem, Sentence, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::tap::{
    LEAST_INLET_PRESSURE, LOWEST_SHUT_PRESSURE, OPEN_FLOW, OPEN_PRESSURE, RUNNING_FLOW, SHUT_PRESSURE,
};
use crate::{sheet, step};

pub(super) static HIGHEST_DEMAND: Caution = Caution {
    id: "measure-at-highest-demand",
    text: "The tap is weakest when the house uses most water. Measure then, and ask those who run the building about pumps, pressure tanks and work on the supply.",
};

sheet! {
    /// Pressure and flow at the tap from two readings: shut, and wide open.
    TapCurve, "tap-curve", "Curve of the tap", Stage::Tap,
    sources: &[&source::MASS_BALANCE],
    cautions: &[&HIGHEST_DEMAND],
    criteria: &[],
    inputs: {
        shut          "shut-pressure":        Pressure      = SHUT_PRESSURE,
        open_flow     "open-flow":            Flow          = OPEN_FLOW,
        open_pressure "open-pressure":        Pressure      = OPEN_PRESSURE,
        lowest        "lowest-shut-pressure": Option<Pressure> = LOWEST_SHUT_PRESSURE,
        flow          "running-flow":         Known<Flow>   = RUNNING_FLOW,
        least         "least-inlet-pressure": Known<Pressure> = LEAST_INLET_PRESSURE.named("Pressure that must be left at the tap"),
    }
    outputs Outputs: {
        pressure "pressure-at-flow":  Known<Pressure>    = Term::number(&PRESSURE, "Pressure at the tap at this flow", "p"),
        drop     "drop-at-flow":      Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Loss in the supply at this flow", "Δp"),
        most     "highest-flow":      Known<Flow>        = Term::number(&FLOW, "Flow at which that pressure is left", "Q_max"),
    }
}

impl Evaluate for TapCurve {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &TapCurve { shut, open_flow, open_pressure, lowest, flow, least } = self;
        // the loss in the supply was read at one shut pressure and is taken off the lowest one
        let start = lowest.unwrap_or(shut).min(shut);
        w.bind("start", "p_start", start);
        if open_pressure > shut {
            let sentence = Sentence::plain(
                "pressure while open ({open}) is above that with the tap shut ({shut}); read both on one gauge at one time",
            );
            return Err(Problem::new(
                "open-pressure",
                sentence.quantity("open", open_pressure).quantity("shut", shut),
            )
            .into());
        }
        let drop = match flow {
            Ok(flow) => {
                step!(w, drop "Δp" = (shut - open_pressure) * (flow / open_flow).powi(2));
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
                "the tap cannot give this flow: the pressure below zero only says by how much it is short",
            );
        }
        Ok(Outputs { pressure, drop, most: self.most(start, least, w) })
    }
}

impl TapCurve {
    fn most(&self, start: Pressure, least: Known<Pressure>, w: &mut Working) -> Known<Flow> {
        let &TapCurve { shut, open_flow, open_pressure, .. } = self;
        let least = least?;
        if least > start {
            return Err(Missing::none_exists("even the shut tap has less pressure"));
        }
        if open_pressure == shut {
            return Err(Missing::none_exists(
                "both readings are equal: the loss of this supply was not found",
            ));
        }
        step!(w, most "Q_max" = open_flow * ((start - least) / (shut - open_pressure)).sqrt());
        Ok(most)
    }
}

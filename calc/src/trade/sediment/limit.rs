//! The pressure drop at which the sediment filter must be changed in one room, from the RO inlet pressure.
//!
//! The drop is taken to grow with flow and viscosity (laminar in the medium, Darcy). What is left above the least inlet
//! pressure may be lost in the filter as well. Not covered: how fast the filter loads.

use crate::engine::quantity::{
    Flow, Pressure, PressureDifference, Temperature, kinds::PRESSURE, kinds::PRESSURE_DIFFERENCE,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::cases;
use crate::trade::membrane::NEVER_FLUSHES;
use crate::trade::tap::looked_up_viscosity;
use crate::trade::terms::tap;
use crate::{sheet, step};

/// What the filter takes, within what this room can afford.
pub static FILTER_LIMIT: Criterion = Criterion {
    id: "filter-limit",
    sentence: "Sediment filter pressure drop, within the limit of this room",
    stage: Stage::Sediment,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["filter-drop", "flush-reject-flow", "reject-flow"],
    cases: &[],
    judges: Judges::NoOutput,
};

static NOT_THE_LABEL: Caution = Caution {
    id: "the-room-sets-the-limit",
    text: "The filter's label says what the cartridge withstands, not what this room can spare. Change it at whichever comes first. Read its pressure drop at the stated flow and temperature.",
};

const LEFT: Term = Term::number(&PRESSURE, "RO inlet pressure, running", "p_RO")
    .help("The gauge at the RO inlet at that flow, with the filter as it is now. Or the estimate of the sheet “RO inlet pressure” for the worst time of the year.")
    .plausible(0.3, 6.0, "bar")
    .possible(0.0, 25.0, "bar")
    .within(0.1, "bar")
    .read_with("inlet gauge");
const LIMIT: Term = Term::number(&PRESSURE_DIFFERENCE, "Filter pressure drop limit of this room", "Δp_limit");

sheet! {
    /// The pressure drop at which the sediment filter must be changed in this room, at the flow and temperature at which it is read.
    FilterLimit, "filter-limit", "Filter change limit of this room", Stage::Sediment,
    also: &["pressure drop", "delta P", "prefilter"],
    sources: &[&source::MASS_BALANCE, &source::IAPWS_SR6_08, &source::COMMON_PRACTICE],
    cautions: &[&NOT_THE_LABEL],
    criteria: &[&FILTER_LIMIT],
    inputs: {
        running            "running-flow":            Known<Flow>               = tap::RUNNING_FLOW,
        flush              "flush-flow":              Known<Flow>               = tap::FLUSH_FLOW,
        temperature        "tap-temperature":         Temperature               = tap::TAP_TEMPERATURE,
        left_running       "inlet-pressure-running":  Known<Pressure>           = LEFT,
        left_flush         "inlet-pressure-flush":    Known<Pressure>           = LEFT.named("RO inlet pressure, in flush"),
        least              "least-inlet-pressure":    Pressure                  = tap::LEAST_INLET_PRESSURE,
        filter_drop        "filter-drop":             PressureDifference        = tap::FILTER_DROP,
        filter_flow        "filter-drop-flow":        Flow                      = tap::FILTER_DROP_FLOW,
        filter_temperature "filter-drop-temperature": Option<Temperature>       = tap::FILTER_DROP_TEMPERATURE,
    }
    outputs Outputs: {
        limit       "filter-limit":         Known<PressureDifference> = LIMIT,
        of_running  "filter-limit-running": Known<PressureDifference> = LIMIT.named("Limit from the running pressure"),
        of_flush    "filter-limit-flush":   Known<PressureDifference> = LIMIT.named("Limit from the pressure in flush"),
        spare       "filter-spare":         Known<PressureDifference> = LIMIT.named("Spare pressure drop until the filter change").symbol("Δp_left"),
    }
}

impl Evaluate for FilterLimit {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let drop = self.filter_drop;
        if drop.si() == 0.0 {
            let none = Missing::none_exists("there is no such filter");
            return Ok(Outputs {
                limit: Err(none),
                of_running: Err(none),
                of_flush: Err(none),
                spare: Err(none),
            });
        }
        let then = self.filter_temperature.unwrap_or(self.temperature);
        let viscosity = looked_up_viscosity(("viscosity", "μ"), self.temperature, w);
        let viscosity_then = looked_up_viscosity(("viscosity_then", "μ_0"), then, w);
        step!(w, thinner "k_μ" = viscosity_then / viscosity);
        let never = match self.flush {
            Ok(flow) => flow.si() == 0.0,
            Err(missing) => missing.is_none(),
        };
        let of_running = w.in_case(cases::RUNNING, |w| self.of(self.running, self.left_running, thinner, w));
        let of_flush = if never {
            Err(NEVER_FLUSHES)
        } else {
            w.in_case(cases::FLUSH, |w| self.of(self.flush, self.left_flush, thinner, w))
        };
        let limit = if never {
            of_running
        } else {
            of_running.and_then(|running| {
                let flush = of_flush?;
                w.bind("running_limit", "Δp_running", running);
                w.bind("flush_limit", "Δp_flush", flush);
                let (running_limit, flush_limit) = (running, flush);
                step!(w, limit "Δp_limit" = running_limit.min(flush_limit));
                Ok(limit)
            })
        };
        // no filter keeps a limit of nothing or less
        w.judge_known(&FILTER_LIMIT, Ok(drop), limit.map(|limit| limit.max(PressureDifference::of(0.0))));
        let spare = limit.map(|limit| {
            w.bind("limit", "Δp_limit", limit);
            step!(w, spare "Δp_left" = limit - drop);
            spare
        });
        let limit = limit.and_then(affordable);
        Ok(Outputs { limit, of_running, of_flush, spare })
    }
}

impl FilterLimit {
    /// The drop now with what may be lost beside it, at the flow and temperature at which the drop was read.
    fn of(
        &self,
        flow: Known<Flow>,
        left: Known<Pressure>,
        thinner: f64,
        w: &mut Working,
    ) -> Known<PressureDifference> {
        let (flow, left) = (flow?, left?);
        let &FilterLimit { least, filter_drop, filter_flow, .. } = self;
        w.bind("flow", "Q", flow);
        w.bind("left", "p_RO", left);
        w.bind("drop", "Δp_0", filter_drop);
        w.bind("thinner", "k_μ", thinner);
        let drop = filter_drop;
        step!(w, of_case "Δp_limit" = drop + (left - least) * (filter_flow / flow) * thinner);
        // what is left after the last digits of the drop itself cancel is nothing
        let is_nothing = of_case.si().abs() <= 1e-9 * drop.si();
        Ok(if is_nothing { PressureDifference::of(0.0) } else { of_case })
    }
}

/// A drop of nothing or less cannot be afforded by any filter.
fn affordable(limit: PressureDifference) -> Known<PressureDifference> {
    if limit.si() > 0.0 {
        Ok(limit)
    } else {
        Err(Missing::none_exists("even without this filter the RO inlet pressure would be too low"))
    }
}

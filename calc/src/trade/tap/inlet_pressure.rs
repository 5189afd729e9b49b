//! The pressure that is left at the RO's inlet: running and in flush, with the filter as it is and loaded.
//!
//! Rests on Darcy and Weisbach with Colebrook (1939). The drop of a filter is taken to grow with flow and viscosity
//! (laminar in the medium), that of the rest of the line with the flow to the power 1.75 (common practice, no source).
//! Does not cover pressure surges when a valve shuts.

use super::curve::{HIGHEST_DEMAND, TapCurve};
use super::line::{self, Fitting, Hose, Water};
use crate::engine::quantity::{
    Flow, Length, Pressure, PressureDifference, Temperature, Velocity, Viscosity, kinds::PRESSURE,
    kinds::PRESSURE_DIFFERENCE, kinds::VELOCITY,
};
use crate::engine::sheet::{
    Caution, Criterion, Draws, Evaluate, Figure, Flight, Judges, Known, Missing, Named, Sentence, Sheet,
    Shown, Shown::Answered, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::cases;
use crate::trade::membrane::NEVER_FLUSHES;
use crate::trade::terms::tap;
use crate::{sheet, step, trade::water};

/// The pressure that the RO asks.
pub static INLET_PRESSURE: Criterion = Criterion {
    id: "inlet-pressure",
    sentence: "Pressure at the RO inlet",
    stage: Stage::Tap,
    side: Side::AtLeast,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["filter-drop", "reject-flow", "flush-reject-flow"],
    cases: &[cases::RUNNING, cases::FLUSH, cases::RUNNING_LOADED, cases::FLUSH_LOADED],
    judges: Judges::Each(&[
        ("running", "inlet-pressure-running"),
        ("flush", "inlet-pressure-flush"),
        ("running-loaded", "inlet-pressure-running-loaded"),
        ("flush-loaded", "inlet-pressure-flush-loaded"),
    ]),
};

/// What the hose is rated for; it stands the highest pressure when the tap is open and the RO takes nothing.
pub static HOSE_RATED: Criterion = Criterion {
    id: "hose-rating",
    sentence: "Highest pressure on the hose, within its rating",
    side: Side::AtMost,
    forecast: false,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
    ..INLET_PRESSURE
};

static SHUT_TAP_SHOWS_NOTHING: Caution = Caution {
    id: "shut-tap-shows-nothing",
    text: "Static pressure (tap closed) does not show the pressure while the RO flushes. Watch the inlet gauge through one whole flush before the first session.",
};

static STAIRS: Figure = Figure {
    id: "pressure-stairs",
    name: "Pressure from the tap to the RO inlet",
    about: "Each step down is what tap, hose, filter and rest of the line take at that flow.",
    opens_at: Some(&INLET_PRESSURE),
    months: None,
    draws: Draws::Stairs {
        quantity: PRESSURE_ALONG.0,
        along: PRESSURE_ALONG.1,
        steps: PRESSURE_STEPS,
        flights: &[
            Flight {
                name: "running, filter as it is",
                at: &[
                    STATIC,
                    Answered("tap-pressure-running"),
                    Answered("filter-inlet-pressure-running"),
                    Answered("inlet-pressure-running"),
                ],
            },
            Flight {
                name: "in flush, filter as it is",
                at: &[
                    STATIC,
                    Answered("tap-pressure-flush"),
                    Answered("filter-inlet-pressure-flush"),
                    Answered("inlet-pressure-flush"),
                ],
            },
            Flight {
                name: "running, filter loaded",
                at: &[
                    STATIC,
                    Answered("tap-pressure-running"),
                    Answered("filter-inlet-pressure-running"),
                    Answered("inlet-pressure-running-loaded"),
                ],
            },
            Flight {
                name: "in flush, filter loaded",
                at: &[
                    STATIC,
                    Answered("tap-pressure-flush"),
                    Answered("filter-inlet-pressure-flush"),
                    Answered("inlet-pressure-flush-loaded"),
                ],
            },
        ],
        least: Shown::Entered("least-inlet-pressure"),
    },
};

/// What the stairs of the pressure are read upwards and along.
pub(crate) const PRESSURE_ALONG: (&str, &str) = ("Pressure", "Step");
/// Their steps.
pub(crate) const PRESSURE_STEPS: &[&str] = &["Static", "At tap", "At filter", "RO inlet"];
/// Where they begin: the lowest static pressure, where that was entered too.
pub(crate) const STATIC: Shown = Shown::FirstEntered(&["lowest-shut-pressure", "shut-pressure"]);

/// Standard gravity, m/s² (by definition).
const GRAVITY: f64 = 9.806_65;

sheet! {
    /// Pressure at the RO inlet after hose, fittings and filters, running and in flush.
    InletPressure, "inlet-pressure", "RO inlet pressure", Stage::Tap,
    also: &["feed pressure", "pressure loss", "hose"],
    sources: &[&source::COLEBROOK_1939, &source::IAPWS_SR6_08, &source::COMMON_PRACTICE],
    cautions: &[&HIGHEST_DEMAND, &SHUT_TAP_SHOWS_NOTHING],
    criteria: &[&INLET_PRESSURE, &HOSE_RATED],
    figures: &[&STAIRS],
    inputs: {
        shut               "shut-pressure":           Known<Pressure>           = tap::SHUT_PRESSURE,
        open_flow          "open-flow":               Known<Flow>               = tap::OPEN_FLOW,
        open_pressure      "open-pressure":           Known<Pressure>           = tap::OPEN_PRESSURE,
        lowest             "lowest-shut-pressure":    Option<Pressure>          = tap::LOWEST_SHUT_PRESSURE,
        highest            "highest-shut-pressure":   Known<Pressure>           = tap::HIGHEST_SHUT_PRESSURE,
        rating             "hose-rating":             Known<Pressure>           = tap::HOSE_RATING,
        running            "running-flow":            Known<Flow>               = tap::RUNNING_FLOW,
        flush              "flush-flow":              Known<Flow>               = tap::FLUSH_FLOW,
        temperature        "tap-temperature":         Known<Temperature>        = tap::TAP_TEMPERATURE,
        hoses              "hoses":                   Option<Vec<Hose>>         = Term::other("Hoses").assumed("none: their drop is in that of the rest of the line"),
        fittings           "fittings":                Option<Vec<Fitting>>      = Term::other("Fittings").assumed("none: their drop is in that of the rest of the line"),
        rise               "rise":                    Option<Length>            = tap::RISE,
        filter_drop        "filter-drop":             Known<PressureDifference> = tap::FILTER_DROP,
        filter_flow        "filter-drop-flow":        Known<Flow>               = tap::FILTER_DROP_FLOW,
        filter_temperature "filter-drop-temperature": Option<Temperature>       = tap::FILTER_DROP_TEMPERATURE,
        change_drop        "filter-change-drop":      Known<PressureDifference> = tap::FILTER_CHANGE_DROP,
        line_drop          "line-drop":               Known<PressureDifference> = tap::LINE_DROP,
        line_flow          "line-drop-flow":          Known<Flow>               = tap::LINE_DROP_FLOW,
        least              "least-inlet-pressure":    Known<Pressure>           = tap::LEAST_INLET_PRESSURE,
    }
    outputs Outputs: {
        running        "inlet-pressure-running":        Known<Pressure> = Term::number(&PRESSURE, "RO inlet pressure, running", "p_RO"),
        flush          "inlet-pressure-flush":          Known<Pressure> = Term::number(&PRESSURE, "RO inlet pressure, in flush", "p_RO"),
        running_loaded "inlet-pressure-running-loaded": Known<Pressure> = Term::number(&PRESSURE, "RO inlet pressure, running, filter loaded", "p_RO"),
        flush_loaded   "inlet-pressure-flush-loaded":   Known<Pressure> = Term::number(&PRESSURE, "RO inlet pressure, in flush, filter loaded", "p_RO"),
        tap_running    "tap-pressure-running":          Known<Pressure> = Term::number(&PRESSURE, "Pressure at the tap, running", "p_tap"),
        tap_flush      "tap-pressure-flush":            Known<Pressure> = Term::number(&PRESSURE, "Pressure at the tap, in flush", "p_tap"),
        line_running   "filter-inlet-pressure-running": Known<Pressure> = Term::number(&PRESSURE, "Pressure before the filter, running", "p_1"),
        line_flush     "filter-inlet-pressure-flush":   Known<Pressure> = Term::number(&PRESSURE, "Pressure before the filter, in flush", "p_1"),
        to_spare       "drop-to-spare":                 Known<PressureDifference> = Term::number(&PRESSURE_DIFFERENCE, "Pressure drop available for filter and rest of the line, at the highest flow", "Δp_spare"),
        fastest        "highest-velocity":              Known<Velocity> = Term::number(&VELOCITY, "Highest velocity in a hose", "v"),
    }
}

/// The water in the line, and that in which the drop of the filter was read.
#[derive(Debug, Clone, Copy)]
struct Waters {
    now: Water,
    temperature: Temperature,
    viscosity_then: Viscosity,
    temperature_then: Temperature,
}

/// What is left after one flow's losses.
#[derive(Debug, Clone, Copy)]
struct Left {
    at_tap: Pressure,
    before_filters: Pressure,
    fastest: Known<Velocity>,
    as_it_is: Known<Pressure>,
    loaded: Known<Pressure>,
}

impl Evaluate for InletPressure {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        w.judge_known(&HOSE_RATED, self.on_the_hose(), self.rating);
        if let (Ok(now), Ok(change)) = (self.filter_drop, self.change_drop)
            && now >= change
            && now.si() > 0.0
        {
            w.warn("filter-drop", "filter-at-change", "the filter has reached its change-out pressure drop");
        }
        let never = match self.flush {
            Ok(flow) => flow.si() == 0.0,
            Err(missing) => missing.is_none(),
        };
        let waters = self.temperature.map(|temperature| self.waters(temperature));
        let running = self.at(cases::RUNNING, self.running, waters, w)?;
        let flush = if never { Err(NEVER_FLUSHES) } else { self.at(cases::FLUSH, self.flush, waters, w)? };
        warn_below_zero([running, flush], w);
        let least = self.least;
        let mut judge = |case, left: Known<Left>, pressure: fn(Left) -> Known<Pressure>| {
            let pressure = left.and_then(pressure);
            // what is too little before the filter is too little behind it, whatever the filter takes
            let too_little = left.map(|left| left.before_filters).ok();
            let too_little = too_little.filter(|before| least.is_ok_and(|least| *before < least));
            let judged = match (pressure, too_little) {
                (Err(_), Some(before)) => Ok(before),
                _ => pressure,
            };
            w.in_case(case, |w| w.judge_known(&INLET_PRESSURE, judged, least));
            pressure
        };
        let running_now = judge(cases::RUNNING, running, |left| left.as_it_is);
        let running_loaded = judge(cases::RUNNING_LOADED, running, |left| left.loaded);
        let (flush_now, flush_loaded) = if never {
            let none = Err(NEVER_FLUSHES);
            (none, none)
        } else {
            (
                judge(cases::FLUSH, flush, |left| left.as_it_is),
                judge(cases::FLUSH_LOADED, flush, |left| left.loaded),
            )
        };
        let highest = match (running, flush) {
            (Ok(run), Ok(flushed)) if run.before_filters < flushed.before_filters => running,
            _ if never => running,
            _ => flush,
        };
        let in_flush =
            |pressure: fn(Left) -> Pressure| if never { Err(NEVER_FLUSHES) } else { flush.map(pressure) };
        let to_spare = highest.and_then(|left| least.map(|least| left.before_filters - least));
        Ok(Outputs {
            running: running_now,
            flush: flush_now,
            running_loaded,
            flush_loaded,
            tap_running: running.map(|left| left.at_tap),
            tap_flush: in_flush(|left| left.at_tap),
            line_running: running.map(|left| left.before_filters),
            line_flush: in_flush(|left| left.before_filters),
            to_spare,
            fastest: highest.and_then(|left| left.fastest),
        })
    }
}

impl InletPressure {
    /// The highest pressure on the hose. The one read now, when the house draws most, can only show a hose too weak.
    fn on_the_hose(&self) -> Known<Pressure> {
        match (self.highest, self.shut) {
            (Ok(highest), Ok(shut)) => Ok(highest.max(shut)),
            (Err(_), Ok(shut)) if self.rating.is_ok_and(|rating| shut > rating) => Ok(shut),
            (highest, _) => highest,
        }
    }

    /// What is left at one flow; not known without the flow, the tap's two readings and the temperature.
    fn at(
        &self,
        case: Named,
        flow: Known<Flow>,
        waters: Known<Waters>,
        w: &mut Working,
    ) -> Result<Known<Left>, Stop> {
        let given = || -> Known<(TapCurve, Flow, Waters)> {
            let curve = TapCurve {
                shut: self.shut?,
                open_flow: self.open_flow?,
                open_pressure: self.open_pressure?,
                lowest: self.lowest,
                flow,
                least: Err(Missing::not_known("least-inlet-pressure", "")),
                law: None,
            };
            Ok((curve, flow?, waters?))
        };
        let (curve, flow, waters) = match given() {
            Ok(given) => given,
            Err(missing) => return Ok(Err(missing)),
        };
        w.in_case(case, |w| {
            let at_tap = curve.run(w)?.pressure?;
            w.bind("at_tap", "p_tap", at_tap);
            w.bind("flow", "Q", flow);
            let water = waters.now;
            let (in_hoses, fastest) = line::hoses(self.hoses.as_deref().unwrap_or(&[]), flow, water, w);
            let in_fittings = line::fittings(self.fittings.as_deref().unwrap_or(&[]), flow, water, w)?;
            let lift = self.lift(water, w);
            step!(w, before_filters "p_1" = at_tap - in_hoses - in_fittings - lift);
            let rest = self.rest_of_line(flow, w);
            let after = |filter: Known<PressureDifference>, w: &mut Working| -> Known<Pressure> {
                let (in_filter, in_rest) = (filter?, rest?);
                step!(w, left "p_RO" = before_filters - in_filter - in_rest);
                Ok(left)
            };
            let now = self.filter(self.filter_drop, flow, &waters, w);
            let as_it_is = after(now, w);
            // a filter past its change is loaded as it is
            let change_drop =
                self.change_drop.map(|change| self.filter_drop.map_or(change, |now| now.max(change)));
            let loaded = self.filter(change_drop, flow, &waters, w);
            let loaded = after(loaded, w);
            Ok(Ok(Left { at_tap, before_filters, fastest, as_it_is, loaded }))
        })
    }

    fn waters(&self, temperature: Temperature) -> Waters {
        let now = Water { density: water::density(temperature), viscosity: water::viscosity(temperature) };
        let (viscosity_then, temperature_then) = match self.filter_temperature {
            Some(then) => (water::viscosity(then), then),
            None => (now.viscosity, temperature),
        };
        Waters { now, temperature, viscosity_then, temperature_then }
    }

    fn lift(&self, water: Water, w: &mut Working) -> PressureDifference {
        let rise = self.rise.unwrap_or(Length::of(0.0));
        let density = water.density;
        w.bind("density", "ρ", density);
        w.bind("gravity", "g", GRAVITY);
        w.bind("rise", "h", rise);
        let gravity = GRAVITY;
        step!(w, lift "Δp_z": PressureDifference = density.si() * gravity * rise.si());
        lift
    }

    /// The filter's drop at this flow and temperature, from a drop read at another flow and temperature.
    fn filter(
        &self,
        drop: Known<PressureDifference>,
        flow: Flow,
        waters: &Waters,
        w: &mut Working,
    ) -> Known<PressureDifference> {
        let drop = drop?;
        if drop.si() == 0.0 {
            w.bind("in_filter", "Δp_f", drop);
            return Ok(drop);
        }
        let filter_flow = self.filter_flow?;
        w.bind("drop", "Δp_0", drop);
        let (viscosity, viscosity_then) = (waters.now.viscosity, waters.viscosity_then);
        show_viscosity(("viscosity", "μ"), viscosity, waters.temperature, w);
        show_viscosity(("viscosity_then", "μ_0"), viscosity_then, waters.temperature_then, w);
        step!(w, in_filter "Δp_f" = drop * (flow / filter_flow) * (viscosity / viscosity_then));
        Ok(in_filter)
    }

    fn rest_of_line(&self, flow: Flow, w: &mut Working) -> Known<PressureDifference> {
        let line_drop = self.line_drop?;
        if line_drop.si() == 0.0 {
            w.bind("in_rest", "Δp_l", line_drop);
            return Ok(line_drop);
        }
        let line_flow = self.line_flow?;
        step!(w, in_rest "Δp_l" = line_drop * (flow / line_flow).powf(1.75));
        Ok(in_rest)
    }
}

/// Says that a line carries no such flow. What the tap itself cannot give is said by its own sheet.
fn warn_below_zero(cases: [Known<Left>; 2], w: &mut Working) {
    let is_below = |pressure: Known<Pressure>| pressure.is_ok_and(|pressure| pressure.si() < 0.0);
    for (field, left) in ["running-flow", "flush-flow"].into_iter().zip(cases) {
        let Ok(left) = left else { continue };
        if left.at_tap.si() >= 0.0
            && (is_below(Ok(left.before_filters)) || is_below(left.as_it_is) || is_below(left.loaded))
        {
            w.warn(
                field,
                "line-cannot-carry",
                "this line cannot carry this flow: the pressure below zero only shows how far short it is. Check bore, length and the drops entered",
            );
        }
    }
}

/// The viscosity of water as a step of the working.
pub(crate) fn looked_up_viscosity(
    name: (&'static str, &'static str),
    temperature: Temperature,
    w: &mut Working,
) -> Viscosity {
    let viscosity = water::viscosity(temperature);
    show_viscosity(name, viscosity, temperature, w);
    viscosity
}

fn show_viscosity(
    name: (&'static str, &'static str),
    viscosity: Viscosity,
    temperature: Temperature,
    w: &mut Working,
) {
    w.procedure(name, viscosity, || {
        Sentence::plain("viscosity of water at {temperature}, IAPWS SR6-08")
            .quantity("temperature", temperature)
    });
}

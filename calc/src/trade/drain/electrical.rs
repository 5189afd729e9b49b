//! The current of RO, dialysis machines and all else on one breaker.
//!
//! A continuous load (three hours or more) is held to a share of the breaker's rating, 80 % by the US code (from memory).
//! Not covered: the current of a starting motor, leakage, and the wiring.

use crate::engine::quantity::{
    Current, Power, Ratio, Voltage,
    kinds::{CURRENT, POWER},
    percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::{drain, machine};
use crate::{sheet, step};

/// Everything on the breaker, within its continuous load.
pub static BREAKER_LOAD: Criterion = Criterion {
    id: "breaker-load",
    sentence: "Current of everything on the breaker, within its continuous load",
    stage: Stage::Drain,
    side: Side::AtMost,
    forecast: true,
    source: &source::NFPA_70,
    levers: &["other-current"],
    cases: &[],
    judges: Judges::Output("load-current"),
};

static EARTHED_SOCKET: Caution = Caution {
    id: "earthed-socket",
    text: "Use a grounded outlet with GFCI (earthed socket with RCD), kept dry, without extension cords, as the RO's instructions and local code require. Each outlet has a rating of its own: a 15 A outlet on a 20 A breaker still carries 12 A of one continuous load. A starting pump draws more than its label says. A licensed electrician decides on the circuit.",
};

sheet! {
    /// Whether one breaker carries the RO, the dialysis machines, and everything else on it.
    ElectricalLoad, "electrical-load", "Breaker load", Stage::Drain,
    also: &["circuit", "outlet", "amps"],
    sources: &[&source::NFPA_70, &source::OHM],
    cautions: &[&EARTHED_SOCKET],
    criteria: &[&BREAKER_LOAD],
    inputs: {
        voltage  "supply-voltage":   Known<Voltage>  = drain::SUPPLY_VOLTAGE,
        breaker  "breaker-rating":   Known<Current>  = drain::BREAKER_RATING,
        ro       "ro-current":       Known<Current>  = drain::RO_CURRENT,
        machines "machines":         Known<f64>      = machine::MACHINES,
        machine  "machine-current":  Option<Current> = drain::MACHINE_CURRENT,
        heater   "heater-power":     Known<Power>    = machine::HEATER_POWER,
        other    "other-current":    Option<Current> = drain::OTHER_CURRENT,
        share    "continuous-share": Option<Ratio>   = drain::CONTINUOUS_SHARE,
    }
    outputs Outputs: {
        heaters "heater-current":     Known<Current> = Term::number(&CURRENT, "Current of the heaters alone", "I_h"),
        load    "load-current":       Known<Current> = Term::number(&CURRENT, "Current of everything on the breaker", "I"),
        power   "load-power":         Known<Power>   = Term::number(&POWER, "Power of everything on the breaker", "P"),
        allowed "continuous-current": Known<Current> = Term::number(&CURRENT, "Continuous load allowed on the breaker", "I_max"),
        spare   "spare-current":      Known<Current> = Term::number(&CURRENT, "Spare current", "ΔI"),
    }
}

/// The share of its rating that a breaker carries continuously (NFPA 70, from memory).
const CONTINUOUS: Ratio = percent(80.0);

impl Evaluate for ElectricalLoad {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &ElectricalLoad { voltage, breaker, ro, .. } = self;
        let share = self.share.unwrap_or(CONTINUOUS);
        w.bind("share", "s", share);
        let other = self.other.unwrap_or(Current::of(0.0));
        w.bind("other", "I_o", other);
        let allowed = breaker.map(|breaker| {
            step!(w, allowed "I_max" = share * breaker);
            allowed
        });
        let heaters = self.heaters(w);
        let of_machines = self.of_machines(w);
        let load = of_machines.and_then(|of_machines| {
            let ro = ro?;
            step!(w, load "I" = ro + of_machines + other);
            Ok(load)
        });
        if self.other.is_none() && load.is_ok() {
            w.assume(
                "other-current",
                "nothing else is assumed to be on this breaker: look at every outlet (socket) that it feeds, and count bed, pumps and monitors",
            );
        }
        let judged = self.judged(load, heaters, allowed, w);
        w.judge_known(&BREAKER_LOAD, judged, allowed);
        let power = load.and_then(|load| {
            let voltage = voltage?;
            step!(w, power "P" = load * voltage);
            Ok(power)
        });
        let spare = allowed.and_then(|allowed| {
            let load = load?;
            step!(w, spare "ΔI" = allowed - load);
            Ok(spare)
        });
        Ok(Outputs { heaters, load, power, allowed, spare })
    }
}

impl ElectricalLoad {
    fn heaters(&self, w: &mut Working) -> Known<Current> {
        let (machines, heater, voltage) = (self.machines?, self.heater?, self.voltage?);
        step!(w, heaters "I_h" = machines * (heater / voltage));
        Ok(heaters)
    }

    /// By the label, heater included.
    fn of_machines(&self, w: &mut Working) -> Known<Current> {
        let machine = self.machine.ok_or(Missing::empty("machine-current", drain::MACHINE_CURRENT.name))?;
        let machines = self.machines?;
        step!(w, of_machines "I_ms" = machines * machine);
        Ok(of_machines)
    }

    /// The load; where it is not known in full, what is known of it can only show a breaker too small.
    fn judged(
        &self,
        load: Known<Current>,
        heaters: Known<Current>,
        allowed: Known<Current>,
        w: &mut Working,
    ) -> Known<Current> {
        let missing = match load {
            Ok(load) => return Ok(load),
            Err(missing) => missing,
        };
        let labels = self.machine.and_then(|machine| Some(self.machines.ok()? * machine));
        let none = Current::of(0.0);
        let least = labels.unwrap_or_else(|| heaters.unwrap_or(none))
            + self.ro.unwrap_or(none)
            + self.other.unwrap_or(none);
        if allowed.is_ok_and(|allowed| least > allowed) {
            w.warn(
                missing.field,
                "known-part-too-much",
                "not everything on the breaker is known, but what is known is already too much",
            );
            return Ok(least);
        }
        Err(missing)
    }
}

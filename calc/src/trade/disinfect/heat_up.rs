//! How long a loop takes to become hot, what that costs in energy, and how long a flush with cold water takes to cool it.
//!
//! By conservation of heat, the loop as one well-mixed lump of water and apparatus, its loss in proportion to its warmth
//! above the room. Not covered: layers, pipes in which nothing flows, and a heater below its label.

use super::heat_dose::SCALD;
use crate::engine::quantity::{
    Energy, Flow, HeatCapacity, Power, Temperature, Time, Volume,
    kinds::{ENERGY, HEAT_CAPACITY, POWER, TIME},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Sentence, Side, Stage, Stop, Term,
    Working, source,
};
use crate::trade::terms::heat;
use crate::{sheet, step, trade::water};

/// The heater against what the loop loses when it is hot.
pub static HEATER_ABOVE_LOSS: Criterion = Criterion {
    id: "heater-above-loss",
    sentence: "Heater power, above the heat loss of the loop at the target temperature",
    stage: Stage::Heat,
    side: Side::Above,
    forecast: true,
    source: &source::HEAT_BALANCE,
    levers: &["loop-heater-power"],
    cases: &[],
    judges: Judges::NoOutput,
};

/// The time that the instructions allow.
pub static HEAT_UP_TIME: Criterion = Criterion {
    id: "heat-up-time",
    sentence: "Heat-up time of the loop, within the heat-up time limit",
    stage: Stage::Heat,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["loop-heater-power", "loop-volume"],
    cases: &[],
    judges: Judges::Output("heat-up-time"),
};

static PROBE_DECIDES: Caution = Caution {
    id: "probe-decides",
    text: "This is an estimate. The probe at the coldest point decides. If the loop is not hot within the time of the RO's instructions, stop and find the cause: it is not a disinfection, however long it was warm.",
};

static COOL_SLOWLY: Caution = Caution {
    id: "cool-slowly",
    text: "Let cold water in only as fast as the RO's instructions allow: a sudden change of temperature or pressure damages a hot membrane. The drain takes hot water first. Every probe must be cool, by its reading, before anybody connects the dialysis machine.",
};

sheet! {
    /// How long a heater takes to bring a loop to its temperature, with how much energy, and how long a flush takes to cool it.
    HeatUp, "heat-up", "Heat-up and cool-down of a loop", Stage::Heat,
    also: &["heating time", "cool-down"],
    sources: &[&source::HEAT_BALANCE, &source::IAPWS_SR6_08, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&SCALD, &PROBE_DECIDES],
    criteria: &[&HEATER_ABOVE_LOSS, &HEAT_UP_TIME],
    inputs: {
        volume    "loop-volume":             Volume               = heat::LOOP_VOLUME,
        apparatus "apparatus-heat-capacity": Option<HeatCapacity> = heat::APPARATUS_HEAT_CAPACITY,
        start     "start-temperature":       Temperature          = heat::START_TEMPERATURE,
        target    "target-temperature":      Temperature          = heat::TARGET_TEMPERATURE,
        heater    "loop-heater-power":       Known<Power>         = heat::LOOP_HEATER_POWER,
        loss      "standing-loss":           Option<Power>        = heat::STANDING_LOSS,
        room      "room-temperature":        Option<Temperature>  = heat::ROOM_TEMPERATURE,
        allowed   "give-up-time":            Known<Time>          = heat::GIVE_UP_TIME,
        flush     "cooling-flow":            Known<Flow>          = heat::COOLING_FLOW,
        cold      "cooling-temperature":     Known<Temperature>   = heat::COOLING_TEMPERATURE,
        cool      "cool-temperature":        Known<Temperature>   = heat::COOL_TEMPERATURE,
    }
    outputs Outputs: {
        capacity "loop-heat-capacity": HeatCapacity  = Term::number(&HEAT_CAPACITY, "Heat capacity of water and apparatus", "C"),
        heat     "heat-needed":        Energy        = Term::number(&ENERGY, "Heat needed", "E"),
        spare    "heating-power":      Known<Power>  = Term::number(&POWER, "Heater power left at the target temperature", "P_1"),
        time     "heat-up-time":       Known<Time>   = Term::number(&TIME, "Heat-up time", "t"),
        energy   "heat-up-energy":     Known<Energy> = Term::number(&ENERGY, "Heater energy used", "E_h"),
        cooling  "cool-down-time":     Known<Time>   = Term::number(&TIME, "Cool-down time, flushed with cold water", "t_f"),
    }
}

const LOSS_EATS_IT: Missing = Missing::none_exists(
    "the loop loses as much heat as the heater gives before it is hot, so it never reaches the target temperature",
);
/// A loss that changes by less than this share of the heater's power is as good as constant, and the logarithm of a
/// number so near 1 has no digits left.
const UNCHANGED: f64 = 1e-6;

impl Evaluate for HeatUp {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &HeatUp { volume, start, target, heater, .. } = self;
        self.refuse_warm_room()?;
        let apparatus = self.apparatus.unwrap_or(HeatCapacity::of(0.0));
        w.bind("apparatus", "C_a", apparatus);
        let density = water::density(start);
        w.procedure(("density", "ρ"), density, || {
            Sentence::plain("density of water at {temperature}, IAPWS SR6-08").quantity("temperature", start)
        });
        let of_water = water::HEAT_CAPACITY;
        w.bind("of_water", "c", of_water);
        step!(w, water "C_w": HeatCapacity = density.si() * volume.si() * of_water);
        step!(w, capacity "C" = water + apparatus);
        if target <= start {
            w.warn(
                "target-temperature",
                "nothing-to-heat",
                "the loop is already at the target temperature: there is nothing to heat",
            );
        }
        step!(w, rise "ΔT" = target - start);
        step!(w, heat "E": Energy = capacity.si() * rise.si().max(0.0));
        let loss = self.loss.unwrap_or(Power::of(0.0));
        w.bind("loss", "P_l", loss);
        let spare = heater.map(|heater| {
            step!(w, spare "P_1" = heater - loss);
            spare
        });
        match self.loss {
            Some(loss) => w.judge_known(&HEATER_ABOVE_LOSS, heater, Ok(loss)),
            None => w.judge_known(&HEATER_ABOVE_LOSS, heater, Err(LOSS_NOT_KNOWN)),
        }
        let time = heater.and_then(|heater| self.time(heat, heater, loss, w));
        let judged = self.judged(time);
        w.judge_or_never(&HEAT_UP_TIME, judged, self.allowed);
        let energy = time.and_then(|time| {
            let heater = heater?;
            w.bind("time", "t", time);
            step!(w, energy "E_h" = heater * time);
            Ok(energy)
        });
        let cooling = match (self.flush, self.cold, self.cool) {
            (Ok(flush), Ok(cold), Ok(cool)) => {
                w.caution(&COOL_SLOWLY);
                self.cooling(capacity, (flush, cold, cool), w)
            }
            (flush, cold, cool) => {
                let missing = flush.err().or(cold.err()).or(cool.err());
                Err(missing.unwrap_or(Missing::empty("cooling-flow", "Cooling water flow")))
            }
        };
        Ok(Outputs { capacity, heat, spare, time, energy, cooling })
    }
}

const LOSS_NOT_KNOWN: Missing =
    Missing::not_known("standing-loss", "the heat loss is not known; without it the time is only the least");

impl HeatUp {
    fn refuse_warm_room(&self) -> Result<(), Stop> {
        let Some(room) = self.room.filter(|room| *room >= self.target) else { return Ok(()) };
        let sentence = Sentence::plain(
            "a room at {room} is as warm as the target temperature of {target} or warmer, and would heat the loop: check both and their units",
        );
        let sentence = sentence.quantity("room", room).quantity("target", self.target);
        Err(Problem::new("room-temperature", sentence).into())
    }

    /// The time in which the heater, less what is lost, gives this heat.
    ///
    /// # Formula
    /// t = E / (P − P_l), or with a loss that grows from P_l0 to P_l in proportion to the warmth above the room
    /// t = E / (P_l − P_l0) · ln[(P − P_l0) / (P − P_l)]
    ///
    /// # Source
    /// `heat-balance`: C dT/dt = P − k (T − T_room), integrated. Check values: tests/published/heat-up.csv.
    fn time(&self, heat: Energy, heater: Power, loss: Power, w: &mut Working) -> Known<Time> {
        if heat.si() <= 0.0 {
            return Ok(Time::of(0.0));
        }
        if heater <= loss {
            return Err(LOSS_EATS_IT);
        }
        let (start, target) = (self.start, self.target);
        if let Some(room) = self.room {
            w.bind("room", "T_r", room);
            step!(w, at_start "P_l0" = loss * ((start - room) / (target - room)));
            if (loss - at_start).si() > UNCHANGED * heater.si() {
                step!(w, time "t" = heat / (loss - at_start) * ((heater - at_start) / (heater - loss)).ln());
                return Ok(time);
            }
        }
        step!(w, time "t" = heat / (heater - loss));
        Ok(time)
    }

    /// The time in which cold water that comes in, and pushes as much hot water out, cools the loop.
    ///
    /// # Formula
    /// T = T_in + (T_1 − T_in) · e^(−t / τ), τ = C / (ρ c Q), so that t = τ · ln[(T_1 − T_in) / (T_cool − T_in)]
    ///
    /// # Source
    /// `heat-balance`, the loop well mixed, the heater off. Check values: tests/published/heat-up.csv.
    fn cooling(
        &self,
        capacity: HeatCapacity,
        (flush, cold, cool): (Flow, Temperature, Temperature),
        w: &mut Working,
    ) -> Known<Time> {
        if cool >= self.target {
            return Ok(Time::of(0.0));
        }
        if cool <= cold {
            return Err(Missing::none_exists(
                "the cold water is as warm as the cool-down temperature or warmer, so the loop never cools to it",
            ));
        }
        let target = self.target;
        let of_cold = water::density(cold);
        w.procedure(("of_cold", "ρ_in"), of_cold, || {
            Sentence::plain("density of water at {temperature}, IAPWS SR6-08").quantity("temperature", cold)
        });
        let of_water = water::HEAT_CAPACITY;
        step!(w, constant "τ": Time = capacity.si() / (of_cold.si() * flush.si() * of_water));
        step!(w, cooling "t_f" = constant * ((target - cold) / (cool - cold)).ln());
        Ok(cooling)
    }

    /// The time; where loss or apparatus is not known it is the least, which can only show that it is too long.
    fn judged(&self, time: Known<Time>) -> Known<Time> {
        let time = time?;
        if self.allowed.is_ok_and(|allowed| time > allowed) {
            return Ok(time);
        }
        if self.loss.is_none() {
            return Err(LOSS_NOT_KNOWN);
        }
        if self.apparatus.is_none() {
            return Err(Missing::not_known(
                "apparatus-heat-capacity",
                "the heat capacity of tank, lines and housings is not known; without it the time is only the least",
            ));
        }
        Ok(time)
    }
}

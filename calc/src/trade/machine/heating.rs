//! Which heater power the machine needs for this product water: what cold water asks of it.
//!
//! By conservation of heat. Not covered: heat lost on the way, the machine's own warmth, and a heat exchanger whose
//! share is not entered.

use super::demand::PRESCRIBER_DECIDES;
use crate::engine::quantity::{
    Flow, Power, Ratio, Temperature, celsius,
    kinds::{FLOW, POWER, TEMPERATURE},
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Sentence, Side, Stage, Stop, Term, Working, source,
};
use crate::trade::terms::machine;
use crate::{sheet, step, trade::water};

/// What the dialysate needs, within what the machine can.
pub static MACHINE_HEATING: Criterion = Criterion {
    id: "machine-heating",
    sentence: "Heater power that the dialysate needs, within that of the machine",
    stage: Stage::Machine,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &["tempered-temperature"],
    cases: &[],
    judges: Judges::Output("needed-heater-power"),
};

static CANNOT_COOL: Caution = Caution {
    id: "a-machine-cannot-cool",
    text: "A dialysis machine warms its water and cannot cool it. Measure the product water in the warmest month as well, and hold where it is above what the machine's instructions allow.",
};

/// A machine warms; it cannot cool.
pub static PRODUCT_COOL_ENOUGH: Criterion = Criterion {
    id: "product-cool-enough",
    sentence: "Product water, cooler than the dialysate is to be: a machine cannot cool it",
    stage: Stage::Machine,
    side: Side::Below,
    forecast: true,
    source: &source::HEAT_BALANCE,
    levers: &[],
    cases: &[],
    judges: Judges::NoOutput,
};

sheet! {
    /// The heater power that the dialysis machine needs for this product water, and what its heater allows.
    MachineHeating, "machine-heating", "Heating the dialysate", Stage::Machine,
    sources: &[&source::HEAT_BALANCE, &source::IAPWS_SR6_08],
    cautions: &[&CANNOT_COOL, &PRESCRIBER_DECIDES],
    criteria: &[&MACHINE_HEATING, &PRODUCT_COOL_ENOUGH],
    inputs: {
        flow     "dialysate-flow":        Flow                = machine::DIALYSATE_FLOW,
        product  "product-temperature":   Temperature         = machine::PRODUCT_TEMPERATURE,
        wanted   "dialysate-temperature": Option<Temperature> = machine::DIALYSATE_TEMPERATURE,
        returned "heat-returned":         Option<Ratio>       = machine::HEAT_RETURNED,
        heater   "heater-power":          Known<Power>        = machine::HEATER_POWER,
    }
    outputs Outputs: {
        needed  "needed-heater-power":        Power              = Term::number(&POWER, "Heater power that is needed", "P"),
        fastest "highest-heated-flow":        Known<Flow>        = Term::number(&FLOW, "Highest dialysate flow that the heater warms", "Q_max"),
        coldest "coldest-heated-temperature": Known<Temperature> = Term::number(&TEMPERATURE, "Coldest product water that the heater warms", "T_min"),
    }
}

/// Body warmth, as dialysate usually is.
const BODY_WARM: Temperature = celsius(37.0);
/// Below it there is no water to be warmed.
const ICE: Temperature = celsius(0.0);

impl Evaluate for MachineHeating {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &MachineHeating { flow, product, heater, .. } = self;
        let wanted = self.wanted.unwrap_or(BODY_WARM);
        let returned = self.returned.unwrap_or(Ratio::of(0.0));
        w.bind("wanted", "T_d", wanted);
        w.bind("returned", "r", returned);
        let density = water::density(product);
        w.procedure(("density", "ρ"), density, || {
            Sentence::plain("density of water at {temperature}, IAPWS SR6-08")
                .quantity("temperature", product)
        });
        let capacity = water::HEAT_CAPACITY;
        w.bind("capacity", "c", capacity);
        step!(w, rise "ΔT" = wanted - product);
        step!(w, of_a_kelvin "C": f64 = density.si() * flow.si() * capacity * (1.0 - returned.si()));
        step!(w, needed "P": Power = of_a_kelvin * rise.si().max(0.0));
        if rise.si() <= 0.0 {
            w.warn("product-temperature", "product-too-warm", "the product water is as warm as the dialysate is to be, or warmer, and a machine cannot cool it: measure it, and ask by the machine's instructions whether it may be used");
        }
        w.judge(&PRODUCT_COOL_ENOUGH, product, wanted);
        w.judge_known(&MACHINE_HEATING, Ok(needed), heater);
        let fastest = heater.and_then(|heater| {
            if rise.si() <= 0.0 {
                return Err(Missing::none_exists("the product water needs no heat"));
            }
            step!(w, fastest "Q_max": Flow = heater.si() / (density.si() * capacity * (1.0 - returned.si()) * rise.si()));
            Ok(fastest)
        });
        let coldest = heater.and_then(|heater| {
            step!(w, coldest "T_min": Temperature = wanted.si() - heater.si() / of_a_kelvin);
            if coldest < ICE {
                return Err(Missing::none_exists("it warms water from the freezing point"));
            }
            Ok(coldest)
        });
        Ok(Outputs { needed, fastest, coldest })
    }
}

//! Which heater power the machine needs for cold product water, and whether warm product water is too warm for it.
//!
//! By conservation of heat. Not covered: heat lost on the way, the machine's own warmth, and a heat exchanger whose
//! share is not entered.

use super::demand::PRESCRIBER_DECIDES;
use crate::engine::quantity::{
    Flow, Power, Ratio, Temperature, TemperatureDifference, celsius, kelvin_difference,
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
    sentence: "Heater power needed, within the machine's heater power",
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
    text: "A dialysis machine heats its water and cannot cool it. Measure the product water at the machine in the warmest month too. If it is above the machine's inlet limit, hold: stop using this water and tell the nurse in charge.",
};

/// A machine heats; it cannot cool. The limit is the machine's own.
pub static PRODUCT_COOL_ENOUGH: Criterion = Criterion {
    id: "product-cool-enough",
    sentence: "Product water at the machine, within the machine's inlet temperature limit",
    stage: Stage::Machine,
    side: Side::AtMost,
    forecast: true,
    source: &source::DEVICE_INSTRUCTIONS,
    levers: &[],
    cases: &[],
    judges: Judges::Output("inlet-temperature"),
};

/// How much an RO's pump warms the water, where nobody has measured it (common practice, no source).
pub const PUMP_HEAT: TemperatureDifference = kelvin_difference(2.0);

sheet! {
    /// The heater power that the dialysis machine needs for this product water, what its heater can do, and whether the water is too warm for it.
    MachineHeating, "machine-heating", "Heating the dialysate", Stage::Machine,
    also: &["heater power"],
    sources: &[&source::HEAT_BALANCE, &source::IAPWS_SR6_08, &source::DEVICE_INSTRUCTIONS],
    cautions: &[&CANNOT_COOL, &PRESCRIBER_DECIDES],
    criteria: &[&MACHINE_HEATING, &PRODUCT_COOL_ENOUGH],
    inputs: {
        flow     "dialysate-flow":            Flow                          = machine::DIALYSATE_FLOW,
        product  "product-temperature":       Temperature                   = machine::PRODUCT_TEMPERATURE,
        warming  "pump-heat":                 Option<TemperatureDifference> = machine::PUMP_HEAT,
        highest  "highest-inlet-temperature": Known<Temperature>            = machine::HIGHEST_INLET_TEMPERATURE,
        wanted   "dialysate-temperature":     Option<Temperature>           = machine::DIALYSATE_TEMPERATURE,
        returned "heat-returned":             Option<Ratio>                 = machine::HEAT_RETURNED,
        heater   "heater-power":              Known<Power>                  = machine::HEATER_POWER,
    }
    outputs Outputs: {
        needed  "needed-heater-power":        Power              = Term::number(&POWER, "Heater power needed", "P"),
        fastest "highest-heated-flow":        Known<Flow>        = Term::number(&FLOW, "Highest dialysate flow that the heater can heat", "Q_max"),
        coldest "coldest-heated-temperature": Known<Temperature> = Term::number(&TEMPERATURE, "Coldest product water that the heater can heat", "T_min"),
        warmed  "inlet-temperature":          Temperature        = Term::number(&TEMPERATURE, "Product water at the machine, with pump heat", "T_in"),
    }
}

/// Body temperature, as dialysate usually is.
const BODY_WARM: Temperature = celsius(37.0);
/// Below it there is no water to be heated.
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
            w.warn("product-temperature", "product-too-warm", "the product water is as warm as the dialysate or warmer, and a machine cannot cool it: measure it at the machine and check the machine's instructions");
        }
        let warmed = self.judge_inlet(wanted, w);
        w.judge_known(&MACHINE_HEATING, Ok(needed), heater);
        let fastest = heater.and_then(|heater| {
            if rise.si() <= 0.0 {
                return Err(Missing::none_exists("the product water needs no heating"));
            }
            step!(w, fastest "Q_max": Flow = heater.si() / (density.si() * capacity * (1.0 - returned.si()) * rise.si()));
            Ok(fastest)
        });
        let coldest = heater.and_then(|heater| {
            step!(w, coldest "T_min": Temperature = wanted.si() - heater.si() / of_a_kelvin);
            if coldest < ICE {
                return Err(Missing::none_exists("the heater can heat water from the freezing point"));
            }
            Ok(coldest)
        });
        Ok(Outputs { needed, fastest, coldest, warmed })
    }
}

impl MachineHeating {
    /// Pump heat counts here alone: for the heater, water without it is the worse case. What is warmer than the dialysate
    /// is too warm for every machine; what is cooler is still judged by the machine's own limit alone.
    fn judge_inlet(&self, wanted: Temperature, w: &mut Working) -> Temperature {
        let warming = self.warming.unwrap_or(TemperatureDifference::of(0.0));
        w.bind("warming", "ΔT_p", warming);
        let product = self.product;
        step!(w, warmed "T_in": Temperature = product.si() + warming.si());
        let limit = match self.highest {
            Ok(highest) => Ok(Temperature::of(highest.si().min(wanted.si()))),
            Err(_) if warmed > wanted => Ok(wanted),
            Err(missing) => Err(missing),
        };
        w.judge_known(&PRODUCT_COOL_ENOUGH, Ok(warmed), limit);
        warmed
    }
}

//! What the dialysis machine and the outlet (socket) add: heat for the dialysate, current on the breaker.

use super::Plan;
use crate::engine::quantity::{Current, Power, Temperature};
use crate::engine::sheet::{Criterion, Known, Sentence, Sheet, Working, part};
use crate::trade::drain::{BREAKER_LOAD, ElectricalLoad};
use crate::trade::machine::{Heating, MACHINE_HEATING, MachineHeating, PRODUCT_COOL_ENOUGH, PUMP_HEAT};
use crate::trade::membrane::{Season, tempered};

impl Plan {
    /// What a machine's heater must give to the coldest water, and how warm the warmest reaches the machine.
    /// It asks for temperatures alone, so nothing of the RO stops it.
    pub(super) fn heating(&self, w: &mut Working) -> (Known<Power>, Known<Temperature>) {
        if self.pump_heat == Ok(None) {
            w.assume(
                "pump-heat",
                Sentence::plain("{pump_heat} was added for pump heat").quantity("pump_heat", PUMP_HEAT),
            );
        }
        // each end tells of one of both
        let mut at = |season: Season, tap, told| {
            w.in_season(season.when(), |w| w.only_of(told, |w| self.heating_of(tap, told, w)))
        };
        let coldest = at(Season::Coldest, self.coldest_tap(), &MACHINE_HEATING);
        let warmest = at(Season::Warmest, self.warmest_tap(), &PRODUCT_COOL_ENOUGH);
        (part(&coldest, |heated| Ok(heated.needed)), part(&warmest, |heated| Ok(heated.warmed)))
    }

    fn heating_of(
        &self,
        tap: Known<Temperature>,
        told: &'static Criterion,
        w: &mut Working,
    ) -> Known<Heating> {
        w.stage(&[told], |w| {
            let sheet = MachineHeating {
                flow: self.dialysate?,
                // the product water is not colder
                product: tempered(tap?, self.tempered_to()?),
                wanted: self.dialysate_temperature?,
                returned: self.heat_returned?,
                heater: self.heater,
                warming: Some(self.pump_heat?.unwrap_or(PUMP_HEAT)),
                highest: self.highest_inlet_temperature,
            };
            sheet.run(w)
        })
    }

    /// Everything on one breaker.
    pub(super) fn breaker(&self, w: &mut Working) -> Known<Current> {
        let load = w.stage(&[&BREAKER_LOAD], |w| {
            let sheet = ElectricalLoad {
                voltage: self.voltage,
                breaker: self.breaker_rating,
                ro: self.ro_current,
                machines: self.machines,
                machine: self.machine_current?,
                heater: self.heater,
                other: self.other_current?,
                share: self.continuous_share?,
            };
            sheet.run(w)
        });
        load.and_then(|load| load.load)
    }
}

//! What the dialysis machine and the socket add: warmth for the dialysate, current on the breaker.

use super::Plan;
use crate::engine::quantity::{Current, Power, Temperature};
use crate::engine::sheet::{Criterion, Known, Sheet, Working};
use crate::trade::drain::{BREAKER_LOAD, ElectricalLoad};
use crate::trade::machine::{MACHINE_HEATING, MachineHeating, PRODUCT_COOL_ENOUGH};
use crate::trade::membrane::{Season, tempered};

impl Plan {
    /// What the heater of a machine has to give to the coldest water, and whether the warmest is not too warm already.
    /// It asks for temperatures alone, so nothing of the RO stops it.
    pub(super) fn heating(&self, w: &mut Working) -> Known<Power> {
        // each end tells of one of both
        let ends = [
            (Season::Coldest, self.coldest_tap(), &MACHINE_HEATING),
            (Season::Warmest, self.warmest_tap(), &PRODUCT_COOL_ENOUGH),
        ];
        let [coldest, _] = w.worst_season(|w| {
            ends.map(|(season, tap, told)| w.in_season(season.id(), |w| self.heating_of(tap, told, w)))
        });
        coldest
    }

    fn heating_of(&self, tap: Known<Temperature>, told: &'static Criterion, w: &mut Working) -> Known<Power> {
        let heated = w.stage(&[told], |w| {
            let sheet = MachineHeating {
                flow: self.dialysate?,
                // which the product water is not colder than
                product: tempered(tap?, self.tempered_to()?),
                wanted: self.dialysate_temperature?,
                returned: self.heat_returned?,
                heater: self.heater,
            };
            sheet.run(w)
        });
        heated.map(|heated| heated.needed)
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

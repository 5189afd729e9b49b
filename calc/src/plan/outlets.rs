//! What the dialysis machine and the socket add: warmth for the dialysate, current on the breaker.

use super::Plan;
use crate::drain::{BREAKER_LOAD, ElectricalLoad};
use crate::machine::{MACHINE_HEATING, MachineHeating};
use crate::membrane::{Season, tempered};
use crate::quantity::{Current, Power, Temperature};
use crate::sheet::{Known, Sheet, Working};

impl Plan {
    /// What the heater of a machine has to give to the coldest water. It asks for temperatures alone, so nothing of
    /// the RO stops it.
    pub(super) fn heating(&self, w: &mut Working) -> Known<Power> {
        let heated = w.in_season(Season::Coldest.id(), |w| {
            w.stage(&[&MACHINE_HEATING], |w| {
                let sheet = MachineHeating {
                    flow: self.dialysate?,
                    product: self.coldest_feed()?,
                    wanted: self.dialysate_temperature?,
                    returned: self.heat_returned?,
                    heater: self.heater,
                };
                sheet.run(w)
            })
        });
        heated.map(|heated| heated.needed)
    }

    /// Which the product water is not colder than.
    fn coldest_feed(&self) -> Known<Temperature> {
        Ok(tempered(self.coldest_tap()?, self.tempered?))
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

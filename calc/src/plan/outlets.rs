//! What the dialysis machine and the socket add: warmth for the dialysate, current on the breaker.

use super::Plan;
use super::stages::NO_SEASON;
use crate::drain::{BREAKER_LOAD, ElectricalLoad};
use crate::machine::{MACHINE_HEATING, MachineHeating};
use crate::membrane::{Season, SeasonFlow};
use crate::quantity::{Current, Power};
use crate::sheet::{Known, Sheet, Working};

impl Plan {
    /// What the heater of a machine has to give to the coldest water.
    pub(super) fn heating(&self, seasons: &[SeasonFlow], w: &mut Working) -> Known<Power> {
        let coldest = seasons.iter().find(|at| at.season == Season::Coldest);
        let temperature = coldest.map_or(Err(NO_SEASON), |at| at.temperature);
        let heated = w.in_season(Season::Coldest.id(), |w| {
            w.stage(&[&MACHINE_HEATING], |w| {
                let sheet = MachineHeating {
                    flow: self.dialysate?,
                    product: temperature?,
                    wanted: self.dialysate_temperature?,
                    returned: None,
                    heater: self.heater,
                };
                sheet.run(w)
            })
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
                share: None,
            };
            sheet.run(w)
        });
        load.and_then(|load| load.load)
    }
}

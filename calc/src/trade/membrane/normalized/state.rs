//! One of the two states that are compared: its salt passage, its temperature correction, its net driving pressure.

use crate::engine::quantity::{
    Concentration, Conductivity, Flow, Pressure, PressureDifference, Ratio, Temperature,
};
use crate::engine::sheet::{Known, Missing, Problem, Sentence, Slot, Stop, Working};
use crate::step;
use crate::trade::bench::as_sodium_chloride;
use crate::trade::membrane::correction::{self, Factors};
use crate::trade::membrane::recovery::known_mean_factor;

/// One of the two states.
pub(super) struct State {
    pub name: &'static str,
    pub product: Flow,
    pub reject: Known<Flow>,
    pub temperature: Temperature,
    pub feed: Known<Conductivity>,
    pub permeate: Known<Conductivity>,
    pub pressure: Known<Pressure>,
    pub back_pressure: Pressure,
    pub drop: Known<PressureDifference>,
    /// What is taken off the driving pressure where no drop was read.
    pub drop_for_driving: PressureDifference,
    pub ids: Ids,
}

/// The fields to name where something cannot be so.
#[derive(Clone, Copy)]
pub(super) struct Ids {
    pub pressure: &'static str,
    pub drop: &'static str,
    pub reject_pressure: &'static str,
}

impl Ids {
    /// The pressure drop: as entered, otherwise as the difference of the gauges before and behind the membrane.
    pub fn drop(
        &self,
        pump: Known<Pressure>,
        entered: Option<PressureDifference>,
        reject: Option<Pressure>,
        name: &'static str,
    ) -> Result<Known<PressureDifference>, Stop> {
        match (entered, pump, reject) {
            (Some(drop), ..) => Ok(Ok(drop)),
            (None, Ok(pump), Some(reject)) if reject > pump => {
                let sentence = Sentence::plain(
                    "the reject pressure ({reject}) is above the pump pressure ({pump}); check whether the two gauges are swapped",
                );
                let sentence = sentence.quantity("reject", reject).quantity("pump", pump);
                Err(Problem::new(self.reject_pressure, sentence).into())
            }
            (None, Ok(pump), Some(reject)) => Ok(Ok(pump - reject)),
            (None, Err(missing), Some(_)) => Ok(Err(missing)),
            (None, _, None) => Ok(Err(Missing::empty(self.drop, name))),
        }
    }
}

/// What follows of one state.
pub(super) struct Found {
    pub factors: Factors,
    pub mean_factor: Known<f64>,
    /// With osmotic pressures.
    pub driving: Known<PressureDifference>,
    /// Without them.
    pub hydraulic: Known<PressureDifference>,
    pub passage: Known<Ratio>,
    pub drop: Known<PressureDifference>,
}

impl State {
    pub fn found(&self, per_conductivity: f64, w: &mut Working) -> Result<Found, Stop> {
        let temperature = self.temperature;
        let factors = w.quietly(|w| correction::factors(temperature, w));
        let recovery = self.reject.map(|reject| {
            let product = self.product;
            w.bind("product", "Q_p", product);
            w.bind("reject", "Q_c", reject);
            step!(w, recovery "Y": Ratio = product / (product + reject));
            recovery
        });
        let mean_factor = known_mean_factor(recovery, w);
        let passage = self.feed.and_then(|feed| {
            let permeate = self.permeate?;
            w.bind("feed", "κ_f", feed);
            w.bind("permeate", "κ_p", permeate);
            step!(w, passage "SP": Ratio = permeate / feed);
            Ok(passage)
        });
        let hydraulic = match self.pressure {
            Ok(pressure) => Ok(self.hydraulic(pressure, w)?),
            Err(missing) => Err(missing),
        };
        let driving = match hydraulic {
            Ok(hydraulic) => self.driving(hydraulic, mean_factor, per_conductivity, w)?,
            Err(missing) => Err(missing),
        };
        Ok(Found { factors, mean_factor, driving, hydraulic, passage, drop: self.drop })
    }

    /// What the pump presses with, without osmotic pressure: p − Δp/2 − p_p.
    fn hydraulic(&self, pressure: Pressure, w: &mut Working) -> Result<PressureDifference, Stop> {
        let back_pressure = self.back_pressure;
        let drop = self.drop.unwrap_or(self.drop_for_driving);
        w.bind("pressure", "p", pressure);
        w.bind("back_pressure", "p_p", back_pressure);
        w.bind("drop", "Δp", drop);
        step!(w, hydraulic "p_h" = pressure - back_pressure - drop / 2.0);
        self.is_positive(hydraulic, pressure)?;
        Ok(hydraulic)
    }

    /// Without a driving pressure no product could flow.
    fn is_positive(&self, driving: PressureDifference, pressure: Pressure) -> Result<(), Stop> {
        if driving.si() > 0.0 {
            return Ok(());
        }
        let sentence = Sentence::plain("{when} the pump pressure of {pressure} would be no more than the pressures against it, so no product could flow; check the pressures")
            .with("when", Slot::Word(self.name));
        Err(Problem::new(self.ids.pressure, sentence.quantity("pressure", pressure)).into())
    }

    /// Net driving pressure.
    ///
    /// # Formula
    /// NDP = p − Δp/2 − p_p − π_fb + π_p, π of C_fb = C_f · LMCF and of C_p, counted as sodium chloride
    ///
    /// # Source
    /// `astm-d4516-19a`, clause 6.1.
    fn driving(
        &self,
        hydraulic: PressureDifference,
        mean_factor: Known<f64>,
        per_conductivity: f64,
        w: &mut Working,
    ) -> Result<Known<PressureDifference>, Stop> {
        let all = || -> Known<_> { Ok((self.pressure?, mean_factor?, self.feed?, self.permeate?)) };
        let (pressure, mean_factor, feed, permeate) = match all() {
            Ok(all) => all,
            Err(missing) => return Ok(Err(missing)),
        };
        w.bind("per_conductivity", "k", per_conductivity);
        w.bind("feed", "κ_f", feed);
        w.bind("permeate", "κ_p", permeate);
        w.bind("mean_factor", "LMCF", mean_factor);
        // µS/cm and mg/L, from S/m and kg/m³
        step!(w, on_mean "C_fb": Concentration = 10.0 * per_conductivity * feed.si() * mean_factor);
        step!(w, in_product "C_p": Concentration = 10.0 * per_conductivity * permeate.si());
        let pressures = as_sodium_chloride(on_mean, self.temperature, w)
            .and_then(|feed| Ok((feed, as_sodium_chloride(in_product, self.temperature, w)?)));
        let (osmotic, osmotic_product) = match pressures {
            Ok(pressures) => pressures,
            Err(missing) => return Ok(Err(missing)),
        };
        w.bind("osmotic", "π_fb", osmotic);
        w.bind("osmotic_product", "π_p", osmotic_product);
        step!(w, driving "NDP" = hydraulic - osmotic + osmotic_product);
        self.is_positive(driving, pressure)?;
        Ok(Ok(driving))
    }
}

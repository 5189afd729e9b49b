//! One of the two states that are compared: its salt passage, its temperature correction, its net driving pressure.

use crate::engine::quantity::{
    Concentration, Conductivity, Flow, Pressure, PressureDifference, Ratio, Temperature,
};
use crate::engine::sheet::{Known, Problem, Sentence, Slot, Stop, Working};
use crate::step;
use crate::trade::bench::as_sodium_chloride;
use crate::trade::membrane::correction::{self, Factors, Form};
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
    pub back_pressure: Option<Pressure>,
    pub drop: Option<PressureDifference>,
    pub ids: Ids,
}

/// The fields to name where something cannot be so.
pub(super) struct Ids {
    pub pressure: &'static str,
    pub permeate: &'static str,
}

/// What follows of one state.
pub(super) struct Found {
    pub factors: Factors,
    pub mean_factor: Known<f64>,
    pub driving: Known<PressureDifference>,
    pub passage: Known<Ratio>,
}

impl State {
    pub fn found(&self, form: Form, per_conductivity: f64, w: &mut Working) -> Result<Found, Stop> {
        let temperature = self.temperature;
        let factors = w.quietly(|w| correction::factors(temperature, w));
        w.procedure(("factor", "TCF"), factors[form as usize], || {
            Sentence::plain("temperature correction at {temperature}, by the form “{form}”")
                .quantity("temperature", temperature)
                .with("form", Slot::Word(form.name()))
        });
        let recovery = self.reject.map(|reject| {
            let product = self.product;
            w.bind("product", "Q_p", product);
            w.bind("reject", "Q_c", reject);
            step!(w, recovery "Y": Ratio = product / (product + reject));
            recovery
        });
        let mean_factor = known_mean_factor(recovery, w);
        let passage = self.passage(w)?;
        let driving = self.driving(mean_factor, per_conductivity, w)?;
        Ok(Found { factors, mean_factor, driving, passage })
    }

    /// Salt passage by conductivity.
    fn passage(&self, w: &mut Working) -> Result<Known<Ratio>, Stop> {
        let (feed, permeate) = match (self.feed, self.permeate) {
            (Ok(feed), Ok(permeate)) => (feed, permeate),
            (Err(missing), _) | (_, Err(missing)) => return Ok(Err(missing)),
        };
        if permeate > feed {
            let sentence = Sentence::plain(
                "{when} the product ({product}) conducts more than the feed ({feed}); look whether the two readings are swapped",
            );
            let sentence = sentence.with("when", Slot::Word(self.name));
            return Err(Problem::new(
                self.ids.permeate,
                sentence.quantity("product", permeate).quantity("feed", feed),
            )
            .into());
        }
        w.bind("feed", "κ_f", feed);
        w.bind("permeate", "κ_p", permeate);
        step!(w, passage "SP": Ratio = permeate / feed);
        Ok(Ok(passage))
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
        let back_pressure = self.back_pressure.unwrap_or(Pressure::of(0.0));
        let drop = self.drop.unwrap_or(PressureDifference::of(0.0));
        w.bind("pressure", "p", pressure);
        w.bind("back_pressure", "p_p", back_pressure);
        w.bind("drop", "Δp", drop);
        w.bind("osmotic", "π_fb", osmotic);
        w.bind("osmotic_product", "π_p", osmotic_product);
        step!(w, driving "NDP" = pressure - back_pressure - drop / 2.0 - osmotic + osmotic_product);
        if driving.si() <= 0.0 {
            let sentence = Sentence::plain("{when} the pump pressure of {pressure} would be no more than what holds against it, so no product could flow; look at the pressures")
                .with("when", Slot::Word(self.name));
            return Err(Problem::new(self.ids.pressure, sentence.quantity("pressure", pressure)).into());
        }
        Ok(Ok(driving))
    }
}

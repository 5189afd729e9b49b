//! The pressure drop along the membrane, normalized to the flow and the water at start-up.

use super::NormalizedPerformance;
use super::state::Found;
use crate::engine::quantity::{Flow, PressureDifference, celsius, kelvin_difference};
use crate::engine::sheet::{Known, Missing, Working};
use crate::step;

impl NormalizedPerformance {
    /// The normalized pressure drop, and over that at start-up.
    ///
    /// # Formula
    /// Δp_s = Δp (Q_fb,0 / Q_fb)^1.5, or that times (1 + 0.017 (T − 25 °C)) / (1 + 0.017 (T_0 − 25 °C)); Q_fb = Q_c + Q_p/2
    ///
    /// # Accuracy
    /// Trade practice, not in ASTM D4516. It is printed with and without the term for the temperature: the higher result
    /// counts, since a rise must not be corrected away.
    ///
    /// # Source
    /// `common-practice`; the form with temperature as quoted by a secondary page on normalization.
    pub(super) fn normalized_drop(
        &self,
        today: &Found,
        start: &Found,
        w: &mut Working,
    ) -> Known<(PressureDifference, f64)> {
        let drop = readable(today.drop?, "membrane-drop")?;
        let drop_0 = readable(start.drop?, "baseline-membrane-drop")?;
        let (side, side_0) = (self.mean_flow(w)?, self.mean_flow_0(w)?);
        let (temperature, temperature_0) = (self.temperature, self.temperature_0);
        w.bind("drop", "Δp", drop);
        w.bind("drop_0", "Δp_0", drop_0);
        w.bind("temperature", "T", temperature);
        w.bind("temperature_0", "T_s", temperature_0);
        step!(w, by_flow "Δp_Q" = drop * (side_0 / side).powf(1.5));
        step!(w, warmth "k_T" = 1.0 + 0.017 * ((temperature - celsius(25.0)) / kelvin_difference(1.0)));
        step!(w, warmth_0 "k_T0" = 1.0 + 0.017 * ((temperature_0 - celsius(25.0)) / kelvin_difference(1.0)));
        step!(w, by_both "Δp_QT" = by_flow * (warmth / warmth_0));
        step!(w, kept "Δp_s" = by_flow.max(by_both));
        step!(w, ratio "Δp_s/Δp_0" = kept / drop_0);
        Ok((kept, ratio))
    }

    /// The flow along the membrane today, half-way between feed and reject.
    fn mean_flow(&self, w: &mut Working) -> Known<Flow> {
        let (product, reject) = (self.product, self.reject?);
        w.bind("product", "Q_p", product);
        w.bind("reject", "Q_c", reject);
        step!(w, side "Q_fb" = reject + product / 2.0);
        Ok(side)
    }

    /// The same at start-up.
    fn mean_flow_0(&self, w: &mut Working) -> Known<Flow> {
        let (product_0, reject_0) = (self.product_0, self.reject_0?);
        w.bind("product_0", "Q_p0", product_0);
        w.bind("reject_0", "Q_c0", reject_0);
        step!(w, side_0 "Q_fb,0" = reject_0 + product_0 / 2.0);
        Ok(side_0)
    }
}

/// Water that flows loses some pressure: gauges that show none cannot tell how much.
fn readable(drop: PressureDifference, field: &'static str) -> Known<PressureDifference> {
    if drop.si() > 0.0 {
        Ok(drop)
    } else {
        Err(Missing::not_known(
            field,
            "the gauges show no pressure drop, so they cannot tell whether it has risen",
        ))
    }
}

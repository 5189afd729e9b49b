//! First-order removal in granular carbon: C = C0 · exp(−k t), with the rates that are published, as a slow and a fast end.
//!
//! Free chlorine by the half-value length (EN 12915-1, annex; the test velocity is asked, since sources disagree on it).
//! Chloramine by one published pair: 2 mg/L come down to 0.1 in 8 min on the fastest carbon and in 20 min on more
//! traditional ones. Temperature by 3 to 5 % for each kelvin from 20 °C (recalled practice, no activation energy was found).

use crate::engine::quantity::{
    Chlorine, Length, Ph, Rate, Ratio, Temperature, Time, Velocity, celsius, kelvin_difference, minutes,
};
use crate::engine::sheet::{Known, Missing, Working};
use crate::{choice, step};

choice!(/// The two forms of chlorine that carbon removes in different ways.
    Species { FreeChlorine "free-chlorine" "Free chlorine", Chloramine "chloramine" "Chloramine" });

impl Species {
    /// Least and most that a gram of carbon takes up, in per cent of its mass.
    pub(super) const fn capacities(self) -> (f64, f64) {
        match self {
            // 1 to 2 g of Cl2 for a gram of carbon
            Species::FreeChlorine => (100.0, 200.0),
            // the least: a bed of 46.9 L was published as good for 156 dialyses of five hours at 1.5 mg/L, which are 35 g
            // in 22.5 kg where a dialysis takes half a litre a minute. The most: a recalled planning value, and the five
            // carbons of that paper differed tenfold
            Species::Chloramine => (0.16, 10.0),
        }
    }
}

/// What the rates depend on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Conditions {
    pub temperature: Option<Temperature>,
    pub acidity: Known<Ph>,
    pub half_length: Known<Length>,
    pub velocity: Known<Velocity>,
}

/// Times in which 2 mg/L of chloramine come down to 0.1 mg/L.
const FASTEST: Time = minutes(8.0);
const TRADITIONAL: Time = minutes(20.0);

impl Conditions {
    fn warmth(&self) -> Temperature {
        self.temperature.unwrap_or(celsius(20.0))
    }

    /// Share of the free chlorine that is HOCl; the other form, OCl⁻, is credited with nothing at the slow end.
    pub(super) fn fast_form(&self, w: &mut Working) -> Known<Ratio> {
        let acidity = self.acidity?;
        let temperature = self.warmth();
        w.bind("acidity", "pH", acidity);
        w.bind("temperature", "T", temperature);
        // 7.54 at 25 °C and about 7.75 at 5 °C, from memory, on a straight line
        step!(w, constant "pK_a": f64 = 7.54 + 0.0105 * ((celsius(25.0) - temperature) / kelvin_difference(1.0)));
        step!(w, fast_form "f_HOCl": Ratio = 1.0 / (1.0 + 10.0_f64.powf(acidity.si() - constant)));
        Ok(fast_form)
    }

    /// Rates at the slow and at the fast end.
    fn rates(&self, species: Species, w: &mut Working) -> (Known<Rate>, Known<Rate>) {
        let temperature = self.warmth();
        w.bind("temperature", "T", temperature);
        step!(w, above "ΔT": f64 = (temperature - celsius(20.0)) / kelvin_difference(1.0));
        // slower when colder by the steeper of the two, and no credit for warmth; the fast end the other way round
        step!(w, slow_factor "θ_slow": f64 = 1.05_f64.powf(above).min(1.0));
        step!(w, fast_factor "θ_fast": f64 = 1.03_f64.powf(above).max(1.05_f64.powf(above)));
        match species {
            Species::Chloramine => {
                let (traditional, fastest) = (TRADITIONAL, FASTEST);
                w.bind("traditional", "t_slow", traditional);
                w.bind("fastest", "t_fast", fastest);
                step!(w, slow "k_slow": Rate = 20.0_f64.ln() / traditional.si() * slow_factor);
                step!(w, fast "k_fast": Rate = 20.0_f64.ln() / fastest.si() * fast_factor);
                (Ok(slow), Ok(fast))
            }
            Species::FreeChlorine => {
                let plain = self.half_length.and_then(|half_length| {
                    let velocity = self.velocity?;
                    w.bind("half_length", "h", half_length);
                    w.bind("velocity", "v", velocity);
                    step!(w, plain "k_20": Rate = 2.0_f64.ln() * velocity.si() / half_length.si());
                    Ok(plain)
                });
                let fast = plain.map(|plain| {
                    step!(w, fast "k_fast" = plain * fast_factor);
                    fast
                });
                let slow = plain.and_then(|plain| {
                    let fast_form = self.fast_form(w)?;
                    step!(w, slow "k_slow" = plain * slow_factor * fast_form);
                    Ok(slow)
                });
                (slow, fast)
            }
        }
    }
}

/// What is left behind the carbon, at the slow and at the fast end.
pub(super) fn outlets(
    species: Species,
    inlet: Chlorine,
    time: Known<Time>,
    conditions: &Conditions,
    w: &mut Working,
) -> (Known<Chlorine>, Known<Chlorine>) {
    let (slow, fast) = conditions.rates(species, w);
    let mut left = |rate: Known<Rate>| {
        let (rate, time): (Rate, Time) = (rate?, time?);
        w.bind("inlet", "C_0", inlet);
        w.bind("rate", "k", rate);
        w.bind("time", "t", time);
        step!(w, outlet "C": Chlorine = inlet.si() * (-rate.si() * time.si()).exp());
        Ok::<Chlorine, Missing>(outlet)
    };
    (left(slow), left(fast))
}

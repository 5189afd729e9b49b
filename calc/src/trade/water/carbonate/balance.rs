//! The balance itself, round by round: activities from the ionic strength, carbonate from the alkalinity, free ions from
//! their totals, and again.

use super::constants::{
    CA, CAHCO3_ION, H, HCO3_ION, K, MG, MGHCO3_ION, MGOH_ION, NA, OH, SO4, Size, UNCHARGED, decades,
};
use super::{Chemistry, Equilibrium, TOO_SALTY, Totals, Unsolved};
use crate::engine::quantity::{Molality, Ph};
use crate::engine::solve::bracket::{Ended, Point, narrow};

/// Rounds after which a water that has not settled is given up; tap water takes 10 to 20.
const ROUNDS: u32 = 400;
/// Relative change of carbonate, ionic strength and hydrogen ion below which it has settled.
const SETTLED: f64 = 1e-11;
/// Where a pH is looked for.
const PH_RANGE: (f64, f64) = (2.0, 13.0);

/// Activity coefficients, most of what a balance costs. What is only divided by is kept as one over it.
struct Gamma {
    co3: f64,
    ca: f64,
    mg: f64,
    na: f64,
    k: f64,
    so4: f64,
    per_h: f64,
    per_oh: f64,
    per_hco3: f64,
    per_cahco3: f64,
    per_mgoh: f64,
    per_mghco3: f64,
    /// Of single charged pairs without a size of their own.
    per_pair: f64,
    per_uncharged: f64,
}

impl Gamma {
    fn of(chemistry: &Chemistry, strength: f64) -> Self {
        let law = &chemistry.debye_hueckel;
        let log = |(charge, size, slope): Size| law.sized(charge, size, slope, strength);
        let (sized, per) = (|ion: Size| decades(log(ion)), |ion: Size| decades(-log(ion)));
        let per_hco3 = per(HCO3_ION);
        Self {
            co3: 1.0 / per_hco3.powi(4),
            ca: sized(CA),
            mg: sized(MG),
            na: sized(NA),
            k: sized(K),
            so4: sized(SO4),
            per_h: per(H),
            per_oh: per(OH),
            per_hco3,
            per_cahco3: per(CAHCO3_ION),
            per_mgoh: per(MGOH_ION),
            per_mghco3: per(MGHCO3_ION),
            per_pair: decades(-law.davies(1.0, strength)),
            per_uncharged: decades(-UNCHARGED * strength),
        }
    }
}

/// Free ions in mol/kg, as far as they are known.
#[derive(Clone, Copy)]
struct Free {
    ca: f64,
    mg: f64,
    na: f64,
    so4: f64,
    co3: f64,
    strength: f64,
    /// Ionic strength that these ions would have without the bound of the law.
    unbounded: f64,
    ph: f64,
    carbon_dioxide: f64,
    carbon: f64,
    calcite: f64,
    gypsum: f64,
    /// Decades of carbon dioxide that one of pH takes, at the same alkalinity.
    slope: f64,
    /// Whether the alkalinity is used up by hydroxide and silicate.
    is_used_up: bool,
}

impl Free {
    fn first(totals: &Totals, ph: f64) -> Self {
        let &Totals { calcium, magnesium, sodium, potassium, sulfate, alkalinity, others, .. } = totals;
        let strength =
            0.5 * (4.0 * (calcium + magnesium + sulfate) + sodium + potassium + alkalinity + others);
        Self {
            ca: calcium,
            mg: magnesium,
            na: sodium,
            so4: sulfate,
            co3: 0.0,
            strength: strength.min(TOO_SALTY.si()),
            unbounded: strength,
            ph,
            carbon_dioxide: 0.0,
            carbon: 0.0,
            calcite: 0.0,
            gypsum: 0.0,
            slope: 1.0,
            is_used_up: false,
        }
    }

    /// One round; `h` is the activity of the hydrogen ion at the present pH.
    fn next(&self, chemistry: &Chemistry, totals: &Totals, h: f64) -> Self {
        let k = &chemistry.constants;
        let g = Gamma::of(chemistry, self.strength);
        let per_h = 1.0 / h;
        let &Free { ca, mg, na, so4, .. } = self;
        // what a mole of free carbonate brings with it
        let bicarbonate = k.hco3 * h * g.co3;
        let hco3 = bicarbonate * g.per_hco3;
        let co2 = k.co2 * h * h * g.co3 * g.per_uncharged;
        let caco3 = k.caco3 * g.ca * g.co3 * g.per_uncharged;
        let cahco3 = k.cahco3 * h * g.ca * g.co3 * g.per_cahco3;
        let mgco3 = k.mgco3 * g.mg * g.co3 * g.per_uncharged;
        let mghco3 = k.mghco3 * h * g.mg * g.co3 * g.per_mghco3;
        let naco3 = k.naco3 * g.na * g.co3 * g.per_pair;
        let nahco3 = k.nahco3 * g.na * bicarbonate * g.per_uncharged;
        // and of the others
        let caso4 = k.caso4 * g.ca * g.so4 * g.per_uncharged;
        let mgso4 = k.mgso4 * g.mg * g.so4 * g.per_uncharged;
        let naso4 = k.naso4 * g.na * g.so4 * g.per_hco3;
        let kso4 = k.kso4 * g.k * g.so4 * g.per_hco3;
        let hso4 = k.hso4 * h * g.so4 * g.per_pair;
        let caoh = k.caoh * g.ca * per_h * g.per_pair;
        let mgoh = k.mgoh * g.mg * per_h * g.per_mgoh;
        let hydrogen = h * g.per_h;
        let hydroxide = k.water * per_h * g.per_oh;
        let silicate = k.h3sio4 * per_h * g.per_mghco3 / g.per_uncharged;
        let silicate = totals.silica * silicate / (1.0 + silicate);

        let once = hco3 + cahco3 * ca + mghco3 * mg + nahco3 * na;
        let twice = 2.0 * (1.0 + caco3 * ca + mgco3 * mg + naco3 * na);
        let left = totals.alkalinity - hydroxide - silicate - caoh * ca - mgoh * mg + hydrogen + hso4 * so4;
        let co3 = left.max(0.0) / (once + twice);

        let ca = totals.calcium / (1.0 + (caco3 + cahco3) * co3 + caso4 * so4 + caoh);
        let mg = totals.magnesium / (1.0 + (mgco3 + mghco3) * co3 + mgso4 * so4 + mgoh);
        let na = totals.sodium / (1.0 + (naco3 + nahco3) * co3 + naso4 * so4);
        let potassium = totals.potassium / (1.0 + kso4 * so4);
        let so4 = totals.sulfate / (1.0 + caso4 * ca + mgso4 * mg + naso4 * na + kso4 * potassium + hso4);

        let single = na
            + potassium
            + hydrogen
            + hydroxide
            + silicate
            + (hco3 + cahco3 * ca + mghco3 * mg + naco3 * na) * co3
            + (naso4 * na + kso4 * potassium + hso4) * so4
            + caoh * ca
            + mgoh * mg
            + totals.others;
        let strength = 0.5 * (single + 4.0 * (ca + mg + so4 + co3));
        Self {
            ca,
            mg,
            na,
            so4,
            co3,
            strength: strength.min(TOO_SALTY.si()),
            unbounded: strength,
            ph: self.ph,
            carbon_dioxide: co2 * co3,
            carbon: (co2 + once + twice / 2.0) * co3,
            calcite: g.ca * ca * g.co3 * co3 / k.calcite,
            gypsum: g.ca * ca * g.so4 * so4 / k.gypsum,
            slope: 2.0 - once / (once + twice)
                + if left > 0.0 { (hydrogen + hydroxide + silicate) / left } else { 0.0 },
            is_used_up: left <= 0.0,
        }
    }

    fn has_settled(&self, before: &Self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() <= SETTLED * a.abs().max(b.abs());
        near(self.co3, before.co3) && near(self.strength, before.strength) && near(self.ph, before.ph)
    }

    fn result(&self, rounds: u32) -> Result<Equilibrium, Unsolved> {
        if self.unbounded > TOO_SALTY.si() || !self.unbounded.is_finite() {
            return Err(Unsolved::TooSalty);
        }
        Ok(Equilibrium {
            ph: Ph::of(self.ph),
            carbon_dioxide: Molality::of(self.carbon_dioxide),
            carbon: Molality::of(self.carbon),
            ionic_strength: Molality::of(self.unbounded),
            calcite: self.calcite,
            gypsum: self.gypsum,
            rounds,
        })
    }
}

/// The water at this pH.
pub(super) fn at_ph(chemistry: &Chemistry, totals: &Totals, ph: f64) -> Result<Equilibrium, Unsolved> {
    let mut free = Free::first(totals, ph);
    let h = decades(-ph);
    for round in 1..=ROUNDS {
        let next = free.next(chemistry, totals, h);
        let has_settled = next.has_settled(&free);
        free = next;
        if has_settled {
            return if free.is_used_up { Err(Unsolved::PhDoesNotFit) } else { free.result(round) };
        }
    }
    Err(Unsolved::TooSalty)
}

/// The water that holds so much carbon dioxide: the pH is moved in every round.
pub(super) fn at_carbon_dioxide(
    chemistry: &Chemistry,
    totals: &Totals,
    carbon_dioxide: f64,
) -> Result<Equilibrium, Unsolved> {
    // carbon dioxide of nothing would ask for an endless pH
    let carbon_dioxide = carbon_dioxide.max(1e-12);
    // begun as if all of the alkalinity were hydrogen carbonate
    let k = &chemistry.constants;
    let first = (k.co2 * totals.alkalinity.max(0.0) / (k.hco3 * carbon_dioxide)).log10();
    let mut free = Free::first(totals, first.clamp(PH_RANGE.0, PH_RANGE.1));
    for round in 1..=ROUNDS {
        let mut next = free.next(chemistry, totals, decades(-free.ph));
        if next.is_used_up {
            next.ph -= 0.3;
        } else {
            let decades = (next.carbon_dioxide / carbon_dioxide).log10();
            next.ph += (decades / next.slope).clamp(-0.5, 0.5);
        }
        next.ph = next.ph.clamp(PH_RANGE.0, PH_RANGE.1);
        let has_settled = next.has_settled(&free);
        free = next;
        if has_settled {
            return free.result(round);
        }
    }
    // nearly pure or very alkaline water, whose alkalinity is a small difference
    at_root(chemistry, totals, |found| found.carbon_dioxide.si(), carbon_dioxide)
}

/// The water that holds so much carbonic acid in all its forms.
pub(super) fn at_carbon(
    chemistry: &Chemistry,
    totals: &Totals,
    carbon: f64,
) -> Result<Equilibrium, Unsolved> {
    at_root(chemistry, totals, |found| found.carbon.si(), carbon)
}

/// The water in which so much is found of what becomes the less the higher the pH is, at the same alkalinity.
fn at_root(
    chemistry: &Chemistry,
    totals: &Totals,
    of: impl Fn(&Equilibrium) -> f64,
    wanted: f64,
) -> Result<Equilibrium, Unsolved> {
    let mut above = |ph: f64| {
        let above = match at_ph(chemistry, totals, ph) {
            Ok(found) => of(&found) - wanted,
            Err(Unsolved::PhDoesNotFit) => -wanted,
            Err(Unsolved::TooSalty) => f64::NAN,
        };
        Point { x: ph, above }
    };
    let (low, high) = (above(PH_RANGE.0), above(PH_RANGE.1));
    if low.above.is_nan() || high.above.is_nan() {
        return Err(Unsolved::TooSalty);
    }
    if low.above * high.above >= 0.0 {
        return Err(Unsolved::PhDoesNotFit);
    }
    let ph = match narrow(low, high, 1e-13, &mut above) {
        Ended::Equal(_, at, _) => at.x,
        Ended::Across(left, _) => left.x,
        Ended::Missing(..) => return Err(Unsolved::TooSalty),
    };
    at_ph(chemistry, totals, ph)
}

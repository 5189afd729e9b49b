//! Litres, hours and days between two regenerations, salt, and the hardness that is left at the end of the day.
//!
//! Rests on conservation of hardness, on the trade's tables of capacity by salt dose, and for iron on a fouling allowance
//! on which sources disagree (2, 3, up to 5 gpg for each mg/L). It does not predict leakage: a drop test after the last
//! session shows it.

use super::salt;
use crate::engine::quantity::{
    Concentration, Density, ExchangeCapacity, Flow, Hardness, HardnessPerMetal, Mass, Ratio, ResinCapacity,
    Time, Volume, days, gpg_per_milligram_per_litre, grains_per_gallon,
    kinds::{CONCENTRATION, EXCHANGE_CAPACITY, HARDNESS, MASS, RESIN_CAPACITY, TIME, VOLUME},
    percent,
};
use crate::engine::sheet::{
    Caution, Criterion, Evaluate, Judges, Known, Missing, Problem, Sentence, Side, Stage, Stop, Term,
    Working, source,
};
use crate::trade::terms::{carbon, place, softener};
use crate::{sheet, step};

/// Whether the softener lasts from one regeneration to the next.
pub static SOFTENER_LASTS: Criterion = Criterion {
    id: "softener-capacity",
    sentence: "Hardness to remove between two regenerations, within the softener's capacity",
    stage: Stage::Softener,
    side: Side::AtMost,
    forecast: true,
    source: &source::MASS_BALANCE,
    levers: &["resin-volume", "regeneration-interval", "salt-dose"],
    cases: &[],
    judges: Judges::NoOutput,
};

/// What may be left in softened water before the RO.
pub static SOFTENED_WATER: Criterion = Criterion {
    id: "hardness-after-softener",
    sentence: "Hardness after the softener at the end of the day",
    stage: Stage::Softener,
    side: Side::Below,
    forecast: false,
    source: &source::DIALYSIS_MONITORING,
    levers: &["resin-volume", "regeneration-interval"],
    cases: &[],
    judges: Judges::NoOutput,
};

static DROP_TEST_DECIDES: Caution = Caution {
    id: "drop-test-decides",
    text: "A softener may leak long before its capacity is used up. A drop test of the softened water at the end of the day decides, together with the RO's own instructions.",
};

static SODIUM_RISES: Caution = Caution {
    id: "sodium-rises",
    text: "A softener exchanges calcium and magnesium for sodium, which the RO then has to reject. Brine left in the softener after a regeneration reaches the RO: rinse it out as its instructions say.",
};

sheet! {
    /// How long the softener lasts between two regenerations at the highest flow, what that costs in salt, and whether the water was still soft at the end of the day.
    Softener, "softener", "Softener", Stage::Softener,
    also: &["regeneration", "resin", "gpg"],
    sources: &[&source::MASS_BALANCE, &source::RESIN_TABLES, &source::DIALYSIS_MONITORING, &source::COMMON_PRACTICE],
    cautions: &[&DROP_TEST_DECIDES, &SODIUM_RISES],
    criteria: &[&SOFTENER_LASTS, &SOFTENED_WATER],
    inputs: {
        resin     "resin-volume":            Volume                   = place::RESIN_VOLUME,
        capacity  "resin-capacity":          Option<ResinCapacity>    = softener::CAPACITY,
        salt_dose "salt-dose":               Known<Density>           = softener::SALT_DOSE,
        hardness  "hardness":                Hardness                 = place::HARDNESS_AT_TAP,
        iron      "iron":                    Option<Concentration>    = softener::IRON,
        factor    "iron-factor":             Option<HardnessPerMetal> = softener::IRON_FACTOR,
        manganese "manganese":               Option<Concentration>    = softener::MANGANESE,
        flow      "flow":                    Known<Flow>              = carbon::HIGHEST_FLOW.named("Highest flow through the softener"),
        running   "daily-running-time":      Known<Time>              = softener::DAILY_RUNNING_TIME,
        interval  "regeneration-interval":   Known<Time>              = softener::REGENERATION_INTERVAL,
        reserve   "softener-reserve":        Option<Ratio>            = softener::RESERVE,
        after     "hardness-after-softener": Known<Hardness>          = softener::HARDNESS_AFTER,
    }
    outputs Outputs: {
        load     "hardness-to-remove":           Hardness                = Term::number(&HARDNESS, "Hardness to remove, with the allowance for iron", "H_L"),
        capacity "resin-capacity-counted":       Known<ResinCapacity>    = Term::number(&RESIN_CAPACITY, "Resin capacity used here, as CaCO3", "q_r"),
        usable   "softener-capacity":            Known<ExchangeCapacity> = Term::number(&EXCHANGE_CAPACITY, "Softener capacity, less the reserve, as CaCO3", "M"),
        volume   "volume-between-regenerations": Known<Volume>           = Term::number(&VOLUME, "Softened water between two regenerations", "V"),
        hours    "hours-between-regenerations":  Known<Time>             = Term::number(&TIME, "Running time to exhaustion, at the highest flow", "t").units("h", "h"),
        until    "days-between-regenerations":   Known<Time>             = Term::number(&TIME, "Days to exhaustion", "t_days").units("d", "d"),
        day      "hardness-of-a-day":            Known<ExchangeCapacity> = Term::number(&EXCHANGE_CAPACITY, "Hardness to remove per day, as CaCO3", "M_d"),
        needed   "needed-resin-volume":          Known<Volume>           = Term::number(&VOLUME, "Resin volume needed between two regenerations", "V_need").units("L", "ft³"),
        salt     "salt-per-regeneration":        Known<Mass>             = Term::number(&MASS, "Salt per regeneration", "m_s"),
        year     "salt-per-year":                Known<Mass>             = Term::number(&MASS, "Salt per year", "m_y"),
        sodium   "sodium-added":                 Concentration           = Term::number(&CONCENTRATION, "Sodium added to the water", "ΔNa"),
    }
}

const NO_SOFTENER: Missing = Missing::none_exists("there is no softener");
const NOTHING_TO_TAKE_UP: Missing = Missing::none_exists("this water has no hardness to remove");

impl Evaluate for Softener {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let &Softener { resin, hardness, flow, running, interval, .. } = self;
        let load = self.load(w);
        // molar masses of two Na and of CaCO3 (IUPAC 2021)
        step!(w, sodium "ΔNa": Concentration = 45.980 / 100.086 * hardness.si());
        let capacity = self.capacity(w)?;
        let reserve = self.reserve.unwrap_or(percent(0.0));
        w.bind("reserve", "r", reserve);
        let usable = if resin.si() > 0.0 { capacity } else { Err(NO_SOFTENER) }.map(|capacity| {
            w.bind("capacity", "q_r", capacity);
            step!(w, usable "M" = capacity * resin * (1.0 - reserve));
            usable
        });
        let volume = usable.and_then(|usable| {
            let has_load = load.si() > 0.0;
            has_load.then_some(()).ok_or(NOTHING_TO_TAKE_UP)?;
            step!(w, volume "V" = usable / load);
            Ok(volume)
        });
        let hours = volume.and_then(|volume| {
            let flow = self.flow_in_range(flow?, w);
            step!(w, hours "t" = volume / flow);
            Ok(hours)
        });
        let until = hours.and_then(|hours| {
            let running = running_at_all(running?)?;
            step!(w, until "t_days" = hours / running * days(1.0));
            Ok(until)
        });
        let day = flow.and_then(|flow| {
            let running = running?;
            step!(w, day "M_d" = flow * running * load);
            Ok(day)
        });
        let between = day.and_then(|day| {
            let interval = interval?;
            step!(w, between "M_reg" = day * (interval / days(1.0)));
            Ok(between)
        });
        w.judge_known(&SOFTENER_LASTS, between, usable);
        w.judge_known(&SOFTENED_WATER, self.after, Ok(grains_per_gallon(1.0)));
        let needed = between.and_then(|between| {
            let capacity = capacity?;
            step!(w, needed "V_need" = between / (capacity * (1.0 - reserve)));
            Ok(needed)
        });
        let (salt, year) = self.salt(interval.or(until), w);
        Ok(Outputs { load, capacity, usable, volume, hours, until, day, needed, salt, year, sodium })
    }
}

fn running_at_all(running: Time) -> Known<Time> {
    (running.si() > 0.0).then_some(running).ok_or(Missing::none_exists("the RO does not run at all"))
}

impl Softener {
    /// Hardness with the allowance for iron; manganese is told and not counted.
    fn load(&self, w: &mut Working) -> Hardness {
        if let Some(manganese) = self.manganese.filter(|manganese| manganese.si() > 0.0) {
            w.warn(
                "manganese", "manganese-not-counted",
                Sentence::plain("{manganese} of manganese is not counted in the hardness. It fouls resin and membrane, and it colors (colours) a chlorine test")
                    .quantity("manganese", manganese),
            );
        }
        let hardness = self.hardness;
        let Some(iron) = self.iron.filter(|iron| iron.si() > 0.0) else {
            w.bind("load", "H", hardness);
            return hardness;
        };
        let iron_factor = self.factor.unwrap_or(gpg_per_milligram_per_litre(3.0));
        w.bind("iron", "Fe", iron);
        w.bind("iron_factor", "f_Fe", iron_factor);
        step!(w, load "H_L" = hardness + iron_factor * iron);
        load
    }

    /// From the label, or from the salt dose.
    fn capacity(&self, w: &mut Working) -> Result<Known<ResinCapacity>, Stop> {
        let capacity = match self.capacity {
            Some(capacity) => Ok(capacity),
            None => match self.salt_dose {
                Ok(dose) => salt::capacity(dose, w),
                Err(_) => Err(Missing::not_known(
                    "resin-capacity",
                    "enter the resin capacity, or the salt dose that it depends on",
                )),
            },
        };
        if let (Ok(capacity), Ok(dose)) = (capacity, self.salt_dose)
            && capacity.si() > salt::MOST_FOR_SALT * dose.si()
        {
            return Err(Problem::new(
                "resin-capacity",
                "no salt dose gives so much: 1 kg of salt regenerates 0.856 kg of hardness at most (5,994 grains per pound). Check capacity and dose",
            )
            .into());
        }
        Ok(capacity)
    }

    fn flow_in_range(&self, flow: Flow, w: &mut Working) -> Flow {
        if flow > salt::flow_for(self.resin) {
            w.warn(
                "flow", "fast-through-resin",
                "more than 40 bed volumes per hour (5 gpm/ft³): hardness leaks through before the capacity is used up (common practice, no source)",
            );
        }
        flow
    }

    /// Salt for one regeneration, and in a year of 365 days with this time between two of them.
    fn salt(&self, interval: Known<Time>, w: &mut Working) -> (Known<Mass>, Known<Mass>) {
        let resin = self.resin;
        let salt = self.salt_dose.and_then(|salt_dose| {
            (resin.si() > 0.0).then_some(()).ok_or(NO_SOFTENER)?;
            w.bind("salt_dose", "d_s", salt_dose);
            step!(w, salt "m_s" = salt_dose * resin);
            Ok(salt)
        });
        let year = salt.and_then(|salt| {
            let interval = interval?;
            w.bind("interval", "t_reg", interval);
            step!(w, year "m_y" = salt * (days(365.0) / interval));
            Ok(year)
        });
        (salt, year)
    }
}

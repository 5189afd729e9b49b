//! The stages that are used up: the softener between two regenerations, the first carbon until it is replaced.

use super::report::HardWater;
use super::{Plan, WaterSource};
use crate::engine::quantity::{ExchangeCapacity, Flow, Time, Volume, kinds};
use crate::engine::sheet::{Check, Known, Missing, Sheet, State, Term, Working, part};
use crate::output_row;
use crate::trade::carbon::{CARBON_LIFE, CarbonLife};
use crate::trade::day::DayOfSessions;
use crate::trade::membrane::{Season, SeasonFlow};
use crate::trade::softener::{SOFTENED_WATER, SOFTENER_LASTS, Softener};
use crate::trade::terms::place;

output_row! {
    /// How long the softener lasts at one time of the year.
    SoftenerAt {
        season "season":            Season                  = Term::other("When"),
        hours  "hours":             Known<Time>             = Term::number(&kinds::TIME, "Running time until it is used up", "t").units("h", "h"),
        days   "days":              Known<Time>             = Term::number(&kinds::TIME, "Days until it is used up", "t_days").units("d", "d"),
        day    "hardness-of-a-day": Known<ExchangeCapacity> = Term::number(&kinds::EXCHANGE_CAPACITY, "Hardness load per day, as CaCO3", "M_d"),
    }
}

output_row! {
    /// How long the first carbon may last at one time of the year, at most.
    CarbonLifeAt {
        season   "season":                Season        = Term::other("When"),
        least    "sessions-at-least":     Known<f64>    = Term::number(&kinds::NUMBER, "Sessions, at least", "n_min"),
        sessions "sessions-at-most":      Known<f64>    = Term::number(&kinds::NUMBER, "Sessions, at most", "n_max"),
        litres   "litres-at-most":        Known<Volume> = Term::number(&kinds::VOLUME, "Water through it, at most", "V_max"),
        flow     "flow-for-limit":        Known<Flow>   = Term::number(&kinds::FLOW, "Highest flow at which one carbon reaches 0.1 mg/L", "Q_max"),
        series   "flow-for-limit-series": Known<Flow>   = Term::number(&kinds::FLOW, "Highest flow at which both reach it, by contact alone", "Q_both"),
    }
}

const IRON_OF_A_WELL: Missing = Missing::not_known(
    "iron",
    "the water of a well is never taken as free of iron, which uses up the softener: have it tested",
);

impl Plan {
    /// The softener, where there is one, at its worst time of the year.
    pub(super) fn softener(
        &self,
        seasons: &[SeasonFlow],
        water: HardWater,
        day: &Known<DayOfSessions>,
        w: &mut Working,
    ) -> Vec<SoftenerAt> {
        if self.resin.is_ok_and(|resin| resin.is_none_or(|resin| resin.si() == 0.0)) {
            return Vec::new();
        }
        w.worst_season(|w| {
            self.telling(seasons)
                .map(|at| w.in_season(at.season.when(), |w| self.softener_at(at, water, day, w)))
                .collect()
        })
    }

    fn softener_at(
        &self,
        at: &SeasonFlow,
        water: HardWater,
        day: &Known<DayOfSessions>,
        w: &mut Working,
    ) -> SoftenerAt {
        let before = w.checks().len();
        let lasts = w.stage(&[&SOFTENER_LASTS, &SOFTENED_WATER], |w| {
            let sheet = Softener {
                resin: self.resin?.unwrap_or(Volume::of(0.0)),
                capacity: self.resin_capacity?,
                salt_dose: Err(Missing::not_known("resin-capacity", "")),
                hardness: water.hardness?,
                iron: water.iron?,
                factor: self.iron_factor?,
                manganese: None,
                flow: at.feed,
                running: self.running_in_a_day(day),
                interval: self.regeneration,
                reserve: None,
                after: self.softened,
            };
            sheet.run(w)
        });
        // iron can only use up more of the softener
        if self.source == Ok(Some(WaterSource::Well)) && matches!(water.iron, Ok(None)) {
            let passes =
                |check: &&mut Check| check.criterion.id == SOFTENER_LASTS.id && check.state == State::Met;
            for check in w.checks_mut()[before..].iter_mut().filter(passes) {
                check.state = State::NotKnown;
                check.missing = Some(IRON_OF_A_WELL);
            }
        }
        SoftenerAt {
            season: at.season,
            hours: part(&lasts, |lasts| lasts.hours),
            days: part(&lasts, |lasts| lasts.until),
            day: part(&lasts, |lasts| lasts.day),
        }
    }

    /// The first carbon; never judged as met, since a test decides.
    pub(super) fn carbon_life(
        &self,
        seasons: &[SeasonFlow],
        day: &Known<DayOfSessions>,
        w: &mut Working,
    ) -> Vec<CarbonLifeAt> {
        w.worst_season(|w| {
            self.telling(seasons)
                .map(|at| w.in_season(at.season.when(), |w| self.carbon_life_at(at, day, w)))
                .collect()
        })
    }

    fn carbon_life_at(&self, at: &SeasonFlow, day: &Known<DayOfSessions>, w: &mut Working) -> CarbonLifeAt {
        let life = w.stage(&[&CARBON_LIFE], |w| {
            let sheet = CarbonLife {
                kind: self
                    .carbon_kind
                    .and_then(|kind| kind.ok_or(Missing::empty("carbon-kind", place::CARBON_KIND.name))),
                bed: self.bed,
                second: self.second_bed?,
                flow: Ok(at.feed?),
                running: self.running_for_a_session(day),
                total: Ok(self.total_chlorine?),
                free: self.free_chlorine?,
                highest: self.highest_chlorine?,
                rated_for: self.rated_for,
                rated: self.rated,
                rated_flow: self.rated_flow,
                rated_in: self.rated_in,
                rated_out: self.rated_out,
                density: None,
                capacity: None,
                temperature: at.temperature.ok(),
                acidity: Err(Missing::not_known("", "")),
                half_length: Err(Missing::not_known("", "")),
                velocity: Err(Missing::not_known("", "")),
            };
            sheet.run(w)
        });
        CarbonLifeAt {
            season: at.season,
            least: part(&life, |life| life.least),
            sessions: part(&life, |life| life.sessions),
            litres: part(&life, |life| life.litres),
            flow: part(&life, |life| life.first_flow),
            series: part(&life, |life| life.both_flow),
        }
    }
}

/// After how many sessions the first carbon is spent at the time of the year when that is soonest.
pub(super) fn fewest(lives: &[CarbonLifeAt]) -> Known<f64> {
    let mut sessions = lives.iter().map(|at| at.sessions);
    let first = sessions.next().unwrap_or(Err(super::stages::NO_SEASON))?;
    sessions.try_fold(first, |fewest, sessions| Ok(fewest.min(sessions?)))
}

/// How long it lasts at the time of the year when that is shortest.
pub(super) fn shortest(softener: &[SoftenerAt]) -> Known<Time> {
    let mut hours = softener.iter().map(|at| at.hours);
    let first = hours.next().unwrap_or(Err(Missing::none_exists("there is no softener")))?;
    hours.try_fold(first, |shortest, hours| Ok(shortest.min(hours?)))
}

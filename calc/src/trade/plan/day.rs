//! A day of sessions: whether they fit, how much water they take, what it costs.

use super::{CarbonLifeAt, Plan, used_up};
use crate::engine::quantity::{Flow, Time};
use crate::engine::sheet::{Known, Missing, Sheet, Working, part};
use crate::trade::bench::{WaterCost, WaterCosts};
use crate::trade::day::{
    CarbonChange, DAY_LONG_ENOUGH, DayOfSessions, DayPlan, FirstCarbon, HoursOfSession, until_change,
};
use crate::trade::machine::Demands;
use crate::trade::membrane::SeasonFlow;

impl Plan {
    /// The day, at the highest flow of the year.
    pub(super) fn day(
        &self,
        seasons: &[SeasonFlow],
        demands: &Known<Demands>,
        w: &mut Working,
    ) -> Known<DayOfSessions> {
        w.stage(&[&DAY_LONG_ENOUGH], |w| {
            let sheet = DayPlan {
                session: self.session_time,
                set_up: self.set_up,
                started: self.started?,
                rinse: self.rinse?,
                around: self.around,
                turnaround: self.turnaround,
                // a plan is for any day
                from: None,
                until: None,
                hours: self.day_hours,
                machines: self.machines,
                sessions: self.sessions?,
                flow: self.highest_feed(seasons),
                product: part(demands, |demands| demands.a_session),
                // when carbon and softener are used up is told by their own stages
                spent: Err(Missing::not_known("", "")),
                rated: Err(Missing::not_known("", "")),
                rated_flow: None,
                softened: Err(Missing::not_known("", "")),
            };
            // litres of a session are the dialysate's
            sheet.run(w).map_err(|stop| stop.of_field("product-volume", "dialysate-flow"))
        })
    }

    /// When the first carbon is changed: by its own stage, at the time of the year when it lasts the fewest sessions.
    pub(super) fn change_of_carbon(
        &self,
        lives: &[CarbonLifeAt],
        day: &Known<DayOfSessions>,
        w: &mut Working,
    ) -> Known<CarbonChange> {
        let spent = used_up::fewest(lives);
        let runs = part(day, |day| Ok(day.daily? / day.running?));
        w.within(DayPlan::DECLARATION.id, |w| until_change(spent, runs, w))
    }

    /// The sessions of a day, with the change of the carbon by its own stage.
    pub(super) fn course_of_day(
        day: &Known<DayOfSessions>,
        change: Known<CarbonChange>,
    ) -> Known<Vec<HoursOfSession>> {
        let mut rows = part(day, |day| day.course.clone())?;
        for row in &mut rows {
            row.carbon = change.map(|change| FirstCarbon::before(row.number, change.whole));
        }
        Ok(rows)
    }

    fn highest_feed(&self, seasons: &[SeasonFlow]) -> Known<Flow> {
        self.telling(seasons).try_fold(Flow::of(0.0), |highest, at| Ok(highest.max(at.feed?)))
    }

    /// How long the RO runs for one session: as entered, else by the day.
    pub(super) fn running_for_a_session(&self, day: &Known<DayOfSessions>) -> Known<Time> {
        self.session_running?.map_or_else(|| part(day, |day| day.running), Ok)
    }

    /// How long the RO runs in a day: as entered, else by the day.
    pub(super) fn running_in_a_day(&self, day: &Known<DayOfSessions>) -> Known<Time> {
        self.daily_running?.map_or_else(|| part(day, |day| day.daily), Ok)
    }

    /// What the water of a session costs.
    pub(super) fn cost(
        &self,
        day: &Known<DayOfSessions>,
        demands: &Known<Demands>,
        w: &mut Working,
    ) -> Known<WaterCosts> {
        w.stage(&[], |w| {
            let sheet = WaterCost {
                product: part(demands, |demands| demands.a_session)?,
                share: part(day, |day| day.overall)?,
                price: self.water_price,
                drain: self.drain_price?,
            };
            sheet.run(w)
        })
    }
}

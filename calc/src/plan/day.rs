//! A day of sessions: whether they fit, how much water they take, what it costs.

use super::Plan;
use crate::bench::{WaterCost, WaterCosts};
use crate::day::{DAY_LONG_ENOUGH, DayOfSessions, DayPlan};
use crate::machine::Demands;
use crate::membrane::SeasonFlow;
use crate::quantity::{Flow, Time};
use crate::sheet::{Known, Missing, Sheet, Working, part};

impl Plan {
    /// The day, at the highest flow of the year.
    pub(super) fn day(
        &self,
        seasons: &[SeasonFlow],
        demands: &Known<Demands>,
        w: &mut Working,
    ) -> Known<DayOfSessions> {
        if self.sessions.is_err() && self.day_hours.is_ok() {
            w.assume("sessions", "nobody has said how many sessions a day has: as many as fit were taken");
        }
        w.stage(&[&DAY_LONG_ENOUGH], |w| {
            let sheet = DayPlan {
                session: self.session_time,
                around: self.around,
                hours: self.day_hours,
                machines: self.machines,
                sessions: self.sessions.ok(),
                flow: self.highest_feed(seasons),
                product: part(demands, |demands| demands.a_session),
                rated: self.rated,
                rated_flow: self.rated_flow.ok(),
                // the softener's own stage tells its days
                softened: Err(Missing::not_known("", "")),
            };
            // litres of a session are the dialysate's
            sheet.run(w).map_err(|stop| stop.of_field("product-volume", "dialysate-flow"))
        })
    }

    fn highest_feed(&self, seasons: &[SeasonFlow]) -> Known<Flow> {
        self.telling(seasons).try_fold(Flow::of(0.0), |highest, at| Ok(highest.max(at.feed?)))
    }

    /// How long the RO runs for one session: as entered, else by the day.
    pub(super) fn running_for_a_session(&self, day: &Known<DayOfSessions>) -> Known<Time> {
        self.session_running.or(part(day, |day| day.running)).or(self.session_running)
    }

    /// How long the RO runs in a day: as entered, else by the day.
    pub(super) fn running_in_a_day(&self, day: &Known<DayOfSessions>) -> Known<Time> {
        self.daily_running.or(part(day, |day| day.daily)).or(self.daily_running)
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

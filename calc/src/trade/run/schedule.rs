//! Maintenance schedule: what is due by the calendar or by a counter, whichever comes first.
//!
//! A task is due so long after it was last done, not after it was last planned. Intervals are those of the instructions
//! or of the facility's rules; none is taken here. Where the month of the due date has no such day, its last day counts,
//! so that a task is never due later. Tasks of one day have no order.

use crate::engine::quantity::kinds::NUMBER;
use crate::engine::sheet::{
    Caution, Evaluate, Known, Missing, Problem, Sentence, Slot, Stage, Stop, Term, Working, source,
};
use crate::{choice, input_row, output_row, sheet};
use chrono::{Datelike, Days, Months, NaiveDate};

choice!(/// In what an interval of the calendar is counted.
    Span { Days "days" "days", Weeks "weeks" "weeks", Months "months" "months", Years "years" "years" });

choice!(/// What makes a task due first.
DueBy {
    Calendar "calendar" "The calendar", Counter "counter" "The counter",
    Unknown "not-known" "Not known",
});

choice!(/// Where a task stands on the present day.
DueState {
    Overdue "overdue" "Overdue", Today "due" "Due", Later "later" "Later", Unknown "not-known" "Not known",
});

const COUNT: Term = Term::number(&NUMBER, "Counter", "n").possible(0.0, 1e12, "");

input_row! {
    /// One task.
    Task {
        name        "task":          String            = Term::other("Task").help("What has to be done. No patient's name."),
        last        "last-done":     Option<NaiveDate> = Term::other("Last done").help("If empty: never done, or not known."),
        every       "every":         Option<f64>       = Term::number(&NUMBER, "Every", "N").whole().possible(1.0, 1000.0, ""),
        span        "span":          Option<Span>      = Term::other("Unit of the interval"),
        grace       "grace-days":    Option<f64>       = Term::number(&NUMBER, "Grace period, days", "g").whole().possible(0.0, 366.0, ""),
        counter_then "counter-then": Option<f64>       = COUNT.named("Counter when last done").symbol("n_0"),
        counter_now "counter-now":   Option<f64>       = COUNT.named("Counter now"),
        counter_every "counter-every": Option<f64>     = COUNT.named("Due after this much on the counter").symbol("Δn"),
    }
}

output_row! {
    /// When one task is due.
    DueTask {
        name  "task":          String           = Term::other("Task"),
        state "state":         DueState         = Term::other("State"),
        due   "due":           Known<NaiveDate> = Term::other("Due by the calendar"),
        days  "days-left":     Known<f64>       = Term::number(&NUMBER, "Days left", "d"),
        date  "counter-date":  Known<NaiveDate> = Term::other("Due by the counter, at its mean rate so far"),
        left  "counter-left":  Known<f64>       = Term::number(&NUMBER, "Left on the counter", "n_left"),
        by    "due-by":        DueBy            = Term::other("Due first by"),
    }
}

static FACILITY_DECIDES: Caution = Caution {
    id: "facility-sets-intervals",
    text: "Intervals are those of the RO's instructions, the facility's rules and local law. A test that fails is acted on at once, whatever the schedule says.",
};

sheet! {
    /// Which tasks are due, by the calendar or by a counter, whichever comes first.
    Schedule, "schedule", "Maintenance schedule", Stage::Run,
    also: &["maintenance", "due dates"],
    sources: &[&source::DEVICE_INSTRUCTIONS, &source::COMMON_PRACTICE],
    cautions: &[&FACILITY_DECIDES],
    criteria: &[],
    inputs: {
        today "present-date": NaiveDate = Term::other("Today"),
        tasks "tasks":        Vec<Task> = Term::other("Tasks")
            .help("One row per task. By the calendar: every so many days, weeks, months or years. By a counter: hours, litres or cycles. A month after 30 January is the last day of February."),
    }
    outputs Outputs: {
        overdue "overdue-tasks": f64 = Term::number(&NUMBER, "Overdue tasks", "n_overdue"),
        due     "due-tasks":     f64 = Term::number(&NUMBER, "Tasks due today", "n_due"),
        next    "next-due":      Known<NaiveDate> = Term::other("Next due by the calendar, after today"),
        each    "task-list":     Vec<DueTask> = Term::other("Each task, the most urgent first"),
    }
}

impl Evaluate for Schedule {
    type Outputs = Outputs;
    fn evaluate(&self, w: &mut Working) -> Result<Outputs, Stop> {
        let problems: Vec<Problem> =
            self.tasks.iter().enumerate().flat_map(|(row, task)| task.problems(row, self.today)).collect();
        if !problems.is_empty() {
            return Err(Stop::Problems(problems));
        }
        let mut each: Vec<DueTask> = self.tasks.iter().map(|task| task.due(self.today)).collect();
        let unknown = each.iter().filter(|task| task.state == DueState::Unknown).count();
        if unknown > 0 {
            w.warn(
                "tasks",
                "due-not-known",
                Sentence::plain(
                    "tasks with no known due date: {count}. Enter when each was last done, and its interval",
                )
                .with("count", Slot::Count(unknown as i64)),
            );
        }
        for task in &self.tasks {
            task.say_where_the_month_is_shorter(w);
        }
        each.sort_by(|a, b| {
            let days = |task: &DueTask| task.days.unwrap_or(f64::INFINITY);
            (a.state as usize).cmp(&(b.state as usize)).then(days(a).total_cmp(&days(b)))
        });
        let count = |state| each.iter().filter(|task| task.state == state).count() as f64;
        let later = each.iter().filter_map(|task| task.due.ok()).filter(|due| *due > self.today).min();
        Ok(Outputs {
            overdue: count(DueState::Overdue),
            due: count(DueState::Today),
            next: later.ok_or(Missing::none_exists("nothing falls due after today")),
            each,
        })
    }
}

impl Task {
    fn problems(&self, row: usize, today: NaiveDate) -> Vec<Problem> {
        let at = |column, template| Problem {
            field: "tasks",
            cell: Some((row, column)),
            sentence: Sentence::plain(template).with("row", Slot::Count(row as i64 + 1)),
        };
        let mut problems = Vec::new();
        if self.last.is_some_and(|last| last > today) {
            problems.push(at("last-done", "row {row} was last done after today; check both dates"));
        }
        if self.counter_then.zip(self.counter_now).is_some_and(|(then, now)| now < then) {
            problems.push(at(
                "counter-now",
                "in row {row} the counter runs backwards; after a change of the counter enter what the new one showed then",
            ));
        }
        problems
    }

    /// By the calendar; months end where the month does (31 January and a month: 28 February).
    fn by_calendar(&self) -> Known<NaiveDate> {
        let every = self.every.ok_or(Missing::empty("tasks", "Every"))? as u32;
        let last = self.last.ok_or(Missing::empty("tasks", "Last done"))?;
        let date = match self.span.ok_or(Missing::empty("tasks", "Unit of the interval"))? {
            Span::Days => last.checked_add_days(Days::new(every.into())),
            Span::Weeks => last.checked_add_days(Days::new(u64::from(every) * 7)),
            Span::Months => last.checked_add_months(Months::new(every)),
            Span::Years => last.checked_add_months(Months::new(every * 12)),
        };
        date.ok_or(Missing::none_exists("the date is beyond the calendar"))
    }

    /// A month after 30 January: February has no such day.
    fn say_where_the_month_is_shorter(&self, w: &mut Working) {
        let by_months = matches!(self.span, Some(Span::Months | Span::Years));
        let Some((last, due)) = self.last.zip(self.by_calendar().ok()).filter(|_| by_months) else { return };
        if due.day() != last.day() {
            w.assume(
                "tasks",
                Sentence::plain("“{task}” was last done on day {day}; the month in which it is due has no such day, so its last day counts")
                    .with("task", Slot::Text(self.name.clone()))
                    .with("day", Slot::Count(last.day().into())),
            );
        }
    }

    fn by_counter(&self) -> Known<f64> {
        let every =
            self.counter_every.ok_or(Missing::empty("tasks", "Due after this much on the counter"))?;
        let then = self.counter_then.ok_or(Missing::empty("tasks", "Counter when last done"))?;
        let now = self.counter_now.ok_or(Missing::empty("tasks", "Counter now"))?;
        Ok(then + every - now)
    }

    fn due(&self, today: NaiveDate) -> DueTask {
        let (due, left) = (self.by_calendar(), self.by_counter());
        let days = due.map(|due| (due - today).num_days() as f64);
        let by_calendar = days.map_or(DueState::Unknown, |days| {
            if days < -self.grace.unwrap_or(0.0) {
                DueState::Overdue
            } else if days <= 0.0 {
                DueState::Today
            } else {
                DueState::Later
            }
        });
        let by_counter = left.map_or(DueState::Unknown, |left| {
            if left < 0.0 {
                DueState::Overdue
            } else if left == 0.0 {
                DueState::Today
            } else {
                DueState::Later
            }
        });
        // what has an interval and no beginning might be due: only what is due already is certain
        let has_calendar = self.every.is_some() || self.span.is_some();
        let open = (has_calendar && due.is_err()) || (self.counter_every.is_some() && left.is_err());
        let sooner = if (by_counter as usize) < by_calendar as usize { by_counter } else { by_calendar };
        let state = if open && sooner == DueState::Later { DueState::Unknown } else { sooner };
        let date = left.and_then(|left| self.expected(left, today));
        let by = match state {
            DueState::Unknown => DueBy::Unknown,
            DueState::Later => match (due, date) {
                (Ok(due), Ok(date)) if date < due => DueBy::Counter,
                (Ok(_), Err(_)) if left.is_ok() => DueBy::Unknown,
                (Ok(_), _) => DueBy::Calendar,
                (Err(_), _) => DueBy::Counter,
            },
            _ if by_calendar == state => DueBy::Calendar,
            _ => DueBy::Counter,
        };
        DueTask { name: self.name.clone(), state, due, days, date, left, by }
    }

    /// The day on which the counter is used up, at its mean rate since the task was last done.
    fn expected(&self, left: f64, today: NaiveDate) -> Known<NaiveDate> {
        let last = self.last.ok_or(Missing::empty("tasks", "Last done"))?;
        let used = self.counter_now.zip(self.counter_then).map_or(0.0, |(now, then)| now - then);
        let days = left / used * (today - last).num_days() as f64;
        let whole = days.floor().abs();
        if whole.is_nan() || whole > 36_525.0 {
            return Err(Missing::none_exists("the counter has hardly run since the task was last done"));
        }
        let date = if days < 0.0 {
            today.checked_sub_days(Days::new(whole as u64))
        } else {
            today.checked_add_days(Days::new(whole as u64))
        };
        date.ok_or(Missing::none_exists("the date is beyond the calendar"))
    }
}

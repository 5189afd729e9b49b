//! A day hour by hour: what each session is made of, and how it is drawn.

use crate::engine::quantity::{Time, kinds::NUMBER, kinds::TIME};
use crate::engine::sheet::{Clocked, Draws, Figure, Known, Shown, Term};
use crate::{choice, output_row};

choice!(/// Whether the first carbon is changed before a session.
FirstCarbon {
    Keep "not-due" "Not due, if it was new this morning",
    Change "change-before" "Change it before this session, or earlier",
});

impl FirstCarbon {
    /// Before which sessions a carbon that was new in the morning is changed, when it lasts for so many whole ones.
    pub fn before(session: f64, lasts: f64) -> Self {
        let is_first_of_a_carbon = lasts >= 1.0 && (session - 1.0) % lasts == 0.0;
        if lasts < 1.0 || (session > 1.0 && is_first_of_a_carbon) {
            FirstCarbon::Change
        } else {
            FirstCarbon::Keep
        }
    }
}

/// The unit of its columns.
const HOURS: &str = "h";

output_row! {
    /// One session of the day in hours from the first set-up on; with several machines, all that run together.
    HoursOfSession {
        number  "session":      f64         = Term::number(&NUMBER, "Session", "n").whole(),
        set_up  "set-up-after":  Time        = Term::number(&TIME, "Set-up", "t_1").units(HOURS, HOURS),
        running "running-after": Time        = Term::number(&TIME, "RO on", "t_2").units(HOURS, HOURS),
        ready   "ready-after":   Known<Time> = Term::number(&TIME, "Session starts", "t_3").units(HOURS, HOURS),
        ends    "ends-after":    Known<Time> = Term::number(&TIME, "Session ends", "t_4").units(HOURS, HOURS),
        done    "done-after":    Time        = Term::number(&TIME, "Rinse done, RO off", "t_5").units(HOURS, HOURS),
        carbon  "first-carbon":  Known<FirstCarbon> = Term::other("First carbon (worker)"),
    }
}

/// The day as a bar of the clock.
pub const DAY: Figure = Figure {
    id: "day-clock",
    name: "The day",
    about: "Low: set-up. Half high: RO running. Full: session; machines that run together are one. Read the total chlorine test after the carbon before each session starts.",
    opens_at: None,
    months: None,
    draws: Draws::Clock(Clocked {
        course: "day-course",
        clock: Some("clock"),
        hours: Shown::Answered("hours-counted"),
        ..CLOCKED
    }),
};

/// What is drawn of a day, whichever sheet asks for it.
pub const CLOCKED: Clocked = Clocked {
    course: "day-course",
    clock: None,
    low: ["set-up-after", "running-after"],
    half: ["running-after", "done-after"],
    full: ["ready-after", "ends-after"],
    full_name: "session",
    between: "turnaround",
    note: ("first-carbon", FirstCarbon::Change.id()),
    hours: Shown::Entered("day-hours"),
    last: &[Shown::Answered("carbon-whole-sessions"), Shown::Answered("carbon-days")],
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_carbon_is_changed_when_its_sessions_are_over() {
        let changed = |lasts: f64| {
            let sessions =
                (1..=5).filter(|n| FirstCarbon::before(f64::from(*n), lasts) == FirstCarbon::Change);
            sessions.collect::<Vec<i32>>()
        };
        assert_eq!(changed(2.0), [3, 5]);
        assert!(changed(5.0).is_empty());
        assert_eq!(changed(1.0), [2, 3, 4, 5]);
        assert_eq!(changed(0.0), [1, 2, 3, 4, 5], "it does not last for one");
    }
}

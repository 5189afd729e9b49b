//! The months, as every table of a year names them, and moments as a clock shows them.

mod moment;
mod spoken;

pub use moment::{Moment, NoMoment};
pub use spoken::{day_in_words, read_day, read_moment};

use crate::choice;

choice!(/// A month of the year.
Month {
    January "jan" "January", February "feb" "February", March "mar" "March", April "apr" "April",
    May "may" "May", June "jun" "June", July "jul" "July", August "aug" "August",
    September "sep" "September", October "oct" "October", November "nov" "November", December "dec" "December",
});

impl Month {
    /// All twelve, from January on.
    pub const ALL: [Month; 12] = [
        Month::January,
        Month::February,
        Month::March,
        Month::April,
        Month::May,
        Month::June,
        Month::July,
        Month::August,
        Month::September,
        Month::October,
        Month::November,
        Month::December,
    ];

    /// As it stands in a date.
    pub const fn short(self) -> &'static str {
        const SHORT: [&str; 12] =
            ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
        SHORT[self as usize]
    }

    /// In words.
    pub const fn name(self) -> &'static str {
        Month::NAMED[self as usize].name
    }
}

//! The numbers of a record that can be followed over time: of each the kind of event and its field, or the sheet that works
//! it out of a reading, so that a trend takes a series with its kind and unit, and not bare numbers.
//!
//! Product flow, salt passage and pressure drop as read follow temperature and pressure, so that only the normalized ones can
//! be followed; they are worked out of each reading and the baseline that is in force.

use super::trend::Basis;
use crate::choice;

choice!(/// A number that can be followed.
Series {
    Flow "normalized-flow" "Normalized product flow",
    Passage "normalized-salt-passage" "Normalized salt passage",
    Drop "normalized-drop" "Normalized pressure drop",
    Pressure "shut-pressure" "Static pressure (tap closed)",
    TapChlorine "total-chlorine" "Total chlorine at the tap",
    AfterFirst "chlorine-after-first" "Total chlorine after the first carbon (worker)",
    AfterSecond "chlorine-after-second" "Total chlorine after the second carbon (polisher)",
    Hardness "hardness-after-softener" "Hardness after the softener, end of the day",
});

/// Where a series comes from. Its number is called as the choice is.
#[derive(Debug)]
pub struct SeriesOf {
    /// Which series.
    pub series: Series,
    /// The kind of event.
    pub kind: &'static str,
    /// The sheet that works the number out of such an event; none where it is a field of the event itself.
    pub sheet: Option<&'static str>,
    /// What such numbers are.
    pub basis: Basis,
}

const fn field(series: Series, kind: &'static str) -> SeriesOf {
    SeriesOf { series, kind, sheet: None, basis: Basis::Unaffected }
}

const fn normalized(series: Series) -> SeriesOf {
    SeriesOf { series, kind: "reading", sheet: Some("normalized-performance"), basis: Basis::Normalized }
}

/// Every series.
pub static SERIES: [SeriesOf; 8] = [
    normalized(Series::Flow),
    normalized(Series::Passage),
    normalized(Series::Drop),
    field(Series::Pressure, "reading"),
    field(Series::TapChlorine, "reading"),
    field(Series::AfterFirst, "chlorine-test"),
    field(Series::AfterSecond, "chlorine-test"),
    field(Series::Hardness, "reading"),
];

/// The series of that id.
pub fn series(id: &str) -> Option<&'static SeriesOf> {
    SERIES.iter().find(|of| of.series.id() == id)
}

//! Which readings share an error: those of one day by one instrument, and those months apart only where it was the same.

use crate::choice;
use crate::engine::sheet::Field;

choice!(/// With what today's numbers were read.
SameInstruments {
    Same "same" "Yes: the same jug, watch, meters and gauges",
    Others "others" "No, or not known",
});

/// What stands before the instruments of start-up in their terms.
const AT_START: &str = "start-up ";

/// The instrument of a field.
pub fn of(field: &'static Field, same: Option<SameInstruments>) -> &'static str {
    let own = field.term.instrument;
    match same {
        Some(SameInstruments::Same) => own.strip_prefix(AT_START).unwrap_or(own),
        None | Some(SameInstruments::Others) => own,
    }
}

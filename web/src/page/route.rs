//! Which view the address asks for. The page has one file and no server, so the view stands behind the `#`.

use crate::state::find;
use crate::state::record::plan;
use calc::engine::sheet::{Declaration, Entry};

/// A view of the page.
#[derive(Debug, Clone, Copy)]
pub enum Route {
    /// What Tapside is for, and where to begin.
    Start,
    /// What is entered of a place and an RO; perhaps the field to go to.
    Place(&'static str),
    /// Whether the room can feed the RO.
    RoomCheck,
    /// What is kept, in files and on the device.
    Records,
    /// The list of sheets.
    Sheets,
    /// What the program rests on.
    Basis,
    /// One sheet; perhaps the field to go to.
    Sheet(&'static Entry, &'static str),
    /// An address that leads nowhere.
    Unknown,
}

impl PartialEq for Route {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Route::Start, Route::Start)
            | (Route::RoomCheck, Route::RoomCheck)
            | (Route::Records, Route::Records)
            | (Route::Sheets, Route::Sheets)
            | (Route::Basis, Route::Basis)
            | (Route::Unknown, Route::Unknown) => true,
            (Route::Place(a), Route::Place(b)) => a == b,
            (Route::Sheet(a, field_a), Route::Sheet(b, field_b)) => {
                a.declaration.id == b.declaration.id && field_a == field_b
            }
            _ => false,
        }
    }
}

impl Route {
    /// The view of a hash; `None` for one that leads to a place within the present view, such as `#answers`.
    pub fn of(hash: &str) -> Option<Self> {
        let path = match hash.trim_start_matches('#') {
            "" => "",
            path => path.strip_prefix('/')?,
        };
        let parts: Vec<&str> = path.split('/').filter(|part| !part.is_empty()).collect();
        Some(match parts.as_slice() {
            [] => Route::Start,
            ["place"] => Route::Place(""),
            ["place", field] => Route::Place(plan().map_or("", |plan| field_of(plan, field))),
            // the second is what the section was called before; links to it may lie about
            ["room-check" | "fit"] => Route::RoomCheck,
            ["records"] => Route::Records,
            ["sheets"] => Route::Sheets,
            ["basis"] => Route::Basis,
            ["sheet", id] => find(id).map_or(Route::Unknown, |entry| Route::Sheet(entry, "")),
            ["sheet", id, field] => find(id)
                .map_or(Route::Unknown, |entry| Route::Sheet(entry, field_of(entry.declaration, field))),
            _ => Route::Unknown,
        })
    }
}

fn field_of(sheet: &'static Declaration, field: &str) -> &'static str {
    sheet.input(field).map_or("", |index| sheet.inputs[index].id)
}

/// The address of the start.
pub const START: &str = "#/";
/// The address of what is entered of a place.
pub const PLACE: &str = "#/place";
/// The address of whether the room can feed the RO.
pub const ROOM_CHECK: &str = "#/room-check";
/// The address of what is kept.
pub const RECORDS: &str = "#/records";
/// The address of the list of sheets.
pub const SHEETS: &str = "#/sheets";

/// The address of what the program rests on.
pub const BASIS: &str = "#/basis";

/// The address of a sheet.
pub fn of_sheet(sheet: &str) -> String {
    format!("#/sheet/{sheet}")
}

/// The address of a field of a sheet.
pub fn of_field(sheet: &str, field: &str) -> String {
    // what the plan asks is entered at the place
    if plan().is_some_and(|plan| plan.id == sheet) {
        return format!("{PLACE}/{field}");
    }
    format!("#/sheet/{sheet}/{field}")
}

#[cfg(test)]
mod tests {
    use super::*;

    const CONTACT: &str = "carbon-contact-time";

    fn sheet(field: &'static str) -> Option<Route> {
        find(CONTACT).map(|entry| Route::Sheet(entry, field))
    }

    #[test]
    fn an_address_leads_to_its_view() {
        for (hash, route) in [
            ("", Some(Route::Start)),
            ("#", Some(Route::Start)),
            (START, Some(Route::Start)),
            ("#/nowhere", Some(Route::Unknown)),
            ("#/sheet/no-such-sheet", Some(Route::Unknown)),
            ("#/place", Some(Route::Place(""))),
            ("#/place/shut-pressure", Some(Route::Place("shut-pressure"))),
            ("#/place/no-such-field", Some(Route::Place(""))),
            ("#/room-check", Some(Route::RoomCheck)),
            ("#/fit", Some(Route::RoomCheck)),
            ("#/records", Some(Route::Records)),
            ("#/sheets", Some(Route::Sheets)),
            (BASIS, Some(Route::Basis)),
            ("#/sheet/carbon-contact-time", sheet("")),
            ("#/sheet/carbon-contact-time/", sheet("")),
            ("#/sheet/carbon-contact-time/flow", sheet("flow")),
            ("#/sheet/carbon-contact-time/no-such-field", sheet("")),
            ("#answers", None),
        ] {
            assert_eq!(Route::of(hash), route, "{hash}");
        }
    }

    #[test]
    fn what_is_written_is_read_back() {
        assert_eq!(Route::of(&of_sheet(CONTACT)), sheet(""));
        assert_eq!(Route::of(&of_field(CONTACT, "flow")), sheet("flow"));
        assert_eq!(Route::of(&of_field("plan", "shut-pressure")), Some(Route::Place("shut-pressure")));
    }
}

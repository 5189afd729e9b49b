//! Which view the address asks for. The page has one file and no server, so the view stands behind the `#`.

use crate::state::find;
use calc::sheet::Entry;

/// A view of the page.
#[derive(Debug, Clone, Copy)]
pub enum Route {
    /// What Tapside is for, and where to begin.
    Start,
    /// One sheet; perhaps the field to go to.
    Sheet(&'static Entry, &'static str),
    /// An address that leads nowhere.
    Unknown,
}

impl PartialEq for Route {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Route::Start, Route::Start) | (Route::Unknown, Route::Unknown) => true,
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
            ["sheet", id] => find(id).map_or(Route::Unknown, |entry| Route::Sheet(entry, "")),
            ["sheet", id, field] => find(id).map_or(Route::Unknown, |entry| {
                let declaration = entry.declaration;
                let field = declaration.input(field).map_or("", |index| declaration.inputs[index].id);
                Route::Sheet(entry, field)
            }),
            _ => Route::Unknown,
        })
    }
}

/// The address of the start.
pub const START: &str = "#/";

/// The address of a sheet.
pub fn of_sheet(sheet: &str) -> String {
    format!("#/sheet/{sheet}")
}

/// The address of a field of a sheet.
pub fn of_field(sheet: &str, field: &str) -> String {
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
    }
}

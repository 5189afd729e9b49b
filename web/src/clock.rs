//! The device's own calendar. `calc` has no clock: what needs the date is given it.

use calc::calendar::Month;
use web_sys::js_sys::Date;

/// Today as it is printed: 4 Mar 2027, which nobody can read with day and month swapped.
pub fn today() -> String {
    let now = Date::new_0();
    let month = usize::try_from(now.get_month()).ok().and_then(|index| Month::NAMED.get(index));
    let month = month.map_or("", |month| &month.name[..3]);
    format!("{} {month} {}", now.get_date(), now.get_full_year())
}

/// Asks the browser to print what the view has for paper.
pub fn print() {
    if let Some(window) = web_sys::window() {
        // Refused only where the browser cannot print at all, and then it says so itself.
        let _ = window.print();
    }
}

//! The finished page, opened from its file in a browser and driven as a person would.
//!
//! `cargo xtask test` builds the page, finds browser and driver, and names all three in `TAPSIDE_PAGE`, `CHROME` and
//! `CHROMEDRIVER`. Each test has a browser of its own with an empty profile; what the browser complains of fails it.

mod accessible;
mod by_keyboard;
mod console;
mod drawn;
mod drawn_sheets;
mod driver;
mod figures;
mod files;
mod full_disk;
mod keeping;
mod letters;
#[path = "../../examples/ten_years/life.rs"]
mod life;
mod mistakes;
mod new_place;
mod of_record;
mod opening;
mod other_language;
mod page;
mod recovering;
mod rooms;
mod rows;
mod stopped;
mod tools;
mod units;
mod visit;
mod widths;
mod without_store;

//! Charts: lines over a common row of places, with limits and bands, drawn as SVG.
//!
//! A chart is read in five ways, and says the same in each: drawn; as one sentence; value by value under the pointer or
//! the arrow keys; as a table; printed in black and white. Lines are told apart by dash and mark, never by colour alone.
//! It is given plain numbers in the unit in which they are shown, and computes nothing but where they lie.
//!
//! - `data` is what a chart is made of, `scale`, `ticks`, `path` and `plot` where it lies: no browser in them.
//! - `view` puts it together, `draw`, `cursor`, `key` and `table` are its parts.

mod cursor;
mod data;
mod draw;
mod key;
mod path;
mod plot;
mod scale;
mod summary;
mod table;
mod ticks;
mod view;
mod width;

pub use data::{Axis, Chart, Course, Limit, Mark, Series, Shade, Spread, Values, Wrong};
pub use draw::symbol;
pub use view::{ChartProps, ChartView};

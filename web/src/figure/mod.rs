//! Figures that follow from what a sheet declares: its checks as bars against their limits, and what it declares to be drawn.
//!
//! - `bar` is where a bar ends, `bars` draws them.
//! - `read` reads the numbers of a declared figure, `stairs`, `path`, `lines`, `shares` and `clock` lay one kind out each, `view` shows any.

pub mod bar;
pub mod bars;
mod clock;
pub mod lines;
pub mod path;
mod read;
mod shares;
mod stairs;
mod tool;
pub mod view;

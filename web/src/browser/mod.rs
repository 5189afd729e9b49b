//! What talks to the browser: its address line, clock, focus, files, and the notice that the program stopped.

pub mod address;
pub mod clock;
pub mod export;
pub mod file_text;
pub mod focus;
pub mod slices;
pub mod stop;

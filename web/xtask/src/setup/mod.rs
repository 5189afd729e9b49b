//! Setting up what is missing: each part is looked for cheaply, and set up only when it is not there.

pub mod browser;
pub mod compiler;
pub mod debian;
pub mod lints;
mod machine;
pub mod python;

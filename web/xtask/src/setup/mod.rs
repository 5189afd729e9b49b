//! Setting up what is missing: each part is looked for cheaply, and set up only when it is not there.

pub mod compiler;
mod debian;
mod machine;

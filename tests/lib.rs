//! What the checks share.
//!
//! * [`rows`] reads the tables of check values in `published/`;
//! * [`formulas`] reads those of single formulas, which stand beside the sheets, and computes each;
//! * [`shown`] reads numbers back as a person does, and computes a shown formula from its shown numbers;
//! * [`texts`] is everything that a person can read, for whoever translates it;
//! * [`draw`] draws inputs for any sheet from its declaration.

pub mod draw;
pub mod formulas;
pub mod rows;
pub mod shown;
#[cfg(not(target_family = "wasm"))]
pub mod texts;

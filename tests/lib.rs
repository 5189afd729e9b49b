//! What the checks share.
//!
//! * [`rows`] reads the tables of check values in `published/`;
//! * [`shown`] reads numbers back as a person does, and computes a shown formula from its shown numbers;
//! * [`draw`] draws inputs for any sheet from its declaration.

pub mod draw;
pub mod rows;
pub mod shown;

//! What comes in and goes out as text: records, requests and answers in JSON, tables in CSV, numbers as people type them.

pub mod csv;
pub mod json;
pub mod reading;
pub mod record;

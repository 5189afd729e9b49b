//! The calculations of Tapside: pure, without browser, clock, locale, file or entropy.
//!
//! A portable reverse-osmosis unit (RO) and the cart of filters in front of it make the water for one patient's
//! haemodialysis. This crate answers whether a room's tap feeds it, in winter and summer, running and in flush; whether
//! the carbon is large enough; whether a hot run was a disinfection; each answer with its arithmetic, its uncertainty
//! and its sources.
//!
//! # In two minutes
//!
//! * [`engine`]: what any calculation is made of. Typed quantities, the *sheet* (one calculation, declared once as data
//!   and one pure function), and what works on any sheet: uncertainty, solving backwards, sweeps.
//! * [`trade`]: what a technician asks, along the water path, each stage a folder of sheets, and the plan that joins
//!   them; the terms that sheets share, the limits, the properties of water. [`trade::carbon`] has the sheet to copy.
//! * [`documents`]: what comes in and goes out as text: records, JSON requests, CSV, numbers as people type them.
//! * [`program`]: the list of sheets, and how much of each is checked against printed values.
//!
//! ```
//! use calc::engine::{quantity::litres, sheet::{Answer, Value}};
//! use calc::program::catalogue;
//! let contact_time = catalogue::find("carbon-contact-time").unwrap();
//! let flow = calc::engine::quantity::litres_per_minute(3.0).si();
//! let said = contact_time.assess(&[Some(Value::Number(litres(15.0).si())), None, Some(Value::Number(flow)), None], true);
//! assert!(matches!(said.answers[0], Answer::Number(seconds, _) if (seconds - 300.0).abs() < 1e-9));
//! assert_eq!(said.checks[0].state.words(), "not met"); // 5 of 10 minutes
//! ```

#[macro_use]
pub mod engine;
pub mod documents;
pub mod program;
pub mod trade;

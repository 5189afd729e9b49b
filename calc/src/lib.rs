//! The calculations of Tapside: pure, without browser, clock, locale, file or entropy.
//!
//! A portable reverse-osmosis unit (RO) and the cart of filters in front of it make the water for one patient's
//! haemodialysis. This crate answers whether a room's tap feeds it, in winter and summer, running and in flush; whether
//! the carbon is large enough; whether a hot run was a disinfection; each answer with its arithmetic, its uncertainty
//! and its sources.
//!
//! # In two minutes
//!
//! * [`quantity`]: typed quantities in SI, their units with exact factors, numbers in and out of text.
//! * [`sheet`]: the engine. A *sheet* is one calculation, declared once as data and one pure function; form, working,
//!   uncertainty, checks, JSON follow from the declaration.
//! * [`catalogue`]: the one list of sheets. [`carbon`] has the one to copy.
//! * [`terms`]: what several sheets ask, declared once.
//! * [`tap`], [`sediment`], [`carbon`], [`membrane`], [`machine`], [`drain`], [`day`], [`disinfect`]: the sheets, along the water's way.
//! * [`limits`]: what dialysis water may hold, by edition.
//! * [`plan`]: all stages joined, itself a sheet.
//! * [`uncertainty`], [`monte_carlo`], [`solve`], [`sweep`]: what works on any sheet.
//! * [`record`], [`json`], [`reading`], [`reason`]: documents and requests in, answers and sentences out.
//! * [`evidence`]: how many check values of a sheet are printed elsewhere, and why there are none where there are none.
//! * [`water`]: properties of water, friction in a pipe; what a laboratory reports, and the carbonate equilibrium.
//!
//! ```
//! use calc::{catalogue, quantity::litres, sheet::{Answer, Value}};
//! let contact_time = catalogue::find("carbon-contact-time").unwrap();
//! let flow = calc::quantity::litres_per_minute(3.0).si();
//! let said = contact_time.assess(&[Some(Value::Number(litres(15.0).si())), None, Some(Value::Number(flow)), None], true);
//! assert!(matches!(said.answers[0], Answer::Number(seconds, _) if (seconds - 300.0).abs() < 1e-9));
//! assert_eq!(said.checks[0].state.words(), "not met"); // 5 of 10 minutes
//! ```

pub mod quantity;
pub mod water;
#[macro_use]
pub mod sheet;
pub mod bench;
pub mod calendar;
pub mod carbon;
pub mod catalogue;
pub mod chemical;
pub mod csv;
pub mod curve;
pub mod day;
pub mod disinfect;
pub mod drain;
pub mod evidence;
pub mod json;
pub mod limits;
pub mod machine;
pub mod membrane;
pub mod monte_carlo;
pub mod plan;
pub mod product;
pub mod reading;
pub mod reason;
pub mod record;
pub mod run;
pub mod sediment;
pub mod softener;
pub mod solve;
pub mod statistics;
pub mod sweep;
pub mod tap;
pub mod terms;
pub mod uncertainty;

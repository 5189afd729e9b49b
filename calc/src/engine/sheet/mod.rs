//! The engine: what a sheet is, and what follows from its declaration.
//!
//! A sheet is plain data (a [`Declaration`]) and one pure function ([`Evaluate`]). The macro `sheet!` makes both ends
//! meet: a struct of typed inputs, a struct of typed outputs, and the data from which the form, the working, the JSON
//! interface and everything else follow without further code.

mod assess;
mod case;
pub mod criterion;
mod declare;
pub mod figure;
pub mod formula;
mod missing;
mod reported;
mod sentence;
mod shape;
pub mod source;
mod value;
mod working;

pub use assess::{Assessment, Entry};
pub(crate) use assess::{why_impossible, why_unusual};
pub use case::{Case, Dial};
pub use criterion::{Check, Criterion, Judges, Side, State};
pub use figure::{
    Clocked, Compare, Compared, Draws, Figure, Flight, Lined, Months, Panel, Parted, Read, Shaded, Shown,
    Spot, Tool,
};
pub use missing::{Absence, Known, Missing, Problem, Stop, part};
pub use reported::Reported;
pub use sentence::{Sentence, Slot};
pub(crate) use sentence::{next_place, places, shown_in, with_unit};
pub use shape::{Caution, Declaration, Field, Named, Shape, Stage, Term, Tolerance};
pub use source::Source;
pub use value::{Answer, Held, Input, InputRow, Output, OutputRow, Row, Shift, Value};
pub use working::{Bound, How, Step, Warning, Working};

/// The arithmetic of a sheet.
pub trait Evaluate {
    /// What it answers with.
    type Outputs: Outputs;
    /// Pure and total: never a panic, never a number that is not finite.
    fn evaluate(&self, w: &mut Working) -> Result<Self::Outputs, Stop>;

    /// The instrument with which a field was read: readings of one share its error. A sheet whose inputs say which
    /// instrument was used answers by them.
    fn instrument(&self, field: &'static Field) -> &'static str {
        field.term.instrument
    }
}

/// The answers of a sheet, one by one.
pub trait Outputs {
    /// In the order of the declaration.
    fn answers(&self) -> Vec<Answer>;
    /// All numbers in them: first the outputs that are one number, which always have the same places, then the cells of the
    /// tables, of which there may be more or fewer.
    fn numbers(&self, sink: &mut Vec<f64>);
}

/// A declared calculation; implemented by `sheet!`.
pub trait Sheet: Evaluate + Clone + 'static {
    /// What is known of it before any number is typed.
    const DECLARATION: &'static Declaration;
    /// From what came in, in the order of the declaration.
    fn read(values: &[Option<Value>]) -> Result<Self, Missing>;
    /// One of its inputs, by its place in the declaration.
    fn held(&self, field: usize) -> Option<&dyn Held>;
    /// The same, to be turned.
    fn held_mut(&mut self, field: usize) -> Option<&mut dyn Held>;

    /// Evaluates in a scope of its own. A sheet that uses another one calls this.
    fn run(&self, w: &mut Working) -> Result<Self::Outputs, Stop> {
        self.within(w, Self::evaluate)
    }

    /// A part of the evaluation in such a scope, where the whole would cost more than is asked.
    fn within<T>(&self, w: &mut Working, part: impl FnOnce(&Self, &mut Working) -> T) -> T {
        w.within(Self::DECLARATION.id, |w| {
            if w.is_recording() {
                for (index, field) in Self::DECLARATION.inputs.iter().enumerate() {
                    if let (Some(value), Some(kind)) =
                        (self.held(index).and_then(Held::number), field.term.kind)
                    {
                        w.bind_si(field.name, field.term.symbol, value, kind);
                    }
                }
            }
            part(self, w)
        })
    }
}

/// Reads the next field; a helper of the macros.
#[doc(hidden)]
pub fn take<T: Input>(
    fields: &mut impl Iterator<Item = (usize, &'static Field)>,
    values: &[Option<Value>],
) -> Result<T, Missing> {
    match fields.next() {
        Some((index, field)) => T::read(values.get(index).and_then(Option::as_ref), field),
        None => Err(Missing::not_known("", "there is no such field")),
    }
}

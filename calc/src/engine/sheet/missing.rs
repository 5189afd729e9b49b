//! The two ways in which an answer can be missing, and what stops a calculation.

use super::sentence::Sentence;

/// Why there is no answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Missing {
    /// Which of the two it is.
    pub absence: Absence,
    /// The id of the field that would give it; empty where no field would.
    pub field: &'static str,
    /// What is missing, in words; of an empty field its name.
    pub why: &'static str,
}

/// An answer that nobody can give yet, or one that does not exist.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Absence {
    /// A field is empty.
    Empty,
    /// What was entered cannot tell.
    NotKnown,
    /// Nothing fulfils it: "never reached".
    NoneExists,
}

/// A value, or the reason why there is none.
pub type Known<T> = Result<T, Missing>;

/// One of the answers of a sheet that may have stopped; then, why it has.
pub fn part<O, T>(outputs: &Known<O>, answer: impl FnOnce(&O) -> Known<T>) -> Known<T> {
    match outputs {
        Ok(outputs) => answer(outputs),
        Err(missing) => Err(*missing),
    }
}

impl Missing {
    /// Not known since the field of that name is empty.
    pub const fn empty(field: &'static str, name: &'static str) -> Self {
        Self { absence: Absence::Empty, field, why: name }
    }

    /// Not known, for a reason that an entry in the field would remove.
    pub const fn not_known(field: &'static str, why: &'static str) -> Self {
        Self { absence: Absence::NotKnown, field, why }
    }

    /// Whether it is known that there is none, so that nothing about it is to be asked or judged.
    pub fn is_none(&self) -> bool {
        self.absence == Absence::NoneExists
    }

    /// Known not to exist.
    pub const fn none_exists(why: &'static str) -> Self {
        Self { absence: Absence::NoneExists, field: "", why }
    }
}

/// What is wrong with an input, and how to mend it.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// The id of the field.
    pub field: &'static str,
    /// For a table: the row, counted from 0, and the id of the column.
    pub cell: Option<(usize, &'static str)>,
    /// What is wrong and what to do.
    pub sentence: Sentence,
}

impl Problem {
    /// A problem of a whole field.
    pub fn new(field: &'static str, sentence: impl Into<Sentence>) -> Self {
        Self { field, cell: None, sentence: sentence.into() }
    }
}

/// What stops one sheet; the others go on.
#[derive(Debug, Clone, PartialEq)]
pub enum Stop {
    /// A needed input is empty.
    Missing(Missing),
    /// Inputs that cannot be so, each one.
    Problems(Vec<Problem>),
}

impl Stop {
    /// The same, of the field under which a plan asks for what the sheet calls otherwise.
    pub fn of_field(self, of_sheet: &str, of_plan: &'static str) -> Self {
        let named = |field| if field == of_sheet { of_plan } else { field };
        match self {
            Self::Missing(missing) => Self::Missing(Missing { field: named(missing.field), ..missing }),
            Self::Problems(problems) => {
                let problems = problems.into_iter();
                Self::Problems(
                    problems.map(|problem| Problem { field: named(problem.field), ..problem }).collect(),
                )
            }
        }
    }
}

impl From<Missing> for Stop {
    fn from(missing: Missing) -> Self {
        Self::Missing(missing)
    }
}

impl From<Problem> for Stop {
    fn from(problem: Problem) -> Self {
        Self::Problems(vec![problem])
    }
}

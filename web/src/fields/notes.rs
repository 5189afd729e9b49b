//! What is said of a field: what is wrong with it, and what is unusual.

use yew::prelude::*;

/// What is said of a field.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Notes {
    /// What is wrong, as far as it is said already.
    pub errors: Vec<Said>,
    /// What is unusual.
    pub warnings: Vec<AttrValue>,
}

/// One error.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    /// The id of the element to go to: the field, or a cell of its table.
    pub at: String,
    /// What is wrong and how to mend it.
    pub text: AttrValue,
}

impl Notes {
    /// Whether an error of this element is on the screen.
    pub fn says(&self, id: &str) -> bool {
        self.errors.iter().any(|said| said.at == id)
    }
}

//! Declarations as properties of components.

use std::ops::Deref;

/// A declaration as a property: two are the same when they are one.
#[derive(Debug)]
pub struct Still<T: 'static>(pub &'static T);

impl<T> Clone for Still<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Still<T> {}

impl<T> PartialEq for Still<T> {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self.0, other.0)
    }
}

impl<T> Deref for Still<T> {
    type Target = T;
    fn deref(&self) -> &T {
        self.0
    }
}

//! The calculations of Tapside.

//! Writes the record of a formula of the `tenths` crate.

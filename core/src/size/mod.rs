//! Exact lengths.
//!
//! A drawing is written in decimals and its limits are absolute, so sizes are whole numbers of picometres:
//! inch decimals to 1e-8 in, binary fractions to 1/512 in and metric decimals to 1e-9 mm are all exact, and sums
//! and differences stay so.

mod exact;
pub(crate) mod text;
mod unit;

pub use exact::{Size, SizeError, natural_units};
pub(crate) use exact::{alike, nearest_ratio};
pub use unit::LengthUnit;

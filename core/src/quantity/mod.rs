//! Quantities: what a number means, its dimension, and its inch and metric shop units.
//!
//! Each side computes in a consistent system of its own: inch in inches, pounds-force, minutes, degrees
//! Fahrenheit and pounds, metric in millimetres, newtons, minutes, degrees Celsius and kilograms. So a body
//! needs no unit factors, and serves both sides. A shop unit is a multiple of the consistent one:
//! `base = reading * scale`.

mod factor;
mod table;
mod text;

pub use factor::Factor;
pub use table::*;
pub use text::ReadingError;
pub(crate) use text::number_length;

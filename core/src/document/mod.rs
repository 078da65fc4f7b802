//! Documents in JSON: read as a whole, so that every fault is told at once, with its place.
//!
//! A table of fields for each object, under `objects!`, gives the struct, its decoder and what describes
//! the form. Plans and materials of the caller's own are read so.
pub(crate) mod changes;
mod decimal;
pub(crate) mod decode;
pub(crate) mod fault;
pub(crate) mod form;
mod head;
pub(crate) mod limits;
pub(crate) mod node;
pub(crate) mod objects;
pub(crate) mod shape;

pub use changes::Change;
pub use decimal::Decimal;
pub use decode::{DocumentNumber, MAX_TEXT, Reference};
pub use fault::{DocumentError, Fault, FaultKind, MAX_FAULTS};
pub use head::Version;
pub use limits::{DrawingLimits, Range, StatedLimits};
pub use node::{MAX_BYTES, MAX_DEPTH};
pub use shape::{Bound, ChoiceName, DocumentField, Object, Shape};

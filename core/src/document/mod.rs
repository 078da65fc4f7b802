//! Documents in JSON: read as a whole, so that every fault is told at once, with its place.
//!
//! A table of fields for each object, under `objects!`, gives the struct, its decoder and what describes
//! the form. Plans and materials of the caller's own are read so.
pub(crate) mod decode;
pub(crate) mod fault;
mod head;
pub(crate) mod limits;
pub(crate) mod node;
pub(crate) mod objects;
pub(crate) mod shape;

pub use decode::{MOST_TEXT, Reading, Reference};
pub use fault::{Fault, FaultKind, MOST_FAULTS, PlanError};
pub use head::Version;
pub use limits::{DrawingLimits, Range, StatedLimits};
pub use node::{MOST_BYTES, MOST_DEPTH};
pub use shape::{Bound, Choice, Field, Object, Shape};

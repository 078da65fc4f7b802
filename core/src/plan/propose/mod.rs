//! What a plan leaves out and common practice can propose: a pass over the document before it is decoded.
//!
//! The pass adds fields and never changes one. So operations know nothing of it, faults still point into the document of
//! the user, and what was added can be printed and overridden field by field. A shop's own standard values go first.
mod around;
mod assumption;
mod cut;
mod cutter;
mod drawing;
mod each;
mod facts;
mod fields;
mod filling;
mod given;
mod grind;
mod holes;
mod keyseat;
mod lathe;
mod merge;
mod mill;
mod others;
mod pass;
mod saw;
mod standards;

pub use assumption::Assumption;
pub(crate) use drawing::proposed_bar;
pub use fields::{Proposed, proposed_fields};
pub(super) use filling::Completed;
pub(super) use merge::merged;
pub(super) use pass::complete;
pub(super) use standards::{Standards, is_own};

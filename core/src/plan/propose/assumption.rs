//! What was assumed, and why.
use serde::Serialize;
use tenths_macros::Object;

/// Something that a plan leaves out and that was assumed.
#[derive(Clone, PartialEq, Eq, Hash, Debug, Serialize, Object)]
#[object(restore)]
pub struct Assumption {
    /// Where in the completed document: a JSON Pointer. Give the field there to override what was assumed.
    pub place: String,
    /// What was assumed, with its unit.
    pub value: String,
    /// The rule that it follows, and where its figures come from.
    pub reason: String,
}

//! The words of a file of fields, for one line of it: `objects!`, `choices!` and `tagged!` write their code with them.
pub(crate) use super::decode::{
    Beside, Context, Decode, DocumentNumber, Reference, decode_field, decode_name, decode_tag, decode_text,
    sort_fields,
};
pub(crate) use super::fault::{FaultKind, Place};
pub(crate) use super::limits::{DrawingLimits, Range, StatedLimits};
pub(crate) use super::node::{Content, Node};
pub(crate) use super::objects::{choices, objects, tagged};
pub(crate) use super::shape::{Bound, ChoiceName, DocumentField, Object, Shape};

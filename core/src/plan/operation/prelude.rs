//! What the file of a kind of operation needs.
pub(super) use super::kind::{Done, Kind, Turned, several};
pub(super) use crate::document::DocumentError;
pub(super) use crate::document::form::*;
pub(super) use crate::error::beside;
pub(super) use crate::finding::FindingCode;
pub(super) use crate::plan::caution;
pub(super) use crate::plan::characteristic::CharacteristicKind;
pub(super) use crate::plan::evaluation::Evaluation;
pub(super) use crate::plan::holding::{CutForces, Workholding};
pub(super) use crate::plan::settings::count;
pub(super) use crate::plan::sheet::Figure;
pub(super) use crate::plan::workpiece::End;
pub(super) use crate::quantity::*;
pub(super) use crate::{Limits, Size};

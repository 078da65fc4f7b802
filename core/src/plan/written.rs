//! A sheet as a document: written as JSON, and read back.
use super::checked::Plan;
use super::sheet::Sheet;
use crate::document::changes::changes;
use crate::document::decode::{Context, Decode};
use crate::document::fault::Place;
use crate::document::node::Tree;
use crate::document::{Change, DocumentError};
use crate::quantity::Units;
use std::collections::BTreeSet;

/// The longest sheet that is read, in bytes: one of the longest plan is shorter.
pub const MAX_SHEET_BYTES: usize = 64 << 20;

/// What differs between two sheets or plans, as JSON: a list of objects with `place`, `old` and `new`.
pub fn changes_to_json(changes: &[Change]) -> String {
    // Only maps with keys that are no text, and failing writers, are refused; there are none.
    serde_json::to_string(changes).unwrap_or_default()
}

impl Plan {
    /// What differs in the document of a newer plan, by place, with the old and the new value. Operations and
    /// characteristics that have numbers are compared by them, other items of lists by where they stand.
    pub fn changes(&self, newer: &Plan) -> Vec<Change> {
        // Both texts have been read before.
        changes(&self.text, &newer.text, MAX_SHEET_BYTES).unwrap_or_default()
    }
}

impl Sheet {
    /// What differs in a newer sheet, as [`Plan::changes`] tells it of plans.
    pub fn changes(&self, newer: &Sheet) -> Vec<Change> {
        changes(&self.to_json(), &newer.to_json(), usize::MAX).unwrap_or_default()
    }

    /// The sheet as JSON, which [`Sheet::from_json`] reads back.
    pub fn to_json(&self) -> String {
        // Room for most sheets at once.
        let mut json = Vec::with_capacity(32 << 10);
        // Only maps with keys that are no text, and failing writers, are refused; there are none.
        match serde_json::to_writer(&mut json, self) {
            Ok(()) => String::from_utf8(json).unwrap_or_default(),
            Err(_) => String::new(),
        }
    }

    /// Reads a sheet of at most [`MAX_SHEET_BYTES`] back, equal to the one that was written.
    ///
    /// # Errors
    /// [`DocumentError`] with every fault of the document, each with its place.
    pub fn from_json(text: &str) -> Result<Sheet, DocumentError> {
        let tree = Tree::parse_within(text, "a sheet", MAX_SHEET_BYTES)?;
        let node = tree.root();
        let mut context = Context::new(Units::of_document(&node), BTreeSet::new());
        context.is_written = true;
        let sheet = Sheet::decode(&node, Place::ROOT, &mut context);
        let faults = context.into_faults();
        match sheet {
            Some(sheet) if faults.count() == 0 => Ok(sheet),
            _ => Err(faults.into()),
        }
    }
}

//! A plan whose document has no fault.
use super::document::Document;
use super::linear_stack::gather_dimensions;
use super::operation::judge_numbers;
use super::{evaluate, sheet::Sheet};
use crate::GeneralClass;
use crate::document::decode::{Context, Decode};
use crate::document::fault::Place;
use crate::document::node::{Content, Node, Tree};
use crate::document::{DocumentError, FaultKind};
use crate::quantity::Units;
use std::collections::BTreeSet;

/// A plan whose document has no fault.
#[derive(Clone, PartialEq, Debug)]
pub struct Plan {
    pub(super) document: Document,
    pub(super) text: Box<str>,
    pub(super) sha256: String,
}

impl Plan {
    /// Reads a document, of at most [`MAX_BYTES`](crate::document::MAX_BYTES).
    ///
    /// # Errors
    /// [`DocumentError`] with every fault of the document, each with its place.
    pub fn from_json(text: &str) -> Result<Plan, DocumentError> {
        let document = Plan::decode(&Tree::parse(text)?)?;
        Ok(Plan { document, text: text.into(), sha256: sha256(text) })
    }

    pub(super) fn decode(tree: &Tree<'_>) -> Result<Document, DocumentError> {
        let node = tree.root();
        let units = Units::of_document(&node);
        let mut context = Context::new(units, BTreeSet::new());
        context.general = GeneralClass::of_document(&node);
        gather_characteristics(&node, &mut context);
        gather_dimensions(&node, &mut context);
        let document = Document::decode(&node, Place::ROOT, &mut context);
        if let Some(document) = &document {
            judge_numbers(&document.operations, &mut context);
        }
        let mut faults = context.into_faults();
        if let Some(rates) = document.as_ref().and_then(|document| document.rates.as_ref()) {
            rates.check_names(Place::ROOT.field("rates"), &mut faults);
        }
        match document {
            Some(document) if faults.count() == 0 => Ok(document),
            _ => Err(faults.into()),
        }
    }

    /// The process sheet of the plan.
    ///
    /// # Errors
    /// [`DocumentError`] where a formula has no answer for what the document says, with the place.
    pub fn evaluate(&self) -> Result<Sheet, DocumentError> {
        evaluate::evaluate(&self.document, &self.sha256, true)
    }

    /// SHA-256 of the text of the document.
    pub fn sha256(&self) -> &str {
        &self.sha256
    }

    /// The document.
    pub fn document(&self) -> &Document {
        &self.document
    }
}

/// Notes the numbers of the characteristics, so that whatever names one can be judged where it stands.
fn gather_characteristics(node: &Node<'_>, context: &mut Context) {
    let Some(nodes) = node.get("characteristics").filter(|node| matches!(node.content(), Content::List(_)))
    else {
        return;
    };
    let list = Place::ROOT.field("characteristics");
    for (index, node) in nodes.parts().enumerate() {
        let Some(Content::Number(number)) = node.get("number").map(Node::content) else { continue };
        let whole = *number as u32;
        if whole > 0 && f64::from(whole) == *number && !context.characteristics.insert(whole) {
            context.fault(FaultKind::GivenTwice, list.index(index).field("number"), || {
                format!("another characteristic has the number {number}")
            });
        }
    }
}

fn sha256(text: &str) -> String {
    use sha2::{Digest, Sha256};
    let digit = |nibble: u8| char::from(b"0123456789abcdef"[usize::from(nibble)]);
    Sha256::digest(text).iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}

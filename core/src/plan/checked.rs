//! A plan whose document has no fault.
use super::document::Document;
use super::evaluate;
use super::joint_names::judge_names;
use super::linear_stack::gather_dimensions;
use super::operation::judge_numbers;
use super::propose::{Assumption, Completed, Standards, complete, is_own};
use super::sheet::{AssumedLine, Sheet};
use crate::GeneralClass;
use crate::document::decode::{Context, Decode};
use crate::document::fault::{Fault, Faults, Place};
use crate::document::node::{Content, Node, Tree};
use crate::document::{DocumentError, FaultKind};
use crate::quantity::Units;
use std::collections::BTreeSet;

/// A plan whose document has no fault.
#[derive(Clone, PartialEq, Debug)]
pub struct Plan {
    pub(super) document: Document,
    /// The document with what it left out.
    pub(super) text: Box<str>,
    pub(super) sha256: String,
    assumptions: Vec<Assumption>,
    /// The document as it was read, where it is not the completed one.
    given: Option<Box<str>>,
    pub(super) routings: Vec<Routed>,
}

/// Another way to make the part, as a plan of its own.
#[derive(Clone, PartialEq, Debug)]
pub struct Routed {
    /// What it is called.
    pub name: String,
    /// The plan with its operations.
    pub plan: Plan,
}

impl Plan {
    /// Reads a document, of at most [`MAX_BYTES`](crate::document::MAX_BYTES). What it leaves out and common practice can
    /// propose is assumed: see [`assumptions`](Plan::assumptions).
    ///
    /// # Errors
    /// [`DocumentError`] with every fault of the document, each with its place.
    pub fn from_json(text: &str) -> Result<Plan, DocumentError> {
        Plan::completed(text, None)
    }

    /// As [`Plan::from_json`], with a document of the shop's own standard values, which go before those of the library.
    ///
    /// # Errors
    /// As [`Plan::from_json`]; the places of faults of the standards begin with `/standards`.
    pub fn from_json_with(text: &str, standards: &str) -> Result<Plan, DocumentError> {
        let standards = Standards::from_json(standards)
            .map_err(|error| with_places(error, |fault| fault.place.insert_str(0, "/standards")))?;
        Plan::completed(text, Some(&standards))
    }

    pub(super) fn completed(text: &str, standards: Option<&Standards>) -> Result<Plan, DocumentError> {
        let tree = Tree::parse(text)?;
        let plan = Plan::alone(text, &tree, standards);
        if tree.root().get("routings").is_none() {
            return plan;
        }
        let (is_sound, mut faults) = (plan.is_ok(), Faults::default());
        let plan = faults.keep(plan);
        let routings = Plan::routed(tree.root(), standards, is_sound, &mut faults);
        let Some(plan) = plan.filter(|_| faults.count() == 0) else { return Err(faults.into()) };
        Ok(match Plan::completed_routings(&plan.text, &routings) {
            Some(whole) => {
                Plan { text: whole.into(), given: Some(plan.given.unwrap_or(plan.text)), routings, ..plan }
            }
            None => Plan { routings, ..plan },
        })
    }

    /// The plan without its routings.
    fn alone(text: &str, tree: &Tree<'_>, standards: Option<&Standards>) -> Result<Plan, DocumentError> {
        let sha256 = sha256(text);
        let Some(Completed { text: whole, assumptions }) = complete(tree, standards) else {
            return Ok(Plan {
                document: Plan::decode(tree)?,
                text: text.into(),
                sha256,
                assumptions: vec![],
                given: None,
                routings: vec![],
            });
        };
        let document = Plan::decode(&Tree::parse(&whole)?)
            .map_err(|error| with_places(error, |fault| tell_standard(fault, &assumptions)))?;
        Ok(Plan {
            document,
            text: whole.into(),
            sha256,
            assumptions,
            given: Some(text.into()),
            routings: vec![],
        })
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
            judge_names(document, &mut context);
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
        let sheet = self.unpriced()?;
        let quantity = sheet.quantity.into();
        Ok(self.document.with_quote(sheet, quantity))
    }

    /// The process sheet without its quote.
    pub(super) fn unpriced(&self) -> Result<Sheet, DocumentError> {
        let sheet = evaluate::evaluate(&self.document, &self.sha256, true)?;
        let assumed = self.assumptions.iter().cloned().map(AssumedLine::from).collect();
        Ok(Sheet { assumed, ..sheet })
    }

    /// What the document leaves out and was assumed, each with its place in the completed document and its reason.
    pub fn assumptions(&self) -> &[Assumption] {
        &self.assumptions
    }

    /// The document as it was read.
    pub fn to_json(&self) -> &str {
        self.given.as_deref().unwrap_or(&self.text)
    }

    /// The document with what was assumed, as text: a plan of its own that leaves out nothing.
    pub fn completed_json(&self) -> &str {
        &self.text
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

/// An error with its faults changed.
fn with_places(error: DocumentError, change: impl Fn(&mut Fault)) -> DocumentError {
    let mut faults = Faults::default();
    for mut fault in error.faults().iter().cloned() {
        change(&mut fault);
        faults.push(|| fault);
    }
    faults.into()
}

/// Says where a faulty value comes from that the plan itself does not have.
fn tell_standard(fault: &mut Fault, assumptions: &[Assumption]) {
    let is_inside = |place: &str| {
        fault.place.strip_prefix(place).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
    };
    let own = assumptions.iter().find(|one| is_inside(&one.place));
    if let Some(place) = own.and_then(|one| is_own(&one.reason)) {
        fault.message.push_str(&format!(", from {place} of your standards"));
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

//! An object that is filled with what it leaves out.
use super::assumption::Assumption;
use super::facts::Facts;
use super::merge;
use crate::document::node::{Content, Node};
use crate::quantity::{Kind, Length, Quantity, Ratio};
use serde_json::{Map, Value, json};

/// An object of the document, or one that it leaves out, with what is added to it.
pub(super) struct Filling<'f, 'n> {
    pub(super) facts: &'f Facts<'n>,
    node: Option<Node<'n>>,
    place: String,
    added: Map<String, Value>,
    assumptions: Vec<Assumption>,
}

/// What was added, and what was assumed.
pub(super) struct Filled {
    pub(super) patch: Value,
    pub(super) assumptions: Vec<Assumption>,
}

impl<'f, 'n> Filling<'f, 'n> {
    pub(super) fn new(facts: &'f Facts<'n>, node: Option<Node<'n>>, place: String) -> Filling<'f, 'n> {
        Filling { facts, node, place, added: Map::new(), assumptions: vec![] }
    }

    /// Whether the field is given or was added.
    pub(super) fn has(&self, name: &str) -> bool {
        self.added.contains_key(name) || self.node.is_some_and(|node| node.get(name).is_some())
    }

    /// Whether anything was added so far.
    pub(super) fn leaves_out(&self) -> bool {
        !self.assumptions.is_empty()
    }

    /// A number that is given or was added, in the unit of the document.
    pub(super) fn number(&self, name: &str, kind: &Kind) -> Option<f64> {
        match self.added.get(name) {
            Some(added) => added.as_f64(),
            None => self.facts.number(self.node?, name, kind),
        }
    }

    pub(super) fn length_of(&self, name: &str) -> Option<f64> {
        self.number(name, Length::KIND)
    }

    /// A count that is given or was added; a default where it is neither.
    pub(super) fn count(&self, name: &str, default: f64) -> f64 {
        self.number(name, Ratio::KIND).unwrap_or(default)
    }

    /// The ends of a range that is given or was added.
    pub(super) fn range(&self, name: &str, kind: &Kind) -> Option<[f64; 2]> {
        match self.added.get(name) {
            Some(added) => Some([added.get("lower")?.as_f64()?, added.get("upper")?.as_f64()?]),
            None => {
                let range = self.node?.get(name)?;
                Some([self.facts.number(range, "lower", kind)?, self.facts.number(range, "upper", kind)?])
            }
        }
    }

    /// Adds a field that is left out.
    pub(super) fn put(&mut self, name: &str, value: Value, shown: String, reason: impl Into<String>) {
        if !self.has(name) {
            let place = format!("{}/{name}", self.place);
            self.assumptions.push(Assumption { place, value: shown, reason: reason.into() });
            self.added.insert(name.into(), value);
        }
    }

    pub(super) fn put_text(&mut self, name: &str, text: &str, reason: impl Into<String>) {
        self.put(name, text.into(), text.into(), reason);
    }

    /// Adds a number that can stand in a document.
    pub(super) fn put_number(&mut self, name: &str, value: f64, unit: &str, reason: impl Into<String>) {
        if value.is_finite() {
            let space = if unit.is_empty() { "" } else { " " };
            self.put(name, merge::number_of(value), format!("{value}{space}{unit}"), reason);
        }
    }

    pub(super) fn put_range(&mut self, name: &str, [low, high]: [f64; 2], unit: &str, reason: &str) {
        if low.is_finite() && high.is_finite() {
            self.put(
                name,
                json!({"lower": merge::number_of(low), "upper": merge::number_of(high)}),
                format!("{low} to {high} {unit}"),
                reason,
            );
        }
    }

    /// Fills an object inside this one, which may be left out as a whole; nothing where it is something else.
    pub(super) fn inside<T>(
        &mut self,
        name: &str,
        fill: impl FnOnce(&mut Filling<'f, 'n>) -> T,
    ) -> Option<T> {
        let node = self.node.and_then(|node| node.get(name));
        if node.is_some_and(|node| !matches!(node.content(), Content::Object(_))) {
            return None;
        }
        let mut inner = Filling::new(self.facts, node, format!("{}/{name}", self.place));
        let made = fill(&mut inner);
        let Filled { patch, assumptions } = inner.filled();
        if !assumptions.is_empty() {
            self.assumptions.extend(assumptions);
            merge::add(self.added.entry(name).or_insert(Value::Null), patch);
        }
        Some(made)
    }

    pub(super) fn filled(self) -> Filled {
        Filled { patch: self.added.into(), assumptions: self.assumptions }
    }
}

/// A document with what it left out.
pub(crate) struct Completed {
    /// The document as text.
    pub(crate) text: String,
    /// What was assumed, in the order in which it was.
    pub(crate) assumptions: Vec<Assumption>,
}

impl Completed {
    pub(super) fn new(root: Node<'_>, filled: Filled) -> Completed {
        Completed { text: merge::merged(root, &filled.patch), assumptions: filled.assumptions }
    }
}

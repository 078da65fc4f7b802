//! The routings of a plan, each as a plan of its own.
//!
//! A routing is read as the document with its operations in the place of the plan's, so that whatever a plan is judged,
//! completed and quoted by holds for it without a second path.
use super::checked::{Plan, Routed};
use super::propose::{Standards, merged};
use super::routing::{MAX_ROUTINGS, OWN};
use crate::document::fault::{DocumentError, Fault, FaultKind, Faults, Place};
use crate::document::node::{Content, Node, Tree};
use crate::document::shape::one_of;
use crate::error::excerpt;
use serde_json::{Value, json};
use std::fmt::Write;

impl Plan {
    /// What the way of `operations` is called: the `routing` of the document, or `main`.
    pub fn routing_name(&self) -> &str {
        self.document.routing.as_deref().unwrap_or(OWN)
    }

    /// The other ways to make the part, each as a plan of its own.
    pub fn routings(&self) -> &[Routed] {
        &self.routings
    }

    /// The way of that name, as a plan of its own.
    pub fn routing(&self, name: &str) -> Option<&Plan> {
        let is_own = name == self.routing_name();
        let other = || self.routings.iter().find(|one| one.name == name).map(|one| &one.plan);
        if is_own { Some(self) } else { other() }
    }
}

impl Plan {
    /// The way of that name, as a plan of its own.
    ///
    /// # Errors
    /// [`DocumentError`] that says which names there are.
    pub fn routing_named(&self, name: &str) -> Result<&Plan, DocumentError> {
        self.routing(name).ok_or_else(|| {
            let own = [self.routing_name()].into_iter();
            let names = own.chain(self.routings.iter().map(|one| &*one.name));
            let message = format!("no routing is called `{}`; expected {}", excerpt(name), one_of(names));
            let place = Place::ROOT.field("routings").pointer();
            Fault { kind: FaultKind::NotThere, place, line_and_column: None, message }.into()
        })
    }
}

/// The nodes of the routings of a document, as far as they have a name and a list of operations.
fn listed<'n>(root: Node<'n>) -> impl Iterator<Item = (usize, String, Node<'n>)> {
    let routings = root.get("routings").filter(|list| matches!(list.content(), Content::List(_)));
    let parts = routings.into_iter().flat_map(|list| list.parts()).take(MAX_ROUTINGS).enumerate();
    parts.filter_map(|(index, node)| {
        let Content::Text(name) = node.get("name")?.content() else { return None };
        let operations = node.get("operations")?;
        matches!(operations.content(), Content::List(_)).then(|| (index, name.to_string(), operations))
    })
}

/// The document with other operations, and without routings.
fn swapped(root: Node<'_>, operations: Node<'_>) -> String {
    let mut text = String::from("{");
    let mut separator = "";
    for field in root.parts().filter(|field| !matches!(field.name(), "routings" | "routing")) {
        let node = if field.name() == "operations" { operations } else { field };
        let _ = write!(text, "{separator}{}: {}", Value::from(field.name()), merged(node, &Value::Null));
        separator = ", ";
    }
    text + "}"
}

impl Plan {
    /// The plans of the routings of a document; `is_sound` says whether the rest of it is.
    pub(super) fn routed(
        root: Node<'_>,
        standards: Option<&Standards>,
        is_sound: bool,
        faults: &mut Faults,
    ) -> Vec<Routed> {
        let mut plans = vec![];
        for (index, name, operations) in listed(root) {
            match Plan::completed(&swapped(root, operations), standards) {
                Ok(plan) => plans.push(Routed { name, plan }),
                Err(error) => {
                    for fault in in_routing(error, index, is_sound) {
                        faults.push(|| fault);
                    }
                }
            }
        }
        plans
    }

    /// The text of a document with what its routings leave out; nothing where they leave out nothing.
    pub(super) fn completed_routings(text: &str, plans: &[Routed]) -> Option<String> {
        if plans.iter().all(|routed| routed.plan.assumptions().is_empty()) {
            return None;
        }
        let operations = |routed: &Routed| -> Option<Value> {
            let document: Value = serde_json::from_str(routed.plan.completed_json()).ok()?;
            Some(json!({ "operations": document.get("operations")? }))
        };
        let patch: Vec<Value> = plans.iter().map(|one| operations(one).unwrap_or_default()).collect();
        let tree = Tree::parse(text).ok()?;
        Some(merged(tree.root(), &json!({ "routings": patch })))
    }
}

/// The faults of the plan of a routing, by their places in the document. Those outside its operations are of the whole
/// document, unless it has none of its own.
fn in_routing(error: DocumentError, index: usize, is_sound: bool) -> impl Iterator<Item = Fault> {
    error.faults().to_vec().into_iter().filter_map(move |mut fault| {
        let is_own = fault.place == "/operations" || fault.place.starts_with("/operations/");
        if is_own {
            fault.place.insert_str(0, &format!("/routings/{index}"));
        } else if is_sound {
            fault.message = format!("with these operations, {}: {}", fault.place, fault.message);
            fault.place = format!("/routings/{index}/operations");
        }
        (is_own || is_sound).then_some(fault)
    })
}

/// An error in the plan of a routing, by its places in the document.
pub(super) fn of_routing(error: DocumentError, index: usize) -> DocumentError {
    let mut faults = Faults::default();
    for fault in in_routing(error, index, true) {
        faults.push(|| fault);
    }
    faults.into()
}

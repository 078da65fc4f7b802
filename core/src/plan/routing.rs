//! The form of other ways to make the part: lists of operations beside that of the plan.
use super::operation::Operation;
use crate::document::decode::{Context, Decode};
use crate::document::fault::{FaultKind, Place};
use crate::document::form::*;
use crate::document::node::{Content, Node};

objects! {
    /// Another way to make the part, to be compared with that of `operations`.
    Routing {
        /// What it is called.
        name: String,
        /// Why it is worth a look.
        reason: Option<String>,
        /// Its operations, in the order of the work. All else is that of the plan.
        operations: RoutedOperations,
    }
}

/// The operations of a routing, which the plan of the routing reads.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RoutedOperations;

impl Decode for RoutedOperations {
    const SHAPE: &'static Shape = <Vec<Operation> as Decode>::SHAPE;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<RoutedOperations> {
        if let Content::List(_) = node.content() {
            return Some(RoutedOperations);
        }
        context
            .fault(FaultKind::WrongType, at, || format!("must be a list of operations, not {}", node.what()));
        None
    }
}

/// The most routings beside the operations of a plan.
pub const MAX_ROUTINGS: usize = 8;
/// What the way of `operations` is called where the plan gives it no name.
pub(super) const OWN: &str = "main";

pub(super) fn few_routings(routings: &[Routing], own: &Option<String>) -> Option<String> {
    let count = routings.len();
    if count > MAX_ROUTINGS {
        return Some(format!(
            "a plan has at most {MAX_ROUTINGS} routings beside its operations, not {count}"
        ));
    }
    let mut names = vec![own.as_deref().unwrap_or(OWN)];
    for routing in routings {
        if names.contains(&&*routing.name) {
            return Some(format!("two routings are called `{}`: give each a name of its own", routing.name));
        }
        names.push(&routing.name);
    }
    None
}

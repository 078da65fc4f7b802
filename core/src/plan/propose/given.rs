//! Which objects leave out nothing that could be proposed: the pass need not look at them any closer.
use super::facts::text;
use super::fields::{Proposed, proposed_fields};
use crate::document::decode::Decode;
use crate::document::node::{Content, Node};
use crate::document::shape::{Object, Shape};
use crate::plan::bar::Bar;
use crate::plan::characteristic::Characteristic;
use crate::plan::operation::Work;

/// Fields that are proposed only where their object leaves out more.
const FOLLOWING: [&str; 6] = ["handling", "approach", "end_trim", "remnant", "spark_out_passes", "batch"];
/// Objects whose `passes` are proposed only where the depth is left out.
const IN_DEPTH: [&str; 4] = ["Turn", "Bore", "Mill", "MillFlats"];

/// Whether the characteristics and the bar leave out nothing.
pub(super) fn is_drawing_whole(root: Node<'_>) -> bool {
    let bar = root.get("bar");
    bar.is_some_and(|bar| is_whole(bar, Bar::OBJECT))
        && objects(root, "characteristics").all(|one| is_whole(one, Characteristic::OBJECT))
}

/// Whether all operations leave out nothing.
pub(super) fn are_operations_whole(root: Node<'_>) -> bool {
    objects(root, "operations").all(is_operation_whole)
}

/// Whether an operation leaves out nothing.
pub(super) fn is_operation_whole(operation: Node<'_>) -> bool {
    let Shape::Tagged(tag, kinds, _) = Work::SHAPE else { return false };
    let kind = operation.get(tag).and_then(text);
    let known = kinds.iter().find(|(name, _)| Some(*name) == kind);
    // Nothing is proposed for a kind that is not known.
    known.is_none_or(|(_, object)| is_whole(operation, object))
}

fn objects<'n>(root: Node<'n>, list: &str) -> impl Iterator<Item = Node<'n>> {
    let all = root.get(list).into_iter().flat_map(Node::parts);
    all.filter(|one| matches!(one.content(), Content::Object(_)))
}

/// Whether an object of the document has every field that could be proposed for it, and so have the objects in it.
fn is_whole(node: Node<'_>, object: &Object) -> bool {
    let own = proposed_fields().iter().filter(|own| own.object == object.name);
    let is_apart = |own: &&Proposed| {
        let follows_depth = own.field == "passes" && IN_DEPTH.contains(&own.object);
        !(follows_depth || FOLLOWING.contains(&own.field))
    };
    own.filter(is_apart).all(|own| {
        let shape = object.fields.iter().find(|field| field.name == own.field).map(|field| field.shape);
        match (node.get(own.field), shape) {
            (Some(inner), Some(Shape::Object(object))) => is_whole(inner, object),
            (given, _) => given.is_some(),
        }
    })
}

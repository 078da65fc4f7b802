//! The objects of a list, filled one by one.
use super::filling::Filled;
use crate::document::node::{Content, Node};
use serde_json::Value;

/// Fills each object of a list of the document.
pub(super) fn each<'n>(root: Node<'n>, name: &str, fill: impl Fn(Node<'n>, String) -> Filled) -> Filled {
    let (mut patches, mut assumptions) = (vec![], vec![]);
    for (index, node) in root.get(name).into_iter().flat_map(Node::parts).enumerate() {
        let Content::Object(_) = node.content() else {
            patches.push(Value::Null);
            continue;
        };
        let filled = fill(node, format!("/{name}/{index}"));
        patches.push(filled.patch);
        assumptions.extend(filled.assumptions);
    }
    Filled { patch: patches.into(), assumptions }
}

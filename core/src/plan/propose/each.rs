//! The objects of a list, filled one by one.
use super::filling::Filled;
use crate::document::node::{Content, Node};
use serde_json::Value;

/// The most fields of a document that are assumed in one step; what is left out behind them is missing.
pub(super) const MAX_ASSUMED: usize = 10_000;

/// Fills each object of a list of the document.
pub(super) fn each<'n>(
    root: Node<'n>,
    name: &str,
    fill: impl Fn(usize, Node<'n>, String) -> Filled,
) -> Filled {
    let (mut patches, mut assumptions) = (vec![], vec![]);
    for (index, node) in root.get(name).into_iter().flat_map(Node::parts).enumerate() {
        if !matches!(node.content(), Content::Object(_)) || assumptions.len() >= MAX_ASSUMED {
            patches.push(Value::Null);
            continue;
        }
        let filled = fill(index, node, format!("/{name}/{index}"));
        patches.push(filled.patch);
        assumptions.extend(filled.assumptions);
    }
    Filled { patch: patches.into(), assumptions }
}

//! The pass over a document.
use super::around::Around;
use super::each::each;
use super::facts::{Facts, text};
use super::filling::{Completed, Filled, Filling};
use super::given::{are_operations_whole, is_drawing_whole, is_operation_whole};
use super::standards::Standards;
use super::{drawing, grind, holes, keyseat, lathe, mill, others, saw};
use crate::document::node::{Content, Node, Tree};
use serde_json::{Map, json};

/// A document with what it leaves out; nothing where it leaves out nothing, or nothing can be proposed.
///
/// The shop's own standards go first, then the bar and the drawing, then the operations, which see what went before.
pub(crate) fn complete(tree: &Tree<'_>, standards: Option<&Standards>) -> Option<Completed> {
    let first = standards.and_then(|standards| standards.fill(tree.root()));
    let second = on_top(first, tree, fill_drawing);
    on_top(second, tree, fill_operations)
}

/// One more step on what the steps before came to.
fn on_top(
    before: Option<Completed>,
    tree: &Tree<'_>,
    step: fn(Node<'_>) -> Option<Filled>,
) -> Option<Completed> {
    let Some(Completed { text, mut assumptions }) = before else {
        return step(tree.root()).map(|filled| Completed::new(tree.root(), filled));
    };
    // What was written here can be read.
    let made = Tree::parse(&text)
        .ok()
        .and_then(|tree| step(tree.root()).map(|filled| Completed::new(tree.root(), filled)));
    match made {
        Some(made) => {
            assumptions.extend(made.assumptions);
            Some(Completed { text: made.text, assumptions })
        }
        None => Some(Completed { text, assumptions }),
    }
}

fn fill_drawing(root: Node<'_>) -> Option<Filled> {
    let Content::Object(_) = root.content() else { return None };
    if is_drawing_whole(root) {
        return None;
    }
    let facts = Facts::of(root);
    let mut patch = Map::new();
    let mut assumptions = vec![];
    let mut keep = |name: &str, filled: Filled| {
        if !filled.assumptions.is_empty() {
            assumptions.extend(filled.assumptions);
            patch.insert(name.into(), filled.patch);
        }
    };
    keep(
        "characteristics",
        each(root, "characteristics", |_, node, place| {
            let mut one = Filling::new(&facts, Some(node), place);
            let number = node.get("number").and_then(Node::number);
            drawing::characteristic(&mut one, number.and_then(|number| facts.asked(number as u32)));
            one.filled()
        }),
    );
    let node = root.get("bar");
    if node.is_none_or(|node| matches!(node.content(), Content::Object(_))) {
        let mut bar = Filling::new(&facts, node, "/bar".into());
        drawing::bar(&mut bar, drawing::largest(&facts));
        keep("bar", bar.filled());
    }
    (!assumptions.is_empty()).then(|| Filled { patch: patch.into(), assumptions })
}

fn fill_operations(root: Node<'_>) -> Option<Filled> {
    if are_operations_whole(root) {
        return None;
    }
    let facts = Facts::of(root);
    let around = Around::of(&facts);
    let filled = each(root, "operations", |index, node, place| {
        let mut work = Filling::new(&facts, Some(node), place);
        operation(&mut work, node, &around, index);
        work.filled()
    });
    (!filled.assumptions.is_empty())
        .then(|| Filled { patch: json!({ "operations": filled.patch }), assumptions: filled.assumptions })
}

fn operation<'n>(work: &mut Filling<'_, 'n>, node: Node<'n>, around: &Around<'n>, index: usize) {
    if is_operation_whole(node) {
        return;
    }
    let drill = around.drill_before(index);
    match node.get("kind").and_then(text) {
        Some("saw") => saw::saw(work),
        Some("mill_flats") => mill::mill_flats(work, node),
        Some("mill") => mill::mill(work, node),
        Some("keyseat") => keyseat::keyseat(work, node),
        Some("grind") => grind::grind(work, node),
        Some("broach") => others::broach(work),
        Some("heat_treat") => others::heat_treat(work, node),
        Some("plate") => others::batch(work, 60.0, 100.0),
        Some("wash") => others::batch(work, 10.0, 50.0),
        Some("turn") => lathe::turn(work, node),
        Some("face") => lathe::face(work, node, around.facing),
        Some("bore") => lathe::bore(work, node, drill),
        Some("groove") => lathe::groove(work, node),
        Some("part_off") => lathe::part_off(work),
        Some("center_drill") => holes::center_drill(work),
        Some("countersink") => holes::countersink(work, drill),
        Some("turn_thread") => lathe::turn_thread(work, node),
        Some("knurl") => lathe::knurl(work, node),
        Some("drill") => holes::drill(work, node, around.tap_after(index)),
        Some("tap") => holes::tap(work, node, drill),
        Some("ream") => holes::ream(work, node, drill),
        Some("deburr") => others::time(work, 0.2),
        Some("press") => others::time(work, 0.5),
        Some("shrink") => others::time(work, 1.0),
        Some("inspect") => {
            let checks = node.get("checks").map(|checks| checks.parts().count());
            others::inspect(work, checks, around.unchecked == 1);
        }
        _ => {}
    }
}

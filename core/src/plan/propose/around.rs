//! What stands around an operation: gathered once, so that a long plan takes no longer than its length asks for.
use super::facts::{Facts, text};
use crate::document::node::Node;
use crate::quantity::{Length, Quantity};

/// What operations have to know of others.
pub(super) struct Around<'n> {
    /// For each operation the drill before it.
    drills: Vec<Option<Node<'n>>>,
    /// For each operation the tap that follows, before another hole is made.
    taps: Vec<Option<Node<'n>>>,
    /// What a face whose depth is left out takes off; nothing where there is nothing to take off.
    pub(super) facing: Option<f64>,
    /// How many inspections leave out what they check.
    pub(super) unchecked: usize,
}

impl<'n> Around<'n> {
    pub(super) fn of(facts: &Facts<'n>) -> Around<'n> {
        let operations: Vec<Node<'n>> = facts.operations().collect();
        let kinds: Vec<&str> =
            operations.iter().map(|one| one.get("kind").and_then(text).unwrap_or_default()).collect();
        let mut drill = None;
        let drills = operations.iter().zip(&kinds).map(|(one, kind)| {
            let before = drill;
            drill = if *kind == "drill" { Some(*one) } else { before };
            before
        });
        let drills = drills.collect();
        let mut tap = None;
        let mut taps = vec![None; operations.len()];
        for (place, (one, kind)) in operations.iter().zip(&kinds).enumerate().rev() {
            taps[place] = tap;
            match *kind {
                "tap" => tap = Some(*one),
                "drill" | "ream" | "bore" => tap = None,
                _ => {}
            }
        }
        let unchecked = operations
            .iter()
            .zip(&kinds)
            .filter(|(one, kind)| **kind == "inspect" && one.get("checks").is_none())
            .count();
        Around { drills, taps, facing: facing(facts, &operations, &kinds), unchecked }
    }

    pub(super) fn drill_before(&self, place: usize) -> Option<Node<'n>> {
        *self.drills.get(place)?
    }

    pub(super) fn tap_after(&self, place: usize) -> Option<Node<'n>> {
        *self.taps.get(place)?
    }
}

/// What the saw leaves above the middle of the length, less what faces take off that state it, shared among the others.
fn facing(facts: &Facts<'_>, operations: &[Node<'_>], kinds: &[&str]) -> Option<f64> {
    let of_kind = |wanted: &'static str| {
        operations.iter().zip(kinds).filter(move |(_, kind)| **kind == wanted).map(|(one, _)| *one)
    };
    let saw = of_kind("saw").next();
    let allowance = saw.and_then(|saw| facts.number(saw, "facing_allowance", Length::KIND)).unwrap_or(0.0);
    let length = facts.longest()?;
    let [upper, middle] =
        [length.limits.upper(), length.limits.middle()].map(|size| size.to_float(facts.units));
    let mut left = allowance + upper - middle;
    let mut sharers = 0.0_f64;
    for face in of_kind("face") {
        let passes = face.get("passes").and_then(Node::number).unwrap_or(1.0);
        match facts.number(face, "depth", Length::KIND) {
            Some(depth) => left -= depth * passes,
            None => sharers += 1.0,
        }
    }
    Some(left / sharers.max(1.0)).filter(|each| *each > 0.0)
}

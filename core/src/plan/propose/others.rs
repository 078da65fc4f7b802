//! Operations whose time alone is proposed, batches, the stroke of a broach, and inspection.
use super::facts::{COMMON, to_a_millionth};
use super::filling::Filling;
use crate::document::node::Node;
use crate::quantity::{Quantity, Ratio};

/// The time for a part, in minutes.
pub(super) fn time(work: &mut Filling<'_, '_>, minutes: f64) {
    work.put_number("time", minutes, "min", COMMON);
}

/// The time of a batch in minutes, and how many parts a batch takes: common practice, no source.
pub(super) fn batch(work: &mut Filling<'_, '_>, minutes: f64, most: f64) {
    if work.has("time") {
        return;
    }
    work.put_number("time", minutes, "min", format!("a batch: {COMMON}"));
    let quantity = work.facts.root.get("part").and_then(|part| part.get("quantity")?.number());
    if let Some(quantity) = quantity.filter(|quantity| *quantity >= 1.0) {
        let reason = format!("the whole lot, at most {most} at a time: {COMMON}");
        work.put_number("batch", quantity.min(most), "", reason);
    }
}

/// Heat treatment: a hardness that is asked for says what is done.
pub(super) fn heat_treat(work: &mut Filling<'_, '_>, node: Node<'_>) {
    if node.get("hardness").is_some() {
        work.put_text("name", "harden and temper", "a hardness is asked for: common practice, no source");
    }
    batch(work, 240.0, 50.0);
}

/// A broach is pulled through once; what takes several strokes is shaped.
pub(super) fn broach(work: &mut Filling<'_, '_>) {
    let facts = work.facts;
    let unit = facts.length();
    let is_shaped = work.number("strokes", Ratio::KIND).is_some_and(|strokes| strokes > 1.0);
    work.put_text("tool", if is_shaped { "a slotting tool" } else { "a broach" }, COMMON);
    if let Some(whole) = facts.longest() {
        let (more, what) = match is_shaped {
            true => (facts.either(0.8, 20.0), "overrun"),
            false => (facts.either(16.0, 400.0), "teeth"),
        };
        let stroke = to_a_millionth(whole.limits.upper().to_float(facts.units) + more);
        let reason = format!("number {}, and {more} {unit} of {what}: {COMMON}", whole.number);
        work.put_number("stroke", stroke, unit, reason);
    }
    let rate = if is_shaped { facts.either(480.0, 12000.0) } else { facts.either(200.0, 5000.0) };
    work.put_number("cutting_rate", rate, facts.either("in/min", "mm/min"), COMMON);
    work.put_handling(0.5);
}

/// Minutes to inspect a characteristic.
const EACH: f64 = 0.3;

/// An inspection checks all where it is the only one that leaves out what it checks.
pub(super) fn inspect(work: &mut Filling<'_, '_>, checks: Option<usize>, is_alone: bool) {
    let numbers: Vec<u32> = work.facts.characteristics.iter().map(|one| one.number).collect();
    let count = checks.unwrap_or(numbers.len());
    if is_alone && !numbers.is_empty() {
        work.put("checks", numbers.into(), "all".into(), "every characteristic of the drawing");
    }
    let minutes = format!("{:.1}", EACH * count.max(1) as f64).parse().unwrap_or(EACH);
    let reason = format!("{EACH} min for each characteristic: common practice, no source");
    work.put_number("time", minutes, "min", reason);
}

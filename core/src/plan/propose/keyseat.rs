//! Keyseats.
use super::cutter::{Wanted, cutter};
use super::facts::{COMMON, Facts, three_digits, to_a_millionth};
use super::filling::Filling;
use crate::document::node::Node;
use crate::shape::keyseat::keyseat_depth_base;
use crate::starting_values::CutOperation;

/// Widths and heights of parallel keys that are not square, in millimetres: ISO/R 773, from memory.
const FLAT_KEYS: [[f64; 2]; 10] = [
    [8.0, 7.0],
    [10.0, 8.0],
    [12.0, 8.0],
    [14.0, 9.0],
    [16.0, 10.0],
    [18.0, 11.0],
    [20.0, 12.0],
    [22.0, 14.0],
    [25.0, 14.0],
    [28.0, 16.0],
];
/// How deep a pass is against the cutter's diameter: common practice, no source.
const DEEP: f64 = 0.5;

/// The height of the key of a width, and where it comes from.
fn key_height(facts: &Facts<'_>, width: f64) -> (f64, &'static str) {
    let flat = FLAT_KEYS.iter().find(|[own, _]| *own == width);
    match facts.either(None, flat) {
        Some([_, height]) => (*height, "the parallel key of that width, ISO/R 773 (from memory)"),
        None => (width, "a square key: common practice, no source"),
    }
}

pub(super) fn keyseat(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let unit = facts.length();
    if let Some(slot) = facts.made(node, "slot") {
        let width = slot.limits.nominal().to_float(facts.units);
        work.put_number("key_width", width, unit, format!("the nominal width of number {}", slot.number));
    }
    let Some(width) = work.length_of("key_width") else { return };
    let (height, reason) = key_height(facts, width);
    work.put_number("key_height", height, unit, reason);
    let wanted = Wanted {
        name: "a two-flute end mill of carbide",
        operation: CutOperation::EndMilling,
        diameter: width,
        reason: "as wide as the key".into(),
        teeth: 2.0,
    };
    let Some(diameter) = cutter(work, &wanted) else { return };
    let shaft = work.length_of("diameter").or(facts.bar.map(|bar| bar.upper().to_float(facts.units)));
    if let (Some(shaft), Some(height)) = (shaft.filter(|shaft| *shaft > width), work.length_of("key_height"))
    {
        put_passes(work, keyseat_depth_base(shaft, width, height), DEEP * diameter);
        put_travel(work, node, shaft);
    }
    work.put_handling(0.8);
}

fn put_passes(work: &mut Filling<'_, '_>, depth: f64, most: f64) {
    let unit = work.facts.length();
    let reason =
        format!("{} {unit} deep in passes of at most {}: {COMMON}", three_digits(depth), three_digits(most));
    work.put_number("passes", (depth / most).ceil().max(1.0), "", reason);
}

fn put_travel(work: &mut Filling<'_, '_>, node: Node<'_>, shaft: f64) {
    let facts = work.facts;
    let approach = facts.either(0.08, 2.0);
    let (length, what) = match facts.made(node, "length") {
        Some(made) => (made.limits.upper().to_float(facts.units), format!("number {}", made.number)),
        None => (1.5 * shaft, format!("one and a half times the shaft, {COMMON}")),
    };
    let unit = facts.length();
    let reason = format!("{what}; and an approach of {approach} {unit}");
    work.put_number("travel", to_a_millionth(length + approach), unit, reason);
}

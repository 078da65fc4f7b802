//! Milling: flats, and sides, faces, slots and pockets.
use super::cutter::{Wanted, cutter, end_mill};
use super::facts::{COMMON, Facts, text, three_digits, to_a_millionth};
use super::filling::Filling;
use super::lathe::equal;
use crate::document::node::Node;
use crate::quantity::{Quantity, Ratio};
use crate::shape::flat::flat_width_base;
use crate::starting_values::CutOperation;

/// How much of a cutter's diameter is in the cut.
const SHARE: f64 = 0.75;
/// How deep a pass is against the cutter's diameter.
const DEEP: f64 = 0.5;
/// How wide the cut of a side is against the cutter's diameter.
const FLANK: f64 = 0.25;

pub(super) fn mill_flats(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let unit = facts.length();
    if let Some(across) = facts.made(node, "across_flats") {
        let shown = format!("number {}", across.number);
        work.put("across", across.number.into(), shown, "the size across flats that it makes");
    }
    let flat = flat(facts, work, node);
    let wide = flat.as_ref().map_or(0.0, |flat| flat.width / SHARE);
    let wanted = Wanted {
        name: "an end mill of carbide",
        operation: CutOperation::EndMilling,
        diameter: end_mill(work, wide),
        reason: "covers the flat with three quarters of its diameter, of common sizes: no source".into(),
        teeth: 4.0,
    };
    let Some(diameter) = cutter(work, &wanted) else { return };
    put_width(work, SHARE * diameter, "three quarters of the cutter: common practice, no source");
    let Some(flat) = flat else { return };
    put_depth(work, flat.depth, DEEP * diameter, &flat.reason);
    let clear = facts.either(0.16, 4.0);
    let travel = to_a_millionth(three_digits(flat.width) + diameter + clear);
    work.put_number("travel", travel, unit, "one crossing of the flat, the cutter clear at both ends");
    work.put_handling(0.6);
}

/// What a flat asks for.
struct Flat {
    width: f64,
    depth: f64,
    reason: String,
}

fn flat(facts: &Facts<'_>, work: &Filling<'_, '_>, node: Node<'_>) -> Option<Flat> {
    let made = || facts.made(node, "across_flats");
    let across = match node.get("across") {
        Some(across) => facts.asked(across.number()? as u32)?,
        None => made()?,
    };
    let (start, from) = match work.length_of("diameter") {
        Some(diameter) => (diameter, "the diameter"),
        None => (facts.bar?.upper().to_float(facts.units), "the largest bar"),
    };
    let size = across.limits.middle().to_float(facts.units);
    let sides = if work.number("flats", Ratio::KIND)? == 1.0 { 1.0 } else { 2.0 };
    let depth = (start - size) / sides;
    let remaining = if sides == 1.0 { size } else { 0.5 * (start + size) };
    let unit = facts.length();
    let reason = format!("from {from}, {start} {unit}, to the middle of number {}", across.number);
    (depth > 0.0).then(|| Flat { width: flat_width_base(start, remaining), depth, reason })
}

fn put_width(work: &mut Filling<'_, '_>, width: f64, reason: &str) {
    work.put_number("radial_width", to_a_millionth(width), work.facts.length(), reason);
}

/// A depth in equal passes of at most so much.
fn put_depth(work: &mut Filling<'_, '_>, depth: f64, most: f64, from: &str) {
    if work.has("axial_depth") {
        return;
    }
    let passes = match work.has("passes") {
        true => work.count("passes", 1.0),
        false => (depth / most).ceil().max(1.0),
    };
    let unit = work.facts.length();
    work.put_number(
        "passes",
        passes,
        "",
        format!("passes of at most {} {unit}: {COMMON}", three_digits(most)),
    );
    let reason = format!("{from}, {}", equal(passes));
    work.put_number("axial_depth", to_a_millionth(depth / passes), unit, reason);
}

/// How a cut of `mill` is taken: common practice, no source.
struct Way {
    name: &'static str,
    operation: CutOperation,
    diameter: [f64; 2],
    teeth: f64,
    /// Width of the cut against the cutter's diameter.
    wide: f64,
    /// The deepest pass against the cutter's diameter.
    deep: f64,
}

fn way(cut: &str) -> Option<Way> {
    const END: Way = Way {
        name: "an end mill of carbide",
        operation: CutOperation::EndMilling,
        diameter: [0.5, 12.0],
        teeth: 4.0,
        wide: FLANK,
        deep: 1.0,
    };
    Some(match cut {
        "side" => END,
        "face" => Way {
            name: "a face mill with carbide inserts",
            operation: CutOperation::FaceMilling,
            diameter: [2.0, 50.0],
            wide: SHARE,
            deep: 0.04,
            ..END
        },
        "slot" => Way { teeth: 2.0, wide: 1.0, deep: DEEP, ..END },
        "pocket" => Way { diameter: [0.375, 10.0], teeth: 2.0, wide: SHARE, deep: DEEP, ..END },
        _ => return None,
    })
}

pub(super) fn mill(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let unit = facts.length();
    let slot = facts.made(node, "slot");
    if let Some(slot) = slot {
        work.put_text("cut", "slot", format!("number {} is a slot", slot.number));
    }
    let cut = node.get("cut").and_then(text).or(slot.map(|_| "slot"));
    let Some((cut, way)) = cut.and_then(|cut| Some((cut, way(cut)?))) else { return };
    let (diameter, reason) = match slot.filter(|_| cut == "slot") {
        Some(slot) => {
            (slot.limits.nominal().to_float(facts.units), format!("as wide as number {}", slot.number))
        }
        None => (facts.either(way.diameter[0], way.diameter[1]), COMMON.into()),
    };
    let wanted = Wanted { name: way.name, operation: way.operation, diameter, reason, teeth: way.teeth };
    let Some(diameter) = cutter(work, &wanted) else { return };
    let share = match way.wide {
        1.0 => "the whole cutter".into(),
        share => format!("{share} of the cutter's diameter: {COMMON}"),
    };
    put_width(work, way.wide * diameter, &share);
    let most = way.deep * diameter;
    match facts.made(node, "depth") {
        Some(deep) => {
            let from = format!("the middle of number {}", deep.number);
            put_depth(work, deep.limits.middle().to_float(facts.units), most, &from);
        }
        None => work.put_number(
            "axial_depth",
            to_a_millionth(most),
            unit,
            format!("{} of the cutter's diameter, for want of a depth: {COMMON}", way.deep),
        ),
    }
    if cut != "pocket" {
        put_travel(work, node, diameter);
    }
    work.put_handling(0.6);
}

/// A pass over the length that is made, or over the whole part, and over the cutter.
fn put_travel(work: &mut Filling<'_, '_>, node: Node<'_>, diameter: f64) {
    let facts = work.facts;
    let clear = facts.either(0.16, 4.0);
    let Some(length) = facts.made(node, "length").or(facts.longest()) else { return };
    let travel = to_a_millionth(length.limits.upper().to_float(facts.units) + diameter + clear);
    let reason = format!("number {}, the cutter clear at both ends", length.number);
    work.put_number("travel", travel, facts.length(), reason);
}

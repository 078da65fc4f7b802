//! Flats.
use super::cut::{reachable, third, two_digits_down};
use super::facts::{COMMON, Facts, three_digits};
use super::filling::Filling;
use super::lathe::to_a_millionth;
use crate::document::node::Node;
use crate::quantity::{Length, Quantity, Ratio, SpindleSpeed, SurfaceSpeed};
use crate::shape::flat::flat_width_base;
use crate::starting_values::{CutOperation, ToolMaterial};

/// Sizes in which end mills are common: common practice, no source.
const METRIC: [f64; 7] = [6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0];
const INCH: [f64; 7] = [0.25, 0.3125, 0.375, 0.5, 0.625, 0.75, 1.0];
/// How much of a cutter's diameter is in the cut.
const SHARE: f64 = 0.75;
/// How deep a pass is against the cutter's diameter.
const DEEP: f64 = 0.5;

pub(super) fn mill_flats(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let unit = facts.length();
    let flat = flat(facts, work, node);
    let tool = work.inside("tool", |tool| {
        let diameter = tool.length_of("diameter").unwrap_or_else(|| {
            let wide = flat.as_ref().map_or(0.0, |flat| flat.width / SHARE);
            let sizes = facts.either(INCH, METRIC);
            sizes.into_iter().find(|size| *size >= wide).unwrap_or(sizes[6])
        });
        let reason = "covers the flat with three quarters of its diameter, of common sizes: no source";
        tool.put_text("name", "an end mill of carbide", COMMON);
        tool.put_number("diameter", diameter, unit, reason);
        tool.put_number("teeth", 4.0, "", COMMON);
        let speeds = facts
            .speeds(CutOperation::EndMilling, ToolMaterial::Carbide, Some(diameter))
            .map(|speeds| reachable(speeds, Some(diameter), facts.units));
        tool.recommend(speeds, Some("chip_load"));
        let teeth = tool.count("teeth", 4.0);
        let ranges = (
            tool.tool_range("surface_speed", SurfaceSpeed::KIND),
            tool.tool_range("chip_load", Length::KIND),
        );
        (diameter, teeth, ranges)
    });
    let Some((diameter, teeth, (speed, chip))) = tool else { return };
    work.put_spindle(speed, Some(diameter));
    if let (Some(chip), Some(spindle)) = (chip, work.number("spindle_speed", SpindleSpeed::KIND)) {
        let each = two_digits_down(third(chip));
        let rate = facts.either("in/min", "mm/min");
        let reason = format!("{teeth} teeth at a chip load of {each} {unit}");
        work.put_number("feed_rate", three_digits(each * teeth * spindle), rate, reason);
    }
    work.put_number(
        "radial_width",
        to_a_millionth(SHARE * diameter),
        unit,
        "three quarters of the cutter: common practice, no source",
    );
    let Some(flat) = flat else { return };
    put_depth(work, &flat, diameter);
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
    let across = facts.asked(node.get("across")?.number()? as u32)?;
    let stated = work.length_of("diameter");
    let bar = stated.or_else(|| Some(facts.bar?.upper().to_float(facts.units)))?;
    let size = across.limits.middle().to_float(facts.units);
    let sides = if work.number("flats", Ratio::KIND)? == 1.0 { 1.0 } else { 2.0 };
    let depth = (bar - size) / sides;
    let remaining = if sides == 1.0 { size } else { 0.5 * (bar + size) };
    let unit = facts.length();
    let from = if stated.is_some() { "step" } else { "largest bar" };
    let reason = format!("from the {from}, {bar} {unit}, to the middle of number {}", across.number);
    (depth > 0.0).then(|| Flat { width: flat_width_base(bar, remaining), depth, reason })
}

fn put_depth(work: &mut Filling<'_, '_>, flat: &Flat, diameter: f64) {
    if work.has("axial_depth") {
        return;
    }
    let passes = match work.has("passes") {
        true => work.count("passes", 1.0),
        false => (flat.depth / (DEEP * diameter)).ceil().max(1.0),
    };
    let unit = work.facts.length();
    work.put_number("passes", passes, "", "passes of at most half of the cutter: common practice, no source");
    let reason = format!("{}, in {passes} passes", flat.reason);
    work.put_number("axial_depth", to_a_millionth(flat.depth / passes), unit, reason);
}

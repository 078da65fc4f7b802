//! Drilling and tapping.
use super::cut::reachable;
use super::facts::{COMMON, Facts, thread, three_digits, to_a_millionth};
use super::filling::Filling;
use crate::document::node::Node;
use crate::quantity::{Length, Quantity, SurfaceSpeed};
use crate::starting_values::{CutOperation, ToolMaterial};

/// Pitches between the end of a thread and the floor of its hole: common practice, no source.
const RUN_OUT: f64 = 4.0;

pub(super) fn drill(work: &mut Filling<'_, '_>, node: Node<'_>, tap: Option<Node<'_>>) {
    let facts = work.facts;
    let unit = facts.length();
    let wanted = hole(facts, node, tap);
    let tool = work.inside("tool", |tool| {
        tool.put_text("name", "a drill of high-speed steel", COMMON);
        if let Some((diameter, reason)) = wanted {
            tool.put_number("diameter", diameter, unit, reason);
        }
        let diameter = tool.length_of("diameter");
        let speeds = facts
            .speeds(CutOperation::Drilling, ToolMaterial::HighSpeedSteel, diameter)
            .map(|speeds| reachable(speeds, diameter, facts.units));
        tool.recommend(speeds, Some("feed_per_revolution"));
        let ranges = [
            tool.tool_range("surface_speed", SurfaceSpeed::KIND),
            tool.tool_range("feed_per_revolution", Length::KIND),
        ];
        (diameter, ranges)
    });
    let depth = depth(facts, node, tap);
    if let Some((depth, reason)) = depth {
        work.put_number("depth", depth, unit, reason);
    }
    let Some((diameter, [speed, feed])) = tool else { return };
    work.put_spindle(speed, diameter);
    work.put_feed("feed_per_revolution", feed, None);
    if work.leaves_out() {
        work.put_number("approach", facts.either(0.08, 2.0), unit, COMMON);
    }
    work.put_handling(0.2);
}

/// The diameter of a drill: that of the hole that it makes, or what the tap asks for.
fn hole(facts: &Facts<'_>, node: Node<'_>, tap: Option<Node<'_>>) -> Option<(f64, String)> {
    if let Some(made) = facts.made(node, "bore") {
        let [nominal, middle] =
            [made.limits.nominal(), made.limits.middle()].map(|size| size.to_float(facts.units));
        // A tapping drill in a tenth of a millimetre, where one lies within the limits.
        let tap_drill = tap.and_then(|tap| tap_drill(facts, tap));
        let within = |size: f64| {
            crate::Size::from_float(size, facts.units).is_ok_and(|size| made.limits.accepts(size))
        };
        let all = [tap_drill, Some(nominal), Some(middle)].into_iter().flatten();
        let size = all.into_iter().find(|size| within(*size))?;
        return Some((size, format!("within the limits of number {}", made.number)));
    }
    let size = tap_drill(facts, tap?)?;
    Some((size, "the hole that the tap asks for".into()))
}

/// The hole before tapping: as stated, or the nominal diameter less the pitch where that lies within the minor diameter.
fn tap_drill(facts: &Facts<'_>, tap: Node<'_>) -> Option<f64> {
    facts.number(tap, "hole_diameter", Length::KIND).or_else(|| {
        let (nominal, pitch, minor) = thread(tap)?;
        let hole = three_digits(nominal.checked_sub(pitch)?.to_float(facts.units));
        let within = crate::Size::from_float(hole, facts.units).is_ok_and(|size| minor.accepts(size));
        Some(if within { hole } else { minor.middle().to_float(facts.units) })
    })
}

fn depth(facts: &Facts<'_>, node: Node<'_>, tap: Option<Node<'_>>) -> Option<(f64, String)> {
    if let Some(made) = facts.made(node, "depth") {
        let depth = made.limits.middle().to_float(facts.units);
        return Some((depth, format!("the middle of number {}", made.number)));
    }
    let tap = tap?;
    let (_, pitch, _) = thread(tap)?;
    let room = RUN_OUT * pitch.to_float(facts.units);
    let deep = match facts.made(tap, "depth") {
        Some(made) => made.limits.upper().to_float(facts.units),
        None => facts.number(tap, "travel", Length::KIND)?,
    };
    let reason = format!("the depth of the thread and {RUN_OUT} pitches: common practice, no source");
    Some((to_a_millionth(deep + room), reason))
}

pub(super) fn tap(work: &mut Filling<'_, '_>, node: Node<'_>, drill: Option<Node<'_>>) {
    let facts = work.facts;
    let unit = facts.length();
    let Some((nominal, pitch, _)) = thread(node) else { return };
    let [nominal, pitch] = [nominal, pitch].map(|size| size.to_float(facts.units));
    let drilled = drill.and_then(|drill| facts.number(drill.get("tool")?, "diameter", Length::KIND));
    let (hole, reason) = match (drilled, drill.and_then(|drill| hole(facts, drill, Some(node)))) {
        (Some(drilled), _) => (Some(drilled), "the hole that is drilled before"),
        (None, Some((hole, _))) => (Some(hole), "the hole that is drilled before"),
        (None, None) => (tap_drill(facts, node), "nominal diameter less pitch: common practice, no source"),
    };
    if let Some(hole) = hole {
        work.put_number("hole_diameter", hole, unit, reason);
    }
    if let Some((travel, reason)) = travel(facts, node, drill, pitch) {
        work.put_number("travel", to_a_millionth(travel), unit, reason);
    }
    let speeds = facts.speeds(CutOperation::Tapping, ToolMaterial::HighSpeedSteel, None);
    let speed = work.inside("tool", |tool| {
        tool.put_text("name", "a tap of high-speed steel", COMMON);
        tool.recommend(speeds, None);
        tool.tool_range("surface_speed", SurfaceSpeed::KIND)
    });
    work.put_spindle(speed.flatten(), Some(nominal));
    work.put_handling(0.2);
}

/// Pilot, diameter at the surface and body of centre drills, with the largest bar that each is for: ISO 866 and ISO 6411 type A
/// in millimetres; in inches common plain centre drills. Both from memory.
const METRIC_CENTRES: [[f64; 4]; 5] = [
    [10.0, 1.6, 3.35, 4.0],
    [25.0, 2.5, 5.3, 6.3],
    [40.0, 3.15, 6.7, 8.0],
    [63.0, 4.0, 8.5, 10.0],
    [f64::INFINITY, 6.3, 13.2, 16.0],
];
const INCH_CENTRES: [[f64; 4]; 5] = [
    [0.375, 0.0781, 0.16, 0.1875],
    [1.0, 0.1094, 0.22, 0.25],
    [1.75, 0.125, 0.27, 0.3125],
    [2.5, 0.1875, 0.38, 0.4375],
    [f64::INFINITY, 0.25, 0.5, 0.625],
];

/// A centre by the size of the bar.
pub(super) fn center_drill(work: &mut Filling<'_, '_>) {
    let facts = work.facts;
    let unit = facts.length();
    let bar = facts.bar.map(|bar| bar.upper().to_float(facts.units));
    let centre = bar.and_then(|bar| {
        facts.either(INCH_CENTRES, METRIC_CENTRES).into_iter().find(|[most, ..]| bar <= *most)
    });
    // The sizes of a centre belong together.
    let is_open = ["pilot_diameter", "pilot_length", "diameter", "tool"].iter().all(|name| !work.has(name));
    if let Some([_, pilot, wide, body]) = centre.filter(|_| is_open) {
        let reason = "a common centre drill for a bar of that size: from memory";
        work.put_number("pilot_diameter", pilot, unit, reason);
        work.put_number("pilot_length", three_digits(1.25 * pilot), unit, reason);
        work.put_number("diameter", wide, unit, reason);
        let _ = work.inside("tool", |tool| tool.put_number("diameter", body, unit, reason));
    }
    point(work);
}

/// A countersink that breaks the edge of the hole that was drilled before.
pub(super) fn countersink(work: &mut Filling<'_, '_>, drill: Option<Node<'_>>) {
    let facts = work.facts;
    let unit = facts.length();
    if let Some(hole) = drill.and_then(|drill| drilled(facts, drill)) {
        work.put_number("hole_diameter", hole, unit, "the hole that is drilled before");
    }
    if let Some(hole) = work.length_of("hole_diameter") {
        let more = facts.either(0.04, 1.0);
        let reason = format!("{more} {unit} wider than the hole: {COMMON}");
        work.put_number("diameter", to_a_millionth(hole + more), unit, reason);
    }
    point(work);
}

/// The diameter of a drill, given or as it is proposed.
pub(super) fn drilled(facts: &Facts<'_>, drill: Node<'_>) -> Option<f64> {
    let given = drill.get("tool").and_then(|tool| facts.number(tool, "diameter", Length::KIND));
    given.or_else(|| Some(hole(facts, drill, None)?.0))
}

/// A tool that cuts with its point: a centre drill or a countersink.
fn point(work: &mut Filling<'_, '_>) {
    let facts = work.facts;
    let wanted = work.length_of("diameter");
    let tool = work.inside("tool", |tool| {
        tool.put_text("name", "a tool of high-speed steel", COMMON);
        if let Some(wanted) = wanted {
            tool.put_number("diameter", wanted, facts.length(), "the diameter at the surface");
        }
        let diameter = tool.length_of("diameter");
        let speeds = facts
            .speeds(CutOperation::Drilling, ToolMaterial::HighSpeedSteel, diameter)
            .map(|speeds| reachable(speeds, diameter, facts.units));
        tool.recommend(speeds, Some("feed_per_revolution"));
        let ranges = [("surface_speed", SurfaceSpeed::KIND), ("feed_per_revolution", Length::KIND)];
        (diameter, ranges.map(|(name, kind)| tool.tool_range(name, kind)))
    });
    let Some((diameter, [speed, feed])) = tool else { return };
    work.put_spindle(speed, wanted.or(diameter));
    work.put_feed("feed_per_revolution", feed, None);
    work.put_handling(0.1);
}

pub(super) fn ream(work: &mut Filling<'_, '_>, node: Node<'_>, drill: Option<Node<'_>>) {
    let facts = work.facts;
    let unit = facts.length();
    let made = facts.made(node, "bore").map(|made| (made.limits.middle().to_float(facts.units), made.number));
    let tool = work.inside("tool", |tool| {
        tool.put_text("name", "a reamer of high-speed steel", COMMON);
        if let Some((size, number)) = made {
            tool.put_number("diameter", size, unit, format!("the middle of number {number}"));
        }
        let diameter = tool.length_of("diameter");
        let speeds = facts
            .speeds(CutOperation::Reaming, ToolMaterial::HighSpeedSteel, diameter)
            .map(|speeds| reachable(speeds, diameter, facts.units));
        tool.recommend(speeds, Some("feed_per_revolution"));
        let ranges = [("surface_speed", SurfaceSpeed::KIND), ("feed_per_revolution", Length::KIND)];
        (diameter, ranges.map(|(name, kind)| tool.tool_range(name, kind)))
    });
    if let Some(drilled) = drill.and_then(|drill| drilled(facts, drill)) {
        work.put_number("hole_diameter", drilled, unit, "the hole that is drilled before");
    }
    // The depth of the drill may be one that is proposed as well.
    let deep = drill.and_then(|drill| {
        facts.number(drill, "depth", Length::KIND).or_else(|| Some(depth(facts, drill, None)?.0))
    });
    if let Some(deep) = deep {
        work.put_number("depth", deep, unit, "the depth of the hole that is drilled before");
    }
    let Some((diameter, [speed, feed])) = tool else { return };
    work.put_spindle(speed, diameter);
    work.put_feed("feed_per_revolution", feed, None);
    work.put_handling(0.2);
}

/// How far a tap goes: the depth asked for, or short of the floor of the hole.
fn travel(facts: &Facts<'_>, node: Node<'_>, drill: Option<Node<'_>>, pitch: f64) -> Option<(f64, String)> {
    if let Some(made) = facts.made(node, "depth") {
        let depth = made.limits.middle().to_float(facts.units);
        return Some((depth, format!("the middle of number {}", made.number)));
    }
    let drill = drill?;
    let deep = facts.number(drill, "depth", Length::KIND)?;
    let travel = deep - RUN_OUT * pitch;
    let reason = format!("the depth of the hole less {RUN_OUT} pitches: common practice, no source");
    (travel > 0.0).then_some((travel, reason))
}

//! Turning, facing and knurling.
use super::cut::{reachable, reachable_at, third};
use super::facts::{COMMON, Facts, three_digits, to_a_millionth};
use super::filling::Filling;
use super::holes::drilled;
use crate::document::node::Node;
use crate::quantity::{Length, Quantity, RoughnessRa, SurfaceSpeed};
use crate::starting_values::{CutOperation, ToolMaterial};
use crate::{Limits, Size};

/// The fastest that a thread is turned without being asked, in rev/min: the tool has to stop at a shoulder. Common practice, no
/// source.
const THREAD_SPEED: f64 = 1500.0;
/// How far a theoretical roughness is kept below the one asked for: common practice, no source.
const FINISH: f64 = 0.8;

pub(super) fn turn(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let bar = facts.bar.map(|bar| bar.upper().to_float(facts.units));
    let start = work.length_of("diameter").or(bar);
    put_depth(work, node, start);
    put_travel(work, node);
    cut(work, node, start);
    work.put_handling(0.2);
}

/// What is to go from the start to the middle of the limits, in passes that are not too deep.
fn put_depth(work: &mut Filling<'_, '_>, node: Node<'_>, start: Option<f64>) {
    let facts = work.facts;
    let (Some(start), Some(made)) = (start, facts.made(node, "diameter")) else { return };
    if work.has("depth") {
        return;
    }
    let finish = made.limits.middle().to_float(facts.units);
    let radius = 0.5 * (start - finish);
    if radius <= 0.0 {
        return;
    }
    let most = facts.either(0.08, 2.0);
    let unit = facts.length();
    // Passes that are given, or the one that an absent number means with a given depth, stay.
    let passes = match work.has("passes") {
        true => work.count("passes", 1.0),
        false => (radius / most).ceil().max(1.0),
    };
    work.put_number(
        "passes",
        passes,
        "",
        format!("passes of at most {most} {unit}: common practice, no source"),
    );
    let reason = format!(
        "from {start} {unit} to the middle of number {}, {finish} {unit}, {}",
        made.number,
        equal(passes)
    );
    let left = |depth: f64| start - 2.0 * passes * depth;
    work.put_number("depth", settable(facts, radius / passes, &made.limits, left), unit, reason);
}

/// `in one pass`, `in 3 equal passes`.
pub(super) fn equal(passes: f64) -> String {
    if passes == 1.0 { "in one pass".into() } else { format!("in {passes} equal passes") }
}

/// A depth as a machine is set, where that still leaves a size within the limits.
fn settable(facts: &Facts<'_>, depth: f64, limits: &Limits, left: impl Fn(f64) -> f64) -> f64 {
    let steps = facts.either(10_000.0, 1000.0);
    let set = (depth * steps).round() / steps;
    // What is left has noise in its last digits, of which a size would keep some.
    let size = Size::from_float(to_a_millionth(left(set)), facts.units);
    let is_within = size.is_ok_and(|size| limits.accepts(size));
    if set > 0.0 && is_within { set } else { to_a_millionth(depth) }
}

fn put_travel(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let approach = facts.either(0.08, 2.0);
    let (length, what) = match (facts.made(node, "length"), facts.longest()) {
        (Some(made), _) => (made, format!("number {}, which it makes", made.number)),
        (None, Some(whole)) => {
            (whole, format!("number {}: the whole part, for want of a length", whole.number))
        }
        _ => return,
    };
    let travel = to_a_millionth(length.limits.upper().to_float(facts.units) + approach);
    let unit = facts.length();
    work.put_number("travel", travel, unit, format!("{what}, and an approach of {approach} {unit}"));
}

/// Tool, speed and feed of a cut on the lathe.
fn cut(work: &mut Filling<'_, '_>, node: Node<'_>, diameter: Option<f64>) {
    let facts = work.facts;
    let speeds = facts
        .speeds(CutOperation::Turning, ToolMaterial::Carbide, None)
        .map(|speeds| reachable(speeds, diameter, facts.units));
    let tool = work.inside("tool", |tool| {
        tool.put_text("name", "a carbide insert", COMMON);
        let radius = facts.either(1.0 / 32.0, 0.8);
        tool.put_number("nose_radius", radius, facts.length(), COMMON);
        let radius = tool.length_of("nose_radius");
        let most = radius.and_then(|radius| finishing_feed(facts, node, radius));
        let mut speeds = speeds;
        // A range that would be proposed is not left by the feed that the finish asks for.
        if let (Some((most, _)), Some(own)) = (&most, speeds.as_mut()) {
            own.feed[0] = own.feed[0].min(three_digits(0.9 * most));
        }
        tool.recommend(speeds, Some("feed_per_revolution"));
        let ranges = [
            tool.tool_range("surface_speed", SurfaceSpeed::KIND),
            tool.tool_range("feed_per_revolution", Length::KIND),
        ];
        (ranges, most)
    });
    if let Some(([speed, feed], most)) = tool {
        work.put_spindle(speed, diameter);
        work.put_feed("feed_per_revolution", feed, most);
    }
}

/// The feed whose marks stay below the roughness asked for: f = √(32 · r · Ra), the theory of feed marks.
fn finishing_feed(facts: &Facts<'_>, node: Node<'_>, radius: f64) -> Option<(f64, String)> {
    let asked = facts.finish(node)?;
    let ra = Length::millimetres(RoughnessRa::new_in(asked, facts.units).metric()).in_units(facts.units);
    let feed = FINISH * (32.0 * radius * ra).sqrt();
    let unit = RoughnessRa::KIND.unit(facts.units).label;
    let reason = format!(
        "feed marks of {FINISH} times √(32 · nose radius · Ra) for the Ra of {asked} {unit} asked for"
    );
    (feed > 0.0).then_some((feed, reason))
}

pub(super) fn face(work: &mut Filling<'_, '_>, node: Node<'_>, share: Option<f64>) {
    let facts = work.facts;
    let bar = facts.bar.map(|bar| bar.upper().to_float(facts.units));
    if let (Some(share), Some(length)) = (share, facts.longest()) {
        let depth = to_a_millionth(share / work.count("passes", 1.0));
        let number = length.number;
        let reason =
            format!("what the saw leaves above the middle of number {number}, shared among the faces");
        work.put_number("depth", depth, facts.length(), reason);
    }
    let start = work.length_of("diameter").or(bar);
    cut(work, node, start);
    work.put_handling(0.2);
}

pub(super) fn knurl(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let bar = facts.bar.map(|bar| bar.upper().to_float(facts.units));
    let diameter = facts.made(node, "diameter").map(|made| made.limits.upper().to_float(facts.units)).or(bar);
    let speeds = facts.speeds(CutOperation::Knurling, ToolMaterial::HighSpeedSteel, None);
    let feed = speeds.as_ref().map(|speeds| speeds.feed);
    let speed = work.inside("tool", |tool| {
        tool.put_text("name", "knurling wheels", COMMON);
        tool.recommend(speeds, None);
        tool.tool_range("surface_speed", SurfaceSpeed::KIND)
    });
    work.put_spindle(speed.flatten(), diameter);
    let spindle = work.number("spindle_speed", crate::quantity::SpindleSpeed::KIND);
    if let (Some(feed), Some(spindle)) = (feed, spindle) {
        let (unit, each) = (facts.either("in/min", "mm/min"), three_digits(third(feed)));
        let reason = format!("{each} {} for a revolution: common practice, no source", facts.length());
        work.put_number("feed_rate", three_digits(each * spindle), unit, reason);
    }
    let joint = joint_of(facts.root, node).and_then(|joint| facts.number(joint, "length", Length::KIND));
    let (travel, why) = match joint {
        Some(length) => (Some(length), "the length of the joint"),
        None => (diameter, "the diameter of the blank, for want of a length"),
    };
    if let Some(travel) = travel {
        work.put_number("travel", to_a_millionth(travel), facts.length(), why);
    }
    work.put_handling(0.3);
}

/// The joint whose shaft an operation makes; the only one of a plan in any case.
fn joint_of<'n>(root: Node<'n>, operation: Node<'_>) -> Option<Node<'n>> {
    let made = |number: f64| {
        let makes = operation.get("makes").into_iter().flat_map(|list| list.parts());
        makes.filter_map(|one| one.number()).any(|one| one == number)
    };
    let mut listed = root.get("joints").into_iter().flat_map(|list| list.parts());
    root.get("joint")
        .or_else(|| listed.find(|one| one.get("shaft").and_then(|one| one.number()).is_some_and(made)))
}

/// Boring: what is to go from the hole before to the middle of the limits.
pub(super) fn bore(work: &mut Filling<'_, '_>, node: Node<'_>, drill: Option<Node<'_>>) {
    let facts = work.facts;
    if let Some(drilled) = drill.and_then(|drill| drilled(facts, drill)) {
        work.put_number("diameter", drilled, facts.length(), "the hole that is drilled before");
    }
    let start = work.length_of("diameter");
    let finish = facts.made(node, "bore").map(|made| made.limits.middle().to_float(facts.units));
    let unit = facts.length();
    if let (Some(start), Some(finish), false) = (start, finish, work.has("depth")) {
        let (radius, most) = (0.5 * (finish - start), facts.either(0.04, 1.0));
        let passes =
            if work.has("passes") { work.count("passes", 1.0) } else { (radius / most).ceil().max(1.0) };
        work.put_number("passes", passes, "", format!("passes of at most {most} {unit}: {COMMON}"));
        if radius > 0.0 {
            let reason = format!("from {start} {unit} to {finish} {unit} {}", equal(passes));
            let depth = match facts.made(node, "bore") {
                Some(made) => {
                    let left = |depth: f64| start + 2.0 * passes * depth;
                    settable(facts, radius / passes, &made.limits, left)
                }
                None => to_a_millionth(radius / passes),
            };
            work.put_number("depth", depth, unit, reason);
        }
    }
    put_travel(work, node);
    cut(work, node, finish.or(start));
    work.put_handling(0.2);
}

/// A groove: as many plunges of one insert as its width takes.
pub(super) fn groove(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let wide = facts.made(node, "slot").or_else(|| facts.made(node, "width"));
    for (name, made) in [("floor_diameter", facts.made(node, "diameter")), ("width", wide)] {
        let Some(made) = made else { continue };
        let size = made.limits.middle().to_float(facts.units);
        work.put_number(name, size, facts.length(), format!("the middle of number {}", made.number));
    }
    let width = work.length_of("width");
    let own = plunge(work, "a grooving insert of carbide", width);
    if let (Some(width), Some(own)) = (width, own) {
        let plunges = (width / own - 1e-9).ceil().max(1.0);
        if plunges > 1.0 {
            work.put_number("plunges", plunges, "", "side by side over the width");
        }
    }
    work.put_handling(0.2);
}

/// Parting off, for the longest length of the drawing.
pub(super) fn part_off(work: &mut Filling<'_, '_>) {
    if let Some(longest) = work.facts.longest() {
        let (number, shown) = (longest.number, format!("number {}", longest.number));
        work.put("cut_length", number.into(), shown, "the longest length of the drawing");
    }
    let usual = work.facts.either(0.125, 3.0);
    let _ = plunge(work, "a parting blade of carbide", Some(usual));
    work.put_handling(0.2);
}

/// A tool that plunges for a width, its speed and its feed; gives the width of the tool.
fn plunge(work: &mut Filling<'_, '_>, name: &str, width: Option<f64>) -> Option<f64> {
    let facts = work.facts;
    let unit = facts.length();
    let start = work.length_of("diameter").or(facts.bar.map(|bar| bar.upper().to_float(facts.units)));
    let usual = facts.either(0.125, 3.0);
    let speeds = facts
        .speeds(CutOperation::Turning, ToolMaterial::Carbide, None)
        .map(|speeds| reachable(speeds, start, facts.units));
    let (own, [speed, feed]) = work.inside("tool", |tool| {
        tool.put_text("name", name, COMMON);
        if let Some(width) = width {
            tool.put_number("width", width.min(usual), unit, format!("at most {usual} {unit}: {COMMON}"));
        }
        tool.put_range("feed_per_revolution", facts.either([0.002, 0.006], [0.05, 0.15]), unit, COMMON);
        tool.recommend(speeds, None);
        let ranges = [("surface_speed", SurfaceSpeed::KIND), ("feed_per_revolution", Length::KIND)];
        (tool.length_of("width"), ranges.map(|(name, kind)| tool.tool_range(name, kind)))
    })?;
    work.put_spindle(speed, start);
    work.put_feed("feed_per_revolution", feed, None);
    own
}

/// A thread turned with a single point.
pub(super) fn turn_thread(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let Some((nominal, pitch)) = super::facts::outside_thread(node) else { return };
    let metric = pitch.to_float(crate::Units::Metric);
    let passes = (3.0 + 3.0 * metric).round();
    work.put_number("passes", passes, "", format!("3, and 3 for each millimetre of pitch: {COMMON}"));
    let [diameter, pitch] = [nominal, pitch].map(|size| size.to_float(facts.units));
    if let Some(made) = facts.made(node, "length") {
        let travel = to_a_millionth(made.limits.upper().to_float(facts.units) + 3.0 * pitch);
        let reason = format!("number {}, and three pitches: {COMMON}", made.number);
        work.put_number("travel", travel, facts.length(), reason);
    }
    // Half of the speed for turning: the tool must stop at the end of each pass.
    let speeds = facts.speeds(CutOperation::Turning, ToolMaterial::Carbide, None).map(|mut speeds| {
        speeds.speed = speeds.speed.map(|speed| three_digits(0.5 * speed));
        speeds.speed_source.push_str(&format!("; half of it for threads, {COMMON}"));
        reachable_at(THREAD_SPEED, speeds, Some(diameter), facts.units)
    });
    let speed = work.inside("tool", |tool| {
        tool.put_text("name", "a threading insert of carbide", COMMON);
        tool.recommend(speeds, None);
        tool.tool_range("surface_speed", SurfaceSpeed::KIND)
    });
    work.put_spindle_at(THREAD_SPEED, speed.flatten(), Some(diameter));
    work.put_handling(0.3);
}

//! Grinding. Every figure is common practice, without a source; the wheel's own marking comes first.
use super::cut::{rounded_down, spindle};
use super::facts::{Asked, COMMON, Facts, text, to_a_millionth};
use super::filling::Filling;
use crate::document::node::Node;
use crate::material::IsoGroup;
use crate::quantity::{Quantity, SurfaceSpeed};

/// Of the speed that is marked on the wheel.
const SAFE: f64 = 0.85;

/// How a method grinds: an inch figure and a metric one each.
struct Way {
    wheel: [f64; 2],
    stock: [f64; 2],
    infeed: [f64; 2],
    spark_out: f64,
    handling: f64,
}

fn way(method: &str) -> Option<Way> {
    Some(match method {
        "cylindrical" => Way {
            wheel: [16.0, 400.0],
            stock: [0.006, 0.15],
            infeed: [0.0005, 0.01],
            spark_out: 2.0,
            handling: 0.5,
        },
        "centerless" => Way {
            wheel: [20.0, 500.0],
            stock: [0.003, 0.075],
            infeed: [0.001, 0.025],
            spark_out: 0.0,
            handling: 0.1,
        },
        "surface" => Way {
            wheel: [8.0, 200.0],
            stock: [0.008, 0.2],
            infeed: [0.0005, 0.01],
            spark_out: 2.0,
            handling: 0.5,
        },
        _ => return None,
    })
}

pub(super) fn grind(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let made = |kinds: &[&str]| kinds.iter().find_map(|kind| facts.made(node, kind));
    let round = made(&["diameter", "bore"]);
    let flat = made(&["length", "width", "across_flats", "slot"]);
    let likely = match (round, flat) {
        (Some(round), _) => Some(("cylindrical", format!("number {} is round", round.number))),
        (None, Some(flat)) => Some(("surface", format!("number {} lies between faces", flat.number))),
        (None, None) => None,
    };
    let method = node.get("method").and_then(text).or(likely.as_ref().map(|(method, _)| *method));
    if let Some((method, reason)) = &likely {
        work.put_text("method", method, &**reason);
    }
    let Some((method, way)) = method.and_then(|method| Some((method, way(method)?))) else { return };
    put_stock(work, &way, round);
    put_wheel(work, &way, round.filter(|round| round.kind == "bore"));
    match method {
        "cylindrical" => put_turns(work, round),
        "centerless" => put_regulating(work),
        _ => put_strokes(work, node),
    }
    put_travel(work, node);
    if work.leaves_out() {
        work.put_number("spark_out_passes", way.spark_out, "", COMMON);
    }
    work.put_handling(way.handling);
}

/// What is ground off: from a diameter before that is given, or one that is then proposed.
fn put_stock(work: &mut Filling<'_, '_>, way: &Way, round: Option<&Asked>) {
    let facts = work.facts;
    let (unit, usual) = (facts.length(), facts.either(way.stock[0], way.stock[1]));
    let turned = round.filter(|round| round.kind == "diameter" && !work.has("stock"));
    if let Some(asked) = turned {
        let [nominal, middle] =
            [asked.limits.nominal(), asked.limits.middle()].map(|size| size.to_float(facts.units));
        let reason = format!("number {} and {usual} {unit} a side for grinding: {COMMON}", asked.number);
        work.put_number("diameter", to_a_millionth(nominal + 2.0 * usual), unit, reason);
        let before = work.length_of("diameter").unwrap_or_default();
        let reason = format!("from {before} {unit} to the middle of number {}", asked.number);
        let stock = to_a_millionth(0.5 * (before - middle));
        if stock > 0.0 {
            work.put_number("stock", stock, unit, reason);
        }
    }
    work.put_number("stock", usual, unit, COMMON);
    let stock = work.length_of("stock").unwrap_or(usual);
    work.put_number("infeed", facts.either(way.infeed[0], way.infeed[1]).min(stock), unit, COMMON);
}

/// The grain that suits the metal: common practice, no source.
fn wheel_name(facts: &Facts<'_>) -> &'static str {
    match facts.material.and_then(|material| material.iso_group) {
        Some(IsoGroup::K | IsoGroup::N) => "a silicon carbide wheel",
        _ => "an aluminium oxide wheel",
    }
}

fn put_wheel(work: &mut Filling<'_, '_>, way: &Way, bore: Option<&Asked>) {
    let facts = work.facts;
    let unit = facts.length();
    let (diameter, reason) = match bore {
        Some(bore) => {
            let size = 0.7 * bore.limits.nominal().to_float(facts.units);
            (to_a_millionth(size), format!("0.7 times the bore: {COMMON}"))
        }
        None => (facts.either(way.wheel[0], way.wheel[1]), COMMON.into()),
    };
    let speed_unit = SurfaceSpeed::KIND.unit(facts.units).label;
    let wheel = work.inside("wheel", |wheel| {
        wheel.put_text("name", wheel_name(facts), COMMON);
        wheel.put_number("diameter", diameter, unit, reason);
        let marked =
            format!("a vitrified wheel as it is commonly marked: read the marking of yours; {COMMON}");
        wheel.put_number("rated_speed", facts.either(6500.0, 2000.0), speed_unit, marked);
        Some((wheel.length_of("diameter")?, wheel.number("rated_speed", SurfaceSpeed::KIND)?))
    });
    let Some((diameter, rated)) = wheel.flatten() else { return };
    let Some(rev) = spindle(SAFE * rated, diameter, facts.units) else { return };
    let reason = format!("{SAFE} of the {rated} {speed_unit} that is marked on the wheel: {COMMON}");
    work.put_number("wheel_speed", rounded_down(rev), "rev/min", reason);
}

/// Traverse and speed of the work; a bore is ground with a narrower wheel.
fn put_turns(work: &mut Filling<'_, '_>, round: Option<&Asked>) {
    let facts = work.facts;
    let feed = match round {
        Some(round) if round.kind == "bore" => facts.either(0.1, 2.5),
        _ => facts.either(0.4, 10.0),
    };
    let reason = format!("half of the width of a common wheel: {COMMON}");
    work.put_number("traverse_feed", feed, facts.length(), reason);
    let diameter = match round {
        Some(round) => Some(round.limits.nominal()),
        None => facts.bar.map(|bar| bar.upper()),
    };
    let Some(diameter) = diameter.map(|size| size.to_float(facts.units)) else { return };
    let surface = facts.either(65.0, 20.0);
    let Some(speed) = spindle(surface, diameter, facts.units) else { return };
    let unit = SurfaceSpeed::KIND.unit(facts.units).label;
    let reason = format!("{surface} {unit} at a diameter of {diameter} {}: {COMMON}", facts.length());
    work.put_number("work_speed", rounded_down(speed), "rev/min", reason);
}

fn put_regulating(work: &mut Filling<'_, '_>) {
    let facts = work.facts;
    work.put_number("regulating_wheel_diameter", facts.either(10.0, 250.0), facts.length(), COMMON);
    work.put_number("regulating_wheel_speed", 30.0, "rev/min", COMMON);
    work.put_number("tilt_angle", 3.0, "degree", COMMON);
}

fn put_strokes(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let unit = facts.length();
    let bar = facts.bar.map(|bar| bar.upper().to_float(facts.units));
    let width = facts.made(node, "width").map(|made| made.limits.upper().to_float(facts.units));
    if let Some(width) = width.or(bar) {
        let what = if bar == Some(width) { "as wide as the bar" } else { "as wide as the face" };
        work.put_number("width", width, unit, what);
    }
    work.put_number("crossfeed", facts.either(0.125, 3.0), unit, COMMON);
    let speed = SurfaceSpeed::KIND.unit(facts.units).label;
    work.put_number("table_speed", facts.either(50.0, 15.0), speed, COMMON);
}

/// The length that is made, or the whole part, and room for the wheel to run out.
fn put_travel(work: &mut Filling<'_, '_>, node: Node<'_>) {
    let facts = work.facts;
    let over = facts.either(0.4, 10.0);
    let given = work.length_of("length");
    let made = facts.made(node, "length").or(facts.longest());
    let long = match (given, made) {
        (Some(length), _) => Some((length, "the ground step".to_string())),
        (None, Some(made)) => {
            Some((made.limits.upper().to_float(facts.units), format!("number {}", made.number)))
        }
        (None, None) => None,
    };
    let Some((length, what)) = long else { return };
    let reason = format!("{what}, and {over} {} for the wheel to run out: {COMMON}", facts.length());
    work.put_number("travel", to_a_millionth(length + over), facts.length(), reason);
}

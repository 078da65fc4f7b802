//! The figures of `tests/published/general_tolerances.csv`, which come from outside the project, and plans with a general
//! tolerance.
mod evidence;

use tenths::quantity::Quantity;
use tenths::{GeneralClass, GeneralFeature, GeneralTolerance, Limits, Plan, Size};

const FIGURES: &str = include_str!("published/general_tolerances.csv");
const PLAN: &str = include_str!("../examples/plans/roller_axle.json");

/// Micrometres to either side or across, or minutes, as the line has it.
fn figure(made: &GeneralTolerance) -> String {
    match (made.limits, made.tolerance, made.angle_deviation) {
        (Some(limits), ..) => format!("{} um", limits.upper_deviation().picometres() / 1_000_000),
        (_, Some(tolerance), _) => format!("{} um", tolerance.picometres() / 1_000_000),
        (_, _, Some(angle)) => format!("{} minutes", (angle.metric() * 60.0).round()),
        _ => "nothing".into(),
    }
}

fn line(line: &str) -> Result<(), Box<dyn std::error::Error>> {
    let [class, feature, size, want, seen, source] = line.split(';').collect::<Vec<_>>()[..] else {
        return Err("a line has six fields".into());
    };
    evidence::check(seen, source)?;
    let (class, feature) = (GeneralClass::parse(class)?, GeneralFeature::parse(feature)?);
    let got = match GeneralTolerance::new(class, feature, Size::parse(size)?) {
        Ok(made) => figure(&made),
        Err(_) => "none".into(),
    };
    if got == want { Ok(()) } else { Err(format!("{got}, not {want}").into()) }
}

#[test]
fn general_tolerances_are_as_published() {
    let lines = FIGURES.lines().filter(|line| !line.starts_with("# "));
    let faults: Vec<String> =
        lines.clone().filter_map(|text| Some(format!("{text}: {}", line(text).err()?))).collect();
    assert!(lines.count() >= 250 && faults.is_empty(), "{}", faults.join("\n"));
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    let good = "ISO 2768-m;length;120 mm;300 um;print;source";
    assert!(line(good).is_ok());
    for (from, to) in [("300", "500"), ("120", "121"), ("-m", "-f"), ("length", "edge"), ("print", "here")] {
        assert!(line(&good.replace(from, to)).is_err(), "{from} as {to}");
    }
}

/// The demo plan with the limits of its first length as a size alone, and a class of general tolerances.
fn plan(limits: &str, class: Option<&str>) -> Result<Plan, String> {
    let mut document: serde_json::Value = serde_json::from_str(PLAN).unwrap();
    document["characteristics"][0]["limits"] = limits.into();
    if let Some(class) = class {
        document["general_tolerance"] = class.into();
    }
    Plan::from_json(&document.to_string()).map_err(|error| error.to_string())
}

#[test]
fn a_plan_gives_sizes_their_general_tolerance() {
    let made = plan("144 mm", Some("ISO 2768-mK")).unwrap();
    let c = &made.document().characteristics[0];
    assert_eq!(Ok(*c.limits), Limits::parse("144 ±0.5 mm"));
    let sheet = made.evaluate().unwrap();
    assert_eq!(sheet.characteristics[0].designation.as_deref(), Some("144 mm ISO 2768-mK"));
    assert!(sheet.stamp.tables.iter().any(|table| table.starts_with("ISO 2768-1:1989")), "{:?}", sheet.stamp);
    // A tolerance of its own stands before the general one, and so does a general one of its own.
    let own = plan("144 mm ISO 2768-f", Some("ISO 2768-c")).unwrap();
    assert_eq!(Ok(*own.document().characteristics[0].limits), Limits::parse("144 ±0.2 mm"));
    let edge = plan("2 mm edge", Some("m")).unwrap();
    assert_eq!(Ok(*edge.document().characteristics[0].limits), Limits::parse("2 ±0.2 mm"));
}

#[test]
fn a_plan_without_a_general_tolerance_asks_for_one() {
    let refused = |limits, class| plan(limits, class).unwrap_err();
    assert!(refused("144 mm", None).contains("has no tolerance"), "{}", refused("144 mm", None));
    assert!(refused("144 mm", Some("K")).contains("has no class for a length"));
    assert!(refused("144 mm", Some("x")).contains("general_tolerance"));
    assert!(refused("144", Some("m")).contains("needs a unit"), "{}", refused("144", Some("m")));
    // Bar stock is not made to the drawing.
    let mut document: serde_json::Value = serde_json::from_str(PLAN).unwrap();
    document["general_tolerance"] = "m".into();
    document["bar"]["limits"] = "20 mm".into();
    let refused = Plan::from_json(&document.to_string()).unwrap_err().to_string();
    assert!(refused.contains("/bar/limits") && refused.contains("has no tolerance"), "{refused}");
}

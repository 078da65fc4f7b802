//! What a plan leaves out: proposed, listed, and overridden field by field.
use serde_json::{Value, json};
use tenths::plan::{Assumption, proposed_fields};
use tenths::{Plan, Severity, SheetKind};

const DEMOS: [&str; 2] =
    [include_str!("../examples/plans/roller_axle.json"), include_str!("../examples/plans/jig_rest_pin.json")];

fn demo(index: usize) -> Value {
    serde_json::from_str(DEMOS[index]).unwrap()
}

fn read(plan: &Value) -> Plan {
    Plan::from_json(&plan.to_string()).unwrap_or_else(|error| panic!("{error}\n{plan}"))
}

/// The errors of a plan, by code and place.
fn errors(plan: &Plan) -> Vec<String> {
    let findings = plan.evaluate().unwrap().findings;
    let errors = findings.into_iter().filter(|one| one.severity == Severity::Error);
    errors.map(|one| format!("{} {}: {}", one.code, one.place, one.message)).collect()
}

fn find<'p>(plan: &'p Plan, place: &str) -> Option<&'p Assumption> {
    plan.assumptions().iter().find(|one| one.place == place)
}

/// The places of a document that have a field which may be left out, with the name of its object.
fn places(plan: &Value) -> Vec<String> {
    let object = |kind: &str| match kind {
        "saw" => ("Saw", "Blade"),
        "mill_flats" => ("MillFlats", "Cutter"),
        "turn" => ("Turn", "TurningTool"),
        "face" => ("Face", "TurningTool"),
        "drill" => ("Drill", "DrillTool"),
        "tap" => ("Tap", "TapTool"),
        "deburr" => ("Deburr", ""),
        "knurl" => ("Knurl", "KnurlTool"),
        "press" => ("Press", ""),
        _ => ("Inspect", ""),
    };
    let mut found = vec![];
    let mut look = |name: &str, node: &Value, place: &str| {
        for own in proposed_fields().iter().filter(|own| own.object == name && !node[own.field].is_null()) {
            found.push(format!("{place}/{}", own.field));
        }
    };
    look("Document", plan, "");
    look("Bar", &plan["bar"], "/bar");
    for (k, one) in plan["characteristics"].as_array().unwrap().iter().enumerate() {
        look("Characteristic", one, &format!("/characteristics/{k}"));
    }
    for (k, one) in plan["operations"].as_array().unwrap().iter().enumerate() {
        let (own, tool) = object(one["kind"].as_str().unwrap());
        look(own, one, &format!("/operations/{k}"));
        for inside in ["tool", "blade"] {
            look(tool, &one[inside], &format!("/operations/{k}/{inside}"));
        }
    }
    found
}

fn removed(plan: &Value, place: &str) -> Value {
    let mut plan = plan.clone();
    let (parent, name) = place.rsplit_once('/').unwrap();
    plan.pointer_mut(parent).unwrap().as_object_mut().unwrap().remove(name);
    plan
}

// A bar is bought for the drawing, which the demos ask for as bought; and passes that are left out beside a given depth
// are one, as they always were.
const OTHERWISE: [&str; 3] = ["/bar", "/bar/limits", "/operations/4/passes"];

#[test]
fn a_demo_without_any_one_field_is_a_plan_that_says_what_it_assumes() {
    let mut seen = 0;
    for index in 0..2 {
        let whole = demo(index);
        assert_eq!(read(&whole).assumptions(), [], "a complete plan assumes nothing");
        for place in places(&whole) {
            let plan = read(&removed(&whole, &place));
            let is_default = ["handling", "approach", "passes", "end_trim", "remnant"]
                .iter()
                .any(|name| place.ends_with(name));
            let is_told = plan.assumptions().iter().any(|one| one.place.starts_with(&place));
            assert!(is_told != is_default, "{place}: {:?}", plan.assumptions());
            if !OTHERWISE.contains(&&*place) && !is_default {
                assert_eq!(errors(&plan), [""; 0], "{place}: {:?}", plan.assumptions());
            }
            seen += 1;
        }
    }
    assert!(seen > 120, "{seen}");
}

#[test]
fn a_demo_of_the_drawing_alone_is_a_plan() {
    for index in 0..2 {
        let mut plan = demo(index);
        for place in places(&demo(index)) {
            let is_drawn = OTHERWISE[..2].contains(&&*place) || place.ends_with("/cut_length");
            if !is_drawn && plan.pointer(&place).is_some() {
                plan = removed(&plan, &place);
            }
        }
        let read = read(&plan);
        assert_eq!(errors(&read), [""; 0], "{:#?}", read.assumptions());
        assert!(read.assumptions().len() > 60, "{}", read.assumptions().len());
        let markdown = read.evaluate().unwrap().to_markdown(SheetKind::Process).unwrap();
        assert!(markdown.contains("## Assumed") && markdown.contains("**Assumed:** "), "{markdown}");
        for one in read.assumptions() {
            assert!(markdown.contains(&one.place.replace('_', "\\_")), "{}", one.place);
            assert!(one.reason.len() > 5 && !one.value.is_empty(), "{one:?}");
        }
        // The completed document is a plan that leaves out nothing and comes to the same.
        let completed = Plan::from_json(read.completed_json()).unwrap();
        assert_eq!(completed.assumptions(), []);
        assert_eq!(completed.document(), read.document());
    }
}

#[test]
fn each_field_is_overridden_alone() {
    let whole = removed(&removed(&demo(0), "/operations/5/tool"), "/operations/5/spindle_speed");
    let mut plan = whole.clone();
    assert!(find(&read(&plan), "/operations/5/tool/diameter").is_some());
    plan["operations"][5]["tool"] = json!({"diameter": 5.1});
    let changed = read(&plan);
    assert_eq!(find(&changed, "/operations/5/tool/diameter"), None);
    assert!(find(&changed, "/operations/5/tool/name").is_some());
    assert!(changed.completed_json().contains(r#""diameter": 5.1"#));
    // What depends on it follows.
    let speed = find(&changed, "/operations/5/spindle_speed").unwrap();
    assert!(speed.reason.contains("at a diameter of 5.1 mm"), "{speed:?}");
}

#[test]
fn the_finish_asked_for_bounds_the_feed() {
    let mut plan = demo(0);
    for field in ["tool", "feed_per_revolution", "spindle_speed"] {
        plan = removed(&plan, &format!("/operations/4/{field}"));
    }
    plan["characteristics"][4]["roughness"] = json!(0.8);
    let read = read(&plan);
    let feed = find(&read, "/operations/4/feed_per_revolution").unwrap();
    // √(32 · 0.8 mm · 0.8 µm) is 0.143 mm, and 0.8 of it 0.114 mm: worked by hand.
    assert_eq!(feed.value, "0.11 mm", "{feed:?}");
    assert_eq!(errors(&read), [""; 0]);
}

#[test]
fn what_cannot_be_proposed_is_missing_in_the_plan_as_it_stands() {
    let mut plan = removed(&removed(&demo(0), "/operations/3/pitch"), "/operations/3/tool");
    plan["operations"][5]["depth"] = json!("deep");
    let error = Plan::from_json(&plan.to_string()).unwrap_err();
    let places: Vec<&str> = error.faults().iter().map(|fault| &*fault.place).collect();
    assert_eq!(places, ["/operations/3/pitch", "/operations/5/depth"], "{error}");
    // A material of the shop's own has no starting values: what they would give has to be given.
    let mut plan = removed(&demo(0), "/operations/4/tool");
    plan["material"] = json!({"name": "shop metal", "modulus": 200, "poisson": 0.3});
    let error = Plan::from_json(&plan.to_string()).unwrap_err().to_string();
    assert!(error.contains("/operations/4/tool/surface_speed: is missing"), "{error}");
}

#[test]
fn the_standards_of_a_shop_go_first() {
    let mut plan = demo(0);
    for place in ["/operations/5/tool", "/operations/5/spindle_speed", "/characteristics/0/inspection"] {
        plan = removed(&plan, place);
    }
    let standards = json!({"tenths_standards": 1, "units": "inch",
        "operations": [{"kind": "drill", "material": "titanium", "handling": 9},
                       {"kind": "drill", "material": "medium_carbon_steel", "handling": 0.7,
                        "tool": {"name": "our drill", "surface_speed": {"lower": 50, "upper": 80}}}],
        "characteristics": [{"kind": "length", "inspection": "our caliper"}]});
    let read = Plan::from_json_with(&plan.to_string(), &standards.to_string()).unwrap();
    let told = |place: &str| find(&read, place).map(|one| format!("{}; {}", one.value, one.reason));
    assert_eq!(told("/operations/5/handling").as_deref(), Some("0.7 min; your standards, /operations/1"));
    assert_eq!(
        told("/characteristics/0/inspection").unwrap(),
        "our caliper; your standards, /characteristics/0"
    );
    // 50 and 80 ft/min in a metric plan; the spindle follows.
    let text = read.completed_json();
    assert!(text.contains(r#""lower":"50 ft/min""#) || text.contains(r#""lower": "50 ft/min""#), "{text}");
    assert!(told("/operations/5/spindle_speed").unwrap().contains("third"));
    assert_eq!(errors(&read), [""; 0]);
}

#[test]
fn faults_of_the_standards_have_their_place() {
    let plan = removed(&demo(0), "/operations/5/tool").to_string();
    let faults = |standards: Value| {
        let error = Plan::from_json_with(&plan, &standards.to_string()).unwrap_err();
        error.faults().iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
    };
    let text = faults(json!({"tenths_standards": 2, "units": "cubits", "operation": [],
        "operations": [{"kind": "dril"}, {"kind": "drill", "handlin": 1, "makes": [1], "material": "butter"}, 3]}));
    for part in [
        "/standards/tenths_standards: must be 1",
        "/standards/units: must be `inch` or `metric`",
        "/standards/operation: there is no field `operation` here: did you mean `operations`?",
        "/standards/operations/0/kind: must be `saw`",
        "/standards/operations/1/handlin: there is no field `handlin` here: did you mean `handling`?",
        "/standards/operations/1/makes: `makes` is of one part",
        "/standards/operations/1/material: no material is called `butter`",
        "/standards/operations/2: must be an object, not a number",
    ] {
        assert!(text.contains(part), "{part}\n{text}");
    }
    // A value that a plan uses is judged where the plan uses it, and says where it comes from.
    let text = faults(json!({"tenths_standards": 1, "units": "metric",
        "operations": [{"kind": "drill", "tool": {"diameter": -5}}]}));
    assert!(text.contains("/operations/5/tool/diameter: must be greater than 0, not -5 mm"), "{text}");
    assert!(text.contains("from /operations/0 of your standards"), "{text}");
}

#[test]
fn every_rule_is_of_a_field_that_there_is() {
    let schema = tenths::plan::schema().to_string();
    for own in proposed_fields() {
        assert!(schema.contains(&format!("\"{}\"", own.field)), "{own:?}");
        assert!(!own.rule.is_empty() && !own.rule.ends_with('.'), "{own:?}");
    }
}

/// A metric plan of 30 parts 100 mm long, from a bar of SAE 1045, with these characteristics and operations before its inspection.
fn short(characteristics: Value, mut operations: Value) -> Plan {
    let mut all = vec![json!({"number": 1, "kind": "length", "limits": "100 ±0.2 mm"})];
    for one in characteristics.as_array().unwrap() {
        all.push(json!({"number": one[0], "kind": one[1], "limits": one[2]}));
    }
    let list = operations.as_array_mut().unwrap();
    list.insert(0, json!({"kind": "saw", "makes": [1]}));
    list.extend([json!({"kind": "deburr"}), json!({"kind": "inspect"})]);
    read(&json!({"tenths_plan": 1, "units": "metric", "part": {"name": "part", "quantity": 30},
        "material": {"designation": "SAE 1045"}, "bar": {"limits": "40 h9"},
        "characteristics": all, "operations": operations}))
}

/// What is proposed for the operation after the saw, field by field.
#[track_caller]
fn proposes(plan: &Plan, expected: &[(&str, &str)]) {
    for (field, value) in expected {
        let place = format!("/operations/1/{field}");
        let found = find(plan, &place).unwrap_or_else(|| panic!("no {field}: {:#?}", plan.assumptions()));
        assert_eq!(found.value, *value, "{found:?}");
    }
    assert_eq!(errors(plan), [""; 0], "{:#?}", plan.assumptions());
}

// The expected figures are worked by hand from the rules of docs/plan.md.
#[test]
fn milling_needs_only_what_it_makes() {
    // A slot of 12 mm, 5 mm deep: within half of its cutter, in one pass, over 100.2 + 12 + 4 mm.
    let slot = short(
        json!([[2, "slot", "12 +0.1/0 mm"], [3, "depth", "5 ±0.1 mm"]]),
        json!([{"kind": "mill", "makes": [2, 3]}]),
    );
    proposes(
        &slot,
        &[
            ("cut", "slot"),
            ("tool/diameter", "12 mm"),
            ("tool/teeth", "2"),
            ("radial_width", "12 mm"),
            ("passes", "1"),
            ("axial_depth", "5 mm"),
            ("travel", "116.2 mm"),
        ],
    );
    // 14 mm deep with a cutter of 12 mm: 3 passes of at most 6 mm.
    let deep = short(
        json!([[2, "slot", "12 +0.1/0 mm"], [3, "depth", "14 ±0.1 mm"]]),
        json!([{"kind": "mill", "makes": [2, 3]}]),
    );
    proposes(&deep, &[("passes", "3"), ("axial_depth", "4.666667 mm")]);
    let side = short(json!([]), json!([{"kind": "mill", "cut": "side"}]));
    proposes(&side, &[("tool/diameter", "12 mm"), ("radial_width", "3 mm"), ("axial_depth", "12 mm")]);
    let face = short(json!([]), json!([{"kind": "mill", "cut": "face"}]));
    proposes(&face, &[("tool/diameter", "50 mm"), ("radial_width", "37.5 mm"), ("axial_depth", "2 mm")]);
    let pocket = short(json!([]), json!([{"kind": "mill", "cut": "pocket", "volume": 8}]));
    proposes(&pocket, &[("tool/diameter", "10 mm"), ("axial_depth", "5 mm"), ("tool/teeth", "2")]);
    let flats = short(
        json!([[2, "across_flats", "35 ±0.1 mm"]]),
        json!([{"kind": "mill_flats", "makes": [2], "flats": 2}]),
    );
    // From 40 to 35 mm on two sides.
    proposes(&flats, &[("across", "number 2"), ("axial_depth", "2.5 mm")]);
    // A key of 8 mm is 7 mm high. The sagitta of 8 mm on 40 mm is 20 - √(20² - 4²) = 0.404 mm, and 3.5 mm are half of the key: one
    // pass of at most 4 mm.
    let keyseat = short(
        json!([[2, "slot", "8 P9"], [3, "length", "28 ±0.1 mm"]]),
        json!([{"kind": "keyseat", "makes": [2, 3]}]),
    );
    proposes(
        &keyseat,
        &[
            ("key_width", "8 mm"),
            ("key_height", "7 mm"),
            ("tool/diameter", "8 mm"),
            ("passes", "1"),
            ("travel", "30.1 mm"),
        ],
    );
}

#[test]
fn grinding_needs_only_what_it_makes() {
    // 30 k6 is 30.002..30.015 mm; from 30.3 mm to its middle, 30.0085 mm. The wheel: 0.85 · 2000 m/min over π · 0.4 m is 1352
    // rev/min, the work 20 m/min over π · 0.03 m 212 rev/min, each set down to tens.
    let turned = json!({"kind": "turn", "diameter": 40, "depth": 1.6175, "passes": 3, "travel": 102});
    let plan = |grind: Value| short(json!([[2, "diameter", "30 k6"]]), json!([grind, turned]));
    let cylindrical = plan(json!({"kind": "grind", "makes": [2]}));
    for (field, value) in [
        ("method", "cylindrical"),
        ("diameter", "30.3 mm"),
        ("stock", "0.14575 mm"),
        ("infeed", "0.01 mm"),
        ("spark_out_passes", "2"),
        ("wheel/rated_speed", "2000 m/min"),
        ("wheel_speed", "1350 rev/min"),
        ("work_speed", "210 rev/min"),
        ("travel", "110.2 mm"),
    ] {
        assert_eq!(find(&cylindrical, &format!("/operations/1/{field}")).unwrap().value, value, "{field}");
    }
    // 30.3 less twice 0.075 mm would leave 30.15: the stock follows from the diameter, whatever the method.
    let centreless = plan(json!({"kind": "grind", "makes": [2], "method": "centerless"}));
    for (field, value) in [("diameter", "30.15 mm"), ("stock", "0.07075 mm"), ("tilt_angle", "3 degree")] {
        assert_eq!(find(&centreless, &format!("/operations/1/{field}")).unwrap().value, value, "{field}");
    }
    assert!(find(&centreless, "/operations/1/work_speed").is_none());
    let surface = short(json!([[2, "width", "20 ±0.1 mm"]]), json!([{"kind": "grind", "makes": [2]}]));
    proposes(
        &surface,
        &[("method", "surface"), ("stock", "0.2 mm"), ("width", "20.1 mm"), ("table_speed", "15 m/min")],
    );
    // What is given stays: a wheel that is marked slower runs slower.
    let own = plan(json!({"kind": "grind", "makes": [2], "wheel": {"rated_speed": 1500}, "stock": 0.1}));
    assert_eq!(find(&own, "/operations/1/wheel_speed").unwrap().value, "1010 rev/min");
    assert!(find(&own, "/operations/1/diameter").is_none() && find(&own, "/operations/1/stock").is_none());
}

#[test]
fn standards_of_the_shop_go_before_what_is_proposed_for_new_kinds() {
    let plan = json!({"tenths_plan": 1, "units": "metric", "part": {"name": "p", "quantity": 400},
        "material": {"designation": "SAE 1045"}, "bar": {"limits": "40 h9"},
        "characteristics": [{"number": 1, "kind": "length", "limits": "100 ±0.2 mm"},
                            {"number": 2, "kind": "diameter", "limits": "39.6 h6"}],
        "operations": [{"kind": "saw", "makes": [1]}, {"kind": "grind", "makes": [2]}, {"kind": "wash"}]});
    let standards = json!({"tenths_standards": 1, "units": "metric", "operations": [
        {"kind": "grind", "wheel": {"name": "our wheel", "rated_speed": 2400}, "infeed": 0.02},
        {"kind": "wash", "time": 25, "batch": 200}]});
    let plan = Plan::from_json_with(&plan.to_string(), &standards.to_string()).unwrap();
    let told = |place: &str| find(&plan, place).map(|one| (one.value.clone(), one.reason.clone())).unwrap();
    let own = "your standards, /operations/0";
    assert_eq!(told("/operations/1/wheel/name"), ("our wheel".into(), own.into()));
    assert_eq!(told("/operations/1/infeed"), ("0.02 mm".into(), own.into()));
    // What depends on it follows: 0.85 · 2400 m/min over π · 0.4 m, 1623 rev/min.
    assert_eq!(told("/operations/1/wheel_speed").0, "1620 rev/min");
    assert_eq!(
        (told("/operations/2/batch").0, told("/operations/2/time").0),
        ("200".into(), "25 min".into())
    );
}

#[test]
fn other_work_needs_little() {
    let heat = short(
        json!([]),
        json!([{"kind": "heat_treat", "hardness": {"lower": 50, "upper": 54},
                                        "leaves_scale": false}]),
    );
    proposes(&heat, &[("name", "harden and temper"), ("time", "240 min"), ("batch", "30")]);
    let unnamed = json!({"tenths_plan": 1, "units": "metric", "part": {"name": "p", "quantity": 1},
        "material": {"designation": "SAE 1045"}, "characteristics": [], "operations": [{"kind": "heat_treat"}]});
    let error = Plan::from_json(&unnamed.to_string()).unwrap_err().to_string();
    assert!(error.contains("/operations/0/name: is missing"), "{error}");
    // A time that is given is that of a part, as it always was.
    let given = short(json!([]), json!([{"kind": "wash", "time": 1}]));
    assert!(find(&given, "/operations/1/batch").is_none());
    proposes(&short(json!([]), json!([{"kind": "wash"}])), &[("time", "10 min"), ("batch", "30")]);
    proposes(&short(json!([]), json!([{"kind": "plate", "name": "zinc"}])), &[("time", "60 min")]);
    // A broach of 400 mm goes through 100.2 mm; a shaper overruns by 20 mm.
    proposes(&short(json!([]), json!([{"kind": "broach"}])), &[("tool", "a broach"), ("stroke", "500.2 mm")]);
    proposes(
        &short(json!([]), json!([{"kind": "broach", "strokes": 30}])),
        &[("tool", "a slotting tool"), ("stroke", "120.2 mm"), ("cutting_rate", "12000 mm/min")],
    );
    let centre = short(json!([]), json!([{"kind": "center_drill"}]));
    proposes(&centre, &[("pilot_diameter", "3.15 mm"), ("diameter", "6.7 mm"), ("tool/diameter", "8 mm")]);
    let groove = short(
        json!([[2, "diameter", "36 ±0.1 mm"], [3, "slot", "2.6 +0.1/0 mm"]]),
        json!([{"kind": "groove", "makes": [2, 3]}]),
    );
    proposes(&groove, &[("floor_diameter", "36 mm"), ("width", "2.65 mm"), ("tool/width", "2.65 mm")]);
    let sunk = short(
        json!([[2, "bore", "9 +0.2/0 mm"], [3, "bore", "12 ±0.05 mm"]]),
        json!([{"kind": "drill", "makes": [2], "depth": 100, "breakthrough": 3}, {"kind": "countersink"},
               {"kind": "bore", "makes": [3]}]),
    );
    let value = |place: &str| find(&sunk, place).unwrap().value.clone();
    assert_eq!(value("/operations/2/hole_diameter"), "9 mm");
    assert_eq!(value("/operations/2/diameter"), "10 mm");
    assert_eq!(value("/operations/3/diameter"), "9 mm");
    // From 9 to 12 mm: 1.5 mm on the radius in 2 passes.
    assert_eq!(value("/operations/3/depth"), "0.75 mm");
    assert_eq!(errors(&sunk), [""; 0]);
}

#[test]
fn inch_plans_get_inch_figures_of_their_own() {
    let plan = read(&json!({"tenths_plan": 1, "units": "inch", "part": {"name": "part", "quantity": 8},
        "material": {"designation": "SAE 4140, annealed"},
        "characteristics": [{"number": 1, "kind": "length", "limits": "4 ±.01 in"},
                            {"number": 2, "kind": "diameter", "limits": ".5000 +0/-.0005 in"},
                            {"number": 3, "kind": "slot", "limits": ".1875 +.002/0 in"}],
        "operations": [{"kind": "saw", "makes": [1]}, {"kind": "keyseat", "makes": [3]},
                       {"kind": "grind", "makes": [2]}, {"kind": "deburr"}, {"kind": "inspect"}]}));
    let value = |place: &str| find(&plan, place).unwrap_or_else(|| panic!("{place}")).value.clone();
    // A square key; .5 and .006 in a side, to the middle, .49975 in.
    assert_eq!(value("/operations/1/key_height"), "0.1875 in");
    assert_eq!(value("/operations/2/diameter"), "0.512 in");
    assert_eq!(value("/operations/2/stock"), "0.006125 in");
    // 0.85 · 6500 ft/min over π · 16 in: 1319 rev/min.
    assert_eq!(value("/operations/2/wheel_speed"), "1310 rev/min");
    assert_eq!(value("/bar/remnant"), "2 in");
}

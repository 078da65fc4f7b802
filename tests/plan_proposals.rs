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
            let is_default = ["handling", "approach", "passes"].iter().any(|name| place.ends_with(name));
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

//! Several joints in one plan, pressed, shrunk and knurled: each judged as a joint that stands alone, and named.
use serde_json::{Value, json};
use tenths::document::FaultKind;
use tenths::plan::Sheet;
use tenths::{Plan, Severity, SheetKind};

const AXLE: &str = include_str!("../examples/plans/roller_axle.json");

fn axle() -> Value {
    serde_json::from_str(AXLE).unwrap()
}

/// The axle with its roller and, on its knurl, a grip.
fn two_joints() -> Value {
    let mut document = axle();
    let mut roller = document["joint"].take();
    document.as_object_mut().unwrap().remove("joint");
    roller["name"] = json!("roller");
    document["joints"] = json!([
        roller,
        {"kind": "knurled", "name": "grip", "shaft": 4, "bore": "20 +0.05/0 mm", "hub_outer_diameter": 40, "length": 25,
         "hub_material": {"name": "Aluminium", "modulus": 70, "poisson": 0.33, "yield_strength": 240}, "torque": 5, "gauge": "plug"}
    ]);
    document["characteristics"][3]["limits"] = json!("20.2..20.4 mm");
    document["operations"][8]["joint"] = json!("roller");
    let press = json!({"kind": "press", "joint": "grip", "time": 0.5});
    document["operations"].as_array_mut().unwrap().insert(9, press);
    document
}

/// The same with the roller shrunk on.
fn shrunk(more: Value) -> Value {
    let mut document = two_joints();
    let mut shrink = json!({"kind": "shrink", "joint": "roller", "time": 2});
    shrink.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    document["operations"][8] = shrink;
    document["material"]["expansion"] = json!(1.2e-5);
    document
}

fn sheet(document: &Value) -> Sheet {
    Plan::from_json(&document.to_string()).unwrap().evaluate().unwrap_or_else(|error| panic!("{error:#?}"))
}

#[track_caller]
fn found(sheet: &Sheet, code: &str, place: &str) -> (Severity, String) {
    let one = sheet.findings.iter().find(|one| one.code == code && one.place == place);
    let one = one.unwrap_or_else(|| panic!("no {code} at {place}: {:#?}", sheet.findings));
    (one.severity, one.message.clone())
}

#[track_caller]
fn refused(document: &Value, kind: FaultKind, place: &str) -> String {
    let error = Plan::from_json(&document.to_string()).unwrap_err();
    let fault = error.faults().iter().find(|one| one.kind == kind && one.place == place);
    fault.unwrap_or_else(|| panic!("no {kind:?} at {place}: {error}")).message.clone()
}

#[test]
fn a_listed_joint_is_judged_as_one_that_stands_alone() {
    let alone = sheet(&axle()).joint.unwrap();
    let both = sheet(&two_joints());
    assert!(both.joint.is_none());
    let [roller, grip] = &both.joints[..] else { panic!("{:#?}", both.joints) };
    assert_eq!((&roller.loosest, &roller.tightest), (&alone.loosest, &alone.tightest));
    assert_eq!((roller.name.as_deref(), grip.name.as_deref()), (Some("roller"), Some("grip")));
    assert_eq!((&*roller.kind, &*grip.kind), ("plain", "knurled"));
    assert!(both.findings.iter().all(|one| one.severity != Severity::Error), "{:#?}", both.findings);
}

#[test]
fn findings_and_pages_name_the_joint() {
    let mut document = two_joints();
    document["joints"][0]["torque"] = json!(39);
    document["joints"][0]["hub_material"]["yield_strength"] = json!(600);
    document["joints"][1]["bore"] = json!("20.7 +0.05/0 mm");
    let sheet = sheet(&document);
    for (code, place, name) in [
        ("joint_slips", "/joints/0", "joint `roller`: at its loosest"),
        ("joint_yields", "/joints/0/hub_material", "joint `roller`: at its tightest the hub yields"),
        ("joint_may_be_loose", "/joints/1/bore", "joint `grip`: the joint may be loose"),
        ("estimate", "/joints/1", "joint `grip`: "),
    ] {
        let (_, message) = found(&sheet, code, place);
        assert!(message.starts_with(name), "{message}");
    }
    let page = sheet.to_markdown(SheetKind::Process).unwrap();
    for words in [
        "Joint, roller (`/joints/0`)",
        "Pressed joint: roller",
        "Knurled joint: an ESTIMATE: grip",
        "hub bore, grip",
    ] {
        assert!(page.contains(words), "{words} is not in {page}");
    }
    assert_eq!(Sheet::from_json(&sheet.to_json()).unwrap(), sheet);
}

#[test]
fn each_joint_is_made_once_and_after_its_shaft() {
    let mut document = two_joints();
    document["operations"].as_array_mut().unwrap().remove(9);
    let (severity, message) = found(&sheet(&document), "not_pressed", "/joints/1");
    assert_eq!(
        (severity, &*message),
        (Severity::Warning, "no operation presses or shrinks the hub of grip on")
    );

    let mut document = two_joints();
    document["operations"][9]["joint"] = json!("roller");
    let twice = sheet(&document);
    assert_eq!(found(&twice, "pressed_twice", "/operations/9").0, Severity::Error);
    assert_eq!(found(&twice, "not_pressed", "/joints/1").0, Severity::Warning);

    // The grip before its knurl is rolled.
    let mut document = two_joints();
    let list = document["operations"].as_array_mut().unwrap();
    let early = list.remove(9);
    list.insert(3, early);
    assert_eq!(found(&sheet(&document), "pressed_before_made", "/operations/3").0, Severity::Error);

    // A press that is strong enough for the roller need not be so for other joints.
    let mut document = two_joints();
    document["operations"][9]["capacity"] = json!("1 kN");
    assert!(sheet(&document).findings.iter().all(|one| one.code != "press_too_weak"));
    document["operations"][8]["capacity"] = json!("1 kN");
    found(&sheet(&document), "press_too_weak", "/operations/8/capacity");
}

#[test]
fn hubs_side_by_side_must_fit_on_the_part() {
    // The part has 148.3 mm.
    let mut document = two_joints();
    document["joints"][0]["length"] = json!(125);
    let together = found(&sheet(&document), "beyond_part", "/joints/1/length");
    assert_eq!(together.0, Severity::Error);
    assert!(together.1.contains("together of 150 mm"), "{}", together.1);
    document["joints"][0]["length"] = json!(123.3);
    assert!(sheet(&document).findings.iter().all(|one| one.code != "beyond_part"));
}

#[test]
fn joints_that_cannot_be_told_apart_are_refused() {
    let mut document = two_joints();
    document["joint"] = axle()["joint"].clone();
    refused(&document, FaultKind::Conflict, "/joint");

    let mut document = two_joints();
    document["joints"][1].as_object_mut().unwrap().remove("name");
    refused(&document, FaultKind::Missing, "/joints/1/name");
    document["joints"][1]["name"] = json!("roller");
    refused(&document, FaultKind::GivenTwice, "/joints/1/name");

    let mut document = two_joints();
    document["operations"][9].as_object_mut().unwrap().remove("joint");
    let message = refused(&document, FaultKind::Missing, "/operations/9/joint");
    assert!(message.contains("`roller`, `grip`"), "{message}");
    document["operations"][9]["joint"] = json!("gripp");
    let message = refused(&document, FaultKind::NotThere, "/operations/9/joint");
    assert!(message.ends_with("did you mean `grip`?"), "{message}");

    let mut document = two_joints();
    document["operations"][9] = json!({"kind": "shrink", "joint": "grip", "hub_temperature": 200, "time": 1});
    refused(&document, FaultKind::Conflict, "/operations/9/joint");

    let mut document = two_joints();
    let one = document["joints"][0].clone();
    document["joints"] = vec![one; 101].into();
    refused(&document, FaultKind::Conflict, "/joints");
}

#[test]
fn a_shrunk_joint_slips_on_at_the_temperatures_that_are_stated() {
    // By hand, with 12e-6 for hub and shaft: (0.082 + 0.001 · 20) / 20 / 12e-6 = 425 K above 20 °C.
    let hot = sheet(&shrunk(json!({"hub_temperature": 445})));
    let needed = hot.operations[8].figures.get("hub_temperature_at_least").unwrap();
    assert!((needed.value - 445.0).abs() < 1e-9 && needed.unit == "°C", "{needed:?}");
    assert!(hot.findings.iter().all(|one| one.code != "does_not_slip_on"), "{:#?}", hot.findings);
    assert_eq!(found(&hot, "hub_too_hot", "/operations/8/hub_temperature").0, Severity::Warning);

    // A shaft at -150 °C, 170 K below the room, takes 170 K off that.
    let cold = json!({"hub_temperature": 275, "shaft_temperature": -150});
    let needed = sheet(&shrunk(cold)).operations[8].figures.get("hub_temperature_at_least").unwrap().value;
    assert!((needed - 275.0).abs() < 1e-9, "{needed}");

    let cool = sheet(&shrunk(json!({"hub_temperature": 444})));
    let (severity, message) = found(&cool, "does_not_slip_on", "/operations/8/hub_temperature");
    assert!(severity == Severity::Error && message.contains("445 °C"), "{message}");
    // Half the clearance is half of 83.3 K less.
    let close = json!({"hub_temperature": 404, "clearance": 0.01});
    assert!(sheet(&shrunk(close)).findings.iter().all(|one| one.code != "does_not_slip_on"));

    let warm = sheet(&shrunk(json!({"hub_temperature": 460, "shaft_temperature": 25})));
    found(&warm, "does_not_slip_on", "/operations/8/shaft_temperature");
    refused(&shrunk(json!({})), FaultKind::Conflict, "/operations/8/hub_temperature");

    let mut unknown = shrunk(json!({"hub_temperature": 445}));
    unknown["joints"][0]["hub_material"].as_object_mut().unwrap().remove("expansion");
    assert_eq!(found(&sheet(&unknown), "left_out", "/operations/8").0, Severity::Warning);
}

#[test]
fn a_shrunk_joint_has_the_cautions_of_heat_and_cold() {
    let card = sheet(&shrunk(json!({"hub_temperature": 445}))).to_markdown(SheetKind::Cards).unwrap();
    for words in ["liquid nitrogen", "ventilate", "licensed engineer"] {
        assert!(card.contains(words), "{words}");
    }
}

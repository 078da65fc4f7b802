//! Plans drafted from the features of a part.
use serde_json::{Value, json};
use tenths::draft::{MAX_FEATURES, draft_plan};
use tenths::{Plan, Severity, SheetKind};

/// A part of twelve features.
fn twelve() -> Value {
    json!({"units": "metric", "material": "SAE 1045", "quantity": 25, "name": "Spindle", "features": [
        {"kind": "step", "diameter": "20 g6", "length": 25, "roughness": 0.8},
        {"kind": "flats", "across": "17 +0/-0.2 mm"},
        {"kind": "step", "diameter": 30, "length": 40},
        {"kind": "cross_hole", "diameter": 6},
        {"kind": "step", "diameter": "25 h7", "length": 30, "roughness": 1.6},
        {"kind": "knurl", "pitch": 1, "length": 15},
        {"kind": "step", "diameter": "16 h9", "length": 20},
        {"kind": "hole", "diameter": "8.5 +0.2/0 mm", "depth": 20},
        {"kind": "hole", "diameter": 12, "depth": 8},
        {"kind": "thread", "thread": "M6-6H", "length": 12, "end": "second"},
        {"kind": "chamfer", "size": 1},
        {"kind": "step", "diameter": 12, "length": 10}]})
}

fn draft(request: &Value) -> Plan {
    draft_plan(&request.to_string(), None).unwrap_or_else(|error| panic!("{error}"))
}

fn refused(request: &Value) -> String {
    let error = draft_plan(&request.to_string(), None).unwrap_err();
    error.faults().iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

fn document(plan: &Plan) -> Value {
    serde_json::from_str(plan.completed_json()).unwrap()
}

/// The operations of a kind.
fn of_kind<'d>(document: &'d Value, kind: &str) -> Vec<&'d Value> {
    document["operations"].as_array().unwrap().iter().filter(|one| one["kind"] == kind).collect()
}

#[test]
fn a_draft_of_twelve_features_has_no_error_and_lists_what_it_assumes() {
    let plan = draft(&twelve());
    let sheet = plan.evaluate().unwrap();
    assert!(sheet.findings.iter().all(|one| one.severity < Severity::Error), "{:#?}", sheet.findings);
    assert!(plan.assumptions().len() > 80, "{}", plan.assumptions().len());
    assert!(sheet.to_markdown(SheetKind::Process).unwrap().contains("## Assumed"));
    // Every characteristic is made and inspected.
    assert!(sheet.characteristics.iter().all(|one| !one.made_by.is_empty()));
    let document = document(&plan);
    let reasons = document["operations"].as_array().unwrap().iter().all(|one| one["reason"].is_string());
    assert!(reasons, "{document:#}");
}

#[test]
fn steps_are_turned_from_the_largest_outward() {
    let document = document(&draft(&twelve()));
    let turned = of_kind(&document, "turn");
    // 30 from the bar of 32; 20 g6 is roughed from 30 and finished; behind the turn 25 h7 from 30, then 16 from 25, 12 from 16.
    let starts: Vec<&str> = turned.iter().map(|one| one["diameter"].as_str().unwrap()).collect();
    let expected = ["32 mm", "30.2 mm", "20.54 mm", "30.2 mm", "25.52 mm", "25 mm", "25 mm", "16 mm"];
    let outside = |text: &str| text.to_string();
    assert_eq!(starts[..5], expected.map(outside)[..5], "{starts:?}");
    // 25 + 40 and an approach of 2; 25 and 2.
    let travels: Vec<&str> = turned.iter().map(|one| one["travel"].as_str().unwrap()).collect();
    assert_eq!(travels[..3], ["67 mm", "27 mm", "27 mm"], "{travels:?}");
    assert_eq!(travels.last(), Some(&"12 mm"));
}

#[test]
fn each_end_has_its_holes_the_deepest_first() {
    let document = document(&draft(&twelve()));
    let operations = document["operations"].as_array().unwrap();
    let place = |wanted: &dyn Fn(&Value) -> bool| operations.iter().position(wanted).unwrap();
    let faces: Vec<usize> = (0..operations.len()).filter(|&k| operations[k]["kind"] == "face").collect();
    let of_size = |size: f64| place(&|one| one["kind"] == "drill" && one["tool"]["diameter"] == size);
    assert!(faces[0] < of_size(8.5) && of_size(8.5) < of_size(12.0) && of_size(12.0) < faces[1]);
    assert!(faces[1] < of_size(5.0) && of_size(5.0) < place(&|one| one["kind"] == "tap"));
    // The hole of a thread is deeper by four pitches of 1 mm, from the upper limit of 12 ±0.2 mm.
    assert_eq!(operations[of_size(5.0)]["depth"], "16.2 mm");
}

#[test]
fn a_draft_reads_back_as_a_plan_and_takes_standards() {
    let standards =
        json!({"tenths_standards": 1, "units": "metric", "operations": [{"kind": "deburr", "time": 0.9}]});
    let plan = draft_plan(&twelve().to_string(), Some(&standards.to_string())).unwrap();
    let own = plan.assumptions().iter().find(|one| one.reason.starts_with("your standards")).unwrap();
    assert_eq!(own.value, "0.9 min");
    assert_eq!(Plan::from_json(plan.completed_json()).unwrap().document(), plan.document());
}

#[test]
fn outside_threads_grooves_and_reamed_holes_are_made() {
    let request = json!({"units": "metric", "material": "SAE 1045", "quantity": 25, "features": [
        {"kind": "step", "diameter": "20 g6", "length": 25, "roughness": 0.8},
        {"kind": "groove", "diameter": 17, "width": 2},
        {"kind": "hole", "diameter": "8 H7", "depth": 20},
        {"kind": "thread", "thread": "M12-6g", "length": 18}]});
    let plan = draft(&request);
    let document = document(&plan);
    assert_eq!(of_kind(&document, "turn_thread")[0]["thread"], "M12-6g");
    assert_eq!(of_kind(&document, "groove")[0]["floor_diameter"], "17 mm");
    // The middle of 8 H7, 8.0075 mm, less 0.2 mm for the reamer, and down to a tenth.
    assert_eq!(of_kind(&document, "drill")[0]["tool"]["diameter"], "7.8 mm");
    assert_eq!(of_kind(&document, "ream")[0]["tool"]["diameter"], 8.0075);
    for (at, value, place, words) in [
        ("/features/1/diameter", json!(21), "/features/1/diameter", "does not cut into feature 1"),
        ("/features/1/width", json!(26), "/features/1/width", "a groove 26 mm long does not go on feature 1"),
        ("/features/3/length", Value::Null, "/features/3/length", "must be limits"),
        ("/features/3/thread", json!("M12-6X"), "/features/3/thread", "6X"),
    ] {
        let mut request = request.clone();
        *request.pointer_mut(at).unwrap() = value;
        let text = refused(&request);
        assert!(text.contains(&format!("{place}: ")) && text.contains(words), "{text}");
    }
}

#[test]
fn a_keyseat_is_milled_after_turning_and_a_relief_is_turned_before_its_thread() {
    let request = json!({"units": "metric", "material": "SAE 1045", "quantity": 5, "features": [
        {"kind": "thread", "thread": "M20x1.5-6g", "length": 18},
        {"kind": "groove", "diameter": 17.6, "width": 3},
        {"kind": "step", "diameter": "25 h6", "length": 40},
        {"kind": "keyseat", "width": "8 P9", "length": 28},
        {"kind": "flats", "across": "22 +0/-0.2 mm"}]});
    let plan = draft(&request);
    let document = document(&plan);
    let kinds: Vec<&str> =
        document["operations"].as_array().unwrap().iter().map(|one| one["kind"].as_str().unwrap()).collect();
    let place = |kind: &str| kinds.iter().position(|one| *one == kind).unwrap();
    assert!(place("groove") < place("turn_thread") && place("turn_thread") < place("keyseat"), "{kinds:?}");
    let keyseat = of_kind(&document, "keyseat")[0];
    assert_eq!((&keyseat["key_width"], &keyseat["key_height"]), (&json!(8), &json!(7)));
    assert_eq!(keyseat["diameter"], "25 mm");
    // Flats count from the step that has them: (25 - 21.9) / 2 mm deep.
    let flats = of_kind(&document, "mill_flats")[0];
    assert_eq!((&flats["diameter"], &flats["axial_depth"]), (&json!("25 mm"), &json!(1.55)));
    // A thread is proved by its gauges.
    let asked = document["characteristics"].as_array().unwrap();
    let major = asked.iter().find(|one| one["name"] == "major diameter of thread M20x1.5-6g").unwrap();
    assert!(major["inspection"].as_str().unwrap().contains("go and no-go ring gauges"), "{major}");
    for (at, value, place, words) in [
        ("/features/3/width", json!(26), "/features/3/width", "does not go into feature 3"),
        (
            "/features/3/length",
            json!(41),
            "/features/3/length",
            "a keyseat 41 mm long does not go on feature 3",
        ),
        ("/features/3/on", json!(2), "/features/3/on", "feature 2 is not a step"),
        ("/features/3/width", Value::Null, "/features/3/width", "must be limits"),
    ] {
        let mut request = request.clone();
        if request["features"][3].get("on").is_none() {
            request["features"][3]["on"] = json!(3);
        }
        *request.pointer_mut(at).unwrap() = value;
        let text = refused(&request);
        assert!(text.contains(&format!("{place}: ")) && text.contains(words), "{text}");
    }
}

/// Edits of the part, each with the fault that it has: its place and words of it.
fn edits() -> Vec<(&'static str, Value, &'static str, &'static str)> {
    vec![
        ("/quantity", json!(0), "/quantity", "must be greater than 0, not 0"),
        ("/quantity", json!(2.5), "/quantity", "must be a whole number"),
        ("/units", json!("cubits"), "/units", "inch"),
        ("/material", json!("butter"), "/material", "no material is called `butter`"),
        ("/features", json!([]), "/features", "a part needs at least one step"),
        (
            "/features",
            json!([{"kind": "hole", "diameter": 5}]),
            "/features",
            "a part needs at least one step",
        ),
        ("/features", json!("a step"), "/features", "must be a list"),
        ("/features/0/kind", json!("stepp"), "/features/0/kind", "did you mean `step`?"),
        ("/features/0/diameter", json!("20 q99"), "/features/0/diameter", "`q99` has no position `q`"),
        ("/features/0/diameter", json!(-20), "/features/0/diameter", "must be greater than 0, not -20 mm"),
        ("/features/0/length", json!(0), "/features/0/length", "must be greater than 0"),
        ("/features/0/length", json!("25 kg"), "/features/0/length", "`kg` is not a known unit of length"),
        ("/features/0/lenght", json!(25), "/features/0/lenght", "did you mean `length`?"),
        ("/features/0/roughness", json!(-1), "/features/0/roughness", "must be greater than 0, not -1 µm"),
        (
            "/features/1/across",
            json!(20),
            "/features/1/across",
            "do not cut into feature 1, which is 20 g6 across",
        ),
        (
            "/features/1/on",
            json!(2),
            "/features/1/on",
            "feature 2 is not a step; the steps are features 1, 3, 5, 7, 12",
        ),
        ("/features/1/on", json!(99), "/features/1/on", "feature 99 is not a step"),
        ("/features/1/flats", json!(0), "/features/1/flats", "must be greater than 0"),
        ("/features/2/diameter", json!(900), "/bar", "no list of bars has a bar for a diameter of"),
        (
            "/features/3/diameter",
            json!(35),
            "/features/3/diameter",
            "a cross hole of 35.3 mm does not fit into feature 3",
        ),
        (
            "/features/5/length",
            json!(31),
            "/features/5/length",
            "a knurl 31 mm long does not go on feature 5",
        ),
        ("/features/5/pitch", json!(0), "/features/5/pitch", "must be greater than 0"),
        (
            "/features/7/depth",
            json!(125),
            "/features/7/depth",
            "a hole 125 mm deep goes through the part, which is 125 mm long",
        ),
        (
            "/features/7/diameter",
            json!("22 H7"),
            "/features/7/diameter",
            "does not fit into feature 1, which is 20 g6 across",
        ),
        (
            "/features/8/depth",
            json!(30),
            "/features/8",
            "of two holes from one end the larger must be the less deep",
        ),
        ("/features/8/diameter", json!("8.5 +0.1/0 mm"), "/features/8", "a hole of the same size"),
        ("/features/9/thread", json!("M99"), "/features/9/thread", "M99"),
        ("/features/9/length", json!(200), "/features/9/length", "goes through the part"),
        ("/features/9/thread", json!("M12-6H"), "/features/9/thread", "does not fit into feature 12"),
        ("/features/9/length", json!(110), "/features/9", "meets feature"),
        ("/features/9/end", json!("third"), "/features/9/end", "first"),
        ("/features/10/size", json!(7), "/features/10/size", "leaves nothing"),
        ("/length", json!(90), "/length", "the steps add up to 125 mm"),
        ("/bar", json!("25 h9"), "/bar", "may be smaller than the largest diameter"),
        ("/bar", json!(25), "/bar", "must be limits"),
        ("/thing", json!(1), "/thing", "there is no field `thing` here"),
    ]
}

#[test]
fn each_impossible_edit_is_refused_at_its_place() {
    let mut wrong = vec![];
    for (at, value, place, words) in edits() {
        let mut request = twelve();
        let (above, name) = at.rsplit_once('/').unwrap();
        match request.pointer_mut(above).unwrap() {
            Value::Array(list) => list[name.parse::<usize>().unwrap()] = value.clone(),
            object => object[name] = value.clone(),
        }
        let text = refused(&request);
        let found = text.lines().any(|line| line.starts_with(&format!("{place}: ")) && line.contains(words));
        if !found {
            wrong.push(format!("{at} = {value}: expected {place}: {words}, got\n{text}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn faults_are_told_all_at_once() {
    let mut request = twelve();
    for (at, value) in [("3", json!(35)), ("7", json!("22 H7")), ("8", json!(31))] {
        request["features"][at.parse::<usize>().unwrap()]["diameter"] = value;
    }
    request["features"][5]["length"] = json!(31);
    let text = refused(&request);
    for place in ["/features/3/", "/features/5/", "/features/7/", "/features/8/"] {
        assert!(text.contains(place), "{text}");
    }
}

#[test]
fn too_many_features_are_refused() {
    let step = json!({"kind": "step", "diameter": 20, "length": 1});
    let request = |count: usize| {
        json!({"units": "metric", "material": "SAE 1045", "quantity": 1,
                                        "features": vec![step.clone(); count]})
    };
    assert_eq!(
        refused(&request(2000)),
        format!(
            "/features: a draft takes at most {MAX_FEATURES} features, not 2000. Fix: draft the part in pieces"
        )
    );
    assert!(draft(&request(MAX_FEATURES)).evaluate().is_ok());
}

#[test]
fn an_inch_part_is_drafted_too() {
    let request = json!({"units": "inch", "material": "6061-T6", "quantity": 100, "features": [
        {"kind": "step", "diameter": "0.750 +0/-.001 in", "length": 1.5, "roughness": 32},
        {"kind": "step", "diameter": 1.25, "length": ".500 ±.002 in"},
        {"kind": "hole", "diameter": "3/8 in"},
        {"kind": "thread", "thread": "1/4-20 UNC-2B", "length": 0.5}]});
    // A thread in the way of a through hole.
    assert!(refused(&request).contains("in its way"), "{}", refused(&request));
    let mut request = request;
    request["features"].as_array_mut().unwrap().remove(2);
    let plan = draft(&request);
    let document = document(&plan);
    assert_eq!(document["bar"]["limits"], "1.375 +0/-.006 in");
    assert_eq!(of_kind(&document, "tap")[0]["thread"], "1/4-20 UNC-2B");
    // Turns of 13 to the inch end at no decimal: the next thousandth above is taken.
    request["features"] = json!([{"kind": "step", "diameter": ".500 +0/-.005 in", "length": 1.5},
                                 {"kind": "thread", "thread": "1/2-13 UNC-2A", "length": 1}]);
    let threaded = self::document(&draft(&request));
    assert_eq!(of_kind(&threaded, "turn_thread")[0]["travel"], "1.231 in");
}

// Every metal of the table that has starting values, or speeds of its own, can be drafted from.
#[test]
fn every_material_gives_a_draft_or_says_what_it_lacks() {
    let mut drafted = 0;
    for material in tenths::material::materials() {
        let mut request = twelve();
        request["material"] = json!(material.to_string());
        match draft_plan(&request.to_string(), None) {
            Ok(_) => drafted += 1,
            Err(error) => assert!(error.to_string().contains("is missing"), "{material}: {error}"),
        }
    }
    assert!(drafted >= 50, "{drafted}");
}

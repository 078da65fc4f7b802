//! A plan whose numbers vary, against direct evaluation and exact laws.
use tenths::plan::{MAX_PLAN_SAMPLES, Propagated};
use tenths::stack::{Distribution, Input, Sampling};
use tenths::{Plan, Severity};

const DEMO: &str = include_str!("../examples/plans/roller_axle.json");
const INCH_DEMO: &str = include_str!("../examples/plans/jig_rest_pin.json");
const SPEED: &str = "/operations/2/spindle_speed";

fn plan(text: &str) -> Plan {
    Plan::from_json(text).unwrap()
}

fn share_of(propagated: &Propagated, code: &str, place: &str) -> f64 {
    let found = propagated.findings.iter().find(|one| one.code == code && one.place == place);
    found.map_or(0.0, |found| found.share.fraction)
}

#[track_caller]
fn assert_share(found: f64, expected: f64, count: u64) {
    let error = (expected * (1.0 - expected) / count as f64).sqrt();
    assert!((found - expected).abs() <= 5.0 * error, "{found} and not {expected} ± 5 · {error}");
}

#[test]
fn numbers_that_do_not_vary_give_the_findings_of_the_plain_sheet_every_time() {
    for (text, place, value) in [
        (DEMO, SPEED, 1500.0),
        (DEMO, "/joint/length", 18.0),
        // Text of 3000 mm, and an end of a range.
        (DEMO, "/bar/bar_length", 3000.0),
        (DEMO, "/operations/2/tool/surface_speed/upper", 90.0),
        (INCH_DEMO, "/operations/0/kerf", 0.042),
        (INCH_DEMO, "/stacks/0/contributors/0/cp", 1.2),
    ] {
        let text = text.replace("\"cp\": 1.2}", "\"cp\": 1.2, \"sensitivity\": 1}");
        let plain = plan(&text).evaluate().unwrap();
        let propagated =
            plan(&text).propagate(&[Input::fixed(place, value)], &Sampling::new(700, 1), &[]).unwrap();
        let mut expected: Vec<_> =
            plain.findings.iter().map(|one| (one.severity, one.code, &*one.place)).collect();
        let mut found: Vec<_> =
            propagated.findings.iter().map(|one| (one.severity, one.code, &*one.place)).collect();
        expected.sort();
        found.sort();
        assert_eq!(found, expected, "{place}");
        assert!(propagated.findings.iter().all(|one| one.share.count == 700 && one.share.fraction == 1.0));
        assert_eq!((propagated.refused.count, propagated.faults.len()), (0, 0));
    }
}

#[test]
fn every_figure_that_can_be_followed_is_that_of_the_plain_sheet() {
    for text in [DEMO, INCH_DEMO] {
        let sheet = plan(text).evaluate().unwrap();
        let json: serde_json::Value = serde_json::from_str(&sheet.to_json()).unwrap();
        let mut pointers = vec![];
        numbers(&json, "", &mut pointers);
        // What is counted or asked for by the document is no figure, and the list of tools repeats those of operations.
        let is_figure = |pointer: &str| {
            let ends = ["/value", "/minutes_per_part", "/parts_per_bar", "/bars"];
            !pointer.starts_with("/tools/") && ends.iter().any(|end| pointer.ends_with(end))
        };
        let figures: Vec<&str> =
            pointers.iter().map(|(pointer, _)| &**pointer).filter(|p| is_figure(p)).collect();
        assert!(figures.len() > 50, "{}", figures.len());
        for some in figures.chunks(16) {
            let fixed = [Input::fixed("/bar/remnant", if text == DEMO { 60.0 } else { 4.0 })];
            let propagated = plan(text).propagate(&fixed, &Sampling::new(2, 1), some).unwrap();
            for (output, pointer) in propagated.outputs.iter().zip(some) {
                let expected = json.pointer(pointer).unwrap().as_f64().unwrap();
                let spread = output.spread.as_ref().unwrap();
                // Reading JSON may be off in the last place.
                let is_close = (spread.minimum - expected).abs() <= 1e-15 * expected.abs();
                assert!(is_close && spread.minimum == spread.maximum, "{pointer}: {spread:?}, {expected}");
                assert_eq!(&output.place, pointer);
            }
        }
    }
}

fn numbers(value: &serde_json::Value, pointer: &str, found: &mut Vec<(String, f64)>) {
    match value {
        serde_json::Value::Number(number) => found.push((pointer.into(), number.as_f64().unwrap())),
        serde_json::Value::Array(list) => {
            list.iter().enumerate().for_each(|(k, item)| numbers(item, &format!("{pointer}/{k}"), found))
        }
        serde_json::Value::Object(fields) => {
            fields.iter().for_each(|(name, item)| numbers(item, &format!("{pointer}/{name}"), found))
        }
        _ => {}
    }
}

// The speed of the cutter, π · 16 mm · n, passes the 90 m/min of its maker at n = 90 000 / (16 π) = 1790.4931. By
// scipy.stats.norm.sf(1790.4931, 1700, 50), and of 1500 ± 150 with Cp 1/3 below 60 m/min and above 90 m/min.
#[test]
fn a_known_threshold_is_passed_as_often_as_the_exact_law_says() {
    const COUNT: u64 = 20_000;
    let one = [Input::new(SPEED, 1700.0, 150.0, -150.0)];
    let speed = ["/operations/2/figures/surface_speed/value"];
    let propagated = plan(DEMO).propagate(&one, &Sampling::new(COUNT, 3), &speed).unwrap();
    assert_share(share_of(&propagated, "outside_recommendation", SPEED), 0.035_158_58, COUNT);
    let found = propagated.findings.iter().find(|one| one.place == SPEED).unwrap();
    assert!(found.share.lower < found.share.fraction && found.share.fraction < found.share.upper);
    // π · 16 / 1000 · 1700 and · 50.
    let spread = propagated.outputs[0].spread.as_ref().unwrap();
    let [mean, sigma] = [85.451_320, 2.513_274];
    assert!((spread.mean - mean).abs() < 5.0 * sigma / (COUNT as f64).sqrt(), "{spread:?}");
    assert!((spread.sigma.unwrap() / sigma - 1.0).abs() < 5.0 / (2.0 * COUNT as f64).sqrt(), "{spread:?}");
    assert_eq!(propagated.outputs[0].sample.as_ref().unwrap().values().len(), COUNT as usize);

    let wide = Distribution::Normal { cp: 1.0 / 3.0, shift: 0.0 };
    let one = [Input::new(SPEED, 1500.0, 150.0, -150.0).distribution(wide)];
    let propagated = plan(DEMO).propagate(&one, &Sampling::new(COUNT, 4), &[]).unwrap();
    let expected = 0.020_563_228 + 0.026_395_861;
    assert_share(share_of(&propagated, "outside_recommendation", SPEED), expected, COUNT);
    // A uniform speed from 1700 to 1900 passes it in 109.5069 of 200 cases.
    let one = [Input::new(SPEED, 1800.0, 100.0, -100.0).distribution(Distribution::Uniform)];
    let propagated = plan(DEMO).propagate(&one, &Sampling::new(COUNT, 5), &[]).unwrap();
    assert_share(share_of(&propagated, "outside_recommendation", SPEED), 0.547_534_45, COUNT);
}

// Two speeds vary apart: each passes its own limit, and both together in the product of the shares. The face is turned
// at π · 20 · n / 1000 = 160 m/min, n = 2546.479; a normal law about it passes in half of all cases.
#[test]
fn numbers_vary_independently() {
    const COUNT: u64 = 20_000;
    let turn = "/operations/4/spindle_speed";
    let both =
        [Input::new(SPEED, 1_790.493_11, 150.0, -150.0), Input::new(turn, 2_546.479_09, 150.0, -150.0)];
    let speeds = ["/operations/2/figures/surface_speed/value", "/operations/4/figures/surface_speed/value"];
    let propagated = plan(DEMO).propagate(&both, &Sampling::new(COUNT, 9), &speeds).unwrap();
    let [mill, face] = [0, 1].map(|k| propagated.outputs[k].sample.as_ref().unwrap().values());
    let together = mill.iter().zip(face).filter(|(mill, face)| **mill > 90.0 && **face > 160.0).count();
    assert_share(together as f64 / COUNT as f64, 0.25, COUNT);
    for place in [SPEED, turn] {
        assert_share(share_of(&propagated, "outside_recommendation", place), 0.5, COUNT);
    }
}

#[test]
fn the_count_of_threads_changes_no_bit() {
    let vary = [
        Input::new(SPEED, 1700.0, 150.0, -150.0),
        Input::new("/joint/length", 18.0, 1.0, -1.0)
            .distribution(Distribution::Beta { alpha: 2.0, beta: 3.0 }),
    ];
    let outputs = ["/operations/2/figures/surface_speed/value", "/joint/loosest/axial_force_held/value"];
    let sampling = |threads| Sampling { threads, ..Sampling::new(3000, 11) };
    let propagated = |threads| plan(DEMO).propagate(&vary, &sampling(threads), &outputs).unwrap();
    let one = propagated(1);
    let bits = |of: &Propagated| -> Vec<u64> {
        let values = of.outputs.iter().flat_map(|one| one.sample.as_ref().unwrap().values());
        values.map(|value| value.to_bits()).collect()
    };
    for threads in [2, 3, 0] {
        let other = propagated(threads);
        assert_eq!(other, one);
        assert_eq!(bits(&other), bits(&one));
    }
    let other_seed = Sampling { seed: 12, ..sampling(1) };
    assert_ne!(bits(&plan(DEMO).propagate(&vary, &other_seed, &outputs).unwrap()), bits(&one));
}

#[test]
fn samples_that_are_no_plan_are_counted_with_their_faults() {
    const COUNT: u64 = 10_000;
    // A length of 0 is refused, and half of the law lies below.
    let one = [Input::new("/joint/length", 0.0, 3.0, -3.0)];
    let pressure = ["/joint/loosest/pressure/value"];
    let propagated = plan(DEMO).propagate(&one, &Sampling::new(COUNT, 1), &pressure).unwrap();
    assert_share(propagated.refused.fraction, 0.5, COUNT);
    let [fault] = &propagated.faults[..] else { panic!("{:?}", propagated.faults) };
    assert_eq!((&*fault.place, fault.share), ("/joint/length", propagated.refused));
    assert_eq!(propagated.outputs[0].undefined, propagated.refused.count);
    // A joint that is loose has no pressure: of the least shaft, 19.948 mm, roughness, heat and speed take off 0.00832,
    // 0.0004 and 0.00000056 mm.
    let text = DEMO.replace("\"20 Z6\"", r#"{"lower": 19.92, "upper": 19.93}"#);
    let one = [Input::new("/joint/bore/upper", 19.939_279_44, 0.003, -0.003)];
    let propagated = plan(&text).propagate(&one, &Sampling::new(COUNT, 2), &pressure).unwrap();
    assert_eq!(propagated.refused.count, 0);
    assert_share(propagated.outputs[0].undefined as f64 / COUNT as f64, 0.5, COUNT);
    assert_share(share_of(&propagated, "joint_may_be_loose", "/joint/bore"), 0.5, COUNT);
}

#[test]
fn findings_stand_by_their_weight() {
    // The stack closes for the wanted limits as they vary, or fails in the worst case, or in the mean.
    let text = DEMO.replace("\"5.2..7.0 mm\"", r#"{"lower": 5.2, "upper": 7.0}"#);
    let one = [Input::new("/stacks/0/wanted/lower", 5.4, 0.3, -0.3).distribution(Distribution::Uniform)];
    let propagated =
        plan(&text).propagate(&one, &Sampling::new(10_000, 2), &["/stacks/0/figures/mean/value"]).unwrap();
    assert_share(share_of(&propagated, "stack_does_not_close", "/stacks/0"), 0.5, 10_000);
    assert_eq!(propagated.findings.iter().filter(|one| one.place == "/stacks/0").count(), 1);
    let weights: Vec<Severity> = propagated.findings.iter().map(|one| one.severity).collect();
    assert!(weights.is_sorted_by(|one, other| one >= other), "{weights:?}");
}

#[test]
fn a_request_as_json_takes_numbers_and_text() {
    let request = |varying: &str| format!("{{\"count\": 600, \"seed\": 3, \"varying\": [{varying}]}}");
    let one = |fields: &str| request(&format!("{{\"place\": \"{SPEED}\", {fields}}}"));
    let direct =
        plan(DEMO).propagate(&[Input::new(SPEED, 1700.0, 150.0, -150.0)], &Sampling::new(600, 3), &[]);
    let direct = direct.unwrap();
    for fields in [
        r#""nominal": 1700, "plus": 150, "minus": -150"#,
        r#""limits": "1700 ±150 rev/min""#,
        r#""limits": "1700±150rev/min", "distribution": "normal", "cp": 1"#,
        r#""limits": "1700 +150/-150 rpm""#,
        r#""limits": "1550..1850 RPM""#,
    ] {
        assert_eq!(plan(DEMO).propagate_json(&one(fields)).unwrap(), direct, "{fields}");
    }
    let json: serde_json::Value = serde_json::from_str(&direct.to_json()).unwrap();
    assert_eq!(json["count"], 600);
    assert!(json["findings"][0]["share"]["fraction"].as_f64().is_some());
    // 3/4 in is 19.05 mm: text is read in its own unit.
    let bar = r#"{"place": "/joint/length", "limits": "3/4 ±1/64 in"}"#;
    let text = format!(
        "{{\"count\": 9000, \"varying\": [{bar}], \"outputs\": [\"/joint/loosest/axial_force_held/value\"]}}"
    );
    let spread = plan(DEMO).propagate_json(&text).unwrap().outputs[0].spread.clone().unwrap();
    // 0.1 · 34.05048 MPa · π · 20 · 19.05; its deviation is that of 19.05 by 1/64 in / 3 = 0.132292 mm.
    let (mean, sigma) = (4075.661, 28.3032);
    assert!((spread.mean - mean).abs() < 5.0 * sigma / 9000_f64.sqrt() + 0.01, "{spread:?}");
    assert!((spread.sigma.unwrap() / sigma - 1.0).abs() < 5.0 / 18_000_f64.sqrt(), "{spread:?}");
}

#[track_caller]
fn refused(request: &str, place: &str, words: &str) {
    let error = plan(DEMO).propagate_json(request).unwrap_err();
    let found = error.faults().iter().any(|fault| fault.place == place && fault.message.contains(words));
    assert!(found, "no `{words}` at {place} among {:#?}", error.faults());
}

#[test]
fn a_bad_request_has_a_clear_error_with_its_place() {
    let varying = |place: &str, fields: &str| {
        format!("{{\"count\": 10, \"varying\": [{{\"place\": \"{place}\", {fields}}}]}}")
    };
    let numbers = r#""nominal": 1, "plus": 0.1, "minus": -0.1"#;
    for (place, words) in [
        ("/operations/77/spindle_speed", "there is nothing at"),
        ("operations/2/spindle_speed", "there is nothing at"),
        ("/operations/2/spindle_sped", "there is nothing at"),
        ("/operations/02/spindle_speed", "there is nothing at"),
        ("/bar/limits", "is not a number that can vary"),
        ("/part/name", "is not a number that can vary"),
        ("/part/quantity", "is not a number that can vary"),
        ("/joint/shaft", "is not a number that can vary"),
        ("/operations/2", "is not a number that can vary"),
        ("", "is not a number that can vary"),
    ] {
        refused(&varying(place, numbers), "/varying/0/place", words);
    }
    for (fields, place, words) in [
        (r#""limits": "1700 ±150 mm""#, "/varying/0/limits", "rev/min"),
        (r#""limits": "1700 ±150""#, "/varying/0/limits", "unit"),
        (r#""limits": "1700 rev/min""#, "/varying/0/limits", "±"),
        (r#""limits": "1700 +150 rev/min""#, "/varying/0/limits", "60 +5/-2 rev/min"),
        (r#""limits": "odd""#, "/varying/0/limits", "±"),
        (r#""nominal": 1, "plus": 0.1"#, "/varying/0/limits", "minus"),
        (r#""nominal": 1, "plus": -0.1, "minus": 0.1"#, "/varying/0", "not valid limits"),
        (r#""limits": "1 ±.1 rev/min", "nominal": 1"#, "/varying/0/limits", "give"),
        (r#""limits": "1 ±.1 rev/min", "cp": 1, "cpk": 2"#, "/varying/0/cpk", "above"),
        (r#""limits": "1 ±.1 rev/min", "cp": 1, "distribution": "uniform""#, "/varying/0/cp", "normal"),
        (r#""limits": "1 ±.1 rev/min", "cpp": 1"#, "/varying/0/cpp", "cp"),
    ] {
        refused(&varying(SPEED, fields), place, words);
    }
    let sound = format!("\"varying\": [{{\"place\": \"{SPEED}\", {numbers}}}]");
    let most = MAX_PLAN_SAMPLES + 1;
    refused(&format!("{{\"count\": {most}, {sound}}}"), "/count", "1000000");
    refused(&format!("{{\"count\": 0, {sound}}}"), "/count", "greater than 0");
    refused(&format!("{{{sound}}}"), "/count", "missing");
    refused(&format!("{{\"count\": 1, \"threads\": 257, {sound}}}"), "/threads", "256");
    refused(r#"{"count": 1, "varying": []}"#, "/varying", "not 0");
    for output in [
        "/quantity",
        "/operations/0/figures/odd/value",
        "/operations/0/figures/section/unit",
        "minutes_per_part",
        "",
    ] {
        refused(
            &format!("{{\"count\": 1, {sound}, \"outputs\": [\"{output}\"]}}"),
            "/outputs/0",
            "no figure",
        );
    }
    let twice = format!("{{\"place\": \"{SPEED}\", {numbers}}}");
    refused(&format!("{{\"count\": 1, \"varying\": [{twice}, {twice}]}}"), "/varying/1/place", "already");
    refused("{", "", "not JSON");
    let within = Sampling::new(10, 1).within(0.0, 1.0);
    assert!(plan(DEMO).propagate(&[Input::fixed(SPEED, 1500.0)], &within, &[]).is_err());
    let nan = Input::fixed(SPEED, f64::NAN);
    assert!(plan(DEMO).propagate(&[nan], &Sampling::new(10, 1), &[]).is_err());
}

#[test]
fn a_long_plan_takes_fewer_samples() {
    let operation = r#"{"kind": "deburr", "time": 1}, "#;
    let text = DEMO.replacen(r#"{"kind": "deburr""#, &(operation.repeat(10_000) + r#"{"kind": "deburr""#), 1);
    let most = 10_000_000_000 / text.len() as u64;
    let one = [Input::fixed("/joint/length", 18.0)];
    let error = plan(&text).propagate(&one, &Sampling::new(most + 1, 1), &[]).unwrap_err();
    assert_eq!(error.faults()[0].place, "/count");
    assert!(error.to_string().contains(&most.to_string()), "{error}");
}

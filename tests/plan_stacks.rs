//! The stacks of a plan, against values worked by hand.
use tenths::plan::{MAX_CONTRIBUTORS, Sheet, StackLines};
use tenths::{Finding, Plan, Severity, SheetKind};

const DEMO: &str = include_str!("../examples/plans/roller_axle.json");
const INCH_DEMO: &str = include_str!("../examples/plans/jig_rest_pin.json");

fn sheet(text: &str) -> Sheet {
    Plan::from_json(text).unwrap().evaluate().unwrap()
}

/// The demo with pieces of its text replaced, each of which it has once.
#[track_caller]
fn with(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(DEMO.into(), |text: String, (old, new)| {
        assert_eq!(text.matches(old).count(), 1, "{old}");
        text.replace(old, new)
    })
}

const WANTED: &str = "5.2..7.0 mm";
const CAPABILITY: &str = "\"cp\": 1.33, \"cpk\": 1.2, \"mean\": \"above\"";
const DIMENSION: &str = "\"dimension\": 1,";

#[track_caller]
fn figure(stack: &StackLines, name: &str, expected: f64) {
    let figure = stack.figures.iter().find(|figure| figure.name == name).unwrap();
    assert!((figure.value - expected).abs() <= 1e-7, "{name} is {} and not {expected}", figure.value);
}

fn found(sheet: &Sheet) -> Option<&Finding> {
    sheet.findings.iter().find(|finding| finding.code == "stack_does_not_close")
}

#[test]
fn the_stack_of_the_demo_is_as_worked_by_hand() {
    let sheet = sheet(DEMO);
    let [stack] = &sheet.stacks[..] else { panic!("one stack") };
    // 148 - 119.9 - 2 · 8 - 2 · 3 = 6.1, either way 0.3 + 0.1 + 2 · 0.1 + 2 · 0.05 = 0.7.
    assert_eq!((&*stack.wanted, &*stack.worst_case), ("5.2..7 mm", "5.4..6.8 mm"));
    assert!(stack.closes_in_worst_case && stack.closes_statistically && stack.sampled.is_none());
    // √(0.3² + 0.1² + 2 · 0.1² + 2 · 0.05²) = √0.125 = 0.35355339.
    figure(stack, "root of sum of squares, lower", 6.1 - 0.353_553_39);
    figure(stack, "root of sum of squares, upper", 6.1 + 0.353_553_39);
    // Cpk 1.2 of Cp 1.33 lies 0.3 · (1 - 1.2 / 1.33) = 0.02932331 above the middle; the variance is
    // (0.3 / 3.99)² + 3 · (0.1 / 3)² + 2 · 0.05² / 3 = 0.0056532309 + 0.0033333333 + 0.0016666667.
    figure(stack, "mean", 6.129_323_31);
    figure(stack, "standard deviation", 0.010_653_230_9_f64.sqrt());
    let axle = &stack.contributions[0];
    // 0.09 / 0.125; 0.0056532309 / 0.0106532309; 0.3 / 0.7.
    let expected = [72.0, 53.065_882, 42.857_143];
    for (percent, expected) in [axle.rss, axle.variance, axle.worst_case].into_iter().zip(expected) {
        assert!((percent - expected).abs() < 1e-5, "{percent} and not {expected}");
    }
    assert_eq!((&*axle.name, &*axle.limits), ("axle", "147.7..148.3 mm"));
    let sum: f64 = stack.contributions.iter().map(|one| one.variance).sum();
    assert!((sum - 100.0).abs() < 1e-9);
}

#[test]
fn the_inch_stack_is_as_worked_by_hand() {
    let sheet = sheet(INCH_DEMO);
    let [stack] = &sheet.stacks[..] else { panic!("one stack") };
    // 1.750 - .750 + .062 = 1.062, either way .010 + .005 + .001.
    assert_eq!(stack.worst_case, "1.046..1.078 in");
    figure(stack, "mean", 1.062);
    // (.010 / 3.6)² + (.005 / 3)² + .001² / 3.
    figure(stack, "standard deviation", (1e-4_f64 / 12.96 + 25e-6 / 9.0 + 1e-6 / 3.0).sqrt());
}

#[test]
fn a_stack_that_does_not_close_is_found_with_a_remedy() {
    assert!(found(&sheet(DEMO)).is_none());
    // 5.4 lies beyond 5.6, and statistically (6.1293 - 5.6) / 0.1032 = 5.1 deviations are left. The axle closes with
    // 6.1 - 5.6 - 0.4 = 0.1 either way.
    let worst = sheet(&with(&[(WANTED, "5.6..6.8 mm")]));
    let finding = found(&worst).unwrap();
    assert_eq!((finding.severity, &*finding.place), (Severity::Warning, "/stacks/0"));
    assert!(finding.remedy.contains("`axle`, which has 43 percent") && finding.remedy.contains("of 0.2 mm"));
    assert!(worst.stacks[0].closes_statistically && !worst.stacks[0].closes_in_worst_case);
    // Φ((5.9 - 6.12932331) / 0.1032145) + 1 - Φ((6.3 - 6.12932331) / 0.1032145) by scipy's normal law.
    let out = sheet(&with(&[(WANTED, "5.9..6.3 mm")]));
    figure(&out.stacks[0], "fraction expected out", FRACTION_OUT);
    let finding = found(&out).unwrap();
    assert_eq!(finding.severity, Severity::Error);
    // √(0.2² - 0.035) = 0.0707107 either way.
    let remedy = &finding.remedy;
    assert!(remedy.contains("`axle`, which has 53 percent") && remedy.contains("of 0.1414 mm"), "{remedy}");
    // Within a share of 7 percent it closes, though not in the worst case.
    let share = "\"wanted\": \"5.9..6.3 mm\", \"greatest_fraction_out\": 0.07";
    let wider = sheet(&with(&[("\"wanted\": \"5.2..7.0 mm\"", share)]));
    assert_eq!(found(&wider).unwrap().severity, Severity::Warning);
    // The mean beyond the limits is told as such, however much of the sample that is.
    let beyond = sheet(&with(&[(WANTED, "6.13..6.9 mm")]));
    let finding = found(&beyond).unwrap();
    assert!(finding.severity == Severity::Error && finding.message.starts_with("the mean of"), "{finding:?}");
    assert!(finding.remedy.contains("6.515 mm"), "{finding:?}");
    // Without tolerance of the axle the others still have 0.4 either way.
    let hopeless = sheet(&with(&[(WANTED, "6..7 mm")]));
    assert!(found(&hopeless).unwrap().remedy.contains("tighten others"), "{:?}", found(&hopeless));
    // The tolerances add up within ±0.36, and a process of Cp 0.5 does not keep them.
    let incapable = sheet(&with(&[(WANTED, "5.74..6.46 mm"), (CAPABILITY, "\"cp\": 0.5")]));
    assert!(found(&incapable).unwrap().remedy.contains("capability"), "{:?}", found(&incapable));
}

// By scipy.stats.norm at the means and deviations worked above.
const FRACTION_OUT: f64 = 0.062_251_180_9;
const FRACTION_OF_NORMAL: f64 = 0.049_745_300_9;

#[test]
fn a_sample_agrees_with_the_exact_law() {
    // All normal, so that the sum is: the variance of the washers is 2 · (0.05 / 3)².
    let text = with(&[
        (
            WANTED,
            "5.9..6.3 mm\", \"sample\": {\"count\": 400000, \"seed\": 7}, \"greatest_fraction_out\": \"0.1",
        ),
        (", \"distribution\": \"uniform\"", ""),
    ]);
    let stack = &sheet(&text).stacks[0];
    figure(stack, "fraction expected out", FRACTION_OF_NORMAL);
    let sampled = stack.sampled.as_ref().unwrap();
    assert_eq!((sampled.count, sampled.seed), (400_000, 7));
    let error = (FRACTION_OF_NORMAL * (1.0 - FRACTION_OF_NORMAL) / 400_000.0).sqrt();
    assert!((sampled.fraction_out - FRACTION_OF_NORMAL).abs() < 5.0 * error, "{sampled:?}");
    assert!(
        sampled.fraction_out_lower < sampled.fraction_out
            && sampled.fraction_out < sampled.fraction_out_upper
    );
    assert!((sampled.mean - 6.129_323_31).abs() < 5.0 * 0.098 / 400_000_f64.sqrt());
    assert_eq!(sheet(&text), sheet(&text));
    assert_ne!(sheet(&text).stacks, sheet(&text.replace("\"seed\": 7", "\"seed\": 8")).stacks);
    let markdown = sheet(&text).to_markdown(SheetKind::Process).unwrap();
    assert!(markdown.contains("Of 400000 sampled assemblies (seed 7)"), "{markdown}");
    assert!(markdown.lines().all(|line| line.starts_with('|') || line.chars().count() <= 120));
}

#[test]
fn a_dimension_of_the_document_is_taken_by_number_name_or_pointer() {
    let plain = sheet(DEMO).stacks;
    for dimension in ["\"length over all\"", "\"/characteristics/0/limits\""] {
        let named = with(&[(DIMENSION, &format!("\"dimension\": {dimension},"))]);
        assert_eq!(sheet(&named).stacks, plain, "{dimension}");
    }
    // 20 Z6 in the place of 147.7..148.3.
    let bore = sheet(&with(&[(DIMENSION, "\"dimension\": \"/joint/bore\",")]));
    assert_eq!(bore.stacks[0].contributions[0].limits, "19.918..19.931 mm");
    // A change of the drawing changes the stack.
    let wider = sheet(&with(&[("148 ±0.3 mm", "148 ±0.4 mm")]));
    assert_eq!(wider.stacks[0].worst_case, "5.3..6.9 mm");
}

#[track_caller]
fn fault(changes: &[(&str, &str)], place: &str, words: &str) {
    let error = Plan::from_json(&with(changes)).unwrap_err();
    let found = error.faults().iter().any(|fault| fault.place == place && fault.message.contains(words));
    assert!(found, "no `{words}` at {place} among {:#?}", error.faults());
}

#[test]
fn a_bad_stack_has_a_clear_error_with_its_place() {
    let axle = |own: &str| format!("/stacks/0/contributors/0/{own}");
    let dimension = |new: &str, words: &str| {
        fault(&[(DIMENSION, &format!("\"dimension\": {new},"))], &axle("dimension"), words);
    };
    dimension("77", "77");
    dimension("\"lenght over all\"", "no characteristic is called");
    dimension("\"/part/name\"", "does not point to limits");
    dimension("\"/joint/bores\"", "there is nothing at");
    dimension("\"/characteristics/00/limits\"", "there is nothing at");
    dimension("true", "JSON Pointer");
    fault(
        &[
            ("\"name\": \"spigot\"", "\"name\": \"axle diameter\""),
            (DIMENSION, "\"dimension\": \"axle diameter\","),
        ],
        &axle("dimension"),
        "2 characteristics",
    );
    fault(&[(DIMENSION, "\"dimension\": 1, \"limits\": \"1 ±0.1 mm\",")], &axle("limits"), "not both");
    fault(&[(DIMENSION, "")], &axle("limits"), "dimension");
    for (new, place, words) in [
        ("\"cp\": 1.33, \"cpk\": 1.4", "cpk", "above its Cp"),
        ("\"cp\": 1.33, \"cpk\": 1.2", "cpk", "`mean`"),
        ("\"cpk\": 1.2", "cpk", "needs its `cp`"),
        ("\"mean\": \"above\"", "cpk", "needs a `cpk`"),
        ("\"cp\": 0.001", "cp", "0.01"),
        ("\"cp\": 1, \"distribution\": \"uniform\"", "cp", "normal"),
        ("\"sensitivity\": 1e-12", "sensitivity", "sensitivity"),
        ("\"count\": 2000000", "count", "1 000 000"),
        ("\"distribution\": \"unifrom\"", "distribution", "uniform"),
    ] {
        fault(&[(CAPABILITY, new)], &axle(place), words);
    }
    let sample = |count: u64| format!("5.2..7.0 mm\", \"sample\": {{\"count\": {count}}}, \"name\": \"axle");
    let name = "\"name\": \"axle beyond the lock plate\", ";
    fault(&[(name, ""), (WANTED, &sample(10_000_001))], "/stacks/0/sample/count", "10000000");
    // 10 000 000 samples of 6 pieces are within 100 000 000, and of 13 are not.
    assert!(Plan::from_json(&with(&[(name, ""), (WANTED, &sample(10_000_000))])).is_ok());
    let more = [(name, ""), (WANTED, &sample(10_000_000)), (CAPABILITY, "\"count\": 8")];
    fault(&more, "/stacks", "100000000");
}

#[test]
fn many_contributors_are_refused_and_those_allowed_cost_little() {
    let one = r#"{"name": "x", "dimension": "/joint/bore"},"#;
    let many =
        |count: usize| with(&[("\"contributors\": [", &format!("\"contributors\": [{}", one.repeat(count)))]);
    let error = Plan::from_json(&many(MAX_CONTRIBUTORS)).unwrap_err();
    assert!(error.faults().iter().any(|fault| fault.place == "/stacks"), "{error}");
    let start = std::time::Instant::now();
    let sheet = sheet(&many(MAX_CONTRIBUTORS - 4));
    assert_eq!(sheet.stacks[0].contributions.len(), MAX_CONTRIBUTORS);
    assert_eq!(found(&sheet).unwrap().severity, Severity::Error);
    assert!(start.elapsed().as_secs_f64() < 1.0, "{:?}", start.elapsed());
}

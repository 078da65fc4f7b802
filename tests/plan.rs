//! The plan document and its process sheet: the demo against values worked by hand, and bad documents.
use tenths::plan::{Figure, Sheet};
use tenths::{Plan, Severity, SheetKind};

const DEMO: &str = include_str!("../examples/plans/roller_axle.json");

fn sheet(text: &str) -> Sheet {
    Plan::from_json(text).unwrap().evaluate().unwrap()
}

#[track_caller]
fn figure(figures: &[Figure], name: &str, expected: f64) {
    let figure = figures.iter().find(|f| f.name == name).unwrap_or_else(|| panic!("no {name}"));
    // The working below is carried to six digits.
    let close = (figure.value - expected).abs() <= 1e-5 * expected.abs();
    assert!(close, "{name} is {} and not {expected}", figure.value);
}

#[test]
fn the_demo_is_as_worked_by_hand() {
    let sheet = sheet(DEMO);
    // The bar, 19.967 to 20, lies within 19.948 to 20, smoother and rounder than asked: number 2 is bought.
    let bought: Vec<_> = sheet.characteristics.iter().filter(|c| c.bought).map(|c| c.number).collect();
    assert_eq!(bought, [2]);
    // (3000 - 10 - 60) / (148.3 + 1.6) = 2930 / 149.9 = 19.55; 250 / 19 = 13.2.
    assert_eq!((sheet.bar.parts_per_bar, sheet.bar.bars), (Some(19), Some(14)));

    let [saw, deburr, mill, knurl, turn, drill, tap, edges, press, inspect] = &sheet.operations[..] else {
        panic!("ten operations")
    };
    // π / 4 · 20² = 314.159 mm² = 3.14159 cm²; over 20 cm²/min.
    figure(&saw.figures, "section", 314.159265);
    figure(&saw.figures, "cutting time", 0.157079633);
    // π · 16 · 1500 / 1000; 300 / (4 · 1500); 1.5275 · 12 · 300 / 1000.
    figure(&mill.figures, "surface speed", 75.3982237);
    figure(&mill.figures, "chip load", 0.05);
    figure(&mill.figures, "removal rate", 5.499);
    // Middle of the flats 16.945, largest bar 20: each flat takes (20 - 16.945) / 2 = 1.5275, and is
    // 2 · √(1.5275 · 18.4725) = 2 · √28.2167 wide.
    figure(&mill.figures, "depth of a flat", 1.5275);
    figure(&mill.figures, "width of a flat", 10.6239);
    // 12 - 20 / 2; 15 N·m / (0.2 · 8 mm) = 9375 N, 30 percent either way.
    figure(&mill.figures, "seat margin", 2.0);
    figure(&mill.figures, "screw preload", 9375.0);
    figure(&mill.figures, "screw preload, low", 6562.5);
    figure(&mill.figures, "screw preload, high", 12187.5);
    // Two flats of 40 / 300 min.
    figure(&mill.figures, "cutting time", 0.266666667);
    // π · 20 · 300 / 1000; half the pitch at 90°; π · 19.9835 / 1 = 62.7800 teeth, of which 63 track on
    // 63 / π = 20.0535 mm.
    figure(&knurl.figures, "surface speed", 18.8495559);
    figure(&knurl.figures, "feed per revolution", 0.2);
    figure(&knurl.figures, "diameter, least", 19.967);
    figure(&knurl.figures, "diameter, greatest", 20.5);
    figure(&knurl.figures, "teeth on the blank", 62.7800);
    figure(&knurl.figures, "blank for whole teeth", 20.0535);
    // π · 20 · 1800 / 1000; · 0.2 · 1; 1500 · 0.2^-0.22 = 2137.30 N/mm², · 0.2 mm²; · 113.097 / 60000 / 0.8;
    // 0.2² / (32 · 0.8) mm = 1.5625 µm; 2 · 14 / 360.
    figure(&turn.figures, "surface speed", 113.097336);
    figure(&turn.figures, "removal rate", 22.619467);
    figure(&turn.figures, "cutting force", 427.4592);
    figure(&turn.figures, "motor power", 1.007187);
    figure(&turn.figures, "roughness Ra, theoretical", 1.5625);
    figure(&turn.figures, "cutting time", 0.0777778);
    assert_eq!(turn.name, "Turn in 2 passes with a carbide insert");
    // π · 5 · 1500 / 1000; π / 4 · 5² · 150 / 1000; chip 0.05 · sin 59° = 0.0428584 mm, 1500 · 0.0428584^-0.22 =
    // 2999.46 N/mm², · 0.1 · 5² / 8 / 1000; 2 + 16 + 2.5 / tan 59° = 19.50215; / 150.
    figure(&drill.figures, "surface speed", 23.561945);
    figure(&drill.figures, "removal rate", 2.945243);
    figure(&drill.figures, "torque", 0.937332);
    figure(&drill.figures, "travel", 19.50215);
    figure(&drill.figures, "cutting time", 0.1300143);
    // π · 6 · 500 / 1000; 1 · 500; 1 / 1.299038; 2 · 15 / 500.
    figure(&tap.figures, "surface speed", 9.424778);
    figure(&tap.figures, "feed rate", 500.0);
    figure(&tap.figures, "height of thread", 76.98004);
    let minutes =
        [saw, deburr, mill, knurl, turn, drill, tap, edges, press, inspect].map(|o| o.minutes_per_part);
    // 0.157080 + 0.3; 0.25; 0.266667 + 0.8; 30 / 60 + 0.4; 0.077778 + 0.3; as above; 0.2; 0.6; 3 / 10.
    let expected = [0.457079633, 0.25, 1.06666667, 0.9, 0.377777778, 0.13001434, 0.06, 0.2, 0.6, 0.3];
    for (found, expected) in minutes.into_iter().zip(expected) {
        assert!((found - expected).abs() < 1e-8, "{found} and not {expected}");
    }
    assert!((sheet.minutes_per_part - 4.34153842).abs() < 1e-7);
}

#[test]
fn the_joint_of_the_demo_is_as_worked_by_hand() {
    let sheet = sheet(DEMO);
    let joint = sheet.joint.unwrap();
    // 20 Z6: z is +73 µm from 18 to 24 mm, IT6 is 13 µm and Δ 4 µm, so -69 and -82 µm: ISO 286-1.
    assert_eq!((&*joint.bore, joint.bore_designation.as_deref()), ("19.918..19.931 mm", Some("20 Z6")));
    // By the limits of the drawing, 19.948 to 20: 19.948 - 19.931 = 0.017; 20 - 19.918 = 0.082.
    assert_eq!(joint.least_interference, "0.017 mm");
    assert_eq!(joint.greatest_interference, "0.082 mm");
    // 0.8 · (4 + 4 · 1.6 µm) flatten; 20 · (12 - 11.5) / 10⁶ · (60 - 20) go to heat. The speed of 400 rev/min is 41.888
    // rad/s; on the bore of a hub of one metal with its solid shaft ρ ω² / (4 E) · (3.29 · 0.0225² + 0.71 · 0.01²), less
    // 0.71 · 0.01² of the shaft, is what is lost of 20 mm: 7850 · 1754.60 / 820e9 · 0.00166556 · 20.
    figure(&joint.loosest, "interference lost to roughness", 0.00832);
    figure(&joint.loosest, "interference lost to heat", 0.0004);
    figure(&joint.loosest, "interference lost to speed", 5.59531e-7);
    figure(&joint.loosest, "interference left", 0.00827944);
    // One modulus and a solid shaft: p = δ E / (2 d) · (1 - (d / D)²), with 1 - (20 / 45)² = 0.802469:
    // 0.00827944 · 205000 / 40 · 0.802469 = 34.0505 MPa; 0.1 · 34.0505 · π · 20 · 18 = 3851.02 N; · 10 mm.
    figure(&joint.loosest, "pressure", 34.0505);
    figure(&joint.loosest, "axial force held", 3851.02);
    figure(&joint.loosest, "torque held", 38.5102);
    // 0.082 - 0.00832 = 0.07368: 303.020 MPa; · 0.16 · π · 360 = 54833.3 N. Hoop 303.020 · (45² + 20²) / (45² - 20²) =
    // 452.199; √(452.199² + 452.199 · 303.020 + 303.020²) = 658.279 MPa, of 700. The shaft bears its pressure, of 310.
    figure(&joint.tightest, "interference left", 0.07368);
    figure(&joint.tightest, "pressure", 303.0204);
    figure(&joint.tightest, "press force", 54833.3);
    figure(&joint.tightest, "hub equivalent stress", 658.279);
    figure(&joint.tightest, "hub yield margin", 1.063379);
    figure(&joint.tightest, "shaft equivalent stress", 303.0204);
    figure(&joint.tightest, "shaft yield margin", 1.023034);
}

#[test]
fn the_gauges_of_the_demo_are_as_worked_by_hand() {
    let sheet = sheet(DEMO);
    // ASME B89.1.5, 0.010 to 0.825 in: 5 percent of 0.11 mm is 0.0055 mm = 216 µin, so ZZ, 200 µin = 0.00508 mm.
    // 5 percent of 0.013 mm is 0.00065 mm = 25.6 µin, so XX, 20 µin = 0.000508 mm.
    let lines: Vec<_> = sheet.gauges.iter().map(|g| (&*g.class, &*g.go, &*g.no_go)).collect();
    assert_eq!(
        lines,
        [
            ("ZZ", "16.99492..17 mm", "16.89..16.89508 mm"),
            ("XX", "19.918..19.918508 mm", "19.930492..19.931 mm"),
        ]
    );
}

const INCH_DEMO: &str = include_str!("../examples/plans/jig_rest_pin.json");

#[test]
fn the_inch_demo_is_as_worked_by_hand() {
    let sheet = sheet(INCH_DEMO);
    // The chip of the drill is found, .004 / 2 · sin 59° = .00171 of at least .05 mm = .00197, and the estimate: the
    // bar, .498 to .500, .0005 out of form, keeps the envelope of .501.
    let found: Vec<_> = sheet.findings.iter().map(|f| (f.code, &*f.place)).collect();
    assert_eq!(found, [("outside_source", "/operations/5"), ("estimate", "/joint")]);
    // (144 - .5 - 4) / (1.76 + .03125 + .042) = 139.5 / 1.83325 = 76.09; 60 / 76.
    assert_eq!((sheet.bar.parts_per_bar, sheet.bar.bars), (Some(76), Some(1)));
    let [saw, _, knurl, mill, ..] = &sheet.operations[..] else { panic!("six operations") };
    // π / 4 · .5² = .1963495; over 2 in²/min.
    figure(&saw.figures, "cutting time", 0.0981748);
    // π · .5 · 500 / 12; π · .499 / .0327; 48 · .0327 / π; .5 + .0327 / 2.
    figure(&knurl.figures, "surface speed", 65.4498);
    figure(&knurl.figures, "teeth on the blank", 47.9406);
    figure(&knurl.figures, "blank for whole teeth", 0.499619);
    figure(&knurl.figures, "diameter, greatest", 0.51635);
    // π · .375 · 1050 / 12; 6.3 / (4 · 1050). One flat: .5 - .437 = .063 deep, 2 · √(.063 · .437) wide.
    figure(&mill.figures, "surface speed", 103.0835);
    figure(&mill.figures, "chip load", 0.0015);
    figure(&mill.figures, "width of a flat", 0.331849);
    // 5 lbf·ft = 60 lbf·in; 60 / (.2 · .25).
    figure(&mill.figures, "screw preload", 1200.0);
}

#[test]
fn a_knurled_joint_is_an_estimate() {
    let sheet = sheet(INCH_DEMO);
    let joint = sheet.joint.as_ref().unwrap();
    assert_eq!(joint.kind, "knurled");
    // The hole of FN2 is .500 to .5007 from .40 to .71 in: ASME B4.1. .504 - .5007 and .512 - .500.
    assert_eq!(
        (&*joint.bore, joint.bore_designation.as_deref()),
        ("0.5..0.5007 in", Some("0.5 in FN2 hole"))
    );
    assert_eq!([&*joint.least_interference, &*joint.greatest_interference], ["0.0033 in", "0.012 in"]);
    // Teeth .0327 / 2 = .01635 high: (.00165 / .0147)² and (.006 / .01035)².
    figure(&joint.loosest, "fill of the grooves", 0.0125989);
    figure(&joint.tightest, "fill of the grooves", 0.336064);
    // 6061-T6 yields at 276 MPa = 40030.4 psi, and by shear at 23111.6; · π · .5 · .75 · .25 / 12.
    figure(&joint.tightest, "torque, at most", 567.240);
    let markdown = sheet.to_markdown(SheetKind::Process).unwrap();
    assert!(markdown.contains("ESTIMATE") && markdown.contains("push-out trial"), "{markdown}");
    assert!(markdown.contains("\n1 bar for 60 parts.\n"), "{markdown}");

    let inch_with = |old: &str, new: &str| replace(INCH_DEMO, old, new);
    // The grooves are full at .512 - .49565 = .01635.
    let bore = |lower: &str| inch_with("1/2 in FN2 hole", &format!("{lower}..0.501 in"));
    assert_eq!(finding(&bore(".49565"), "knurl_overfilled"), Severity::Error);
    assert!(!has(&bore(".49566"), "knurl_overfilled"));
    assert_eq!(finding(&inch_with("\"torque\": 10", "\"torque\": 568"), "joint_slips"), Severity::Error);
    assert!(!has(&inch_with("\"torque\": 10", "\"torque\": 567"), "joint_slips"));
    assert_eq!(finding(&inch_with("\"makes\": [4], ", ""), "not_knurled"), Severity::Error);
    let diamond = inch_with("\"pattern\": \"straight\"", "\"pattern\": \"raised\"");
    assert_eq!(finding(&diamond, "not_knurled"), Severity::Error);
    let loose = inch_with("1/2 in FN2 hole", ".500 +.004/0 in");
    assert_eq!(finding(&loose, "joint_may_be_loose"), Severity::Error);
    let unknown = inch_with("{\"designation\": \"6061-T6\"}", "{\"modulus\": \"69 GPa\", \"poisson\": 0.33}");
    assert_eq!(finding(&unknown, "yield_unknown"), Severity::Warning);
    fault(&inch_with("\"kind\": \"knurled\"", "\"kind\": \"knurly\""), "/joint/kind", "knurled");
}

#[test]
fn the_sheet_shows_designations_beside_limits() {
    let (metric, inch) = (sheet(DEMO), sheet(INCH_DEMO));
    let axle = &metric.characteristics[1];
    assert_eq!((&*axle.limits, axle.designation.as_deref()), ("19.948..20 mm", Some("20 h9")));
    assert_eq!(metric.characteristics[0].designation, None);
    assert_eq!(metric.bar.designation.as_deref(), Some("20 h8"));
    let markdown = metric.to_markdown(SheetKind::Process).unwrap();
    for text in
        ["| 19.948..20 mm (20 h9) ", "19.967..20 mm (20 h8), 3000 mm long", "19.918..19.931 mm (20 Z6). "]
    {
        assert!(markdown.contains(text), "{text}: {markdown}");
    }
    assert!(
        inch.to_markdown(SheetKind::Process)
            .unwrap()
            .contains("The bore is 0.5..0.5007 in (0.5 in FN2 hole).")
    );
    assert!(inch.to_json().contains("\"bore_designation\":\"0.5 in FN2 hole\""));
    let fits = "ASME B4.1-1967 (figures from reprints, in part from memory)";
    assert_eq!(inch.stamp.tables, ["ASME B89.1.5-1998 (figures from reprints)", fits]);
    fault(&replace(INCH_DEMO, "1/2 in FN2 hole", "30 in FN2 hole"), "/joint/bore", "up to 19.69 in");
}

#[test]
fn the_stamp_names_the_input() {
    let sheet = sheet(DEMO);
    assert_eq!(sheet.stamp.sha256.len(), 64);
    assert_ne!(sheet.stamp.sha256, self::sheet(&format!("{DEMO} ")).stamp.sha256);
    let fits = "ISO 286:2010 (figures from reprints, in part from memory)";
    assert_eq!(sheet.stamp.tables, ["ASME B89.1.5-1998 (figures from reprints)", fits]);
    let json: serde_json::Value = serde_json::from_str(&sheet.to_json()).unwrap();
    assert_eq!(json["units"], "metric");
    let markdown = sheet.to_markdown(SheetKind::Process).unwrap();
    assert!(markdown.contains("19 parts from a bar"));
    // A table is as wide as its texts, and all else fits a terminal.
    assert!(markdown.lines().all(|line| line.starts_with('|') || line.chars().count() <= 100));
    assert!(!markdown.contains("before plating"));
}

/// A document with one piece of its text replaced.
#[track_caller]
fn replace(document: &str, old: &str, new: &str) -> String {
    assert_eq!(document.matches(old).count(), 1, "{old}");
    document.replace(old, new)
}

/// The demo with one piece of its text replaced.
#[track_caller]
fn with(old: &str, new: &str) -> String {
    replace(DEMO, old, new)
}

fn has(text: &str, code: &str) -> bool {
    sheet(text).findings.iter().any(|f| f.code == code)
}

#[track_caller]
fn finding(text: &str, code: &str) -> Severity {
    let sheet = sheet(text);
    let finding = sheet.findings.iter().find(|f| f.code == code);
    finding.unwrap_or_else(|| panic!("no {code} among {:?}", sheet.findings)).severity
}

#[test]
fn what_is_wrong_for_the_job_is_found() {
    assert_eq!(finding(DEMO, "outside_recommendation"), Severity::Warning);
    assert_eq!(finding(&with("\"depth\": 12", "\"depth\": 10"), "seat_too_shallow"), Severity::Error);
    assert_eq!(finding(&with("20 Z6", "19.97 +0.01/0 mm"), "joint_may_be_loose"), Severity::Error);
    assert_eq!(
        finding(&with("\"yield_strength\": 700", "\"yield_strength\": 600"), "joint_yields"),
        Severity::Error
    );
    assert_eq!(finding(&with("\"torque\": 25", "\"torque\": 39"), "joint_slips"), Severity::Error);
    assert_eq!(
        finding(&with("60000 N", "52 000 N").replace("52 000", "52000"), "press_too_weak"),
        Severity::Error
    );
    assert_eq!(finding(&with("20 h8", "20 +0/-0.053 mm"), "not_made"), Severity::Error);
    assert_eq!(finding(&with("\"makes\": [3], ", ""), "not_made"), Severity::Error);
    assert_eq!(finding(&with("17 +0/-0.11 mm", "17 +0/-0.001 mm"), "no_gauge"), Severity::Warning);
    assert_eq!(finding(&with("\"3000 mm\"", "200"), "bar_too_short"), Severity::Error);
    // π · 19.967 = 62.73 to π · 20 = 62.83 teeth: none is whole. From 20.0535 mm on, 63 are.
    assert_eq!(finding(DEMO, "knurl_may_not_track"), Severity::Note);
    let blank = "\"pitch\": 1, \"blank\": \"20.05..20.06 mm\",";
    assert!(!has(&with("\"pitch\": 1,", blank), "knurl_may_not_track"));
    // The smallest bar grows to 19.967 + 0.5 = 20.467; the largest is 20 before it grows.
    assert_eq!(finding(&with("19.9..20.6", "20.468..20.6"), "knurl_out_of_reach"), Severity::Error);
    assert_eq!(finding(&with("19.9..20.6", "19.9..19.999"), "knurl_out_of_reach"), Severity::Error);
    assert!(!has(&with("19.9..20.6", "20.467..20.6"), "knurl_out_of_reach"));
    // From 20 to 17 at most, (20 - 17) / 2 = 1.5 a side.
    let depth = "\"axial_depth\": 1.5275";
    assert!(!has(&with(depth, "\"axial_depth\": 1.5"), "cut_too_shallow"));
    assert_eq!(finding(&with(depth, "\"axial_depth\": 1.499"), "cut_too_shallow"), Severity::Error);
    assert!(!has(&with(depth, "\"axial_depth\": 0.75, \"passes\": 2"), "cut_too_shallow"));
    // From 20 to 16 at most, 2 on the radius; feed marks of 0.3²/ (32 · 0.8) = 3.516 µm on a surface of 3.2.
    assert_eq!(finding(&with("\"depth\": 1,", "\"depth\": 0.999,"), "cut_too_shallow"), Severity::Error);
    assert_eq!(
        finding(&with("\"feed_per_revolution\": 0.2", "\"feed_per_revolution\": 0.3"), "finish_too_rough"),
        Severity::Error
    );
    let weak = with("0.2, \"motor_power\": 5.5", "0.2, \"motor_power\": 1");
    assert_eq!(finding(&weak, "motor_too_weak"), Severity::Error);
    assert!(!has(&weak.replace("\"motor_power\": 1,", "\"motor_power\": 1.01,"), "motor_too_weak"));
    assert_eq!(finding(&with("\"diameter\": 5,", "\"diameter\": 4.9,"), "drill_off_size"), Severity::Error);
    // (6 - 4.9) / 1.299038 = 84.7 percent, and with 4.8 mm 92.4; with 5.4 mm 46.2.
    for (hole, found) in [("4.9", false), ("4.8", true), ("5.4", true)] {
        let hole = format!("\"hole_diameter\": {hole}");
        assert_eq!(has(&with("\"hole_diameter\": 5", &hole), "percent_thread"), found, "{hole}");
    }
    // What depends on the force is not told of a material that none is known of.
    let own = with("{\"designation\": \"SAE 1045\"}", "{\"modulus\": 205, \"poisson\": 0.29}");
    let figures = &sheet(&own).operations[4].figures;
    assert!(figures.get("removal_rate").is_some() && figures.get("motor_power").is_none(), "{figures:?}");
    // The source of the growth speaks of 70 to 105 degrees.
    assert_eq!(
        finding(&with("\"pitch\": 1,", "\"pitch\": 1, \"profile_angle\": 60,"), "outside_source"),
        Severity::Warning
    );
    let plated =
        "\"limits\": \"20 h9\", \"plating\": {\"name\": \"zinc\", \"thickness\": \"0.005..0.04 mm\"}";
    assert_eq!(finding(&with("\"limits\": \"20 h9\"", plated), "plating_scatter"), Severity::Error);
}

/// The places and messages of the faults of a document.
fn faults(text: &str) -> Vec<(String, String)> {
    let error = match Plan::from_json(text) {
        Ok(plan) => plan.evaluate().expect_err("a fault"),
        Err(error) => error,
    };
    error.faults().iter().map(|f| (f.place.clone(), f.message.clone())).collect()
}

#[track_caller]
fn fault(text: &str, place: &str, words: &str) {
    let faults = faults(text);
    let found = faults.iter().any(|(at, message)| at == place && message.contains(words));
    assert!(found, "no `{words}` at {place} among {faults:#?}");
}

#[test]
fn every_bad_document_has_a_clear_error_with_its_place() {
    fault(&with("\"quantity\": 250", "\"quantity\": 250, \"qantity\": 1"), "/part/qantity", "quantity");
    fault(&with("\"quantity\": 250", "\"quantity\": 250, \"quantity\": 251"), "/part/quantity", "");
    fault(&with("\"148 ±0.3 mm\"", "\"148 ±0.3\""), "/characteristics/0/limits", "needs a unit");
    fault(&with("60000 N", "60000"), "/operations/8/capacity", "needs a unit");
    fault(&with("\"diameter\": 16", "\"diameter\": -16"), "/operations/2/tool/diameter", "-16");
    fault(&with("\"across\": 3", "\"across\": 33"), "/operations/2/across", "33");
    fault(
        &with("\"hub_outer_diameter\": 45", "\"hub_outer_diameter\": 15"),
        "/joint/hub_outer_diameter",
        "15 mm",
    );
    fault(&with("\"units\": \"metric\",", ""), "/units", "");
    fault(&with("\"teeth\": 4", "\"teeth\": \"four\""), "/operations/2/tool/teeth", "");
    fault(&with("\"deburr\", \"tool\": \"a file\",", "\"debur\","), "/operations/1/kind", "deburr");
    fault(&with("M6-6H\", \"hole", "M6-6g\", \"hole"), "/operations/6/thread", "external thread");
    fault(&with("M6-6H\", \"hole", "M6\", \"hole"), "/operations/6/thread", "tolerance class");
    fault(
        &with("\"nose_radius\": 0.8", "\"nose_radius\": 0.09"),
        "/operations/4/feed_per_revolution",
        "twice",
    );
    fault(&with("\"depth\": 1,", "\"depth\": 11,"), "/operations/4", "at most half");
    let error = Plan::from_json("{\"tenths_plan\": 1,\n oops").unwrap_err();
    assert_eq!(error.faults()[0].line_and_column.map(|at| at.0), Some(2));
    fault(&"[".repeat(100_000), "", "");
    fault("{}", "/units", "");
}

#[test]
fn every_operation_shows_what_is_to_be_set() {
    let sheet = sheet(DEMO);
    let [saw, _, mill, knurl, turn, drill, tap, _, press, _] = &sheet.operations[..] else { panic!("ten") };
    // 148 ±0.3, and nothing for facing.
    figure(&saw.figures, "sawn length, least", 147.7);
    figure(&saw.figures, "sawn length, greatest", 148.3);
    figure(&mill.figures, "spindle speed", 1500.0);
    figure(&mill.figures, "feed rate", 300.0);
    figure(&mill.figures, "depth of a pass", 1.5275);
    figure(&mill.figures, "passes for a flat", 1.0);
    // 20 - 2 · 1.5275.
    figure(&mill.figures, "finish across, from that bar", 16.945);
    figure(&knurl.figures, "spindle speed", 300.0);
    figure(&knurl.figures, "blank, least", 19.967);
    figure(&turn.figures, "spindle speed", 1800.0);
    figure(&turn.figures, "start diameter", 20.0);
    // 20 - 2 · 2 · 1.
    figure(&turn.figures, "finish diameter", 16.0);
    figure(&drill.figures, "hole diameter", 5.0);
    figure(&drill.figures, "depth at full diameter", 16.0);
    figure(&tap.figures, "spindle speed, in", 500.0);
    figure(&tap.figures, "travel", 15.0);
    figure(&press.figures, "force of the press, at most", 60000.0);
    let judged: Vec<_> = turn.figures.iter().filter_map(|one| one.judged.map(|_| &*one.name)).collect();
    assert_eq!(judged, ["feed per revolution", "surface speed"]);
    let face = &self::sheet(INCH_DEMO).operations[4];
    // Two of 1/64 in; from the bar to the centre.
    figure(&face.figures, "taken off the length", 0.03125);
    figure(&face.figures, "start diameter", 0.5);
    figure(&face.figures, "end diameter", 0.0);
    for kind in ["saw", "mill_flats", "knurl", "turn", "drill", "tap"] {
        assert!(
            sheet
                .operations
                .iter()
                .any(|one| one.kind == kind && one.figures.iter().filter(|one| one.set).count() > 4),
            "{kind}"
        );
    }
    let markdown = sheet.to_markdown(SheetKind::Process).unwrap();
    for text in
        ["| spindle speed       | 1800  | rev/min |", "| 5   | spigot         | 15.9..16 mm | 3.2 µm      |"]
    {
        assert!(markdown.contains(text), "{text}: {markdown}");
    }
}

#[test]
fn roughness_and_deviation_of_form_stand_in_the_list() {
    let axle = &sheet(DEMO).characteristics[1];
    assert_eq!(
        [&axle.roughness, &axle.form_deviation].map(Option::as_deref),
        [Some("1.6 µm"), Some("0.05 mm")]
    );
    assert_eq!(sheet(INCH_DEMO).characteristics[1].roughness.as_deref(), Some("32 µin"));
    assert!(
        sheet(DEMO)
            .to_markdown(SheetKind::Process)
            .unwrap()
            .contains("| Ra, at most | form deviation, at most |")
    );
    assert!(!sheet(INCH_DEMO).to_markdown(SheetKind::Process).unwrap().contains("form deviation, at most"));
}

#[test]
fn findings_name_the_operation_as_the_sheet_numbers_it() {
    let axle = sheet(DEMO);
    let markdown = axle.to_markdown(SheetKind::Process).unwrap();
    for text in [
        "- **Warning.** Operation 40, Knurl (`/operations/3/spindle_speed`): surface speed",
        "- **Warning.** Operation 60, Drill (`/operations/5`): chip thickness is 0.04286 mm",
        "- **Note.** Material (`/material`): ",
    ] {
        assert!(markdown.contains(text), "{text}: {markdown}");
    }
    let words = |sheet: &Sheet| sheet.findings.iter().map(|one| one.message.clone()).collect::<String>();
    assert!(!words(&axle).contains('_'), "{}", words(&axle));
    let pin = sheet(INCH_DEMO);
    assert!(
        !words(&pin).contains('_')
            && pin.to_markdown(SheetKind::Process).unwrap().contains("Joint (`/joint`): "),
        "{}",
        words(&pin)
    );
    let flats = sheet(&with("\"axial_depth\": 1.5275", "\"axial_depth\": 1.4"))
        .to_markdown(SheetKind::Process)
        .unwrap();
    assert!(flats.contains("Operation 30, Mill flats (`/operations/2/axial_depth`): "), "{flats}");
    let unmade = sheet(&with("\"makes\": [3], ", "")).to_markdown(SheetKind::Process).unwrap();
    assert!(unmade.contains("No. 3, spanner flats (`/characteristics/2`): "), "{unmade}");
}

#[test]
fn cautions_stand_at_the_operation_that_needs_them_and_only_there() {
    let with_caution = |text: &str, words: &str| -> Vec<String> {
        let all = sheet(text).operations;
        let has = |one: &&tenths::plan::OperationLines| one.cautions.iter().any(|c| c.contains(words));
        all.iter().filter(has).map(|one| one.kind.to_string()).collect()
    };
    assert_eq!(with_caution(DEMO, "licensed engineer"), ["press"]);
    assert_eq!(with_caution(DEMO, "preload"), ["mill_flats"]);
    assert_eq!(with_caution(DEMO, "chuck"), ["knurl", "turn"]);
    assert_eq!(with_caution(DEMO, "growth"), ["knurl"]);
    let copper = DEMO.replace("SAE 1045", "C17200");
    let cut = ["saw", "deburr", "mill_flats", "turn", "drill", "tap", "deburr"];
    assert_eq!(with_caution(&copper, "beryllium"), cut);
    assert!(with_caution(DEMO, "beryllium").is_empty());
    assert!(
        sheet(&copper)
            .to_markdown(SheetKind::Process)
            .unwrap()
            .contains("- **Caution.** C17200, TF00 aged: dust and fume of beryllium")
    );
    // What is said of the whole sheet, and of a joint that no operation presses.
    assert_eq!(sheet(DEMO).cautions.len(), 1);
    let unpressed = with("{\"kind\": \"press\", \"capacity\": \"60000 N\", \"time\": 0.6},", "");
    assert!(sheet(&unpressed).cautions[1].contains("licensed engineer"));
}

#[test]
fn settings_are_followed_where_numbers_vary() {
    use tenths::stack::{Distribution, Input, Sampling};
    let plan = Plan::from_json(DEMO).unwrap();
    let speed =
        Input::new("/operations/4/spindle_speed", 1800.0, 50.0, -50.0).distribution(Distribution::Uniform);
    let spread = plan
        .propagate(&[speed], &Sampling::new(1000, 1), &["/operations/4/figures/spindle_speed/value"])
        .unwrap();
    let mean = spread.outputs[0].spread.as_ref().unwrap().mean;
    assert!((mean - 1800.0).abs() < 10.0, "{mean}");
}

#[test]
fn numbers_are_quoted_as_they_were_given() {
    // 2^53 + 1 is no float: its nearest ones are 2^53 and 2^53 + 2.
    let long = "9007199254740993";
    let told = format!("not {long}");
    fault(&with("\"quantity\": 250", &format!("\"quantity\": {long}")), "/part/quantity", &told);
    fault(&with("\"tenths_plan\": 1", &format!("\"tenths_plan\": {long}")), "/tenths_plan", &told);
    fault(&with("\"number\": 7", &format!("\"number\": {long}")), "/characteristics/6/number", &told);
    fault(&with("\"kerf\": 1.6", &format!("\"kerf\": {long}")), "/operations/0/kerf", &format!("`{long}`"));
    let below = format!("not -{long} rev/min");
    let speed = format!("\"spindle_speed\": -{long}, \"feed_rate\": 300");
    let text = with("\"spindle_speed\": 1500, \"feed_rate\": 300", &speed);
    fault(&text, "/operations/2/spindle_speed", &below);
    let longer = with("\"quantity\": 250", "\"quantity\": 18446744073709551617");
    fault(&longer, "/part/quantity", "not about 1.8446744073709552e19");
}

#[test]
fn a_byte_order_mark_is_read_over() {
    let marked = sheet(&format!("\u{feff}{DEMO}"));
    assert_eq!(Sheet { stamp: sheet(DEMO).stamp, ..marked }, sheet(DEMO));
}

#[test]
fn all_faults_are_told_at_once() {
    let text = with("\"diameter\": 16", "\"diameter\": -16")
        .replace("60000 N", "60000")
        .replace("\"across\": 3", "\"across\": 9");
    assert_eq!(faults(&text).len(), 3, "{:#?}", faults(&text));
}

#[test]
fn formulas_without_an_answer_are_told_at_once() {
    // Both overflow, in operations of their own.
    let text = with("\"torque\": 15", "\"torque\": 1e308")
        .replace("\"travel\": 30", "\"travel\": 1e308")
        .replace("\"feed_rate\": 60", "\"feed_rate\": 1e-10");
    let error = Plan::from_json(&text).unwrap().evaluate().unwrap_err();
    let places: Vec<_> = error.faults().iter().map(|f| &*f.place).collect();
    assert_eq!(places, ["/operations/2/seat/screw", "/operations/3"]);
}

#[test]
fn operations_have_the_numbers_of_the_shop_and_what_all_kinds_have() {
    let common = r#""number": 15, "reason": "while the end is open", "machine": "lathe 2", "station": "turret 4", "setup": "0.5 h", "scrap": 0.02, "kind": "turn""#;
    let text = with("\"kind\": \"turn\"", common);
    fault(&text, "/operations/4/number", "15 comes after 40; expected e.g. 50");
    let text = text.replace("\"number\": 15", "\"number\": 45");
    let sheet = sheet(&text);
    let turn = &sheet.operations[4];
    assert_eq!((turn.number, turn.setup, turn.scrap), (45, 30.0, 0.02));
    let texts = [&turn.reason, &turn.machine, &turn.station].map(Option::as_deref);
    assert_eq!(texts, [Some("while the end is open"), Some("lathe 2"), Some("turret 4")]);
    // Those without a number have 10 times their place, and the drawing names the operation by it.
    let numbers: Vec<_> = sheet.operations.iter().map(|one| one.number).collect();
    assert_eq!(numbers, [10, 20, 30, 40, 45, 60, 70, 80, 90, 100]);
    assert_eq!(sheet.characteristics[4].made_by, [45]);
    let json: serde_json::Value = serde_json::from_str(&sheet.to_json()).unwrap();
    assert_eq!(json["operations"][4]["machine"], "lathe 2");
    assert_eq!(json["operations"][3]["machine"], serde_json::Value::Null);
    // A number that all others have to follow, one that is given twice, and a share that leaves no part.
    let twice = text.replace("\"number\": 45", "\"number\": 40");
    fault(&twice, "/operations/4/number", "must rise");
    fault(&text.replace("\"number\": 45", "\"number\": 60"), "/operations/5/number", "10 times the place");
    fault(&text.replace("0.02", "1"), "/operations/4/scrap", "less than 1");
    fault(&text.replace("\"0.5 h\"", "-1"), "/operations/4/setup", "-1 min");
    fault(&text.replace("\"machine\"", "\"machin\""), "/operations/4/machin", "did you mean `machine`");
}

//! The demos with one fault put in at a time: each has its finding, and the demos as they are have no error.
use serde_json::{Value, json};
use tenths::plan::Sheet;
use tenths::{Plan, Severity, SheetKind};

use Severity::{Error, Note, Warning};

const AXLE: &str = include_str!("../examples/plans/roller_axle.json");
const PIN: &str = include_str!("../examples/plans/jig_rest_pin.json");

/// A change of a document.
enum Edit {
    /// Puts a value at a pointer, there before or not.
    Set(&'static str, Value),
    Remove(&'static str),
    /// Moves an operation to another place in the order.
    Move(usize, usize),
    /// Puts a copy of an operation behind it.
    Repeat(usize),
    All(Vec<Edit>),
}

use Edit::{All, Move, Remove, Repeat, Set};

fn apply(document: &mut Value, edit: &Edit) {
    match edit {
        Set(pointer, value) => {
            let (above, name) = pointer.rsplit_once('/').unwrap();
            match document.pointer_mut(above).unwrap() {
                Value::Object(fields) => drop(fields.insert(name.into(), value.clone())),
                list => list[name.parse::<usize>().unwrap()] = value.clone(),
            }
        }
        Remove(pointer) => {
            let (above, name) = pointer.rsplit_once('/').unwrap();
            match document.pointer_mut(above).unwrap() {
                Value::Object(fields) => drop(fields.remove(name).unwrap()),
                list => drop(list.as_array_mut().unwrap().remove(name.parse().unwrap())),
            }
        }
        Move(from, to) => {
            let operations = document["operations"].as_array_mut().unwrap();
            let operation = operations.remove(*from);
            operations.insert(*to, operation);
        }
        Repeat(index) => {
            let operations = document["operations"].as_array_mut().unwrap();
            operations.insert(index + 1, operations[*index].clone());
        }
        All(edits) => edits.iter().for_each(|edit| apply(document, edit)),
    }
}

fn edited(demo: &str, edit: &Edit) -> Sheet {
    let mut document: Value = serde_json::from_str(demo).unwrap();
    // Numbers must rise; without them operations that are moved have those of their places.
    for operation in document["operations"].as_array_mut().unwrap() {
        operation.as_object_mut().unwrap().remove("number");
    }
    apply(&mut document, edit);
    Plan::from_json(&document.to_string()).unwrap().evaluate().unwrap()
}

/// Checks that each edit gives its finding, and that the demo has none of the kind there.
#[track_caller]
fn found(demo: &str, edits: Vec<(Edit, &str, Severity, &str)>) {
    let sound = Plan::from_json(demo).unwrap().evaluate().unwrap();
    for (edit, code, severity, place) in edits {
        assert!(
            !sound.findings.iter().any(|one| one.code == code && one.place == place),
            "the demo has {code} at {place}"
        );
        let sheet = edited(demo, &edit);
        let one = sheet.findings.iter().find(|one| one.code == code && one.place == place);
        let one = one.unwrap_or_else(|| panic!("no {code} at {place}: {:#?}", sheet.findings));
        assert_eq!(one.severity, severity, "{one:?}");
        assert!(one.message.len() > 10 && one.remedy.len() > 10, "{one:?}");
    }
}

/// Checks that an edit leaves a demo without errors.
#[track_caller]
fn sound(demo: &str, edit: Edit) {
    let findings = edited(demo, &edit).findings;
    let errors: Vec<_> = findings.iter().filter(|one| one.severity == Error).collect();
    assert!(errors.is_empty(), "{errors:#?}");
}

fn deburr() -> Value {
    json!({"kind": "deburr", "time": 0.1})
}

#[test]
fn the_demos_as_they_are_have_no_error_and_only_these_findings() {
    let findings = |demo| {
        let sheet = Plan::from_json(demo).unwrap().evaluate().unwrap();
        sheet.findings.into_iter().map(|one| (one.severity, one.code, one.place)).collect::<Vec<_>>()
    };
    let expected = |list: &[(Severity, &'static str, &str)]| {
        list.iter().map(|&(severity, code, place)| (severity, code, place.to_string())).collect::<Vec<_>>()
    };
    assert_eq!(
        findings(AXLE),
        expected(&[
            (Warning, "freedom_left", "/operations/2/holding/locators"),
            (Warning, "outside_recommendation", "/operations/3/spindle_speed"),
            (Warning, "outside_source", "/operations/5"),
            (Note, "knurl_may_not_track", "/operations/3"),
            (Note, "roughness_assumed", "/joint/shaft_roughness"),
            (Note, "typical_strength", "/material"),
        ])
    );
    assert_eq!(
        findings(PIN),
        expected(&[(Warning, "outside_source", "/operations/5"), (Warning, "estimate", "/joint")])
    );
}

#[test]
fn cuts_that_leave_a_wrong_size_are_found() {
    found(
        AXLE,
        vec![
            // 20 - 2 · 3 · 5 = -10; 20 - 2 · 2 · 1.5 = 14 for 15.9 to 16; 20 - 60.
            (
                All(vec![Set("/operations/4/depth", json!(5)), Set("/operations/4/passes", json!(3))]),
                "cut_past_centre",
                Error,
                "/operations/4/depth",
            ),
            (Set("/operations/4/depth", json!(1.5)), "cut_too_deep", Error, "/operations/4/depth"),
            (Set("/operations/4/passes", json!(30)), "cut_past_centre", Error, "/operations/4/depth"),
            (Set("/operations/4/passes", json!(u32::MAX)), "cut_past_centre", Error, "/operations/4/depth"),
            (Set("/operations/4/depth", json!(0.9)), "cut_too_shallow", Error, "/operations/4/depth"),
            (Set("/operations/4/depth", json!(1.0251)), "cut_too_deep", Error, "/operations/4/depth"),
            (
                Set("/characteristics/4/limits", json!("25 +0/-0.1 mm")),
                "stock_too_small",
                Error,
                "/operations/4/depth",
            ),
            // Zinc of 10 to 20 µm leaves 15.88 to 15.96 to turn to.
            (
                Set(
                    "/characteristics/4/plating",
                    json!({"name": "zinc", "thickness": {"lower": 0.01, "upper": 0.02}}),
                ),
                "cut_too_shallow",
                Error,
                "/operations/4/depth",
            ),
            // 20 - 2 · 9 = 2 for 17; a flat on either side of 11 meets the other.
            (Set("/operations/2/axial_depth", json!(9)), "cut_too_deep", Error, "/operations/2/axial_depth"),
            (
                Set("/operations/2/axial_depth", json!(11)),
                "cut_past_centre",
                Error,
                "/operations/2/axial_depth",
            ),
            (Set("/operations/2/passes", json!(2)), "cut_too_deep", Error, "/operations/2/axial_depth"),
            (
                Set("/characteristics/2/limits", json!("21 +0/-0.11 mm")),
                "stock_too_small",
                Error,
                "/operations/2/axial_depth",
            ),
            // The flat is 10.6 wide.
            (
                All(vec![
                    Set("/operations/2/radial_width", json!(9)),
                    Set("/operations/2/travel", json!(10)),
                ]),
                "flat_not_covered",
                Error,
                "/operations/2/radial_width",
            ),
            // The depth then counts from the faces, the seat is one for round bars, and eight flats find no faces.
            (Set("/bar/form", json!("square")), "flats_on_faces", Note, "/operations/2/flats"),
            (Set("/bar/form", json!("hexagon")), "seat_for_round_bar", Warning, "/operations/2/seat"),
            (
                All(vec![Set("/bar/form", json!("hexagon")), Set("/operations/2/flats", json!(8))]),
                "more_flats_than_faces",
                Error,
                "/operations/2/flats",
            ),
            // 148.3 + 0.5 stays as it is sawn.
            (
                Set("/operations/0/facing_allowance", json!(0.5)),
                "not_faced",
                Error,
                "/operations/0/facing_allowance",
            ),
        ],
    );
    found(
        PIN,
        vec![
            // Two passes of 1/64 in take off the 1/32 in that the saw leaves on.
            (Set("/operations/4/passes", json!(1)), "cut_too_shallow", Error, "/operations/4/depth"),
            (Set("/operations/4/passes", json!(4)), "cut_too_deep", Error, "/operations/4/depth"),
            (Set("/operations/4/passes", json!(900)), "cut_too_deep", Error, "/operations/4/depth"),
            (Remove("/operations/4"), "not_faced", Error, "/operations/0/facing_allowance"),
            (
                Set("/operations/4/inner_diameter", json!(0.5)),
                "cuts_nothing",
                Error,
                "/operations/4/inner_diameter",
            ),
            // A single flat goes past the middle and leaves less; past the far side nothing is left.
            (
                Set("/operations/3/axial_depth", json!(0.3)),
                "cut_too_deep",
                Error,
                "/operations/3/axial_depth",
            ),
            (
                Set("/operations/3/axial_depth", json!(0.5)),
                "cut_past_centre",
                Error,
                "/operations/3/axial_depth",
            ),
        ],
    );
    let message = |edit| {
        let findings = edited(AXLE, &edit).findings;
        findings.into_iter().find(|one| one.code.starts_with("cut_")).unwrap().message
    };
    assert_eq!(
        message(Set("/operations/4/depth", json!(0.9))),
        "the passes leave a diameter of 16.4 mm, over the limits of number 5, 15.9..16 mm"
    );
    assert_eq!(
        message(Set("/operations/4/depth", json!(1.5))),
        "the passes leave a diameter of 14 mm, under the limits of number 5, 15.9..16 mm"
    );
    sound(AXLE, Set("/operations/4/depth", json!(1.025)));
}

#[test]
fn cuts_beyond_the_bar_or_the_part_are_found() {
    found(
        AXLE,
        vec![
            (Set("/operations/5/depth", json!(400)), "beyond_part", Error, "/operations/5/depth"),
            (Set("/operations/4/travel", json!(400)), "beyond_part", Error, "/operations/4/travel"),
            (Set("/operations/3/travel", json!(400)), "beyond_part", Error, "/operations/3/travel"),
            (Set("/operations/2/travel", json!(400)), "beyond_part", Error, "/operations/2/travel"),
            (Set("/operations/6/travel", json!(400)), "beyond_part", Error, "/operations/6/travel"),
            (Set("/joint/length", json!(400)), "beyond_part", Error, "/joint/length"),
            (
                Set("/operations/5/tool/diameter", json!(20)),
                "drill_too_large",
                Error,
                "/operations/5/tool/diameter",
            ),
            (
                All(vec![Move(3, 4), Set("/operations/3/diameter", json!(25))]),
                "larger_than_bar",
                Error,
                "/operations/3/diameter",
            ),
            (
                Set("/operations/3/blank", json!("24.9..25 mm")),
                "larger_than_bar",
                Error,
                "/operations/3/blank",
            ),
        ],
    );
    // A pass along the whole part starts and ends outside; a hole may go through.
    sound(AXLE, Set("/operations/3/travel", json!(160)));
    sound(
        AXLE,
        All(vec![Set("/operations/5/depth", json!(148)), Set("/operations/5/breakthrough", json!(1))]),
    );
}

#[test]
fn holes_that_do_not_suit_their_tap_are_found() {
    found(
        AXLE,
        vec![
            (Set("/operations/6/travel", json!(100)), "tap_too_deep", Error, "/operations/6/travel"),
            (
                All(vec![
                    Set("/operations/6/travel", json!(100)),
                    Set("/operations/5/breakthrough", json!(2)),
                ]),
                "tap_too_deep",
                Warning,
                "/operations/6/travel",
            ),
            (Set("/operations/6/travel", json!(11)), "thread_too_shallow", Error, "/operations/6/travel"),
            (
                All(vec![Set("/operations/5/depth", json!(11.9)), Set("/operations/6/travel", json!(14))]),
                "thread_too_shallow",
                Error,
                "/operations/6/makes",
            ),
            (Move(6, 5), "tap_without_hole", Error, "/operations/5"),
            (Remove("/operations/5"), "tap_without_hole", Error, "/operations/5"),
            (
                Set("/operations/6/hole_diameter", json!(4.2)),
                "hole_not_drilled",
                Error,
                "/operations/6/hole_diameter",
            ),
            (
                Set("/operations/6/hole_diameter", json!(4.2)),
                "hole_off_size",
                Error,
                "/operations/6/hole_diameter",
            ),
            (
                Set("/operations/6/hole_diameter", json!(5.16)),
                "hole_off_size",
                Error,
                "/operations/6/hole_diameter",
            ),
            (Set("/operations/6/holes", json!(4)), "too_few_holes", Error, "/operations/6/holes"),
            (Set("/operations/5/makes", json!([6, 7])), "drill_off_depth", Error, "/operations/5/depth"),
            (
                Set("/operations/5/tool/diameter", json!(4.9)),
                "drill_off_size",
                Error,
                "/operations/5/tool/diameter",
            ),
        ],
    );
    found(
        PIN,
        vec![
            (Set("/operations/6/travel", json!(2)), "tap_too_deep", Error, "/operations/6/travel"),
            (
                Set("/operations/6/hole_diameter", json!(0.17)),
                "hole_not_drilled",
                Error,
                "/operations/6/hole_diameter",
            ),
            (Move(6, 5), "tap_without_hole", Error, "/operations/5"),
        ],
    );
    // The hole may be stated a little larger than the drill, and be drilled in two operations.
    sound(AXLE, Set("/operations/6/hole_diameter", json!(5.05)));
    sound(
        AXLE,
        All(vec![Repeat(5), Set("/operations/6/makes", json!([])), Set("/operations/7/holes", json!(2))]),
    );
}

#[test]
fn an_order_that_cannot_be_worked_in_is_found() {
    found(
        AXLE,
        vec![
            (Move(2, 0), "before_sawing", Warning, "/operations/0"),
            (Move(8, 0), "before_sawing", Error, "/operations/0"),
            (Repeat(0), "sawn_twice", Error, "/operations/1"),
            (Remove("/operations/0"), "not_sawn", Warning, "/operations"),
            (Remove("/joint"), "press_without_joint", Error, "/operations/8"),
            (Remove("/operations/8"), "not_pressed", Warning, "/joint"),
            (Repeat(8), "pressed_twice", Error, "/operations/9"),
        ],
    );
    found(
        PIN,
        vec![
            // The knurl is what is pressed in.
            (Move(8, 2), "pressed_before_made", Error, "/operations/2"),
            (Move(3, 0), "before_sawing", Warning, "/operations/0"),
            (Remove("/joint"), "press_without_joint", Error, "/operations/8"),
        ],
    );
}

#[test]
fn burrs_before_gauging_or_pressing_are_found() {
    found(
        AXLE,
        vec![
            // The mill and the drill leave burrs; with no deburring at all, so does the saw.
            (Remove("/operations/7"), "not_deburred", Warning, "/operations/2"),
            (
                All(vec![Remove("/operations/7"), Remove("/operations/1")]),
                "not_deburred",
                Warning,
                "/operations/0",
            ),
            (Move(9, 1), "not_deburred", Warning, "/operations/0"),
            (
                All(vec![Remove("/operations/9"), Remove("/operations/8"), Remove("/operations/7")]),
                "not_deburred",
                Warning,
                "/operations/2",
            ),
        ],
    );
    found(PIN, vec![(Remove("/operations/7"), "not_deburred", Warning, "/operations/3")]);
    sound(AXLE, Set("/operations/1", deburr()));
}

#[test]
fn gaps_of_making_and_inspection_are_found() {
    found(
        AXLE,
        vec![
            (Set("/operations/4/makes", json!([5, 4])), "made_twice", Warning, "/operations/4/makes"),
            (Repeat(4), "made_twice", Warning, "/operations/5/makes"),
            (Set("/operations/4/makes", json!([5, 5])), "made_twice", Warning, "/operations/4/makes"),
            (Remove("/operations/9"), "not_inspected", Warning, "/operations"),
            (
                Set("/operations/9/every", json!(1_000_000)),
                "inspects_no_part",
                Warning,
                "/operations/9/every",
            ),
            (Set("/operations/9/every", json!(251)), "inspects_no_part", Warning, "/operations/9/every"),
            (
                Set("/operations/9/checks", json!([1, 2, 3, 4, 6, 7])),
                "not_inspected",
                Warning,
                "/characteristics/4",
            ),
            (Set("/operations/9/checks", json!([])), "inspects_nothing", Warning, "/operations/9/checks"),
            (Move(9, 2), "inspected_before_made", Error, "/operations/2/checks"),
            (
                All(vec![Repeat(9), Move(9, 2), Set("/operations/2/checks", json!([3, 4, 5, 6]))]),
                "inspected_before_made",
                Warning,
                "/operations/2/checks",
            ),
            // Of a thread that is not cut yet there is nothing to measure, not even once more.
            (
                All(vec![Repeat(9), Move(9, 2), Set("/operations/2/checks", json!([7]))]),
                "inspected_before_made",
                Error,
                "/operations/2/checks",
            ),
        ],
    );
    found(
        PIN,
        vec![
            (Remove("/operations/9"), "not_inspected", Warning, "/operations"),
            (Set("/operations/9/every", json!(61)), "inspects_no_part", Warning, "/operations/9/every"),
            (Set("/operations/9/checks/0", json!(2)), "not_inspected", Warning, "/characteristics/0"),
        ],
    );
    sound(AXLE, Set("/operations/9/every", json!(250)));
}

#[test]
fn characteristics_of_another_kind_are_found() {
    found(
        AXLE,
        vec![
            (Set("/operations/0/cut_length", json!(2)), "wrong_kind", Error, "/operations/0/cut_length"),
            (Set("/operations/2/across", json!(1)), "wrong_kind", Error, "/operations/2/across"),
            (Set("/joint/gauge", json!("ring")), "wrong_gauge", Error, "/joint/gauge"),
            (
                Set("/characteristics/2/gauge", json!("plug")),
                "wrong_gauge",
                Error,
                "/characteristics/2/gauge",
            ),
            (Set("/operations/0/makes", json!([2])), "cannot_make", Error, "/operations/0/makes/0"),
            (Set("/operations/3/makes", json!([4, 1])), "cannot_make", Error, "/operations/3/makes/1"),
            (Set("/operations/4/makes", json!([3])), "cannot_make", Error, "/operations/4/makes/0"),
            (Set("/operations/5/makes", json!([5])), "cannot_make", Error, "/operations/5/makes/0"),
            (Set("/operations/6/makes", json!([1])), "cannot_make", Error, "/operations/6/makes/0"),
        ],
    );
    found(
        PIN,
        vec![
            (Set("/joint/shaft", json!(1)), "wrong_kind", Error, "/joint/shaft"),
            (Set("/operations/4/makes", json!([2])), "cannot_make", Error, "/operations/4/makes/0"),
        ],
    );
    // Parts are counted by a length alone.
    assert_eq!(edited(AXLE, &Set("/operations/0/cut_length", json!(2))).bar.parts_per_bar, None);
}

#[test]
fn the_joint_is_judged_with_roughness_heat_and_speed() {
    found(
        AXLE,
        vec![
            // 0.8 · (4 + 4 · 3.2 µm) leave 3.2 µm of 17, which hold 60 percent of the torque; with the bore at 12.6 µm
            // Rz the loss is 20.3 µm, and nothing is left.
            (Set("/characteristics/1/roughness", json!(3.2)), "joint_slips", Error, "/joint"),
            (
                All(vec![
                    Set("/characteristics/1/roughness", json!(3.2)),
                    Set("/joint/hub_roughness", json!(12.6)),
                ]),
                "joint_may_be_loose",
                Error,
                "/joint/bore",
            ),
            // More than all of the interference: never pressed at all.
            (Set("/joint/shaft_roughness", json!(200)), "joint_may_be_loose", Error, "/joint/bore"),
            (Set("/joint/bore", json!("21 H7")), "joint_may_be_loose", Error, "/joint/bore"),
            // 20 mm · 12.5 µm/K · 50 K are 12.5 µm; a hub that expands less has more to bear.
            (
                All(vec![
                    Set("/joint/hub_material/expansion", json!(24e-6)),
                    Set("/joint/hub_temperature", json!(70)),
                    Set("/joint/shaft_temperature", json!(70)),
                ]),
                "joint_may_be_loose",
                Error,
                "/joint/bore",
            ),
            (Set("/joint/shaft_temperature", json!(300)), "joint_yields", Error, "/joint/hub_material"),
            (Set("/joint/shaft_temperature", json!(300)), "joint_yields", Error, "/material"),
            // The loss is 0.56 nm at 400 rev/min, and rises with the square: 100 times the speed takes 5.6 µm.
            (Set("/joint/rotational_speed", json!(40_000)), "joint_slips", Error, "/joint"),
            // What is left out is said.
            (Remove("/joint/hub_roughness"), "left_out", Note, "/joint/hub_roughness"),
            (Remove("/characteristics/1/roughness"), "left_out", Note, "/joint/shaft_roughness"),
            (
                All(vec![Remove("/joint/hub_temperature"), Remove("/joint/shaft_temperature")]),
                "left_out",
                Note,
                "/joint/hub_temperature",
            ),
            (Remove("/joint/rotational_speed"), "left_out", Note, "/joint/rotational_speed"),
            (Remove("/joint/hub_material/expansion"), "left_out", Warning, "/joint/hub_material"),
            (Remove("/joint/hub_material/density"), "left_out", Warning, "/joint/hub_material"),
        ],
    );
    // A stated Rz is not assumed.
    let stated = edited(AXLE, &Set("/joint/shaft_roughness", json!(6.4)));
    assert!(!stated.findings.iter().any(|one| one.code == "roughness_assumed"));
    let assumed = edited(AXLE, &All(vec![])).joint.unwrap();
    assert_eq!(stated.joint.unwrap().loosest, assumed.loosest);
    // What has been pressed only tightens afterwards.
    let warm = edited(AXLE, &Set("/joint/shaft_temperature", json!(300))).joint.unwrap();
    let press_force = |joint: &tenths::plan::JointLines| {
        joint.tightest.iter().find(|figure| figure.name == "press force").unwrap().value
    };
    assert_eq!(press_force(&warm), press_force(&assumed));
    // One temperature alone says nothing.
    let mut document: Value = serde_json::from_str(AXLE).unwrap();
    apply(&mut document, &Remove("/joint/shaft_temperature"));
    let faults = Plan::from_json(&document.to_string()).unwrap_err();
    assert_eq!(faults.faults()[0].place, "/joint/hub_temperature");
}

#[test]
fn clamps_and_locators_that_hold_too_little_are_found() {
    const CLAMP: &str = "/operations/2/holding/clamp_force";
    found(
        AXLE,
        vec![
            (Set(CLAMP, json!(1500)), "holds_too_little", Error, CLAMP),
            (Set(CLAMP, json!(4000)), "holds_too_little", Warning, CLAMP),
            // The screw gives 9375 N, and 6562.5 N where it scatters low.
            (Set(CLAMP, json!(6563)), "clamp_force_beyond_screw", Warning, CLAMP),
            (
                Set("/operations/4/holding/grip_lost", json!(17500)),
                "holds_too_little",
                Error,
                "/operations/4/holding/clamp_force",
            ),
            (
                Set("/operations/4/holding/overhang", json!(400)),
                "bends_too_far",
                Warning,
                "/operations/4/holding/overhang",
            ),
            (
                Set("/operations/2/holding/locators/4", json!({"x": 60, "y": 0, "z": -10, "k": 1})),
                "too_many_locators",
                Note,
                "/operations/2/holding/locators",
            ),
            (
                Set("/material", json!({"name": "Bronze", "modulus": 110, "poisson": 0.34, "density": 8.8})),
                "holding_not_judged",
                Note,
                "/operations/2/holding",
            ),
        ],
    );
    sound(AXLE, Remove("/operations/2/holding"));
    let figure = |edit: Edit, name: &str| {
        let sheet = edited(AXLE, &edit);
        sheet.operations[4].figures.iter().find(|one| one.name == name).unwrap().value
    };
    // The grip that is left holds friction times as much, so the safety goes with it: 16 kN and 7 kN.
    let safety = |lost| figure(Set("/operations/4/holding/grip_lost", json!(lost)), "safety of the clamping");
    assert!((safety(2000) / safety(11000) - 16.0 / 7.0).abs() < 1e-12);
    // In the middle of 400 mm it is 7/768 of force · length³ / (E I), at a free end a third.
    let carried = All(vec![
        Set("/operations/4/holding/overhang", json!(200)),
        Set("/operations/4/holding/tailstock", json!(400)),
    ]);
    let free = figure(Set("/operations/4/holding/overhang", json!(400)), "diameter error from bending");
    let carried = figure(carried, "diameter error from bending");
    assert!((carried / free - 3.0 * 7.0 / 768.0).abs() < 1e-12);
    // As the cube of the overhang.
    let bent = |at| figure(Set("/operations/4/holding/overhang", json!(at)), "diameter error from bending");
    assert!((bent(60) / bent(30) - 8.0).abs() < 1e-12);
}

#[test]
fn a_holding_that_cannot_be_is_refused() {
    for (edit, why) in [
        (
            Set("/operations/2/holding/locators/0", json!({"x": 1, "y": 2, "z": 3})),
            "a locator needs a direction",
        ),
        (Set("/operations/2/holding/grip_lost", json!(100)), "loses no grip to speed"),
        (Set("/operations/2/holding/by", json!("magnet")), "magnet"),
        (Set("/operations/2/holding/tailstock", json!(100)), "give `overhang`"),
        (
            All(vec![
                Set("/operations/2/holding/overhang", json!(120)),
                Set("/operations/2/holding/tailstock", json!(100)),
            ]),
            "at most as far from the jaws as the tailstock",
        ),
        (
            All(vec![
                Set("/operations/2/holding/by", json!("chuck")),
                Set("/operations/2/holding/faces", json!(2)),
            ]),
            "`faces` are of straps",
        ),
        (Set("/operations/2/holding/friction", json!(0)), "greater than 0"),
        (Set("/operations/2/holding/clamp_force", json!("6500 mm")), "mm"),
        (Remove("/operations/2/holding/clamp_force"), "clamp_force"),
    ] {
        let mut document: Value = serde_json::from_str(AXLE).unwrap();
        apply(&mut document, &edit);
        let error = Plan::from_json(&document.to_string()).unwrap_err().to_string();
        assert!(error.contains(why) && error.contains("/operations/2/holding"), "{why}: {error}");
    }
    // A grip that speed takes away whole leaves no answer.
    let mut document: Value = serde_json::from_str(AXLE).unwrap();
    apply(&mut document, &Set("/operations/4/holding/grip_lost", json!(18000)));
    let error = Plan::from_json(&document.to_string()).unwrap().evaluate().unwrap_err().to_string();
    assert!(error.contains("would be thrown"), "{error}");
}

#[test]
fn capabilities_that_the_parts_cannot_show_are_found() {
    found(
        AXLE,
        vec![
            (
                Set("/characteristics/2/capability", json!(1.33)),
                "gauged_capability",
                Warning,
                "/characteristics/2/capability",
            ),
            // 10 parts must have 2.2 to show 1.33; one part shows nothing.
            (
                All(vec![
                    Set("/part/quantity", json!(10)),
                    Set("/characteristics/1/capability", json!(1.33)),
                ]),
                "too_few_for_capability",
                Warning,
                "/characteristics/1/capability",
            ),
            (
                All(vec![Set("/part/quantity", json!(1)), Set("/characteristics/1/capability", json!(1.33))]),
                "too_few_for_capability",
                Warning,
                "/characteristics/1/capability",
            ),
        ],
    );
    let sheet = edited(AXLE, &Set("/characteristics/1/capability", json!(1.33)));
    assert_eq!(sheet.characteristics[1].capability, Some(1.33));
    assert!(sheet.findings.iter().all(|one| !one.place.ends_with("capability")), "{:?}", sheet.findings);
    assert!(sheet.to_markdown(SheetKind::Process).unwrap().contains("Cpk, at least"));
    let faults =
        Plan::from_json(&AXLE.replacen("\"kind\": \"length\"", "\"kind\": \"length\", \"capability\": 0", 1));
    assert!(faults.unwrap_err().to_string().contains("greater than 0"));
}

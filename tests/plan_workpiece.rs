//! A turned, reamed, hardened, ground and plated pin with one fault at a time: each operation is judged by what it meets.
use serde_json::{Value, json};
use tenths::plan::Sheet;
use tenths::{Plan, Severity, SheetKind};

use Severity::{Error, Warning};

fn tool(more: Value) -> Value {
    let mut tool = json!({
        "name": "a tool", "surface_speed": {"lower": 1, "upper": 500},
        "feed_per_revolution": {"lower": 0.01, "upper": 1}
    });
    tool.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    tool
}

/// A lathe operation, held in a chuck at an end.
fn lathe(kind: &str, held: &str, more: Value) -> Value {
    let mut operation = json!({
        "kind": kind, "spindle_speed": 800, "feed_per_revolution": 0.1, "tool": tool(json!({"nose_radius": 0.8})),
        "holding": {"by": "chuck", "clamp_force": 30000, "friction": 0.3, "end": held, "grip_length": 30}
    });
    operation.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    operation
}

/// An operation in one hole.
fn hole(kind: &str, diameter: f64, more: Value) -> Value {
    let mut operation = json!({
        "kind": kind, "spindle_speed": 500, "feed_per_revolution": 0.1, "tool": tool(json!({"diameter": diameter}))
    });
    operation.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    operation
}

fn pin() -> Value {
    let asked = |number: u32, kind: &str, limits: &str| {
        json!({
            "number": number, "kind": kind, "limits": limits, "requirement": "independency", "inspection": "gauge"
        })
    };
    let mut bought = asked(5, "diameter", "30 ±0.1 mm");
    bought["plating"] = json!({"name": "zinc", "thickness": {"lower": 0.005, "upper": 0.01}});
    let deburr = json!({"kind": "deburr", "time": 0.2});
    // 80.2 + 1, less 0.5 at each end; 30 - 4 · 2.45 = 20.2, ground to 20; 30 - 4 · 4.54 = 11.84 for M12.
    json!({
        "tenths_plan": 1, "units": "metric", "part": {"name": "pin", "quantity": 50},
        "material": {"designation": "SAE 4140, annealed"},
        "characteristics": [
            asked(1, "length", "80 ±0.2 mm"), asked(2, "diameter", "20 ±0.01 mm"), asked(3, "bore", "8 H7"),
            asked(4, "diameter", "11.84 ±0.1 mm"), bought
        ],
        "bar": {"form": "round", "limits": "30 h9", "bar_length": 3000},
        "operations": [
            {"kind": "saw", "cut_length": 1, "kerf": 1.6, "facing_allowance": 1, "surface_speed": 60, "sawing_rate": 20,
             "blade": {"name": "a band", "surface_speed": {"lower": 50, "upper": 80},
                       "sawing_rate": {"lower": 10, "upper": 25}}},
            deburr,
            lathe("face", "second", json!({"end": "first", "depth": 0.5})),
            lathe("face", "first", json!({"end": "second", "depth": 0.5, "makes": [1]})),
            lathe("turn", "second", json!({"length": 25, "depth": 2.45, "passes": 2, "travel": 27})),
            lathe("turn", "first", json!({
                "end": "second", "length": 30, "depth": 4.54, "passes": 2, "travel": 32, "makes": [4]
            })),
            {"kind": "turn_thread", "thread": "M12-6g", "diameter": 11.84, "end": "second", "length": 20, "travel": 24,
             "passes": 6, "spindle_speed": 400, "tool": {"name": "a tool", "surface_speed": {"lower": 5, "upper": 60}}},
            hole("drill", 7.8, json!({"depth": 20, "feed_per_revolution": 0.15})),
            hole("ream", 8.0, json!({"hole_diameter": 7.8, "depth": 18, "makes": [3]})),
            hole("countersink", 12.0, json!({"hole_diameter": 8, "diameter": 10})),
            deburr,
            {"kind": "heat_treat", "name": "harden and temper", "hardness": {"lower": 28, "upper": 32}, "time": 60},
            {"kind": "wash", "time": 1},
            {"kind": "grind", "method": "cylindrical", "diameter": 20.2, "length": 25, "stock": 0.1, "infeed": 0.01,
             "wheel": {"name": "a wheel", "diameter": 300, "rated_speed": 2100}, "wheel_speed": 1800, "travel": 27,
             "traverse_feed": 10, "work_speed": 150, "makes": [2]},
            {"kind": "plate", "name": "zinc", "plates": [5], "time": 30, "batch": 50},
            {"kind": "inspect", "checks": [1, 2, 3, 4, 5], "time": 2}
        ]
    })
}

fn sheet(document: &Value) -> Sheet {
    Plan::from_json(&document.to_string()).unwrap().evaluate().unwrap_or_else(|error| panic!("{error:#?}"))
}

type Edit = fn(&mut Value);

fn set(document: &mut Value, pointer: &str, value: Value) {
    let (above, name) = pointer.rsplit_once('/').unwrap();
    document.pointer_mut(above).unwrap()[name] = value;
}

fn list(document: &mut Value) -> &mut Vec<Value> {
    document["operations"].as_array_mut().unwrap()
}

fn shift(document: &mut Value, from: usize, to: usize) {
    let moved = list(document).remove(from);
    list(document).insert(to, moved);
}

const EDITS: &[(Edit, &str, Severity, &str)] = &[
    // Holes: 8 mm is no hole to ream at 8 mm; 0.6 mm is too much, 0.05 mm too little; the floor is at 20 mm.
    (
        |d| set(d, "/operations/8/hole_diameter", json!(8)),
        "no_reaming_allowance",
        Error,
        "/operations/8/hole_diameter",
    ),
    (
        |d| {
            set(d, "/operations/7/tool/diameter", json!(7.4));
            set(d, "/operations/8/hole_diameter", json!(7.4));
        },
        "reaming_allowance",
        Warning,
        "/operations/8/hole_diameter",
    ),
    (
        |d| set(d, "/operations/8/hole_diameter", json!(7.95)),
        "reaming_allowance",
        Warning,
        "/operations/8/hole_diameter",
    ),
    (|d| set(d, "/operations/8/depth", json!(40)), "reams_too_deep", Error, "/operations/8/depth"),
    (|d| set(d, "/operations/8/holes", json!(2)), "too_few_holes", Error, "/operations/8/holes"),
    (
        |d| set(d, "/operations/8/tool/diameter", json!(8.1)),
        "reamer_off_size",
        Error,
        "/operations/8/tool/diameter",
    ),
    (|d| drop(list(d).remove(7)), "hole_not_drilled", Error, "/operations/7/hole_diameter"),
    (|d| shift(d, 8, 7), "hole_not_drilled", Error, "/operations/7/hole_diameter"),
    (
        |d| set(d, "/operations/9/hole_diameter", json!(9)),
        "hole_not_drilled",
        Error,
        "/operations/9/hole_diameter",
    ),
    (|d| set(d, "/operations/9/holes", json!(3)), "too_few_holes", Error, "/operations/9/holes"),
    (
        |d| {
            let bore = lathe("bore", "second", json!({"diameter": 15, "depth": 0.5, "travel": 20}));
            list(d).insert(9, bore);
        },
        "hole_not_drilled",
        Warning,
        "/operations/9/diameter",
    ),
    // A hole of 7.8 mm bored by 0.15 mm a side is 8.1 mm, over H7; by 0.05 mm it is 7.9 mm, under it.
    (
        |d| {
            let bore =
                lathe("bore", "second", json!({"diameter": 7.8, "depth": 0.15, "travel": 20, "makes": [3]}));
            list(d)[8] = bore;
        },
        "cut_too_deep",
        Error,
        "/operations/8/depth",
    ),
    (
        |d| {
            let bore =
                lathe("bore", "second", json!({"diameter": 7.8, "depth": 0.05, "travel": 20, "makes": [3]}));
            list(d)[8] = bore;
        },
        "cut_too_shallow",
        Error,
        "/operations/8/depth",
    ),
    // The jaws.
    (|d| set(d, "/operations/4/end", json!("second")), "jaws_in_the_way", Error, "/operations/4/end"),
    (
        |d| set(d, "/operations/4/holding/grip_length", json!(60)),
        "jaws_in_the_way",
        Error,
        "/operations/4/length",
    ),
    (|d| set(d, "/operations/2/end", json!("second")), "jaws_in_the_way", Error, "/operations/2/end"),
    // Steps along the axis.
    (|d| set(d, "/operations/4/length", json!(100)), "beyond_part", Error, "/operations/4/length"),
    (|d| set(d, "/operations/4/length", json!(60)), "steps_overlap", Error, "/operations/5/length"),
    (
        |d| {
            let again = list(d)[4].clone();
            list(d).insert(5, again);
        },
        "cuts_air",
        Error,
        "/operations/5",
    ),
    (|d| drop(list(d).remove(5)), "start_not_there", Warning, "/operations/5/diameter"),
    (|d| set(d, "/operations/6/diameter", json!(12.5)), "blank_off_size", Error, "/operations/6/diameter"),
    (|d| set(d, "/operations/6/diameter", json!(11.6)), "blank_off_size", Error, "/operations/6/diameter"),
    (|d| set(d, "/operations/13/diameter", json!(25)), "start_not_there", Warning, "/operations/13/diameter"),
    (|d| set(d, "/operations/13/stock", json!(0.3)), "cut_too_deep", Error, "/operations/13/stock"),
    (|d| set(d, "/operations/13/stock", json!(0.02)), "cut_too_shallow", Error, "/operations/13/stock"),
    (
        |d| {
            let knurl = json!({
                "kind": "knurl", "pattern": "straight", "pitch": 1, "blank": "25.9..26 mm", "spindle_speed": 200,
                "feed_rate": 40, "travel": 10, "tool": {"name": "wheels", "surface_speed": {"lower": 5, "upper": 30}}
            });
            list(d).insert(10, knurl);
        },
        "start_not_there",
        Warning,
        "/operations/10/blank",
    ),
    // Hardness, scale, plating, burrs.
    (
        |d| {
            set(d, "/operations/11/hardness", json!({"lower": 55, "upper": 60}));
            shift(d, 11, 7);
        },
        "too_hard",
        Warning,
        "/operations/8",
    ),
    (
        |d| {
            set(d, "/operations/11/hardness", json!({"lower": 55, "upper": 60}));
            let mut tap = hole("tap", 8.0, json!({"thread": "M9-6H", "hole_diameter": 7.8, "travel": 15}));
            for gone in ["feed_per_revolution", "tool"] {
                tap.as_object_mut().unwrap().remove(gone);
            }
            tap["tool"] = json!({"name": "a tap", "surface_speed": {"lower": 1, "upper": 50}});
            list(d).insert(12, tap);
        },
        "too_hard",
        Error,
        "/operations/12",
    ),
    (|d| shift(d, 15, 12), "scale_left", Warning, "/operations/12"),
    (|d| shift(d, 14, 12), "scale_left", Warning, "/operations/12"),
    (
        |d| {
            set(d, "/operations/14/plates", json!([2]));
            shift(d, 14, 12);
        },
        "cut_after_plating",
        Error,
        "/operations/14/makes",
    ),
    (
        |d| set(d, "/operations/14/plates", json!([2])),
        "plating_not_stated",
        Warning,
        "/operations/14/plates/0",
    ),
    (
        |d| {
            set(d, "/operations/2/holding/by", json!("vice"));
            list(d).remove(1);
        },
        "clamped_on_burr",
        Warning,
        "/operations/1/holding",
    ),
    (|d| drop(list(d).remove(10)), "not_deburred", Warning, "/operations/7"),
    // What a process holds: IT6 of 12 mm is 11 µm.
    (|d| set(d, "/operations/8/holds", json!(0.05)), "process_too_coarse", Warning, "/operations/8/makes"),
    (
        |d| set(d, "/characteristics/3/limits", json!("11.84 ±0.003 mm")),
        "closer_than_usual",
        Warning,
        "/operations/5/makes",
    ),
    (
        |d| set(d, "/characteristics/3/limits", json!("11.5 ±0.1 mm")),
        "cut_too_shallow",
        Error,
        "/operations/5/depth",
    ),
    // Threads: M12-6g stands on 11.701 to 11.966 mm, 20 mm from the second end, whose step is 30 mm long.
    (|d| over_thread(d, json!({"length": 30, "end": "second"})), "takes_off", Error, "/operations/7"),
    (|d| over_thread(d, json!({"length": 5, "end": "second"})), "takes_off", Warning, "/operations/7"),
    (|d| over_thread(d, json!({})), "takes_off", Error, "/operations/7"),
    // 70 from the first end and 20 from the second are more than the 80.2 that the part has.
    (|d| over_thread(d, json!({"length": 70, "end": "first"})), "takes_off", Warning, "/operations/7"),
    (
        |d| {
            let knurl = json!({
                "kind": "knurl", "pattern": "straight", "pitch": 1, "blank": "11.8..11.9 mm", "spindle_speed": 200,
                "feed_rate": 40, "travel": 10, "tool": {"name": "wheels", "surface_speed": {"lower": 5, "upper": 30}}
            });
            list(d).insert(7, knurl);
        },
        "takes_off",
        Error,
        "/operations/7",
    ),
    (
        |d| {
            let face = lathe("face", "second", json!({"end": "first", "depth": 0.1}));
            list(d).insert(7, face);
        },
        "clamped_on_thread",
        Warning,
        "/operations/7/holding",
    ),
    // Jaws that cover 65 mm from the first end reach the thread.
    (
        |d| {
            let mut face = lathe("face", "first", json!({"end": "second", "depth": 0.1}));
            face["holding"]["grip_length"] = json!(65);
            list(d).insert(7, face);
        },
        "clamped_on_thread",
        Warning,
        "/operations/7/holding",
    ),
    // The step at the first end has 20.2 mm.
    (|d| set(d, "/operations/6/end", json!("first")), "blank_off_size", Error, "/operations/6/length"),
    // What is not cut cannot be measured, even where it is measured again later.
    (
        |d| {
            set(d, "/operations/6/makes", json!([4]));
            set(d, "/operations/5/makes", json!([]));
            let check = json!({"kind": "inspect", "checks": [4], "time": 1});
            list(d).insert(6, check);
        },
        "inspected_before_made",
        Error,
        "/operations/6/checks",
    ),
    // Flats of 17 mm on the step of 20.2 mm: the depth does not count from the bar of 30 mm.
    (|d| with_flats(d, json!({"diameter": null})), "start_not_there", Error, "/operations/7/diameter"),
    (|d| with_flats(d, json!({"diameter": null})), "cut_too_shallow", Error, "/operations/7/axial_depth"),
    (|d| with_flats(d, json!({"diameter": 26})), "start_not_there", Error, "/operations/7/diameter"),
    (
        |d| with_flats(d, json!({"diameter": 26, "length": null})),
        "start_not_there",
        Warning,
        "/operations/7/diameter",
    ),
    (|d| with_flats(d, json!({"diameter": 33})), "larger_than_bar", Error, "/operations/7/diameter"),
    (|d| with_flats(d, json!({"axial_depth": 1.4})), "cut_too_shallow", Error, "/operations/7/axial_depth"),
    (|d| with_flats(d, json!({"axial_depth": 1.8})), "cut_too_deep", Error, "/operations/7/axial_depth"),
    (
        |d| {
            with_flats(d, json!({}));
            set(d, "/operations/7/holding/end", json!("first"));
        },
        "jaws_in_the_way",
        Error,
        "/operations/7/end",
    ),
    // Grinding the step with flats to 20 beats on them; turning it to 16.2 leaves nothing of them.
    (|d| with_flats(d, json!({})), "takes_off", Warning, "/operations/14"),
    (
        |d| {
            with_flats(d, json!({}));
            let turn = json!({"diameter": 20.2, "length": 25, "depth": 2, "travel": 27});
            list(d).insert(8, lathe("turn", "second", turn));
        },
        "takes_off",
        Error,
        "/operations/8",
    ),
];

/// Puts a turning cut of 1 mm off the diameter behind the thread.
fn over_thread(document: &mut Value, more: Value) {
    let mut turn = lathe("turn", "first", json!({"diameter": 11.84, "depth": 0.5, "travel": 32}));
    turn.as_object_mut().unwrap().remove("holding");
    turn.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    list(document).insert(7, turn);
}

/// Mills flats of 17 mm on the step of the first end, before anything is drilled; null takes a field away.
fn with_flats(document: &mut Value, more: Value) {
    let across = json!({
        "number": 6, "kind": "across_flats", "limits": "17 ±0.1 mm", "requirement": "independency", "inspection": "gauge"
    });
    document["characteristics"].as_array_mut().unwrap().push(across);
    let mut mill = json!({
        "kind": "mill_flats", "makes": [6], "across": 6, "flats": 2, "diameter": 20.2, "end": "first", "length": 20,
        "spindle_speed": 1500, "feed_rate": 300, "axial_depth": 1.6, "radial_width": 15, "travel": 40,
        "tool": {"name": "an end mill", "diameter": 20, "teeth": 4, "surface_speed": {"lower": 20, "upper": 200},
                 "chip_load": {"lower": 0.01, "upper": 0.2}},
        "holding": {"by": "vice", "clamp_force": 30000, "friction": 0.3}
    });
    mill.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    mill.as_object_mut().unwrap().retain(|_, value| !value.is_null());
    list(document).insert(7, mill);
}

#[test]
fn the_pin_as_it_is_has_none_of_the_faults() {
    let sound = sheet(&pin());
    let found: Vec<_> = sound.findings.iter().filter(|one| one.severity != Severity::Note).collect();
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn flats_count_from_the_diameter_of_their_step() {
    // (20.2 - 17) / 2 = 1.6 a side.
    let mut document = pin();
    with_flats(&mut document, json!({}));
    let sheet = sheet(&document);
    let own: Vec<_> = sheet.findings.iter().filter(|one| one.place.starts_with("/operations/7")).collect();
    assert!(own.iter().all(|one| one.severity != Error && one.code != "start_not_there"), "{own:#?}");
    let figures = &sheet.operations[7].figures;
    assert_eq!(figures.get("start_diameter").unwrap().value, 20.2);
    assert_eq!(figures.get("finish_across_from_that_diameter").unwrap().value, 17.0);
    assert!((figures.get("depth_of_a_flat").unwrap().value - 1.6).abs() < 1e-9);
}

#[test]
fn each_fault_is_found_where_it_is() {
    for (edit, code, severity, place) in EDITS {
        let mut document = pin();
        edit(&mut document);
        let findings = sheet(&document).findings;
        let one = findings.iter().find(|one| one.code == *code && one.place == *place);
        let one = one.unwrap_or_else(|| panic!("no {code} at {place}: {findings:#?}"));
        assert_eq!(one.severity, *severity, "{one:?}");
        assert!(one.message.len() > 10 && one.remedy.len() > 10, "{one:?}");
    }
}

#[test]
fn faults_that_do_not_meet_are_all_found_at_once() {
    // One of each, none of which moves or removes an operation.
    let apart = [0, 3, 4, 8, 15, 17, 20, 23, 31, 34];
    let mut document = pin();
    apart.iter().for_each(|&at| EDITS[at].0(&mut document));
    let findings = sheet(&document).findings;
    for &at in &apart {
        let (_, code, _, place) = EDITS[at];
        assert!(
            findings.iter().any(|one| one.code == code && one.place == place),
            "no {code} at {place}: {findings:#?}"
        );
    }
}

/// The pin, and an operation of each kind that it does not have.
fn every_kind() -> Value {
    let cutter = json!({
        "name": "an end mill", "diameter": 6, "teeth": 3, "overhang": 20, "surface_speed": {"lower": 5, "upper": 90},
        "chip_load": {"lower": 0.01, "upper": 0.1}
    });
    let plunging = json!({"width": 3, "surface_speed": {"lower": 5, "upper": 90}, "name": "a blade",
                          "feed_per_revolution": {"lower": 0.01, "upper": 0.3}});
    let mut document = pin();
    list(&mut document).extend([
        hole("center_drill", 8.0, json!({"pilot_diameter": 2, "pilot_length": 2, "diameter": 4, "approach": 1})),
        lathe("bore", "second", json!({"diameter": 10, "depth": 0.5, "travel": 20, "bar": {"diameter": 8, "overhang": 40}})),
        json!({"kind": "groove", "floor_diameter": 17, "width": 4, "plunges": 2, "spindle_speed": 400,
               "feed_per_revolution": 0.1, "tool": plunging, "motor_power": 5}),
        json!({"kind": "part_off", "cut_length": 1, "spindle_speed": 400, "feed_per_revolution": 0.1, "tool": plunging}),
        json!({"kind": "mill", "cut": "slot", "spindle_speed": 2000, "feed_rate": 200, "axial_depth": 2,
               "radial_width": 6, "travel": 40, "tool": cutter, "motor_power": 5}),
        json!({"kind": "mill", "cut": "pocket", "spindle_speed": 2000, "feed_rate": 200, "axial_depth": 2,
               "radial_width": 5, "volume": 4, "tool": cutter}),
        json!({"kind": "keyseat", "key_width": 6, "key_height": 6, "spindle_speed": 2000, "feed_rate": 100, "travel": 30,
               "passes": 4, "tool": cutter}),
        json!({"kind": "grind", "method": "centerless", "stock": 0.1, "infeed": 0.01, "travel": 80,
               "wheel": {"name": "a wheel", "diameter": 300, "rated_speed": 2100}, "wheel_speed": 1800,
               "regulating_wheel_diameter": 200, "regulating_wheel_speed": 40, "tilt_angle": 3}),
        json!({"kind": "grind", "method": "surface", "stock": 0.1, "infeed": 0.01, "travel": 80, "width": 10,
               "crossfeed": 2, "table_speed": 15, "wheel": {"name": "a wheel", "diameter": 300, "rated_speed": 2100},
               "wheel_speed": 1800}),
        json!({"kind": "broach", "tool": "a broach", "stroke": 200, "cutting_rate": 1000, "return_rate": 2000}),
        json!({"kind": "outside", "name": "nitride", "cost": 2, "scrap": 0.01, "setup": 5, "holds": 0.2}),
        json!({"kind": "other", "name": "mark", "time": 0.5, "cost": 1}),
    ]);
    document
}

/// The pointers of all numbers, texts and truths of a value.
fn leaves(value: &Value, pointer: &str, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            fields.iter().for_each(|(name, one)| leaves(one, &format!("{pointer}/{name}"), found))
        }
        Value::Array(items) => {
            items
                .iter()
                .enumerate()
                .for_each(|(index, one)| leaves(one, &format!("{pointer}/{index}"), found));
        }
        _ => found.push(pointer.into()),
    }
}

#[test]
fn a_thousand_mutations_of_every_kind_give_located_faults_or_a_sheet() {
    let document = every_kind();
    sheet(&document);
    let mut found = vec![];
    leaves(&document["operations"], "/operations", &mut found);
    let values =
        [json!(null), json!(-1), json!(0), json!(1e308), json!(1e-300), json!("odd"), json!([]), json!(7)];
    let (mut sheets, mut faults) = (0, 0);
    for (at, pointer) in found.iter().enumerate() {
        for turn in 0..4 {
            let mut changed = document.clone();
            *changed.pointer_mut(pointer).unwrap() = values[(at + 2 * turn) % values.len()].clone();
            match Plan::from_json(&changed.to_string()).and_then(|plan| plan.evaluate()) {
                Ok(sheet) => {
                    sheets += 1;
                    assert!(
                        sheet.minutes_per_part.is_finite()
                            && !sheet.to_markdown(SheetKind::Process).unwrap().is_empty()
                    );
                }
                Err(error) => {
                    faults += 1;
                    assert!(
                        error.faults().iter().all(|one| one.place.starts_with('/') && one.message.len() > 5)
                    );
                }
            }
        }
    }
    assert!(sheets > 100 && faults > 500 && sheets + faults > 1000, "{sheets} sheets, {faults} with faults");
}

#[test]
fn findings_name_operations_as_the_shop_numbers_them() {
    let mut document = pin();
    list(&mut document)[4]["number"] = json!(45);
    let again = list(&mut document)[4].clone();
    list(&mut document).insert(5, again);
    list(&mut document)[5]["number"] = json!(55);
    let findings = sheet(&document).findings;
    let air = findings.iter().find(|one| one.code == "cuts_air").unwrap();
    assert!(air.message.contains("operation 45 has left 20.2 mm there"), "{air:?}");
}

//! Each kind of operation against figures worked by hand from the definitions, and what its fields refuse.
use serde_json::{Value, json};
use tenths::plan::{OperationLines, Sheet};
use tenths::{Plan, Severity};

/// A plan of 10 round bars 20 mm thick, 100 mm long, of SAE 1045 with kc1.1 of 1500 N/mm² and mc of 0.22.
fn plan(characteristics: Value, operations: Value) -> String {
    let mut all = vec![json!({
        "number": 1, "kind": "length", "limits": "100 ±0.2 mm", "requirement": "independency", "inspection": "caliper"
    })];
    for (number, kind, limits) in
        characteristics.as_array().unwrap().iter().map(|one| (&one[0], &one[1], &one[2]))
    {
        all.push(json!({
            "number": number, "kind": kind, "limits": limits, "requirement": "independency", "inspection": "gauge"
        }));
    }
    json!({
        "tenths_plan": 1, "units": "metric", "part": {"name": "pin", "quantity": 10},
        "material": {"designation": "SAE 1045", "kc11": 1500, "mc": 0.22},
        "characteristics": all,
        "bar": {"form": "round", "limits": "20 h9", "bar_length": 3000},
        "operations": operations,
    })
    .to_string()
}

fn sheet(text: &str) -> Sheet {
    Plan::from_json(text).unwrap().evaluate().unwrap()
}

/// The lines of one operation by itself.
fn only(operation: Value) -> OperationLines {
    let mut made = sheet(&plan(json!([]), json!([operation])));
    // Whatever a kind shows reads back as it was written: no two figures have one key.
    assert!(Sheet::from_json(&made.to_json()).unwrap() == made);
    made.operations.remove(0)
}

#[track_caller]
fn figure(operation: &OperationLines, name: &str, expected: f64) {
    let found = operation.figures.iter().find(|one| one.name == name);
    let figure = found.unwrap_or_else(|| panic!("no {name}: {operation:#?}"));
    // The working is carried to six digits.
    let close = (figure.value - expected).abs() <= 1e-5 * expected.abs();
    assert!(close, "{name} is {} and not {expected}", figure.value);
}

#[track_caller]
fn minutes(operation: &OperationLines, expected: f64) {
    let found = operation.minutes_per_part;
    assert!((found - expected).abs() <= 1e-5 * expected, "{found} and not {expected}");
}

#[track_caller]
fn fault(operation: Value, place: &str, words: &str) {
    let error =
        Plan::from_json(&plan(json!([]), json!([operation]))).and_then(|plan| plan.evaluate()).unwrap_err();
    let fault = error.faults().iter().find(|one| one.place == place);
    let fault = fault.unwrap_or_else(|| panic!("none at {place}: {error:#?}"));
    assert!(fault.message.contains(words), "{fault:?}");
}

fn with(mut operation: Value, field: &str, value: Value) -> Value {
    operation[field] = value;
    operation
}

fn tool(more: Value) -> Value {
    let mut tool = json!({"name": "a tool", "surface_speed": {"lower": 1, "upper": 500}});
    tool.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    tool
}

fn feeds() -> Value {
    json!({"lower": 0.01, "upper": 1})
}

fn part_off() -> Value {
    json!({
        "kind": "part_off", "cut_length": 1, "makes": [1], "spindle_speed": 1000, "feed_per_revolution": 0.1,
        "motor_power": 5, "handling": 0.5, "tool": tool(json!({"width": 3, "feed_per_revolution": feeds()}))
    })
}

#[test]
fn parting_off_is_as_worked_by_hand_and_counts_the_bars() {
    let operation = only(part_off());
    // π · 20 · 1000 / 1000; 1500 · 0.1^-0.22 = 2489.4 N/mm², · 3 · 0.1; · 62.8319 / 60000 / 0.8; 10 / (0.1 · 1000).
    figure(&operation, "surface speed", 62.831853);
    figure(&operation, "feed rate", 100.0);
    figure(&operation, "cutting force", 746.8130);
    figure(&operation, "motor power", 0.977577);
    minutes(&operation, 0.6);
    // 3000 / (100.2 + 3) = 29.07.
    let sheet = sheet(&plan(json!([]), json!([part_off()])));
    assert_eq!((sheet.bar.parts_per_bar, sheet.bar.bars), (Some(29), Some(1)));
    assert!(!sheet.findings.iter().any(|one| one.code == "not_sawn" || one.code == "before_sawing"));
    assert!(operation.cautions.iter().any(|one| one.contains("never between centres")));
    let weak = sheet_of(with(part_off(), "motor_power", json!(0.9)));
    assert!(weak.findings.iter().any(|one| one.code == "motor_too_weak" && one.severity == Severity::Error));
}

fn sheet_of(operation: Value) -> Sheet {
    sheet(&plan(json!([]), json!([operation])))
}

#[test]
fn a_groove_is_as_worked_by_hand() {
    let groove = json!({
        "kind": "groove", "floor_diameter": 17, "width": 4, "plunges": 2, "spindle_speed": 1000,
        "feed_per_revolution": 0.1, "tool": tool(json!({"width": 3, "feed_per_revolution": feeds()}))
    });
    let operation = only(groove.clone());
    // Two plunges of 1.5 mm at 100 mm/min.
    figure(&operation, "cutting time", 0.03);
    figure(&operation, "finish diameter", 17.0);
    fault(with(groove.clone(), "plunges", json!(1)), "/operations/0/width", "wider than its plunges");
    fault(with(groove, "width", json!(2)), "/operations/0/width", "narrower than its tool");
}

#[test]
fn work_in_holes_is_as_worked_by_hand() {
    let hole = |diameter: f64| tool(json!({"diameter": diameter, "feed_per_revolution": feeds()}));
    let centre = json!({
        "kind": "center_drill", "tool": hole(8.0), "pilot_diameter": 2, "pilot_length": 2.5, "diameter": 4,
        "approach": 1, "spindle_speed": 1000, "feed_per_revolution": 0.1
    });
    // 2.5 + (4 - 2) / (2 · tan 30°) = 4.232051; with the approach 5.232051 at 100 mm/min; π · 4.
    let operation = only(centre.clone());
    figure(&operation, "surface speed", 12.566371);
    figure(&operation, "depth of the tip", 4.232051);
    minutes(&operation, 0.05232051);
    fault(with(centre.clone(), "diameter", json!(9)), "/operations/0/diameter", "a tool of 8 cannot cut");
    fault(
        with(centre, "pilot_diameter", json!(4)),
        "/operations/0/pilot_diameter",
        "smaller than the centre",
    );

    let sink = json!({
        "kind": "countersink", "tool": hole(12.0), "diameter": 10, "hole_diameter": 6, "holes": 4, "approach": 1,
        "spindle_speed": 500, "feed_per_revolution": 0.1
    });
    // (10 - 6) / (2 · tan 45°) = 2 deep; four times 3 mm at 50 mm/min.
    let operation = only(sink.clone());
    figure(&operation, "depth of the countersink", 2.0);
    minutes(&operation, 0.24);
    fault(with(sink, "hole_diameter", json!(10)), "/operations/0/diameter", "wider than its hole");

    let ream = json!({
        "kind": "ream", "tool": hole(8.0), "hole_diameter": 7.75, "depth": 20, "approach": 2, "breakthrough": 3,
        "spindle_speed": 250, "feed_per_revolution": 0.2
    });
    // 25 mm at 50 mm/min; 8 - 7.75; π · 8 · 0.25.
    let operation = only(ream);
    figure(&operation, "surface speed", std::f64::consts::TAU);
    figure(&operation, "allowance on the diameter", 0.25);
    minutes(&operation, 0.5);
}

fn bore() -> Value {
    json!({
        "kind": "bore", "diameter": 10, "depth": 0.5, "passes": 2, "travel": 22, "spindle_speed": 1000,
        "feed_per_revolution": 0.1, "bar": {"diameter": 8, "overhang": 40},
        "tool": tool(json!({"nose_radius": 0.4, "feed_per_revolution": feeds()}))
    })
}

#[test]
fn boring_is_as_worked_by_hand() {
    let operation = only(bore());
    // 10 + 4 · 0.5; π · 12; 1500 · 0.1^-0.22 · 0.5 · 0.1 = 124.4688 N, a quarter of which bends the bar of I = π / 64 · 8⁴ =
    // 201.0619 mm⁴ by 31.1172 · 40³ / (3 · 205000 · 201.0619) = 0.0161057 mm, twice on the diameter; 2 · 22 / 100.
    figure(&operation, "finish diameter", 12.0);
    figure(&operation, "surface speed", 37.699112);
    figure(&operation, "cutting force", 124.46884);
    figure(&operation, "diameter error from bending", 0.0322114);
    minutes(&operation, 0.44);
    let thick = sheet_of(with(bore(), "bar", json!({"diameter": 10, "overhang": 40})));
    assert!(
        thick
            .findings
            .iter()
            .any(|one| one.code == "bar_does_not_fit" && one.place == "/operations/0/bar/diameter")
    );
    // H7 of 12 mm is 18 µm.
    let made = with(bore(), "makes", json!([2]));
    let close = sheet(&plan(json!([[2, "bore", "12 H7"]]), json!([made.clone()])));
    assert!(
        close
            .findings
            .iter()
            .any(|one| one.code == "tool_bends_too_far" && one.place == "/operations/0/bar/overhang")
    );
    let wide = sheet(&plan(json!([[2, "bore", "12 H10"]]), json!([made])));
    assert!(!wide.findings.iter().any(|one| one.code == "tool_bends_too_far"));
}

#[test]
fn a_turned_thread_is_as_worked_by_hand() {
    let thread = json!({
        "kind": "turn_thread", "thread": "M12-6g", "travel": 20, "passes": 4, "spindle_speed": 500, "diameter": 12,
        "tool": tool(json!({}))
    });
    let operation = only(thread.clone());
    // 1.75 · 500; 17/24 · √3/2 · 1.75 = 1.073517; half of it after one of four passes; 4 · 20 / 875.
    figure(&operation, "feed rate", 875.0);
    figure(&operation, "depth of the thread", 1.0735166);
    figure(&operation, "infeed of the first pass", 0.5367583);
    minutes(&operation, 0.0914286);
    // ISO 965-3: the major diameter of M12-6g is 11.701 to 11.966.
    figure(&operation, "blank, least", 11.701);
    figure(&operation, "blank, greatest", 11.966);
    fault(
        with(thread.clone(), "thread", json!("M12-6H")),
        "/operations/0/thread",
        "internal thread; expected an external",
    );
    fault(with(thread, "thread", json!("M12")), "/operations/0/thread", "tolerance class");
}

fn mill() -> Value {
    json!({
        "kind": "mill", "cut": "slot", "spindle_speed": 1000, "feed_rate": 200, "axial_depth": 3, "radial_width": 10,
        "travel": 50, "passes": 2, "tool": {
            "name": "an end mill", "diameter": 10, "teeth": 4, "overhang": 30,
            "surface_speed": {"lower": 20, "upper": 40}, "chip_load": {"lower": 0.03, "upper": 0.06}
        }
    })
}

#[test]
fn milling_is_as_worked_by_hand() {
    let operation = only(mill());
    // π · 10; 200 / (4 · 1000); 3 · 10 · 200 / 1000; 2 · 50 / 200.
    figure(&operation, "surface speed", 31.415927);
    figure(&operation, "chip load", 0.05);
    figure(&operation, "removal rate", 6.0);
    minutes(&operation, 0.5);
    let bent = operation.figures.iter().find(|one| one.name == "bending of the cutter").unwrap().value;
    let force = operation.figures.iter().find(|one| one.name == "force of a tooth").unwrap().value;
    // A bar 10 thick and 30 long: F · 30³ / (3 · 205000 · π / 64 · 10⁴).
    assert!((bent - force * 27000.0 / (615000.0 * 490.87385)).abs() < 1e-9, "{bent}");
    // 12 cm³ at 6 cm³/min.
    let mut pocket = with(mill(), "cut", json!("pocket"));
    fault(pocket.clone(), "/operations/0/cut", "needs its `volume`");
    pocket.as_object_mut().unwrap().remove("travel");
    pocket["volume"] = json!(12);
    minutes(&only(pocket), 2.0);
    fault(with(mill(), "volume", json!(12)), "/operations/0/cut", "a slot needs its `travel`");
}

#[test]
fn a_keyseat_is_as_worked_by_hand() {
    let mut keyseat = mill();
    keyseat["kind"] = json!("keyseat");
    for gone in ["cut", "axial_depth", "radial_width"] {
        keyseat.as_object_mut().unwrap().remove(gone);
    }
    keyseat["key_width"] = json!(6);
    keyseat["key_height"] = json!(6);
    let operation = only(keyseat);
    // (20 - √(400 - 36)) / 2 = 0.4606; + 3; 20 - that.
    figure(&operation, "depth of the keyseat", 3.460608);
    figure(&operation, "floor to the far side", 16.539392);
    minutes(&operation, 0.5);
}

fn grind() -> Value {
    json!({
        "kind": "grind", "method": "cylindrical", "stock": 0.2, "infeed": 0.02, "spark_out_passes": 2,
        "wheel": {"name": "a wheel", "diameter": 400, "rated_speed": 2100}, "wheel_speed": 1500, "travel": 60,
        "traverse_feed": 15, "work_speed": 200
    })
}

#[test]
fn grinding_is_as_worked_by_hand() {
    let operation = only(grind());
    // π · 400 · 1500 / 1000 m/min, of 2100; 10 passes and 2; 12 · 60 / (15 · 200).
    figure(&operation, "wheel speed", 1884.9556);
    figure(&operation, "share of its rating", 0.8975979);
    figure(&operation, "passes", 12.0);
    minutes(&operation, 0.24);
    fault(with(grind(), "wheel_speed", json!(1700)), "/operations/0/wheel_speed", "rated");
    fault(with(grind(), "method", json!("surface")), "/operations/0/method", "leave them out");
    fault(with(grind(), "infeed", json!(0.3)), "/operations/0/infeed", "more than the stock");
    let mut flat = with(grind(), "method", json!("surface"));
    for gone in ["traverse_feed", "work_speed"] {
        flat.as_object_mut().unwrap().remove(gone);
    }
    // What a method needs and the plan leaves out is proposed: a face as wide as the bar, 15 m/min, half a minute to load.
    // 12 · (20 / 4 + 1) · 0.06 / 15, and 0.5.
    minutes(&only(with(flat.clone(), "crossfeed", json!(4))), 0.788);
    flat.as_object_mut()
        .unwrap()
        .extend(json!({"width": 20, "crossfeed": 4, "table_speed": 12}).as_object().unwrap().clone());
    // 12 · (20 / 4 + 1) · 0.06 / 12.
    minutes(&only(flat), 0.36);
    let mut through = with(grind(), "method", json!("centerless"));
    for gone in ["traverse_feed", "work_speed"] {
        through.as_object_mut().unwrap().remove(gone);
    }
    through.as_object_mut().unwrap().extend(
        json!({"regulating_wheel_diameter": 250, "regulating_wheel_speed": 40, "tilt_angle": 3})
            .as_object()
            .unwrap()
            .clone(),
    );
    // π · 250 · 40 · sin 3° = 1644.189 mm/min; 12 · 60 mm at that.
    minutes(&only(through), 0.4379058);
}

#[test]
fn strokes_batches_and_other_work_are_as_worked_by_hand() {
    let broach = json!({
        "kind": "broach", "tool": "a 6 mm keyway broach", "stroke": 300, "cutting_rate": 1500, "return_rate": 3000,
        "strokes": 2
    });
    // 2 · (0.2 + 0.1).
    minutes(&only(broach), 0.6);
    // Ten parts in batches of four are three batches.
    let heat = json!({
        "kind": "heat_treat", "name": "harden and temper", "time": 40, "batch": 4, "hardness": {"lower": 38, "upper": 42}
    });
    let operation = only(heat);
    minutes(&operation, 12.0);
    assert_eq!(operation.figures[0].unit, "HRC");
    assert!(operation.cautions.iter().any(|one| one.contains("oil")));
    minutes(&only(json!({"kind": "plate", "name": "zinc", "time": 30, "batch": 100})), 3.0);
    minutes(&only(json!({"kind": "wash", "time": 5, "batch": 10})), 0.5);
    let outside = only(json!({"kind": "outside", "name": "nitride at a licensed shop", "cost": 2.5}));
    assert_eq!((&*outside.name, outside.minutes_per_part), ("Outside: nitride at a licensed shop", 0.0));
    minutes(&only(json!({"kind": "other", "name": "engrave the number", "time": 0.7, "cost": 0.1})), 0.7);
    fault(
        json!({"kind": "other", "name": "engrave", "time": 0.7, "cost": -1}),
        "/operations/0/cost",
        "0 or greater",
    );
}

#[test]
fn flats_count_from_the_diameter_that_is_there() {
    let cut = json!({"kind": "mill_flats", "makes": [2], "across": 2, "flats": 2, "axial_depth": 2, "radial_width": 12, "travel": 30,
        "tool": {"name": "a cutter", "diameter": 16, "teeth": 4, "surface_speed": {"lower": 60, "upper": 90},
                 "chip_load": {"lower": 0.04, "upper": 0.08}}, "spindle_speed": 1500, "feed_rate": 300});
    let asked = json!([[2, "across_flats", "12 ±0.1 mm"]]);
    let with = |diameter: f64| {
        let mut cut = cut.clone();
        cut["diameter"] = json!(diameter);
        let turn = json!({"kind": "turn", "depth": 2, "travel": 30, "spindle_speed": 1500, "feed_per_revolution": 0.2,
            "tool": {"name": "an insert", "nose_radius": 0.8, "surface_speed": {"lower": 60, "upper": 100},
                     "feed_per_revolution": {"lower": 0.1, "upper": 0.3}}});
        sheet(&plan(asked.clone(), json!([turn, cut])))
    };
    // On 16 mm flats of 12 mm are 2 mm deep each, and √(16² - 12²) = 10.583 mm wide.
    let made = with(16.0);
    let mill = &made.operations[1];
    figure(mill, "start diameter", 16.0);
    figure(mill, "finish across, from that diameter", 12.0);
    figure(mill, "depth of a flat", 2.0);
    figure(mill, "width of a flat", 10.583005);
    let codes = |sheet: &Sheet| -> Vec<(String, String)> {
        let of_mill = sheet.findings.iter().filter(|one| one.place.starts_with("/operations/1/"));
        of_mill.map(|one| (one.code.to_string(), one.place.clone())).collect()
    };
    assert_eq!(codes(&made), []);
    // From the bar of 20 mm the same cut leaves 16 mm; nothing leaves 13 mm; and no bar is 25 mm.
    let bar = sheet(&plan(asked.clone(), json!([cut])));
    assert!(bar.findings.iter().any(|one| one.code == "cut_too_shallow"), "{:#?}", bar.findings);
    let found = |diameter: f64, code: &str, field: &str| {
        let codes = codes(&with(diameter));
        assert!(codes.contains(&(code.into(), format!("/operations/1/{field}"))), "{diameter}: {codes:?}");
    };
    found(13.0, "start_not_there", "diameter");
    found(25.0, "larger_than_bar", "diameter");
}

#[test]
fn a_grind_shows_the_sizes_before_and_after() {
    let ground = |fields: Value| {
        let mut grind = json!({"kind": "grind", "stock": 0.15, "infeed": 0.01, "travel": 40, "wheel_speed": 1450,
            "wheel": {"name": "a wheel", "diameter": 400, "rated_speed": 2100}});
        grind.as_object_mut().unwrap().extend(fields.as_object().unwrap().clone());
        only(grind)
    };
    let round =
        ground(json!({"method": "cylindrical", "diameter": 19.8, "traverse_feed": 10, "work_speed": 200}));
    figure(&round, "start diameter", 19.8);
    figure(&round, "finish diameter", 19.5);
    let flat = ground(json!({"method": "surface", "width": 20, "crossfeed": 3, "table_speed": 15}));
    figure(&flat, "ground off", 0.15);
    assert!(flat.figures.get("start_diameter").is_none());
}

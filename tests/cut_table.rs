//! The example that runs a formula over a table, against arithmetic by hand.
use std::path::PathBuf;

#[path = "../examples/cut_table.rs"]
#[allow(dead_code, reason = "its main is run by hand")]
mod example;
use example::run;

/// Writes a table for one test and tells its path.
fn table(name: &str, text: &str) -> String {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

fn refusal(words: &[&str]) -> String {
    run(words).unwrap_err().to_string()
}

#[test]
fn the_table_that_comes_with_it() {
    let (results, remarks) = run(&[]).unwrap();
    let lines: Vec<Vec<&str>> = results.lines().map(|line| line.split(',').collect()).collect();
    let cell = |row: usize, head: &str| lines[row][lines[0].iter().position(|name| *name == head).unwrap()];
    assert_eq!(lines.len(), 6);
    // By hand: π · 25 · 1500 / 1000 = 117.81 m/min; 0.2 · 1500 = 300 mm/min, in which 60 mm take 0.2 min;
    // 117.81 · 0.2 · 1.5 = 35.343 cm³/min; 0.2² / (32 · 0.8) = 0.0015625 mm.
    assert_eq!(cell(1, "surface_speed m/min"), "117.81");
    assert_eq!(cell(1, "feed_rate mm/min"), "300.00");
    assert_eq!(cell(1, "time min"), "0.20000");
    assert_eq!(cell(1, "removal_rate cm³/min"), "35.343");
    assert_eq!(cell(1, "roughness_ra µm"), "1.5625");
    // 1775 · 0.2^-0.24 = 2611.9 N/mm² on 0.3 mm² are 783.56 N; times 117.81 / 60000, 1.5385 kW.
    assert_eq!(cell(1, "cutting_power kW"), "1.5385");
    for bad in [3, 4] {
        assert!(lines[bad].len() == 12 && lines[bad].iter().all(|cell| cell.is_empty()));
    }
    let remarks: Vec<_> = remarks.lines().collect();
    assert_eq!(remarks.len(), 3);
    assert!(remarks[0].starts_with("row 3: no answer") && remarks[0].contains("half the workpiece_diameter"));
    assert!(remarks[1].starts_with("row 4: no answer") && remarks[1].contains("feed_per_revolution"));
    assert!(remarks[2].starts_with("row 5: take care: mc is 0.45"));
}

#[test]
fn a_table_of_ones_own() {
    let path = table("speeds.csv", "surface_speed, diameter\n100, 0.5\n200, -1\n");
    // 100 · 12 / (π · 0.5) = 763.94 rev/min; 100 · 1000 / (π · 0.5) = 63 662 in metric units.
    let (results, remarks) = run(&["spindle_speed", "inch", &path]).unwrap();
    assert_eq!(results, "spindle_speed rev/min\n763.94\n\n");
    assert_eq!(remarks, "row 2: no answer: spindle_speed: diameter must be greater than 0 in, not -1 in\n");
    assert!(run(&["spindle_speed", "metric", &path]).unwrap().0.contains("\n63662\n"));
    // Three parts of 10 with two cuts of 1 between them from 33, by the defaults of the rest.
    let path = table("bars.csv", "kerf,bar_length,part_length\n1,33,10\n");
    assert_eq!(run(&["parts_per_bar", "inch", &path]).unwrap().0, "parts_per_bar\n3.0000\n");
}

#[test]
fn what_cannot_be_run_is_told() {
    let path = table("faults.csv", "surface_speed,diameter\n1,5,0.5\n");
    assert!(refusal(&["spindle_speed", "inch", &path]).contains("row 1 has 3 cells, not 2"));
    assert!(refusal(&["parts_per_bar", "inch", &path]).contains("takes no `surface_speed`"));
    assert!(refusal(&["boring", "inch", &path]).contains("boring_bar_deflection"));
    let path = table("lacking.csv", "surface_speed\n100\n");
    assert!(refusal(&["spindle_speed", "inch", &path]).contains("no column `diameter`"));
    let path = table("words.csv", "surface_speed,diameter\nfast,1\n");
    assert!(refusal(&["spindle_speed", "inch", &path]).contains("`fast` is not a number"));
    assert!(
        refusal(&["spindle_speed", "furlong", &path]).contains("expected `inch` or `in`, `metric` or `mm`")
    );
}

use super::*;
use crate::cutting::machine::Machine;
use crate::cutting::milling_cut::MILLING_CUT;
use crate::quantity::*;

fn cut() -> PathCut {
    PathCut {
        cutter_diameter: Length::millimetres(10.0),
        teeth: 3,
        spindle_speed: SpindleSpeed::rev_per_minute(6000.0),
        chip_thickness: Length::millimetres(0.05),
        least_chip_thickness: None,
        kc11: Stress::megapascals(1700.0),
        mc: 0.25,
        entering_angle: Angle::degrees(90.0),
        greatest_force: None,
        stiffness: None,
        greatest_deflection: None,
        greatest_power: None,
        least_feed_rate: None,
        greatest_feed_rate: None,
        acceleration: None,
        start_feed_rate: FeedRate::millimetres_per_minute(0.0),
        end_feed_rate: FeedRate::millimetres_per_minute(0.0),
        units: Units::Metric,
    }
}

fn feeds_of(cut: &PathCut, rows: &[[f64; 4]]) -> Result<PathFeeds, PathFeedError> {
    let column = |k: usize| rows.iter().map(|row| row[k]).collect::<Vec<_>>();
    let [lengths, curvatures, radial_widths, axial_depths] = [0, 1, 2, 3].map(column);
    let path = PathColumns {
        lengths: &lengths,
        curvatures: &curvatures,
        radial_widths: &radial_widths,
        axial_depths: &axial_depths,
    };
    path_feeds(cut, &path)
}

fn near(got: f64, wanted: f64) {
    assert!((got - wanted).abs() <= 1e-9 * wanted.abs(), "{got} is not {wanted}");
}

/// What a whole milling cut says of a feed on a straight line.
fn figures(cut: &PathCut, feed: f64, width: f64, depth: f64) -> [f64; 12] {
    let mut y = [0.0; 12];
    let (n, teeth) = (cut.spindle_speed.metric(), f64::from(cut.teeth));
    let x = [
        cut.cutter_diameter.metric(),
        teeth,
        n,
        feed / (n * teeth),
        width,
        depth,
        cut.kc11.metric(),
        cut.mc,
        cut.entering_angle.metric(),
        0.0,
        0.0,
        0.01,
        1.0,
        1.0,
    ];
    MILLING_CUT.call(Units::Metric, &x, &mut y).unwrap();
    y
}

#[test]
fn each_limit_is_met_as_the_whole_cut_has_it() {
    let rows = [[5.0, 0.0, 1.0, 8.0], [5.0, 0.0, 4.0, 8.0], [5.0, 0.0, 10.0, 8.0]];
    let chip = feeds_of(&cut(), &rows).unwrap();
    for ((feed, row), bound) in chip.feed_rates.iter().zip(rows).zip(&chip.bounds) {
        near(figures(&cut(), *feed, row[2], row[3])[4], 0.05);
        assert_eq!(*bound, FeedBound::ChipThickness as i32);
    }
    let power = PathCut { greatest_power: Some(Power::kilowatts(1.0)), ..cut() };
    let made = feeds_of(&power, &rows).unwrap();
    for (k, row) in rows.iter().enumerate() {
        let drawn = figures(&power, made.feed_rates[k], row[2], row[3])[9];
        match made.bounds[k] == FeedBound::Power as i32 {
            true => near(drawn, 1.0),
            false => assert!(drawn < 1.0),
        }
    }
    assert_eq!(made.bounds, [0, 3, 3]);
    let force = PathCut { greatest_force: Some(Force::newtons(150.0)), ..cut() };
    let made = feeds_of(&force, &rows).unwrap();
    for (k, row) in rows.iter().enumerate() {
        let y = figures(&force, made.feed_rates[k], row[2], row[3]);
        near(y[7] * y[3].ceil().max(1.0), 150.0);
        assert_eq!(made.bounds[k], FeedBound::Force as i32);
    }
    // A stiffness of 3000 N/mm and 0.05 mm are 150 N too.
    let bent = PathCut {
        stiffness: Some(Stiffness::newtons_per_millimetre(3000.0)),
        greatest_deflection: Some(Length::millimetres(0.05)),
        ..cut()
    };
    let deflected = feeds_of(&bent, &rows).unwrap();
    assert_eq!(deflected.bounds, [FeedBound::Deflection as i32; 3]);
    near(deflected.feed_rates[1], made.feed_rates[1]);
}

// By hand: 100 mm and 10 mm from rest to rest, 200 mm/s at most, 2 m/s²: 0.6 s, and √(2000 · 10) mm/s in 0.1414 s.
#[test]
fn moves_from_rest_to_rest_take_their_time() {
    let air = PathCut {
        greatest_feed_rate: Some(FeedRate::millimetres_per_minute(12_000.0)),
        acceleration: Some(Acceleration::metres_per_second_squared(2.0)),
        ..cut()
    };
    let long = feeds_of(&air, &[[100.0, 0.0, 0.0, 0.0]]).unwrap();
    near(long.totals.time, 0.6 / 60.0);
    assert_eq!(long.bounds, [FeedBound::FeedRate as i32]);
    // Cut into pieces it takes as long.
    let pieces = feeds_of(&air, &[[10.0, 0.0, 0.0, 0.0]; 10]).unwrap();
    near(pieces.totals.time, 0.6 / 60.0);
    let short = feeds_of(&air, &[[10.0, 0.0, 0.0, 0.0]]).unwrap();
    near(short.totals.time, 0.02_f64.sqrt() / 60.0);
    near(short.feed_rates[0], 60.0 * 20_000.0_f64.sqrt());
    assert_eq!(short.bounds, [FeedBound::Acceleration as i32]);
    // Across a curve of 2 mm: √(2000 · 2) mm/s.
    let running = PathCut {
        start_feed_rate: FeedRate::millimetres_per_minute(1000.0),
        end_feed_rate: FeedRate::millimetres_per_minute(1000.0),
        ..air
    };
    let curve = feeds_of(&running, &[[30.0, 0.5, 0.0, 0.0]]).unwrap();
    near(curve.feed_rates[0], 60.0 * 4000.0_f64.sqrt());
    assert_eq!(curve.bounds, [FeedBound::Curve as i32]);
    let fast = PathCut { start_feed_rate: FeedRate::millimetres_per_minute(12_000.0), ..air };
    assert!(matches!(feeds_of(&fast, &[[1.0, 0.0, 0.0, 0.0]]), Err(PathFeedError::Start { .. })));
}

// By hand: 4 kW of the motor at 2000 rev/min and 0.8 of it at the cutter are 3.2 kW; 10 N·m at 6000 rev/min are 2π kW, and
// 8 of 10 kW of the motor are more.
#[test]
fn a_machine_sets_power_feed_and_acceleration() {
    let json = r#"{"units": "metric", "least_spindle_speed": 100, "greatest_spindle_speed": 8000, "least_feed_rate": 20,
        "greatest_feed_rate": 6000, "greatest_acceleration": 3, "curve": [{"spindle_speed": 1000, "power": 2},
        {"spindle_speed": 3000, "power": 6, "torque": 10}, {"spindle_speed": 6000, "power": 10, "torque": 10}]}"#;
    let machine = Machine::from_json(json).unwrap();
    let at = |speed: f64| PathCut { spindle_speed: SpindleSpeed::rev_per_minute(speed), ..cut() };
    let power = |speed: f64| {
        at(speed).on_machine(&machine, 0.8).unwrap().greatest_power.unwrap().in_units(Units::Metric)
    };
    near(power(2000.0), 3.2_f64.min(10.0 * 2000.0 * std::f64::consts::PI / 30_000.0));
    near(power(6000.0), 2.0 * std::f64::consts::PI);
    let on = at(6000.0).on_machine(&machine, 0.8).unwrap();
    near(on.greatest_feed_rate.unwrap().in_units(Units::Metric), 6000.0);
    near(on.acceleration.unwrap().in_units(Units::Metric), 3.0);
    let own = PathCut { greatest_power: Some(Power::kilowatts(1.0)), ..at(6000.0) };
    near(own.on_machine(&machine, 0.8).unwrap().greatest_power.unwrap().in_units(Units::Metric), 1.0);
    let fast = at(9000.0).on_machine(&machine, 0.8).unwrap_err().to_string();
    assert_eq!(fast, "spindle_speed must be within the machine's, 100 to 8000 rev/min, not 9000 rev/min");
    assert!(at(2000.0).on_machine(&machine, 80.0).unwrap_err().to_string().contains("efficiency"));
    // A deep slot within a tenth of the power would run below the lowest feed.
    let slow = PathCut { greatest_power: Some(Power::kilowatts(0.01)), ..at(200.0) };
    let slow = slow.on_machine(&machine, 0.8).unwrap();
    assert!(matches!(
        feeds_of(&slow, &[[5.0, 0.0, 10.0, 20.0]]),
        Err(PathFeedError::Slow { segment: 0, .. })
    ));
    let dead = Machine::from_json(&json.replace("\"power\": 2", "\"power\": 0")).unwrap();
    assert!(matches!(at(1000.0).on_machine(&dead, 0.8), Err(PathFeedError::NoPower { .. })));
}

#[test]
fn inches_are_millimetres_here_too() {
    let rows = [[5.0, 0.02, 1.0, 8.0], [5.0, -0.05, 4.0, 8.0]];
    let limits = PathCut {
        greatest_force: Some(Force::newtons(150.0)),
        greatest_power: Some(Power::kilowatts(0.2)),
        acceleration: Some(Acceleration::metres_per_second_squared(2.0)),
        ..cut()
    };
    let inch_rows = rows.map(|[a, b, c, d]| [a / 25.4, b * 25.4, c / 25.4, d / 25.4]);
    let (mm, inch) = (
        feeds_of(&limits, &rows).unwrap(),
        feeds_of(&PathCut { units: Units::Inch, ..limits }, &inch_rows).unwrap(),
    );
    for k in 0..2 {
        near(inch.feed_rates[k] * 25.4, mm.feed_rates[k]);
        near(inch.times[k], mm.times[k]);
        assert_eq!(inch.bounds[k], mm.bounds[k]);
    }
}

#[test]
fn what_cannot_be_is_told() {
    let told = |row: [f64; 4]| feeds_of(&cut(), &[[5.0, 0.0, 1.0, 8.0], row]).unwrap_err().to_string();
    assert_eq!(told([0.0, 0.0, 1.0, 8.0]), "segment 1: length must be greater than 0, not 0 mm");
    assert!(told([5.0, f64::NAN, 1.0, 8.0]).starts_with("segment 1: curvature must be at least -2"));
    assert!(told([5.0, -0.21, 1.0, 8.0]).contains("not -0.21 1/mm"));
    assert_eq!(
        told([5.0, 0.0, 10.5, 8.0]),
        "segment 1: radial_width must be from 0 to the cutter's diameter, not 10.5 mm"
    );
    assert_eq!(told([5.0, 0.0, 1.0, -1.0]), "segment 1: axial_depth must be zero or more, not -1 mm");
    assert!(told([5.0, 0.0, 0.0, 8.0]).contains("segment 1 cuts nothing"));
    let bad = |cut: PathCut| feeds_of(&cut, &[[5.0, 0.0, 1.0, 8.0]]).unwrap_err().to_string();
    assert_eq!(bad(PathCut { teeth: 0, ..cut() }), "teeth must be from 1 to 10000, not 0");
    assert_eq!(bad(PathCut { mc: 1.0, ..cut() }), "mc must be from 0 to 0.9, not 1");
    assert!(
        bad(PathCut { stiffness: Some(Stiffness::newtons_per_millimetre(1.0)), ..cut() })
            .contains("give both")
    );
    assert!(bad(PathCut { greatest_force: Some(Force::newtons(0.0)), ..cut() }).contains("not 0 N"));
    let rubbing = PathCut {
        least_chip_thickness: Some(Length::millimetres(0.02)),
        greatest_force: Some(Force::newtons(10.0)),
        ..cut()
    };
    assert_eq!(feeds_of(&rubbing, &[[5.0, 0.0, 1.0, 8.0]]).unwrap().totals.rubbing, 1);
}

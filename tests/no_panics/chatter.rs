//! Stability of cuts, and feeds along toolpaths.
use super::*;
use tenths::cutting::chatter::{
    ChatterCut, Engagement, MillingDirection, ResponsePoint, SpeedRange, Stability, StabilityError,
    VibrationMode,
};
use tenths::cutting::path_feeds::{PathColumns, PathCut, path_feeds, path_feeds_into};

fn number<Q: Quantity>(metric: f64) -> Q {
    Q::from_metric(metric)
}

fn cut_of(force: f64, milling: bool, angle: f64) -> ChatterCut {
    let engagement = match milling {
        true => Engagement::Milling {
            entry_angle: number(0.0),
            exit_angle: number(angle),
            radial_force_ratio: 0.3,
        },
        false => Engagement::Continuous { force_angle: number(angle) },
    };
    ChatterCut { specific_cutting_force: number(force), teeth: 1, engagement, units: Units::Metric }
}

/// Everything that a stability has, at a speed and a depth.
fn all_of(stability: &Stability, x: f64) -> Result<(), StabilityError> {
    let range = Some(SpeedRange { least: number(x), greatest: number(2.0 * x) });
    black_box((
        stability.depth(number(x)).is_ok(),
        stability.cut_at(number(x)).is_ok(),
        stability.lobes(range).is_ok(),
        stability.deepest(range).is_ok(),
        stability.nearest_stable_speed(number(x), number(3000.0), None).is_ok(),
        Stability::to_svg(stability, range).is_ok(),
        stability.usual_range(),
        stability.to_string(),
    ));
    Ok(())
}

#[test]
fn stability() {
    black_box(MillingDirection::parse("sideways").is_ok());
    none_panics!(
        |x: f64| {
            for place in 0..5 {
                let mut given = [30_000.0, 10_000.0, 0.05, 2000.0, 60.0];
                given[place] = x;
                let [frequency, stiffness, damping, force, angle] = given;
                let mode = VibrationMode::new(number(frequency), number(stiffness), damping);
                for milling in [false, true] {
                    let cut = cut_of(force, milling, angle);
                    black_box(Stability::of_modes(&[mode, mode.in_direction(number(angle))], &cut).is_ok());
                }
            }
        },
        |diameter: f64, width: f64| Engagement::side_cut(
            number(diameter),
            number(width),
            MillingDirection::Down,
            0.3,
            Units::Inch
        ),
        |x: f64| {
            let mode = VibrationMode::new(number(30_000.0), number(10_000.0), 0.05);
            all_of(&Stability::of_modes(&[mode], &cut_of(2000.0, false, 0.0))?, x)
        },
        |x: f64| {
            let point = |k: f64| ResponsePoint {
                frequency: number(6000.0 * k),
                real: number(x),
                imaginary: number(-k),
                real_across: None,
                imaginary_across: Some(number(x)),
            };
            Stability::of_response(&[1.0, 2.0, 3.0, 4.0].map(point), &cut_of(2000.0, true, 60.0))
        },
        |x: f64| VibrationMode::of_tool(
            number(x),
            number(40.0),
            number(6e5),
            number(1.45e-5),
            number(0.0),
            x
        ),
    );
}

#[test]
fn feeds_along_a_path() {
    let machine = r#"{"units": "metric", "least_spindle_speed": 60, "greatest_spindle_speed": 6000,
        "curve": [{"spindle_speed": 60, "power": 5, "torque": 9}], "greatest_acceleration": 2}"#;
    let machine = cutting::machine::Machine::from_json(machine).unwrap();
    none_panics!(|x: f64| {
        for place in 0..10 {
            let mut given = [10.0, 6000.0, 0.05, 1700.0, 0.25, 5.0, 0.0, 1.0, 8.0, 100.0];
            given[place] = x;
            let [diameter, speed, chip, kc11, mc, length, curvature, width, depth, limit] = given;
            let cut = PathCut {
                cutter_diameter: number(diameter),
                teeth: 3,
                spindle_speed: number(speed),
                chip_thickness: number(chip),
                least_chip_thickness: None,
                kc11: number(kc11),
                mc,
                entering_angle: number(90.0),
                greatest_force: Some(number(limit)),
                stiffness: None,
                greatest_deflection: None,
                greatest_power: Some(number(limit)),
                least_feed_rate: (place % 3 == 0).then(|| number(limit)),
                greatest_feed_rate: None,
                acceleration: (place % 2 == 0).then(|| number(limit)),
                start_feed_rate: number(0.0),
                end_feed_rate: number(0.0),
                units: Units::Inch,
            };
            let path = PathColumns {
                lengths: &[length, 1.0],
                curvatures: &[curvature, 0.0],
                radial_widths: &[width, 1.0],
                axial_depths: &[depth, 1.0],
            };
            let mut few = [0.0];
            black_box((
                path_feeds(&cut, &path).is_ok(),
                cut.on_machine(&machine, limit).is_ok(),
                path_feeds_into(&cut, &path, &mut few, &mut [0.0], &mut [0], &mut [0.0]).is_ok(),
            ));
        }
    });
}

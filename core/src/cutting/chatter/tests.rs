use super::law::mean_factors;
use super::*;
use crate::Units;
use crate::quantity::*;

fn rpm(n: f64) -> SpindleSpeed {
    SpindleSpeed::rev_per_minute(n)
}

fn near(got: f64, wanted: f64, within: f64) {
    assert!((got - wanted).abs() <= within * wanted.abs(), "{got} is not {wanted}");
}

fn mode(frequency: f64, stiffness: f64, damping: f64) -> VibrationMode {
    VibrationMode::new(Frequency::hertz(frequency), Stiffness::newtons_per_millimetre(stiffness), damping)
}

fn turning(force: f64) -> ChatterCut {
    ChatterCut {
        specific_cutting_force: Stress::megapascals(force),
        teeth: 1,
        engagement: Engagement::Continuous { force_angle: Angle::degrees(0.0) },
        units: Units::Metric,
    }
}

// By hand: 2 k ζ (1 + ζ) / Ks at f √(1 + 2 ζ), with J. Tlusty's law for one mode.
#[test]
fn one_mode_in_turning_has_its_closed_form() {
    let stability = Stability::of_modes(&[mode(500.0, 10_000.0, 0.05)], &turning(2000.0)).unwrap();
    near(stability.critical_depth.metric(), 0.525, 1e-12);
    near(stability.critical_frequency.in_units(Units::Metric), 500.0 * 1.1_f64.sqrt(), 1e-7);
}

// By hand: from quarter to half a turn with Kr = 0.3, in closed form.
#[test]
fn factors_of_a_quarter_turn() {
    let half_pi = std::f64::consts::FRAC_PI_2;
    let wanted = [-1.0 - 0.3 * half_pi, -half_pi - 0.3, half_pi - 0.3, 1.0 - 0.3 * half_pi];
    for (got, wanted) in mean_factors(0.0, 90.0, 0.3).into_iter().zip(wanted) {
        near(got, wanted, 1e-14);
    }
}

// The law itself, written out: 1 + b Ks G (1 - exp(-i ω T)) must vanish at the depth and frequency found.
#[test]
#[allow(clippy::disallowed_methods)]
fn the_cut_found_closes_the_loop() {
    let stability = Stability::of_modes(&[mode(500.0, 10_000.0, 0.05)], &turning(2000.0)).unwrap();
    for n in [300.0, 1234.5, 7000.0, 10_000.0, 15_000.0, 31_000.0, 90_000.0] {
        let cut = stability.cut_at(rpm(n)).unwrap();
        let (f, b) = (cut.frequency.unwrap().in_units(Units::Metric), cut.depth.metric());
        let r = f / 500.0;
        let (re, im) = ((1.0 - r * r) * 10_000.0, 2.0 * 0.05 * r * 10_000.0);
        let square = re * re + im * im;
        let (gr, gi) = (re / square, -im / square);
        let turn = 2.0 * std::f64::consts::PI * f * 60.0 / n;
        let (c, s) = (1.0 - turn.cos(), turn.sin());
        let (real, imaginary) = (1.0 + b * 2000.0 * (gr * c - gi * s), b * 2000.0 * (gr * s + gi * c));
        if n > 1000.0 {
            assert!(real.abs() < 1e-6 && imaginary.abs() < 1e-6, "{n}: {real} {imaginary}");
        } else {
            near(b, stability.critical_depth.metric(), 0.02);
        }
        assert!(b >= stability.critical_depth.metric() * (1.0 - 1e-12));
    }
}

#[test]
fn the_nearest_stable_speed_is_on_the_edge() {
    let stability = Stability::of_modes(&[mode(500.0, 10_000.0, 0.05)], &turning(2000.0)).unwrap();
    let depth = Length::millimetres(1.0);
    let bad = rpm(12_000.0);
    assert!(stability.depth(bad).unwrap() < depth);
    let cut = stability.nearest_stable_speed(depth, bad, None).unwrap();
    near(cut.depth.metric(), 1.0, 1e-3);
    // Every speed nearer is unstable.
    let (from, to) = (bad.metric(), cut.spindle_speed.metric());
    for k in 0..200 {
        let n = from + (to - from) * 0.999 * f64::from(k) / 200.0;
        for n in [n, 2.0 * from - n] {
            assert!(stability.depth(rpm(n)).unwrap() < depth, "{n}");
        }
    }
    let same = stability.nearest_stable_speed(Length::millimetres(0.5), bad, None).unwrap();
    assert_eq!(same.spindle_speed, bad);
    let narrow = SpeedRange { least: rpm(11_900.0), greatest: rpm(12_100.0) };
    let told = stability.nearest_stable_speed(Length::millimetres(9.0), bad, Some(narrow)).unwrap_err();
    assert!(told.to_string().contains("11900 to 12100 rev/min"), "{told}");
}

#[test]
fn no_speed_is_stable_deeper_than_the_deepest() {
    let modes = [mode(452.0, 20_000.0, 0.03), mode(1448.0, 40_000.0, 0.0165)];
    let cut = ChatterCut {
        teeth: 3,
        engagement: Engagement::Milling {
            entry_angle: Angle::degrees(0.0),
            exit_angle: Angle::degrees(80.0),
            radial_force_ratio: 0.3,
        },
        ..turning(800.0)
    };
    let stability = Stability::of_modes(&modes, &cut).unwrap();
    let range = SpeedRange { least: rpm(3000.0), greatest: rpm(18_000.0) };
    let deepest = stability.deepest(Some(range)).unwrap().depth.metric();
    let tried = (0..1500).map(|k| stability.depth(rpm(3000.0 + 10.0 * f64::from(k))).unwrap().metric());
    let greatest = tried.fold(0.0_f64, f64::max);
    assert!(deepest >= greatest && deepest <= 1.02 * greatest, "{deepest} {greatest}");
    let lobes = stability.lobes(Some(range)).unwrap();
    assert!(lobes.len() > 300 && lobes.is_sorted_by_key(|point| point.lobe));
    for point in &lobes {
        let limit = stability.depth(point.spindle_speed).unwrap();
        assert!(limit.metric() <= point.depth.metric() * (1.0 + 1e-9), "{point:?} {limit:?}");
    }
    let svg = stability.to_svg(Some(range)).unwrap();
    assert!(svg.starts_with("<svg") && svg.ends_with("</svg>\n") && !svg.contains("NaN"));
}

#[test]
fn a_measured_response_is_that_of_its_mode() {
    let exact = Stability::of_modes(&[mode(500.0, 10_000.0, 0.05)], &turning(2000.0)).unwrap();
    let point = |k: u32| {
        let f = 100.0 + f64::from(k);
        let r = f / 500.0;
        let (re, im) = ((1.0 - r * r) * 1e4, 0.1 * r * 1e4);
        ResponsePoint {
            frequency: Frequency::hertz(f),
            real: Compliance::millimetres_per_newton(re / (re * re + im * im)),
            imaginary: Compliance::millimetres_per_newton(-im / (re * re + im * im)),
            real_across: None,
            imaginary_across: None,
        }
    };
    let points: Vec<_> = (0..1000).map(point).collect();
    let measured = Stability::of_response(&points, &turning(2000.0)).unwrap();
    // The chords between points, 1 Hz apart, cost so much.
    near(measured.critical_depth.metric(), 0.525, 3e-4);
    for n in [3000.0, 8000.0, 10_000.0, 15_000.0] {
        near(measured.depth(rpm(n)).unwrap().metric(), exact.depth(rpm(n)).unwrap().metric(), 1e-3);
    }
    let told = |points: &[ResponsePoint]| Stability::of_response(points, &turning(2000.0)).unwrap_err();
    let mut bad = points.clone();
    bad[7].real = Compliance::millimetres_per_newton(f64::NAN);
    assert!(matches!(told(&bad), StabilityError::Point { row: 7, column: "real", .. }));
    bad.clone_from(&points);
    bad.swap(30, 31);
    assert!(matches!(told(&bad), StabilityError::Unsorted { row: 31, .. }));
    bad.clone_from(&points);
    bad.drain(40..47);
    assert_eq!(told(&bad), StabilityError::Hole { from: 139.0, to: 147.0 });
    bad = points
        .iter()
        .map(|point| ResponsePoint {
            imaginary: Compliance::from_metric(-point.imaginary.metric()),
            ..*point
        })
        .collect();
    assert!(matches!(told(&bad), StabilityError::Sign { column: "imaginary", .. }));
    assert!(matches!(told(&points[..2]), StabilityError::TooFew { least: 3, count: 2 }));
    bad = points.iter().map(|point| ResponsePoint { real_across: Some(point.real), ..*point }).collect();
    assert_eq!(told(&bad), StabilityError::Across);
}

#[test]
fn what_cannot_be_is_told() {
    let told =
        |modes: &[VibrationMode], cut: &ChatterCut| Stability::of_modes(modes, cut).unwrap_err().to_string();
    let good = mode(500.0, 10_000.0, 0.05);
    let cut = turning(2000.0);
    assert!(told(&[], &cut).contains("give at least one"));
    assert_eq!(
        told(&[good, mode(500.0, 0.0, 0.05)], &cut),
        "mode 1: its stiffness must be greater than 0, not 0 N/mm"
    );
    let inch = ChatterCut { units: Units::Inch, ..cut };
    assert!(told(&[mode(500.0, -1.0, 0.05)], &inch).contains("lbf/in"));
    assert_eq!(
        told(&[mode(-1.0, 1.0, 0.05)], &cut),
        "mode 0: its frequency must be greater than 0, not -1 Hz"
    );
    for damping in [0.0, -0.01, 1.0, f64::NAN] {
        assert!(told(&[mode(500.0, 1.0, damping)], &cut).contains("damping ratio must be between 0 and 1"));
    }
    assert!(told(&[good.in_direction(Angle::degrees(90.0))], &cut).contains("along the chip's thickness"));
    assert!(told(&[good], &ChatterCut { teeth: 4, ..cut }).contains("4 teeth need an engagement"));
    let milling = |entry: f64, exit: f64| ChatterCut {
        engagement: Engagement::Milling {
            entry_angle: Angle::degrees(entry),
            exit_angle: Angle::degrees(exit),
            radial_force_ratio: 0.3,
        },
        ..cut
    };
    assert!(told(&[good], &milling(90.0, 90.0)).contains("exit_angle must be above entry_angle"));
    assert!(told(&[good], &milling(-1.0, 90.0)).contains("entry_angle must be from 0"));
    assert!(told(&[good], &turning(f64::NAN)).contains("specific_cutting_force must be greater than 0"));
    let stability = Stability::of_modes(&[good], &cut).unwrap();
    assert!(stability.depth(rpm(0.0)).is_err() && stability.depth(rpm(f64::NAN)).is_err());
    let range = |least, greatest| Some(SpeedRange { least: rpm(least), greatest: rpm(greatest) });
    assert!(matches!(stability.lobes(range(2.0, 1.0)), Err(StabilityError::Range { .. })));
    assert!(matches!(stability.lobes(range(1.0, 1e5)), Err(StabilityError::TooMany { .. })));
    let side = Engagement::side_cut(
        Length::millimetres(10.0),
        Length::millimetres(10.1),
        MillingDirection::Up,
        0.3,
        Units::Metric,
    );
    assert!(side.unwrap_err().to_string().contains("not 10.1 mm"));
}

#[test]
fn it_is_restored_from_its_values() {
    use crate::object::{Object, Restored};
    let modes = [mode(500.0, 10_000.0, 0.05), mode(900.0, 2e4, 0.02).in_direction(Angle::degrees(20.0))];
    let stability = Stability::of_modes(&modes, &turning(2000.0)).unwrap();
    assert_eq!(Stability::restore(&stability.tell()), Some(stability));
}

use super::*;
use crate::math::{cos_degrees, sin_degrees};
use crate::quantity::{Quantity, Units};
use FormCriterion::{LeastSquares, MinimumZone};
use FormFeature::*;
use proptest::prelude::*;

fn fit(feature: FormFeature, criterion: FormCriterion, points: &[f64], columns: usize) -> FormFit {
    FormFit::new(feature, criterion, points, columns, Units::Metric).unwrap_or_else(|error| panic!("{error}"))
}

fn near(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{got}, not {want}");
}

/// A point in a frame that is turned and moved, so that nothing is along a coordinate axis.
fn turned(local: [f64; 3]) -> [f64; 3] {
    // 2/3, -1/3, 2/3 and so on are of length 1 and square to each other.
    let axes = [[2.0, -1.0, 2.0], [2.0, 2.0, -1.0], [-1.0, 2.0, 2.0]];
    std::array::from_fn(|k| {
        [120.0, -45.0, 33.0][k] + (0..3).map(|j| local[j] * axes[j][k] / 3.0).sum::<f64>()
    })
}

/// The direction of the third axis of that frame.
const THIRD: [f64; 3] = [-1.0 / 3.0, 2.0 / 3.0, 2.0 / 3.0];

fn parallel(direction: &[f64], want: [f64; 3]) {
    let along: f64 = direction.iter().zip(want).map(|(one, other)| one * other).sum();
    near(along.abs(), 1.0, 1e-12);
}

// Gander, Golub and Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994), section 2: six points, centre
// (4.7398, 2.9835) and radius 4.7142 (from memory; scipy.optimize.least_squares gives the same to all of these digits).
const SIX: [f64; 12] = [1.0, 7.0, 2.0, 6.0, 5.0, 8.0, 7.0, 7.0, 9.0, 5.0, 3.0, 7.0];

#[test]
fn a_circle_is_as_published() {
    let circle = fit(Circle, LeastSquares, &SIX, 2);
    near(circle.centre[0], 4.7398, 5e-5);
    near(circle.centre[1], 2.9835, 5e-5);
    near(circle.radius.unwrap(), 4.7142, 5e-5);
}

// By hand: ends of a cross of 10.01 and 10 have the zone from 10 to 10.01 about the middle, which no other centre narrows, since
// each pair of opposite points keeps its distance.
#[test]
fn an_oval_has_the_zone_of_its_two_diameters() {
    let points = [10.01, 0.0, 0.0, 10.0, -10.01, 0.0, 0.0, -10.0];
    for criterion in [LeastSquares, MinimumZone] {
        let circle = fit(Circle, criterion, &points, 2);
        near(circle.deviation, 0.01, 1e-12);
        near(circle.radius.unwrap(), 10.005, 1e-9);
        assert!(circle.highest.is_multiple_of(2) && !circle.lowest.is_multiple_of(2), "{circle:?}");
    }
}

// By hand: a triangle of lobes, r = 20 + 0.01 cos 3t, has its zone of 0.02 about the middle; the circle is moved off, and the
// least-squares centre finds it back for evenly spread points.
#[test]
fn lobes_are_found_about_their_centre() {
    let points: Vec<f64> = (0..36)
        .flat_map(|k| {
            let t = 10.0 * f64::from(k);
            let r = 20.0 + 0.01 * cos_degrees(3.0 * t);
            [5.0 + r * cos_degrees(t), -7.0 + r * sin_degrees(t)]
        })
        .collect();
    for criterion in [LeastSquares, MinimumZone] {
        let circle = fit(Circle, criterion, &points, 2);
        near(circle.centre[0], 5.0, 1e-9);
        near(circle.centre[1], -7.0, 1e-9);
        near(circle.deviation, 0.02, 1e-9);
    }
}

// By hand: (0, 0), (1, 0.3), (2, 0): the zone lies along the line through the ends, which is narrower than along any side,
// 0.3. The least-squares line is y = 0.1, with the same zone.
#[test]
fn a_bowed_line_lies_between_two_parallels() {
    let points = [0.0, 0.0, 1.0, 0.3, 2.0, 0.0];
    for criterion in [LeastSquares, MinimumZone] {
        let line = fit(Line, criterion, &points, 2);
        near(line.deviation, 0.3, 1e-12);
        assert!(line.highest == 1 || line.lowest == 1, "{line:?}");
    }
    near(fit(Line, LeastSquares, &points, 2).centre[1], 0.1, 1e-12);
    near(fit(Line, MinimumZone, &points, 2).centre[1], 0.15, 1e-12);
}

// By hand: a square of side 2 with two opposite corners raised by 0.02 and the others lowered by it: the zone of a twisted
// face is 0.04, whatever way it is turned. A point raised in the middle of a face of zone 0 makes a zone of its height.
#[test]
fn flatness_is_the_zone_of_two_planes() {
    let twist: Vec<f64> = [[1.0, 1.0, 0.02], [1.0, -1.0, -0.02], [-1.0, -1.0, 0.02], [-1.0, 1.0, -0.02]]
        .into_iter()
        .flat_map(turned)
        .collect();
    for criterion in [LeastSquares, MinimumZone] {
        near(fit(Plane, criterion, &twist, 3).deviation, 0.04, 1e-12);
    }
    let bump: Vec<f64> = (0..25)
        .map(|k| [f64::from(k % 5) - 2.0, f64::from(k / 5) - 2.0, if k == 12 { 0.05 } else { 0.0 }])
        .flat_map(turned)
        .collect();
    let plane = fit(Plane, MinimumZone, &bump, 3);
    near(plane.deviation, 0.05, 1e-12);
    parallel(&plane.direction, THIRD);
    assert!(plane.highest == 12 || plane.lowest == 12);
}

/// A cylinder, sphere or cone with ripples whose sums with the numbers of the feature vanish over even points.
fn surface(feature: FormFeature, ripple: f64) -> Vec<f64> {
    let rows = (0..8).flat_map(|row| (0..24).map(move |k| (f64::from(row) - 3.5, 15.0 * f64::from(k))));
    rows.map(|(z, t)| {
        let wave = ripple * cos_degrees(4.0 * t);
        match feature {
            Cone => {
                // 3, 4, 5: tangent 3/4. The ripple is square to the surface.
                let (r, z) = (40.0 + 0.75 * 2.0 * z + 0.8 * wave, 2.0 * z - 0.6 * wave);
                [r * cos_degrees(t), r * sin_degrees(t), z]
            }
            Sphere => {
                let (r, up) = (25.0 + wave, 20.0 * z);
                [
                    r * cos_degrees(up) * cos_degrees(t),
                    r * cos_degrees(up) * sin_degrees(t),
                    r * sin_degrees(up),
                ]
            }
            _ => [(25.0 + wave) * cos_degrees(t), (25.0 + wave) * sin_degrees(t), 6.0 * z],
        }
    })
    .flat_map(turned)
    .collect()
}

#[test]
fn surfaces_of_known_make_are_found() {
    for feature in [Cylinder, Sphere, Cone] {
        for ripple in [0.0, 0.004] {
            for criterion in [LeastSquares, MinimumZone] {
                let found = fit(feature, criterion, &surface(feature, ripple), 3);
                near(found.deviation, 2.0 * ripple, 1e-9);
                let radius = if feature == Cone { 40.0 } else { 25.0 };
                // That of a cone is given at the middle of the points.
                near(found.radius.unwrap(), radius, 1e-6);
                if feature != Sphere {
                    parallel(&found.direction, THIRD);
                }
                for (got, want) in found.centre.iter().zip([120.0, -45.0, 33.0]) {
                    near(*got, want, 1e-6);
                }
                if let Some(angle) = found.half_angle {
                    // atan 3/4.
                    near(angle.metric(), 36.869_897_645_844_02, 1e-7);
                    // Wide end first: at positive z.
                    let along: f64 = found.direction.iter().zip(THIRD).map(|(one, other)| one * other).sum();
                    assert!(along > 0.0);
                }
            }
        }
    }
}

// By hand: a helix about an axis lies on a cylinder of radius 0.03, so that its straightness is 0.06.
#[test]
fn straightness_of_an_axis_is_a_diameter() {
    let helix: Vec<f64> = (0..72)
        .map(|k| {
            [0.03 * cos_degrees(15.0 * f64::from(k)), 0.03 * sin_degrees(15.0 * f64::from(k)), f64::from(k)]
        })
        .flat_map(turned)
        .collect();
    let line = fit(Line, MinimumZone, &helix, 3);
    near(line.deviation, 0.06, 2e-4);
    parallel(&line.direction, THIRD);
    let loose = fit(Line, LeastSquares, &helix, 3);
    assert!(loose.deviation >= line.deviation - 1e-12, "{} {}", loose.deviation, line.deviation);
    let bow: Vec<f64> =
        [[0.0, 0.0, 0.0], [0.0, 0.3, 50.0], [0.0, 0.0, 100.0]].into_iter().flat_map(turned).collect();
    near(fit(Line, MinimumZone, &bow, 3).deviation, 0.3, 1e-9);
}

// The standard deviation of a mean: s / √n for the height of a plane, s √(2/n) for the centre of a circle of even points.
#[test]
fn uncertainties_are_those_of_even_points() {
    let circle: Vec<f64> = (0..12)
        .flat_map(|k| {
            let (t, wave) = (30.0 * f64::from(k), if k % 2 == 0 { 0.01 } else { -0.01 });
            [(5.0 + wave) * cos_degrees(t), (5.0 + wave) * sin_degrees(t)]
        })
        .collect();
    let found = fit(Circle, LeastSquares, &circle, 2);
    let sigma = 0.01 * (12.0_f64 / 9.0).sqrt();
    near(found.point_uncertainty.unwrap(), sigma, 1e-9);
    near(found.radius_uncertainty.unwrap(), sigma / 12.0_f64.sqrt(), 1e-9);
    near(found.centre_uncertainty.unwrap(), sigma * (2.0_f64 / 12.0).sqrt(), 1e-9);
    near(found.root_mean_square, 0.01, 1e-12);
    let zone = fit(Circle, MinimumZone, &circle, 2);
    assert!(zone.point_uncertainty.is_none() && zone.centre_uncertainty.is_none());
    // As many points as numbers leave nothing to spare.
    assert!(fit(Circle, LeastSquares, &[0.0, 1.0, 1.0, 0.0, 0.0, -1.0], 2).point_uncertainty.is_none());
}

// By hand: the centre of a short arc is fixed worst along the radius through its middle, with a variance of
// s² / (Σ cos² - (Σ cos)² / n) for angles from that radius, whatever way the arc lies.
#[test]
fn the_worst_direction_of_a_centre_turns_with_the_arc() {
    let angles = || (0..12).map(|k| 5.0 * f64::from(k) - 27.5);
    let cosines: Vec<f64> = angles().map(cos_degrees).collect();
    let sum: f64 = cosines.iter().sum();
    let squares: f64 = cosines.iter().map(|cosine| cosine * cosine).sum();
    let factor = (squares - sum * sum / 12.0).sqrt().recip();
    for turn in [0.0, 20.0, 45.0, 90.0, 225.0] {
        let points: Vec<f64> = angles()
            .zip([0.001, -0.001].into_iter().cycle())
            .flat_map(|(t, wave)| {
                [turn + t].map(|t| [cos_degrees(t), sin_degrees(t)].map(|x| (5.0 + wave) * x))
            })
            .flatten()
            .collect();
        let found = fit(Circle, LeastSquares, &points, 2);
        let want = found.point_uncertainty.unwrap() * factor;
        near(found.centre_uncertainty.unwrap(), want, 0.005 * want);
    }
}

// By hand: a strip turns most easily about its length, with a standard deviation of s / √Σ y² over the distances y from
// its middle line: here s / √(16 · 2²), whatever way the strip lies in its plane.
#[test]
fn the_worst_turn_of_a_plane_is_about_its_length() {
    for turn in [0.0, 30.0, 45.0, 100.0] {
        let (cos, sin) = (cos_degrees(turn), sin_degrees(turn));
        let points: Vec<f64> = (0..16)
            .map(|k| [10.0 * f64::from(k % 8) - 35.0, f64::from(k / 8) * 4.0 - 2.0, f64::from(k % 2)])
            .flat_map(|[x, y, z]| turned([cos * x - sin * y, sin * x + cos * y, 0.001 * z]))
            .collect();
        let found = fit(Plane, LeastSquares, &points, 3);
        let want = found.point_uncertainty.unwrap() / 8.0;
        let got = found.direction_uncertainty.unwrap().metric() * std::f64::consts::PI / 180.0;
        near(got, want, 0.005 * want);
    }
}

#[test]
fn points_that_fix_nothing_are_refused() {
    let told = |feature, points: &[f64], columns| {
        FormFit::new(feature, MinimumZone, points, columns, Units::Metric).unwrap_err().to_string()
    };
    let line: Vec<f64> = (0..9).map(f64::from).flat_map(|k| [k, 2.0 * k, 3.0 * k]).collect();
    let flat: Vec<f64> = (0..9).map(f64::from).flat_map(|k| [k, 2.0 * k]).collect();
    assert!(told(Plane, &line, 3).contains("the points do not fix a plane"), "{}", told(Plane, &line, 3));
    assert!(told(Circle, &flat, 2).contains("do not fix a circle"), "{}", told(Circle, &flat, 2));
    assert!(told(Sphere, &line, 3).contains("do not fix a sphere"), "{}", told(Sphere, &line, 3));
    assert!(told(Cylinder, &line, 3).contains("do not fix a cylinder"), "{}", told(Cylinder, &line, 3));
    assert!(told(Plane, &[1.0; 30], 3).contains("do not fix"));
    assert_eq!(told(Circle, &[1.0; 4], 2), "a circle needs at least 3 points, not 2");
    assert_eq!(told(Cone, &[1.0; 15], 3), "a cone needs at least 6 points, not 5");
    assert_eq!(told(Circle, &[1.0; 12], 3), "a circle needs points of 2 coordinates, not 3");
    assert_eq!(told(Plane, &[1.0; 12], 2), "a plane needs points of 3 coordinates, not 2");
    let mut bad = line.clone();
    bad[7] = f64::NAN;
    assert_eq!(told(Plane, &bad, 3), "coordinate y of point 2 must be finite, not NaN");
    assert!(FormFeature::parse("square").unwrap_err().to_string().contains("expected line, plane, circle"));
    assert!(
        FormCriterion::parse("best")
            .unwrap_err()
            .to_string()
            .contains("expected least squares or minimum zone")
    );
}

// A frame of the turned axes with its planes at 0: the hole at 30.03, 20.04 misses 30, 20 by 0.05, a diameter of 0.1.
#[test]
fn a_hole_is_placed_in_its_datum_frame() {
    let primary: Vec<f64> = [[0.0, 0.0, 0.0], [80.0, 0.0, 0.0], [0.0, 60.0, 0.0], [80.0, 60.0, 0.0]]
        .into_iter()
        .flat_map(turned)
        .collect();
    let secondary: Vec<f64> = [[0.0, 5.0, -3.0], [0.0, 55.0, -8.0]].into_iter().flat_map(turned).collect();
    let tertiary = turned([40.0, 0.0, -5.0]);
    let hole: Vec<f64> = (0..8)
        .map(|k| {
            let t = 45.0 * f64::from(k);
            [30.03 + 6.04 * cos_degrees(t), 20.04 + 6.04 * sin_degrees(t), -4.0 - f64::from(k % 2)]
        })
        .flat_map(turned)
        .collect();
    let size = |text: &str| crate::Size::parse(text).unwrap();
    let place = |nominal: [&str; 2], tolerance: &str, feature: Option<&crate::MeasuredFeature>| {
        let datums: [&[f64]; 3] = [&primary, &secondary, &tertiary];
        hole_position(
            &hole,
            Some(datums),
            nominal.map(size),
            size(tolerance),
            feature,
            crate::fit::Member::Hole,
            Units::Metric,
        )
    };
    let made = place(["30 mm", "20 mm"], "0.1001 mm", None).unwrap();
    near(made.x, 30.03, 1e-9);
    near(made.y, 20.04, 1e-9);
    near(made.diameter, 12.08, 1e-9);
    near(made.check.error.to_float(Units::Metric), 0.1, 1e-7);
    assert!(made.check.accepted() && !place(["30 mm", "20 mm"], "0.0999 mm", None).unwrap().check.accepted());
    // On the other side of both planes the nominal distances are negative.
    near(place(["-30 mm", "-20 mm"], "0.2 mm", None).unwrap().x, -30.03, 1e-9);
    let feature = crate::MeasuredFeature {
        member: crate::fit::Member::Hole,
        limits: crate::Limits::parse("12..12.15 mm").unwrap(),
        condition: crate::MaterialCondition::Maximum,
        actual: crate::Size::ZERO,
    };
    let bonus = place(["30 mm", "20 mm"], "0.05 mm", Some(&feature)).unwrap().check;
    near(bonus.bonus.to_float(Units::Metric), 0.08, 1e-8);
    assert!(bonus.accepted());
    let outside =
        crate::MeasuredFeature { limits: crate::Limits::parse("12.1..12.15 mm").unwrap(), ..feature };
    assert!(
        place(["30 mm", "20 mm"], "0.05 mm", Some(&outside))
            .unwrap_err()
            .to_string()
            .contains("outside its limits")
    );
    let few = hole_position(
        &hole,
        Some([&primary, &tertiary, &tertiary]),
        [size("1 mm"); 2],
        size("1 mm"),
        None,
        crate::fit::Member::Hole,
        Units::Metric,
    );
    assert_eq!(few.unwrap_err().to_string(), "the secondary datum plane needs at least 2 points, not 1");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]
    // No feature near the least-squares one has a narrower zone than the minimum zone, and no other a lesser sum of squares.
    #[test]
    fn nothing_near_is_better(noise in prop::collection::vec(-0.01..0.01f64, 24), by in prop::array::uniform2(-0.02..0.02f64)) {
        let points: Vec<f64> = noise.iter().zip(0..).flat_map(|(noise, k)| {
            let t = 15.0 * f64::from(k);
            [(5.0 + noise) * cos_degrees(t), (5.0 + noise) * sin_degrees(t)]
        }).collect();
        let distances = |x: f64, y: f64| -> Vec<f64> {
            points.chunks_exact(2).map(|p| ((p[0] - x) * (p[0] - x) + (p[1] - y) * (p[1] - y)).sqrt()).collect()
        };
        let zone = fit(Circle, MinimumZone, &points, 2);
        let width = |x: f64, y: f64| {
            let all = distances(x, y);
            all.iter().fold(f64::MIN, |a, b| a.max(*b)) - all.iter().fold(f64::MAX, |a, b| a.min(*b))
        };
        prop_assert!((width(zone.centre[0], zone.centre[1]) - zone.deviation).abs() < 1e-12);
        prop_assert!(zone.deviation <= width(zone.centre[0] + by[0], zone.centre[1] + by[1]) + 1e-12);
        let least = fit(Circle, LeastSquares, &points, 2);
        prop_assert!(zone.deviation <= least.deviation + 1e-12);
        let spread = |x: f64, y: f64| {
            let all = distances(x, y);
            let mean = all.iter().sum::<f64>() / all.len() as f64;
            all.iter().map(|one| (one - mean) * (one - mean)).sum::<f64>()
        };
        let [x, y] = [least.centre[0], least.centre[1]];
        prop_assert!(spread(x, y) <= spread(x + by[0], y + by[1]) + 1e-14);
    }
}

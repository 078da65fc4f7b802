//! Sets of locators that shops use, sets that cannot hold, and what is refused.
use super::*;
use crate::Units;
use proptest::prelude::*;

fn block() -> Vec<Locator> {
    let mut made = Locator::plane([[0.0, 0.0, 0.0], [100.0, 0.0, 0.0], [50.0, 80.0, 0.0]]).unwrap();
    made.extend(Locator::line([20.0, 0.0, 10.0], [80.0, 0.0, 10.0], [0.0, 1.0, 0.0]).unwrap());
    made.push(Locator { position: [0.0, 40.0, 10.0], normal: [1.0, 0.0, 0.0] });
    made
}

fn judged(locators: &[Locator]) -> Locating {
    Locating::new(locators, &[], None, Units::Metric).unwrap()
}

fn words(made: &Locating) -> Vec<&str> {
    made.free.iter().map(|one| one.words.as_str()).collect()
}

fn clamp(position: [f64; 3], normal: [f64; 3]) -> Clamp {
    Clamp { position, normal, force: 1.0 }
}

#[test]
fn sets_of_locators_leave_what_a_shop_knows() {
    let all = judged(&block());
    assert_eq!((all.held, all.redundant, all.free.len()), (6, 0, 0));
    assert_eq!(all.to_string(), "located");
    let table = judged(&block()[..3]);
    assert_eq!(words(&table), ["slides along x", "slides along y", "turns about any axis along z"]);
    let vee = Locator::vee_block([0.0, 0.0, 30.0], [60.0, 0.0, 30.0], [0.0, 0.0, 1.0], 40.0, 90.0).unwrap();
    let vee = judged(&vee);
    assert_eq!(words(&vee), ["slides along x", "turns about the axis through (0, 0, 30) mm along x"]);
    let mut pins = Locator::pins([0.0, 0.0, 0.0], [60.0, 80.0, 5.0], [0.0, 0.0, 2.0]).unwrap();
    assert_eq!((pins[2].normal, judged(&pins).held), ([-0.8, 0.6, 0.0], 3));
    pins.extend(&block()[..3]);
    assert_eq!((judged(&pins).held, judged(&pins).redundant), (6, 0));
    let none = judged(&[]);
    assert_eq!((none.held, none.free.len()), (0, 6));
}

#[test]
fn the_axis_of_a_tipping_block_lies_where_it_touches() {
    let mut three_in_line = block();
    three_in_line[2].position = [50.0, 0.0, 0.0];
    let made = judged(&three_in_line);
    assert_eq!((made.held, made.redundant), (5, 1));
    assert_eq!(words(&made), ["turns about the axis through (0, 0, 10) mm along x"]);
    assert_eq!((made.free[0].translation, made.free[0].rotation), ([0.0, 10.0, 0.0], [1.0, 0.0, 0.0]));
}

#[test]
fn locators_in_one_point_leave_three_turns() {
    let normals = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [0.6, 0.8, 0.0]];
    let made = judged(&normals.map(|normal| Locator { position: [5.0, 6.0, 7.0], normal }));
    assert_eq!((made.held, made.redundant), (3, 1));
    assert_eq!(words(&made)[0], "turns about the axis through (0, 6, 7) mm along x");
    assert_eq!(made.free.len(), 3);
}

#[test]
fn a_thread_leaves_a_screw() {
    // Two locators on a helix of lead 2 π · 3 about z, and what stops the other motions at the axis.
    let axis = |position, normal| Locator { position, normal };
    let made = judged(&[
        axis([0.0, 0.0, 0.0], [1.0, 0.0, 0.0]),
        axis([0.0, 0.0, 0.0], [0.0, 1.0, 0.0]),
        axis([0.0, 0.0, 9.0], [1.0, 0.0, 0.0]),
        axis([0.0, 0.0, 9.0], [0.0, 1.0, 0.0]),
        axis([10.0, 0.0, 0.0], [0.0, -3.0, 10.0]),
    ]);
    assert_eq!(made.free[0].kind, MotionKind::Screw);
    assert!((made.free[0].lead - 6.0 * std::f64::consts::PI).abs() < 1e-9, "{}", made.free[0].words);
}

#[test]
fn clamps_press_on_every_locator_or_not() {
    let seats =
        |clamps: &[Clamp], friction| Locating::new(&block(), clamps, friction, Units::Metric).unwrap();
    let down = clamp([50.0, 30.0, 20.0], [0.0, 0.0, -1.0]);
    let side = clamp([50.0, 60.0, 10.0], [0.0, -1.0, 0.0]);
    let end = clamp([100.0, 40.0, 10.0], [-1.0, 0.0, 0.0]);
    let made = seats(&[down, side, end], None);
    assert_eq!((made.seats, made.loose.len()), (Some(true), 0));
    // The side clamp stands between the two side locators, and the end clamp opposite its locator.
    let [.., left, right, stop] = made.forces[..] else { panic!() };
    assert!((left - 0.5).abs() < 1e-9 && (right - 0.5).abs() < 1e-9 && (stop - 1.0).abs() < 1e-9);
    assert_eq!(seats(&[down], None).seats, Some(false), "nothing presses on the side");
    let outside = clamp([50.0, 120.0, 20.0], [0.0, 0.0, -1.0]);
    assert_eq!(seats(&[outside, side, end], None).seats, Some(false), "the part tips");
    let away = clamp([50.0, 0.0, 10.0], [0.0, 1.0, 0.0]);
    assert_eq!(seats(&[down, away, end], Some(0.0)).seats, Some(false));
    // Friction under the part can hold it off the side locators, so they are loose.
    let rough = seats(&[Clamp { force: 20.0, ..down }, side, end], Some(0.2));
    assert_eq!((rough.seats, rough.loose.clone()), (Some(true), vec![3, 4, 5]));
}

#[test]
fn errors_of_locators_move_a_feature() {
    let made = judged(&block());
    // All three rests 0.1 high lift the part by 0.1; one side locator turns it about the other.
    let lifted = made.shift(&[0.1, 0.1, 0.1, 0.0, 0.0, 0.0], [30.0, 30.0, 50.0]).unwrap();
    assert!(lifted.iter().zip([0.0, 0.0, 0.1]).all(|(one, want)| (one - want).abs() < 1e-12), "{lifted:?}");
    let shares = made.sensitivities([80.0, 0.0, 10.0], [0.0, 1.0, 0.0]).unwrap();
    assert!(shares.iter().zip([0.0, 0.0, 0.0, 0.0, 1.0, 0.0]).all(|(one, want)| (one - want).abs() < 1e-12));
    let error = judged(&block()[..5]).shift(&[0.0; 5], [0.0; 3]).unwrap_err();
    assert!(error.to_string().contains("the part slides along x"), "{error}");
    assert!(judged(&block()[..5]).sensitivities([0.0; 3], [0.0, 1.0, 0.0]).is_ok());
    let mut seven = block();
    seven.push(Locator { position: [10.0, 70.0, 0.0], normal: [0.0, 0.0, 1.0] });
    let error = judged(&seven).shift(&[0.0; 7], [0.0; 3]).unwrap_err();
    assert!(error.to_string().starts_with("7 locators stop 6 motions"), "{error}");
}

#[test]
fn what_cannot_be_is_refused() {
    let with = |position, normal| Locating::new(&[Locator { position, normal }], &[], None, Units::Metric);
    let message = |made: Result<Locating, LocatingError>| made.unwrap_err().to_string();
    assert_eq!(
        message(with([0.0; 3], [0.0; 3])),
        "the normal of locator 0 must have a direction, not the length zero. Fix: give e.g. (0, 0, 1)"
    );
    for odd in [f64::NAN, f64::INFINITY, 1e300] {
        assert!(
            message(with([0.0, odd, 0.0], [1.0; 3])).contains("the position of locator 0 must be finite")
        );
        assert!(message(with([0.0; 3], [odd, 1.0, 1.0])).contains("the normal of locator 0 must be finite"));
    }
    let many = vec![block()[0]; 1001];
    assert!(message(Locating::new(&many, &[], None, Units::Metric)).contains("1000"));
    let clamped = |friction, force| {
        let clamps = [Clamp { force, ..clamp([0.0; 3], [0.0, 0.0, -1.0]) }];
        message(Locating::new(&block(), &clamps, Some(friction), Units::Metric))
    };
    assert!(clamped(-0.1, 1.0).starts_with("friction must be from 0"));
    assert!(clamped(f64::NAN, 1.0).starts_with("friction must be from 0"));
    assert!(clamped(0.1, 0.0).starts_with("the force of clamp 0 must be greater than zero"));
    assert!(Locator::plane([[0.0; 3], [1.0, 0.0, 0.0], [2.0, 0.0, 0.0]]).is_err());
    assert!(Locator::pins([0.0; 3], [0.0, 0.0, 4.0], [0.0, 0.0, 1.0]).is_err());
    assert!(Locator::vee_block([0.0; 3], [1.0, 0.0, 0.0], [1.0, 0.0, 0.0], 10.0, 90.0).is_err());
}

proptest! {
    // Neither the unit, nor the place of the origin, nor the length of normals changes what is held.
    #[test]
    fn the_rank_is_that_of_the_part(
        at in prop::collection::vec((prop::array::uniform3(-50i32..50), prop::array::uniform3(-2i32..3)), 0..9),
        scale in 1e-3..1e3f64, far in prop::array::uniform3(-1000i32..1000),
    ) {
        let real = |v: [i32; 3]| v.map(f64::from);
        let locators: Vec<Locator> = at.iter().filter(|(_, normal)| *normal != [0; 3])
            .map(|(position, normal)| Locator { position: real(*position), normal: real(*normal) }).collect();
        let moved: Vec<Locator> = locators.iter().map(|one| Locator {
            position: std::array::from_fn(|k| scale * (one.position[k] + f64::from(far[k]))),
            normal: one.normal.map(|one| one * 17.0),
        }).collect();
        let (made, other) = (judged(&locators), judged(&moved));
        prop_assert_eq!(made.held, other.held);
        prop_assert_eq!(made.held + made.free.len(), 6);
        // A free motion moves no part of a locator along its normal.
        for motion in &made.free {
            for one in &made.locators {
                let turned = crate::math::vector::cross(&motion.rotation, &one.position);
                let speed = crate::math::vector::along(&motion.translation, &turned, 1.0);
                prop_assert!(crate::math::vector::dot(&speed, &one.normal).abs() < 1e-6);
            }
        }
    }
}

//! Locators and clamps, and the sets of locators that shops use.
use super::error::LocatingError;
use crate::math::vector::{Vector, along, cross, dot, unit};
use crate::math::{cos_degrees, sin_degrees};
use tenths_macros::Object;

/// A point at which the part is stopped.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(restore, tuple)]
pub struct Locator {
    /// Where it touches: x, y and z.
    pub position: [f64; 3],
    /// The direction in which it pushes the part, from the locator into the part. Its length does not matter.
    pub normal: [f64; 3],
}

/// A point at which the part is clamped.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(restore, tuple)]
pub struct Clamp {
    /// Where it presses: x, y and z.
    pub position: [f64; 3],
    /// The direction in which it pushes the part. Its length does not matter.
    pub normal: [f64; 3],
    /// How hard it presses, in any unit of force that is the same for all clamps.
    pub force: f64,
}

/// The largest coordinate, in either unit; beyond it digits of the locators' distances are lost.
const FARTHEST: f64 = 1e9;

/// Numbers that a shop could mean.
pub(super) fn finite(numbers: &Vector, what: impl FnOnce() -> String) -> Result<(), LocatingError> {
    match numbers.iter().find(|one| !(-FARTHEST..=FARTHEST).contains(*one)) {
        Some(&value) => Err(LocatingError::NotFinite { what: what(), value }),
        None => Ok(()),
    }
}

/// A direction of length 1.
pub(super) fn direction(given: &Vector, what: impl Fn() -> String) -> Result<Vector, LocatingError> {
    finite(given, &what)?;
    unit(given).ok_or_else(|| LocatingError::NoDirection { what: what() })
}

impl Locator {
    /// A locator with a normal of length 1.
    pub(super) fn checked(&self, place: usize) -> Result<Locator, LocatingError> {
        finite(&self.position, || format!("the position of locator {place}"))?;
        let normal = direction(&self.normal, || format!("the normal of locator {place}"))?;
        Ok(Locator { position: self.position, normal })
    }

    /// A line contact, such as a rail or the edge of a parallel: locators at both of its ends.
    ///
    /// # Errors
    /// [`LocatingError::Contact`] if the ends are one point.
    pub fn line(start: Vector, end: Vector, normal: Vector) -> Result<Vec<Locator>, LocatingError> {
        finite(&start, || "the start of the line".into())?;
        finite(&end, || "the end of the line".into())?;
        if start == end {
            let what = "a line contact needs two ends apart. Fix: give both ends of the line";
            return Err(LocatingError::Contact { what });
        }
        let normal = direction(&normal, || "the normal of the line".into())?;
        Ok([start, end].map(|position| Locator { position, normal }).to_vec())
    }

    /// A plane contact, such as a machine table or three rest buttons: locators at three points, whose plane gives the
    /// normal. It points to the side from which the points run counter-clockwise.
    ///
    /// # Errors
    /// [`LocatingError::Contact`] if the points lie on a line.
    pub fn plane(points: [Vector; 3]) -> Result<Vec<Locator>, LocatingError> {
        for point in &points {
            finite(point, || "a point of the plane".into())?;
        }
        let flat = LocatingError::Contact {
            what: "the three points of a plane contact lie on a line. Fix: give three points that are not on a line",
        };
        let [first, second, third] = points;
        let [one, other] = [second, third].map(|point| unit(&along(&point, &first, -1.0)));
        let (Some(one), Some(other)) = (one, other) else { return Err(flat) };
        let normal = cross(&one, &other);
        // The sine of the angle between two sides: less is a line for any shop.
        if dot(&normal, &normal).sqrt() < 1e-6 {
            return Err(flat);
        }
        let normal = direction(&normal, || "the normal of the plane".into())?;
        Ok(points.map(|position| Locator { position, normal }).to_vec())
    }

    /// Two pins in two holes: a round pin, which stops both slides square to the pins, and a relieved pin, which stops
    /// only the turn about the round one. `axis` is the direction of the pins; the plane that the part lies on is extra.
    ///
    /// # Errors
    /// [`LocatingError::Contact`] if the pins stand in one line along their axis.
    pub fn pins(round: Vector, relieved: Vector, axis: Vector) -> Result<Vec<Locator>, LocatingError> {
        finite(&round, || "the round pin".into())?;
        finite(&relieved, || "the relieved pin".into())?;
        let axis = direction(&axis, || "the axis of the pins".into())?;
        let between = along(&relieved, &round, -1.0);
        let square = along(&between, &axis, -dot(&between, &axis));
        let apart = dot(&square, &square).sqrt() > 1e-9 * dot(&between, &between).sqrt();
        let Some(toward) = unit(&square).filter(|_| apart) else {
            let what = "the two pins stand in one line along their axis. Fix: give pins side by side";
            return Err(LocatingError::Contact { what });
        };
        let across = cross(&axis, &toward);
        Ok(vec![
            Locator { position: round, normal: toward },
            Locator { position: round, normal: across },
            Locator { position: relieved, normal: across },
        ])
    }

    /// A V-block under a round bar: locators on both flanks at both ends of the block. They leave the bar free to slide along
    /// its axis and to turn about it.
    ///
    /// `start` and `end` are the points of the bar's axis at the ends of the block, `up` the direction in which the V opens,
    /// `diameter` that of the bar and `vee_angle` the included angle in degrees.
    ///
    /// # Errors
    /// [`LocatingError::Contact`] for a diameter or an angle out of range, or a block without length.
    pub fn vee_block(
        start: Vector,
        end: Vector,
        up: Vector,
        diameter: f64,
        vee_angle: f64,
    ) -> Result<Vec<Locator>, LocatingError> {
        finite(&start, || "the start of the V-block".into())?;
        finite(&end, || "the end of the V-block".into())?;
        let fault = |what| LocatingError::Contact { what };
        if !(0.0 < diameter && diameter <= FARTHEST) {
            return Err(fault("the diameter of the bar must be greater than zero and at most 1e9"));
        }
        if !(0.0 < vee_angle && vee_angle < 180.0) {
            return Err(fault("the angle of the V must be between 0 and 180 degrees, e.g. 90"));
        }
        let axis = unit(&along(&end, &start, -1.0));
        let axis =
            axis.ok_or(fault("a V-block needs two ends apart. Fix: give both ends of the bar in it"))?;
        let up = direction(&up, || "the direction in which the V opens".into())?;
        let square = along(&up, &axis, -dot(&up, &axis));
        if dot(&square, &square) < 1e-12 {
            return Err(fault("the V must open square to the bar. Fix: give `up` across the axis"));
        }
        let up = direction(&square, || "the direction in which the V opens".into())?;
        let side = cross(&axis, &up);
        // A flank rises at half of the angle from the plane of symmetry, so its normal leans out by as much.
        let (sin, cos) = (sin_degrees(0.5 * vee_angle), cos_degrees(0.5 * vee_angle));
        let normals = [-cos, cos].map(|across| along(&up.map(|one| one * sin), &side, across));
        let touch = |point: Vector, normal: Vector| Locator {
            position: along(&point, &normal, -0.5 * diameter),
            normal,
        };
        Ok([start, end].into_iter().flat_map(|point| normals.map(|normal| touch(point, normal))).collect())
    }
}

impl Clamp {
    /// A clamp with a direction of length 1.
    pub(super) fn checked(&self, place: usize) -> Result<Clamp, LocatingError> {
        finite(&self.position, || format!("the position of clamp {place}"))?;
        let normal = direction(&self.normal, || format!("the normal of clamp {place}"))?;
        let force = self.force;
        if !(force > 0.0 && force <= 1e12) {
            return Err(LocatingError::Force { what: format!("clamp {place}"), value: force });
        }
        Ok(Clamp { position: self.position, normal, force })
    }
}

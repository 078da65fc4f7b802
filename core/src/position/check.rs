//! A measured position against its tolerance, judged on exact sizes.
use crate::error::excerpt;
use crate::fit::Member;
use crate::limits::Limits;
use crate::size::{Size, natural_units};
use std::fmt;
use tenths_macros::{Object, accessors};

/// The material condition at which a position tolerance of a feature of size applies.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum MaterialCondition {
    /// MMC: the smallest hole, the largest shaft.
    Maximum,
    /// LMC: the largest hole, the smallest shaft.
    Least,
}

/// A feature of size as measured, and the condition from which its bonus is counted.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct MeasuredFeature {
    /// Whether it is a hole or a shaft.
    pub member: Member,
    /// Its limits of size.
    pub limits: Limits,
    /// The material condition of the tolerance.
    pub condition: MaterialCondition,
    /// Its size: of the unrelated actual mating envelope at MMC, and of the unrelated actual minimum material
    /// envelope at LMC.
    pub actual: Size,
}

/// A measured position and what it is judged by.
///
/// This judges the axis or centre. Where form or orientation make that and the surface disagree, the standard lets
/// the surface decide, which must stay beyond the virtual condition (from memory).
///
/// ```
/// use tenths::{PositionCheck, Size};
/// let mm = |text| Size::parse(text);
/// let check = PositionCheck::new([mm("0.03 mm")?, mm("0.04 mm")?, Size::ZERO], mm("0.1 mm")?, None)?;
/// assert_eq!(check.error, mm("0.1 mm")?);
/// assert!(check.accepted());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Object)]
#[object(accessors, summary, restore)]
pub struct PositionCheck {
    /// Position error, 2 · √(x² + y² + z²), a diameter, rounded up to a picometre.
    pub error: Size,
    /// Bonus tolerance; zero regardless of feature size.
    pub bonus: Size,
    /// Position tolerance with the bonus, a diameter.
    pub allowed: Size,
}

/// Why a position cannot be judged.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PositionError {
    /// A tolerance below zero.
    #[error("a position tolerance must be zero or more, not {tolerance}")]
    Tolerance {
        /// The tolerance as given.
        tolerance: Size,
    },
    /// A size outside the limits: such a feature has no bonus, whatever its position.
    #[error("a {} of {actual} is outside its limits, {limits}: it has no bonus tolerance", member.name())]
    ActualSize {
        /// The size as given.
        actual: Size,
        /// The limits of size.
        limits: Limits,
        /// Whether it is a hole or a shaft.
        member: Member,
    },
    /// A text that names no material condition.
    #[error("`{text}` is not a material condition; expected MMC or LMC")]
    Condition {
        /// The text as given.
        text: String,
    },
    /// Some of what a bonus is counted from, and not all.
    #[error(
        "a bonus tolerance needs hole or shaft, material condition, limits and actual size: give all or none"
    )]
    Incomplete,
    /// The error or the tolerance is beyond what is counted.
    #[error("the position error or its tolerance is out of range: a size lies within ±9223 km")]
    OutOfRange,
}

impl MaterialCondition {
    /// Reads `MMC` or `LMC`.
    ///
    /// # Errors
    /// [`PositionError::Condition`].
    pub fn parse(text: &str) -> Result<MaterialCondition, PositionError> {
        match text.trim() {
            "MMC" => Ok(MaterialCondition::Maximum),
            "LMC" => Ok(MaterialCondition::Least),
            _ => Err(PositionError::Condition { text: excerpt(text) }),
        }
    }

    /// `MMC` or `LMC`.
    pub const fn name(self) -> &'static str {
        match self {
            MaterialCondition::Maximum => "MMC",
            MaterialCondition::Least => "LMC",
        }
    }
}

impl MeasuredFeature {
    /// What the feature departs from its material condition.
    ///
    /// # Errors
    /// [`PositionError::ActualSize`] where its size is outside the limits.
    pub fn bonus(&self) -> Result<Size, PositionError> {
        let MeasuredFeature { member, limits, condition, actual } = *self;
        if !limits.accepts(actual) {
            return Err(PositionError::ActualSize { actual, limits, member });
        }
        let from_lower = match condition {
            MaterialCondition::Maximum => member == Member::Hole,
            MaterialCondition::Least => member == Member::Shaft,
        };
        let bonus = match from_lower {
            true => actual.checked_sub(limits.lower()),
            false => limits.upper().checked_sub(actual),
        };
        bonus.ok_or(PositionError::OutOfRange)
    }
}

impl PositionCheck {
    /// From the offsets of the axis or centre from its true position, and the position tolerance, a diameter.
    ///
    /// The third offset is that of a sphere in its spherical zone, and zero otherwise. Without a `feature` the
    /// tolerance applies regardless of feature size.
    ///
    /// # Errors
    /// [`PositionError::Tolerance`], [`PositionError::ActualSize`] and [`PositionError::OutOfRange`].
    pub fn new(
        offsets: [Size; 3],
        tolerance: Size,
        feature: Option<&MeasuredFeature>,
    ) -> Result<PositionCheck, PositionError> {
        if tolerance.is_negative() {
            return Err(PositionError::Tolerance { tolerance });
        }
        let bonus = feature.map_or(Ok(Size::ZERO), MeasuredFeature::bonus)?;
        let allowed = tolerance.checked_add(bonus).ok_or(PositionError::OutOfRange)?;
        Ok(PositionCheck { error: diameter(offsets).ok_or(PositionError::OutOfRange)?, bonus, allowed })
    }
}

#[accessors]
impl PositionCheck {
    /// Whether the position is within its zone, whose edge is good.
    ///
    /// The sizes are whole picometres, so the error rounded up is within the tolerance just if the error itself is.
    #[field]
    pub fn accepted(&self) -> bool {
        self.error <= self.allowed
    }
}

impl fmt::Display for PositionCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let verdict = if self.accepted() { "accepted" } else { "rejected" };
        let units = natural_units(&[self.error, self.allowed]);
        let [error, allowed] = [self.error, self.allowed].map(|size| size.format(units));
        write!(f, "position {verdict}: error {error} of {allowed}")
    }
}

/// Twice the distance of a point from the origin, rounded up to a picometre.
fn diameter(offsets: [Size; 3]) -> Option<Size> {
    let square = |size: Size| u128::from(size.picometres().unsigned_abs()).pow(2);
    // Each square is at most 2^126, so the sum of three has room.
    let squares = offsets.into_iter().map(square).sum::<u128>().checked_mul(4)?;
    let root = squares.isqrt();
    let root = if root * root < squares { root + 1 } else { root };
    i64::try_from(root).ok().map(Size::from_picometres)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap()
    }

    fn check(x: &str, y: &str, tolerance: &str, feature: Option<&MeasuredFeature>) -> PositionCheck {
        PositionCheck::new([size(x), size(y), Size::ZERO], size(tolerance), feature).unwrap()
    }

    fn hole(actual: &str) -> MeasuredFeature {
        let limits = Limits::parse("12.00..12.15 mm").unwrap();
        MeasuredFeature {
            member: Member::Hole,
            limits,
            condition: MaterialCondition::Maximum,
            actual: size(actual),
        }
    }

    // Triangles of whole numbers, by Pythagoras: 3, 4, 5 and 5, 12, 13; a cuboid of 2, 3, 6 has the diagonal 7.
    #[test]
    fn the_edge_of_the_zone_is_good_and_a_picometre_more_is_not() {
        for (x, y, tolerance) in [(".03", ".04", ".1"), (".05", "-.12", ".26"), ("0", "-.05", ".1")] {
            for unit in ["mm", "in"] {
                let [x, y, tolerance] = [x, y, tolerance].map(|text| size(&format!("{text} {unit}")));
                let at = |tolerance| PositionCheck::new([x, y, Size::ZERO], tolerance, None).unwrap();
                assert_eq!(at(tolerance).error, tolerance);
                assert!(at(tolerance).accepted());
                let less = tolerance.checked_sub(Size::from_picometres(1)).unwrap();
                assert!(!at(less).accepted());
            }
        }
        let offsets = ["0.02 mm", "-0.03 mm", "0.06 mm"].map(size);
        let sphere = PositionCheck::new(offsets, size("0.14 mm"), None).unwrap();
        assert!(sphere.error == size("0.14 mm") && sphere.accepted());
    }

    // Common practice: the two holes of 12.08 mm have 0.26077 and 0.31623 of the 0.28 that they may.
    #[test]
    fn a_bonus_lets_a_hole_pass() {
        let good = check("0.11 mm", "-0.07 mm", "0.2 mm", Some(&hole("12.08 mm")));
        assert_eq!((good.bonus, good.allowed), (size("0.08 mm"), size("0.28 mm")));
        // 2 sqrt(0.0121 + 0.0049) = 2 sqrt(0.017) = 0.260768096208..., by hand.
        assert_eq!(good.error, size("0.260768097 mm"));
        assert!(good.accepted());
        assert!(!check("0.11 mm", "-0.07 mm", "0.2 mm", None).accepted());
        assert!(!check("0.13 mm", "0.09 mm", "0.2 mm", Some(&hole("12.08 mm"))).accepted());
    }

    // By the definitions: the four bonuses of one size, 0.08 above the lower limit and 0.07 below the upper one.
    #[test]
    fn a_bonus_is_counted_from_the_condition() {
        use MaterialCondition::{Least, Maximum};
        for (member, condition, bonus) in [
            (Member::Hole, Maximum, "0.08 mm"),
            (Member::Hole, Least, "0.07 mm"),
            (Member::Shaft, Maximum, "0.07 mm"),
            (Member::Shaft, Least, "0.08 mm"),
        ] {
            let feature = MeasuredFeature { member, condition, ..hole("12.08 mm") };
            assert_eq!(feature.bonus(), Ok(size(bonus)), "{member:?} {condition:?}");
        }
    }

    #[test]
    fn what_cannot_be_judged_is_refused() {
        for outside in ["11.999999999 mm", "12.150000001 mm"] {
            let refused = hole(outside).bonus().unwrap_err().to_string();
            assert!(refused.starts_with(&format!("a hole of {outside} is outside its limits")), "{refused}");
        }
        let far = Size::from_picometres(i64::MIN);
        let judged = |x, tolerance| PositionCheck::new([x, x, x], tolerance, None);
        assert_eq!(judged(far, Size::ZERO), Err(PositionError::OutOfRange));
        assert_eq!(judged(Size::from_picometres(1 << 62), Size::ZERO), Err(PositionError::OutOfRange));
        let tolerance = size("-0.1 mm");
        assert_eq!(judged(Size::ZERO, tolerance), Err(PositionError::Tolerance { tolerance }));
        assert!(MaterialCondition::parse("mmc").is_err());
    }

    proptest! {
        // The definition, without a root: 4 (x² + y² + z²) <= tolerance², a picometre or so about the edge.
        #[test]
        fn a_verdict_is_that_of_the_squares(offsets in prop::array::uniform3(-(1i64 << 40)..1 << 40), beside in -2i64..3) {
            let squares: i128 = offsets.iter().map(|&offset| i128::from(offset).pow(2)).sum();
            let near = 2.0 * (squares as f64).sqrt();
            let tolerance = (near as i64 + beside).max(0);
            let sizes = offsets.map(Size::from_picometres);
            let check = PositionCheck::new(sizes, Size::from_picometres(tolerance), None).unwrap();
            prop_assert_eq!(check.accepted(), 4 * squares <= i128::from(tolerance).pow(2));
        }
    }
}

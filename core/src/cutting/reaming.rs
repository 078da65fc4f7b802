//! Reaming: what to leave in the hole, the drill before it, and the limits of the reamer.
use crate::formula::Formula;
use crate::limits::{Limits, LimitsError};
use crate::quantity::*;
use crate::size::Size;
use tenths_macros::{Outcome, formula, function};

/// What a machine reamer is left to cut, on the diameter.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct ReamingAllowance {
    /// Least allowance: less, and the reamer rubs.
    pub least: Length,
    /// Greatest allowance: more, and it cuts large and wears.
    pub greatest: Length,
}

/// What to leave for a reamer on the diameter of a hole.
///
/// 0.1 to 0.2 mm up to 5 mm, 0.2 to 0.3 mm up to 20 mm, 0.3 to 0.5 mm up to 50 mm, and 0.5 to 1 mm above. Light metals
/// take half as much again. Other tables differ by a third either way; the maker's data come first.
#[formula(
    source = "Table of reaming undersizes of trade training for fitters, as reprinted",
    constant(small: Length = Length::millimetres(5.0)),
    constant(middle: Length = Length::millimetres(20.0)),
    constant(large: Length = Length::millimetres(50.0)),
    constant(tenth: Length = Length::millimetres(0.1))
)]
pub fn reaming_allowance(#[term(finished_hole_diameter)] diameter: Length) -> ReamingAllowance {
    let (least, greatest) = if diameter <= small {
        (1.0, 2.0)
    } else if diameter <= middle {
        (2.0, 3.0)
    } else if diameter <= large {
        (3.0, 5.0)
    } else {
        (5.0, 10.0)
    };
    BareReamingAllowance { least: least * tenth, greatest: greatest * tenth }
}

/// Diameter of the drill to use before a reamer: hole - allowance - what the drill cuts oversize.
#[formula(
    source = "Trade training for fitters: drill = reamed size - (undersize + oversize), an oversize of 0.05 mm; as \
              reprinted",
    inverse(diameter = reaming_drill + allowance + drill_oversize),
    inverse(allowance = diameter - reaming_drill - drill_oversize)
)]
pub fn reaming_drill(
    #[term(finished_hole_diameter)]
    #[increasing]
    diameter: Length,
    /// What the reamer is left to cut, on the diameter: see `reaming_allowance`.
    #[non_negative]
    #[decreasing]
    allowance: Length,
    /// By how much the drilled hole is larger than its drill.
    #[non_negative]
    #[default(Length::millimetres(0.05))]
    #[decreasing]
    drill_oversize: Length,
) -> Length {
    diameter - allowance - drill_oversize
}

/// The limits of a reamer for a hole by the rule of DIN 1420.
///
/// Its upper limit lies below that of the hole by 15 percent of the tolerance of the hole, and its own tolerance is 35
/// percent of that, each rounded up to whole micrometres. Holes come out larger than their reamer by what setting,
/// material and coolant make of it, for which the rule leaves room; a trial hole decides.
///
/// ```
/// use tenths::cutting::reaming::reamer_limits;
/// use tenths::{Limits, iso_limits};
/// assert_eq!(reamer_limits(&iso_limits("10 D8")?)?.to_string(), "10.05..10.058 mm");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// [`LimitsError::NoRoom`] where the limits of the reamer would leave those of the hole, as with a tolerance of 1 µm.
#[function(c = "tenths_reamer_limits", gives = "limits", example("10 D8"))]
pub fn reamer_limits(
    /// The limits of the hole.
    hole: &Limits,
) -> Result<Limits, LimitsError> {
    const MICROMETRE: i64 = 1_000_000;
    let tolerance = hole.tolerance();
    // Hundredths of the tolerance in whole micrometres, rounded up, in numbers that cannot overflow.
    let part = |hundredths: i128| {
        let exact = i128::from(tolerance.picometres()) * hundredths;
        let step = 100 * i128::from(MICROMETRE);
        let micrometres = (exact + step - 1).div_euclid(step);
        i64::try_from(micrometres * i128::from(MICROMETRE)).ok().map(Size::from_picometres)
    };
    let upper = part(15).and_then(|off| hole.upper().checked_sub(off));
    let lower = upper.zip(part(35)).and_then(|(upper, own)| upper.checked_sub(own));
    match (lower, upper) {
        (Some(lower), Some(upper)) if hole.lower() <= lower && lower < upper => Limits::between(lower, upper),
        _ => Err(LimitsError::NoRoom { tolerance }),
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&REAMING_ALLOWANCE, &REAMING_DRILL];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::iso_limits;

    // DIN 1420 as reprinted by makers of reamers: the table for H7, and 10 D8 as a worked example.
    #[test]
    fn reamers_for_h7_are_as_printed() {
        for (hole, lower, upper) in [
            ("2 H7", 4, 8),
            ("5 H7", 5, 10),
            ("8 H7", 6, 12),
            ("12 H7", 8, 15),
            ("25 H7", 9, 17),
            ("40 H7", 12, 21),
            ("60 H7", 14, 25),
            ("10 D8", 50, 58),
        ] {
            let limits = reamer_limits(&iso_limits(hole).unwrap()).unwrap();
            let nominal = iso_limits(hole).unwrap().nominal();
            let above = |size: Size| size.checked_sub(nominal).unwrap().picometres();
            assert_eq!(
                (above(limits.lower()), above(limits.upper())),
                (lower * 1_000_000, upper * 1_000_000),
                "{hole}"
            );
        }
    }

    #[test]
    fn a_tolerance_too_small_for_a_reamer_is_refused() {
        for text in ["10 ±0 mm", "10 +0.001/0 mm", "10 +0.0015/0 mm"] {
            let refused = reamer_limits(&Limits::parse(text).unwrap());
            assert!(matches!(refused, Err(LimitsError::NoRoom { .. })), "{text}");
        }
        let whole = Limits::between(Size::from_picometres(-i64::MAX), Size::ZERO).unwrap();
        assert!(reamer_limits(&whole).is_ok());
    }
}

//! Infeed of single-point threading.
use crate::Size;
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Radial depth that a threading tool has reached at a pass of equal chip areas: depth · sqrt(pass / passes).
///
/// A V thread grows as wide as it grows deep, so the area behind the tool grows with the square of the depth,
/// and equal areas ask for the square root. The infeed of a pass is the difference from the one before.
/// Passes without infeed, to clean the thread, come on top.
#[formula(
    source = "Common practice, no source; the area of a triangle",
    rule(pass_number <= passes, "pass_number must be at most passes"),
    inverse(thread_depth = threading_infeed / (pass_number / passes).sqrt())
)]
pub fn threading_infeed(
    #[increasing] thread_depth: Length,
    /// Which pass, counted from 1; 0 is before the first.
    #[non_negative]
    #[whole]
    #[increasing]
    pass_number: Count,
    #[positive]
    #[decreasing]
    passes: Count,
) -> Length {
    thread_depth * (pass_number / passes).sqrt()
}

/// Radial depth at a pass of nearly equal chip areas with a lighter first pass.
///
/// depth · sqrt(share / (passes - 1)) at the first pass and depth · sqrt((pass - 1) / (passes - 1)) after it:
/// the first pass takes `first_share` of the area, and the second what it leaves of the same area. It spares
/// the point, which stands alone in the first pass.
#[formula(
    source = "Sandvik Coromant, thread turning formulas (the factor 0.3 of the first pass)",
    rule(pass_number <= passes, "pass_number must be at most passes"),
    inverse(thread_depth = threading_infeed_light
        / ((if pass_number > 1.0 { pass_number - 1.0 } else { first_share }) / (passes - 1.0)).sqrt())
)]
pub fn threading_infeed_light(
    #[increasing] thread_depth: Length,
    /// Which pass, counted from 1.
    #[within(1.0, 1e6)]
    #[whole]
    #[increasing]
    pass_number: Count,
    /// Number of passes, at least 2.
    #[within(2.0, 1e6)]
    #[whole]
    #[decreasing]
    passes: Count,
    /// Area of the first pass over that of the third and later ones.
    #[positive]
    #[at_most(1.0)]
    #[range(0.2, 1.0)]
    #[default(0.3)]
    #[increasing]
    first_share: Ratio,
) -> Length {
    let areas = if pass_number > 1.0 { pass_number - 1.0 } else { first_share };
    thread_depth * (areas / (passes - 1.0)).sqrt()
}

/// Number of passes of equal chip areas, for a limit on the depth of the first pass.
///
/// (thread depth / first depth)², rounded up, on exact sizes: a first pass that meets its limit to the last
/// digit takes no pass more.
#[formula(
    source = "Common practice, no source; from depth · sqrt(1 / passes)",
    rule(first_depth > Size::ZERO, "first_depth must be at least a picometre")
)]
pub fn threading_passes(
    #[positive]
    #[increasing]
    thread_depth: Size,
    /// Greatest infeed of the first pass, on the radius.
    #[positive]
    #[decreasing]
    first_depth: Size,
) -> Count {
    let [whole, first] = [thread_depth, first_depth].map(|size| i128::from(size.picometres()));
    (whole * whole + first * first - 1).checked_div(first * first).map_or(f64::NAN, |passes| passes as f64)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&THREADING_INFEED, &THREADING_INFEED_LIGHT, &THREADING_PASSES];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    // 0.6 / 0.2 = 3 and 3² = 9; in floats the quotient is 2.9999999999999996.
    #[test]
    fn a_first_pass_may_meet_its_limit() {
        let passes = |depth: f64, first: f64| {
            let mut y = [0.0];
            THREADING_PASSES.call(Units::Metric, &[depth, first], &mut y).map_or(f64::NAN, |_| y[0])
        };
        assert_eq!([passes(0.6, 0.2), passes(0.6, 0.199999), passes(0.1, 0.2)], [9.0, 10.0, 1.0]);
        assert_eq!([passes(0.3, 0.1), passes(0.7, 0.1)], [9.0, 49.0]);
    }
}

//! Pre-control: a process is watched by two pieces at a time, against the middle half of the tolerance.
//!
//! Within the middle half a piece is green, beyond it and within the limits yellow, beyond the limits red.
use crate::formula::Formula;
use crate::inspect::risk::integral;
use crate::math::{normal_cdf, normal_density};
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// The lines between green and yellow.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PreControlLines {
    /// Lower line: a quarter of the tolerance above the lower limit.
    pub lower_line: Length,
    /// Upper line: a quarter of the tolerance below the upper limit.
    pub upper_line: Length,
}

/// Lines of pre-control: the ends of the middle half of the tolerance.
///
/// The set-up is good when five pieces in a row are green; a yellow one starts the count again, and with a red one the tool is
/// set again. Running, two pieces are taken at a time: a first green one is enough; after a yellow one the second must be
/// green. Two yellow ones on one side: set the tool again. On both sides, or a red one: stop and look for the cause. Six checks
/// between two settings of the tool are usual.
#[formula(
    source = "Common practice; the rules as in S. H. Steiner, Quality Engineering 10 (1997) 65 (from memory)",
    rule(lower_limit < upper_limit, "lower_limit must be below upper_limit")
)]
pub fn pre_control_lines(
    /// Lower limit of the characteristic.
    lower_limit: Length,
    /// Upper limit of the characteristic.
    upper_limit: Length,
) -> PreControlLines {
    // Each from its own limit, so that short decimals come out as such.
    BarePreControlLines {
        lower_line: 0.75 * lower_limit + 0.25 * upper_limit,
        upper_line: 0.25 * lower_limit + 0.75 * upper_limit,
    }
}

/// How likely each decision of pre-control is.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct PreControlRisks {
    /// Share of green pieces.
    pub green: Ratio,
    /// Share of yellow pieces.
    pub yellow: Ratio,
    /// Share of red pieces.
    pub red: Ratio,
    /// Probability that a set-up passes: five green pieces in a row before a red one.
    pub setup_passes: Ratio,
    /// Probability that a check lets the process run.
    pub runs: Ratio,
    /// Probability that a check has the tool set again: two yellow pieces on one side.
    pub sets_again: Ratio,
    /// Probability that a check stops the process: a red piece, or yellow ones on both sides.
    pub stops: Ratio,
}

/// Risks of pre-control for a process by the normal law.
///
/// Of a process that is in order, sets_again and stops are false alarms; of one that has moved or spread, runs is the risk that
/// one check misses it. On average an alarm comes at the check 1 / (1 - runs). Pre-control looks at the limits alone, and says
/// nothing about whether a capable process is stable.
#[formula(
    source = "The normal law; the rules as in S. H. Steiner, Quality Engineering 10 (1997) 65 (from memory)"
)]
pub fn pre_control_risks(
    #[term(size_tolerance)] tolerance: Length,
    process_deviation: Length,
    process_offset: Length,
) -> PreControlRisks {
    let [quarter, half, offset] =
        [0.25 * tolerance, 0.5 * tolerance, process_offset].map(|x| x / process_deviation);
    let green = band(-offset, quarter);
    let yellows = [-1.5, 1.5].map(|quarters| band(quarters * quarter - offset, 0.5 * quarter));
    let yellow = yellows[0] + yellows[1];
    let red = normal_cdf(-half - offset) + normal_cdf(offset - half);
    let sets_again = yellows[0] * yellows[0] + yellows[1] * yellows[1];
    let stops = red + yellow * red + 2.0 * yellows[0] * yellows[1];
    // Up to four green pieces may come before a yellow or a red one.
    let squared = green * green;
    let before = 1.0 + green + squared + squared * green + squared * squared;
    let fifth = squared * squared * green;
    BarePreControlRisks {
        green,
        yellow,
        red,
        setup_passes: if fifth > 0.0 { fifth / (fifth + red * before) } else { 0.0 },
        runs: green + yellow * green,
        sets_again,
        stops,
    }
}

/// The share of the normal law within so much of a deviate, to all digits in both tails and in narrow bands.
fn band(middle: f64, half_width: f64) -> f64 {
    if half_width < 0.25 {
        // A difference of shares, or of ends far from zero, would lose its digits.
        return integral(-half_width, half_width, |x| normal_density(middle + x))[0];
    }
    let (low, high) = (middle - half_width, middle + half_width);
    if middle > 0.0 { normal_cdf(-low) - normal_cdf(-high) } else { normal_cdf(high) - normal_cdf(low) }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&PRE_CONTROL_LINES, &PRE_CONTROL_RISKS];

//! How many readings show a capability, and how many good pieces show that a setting is good.
use crate::formula::Formula;
use crate::math::{ln, normal_quantile, powf};
use crate::quantity::*;
use crate::statistics::{beta_below, beta_quantile};
use tenths_macros::formula;

/// The variance of Bissell's law of a sample Cpk.
#[inline(always)]
fn variance(cpk: f64, readings: f64) -> f64 {
    1.0 / (9.0 * readings) + cpk * cpk / (2.0 * (readings - 1.0))
}

/// Cpk that a sample shows with a confidence: its lower bound, on one side.
///
/// Observed Cpk less the normal deviate of the confidence times √(1 / 9n + Cpk² / 2(n - 1)). It holds for a stable
/// process with normal readings. The interval of `capability` has two sides: its lower end at 95 percent is the bound at 97.5.
#[formula(source = "A. F. Bissell, Applied Statistics 39 (1990) 331 (from memory)")]
pub fn capability_shown(
    /// Cpk of the sample.
    observed_capability: Ratio,
    #[term(capability_readings)] readings: Count,
    confidence: Ratio,
) -> Ratio {
    observed_capability - normal_quantile(confidence) * variance(observed_capability, readings).sqrt()
}

/// Cpk that a sample must have to show a required one with a confidence.
///
/// The inverse of `capability_shown`. Few readings can show nothing, however good they are.
#[formula(
    source = "A. F. Bissell, Applied Statistics 39 (1990) 331 (from memory), solved for the Cpk of the sample",
    rule(
        2.0 * (readings - 1.0) > normal_quantile(confidence) * normal_quantile(confidence),
        "readings must be more: so few show no capability with this confidence"
    ),
    inverse(required_capability = capability_shown_base(capability_to_show, readings, confidence))
)]
pub fn capability_to_show(
    required_capability: Ratio,
    #[term(capability_readings)] readings: Count,
    confidence: Ratio,
) -> Ratio {
    to_show(required_capability, readings, normal_quantile(confidence))
}

/// The larger root of (observed - required)² = deviate² · variance; not a number where there is none.
#[inline(always)]
fn to_show(required: f64, readings: f64, deviate: f64) -> f64 {
    let share = deviate * deviate / (2.0 * (readings - 1.0));
    let left = 1.0 - share;
    let root = (share * required * required + left * deviate * deviate / (9.0 * readings)).sqrt();
    if left > 0.0 { (required + root) / left } else { f64::NAN }
}

/// Readings that it takes to show a required Cpk with a confidence.
///
/// So many that a sample of a process with process_capability shows the required one with the probability `chance`. At a
/// chance of 0.5 the sample is taken to come out as the process is, as most tables do. The closer the process is to what is
/// required, the more it takes: with the square of the distance.
#[formula(
    source = "A. F. Bissell, Applied Statistics 39 (1990) 331 (from memory), with the law of the sample on both sides",
    rule(
        process_capability > required_capability,
        "process_capability must be above required_capability: no sample shows more than there is"
    )
)]
pub fn readings_to_show_capability(
    /// Cpk that the process is expected to have.
    #[positive]
    process_capability: Ratio,
    required_capability: Ratio,
    #[increasing] confidence: Ratio,
    /// Probability that the sample shows it.
    #[at_least(0.5)]
    #[below(1.0)]
    #[default(0.9)]
    #[increasing]
    chance: Ratio,
) -> Count {
    let (deviate, power) = (normal_quantile(confidence), normal_quantile(chance));
    let shows = |readings: f64| {
        let needed = to_show(required_capability, readings, deviate);
        needed + power * variance(process_capability, readings).sqrt() <= process_capability
    };
    least_count(2.0, shows)
}

/// Good pieces that it takes to show a share of good ones with a confidence, such as after setting up.
///
/// The pieces to measure, of which `bad_pieces` may be bad: a process with exactly good_share good pieces passes with a
/// probability of at most 1 - confidence. Pieces that were chosen, or made while the setting still
/// changed, show nothing.
#[formula(source = "The binomial law; without bad pieces the run of successes, confidence = 1 - share^n")]
pub fn setup_pieces(
    /// Share of good pieces to show.
    #[positive]
    #[below(1.0)]
    good_share: Ratio,
    confidence: Ratio,
    #[increasing] bad_pieces: Count,
) -> Count {
    // A batch computes every row before it is judged, and the search below counts in whole numbers.
    if !((0.0..=MAX_BAD).contains(&bad_pieces) && bad_pieces == bad_pieces.floor()) {
        return f64::NAN;
    }
    // What is exact on paper, such as 0.5² = 0.25, stays exact.
    let doubt = (1.0 - confidence) * (1.0 + 1e-12);
    if bad_pieces == 0.0 {
        let pieces = (ln(1.0 - confidence) / ln(good_share)).ceil();
        return if powf(good_share, pieces - 1.0) <= doubt { pieces - 1.0 } else { pieces };
    }
    least_count(bad_pieces + 1.0, |pieces| {
        beta_below(pieces - bad_pieces, bad_pieces + 1.0, good_share) <= doubt
    })
}

/// Share of good pieces that a sample shows with a confidence: the lower bound of Clopper and Pearson, on one side.
#[formula(
    source = "C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404 (from memory)",
    rule(bad_pieces < pieces, "bad_pieces must be fewer than pieces")
)]
pub fn good_share_shown(
    /// Pieces measured, good and bad ones.
    #[positive]
    #[whole]
    #[at_most(1e7)]
    #[increasing]
    pieces: Count,
    #[decreasing] confidence: Ratio,
    #[decreasing] bad_pieces: Count,
) -> Ratio {
    if bad_pieces == 0.0 {
        return powf(1.0 - confidence, 1.0 / pieces);
    }
    beta_quantile(pieces - bad_pieces, bad_pieces + 1.0, 1.0 - confidence)
}

/// The most bad pieces that a setting is judged with, as its domain says.
const MAX_BAD: f64 = 1000.0;
/// The most that is counted.
const MAX_COUNT: f64 = 1e8;

/// The least whole number from the whole number `least` on that will do, where every larger one does too; not a number beyond the most that
/// is counted.
fn least_count(least: f64, will_do: impl Fn(f64) -> bool) -> f64 {
    let (mut below, mut step) = (least - 1.0, 1.0);
    while !will_do(below + step) {
        below += step;
        step *= 2.0;
        if below + step > MAX_COUNT {
            return f64::NAN;
        }
    }
    let mut enough = below + step;
    while enough - below > 1.0 {
        let middle = (0.5 * (below + enough)).floor();
        if will_do(middle) { enough = middle } else { below = middle }
    }
    enough
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] =
    &[&CAPABILITY_SHOWN, &CAPABILITY_TO_SHOW, &READINGS_TO_SHOW_CAPABILITY, &SETUP_PIECES, &GOOD_SHARE_SHOWN];

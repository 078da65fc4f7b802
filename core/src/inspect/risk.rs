//! Risks of a wrong decision: bad parts accepted and good parts rejected, from process and measurement spread.
use crate::formula::Formula;
use crate::math::{normal_cdf, normal_density};
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// A risk and how well it is known.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct Risk {
    /// The share of all parts that is judged wrongly in this way.
    pub risk: Ratio,
    /// Bound on the numerical error of the risk, estimated from two rules of integration and rounded up to a power
    /// of two.
    pub error: Ratio,
}

/// Consumer's risk: the share of all parts that is outside the limits and yet accepted.
///
/// Sizes of parts are normal about the middle of the limits plus process_offset, and readings normal about the size of
/// the part. Accepted is what reads within the limits drawn in by guard_band. The risk is the integral of the density
/// of sizes outside the limits times the probability that such a size is accepted: a bivariate normal integral, here by
/// Gauss and Kronrod's rule in fixed panels. Sizes beyond nine standard deviations are ignored.
///
/// It is the global risk, before a part is measured, and holds as far as process and measurement are normal, known and
/// free of bias; tails of real processes are seldom known so far out.
#[formula(
    source = "JCGM 106:2012, clause 9.5 (clause from memory)",
    rule(guard_band < 0.5 * tolerance, "guard_band must be less than half the tolerance")
)]
pub fn consumer_risk(
    #[term(size_tolerance)] tolerance: Length,
    process_deviation: Length,
    measurement_uncertainty: Length,
    process_offset: Length,
    guard_band: Length,
) -> Risk {
    let half = 0.5 * tolerance / process_deviation;
    let accepted = half - guard_band / process_deviation;
    let spread = measurement_uncertainty / process_deviation;
    let offset = process_offset / process_deviation;
    // Over the readings, which spread by both: how likely is a size beyond the upper limit, given the reading? It is
    // normal about what the reading and the process tell together. Beyond the lower limit is the mirror image.
    let whole = (1.0 + spread * spread).sqrt();
    let beyond = |mean: f64| {
        let edge = half + (half - mean) * spread * spread;
        share([-accepted / whole, accepted / whole], mean / whole, edge / whole, spread)
    };
    total(beyond(offset), beyond(-offset))
}

/// Producer's risk: the share of all parts that is within the limits and yet rejected.
///
/// As consumer_risk, with the density of sizes within the limits and the probability that such a size is rejected.
#[formula(
    source = "JCGM 106:2012, clause 9.5 (clause from memory)",
    rule(guard_band < 0.5 * tolerance, "guard_band must be less than half the tolerance")
)]
pub fn producer_risk(
    #[term(size_tolerance)] tolerance: Length,
    process_deviation: Length,
    measurement_uncertainty: Length,
    process_offset: Length,
    guard_band: Length,
) -> Risk {
    let half = 0.5 * tolerance / process_deviation;
    let accepted = half - guard_band / process_deviation;
    let spread = measurement_uncertainty / process_deviation;
    let offset = process_offset / process_deviation;
    // Over the sizes: how likely is a reading above the acceptance zone? Below it is the mirror image.
    let above = |mean: f64| share([-half, half], mean, accepted, spread);
    total(above(offset), above(-offset))
}

/// Standard deviations beyond which a normal law is ignored: a share of 1e-19.
const FAR: f64 = 9.0;
const PANELS: usize = 6;

/// The most that the ignored tails may hold.
const TRUNCATED: f64 = 1e-18;
/// Rounding relative to a sum, as the far tails of the normal law magnify it. A smaller difference between two rules is
/// only rounding.
const ROUNDING: f64 = 128.0 * f64::EPSILON;

#[inline(always)]
fn total(one: [f64; 2], other: [f64; 2]) -> BareRisk {
    let risk = one[0] + other[0];
    BareRisk { risk, error: power_of_two(one[1] + other[1] + 2.0 * ROUNDING * risk + TRUNCATED) }
}

/// The next power of two from a positive number upward: the digits of an error tell nothing.
#[inline(always)]
fn power_of_two(x: f64) -> f64 {
    const FRACTION: u64 = (1 << 52) - 1;
    f64::from_bits(x.to_bits().wrapping_add(FRACTION) & !FRACTION)
}

/// The integral between two ends of the normal density about `mean` with deviation 1, times the probability that a
/// normal law of deviation `spread` gives for being above `edge`; and the error of it.
///
/// There is nothing to add where either vanishes. On both sides of the place above which the probability is one, the
/// integrand is smooth on the scale of the panels.
#[inline(always)]
fn share([low, high]: [f64; 2], mean: f64, edge: f64, spread: f64) -> [f64; 2] {
    let start = larger(larger(low, mean - FAR), edge - FAR * spread);
    let end = larger(smaller(high, mean + FAR), start);
    let knee = smaller(larger(edge + FAR * spread, start), end);
    let integrand = |x: f64| normal_density(x - mean) * normal_cdf((x - edge) / spread);
    let (below, above) = (integral(start, knee, integrand), integral(knee, end, integrand));
    [below[0] + above[0], below[1] + above[1]]
}

/// An integral by Kronrod's rule in panels, and the sum of its differences from Gauss's.
#[inline(always)]
pub(super) fn integral(start: f64, end: f64, integrand: impl Fn(f64) -> f64) -> [f64; 2] {
    let half = (end - start) * (0.5 / PANELS as f64);
    let (mut sum, mut error) = (0.0, 0.0);
    for panel in 0..PANELS {
        let middle = start + half * (2 * panel + 1) as f64;
        let at_middle = integrand(middle);
        let (mut kronrod, mut gauss) = (KRONROD[10] * at_middle, 0.0);
        for k in 0..10 {
            let step = half * NODES[k];
            let pair = integrand(middle - step) + integrand(middle + step);
            kronrod += KRONROD[k] * pair;
            gauss += GAUSS[k] * pair;
        }
        sum += half * kronrod;
        error += half * larger((kronrod - gauss).abs() - ROUNDING * kronrod, 0.0);
    }
    [sum, error]
}

#[inline(always)]
fn larger(one: f64, other: f64) -> f64 {
    if one > other { one } else { other }
}

#[inline(always)]
fn smaller(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

/// Nodes of Kronrod's rule of 21 points: these and their negatives, and zero.
const NODES: [f64; 10] = [
    0.995_657_163_025_808_1,
    0.973_906_528_517_171_7,
    0.930_157_491_355_708_2,
    0.865_063_366_688_984_5,
    0.780_817_726_586_416_9,
    0.679_409_568_299_024_4,
    0.562_757_134_668_604_7,
    0.433_395_394_129_247_2,
    0.294_392_862_701_460_2,
    0.148_874_338_981_631_22,
];
/// Weights of Kronrod's rule.
const KRONROD: [f64; 11] = [
    0.011_694_638_867_371_874,
    0.032_558_162_307_964_725,
    0.054_755_896_574_351_995,
    0.075_039_674_810_919_96,
    0.093_125_454_583_697_6,
    0.109_387_158_802_297_64,
    0.123_491_976_262_065_84,
    0.134_709_217_311_473_34,
    0.142_775_938_577_060_09,
    0.147_739_104_901_338_49,
    0.149_445_554_002_916_9,
];
/// Weights of Gauss's rule of 10 points, which stands on every second node.
const GAUSS: [f64; 10] = [
    0.0,
    0.066_671_344_308_688_14,
    0.0,
    0.149_451_349_150_580_6,
    0.0,
    0.219_086_362_515_982_04,
    0.0,
    0.269_266_719_309_996_35,
    0.0,
    0.295_524_224_714_752_87,
];

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&CONSUMER_RISK, &PRODUCER_RISK];

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_rules_of_integration_are_exact_for_polynomials() {
        for power in (0..=18).step_by(2) {
            let sum = |weights: &[f64], middle: f64| {
                let pairs = NODES
                    .iter()
                    .zip(weights)
                    .map(|(node, weight)| 2.0 * weight * crate::math::powf(*node, f64::from(power)));
                pairs.sum::<f64>() + if power == 0 { middle } else { 0.0 }
            };
            let integral = 2.0 / f64::from(power + 1);
            assert!((sum(&KRONROD, KRONROD[10]) - integral).abs() < 1e-15, "{power}");
            assert!((sum(&GAUSS, 0.0) - integral).abs() < 1e-15, "{power}");
        }
    }

    fn length(value: f64) -> Length {
        Length::millimetres(value)
    }

    fn risk(outcome: Result<Risk, crate::Error>) -> (f64, f64) {
        let Risk { risk, error } = outcome.unwrap_or_else(|error| panic!("{error}"));
        (risk.metric(), error.metric())
    }

    proptest! {
        // The parts outside the limits, less those of them that are accepted, and the parts within that are rejected,
        // are all that is rejected; and readings are normal with both spreads together.
        #[test]
        fn the_risks_and_the_readings_agree(
            deviation in 0.05..5.0f64,
            spread in 0.001..20.0f64,
            offset in -3.0..3.0f64,
            guard in -1.5..0.99f64,
        ) {
            let x = [2.0, deviation, spread, offset, guard].map(length);
            let (consumer, consumer_error) = risk(consumer_risk(x[0], x[1], x[2], x[3], x[4]));
            let (producer, producer_error) = risk(producer_risk(x[0], x[1], x[2], x[3], x[4]));
            let beyond = |half: f64, deviation: f64| {
                normal_cdf((-half - offset) / deviation) + normal_cdf((-half + offset) / deviation)
            };
            let outside = beyond(1.0, deviation);
            let rejected = beyond(1.0 - guard, (deviation * deviation + spread * spread).sqrt());
            let error = consumer_error + producer_error;
            prop_assert!((outside - consumer + producer - rejected).abs() <= error + 1e-15);
            prop_assert!(error < 1e-9, "{error}");
        }
    }
}

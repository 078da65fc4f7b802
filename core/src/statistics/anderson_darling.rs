//! Anderson and Darling's test of normality.
use super::moments::mean_and_deviation;
use crate::math::{exp, ln, normal_cdf};
use crate::simd::{WideLoop, run_wide};

/// What the test gives.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct AndersonDarling {
    /// Anderson and Darling's A², by the mean and the standard deviation of the readings.
    pub statistic: f64,
    /// A² raised for the count of readings, by which the p value goes.
    pub adjusted: f64,
    /// The probability of such a statistic or a larger one for normal readings, good to about two digits.
    pub p: f64,
}

/// Whether readings can be normal, by their own mean and standard deviation; none for fewer than eight readings, for
/// readings without spread, and for those that are not finite.
///
/// Source: R. B. D'Agostino and M. A. Stephens, Goodness-of-Fit Techniques (1986), section 4.8.5 and table 4.9 (from
/// memory).
pub fn anderson_darling(readings: &[f64]) -> Option<AndersonDarling> {
    let mut sorted = readings.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    let [mean, deviation] = mean_and_deviation(&sorted);
    of_sorted(&sorted, mean, deviation)
}

/// Fewer readings cannot show that they are not normal.
const MIN_READINGS: usize = 8;

/// The test of readings in order, of known mean and standard deviation.
pub(crate) fn of_sorted(sorted: &[f64], mean: f64, deviation: f64) -> Option<AndersonDarling> {
    if sorted.len() < MIN_READINGS || !deviation.is_finite() || deviation <= 0.0 {
        return None;
    }
    let count = sorted.len() as f64;
    let sum = run_wide(Sum { sorted, mean, deviation });
    let statistic = -count - sum / count;
    let adjusted = statistic * (1.0 + 0.75 / count + 2.25 / (count * count));
    Some(AndersonDarling { statistic, adjusted, p: p_value(adjusted) })
}

/// The sum of 2 i - 1 times the logarithm of the share below reading i times that above reading n + 1 - i.
struct Sum<'a> {
    sorted: &'a [f64],
    mean: f64,
    deviation: f64,
}

impl WideLoop for Sum<'_> {
    type Output = f64;

    #[inline(always)]
    fn run(self) -> f64 {
        let mut logarithms: Vec<f64> = self
            .sorted
            .iter()
            .zip(self.sorted.iter().rev())
            .map(|(low, high)| {
                let below = normal_cdf((low - self.mean) / self.deviation);
                let above = normal_cdf((self.mean - high) / self.deviation);
                below * above
            })
            .collect();
        for product in &mut logarithms {
            // A reading so far out that its probability is no float is counted as the last that is one.
            *product = ln(if *product > f64::MIN_POSITIVE { *product } else { f64::MIN_POSITIVE });
        }
        let mut weight = -1.0;
        logarithms.iter().fold(0.0, |sum, logarithm| {
            weight += 2.0;
            sum + weight * logarithm
        })
    }
}

fn p_value(a: f64) -> f64 {
    let exponential = |constant: f64, linear: f64, square: f64| exp(constant + a * (linear + a * square));
    let p = if a < 0.2 {
        1.0 - exponential(-13.436, 101.14, -223.73)
    } else if a < 0.34 {
        1.0 - exponential(-8.318, 42.796, -59.938)
    } else if a < 0.6 {
        exponential(0.9177, -4.279, -1.38)
    } else if a < 13.0 {
        exponential(1.2937, -5.709, 0.0186)
    } else {
        0.0
    };
    p.clamp(0.0, 1.0)
}

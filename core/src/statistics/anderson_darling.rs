//! Anderson and Darling's test of normality.
use super::moments::mean_and_deviation;
use super::sorting::{LANES, MOST_READINGS, Network, Row};
use crate::math::{exp, ln, normal_tails};
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
    one(readings, mean_and_deviation(readings))
}

/// Fewer readings cannot show that they are not normal.
const MIN_READINGS: usize = 8;
/// Fewer columns are quicker one by one.
const MIN_COLUMNS: usize = 3;

/// The test of many columns of readings, of known means and standard deviations.
#[derive(Default)]
pub(crate) struct NormalityTests {
    network: Network,
    rows: Vec<Row>,
}

impl NormalityTests {
    /// As many columns as are tested at once.
    pub(crate) const COLUMNS: usize = LANES;

    /// The tests of that many columns at most.
    pub(crate) fn of(
        &mut self,
        columns: &[&[f64]],
        moments: &[[f64; 2]],
    ) -> [Option<AndersonDarling>; LANES] {
        let count = columns.first().map_or(0, |first| first.len());
        let together = columns.len() >= MIN_COLUMNS
            && columns.len() <= LANES
            && count <= MOST_READINGS
            && columns.iter().all(|column| column.len() == count);
        if !together {
            let mut each = columns.iter().zip(moments).map(|(column, moments)| one(column, *moments));
            return std::array::from_fn(|_| each.next().flatten());
        }
        self.rows.clear();
        self.rows.resize(count, Row([0.0; LANES]));
        for (lane, column) in columns.iter().enumerate() {
            self.rows.iter_mut().zip(*column).for_each(|(row, reading)| row.0[lane] = *reading);
        }
        self.network.sort(&mut self.rows);
        let sorted: Vec<_> = self.rows.iter().map(|row| row.0).collect();
        let moment = |lane: usize| moments.get(lane).copied().unwrap_or([0.0, f64::NAN]);
        of_sorted(&sorted, std::array::from_fn(moment))
    }
}

fn one(readings: &[f64], moments: [f64; 2]) -> Option<AndersonDarling> {
    let mut sorted: Vec<_> = readings.iter().map(|reading| [*reading]).collect();
    sorted.sort_unstable_by(|[one], [other]| one.total_cmp(other));
    let [test] = of_sorted(&sorted, [moments]);
    test
}

/// The tests of columns in order that lie side by side.
fn of_sorted<const N: usize>(sorted: &[[f64; N]], moments: [[f64; 2]; N]) -> [Option<AndersonDarling>; N] {
    if sorted.len() < MIN_READINGS {
        return [None; N];
    }
    let count = sorted.len() as f64;
    let sums = run_wide(Sums { sorted, moments });
    std::array::from_fn(|k| {
        let deviation = moments[k][1];
        let statistic = -count - sums[k] / count;
        let adjusted = statistic * (1.0 + 0.75 / count + 2.25 / (count * count));
        let valid = deviation.is_finite() && deviation > 0.0;
        valid.then(|| AndersonDarling { statistic, adjusted, p: p_value(adjusted) })
    })
}

/// The sum of 2 i - 1 times the logarithm of the share below reading i times that above reading n + 1 - i.
struct Sums<'a, const N: usize> {
    sorted: &'a [[f64; N]],
    moments: [[f64; 2]; N],
}

impl<const N: usize> WideLoop for Sums<'_, N> {
    type Output = [f64; N];

    // Loops over all columns at once rather than iterators that are collected, whose code would not be that of the wide
    // registers.
    #[inline(always)]
    fn run(self) -> [f64; N] {
        let [mut below, mut above] = [0, 1].map(|_| vec![[0.0; N]; self.sorted.len()]);
        for (row, readings) in below.iter_mut().zip(self.sorted) {
            for k in 0..N {
                let [mean, deviation] = self.moments[k];
                row[k] = (readings[k] - mean) / deviation;
            }
        }
        for (below, above) in below.as_flattened_mut().iter_mut().zip(above.as_flattened_mut()) {
            [*below, *above] = normal_tails(*below);
        }
        for (below, above) in below.iter_mut().zip(above.iter().rev()) {
            for k in 0..N {
                below[k] *= above[k];
            }
        }
        for product in below.as_flattened_mut() {
            // A reading so far out that its probability is no float is counted as the last that is one.
            *product = ln(if *product > f64::MIN_POSITIVE { *product } else { f64::MIN_POSITIVE });
        }
        let (mut sums, mut weight) = ([0.0; N], -1.0);
        for logarithms in &below {
            weight += 2.0;
            for k in 0..N {
                sums[k] += weight * logarithms[k];
            }
        }
        sums
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_side_by_side_have_the_bits_of_each_alone() {
        let reading = |place: usize, lane: usize| ((place * 7919 + lane * 104_729) % 997) as f64 / 31.0 - 5.0;
        for count in [7, 8, 125, 5000] {
            for width in 1..=LANES {
                let columns: Vec<Vec<f64>> =
                    (0..width).map(|lane| (0..count).map(|place| reading(place, lane)).collect()).collect();
                let moments: Vec<_> = columns.iter().map(|column| mean_and_deviation(column)).collect();
                let columns: Vec<_> = columns.iter().map(Vec::as_slice).collect();
                let tests = NormalityTests::default().of(&columns, &moments);
                for (lane, test) in tests.into_iter().enumerate() {
                    assert_eq!(test, columns.get(lane).and_then(|column| anderson_darling(column)));
                }
            }
        }
    }
}

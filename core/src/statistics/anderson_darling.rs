//! Anderson and Darling's test of normality.
use super::moments::mean_and_deviation;
use super::sorting::{LANES, MAX_READINGS, Network, Row};
use crate::math::{exp, ln, normal_tails, split_normal};
use crate::simd::{WideLoop, run_wide};
use std::f64::consts::LN_2;

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
    tails: Tails<LANES>,
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
            && count <= MAX_READINGS
            && columns.iter().all(|column| column.len() == count);
        if !together {
            let mut each = columns.iter().zip(moments).map(|(column, moments)| one(column, *moments));
            return std::array::from_fn(|_| each.next().flatten());
        }
        self.rows.clear();
        self.rows.resize(count, Row([0.0; LANES]));
        for (lane, (column, moments)) in columns.iter().zip(moments).enumerate() {
            let deviations = deviations(column, *moments);
            self.rows.iter_mut().zip(deviations).for_each(|(row, deviation)| row.0[lane] = deviation);
        }
        self.network.sort(&mut self.rows);
        let tests = self.tails.of_sorted(self.rows.iter().map(|row| row.0));
        std::array::from_fn(|lane| tests[lane].filter(|_| moments.get(lane).is_some_and(has_spread)))
    }
}

fn one(readings: &[f64], moments: [f64; 2]) -> Option<AndersonDarling> {
    let mut sorted: Vec<f64> = deviations(readings, moments).collect();
    sorted.sort_unstable_by(f64::total_cmp);
    let [test] = Tails::default().of_sorted(sorted.into_iter().map(|deviation| [deviation]));
    test.filter(|_| has_spread(&moments))
}

/// How many standard deviations each reading is from the mean.
fn deviations(readings: &[f64], [mean, deviation]: [f64; 2]) -> impl Iterator<Item = f64> {
    let scale = 1.0 / deviation;
    readings.iter().map(move |reading| (reading - mean) * scale)
}

fn has_spread([_, deviation]: &[f64; 2]) -> bool {
    deviation.is_finite() && *deviation > 0.0 && (1.0 / deviation).is_finite()
}

/// The shares below and above each reading, of columns that lie side by side: room that the next columns use again.
struct Tails<const N: usize> {
    below: Vec<[f64; N]>,
    above: Vec<[f64; N]>,
}

impl<const N: usize> Default for Tails<N> {
    fn default() -> Self {
        Tails { below: vec![], above: vec![] }
    }
}

impl<const N: usize> Tails<N> {
    /// The tests of columns of deviations in order.
    fn of_sorted(&mut self, sorted: impl Iterator<Item = [f64; N]>) -> [Option<AndersonDarling>; N] {
        self.below.clear();
        self.below.extend(sorted);
        self.above.resize(self.below.len(), [0.0; N]);
        if self.below.len() < MIN_READINGS {
            return [None; N];
        }
        let count = self.below.len() as f64;
        run_wide(Sums { below: &mut self.below, above: &mut self.above }).map(|sum| {
            let statistic = -count - sum / count;
            let adjusted = statistic * (1.0 + 0.75 / count + 2.25 / (count * count));
            Some(AndersonDarling { statistic, adjusted, p: p_value(adjusted) })
        })
    }
}

/// The sum of 2 i - 1 times the logarithm of the share below reading i times that above reading n + 1 - i.
///
/// One logarithm serves all of them. Let S(j) be the sum of the logarithms from reading j to the last. All S(j) together
/// hold the logarithm of reading i just i times, so that the sum is twice that of all S(j), less S(1); and both are
/// logarithms of products.
struct Sums<'a, const N: usize> {
    /// The deviations in order, in whose place the shares below come.
    below: &'a mut [[f64; N]],
    above: &'a mut [[f64; N]],
}

/// Rows between which nothing is scaled: products of as many fractions from √½ to √2, and the product of these products,
/// stay far from the ends of the range of floats.
const UNSCALED: usize = 32;

impl<const N: usize> WideLoop for Sums<'_, N> {
    type Output = [f64; N];

    // Loops over all columns at once rather than iterators that are collected, whose code would not be that of the wide
    // registers.
    #[inline(always)]
    fn run(self) -> [f64; N] {
        let Sums { below, above } = self;
        for (below, above) in below.as_flattened_mut().iter_mut().zip(above.as_flattened_mut()) {
            [*below, *above] = normal_tails(*below);
        }
        let mut products = Products { from_here: Scaled::one(), all: Scaled::one() };
        for (below, above) in below.rchunks(UNSCALED).zip(above.chunks(UNSCALED)) {
            for (below, above) in below.iter().rev().zip(above) {
                products.take(below, above);
            }
            products.from_here.scale();
            products.all.scale();
        }
        let (from_first, all) = (products.from_here.ln(), products.all.ln());
        std::array::from_fn(|k| 2.0 * all[k] - from_first[k])
    }
}

/// Positive numbers of any size, as fractions and powers of two.
struct Scaled<const N: usize> {
    fractions: [f64; N],
    powers: [f64; N],
}

impl<const N: usize> Scaled<N> {
    fn one() -> Self {
        Scaled { fractions: [1.0; N], powers: [0.0; N] }
    }

    /// Leaves a fraction from √½ to √2.
    #[inline(always)]
    fn scale(&mut self) {
        for k in 0..N {
            let (power, fraction) = split_normal(self.fractions[k]);
            self.fractions[k] = fraction;
            self.powers[k] += power;
        }
    }

    #[inline(always)]
    fn ln(&self) -> [f64; N] {
        std::array::from_fn(|k| self.powers[k] * LN_2 + ln(self.fractions[k]))
    }
}

/// The product of the shares from the last reading down to one, and the product of all such products.
struct Products<const N: usize> {
    from_here: Scaled<N>,
    all: Scaled<N>,
}

impl<const N: usize> Products<N> {
    /// One more reading.
    #[inline(always)]
    fn take(&mut self, below: &[f64; N], above: &[f64; N]) {
        for k in 0..N {
            let product = below[k] * above[k];
            // A reading so far out that its probability is no float is counted as the last that is one.
            let product = if product > f64::MIN_POSITIVE { product } else { f64::MIN_POSITIVE };
            let (power, fraction) = split_normal(product);
            self.from_here.fractions[k] *= fraction;
            self.from_here.powers[k] += power;
            self.all.fractions[k] *= self.from_here.fractions[k];
            self.all.powers[k] += self.from_here.powers[k];
        }
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

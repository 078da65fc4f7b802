//! Mean, standard deviation and autocorrelation of readings.
use crate::simd::{WideLoop, run_wide};

/// Sums run in so many lanes with any registers, so that the bits are the same on every machine.
const LANES: usize = 8;

/// The sums of some functions of the readings.
#[inline(always)]
fn sums<const N: usize>(readings: &[f64], terms: impl Fn(f64) -> [f64; N]) -> [f64; N] {
    sums_of_pairs([readings, readings], |x, _| terms(x))
}

/// The sums of some functions of two readings, one of each list of as many.
#[inline(always)]
fn sums_of_pairs<const N: usize>(readings: [&[f64]; 2], terms: impl Fn(f64, f64) -> [f64; N]) -> [f64; N] {
    let mut lanes = [[0.0; LANES]; N];
    let [(chunks, rest), (others, other_rest)] = readings.map(<[f64]>::as_chunks::<LANES>);
    for (chunk, other) in chunks.iter().zip(others) {
        for k in 0..LANES {
            let terms = terms(chunk[k], other[k]);
            for n in 0..N {
                lanes[n][k] += terms[n];
            }
        }
    }
    for (k, (x, y)) in rest.iter().zip(other_rest).enumerate() {
        let terms = terms(*x, *y);
        for n in 0..N {
            lanes[n][k] += terms[n];
        }
    }
    lanes.map(|lanes| lanes.iter().sum())
}

/// The mean step from one reading to the next, without signs; NaN for fewer than two readings.
pub(crate) fn mean_step(readings: &[f64]) -> f64 {
    match readings {
        [before @ .., _] if !before.is_empty() => {
            run_wide(Steps { before, after: &readings[1..] }) / before.len() as f64
        }
        _ => f64::NAN,
    }
}

struct Steps<'a> {
    before: &'a [f64],
    after: &'a [f64],
}

impl WideLoop for Steps<'_> {
    type Output = f64;

    #[inline(always)]
    fn run(self) -> f64 {
        let [steps] = sums_of_pairs([self.before, self.after], |one, next| [(next - one).abs()]);
        steps
    }
}

/// The mean and the standard deviation of the sample, by n - 1; NaN for fewer readings than each needs.
///
/// The mean is corrected by that of what is left of the readings, so that readings with many digits in common keep theirs.
pub fn mean_and_deviation(readings: &[f64]) -> [f64; 2] {
    run_wide(Moments { readings })
}

struct Moments<'a> {
    readings: &'a [f64],
}

impl WideLoop for Moments<'_> {
    type Output = [f64; 2];

    #[inline(always)]
    fn run(self) -> [f64; 2] {
        let readings = self.readings;
        let count = readings.len() as f64;
        let [total] = sums(readings, |x| [x]);
        let first = total / count;
        let [left, squares] = sums(readings, |x| [x - first, (x - first) * (x - first)]);
        let squares = squares - left * left / count;
        let variance = squares / (count - 1.0);
        [first + left / count, if variance > 0.0 { variance.sqrt() } else { variance }]
    }
}

/// The largest reading less the smallest.
pub(crate) fn range(readings: &[f64]) -> f64 {
    let ends =
        readings.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| [x.min(low), x.max(high)]);
    ends[1] - ends[0]
}

/// The mean of readings; NaN for none.
pub fn mean(readings: &[f64]) -> f64 {
    mean_and_deviation(readings)[0]
}

/// The standard deviation of the sample, by n - 1; NaN for fewer than two readings.
pub fn standard_deviation(readings: &[f64]) -> f64 {
    mean_and_deviation(readings)[1]
}

/// The autocorrelation of readings at lag 1: the sum of products of neighbours about the mean, over the sum of squares.
pub fn autocorrelation(readings: &[f64]) -> f64 {
    let mean = mean(readings);
    let products: f64 = readings.windows(2).map(|pair| (pair[0] - mean) * (pair[1] - mean)).sum();
    let [squares] = sums(readings, |x| [(x - mean) * (x - mean)]);
    products / squares
}

//! Mean, standard deviation and autocorrelation of readings.

/// Sums run in so many lanes with any registers, so that the bits are the same on every machine.
const LANES: usize = 8;

/// The sum of a function of the readings.
fn sum(readings: &[f64], term: impl Fn(f64) -> f64) -> f64 {
    sum_of_pairs([readings, readings], |x, _| term(x))
}

/// The sum of a function of two readings, one of each list of as many.
fn sum_of_pairs(readings: [&[f64]; 2], term: impl Fn(f64, f64) -> f64) -> f64 {
    let mut lanes = [0.0; LANES];
    let mut add = |some: [&[f64]; 2]| {
        for ((lane, x), y) in lanes.iter_mut().zip(some[0]).zip(some[1]) {
            *lane += term(*x, *y);
        }
    };
    let [(chunks, rest), (others, other_rest)] = readings.map(<[f64]>::as_chunks::<LANES>);
    chunks.iter().zip(others).for_each(|(chunk, other)| add([chunk, other]));
    add([rest, other_rest]);
    lanes.iter().sum()
}

/// The mean step from one reading to the next, without signs; NaN for fewer than two readings.
pub(crate) fn mean_step(readings: &[f64]) -> f64 {
    match readings {
        [before @ .., _] if !before.is_empty() => {
            let steps = sum_of_pairs([before, &readings[1..]], |one, next| (next - one).abs());
            steps / before.len() as f64
        }
        _ => f64::NAN,
    }
}

/// The mean and the standard deviation of the sample, by n - 1; NaN for fewer readings than each needs.
///
/// The mean is corrected by that of what is left of the readings, so that readings with many digits in common keep theirs.
pub fn mean_and_deviation(readings: &[f64]) -> [f64; 2] {
    let count = readings.len() as f64;
    let first = sum(readings, |x| x) / count;
    let left = sum(readings, |x| x - first);
    let squares = sum(readings, |x| (x - first) * (x - first)) - left * left / count;
    let variance = squares / (count - 1.0);
    [first + left / count, if variance > 0.0 { variance.sqrt() } else { variance }]
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
    products / sum(readings, |x| (x - mean) * (x - mean))
}

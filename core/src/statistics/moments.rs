//! Mean, standard deviation and autocorrelation of readings.

/// Sums run in so many lanes with any registers, so that the bits are the same on every machine.
const LANES: usize = 8;

/// The sum of a function of the readings.
fn sum(readings: &[f64], term: impl Fn(f64) -> f64) -> f64 {
    let mut lanes = [0.0; LANES];
    let (chunks, rest) = readings.as_chunks::<LANES>();
    for chunk in chunks {
        for (lane, x) in lanes.iter_mut().zip(chunk) {
            *lane += term(*x);
        }
    }
    for (lane, x) in lanes.iter_mut().zip(rest) {
        *lane += term(*x);
    }
    lanes.iter().sum()
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

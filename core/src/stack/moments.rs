//! Mean, spread and shape of a law, and of samples that come in parts.

/// Mean and the next three cumulants of a law. Those of a sum of independent quantities are the sums of theirs.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(crate) struct Cumulants {
    pub mean: f64,
    pub variance: f64,
    /// Third central moment.
    pub third: f64,
    /// Fourth central moment less three squares of the variance.
    pub fourth: f64,
}

impl Cumulants {
    pub(crate) fn normal(mean: f64, sigma: f64) -> Cumulants {
        Cumulants { mean, variance: sigma * sigma, ..Cumulants::default() }
    }

    /// Those of values that are equally frequent.
    pub(crate) fn of(values: &[f64]) -> Cumulants {
        let moments = SampleMoments::of(values);
        let count = moments.count as f64;
        let variance = moments.second / count;
        let fourth = moments.fourth / count - 3.0 * variance * variance;
        Cumulants { mean: moments.mean, variance, third: moments.third / count, fourth }
    }

    /// From moments about zero.
    pub(crate) fn from_raw_moments([first, second, third, fourth]: [f64; 4]) -> Cumulants {
        let square = first * first;
        let variance = second - square;
        let central_third = third - 3.0 * first * second + 2.0 * first * square;
        let central_fourth = fourth - 4.0 * first * third + 6.0 * square * second - 3.0 * square * square;
        Cumulants {
            mean: first,
            variance,
            third: central_third,
            fourth: central_fourth - 3.0 * variance * variance,
        }
    }

    /// Those of `origin + scale * x`.
    pub(crate) fn placed(self, origin: f64, scale: f64) -> Cumulants {
        let square = scale * scale;
        Cumulants {
            mean: origin + scale * self.mean,
            variance: self.variance * square,
            third: self.third * square * scale,
            fourth: self.fourth * square * square,
        }
    }

    /// Those of a sum of independent quantities.
    pub(crate) fn plus(self, other: Cumulants) -> Cumulants {
        Cumulants {
            mean: self.mean + other.mean,
            variance: self.variance + other.variance,
            third: self.third + other.third,
            fourth: self.fourth + other.fourth,
        }
    }

    /// Those of the sum of so many independent ones.
    pub(crate) fn times(self, count: f64) -> Cumulants {
        Cumulants {
            mean: self.mean * count,
            variance: self.variance * count,
            third: self.third * count,
            fourth: self.fourth * count,
        }
    }
}

/// Count, mean, sums of powers of the distance from the mean, and extremes of a sample.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct SampleMoments {
    pub count: u64,
    pub mean: f64,
    pub second: f64,
    pub third: f64,
    pub fourth: f64,
    pub minimum: f64,
    pub maximum: f64,
}

/// Sums run in so many lanes, at any width of the registers, so that their bits do not depend on it.
const LANES: usize = 16;

impl SampleMoments {
    /// Those of no values.
    pub(crate) const NONE: SampleMoments = SampleMoments {
        count: 0,
        mean: 0.0,
        second: 0.0,
        third: 0.0,
        fourth: 0.0,
        minimum: f64::INFINITY,
        maximum: f64::NEG_INFINITY,
    };

    /// Those of values none of which is NaN, in two passes, so that a mean far from zero takes no digits.
    #[inline(always)]
    pub(crate) fn of(values: &[f64]) -> SampleMoments {
        if values.is_empty() {
            return SampleMoments::NONE;
        }
        let (mut sums, mut low, mut high) =
            ([0.0; LANES], [f64::INFINITY; LANES], [f64::NEG_INFINITY; LANES]);
        let (rows, rest) = values.as_chunks::<LANES>();
        let mut first_pass = |lane: usize, value: f64| {
            sums[lane] += value;
            low[lane] = if value < low[lane] { value } else { low[lane] };
            high[lane] = if value > high[lane] { value } else { high[lane] };
        };
        for row in rows {
            (0..LANES).for_each(|lane| first_pass(lane, row[lane]));
        }
        rest.iter().enumerate().for_each(|(lane, value)| first_pass(lane, *value));
        let count = values.len() as f64;
        let mean = total(sums) / count;

        let mut powers = [[0.0; LANES]; 4];
        let mut second_pass = |lane: usize, value: f64| {
            let distance = value - mean;
            let square = distance * distance;
            powers[0][lane] += distance;
            powers[1][lane] += square;
            powers[2][lane] += square * distance;
            powers[3][lane] += square * square;
        };
        for row in rows {
            (0..LANES).for_each(|lane| second_pass(lane, row[lane]));
        }
        rest.iter().enumerate().for_each(|(lane, value)| second_pass(lane, *value));
        // What the rounding of the mean left.
        let left = total(powers[0]) / count;
        SampleMoments {
            count: values.len() as u64,
            mean: mean + left,
            second: total(powers[1]) - count * left * left,
            third: total(powers[2]) - 3.0 * left * total(powers[1]),
            fourth: total(powers[3]) - 4.0 * left * total(powers[2]),
            minimum: low.into_iter().fold(f64::INFINITY, f64::min),
            maximum: high.into_iter().fold(f64::NEG_INFINITY, f64::max),
        }
    }

    /// Those of two samples together (Pébay, Sandia report SAND2008-6212, equations 2.1 to 2.9).
    #[inline(always)]
    pub(crate) fn and(self, other: SampleMoments) -> SampleMoments {
        if self.count == 0 || other.count == 0 {
            return if self.count == 0 { other } else { self };
        }
        let (a, b) = (self.count as f64, other.count as f64);
        let n = a + b;
        let step = other.mean - self.mean;
        let part = step / n;
        let between = step * part * a * b;
        let second = self.second + other.second + between;
        let third = self.third
            + other.third
            + between * part * (a - b)
            + 3.0 * part * (a * other.second - b * self.second);
        let fourth = self.fourth
            + other.fourth
            + between * part * part * (a * a - a * b + b * b)
            + 6.0 * part * part * (a * a * other.second + b * b * self.second)
            + 4.0 * part * (a * other.third - b * self.third);
        SampleMoments {
            count: self.count + other.count,
            mean: self.mean + part * b,
            second,
            third,
            fourth,
            minimum: self.minimum.min(other.minimum),
            maximum: self.maximum.max(other.maximum),
        }
    }

    /// Standard deviation of the sample, over `count - 1`; NaN for fewer than two.
    pub(crate) fn sigma(&self) -> f64 {
        if self.count < 2 { f64::NAN } else { (self.second.max(0.0) / (self.count - 1) as f64).sqrt() }
    }

    /// Third standardised moment; NaN where nothing spreads.
    pub(crate) fn skewness(&self) -> f64 {
        let variance = self.second / self.count as f64;
        self.third / self.count as f64 / (variance * variance.sqrt())
    }

    /// Fourth standardised moment, which is 3 for a normal law; NaN where nothing spreads.
    pub(crate) fn kurtosis(&self) -> f64 {
        let variance = self.second / self.count as f64;
        self.fourth / self.count as f64 / (variance * variance)
    }
}

/// The sum of the lanes, always in the same order.
#[inline(always)]
fn total(mut lanes: [f64; LANES]) -> f64 {
    for half in [8, 4, 2, 1] {
        for lane in 0..half {
            lanes[lane] += lanes[lane + half];
        }
    }
    lanes[0]
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// SampleMoments by their definition.
    fn plain(values: &[f64]) -> [f64; 4] {
        let mean = values.iter().sum::<f64>() / values.len() as f64;
        let power = |k: usize| values.iter().map(|v| vec![v - mean; k].iter().product::<f64>()).sum::<f64>();
        [mean, power(2), power(3), power(4)]
    }

    proptest! {
        #[test]
        fn parts_make_the_whole(values in prop::collection::vec(-3.0..5.0f64, 1..200), cut in 0usize..200) {
            let (left, right) = values.split_at(cut.min(values.len()));
            let whole = SampleMoments::of(left).and(SampleMoments::of(right));
            let got = [whole.mean, whole.second, whole.third, whole.fourth];
            for (got, expected) in got.iter().zip(plain(&values)) {
                prop_assert!((got - expected).abs() <= 1e-9 * (1.0 + expected.abs()), "{got} {expected}");
            }
            prop_assert_eq!(whole.count as usize, values.len());
            prop_assert_eq!(whole.minimum, values.iter().copied().fold(f64::INFINITY, f64::min));
            prop_assert_eq!(whole.maximum, values.iter().copied().fold(f64::NEG_INFINITY, f64::max));
        }
    }
}

//! The range and the standard deviation of a sample from a normal population: what chart constants are made of.
use crate::math::{normal_cdf, normal_density};

/// The largest sample whose range is integrated. Beyond it a range says little that the standard deviation does not.
pub const LARGEST_SAMPLE: usize = 10_000;

/// Nodes above zero and weights of the Gauss–Legendre rule of 16 points.
const NODES: [(f64, f64); 8] = [
    (0.095_012_509_837_637_44, 0.189_450_610_455_068_5),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_6),
    (0.458_016_777_657_227_4, 0.169_156_519_395_002_54),
    (0.617_876_244_402_643_7, 0.149_595_988_816_576_73),
    (0.755_404_408_355_003, 0.124_628_971_255_533_88),
    (0.865_631_202_387_831_7, 0.095_158_511_682_492_78),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_89),
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_096),
];

/// Probability that the range of `n` standard normal readings is `width` or less: n ∫ φ(x) [Φ(x+w) − Φ(x)]^(n−1) dx.
///
/// Within 1e-14 of the true value. One reading has no range.
pub fn range_probability(width: f64, n: usize) -> f64 {
    const STEP: f64 = 0.125;
    if width.is_nan() || width <= 0.0 || n < 2 {
        return if width.is_nan() { f64::NAN } else { 0.0 };
    }
    // Centred between the least and the largest reading the integrand is even and smooth, so that the sums of the
    // trapezoidal rule are exact but for rounding.
    let half = 0.5 * width;
    let integrand = |x: f64| {
        let within = normal_cdf(x + half) - normal_cdf(x - half);
        (normal_density(x - half) + normal_density(x + half)) * whole_power(within, n - 1)
    };
    let mut sum = 0.5 * integrand(0.0);
    let mut x = STEP;
    while x <= half + 8.5 {
        sum += integrand(x);
        x += STEP;
    }
    (n as f64 * STEP * sum).min(1.0)
}

/// Mean and standard deviation of the range of `n` standard normal readings: d2 and d3 of control charts.
///
/// Within 1e-12 of the true values to 100 readings, 1e-11 to 1000, 1e-8 to [`LARGEST_SAMPLE`]; NaN elsewhere.
pub fn range_moments(n: usize) -> [f64; 2] {
    const PANEL: f64 = 2.0;
    if !(2..=LARGEST_SAMPLE).contains(&n) {
        return [f64::NAN; 2];
    }
    // Both follow from the probability that the range is wider: ∫ (1 − P) dw and 2 ∫ w (1 − P) dw.
    let (mut mean, mut square) = (0.0, 0.0);
    for panel in 0..10 {
        let middle = PANEL * (f64::from(panel) + 0.5);
        let before = square;
        for (node, weight) in NODES {
            for width in [middle - 0.5 * PANEL * node, middle + 0.5 * PANEL * node] {
                let wider = 0.5 * PANEL * weight * (1.0 - range_probability(width, n));
                mean += wider;
                square += 2.0 * width * wider;
            }
        }
        if square - before < 1e-16 * square {
            break;
        }
    }
    [mean, (square - mean * mean).sqrt()]
}

/// What the standard deviation of `n` normal readings is on average, as a share of the true one: c4 of control charts.
///
/// √(2/(n−1)) Γ(n/2) / Γ((n−1)/2), within 1e-14; NaN for fewer than two readings.
pub fn mean_deviation(n: usize) -> f64 {
    if n < 2 {
        return f64::NAN;
    }
    if n > 400 {
        // The asymptotic series in the degrees of freedom.
        let part = 1.0 / (n - 1) as f64;
        let terms = [-21.0 / 2048.0, 5.0 / 128.0, 1.0 / 32.0, -1.0 / 4.0, 1.0];
        return terms.into_iter().fold(-399.0 / 8192.0, |sum, term| sum * part + term);
    }
    // Γ(m/2 + 1/2) / Γ(m/2) from one count of degrees of freedom to the next: two in a row multiply to m/2.
    let mut ratio = 1.0 / std::f64::consts::PI.sqrt();
    for freedom in 1..n - 1 {
        ratio = 0.5 * freedom as f64 / ratio;
    }
    ratio * (2.0 / (n - 1) as f64).sqrt()
}

/// A power with a whole exponent, by squaring.
fn whole_power(base: f64, exponent: usize) -> f64 {
    let (mut power, mut square, mut rest) = (1.0, base, exponent);
    while rest > 0 {
        if rest & 1 == 1 {
            power *= square;
        }
        square *= square;
        rest >>= 1;
    }
    power
}

#[cfg(test)]
mod tests {
    use super::*;

    fn assert_near(got: f64, expected: f64, within: f64) {
        assert!((got - expected).abs() <= within, "{got} is not {expected}");
    }

    // n = 2: the range is |N| √2, so that d2 = 2/√π and d3 = √(2 − 4/π); n = 3: d2 = 3/√π. Exact, by hand.
    #[test]
    fn small_samples_meet_closed_forms() {
        let pi = std::f64::consts::PI;
        let [d2, d3] = range_moments(2);
        assert_near(d2, 2.0 / pi.sqrt(), 1e-13);
        assert_near(d3, (2.0 - 4.0 / pi).sqrt(), 1e-12);
        assert_near(range_moments(3)[0], 3.0 / pi.sqrt(), 1e-13);
        assert_near(range_probability(1.5, 2), 2.0 * normal_cdf(1.5 / 2.0_f64.sqrt()) - 1.0, 1e-15);
        assert_near(mean_deviation(2), (2.0 / pi).sqrt(), 1e-15);
        assert_near(mean_deviation(3), 0.5 * pi.sqrt(), 1e-15);
    }

    // Computed with mpmath, 25 digits: integrals of 1 − Φ^n − (1 − Φ)^n and of the density of the range.
    #[test]
    fn larger_samples_meet_integrals_of_many_digits() {
        let means = [
            (5, 2.325_928_947_281_039, 0.939_985_602_986_625_2),
            (25, 3.930_629_219_507_113, 0.989_640_375_585_703_1),
            (100, 5.015_187_272_883_369, 0.997_477_976_071_263_5),
            (1000, 6.482_871_538_266_882, 0.999_749_781_101_513_2),
            (10_000, 7.703_231_634_133_35, 0.999_974_997_812_351_6),
        ];
        for (n, d2, c4) in means {
            let within = if n > 1000 {
                1e-8
            } else if n > 100 {
                1e-11
            } else {
                1e-12
            };
            assert_near(range_moments(n)[0], d2, within);
            assert_near(mean_deviation(n), c4, 1e-14);
        }
        let probabilities = [
            (3, 0.5, 0.066_578_054_864_713_04),
            (5, 2.326, 0.531_350_334_909_153),
            (10, 6.0, 0.999_078_484_696_122_7),
            (10, 0.25, 3.002_260_929_385_419e-9),
            (100, 5.0, 0.521_452_293_553_012_5),
            (1000, 7.5, 0.967_120_216_031_808),
        ];
        for (n, width, probability) in probabilities {
            assert_near(range_probability(width, n), probability, 1e-14);
        }
    }

    #[test]
    fn the_series_joins_the_recurrence() {
        let step = mean_deviation(401) - mean_deviation(400);
        assert_near(step, mean_deviation(400) - mean_deviation(399), 1e-8);
        assert!(step > 0.0 && mean_deviation(1_000_000) < 1.0);
    }
}

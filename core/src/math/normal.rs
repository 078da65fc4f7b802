//! The normal distribution, and the complement of the error function.
use super::power::exp_of_sum;
use super::{polynomial, upper};
use std::f64::consts::SQRT_2;

/// Cumulative distribution of the standard normal law, within 4 ulp, in the far tail too.
///
/// A half at zero of either sign, 0 and 1 at the infinities, NaN for NaN; zero below -38.5.
#[inline(always)]
pub fn normal_cdf(x: f64) -> f64 {
    let size = x.abs();
    let size = if size > 40.0 { 40.0 } else { size };
    let leading = upper(size);
    let exponential = exp_of_sum(-0.5 * leading * leading, -0.5 * (size - leading) * (size + leading));
    // √2 · 4 in the place of 4, since the tail is that of erfc at x / √2.
    let tail = 0.5 * exponential * scaled_tail(size, 4.0 * SQRT_2, SQRT_2);
    if x > 0.0 { 1.0 - tail } else { tail }
}

/// Complement of the error function, 2/√π · ∫ exp(-t²) dt from `x` upward, within 4 ulp, in the far tail too.
///
/// Exact at zero; 0 and 2 at the infinities, NaN for NaN; zero above 27.3.
#[inline(always)]
pub fn erfc(x: f64) -> f64 {
    let size = x.abs();
    let size = if size > 28.0 { 28.0 } else { size };
    let leading = upper(size);
    let exponential = exp_of_sum(-leading * leading, -(size - leading) * (size + leading));
    let tail = exponential * scaled_tail(size, 4.0, 2.0);
    let tail = if size == 0.0 { 1.0 } else { tail };
    if x < 0.0 { 2.0 - tail } else { tail }
}

/// Density of the standard normal law: exp(-x²/2) / √(2π), within 2 ulp where it is a normal number.
#[inline(always)]
pub fn normal_density(x: f64) -> f64 {
    const SCALE: f64 = 0.398_942_280_401_432_7;
    let size = x.abs();
    let size = if size > 40.0 { 40.0 } else { size };
    let leading = upper(size);
    SCALE * exp_of_sum(-0.5 * leading * leading, -0.5 * (size - leading) * (size + leading))
}

/// exp(a²) erfc a for `size` = a · `middle` / 4 and `slope` = 2a / `size`.
#[inline(always)]
fn scaled_tail(size: f64, middle: f64, slope: f64) -> f64 {
    polynomial(&NORMAL_TAIL, (size - middle) / (size + middle)) / (1.0 + slope * size)
}

/// Minimax of (1 + 2a) exp(a²) erfc a in (a - 4) / (a + 4), for all a from 0; relative error 2^-55.0.
const NORMAL_TAIL: [f64; 24] = [
    8.982_009_386_760_99e-10,
    1.576_448_965_136_748_4e-9,
    -1.215_597_419_472_771_6e-8,
    -1.638_676_781_639_944_3e-8,
    1.058_579_134_601_099_3e-7,
    7.119_045_725_379_08e-8,
    -8.204_038_634_443_732e-7,
    2.979_616_065_325_798e-7,
    5.705_982_189_518_817e-6,
    -1.122_505_662_650_217_3e-5,
    -2.439_738_051_280_907e-5,
    0.000_150_623_071_821_444,
    -0.000_199_257_287_689_707_82,
    -0.000_757_773_697_902_765_5,
    0.005_031_970_102_594_221_5,
    -0.016_197_733_983_521_503,
    0.037_167_515_521_269_9,
    -0.066_330_365_820_039,
    0.093_732_834_999_538_63,
    -0.101_039_066_035_883_79,
    0.068_097_054_254_651_86,
    0.015_379_652_102_610_964,
    -0.139_621_116_840_562_08,
    1.232_995_118_625_552_6,
];

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_ends_and_the_middle_are_exact() {
        assert_eq!([0.0, -0.0].map(normal_cdf), [0.5, 0.5]);
        assert_eq!([0.0, -0.0].map(erfc), [1.0, 1.0]);
        assert_eq!([f64::NEG_INFINITY, f64::INFINITY].map(normal_cdf), [0.0, 1.0]);
        assert_eq!([f64::NEG_INFINITY, f64::INFINITY].map(erfc), [2.0, 0.0]);
        assert_eq!([-1e300, 1e300].map(normal_cdf), [0.0, 1.0]);
        assert_eq!(normal_density(f64::INFINITY), 0.0);
    }

    proptest! {
        #[test]
        fn both_tails_make_one(x in -45.0..45.0f64) {
            prop_assert!((normal_cdf(x) + normal_cdf(-x) - 1.0).abs() <= f64::EPSILON);
            prop_assert!((erfc(x) + erfc(-x) - 2.0).abs() <= 2.0 * f64::EPSILON);
        }

        #[test]
        fn the_two_functions_agree(x in -10.0..10.0f64) {
            let (cdf, half) = (normal_cdf(x * SQRT_2), 0.5 * erfc(-x));
            prop_assert!((cdf - half).abs() <= (8.0 + 4.0 * x * x) * f64::EPSILON * half);
        }
    }
}

//! The normal distribution, and the complement of the error function.
use super::polynomial::{polynomial, upper};
use super::power::{exp_of_sum, exp_within, ln};
use std::f64::consts::SQRT_2;

/// Cumulative distribution of the standard normal law, within 7 ulp, in the far tail too.
///
/// A half at zero of either sign, 0 and 1 at the infinities, NaN for NaN; zero below -38.5.
#[inline(always)]
pub fn normal_cdf(x: f64) -> f64 {
    normal_tails(x)[0]
}

/// The probabilities of less and of more than `x` under the standard normal law: [`normal_cdf`] of `x` and of `-x` at the
/// price of one.
#[inline(always)]
pub(crate) fn normal_tails(x: f64) -> [f64; 2] {
    let size = x.abs();
    // Beyond it the tail is zero.
    let size = if size > 38.6 { 38.6 } else { size };
    let leading = upper(size);
    let exponential = exp_within(-0.5 * leading * leading, -0.5 * (size - leading) * (size + leading));
    // √2 · 3.5 in the place of 3.5, since the tail is that of erfc at x / √2.
    let tail = 0.5 * exponential * scaled_tail(size, 3.5 * SQRT_2);
    let rest = 1.0 - tail;
    [if x > 0.0 { rest } else { tail }, if x < 0.0 { rest } else { tail }]
}

/// Complement of the error function, 2/√π · ∫ exp(-t²) dt from `x` upward, within 7 ulp, in the far tail too.
///
/// Exact at zero; 0 and 2 at the infinities, NaN for NaN; zero above 27.3.
#[inline(always)]
pub fn erfc(x: f64) -> f64 {
    let size = x.abs();
    let size = if size > 28.0 { 28.0 } else { size };
    let leading = upper(size);
    let exponential = exp_of_sum(-leading * leading, -(size - leading) * (size + leading));
    let tail = exponential * scaled_tail(size, 3.5);
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

/// The point below which the standard normal law has the probability `p`: the inverse of [`normal_cdf`], within 5 ulp.
///
/// Zero at a half, the infinities at 0 and 1, NaN elsewhere.
///
/// Source: M. J. Wichura, Algorithm AS 241, Applied Statistics 37 (1988), routine PPND16.
#[inline(always)]
pub fn normal_quantile(p: f64) -> f64 {
    let centred = p - 0.5;
    let middle = 0.180625 - centred * centred;
    let central = centred * polynomial(&CENTRAL[0], middle) / polynomial(&CENTRAL[1], middle);
    // The smaller of the two tails, whose logarithm all of its digits enter.
    let tail = if centred < 0.0 { p } else { 1.0 - p };
    let depth = (-ln(tail)).sqrt();
    let (near, far) = (depth - 1.6, depth - 5.0);
    let near = polynomial(&NEAR_TAIL[0], near) / polynomial(&NEAR_TAIL[1], near);
    let far = polynomial(&FAR_TAIL[0], far) / polynomial(&FAR_TAIL[1], far);
    let size = if depth <= 5.0 { near } else { far };
    let size = if tail == 0.0 { f64::INFINITY } else { size };
    if centred.abs() <= 0.425 { central } else { size.copysign(centred) }
}

/// Numerators and denominators of AS 241, for |p - 1/2| to 0.425 and for the two parts of the tails.
const CENTRAL: [[f64; 8]; 2] = [
    [
        2_509.080_928_730_122_7,
        33_430.575_583_588_13,
        67_265.770_927_008_7,
        45_921.953_931_549_87,
        13_731.693_765_509_46,
        1_971.590_950_306_551_3,
        133.141_667_891_784_38,
        3.387_132_872_796_366_5,
    ],
    [
        5_226.495_278_852_854,
        28_729.085_735_721_943,
        39_307.895_800_092_71,
        21_213.794_301_586_597,
        5_394.196_021_424_751,
        687.187_007_492_057_9,
        42.313_330_701_600_91,
        1.0,
    ],
];
const NEAR_TAIL: [[f64; 8]; 2] = [
    [
        7.745_450_142_783_414e-4,
        0.022_723_844_989_269_184,
        0.241_780_725_177_450_6,
        1.270_458_252_452_368_4,
        3.647_848_324_763_204_5,
        5.769_497_221_460_691,
        4.630_337_846_156_546,
        1.423_437_110_749_683_5,
    ],
    [
        1.050_750_071_644_416_9e-9,
        5.475_938_084_995_345e-4,
        0.015_198_666_563_616_457,
        0.148_103_976_427_480_08,
        0.689_767_334_985_1,
        1.676_384_830_183_803_8,
        2.053_191_626_637_759,
        1.0,
    ],
];
const FAR_TAIL: [[f64; 8]; 2] = [
    [
        2.010_334_399_292_288_1e-7,
        2.711_555_568_743_487_6e-5,
        0.001_242_660_947_388_078_4,
        0.026_532_189_526_576_124,
        0.296_560_571_828_504_87,
        1.784_826_539_917_291_3,
        5.463_784_911_164_114,
        6.657_904_643_501_103,
    ],
    [
        2.044_263_103_389_939_8e-15,
        1.421_511_758_316_446e-7,
        1.846_318_317_510_054_8e-5,
        7.868_691_311_456_133e-4,
        0.014_875_361_290_850_615,
        0.136_929_880_922_735_8,
        0.599_832_206_555_888,
        1.0,
    ],
];

/// exp(a²) erfc a for `size` = a · `middle` / 3.5.
///
/// With q = (a - 3.5) / (a + 3.5) it is 1 - q, which is 7 / (a + 3.5), times a polynomial in q.
#[inline(always)]
fn scaled_tail(size: f64, middle: f64) -> f64 {
    let rest = 2.0 * middle / (size + middle);
    rest * polynomial(&NORMAL_TAIL, 1.0 - rest)
}

/// Minimax of exp(a²) erfc a / (1 - q) in q, for a from 0 to 28; relative error 2^-56.8.
const NORMAL_TAIL: [f64; 22] = [
    4.529_787_845_328_86e-10,
    1.251_463_643_265_769_7e-9,
    -3.080_574_765_578_242_5e-9,
    -1.181_374_590_570_947_4e-8,
    1.660_076_209_645_366_4e-8,
    7.850_391_678_559_403e-8,
    -1.138_162_070_718_621_4e-7,
    -4.844_776_394_789_993e-7,
    1.034_922_767_198_725e-6,
    2.663_843_804_374_363_5e-6,
    -1.068_245_991_135_55e-5,
    -6.008_870_128_597_364e-6,
    0.000_102_075_959_666_959_41,
    -0.000_186_479_243_388_868_33,
    -0.000_453_864_335_313_856_8,
    0.003_788_374_268_969_807_5,
    -0.013_188_386_662_591_35,
    0.032_248_374_521_050_86,
    -0.062_179_432_388_128_675,
    0.099_159_092_376_377_92,
    -0.133_971_389_223_873_14,
    0.155_293_655_608_894_3,
];

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn both_tails_are_those_of_both_signs() {
        for x in [-50.0, -3.1, -0.0, 0.0, 1e-9, 0.7, 38.0, f64::INFINITY] {
            assert_eq!(normal_tails(x), [x, -x].map(normal_cdf));
        }
    }

    #[test]
    fn the_ends_and_the_middle_are_exact() {
        assert_eq!([0.0, -0.0].map(normal_cdf), [0.5, 0.5]);
        assert_eq!([0.0, -0.0].map(erfc), [1.0, 1.0]);
        assert_eq!([f64::NEG_INFINITY, f64::INFINITY].map(normal_cdf), [0.0, 1.0]);
        assert_eq!([f64::NEG_INFINITY, f64::INFINITY].map(erfc), [2.0, 0.0]);
        assert_eq!([-1e300, 1e300].map(normal_cdf), [0.0, 1.0]);
        assert_eq!(normal_density(f64::INFINITY), 0.0);
        assert_eq!([0.0, 0.5, 1.0].map(normal_quantile), [f64::NEG_INFINITY, 0.0, f64::INFINITY]);
        assert!([-0.1, 1.1, f64::NAN].map(normal_quantile).iter().all(|x| x.is_nan()));
    }

    proptest! {
        #[test]
        fn both_tails_make_one(x in -45.0..45.0f64) {
            prop_assert!((normal_cdf(x) + normal_cdf(-x) - 1.0).abs() <= f64::EPSILON);
            prop_assert!((erfc(x) + erfc(-x) - 2.0).abs() <= 2.0 * f64::EPSILON);
        }

        #[test]
        fn the_quantile_undoes_the_distribution(x in -37.0..8.0f64) {
            let p = normal_cdf(x);
            // What an ulp of the probability is of the point.
            let of_p = f64::EPSILON * p / normal_density(x);
            prop_assert!((normal_quantile(p) - x).abs() <= 6.0 * f64::EPSILON * x.abs() + 4.0 * of_p);
        }

        #[test]
        fn the_two_functions_agree(x in -10.0..10.0f64) {
            let (cdf, half) = (normal_cdf(x * SQRT_2), 0.5 * erfc(-x));
            prop_assert!((cdf - half).abs() <= (8.0 + 4.0 * x * x) * f64::EPSILON * half);
        }
    }
}

//! Exponential, natural logarithm, powers and cube root.
use super::polynomial::{TO_WHOLE, polynomial, upper, whole};
use std::f64::consts::{self, LOG2_E, SQRT_2};

/// ln 2 to 42 bits, so that its product with an exponent is exact, and the rest of it.
const LN_2: [f64; 2] = [0.693_147_180_559_890_3, 5.497_923_018_708_371e-14];

/// e to the power of `x`, within 1 ulp.
///
/// Exact at 0. Infinite above 709.78, subnormal below -708.40 and zero below -745.13; NaN for NaN.
#[inline(always)]
pub fn exp(x: f64) -> f64 {
    exp_of_sum(x, 0.0)
}

/// Natural logarithm, within 1 ulp.
///
/// Exact at 1. Minus infinity at zero of either sign, NaN for negative numbers and NaN.
#[inline(always)]
pub fn ln(x: f64) -> f64 {
    let above = if x == 0.0 { f64::NEG_INFINITY } else { ln_of_positive(x) };
    let above = if x < f64::INFINITY { above } else { x };
    if x < 0.0 { f64::NAN } else { above }
}

/// `base` to the power of `exponent`, for a positive base, within 1 ulp over the whole range.
///
/// Where the power is a number that `f64` holds, the result is that number: `powf(10.0, 3.0) == 1000.0`,
/// `powf(4.0, 0.5) == 2.0`, and `powf(x, 1.0) == x`. `powf(x, 0.0)` and `powf(1.0, y)` are 1.
///
/// A zero of either sign gives zero to a positive power and infinity to a negative one. A negative base gives
/// NaN, even to a whole power; so does NaN as base or exponent, at any value of the other. Powers too large are
/// infinite and powers too small zero.
#[inline(always)]
pub fn powf(base: f64, exponent: f64) -> f64 {
    let (high, low) = ln_as_sum(base);
    let high = if base == 0.0 { f64::NEG_INFINITY } else { high };
    let high = if base < f64::INFINITY { high } else { base };
    let size = exponent * high;
    // The product to about 80 bits. Of its exact lead, 26 times 26 bits, there is none beyond the range.
    let (leading, exponent_leading) = (upper(high), upper(exponent));
    let product = exponent_leading * leading;
    let rest = (exponent - exponent_leading) * leading + exponent * ((high - leading) + low);
    let within = size.abs() < RANGE;
    let power =
        exp_within(if within { product } else { RANGE.copysign(size) }, if within { rest } else { 0.0 });
    // Zero times infinity: the zeroth power, or a power of one.
    let power = if size.is_nan() { 1.0 } else { power };
    if (base >= 0.0) & !exponent.is_nan() { power } else { f64::NAN }
}

/// `base` to the power of `exponent` as the exponential of its product with the logarithm: quicker than [`powf`],
/// within 1 + 3 |exponent · ln base| ulp.
///
/// For laws that come from trials, whose constants have three digits. Exact where `base` is 1 or `exponent` 0. NaN
/// unless `base` is a positive normal number and |exponent · ln base| at most 708, so that the power is normal too.
#[inline(always)]
pub fn powf_quick(base: f64, exponent: f64) -> f64 {
    let (twos, fraction) = split_normal(base);
    let rest = twice_atanh((fraction - 1.0) / (fraction + 1.0), twos * LN_2[1]);
    let normal = (f64::MIN_POSITIVE..f64::INFINITY).contains(&base);
    exp_quick(if normal { exponent * (twos * LN_2[0] + rest) } else { f64::NAN })
}

/// `part / whole` to the power of `exponent`, within 1 + 3 |exponent| ulp, without waiting for the quotient.
///
/// For positive normal numbers, `part` from half of `whole` to all of it.
#[inline(always)]
pub(crate) fn share_powf(part: f64, whole: f64, exponent: f64) -> f64 {
    // Against √½ of the whole the logarithm lies from -ln 2 / 2 to ln 2 / 2, as that of a fraction.
    let middle = 0.5 * SQRT_2 * whole;
    exp_quick(exponent * twice_atanh((part - middle) / (part + middle), -0.5 * consts::LN_2))
}

/// 2 atanh s + `addend` for |s| up to 3 - √8, within a few ulp.
#[inline(always)]
fn twice_atanh(s: f64, addend: f64) -> f64 {
    let z = s * s;
    (s + s) + (s * z * polynomial(&TWICE_ATANH, z) + addend)
}

/// e to the power of `x` within about 1 ulp, for |x| up to 708; else NaN.
#[inline(always)]
fn exp_quick(x: f64) -> f64 {
    let shifted = x * LOG2_E + TO_WHOLE;
    let exponent = shifted - TO_WHOLE;
    let r = (x - exponent * LN_2[0]) - exponent * LN_2[1];
    let fraction = 1.0 + (r + r * r * polynomial(&EXP, r));
    // A normal number is multiplied by a power of two by adding to its exponent.
    let power = f64::from_bits(fraction.to_bits().wrapping_add(shifted.to_bits() << 52));
    if x.abs() <= 708.0 { power } else { f64::NAN }
}

/// Beyond it the exponential is zero or infinite.
const RANGE: f64 = 746.0;

/// Cube root, within 1 ulp.
///
/// Exact for cubes of whole numbers: `cbrt(27.0) == 3.0`. Odd to the bit; infinite for infinity, NaN for NaN.
#[inline(always)]
pub fn cbrt(x: f64) -> f64 {
    let (exponent, fraction) = split(x.abs());
    let third = whole(exponent * (1.0 / 3.0));
    let cubed = fraction * two_to(exponent - 3.0 * third);
    let guess = polynomial(&CBRT, cubed);
    let cube = guess * guess * guess;
    let closer = guess * (cube + 2.0 * cubed) / (2.0 * cube + cubed);
    // To 17 bits, so that its cube is exact; then three terms of the series of (1 + off)^(1/3).
    let near = f64::from_bits(closer.to_bits() & !0xf_ffff_ffff);
    let cube = near * near * near;
    let off = (cubed - cube) / cube;
    let root = near + near * (off * (1.0 / 3.0 - off * (1.0 / 9.0 - off * (5.0 / 81.0))));
    let usual = (x != 0.0) & (x.abs() < f64::INFINITY);
    if usual { (root * two_to(third)).copysign(x) } else { x }
}

/// Minimax of the cube root from 2^-1.51 to 2^1.51, relative error 2^-7.5.
const CBRT: [f64; 4] =
    [0.036_767_272_744_032_166, -0.244_352_856_312_906_57, 0.728_864_143_147_940_2, 0.481_866_032_426_232_66];

/// Minimax of (exp r - 1 - r) / r², for |r| to ln 2 / 2; the error of exp is 2^-58.0.
const EXP: [f64; 10] = [
    2.511_784_567_196_189e-8,
    2.763_123_790_584_354e-7,
    2.755_721_635_748_410_3e-6,
    2.480_149_007_434_851e-5,
    0.000_198_412_699_173_066_74,
    0.001_388_888_894_687_104_1,
    0.008_333_333_333_307_25,
    0.041_666_666_666_516_07,
    0.166_666_666_666_667,
    0.500_000_000_000_001_2,
];

/// Minimax of (atanh s / s - 1 - z/3) / z² in z = s², for s to 3 - √8; the error of atanh s / s is 2^-66.2.
const ATANH: [f64; 7] = [
    0.065_941_194_954_026_3,
    0.066_288_801_442_667_87,
    0.076_933_565_659_006_05,
    0.090_908_927_140_573_41,
    0.111_111_112_531_438_18,
    0.142_857_142_850_937_6,
    0.200_000_000_000_010_2,
];

/// Twice atanh s is s (2 + z P(z)) in z = s².
const TWICE_ATANH: [f64; 8] = {
    let [a, b, c, d, e, f, g] = ATANH;
    [2.0 * a, 2.0 * b, 2.0 * c, 2.0 * d, 2.0 * e, 2.0 * f, 2.0 * g, 2.0 / 3.0]
};

/// 2 to a whole power from -1022 to 1023.
#[inline(always)]
fn two_to(power: f64) -> f64 {
    f64::from_bits((power + (TO_WHOLE + 1023.0)).to_bits() << 52)
}

/// Exponent k and fraction m, from √½ to √2, with x = 2^k · m, for a positive finite number.
#[inline(always)]
fn split(x: f64) -> (f64, f64) {
    const TWO_54: f64 = 18_014_398_509_481_984.0;
    let subnormal = x < f64::MIN_POSITIVE;
    let (exponent, fraction) = split_normal(if subnormal { x * TWO_54 } else { x });
    (if subnormal { exponent - 54.0 } else { exponent }, fraction)
}

/// The same for a positive normal number.
#[inline(always)]
pub(crate) fn split_normal(x: f64) -> (f64, f64) {
    const FRACTION: u64 = (1 << 52) - 1;
    const SQRT_HALF: u64 = (0.5 * SQRT_2).to_bits();
    const TWO_52: f64 = 4_503_599_627_370_496.0;
    let bits = x.to_bits().wrapping_add(1f64.to_bits() - SQRT_HALF);
    // The biased exponent as the last bits of 2^52 plus it.
    let exponent = f64::from_bits(TWO_52.to_bits() | bits >> 52) - (TWO_52 + 1023.0);
    (exponent, f64::from_bits((bits & FRACTION).wrapping_add(SQRT_HALF)))
}

/// ln x, for a positive finite number.
///
/// Of x = 2^k (1 + f) it is k ln 2 + 2 atanh s, with s = f / (2 + f), and 2 atanh s is
/// f - (f²/2 - s (f²/2 + 2 s² (1/3 + s² P(s²)))).
#[inline(always)]
fn ln_of_positive(x: f64) -> f64 {
    let (exponent, fraction) = split(x);
    let f = fraction - 1.0;
    let s = f / (2.0 + f);
    let (z, half_square) = (s * s, 0.5 * f * f);
    let series = 2.0 * z * (1.0 / 3.0 + z * polynomial(&ATANH, z));
    let small = s * (half_square + series) + exponent * LN_2[1];
    exponent * LN_2[0] - ((half_square - small) - f)
}

/// exp(high + low) for a `low` that is small against 1.
#[inline(always)]
pub(super) fn exp_of_sum(high: f64, low: f64) -> f64 {
    let high = if high > RANGE { RANGE } else { high };
    exp_within(if high < -RANGE { -RANGE } else { high }, low)
}

/// The same for a `high` up to `RANGE` in magnitude.
#[inline(always)]
pub(super) fn exp_within(high: f64, low: f64) -> f64 {
    let (fraction, exponent) = exp_parts(high, low);
    // In two steps, so that subnormal results are rounded once and neither factor leaves the range.
    let half = whole(0.5 * exponent);
    fraction * two_to(half) * two_to(exponent - half)
}

/// Fraction m, from √½ to √2, and exponent k, with exp(high + low) = m · 2^k.
#[inline(always)]
fn exp_parts(high: f64, low: f64) -> (f64, f64) {
    let exponent = whole(high * LOG2_E);
    // The first difference is exact, and so large against the rest that little is lost in their sum.
    let (near, far) = (high - exponent * LN_2[0], low - exponent * LN_2[1]);
    let r = near + far;
    (1.0 + (near + (far + r * r * polynomial(&EXP, r))), exponent)
}

/// ln x as its nearest number and a rest, good to about 2^-65 of it, for a positive finite number.
///
/// ln x = k ln 2 + 2 atanh s, with s = (m - 1) / (m + 1), and atanh s = s (1 + s²/3 + s⁴ P(s²)). The leading
/// parts of s and of s²/3 have 26 bits, so that their product is exact.
#[inline(always)]
fn ln_as_sum(x: f64) -> (f64, f64) {
    let (exponent, fraction) = split(x);
    let (top, bottom) = (fraction - 1.0, fraction + 1.0);
    let reciprocal = 1.0 / bottom;
    let quotient = top * reciprocal;
    let s = upper(quotient);
    let bottom_leading = upper(bottom);
    let bottom_rest = fraction - (bottom_leading - 1.0);
    let s_rest = ((top - s * bottom_leading) - s * bottom_rest) * reciprocal;

    let (square, square_rest) = (s * s, s_rest * (s + s + s_rest));
    let z = square + square_rest;
    // The series hardly feels the rest of its argument, and need not wait for it.
    let series = polynomial(&ATANH, quotient * quotient);
    let third = upper(square * (1.0 / 3.0));
    let third_rest = ((square - 3.0 * third) + square_rest) * (1.0 / 3.0) + z * z * series;

    // Three exact terms, the larger first, and the rest of each.
    let (first, second, third_term) = (exponent * LN_2[0], 2.0 * s, 2.0 * s * third);
    let rest = exponent * LN_2[1] + 2.0 * (s_rest * (1.0 + (third + third_rest)) + s * third_rest);
    let sum = first + second;
    let lead = sum + third_term;
    let low = ((first - sum) + second) + ((sum - lead) + third_term) + rest;
    let high = lead + low;
    (high, (lead - high) + low)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const INFINITY: f64 = f64::INFINITY;

    #[test]
    fn exponential_is_exact_at_zero_and_ends_at_zero_and_infinity() {
        assert_eq!([0.0, -0.0].map(exp), [1.0, 1.0]);
        assert_eq!([709.79, 1e3, 1e300, INFINITY].map(exp), [INFINITY; 4]);
        assert_eq!([-745.14, -1e3, -1e300, -INFINITY].map(exp), [0.0; 4]);
        assert!(exp(709.78) < INFINITY && exp(-745.13) == 5e-324);
    }

    #[test]
    fn logarithm_is_exact_at_one_and_has_its_special_values() {
        assert_eq!(ln(1.0).to_bits(), 0);
        assert_eq!([0.0, -0.0, INFINITY].map(ln), [-INFINITY, -INFINITY, INFINITY]);
        assert!([-5e-324, -1.0, -INFINITY].iter().all(|x| ln(*x).is_nan()));
    }

    #[test]
    fn powers_that_a_number_holds_are_exact() {
        for base in 1u64..=200 {
            let mut power = 1u64;
            for exponent in 0.. {
                assert_eq!(powf(base as f64, f64::from(exponent)), power as f64, "{base}^{exponent}");
                let whole_root = powf((base * base) as f64, 0.5 * f64::from(exponent));
                assert_eq!(whole_root, power as f64, "({base}^2)^({exponent}/2)");
                power *= base;
                if power > 1 << 53 || exponent == 60 {
                    break;
                }
            }
        }
        for exponent in -1074..1024 {
            assert_eq!(powf(2.0, f64::from(exponent)), powf(0.5, f64::from(-exponent)));
        }
        assert_eq!(powf(2.0, -1074.0), 5e-324);
    }

    #[test]
    fn powers_of_zero_and_infinity_and_of_negative_numbers() {
        for (base, exponent, power) in [
            (0.0, 2.5, 0.0),
            (-0.0, 3.0, 0.0),
            (0.0, -2.5, INFINITY),
            (-0.0, -3.0, INFINITY),
            (0.0, 0.0, 1.0),
            (0.0, INFINITY, 0.0),
            (0.0, -INFINITY, INFINITY),
            (INFINITY, 0.5, INFINITY),
            (INFINITY, -0.5, 0.0),
            (INFINITY, 0.0, 1.0),
            (2.0, INFINITY, INFINITY),
            (2.0, -INFINITY, 0.0),
            (0.5, INFINITY, 0.0),
            (0.5, -INFINITY, INFINITY),
            (1.0, INFINITY, 1.0),
            (2.0, 1e300, INFINITY),
            (2.0, -1e300, 0.0),
            (2.0, 1024.0, INFINITY),
            (2.0, -1076.0, 0.0),
        ] {
            assert_eq!(powf(base, exponent).to_bits(), power.to_bits(), "{base}^{exponent}");
        }
        for exponent in [-3.0, 0.0, 0.5, 2.0, INFINITY] {
            assert!(powf(-2.0, exponent).is_nan() && powf(-INFINITY, exponent).is_nan(), "{exponent}");
        }
    }

    #[test]
    fn cube_roots_of_cubes_are_exact() {
        for root in -20_000i32..=20_000 {
            let root = f64::from(root);
            assert_eq!(cbrt(root * root * root), root);
            assert_eq!(cbrt(root * root * root / 1_073_741_824.0), root / 1024.0);
        }
        assert_eq!(cbrt(-0.0).to_bits(), (-0.0f64).to_bits());
        assert_eq!([INFINITY, -INFINITY].map(cbrt), [INFINITY, -INFINITY]);
    }

    proptest! {
        #[test]
        fn the_first_power_is_the_number_and_the_zeroth_is_one(x in any::<f64>()) {
            let x = x.abs();
            prop_assert_eq!(powf(x, 1.0), x);
            prop_assert_eq!(powf(x, 0.0), 1.0);
            prop_assert_eq!(powf(1.0, x), 1.0);
        }

        // Equal to the bit but where x · x lies close to the middle between two numbers.
        #[test]
        fn a_share_to_a_power_is_as_near_as_it_says(
            whole in 1e-100..1e100f64, share in 0.5..=1.0f64, exponent in -3.0..3.0f64,
        ) {
            let part = share * whole;
            let off = share_powf(part, whole, exponent) / powf(part / whole, exponent) - 1.0;
            prop_assert!(off.abs() <= (1.0 + 3.0 * exponent.abs()) * f64::EPSILON, "{}", off);
        }

        #[test]
        fn the_second_power_is_the_square(x in 1e-150..1e150f64, y in 0.1..100.0f64) {
            for x in [x, y] {
                let (power, square) = (powf(x, 2.0), x * x);
                prop_assert!(power.to_bits().abs_diff(square.to_bits()) <= 1);
            }
        }

        #[test]
        fn cube_root_is_odd(x in any::<f64>()) {
            prop_assert_eq!(cbrt(-x).to_bits(), (-cbrt(x)).to_bits());
        }

        #[test]
        fn logarithm_undoes_the_exponential(x in -700.0..700.0f64) {
            prop_assert!((ln(exp(x)) - x).abs() <= f64::EPSILON * (1.0 + x.abs()));
        }
    }
}

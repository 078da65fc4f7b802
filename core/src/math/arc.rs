//! Inverse sine, cosine and tangent, in degrees and in radians.
use super::polynomial::{polynomial, upper};
use std::f64::consts::{FRAC_PI_2, PI};
use std::hint::select_unpredictable;

/// Inverse sine in degrees, from -90 to 90, within 1 ulp.
///
/// `asin_degrees(0.5) == 30.0`, `asin_degrees(1.0) == 90.0`. Odd to the bit. NaN beyond -1 and 1.
#[inline(always)]
pub fn asin_degrees(x: f64) -> f64 {
    asin_in(&DEGREES, x)
}

/// Inverse cosine in degrees, from 0 to 180, within 1 ulp.
///
/// `acos_degrees(0.5) == 60.0`, `acos_degrees(0.0) == 90.0`. NaN beyond -1 and 1.
#[inline(always)]
pub fn acos_degrees(x: f64) -> f64 {
    acos_in(&DEGREES, x)
}

/// Inverse tangent in degrees, from -90 to 90, within 1 ulp.
///
/// `atan_degrees(1.0) == 45.0`, `atan_degrees(f64::INFINITY) == 90.0`. Odd to the bit.
#[inline(always)]
pub fn atan_degrees(x: f64) -> f64 {
    atan_in(&DEGREES, x)
}

/// Angle in degrees, from -180 to 180, of the point (x, y) as seen from the origin, within 1 ulp.
///
/// Exact at the multiples of 45. Zeros and infinities as IEEE 754-2019 has them for atan2Pi: the sign is that
/// of `y`, `atan2_degrees(0.0, 0.0) == 0.0` and `atan2_degrees(0.0, -0.0) == 180.0`.
#[inline(always)]
pub fn atan2_degrees(y: f64, x: f64) -> f64 {
    let (across, along) = (y.abs(), x.abs());
    let steep = across > along;
    let (small, large) = if steep { (along, across) } else { (across, along) };
    // Out of the reach of overflow, and of products too small to be exact.
    let scale = if large < 1.0 { LARGE_SCALE } else { SMALL_SCALE };
    let endless = large == f64::INFINITY;
    let small = if endless { if small == f64::INFINITY { 1.0 } else { 0.0 * small } } else { small * scale };
    let large = if endless | (large == 0.0) { 1.0 } else { large * scale };
    let first = arctangent(small, large);
    let above = if steep { first.complement(1.0) } else { first };
    let arc = if x.is_sign_negative() { above.complement(2.0) } else { above };
    arc.in_unit(&DEGREES).copysign(y)
}

/// Inverse sine in radians, from -π/2 to π/2, within 1 ulp. Odd to the bit. NaN beyond -1 and 1.
#[inline(always)]
pub fn asin(x: f64) -> f64 {
    asin_in(&RADIANS, x)
}

/// Inverse cosine in radians, from 0 to π, within 1 ulp. NaN beyond -1 and 1.
#[inline(always)]
pub fn acos(x: f64) -> f64 {
    acos_in(&RADIANS, x)
}

/// Inverse tangent in radians, from -π/2 to π/2, within 1 ulp. Odd to the bit.
#[inline(always)]
pub fn atan(x: f64) -> f64 {
    atan_in(&RADIANS, x)
}

/// The angle in radians, from 0 to π, whose versine (1 - cos) is `x`, within 1.5 ulp. NaN beyond 0 and 2.
///
/// Where `acos(1.0 - x)` loses the digits of a small `x`, this keeps them.
#[inline(always)]
pub fn arc_versine(x: f64) -> f64 {
    let Versine { past, is_root, sine, square } = Versine::of(x);
    // The rest of the root is left out, which takes a division to find.
    let arc = sine + sine * square * polynomial(&ASIN, square);
    let arc = if is_root { arc + arc } else { FRAC_PI_2 - arc };
    if past { PI - arc } else { arc }
}

/// The angle in degrees, from 0 to 180, whose versine (1 - cos) is `x`, within 1 ulp. NaN beyond 0 and 2.
///
/// `arc_versine_degrees(0.5) == 60.0`, `arc_versine_degrees(1.0) == 90.0`, `arc_versine_degrees(2.0) == 180.0`.
#[inline(always)]
pub fn arc_versine_degrees(x: f64) -> f64 {
    arc_versine_in(&DEGREES, x)
}

/// 2^1000 and 2^-4.
const LARGE_SCALE: f64 = f64::from_bits((1023 + 1000) << 52);
const SMALL_SCALE: f64 = 0.0625;

/// A unit of angle. Each figure is a sum of two.
struct Unit {
    /// One radian; its first term has 26 bits.
    radian: [f64; 2],
    quarter: [f64; 2],
}

const DEGREES: Unit =
    Unit { radian: [57.295_779_228_210_45, 2.848_718_716_580_481_4e-7], quarter: [90.0, 0.0] };
const RADIANS: Unit = Unit { radian: [1.0, 0.0], quarter: [FRAC_PI_2, FRAC_PI_2_REST] };
/// What the nearest number leaves of π/2.
const FRAC_PI_2_REST: f64 = 6.123_233_995_736_766e-17;

/// The angle `quarters` · 90° + `factor` · (`high` + `low`) radians; `high` has 26 bits.
#[derive(Clone, Copy)]
struct Arc {
    quarters: f64,
    factor: f64,
    high: f64,
    low: f64,
}

impl Arc {
    /// What this angle leaves of so many quarters.
    #[inline(always)]
    fn complement(self, quarters: f64) -> Arc {
        Arc { quarters: quarters - self.quarters, factor: -self.factor, ..self }
    }

    #[inline(always)]
    fn in_unit(self, unit: &Unit) -> f64 {
        let [radian, radian_rest] = unit.radian;
        let (start, start_rest) = (self.quarters * unit.quarter[0], self.quarters * unit.quarter[1]);
        // 26 times 26 bits: exact.
        let turn = self.factor * (self.high * radian);
        let turn_rest = self.factor * (self.low * (radian + radian_rest) + self.high * radian_rest);
        let sum = start + turn;
        // What rounding took from `sum` goes back in with the small terms.
        sum + (((start - sum) + turn) + (turn_rest + start_rest))
    }
}

#[inline(always)]
fn asin_in(unit: &Unit, x: f64) -> f64 {
    let (arc, large) = arcsine(x.abs());
    let arc = if large { arc.complement(1.0) } else { arc };
    arc.in_unit(unit).copysign(x)
}

#[inline(always)]
fn acos_in(unit: &Unit, x: f64) -> f64 {
    let (arc, large) = arcsine(x.abs());
    let arc = if large { arc } else { arc.complement(1.0) };
    let arc = if x < 0.0 { arc.complement(2.0) } else { arc };
    arc.in_unit(unit)
}

#[inline(always)]
fn arc_versine_in(unit: &Unit, x: f64) -> f64 {
    let Versine { past, is_root, sine, square } = Versine::of(x);
    let arc = arcsine_of(sine, square, is_root);
    let arc = if is_root { arc } else { arc.complement(1.0) };
    let arc = if past { arc.complement(2.0) } else { arc };
    arc.in_unit(unit)
}

/// What the angle of a versine is told from: the sine, to 1/2, of its half where it `is_root`, else of its complement.
struct Versine {
    /// Whether the angle is beyond a right one, and what is left to two of them is told instead.
    past: bool,
    is_root: bool,
    sine: f64,
    square: f64,
}

impl Versine {
    #[inline(always)]
    fn of(x: f64) -> Versine {
        // From 1/2 up 1 - x is exact, and the angle is told from this cosine; below, from half the versine.
        let cosine = 1.0 - x;
        let past = cosine < 0.0;
        let versine = if past { 2.0 - x } else { x };
        let is_root = versine < 0.5;
        let square = if is_root { 0.5 * versine } else { cosine * cosine };
        let sine = if is_root { square.sqrt() } else { cosine.abs() };
        Versine { past, is_root, sine, square }
    }
}

#[inline(always)]
fn atan_in(unit: &Unit, x: f64) -> f64 {
    // Beyond 2^100 the angle is a right one to the last bit, and infinity would give NaN.
    const FAR: f64 = f64::from_bits((1023 + 100) << 52);
    let x_size = if x.abs() > FAR { FAR } else { x.abs() };
    let steep = x_size > 1.0;
    // An `if` would be made a branch with all of the arctangent in both arms.
    let (small, large) = (select_unpredictable(steep, 1.0, x_size), select_unpredictable(steep, x_size, 1.0));
    let arc = arctangent(small, large);
    let arc = if steep { arc.complement(1.0) } else { arc };
    arc.in_unit(unit).copysign(x)
}

/// The inverse sine of a number from 0 to 1/2, or the inverse cosine of a larger one; and whether it is larger.
///
/// For the larger, acos x = 2 asin √((1 - x) / 2).
#[inline(always)]
fn arcsine(x: f64) -> (Arc, bool) {
    let large = x > 0.5;
    let square = if large { 0.5 * (1.0 - x) } else { x * x };
    let sine = if large { square.sqrt() } else { x };
    (arcsine_of(sine, square, large), large)
}

/// The inverse sine of a number from 0 to 1/2, given with its square, or twice that for one that is a root.
#[inline(always)]
fn arcsine_of(sine: f64, square: f64, is_root: bool) -> Arc {
    let high = upper(sine);
    // The rest of the root from square - high², which is exact. The addend keeps 0 / 0 away.
    let root_rest = (square - high * high) / (sine + high + f64::MIN_POSITIVE);
    let rest = if is_root { root_rest } else { sine - high };
    let low = rest + sine * square * polynomial(&ASIN, square);
    Arc { quarters: 0.0, factor: if is_root { 2.0 } else { 1.0 }, high, low }
}

/// The inverse tangent of small / large, for 0 <= small <= large.
///
/// Above tan 22.5°, it is 45° less the inverse tangent of (large - small) / (large + small).
#[inline(always)]
fn arctangent(small: f64, large: f64) -> Arc {
    let steep = small > (std::f64::consts::SQRT_2 - 1.0) * large;
    let (less, more) = if steep { (large, small) } else { (0.0, 0.0) };
    // The quotient of small - less and large + more, with 26 bits leading; both may be inexact.
    let top = small - less;
    let top_rest = small - (top + less);
    let bottom = large + more;
    let reciprocal = 1.0 / bottom;
    let bottom_leading = upper(bottom);
    let bottom_rest = (large - bottom_leading) + more;
    let high = upper(top * reciprocal);
    let rest = ((top - high * bottom_leading) + (top_rest - high * bottom_rest)) * reciprocal;
    let tangent = high + rest;
    let square = tangent * tangent;
    let low = rest + tangent * square * polynomial(&ATAN, square);
    Arc { quarters: if steep { 0.5 } else { 0.0 }, factor: 1.0, high, low }
}

/// Minimax of (asin x / x - 1) / z in z = x², for x to 1/2; the error of asin x / x is 2^-59.8.
const ASIN: [f64; 13] = [
    0.032_657_789_219_187_71,
    -0.021_045_280_709_001_753,
    0.021_739_687_984_763_99,
    0.003_693_395_910_035_925_4,
    0.010_783_611_446_445_839,
    0.011_398_334_064_197_742,
    0.013_980_887_674_317_457,
    0.017_351_606_823_385_022,
    0.022_372_215_244_398_735,
    0.030_381_942_700_328_905,
    0.044_642_857_174_714_93,
    0.074_999_999_999_707_81,
    0.166_666_666_666_667_6,
];

/// Minimax of (atan t / t - 1) / z in z = t², for t to √2 - 1; the error of atan t / t is 2^-59.5.
const ATAN: [f64; 11] = [
    -0.017_928_744_214_095_564,
    0.038_084_724_035_557_52,
    -0.050_401_203_887_541_99,
    0.058_480_759_079_064_99,
    -0.066_631_305_801_054_5,
    0.076_920_626_412_167_49,
    -0.090_908_979_005_313_17,
    0.111_111_107_887_166_48,
    -0.142_857_142_803_098_64,
    0.199_999_999_999_548_37,
    -0.333_333_333_333_332_04,
];

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::f64::consts::{FRAC_PI_2, FRAC_PI_3, FRAC_PI_4, FRAC_PI_6, PI};

    const INFINITY: f64 = f64::INFINITY;
    const ODD: [fn(f64) -> f64; 4] = [asin_degrees, atan_degrees, asin, atan];

    #[test]
    fn special_values_are_exact() {
        assert_eq!([0.0, 0.5, 1.0, -0.5, -1.0].map(asin_degrees), [0.0, 30.0, 90.0, -30.0, -90.0]);
        assert_eq!([1.0, 0.5, 0.0, -0.5, -1.0].map(acos_degrees), [0.0, 60.0, 90.0, 120.0, 180.0]);
        assert_eq!([0.0, 1.0, -1.0].map(atan_degrees), [0.0, 45.0, -45.0]);
        assert_eq!([INFINITY, -INFINITY, f64::MAX].map(atan_degrees), [90.0, -90.0, 90.0]);
        assert_eq!([0.0, 0.5, 1.0].map(asin), [0.0, FRAC_PI_6, FRAC_PI_2]);
        assert_eq!([1.0, 0.5, 0.0, -1.0].map(acos), [0.0, FRAC_PI_3, FRAC_PI_2, PI]);
        assert_eq!([1.0, INFINITY].map(atan), [FRAC_PI_4, FRAC_PI_2]);
        assert_eq!(acos_degrees(1.0).to_bits(), 0);
        assert!(ODD.iter().all(|function| function(-0.0).to_bits() == (-0.0f64).to_bits()));
    }

    #[test]
    fn there_is_no_angle_beyond_one() {
        for x in [1.0 + f64::EPSILON, -1.0 - f64::EPSILON, 2.0, 1e300, INFINITY, -INFINITY] {
            let angles = [asin_degrees(x), acos_degrees(x), asin(x), acos(x)];
            assert!(angles.iter().all(|angle| angle.is_nan()), "{x}");
        }
    }

    #[test]
    fn all_round_the_circle() {
        for (y, x, angle) in [
            (0.0, 1.0, 0.0),
            (1.0, 1.0, 45.0),
            (1.0, 0.0, 90.0),
            (1.0, -0.0, 90.0),
            (1.0, -1.0, 135.0),
            (0.0, -1.0, 180.0),
            (0.0, 0.0, 0.0),
            (0.0, -0.0, 180.0),
            (1.0, INFINITY, 0.0),
            (1.0, -INFINITY, 180.0),
            (INFINITY, -1.0, 90.0),
            (INFINITY, INFINITY, 45.0),
            (INFINITY, -INFINITY, 135.0),
            (f64::MAX, -f64::MAX, 135.0),
            (5e-324, 5e-324, 45.0),
        ] {
            assert_eq!(atan2_degrees(y, x).to_bits(), f64::to_bits(angle), "{y} {x}");
            assert_eq!(atan2_degrees(-y, x).to_bits(), f64::to_bits(-angle), "-{y} {x}");
        }
    }

    proptest! {
        #[test]
        fn odd_functions_are_odd(x in -1.0..1.0f64, large in any::<f64>()) {
            for function in ODD {
                prop_assert_eq!(function(-x).to_bits(), (-function(x)).to_bits());
            }
            prop_assert_eq!(atan_degrees(-large).to_bits(), (-atan_degrees(large)).to_bits());
        }

        #[test]
        fn sine_and_cosine_are_complements(x in -1.0..1.0f64) {
            prop_assert!((asin_degrees(x) + acos_degrees(x) - 90.0).abs() <= 3e-14);
        }

        // One scale for both numbers leaves the angle as it is, to the bit, unless they are subnormal.
        #[test]
        fn an_angle_does_not_depend_on_the_scale(
            y in -1.0..1.0f64, x in -1.0..1.0f64, power in -900i32..900,
        ) {
            let scale = f64::from_bits(((1023 + power) as u64) << 52);
            prop_assert_eq!(atan2_degrees(y * scale, x * scale), atan2_degrees(y, x));
        }
    }
}

//! Sine, cosine and tangent of angles in degrees.
use super::polynomial::{SIGN, TO_WHOLE, polynomial, upper};

/// Largest angle, in degrees, that [`sin_degrees`] and its kin reduce. Beyond it they give NaN: the step
/// between neighbouring numbers is still fine there, yet no drawing or machine has such an angle.
pub const MAX_ANGLE: f64 = 1e9;

/// Sine of an angle in degrees, within 1 ulp.
///
/// Exact at the multiples of 30 whose sine is: `sin_degrees(30.0) == 0.5`, `sin_degrees(180.0) == 0.0`.
/// Odd to the bit, zeros included. NaN beyond [`MAX_ANGLE`].
#[inline(always)]
pub fn sin_degrees(angle: f64) -> f64 {
    let (sine, _) = sin_cos_of_magnitude(angle.abs());
    f64::from_bits(sine.to_bits() ^ (angle.to_bits() & SIGN))
}

/// [`sin_degrees`] of an angle from 0 to 90, to the bit, without the search for its quadrant.
#[inline(always)]
pub fn sin_acute_degrees(angle: f64) -> f64 {
    let large = angle > 45.0;
    let (radians, low) = radians(if large { angle - 90.0 } else { angle });
    let (sine, cosine) = (sin_near_zero(radians, low), cos_near_zero(radians, low));
    if large { cosine } else { sine }
}

/// Cosine of an angle in degrees, within 1 ulp.
///
/// Exact at the multiples of 30 whose cosine is: `cos_degrees(60.0) == 0.5`, `cos_degrees(90.0) == 0.0`.
/// Even to the bit; its zeros are positive. NaN beyond [`MAX_ANGLE`].
#[inline(always)]
pub fn cos_degrees(angle: f64) -> f64 {
    sin_cos_of_magnitude(angle.abs()).1
}

/// Tangent of an angle in degrees, within 2.5 ulp.
///
/// Exact at the multiples of 45: `tan_degrees(45.0) == 1.0`, and at odd multiples of 90 infinite, positive
/// at 90 and negative at 270 and -90, as IEEE 754-2019 has it for tanPi. Odd to the bit. NaN beyond
/// [`MAX_ANGLE`].
#[inline(always)]
pub fn tan_degrees(angle: f64) -> f64 {
    let (sine, cosine) = sin_cos_of_magnitude(angle.abs());
    f64::from_bits((sine / cosine).to_bits() ^ (angle.to_bits() & SIGN))
}

/// Sine and cosine of an angle of at least zero degrees.
#[inline(always)]
fn sin_cos_of_magnitude(angle: f64) -> (f64, f64) {
    // The number of the quadrant then stands in the low bits.
    let shifted = angle * (1.0 / 90.0) + TO_WHOLE;
    let quadrant = shifted.to_bits();
    let whole = shifted - TO_WHOLE;
    // Exact: both terms are multiples of the last place of `angle`, and the difference is small.
    let rest = if angle <= MAX_ANGLE { angle - 90.0 * whole } else { f64::NAN };

    let (radians, low) = radians(rest);
    let (sine, cosine) = (sin_near_zero(radians, low).to_bits(), cos_near_zero(radians, low).to_bits());
    // In odd quadrants sine and cosine change places. Masks, since SSE2 has no selection by a whole number.
    let exchange = (sine ^ cosine) & 0u64.wrapping_sub(quadrant & 1);
    let sine = sine ^ exchange ^ ((quadrant << 62) & SIGN);
    let cosine = cosine ^ exchange ^ ((quadrant.wrapping_add(1) << 62) & SIGN);
    // Adding zero turns a negative zero, as at 180, into a positive one.
    (f64::from_bits(sine) + 0.0, f64::from_bits(cosine) + 0.0)
}

/// Degrees to radians, as a sum of two numbers good to about 80 bits.
#[inline(always)]
fn radians(degrees: f64) -> (f64, f64) {
    // π/180 to 26 bits, and the rest of it.
    const HIGH: f64 = 0.017_453_292_384_743_69;
    const LOW: f64 = 1.351_996_052_785_142_5e-10;
    let leading = upper(degrees);
    // 26 bits times 26 or 27 bits: both products with HIGH are exact.
    let (large, small) = (leading * HIGH, (degrees - leading) * HIGH + degrees * LOW);
    let sum = large + small;
    (sum, (large - sum) + small)
}

/// Minimax of (sin x / x - 1) / z in z = x², for x to 45°; the error of sin x / x is 2^-58.0.
const SINE: [f64; 6] = [
    1.589_681_533_025_945_4e-10,
    -2.505_075_849_430_840_3e-8,
    2.755_731_369_467_84e-6,
    -0.000_198_412_698_298_171_6,
    0.008_333_333_333_322_429,
    -0.166_666_666_666_666_32,
];

/// Minimax of (cos x - 1 + z/2) / z² in z = x², for x to 45°; the error of cos x is 2^-64.2.
const COSINE: [f64; 6] = [
    -1.135_965_687_525_86e-11,
    2.087_572_346_620_118e-9,
    -2.755_731_435_391_816_7e-7,
    2.480_158_728_948_842_5e-5,
    -0.001_388_888_888_887_413_6,
    0.041_666_666_666_666_6,
];

/// sin(x + low) for |x| up to 45° and a `low` below its last place.
#[inline(always)]
fn sin_near_zero(x: f64, low: f64) -> f64 {
    let square = x * x;
    x + (x * square * polynomial(&SINE, square) + low * (1.0 - 0.5 * square))
}

/// cos(x + low) for |x| up to 45° and a `low` below its last place.
#[inline(always)]
fn cos_near_zero(x: f64, low: f64) -> f64 {
    let square = x * x;
    let half = 0.5 * square;
    let lead = 1.0 - half;
    // What rounding took from `lead` goes back in with the small terms.
    lead + (((1.0 - lead) - half) + (square * square * polynomial(&COSINE, square) - x * low))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    type Function = fn(f64) -> f64;
    const FUNCTIONS: [(&str, Function); 3] =
        [("sin", sin_degrees), ("cos", cos_degrees), ("tan", tan_degrees)];

    #[test]
    fn special_angles_are_exact() {
        let sines = [0.0, 0.5, 1.0, 0.5, 0.0, -0.5, -1.0, -0.5, 0.0];
        for (angle, sine) in
            [0.0, 30.0, 90.0, 150.0, 180.0, 210.0, 270.0, 330.0, 360.0].into_iter().zip(sines)
        {
            for turns in [0.0, 360.0, 360e4] {
                assert_eq!(sin_degrees(angle + turns), sine, "sin {angle}");
                assert_eq!(cos_degrees(angle + turns - 90.0), sine, "cos {angle} - 90");
            }
        }
        for (angle, tangent) in [(0.0, 0.0), (45.0, 1.0), (135.0, -1.0), (225.0, 1.0), (315.0, -1.0)] {
            assert_eq!(tan_degrees(angle), tangent, "tan {angle}");
        }
        assert_eq!([90.0, 270.0, -90.0].map(tan_degrees), [f64::INFINITY, -f64::INFINITY, -f64::INFINITY]);
    }

    #[test]
    fn the_sine_of_an_acute_angle_is_that_of_any() {
        let fine = (0..=90_000).map(|step| f64::from(step) / 1000.0);
        for angle in fine.chain([1e-310, 1e-9, 45.0f64.next_up(), 90.0f64.next_down()]) {
            assert_eq!(sin_acute_degrees(angle).to_bits(), sin_degrees(angle).to_bits(), "{angle}");
        }
        assert!(sin_acute_degrees(f64::NAN).is_nan());
    }

    #[test]
    fn zeros_of_sine_have_the_sign_of_the_angle_and_zeros_of_cosine_are_positive() {
        for angle in [0.0, 180.0, 360.0, 540.0] {
            assert_eq!(sin_degrees(angle).to_bits(), 0, "sin {angle}");
            assert_eq!(sin_degrees(-angle).to_bits(), SIGN, "sin -{angle}");
            assert_eq!(cos_degrees(angle + 90.0).to_bits(), 0, "cos {angle} + 90");
            assert_eq!(cos_degrees(-angle - 90.0).to_bits(), 0, "cos -{angle} - 90");
        }
    }

    #[test]
    fn angles_that_make_no_sense_give_nan() {
        for (name, function) in FUNCTIONS {
            for angle in [f64::NAN, f64::INFINITY, -f64::INFINITY, f64::MAX, -f64::MAX, 1.000_000_1e9] {
                assert!(function(angle).is_nan(), "{name} {angle}");
            }
            assert!(function(MAX_ANGLE).is_finite(), "{name}");
        }
    }

    proptest! {
        #[test]
        fn sine_and_tangent_are_odd_and_cosine_is_even(angle in -1e9..1e9f64) {
            prop_assert_eq!(sin_degrees(-angle).to_bits(), (-sin_degrees(angle)).to_bits());
            prop_assert_eq!(cos_degrees(-angle).to_bits(), cos_degrees(angle).to_bits());
            prop_assert_eq!(tan_degrees(-angle).to_bits(), (-tan_degrees(angle)).to_bits());
        }

        // On a grid of 2^-20 degree, the sums below are exact, and so the identities hold to the bit.
        #[test]
        fn quadrants_agree(step in -(1i64 << 29)..(1i64 << 29), turns in -1000i32..1000) {
            let angle = step as f64 / 1_048_576.0;
            let turned = angle + 360.0 * f64::from(turns);
            prop_assert_eq!(sin_degrees(turned), sin_degrees(angle));
            prop_assert_eq!(cos_degrees(turned), cos_degrees(angle));
            prop_assert_eq!(sin_degrees(90.0 - angle), cos_degrees(angle));
            prop_assert_eq!(sin_degrees(180.0 - angle), sin_degrees(angle));
            prop_assert_eq!(cos_degrees(180.0 - angle), -cos_degrees(angle));
            prop_assert_eq!(tan_degrees(angle + 180.0), tan_degrees(angle));
        }

        // The step is small, yet larger than the error allowed, everywhere in the range.
        #[test]
        fn sine_and_tangent_rise_from_minus_90_to_90(angle in -89.9..89.8f64) {
            let next = angle + 1e-6;
            prop_assert!(sin_degrees(next) > sin_degrees(angle));
            prop_assert!(tan_degrees(next) > tan_degrees(angle));
        }

        #[test]
        fn squares_of_sine_and_cosine_make_one(angle in -1e6..1e6f64) {
            let (s, c) = (sin_degrees(angle), cos_degrees(angle));
            prop_assert!((s * s + c * c - 1.0).abs() <= 4.0 * f64::EPSILON);
        }
    }
}

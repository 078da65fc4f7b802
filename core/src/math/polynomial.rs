//! What the elementary functions share: polynomials, whole numbers and the upper half of a number.

pub(super) const SIGN: u64 = 1 << 63;

/// 1.5 · 2^52. Adding it to a number below 2^51 rounds that to a whole one, which then stands in the low bits.
pub(super) const TO_WHOLE: f64 = 6_755_399_441_055_744.0;

/// A number of small magnitude rounded to a whole one.
#[inline(always)]
pub(super) fn whole(x: f64) -> f64 {
    (x + TO_WHOLE) - TO_WHOLE
}

/// The first 26 bits of a number. The product of two such is exact.
#[inline(always)]
pub(super) fn upper(x: f64) -> f64 {
    f64::from_bits(x.to_bits() & !0x7ff_ffff)
}

/// Coefficients of the highest power first. Two chains, of the even and the odd powers, take half the time.
#[inline(always)]
pub(super) fn polynomial<const N: usize>(coefficients: &[f64; N], x: f64) -> f64 {
    let square = x * x;
    let chain = |parity: usize| {
        let start = (N + 1 + parity) % 2;
        coefficients.iter().skip(start + 2).step_by(2).fold(coefficients[start], |sum, c| sum * square + c)
    };
    chain(0) + x * chain(1)
}

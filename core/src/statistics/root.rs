//! The point of a law on the positive numbers that has a given probability on one side.
use super::tails::{ABOVE, BELOW};
use crate::math::ln;

/// The point from 0 to infinity at which the tail of the given side is `probability`.
///
/// `start` is any positive number, near the middle of the law if possible. Zero where the law has more below zero.
pub(super) fn root(probability: f64, side: usize, start: f64, tail: impl Fn(f64, usize) -> f64) -> f64 {
    if !(0.0..=1.0).contains(&probability) {
        return f64::NAN;
    }
    if probability == 0.0 || probability == 1.0 {
        return if (probability == 0.0) == (side == BELOW) { 0.0 } else { f64::INFINITY };
    }
    // The smaller of the tails has all of its digits; one less what is above a half is exact.
    let (smaller, side) =
        if probability <= 0.5 { (probability, side) } else { (1.0 - probability, 1 - side) };
    let sign = if side == ABOVE { -1.0 } else { 1.0 };
    // Rises with the point. Its scale is that of logarithms, on which tails are nearly straight.
    let off = |x: f64| {
        let tail = tail(x, side);
        if tail > 0.0 {
            sign * ln(tail / smaller)
        } else if tail.is_nan() {
            tail
        } else {
            -1000.0 * sign
        }
    };
    match bracket(start, &off) {
        Bracket::Between(low, high) => chandrupatla(low, high, &off),
        Bracket::Beyond(end) => end,
    }
}

enum Bracket {
    /// Two points and what is off there, the first below zero and the second not.
    Between([f64; 2], [f64; 2]),
    /// The root is too close to zero or too far for a float; or NaN.
    Beyond(f64),
}

/// Two points on both sides of the root, with a ratio of at most four.
fn bracket(start: f64, off: &impl Fn(f64) -> f64) -> Bracket {
    let first = [start, off(start)];
    if first[1].is_nan() {
        return Bracket::Beyond(f64::NAN);
    }
    let (mut low, mut high) = (first, first);
    let mut factor = 1.5;
    while high[1] < 0.0 {
        if high[0] == f64::MAX {
            return Bracket::Beyond(f64::INFINITY);
        }
        let x = high[0] * factor;
        let x = if x < f64::MAX { x } else { f64::MAX };
        (low, high) = (high, [x, off(x)]);
        factor *= factor;
    }
    factor = 1.5;
    while low[1] >= 0.0 {
        if low[0] == f64::MIN_POSITIVE {
            return Bracket::Beyond(0.0);
        }
        let x = low[0] / factor;
        let x = if x > f64::MIN_POSITIVE { x } else { f64::MIN_POSITIVE };
        (low, high) = ([x, off(x)], low);
        factor *= factor;
    }
    while high[0] > 4.0 * low[0] {
        let x = low[0].sqrt() * high[0].sqrt();
        let middle = [x, off(x)];
        if middle[1] < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Bracket::Between(low, high)
}

/// The root between two points: inverse quadratic interpolation where it is safe, or else the middle.
///
/// Source: T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145.
fn chandrupatla(low: [f64; 2], high: [f64; 2], off: &impl Fn(f64) -> f64) -> f64 {
    let (mut b, mut a) = (low, high);
    let mut c;
    let mut share = 0.5;
    for _ in 0..200 {
        let x = a[0] + share * (b[0] - a[0]);
        let at = [x, off(x)];
        // `a` is the newest point, `b` on the other side of the root, `c` the one before.
        if (at[1] < 0.0) == (a[1] < 0.0) {
            c = a;
        } else {
            (c, b) = (b, a);
        }
        a = at;
        let best = if a[1].abs() < b[1].abs() { a } else { b };
        let least = 2.0 * f64::EPSILON * best[0].abs() / (b[0] - a[0]).abs();
        if best[1] == 0.0 || least.is_nan() || least > 0.5 {
            return best[0];
        }
        let place = (a[0] - b[0]) / (c[0] - b[0]);
        let height = (a[1] - b[1]) / (c[1] - b[1]);
        share = if height * height < place && (1.0 - height) * (1.0 - height) < 1.0 - place {
            a[1] / (b[1] - a[1]) * c[1] / (b[1] - c[1])
                + (c[0] - a[0]) / (b[0] - a[0]) * a[1] / (c[1] - a[1]) * b[1] / (c[1] - b[1])
        } else {
            0.5
        };
        share = share.clamp(least, 1.0 - least);
    }
    a[0]
}

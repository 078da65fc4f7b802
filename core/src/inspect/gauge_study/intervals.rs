//! Confidence intervals of components of variance.
use crate::statistics::{chi_square_quantile, chi_square_quantile_above, f_quantile_above};

/// A mean square as a part of a component.
#[derive(Clone, Copy, Debug)]
pub(super) struct Square {
    /// How many times it counts; negative where it is taken away.
    pub share: f64,
    pub ms: f64,
    pub df: f64,
}

/// The interval of a sum of mean squares, from and to, zero at least. Empty where there is nothing to tell.
///
/// The modified large sample method, which for a single mean square is exact. Its real confidence is a little more than
/// that asked for. Source: R. K. Burdick and F. A. Graybill, Confidence Intervals on Variance Components, 1992, sections
/// 3.2 and 3.3 (from memory): Graybill and Wang for sums, Ting et al. for differences.
pub(super) fn interval(squares: &[Square], confidence: f64) -> Vec<f64> {
    if squares.is_empty() {
        return vec![];
    }
    let tail = 0.5 * (1.0 - confidence);
    let estimate: f64 = squares.iter().map(|square| square.share * square.ms).sum();
    // How far each mean square may lie above and below what it stands for.
    let above = |df: f64| 1.0 - df / chi_square_quantile_above(tail, df);
    let below = |df: f64| df / chi_square_quantile(tail, df) - 1.0;
    let (mut down, mut up) = (0.0, 0.0);
    for square in squares {
        let size = square.share * square.ms;
        let [g, h] = [above(square.df), below(square.df)].map(|factor| factor * factor * size * size);
        let [lower, upper] = if square.share > 0.0 { [g, h] } else { [h, g] };
        down += lower;
        up += upper;
    }
    for one in squares.iter().filter(|square| square.share > 0.0) {
        for other in squares.iter().filter(|square| square.share < 0.0) {
            let product = one.share * one.ms * -other.share * other.ms;
            let square = |x: f64| x * x;
            let high = f_quantile_above(tail, one.df, other.df);
            let low = 1.0 / f_quantile_above(tail, other.df, one.df);
            let cross_down =
                (square(high - 1.0) - square(above(one.df) * high) - square(below(other.df))) / high;
            let cross_up = (square(1.0 - low) - square(below(one.df) * low) - square(above(other.df))) / low;
            down += cross_down * product;
            up += cross_up * product;
        }
    }
    let root = |x: f64| x.max(0.0).sqrt();
    vec![(estimate - root(down)).max(0.0), (estimate + root(up)).max(0.0)]
}

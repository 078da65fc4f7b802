//! The time of a path: with acceleration from one segment to the next, or at the feed of each.
use super::cut::{BareCut, FeedBound};
use super::error::PathFeedError;
use super::kernel::Segments;

/// The share of a feed by which rounding may miss it.
const ROUNDING: f64 = 1e-12;

/// Times at the feed of each segment, and their sum.
pub(super) fn at_feed(lengths: &[f64], feeds: &[f64], times: &mut [f64]) -> f64 {
    for ((time, length), feed) in times.iter_mut().zip(lengths).zip(feeds) {
        *time = length / feed;
    }
    // The sum of nothing is -0 in std.
    times.iter().sum::<f64>() + 0.0
}

/// Lowers feeds to what can be reached in each segment, so that speeds meet from one to the next, and gives times and their
/// sum.
pub(super) fn accelerated(
    cut: &BareCut,
    lengths: &[f64],
    to: &mut Segments<'_>,
    times: &mut [f64],
    unit: &'static str,
) -> Result<f64, PathFeedError> {
    let a = cut.acceleration;
    // Backward: `times` holds the square of the greatest speed at the start of each segment, from which the rest can slow down.
    let mut square = cut.end * cut.end;
    for ((speed, length), feed) in times.iter_mut().zip(lengths).zip(to.feeds.iter()).rev() {
        square = square.min(feed * feed) + 2.0 * a * length;
        square = square.min(feed * feed);
        *speed = square;
    }
    let allowed = times.first().map_or(f64::INFINITY, |square| square.sqrt());
    if cut.start > allowed * (1.0 + ROUNDING) {
        return Err(PathFeedError::Start { start: cut.start, allowed, unit });
    }
    let mut total = 0.0;
    let mut entry = cut.start * cut.start;
    for k in 0..lengths.len() {
        let (length, feed) = (lengths[k], to.feeds[k]);
        let after = times.get(k + 1).copied().unwrap_or(cut.end * cut.end);
        let exit = (entry + 2.0 * a * length).min(feed * feed).min(after);
        let peak = (0.5 * (entry + exit) + a * length).sqrt();
        if peak < feed * (1.0 - ROUNDING) {
            to.chips[k] *= peak / feed;
            to.feeds[k] = peak;
            to.bounds[k] = FeedBound::Acceleration as i32;
        }
        let peak = to.feeds[k];
        let cruise = (length - (2.0 * peak * peak - entry - exit) / (2.0 * a)).max(0.0);
        times[k] = (2.0 * peak - entry.sqrt() - exit.sqrt()) / a + cruise / peak;
        total += times[k];
        entry = exit;
    }
    Ok(total)
}

//! A path, and its feeds.
use super::columns::PathColumns;
use super::cut::{BareCut, PathCut};
use super::error::PathFeedError;
use super::kernel::{Segments, feeds};
use super::timing::{accelerated, at_feed};
use crate::quantity::*;

/// The feeds of a path, in the units of its cut.
#[derive(Clone, PartialEq, Debug)]
pub struct PathFeeds {
    /// Feed rate of the cutter's centre in each segment: the highest that it reaches there.
    pub feed_rates: Vec<f64>,
    /// Largest chip thickness at that feed; 0 in the air.
    pub chip_thicknesses: Vec<f64>,
    /// What bounds the feed, as a place in `FeedBound::ALL`.
    pub bounds: Vec<i32>,
    /// Time of each segment, in minutes.
    pub times: Vec<f64>,
    /// Its sums.
    pub totals: PathTotals,
}

/// What a path comes to.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PathTotals {
    /// Time of the path, in minutes.
    pub time: f64,
    /// Segments whose chip is thinner than the least, so that the teeth rub.
    pub rubbing: usize,
}

/// The feed of each segment of a path within every limit, what bounds it, and the time.
///
/// # Errors
/// [`PathFeedError`] for numbers that cannot be, and columns of different length.
pub fn path_feeds(cut: &PathCut, path: &PathColumns<'_>) -> Result<PathFeeds, PathFeedError> {
    let count = path.lengths.len();
    let (mut feed_rates, mut chip_thicknesses) = (vec![0.0; count], vec![0.0; count]);
    let (mut bounds, mut times) = (vec![0; count], vec![0.0; count]);
    let totals = path_feeds_into(cut, path, &mut feed_rates, &mut chip_thicknesses, &mut bounds, &mut times)?;
    Ok(PathFeeds { feed_rates, chip_thicknesses, bounds, times, totals })
}

/// As [`path_feeds`], into columns that are there.
///
/// # Errors
/// As [`path_feeds`].
pub fn path_feeds_into(
    cut: &PathCut,
    path: &PathColumns<'_>,
    feed_rates: &mut [f64],
    chip_thicknesses: &mut [f64],
    bounds: &mut [i32],
    times: &mut [f64],
) -> Result<PathTotals, PathFeedError> {
    let bare = cut.bare()?;
    let segments = path.lengths.len();
    for (column, got) in [
        ("curvature", path.curvatures.len()),
        ("radial_width", path.radial_widths.len()),
        ("axial_depth", path.axial_depths.len()),
        ("feed_rate", feed_rates.len()),
        ("chip_thickness", chip_thicknesses.len()),
        ("bound", bounds.len()),
        ("time", times.len()),
    ] {
        if got != segments {
            return Err(PathFeedError::Lengths { column, got, segments });
        }
    }
    let mut to = Segments { feeds: feed_rates, chips: chip_thicknesses, bounds };
    feeds(&bare, path, &mut to);
    // One pass over the sum finds whether any feed is missing.
    if !to.feeds.iter().sum::<f64>().is_finite() {
        to.feeds
            .iter()
            .enumerate()
            .try_for_each(|(segment, feed)| judge(cut, &bare, path, segment, *feed))?;
    }
    let unit = FeedRate::KIND.unit(cut.units).label;
    let least = bare.least_feed;
    if least > 0.0
        && let Some(segment) = to.feeds.iter().position(|feed| *feed < least * (1.0 - 1e-12))
    {
        return Err(PathFeedError::Slow { segment, feed: to.feeds[segment], least, unit });
    }
    let time = match cut.acceleration {
        Some(_) => accelerated(&bare, path.lengths, &mut to, times, unit)?,
        None => at_feed(path.lengths, to.feeds, times),
    };
    let rubs = |chip: &&f64| **chip > 0.0 && **chip < bare.least_chip * (1.0 - 1e-9);
    let rubbing = to.chips.iter().filter(rubs).count();
    Ok(PathTotals { time, rubbing })
}

/// Why a segment has no feed, if it has none.
fn judge(
    cut: &PathCut,
    bare: &BareCut,
    path: &PathColumns<'_>,
    segment: usize,
    feed: f64,
) -> Result<(), PathFeedError> {
    let length_unit = Length::KIND.unit(cut.units).label;
    let refuse =
        |column, must, value, unit| Err(PathFeedError::Segment { segment, column, must, value, unit });
    let value = path.lengths[segment];
    if !(value > 0.0 && value.is_finite()) {
        return refuse("length", "greater than 0", value, length_unit);
    }
    let value = path.curvatures[segment];
    if !(value * bare.diameter >= -2.0 && value.is_finite()) {
        let must = "at least -2 over the cutter's diameter: outside an arc the centre runs no closer than the cutter's radius";
        return refuse("curvature", must, value, Curvature::KIND.unit(cut.units).label);
    }
    let value = path.radial_widths[segment];
    if !(0.0..=bare.diameter).contains(&value) {
        return refuse("radial_width", "from 0 to the cutter's diameter", value, length_unit);
    }
    let value = path.axial_depths[segment];
    if !(value >= 0.0 && value.is_finite()) {
        return refuse("axial_depth", "zero or more", value, length_unit);
    }
    match feed {
        _ if feed.is_finite() => Ok(()),
        _ if feed.is_nan() => Err(PathFeedError::NoFeed { segment }),
        _ => Err(PathFeedError::AirCut { segment }),
    }
}

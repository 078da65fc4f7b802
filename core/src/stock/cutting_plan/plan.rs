//! A cutting plan as it is handed out.
use serde::Serialize;
use std::fmt;
use tenths_macros::{Choice, Object};

use super::error::CuttingError;
use super::order::{CuttingBar, CuttingOptions, MILLION, OrderedPiece};
use super::problem::{Layouts, Pattern};
use crate::Units;
use crate::size::Size;

/// What a cutting plan keeps low.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize, Choice)]
#[serde(rename_all = "snake_case")]
pub enum CuttingObjective {
    /// The price of the bars.
    Price,
    /// The number of bars, which are of one length.
    Bars,
    /// The total length of the bars.
    Length,
}

impl CuttingObjective {
    /// What is kept low with these bars.
    pub(super) fn of(bars: &[CuttingBar]) -> Result<Self, CuttingError> {
        for price in bars.iter().filter_map(|bar| bar.price) {
            let parts = price * MILLION;
            if !(0.0..=1e9).contains(&price)
                || (parts - parts.round()).abs() > 1e-3 * parts.abs().max(1.0) * 1e-3
            {
                return Err(CuttingError::Price { price });
            }
        }
        match bars.iter().filter(|bar| bar.price.is_some()).count() {
            0 if bars.iter().all(|bar| bar.length == bars[0].length) => Ok(Self::Bars),
            0 => Ok(Self::Length),
            priced if priced == bars.len() => Ok(Self::Price),
            _ => Err(CuttingError::MixedPrices),
        }
    }
}

/// Pieces of one length.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Object)]
#[object(restore, tuple)]
pub struct CutLength {
    /// The length of a piece.
    pub length: Size,
    /// How many.
    pub count: u64,
}

/// What bars of one length are cut into.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct CuttingLayout {
    /// The length of the bar.
    pub bar: Size,
    /// How many bars are cut like this.
    pub times: u64,
    /// The pieces of one bar, the longest first.
    pub pieces: Vec<CutLength>,
    /// What is left of one bar in one piece, after the last cut; without the remnant that is held.
    pub leftover: Size,
}

/// Which bars to take, and what to cut from each.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct CuttingPlan {
    /// What the plan keeps low.
    pub objective: CuttingObjective,
    /// How many bars are cut.
    #[pure]
    pub bars: u64,
    /// What the bars cost, where they have prices.
    #[pure]
    pub cost: Option<f64>,
    /// The length of all bars together.
    pub length: Size,
    /// No plan costs less, takes fewer bars, or takes less length in `units`, whichever is kept low.
    #[pure]
    pub bound: f64,
    /// Whether the plan is proven to be the best: it reaches the bound.
    pub proven: bool,
    /// How far the plan may be from the best, as a share of the bound; 0 where it is proven.
    #[pure]
    pub gap: f64,
    /// The share of the bars that becomes pieces.
    #[pure]
    pub utilisation: f64,
    /// The share of the bars that the cuts turn into chips.
    #[pure]
    pub kerf_share: f64,
    /// What each bar is cut into, and how many of each.
    pub layouts: Vec<CuttingLayout>,
    /// The leftovers that are worth keeping, the longest first.
    pub kept: Vec<CutLength>,
    /// The width of a cut.
    pub kerf: Size,
    /// What is trimmed off each bar before the first piece.
    pub end_trim: Size,
    /// The units of the bound, and of pictures.
    pub units: Units,
}

impl CuttingPlan {
    pub(super) fn new(
        pieces: &[OrderedPiece],
        bars: &[CuttingBar],
        options: &CuttingOptions,
        objective: CuttingObjective,
        layouts: &Layouts,
        bound: f64,
        proven: bool,
    ) -> Result<Self, CuttingError> {
        let mut laid = Vec::with_capacity(layouts.len());
        let (mut total, mut taken, mut chips) = (0i128, 0i128, 0i128);
        for (pattern, times) in layouts {
            let layout = layout(pattern, *times, pieces, bars, options);
            let length = layout
                .pieces
                .iter()
                .map(|piece| i128::from(piece.length.picometres()) * i128::from(piece.count));
            taken += length.sum::<i128>() * i128::from(*times);
            total += i128::from(layout.bar.picometres()) * i128::from(*times);
            chips += i128::from(turned_to_chips(&layout, options)) * i128::from(*times);
            laid.push(layout);
        }
        laid.sort_by(|a, b| b.bar.cmp(&a.bar).then(b.times.cmp(&a.times)));
        let length = i64::try_from(total).map(Size::from_picometres).map_err(|_| CuttingError::TooLarge)?;
        let priced = |(pattern, times): &(Pattern, i64)| {
            (bars[pattern.bar].price.unwrap_or(0.0) * MILLION).round() as i128 * i128::from(*times)
        };
        let cost = layouts.iter().map(priced).sum::<i128>() as f64 / MILLION;
        let count = layouts.iter().map(|(_, times)| *times as u64).sum();
        let reached = match objective {
            CuttingObjective::Price => cost,
            CuttingObjective::Bars => count as f64,
            CuttingObjective::Length => length.to_float(options.units),
        };
        let share = |part: i128| if total == 0 { 0.0 } else { part as f64 / total as f64 };
        let gap = match proven {
            true => 0.0,
            false if bound > 0.0 => (reached - bound) / bound,
            false => 1.0,
        };
        Ok(Self {
            objective,
            bars: count,
            cost: (objective == CuttingObjective::Price).then_some(cost),
            length,
            bound: if proven { reached } else { bound },
            proven,
            gap,
            utilisation: share(taken),
            kerf_share: share(chips),
            kept: kept(&laid, options.keep_from),
            layouts: laid,
            kerf: options.kerf,
            end_trim: options.end_trim,
            units: options.units,
        })
    }
}

impl fmt::Display for CuttingPlan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let used = 100.0 * self.utilisation;
        let plural = if self.bars == 1 { "" } else { "s" };
        write!(f, "CuttingPlan: {} bar{plural}, {used:.1} % of their length used, ", self.bars)?;
        match self.proven {
            true => f.write_str("proven to be the best"),
            false => write!(f, "at most {:.2} % from the best", 100.0 * self.gap),
        }
    }
}

fn layout(
    pattern: &Pattern,
    times: i64,
    pieces: &[OrderedPiece],
    bars: &[CuttingBar],
    options: &CuttingOptions,
) -> CuttingLayout {
    let bar = bars[pattern.bar].length;
    let cut = pattern.pieces.iter().map(|&(piece, count)| {
        let each = pieces[piece].length.picometres() + options.facing_allowance.picometres();
        (each + options.kerf.picometres()) * count
    });
    // The cut after the last piece takes what there is, up to a kerf.
    let end = bar.picometres() - options.end_trim.picometres() - options.remnant.picometres();
    let leftover = (end - cut.sum::<i64>()).max(0);
    let cut_lengths = pattern
        .pieces
        .iter()
        .map(|&(piece, count)| CutLength { length: pieces[piece].length, count: count as u64 });
    CuttingLayout {
        bar,
        times: times as u64,
        pieces: cut_lengths.collect(),
        leftover: Size::from_picometres(leftover),
    }
}

/// What the cuts of one bar turn into chips, in picometres. The last cut takes what there is, up to a kerf.
fn turned_to_chips(layout: &CuttingLayout, options: &CuttingOptions) -> i64 {
    let piece = |piece: &CutLength| {
        (piece.length.picometres() + options.facing_allowance.picometres()) * piece.count as i64
    };
    let used = options.end_trim.picometres() + options.remnant.picometres() + layout.leftover.picometres();
    layout.bar.picometres() - used - layout.pieces.iter().map(piece).sum::<i64>()
}

/// The leftovers that are worth keeping.
fn kept(layouts: &[CuttingLayout], keep_from: Option<Size>) -> Vec<CutLength> {
    let Some(least) = keep_from else { return Vec::new() };
    let worth = |layout: &&CuttingLayout| layout.leftover >= least && layout.leftover > Size::ZERO;
    let mut kept: Vec<CutLength> = Vec::new();
    let mut all: Vec<&CuttingLayout> = layouts.iter().filter(worth).collect();
    all.sort_by_key(|layout| std::cmp::Reverse(layout.leftover));
    for layout in all {
        match kept.last_mut() {
            Some(last) if last.length == layout.leftover => last.count += layout.times,
            _ => kept.push(CutLength { length: layout.leftover, count: layout.times }),
        }
    }
    kept
}

/// The layouts without pieces beyond those wanted. The bars stay the same.
pub(super) fn exact(layouts: Layouts, mut wanted: Vec<i64>) -> Layouts {
    let mut exact = Layouts::new();
    for (pattern, mut times) in layouts {
        while times > 0 {
            let clipped = pattern.clipped(&wanted);
            // As often as every piece of it is still wanted in full.
            let repeats =
                clipped.pieces.iter().map(|&(piece, count)| wanted[piece] / count).min().unwrap_or(times);
            let repeats = repeats.clamp(1, times);
            clipped.pieces.iter().for_each(|&(piece, count)| wanted[piece] -= count * repeats);
            exact.push((clipped, repeats));
            times -= repeats;
        }
    }
    exact
}

//! What is wanted, which bars there are, and how they are cut.
use std::time::Duration;

use crate::Units;
use crate::size::Size;
use tenths_macros::Options;

/// Pieces of one length that are wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct OrderedPiece {
    /// The finished length of a piece.
    pub length: Size,
    /// How many.
    pub count: u64,
}

/// Bars of one length.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct CuttingBar {
    /// The length of a bar.
    pub length: Size,
    /// How many there are, if that is limited.
    pub available: Option<u64>,
    /// What one costs, to a millionth. Either all kinds of bar have a price or none has one.
    pub price: Option<f64>,
}

/// How bars are cut, and how long the search may take.
#[derive(Clone, Copy, PartialEq, Debug, Options)]
#[watched]
pub struct CuttingOptions {
    /// The width of a cut. A bar needs one between neighbours, and none after the last piece unless a remnant stays.
    pub kerf: Size,
    /// What is trimmed off each bar before the first piece.
    pub end_trim: Size,
    /// The length at the far end of each bar that the vice or collet holds and that cannot be used.
    pub remnant: Size,
    /// What facing takes off each piece, both ends together.
    pub facing_allowance: Size,
    /// The least leftover worth keeping, if any is.
    pub keep_from: Option<Size>,
    /// The longest that the search may take; the best plan by then is given. Without a limit it runs to its end.
    pub time_limit: Option<Duration>,
    /// The most work that the search may do, in steps of some nanoseconds each. Unlike a limit of time it gives the
    /// same plan on every machine.
    pub work_limit: Option<u64>,
    /// The units in which a plan without prices gives its bound, and in which messages give lengths.
    #[apart]
    pub units: Units,
}

impl Default for CuttingOptions {
    fn default() -> Self {
        Self {
            kerf: Size::ZERO,
            end_trim: Size::ZERO,
            remnant: Size::ZERO,
            facing_allowance: Size::ZERO,
            keep_from: None,
            time_limit: Some(Duration::from_secs(10)),
            work_limit: None,
            units: Units::Metric,
        }
    }
}

/// Prices are whole numbers of this part.
pub(super) const MILLION: f64 = 1e6;

//! Cutting plans. Sizes come in and go out in picometres.
use crate::guard::{guard, side, tenths_units};
use crate::handle::array;
use crate::object::write;
use crate::objects::tenths_cutting_plan;
use crate::option::watched_options;
use crate::options::tenths_cutting_options;
use crate::status::tenths_status;
use tenths::Size;
use tenths::stock::{CuttingBar, CuttingOptions, OrderedPiece, cutting_plan};

/// Pieces of one length that are wanted, in picometres: an inch is 25 400 000 000 of them.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_ordered_piece {
    /// The finished length of a piece.
    pub length: i64,
    /// How many.
    pub count: u64,
}

/// Bars of one length, in picometres.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_cutting_bar {
    /// The length of a bar.
    pub length: i64,
    /// How many there are, if `is_limited` is not 0.
    pub available: u64,
    /// 1 where there are only so many bars, 0 where more can be bought.
    pub is_limited: i32,
}

/// Plans how to cut pieces from bars, and proves that no plan is better: of least cost with `prices`, one for each kind
/// of bar; without, with the fewest bars of one length, or the least total length of several.
///
/// Pieces fit where their lengths, with one kerf between neighbours, fit in the bar less its trim. `prices` may be null,
/// and `options` may be null for the usual ones. A search that its limits end gives the best plan found, with `proven`
/// 0. `units` are those of the bound of a plan without prices.
///
/// # Safety
/// The arrays are valid for their counts, `prices` for `bar_count` numbers; `options` and `plan` have their sizes set.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_cutting_plan(
    units: tenths_units,
    pieces: *const tenths_ordered_piece,
    piece_count: usize,
    bars: *const tenths_cutting_bar,
    bar_count: usize,
    prices: *const f64,
    options: *const tenths_cutting_options,
    plan: *mut tenths_cutting_plan,
) -> tenths_status {
    guard(|| {
        let made = || {
            let units = side(units)?;
            // SAFETY: the caller's promises.
            let (pieces, bars, prices, (options, watch)) = unsafe {
                (
                    array(pieces, piece_count, "pieces")?,
                    array(bars, bar_count, "bars")?,
                    if prices.is_null() { None } else { Some(array(prices, bar_count, "prices")?) },
                    watched_options(options)?,
                )
            };
            let pieces: Vec<_> = pieces.iter().map(piece_of).collect();
            let bars: Vec<_> =
                bars.iter().enumerate().map(|(k, bar)| bar_of(bar, prices.map(|prices| prices[k]))).collect();
            Ok(cutting_plan(&pieces, &bars, &CuttingOptions { units, ..options }, &watch)?)
        };
        // SAFETY: the caller's promises.
        unsafe { write(plan, "plan", tenths::Units::Metric, made) }
    })
}

fn piece_of(piece: &tenths_ordered_piece) -> OrderedPiece {
    OrderedPiece { length: Size::from_picometres(piece.length), count: piece.count }
}

fn bar_of(bar: &tenths_cutting_bar, price: Option<f64>) -> CuttingBar {
    let available = (bar.is_limited != 0).then_some(bar.available);
    CuttingBar { length: Size::from_picometres(bar.length), available, price }
}

//! Cutting plans. Sizes come in and go out in picometres.
use crate::guard::{guard, place, side, tenths_units};
use crate::handle::array;
use crate::object::write;
use crate::objects::{tenths_cutting_plan, tenths_shared_cutting_plan};
use crate::option::watched_options;
use crate::options::tenths_cutting_options;
use crate::status::{Failure, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use tenths::stock::{
    CuttingBar, CuttingOptions, CuttingOrder, OrderedPiece, cutting_plan, shared_cutting_plan,
};
use tenths::{Size, Watch};

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
        // SAFETY: the caller's promises.
        unsafe {
            write(plan, "plan", tenths::Units::Metric, || {
                let Asked { pieces, bars, options, watch } =
                    asked(units, pieces, piece_count, bars, bar_count, prices, options)?;
                Ok(cutting_plan(&pieces, &bars, &options, &watch)?)
            })
        }
    })
}

/// Plans as `tenths_make_cutting_plan` does, and gives the picture of the layouts, SVG: a bar for each, with its pieces to
/// scale and how often it is cut.
///
/// `prices` may be null, and `options` may be null for the usual ones. The result is freed by `tenths_text_free`, and null on
/// an error.
///
/// # Safety
/// As `tenths_make_cutting_plan`; `picture` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cutting_plan_svg(
    units: tenths_units,
    pieces: *const tenths_ordered_piece,
    piece_count: usize,
    bars: *const tenths_cutting_bar,
    bar_count: usize,
    prices: *const f64,
    options: *const tenths_cutting_options,
    picture: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let picture = unsafe { place(picture, "the place for the picture") }?;
        *picture = std::ptr::null_mut();
        // SAFETY: the caller's promises.
        let Asked { pieces, bars, options, watch } =
            unsafe { asked(units, pieces, piece_count, bars, bar_count, prices, options) }?;
        *picture = give(cutting_plan(&pieces, &bars, &options, &watch)?.to_svg());
        Ok(())
    })
}

/// Plans the pieces of several orders, which share the bars, with each order's share of bars and cost.
///
/// `orders` has the number of the order of each of the pieces; the orders come in the order in which their numbers first
/// stand there. All else is as `tenths_make_cutting_plan` takes it: `prices` may be null, and `options` may be null for the usual
/// ones. What is lost to cuts, trim and leftovers is borne in proportion to what the pieces of an order take.
///
/// # Safety
/// As `tenths_make_cutting_plan`; `orders` is valid for `piece_count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_shared_cutting_plan(
    units: tenths_units,
    pieces: *const tenths_ordered_piece,
    orders: *const u64,
    piece_count: usize,
    bars: *const tenths_cutting_bar,
    bar_count: usize,
    prices: *const f64,
    options: *const tenths_cutting_options,
    plan: *mut tenths_shared_cutting_plan,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        unsafe {
            write(plan, "plan", tenths::Units::Metric, || {
                let numbers = array(orders, piece_count, "orders")?;
                let Asked { pieces, bars, options, watch } =
                    asked(units, pieces, piece_count, bars, bar_count, prices, options)?;
                Ok(shared_cutting_plan(&by_order(&pieces, numbers), &bars, &options, &watch)?)
            })
        }
    })
}

/// The pieces of each order, under its number.
fn by_order(pieces: &[OrderedPiece], numbers: &[u64]) -> Vec<CuttingOrder> {
    let mut orders: Vec<CuttingOrder> = vec![];
    let mut places = std::collections::HashMap::new();
    for (piece, number) in pieces.iter().zip(numbers) {
        let place = *places.entry(number).or_insert(orders.len());
        if place == orders.len() {
            orders.push(CuttingOrder { name: number.to_string(), pieces: vec![] });
        }
        orders[place].pieces.push(*piece);
    }
    orders
}

/// What a call asks for.
struct Asked {
    pieces: Vec<OrderedPiece>,
    bars: Vec<CuttingBar>,
    options: CuttingOptions,
    watch: Watch<'static>,
}

/// # Safety
/// As [`tenths_make_cutting_plan`].
unsafe fn asked(
    units: tenths_units,
    pieces: *const tenths_ordered_piece,
    piece_count: usize,
    bars: *const tenths_cutting_bar,
    bar_count: usize,
    prices: *const f64,
    options: *const tenths_cutting_options,
) -> Result<Asked, Failure> {
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
    let bar = |(k, bar)| bar_of(bar, prices.map(|prices| prices[k]));
    Ok(Asked {
        pieces: pieces.iter().map(piece_of).collect(),
        bars: bars.iter().enumerate().map(bar).collect(),
        options: CuttingOptions { units, ..options },
        watch,
    })
}

fn piece_of(piece: &tenths_ordered_piece) -> OrderedPiece {
    OrderedPiece { length: Size::from_picometres(piece.length), count: piece.count }
}

fn bar_of(bar: &tenths_cutting_bar, price: Option<f64>) -> CuttingBar {
    let available = (bar.is_limited != 0).then_some(bar.available);
    CuttingBar { length: Size::from_picometres(bar.length), available, price }
}

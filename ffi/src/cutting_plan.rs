//! Cutting plans. Sizes come in and go out in picometres.
use crate::option::Watched;
use tenths::stock::{
    CuttingBar, CuttingError, CuttingOptions, CuttingOrder, CuttingPlan, OrderedPiece, SharedCuttingPlan,
    cutting_plan, shared_cutting_plan,
};
use tenths::{Size, Units};
use tenths_macros::export;

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
#[export(plan, pieces = piece_count, bars = bar_count, prices = bar_count)]
pub(crate) fn make_cutting_plan(
    units: Units,
    pieces: &[tenths_ordered_piece],
    bars: &[tenths_cutting_bar],
    _bar_count: usize,
    prices: Option<&[f64]>,
    options: Watched<CuttingOptions>,
) -> Result<CuttingPlan, CuttingError> {
    let (pieces, bars) = (pieces_of(pieces), bars_of(bars, prices));
    cutting_plan(&pieces, &bars, &CuttingOptions { units, ..options.0 }, &options.1)
}

/// Plans as `tenths_make_cutting_plan` does, and gives the picture of the layouts, SVG: a bar for each, with its pieces to
/// scale and how often it is cut.
///
/// `prices` may be null, and `options` may be null for the usual ones. The result is freed by `tenths_text_free`, and null on
/// an error.
#[export(picture, pieces = piece_count, bars = bar_count, prices = bar_count)]
pub(crate) fn cutting_plan_svg(
    units: Units,
    pieces: &[tenths_ordered_piece],
    bars: &[tenths_cutting_bar],
    bar_count: usize,
    prices: Option<&[f64]>,
    options: Watched<CuttingOptions>,
) -> Result<String, CuttingError> {
    Ok(make_cutting_plan(units, pieces, bars, bar_count, prices, options)?.to_svg())
}

/// Plans the pieces of several orders, which share the bars, with each order's share of bars and cost.
///
/// `orders` has the number of the order of each of the pieces; the orders come in the order in which their numbers first
/// stand there. All else is as `tenths_make_cutting_plan` takes it: `prices` may be null, and `options` may be null for the usual
/// ones. What is lost to cuts, trim and leftovers is borne in proportion to what the pieces of an order take.
#[export(plan, pieces = piece_count, orders = piece_count, bars = bar_count, prices = bar_count)]
pub(crate) fn make_shared_cutting_plan(
    units: Units,
    pieces: &[tenths_ordered_piece],
    orders: &[u64],
    bars: &[tenths_cutting_bar],
    _bar_count: usize,
    prices: Option<&[f64]>,
    options: Watched<CuttingOptions>,
) -> Result<SharedCuttingPlan, CuttingError> {
    let (orders, bars) = (by_order(&pieces_of(pieces), orders), bars_of(bars, prices));
    shared_cutting_plan(&orders, &bars, &CuttingOptions { units, ..options.0 }, &options.1)
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

fn pieces_of(pieces: &[tenths_ordered_piece]) -> Vec<OrderedPiece> {
    let piece = |piece: &tenths_ordered_piece| OrderedPiece {
        length: Size::from_picometres(piece.length),
        count: piece.count,
    };
    pieces.iter().map(piece).collect()
}

fn bars_of(bars: &[tenths_cutting_bar], prices: Option<&[f64]>) -> Vec<CuttingBar> {
    let bar = |(k, bar): (usize, &tenths_cutting_bar)| CuttingBar {
        length: Size::from_picometres(bar.length),
        available: (bar.is_limited != 0).then_some(bar.available),
        price: prices.map(|prices| prices[k]),
    };
    bars.iter().enumerate().map(bar).collect()
}

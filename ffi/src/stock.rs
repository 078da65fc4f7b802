//! Stock: mass of bars, bars to buy, sizes of bar, orders on a machine, ways to get a size, hardness.
use crate::handle::at;
use crate::status::Failure;
use tenths::material::{HardnessComparison, HardnessError, HardnessScale};
use tenths::quantity::{Density, Length, Time};
use tenths::stock::{
    self, BarCut, BarForm, BarOrder, BarSize, MachineLoad, MachineOrder, MakeOrBuy, StockError, Supply,
};
use tenths::{Limits, Quantity, Size, Units};
use tenths_macros::export;

/// Mass of a bar: `tenths_bar_mass(TENTHS_METRIC, "tube", 30, 3, 6000, 7.85, &mass)`, in kg or lb.
///
/// A `round` goes by its diameter, a `hexagon` and a `square` across flats, a `tube` by its outside diameter with its wall as the
/// second dimension, a `flat` by its width with its thickness, and a `plate` by its thickness with its width. `second` is 0 for
/// forms that have none. Each form is a formula too, such as `tenths_tube_mass`, which takes arrays as well. `mass` is NaN on
/// an error.
#[export(mass)]
pub(crate) fn bar_mass(
    units: Units,
    form: &str,
    size: f64,
    second: f64,
    length: f64,
    density: f64,
) -> Result<f64, Failure> {
    let [size, length] = [size, length].map(|length| Length::new_in(length, units));
    let mass = stock::bar_mass(form_of(form, second, units)?, size, length, Density::new_in(density, units))?;
    Ok(mass.in_units(units))
}

/// Mass of a metre or a foot of bar: `tenths_bar_mass_per_length(TENTHS_INCH, "round", 1, 0, 0.2833, &mass)`, in kg/m or lb/ft.
///
/// Form, size and second dimension are as `tenths_bar_mass` takes them. `mass` is NaN on an error.
#[export(mass)]
pub(crate) fn bar_mass_per_length(
    units: Units,
    form: &str,
    size: f64,
    second: f64,
    density: f64,
) -> Result<f64, Failure> {
    let (form, size) = (form_of(form, second, units)?, Length::new_in(size, units));
    Ok(stock::bar_mass_per_length(form, size, Density::new_in(density, units))?.in_units(units))
}

/// The form of a bar; 0 stands for no second dimension.
fn form_of(form: &str, second: f64, units: Units) -> Result<BarForm, StockError> {
    BarForm::of_name(form, (second != 0.0).then(|| Length::new_in(second, units)))
}

/// How bars are cut into equal parts, in picometres: an inch is 25 400 000 000 of them.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_bar_cut {
    /// The length of a bar.
    pub bar_length: i64,
    /// The finished length of a part: the one that is given, so give the upper limit where parts may come out long.
    pub part_length: i64,
    /// The width of a cut.
    pub kerf: i64,
    /// What facing takes off each part, both ends together.
    pub facing_allowance: i64,
    /// What is trimmed off each bar before the first part.
    pub end_trim: i64,
    /// The end of each bar that is held and cannot be used.
    pub remnant: i64,
}

/// The bars to buy for a quantity of good parts, of which the share `yield_share` comes out good.
///
/// Parts are counted as `tenths_parts_per_bar` counts them: the last needs no cut unless a remnant stays.
#[export(order)]
pub(crate) fn bars_to_buy(
    quantity: u64,
    cut: tenths_bar_cut,
    yield_share: f64,
) -> Result<BarOrder, StockError> {
    let cut = BarCut {
        bar_length: Size::from_picometres(cut.bar_length),
        part_length: Size::from_picometres(cut.part_length),
        kerf: Size::from_picometres(cut.kerf),
        facing_allowance: Size::from_picometres(cut.facing_allowance),
        end_trim: Size::from_picometres(cut.end_trim),
        remnant: Size::from_picometres(cut.remnant),
    };
    stock::bars_to_buy(quantity, &cut, yield_share)
}

/// One size of a list of round bar, the smallest at index 0: `tenths_bar_size_at("inch hot rolled", 0, &size)`.
///
/// The lists are `metric hot rolled`, `metric bright`, `metric as stocked`, `metric preferred`, `metric preferred, second choice`,
/// `inch as stocked`, `inch cold finished`, `inch hot rolled` and `inch drill rod`. Past the last size the status is
/// `TENTHS_BAD_INDEX`.
#[export(size)]
pub(crate) fn bar_size_at(list: &str, index: usize) -> Result<BarSize, Failure> {
    at(stock::bar_sizes(list)?, index, "the list", "sizes")
}

/// The smallest size of a list that is at least so many picometres at its lower limit:
/// `tenths_next_bar_size(157480000000, "inch hot rolled", &size)` for 6.2 in. The lists are those of `tenths_bar_size_at`.
#[export(size)]
pub(crate) fn next_bar_size(least: i64, list: &str) -> Result<BarSize, StockError> {
    stock::next_bar_size(Size::from_picometres(least), &stock::bar_sizes(list)?)
}

/// The smallest of the shop's own sizes that is at least so many picometres. `sizes` are the least that the bars may be.
#[export(size)]
pub(crate) fn next_own_bar_size(least: i64, sizes: &[i64]) -> Result<BarSize, StockError> {
    let own: Vec<_> = sizes.iter().map(|&size| BarSize::own(Size::from_picometres(size))).collect();
    stock::next_bar_size(Size::from_picometres(least), &own)
}

/// The time that orders take on one machine, the first due first, against their due dates.
///
/// Times are minutes of running time from now. Orders are named by their numbers, from 1 on in the order of the arrays; those
/// that are due together keep that order. `busy` is how long the machine is busy before.
#[export(load)]
pub(crate) fn load_machine(
    quantities: &[u64],
    setups: &[f64],
    cycles: &[f64],
    dues: &[f64],
    busy: f64,
) -> Result<MachineLoad, StockError> {
    let order = |at: usize| MachineOrder {
        name: (at + 1).to_string(),
        quantity: quantities[at],
        setup: Time::minutes(setups[at]),
        cycle: Time::minutes(cycles[at]),
        due: Time::minutes(dues[at]),
    };
    let orders: Vec<MachineOrder> = (0..quantities.len()).map(order).collect();
    stock::machine_load(&orders, Time::minutes(busy))
}

/// The limits that a way to get a size keeps, in picometres.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_kept_limits {
    /// The lower limit.
    pub lower: i64,
    /// The upper limit.
    pub upper: i64,
    /// 1 where it keeps these limits, 0 where it is made to the drawing.
    pub is_limited: i32,
}

/// Ways to get a size of a drawing, side by side: which meet it, what a quantity costs, and where they break even.
///
/// Each way has limits, a fixed cost and a cost of each piece, and is named by its number, from 1 on. Stock meets a size where
/// all that its limits allow is good.
#[export(judged)]
pub(crate) fn judge_make_or_buy(
    drawing: Limits,
    limits: &[tenths_kept_limits],
    fixed: &[f64],
    each: &[f64],
    quantity: u64,
) -> Result<MakeOrBuy, Failure> {
    let way = |at: usize| {
        let tenths_kept_limits { lower, upper, is_limited } = limits[at];
        let [lower, upper] = [lower, upper].map(Size::from_picometres);
        let kept = (is_limited != 0).then(|| Limits::between(lower, upper)).transpose()?;
        Ok(Supply { name: (at + 1).to_string(), limits: kept, fixed: fixed[at], each: each[at] })
    };
    let ways = (0..limits.len()).map(way).collect::<Result<Vec<_>, Failure>>()?;
    Ok(stock::make_or_buy(drawing, &ways, quantity)?)
}

/// What a hardness compares with on other scales: `tenths_compare_hardness(TENTHS_METRIC, 45, "HRC", &compared)`.
///
/// A comparison by ISO 18265 Table A.1, no conversion, for unalloyed and low-alloy steels and cast steel, hot rolled or heat
/// treated. Scatter of ±25 HV or ±85 MPa is usual, and other metals differ: where a drawing states a hardness, measure in its
/// own scale; where it states a strength, pull a test piece. Scales are `HRC`, `HRB`, `HB` and `HV`; `units` are those of
/// the tensile strength.
#[export(compared)]
pub(crate) fn compare_hardness(
    _units: Units,
    hardness: f64,
    scale: &str,
) -> Result<HardnessComparison, HardnessError> {
    HardnessComparison::new(HardnessScale::parse(scale)?, hardness)
}

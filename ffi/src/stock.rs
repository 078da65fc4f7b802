//! Stock: mass of bars, bars to buy, sizes of bar, orders on a machine, ways to get a size, hardness.
use crate::guard::{guard, place, side, tenths_units, text};
use crate::handle::array;
use crate::object::write;
use crate::objects::{
    tenths_bar_order, tenths_bar_size, tenths_hardness_comparison, tenths_machine_load, tenths_make_or_buy,
};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::material::{HardnessComparison, HardnessScale};
use tenths::quantity::{Density, Length, Time};
use tenths::stock::{self, BarCut, BarForm, BarSize, MachineOrder, Supply};
use tenths::{Limits, Quantity, Size, Units};

/// Mass of a bar: `tenths_bar_mass(TENTHS_METRIC, "tube", 30, 3, 6000, 7.85, &mass)`, in kg or lb.
///
/// A `round` goes by its diameter, a `hexagon` and a `square` across flats, a `tube` by its outside diameter with its wall as the
/// second dimension, a `flat` by its width with its thickness, and a `plate` by its thickness with its width. `second` is 0 for
/// forms that have none. Each form is a formula too, such as `tenths_tube_mass`, which takes arrays as well. `mass` is NaN on
/// an error.
///
/// # Safety
/// `form` ends with a NUL; `mass` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_bar_mass(
    units: tenths_units,
    form: *const c_char,
    size: f64,
    second: f64,
    length: f64,
    density: f64,
    mass: *mut f64,
) -> tenths_status {
    // SAFETY: the caller's promises.
    guard(|| unsafe {
        answer(mass, "mass", || {
            let (units, form) = form_of(units, form, second)?;
            let [size, length] = [size, length].map(|length| Length::new_in(length, units));
            let mass = stock::bar_mass(form, size, length, Density::new_in(density, units))?;
            Ok(mass.in_units(units))
        })
    })
}

/// Mass of a metre or a foot of bar: `tenths_bar_mass_per_length(TENTHS_INCH, "round", 1, 0, 0.2833, &mass)`, in kg/m or lb/ft.
///
/// Form, size and second dimension are as `tenths_bar_mass` takes them. `mass` is NaN on an error.
///
/// # Safety
/// `form` ends with a NUL; `mass` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_bar_mass_per_length(
    units: tenths_units,
    form: *const c_char,
    size: f64,
    second: f64,
    density: f64,
    mass: *mut f64,
) -> tenths_status {
    // SAFETY: the caller's promises.
    guard(|| unsafe {
        answer(mass, "mass", || {
            let (units, form) = form_of(units, form, second)?;
            let density = Density::new_in(density, units);
            let mass = stock::bar_mass_per_length(form, Length::new_in(size, units), density)?;
            Ok(mass.in_units(units))
        })
    })
}

/// The side and the form of a call.
///
/// # Safety
/// `form` is null or ends with a NUL.
unsafe fn form_of(
    units: tenths_units,
    form: *const c_char,
    second: f64,
) -> Result<(Units, BarForm), Failure> {
    let units = side(units)?;
    let second = (second != 0.0).then(|| Length::new_in(second, units));
    // SAFETY: the caller's promise.
    Ok((units, BarForm::of_name(unsafe { text(form, "form") }?, second)?))
}

/// Writes a number; NaN on an error.
///
/// # Safety
/// `out` is null or writable.
unsafe fn answer(
    out: *mut f64,
    name: &'static str,
    made: impl FnOnce() -> Result<f64, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let out = unsafe { place(out, name) }?;
    *out = f64::NAN;
    *out = made()?;
    Ok(())
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
///
/// # Safety
/// `cut` is null or valid; `order->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_bars_to_buy(
    quantity: u64,
    cut: *const tenths_bar_cut,
    yield_share: f64,
    order: *mut tenths_bar_order,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let cut = unsafe { cut.as_ref() }.ok_or(Failure::Null("cut"))?;
            let cut = BarCut {
                bar_length: Size::from_picometres(cut.bar_length),
                part_length: Size::from_picometres(cut.part_length),
                kerf: Size::from_picometres(cut.kerf),
                facing_allowance: Size::from_picometres(cut.facing_allowance),
                end_trim: Size::from_picometres(cut.end_trim),
                remnant: Size::from_picometres(cut.remnant),
            };
            Ok(stock::bars_to_buy(quantity, &cut, yield_share)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(order, "order", Units::Metric, made) }
    })
}

/// One size of a list of round bar, the smallest at index 0: `tenths_bar_size_at("inch hot rolled", 0, &size)`.
///
/// The lists are `metric hot rolled`, `metric bright`, `metric as stocked`, `metric preferred`, `metric preferred, second choice`,
/// `inch as stocked`, `inch cold finished`, `inch hot rolled` and `inch drill rod`. Past the last size the status is
/// `TENTHS_BAD_INDEX`.
///
/// # Safety
/// `list` ends with a NUL; `size->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_bar_size_at(
    list: *const c_char,
    index: usize,
    size: *mut tenths_bar_size,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let sizes = stock::bar_sizes(unsafe { text(list, "list") }?)?;
            let (what, count) = ("sizes", sizes.len());
            sizes.into_iter().nth(index).ok_or(Failure::Index { formula: "the list", what, count, index })
        };
        // SAFETY: the caller's promise.
        unsafe { write(size, "size", Units::Metric, made) }
    })
}

/// The smallest size of a list that is at least so many picometres at its lower limit:
/// `tenths_next_bar_size(157480000000, "inch hot rolled", &size)` for 6.2 in. The lists are those of `tenths_bar_size_at`.
///
/// # Safety
/// `list` ends with a NUL; `size->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_next_bar_size(
    least: i64,
    list: *const c_char,
    size: *mut tenths_bar_size,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let sizes = stock::bar_sizes(unsafe { text(list, "list") }?)?;
            Ok(stock::next_bar_size(Size::from_picometres(least), &sizes)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(size, "size", Units::Metric, made) }
    })
}

/// The smallest of the shop's own sizes that is at least so many picometres. `sizes` are the least that the bars may be.
///
/// # Safety
/// `sizes` is valid for `count` numbers; `size->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_next_own_bar_size(
    least: i64,
    sizes: *const i64,
    count: usize,
    size: *mut tenths_bar_size,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let sizes = unsafe { array(sizes, count, "sizes") }?;
            let own: Vec<_> = sizes.iter().map(|&size| BarSize::own(Size::from_picometres(size))).collect();
            Ok(stock::next_bar_size(Size::from_picometres(least), &own)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(size, "size", Units::Metric, made) }
    })
}

/// The time that orders take on one machine, the first due first, against their due dates.
///
/// Times are minutes of running time from now. Orders are named by their numbers, from 1 on in the order of the arrays; those
/// that are due together keep that order. `busy` is how long the machine is busy before.
///
/// # Safety
/// `quantities`, `setups`, `cycles` and `dues` are valid for `count` numbers; `load->struct_size` is set to the size of the
/// struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_load_machine(
    quantities: *const u64,
    setups: *const f64,
    cycles: *const f64,
    dues: *const f64,
    count: usize,
    busy: f64,
    load: *mut tenths_machine_load,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (quantities, setups, cycles, dues) = unsafe {
                (
                    array(quantities, count, "quantities")?,
                    array(setups, count, "setups")?,
                    array(cycles, count, "cycles")?,
                    array(dues, count, "dues")?,
                )
            };
            let order = |at: usize| MachineOrder {
                name: (at + 1).to_string(),
                quantity: quantities[at],
                setup: Time::minutes(setups[at]),
                cycle: Time::minutes(cycles[at]),
                due: Time::minutes(dues[at]),
            };
            let orders: Vec<MachineOrder> = (0..count).map(order).collect();
            Ok(stock::machine_load(&orders, Time::minutes(busy))?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(load, "load", Units::Metric, made) }
    })
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
///
/// # Safety
/// `drawing` ends with a NUL; `limits`, `fixed` and `each` are valid for `count` elements; `judged->struct_size` is set to the
/// size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_judge_make_or_buy(
    drawing: *const c_char,
    limits: *const tenths_kept_limits,
    fixed: *const f64,
    each: *const f64,
    count: usize,
    quantity: u64,
    judged: *mut tenths_make_or_buy,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (drawing, limits, fixed, each) = unsafe {
                (
                    Limits::parse(text(drawing, "drawing")?)?,
                    array(limits, count, "limits")?,
                    array(fixed, count, "fixed")?,
                    array(each, count, "each")?,
                )
            };
            let way = |at: usize| {
                let tenths_kept_limits { lower, upper, is_limited } = limits[at];
                let [lower, upper] = [lower, upper].map(Size::from_picometres);
                let kept = (is_limited != 0).then(|| Limits::between(lower, upper)).transpose()?;
                Ok(Supply { name: (at + 1).to_string(), limits: kept, fixed: fixed[at], each: each[at] })
            };
            let ways = (0..count).map(way).collect::<Result<Vec<_>, Failure>>()?;
            Ok(stock::make_or_buy(drawing, &ways, quantity)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(judged, "judged", Units::Metric, made) }
    })
}

/// What a hardness compares with on other scales: `tenths_compare_hardness(TENTHS_METRIC, 45, "HRC", &compared)`.
///
/// A comparison by ISO 18265 Table A.1, no conversion, for unalloyed and low-alloy steels and cast steel, hot rolled or heat
/// treated. Scatter of ±25 HV or ±85 MPa is usual, and other metals differ: where a drawing states a hardness, measure in its
/// own scale; where it states a strength, pull a test piece. Scales are `HRC`, `HRB`, `HB` and `HV`; `units` are those of
/// the tensile strength.
///
/// # Safety
/// `scale` ends with a NUL; `compared->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_compare_hardness(
    units: tenths_units,
    hardness: f64,
    scale: *const c_char,
    compared: *mut tenths_hardness_comparison,
) -> tenths_status {
    guard(|| {
        let made = || {
            side(units)?;
            // SAFETY: the caller's promise.
            let scale = HardnessScale::parse(unsafe { text(scale, "scale") }?)?;
            Ok(HardnessComparison::new(scale, hardness)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(compared, "compared", side(units).unwrap_or(Units::Metric), made) }
    })
}

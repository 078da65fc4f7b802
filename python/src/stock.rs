//! Stock: bars to buy, sizes of bar, orders that share bars or a machine, ways to get a size, hardness.
use crate::cutting_plan::{money_of, refuse_text};
use crate::error::value_error;
use crate::given::whole;
use crate::number::Wanted;
use crate::object::{object, object_in, rows};
use crate::size::{PyLimits, length_of, limits_of, units_of};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyString, PyTuple};
use tenths::material::{HardnessComparison, HardnessScale};
use tenths::quantity::Time;
use tenths::stock::{self, BarCut, BarSize, MachineOrder, Supply};
use tenths::{Limits, Quantity, Size, Units};

/// The name of the formula for the mass of a form of bar, where those dimensions are given beside its size.
#[pyfunction]
pub fn _bar_mass_formula(form: &str, given: Vec<String>) -> PyResult<&'static str> {
    let known = ["wall", "thickness", "width"].into_iter();
    let given: Vec<_> = known.filter(|name| given.iter().any(|given| given == name)).collect();
    stock::form::mass_formula(form, &given).map(|formula| formula.name).map_err(value_error)
}

/// The bars to buy for a quantity of good parts, what is used of them, and what is left.
///
/// `bar` and `part` are lengths: text, a Size, or with `units` ('mm' or 'in') a number. Parts are counted as `parts_per_bar`
/// counts them: the last needs no cut unless a `remnant` stays in the vice. The length of the part is the one that is given:
/// give its upper limit where parts may come out long. `yield_share` is the share of parts that come out good.
///
///     >>> order = tenths.bars_to_buy(190, "3 m", "45 mm", "3 mm", yield_share=0.95)
///     >>> order.starts, order.parts_per_bar, order.bars
///     (200, 62, 4)
#[pyfunction]
#[pyo3(signature = (
    quantity, bar, part, kerf=None, end_trim=None, *, remnant=None, facing_allowance=None, yield_share=1.0, units=None
))]
#[pyo3(text_signature = "(quantity, bar, part, kerf=0, end_trim=0, *, remnant=0, facing_allowance=0, \
                         yield_share=1.0, units=None)")]
#[expect(clippy::too_many_arguments, reason = "they go by name")]
pub fn bars_to_buy<'py>(
    py: Python<'py>,
    quantity: &Bound<'py, PyAny>,
    bar: &Bound<'py, PyAny>,
    part: &Bound<'py, PyAny>,
    kerf: Option<&Bound<'py, PyAny>>,
    end_trim: Option<&Bound<'py, PyAny>>,
    remnant: Option<&Bound<'py, PyAny>>,
    facing_allowance: Option<&Bound<'py, PyAny>>,
    yield_share: f64,
    units: Option<&str>,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units.map(units_of).transpose()?;
    let length = |given| length_of("bars_to_buy", "length", given, units);
    let optional = |given: Option<_>| given.map_or(Ok(Size::ZERO), length);
    let cut = BarCut {
        bar_length: length(bar)?,
        part_length: length(part)?,
        kerf: optional(kerf)?,
        facing_allowance: optional(facing_allowance)?,
        end_trim: optional(end_trim)?,
        remnant: optional(remnant)?,
    };
    let order = stock::bars_to_buy(whole("quantity", quantity)?, &cut, yield_share);
    object(py, &order.map_err(value_error)?)
}

/// The sizes of a list of round bar, the smallest first, each with its source and whether it was seen in print.
///
/// The lists are 'metric hot rolled', 'metric bright', 'metric as stocked', 'metric preferred', 'metric preferred, second
/// choice', 'inch as stocked', 'inch cold finished', 'inch hot rolled' and 'inch drill rod'. Most are recalled: ask the supplier.
#[pyfunction]
pub fn bar_sizes<'py>(py: Python<'py>, list: &str) -> PyResult<Bound<'py, PyAny>> {
    rows(py, &stock::bar_sizes(list).map_err(value_error)?)
}

/// The smallest size of bar that is large enough: `least` at its lower limit where that is known, else in its size.
///
/// `least` is what has to clean up, as `cleanup_diameter` gives it: text, a Size, or with `units` a number. `sizes` is the
/// name of a list, as `bar_sizes` takes it, or the shop's own: a list of sizes, or of limits such as '20 h9'.
///
///     >>> tenths.next_bar_size("6.2 in", "inch hot rolled").size
///     Size('6.25 in')
///     >>> tenths.next_bar_size("19.94 mm", ["20 h9", "22 h9"]).size
///     Size('20 mm')
#[pyfunction]
#[pyo3(signature = (least, sizes, *, units=None))]
pub fn next_bar_size<'py>(
    least: &Bound<'py, PyAny>,
    sizes: &Bound<'py, PyAny>,
    units: Option<&str>,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units.map(units_of).transpose()?;
    let sizes = match sizes.cast::<PyString>() {
        Ok(list) => stock::bar_sizes(&list.to_string()).map_err(value_error)?,
        Err(_) => sizes.try_iter()?.map(|size| own_size(&size?, units)).collect::<PyResult<_>>()?,
    };
    let found = stock::next_bar_size(length_of("next_bar_size", "least", least, units)?, &sizes);
    object(least.py(), &found.map_err(value_error)?)
}

/// A size of the shop's own list, or limits of one.
fn own_size(given: &Bound<'_, PyAny>, units: Option<Units>) -> PyResult<BarSize> {
    let text = given.cast::<PyString>().map(|text| text.to_string());
    let limits = match (given.cast::<PyLimits>(), text) {
        (Ok(limits), _) => Some(limits.get().0),
        // Text that is not a size may be limits; if it is neither, the error is that of the size.
        (_, Ok(text)) if Size::parse(&text).is_err() => Limits::parse(&text).ok(),
        _ => None,
    };
    match limits {
        Some(limits) => Ok(BarSize::own_limits(limits)),
        None => length_of("next_bar_size", "sizes", given, units).map(BarSize::own),
    }
}

/// The time that orders take on one machine, the first due first, against their due dates.
///
/// An order is `(name, quantity, set-up time, time for a piece, due)`; times are minutes of running time from now, or text
/// such as '6 h'. Orders that are due together keep the order in which they are given. No other sequence makes the latest
/// order less late; another may make fewer of them late. `busy` is how long the machine is busy before.
///
///     >>> load = tenths.machine_load([("A", 10, 30, 6, "2 h"), ("B", 5, "20 min", 4, 60)])
///     >>> [(row.order, row.ends, row.late) for row in load.rows]
///     [('B', 40.0, 0.0), ('A', 130.0, 10.0)]
#[pyfunction]
#[pyo3(signature = (orders, busy=None))]
#[pyo3(text_signature = "(orders, busy=0)")]
pub fn machine_load<'py>(
    orders: &Bound<'py, PyAny>,
    busy: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let time = |name, given: &Bound<'py, PyAny>| {
        let wanted = Wanted::new("machine_load", name, Time::KIND, Units::Metric);
        wanted.one(given).map(Time::minutes)
    };
    let order = |given: Bound<'py, PyAny>| {
        let parts = given.cast::<PyTuple>().ok().filter(|parts| parts.len() == 5);
        let Some(parts) = parts else {
            return Err(PyTypeError::new_err(format!(
                "an order must be (name, quantity, set-up time, time for a piece, due), not {}",
                given.repr()?
            )));
        };
        Ok(MachineOrder {
            name: parts.get_item(0)?.extract()?,
            quantity: whole("quantity", &parts.get_item(1)?)?,
            setup: time("set-up time", &parts.get_item(2)?)?,
            cycle: time("time for a piece", &parts.get_item(3)?)?,
            due: time("due", &parts.get_item(4)?)?,
        })
    };
    refuse_text(orders, "orders")?;
    let busy = busy.map_or(Ok(Time::minutes(0.0)), |busy| time("busy", busy))?;
    let made = orders.try_iter()?.map(|given| order(given?)).collect::<PyResult<Vec<_>>>()?;
    object(orders.py(), &stock::machine_load(&made, busy).map_err(value_error)?)
}

/// Ways to get a size of a drawing, side by side: which meet it, what a quantity costs, and where they break even.
///
/// A way is `(name, limits, fixed cost, cost of each piece)`. The limits are those that it keeps, such as '20 h9' of bright
/// bar as bought; None where it is made to the drawing. Stock meets a size where all that its limits allow is good.
///
///     >>> ways = [("bright bar", "20 h11", 0, 1.1), ("turned", None, 62, 9.35), ("ground", None, 415, 6.9)]
///     >>> judged = tenths.make_or_buy("20 h9", ways, 100)
///     >>> judged.best, judged.rows[0].meets, judged.break_evens[0].cheaper_from
///     ('turned', False, 145)
#[pyfunction]
pub fn make_or_buy<'py>(
    drawing: &Bound<'py, PyAny>,
    ways: &Bound<'py, PyAny>,
    quantity: &Bound<'py, PyAny>,
) -> PyResult<Bound<'py, PyAny>> {
    let way = |given: Bound<'py, PyAny>| {
        let parts = given.cast::<PyTuple>().ok().filter(|parts| parts.len() == 4);
        let Some(parts) = parts else {
            return Err(PyTypeError::new_err(format!(
                "a way must be (name, limits or None, fixed cost, cost of each piece), not {}",
                given.repr()?
            )));
        };
        let limits = parts.get_item(1)?;
        Ok(Supply {
            name: parts.get_item(0)?.extract()?,
            limits: if limits.is_none() { None } else { Some(limits_of(&limits)?) },
            fixed: money_of(&parts.get_item(2)?)?,
            each: money_of(&parts.get_item(3)?)?,
        })
    };
    refuse_text(ways, "ways")?;
    let ways = ways.try_iter()?.map(|given| way(given?)).collect::<PyResult<Vec<_>>>()?;
    let made = stock::make_or_buy(limits_of(drawing)?, &ways, whole("quantity", quantity)?);
    object(drawing.py(), &made.map_err(value_error)?)
}

/// What a hardness compares with on other scales, its tensile strength in the units of a side.
#[pyfunction]
pub fn _compare_hardness<'py>(
    py: Python<'py>,
    units: &str,
    value: f64,
    scale: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let scale = HardnessScale::parse(scale).map_err(value_error)?;
    object_in(py, &HardnessComparison::new(scale, value).map_err(value_error)?, units_of(units)?)
}

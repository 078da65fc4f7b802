//! Money and lots: rounding, splitting, pieces to start, prices by quantity.
use crate::error::value_error;
use crate::given::{Decimals, Good, Quantity};
use crate::object::{decimal, object, rows};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyFloat, PyString, PyTuple};
use tenths::cost::{self, DiscountScheme, PriceTier, StartRule};
use tenths::money::{Amount, Rounding, split_amount};
use tenths::object::Choice;

/// An amount rounded once to a number of decimals, as a Decimal.
///
/// `amount` is text, a Decimal or a whole number. A float is refused: it seldom is the amount that was meant. `rounding` is
/// 'half_even', a tie to the even last digit, or 'half_up', a tie away from zero.
///
///     >>> tenths.round_money("32.065"), tenths.round_money("32.065", rounding="half_up")
///     (Decimal('32.06'), Decimal('32.07'))
#[pyfunction]
#[pyo3(signature = (amount, decimals = Decimals(2), rounding = "half_even"))]
#[pyo3(text_signature = "(amount, decimals=2, rounding='half_even')")]
pub fn round_money<'py>(
    amount: &Bound<'py, PyAny>,
    decimals: Decimals,
    rounding: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let rounding = choice::<Rounding>("rounding", rounding)?;
    decimal(
        amount.py(),
        Amount::round(&written(amount)?, u8::try_from(decimals.0).unwrap_or(u8::MAX), rounding)
            .map_err(value_error)?,
    )
}

/// An amount split by weights into Decimals that add up to it.
///
/// Each part is its share to the last unit below, and one unit more for the largest remainders, the earlier first. The parts
/// have the decimals of the amount.
///
///     >>> tenths.split_money("100.00", [1, 1, 1])
///     (Decimal('33.34'), Decimal('33.33'), Decimal('33.33'))
#[pyfunction]
pub fn split_money<'py>(amount: &Bound<'py, PyAny>, weights: Vec<f64>) -> PyResult<Bound<'py, PyTuple>> {
    let py = amount.py();
    let amount = Amount::parse(&written(amount)?).map_err(value_error)?;
    let parts = split_amount(amount, &weights).map_err(value_error)?;
    PyTuple::new(py, parts.into_iter().map(|part| decimal(py, part)).collect::<PyResult<Vec<_>>>()?)
}

/// An amount as text: text, a decimal or a whole number.
fn written(amount: &Bound<'_, PyAny>) -> PyResult<String> {
    if amount.is_instance_of::<PyFloat>() {
        return Err(PyTypeError::new_err(format!(
            "an amount of money must be text, a Decimal or a whole number, not the float {}. Fix: write it in quotes",
            amount.repr()?
        )));
    }
    match amount.cast::<PyString>() {
        Ok(text) => text.extract(),
        Err(_) => amount
            .call_method1("__format__", (if amount.hasattr("as_tuple")? { "f" } else { "d" },))?
            .extract(),
    }
}

/// Pieces to start at each operation for `good` pieces, where operations scrap these shares.
///
/// Backwards from the good pieces each operation starts those of the next over its own yield, rounded up at each operation,
/// or with `rule="rolled"` once, from the rolled yield.
///
///     >>> tenths.start_quantities(100, [0.03, 0.05, 0.02, 0.08]).starts
///     (122, 118, 112, 109)
#[pyfunction]
#[pyo3(signature = (good, scrap, *, rule = "each_operation"))]
pub fn start_quantities<'py>(
    py: Python<'py>,
    good: Good,
    scrap: Vec<f64>,
    rule: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let chain = cost::start_quantities(good.0, &scrap, choice::<StartRule>("rule", rule)?);
    object(py, &chain.map_err(value_error)?)
}

/// What to order where pieces cost less from some quantities on.
///
/// `tiers` are pairs of the least quantity and the price, the first from 1. `holding_share` is what a year of stock costs as
/// a share of its price. With `scheme="all_units"` a price holds for all pieces of an order, and whole quantities count; with
/// "incremental" for those from its quantity on.
///
///     >>> tenths.discounted_order(1000, 200, 0.25, [(1, 100), (101, 90), (301, 85)]).quantity
///     301.0
#[pyfunction]
#[pyo3(signature = (annual_demand, order_cost, holding_share, tiers, *, scheme = "all_units"))]
pub fn discounted_order<'py>(
    py: Python<'py>,
    annual_demand: f64,
    order_cost: f64,
    holding_share: f64,
    tiers: Vec<(Quantity, f64)>,
    scheme: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let scheme = choice::<DiscountScheme>("scheme", scheme)?;
    let order = cost::discounted_order(annual_demand, order_cost, holding_share, &read(tiers), scheme);
    object(py, &order.map_err(value_error)?)
}

/// The tiers of a price list, and from which quantity on in each the start of a later one costs less in total.
///
/// `tiers` are pairs of the least quantity and the price, the first from 1.
///
///     >>> [(row.dearer_from, row.order_instead) for row in tenths.quantity_breaks([(1, 14.2), (10, 11.75), (50, 9.9)])]
///     [(9, 10), (43, 50), (None, None)]
#[pyfunction]
pub fn quantity_breaks(py: Python<'_>, tiers: Vec<(Quantity, f64)>) -> PyResult<Bound<'_, PyAny>> {
    rows(py, &cost::quantity_breaks(&read(tiers)).map_err(value_error)?)
}

fn read(tiers: Vec<(Quantity, f64)>) -> Vec<PriceTier> {
    tiers.into_iter().map(|(Quantity(from_quantity), price)| PriceTier { from_quantity, price }).collect()
}

fn choice<C: Choice>(what: &str, name: &str) -> PyResult<C> {
    C::of_name(name).ok_or_else(|| {
        let names: Vec<_> = C::NAMES.iter().map(|name| format!("'{name}'")).collect();
        value_error(format!("{what} must be {}, not '{name}'", names.join(" or ")))
    })
}

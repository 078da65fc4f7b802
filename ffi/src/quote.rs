//! Quotes of a plan.
use crate::guard::{document, guard, optional_text, place};
use crate::handle::array;
use crate::object::write;
use crate::objects::{tenths_economic_lot, tenths_price_drivers, tenths_price_list, tenths_route_comparison};
use crate::status::{Failure, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use tenths::plan::quote::PriceList;
use tenths::plan::{Rates, SheetError};
use tenths::{Plan, Units};

/// Quotes a plan for `count` quantities, line by line, from its own rates or from others.
///
/// `plan` is UTF-8 of `length` bytes and needs no NUL. `rates` may be null: the plan then has rates of its own. Otherwise
/// it is a JSON object of `rates_length` bytes with the fields of Rates on the page of the plan document, in the units of
/// the plan. Amounts come as text and in the smallest unit of the currency. On an error the message names what is missing,
/// each fault with its place.
///
/// # Safety
/// `plan` is null or readable for `length` bytes, `rates` null or readable for `rates_length` bytes, `quantities` valid for
/// `count` numbers; `list->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_quote(
    plan: *const c_char,
    length: usize,
    rates: *const c_char,
    rates_length: usize,
    quantities: *const u64,
    count: usize,
    list: *mut tenths_price_list,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let made = || unsafe { price_list(plan, length, rates, rates_length, quantities, count) };
        // SAFETY: the caller's promise.
        unsafe { write(list, "list", Units::Metric, made) }
    })
}

/// Quotes a plan as `tenths_plan_quote` does, and gives the price list as text to print: `markdown` or `html`, each quote line by
/// line. An HTML file needs nothing else, and prints on A4 and Letter.
///
/// `rates` may be null, as `tenths_plan_quote` takes them; `format` may be null for Markdown. The text is freed by
/// `tenths_text_free`, and null on an error.
///
/// # Safety
/// As `tenths_plan_quote`; `format` is null or ends with a NUL, and `text` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_quote_text(
    plan: *const c_char,
    length: usize,
    rates: *const c_char,
    rates_length: usize,
    quantities: *const u64,
    count: usize,
    format: *const c_char,
    text: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (text, format) =
            unsafe { (place(text, "the place for the text")?, optional_text(format, "format")?) };
        *text = std::ptr::null_mut();
        // SAFETY: the caller's promises.
        let list = unsafe { price_list(plan, length, rates, rates_length, quantities, count) }?;
        *text = give(match format.unwrap_or("markdown") {
            "markdown" => list.to_markdown(),
            "html" => list.to_html(),
            other => return Err(Failure::Sheet(SheetError::Format(other.into()))),
        });
        Ok(())
    })
}

/// # Safety
/// As [`tenths_plan_quote`].
unsafe fn price_list(
    plan: *const c_char,
    length: usize,
    rates: *const c_char,
    rates_length: usize,
    quantities: *const u64,
    count: usize,
) -> Result<PriceList, Failure> {
    // SAFETY: the caller's promises.
    let (plan, quantities) =
        unsafe { (document(plan, length, "plan")?, array(quantities, count, "quantities")?) };
    let plan = Plan::from_json(plan)?;
    // SAFETY: the caller's promise.
    let own = unsafe { own_rates(&plan, rates, rates_length) }?;
    Ok(plan.quote(quantities, own.as_ref())?)
}

/// The rates that are given beside a plan; nothing where they are null.
///
/// # Safety
/// `rates` is null or readable for `length` bytes.
unsafe fn own_rates(plan: &Plan, rates: *const c_char, length: usize) -> Result<Option<Rates>, Failure> {
    if rates.is_null() {
        return Ok(None);
    }
    // SAFETY: the caller's promise.
    let rates = unsafe { document(rates, length, "rates") }?;
    Ok(Some(Rates::from_json(rates, plan.document().units)?))
}

/// Compares two routings of a part, `plan` and `other`: where which of them costs less, for every quantity up to one.
///
/// `rates` may be null, as `tenths_plan_quote` takes them; otherwise both plans are quoted by them.
///
/// # Safety
/// As `tenths_plan_quote`, for both plans; `comparison->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_break_even(
    plan: *const c_char,
    length: usize,
    other: *const c_char,
    other_length: usize,
    rates: *const c_char,
    rates_length: usize,
    up_to: u64,
    comparison: *mut tenths_route_comparison,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promises.
            let (plan, other) =
                unsafe { (document(plan, length, "plan")?, document(other, other_length, "other")?) };
            let (plan, other) = (Plan::from_json(plan)?, Plan::from_json(other)?);
            // SAFETY: the caller's promise.
            let own = unsafe { own_rates(&plan, rates, rates_length) }?;
            Ok(plan.break_even(&other, up_to, own.as_ref())?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(comparison, "comparison", Units::Metric, made) }
    })
}

/// Tells what moves the price of a quantity most: each rate lowered and raised by the share `change`, such as 0.1.
///
/// `rates` may be null, as `tenths_plan_quote` takes them.
///
/// # Safety
/// As `tenths_plan_quote`; `drivers->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_price_drivers(
    plan: *const c_char,
    length: usize,
    rates: *const c_char,
    rates_length: usize,
    quantity: u64,
    change: f64,
    drivers: *mut tenths_price_drivers,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let plan = Plan::from_json(unsafe { document(plan, length, "plan") }?)?;
            // SAFETY: the caller's promise.
            let own = unsafe { own_rates(&plan, rates, rates_length) }?;
            Ok(plan.price_drivers(quantity, change, own.as_ref())?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(drivers, "drivers", Units::Metric, made) }
    })
}

/// The economic lot of a plan for a demand in a year, where a year of stock costs `holding_share` of its cost.
///
/// `rates` may be null, as `tenths_plan_quote` takes them.
///
/// # Safety
/// As `tenths_plan_quote`; `lot->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_economic_lot(
    plan: *const c_char,
    length: usize,
    rates: *const c_char,
    rates_length: usize,
    annual_demand: u64,
    holding_share: f64,
    lot: *mut tenths_economic_lot,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let plan = Plan::from_json(unsafe { document(plan, length, "plan") }?)?;
            // SAFETY: the caller's promise.
            let own = unsafe { own_rates(&plan, rates, rates_length) }?;
            Ok(plan.economic_lot(annual_demand, holding_share, own.as_ref())?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(lot, "lot", Units::Metric, made) }
    })
}

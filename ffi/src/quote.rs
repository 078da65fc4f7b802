//! Quotes of a plan.
use crate::guard::{document, guard};
use crate::handle::array;
use crate::object::write;
use crate::objects::tenths_price_list;
use crate::status::tenths_status;
use std::ffi::c_char;
use tenths::plan::Rates;
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
        let made = || {
            // SAFETY: the caller's promises.
            let (plan, quantities) =
                unsafe { (document(plan, length, "plan")?, array(quantities, count, "quantities")?) };
            let plan = Plan::from_json(plan)?;
            let own = match rates.is_null() {
                true => None,
                // SAFETY: the caller's promise.
                false => {
                    let rates = unsafe { document(rates, rates_length, "rates") }?;
                    Some(Rates::from_json(rates, plan.document().units)?)
                }
            };
            Ok(plan.quote(quantities, own.as_ref())?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(list, "list", Units::Metric, made) }
    })
}

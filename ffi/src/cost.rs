//! Money and lots: rounding, splitting, pieces to start, prices by quantity.
use crate::guard::{guard, place, text};
use crate::handle::array;
use crate::object::write;
use crate::objects::{tenths_discounted_order, tenths_quantity_break, tenths_start_quantities};
use crate::status::{Failure, tenths_status};
use std::ffi::c_char;
use tenths::Units;
use tenths::cost::{self, DiscountScheme, PriceTier, StartRule};
use tenths::money::{Amount, Rounding, split_amount};
use tenths::object::Choice;

/// Rounds an amount once: `tenths_round_money("32.065", 2, 0, &minor)` gives 3206 of the smallest unit.
///
/// `rounding` is 0 for a tie to the even last digit, 1 for a tie away from zero. `minor` is 0 on an error.
///
/// # Safety
/// `amount` ends with a NUL; `minor` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_round_money(
    amount: *const c_char,
    decimals: u32,
    rounding: i32,
    minor: *mut i64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let minor = unsafe { place(minor, "minor") }?;
        *minor = 0;
        // SAFETY: the caller's promise.
        let amount = unsafe { text(amount, "amount") }?;
        let decimals = u8::try_from(decimals).unwrap_or(u8::MAX);
        *minor = Amount::round(amount, decimals, choice::<Rounding>("rounding", rounding)?)?.minor();
        Ok(())
    })
}

/// Splits an amount by weights: `parts` has as many numbers as `weights`, and they add up to the amount.
///
/// Each part is its share to the last unit below, and one unit more for the largest remainders, the earlier first. The amount
/// and the parts are in the smallest unit of a currency.
///
/// # Safety
/// `weights` and `parts` are valid for `count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_split_money(
    minor: i64,
    weights: *const f64,
    count: usize,
    parts: *mut i64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let weights = unsafe { array(weights, count, "weights") }?;
        if parts.is_null() {
            return Err(Failure::Null("parts"));
        }
        let split = split_amount(Amount::new(minor, 0)?, weights)?;
        for (at, part) in split.iter().enumerate() {
            // SAFETY: the caller's promise: there are as many parts as weights.
            unsafe { parts.add(at).write(part.minor()) };
        }
        Ok(())
    })
}

/// Pieces to start at each operation for `good` pieces, where operations scrap these shares.
///
/// `rule` is 0 to round up at each operation, 1 to round once, from the rolled yield.
///
/// # Safety
/// `scrap` is valid for `count` numbers; `chain->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_start_chain(
    good: u64,
    scrap: *const f64,
    count: usize,
    rule: i32,
    chain: *mut tenths_start_quantities,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let scrap = unsafe { array(scrap, count, "scrap") }?;
            Ok(cost::start_quantities(good, scrap, choice::<StartRule>("rule", rule)?)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(chain, "chain", Units::Metric, made) }
    })
}

/// What to order where pieces cost less from some quantities on: `from` and `price` of each tier, the first from 1.
///
/// `holding_share` is what a year of stock costs as a share of its price. `scheme` is 0 where a price holds for all units of
/// an order, 1 where it holds for those from its quantity on.
///
/// # Safety
/// `from` and `price` are valid for `count` numbers; `order->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_order_discounted(
    annual_demand: f64,
    order_cost: f64,
    holding_share: f64,
    from: *const u64,
    price: *const f64,
    count: usize,
    scheme: i32,
    order: *mut tenths_discounted_order,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let tiers = unsafe { tiers(from, price, count) }?;
            let scheme = choice::<DiscountScheme>("scheme", scheme)?;
            Ok(cost::discounted_order(annual_demand, order_cost, holding_share, &tiers, scheme)?)
        };
        // SAFETY: the caller's promise.
        unsafe { write(order, "order", Units::Metric, made) }
    })
}

/// One tier of a price list, the first at index 0, and from where on in it the start of a later tier costs less in total.
///
/// # Safety
/// `from` and `price` are valid for `count` numbers; `tier->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_quantity_break_at(
    from: *const u64,
    price: *const f64,
    count: usize,
    index: usize,
    tier: *mut tenths_quantity_break,
) -> tenths_status {
    guard(|| {
        let made = || {
            // SAFETY: the caller's promise.
            let judged = cost::quantity_breaks(&unsafe { tiers(from, price, count) }?)?;
            judged.into_iter().nth(index).ok_or(Failure::Index {
                formula: "the list",
                what: "tiers",
                count,
                index,
            })
        };
        // SAFETY: the caller's promise.
        unsafe { write(tier, "tier", Units::Metric, made) }
    })
}

/// # Safety
/// Both arrays are null or valid for `count` numbers.
unsafe fn tiers(from: *const u64, price: *const f64, count: usize) -> Result<Vec<PriceTier>, Failure> {
    // SAFETY: the caller's promise.
    let (from, price) = unsafe { (array(from, count, "from")?, array(price, count, "price")?) };
    Ok(from.iter().zip(price).map(|(&from_quantity, &price)| PriceTier { from_quantity, price }).collect())
}

fn choice<C: Choice>(what: &'static str, got: i32) -> Result<C, Failure> {
    let last = i32::try_from(C::ALL.len()).unwrap_or(i32::MAX) - 1;
    let found = usize::try_from(got).ok().and_then(|place| C::ALL.get(place).copied());
    found.ok_or(Failure::Choice { what, last, got })
}

//! Money and lots: rounding, splitting, pieces to start, prices by quantity.
use crate::handle::at;
use crate::status::Failure;
use tenths::cost::{
    self, DiscountScheme, DiscountedOrder, PriceTier, QuantityBreak, StartQuantities, StartRule,
};
use tenths::money::{Amount, Rounding, split_amount};
use tenths::object::Choice;
use tenths_macros::export;

/// Rounds an amount once: `tenths_round_money("32.065", 2, 0, &minor)` gives 3206 of the smallest unit.
///
/// `rounding` is 0 for a tie to the even last digit, 1 for a tie away from zero. `minor` is 0 on an error.
#[export(minor)]
pub(crate) fn round_money(amount: &str, decimals: u32, rounding: i32) -> Result<i64, Failure> {
    let decimals = u8::try_from(decimals).unwrap_or(u8::MAX);
    Ok(Amount::round(amount, decimals, choice::<Rounding>("rounding", rounding)?)?.minor())
}

/// Splits an amount by weights: `parts` has as many numbers as `weights`, and they add up to the amount.
///
/// Each part is its share to the last unit below, and one unit more for the largest remainders, the earlier first. The amount
/// and the parts are in the smallest unit of a currency.
///
/// # Safety
/// `weights` and `parts` are valid for `count` numbers.
#[export]
pub(crate) unsafe fn split_money(minor: i64, weights: &[f64], parts: *mut i64) -> Result<(), Failure> {
    if parts.is_null() {
        return Err(Failure::Null("parts"));
    }
    for (at, part) in split_amount(Amount::new(minor, 0)?, weights)?.iter().enumerate() {
        // SAFETY: the caller's promise: there are as many parts as weights.
        unsafe { parts.add(at).write(part.minor()) };
    }
    Ok(())
}

/// Pieces to start at each operation for `good` pieces, where operations scrap these shares.
///
/// `rule` is 0 to round up at each operation, 1 to round once, from the rolled yield.
#[export(chain)]
pub(crate) fn start_chain(good: u64, scrap: &[f64], rule: i32) -> Result<StartQuantities, Failure> {
    Ok(cost::start_quantities(good, scrap, choice::<StartRule>("rule", rule)?)?)
}

/// What to order where pieces cost less from some quantities on: `from` and `price` of each tier, the first from 1.
///
/// `holding_share` is what a year of stock costs as a share of its price. `scheme` is 0 where a price holds for all units of
/// an order, 1 where it holds for those from its quantity on.
#[export(order)]
pub(crate) fn order_discounted(
    annual_demand: f64,
    order_cost: f64,
    holding_share: f64,
    from: &[u64],
    price: &[f64],
    scheme: i32,
) -> Result<DiscountedOrder, Failure> {
    let scheme = choice::<DiscountScheme>("scheme", scheme)?;
    Ok(cost::discounted_order(annual_demand, order_cost, holding_share, &tiers(from, price), scheme)?)
}

/// One tier of a price list, the first at index 0, and from where on in it the start of a later tier costs less in total.
#[export(tier)]
pub(crate) fn quantity_break_at(from: &[u64], price: &[f64], index: usize) -> Result<QuantityBreak, Failure> {
    at(cost::quantity_breaks(&tiers(from, price))?, index, "the list", "tiers")
}

fn tiers(from: &[u64], price: &[f64]) -> Vec<PriceTier> {
    from.iter().zip(price).map(|(&from_quantity, &price)| PriceTier { from_quantity, price }).collect()
}

fn choice<C: Choice>(what: &'static str, got: i32) -> Result<C, Failure> {
    let last = i32::try_from(C::ALL.len()).unwrap_or(i32::MAX) - 1;
    let found = usize::try_from(got).ok().and_then(|place| C::ALL.get(place).copied());
    found.ok_or(Failure::Choice { what, last, got })
}

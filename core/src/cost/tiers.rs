//! Prices by quantity: what to order where a greater quantity costs less each, and which quantities make no sense.
use crate::money::Exact;
use tenths_macros::{Choice, Object};

/// The most tiers of a price list.
pub const MAX_TIERS: usize = 1000;
/// The greatest figure of a calculation of costs.
const MAX_FIGURE: f64 = 1e12;

/// From a quantity on, pieces have this price.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PriceTier {
    /// The least quantity.
    pub from_quantity: u64,
    /// The price of a piece.
    pub price: f64,
}

/// To which pieces a lower price applies.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum DiscountScheme {
    /// To all pieces of the order.
    #[default]
    AllUnits,
    /// To those from the quantity on; the others keep their price.
    Incremental,
}

/// What is wrong with a list of prices.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum TierError {
    /// No tiers, or too many.
    #[error("there must be 1 to {MAX_TIERS} prices by quantity, not {count}")]
    HowMany {
        /// How many.
        count: usize,
    },
    /// The first does not begin at one piece, or the quantities do not rise.
    #[error(
        "quantities must rise from 1, and {at} comes after {before}. Fix: begin at 1 and sort the prices by quantity"
    )]
    Order {
        /// The quantity before.
        before: u64,
        /// The quantity.
        at: u64,
    },
    /// A figure that cannot be.
    #[error("{what} must be greater than 0 and at most 1 000 000 000 000, not {got}")]
    Figure {
        /// Which.
        what: &'static str,
        /// What was given.
        got: f64,
    },
}

/// A tier of a price list, judged for an order.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct OrderTier {
    /// The least quantity.
    #[pure]
    pub from_quantity: u64,
    /// The price of a piece.
    #[pure]
    pub price: f64,
    /// The quantity of least cost if this price held for any.
    #[pure]
    pub economic: f64,
    /// The best quantity: to all units the whole one of least cost within the tier; incremental the economic one.
    #[pure]
    pub quantity: f64,
    /// What a year costs with it: pieces, orders and stock.
    #[pure]
    pub annual_cost: f64,
    /// Whether that quantity lies in the tier.
    pub within: bool,
}

/// What to order where the price depends on the quantity.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct DiscountedOrder {
    /// The quantity of least cost.
    #[pure]
    pub quantity: f64,
    /// What a year costs with it: pieces, orders and stock.
    #[pure]
    pub annual_cost: f64,
    /// Each tier.
    pub tiers: Vec<OrderTier>,
}

/// Economic order quantity where a greater quantity costs less each.
///
/// `holding_share` is what a year of stock costs as a share of its price. With a price for all units each tier takes the whole
/// quantity of least cost within it. Incremental, the economic quantity of a tier counts where it lies within, not rounded.
///
/// ```
/// use tenths::cost::{DiscountScheme, PriceTier, discounted_order};
/// let tier = |from_quantity, price| PriceTier { from_quantity, price };
/// let tiers = [tier(1, 100.0), tier(101, 90.0), tier(301, 85.0)];
/// let order = discounted_order(1000.0, 200.0, 0.25, &tiers, DiscountScheme::AllUnits)?;
/// assert_eq!(order.quantity, 301.0);
/// # Ok::<(), tenths::cost::TierError>(())
/// ```
///
/// # Errors
/// [`TierError`].
pub fn discounted_order(
    annual_demand: f64,
    order_cost: f64,
    holding_share: f64,
    tiers: &[PriceTier],
    scheme: DiscountScheme,
) -> Result<DiscountedOrder, TierError> {
    check(tiers)?;
    for (what, figure) in
        [("annual_demand", annual_demand), ("order_cost", order_cost), ("holding_share", holding_share)]
    {
        check_figure(what, figure)?;
    }
    let mut fixed = 0.0;
    let mut judged = Vec::with_capacity(tiers.len());
    for (place, tier) in tiers.iter().enumerate() {
        let last = tiers.get(place + 1).map_or(f64::INFINITY, |next| next.from_quantity as f64 - 1.0);
        let first = tier.from_quantity as f64;
        if let (Some(before), DiscountScheme::Incremental) = (place.checked_sub(1), scheme) {
            fixed += (tiers[before].price - tier.price) * (first - 1.0);
        }
        let cost = |quantity: f64| {
            let paid = fixed / quantity + tier.price;
            annual_demand * paid
                + order_cost * annual_demand / quantity
                + 0.5 * holding_share * paid * quantity
        };
        let economic = (2.0 * annual_demand * (order_cost + fixed) / (holding_share * tier.price)).sqrt();
        let quantity = match scheme {
            DiscountScheme::Incremental => economic,
            DiscountScheme::AllUnits => {
                let [below, above] = [economic.floor(), economic.ceil()].map(|one| one.clamp(first, last));
                if cost(above) < cost(below) { above } else { below }
            }
        };
        let within = first <= quantity && quantity <= last;
        let annual_cost = cost(quantity);
        judged.push(OrderTier {
            from_quantity: tier.from_quantity,
            price: tier.price,
            economic,
            quantity,
            annual_cost,
            within,
        });
    }
    let best =
        judged.iter().filter(|tier| tier.within).min_by(|a, b| a.annual_cost.total_cmp(&b.annual_cost));
    // A tier whose economic quantity lies beyond it is never the last to be within: the least cost is in one.
    let [quantity, annual_cost] = best.map_or([f64::NAN; 2], |best| [best.quantity, best.annual_cost]);
    Ok(DiscountedOrder { quantity, annual_cost, tiers: judged })
}

/// A tier of a price list, and from which quantity on the start of a later tier costs less in total.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct QuantityBreak {
    /// The least quantity.
    #[pure]
    pub from_quantity: u64,
    /// The greatest quantity; absent for the last tier.
    #[pure]
    pub to_quantity: Option<u64>,
    /// The price of a piece.
    #[pure]
    pub price: f64,
    /// The first quantity of the tier that costs more in total than the start of a later one; absent where none does.
    #[pure]
    pub dearer_from: Option<u64>,
    /// The quantity to order in its place; absent where none does.
    #[pure]
    pub order_instead: Option<u64>,
}

/// Which quantities of a price list cost more than the start of a later tier: nobody should order them.
///
/// Totals are compared exactly; those that are equal are no reason to order more.
///
/// # Errors
/// [`TierError`].
pub fn quantity_breaks(tiers: &[PriceTier]) -> Result<Vec<QuantityBreak>, TierError> {
    check(tiers)?;
    let total = |tier: &PriceTier| Exact::whole(tier.from_quantity.into()) * Exact::of_float(tier.price);
    let judge = |(place, tier): (usize, &PriceTier)| {
        let later = &tiers[place + 1..];
        let to = later.first().map(|next| next.from_quantity - 1);
        let least = later.iter().fold(None, |least: Option<&PriceTier>, one| match least {
            Some(least) if total(least) <= total(one) => Some(least),
            _ => Some(one),
        });
        let dearer = least.zip(to).and_then(|(least, to)| {
            let first = (total(least) / Exact::of_float(tier.price)).floor()? + 1;
            let first = u64::try_from(first).ok()?.max(tier.from_quantity);
            (first <= to).then_some((first, least.from_quantity))
        });
        QuantityBreak {
            from_quantity: tier.from_quantity,
            to_quantity: to,
            price: tier.price,
            dearer_from: dearer.map(|one| one.0),
            order_instead: dearer.map(|one| one.1),
        }
    };
    Ok(tiers.iter().enumerate().map(judge).collect())
}

fn check(tiers: &[PriceTier]) -> Result<(), TierError> {
    if !(1..=MAX_TIERS).contains(&tiers.len()) {
        return Err(TierError::HowMany { count: tiers.len() });
    }
    let mut before = 0;
    for tier in tiers {
        let is_next = if before == 0 { tier.from_quantity == 1 } else { tier.from_quantity > before };
        if !is_next || tier.from_quantity > super::MAX_PIECES {
            return Err(TierError::Order { before, at: tier.from_quantity });
        }
        check_figure("a price", tier.price)?;
        before = tier.from_quantity;
    }
    Ok(())
}

fn check_figure(what: &'static str, got: f64) -> Result<(), TierError> {
    let is_kept = (1e-9..=MAX_FIGURE).contains(&got);
    if is_kept { Ok(()) } else { Err(TierError::Figure { what, got }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_is_refused_in_plain_words() {
        let tier = |from_quantity, price| PriceTier { from_quantity, price };
        let refused = |tiers: &[PriceTier]| quantity_breaks(tiers).unwrap_err().to_string();
        assert_eq!(refused(&[]), "there must be 1 to 1000 prices by quantity, not 0");
        let need = "quantities must rise from 1, and 10 comes after 10. Fix: begin at 1 and sort the prices by quantity";
        assert_eq!(refused(&[tier(1, 2.0), tier(10, 1.0), tier(10, 1.0)]), need);
        let need = "a price must be greater than 0 and at most 1 000 000 000 000, not NaN";
        assert_eq!(refused(&[tier(1, f64::NAN)]), need);
        let none = discounted_order(0.0, 1.0, 1.0, &[tier(1, 1.0)], DiscountScheme::AllUnits);
        assert!(none.unwrap_err().to_string().starts_with("annual_demand must be greater than 0"));
    }
}

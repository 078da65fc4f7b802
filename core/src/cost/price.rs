//! From cost to price: margin, markup, the least charge.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

/// Price by markup: cost · (1 + markup), markup being a share of the cost.
#[formula(source = "Common practice, no source", inverse(cost = price_by_markup / (1.0 + markup)), inverse(markup = price_by_markup / cost - 1.0))]
pub fn price_by_markup(
    #[term(cost_of_piece)]
    #[increasing]
    cost: Money,
    #[term(markup_share)]
    #[increasing]
    markup: Ratio,
) -> Money {
    cost * (1.0 + markup)
}

/// Price by margin: cost / (1 - margin), margin being the share of the price that is not cost.
#[formula(source = "Common practice, no source", inverse(cost = price_by_margin * (1.0 - margin)), inverse(margin = 1.0 - cost / price_by_margin))]
pub fn price_by_margin(
    #[term(cost_of_piece)]
    #[increasing]
    cost: Money,
    #[term(margin_share)]
    #[increasing]
    margin: Ratio,
) -> Money {
    cost / (1.0 - margin)
}

/// Margin of a markup: markup / (1 + markup).
#[formula(source = "Common practice, no source", inverse(markup = margin_of_markup / (1.0 - margin_of_markup)))]
pub fn margin_of_markup(
    #[term(markup_share)]
    #[increasing]
    markup: Ratio,
) -> Ratio {
    markup / (1.0 + markup)
}

/// Markup of a margin: margin / (1 - margin).
#[formula(source = "Common practice, no source", inverse(margin = markup_of_margin / (1.0 + markup_of_margin)))]
pub fn markup_of_margin(
    #[term(margin_share)]
    #[increasing]
    margin: Ratio,
) -> Ratio {
    margin / (1.0 - margin)
}

/// Charge with a minimum: the greater of the minimum and quantity · price.
#[formula(source = "Common practice, no source")]
pub fn minimum_charge(
    #[term(minimum_charge)]
    #[increasing]
    minimum: Money,
    /// Pieces that are charged.
    #[non_negative]
    #[increasing]
    quantity: Count,
    /// Price of a piece.
    #[non_negative]
    #[increasing]
    price_each: Money,
) -> Money {
    minimum.max(quantity * price_each)
}

/// Charge by mass with a minimum: the greater of the minimum and mass · price.
#[formula(source = "Common practice, no source")]
pub fn minimum_charge_by_mass(
    #[term(minimum_charge)]
    #[increasing]
    minimum: Money,
    /// Mass of the lot.
    #[non_negative]
    #[increasing]
    mass: Mass,
    /// Price of a mass.
    #[non_negative]
    #[increasing]
    mass_price: PricePerMass,
) -> Money {
    minimum.max(mass * mass_price)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &PRICE_BY_MARKUP,
    &PRICE_BY_MARGIN,
    &MARGIN_OF_MARKUP,
    &MARKUP_OF_MARGIN,
    &MINIMUM_CHARGE,
    &MINIMUM_CHARGE_BY_MASS,
];

//! What a quote comes to.
use crate::finding::Finding;
use crate::money::{Amount, Rounding};
use crate::object::{Restored, Told, Value};
use std::borrow::Cow;
use tenths_macros::{Choice, Object};

/// What a line of a quote is for.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum QuoteLineKind {
    /// Bars or blanks.
    Material,
    /// What is left of the last bar and kept, below zero.
    Remnant,
    /// What the scrap fetches, below zero.
    ScrapValue,
    /// Setting up an operation for the lot.
    Setup,
    /// An operation on all its pieces.
    Run,
    /// Inspecting pieces.
    Inspection,
    /// Tools that wear.
    Tool,
    /// Changing tools that wear.
    ToolChange,
    /// Work outside the shop.
    Outside,
    /// Sending a lot to outside work and fetching it.
    Freight,
    /// Moving the lot from machine to machine.
    Moves,
    /// Papers, packing, dispatch.
    OrderHandling,
    /// Administration and sales.
    Admin,
    /// The margin, a share of the price.
    Margin,
    /// The markup, a share of the cost.
    Markup,
    /// What is missing to the least that a lot is sold for.
    MinimumCharge,
    /// From the sum of the other lines to the quantity times the price each.
    Rounding,
}

/// A line of a quote.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct QuoteLine {
    /// What it is for.
    pub kind: QuoteLineKind,
    /// What it is called.
    pub name: String,
    /// The operation that it is of, as the process sheet numbers it; absent where it is of the whole lot.
    #[pure]
    pub operation: Option<u64>,
    /// The amount, rounded once.
    pub amount: Amount,
    /// What it is worked out from.
    pub basis: String,
}

/// The quote for a quantity. The total is the sum of the lines.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct Quote {
    /// The good pieces that are sold.
    #[pure]
    pub quantity: u64,
    /// The pieces that are started, so that enough of them come out good.
    #[pure]
    pub start_quantity: u64,
    /// The hours that the lot takes in the shop: setting up, running, changing tools, inspecting and moving.
    #[pure]
    pub hours: f64,
    /// The lines.
    pub lines: Vec<QuoteLine>,
    /// The sum of the lines of material, work, tools and handling.
    pub manufacturing_cost: Amount,
    /// The manufacturing cost with administration.
    pub total_cost: Amount,
    /// What the lot is sold for.
    pub total: Amount,
    /// What a piece is sold for.
    pub price_each: Amount,
    /// What the quantity times the price each is more than the total: zero where the price each governs.
    pub residue: Amount,
    /// The least greater quantity of the same price list that costs less in total; absent where none does.
    #[pure]
    pub cheaper_at: Option<u64>,
    /// The currency.
    pub currency: String,
}

/// Which price governs.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum GoverningPrice {
    /// The price each, rounded once.
    Each,
    /// The price of the lot.
    Lot,
}

/// The quotes of a plan for some quantities, from stated rates.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct PriceList {
    /// The name of the part.
    pub part: String,
    /// The number of the part.
    pub part_number: Option<String>,
    /// The material.
    pub material: String,
    /// The currency.
    pub currency: String,
    /// How a tie is rounded.
    pub rounding: Rounding,
    /// Which price governs.
    pub price_governs: GoverningPrice,
    /// The quote for each quantity, in the order asked for.
    pub quotes: Vec<Quote>,
    /// What is missing or worth a second look.
    pub findings: Vec<Finding>,
    /// What is always to be borne in mind.
    pub cautions: Vec<Cow<'static, str>>,
}

impl std::fmt::Display for Quote {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { quantity, price_each, total, currency, .. } = self;
        write!(f, "Quote: {quantity} at {price_each} {currency} each, {total} {currency} in all")
    }
}

impl std::fmt::Display for PriceList {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "PriceList: {}", self.part)?;
        for quote in self.quotes.iter().take(5) {
            write!(f, ", {} at {}", quote.quantity, quote.price_each)?;
        }
        let more = self.quotes.len().saturating_sub(5);
        if more > 0 {
            write!(f, " and {more} more")?;
        }
        write!(f, " {} each", self.currency)
    }
}

impl Restored for PriceList {
    fn restore(told: &Told) -> Option<PriceList> {
        let findings = match told.value("findings")? {
            Value::List(list) => list.iter().map(Finding::restored).collect::<Option<_>>()?,
            _ => return None,
        };
        Some(PriceList {
            part: told.get("part")?,
            part_number: told.get("part_number")?,
            material: told.get("material")?,
            currency: told.get("currency")?,
            rounding: told.get("rounding")?,
            price_governs: told.get("price_governs")?,
            quotes: told.get("quotes")?,
            findings,
            cautions: told.get("cautions")?,
        })
    }
}

//! Quotes side by side: two routings, what moves a price most, and the lot that costs least in a year.
use super::super::checked::Plan;
use super::super::rates::Rates;
use super::faults::{check, fault, no_rates, too_large};
use super::job::Job;
use super::result::{Quote, QuoteLineKind};
use crate::cost::economic_order_quantity;
use crate::document::fault::{DocumentError, FaultKind, Place};
use crate::document::{Decimal, DocumentNumber};
use crate::money::{Amount, Exact};
use crate::quantity::{Count, Money, Quantity, Time};
use tenths_macros::{Choice, Object};

/// The greatest quantity that two routings are compared up to.
pub const MAX_COMPARED: u64 = 100_000;

/// Which of two routings costs less.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum CheaperRoute {
    /// The first.
    First,
    /// The second.
    Second,
    /// Both cost the same.
    Neither,
}

/// Quantities at which the same routing costs less.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(restore)]
pub struct RouteStretch {
    /// The least of them.
    #[pure]
    pub from_quantity: u64,
    /// The greatest of them.
    #[pure]
    pub to_quantity: u64,
    /// The routing that costs less.
    pub cheaper: CheaperRoute,
}

/// Two routings by quantity: where which of them costs less in total.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct RouteComparison {
    /// The greatest quantity that was looked at.
    #[pure]
    pub up_to: u64,
    /// The stretches by rising quantity. Whole bars and pieces make more than one change where totals lie close together.
    pub stretches: Vec<RouteStretch>,
    /// The least quantity from which on the second costs less, up to the greatest; absent where it does not there.
    #[pure]
    pub second_from: Option<u64>,
}

/// How much a price moves with one of its rates.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct PriceDriver {
    /// Where the rate stands among the rates: a JSON Pointer.
    pub place: String,
    /// What it is of.
    pub name: String,
    /// The total with the rate lowered.
    pub low: Amount,
    /// The total with the rate raised.
    pub high: Amount,
    /// The difference of both, without its sign.
    pub swing: Amount,
}

/// What moves the price of a quantity, the widest swing first.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct PriceDrivers {
    /// The good pieces that are sold.
    #[pure]
    pub quantity: u64,
    /// The share by which each rate is lowered and raised.
    #[pure]
    pub change: f64,
    /// The total with the rates as they are.
    pub total: Amount,
    /// The currency.
    pub currency: String,
    /// The rates, the one that moves the total most first.
    pub drivers: Vec<PriceDriver>,
}

/// The lot of least cost in a year.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct EconomicLot {
    /// Pieces of the lot.
    #[pure]
    pub quantity: u64,
    /// What a lot costs however many pieces it has: setting up, moves, freight, handling.
    pub lot_cost: Amount,
    /// What a piece costs beside that.
    pub cost_each: Amount,
    /// Lots in a year.
    #[pure]
    pub lots: f64,
}

/// Whether routings can be compared up to such a quantity.
pub(super) fn check_up_to(up_to: u64) -> Result<(), DocumentError> {
    if (1..=MAX_COMPARED).contains(&up_to) {
        return Ok(());
    }
    let message =
        format!("routings can be compared up to any quantity from 1 to {MAX_COMPARED} pieces, not {up_to}");
    Err(fault(FaultKind::OutOfRange, Place::ROOT.field("up_to"), message))
}

impl Plan {
    /// Two routings of a part, this plan and another: where which of them costs less, piece by piece up to a quantity.
    ///
    /// # Errors
    /// [`DocumentError`] as [`Plan::quote`] of each, and where `up_to` is zero or more than [`MAX_COMPARED`].
    pub fn break_even(
        &self,
        other: &Plan,
        up_to: u64,
        rates: Option<&Rates>,
    ) -> Result<RouteComparison, DocumentError> {
        check_up_to(up_to)?;
        let (sheets, used) = ([self.unpriced()?, other.unpriced()?], [self.used(rates)?, other.used(rates)?]);
        let first = Job::new(self.document(), &sheets[0], used[0], rates.is_some())?;
        let second = Job::new(other.document(), &sheets[1], used[1], rates.is_some())?;
        let mut stretches: Vec<RouteStretch> = vec![];
        for quantity in 1..=up_to {
            let total = |job: &Job<'_>| job.quote(quantity).map(|quote| quote.total.exact());
            let cheaper = match total(&first).zip(total(&second)).and_then(|(a, b)| a.partial_cmp(&b)) {
                Some(std::cmp::Ordering::Less) => CheaperRoute::First,
                Some(std::cmp::Ordering::Greater) => CheaperRoute::Second,
                Some(std::cmp::Ordering::Equal) => CheaperRoute::Neither,
                None => return Err(too_large(quantity, rates.is_some())),
            };
            match stretches.last_mut() {
                Some(last) if last.cheaper == cheaper => last.to_quantity = quantity,
                _ => stretches.push(RouteStretch { from_quantity: quantity, to_quantity: quantity, cheaper }),
            }
        }
        let last = stretches.last().filter(|last| last.cheaper == CheaperRoute::Second);
        let second_from = last.map(|last| last.from_quantity);
        Ok(RouteComparison { up_to, stretches, second_from })
    }

    /// What moves the price of a quantity most: each rate lowered and raised by a share, the widest swing first.
    ///
    /// # Errors
    /// [`DocumentError`] as [`Plan::quote`], and where `change` is not above 0 and at most 0.5.
    pub fn price_drivers(
        &self,
        quantity: u64,
        change: f64,
        rates: Option<&Rates>,
    ) -> Result<PriceDrivers, DocumentError> {
        check(&[quantity])?;
        if !(0.0 < change && change <= 0.5) {
            let message = format!("a change must be a share above 0 and at most 0.5, e.g. 0.1, not {change}");
            return Err(fault(FaultKind::OutOfRange, Place::ROOT.field("change"), message));
        }
        let (sheet, used) = (self.unpriced()?, self.used(rates)?);
        let total = |rates_now: &Rates| -> Result<Amount, DocumentError> {
            let job = Job::new(self.document(), &sheet, rates_now, rates.is_some())?;
            Ok(job.quote(quantity).ok_or_else(|| too_large(quantity, rates.is_some()))?.total)
        };
        let change = Exact::of_float(change);
        let places: Vec<[String; 2]> =
            numbers(&mut used.clone()).into_iter().map(|one| [one.place, one.name]).collect();
        let mut drivers = vec![];
        for (at, [place, name]) in places.into_iter().enumerate() {
            let with = |factor: Exact| {
                let mut rates = used.clone();
                if let Some(number) = numbers(&mut rates).into_iter().nth(at) {
                    number.value.scale(factor);
                }
                rates
            };
            let raised = with(Exact::ONE + change);
            // A margin of the whole price has no price.
            if raised.margin.is_some_and(|margin| margin.0 >= Exact::ONE) {
                continue;
            }
            let [low, high] = [total(&with(Exact::ONE - change))?, total(&raised)?];
            if let Ok(swing) = Amount::new((high.minor() - low.minor()).abs(), low.decimals()) {
                drivers.push(PriceDriver { place, name, low, high, swing });
            }
        }
        drivers.sort_by_key(|driver| std::cmp::Reverse(driver.swing.minor()));
        Ok(PriceDrivers {
            quantity,
            change: change.to_f64(),
            total: total(used)?,
            currency: used.currency.clone(),
            drivers,
        })
    }

    /// The economic lot for a demand in a year: √(2 · demand · cost of a lot / (holding share · cost of a piece)), and the cheaper
    /// of the whole numbers beside it.
    ///
    /// The cost of a lot is setting up, moves, freight and handling; that of a piece is the rest of the total cost, as a lot of a
    /// year's demand has it. `holding_share` is what a year of stock costs as a share of its cost.
    ///
    /// # Errors
    /// [`DocumentError`] as [`Plan::quote`], and where `holding_share` is not above zero.
    pub fn economic_lot(
        &self,
        annual_demand: u64,
        holding_share: f64,
        rates: Option<&Rates>,
    ) -> Result<EconomicLot, DocumentError> {
        let list = self.quote(&[annual_demand], rates)?;
        let unknown = |what: &str| {
            let message = format!("{what}: there is no lot of least cost");
            fault(FaultKind::OutOfRange, Place::ROOT.field("holding_share"), message)
        };
        let Some(quote) = list.quotes.first() else { return Err(unknown("there is no quote")) };
        let lot_cost = once(quote).ok_or_else(|| too_large(annual_demand, rates.is_some()))?;
        let each = (quote.total_cost.exact() - lot_cost.exact()) / Exact::whole(annual_demand.into());
        let holding = Money::new(each.to_f64() * holding_share);
        let order = Money::new(lot_cost.to_f64());
        let found = economic_order_quantity(Count::new(annual_demand as f64), order, holding)
            .map_err(|error| unknown(&error.to_string()))?;
        let quantity = found.quantity.metric().min(annual_demand as f64);
        let cost_each = Amount::of(each, lot_cost.decimals(), list.rounding);
        Ok(EconomicLot {
            quantity: quantity as u64,
            lot_cost,
            cost_each: cost_each.map_err(|_| too_large(annual_demand, rates.is_some()))?,
            lots: annual_demand as f64 / quantity,
        })
    }

    /// The rates that a quote uses.
    pub(super) fn used<'r>(&'r self, rates: Option<&'r Rates>) -> Result<&'r Rates, DocumentError> {
        rates.or(self.document().rates.as_ref()).ok_or_else(no_rates)
    }
}

/// What a lot costs however many pieces it has.
fn once(quote: &Quote) -> Option<Amount> {
    use QuoteLineKind::{Freight, Moves, OrderHandling, Setup};
    let lines =
        quote.lines.iter().filter(|line| matches!(line.kind, Setup | Moves | Freight | OrderHandling));
    let sum = lines.map(|line| line.amount.minor()).sum();
    Amount::new(sum, quote.total.decimals()).ok()
}

/// A number among the rates.
enum Value<'r> {
    Decimal(&'r mut Decimal),
    Minutes(&'r mut DocumentNumber<Time>),
}

impl Value<'_> {
    /// Multiplies it.
    fn scale(self, factor: Exact) {
        match self {
            Value::Decimal(decimal) => *decimal = Decimal(decimal.0 * factor),
            Value::Minutes(time) => *time = DocumentNumber::new(time.value() * factor.to_f64()),
        }
    }
}

struct Number<'r> {
    place: String,
    name: String,
    value: Value<'r>,
}

/// Every number that a price depends on in a straight line, with its place and name.
fn numbers(rates: &mut Rates) -> Vec<Number<'_>> {
    let mut found = vec![];
    let mut add = |place: String, name: String, value| found.push(Number { place, name, value });
    for (at, machine) in rates.machines.iter_mut().enumerate() {
        add(
            format!("/machines/{at}/rate"),
            format!("{}, rate", machine.name),
            Value::Decimal(&mut machine.rate),
        );
        let name = format!("{}, labour", machine.name);
        add(format!("/machines/{at}/labour"), name, Value::Decimal(&mut machine.labour));
    }
    for (at, work) in rates.operations.iter_mut().enumerate() {
        let kinds = work.kinds.join(", ").replace('_', " ");
        add(format!("/operations/{at}/setup"), format!("{kinds}, set-up"), Value::Minutes(&mut work.setup));
    }
    if let Some(material) = &mut rates.material {
        let prices = [
            ("price_per_mass", &mut material.price_per_mass),
            ("price_per_length", &mut material.price_per_length),
            ("price_per_bar", &mut material.price_per_bar),
            ("price_each", &mut material.price_each),
            ("scrap_price", &mut material.scrap_price),
        ];
        for (field, price) in prices {
            if let Some(price) = price {
                let name = format!("material, {}", field.replace('_', " "));
                add(format!("/material/{field}"), name, Value::Decimal(price));
            }
        }
    }
    for (at, tool) in rates.tools.iter_mut().enumerate() {
        add(format!("/tools/{at}/price"), format!("{}, price", tool.name), Value::Decimal(&mut tool.price));
    }
    for (at, outside) in rates.outside.iter_mut().enumerate() {
        for (field, price) in [("price", &mut outside.price), ("price_per_mass", &mut outside.price_per_mass)]
        {
            if let Some(price) = price {
                add(
                    format!("/outside/{at}/{field}"),
                    format!("{}, price", outside.name),
                    Value::Decimal(price),
                );
            }
        }
        let name = format!("{}, minimum", outside.name);
        add(format!("/outside/{at}/minimum"), name, Value::Decimal(&mut outside.minimum));
    }
    if let Some(moves) = &mut rates.moves {
        add("/moves/rate".into(), "moves, rate".into(), Value::Decimal(&mut moves.rate));
    }
    add("/order_handling".into(), "order handling".into(), Value::Decimal(&mut rates.order_handling));
    add("/admin".into(), "administration".into(), Value::Decimal(&mut rates.admin));
    for (field, share) in [("margin", &mut rates.margin), ("markup", &mut rates.markup)] {
        if let Some(share) = share {
            add(format!("/{field}"), field.into(), Value::Decimal(share));
        }
    }
    add("/minimum_charge".into(), "minimum charge".into(), Value::Decimal(&mut rates.minimum_charge));
    found
}

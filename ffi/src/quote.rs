//! Quotes of a plan.
use crate::export::Document;
use crate::status::Failure;
use tenths::plan::quote::{
    EconomicLot, PriceDrivers, PriceList, PriceRange, RouteComparison, RoutingComparison,
};
use tenths::plan::{Rates, SheetError};
use tenths::{DocumentError, Plan, Watch};
use tenths_macros::export;

/// Quotes a plan for `count` quantities, line by line, from its own rates or from others.
///
/// `plan` is UTF-8 of `length` bytes and needs no NUL. `rates` may be null: the plan then has rates of its own. Otherwise
/// it is a JSON object of `rates_length` bytes with the fields of Rates on the page of the plan document, in the units of
/// the plan. Amounts come as text and in the smallest unit of the currency. On an error the message names what is missing,
/// each fault with its place.
#[export(list)]
pub(crate) fn plan_quote(
    plan: Document,
    rates: Option<Document>,
    quantities: &[u64],
) -> Result<PriceList, DocumentError> {
    let plan = Plan::from_json(plan)?;
    plan.quote(quantities, own_rates(&plan, rates)?.as_ref())
}

/// Quotes a plan as `tenths_plan_quote` does, and gives the price list as text to print: `markdown` or `html`, each quote line by
/// line. An HTML file needs nothing else, and prints on A4 and Letter.
///
/// `rates` may be null, as `tenths_plan_quote` takes them; `format` may be null for Markdown. The text is freed by
/// `tenths_text_free`, and null on an error.
#[export(text)]
pub(crate) fn plan_quote_text(
    plan: Document,
    rates: Option<Document>,
    quantities: &[u64],
    format: Option<&str>,
) -> Result<String, Failure> {
    let list = plan_quote(plan, rates, quantities)?;
    match format.unwrap_or("markdown") {
        "markdown" => Ok(list.to_markdown()),
        "html" => Ok(list.to_html()),
        other => Err(Failure::Sheet(SheetError::Format(other.into()))),
    }
}

/// Compares two routings of a part, `plan` and `other`: where which of them costs less, for every quantity up to one.
///
/// `rates` may be null, as `tenths_plan_quote` takes them; otherwise both plans are quoted by them.
#[export(comparison)]
pub(crate) fn plan_break_even(
    plan: Document,
    other: Document,
    rates: Option<Document>,
    up_to: u64,
) -> Result<RouteComparison, DocumentError> {
    let (plan, other) = (Plan::from_json(plan)?, Plan::from_json(other)?);
    plan.break_even(&other, up_to, own_rates(&plan, rates)?.as_ref())
}

/// Tells what moves the price of a quantity most: each rate lowered and raised by the share `change`, such as 0.1.
///
/// `rates` may be null, as `tenths_plan_quote` takes them.
#[export(drivers)]
pub(crate) fn plan_price_drivers(
    plan: Document,
    rates: Option<Document>,
    quantity: u64,
    change: f64,
) -> Result<PriceDrivers, DocumentError> {
    let plan = Plan::from_json(plan)?;
    plan.price_drivers(quantity, change, own_rates(&plan, rates)?.as_ref())
}

/// The economic lot of a plan for a demand in a year, where a year of stock costs `holding_share` of its cost.
///
/// `rates` may be null, as `tenths_plan_quote` takes them.
#[export(lot)]
pub(crate) fn plan_economic_lot(
    plan: Document,
    rates: Option<Document>,
    annual_demand: u64,
    holding_share: f64,
) -> Result<EconomicLot, DocumentError> {
    let plan = Plan::from_json(plan)?;
    plan.economic_lot(annual_demand, holding_share, own_rates(&plan, rates)?.as_ref())
}

/// The rates that are given beside a plan, if they are.
fn own_rates(plan: &Plan, rates: Option<Document>) -> Result<Option<Rates>, DocumentError> {
    rates.map(|rates| Rates::from_json(rates, plan.document().units)).transpose()
}

/// The routings of a plan side by side: each evaluated and quoted for `quantity`, 0 for that of the plan, and which of them
/// costs least for every quantity up to `up_to`.
///
/// `rates` may be null, as `tenths_plan_quote` takes them.
#[export(comparison)]
pub(crate) fn plan_compare_routings(
    plan: Document,
    rates: Option<Document>,
    quantity: u64,
    up_to: u64,
) -> Result<RoutingComparison, DocumentError> {
    let plan = Plan::from_json(plan)?;
    plan.compare_routings((quantity > 0).then_some(quantity), up_to, own_rates(&plan, rates)?.as_ref())
}

/// Gives one routing of a plan as a plan of its own, as JSON that every function of plans takes, such as
/// `tenths_plan_routing(plan, strlen(plan), "main", &routed)`; freed by `tenths_text_free`, and null on an error.
///
/// `name` is that of a routing, or of the plan's own operations: its `routing`, `main` where it has none.
#[export(routed)]
pub(crate) fn plan_routing(plan: Document, name: &str) -> Result<String, DocumentError> {
    Ok(Plan::from_json(plan)?.routing_named(name)?.to_json().into())
}

/// The range of the price of a quantity where numbers of a plan vary: its rates, its times and any other.
///
/// `variation` is a JSON object, as `tenths_plan_propagate` takes it, without outputs. One that varies the rate of a machine
/// by five either way is
/// {"count": 1000, "varying": [{"place": "/rates/machines/0/rate", "nominal": 60, "plus": 5, "minus": -5}]}.
/// `watch` may be null. The rates stand in the plan.
#[export(range)]
pub(crate) fn plan_price_range(
    plan: Document,
    quantity: u64,
    variation: Document,
    watch: Watch,
) -> Result<PriceRange, Failure> {
    Ok(Plan::from_json(plan)?.price_range_json_watched(quantity, variation, &watch)?)
}

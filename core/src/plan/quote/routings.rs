//! The routings of a plan side by side: each evaluated and quoted, and which costs least at which quantity.
use super::super::checked::Plan;
use super::super::rates::Rates;
use super::super::routed::of_routing;
use super::compare::check_up_to;
use super::faults::{check, too_large};
use super::job::Job;
use crate::document::fault::DocumentError;
use crate::finding::Severity;
use crate::money::Amount;
use tenths_macros::Object;

/// A routing of a plan and what a lot of it costs.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct RoutingQuote {
    /// What it is called.
    pub name: String,
    /// How many operations it has.
    #[pure]
    pub operations: u64,
    /// Minutes of all operations for a part.
    #[pure]
    pub minutes_per_part: f64,
    /// How many of its findings are errors. A routing with any is quoted, but it is never the cheapest.
    #[pure]
    pub errors: u64,
    /// How many of its findings are warnings.
    #[pure]
    pub warnings: u64,
    /// The pieces that are started.
    #[pure]
    pub start_quantity: u64,
    /// The hours that the lot takes in the shop.
    #[pure]
    pub hours: f64,
    /// What the lot is sold for.
    pub total: Amount,
    /// What a piece is sold for.
    pub price_each: Amount,
}

/// Quantities at which the same routing costs least.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct CheapestStretch {
    /// The least of them.
    #[pure]
    pub from_quantity: u64,
    /// The greatest of them.
    #[pure]
    pub to_quantity: u64,
    /// The routing that costs least; of several that cost the same the first.
    pub cheapest: String,
}

/// The routings of a plan side by side.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct RoutingComparison {
    /// The quantity that is quoted.
    #[pure]
    pub quantity: u64,
    /// The greatest quantity that was looked at.
    #[pure]
    pub up_to: u64,
    /// The currency.
    pub currency: String,
    /// The routings: that of the plan first, then the others in their order.
    pub routings: Vec<RoutingQuote>,
    /// The routing that costs least at the quantity; absent where all have errors.
    pub cheapest: Option<String>,
    /// Which routing costs least, by rising quantity: they break even where one stretch ends. Empty where all have errors.
    pub stretches: Vec<CheapestStretch>,
}

/// A routing ready to be quoted.
struct Way<'w> {
    name: &'w str,
    job: Job<'w>,
    line: RoutingQuote,
}

impl Plan {
    /// The routings of the plan side by side, for a quantity, or without it for that of the plan; and which of them costs
    /// least for every quantity up to one.
    ///
    /// # Errors
    /// [`DocumentError`] where `up_to` is zero or more than [`MAX_COMPARED`](super::MAX_COMPARED), and as
    /// [`Plan::quote`] of each routing.
    pub fn compare_routings(
        &self,
        quantity: Option<u64>,
        up_to: u64,
        rates: Option<&Rates>,
    ) -> Result<RoutingComparison, DocumentError> {
        let quantity = quantity.unwrap_or(self.document().part.quantity.into());
        check(&[quantity])?;
        check_up_to(up_to)?;
        let used = self.used(rates)?;
        let mut ways = vec![way(self.routing_name(), self, used, quantity, rates.is_some())?];
        for (index, routed) in self.routings().iter().enumerate() {
            let made = way(&routed.name, &routed.plan, used, quantity, rates.is_some());
            ways.push(made.map_err(|error| of_routing(error, index))?);
        }
        let stretches = stretches(&ways, up_to).map_err(|at| too_large(at, rates.is_some()))?;
        let sound = ways.iter().filter(|way| way.line.errors == 0);
        let cheapest = sound.min_by_key(|way| way.line.total.minor()).map(|way| way.name.into());
        Ok(RoutingComparison {
            quantity,
            up_to,
            currency: used.currency.clone(),
            cheapest,
            stretches,
            routings: ways.into_iter().map(|way| way.line).collect(),
        })
    }
}

fn way<'w>(
    name: &'w str,
    plan: &Plan,
    rates: &'w Rates,
    quantity: u64,
    is_own: bool,
) -> Result<Way<'w>, DocumentError> {
    let sheet = plan.unpriced()?;
    let job = Job::new(plan.document(), &sheet, rates, is_own)?;
    let quote = job.quote(quantity).ok_or_else(|| too_large(quantity, is_own))?;
    let count = |severity| sheet.findings.iter().filter(|one| one.severity == severity).count() as u64;
    let line = RoutingQuote {
        name: name.into(),
        operations: sheet.operations.len() as u64,
        minutes_per_part: sheet.minutes_per_part,
        errors: count(Severity::Error),
        warnings: count(Severity::Warning),
        start_quantity: quote.start_quantity,
        hours: quote.hours,
        total: quote.total,
        price_each: quote.price_each,
    };
    Ok(Way { name, job, line })
}

/// The cheapest of the sound routings by quantity; the quantity whose amounts are too large on an error.
fn stretches(ways: &[Way<'_>], up_to: u64) -> Result<Vec<CheapestStretch>, u64> {
    let sound: Vec<&Way<'_>> = ways.iter().filter(|way| way.line.errors == 0).collect();
    let mut stretches: Vec<CheapestStretch> = vec![];
    for quantity in 1..=up_to {
        let mut least: Option<(i64, &str)> = None;
        for way in &sound {
            let total = way.job.quote(quantity).ok_or(quantity)?.total.minor();
            if least.is_none_or(|(other, _)| total < other) {
                least = Some((total, way.name));
            }
        }
        let Some((_, cheapest)) = least else { break };
        match stretches.last_mut() {
            Some(last) if last.cheapest == cheapest => last.to_quantity = quantity,
            _ => stretches.push(CheapestStretch {
                from_quantity: quantity,
                to_quantity: quantity,
                cheapest: cheapest.into(),
            }),
        }
    }
    Ok(stretches)
}

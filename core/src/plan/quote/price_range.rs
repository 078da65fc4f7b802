//! The range of a price: a plan quoted many times with rates, times and other numbers that vary.
use super::super::checked::Plan;
use super::super::propagate::PropagateError;
use super::super::variation::Variation;
use super::faults::{check, never_priced, too_large};
use super::result::Quote;
use crate::document::DocumentError;
use crate::money::{Amount, Exact, Rounding};
use crate::stack::{Input, Sample, Sampling};
use crate::watch::Watch;
use tenths_macros::Object;

/// The percentages that are told.
const PERCENTS: [f64; 7] = [5.0, 10.0, 25.0, 50.0, 75.0, 90.0, 95.0];

/// A total that so many percent of all lots do not exceed.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct PricePercentile {
    /// The percentage.
    #[pure]
    pub percent: f64,
    /// What the lot is sold for.
    pub total: Amount,
    /// That for a piece.
    pub price_each: Amount,
}

/// The range of a price where numbers of the plan vary, from a sample.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct PriceRange {
    /// The good pieces that are sold.
    #[pure]
    pub quantity: u64,
    /// The currency.
    pub currency: String,
    /// What the lot is sold for with every number as planned.
    pub planned: Amount,
    /// The mean of the sampled totals.
    pub mean: Amount,
    /// Their standard deviation; absent for a single one.
    pub sigma: Option<Amount>,
    /// The least of them.
    pub minimum: Amount,
    /// The greatest of them.
    pub maximum: Amount,
    /// Totals that so many percent of the sample do not exceed: 5, 10, 25, 50, 75, 90 and 95.
    pub percentiles: Vec<PricePercentile>,
    /// The share of the sample that costs more than planned.
    #[pure]
    pub above_planned: f64,
    /// How many samples were taken.
    #[pure]
    pub count: u64,
    /// How many of them have no price: the numbers drawn make no plan, or their rates no quote.
    #[pure]
    pub unpriced: u64,
    /// The number that they were drawn by: the same one gives the same bits.
    #[pure]
    pub seed: u64,
}

impl Plan {
    /// The range of the price of a quantity where numbers of the plan vary: rates such as `/rates/machines/0/rate`, times,
    /// speeds and whatever else [`Plan::propagate`] takes. Each sample is a plan that is evaluated and quoted as any other.
    ///
    /// # Errors
    /// [`DocumentError`] as [`Plan::quote`] of the plan as it is and as [`Plan::propagate`].
    pub fn price_range(
        &self,
        quantity: u64,
        varying: &[Input],
        sampling: &Sampling,
    ) -> Result<PriceRange, DocumentError> {
        self.price_range_watched(quantity, varying, sampling, &Watch::new())
            .map_err(PropagateError::unwatched)
    }

    /// As [`Plan::price_range`], from a [`Variation`] as JSON, under a watch. Its `outputs` must be empty.
    ///
    /// # Errors
    /// As [`Plan::price_range`], [`DocumentError`] with every fault of the request, and [`PropagateError::Stopped`].
    pub fn price_range_json_watched(
        &self,
        quantity: u64,
        variation: &str,
        watch: &Watch,
    ) -> Result<PriceRange, PropagateError> {
        self.used(None)?;
        let variation = Variation::from_json(variation)?;
        variation.follows_nothing()?;
        let inputs = self.inputs(&variation)?;
        self.price_range_watched(quantity, &inputs, &variation.sampling(), watch)
    }

    /// [`Plan::price_range`] under a watch.
    ///
    /// # Errors
    /// As [`Plan::price_range`], and [`PropagateError::Stopped`].
    pub fn price_range_watched(
        &self,
        quantity: u64,
        varying: &[Input],
        sampling: &Sampling,
        watch: &Watch,
    ) -> Result<PriceRange, PropagateError> {
        check(&[quantity])?;
        let list = self.quote(&[quantity], None)?;
        let sampled = self.sampled(varying, sampling, &["/quote/total"], Some(quantity), watch)?;
        let spread = sampled.outputs.into_iter().next();
        let (unpriced, sample) = spread.map_or((sampling.count, None), |one| (one.undefined, one.sample));
        let Some(sample) = sample else { return Err(never_priced().into()) };
        let made = list.quotes.first().and_then(|quote| range(quote, &sample, list.rounding));
        let made = made.ok_or_else(|| too_large(quantity, false))?;
        Ok(PriceRange { count: sampling.count, unpriced, seed: sampling.seed, ..made })
    }
}

/// What a sample of totals tells; nothing where an amount is too large.
fn range(planned: &Quote, sample: &Sample, rounding: Rounding) -> Option<PriceRange> {
    let (quantity, decimals) = (planned.quantity, planned.total.decimals());
    let money = |value: f64| Amount::of(Exact::of_float(value), decimals, rounding).ok();
    let told = sample.percentiles(&PERCENTS).ok()?;
    let percentiles = PERCENTS.into_iter().zip(told).map(|(percent, told)| {
        let (total, price_each) = (money(told.value)?, money(told.value / quantity as f64)?);
        Some(PricePercentile { percent, total, price_each })
    });
    let as_planned = planned.total.to_f64();
    let above = sample.values().iter().filter(|total| **total > as_planned).count();
    let priced = sample.values().iter().filter(|total| !total.is_nan()).count();
    Some(PriceRange {
        quantity,
        currency: planned.currency.clone(),
        planned: planned.total,
        mean: money(sample.mean())?,
        sigma: Some(sample.sigma()).filter(|sigma| sigma.is_finite()).and_then(money),
        minimum: money(sample.minimum())?,
        maximum: money(sample.maximum())?,
        percentiles: percentiles.collect::<Option<_>>()?,
        above_planned: above as f64 / priced.max(1) as f64,
        count: 0,
        unpriced: 0,
        seed: 0,
    })
}

impl std::fmt::Display for PriceRange {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { quantity, currency, planned, percentiles, .. } = self;
        write!(f, "PriceRange: {quantity} for {planned} {currency} as planned")?;
        match (percentiles.first(), percentiles.last()) {
            (Some(low), Some(high)) => write!(f, ", {} to {} in 90 percent of cases", low.total, high.total),
            _ => Ok(()),
        }
    }
}

//! The quote of a plan: what a lot costs and sells for, line by line, from stated rates.
//!
//! Amounts are worked out in exact fractions and rounded once, a line at a time; the total is the sum of the lines.
mod compare;
mod faults;
mod job;
mod learning;
mod lines;
mod list;
mod on_sheet;
mod price_range;
mod result;
mod routings;

pub use compare::{
    CheaperRoute, EconomicLot, MAX_COMPARED, PriceDriver, PriceDrivers, RouteComparison, RouteStretch,
};
pub use faults::MAX_QUANTITIES;
pub use on_sheet::MAX_QUOTED_OPERATIONS;
pub use price_range::{PricePercentile, PriceRange};
pub use result::{GoverningPrice, PriceList, Quote, QuoteLine, QuoteLineKind};

pub use routings::{CheapestStretch, RoutingComparison, RoutingQuote};

use super::checked::Plan;
use super::rates::Rates;
use crate::document::DocumentError;
use faults::check;
use list::price_list;

impl Plan {
    /// The quotes for some quantities, from `rates` or from those of the document.
    ///
    /// ```
    /// let plan = tenths::Plan::from_json(include_str!("../../../../examples/plans/roller_axle.json"))?;
    /// let list = plan.quote(&[1, 25, 500], None)?;
    /// for quote in &list.quotes {
    ///     let sum: i64 = quote.lines.iter().map(|line| line.amount.minor()).sum();
    ///     assert_eq!(sum, quote.total.minor());
    ///     assert_eq!(quote.price_each.minor() * quote.quantity as i64, quote.total.minor());
    /// }
    /// # Ok::<(), tenths::DocumentError>(())
    /// ```
    ///
    /// # Errors
    /// [`DocumentError`] that names what is missing: the rates, a machine for an operation, a price of the material. And
    /// as [`Plan::evaluate`].
    pub fn quote(&self, quantities: &[u64], rates: Option<&Rates>) -> Result<PriceList, DocumentError> {
        check(quantities)?;
        let used = self.used(rates)?;
        price_list(self.document(), &self.unpriced()?, quantities, used, rates.is_some())
    }
}

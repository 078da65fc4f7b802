//! The quote of a plan: what a lot costs and sells for, line by line, from stated rates.
//!
//! Amounts are worked out in exact fractions and rounded once, a line at a time; the total is the sum of the lines.
mod compare;
mod faults;
mod job;
mod lines;
mod on_sheet;
mod result;

pub use compare::{
    CheaperRoute, EconomicLot, MAX_COMPARED, PriceDriver, PriceDrivers, RouteComparison, RouteStretch,
};
pub use faults::MAX_QUANTITIES;
pub use on_sheet::MAX_QUOTED_OPERATIONS;
pub use result::{GoverningPrice, PriceList, Quote, QuoteLine, QuoteLineKind};

use super::checked::Plan;
use super::rates::{PriceGoverns, Rates, TieRounding};
use super::sheet::Sheet;
use crate::document::DocumentError;
use crate::money::Rounding;
use faults::{check, too_large};
use job::Job;

/// What holds for every quote.
const CAUTION: &str = "A quote is a proposal from stated rates and planned times: check both against the shop's own figures \
                       before it goes out.";

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
        self.used(rates)?;
        self.price_list(&self.unpriced()?, quantities, rates)
    }

    fn price_list(
        &self,
        sheet: &Sheet,
        quantities: &[u64],
        rates: Option<&Rates>,
    ) -> Result<PriceList, DocumentError> {
        let used = self.used(rates)?;
        let job = Job::new(self, sheet, used, rates.is_some())?;
        let quote = |&quantity: &u64| job.quote(quantity).ok_or_else(|| too_large(quantity, rates.is_some()));
        let mut quotes = quantities.iter().map(quote).collect::<Result<Vec<_>, _>>()?;
        mark_cheaper(&mut quotes);
        Ok(PriceList {
            part: sheet.part.clone(),
            part_number: sheet.part_number.clone(),
            material: sheet.material.clone(),
            currency: used.currency.clone(),
            rounding: match used.rounding {
                TieRounding::HalfEven => Rounding::HalfEven,
                TieRounding::HalfUp => Rounding::HalfUp,
            },
            price_governs: match used.price_governs {
                PriceGoverns::Each => GoverningPrice::Each,
                PriceGoverns::Lot => GoverningPrice::Lot,
            },
            quotes,
            findings: job.findings,
            cautions: vec![CAUTION.into()],
        })
    }
}

/// Marks each quote that costs more than one of a greater quantity.
fn mark_cheaper(quotes: &mut [Quote]) {
    let mut totals: Vec<(u64, i64)> =
        quotes.iter().map(|quote| (quote.quantity, quote.total.minor())).collect();
    totals.sort_unstable();
    for quote in quotes {
        let mut greater = totals.iter().skip(totals.partition_point(|one| one.0 <= quote.quantity));
        quote.cheaper_at = greater.find(|one| one.1 < quote.total.minor()).map(|one| one.0);
    }
}

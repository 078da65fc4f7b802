//! The price list: the quotes of a document and its sheet.
use super::super::document::Document;
use super::super::rates::{PriceGoverns, Rates, TieRounding};
use super::super::sheet::Sheet;
use super::faults::too_large;
use super::job::Job;
use super::result::{GoverningPrice, PriceList, Quote};
use crate::document::DocumentError;
use crate::money::Rounding;

/// What holds for every quote.
const CAUTION: &str = "A quote is a proposal from stated rates and planned times: check both against the shop's own figures \
                       before it goes out.";

/// The quotes of a document and its sheet; `is_own` says whether the rates are a document of their own.
pub(super) fn price_list(
    document: &Document,
    sheet: &Sheet,
    quantities: &[u64],
    rates: &Rates,
    is_own: bool,
) -> Result<PriceList, DocumentError> {
    let job = Job::new(document, sheet, rates, is_own)?;
    let quote = |&quantity: &u64| job.quote(quantity).ok_or_else(|| too_large(quantity, is_own));
    let mut quotes = quantities.iter().map(quote).collect::<Result<Vec<_>, _>>()?;
    mark_cheaper(&mut quotes);
    Ok(PriceList {
        part: sheet.part.clone(),
        part_number: sheet.part_number.clone(),
        material: sheet.material.clone(),
        currency: rates.currency.clone(),
        rounding: match rates.rounding {
            TieRounding::HalfEven => Rounding::HalfEven,
            TieRounding::HalfUp => Rounding::HalfUp,
        },
        price_governs: match rates.price_governs {
            PriceGoverns::Each => GoverningPrice::Each,
            PriceGoverns::Lot => GoverningPrice::Lot,
        },
        quotes,
        findings: job.findings,
        cautions: vec![CAUTION.into()],
    })
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

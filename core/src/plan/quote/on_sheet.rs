//! The quote on the sheet: of the plan's own quantity, by the plan's own rates.
use super::super::document::Document;
use super::super::sheet::{QuotedLine, QuotedLines, Sheet};
use super::list::price_list;
use super::result::{PriceList, Quote, QuoteLine};
use crate::document::DocumentError;
use crate::document::fault::Place;
use crate::finding::{Finding, FindingCode};

/// The most operations of a plan whose sheet has its quote, so that the longest documents take bounded memory.
pub const MAX_QUOTED_OPERATIONS: usize = 10_000;

impl Document {
    /// A sheet with its quote for a quantity, where the plan has rates. A plan whose rates do not cover it has a sheet all the
    /// same, with a finding that says what is missing.
    pub(in crate::plan) fn with_quote(&self, mut sheet: Sheet, quantity: u64) -> Sheet {
        let Some(rates) = &self.rates else { return sheet };
        let count = sheet.operations.len();
        if count > MAX_QUOTED_OPERATIONS {
            let message = format!(
                "the plan cannot be quoted on its sheet: it has {count} operations, and a sheet quotes at most {MAX_QUOTED_OPERATIONS}"
            );
            let place = Place::ROOT.field("operations").pointer();
            add(
                &mut sheet,
                FindingCode::NotQuoted.found(place, message, "quote the plan apart from its sheet"),
            );
            return sheet;
        }
        match price_list(self, &sheet, &[quantity], rates, false) {
            Ok(list) => sheet.quote = lines(list),
            Err(error) => not_quoted(&error).into_iter().for_each(|finding| add(&mut sheet, finding)),
        }
        sheet
    }
}

/// Adds a finding, the gravest first.
fn add(sheet: &mut Sheet, finding: Finding) {
    sheet.findings.push(finding);
    sheet.findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
}

fn lines(list: PriceList) -> Option<QuotedLines> {
    let PriceList { quotes, findings, cautions, .. } = list;
    let Quote { quantity, start_quantity, hours, lines, total, price_each, currency, .. } =
        quotes.into_iter().next()?;
    let line = |QuoteLine { name, operation, amount, basis, .. }: QuoteLine| QuotedLine {
        name,
        operation,
        amount: amount.to_string(),
        basis,
    };
    Some(QuotedLines {
        currency,
        quantity,
        start_quantity,
        hours,
        lines: lines.into_iter().map(line).collect(),
        total: total.to_string(),
        price_each: price_each.to_string(),
        findings,
        cautions,
    })
}

/// The first thing that is missing, and how many more are.
fn not_quoted(error: &DocumentError) -> Option<Finding> {
    let fault = error.faults().first()?;
    let (message, remedy) =
        fault.message.split_once(". Fix: ").unwrap_or((&fault.message, "correct or complete `rates`"));
    let more = match error.count() {
        0 | 1 => String::new(),
        count => format!(" (and {} more)", count - 1),
    };
    let message = format!("the plan cannot be quoted: {}: {message}{more}", fault.place);
    Some(FindingCode::NotQuoted.found(fault.place.clone(), message, remedy.to_owned()))
}

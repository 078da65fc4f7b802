//! The quote, for the customer or the file.
use super::SheetError;
use super::words::cautions;
use crate::finding::{Finding, FindingCode};
use crate::page::{Part, Shown, Table, plain, shown};
use crate::plan::sheet::*;

impl Sheet {
    pub(super) fn quoted<'s>(&'s self) -> Result<Vec<Part<'s>>, SheetError> {
        let quote = self.quote.as_ref().ok_or_else(|| self.unquoted())?;
        let QuotedLines { currency, quantity, start_quantity, hours, lines, total, price_each, .. } = quote;
        let row = |line: &'s QuotedLine| -> [Shown<'s>; 4] {
            let operation = line.operation.map_or("".into(), |number| number.to_string().into());
            [operation, (&*line.name).into(), (&*line.amount).into(), (&*line.basis).into()]
        };
        let sum = ["", "Total", total, ""].map(Shown::Borrowed);
        let each = ["", "Price each", price_each, ""].map(Shown::Borrowed);
        let rows = lines.iter().map(row).chain([sum, each]);
        let pieces = shown::count(*quantity, "piece");
        let made = format!(
            "{pieces} of {}. Amounts are in {currency}. {start_quantity} are started; the lot takes {} in the shop.",
            self.material,
            shown::time(60.0 * hours)
        );
        let found = quote.findings.iter().map(|finding| self.finding(finding)).collect();
        let mut parts = vec![
            Part::Paragraph(plain(made)),
            Part::List(found),
            Part::Table(Table::new(["operation", "what", "amount", "basis"], rows)),
            cautions(&quote.cautions),
        ];
        parts.extend(self.foot());
        Ok(parts)
    }

    /// Why there is no quote.
    fn unquoted(&self) -> SheetError {
        let told = self.findings.iter().find(|finding| finding.code == FindingCode::NotQuoted.name());
        match told {
            Some(Finding { message, remedy, .. }) => {
                SheetError::NotQuoted(format!("{message}. Fix: {remedy}"))
            }
            None => SheetError::NoRates,
        }
    }
}

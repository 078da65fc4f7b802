//! The quote, for the customer or the file.
use super::SheetError;
use super::words::cautions;
use crate::finding::{Finding, FindingCode};
use crate::page::{Part, Table, plain, shown};
use crate::plan::sheet::*;

impl Sheet {
    pub(super) fn quoted(&self) -> Result<Vec<Part>, SheetError> {
        let quote = self.quote.as_ref().ok_or_else(|| self.unquoted())?;
        let QuotedLines { currency, quantity, start_quantity, hours, lines, total, price_each, .. } = quote;
        let row = |line: &QuotedLine| {
            let operation = line.operation.map_or(String::new(), |number| number.to_string());
            [operation, line.name.clone(), line.amount.clone(), line.basis.clone()]
        };
        let sum = [String::new(), "Total".into(), total.clone(), String::new()];
        let each = [String::new(), "Price each".into(), price_each.clone(), String::new()];
        let rows = lines.iter().map(row).chain([sum, each]).collect();
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

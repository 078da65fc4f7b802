//! The quote, for the customer or the file.
use super::SheetError;
use super::words::cautions;
use crate::page::{Part, Table, plain, shown};
use crate::plan::sheet::*;

impl Sheet {
    pub(super) fn quoted(&self) -> Result<Vec<Part>, SheetError> {
        let quote = self.quote.as_ref().ok_or(SheetError::NoRates)?;
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
        let mut parts = vec![
            Part::Paragraph(plain(made)),
            Part::Table(Table::new(["operation", "what", "amount", "basis"], rows)),
            cautions(&quote.cautions),
        ];
        parts.extend(self.foot());
        Ok(parts)
    }
}

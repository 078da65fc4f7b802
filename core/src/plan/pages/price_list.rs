//! A price list, for the customer or the file: the quotes for some quantities, each line by line.
use crate::finding::Finding;
use crate::page::{Page, Part, Shown, Table, Words, plain, shown, with_names};
use crate::plan::quote::{PriceList, Quote};

impl PriceList {
    /// The price list as Markdown that reads well in a terminal too.
    pub fn to_markdown(&self) -> String {
        self.page().to_markdown()
    }

    /// The price list as one HTML file that needs nothing else, and prints on A4 and Letter.
    pub fn to_html(&self) -> String {
        self.page().to_html()
    }

    fn page<'s>(&'s self) -> Page<'s> {
        let number = self.part_number.as_ref().map_or(String::new(), |number| format!(" ({number})"));
        let lead = format!(
            "{}. Amounts are in {}, each line rounded once, {}.",
            self.material,
            self.currency,
            self.rounding.name().replace('_', " ")
        );
        let row = |quote: &Quote| {
            let cells = [
                quote.quantity.to_string(),
                quote.start_quantity.to_string(),
                shown::time(60.0 * quote.hours),
                quote.price_each.to_string(),
                quote.total.to_string(),
                quote.cheaper_at.map_or(String::new(), |count| format!("{count} pieces cost less in all")),
            ];
            cells.map(Shown::Owned)
        };
        let head = ["pieces", "started", "time in the shop", "price each", "total", "note"];
        let found = |Finding { message, remedy, .. }: &'s Finding| -> Words<'s> {
            let mut words = plain(format!("{message}. Fix: "));
            words.extend(with_names(remedy));
            words
        };
        let mut parts = vec![
            Part::Paragraph(plain(lead)),
            Part::Table(Table::new(head, self.quotes.iter().map(row))),
            Part::List(self.findings.iter().map(found).collect()),
            Part::Cautions(self.cautions.iter().map(|caution| plain(&**caution)).collect()),
        ];
        parts.extend(self.quotes.iter().flat_map(lines));
        Page { kind: "Quote", title: format!("{}{number}", self.part), parts }
    }
}

/// The lines of a quote under its heading.
fn lines<'s>(quote: &'s Quote) -> [Part<'s>; 2] {
    let row = |operation: Option<u64>, what: &'s str, amount: String, basis: &'s str| -> [Shown<'s>; 4] {
        let operation = operation.map_or("".into(), |number| number.to_string().into());
        [operation, what.into(), amount.into(), basis.into()]
    };
    let own =
        quote.lines.iter().map(|line| row(line.operation, &line.name, line.amount.to_string(), &line.basis));
    let sums = [
        row(None, "Total", quote.total.to_string(), ""),
        row(None, "Price each", quote.price_each.to_string(), ""),
    ];
    let table = Table::new(["operation", "what", "amount", "basis"], own.chain(sums));
    [Part::Heading(shown::count(quote.quantity, "piece").into()), Part::Table(table)]
}

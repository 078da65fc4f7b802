//! A first article as a page to print: the form to fill in, or what was filled in.
use super::verdict::{exact, units_for};
use super::{CharacteristicVerdict, FirstArticle};
use crate::finding::Finding;
use crate::inspect::decision::Verdict;
use crate::page::{Page, Part, Span, Table, Words, plain, shown, with_names};
use crate::size::Size;

const HEAD: [&str; 13] = [
    "No.",
    "characteristic",
    "limits",
    "inspection",
    "gauge",
    "piece",
    "measured",
    "measured with",
    "verdict",
    "deviation",
    "tolerance used",
    "by",
    "date",
];

impl FirstArticle {
    /// As Markdown: the form to fill in, or what was filled in. Text shows as it was written.
    pub fn to_markdown(&self) -> String {
        self.page().to_markdown()
    }

    /// As one HTML file that needs nothing else, and prints on A4 and Letter: the form to fill in, or what was filled in.
    pub fn to_html(&self) -> String {
        self.page().to_html()
    }

    fn page(&self) -> Page {
        let number = self.part_number.as_ref().map_or(String::new(), |number| format!(" ({number})"));
        let pieces = shown::count(self.pieces.into(), "piece");
        let (units, rule) = (self.units.name(), self.rule.name());
        let lead = format!("{pieces}, units {units}, decision rule {rule} ({}).", self.standard());
        let mut parts = vec![Part::Paragraph(plain(lead))];
        if self.is_measured() {
            let verdict = if self.accepted() { "ACCEPTED" } else { "NOT ACCEPTED" };
            let words =
                [Span::Plain("Result: ".into()), Span::Strong(verdict.into()), Span::Plain(".".into())];
            parts.push(Part::Paragraph(words.into()));
        }
        parts.push(Part::Table(Table::new(HEAD, self.verdicts.iter().map(|line| self.row(line)).collect())));
        parts.extend(self.lists());
        parts.push(Part::Signatures(&["Inspected by", "Approved by"]));
        parts.push(Part::List(vec![
            plain("This proves the pieces that were measured, not those that follow."),
            plain(format!("SHA-256 of the plan: {}", self.sha256)),
        ]));
        Page { kind: "First article", title: format!("{}{number}", self.part), parts }
    }

    fn is_measured(&self) -> bool {
        self.verdicts.iter().any(|line| line.verdict.is_some())
    }

    fn row(&self, line: &CharacteristicVerdict) -> [String; 13] {
        // A blank keeps a column to fill in; one of figures that follow, or of names that are signed for below, is left out.
        let blank = |text: Option<String>| text.unwrap_or_else(|| " ".into());
        let size = |size: Option<Size>| size.map_or(String::new(), |size| exact(size, self.units));
        let measured = line.measured.map(|size| exact(size, self.units)).or_else(|| line.gauged.clone());
        let verdict = line.verdict.map(|verdict| match verdict {
            Verdict::Conforming => verdict.name().to_string(),
            verdict => verdict.name().to_uppercase(),
        });
        [
            line.number.to_string(),
            line.name.clone(),
            line.limits.format(units_for(line.limits.tolerance(), self.units)),
            line.inspection.clone(),
            line.gauge.clone().unwrap_or_default(),
            if self.pieces == 1 { String::new() } else { line.piece.to_string() },
            blank(measured),
            blank(line.measured_with.clone()),
            blank(verdict),
            size(line.deviation),
            line.share.map_or(String::new(), |share| format!("{:.0} %", 100.0 * share)),
            line.by.clone().unwrap_or_default(),
            line.date.clone().unwrap_or_default(),
        ]
    }

    /// What the table does not say, each under its heading.
    fn lists(&self) -> Vec<Part> {
        let of = |list: &[u32]| {
            let numbers = list.iter().map(u32::to_string).collect::<Vec<_>>().join(", ");
            if list.is_empty() { vec![] } else { vec![plain(format!("No. {numbers}"))] }
        };
        let told = |list: &[String]| list.iter().map(plain).collect::<Vec<Words>>();
        let found = |Finding { message, remedy, .. }: Finding| {
            let mut words = plain(format!("{message}. Fix: "));
            words.extend(with_names(&remedy));
            words
        };
        // A form that is still empty lacks every reading.
        let missing = if self.is_measured() { of(&self.missing) } else { vec![] };
        let lists = [
            ("Readings still missing", missing),
            ("Readings of no characteristic of the plan", of(&self.surplus)),
            ("Capability", self.findings().into_iter().map(found).collect()),
            ("Readings to check", told(&self.remarks)),
            ("Not judged here", told(&self.not_judged)),
        ];
        let lists = lists.into_iter().filter(|(_, entries)| !entries.is_empty());
        lists.flat_map(|(title, entries)| [Part::Heading(title.into()), Part::List(entries)]).collect()
    }
}

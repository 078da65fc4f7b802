//! A first article as a page to print: the form to fill in, or what was filled in.
use super::verdict::{exact, units_for};
use super::{CharacteristicVerdict, FirstArticle};
use crate::finding::Finding;
use crate::inspect::decision::Verdict;
use crate::page::{Page, Part, Shown, Span, Table, Words, plain, shown, with_names};
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

    fn page(&self) -> Page<'_> {
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
        parts.push(Part::Table(Table::new(HEAD, self.verdicts.iter().map(|line| self.row(line)))));
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

    fn row<'s>(&self, line: &'s CharacteristicVerdict) -> [Shown<'s>; 13] {
        // A blank keeps a column to fill in; one of figures that follow, or of names that are signed for below, is left out.
        let blank = |text: Option<Shown<'s>>| text.unwrap_or(" ".into());
        let size = |size: Option<Size>| size.map_or("".into(), |size| exact(size, self.units).into());
        let gauged = || line.gauged.as_deref().map(Shown::Borrowed);
        let measured = line.measured.map(|size| exact(size, self.units).into()).or_else(gauged);
        let verdict = line.verdict.map(|verdict| match verdict {
            Verdict::Conforming => verdict.name().into(),
            verdict => verdict.name().to_uppercase().into(),
        });
        let or_empty = |text: &'s Option<String>| text.as_deref().unwrap_or_default().into();
        [
            line.number.to_string().into(),
            (&*line.name).into(),
            line.limits.format(units_for(line.limits.tolerance(), self.units)).into(),
            (&*line.inspection).into(),
            or_empty(&line.gauge),
            if self.pieces == 1 { "".into() } else { line.piece.to_string().into() },
            blank(measured),
            blank(line.measured_with.as_deref().map(Shown::Borrowed)),
            blank(verdict),
            size(line.deviation),
            line.share.map_or("".into(), |share| format!("{:.0} %", 100.0 * share).into()),
            or_empty(&line.by),
            or_empty(&line.date),
        ]
    }

    /// What the table does not say, each under its heading.
    fn lists<'s>(&'s self) -> Vec<Part<'s>> {
        let of = |list: &[u32]| {
            let numbers = list.iter().map(u32::to_string).collect::<Vec<_>>().join(", ");
            if list.is_empty() { vec![] } else { vec![plain(format!("No. {numbers}"))] }
        };
        let told = |list: &'s [String]| list.iter().map(|line| plain(&**line)).collect::<Vec<Words<'s>>>();
        let found = |Finding { message, remedy, .. }: Finding| {
            let mut words = plain(format!("{message}. Fix: "));
            words.extend(with_names(&remedy).into_iter().map(Span::into_owned));
            words
        };
        // A form that is still empty lacks every reading.
        let missing = if self.is_measured() { of(&self.missing) } else { vec![] };
        let lists = [
            ("Readings still missing", missing),
            ("Readings for numbers that are not in the plan", of(&self.surplus)),
            ("Capability", self.findings().into_iter().map(found).collect()),
            ("Readings to check", told(&self.remarks)),
            ("Not judged here", told(&self.not_judged)),
        ];
        let lists = lists.into_iter().filter(|(_, entries)| !entries.is_empty());
        lists.flat_map(|(title, entries)| [Part::Heading(title.into()), Part::List(entries)]).collect()
    }
}

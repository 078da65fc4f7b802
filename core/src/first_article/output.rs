//! A first article as Markdown, CSV and JSON. CSV reads back as the same readings.
use super::verdict::{exact, units_for};
use super::{CharacteristicVerdict, FirstArticle};
use crate::page::markup::{entry, escaped, table};
use crate::quantity::Units;
use crate::size::Size;
use serde_json::{Value, json};
use std::fmt::Write;

impl FirstArticle {
    /// As Markdown: the form to fill in, or what was filled in. Text shows as it was written.
    pub fn to_markdown(&self) -> String {
        let mut text = String::new();
        let number =
            self.part_number.as_ref().map_or(String::new(), |number| format!(" ({})", escaped(number)));
        // Writing to a String does not fail.
        let _ = writeln!(text, "# First article: {}{number}\n", escaped(&self.part));
        let pieces = if self.pieces == 1 { "piece" } else { "pieces" };
        let _ = writeln!(
            text,
            "{} {pieces}, units {}, decision rule {} ({}).\n",
            self.pieces,
            self.units.name(),
            self.rule.name(),
            self.standard()
        );
        if self.verdicts.iter().any(|line| line.verdict.is_some()) {
            let verdict = if self.accepted() { "ACCEPTED" } else { "NOT ACCEPTED" };
            let _ = writeln!(text, "Result: **{verdict}**.\n");
        }
        let rows: Vec<_> = self.verdicts.iter().map(|line| self.row(line).into()).collect();
        table(&mut text, &HEAD, &rows);
        self.write_lists(&mut text);
        text.push_str("Inspected by:                              Date:\n\n");
        text.push_str("Approved by:                               Date:\n\n");
        entry(&mut text, "This proves the pieces that were measured, not those that follow.");
        let _ = writeln!(text, "- SHA-256 of the plan: {}", self.sha256);
        text
    }

    fn row(&self, line: &CharacteristicVerdict) -> [String; 13] {
        // A blank keeps the column, which the table would leave out.
        let blank = |text: Option<String>| text.unwrap_or_else(|| " ".into());
        let size = |size: Option<Size>| blank(size.map(|size| exact(size, self.units)));
        let measured = line.measured.map(|size| exact(size, self.units)).or_else(|| line.gauged.clone());
        let verdict = line.verdict.map(|verdict| match verdict {
            super::Verdict::Conforming => verdict.name().to_string(),
            verdict => verdict.name().to_uppercase(),
        });
        let own = |text: &Option<String>| blank(text.as_deref().map(escaped));
        [
            line.number.to_string(),
            escaped(&line.name),
            line.limits.format(units_for(line.limits.tolerance(), self.units)),
            escaped(&line.inspection),
            line.gauge.clone().unwrap_or_default(),
            if self.pieces == 1 { String::new() } else { line.piece.to_string() },
            blank(measured),
            own(&line.measured_with),
            blank(verdict),
            size(line.deviation),
            blank(line.share.map(|share| format!("{:.0} %", 100.0 * share))),
            own(&line.by),
            own(&line.date),
        ]
    }

    fn write_lists(&self, text: &mut String) {
        let numbers = |list: &[u32]| list.iter().map(u32::to_string).collect::<Vec<_>>().join(", ");
        let mut list = |title: &str, entries: Vec<String>| {
            if !entries.is_empty() {
                let _ = writeln!(text, "## {title}\n");
                entries.iter().for_each(|one| entry(text, one));
                text.push('\n');
            }
        };
        let measured = self.verdicts.iter().any(|line| line.verdict.is_some());
        let of = |list: &[u32]| if list.is_empty() { vec![] } else { vec![format!("No. {}", numbers(list))] };
        list("Readings still missing", if measured { of(&self.missing) } else { vec![] });
        list("Readings of no characteristic of the plan", of(&self.surplus));
        let findings = self.findings();
        let found =
            findings.iter().map(|found| format!("{}. Fix: {}", escaped(&found.message), found.remedy));
        list("Capability", found.collect());
        list("Readings to check", self.remarks.iter().map(|remark| escaped(remark)).collect());
        list("Not judged here", self.not_judged.iter().map(|one| escaped(one)).collect());
    }

    /// As CSV by RFC 4180, with headings; with a `decimal_comma` the cells are apart by semicolons.
    ///
    /// [`super::ReadingTable::from_csv`] reads it back. Text that a spreadsheet would take for a formula has a quote
    /// before it.
    pub fn to_csv(&self, decimal_comma: bool) -> String {
        let delimiter = if decimal_comma { ';' } else { ',' };
        let mut text = String::new();
        line_of(&mut text, delimiter, COLUMNS.map(String::from));
        for line in &self.verdicts {
            let number = |text: String| if decimal_comma { text.replace('.', ",") } else { text };
            let size = |size: Size| match units_for(size, self.units) == self.units {
                true => number(size.decimal(self.units)),
                false => number(exact(size, self.units)),
            };
            let own = |text: &Option<String>| guarded(text.as_deref().unwrap_or_default());
            let cells = [
                line.number.to_string(),
                guarded(&line.name),
                size(line.limits.lower()),
                size(line.limits.upper()),
                ["in", "mm"][usize::from(self.units == Units::Metric)].into(),
                guarded(&line.inspection),
                own(&line.gauge),
                line.piece.to_string(),
                line.measured.map(size).or_else(|| line.gauged.clone()).unwrap_or_default(),
                own(&line.measured_with),
                line.verdict.map_or("", |verdict| verdict.name()).into(),
                line.deviation.map(size).unwrap_or_default(),
                line.share.map(|share| number(format!("{share:.4}"))).unwrap_or_default(),
                own(&line.by),
                own(&line.date),
            ];
            line_of(&mut text, delimiter, cells);
        }
        text
    }

    /// As JSON. Sizes are exact decimals as text, in the units of the plan.
    pub fn to_json(&self) -> String {
        let size = |size: Option<Size>| size.map(|size| exact(size, self.units));
        let verdict = |line: &CharacteristicVerdict| {
            json!({
                "number": line.number,
                "name": line.name,
                "piece": line.piece,
                "lower": exact(line.limits.lower(), self.units),
                "upper": exact(line.limits.upper(), self.units),
                "nominal": exact(line.limits.nominal(), self.units),
                "inspection": line.inspection,
                "gauge": line.gauge,
                "measured": size(line.measured),
                "gauged": line.gauged,
                "measured_with": line.measured_with,
                "verdict": line.verdict.map(|verdict| verdict.name()),
                "deviation": size(line.deviation),
                "beyond": size(line.beyond),
                "share": line.share,
                "by": line.by,
                "date": line.date,
                "capability": line.capability,
            })
        };
        json!({
            "part": self.part,
            "part_number": self.part_number,
            "units": self.units.name(),
            "pieces": self.pieces,
            "rule": self.rule.name(),
            "standard": self.standard(),
            "accepted": self.accepted(),
            "verdicts": self.verdicts.iter().map(verdict).collect::<Vec<Value>>(),
            "missing": self.missing,
            "surplus": self.surplus,
            "not_judged": self.not_judged,
            "findings": self.findings(),
            "remarks": self.remarks,
            "sha256": self.sha256,
        })
        .to_string()
    }
}

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

const COLUMNS: [&str; 15] = [
    "number",
    "characteristic",
    "lower limit",
    "upper limit",
    "unit",
    "inspection",
    "gauge",
    "piece",
    "measured",
    "measured with",
    "verdict",
    "deviation",
    "share of tolerance",
    "by",
    "date",
];

/// Text with a quote before it where a spreadsheet would take it for a formula.
fn guarded(text: &str) -> String {
    let is_formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if is_formula { format!("'{text}") } else { text.into() }
}

fn line_of<const N: usize>(text: &mut String, delimiter: char, cells: [String; N]) {
    for (place, cell) in cells.iter().enumerate() {
        if place > 0 {
            text.push(delimiter);
        }
        match cell.contains([delimiter, '"', '\n', '\r']) || cell.trim() != cell {
            true => {
                text.push('"');
                text.push_str(&cell.replace('"', "\"\""));
                text.push('"');
            }
            false => text.push_str(cell),
        }
    }
    text.push_str("\r\n");
}

//! A first article as CSV and JSON. CSV reads back as the same readings.
use super::verdict::{exact, units_for};
use super::{CharacteristicVerdict, FirstArticle};
use crate::quantity::Units;
use crate::size::Size;
use serde_json::{Value, json};

impl FirstArticle {
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

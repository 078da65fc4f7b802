//! The process sheet as Markdown that reads well in a terminal too.
use super::sheet::*;
use crate::finding::{Finding, Severity};
use std::fmt::Write;

/// A table whose columns are padded, so that it lines up as plain text, but for cells of inordinate length.
fn table(text: &mut String, head: &[&str], rows: &[Vec<String>]) {
    const WIDEST: usize = 60;
    let width = |k: usize| {
        let cells = rows.iter().map(|row| row[k].chars().count());
        cells.chain([head[k].chars().count(), 3]).filter(|&width| width <= WIDEST).max().unwrap_or(3)
    };
    let widths: Vec<usize> = (0..head.len()).map(width).collect();
    let mut line = |cells: &mut dyn Iterator<Item = &str>| {
        for (cell, width) in cells.zip(&widths) {
            // Writing to a String does not fail.
            let _ = write!(text, "| {cell:width$} ");
        }
        text.push_str("|\n");
    };
    line(&mut head.iter().copied());
    let rules: Vec<String> = widths.iter().map(|width| "-".repeat(*width)).collect();
    line(&mut rules.iter().map(String::as_str));
    for row in rows {
        line(&mut row.iter().map(String::as_str));
    }
    text.push('\n');
}

/// An entry of a list, in lines that a terminal can show.
fn entry(text: &mut String, words: &str) {
    const WIDTH: usize = 98;
    let mut room = 0;
    for word in words.split_whitespace() {
        let length = word.chars().count();
        let lead = match room {
            0 if text.ends_with('\n') || text.is_empty() => "- ",
            room if room < length + 1 => "\n  ",
            _ => " ",
        };
        room = if lead == " " { room - length - 1 } else { WIDTH.saturating_sub(length) };
        text.push_str(lead);
        text.push_str(word);
    }
    text.push('\n');
}

/// Text from the document as a cell of a table.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace(['\n', '\r'], " ")
}

/// Five significant digits, without zeros at the end; only for the eye.
fn number(value: f64) -> String {
    let size = value.abs();
    if size != 0.0 && !(1e-4..1e7).contains(&size) {
        return format!("{value:.4e}");
    }
    let places = match size {
        0.0..1.0 => 5,
        1.0..10.0 => 4,
        10.0..100.0 => 3,
        100.0..1e3 => 2,
        1e3..1e4 => 1,
        _ => 0,
    };
    let text = format!("{value:.places$}");
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').into(),
        false => text,
    }
}

fn figure_row(figure: &Figure) -> Vec<String> {
    let judged = figure.judged.map_or(String::new(), |Judged { lower, upper, within }| {
        let verdict = if within { "within" } else { "OUTSIDE" };
        format!("{verdict} {} to {}", number(lower), number(upper))
    });
    vec![figure.name.into(), number(figure.value), figure.unit.into(), judged]
}

fn count_of(count: f64, what: &str) -> String {
    format!("{count} {what}{}", if count == 1.0 { "" } else { "s" })
}

/// Limits with what they are stated by.
fn stated(limits: &str, designation: &Option<String>) -> String {
    designation.as_ref().map_or(limits.into(), |designation| format!("{limits} ({designation})"))
}

fn list(numbers: impl Iterator<Item = String>) -> String {
    numbers.collect::<Vec<_>>().join(", ")
}

impl Sheet {
    /// The sheet as Markdown.
    pub fn to_markdown(&self) -> String {
        let mut text = String::new();
        let number_text = self.part_number.as_ref().map_or(String::new(), |n| format!(" ({})", cell(n)));
        let _ = writeln!(text, "# Process sheet: {}{number_text}\n", cell(&self.part));
        let _ = writeln!(
            text,
            "Quantity {}, {}, units {}.\n",
            self.quantity,
            cell(&self.material),
            self.units.name()
        );
        self.write_findings(&mut text);
        self.write_characteristics(&mut text);
        self.write_bar(&mut text);
        for operation in &self.operations {
            write_operation(&mut text, operation);
        }
        let _ = writeln!(text, "All operations: {} min a part.\n", number(self.minutes_per_part));
        if let Some(joint) = &self.joint {
            write_joint(&mut text, joint);
        }
        for stack in &self.stacks {
            write_stack(&mut text, stack);
        }
        self.write_gauges(&mut text);
        text.push_str("## Cautions\n");
        for caution in &self.cautions {
            entry(&mut text, caution);
        }
        let Stamp { tenths, document, sha256, tables } = &self.stamp;
        let tables: String = tables.iter().map(|table| format!(", {table}")).collect();
        let _ = writeln!(text, "\ntenths {tenths}, document version {document}{tables}  ");
        let _ = writeln!(text, "SHA-256 of the plan: {sha256}");
        text
    }

    fn write_findings(&self, text: &mut String) {
        text.push_str("## Findings\n");
        for finding in &self.findings {
            let weight = match finding.severity {
                Severity::Note => "Note",
                Severity::Warning => "Warning",
                Severity::Error => "ERROR",
            };
            let Finding { place, message, remedy, .. } = finding;
            let message = cell(message);
            entry(text, &format!("**{weight}** at `{place}`: {message}. To mend it, {remedy}."));
        }
        if self.findings.is_empty() {
            text.push_str("None.\n");
        }
        text.push('\n');
    }

    fn write_characteristics(&self, text: &mut String) {
        text.push_str("## Drawing, and first-article list\n");
        let mut rows: Vec<_> = self
            .characteristics
            .iter()
            .map(|c| {
                let met = match (c.bought, c.made_by.is_empty()) {
                    (true, _) => "as bought".into(),
                    (_, false) => format!("operation {}", list(c.made_by.iter().map(usize::to_string))),
                    (false, true) => "NOT MET".into(),
                };
                let before = c.before_plating.clone().unwrap_or_default();
                vec![
                    c.number.to_string(),
                    cell(&c.name),
                    stated(&c.limits, &c.designation),
                    c.requirement.into(),
                    before,
                    met,
                    cell(&c.inspection),
                ]
            })
            .collect();
        let mut head =
            vec!["No.", "characteristic", "limits", "form", "before plating", "met by", "inspection"];
        if self.characteristics.iter().all(|c| c.before_plating.is_none()) {
            const BEFORE_PLATING: usize = 4;
            head.remove(BEFORE_PLATING);
            rows.iter_mut().for_each(|row| drop(row.remove(BEFORE_PLATING)));
        }
        table(text, &head, &rows);
    }

    fn write_bar(&self, text: &mut String) {
        let BarLines { section, designation, length, part_length, parts_per_bar, bars } = &self.bar;
        let _ = writeln!(text, "## Bar\nThe bar is {}, {length} long.", stated(section, designation));
        if let (Some(part), Some(count)) = (part_length, parts_per_bar) {
            let _ =
                writeln!(text, "A part takes {part} and the kerf: {} from a bar.", count_of(*count, "part"));
        }
        if let Some(bars) = bars {
            let _ =
                writeln!(text, "{} for {}.", count_of(*bars, "bar"), count_of(self.quantity.into(), "part"));
        }
        text.push('\n');
    }

    fn write_gauges(&self, text: &mut String) {
        if self.gauges.is_empty() {
            return;
        }
        text.push_str("## Gauges\n");
        let rows: Vec<_> = self
            .gauges
            .iter()
            .map(|g| {
                let what = g.characteristic.map_or("hub bore".into(), |n| format!("No. {n}"));
                let class = format!("{} ({})", g.class, g.basis);
                vec![what, g.form.name().into(), class, g.go.clone(), g.no_go.clone()]
            })
            .collect();
        table(text, &["for", "form", "class", "GO", "NO-GO"], &rows);
        for gauge in &self.gauges {
            let what = gauge.characteristic.map_or("Hub bore".into(), |n| format!("No. {n}"));
            entry(text, &format!("{what}, GO: {}", gauge.go_proves));
            entry(text, &format!("{what}, NO-GO: {}", gauge.no_go_proves));
        }
        text.push('\n');
    }
}

fn write_operation(text: &mut String, operation: &OperationLines) {
    let OperationLines { number: place, name, characteristics, figures, minutes_per_part } = operation;
    let _ = writeln!(text, "## Operation {place}: {}", cell(name));
    if !characteristics.is_empty() {
        let plural = if characteristics.len() == 1 { "" } else { "s" };
        let _ =
            writeln!(text, "Characteristic{plural} {}.", list(characteristics.iter().map(u32::to_string)));
    }
    let _ = writeln!(text, "{} min a part.\n", number(*minutes_per_part));
    if !figures.is_empty() {
        write_figures(text, figures);
    }
}

fn write_stack(text: &mut String, stack: &StackLines) {
    let StackLines { name, wanted, worst_case, figures, sampled, contributions, .. } = stack;
    let closes = |closes: bool| if closes { "closes" } else { "DOES NOT CLOSE" };
    let _ = writeln!(text, "## Stack: {}\nWanted {wanted}; worst case {worst_case}.", cell(name));
    let _ = writeln!(
        text,
        "In the worst case it {}, statistically it {}.\n",
        closes(stack.closes_in_worst_case),
        closes(stack.closes_statistically)
    );
    write_figures(text, figures);
    if let Some(SampledLines { count, seed, fraction_out, fraction_out_lower, fraction_out_upper, .. }) =
        sampled
    {
        let [out, lower, upper] = [fraction_out, fraction_out_lower, fraction_out_upper].map(|x| number(*x));
        let _ = writeln!(
            text,
            "Of {count} drawn assemblies (seed {seed}) {out} lie out; with 95 percent confidence {lower} to {upper} do.\n"
        );
    }
    let rows: Vec<_> = contributions
        .iter()
        .map(|one| {
            let percents = [one.worst_case, one.rss, one.variance].map(|percent| format!("{percent:.1}"));
            [cell(&one.name), one.limits.clone()].into_iter().chain(percents).collect()
        })
        .collect();
    table(text, &["contributor", "limits", "% worst case", "% sum of squares", "% variance"], &rows);
}

fn write_joint(text: &mut String, joint: &JointLines) {
    let is_plain = joint.kind == "plain";
    let (title, with_lower, with_higher) = match is_plain {
        true => ("Pressed joint", ", with the lower friction", ", with the higher friction"),
        false => ("Knurled joint: an ESTIMATE", "", ""),
    };
    let what = if is_plain { "Interference" } else { "The crests overlap the bore by" };
    let JointLines { least_interference: least, greatest_interference: greatest, .. } = joint;
    let bore = stated(&joint.bore, &joint.bore_designation);
    let _ = writeln!(text, "## {title}\nThe bore is {bore}. {what} {least} to {greatest}.\n");
    for (title, friction, figures) in
        [("At its loosest", with_lower, &joint.loosest), ("At its tightest", with_higher, &joint.tightest)]
    {
        if !figures.is_empty() {
            let _ = writeln!(text, "{title}{friction}:\n");
            write_figures(text, figures);
        }
    }
}

/// Figures as a table, with what was recommended where some are judged.
fn write_figures(text: &mut String, figures: &[Figure]) {
    let mut rows: Vec<_> = figures.iter().map(figure_row).collect();
    let mut head = vec!["figure", "value", "unit", "recommended"];
    if figures.iter().all(|figure| figure.judged.is_none()) {
        head.pop();
        rows.iter_mut().for_each(|row| drop(row.pop()));
    }
    table(text, &head, &rows);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entries_break_between_words() {
        let mut text = String::from("above\n");
        let long = "x".repeat(120);
        entry(&mut text, &format!("{} {long} {}", "ab ".repeat(33), "cd ".repeat(40)));
        let lines: Vec<_> = text.lines().collect();
        // "- " and 33 words of 2 letters with 32 spaces: 100 characters.
        assert_eq!((lines[1].len(), lines[1]), (100, &*format!("- ab{}", " ab".repeat(32))));
        assert_eq!(lines[2], format!("  {long}"));
        assert_eq!(lines[3], format!("  cd{}", " cd".repeat(32)));
        assert_eq!(lines[4], format!("  cd{}", " cd".repeat(6)));
        assert_eq!(lines.len(), 5);
    }
}

//! A page as Markdown that reads well in a terminal too.
use super::markup::{entry, escaped, table};
use super::part::{Page, Part, Span, Table, Words};
use std::fmt::Write;

impl Page {
    /// The page as Markdown that reads well in a terminal too.
    pub(crate) fn to_markdown(&self) -> String {
        let mut text = format!("# {}: {}\n\n", self.kind, escaped(&self.title));
        parts(&mut text, &self.parts);
        text.truncate(text.trim_end().len());
        text.push('\n');
        text
    }
}

fn parts(text: &mut String, parts: &[Part]) {
    for one in parts {
        part(text, one);
    }
}

fn part(text: &mut String, part: &Part) {
    // Writing to a String does not fail.
    match part {
        Part::Heading(heading) => drop(writeln!(text, "## {}\n", escaped(heading))),
        Part::Paragraph(line) => drop(writeln!(text, "{}\n", words(line))),
        Part::List(lines) => list(text, lines, ""),
        Part::Cautions(lines) => list(text, lines, "**Caution.** "),
        Part::Table(one) => cells(text, one),
        Part::Beside(tables) => tables.iter().for_each(|one| cells(text, one)),
        Part::Card(card) => {
            let _ = writeln!(text, "## Operation {}: {}\n", escaped(&card.number), escaped(&card.title));
            parts(text, &card.parts);
            if !card.note.is_empty() {
                let _ = writeln!(text, "{}.\n", escaped(&card.note));
            }
        }
        Part::Signatures(names) => {
            for name in *names {
                let _ = writeln!(text, "{:<43}Date:\n", format!("{name}:"));
            }
        }
    }
}

fn list(text: &mut String, lines: &[Words], before: &str) {
    for line in lines {
        entry(text, &format!("{before}{}", words(line)));
    }
    if !lines.is_empty() {
        text.push('\n');
    }
}

fn cells(text: &mut String, own: &Table) {
    let rows: Vec<Vec<String>> =
        own.rows.iter().map(|row| row.iter().map(|cell| escaped(cell)).collect()).collect();
    table(text, &own.head, &rows);
}

fn words(words: &[Span]) -> String {
    let mut text = String::new();
    for span in words {
        match span {
            Span::Plain(plain) => text.push_str(&escaped(plain)),
            Span::Strong(strong) => drop(write!(text, "**{}**", escaped(strong))),
            // A name that holds a backquote would end the code early.
            Span::Code(code) if code.contains('`') || code.trim() != code => text.push_str(&escaped(code)),
            Span::Code(code) => drop(write!(text, "`{code}`")),
        }
    }
    text
}

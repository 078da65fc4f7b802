//! A page as Markdown that reads well in a terminal too.
use super::markup::{length, push_entry, push_escaped};
use super::part::{Page, Part, Span, Table, Words};

impl Page<'_> {
    /// The page as Markdown that reads well in a terminal too.
    pub(crate) fn to_markdown(&self) -> String {
        let mut markdown = Markdown { text: String::with_capacity(32 << 10), ..Markdown::default() };
        markdown.raw("# ");
        markdown.raw(self.kind);
        markdown.raw(": ");
        markdown.escaped(&self.title);
        markdown.raw("\n\n");
        markdown.parts(&self.parts);
        let Markdown { mut text, .. } = markdown;
        text.truncate(text.trim_end().len());
        text.push('\n');
        text
    }
}

/// The widest that a column is padded to, in characters.
const WIDEST: usize = 60;
/// The line under the heading of the widest column, and its padding.
const RULE: &str = "------------------------------------------------------------";
const BLANK: &str = "                                                            ";
const _: () = assert!(RULE.len() == WIDEST && BLANK.len() == WIDEST);

/// Markdown so far, and room for what is put together before it goes there.
#[derive(Default)]
struct Markdown {
    text: String,
    /// An entry of a list, or the cells of a table behind each other.
    draft: String,
    /// Where each cell ends in the draft, and how many characters it has.
    cells: Vec<(usize, usize)>,
}

impl Markdown {
    fn raw(&mut self, markup: &str) {
        self.text.push_str(markup);
    }

    fn escaped(&mut self, text: &str) {
        push_escaped(&mut self.text, text);
    }

    fn parts(&mut self, parts: &[Part<'_>]) {
        for part in parts {
            self.part(part);
        }
    }

    fn part(&mut self, part: &Part<'_>) {
        match part {
            Part::Heading(heading) => {
                self.raw("## ");
                self.escaped(heading);
                self.raw("\n\n");
            }
            Part::Paragraph(line) => {
                push_words(&mut self.text, line);
                self.raw("\n\n");
            }
            Part::List(lines) => self.list(lines, ""),
            Part::Cautions(lines) => self.list(lines, "**Caution.** "),
            Part::Table(table) => self.table(table),
            Part::Beside(tables) => tables.iter().for_each(|table| self.table(table)),
            Part::Card(card) => {
                self.raw("## Operation ");
                self.escaped(&card.number);
                self.raw(": ");
                self.escaped(card.title);
                self.raw("\n\n");
                self.parts(&card.parts);
                if !card.note.is_empty() {
                    self.escaped(&card.note);
                    self.raw(".\n\n");
                }
            }
            Part::Signatures(names) => {
                for name in *names {
                    self.text.push_str(&format!("{:<43}Date:\n\n", format!("{name}:")));
                }
            }
        }
    }

    fn list(&mut self, lines: &[Words<'_>], before: &str) {
        for line in lines {
            self.draft.clear();
            self.draft.push_str(before);
            push_words(&mut self.draft, line);
            push_entry(&mut self.text, &self.draft);
        }
        if !lines.is_empty() {
            self.raw("\n");
        }
    }

    /// A table whose columns are padded, so that it lines up as plain text, but for cells of inordinate length.
    fn table(&mut self, table: &Table<'_>) {
        if table.rows().next().is_none() {
            return;
        }
        self.draft_cells(table);
        let shown: Vec<(usize, usize)> =
            table.shown().map(|column| (column, self.width(table, column))).collect();
        for &(column, width) in &shown {
            let head = table.head[column];
            self.cell(head, length(head), width);
        }
        self.raw("|\n");
        for &(_, width) in &shown {
            self.cell(&RULE[..width], width, width);
        }
        self.raw("|\n");
        let draft = std::mem::take(&mut self.draft);
        for row in 0..table.rows().count() {
            for &(column, width) in &shown {
                let at = row * table.head.len() + column;
                let start = at.checked_sub(1).map_or(0, |before| self.cells[before].0);
                let (end, length) = self.cells[at];
                self.cell(&draft[start..end], length, width);
            }
            self.raw("|\n");
        }
        self.draft = draft;
        self.raw("\n");
    }

    /// Puts the escaped cells of a table into the draft.
    fn draft_cells(&mut self, table: &Table<'_>) {
        self.draft.clear();
        self.cells.clear();
        for cell in table.rows().flatten() {
            let start = self.draft.len();
            push_escaped(&mut self.draft, cell);
            self.cells.push((self.draft.len(), length(&self.draft[start..])));
        }
    }

    /// How wide a column is: as its widest cell that is not of inordinate length.
    fn width(&self, table: &Table<'_>, column: usize) -> usize {
        let cells = self.cells.iter().skip(column).step_by(table.head.len()).map(|cell| cell.1);
        let widths = cells.chain([length(table.head[column]), 3]);
        widths.filter(|&width| width <= WIDEST).max().unwrap_or(3)
    }

    /// A cell of so many characters in a column of a width.
    fn cell(&mut self, cell: &str, length: usize, width: usize) {
        self.raw("| ");
        self.raw(cell);
        self.raw(&BLANK[..width.saturating_sub(length)]);
        self.raw(" ");
    }
}

fn push_words(text: &mut String, words: &[Span<'_>]) {
    for span in words {
        match span {
            Span::Plain(plain) => push_escaped(text, plain),
            Span::Strong(strong) => {
                text.push_str("**");
                push_escaped(text, strong);
                text.push_str("**");
            }
            // A name that holds a backquote would end the code early.
            Span::Code(code) if code.contains('`') || code.trim() != code => push_escaped(text, code),
            Span::Code(code) => {
                text.push('`');
                text.push_str(code);
                text.push('`');
            }
        }
    }
}

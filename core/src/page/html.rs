//! A page as one HTML file: its style within, no script, no picture, and no address.
use super::markup::is_printed;
use super::part::{Card, Page, Part, Span, Table, Words};

/// How the page looks, on a screen and on paper.
const STYLE: &str = include_str!("style.css");

impl Page<'_> {
    /// The page as one HTML file that needs nothing else, and prints on A4 and Letter.
    pub(crate) fn to_html(&self) -> String {
        let mut html = Html(String::with_capacity(16 << 10));
        html.raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
        html.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        html.element("title", &format!("{}: {}", self.kind, self.title));
        html.raw("\n<style>\n");
        html.raw(STYLE);
        html.raw("</style>\n</head>\n<body>\n<header>\n<p class=\"kind\">");
        html.text(self.kind);
        html.raw("</p>\n");
        html.element("h1", &self.title);
        html.raw("\n</header>\n<main>\n");
        html.parts(&self.parts);
        html.raw("</main>\n</body>\n</html>\n");
        html.0
    }
}

/// HTML so far.
struct Html(String);

impl Html {
    fn raw(&mut self, markup: &str) {
        self.0.push_str(markup);
    }

    /// Text that shows as it was written, on one line.
    fn text(&mut self, text: &str) {
        for c in text.chars() {
            match c {
                '<' => self.raw("&lt;"),
                '>' => self.raw("&gt;"),
                '&' => self.raw("&amp;"),
                '"' => self.raw("&quot;"),
                '\'' => self.raw("&#39;"),
                c => self.0.push(if is_printed(c) { c } else { ' ' }),
            }
        }
    }

    fn element(&mut self, tag: &str, text: &str) {
        self.raw(&format!("<{tag}>"));
        self.text(text);
        self.raw(&format!("</{tag}>"));
    }

    fn words(&mut self, words: &[Span<'_>]) {
        for span in words {
            match span {
                Span::Plain(text) => self.text(text),
                Span::Strong(text) => self.element("strong", text),
                Span::Code(text) => self.element("code", text),
            }
        }
    }

    /// The parts in order; what stands under a heading is kept with it.
    fn parts(&mut self, parts: &[Part<'_>]) {
        for part in parts {
            self.part(part);
        }
    }

    fn part(&mut self, part: &Part<'_>) {
        match part {
            Part::Heading(heading) => {
                self.element("h2", heading);
                self.raw("\n");
            }
            Part::Paragraph(words) => {
                self.raw("<p>");
                self.words(words);
                self.raw("</p>\n");
            }
            Part::List(lines) => self.list("<ul>", lines),
            Part::Cautions(lines) => self.list("<ul class=\"cautions\">", lines),
            Part::Table(table) => self.table(table),
            Part::Beside(tables) => {
                self.raw("<div class=\"beside\">\n");
                tables.iter().for_each(|table| self.table(table));
                self.raw("</div>\n");
            }
            Part::Card(card) => self.card(card),
            Part::Signatures(names) => {
                self.raw("<div class=\"signatures\">\n");
                for name in *names {
                    self.raw("<p><span>");
                    self.text(name);
                    self.raw("</span><span>Date</span></p>\n");
                }
                self.raw("</div>\n");
            }
        }
    }

    fn list(&mut self, opening: &str, lines: &[Words<'_>]) {
        if lines.is_empty() {
            return;
        }
        self.raw(opening);
        self.raw("\n");
        for line in lines {
            self.raw("<li>");
            self.words(line);
            self.raw("</li>\n");
        }
        self.raw("</ul>\n");
    }

    fn table(&mut self, table: &Table<'_>) {
        if table.rows().next().is_none() {
            return;
        }
        let shown: Vec<(usize, ColumnKind)> =
            table.shown().map(|column| (column, ColumnKind::of(table, column))).collect();
        self.raw("<table>\n<thead><tr>");
        for &(column, kind) in &shown {
            self.raw(kind.opening_of_head());
            self.text(table.head[column]);
            self.raw("</th>");
        }
        self.raw("</tr></thead>\n<tbody>\n");
        for row in table.rows() {
            self.raw("<tr>");
            for &(column, kind) in &shown {
                let cell = row.get(column).map_or("", |cell| cell);
                self.raw(kind.opening_of(cell));
                self.text(cell);
                self.raw("</td>");
            }
            self.raw("</tr>\n");
        }
        self.raw("</tbody>\n</table>\n");
    }

    fn card(&mut self, card: &Card<'_>) {
        self.raw("<section class=\"card\">\n<div class=\"band\"><b>");
        self.text(&card.number);
        self.raw("</b>");
        self.element("h2", card.title);
        self.raw("<span>");
        self.text(&card.note);
        self.raw("</span></div>\n");
        self.parts(&card.parts);
        self.raw("</section>\n");
    }
}

/// How the cells of a column stand.
#[derive(Clone, Copy)]
enum ColumnKind {
    /// To be filled in.
    Blank,
    /// Mostly numbers.
    Numbers,
    Text,
}

impl ColumnKind {
    fn of(table: &Table<'_>, column: usize) -> ColumnKind {
        let cells = table.column(column).filter(|cell| !cell.is_empty());
        let numbers = cells.clone().filter(|cell| cell.parse::<f64>().is_ok()).count();
        match cells.clone().all(|cell| cell.trim().is_empty()) {
            true => ColumnKind::Blank,
            false if 2 * numbers > cells.count() => ColumnKind::Numbers,
            false => ColumnKind::Text,
        }
    }

    fn opening_of_head(self) -> &'static str {
        match self {
            ColumnKind::Blank => "<th class=\"blank\">",
            ColumnKind::Numbers => "<th class=\"number\">",
            ColumnKind::Text => "<th>",
        }
    }

    /// The tag of a cell: a column mostly of numbers stands to the right, a list of them in lines, and one to fill in has room
    /// to write.
    fn opening_of(self, cell: &str) -> &'static str {
        match self {
            ColumnKind::Blank => "<td class=\"blank\">",
            ColumnKind::Numbers if cell.contains(", ") => "<td class=\"list\">",
            ColumnKind::Numbers => "<td class=\"number\">",
            ColumnKind::Text => "<td>",
        }
    }
}

//! A page as one HTML file: its style within, no script, no picture, and no address.
use super::markup::is_printed;
use super::part::{Card, Page, Part, Span, Table};

/// How the page looks, on a screen and on paper.
const STYLE: &str = include_str!("style.css");

impl Page {
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

    fn words(&mut self, words: &[Span]) {
        for span in words {
            match span {
                Span::Plain(text) => self.text(text),
                Span::Strong(text) => self.element("strong", text),
                Span::Code(text) => self.element("code", text),
            }
        }
    }

    /// The parts in order; what stands under a heading is kept with it.
    fn parts(&mut self, parts: &[Part]) {
        for part in parts {
            self.part(part);
        }
    }

    fn part(&mut self, part: &Part) {
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

    fn list(&mut self, opening: &str, lines: &[Vec<Span>]) {
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

    fn table(&mut self, table: &Table) {
        if table.rows.is_empty() {
            return;
        }
        let shown = table.shown();
        self.raw("<table>\n<thead><tr>");
        for &column in &shown {
            self.raw(opening("th", table, column, ""));
            self.text(table.head[column]);
            self.raw("</th>");
        }
        self.raw("</tr></thead>\n<tbody>\n");
        for row in &table.rows {
            self.raw("<tr>");
            for &column in &shown {
                let cell = row.get(column).map_or("", String::as_str);
                self.raw(opening("td", table, column, cell));
                self.text(cell);
                self.raw("</td>");
            }
            self.raw("</tr>\n");
        }
        self.raw("</tbody>\n</table>\n");
    }

    fn card(&mut self, card: &Card) {
        self.raw("<section class=\"card\">\n<div class=\"band\"><b>");
        self.text(&card.number);
        self.raw("</b>");
        self.element("h2", &card.title);
        self.raw("<span>");
        self.text(&card.note);
        self.raw("</span></div>\n");
        self.parts(&card.parts);
        self.raw("</section>\n");
    }
}

/// The tag of a cell: a column mostly of numbers stands to the right, a list of them in lines, and one to fill in has room to
/// write.
fn opening(tag: &str, table: &Table, column: usize, own: &str) -> &'static str {
    let cells = || table.rows.iter().filter_map(|row| row.get(column)).filter(|cell| !cell.is_empty());
    let is_number = |cell: &String| cell.parse::<f64>().is_ok();
    let is_blank = |cell: &String| cell.trim().is_empty();
    let is_of_numbers = 2 * cells().filter(|cell| is_number(cell)).count() > cells().count();
    match (tag, cells().all(is_blank), is_of_numbers) {
        ("th", true, _) => "<th class=\"blank\">",
        ("th", _, true) => "<th class=\"number\">",
        ("th", ..) => "<th>",
        (_, true, _) => "<td class=\"blank\">",
        (_, _, true) if own.contains(", ") => "<td class=\"list\">",
        (_, _, true) => "<td class=\"number\">",
        _ => "<td>",
    }
}

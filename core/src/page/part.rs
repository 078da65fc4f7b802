//! What a page is made of.

/// A page: what is printed under one title.
#[derive(Default)]
pub(crate) struct Page {
    /// What kind of page it is, over the title of an HTML page.
    pub(crate) kind: &'static str,
    /// Its title.
    pub(crate) title: String,
    /// Its parts, from the top down.
    pub(crate) parts: Vec<Part>,
}

/// A part of a page.
pub(crate) enum Part {
    /// The heading of what follows.
    Heading(String),
    /// A paragraph.
    Paragraph(Words),
    /// A list.
    List(Vec<Words>),
    /// Cautions: a list that stands out.
    Cautions(Vec<Words>),
    /// A table.
    Table(Table),
    /// Tables that stand side by side where there is room.
    Beside(Vec<Table>),
    /// What belongs to one operation, kept on one sheet of paper.
    Card(Card),
    /// Lines to sign and date.
    Signatures(&'static [&'static str]),
}

/// Running text, in pieces of one kind each.
pub(crate) type Words = Vec<Span>;

/// A piece of running text.
pub(crate) enum Span {
    /// Text as it is.
    Plain(String),
    /// What stands out.
    Strong(String),
    /// The name of a field, or a pointer.
    Code(String),
}

/// A table. Columns without any text are left out, and so is a table without rows; a blank keeps a column to fill in.
pub(crate) struct Table {
    /// The headings of the columns.
    pub(crate) head: Vec<&'static str>,
    /// The cells, as many in each row as there are headings.
    pub(crate) rows: Vec<Vec<String>>,
}

/// What belongs to one operation.
pub(crate) struct Card {
    /// The number that the shop gives it.
    pub(crate) number: String,
    /// What it does.
    pub(crate) title: String,
    /// Where and how long, shown small.
    pub(crate) note: String,
    /// Its parts.
    pub(crate) parts: Vec<Part>,
}

/// Text as it is, as a line of its own.
pub(crate) fn plain(text: impl Into<String>) -> Words {
    vec![Span::Plain(text.into())]
}

/// Text in which the names of fields stand between backquotes: a remedy.
pub(crate) fn with_names(text: &str) -> Words {
    let is_name = |text: &str| {
        !text.is_empty() && text.chars().all(|c| c.is_ascii_alphanumeric() || "_-./\": ".contains(c))
    };
    let pieces: Vec<&str> = text.split('`').collect();
    let named = |(place, piece): (usize, &&str)| place % 2 == 0 || is_name(piece);
    // Backquotes that pair off otherwise are part of some text: it is shown as it is.
    if pieces.len().is_multiple_of(2) || !pieces.iter().enumerate().all(named) {
        return plain(text);
    }
    let span = |(place, piece): (usize, &str)| match place % 2 {
        0 => Span::Plain(piece.into()),
        _ => Span::Code(piece.into()),
    };
    pieces.into_iter().enumerate().map(span).collect()
}

impl Table {
    pub(crate) fn new<const N: usize>(head: [&'static str; N], rows: Vec<[String; N]>) -> Table {
        Table { head: head.into(), rows: rows.into_iter().map(Vec::from).collect() }
    }

    /// The columns that have any text.
    pub(super) fn shown(&self) -> Vec<usize> {
        let has_text = |&column: &usize| {
            self.rows.iter().any(|row| row.get(column).is_some_and(|cell| !cell.is_empty()))
        };
        (0..self.head.len()).filter(has_text).collect()
    }
}

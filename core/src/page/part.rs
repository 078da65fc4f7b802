//! What a page is made of. Its text is borrowed from what it shows wherever that is possible.
use std::borrow::Cow;

/// Text of a page.
pub(crate) type Shown<'s> = Cow<'s, str>;

/// A page: what is printed under one title.
#[derive(Default)]
pub(crate) struct Page<'s> {
    /// What kind of page it is, over the title of an HTML page.
    pub(crate) kind: &'static str,
    /// Its title.
    pub(crate) title: String,
    /// Its parts, from the top down.
    pub(crate) parts: Vec<Part<'s>>,
}

/// A part of a page.
pub(crate) enum Part<'s> {
    /// The heading of what follows.
    Heading(Shown<'s>),
    /// A paragraph.
    Paragraph(Words<'s>),
    /// A list.
    List(Vec<Words<'s>>),
    /// Cautions: a list that stands out.
    Cautions(Vec<Words<'s>>),
    /// A table.
    Table(Table<'s>),
    /// Tables that stand side by side where there is room.
    Beside(Vec<Table<'s>>),
    /// What belongs to one operation, kept on one sheet of paper.
    Card(Card<'s>),
    /// Lines to sign and date.
    Signatures(&'static [&'static str]),
}

/// Running text, in pieces of one kind each.
pub(crate) type Words<'s> = Vec<Span<'s>>;

/// A piece of running text.
pub(crate) enum Span<'s> {
    /// Text as it is.
    Plain(Shown<'s>),
    /// What stands out.
    Strong(Shown<'s>),
    /// The name of a field, or a pointer.
    Code(Shown<'s>),
}

/// A table. Columns without any text are left out, and so is a table without rows; a blank keeps a column to fill in.
pub(crate) struct Table<'s> {
    /// The headings of the columns.
    pub(crate) head: Vec<&'static str>,
    /// The cells row by row, as many in each row as there are headings.
    cells: Vec<Shown<'s>>,
}

/// What belongs to one operation.
pub(crate) struct Card<'s> {
    /// The number that the shop gives it.
    pub(crate) number: String,
    /// What it does.
    pub(crate) title: &'s str,
    /// Where and how long, shown small.
    pub(crate) note: String,
    /// Its parts.
    pub(crate) parts: Vec<Part<'s>>,
}

/// Text as it is, as a line of its own.
pub(crate) fn plain<'s>(text: impl Into<Shown<'s>>) -> Words<'s> {
    vec![Span::Plain(text.into())]
}

/// Text in which the names of fields stand between backquotes: a remedy.
pub(crate) fn with_names(text: &str) -> Words<'_> {
    let is_name = |text: &str| {
        !text.is_empty() && text.chars().all(|c| c.is_ascii_alphanumeric() || "_-./\": ".contains(c))
    };
    let pieces: Vec<&str> = text.split('`').collect();
    let named = |(place, piece): (usize, &&str)| place % 2 == 0 || is_name(piece);
    // Backquotes that pair off otherwise are part of some text: it is shown as it is.
    if pieces.len().is_multiple_of(2) || !pieces.iter().enumerate().all(named) {
        return plain(text);
    }
    let kinds = [Span::Plain, Span::Code].into_iter().cycle();
    pieces.into_iter().zip(kinds).map(|(piece, kind)| kind(piece.into())).collect()
}

impl Span<'_> {
    /// The piece with text of its own.
    pub(crate) fn into_owned(self) -> Span<'static> {
        let owned = |text: Shown<'_>| text.into_owned().into();
        match self {
            Span::Plain(text) => Span::Plain(owned(text)),
            Span::Strong(text) => Span::Strong(owned(text)),
            Span::Code(text) => Span::Code(owned(text)),
        }
    }
}

impl<'s> Table<'s> {
    pub(crate) fn new<const N: usize>(
        head: [&'static str; N],
        rows: impl IntoIterator<Item = [Shown<'s>; N]>,
    ) -> Table<'s> {
        let rows = rows.into_iter();
        let (least, most) = rows.size_hint();
        let mut cells = Vec::with_capacity(N * most.unwrap_or(least));
        rows.for_each(|row| cells.extend(row));
        Table { head: head.into(), cells }
    }

    /// The rows from the top down.
    pub(super) fn rows(&self) -> impl Iterator<Item = &[Shown<'s>]> + Clone {
        self.cells.chunks_exact(self.head.len().max(1))
    }

    /// The cells of a column from the top down.
    pub(super) fn column(&self, column: usize) -> impl Iterator<Item = &Shown<'s>> + Clone {
        self.rows().filter_map(move |row| row.get(column))
    }

    /// The columns that have any text.
    pub(super) fn shown(&self) -> impl Iterator<Item = usize> {
        (0..self.head.len()).filter(|&column| self.column(column).any(|cell| !cell.is_empty()))
    }
}

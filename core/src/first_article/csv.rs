//! Readings from CSV, as a spreadsheet or a measuring machine writes it.
use super::reading::{MeasuredValue, PieceReading, PieceReadingError};
use super::records::Records;
use super::table::ReadingTable;
use crate::error::excerpt;
use crate::quantity::Units;
use crate::size::Size;
use std::borrow::Cow;
use std::collections::HashSet;
use std::fmt;
use std::sync::Arc;

/// The most faults that are listed one by one.
pub const MAX_CSV_FAULTS: usize = 20;

/// How the CSV is written.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct CsvForm {
    /// The units of numbers that have none beside them.
    pub units: Option<Units>,
    /// Whether a comma separates the decimals: `12,05`.
    pub decimal_comma: bool,
    /// What separates the cells; without it the one of `;`, tab and `,` that the first row has most of.
    pub delimiter: Option<char>,
    /// The headings of the columns, where they are not named after what they hold.
    pub headings: Headings,
}

/// The headings of columns, where they are not `number`, `piece`, `measured`, `unit`, `measured with`, `by` and `date`.
/// Letter case does not matter, nor whether words are apart by spaces or underscores.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Headings([Option<String>; COLUMNS.len()]);

/// What columns may hold, by their own headings: the first and the third are needed.
const COLUMNS: [&str; 7] = ["number", "piece", "measured", "unit", "measured with", "by", "date"];
const NUMBER: usize = 0;
const PIECE: usize = 1;
const MEASURED: usize = 2;
const UNIT: usize = 3;
const WITH: usize = 4;
const BY: usize = 5;
const DATE: usize = 6;

/// Something wrong in a CSV, and where.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CsvFault {
    /// The row, from 1 for the headings.
    pub row: u64,
    /// The heading of the column; empty where the row as a whole is at fault.
    pub column: String,
    /// What is wrong.
    pub message: String,
}

impl fmt::Display for CsvFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let CsvFault { row, column, message } = self;
        match column.is_empty() {
            true => write!(f, "row {row}: {message}"),
            false => write!(f, "row {row}, column `{column}`: {message}"),
        }
    }
}

/// Why a CSV could not be read.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum CsvError {
    /// Bytes that are not UTF-8.
    #[error(
        "the CSV is not UTF-8{}: byte {byte} is in row {row}. Fix: save it as `CSV UTF-8`",
        if *is_utf16 { " but UTF-16" } else { "" }
    )]
    Encoding {
        /// The first byte that is not, counted from 0.
        byte: usize,
        /// The row that it is in.
        row: u64,
        /// Whether it begins as UTF-16 does.
        is_utf16: bool,
    },
    /// An option that is not one of those there are.
    #[error("{message}")]
    Form {
        /// What is wrong.
        message: String,
    },
    /// Cells or rows at fault.
    #[error("{}", listed(faults, *count))]
    Faults {
        /// The first of them, in order.
        faults: Vec<CsvFault>,
        /// How many there are.
        count: usize,
    },
}

fn listed(faults: &[CsvFault], count: usize) -> String {
    let mut text: Vec<String> = faults.iter().map(ToString::to_string).collect();
    if count > faults.len() {
        text.push(format!("and {} more", count - faults.len()));
    }
    text.join("\n")
}

impl CsvError {
    /// The faults that are listed.
    pub fn faults(&self) -> &[CsvFault] {
        match self {
            CsvError::Faults { faults, .. } => faults,
            _ => &[],
        }
    }
}

/// A heading for comparison: small letters, one space between words.
fn plain(heading: &str) -> String {
    let words = heading.split(|c: char| c.is_whitespace() || c == '_').filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join(" ")
}

impl Headings {
    /// The column of that name has this heading.
    ///
    /// # Errors
    /// [`CsvError::Form`] where there is no such column.
    pub fn set(&mut self, column: &str, heading: &str) -> Result<(), CsvError> {
        let name = plain(column);
        match COLUMNS.iter().position(|known| *known == name) {
            Some(place) => {
                self.0[place] = Some(heading.into());
                Ok(())
            }
            None => Err(CsvError::Form {
                message: format!(
                    "there is no column `{}`; expected one of {}",
                    excerpt(column),
                    COLUMNS.join(", ")
                ),
            }),
        }
    }

    fn heading(&self, place: usize) -> &str {
        self.0[place].as_deref().unwrap_or(COLUMNS[place])
    }

    /// Where each column stands in the first row.
    fn places(&self, first: &[Cow<'_, str>]) -> Result<[Option<usize>; COLUMNS.len()], CsvFault> {
        let names: Vec<String> = first.iter().map(|name| plain(name)).collect();
        let mut places = [None; COLUMNS.len()];
        for (place, found) in places.iter_mut().enumerate() {
            let heading = self.heading(place);
            let mut at =
                names.iter().enumerate().filter(|(_, name)| **name == plain(heading)).map(|(at, _)| at);
            *found = at.next();
            let needed = place == NUMBER || place == MEASURED || self.0[place].is_some();
            let message = match (*found, at.next()) {
                (_, Some(_)) => "appears twice in the first row. Fix: rename one of them".into(),
                (None, _) if needed => format!(
                    "is not in the first row, which has {}. Fix: rename one, or say which heading holds it: \
                     {1}=Actual in a form, columns={{\"{1}\": \"Actual\"}} in Python",
                    excerpt(&first.join(", ")),
                    COLUMNS[place]
                ),
                _ => continue,
            };
            return Err(CsvFault { row: 1, column: heading.into(), message });
        }
        Ok(places)
    }
}

impl CsvForm {
    /// Reads `units=mm; decimal=comma; delimiter=tab; number=Feature; measured=Actual`: any of these, and any other column.
    ///
    /// `units` is `mm` or `in`, `decimal` is `comma` or `point`, `delimiter` is `comma`, `semicolon` or `tab`.
    ///
    /// # Errors
    /// [`CsvError::Form`].
    pub fn parse(text: &str) -> Result<CsvForm, CsvError> {
        let mut form = CsvForm::default();
        let refused = |part: &str, expected: &str| CsvError::Form {
            message: format!("`{}` is not valid here; expected {expected}", excerpt(part)),
        };
        for part in text.split(';').map(str::trim).filter(|part| !part.is_empty()) {
            let (name, value) =
                part.split_once('=').ok_or_else(|| refused(part, "e.g. `measured=Actual`"))?;
            let value = value.trim();
            match name.trim() {
                "units" => form.units = Some(units_of(value).ok_or_else(|| refused(part, "`mm` or `in`"))?),
                "decimal" => {
                    form.decimal_comma = match value {
                        "comma" => true,
                        "point" => false,
                        _ => return Err(refused(part, "`comma` or `point`")),
                    }
                }
                "delimiter" => {
                    let found = match value {
                        "comma" => ',',
                        "semicolon" => ';',
                        "tab" => '\t',
                        _ => return Err(refused(part, "`comma`, `semicolon` or `tab`")),
                    };
                    form.delimiter = Some(found);
                }
                name => form.headings.set(name, value)?,
            }
        }
        Ok(form)
    }
}

fn units_of(text: &str) -> Option<Units> {
    match text {
        "mm" => Some(Units::Metric),
        "in" | "inch" | "\"" | "″" => Some(Units::Inch),
        _ => None,
    }
}

impl ReadingTable {
    /// Reads CSV: RFC 4180, with headings in the first row, in UTF-8 with or without a byte order mark.
    ///
    /// A row is a reading. The column `number` has the number of the characteristic, `measured` the reading: a number in
    /// the units of the form or of the column `unit`, text with its unit, or what gauges did, `go entered, no-go refused`;
    /// empty where nothing was measured. `piece` counts from 1; without it the rows of a characteristic are one piece after
    /// the other. `measured with`, `by` and `date` are kept as they stand. Other columns and empty rows are passed over.
    /// A line `sep=;` before the headings names the delimiter, and is not counted as a row.
    ///
    /// # Errors
    /// [`CsvError`] with the faults of all rows, each with its row and column.
    pub fn from_csv(bytes: &[u8], form: &CsvForm) -> Result<ReadingTable, CsvError> {
        let text = decoded(bytes)?;
        let mut reader = Reader::new(text, form)?;
        reader.read();
        match reader.count {
            0 => Ok(reader.table),
            count => Err(CsvError::Faults { faults: reader.faults, count }),
        }
    }
}

/// The text of a file, without a byte order mark.
fn decoded(bytes: &[u8]) -> Result<&str, CsvError> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let byte = error.valid_up_to();
        let rows = bytes.iter().take(byte).filter(|byte| **byte == b'\n').count();
        let is_utf16 = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
        CsvError::Encoding { byte, row: rows as u64 + 1, is_utf16 }
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

/// What reads the rows.
struct Reader<'t> {
    records: Records<'t>,
    cells: Vec<Cow<'t, str>>,
    form: &'t CsvForm,
    places: [Option<usize>; COLUMNS.len()],
    width: usize,
    table: ReadingTable,
    /// Texts seen last in the columns that repeat them.
    last: [Option<Arc<str>>; 3],
    pieces: HashSet<(u32, u32)>,
    faults: Vec<CsvFault>,
    count: usize,
}

/// A fault in a column, or of the row where there is none.
type CellFault = (Option<usize>, String);

impl<'t> Reader<'t> {
    fn new(text: &'t str, form: &'t CsvForm) -> Result<Reader<'t>, CsvError> {
        let (said, text) = Records::separator_line(text);
        let delimiter = match form.delimiter.or(said) {
            None => Records::delimiter_of(text),
            Some(',') => b',',
            Some(';') => b';',
            Some('\t') => b'\t',
            Some(other) => {
                let message = format!("a delimiter must be a comma, a semicolon or a tab, not `{other}`");
                return Err(CsvError::Form { message });
            }
        };
        let mut records = Records::new(text, delimiter);
        let mut cells = vec![];
        let one = |fault: CsvFault| CsvError::Faults { faults: vec![fault], count: 1 };
        let whole = |message: &str| one(CsvFault { row: 1, column: String::new(), message: message.into() });
        match records.next(&mut cells) {
            Some(Ok(())) if cells.iter().any(|cell| !cell.trim().is_empty()) => {}
            Some(Err(message)) => return Err(whole(message)),
            _ => return Err(whole("there is no row of headings, such as `number,piece,measured,unit`")),
        }
        let places = form.headings.places(&cells).map_err(one)?;
        let width = cells.len();
        let (table, last) = (ReadingTable::new(), [const { None }; 3]);
        let (pieces, faults) = (HashSet::new(), vec![]);
        Ok(Reader { records, cells, form, places, width, table, last, pieces, faults, count: 0 })
    }

    fn read(&mut self) {
        loop {
            match self.records.next(&mut self.cells) {
                None => return,
                Some(Err(message)) => self.fault((None, message.into())),
                Some(Ok(())) => {
                    if let Err(fault) = self.row() {
                        self.fault(fault);
                    }
                }
            }
        }
    }

    fn fault(&mut self, (column, message): CellFault) {
        self.count += 1;
        if self.faults.len() < MAX_CSV_FAULTS {
            let column = column.map_or(String::new(), |place| self.form.headings.heading(place).into());
            self.faults.push(CsvFault { row: self.records.row(), column, message });
        }
    }

    /// The cell of a column, without spaces around it; empty where there is no such column.
    fn cell(&self, column: usize) -> &str {
        self.places[column].and_then(|at| self.cells.get(at)).map_or("", |cell| cell.trim())
    }

    fn row(&mut self) -> Result<(), CellFault> {
        if self.cells.iter().all(|cell| cell.trim().is_empty()) {
            return Ok(());
        }
        if self.cells.len() != self.width {
            let (got, wanted) = (self.cells.len(), self.width);
            let remedy = "put text with a delimiter in it between quotes, and set decimal comma where numbers have one";
            return Err((None, format!("has {got} cells, and the first row has {wanted}. Fix: {remedy}")));
        }
        let number = whole(self.cell(NUMBER), "the number of a characteristic, e.g. 3")
            .map_err(|message| (Some(NUMBER), message))?;
        let Some(value) = self.value()? else { return Ok(()) };
        let piece = match self.places[PIECE] {
            Some(_) => {
                whole(self.cell(PIECE), "the number of the piece, from 1").map_err(|m| (Some(PIECE), m))?
            }
            None => self.table.of(number).last().map_or(0, |last| last.piece).saturating_add(1),
        };
        if self.places[PIECE].is_some() && !self.pieces.insert((number, piece)) {
            return Err((
                Some(PIECE),
                format!("piece {piece} has a reading of characteristic {number} already"),
            ));
        }
        let [measured_with, by, date] = [WITH, BY, DATE].map(|column| self.kept(column));
        self.table.push(number, PieceReading { piece, value, measured_with, by, date });
        Ok(())
    }

    fn value(&self) -> Result<Option<MeasuredValue>, CellFault> {
        let (cell, unit) = (self.cell(MEASURED), self.cell(UNIT));
        if cell.is_empty() {
            return Ok(None);
        }
        let stated = match unit {
            "" => self.form.units,
            unit => units_of(unit),
        };
        if let Some(size) = stated.and_then(|units| quick(cell, self.form.decimal_comma, units)) {
            return Ok(Some(MeasuredValue::Size(size)));
        }
        let text = self.with_point(cell).map_err(|message| (Some(MEASURED), message))?;
        let read = match (stated, unit) {
            (None, unit) if !unit.is_empty() => MeasuredValue::parse(&format!("{text} {unit}")),
            _ => MeasuredValue::parse_in(&text, stated),
        };
        read.map(Some).map_err(|error| (Some(MEASURED), advised(&error, cell)))
    }

    /// A number with a decimal point for its comma.
    fn with_point<'c>(&self, cell: &'c str) -> Result<Cow<'c, str>, String> {
        let is_number = cell.starts_with(|c: char| c.is_ascii_digit() || "+-−.,".contains(c));
        if is_number && self.form.decimal_comma && cell.contains('.') && !cell.contains(',') {
            return Err(format!(
                "`{}` has a point. Fix: write a comma before decimals, and nothing between thousands",
                excerpt(cell)
            ));
        }
        match (is_number && cell.contains(','), self.form.decimal_comma) {
            (true, true) if cell.contains('.') => Err(format!(
                "`{}` has a comma and a point. Fix: write thousands without a separator",
                excerpt(cell)
            )),
            (true, true) => Ok(cell.replacen(',', ".", 1).into()),
            (true, false) => Err(format!(
                "`{}` has a comma. Fix: read it with a decimal comma, or write a point",
                excerpt(cell)
            )),
            _ => Ok(cell.into()),
        }
    }

    /// The text of a column that is kept, shared with the row before where it is the same.
    fn kept(&mut self, column: usize) -> Option<Arc<str>> {
        let text = self.cell(column);
        // What kept a spreadsheet from taking the text for a formula.
        let text = match text.strip_prefix('\'') {
            Some(rest) if rest.starts_with(['=', '+', '-', '@']) => rest,
            _ => text,
        };
        if text.is_empty() {
            return None;
        }
        let last = &self.last[column - WITH];
        if last.as_deref() != Some(text) {
            let own = Some(Arc::from(text));
            self.last[column - WITH] = own;
        }
        self.last[column - WITH].clone()
    }
}

/// What is wrong with a reading, and the remedy in a CSV.
fn advised(error: &PieceReadingError, cell: &str) -> String {
    use crate::size::SizeError;
    match error {
        PieceReadingError::Size(SizeError::MissingUnit { .. }) => format!(
            "`{}` needs a unit. Fix: state the units of the file, e.g. mm, or add a column `unit`",
            excerpt(cell)
        ),
        error => error.to_string(),
    }
}

/// A whole number from 1, which a spreadsheet may write as `3.0`.
fn whole(text: &str, expected: &str) -> Result<u32, String> {
    let digits = text.strip_suffix(".0").unwrap_or(text);
    match digits.parse::<u32>() {
        Ok(number) if number > 0 => Ok(number),
        _ if text.is_empty() => Err(format!("is empty; expected {expected}")),
        _ => Err(format!("`{}` is not {expected}", excerpt(text))),
    }
}

/// A plain decimal of few digits as a size, without the reader of all notations.
fn quick(text: &str, comma: bool, units: Units) -> Option<Size> {
    let (negative, digits) = match text.as_bytes() {
        [b'-', rest @ ..] => (true, rest),
        [b'+', rest @ ..] => (false, rest),
        rest => (false, rest),
    };
    let point = if comma { b',' } else { b'.' };
    let (mut count, mut places, mut seen) = (0_i64, None, 0_u32);
    for byte in digits {
        match byte {
            b'0'..=b'9' => {
                count = 10 * count + i64::from(byte - b'0');
                seen += 1;
                places = places.map(|places: u32| places + 1);
            }
            byte if *byte == point && places.is_none() => places = Some(0),
            _ => return None,
        }
        if seen > 15 {
            return None;
        }
    }
    // 1e-8 in is 254 pm, and 1e-8 mm is 10 pm.
    const HUNDRED_MILLIONTH: u32 = 8;
    let factor = if units == Units::Inch { 254 } else { 10 };
    let scale = 10_i64.pow(HUNDRED_MILLIONTH.checked_sub(places.unwrap_or(0))?);
    let size = count.checked_mul(factor)?.checked_mul(scale)?;
    (seen > 0).then(|| Size::from_picometres(if negative { -size } else { size }))
}

#[cfg(test)]
mod tests;

//! The records of CSV by RFC 4180: cells apart by a delimiter, in quotes where they hold one, a quote or a line end.
use std::borrow::Cow;

/// Goes through the records of a text.
pub(super) struct Records<'t> {
    text: &'t str,
    at: usize,
    delimiter: u8,
    row: u64,
}

impl<'t> Records<'t> {
    pub(super) fn new(text: &'t str, delimiter: u8) -> Records<'t> {
        Records { text, at: 0, delimiter, row: 0 }
    }

    /// The delimiter that the first row has most of outside of quotes; a comma where it has none.
    pub(super) fn delimiter_of(text: &str) -> u8 {
        let (mut quoted, mut counts) = (false, [(b';', 0), (b'\t', 0), (b',', 0)]);
        for byte in text.bytes().take_while(|byte| *byte != b'\n') {
            quoted ^= byte == b'"';
            for (delimiter, count) in &mut counts {
                *count += u32::from(!quoted && byte == *delimiter);
            }
        }
        // Of several with the same count, the last.
        counts.into_iter().max_by_key(|(_, count)| *count).map_or(b',', |(delimiter, _)| delimiter)
    }

    /// The delimiter of a line such as `sep=;`, which spreadsheets write before the headings and do not show, and the text
    /// after it.
    pub(super) fn separator_line(text: &str) -> (Option<char>, &str) {
        let (first, rest) = text.split_once('\n').unwrap_or((text, ""));
        let mut said = match first.trim_end_matches('\r').split_once('=') {
            Some((name, said)) if name.eq_ignore_ascii_case("sep") => said.chars(),
            _ => return (None, text),
        };
        match (said.next(), said.next()) {
            (Some(delimiter), None) => (Some(delimiter), rest),
            _ => (None, text),
        }
    }

    /// The row of the last record, from 1.
    pub(super) fn row(&self) -> u64 {
        self.row
    }

    /// Puts the cells of the next record in the place of those before, or says what is wrong with it.
    pub(super) fn next(&mut self, cells: &mut Vec<Cow<'t, str>>) -> Option<Result<(), &'static str>> {
        cells.clear();
        let bytes = self.text.as_bytes();
        if self.at >= bytes.len() {
            return None;
        }
        self.row += 1;
        loop {
            let quoted = bytes.get(self.at) == Some(&b'"');
            let cell = if quoted { self.quoted() } else { Ok(Cow::Borrowed(self.bare())) };
            match cell {
                Ok(cell) => cells.push(cell),
                Err(message) => return Some(Err(message)),
            }
            match bytes.get(self.at) {
                Some(byte) if *byte == self.delimiter => self.at += 1,
                _ => {
                    self.end_line();
                    return Some(Ok(()));
                }
            }
        }
    }

    /// A cell without quotes, up to the delimiter or the end of the line.
    fn bare(&mut self) -> &'t str {
        let bytes = self.text.as_bytes();
        let rest = bytes.get(self.at..).unwrap_or_default();
        let ends = |byte: &u8| *byte == self.delimiter || *byte == b'\n' || *byte == b'\r';
        let length = rest.iter().position(ends).unwrap_or(rest.len());
        let cell = self.text.get(self.at..self.at + length).unwrap_or_default();
        self.at += length;
        cell
    }

    /// A cell in quotes, in which two of them are one.
    fn quoted(&mut self) -> Result<Cow<'t, str>, &'static str> {
        let start = self.at + 1;
        let mut end = start;
        let mut has_quotes = false;
        loop {
            let rest = self.text.get(end..).unwrap_or_default();
            let Some(length) = rest.find('"') else {
                self.at = self.text.len();
                return Err("a quote is not closed. Fix: write a quote within a cell twice");
            };
            end += length + 1;
            match self.text.as_bytes().get(end) {
                Some(b'"') => (has_quotes, end) = (true, end + 1),
                _ => break,
            }
        }
        self.at = end;
        let own = self.text.get(start..end - 1).unwrap_or_default();
        let next = self.text.as_bytes().get(end).copied().unwrap_or(b'\n');
        if next != self.delimiter && next != b'\n' && next != b'\r' {
            self.skip_line();
            return Err("text follows a closing quote. Fix: write a quote within a cell twice");
        }
        Ok(if has_quotes { own.replace("\"\"", "\"").into() } else { own.into() })
    }

    /// Past the end of the line: a line feed, a carriage return or both.
    fn end_line(&mut self) {
        let bytes = self.text.as_bytes();
        self.at += usize::from(bytes.get(self.at) == Some(&b'\r'));
        self.at += usize::from(bytes.get(self.at) == Some(&b'\n'));
    }

    fn skip_line(&mut self) {
        let rest = self.text.get(self.at..).unwrap_or_default();
        self.at += rest.find('\n').map_or(rest.len(), |length| length + 1);
    }
}

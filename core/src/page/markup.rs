//! Pieces of Markdown: tables, lists, and text that shows as it was written, in any renderer.
use std::fmt::Write;

/// Text of a document that shows as it was written: what could be markup in any common kind of Markdown is escaped, and
/// what moves the cursor, ends a line or turns the direction of writing is a space.
///
/// A character reference is read by every renderer, also where a table splits its cells; `*`, `_` and `#`, which names
/// in a shop often have, take the backslash, which is as old and reads better in a terminal.
pub(crate) fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len() + 8);
    let mut before = ' ';
    let mut rest = text.chars();
    while let Some(c) = rest.next() {
        let after = rest.clone().next().unwrap_or(' ');
        let is_between = |is: fn(char) -> bool| is(before) && is(after);
        let is_reference = match c {
            '<' | '>' | '&' | '|' | '`' | '[' | ']' | '\\' | '~' | '$' | '^' | '{' | '}' => true,
            // Addresses that some renderers turn into links.
            ':' => after == '/' || before == ':' || is_between(char::is_alphanumeric),
            '.' => is_between(char::is_alphabetic),
            '@' => is_between(char::is_alphanumeric),
            // Insertions, marks and dashes.
            '+' | '=' | '-' => before == c,
            _ => false,
        };
        match c {
            '*' | '_' | '#' => safe.extend(['\\', c]),
            // Writing to a String does not fail.
            _ if is_reference => drop(write!(safe, "&#{};", u32::from(c))),
            _ => safe.push(if is_printed(c) { c } else { ' ' }),
        }
        before = c;
    }
    safe
}

/// Whether a character takes its place in a line and leaves the rest of it alone.
pub(super) fn is_printed(c: char) -> bool {
    let turns_direction = matches!(
        c,
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
    );
    !(c.is_control() || turns_direction || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}'))
}

/// A table whose columns are padded, so that it lines up as plain text, but for cells of inordinate length. Columns
/// without any text are left out, and so is a table without rows.
pub(crate) fn table(text: &mut String, head: &[&str], rows: &[Vec<String>]) {
    const WIDEST: usize = 60;
    if rows.is_empty() {
        return;
    }
    let cell = |row: &'_ Vec<String>, k: usize| row.get(k).cloned().unwrap_or_default();
    let width = |k: usize| {
        let cells = rows.iter().map(|row| cell(row, k).chars().count());
        cells.chain([head[k].chars().count(), 3]).filter(|&width| width <= WIDEST).max().unwrap_or(3)
    };
    let is_shown = |k: &usize| rows.iter().any(|row| !cell(row, *k).is_empty());
    let shown: Vec<(usize, usize)> = (0..head.len()).filter(is_shown).map(|k| (k, width(k))).collect();
    let mut line = |cell: &dyn Fn(usize) -> String| {
        for &(k, width) in &shown {
            // Writing to a String does not fail.
            let _ = write!(text, "| {:width$} ", cell(k));
        }
        text.push_str("|\n");
    };
    line(&|k| head[k].into());
    line(&|k| "-".repeat(width(k)));
    for row in rows {
        line(&|k| cell(row, k));
    }
    text.push('\n');
}

/// An entry of a list, in lines that a terminal can show.
pub(crate) fn entry(text: &mut String, words: &str) {
    const WIDTH: usize = 98;
    let mut room = 0;
    for word in words.split_whitespace() {
        let length = word.chars().count();
        let lead = match room {
            0 if text.ends_with('\n') || text.is_empty() => "- ",
            room if room < length + 1 && may_begin_line(word) => "\n  ",
            _ => " ",
        };
        room = if lead == " " { room.saturating_sub(length + 1) } else { WIDTH.saturating_sub(length) };
        text.push_str(lead);
        text.push_str(word);
    }
    text.push('\n');
}

/// Whether a line that begins with this word goes on with the text: a dash, a number with a stop and the like would
/// begin a list or a heading.
fn may_begin_line(word: &str) -> bool {
    let digits = word.trim_start_matches(|c: char| c.is_ascii_digit());
    let is_number = digits.len() < word.len() && matches!(digits, "." | ")");
    !is_number && word.starts_with(|c: char| c.is_alphanumeric() || matches!(c, '`' | '(' | '*' | '&' | '\\'))
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

    #[test]
    fn no_line_of_an_entry_begins_a_list_or_a_heading() {
        for word in ["-", "+", "20.", "3)", "=", "---", ">", "#", "|"] {
            let mut text = String::from("\n");
            entry(&mut text, &format!("{}{word} more {}", "ab ".repeat(33), "cd ".repeat(20)));
            assert_eq!(text.lines().nth(2).map(|line| &line[..6]), Some("  more"), "{text}");
        }
    }

    #[test]
    fn names_are_escaped_only_where_they_must_be() {
        for plain in ["RA-20-148", "a 3/8\" end mill, 4 teeth (coated)", "Ø20 h9 ±0.05 mm; 100 %", "M6x1.0!"]
        {
            assert_eq!(escaped(plain), plain);
        }
        assert_eq!(escaped("#7 drill_2*"), "\\#7 drill\\_2\\*");
        assert_eq!(escaped("<b>|`"), "&#60;b&#62;&#124;&#96;");
        assert_eq!(escaped("a\u{1b}b\r\nc\u{2028}d\u{202e}e"), "a b  c d e");
        assert_eq!(escaped("http://www.a.b"), "http&#58;//www&#46;a&#46;b");
    }
}

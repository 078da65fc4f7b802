//! Pieces of Markdown: entries of lists, and text that shows as it was written, in any renderer.
use std::fmt::Write;

/// Puts text of a document behind a text so that it shows as it was written: what could be markup in any common kind of
/// Markdown is escaped, and what moves the cursor, ends a line or turns the direction of writing is a space.
///
/// A character reference is read by every renderer, also where a table splits its cells; `*`, `_` and `#`, which names
/// in a shop often have, take the backslash, which is as old and reads better in a terminal.
pub(crate) fn push_escaped(safe: &mut String, text: &str) {
    let (mut copied, mut at) = (0, 0);
    while let Some(ahead) = text.as_bytes()[at..].iter().position(|&byte| needs_a_look(byte)) {
        at += ahead;
        let (done, rest) = text.split_at(at);
        let mut rest = rest.chars();
        let Some(c) = rest.next() else { break };
        at += c.len_utf8();
        let (before, after) = (done.chars().next_back().unwrap_or(' '), rest.next().unwrap_or(' '));
        let is_kept = !is_markup(before, c, after) && is_printed(c);
        if is_kept {
            continue;
        }
        safe.push_str(&done[copied..]);
        copied = at;
        match c {
            '*' | '_' | '#' => safe.extend(['\\', c]),
            // Writing to a String does not fail.
            _ if is_printed(c) => drop(write!(safe, "&#{};", u32::from(c))),
            _ => safe.push(' '),
        }
    }
    safe.push_str(&text[copied..]);
}

/// Whether a byte may begin what is not shown as it is: all others are copied without a second look.
fn needs_a_look(byte: u8) -> bool {
    const LOOK: [bool; 256] = {
        let mut look = [false; 256];
        let mut byte = 0;
        while byte < look.len() {
            let is_letter = (byte as u8).is_ascii_alphanumeric();
            let is_plain = matches!(
                byte as u8,
                b' ' | b',' | b';' | b'(' | b')' | b'/' | b'\'' | b'"' | b'%' | b'!' | b'?'
            );
            look[byte] = !is_letter && !is_plain;
            byte += 1;
        }
        look
    };
    LOOK[usize::from(byte)]
}

/// Whether a character could be markup between its neighbours.
fn is_markup(before: char, c: char, after: char) -> bool {
    let is_between = |is: fn(char) -> bool| is(before) && is(after);
    match c {
        '*' | '_' | '#' | '<' | '>' | '&' | '|' | '`' | '[' | ']' | '\\' | '~' | '$' | '^' | '{' | '}' => {
            true
        }
        // Addresses that some renderers turn into links.
        ':' => after == '/' || before == ':' || is_between(char::is_alphanumeric),
        '.' => is_between(char::is_alphabetic),
        '@' => is_between(char::is_alphanumeric),
        // Insertions, marks and dashes.
        '+' | '=' | '-' => before == c,
        _ => false,
    }
}

/// Whether a character takes its place in a line and leaves the rest of it alone.
pub(super) fn is_printed(c: char) -> bool {
    let turns_direction = matches!(
        c,
        '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
    );
    !(c.is_control() || turns_direction || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}'))
}

/// How many characters a text has.
pub(super) fn length(text: &str) -> usize {
    // A text without any but those of ASCII, as most are, is counted at a glance.
    if text.is_ascii() { text.len() } else { text.chars().count() }
}

/// Puts an entry of a list behind a text, in lines that a terminal can show.
pub(crate) fn push_entry(text: &mut String, words: &str) {
    let is_odd = |byte: u8| !(b' '..=b'~').contains(&byte);
    // Without a way out, so that many bytes are looked at together.
    match words.bytes().fold(false, |any, byte| any | is_odd(byte)) {
        true => push_words(text, words.split_whitespace()),
        false => push_words(text, words.split(' ').filter(|word| !word.is_empty())),
    }
}

fn push_words<'w>(text: &mut String, words: impl Iterator<Item = &'w str>) {
    const WIDTH: usize = 98;
    let mut room = 0;
    for word in words {
        let length = length(word);
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

    fn escaped(text: &str) -> String {
        let mut safe = String::new();
        push_escaped(&mut safe, text);
        safe
    }

    #[test]
    fn entries_break_between_words() {
        let mut text = String::from("above\n");
        let long = "x".repeat(120);
        push_entry(&mut text, &format!("{} {long} {}", "ab ".repeat(33), "cd ".repeat(40)));
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
            push_entry(&mut text, &format!("{}{word} more {}", "ab ".repeat(33), "cd ".repeat(20)));
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

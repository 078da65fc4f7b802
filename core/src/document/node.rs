//! JSON text as a tree that keeps what a reader of documents must see: the order of fields, and fields given
//! twice.
use super::fault::{Fault, FaultKind};
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::{borrow::Cow, fmt};

/// The longest document that is read, in bytes.
pub const MAX_BYTES: usize = 4 << 20;
/// Up to here every whole number is a float.
const MAX_EXACT: u64 = 1 << 53;
/// How deep brackets may nest.
pub const MAX_DEPTH: usize = 32;

/// A document of JSON: its nodes in the order of the text, so that whatever stands inside a node follows it.
pub(crate) struct Tree<'a>(Vec<Entry<'a>>);

/// A node of a tree, and whatever stands inside it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Node<'n>(&'n [Entry<'n>]);

#[derive(PartialEq, Debug)]
struct Entry<'a> {
    /// The name of a field.
    name: Cow<'a, str>,
    content: Content<'a>,
}

impl<'a> Entry<'a> {
    /// A node whose content is still to be read.
    fn named(name: Cow<'a, str>) -> Entry<'a> {
        Entry { name, content: Content::Null }
    }

    /// How many nodes stand inside, at any depth.
    fn inside(&self) -> usize {
        match self.content {
            Content::List(inside) | Content::Object(inside) => inside,
            _ => 0,
        }
    }
}

/// What a node is; of a list and of an object, how many nodes stand inside at any depth.
#[derive(PartialEq, Debug)]
pub(crate) enum Content<'a> {
    Null,
    Truth(bool),
    Number(f64),
    /// A whole number that no float has, as it was written.
    Long(Box<str>),
    Text(Cow<'a, str>),
    List(usize),
    Object(usize),
}

impl<'a> Tree<'a> {
    /// Reads the JSON text of a plan, of at most [`MAX_BYTES`] and [`MAX_DEPTH`].
    pub(crate) fn parse(text: &'a str) -> Result<Tree<'a>, Fault> {
        Tree::parse_within(text, "a plan", MAX_BYTES)
    }

    /// Reads JSON text of at most so many bytes and [`MAX_DEPTH`].
    pub(crate) fn parse_within(text: &'a str, what: &str, most: usize) -> Result<Tree<'a>, Fault> {
        let whole =
            |kind, line_and_column, message| Fault { kind, place: String::new(), line_and_column, message };
        if text.len() > most {
            let message = format!("{what} may have at most {most} bytes, not {}", text.len());
            return Err(whole(FaultKind::TooLarge, None, message));
        }
        // Some editors put a byte order mark before the text.
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut deserializer = serde_json::Deserializer::from_str(text);
        // A node takes two bytes at least, and more than eight as a rule: room for a quarter of the most.
        let mut entries = Vec::with_capacity(text.len() / 8 + 1);
        let root = Element(Reader { depth: 0, entries: &mut entries });
        let read = root.deserialize(&mut deserializer).and_then(|()| deserializer.end());
        read.map(|()| Tree(entries)).map_err(|error| {
            let message = error.to_string();
            let end = message.rfind(" at line ").unwrap_or(message.len());
            let message = message[..end].to_owned();
            let at = Some((error.line(), error.column()));
            match error.is_data() {
                true => whole(FaultKind::TooLarge, at, message),
                false => whole(FaultKind::Syntax, at, format!("the text is not JSON: {message}")),
            }
        })
    }

    /// Puts a number in the place of a number or a text.
    pub(crate) fn put(&mut self, position: usize, content: Content<'a>) {
        if let Some(entry) = self.0.get_mut(position).filter(|entry| entry.inside() == 0) {
            entry.content = content;
        }
    }

    /// The node that holds all others.
    pub(crate) fn root(&self) -> Node<'_> {
        Node(&self.0)
    }
}

impl<'n> Node<'n> {
    pub(crate) fn content(self) -> &'n Content<'n> {
        self.0.first().map_or(&Content::Null, |entry| &entry.content)
    }

    /// The number, where it is one: of a long one the nearest float.
    pub(crate) fn number(self) -> Option<f64> {
        match self.content() {
            Content::Number(number) => Some(*number),
            Content::Long(digits) => digits.parse().ok(),
            _ => None,
        }
    }

    /// The number that this node comes to for a message, as it was written as far as that is known.
    pub(crate) fn told(self, number: f64) -> String {
        match self.content() {
            Content::Long(digits) => digits.to_string(),
            _ if number.abs() < MAX_EXACT as f64 => number.to_string(),
            _ => format!("about {number:e}"),
        }
    }

    /// The name of a field; empty for what is none.
    pub(crate) fn name(self) -> &'n str {
        self.0.first().map_or("", |entry| &entry.name)
    }

    /// The nodes of a list, or the fields of an object.
    pub(crate) fn parts(self) -> impl Iterator<Item = Node<'n>> + Clone {
        let mut rest = self.0.get(1..).unwrap_or_default();
        std::iter::from_fn(move || {
            let inside = rest.first()?.inside();
            let (part, others) = rest.split_at_checked(1 + inside)?;
            rest = others;
            Some(Node(part))
        })
    }

    /// The first field of this name, where this is an object that has it.
    pub(crate) fn get(self, name: &str) -> Option<Node<'n>> {
        match self.content() {
            Content::Object(_) => self.parts().find(|field| field.name() == name),
            _ => None,
        }
    }

    /// The node that a JSON Pointer (RFC 6901) from here leads to.
    pub(crate) fn at(self, pointer: &str) -> Option<Node<'n>> {
        let position = self.position(pointer)?;
        self.0.get(position..=position + self.0.get(position)?.inside()).map(Node)
    }

    /// How far behind this one the node stands that a JSON Pointer leads to.
    pub(crate) fn position(self, pointer: &str) -> Option<usize> {
        if !(pointer.is_empty() || pointer.starts_with('/')) {
            return None;
        }
        steps(pointer).try_fold(0, |position, step| {
            let entry = self.0.get(position)?;
            let wanted = match entry.content {
                Content::Object(_) => None,
                Content::List(_) => Some(index(&step)?),
                _ => return None,
            };
            let (end, mut part) = (position + entry.inside(), position + 1);
            let mut count = 0;
            while part <= end {
                let entry = self.0.get(part)?;
                if wanted.map_or(entry.name == step, |wanted| wanted == count) {
                    return Some(part);
                }
                part += 1 + entry.inside();
                count += 1;
            }
            None
        })
    }

    /// What it is, for a message.
    pub(crate) fn what(self) -> &'static str {
        match self.content() {
            Content::Null => "null",
            Content::Truth(_) => "true or false",
            Content::Number(_) | Content::Long(_) => "a number",
            Content::Text(_) => "text",
            Content::List(_) => "a list",
            Content::Object(_) => "an object",
        }
    }
}

/// The steps of a JSON Pointer.
pub(crate) fn steps(pointer: &str) -> impl Iterator<Item = String> {
    pointer.split('/').skip(1).map(|step| step.replace("~1", "/").replace("~0", "~"))
}

/// A place in a list as a pointer writes it: digits, without zeros before.
pub(crate) fn index(step: &str) -> Option<usize> {
    let is_plain = step == "0" || !step.starts_with(['0', '+']);
    step.parse().ok().filter(|_| is_plain)
}

/// Reads at a depth what the last of the nodes so far is.
struct Reader<'e, 'a> {
    depth: usize,
    entries: &'e mut Vec<Entry<'a>>,
}

impl<'a> Reader<'_, 'a> {
    fn set(self, content: Content<'a>) {
        if let Some(entry) = self.entries.last_mut() {
            entry.content = content;
        }
    }

    /// A whole number, and the float nearest to it.
    fn whole<E>(self, value: i128, nearest: f64) -> Result<(), E> {
        self.set(match nearest as i128 == value {
            true => Content::Number(nearest),
            false => Content::Long(value.to_string().into()),
        });
        Ok(())
    }

    /// Ends a list or an object, behind which this many nodes stood with it, by the count of what stands inside.
    fn end(self, before: usize, content: fn(usize) -> Content<'a>) {
        let inside = self.entries.len() - before;
        if let Some(entry) = self.entries.get_mut(before - 1) {
            entry.content = content(inside);
        }
    }

    /// Reads what stands inside.
    fn inside<E: Error>(&mut self) -> Result<Reader<'_, 'a>, E> {
        match self.depth < MAX_DEPTH {
            true => Ok(Reader { depth: self.depth + 1, entries: self.entries }),
            false => Err(E::custom(format_args!("brackets may nest at most {MAX_DEPTH} deep"))),
        }
    }
}

impl<'a> DeserializeSeed<'a> for Reader<'_, 'a> {
    type Value = ();

    fn deserialize<D: Deserializer<'a>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'a> Visitor<'a> for Reader<'_, 'a> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_unit<E>(self) -> Result<(), E> {
        self.set(Content::Null);
        Ok(())
    }

    fn visit_bool<E>(self, value: bool) -> Result<(), E> {
        self.set(Content::Truth(value));
        Ok(())
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<(), E> {
        self.whole(value.into(), value as f64)
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<(), E> {
        self.whole(value.into(), value as f64)
    }

    fn visit_f64<E>(self, value: f64) -> Result<(), E> {
        self.set(Content::Number(value));
        Ok(())
    }

    fn visit_borrowed_str<E>(self, text: &'a str) -> Result<(), E> {
        self.set(Content::Text(Cow::Borrowed(text)));
        Ok(())
    }

    fn visit_str<E>(self, text: &str) -> Result<(), E> {
        self.set(Content::Text(Cow::Owned(text.into())));
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'a>>(mut self, mut access: A) -> Result<(), A::Error> {
        let before = self.entries.len();
        while access.next_element_seed(Element(self.inside()?))?.is_some() {}
        self.end(before, Content::List);
        Ok(())
    }

    fn visit_map<A: MapAccess<'a>>(mut self, mut access: A) -> Result<(), A::Error> {
        let before = self.entries.len();
        while access.next_key_seed(Name(self.entries))?.is_some() {
            access.next_value_seed(self.inside()?)?;
        }
        self.end(before, Content::Object);
        Ok(())
    }
}

/// Puts a node without a name behind those so far, and reads what it is.
struct Element<'e, 'a>(Reader<'e, 'a>);

impl<'a> DeserializeSeed<'a> for Element<'_, 'a> {
    type Value = ();

    fn deserialize<D: Deserializer<'a>>(self, deserializer: D) -> Result<(), D::Error> {
        self.0.entries.push(Entry::named(Cow::Borrowed("")));
        self.0.deserialize(deserializer)
    }
}

/// Puts a node behind those so far by its name, which is borrowed where it has no escapes.
struct Name<'e, 'a>(&'e mut Vec<Entry<'a>>);

impl<'a> DeserializeSeed<'a> for Name<'_, 'a> {
    type Value = ();

    fn deserialize<D: Deserializer<'a>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl<'a> Visitor<'a> for Name<'_, 'a> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a name")
    }

    fn visit_borrowed_str<E>(self, text: &'a str) -> Result<(), E> {
        self.0.push(Entry::named(Cow::Borrowed(text)));
        Ok(())
    }

    fn visit_str<E>(self, text: &str) -> Result<(), E> {
        self.0.push(Entry::named(Cow::Owned(text.into())));
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(node: Node<'_>) -> Vec<(&str, &Content<'_>)> {
        node.parts().map(|part| (part.name(), part.content())).collect()
    }

    #[test]
    fn order_and_fields_given_twice_are_kept() {
        let tree = Tree::parse(r#"{"b": 1, "a": [null, [], true, "x\n"], "b": -2.5}"#).unwrap();
        let (root, list) = (tree.root(), Content::List(4));
        let [one, other] = [1.0, -2.5].map(Content::Number);
        assert_eq!(root.content(), &Content::Object(7));
        assert_eq!(told(root), [("b", &one), ("a", &list), ("b", &other)]);
        let inside = [Content::Null, Content::List(0), Content::Truth(true), Content::Text("x\n".into())];
        assert_eq!(root.get("a").map(told), Some(inside.iter().map(|content| ("", content)).collect()));
        assert_eq!(root.get("b").map(|node| node.content()), Some(&one));
        assert_eq!(root.get("c"), None);
    }

    #[test]
    fn text_that_is_not_json_has_its_line_and_column() {
        for (text, kind, at, message) in [
            ("plan", FaultKind::Syntax, (1, 1), "the text is not JSON: expected value"),
            ("", FaultKind::Syntax, (1, 0), "the text is not JSON: EOF while parsing a value"),
            ("{\n  \"a\": 1,\n}", FaultKind::Syntax, (3, 1), "the text is not JSON: trailing comma"),
            ("{} {}", FaultKind::Syntax, (1, 4), "the text is not JSON: trailing characters"),
            ("[1e999]", FaultKind::Syntax, (1, 6), "the text is not JSON: number out of range"),
        ] {
            let fault = Tree::parse(text).err().unwrap();
            assert_eq!((fault.kind, fault.line_and_column, &*fault.message), (kind, Some(at), message));
        }
    }

    #[test]
    fn a_byte_order_mark_is_read_over() {
        let tree = Tree::parse("\u{feff}{\"a\": 1}").unwrap();
        assert_eq!(tree.root().get("a").and_then(Node::number), Some(1.0));
        // Nothing is ahead of the mark in the first line, and a second one is no JSON.
        let fault = Tree::parse("\u{feff}plan").err().unwrap();
        assert_eq!(fault.line_and_column, Some((1, 1)));
        assert!(Tree::parse("\u{feff}\u{feff}1").is_err());
    }

    #[test]
    fn numbers_are_told_as_they_were_written() {
        for (text, number, told) in [
            ("1.5", 1.5, "1.5"),
            ("-9007199254740991", -9007199254740991.0, "-9007199254740991"),
            ("9007199254740993", 9007199254740992.0, "9007199254740993"),
            ("-9007199254740993", -9007199254740992.0, "-9007199254740993"),
            ("18446744073709551615", 18446744073709551616.0, "18446744073709551615"),
            // Beyond 64 bits the digits are not known any more.
            ("18446744073709551617", 18446744073709551616.0, "about 1.8446744073709552e19"),
        ] {
            let tree = Tree::parse(text).unwrap();
            assert_eq!(tree.root().number(), Some(number), "{text}");
            assert_eq!(tree.root().told(number), told);
        }
    }

    #[test]
    fn depth_and_length_have_a_limit() {
        let nested = |depth: usize| "[".repeat(depth) + &"]".repeat(depth);
        assert!(Tree::parse(&nested(MAX_DEPTH)).is_ok());
        for depth in [MAX_DEPTH + 1, 100, 1_000_000] {
            let fault = Tree::parse(&nested(depth)).err().unwrap();
            assert_eq!(fault.kind, FaultKind::TooLarge);
            assert_eq!(fault.message, "brackets may nest at most 32 deep");
            assert_eq!(fault.line_and_column.map(|(line, _)| line), Some(1));
        }
        let fault = Tree::parse(&" ".repeat(MAX_BYTES + 1)).err().unwrap();
        assert_eq!(fault.message, "a plan may have at most 4194304 bytes, not 4194305");
    }
}

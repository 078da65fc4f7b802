//! JSON text as a tree that keeps what a reader of documents must see: the order of fields, and fields given
//! twice.
use super::fault::{Fault, FaultKind};
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::{borrow::Cow, fmt};

/// The longest document that is read, in bytes.
pub const MOST_BYTES: usize = 4 << 20;
/// How deep brackets may nest.
pub const MOST_DEPTH: usize = 32;

/// A value of JSON.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Node<'a> {
    Null,
    Truth(bool),
    Number(f64),
    Text(Cow<'a, str>),
    List(Vec<Node<'a>>),
    Object(Vec<(Cow<'a, str>, Node<'a>)>),
}

impl<'a> Node<'a> {
    /// Reads JSON text of at most [`MOST_BYTES`] and [`MOST_DEPTH`].
    pub(crate) fn parse(text: &'a str) -> Result<Node<'a>, Fault> {
        let whole =
            |kind, line_and_column, message| Fault { kind, place: String::new(), line_and_column, message };
        if text.len() > MOST_BYTES {
            let message = format!("{} bytes are too many: a plan has at most {MOST_BYTES}", text.len());
            return Err(whole(FaultKind::TooLarge, None, message));
        }
        let mut deserializer = serde_json::Deserializer::from_str(text);
        let read = Level(0).deserialize(&mut deserializer).and_then(|node| {
            deserializer.end()?;
            Ok(node)
        });
        read.map_err(|error| {
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

    /// What it is, for a message.
    pub(crate) fn what(&self) -> &'static str {
        match self {
            Node::Null => "null",
            Node::Truth(_) => "true or false",
            Node::Number(_) => "a number",
            Node::Text(_) => "text",
            Node::List(_) => "a list",
            Node::Object(_) => "an object",
        }
    }

    /// The first field of this name, where this is an object that has it.
    pub(crate) fn get(&self, name: &str) -> Option<&Node<'a>> {
        match self {
            Node::Object(fields) => fields.iter().find(|(own, _)| own == name).map(|(_, node)| node),
            _ => None,
        }
    }
}

/// Reads a node at a depth.
struct Level(usize);

impl Level {
    fn deeper<E: Error>(&self) -> Result<Level, E> {
        match self.0 < MOST_DEPTH {
            true => Ok(Level(self.0 + 1)),
            false => Err(E::custom(format_args!("brackets nest deeper than {MOST_DEPTH}"))),
        }
    }
}

impl<'a> DeserializeSeed<'a> for Level {
    type Value = Node<'a>;

    fn deserialize<D: Deserializer<'a>>(self, deserializer: D) -> Result<Node<'a>, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'a> Visitor<'a> for Level {
    type Value = Node<'a>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_unit<E>(self) -> Result<Node<'a>, E> {
        Ok(Node::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Node<'a>, E> {
        Ok(Node::Truth(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Node<'a>, E> {
        Ok(Node::Number(value as f64))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Node<'a>, E> {
        Ok(Node::Number(value as f64))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Node<'a>, E> {
        Ok(Node::Number(value))
    }

    fn visit_borrowed_str<E>(self, text: &'a str) -> Result<Node<'a>, E> {
        Ok(Node::Text(Cow::Borrowed(text)))
    }

    fn visit_str<E>(self, text: &str) -> Result<Node<'a>, E> {
        Ok(Node::Text(Cow::Owned(text.into())))
    }

    fn visit_seq<A: SeqAccess<'a>>(self, mut access: A) -> Result<Node<'a>, A::Error> {
        let mut list = Vec::new();
        while let Some(node) = access.next_element_seed(self.deeper()?)? {
            list.push(node);
        }
        Ok(Node::List(list))
    }

    fn visit_map<A: MapAccess<'a>>(self, mut access: A) -> Result<Node<'a>, A::Error> {
        let mut fields = Vec::new();
        while let Some(name) = access.next_key_seed(Name)? {
            fields.push((name, access.next_value_seed(self.deeper()?)?));
        }
        Ok(Node::Object(fields))
    }
}

/// Reads the name of a field, borrowed where it has no escapes.
struct Name;

impl<'a> DeserializeSeed<'a> for Name {
    type Value = Cow<'a, str>;

    fn deserialize<D: Deserializer<'a>>(self, deserializer: D) -> Result<Cow<'a, str>, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl<'a> Visitor<'a> for Name {
    type Value = Cow<'a, str>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a name")
    }

    fn visit_borrowed_str<E>(self, text: &'a str) -> Result<Cow<'a, str>, E> {
        Ok(Cow::Borrowed(text))
    }

    fn visit_str<E>(self, text: &str) -> Result<Cow<'a, str>, E> {
        Ok(Cow::Owned(text.into()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn order_and_fields_given_twice_are_kept() {
        let node = Node::parse(r#"{"b": 1, "a": [null, true, "x\n"], "b": -2.5}"#).unwrap();
        let list = vec![Node::Null, Node::Truth(true), Node::Text("x\n".into())];
        let fields = [("b", Node::Number(1.0)), ("a", Node::List(list)), ("b", Node::Number(-2.5))];
        assert_eq!(node, Node::Object(fields.map(|(name, node)| (name.into(), node)).into()));
        assert_eq!(node.get("b"), Some(&Node::Number(1.0)));
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
            let fault = Node::parse(text).unwrap_err();
            assert_eq!((fault.kind, fault.line_and_column, &*fault.message), (kind, Some(at), message));
        }
    }

    #[test]
    fn depth_and_length_have_a_limit() {
        let nested = |depth: usize| "[".repeat(depth) + &"]".repeat(depth);
        assert!(Node::parse(&nested(MOST_DEPTH)).is_ok());
        for depth in [MOST_DEPTH + 1, 100, 1_000_000] {
            let fault = Node::parse(&nested(depth)).unwrap_err();
            assert_eq!(fault.kind, FaultKind::TooLarge);
            assert_eq!(fault.message, "brackets nest deeper than 32");
            assert_eq!(fault.line_and_column.map(|(line, _)| line), Some(1));
        }
        let fault = Node::parse(&" ".repeat(MOST_BYTES + 1)).unwrap_err();
        assert_eq!(fault.message, "4194305 bytes are too many: a plan has at most 4194304");
    }
}

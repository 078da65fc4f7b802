//! A document with fields added to it, as text.
use crate::document::node::{Content, Node};
use serde_json::{Map, Value};
use std::fmt::Write;

/// Writes a node as JSON with the fields of a patch behind its own: an object for an object, a list of as many for a list.
/// A field that stands in both keeps what the node has, and takes what is added inside.
pub(in crate::plan) fn merged(node: Node<'_>, patch: &Value) -> String {
    let mut text = String::new();
    write(&mut text, node, patch);
    text
}

fn write(text: &mut String, node: Node<'_>, patch: &Value) {
    match node.content() {
        Content::Null => text.push_str("null"),
        Content::Truth(truth) => _ = write!(text, "{truth}"),
        Content::Number(number) => _ = write!(text, "{}", number_of(*number)),
        Content::Long(digits) => text.push_str(digits),
        Content::Text(own) => _ = write!(text, "{}", Value::from(&**own)),
        Content::List(_) => write_list(text, node, patch),
        Content::Object(_) => write_object(text, node, patch),
    }
}

fn write_list(text: &mut String, node: Node<'_>, patch: &Value) {
    text.push('[');
    for (index, part) in node.parts().enumerate() {
        text.push_str(if index == 0 { "" } else { ", " });
        write(text, part, patch.get(index).unwrap_or(&Value::Null));
    }
    text.push(']');
}

fn write_object(text: &mut String, node: Node<'_>, patch: &Value) {
    let empty = Map::new();
    let added = patch.as_object().unwrap_or(&empty);
    text.push('{');
    let mut separator = "";
    for field in node.parts() {
        let _ = write!(text, "{separator}{}: ", Value::from(field.name()));
        write(text, field, added.get(field.name()).unwrap_or(&Value::Null));
        separator = ", ";
    }
    for (name, value) in added.iter().filter(|(name, _)| node.get(name).is_none()) {
        let _ = write!(text, "{separator}{}: {value}", Value::from(&**name));
        separator = ", ";
    }
    text.push('}');
}

/// A number as a shop writes it: a whole one without a point.
pub(super) fn number_of(number: f64) -> Value {
    let whole = number as i64;
    if whole as f64 == number && whole.unsigned_abs() < 1 << 53 { whole.into() } else { number.into() }
}

/// Puts one patch into another; what stands in both keeps what it has.
pub(super) fn add(patch: &mut Value, more: Value) {
    match (patch, more) {
        (Value::Object(own), Value::Object(more)) => {
            for (name, value) in more {
                match own.get_mut(&name) {
                    Some(inside) => add(inside, value),
                    None => _ = own.insert(name, value),
                }
            }
        }
        (own @ Value::Null, more) => *own = more,
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::node::Tree;
    use serde_json::json;

    #[test]
    fn what_stands_stays_and_what_is_missing_follows() {
        let text =
            r#"{"a": 1, "b": [{"c": "x\"y"}, null, 2.5], "a": 12345678901234567890, "d": {"e": true}}"#;
        let tree = Tree::parse(text).unwrap();
        assert_eq!(merged(tree.root(), &Value::Null), text);
        let patch = json!({"a": 7, "b": [{"c": 3, "n": 0.1}], "d": {"f": {"g": [1]}}, "h": "new"});
        let expected = r#"{"a": 1, "b": [{"c": "x\"y", "n": 0.1}, null, 2.5], "a": 12345678901234567890, "d": {"e": true, "f": {"g":[1]}}, "h": "new"}"#;
        assert_eq!(merged(tree.root(), &patch), expected);
    }
}

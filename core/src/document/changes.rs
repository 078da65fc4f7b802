//! What differs between two documents, by place.
use super::fault::{DocumentError, Place};
use super::node::{Content, Node, Tree};
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// A value that differs between two documents.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Change {
    /// Where it is: a JSON Pointer into the new document, or into the old one where the new one has it no more.
    pub place: String,
    /// The value in the old document; none where it is new.
    pub old: Option<Value>,
    /// The value in the new document; none where it is gone.
    pub new: Option<Value>,
}

/// What differs between two JSON documents of at most so many bytes, in the order of the new one; what is gone follows.
pub(crate) fn changes(old: &str, new: &str, most: usize) -> Result<Vec<Change>, DocumentError> {
    let [old, new] =
        [Tree::parse_within(old, "a document", most)?, Tree::parse_within(new, "a document", most)?];
    let mut found = vec![];
    compare(old.root(), new.root(), Place::ROOT, &mut found);
    Ok(found)
}

fn compare(old: Node<'_>, new: Node<'_>, at: Place<'_>, found: &mut Vec<Change>) {
    match (old.content(), new.content()) {
        (Content::Object(_), Content::Object(_)) => {
            let mut left: BTreeMap<&str, Node<'_>> = old.parts().map(|field| (field.name(), field)).collect();
            for field in new.parts() {
                let place = at.field(field.name());
                match left.remove(field.name()) {
                    Some(before) => compare(before, field, place, found),
                    None => note(None, Some(field), place, found),
                }
            }
            for field in old.parts().filter(|field| left.contains_key(field.name())) {
                note(Some(field), None, at.field(field.name()), found);
            }
        }
        (Content::List(_), Content::List(_)) => compare_lists(old, new, at, found),
        (before, after) if before == after => {}
        _ => note(Some(old), Some(new), at, found),
    }
}

/// Items that have numbers are the same where those are, others where they stand.
fn compare_lists(old: Node<'_>, new: Node<'_>, at: Place<'_>, found: &mut Vec<Change>) {
    let keys = numbers(old).zip(numbers(new));
    let (old_keys, new_keys) = keys.unwrap_or_else(|| {
        let places = |list: Node<'_>| (0..list.parts().count() as u64).collect();
        (places(old), places(new))
    });
    let mut left: BTreeMap<u64, (usize, Node<'_>)> =
        old_keys.into_iter().zip(old.parts().enumerate()).collect();
    for (key, (index, item)) in new_keys.into_iter().zip(new.parts().enumerate()) {
        match left.remove(&key) {
            Some((_, before)) => compare(before, item, at.index(index), found),
            None => note(None, Some(item), at.index(index), found),
        }
    }
    for (index, item) in left.into_values() {
        note(Some(item), None, at.index(index), found);
    }
}

/// The numbers of the items of a list, where each has one of its own.
fn numbers(list: Node<'_>) -> Option<Vec<u64>> {
    let of = |item: Node<'_>| item.get("number")?.number().filter(|number| number.fract() == 0.0);
    let numbers: Vec<u64> =
        list.parts().map(|item| of(item).map(|number| number as u64)).collect::<Option<_>>()?;
    let mut sorted = numbers.clone();
    sorted.sort_unstable();
    sorted.dedup();
    (sorted.len() == numbers.len()).then_some(numbers)
}

fn note(old: Option<Node<'_>>, new: Option<Node<'_>>, at: Place<'_>, found: &mut Vec<Change>) {
    found.push(Change { place: at.pointer(), old: old.map(value), new: new.map(value) });
}

fn value(node: Node<'_>) -> Value {
    match node.content() {
        Content::Null => Value::Null,
        Content::Truth(truth) => (*truth).into(),
        Content::Number(number) => whole(*number).map_or_else(|| (*number).into(), Value::from),
        Content::Long(digits) => digits.parse::<f64>().map_or(Value::Null, Value::from),
        Content::Text(text) => text.as_ref().into(),
        Content::List(_) => node.parts().map(value).collect(),
        Content::Object(_) => node.parts().map(|field| (field.name().to_string(), value(field))).collect(),
    }
}

fn whole(number: f64) -> Option<i64> {
    const MOST: f64 = 9_007_199_254_740_992.0;
    (number.fract() == 0.0 && number.abs() < MOST).then_some(number as i64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn found(old: &Value, new: &Value) -> Vec<(String, Option<Value>, Option<Value>)> {
        let made = changes(&old.to_string(), &new.to_string(), 1 << 20).unwrap();
        made.into_iter().map(|change| (change.place, change.old, change.new)).collect()
    }

    #[test]
    fn changes_have_their_places() {
        let old = json!({"a": 1, "b": {"c": [1, 2, 3], "d": "x"}, "gone": null});
        let new = json!({"a": 1.5, "b": {"c": [1, 4], "d": "x"}, "come": {"e": true}});
        assert_eq!(
            found(&old, &new),
            [
                ("/a".into(), Some(json!(1)), Some(json!(1.5))),
                ("/b/c/1".into(), Some(json!(2)), Some(json!(4))),
                ("/b/c/2".into(), Some(json!(3)), None),
                ("/come".into(), None, Some(json!({"e": true}))),
                ("/gone".into(), Some(Value::Null), None),
            ]
        );
        assert!(found(&old, &old).is_empty());
        assert!(found(&json!(1), &json!(1.0)).is_empty());
        assert!(changes("{", "{}", 10).is_err() && changes("{}", "[1, 2, 3, 4]", 10).is_err());
    }

    #[test]
    fn items_with_numbers_are_compared_by_them() {
        let old = json!([{"number": 10, "name": "saw"}, {"number": 20, "name": "turn"}]);
        let new = json!([{"number": 15, "name": "face"}, {"number": 20, "name": "turn fine"}]);
        assert_eq!(
            found(&old, &new),
            [
                ("/0".into(), None, Some(json!({"number": 15, "name": "face"}))),
                ("/1/name".into(), Some(json!("turn")), Some(json!("turn fine"))),
                ("/0".into(), Some(json!({"number": 10, "name": "saw"})), None),
            ]
        );
    }
}

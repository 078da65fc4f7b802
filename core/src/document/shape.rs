//! What a document may hold: one table of fields for each object, from which the decoder, the JSON Schema and
//! the description of the document come.
use crate::quantity::{Kind, Units};
use serde_json::Value;

/// What may stand in a field.
#[derive(Debug)]
pub enum Shape {
    /// The version of the document.
    Version(u32),
    /// Any text.
    Text,
    /// True or false.
    Truth,
    /// A whole number.
    Count,
    /// A plain number.
    Number,
    /// A number in the shop unit of the document, or text with a unit.
    DocumentNumber(&'static Kind),
    /// A range of numbers, an object with its `lower` and its `upper` end.
    Range(&'static Kind),
    /// An exact decimal, such as money: a number, or text.
    Decimal,
    /// An exact size: a number in the shop unit of the document, or text with a unit.
    Size,
    /// Limits of size: drawing notation with a unit, or an object.
    Limits,
    /// The number of a characteristic of this document.
    Reference,
    /// A characteristic of this document by its number or its name, or a JSON Pointer to limits of it.
    Dimension,
    /// One of a few names.
    Choice(&'static [ChoiceName]),
    /// A list.
    List(&'static Shape),
    /// An object.
    Object(&'static Object),
    /// Objects of one kind, each in a field that is named by its key.
    Keyed(&'static Object),
    /// One of several objects, told apart by a field of this name, with the fields that all of them have besides.
    Tagged(&'static str, &'static [(&'static str, &'static Object)], &'static [DocumentField]),
}

/// One name of a choice.
#[derive(Debug)]
pub struct ChoiceName {
    /// The name.
    pub name: &'static str,
    /// What it means.
    pub doc: &'static str,
}

/// An object and its fields.
#[derive(Debug)]
pub struct Object {
    /// Its name in Rust.
    pub name: &'static str,
    /// What it means.
    pub doc: &'static str,
    /// Its fields, in order.
    pub fields: &'static [DocumentField],
}

/// A field of an object.
#[derive(Debug)]
pub struct DocumentField {
    /// Its name.
    pub name: &'static str,
    /// What it means.
    pub doc: &'static str,
    /// Whether it has to be there.
    pub required: bool,
    /// What it may hold.
    pub shape: &'static Shape,
    /// What is possible.
    pub bound: Bound,
    /// What holds where it is absent.
    pub default: Option<fn() -> Value>,
}

/// What numbers are possible in a field; for limits of size, what their lower limit may be.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Bound {
    /// Any number.
    Anything,
    /// Greater than zero.
    Positive,
    /// Zero or greater.
    NonNegative,
    /// Between zero and a half, both excluded: Poisson's ratio.
    BelowHalf,
    /// Between zero and one, both excluded: an exponent.
    BelowOne,
    /// From zero up to one, which is excluded: a share that leaves something.
    Share,
    /// Between 0 and 180, both excluded: the angle of a profile.
    BelowStraight,
    /// From 0 up to 90, which is excluded: the angle of a helix.
    BelowRight,
}

impl Bound {
    /// Whether a number is possible. NaN never is.
    pub fn holds(self, value: f64) -> bool {
        match self {
            Bound::Anything => value.is_finite(),
            Bound::Positive => value.is_finite() && value > 0.0,
            Bound::NonNegative => value.is_finite() && value >= 0.0,
            Bound::BelowHalf => 0.0 < value && value < 0.5,
            Bound::BelowOne => 0.0 < value && value < 1.0,
            Bound::Share => (0.0..1.0).contains(&value),
            Bound::BelowStraight => 0.0 < value && value < 180.0,
            Bound::BelowRight => (0.0..90.0).contains(&value),
        }
    }

    /// What a number must be: `greater than 0`.
    pub fn need(self) -> &'static str {
        match self {
            Bound::Anything => "finite",
            Bound::Positive => "greater than 0",
            Bound::NonNegative => "0 or greater",
            Bound::BelowHalf => "greater than 0 and less than 0.5",
            Bound::BelowOne => "greater than 0 and less than 1",
            Bound::Share => "0 or greater and less than 1",
            Bound::BelowStraight => "greater than 0 and less than 180",
            Bound::BelowRight => "0 or greater and less than 90",
        }
    }
}

impl Shape {
    /// What would be right, with an example.
    pub fn expected(&self, units: Units) -> String {
        let length = ["in", "mm"][units as usize];
        match self {
            Shape::Version(version) => format!("the version of the document, {version}"),
            Shape::Text => "text".into(),
            Shape::Truth => "true or false".into(),
            Shape::Count => "a whole number".into(),
            Shape::Number => "a number".into(),
            Shape::DocumentNumber(kind) => match kind.unit(units).label {
                "" => "a number".into(),
                unit => format!("a number in {unit}, or text with its unit such as \"1.5 {unit}\""),
            },
            Shape::Decimal => "a decimal: a number, or text such as \"12.50\"".into(),
            Shape::Size => format!("a number in {length}, or text with its unit such as \"7/16 in\""),
            Shape::Limits => "limits as text with a unit such as \"12 +0/-0.011 mm\", a class of ISO 286 \
                              such as \"20 h9\", a member of a fit of ASME B4.1 such as \"0.5 in FN2 hole\", \
                              or an object with `lower` \
                              and `upper`, or with `nominal`, `upper_deviation` and \
                              `lower_deviation`"
                .into(),
            Shape::Reference => "the number of a characteristic".into(),
            Shape::Dimension => {
                "the number or the name of a characteristic, or a JSON Pointer to limits such as \
                                 \"/bar/limits\""
                    .into()
            }
            Shape::Choice(choices) => one_of(choices.iter().map(|choice| choice.name)),
            Shape::Range(_) => "an object with `lower` and `upper`".into(),
            Shape::List(_) => "a list".into(),
            Shape::Object(_) => "an object".into(),
            Shape::Keyed(_) => "an object with a field for each key".into(),
            Shape::Tagged(tag, variants, _) => {
                format!("an object whose `{tag}` is {}", one_of(variants.iter().map(|(name, _)| *name)))
            }
        }
    }
}

/// `` `a`, `b` or `c` ``.
pub(crate) fn one_of<'n>(names: impl IntoIterator<Item = &'n str>) -> String {
    let names: Vec<String> = names.into_iter().map(|name| format!("`{name}`")).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => names.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_exclude_their_ends_and_nan() {
        for (bound, inside, outside) in [
            (Bound::Anything, &[-1e300, 0.0][..], &[f64::INFINITY][..]),
            (Bound::Positive, &[f64::MIN_POSITIVE, 1e300], &[0.0, -0.0, -1.0, f64::INFINITY]),
            (Bound::NonNegative, &[0.0, -0.0, 1.0], &[-f64::MIN_POSITIVE, f64::INFINITY]),
            (Bound::BelowHalf, &[0.3], &[0.0, 0.5]),
            (Bound::BelowOne, &[0.25], &[0.0, 1.0]),
            (Bound::Share, &[0.0, 0.99], &[-0.01, 1.0]),
            (Bound::BelowStraight, &[90.0], &[0.0, 180.0]),
            (Bound::BelowRight, &[0.0, 30.0], &[-1.0, 90.0]),
        ] {
            assert!(inside.iter().all(|&value| bound.holds(value)), "{bound:?}");
            assert!(!outside.iter().any(|&value| bound.holds(value)), "{bound:?}");
            assert!(!bound.holds(f64::NAN), "{bound:?}");
        }
    }

    #[test]
    fn lists_of_names_read_well() {
        let cases = [(&["a"][..], "`a`"), (&["a", "b"], "`a` or `b`"), (&["a", "b", "c"], "`a`, `b` or `c`")];
        for (names, expected) in cases {
            assert_eq!(one_of(names.iter().copied()), expected);
        }
    }
}

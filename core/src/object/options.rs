//! The record of options: what a function may be asked for beside its data, with the defaults.
use super::{Field, FieldKind, Readable, Value};
use crate::nearest::nearest;

/// The options of a function, as a record: name, meaning, fields and their defaults.
#[derive(Debug)]
pub struct OptionsRecord {
    /// The name of the type: `CuttingOptions`.
    pub name: &'static str,
    /// What they are for.
    pub doc: &'static str,
    /// The options, in order.
    pub fields: &'static [Field],
    /// What each is where a caller does not say.
    pub defaults: fn() -> Vec<Value>,
    /// Whether they are of long work: in C a watch then goes with them.
    pub watched: bool,
}

/// A type with a record, under `#[derive(Options)]`.
pub trait Options: Default {
    /// What they are.
    const RECORD: &'static OptionsRecord;

    /// The options with these values, one for each field.
    ///
    /// # Errors
    /// The first value that is not one of its option.
    fn of_values(values: &[Value]) -> Result<Self, OptionError>;
}

/// A value that an option cannot have.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[error("{name} must be {need}, not {got}")]
pub struct OptionError {
    /// The name of the option.
    pub name: &'static str,
    /// What it must be.
    pub need: String,
    /// What was given.
    pub got: String,
}

impl OptionsRecord {
    /// The option whose name is most like this one, if any is like it.
    pub fn nearest(&self, name: &str) -> Option<&'static str> {
        nearest(name, self.fields.iter().map(|field| field.name))
    }
}

impl Field {
    /// The value of a field of this type.
    ///
    /// # Errors
    /// A value of another kind or out of its range, such as a count below zero.
    pub fn read<T: Readable>(&self, value: Option<&Value>) -> Result<T, OptionError> {
        let value = value.unwrap_or(&Value::Absent);
        T::read(value).ok_or_else(|| self.refuse(value.to_string()))
    }

    /// The error for what is no value of this field.
    pub fn refuse(&self, got: impl Into<String>) -> OptionError {
        OptionError { name: self.name, need: self.kind.need(), got: got.into() }
    }
}

impl FieldKind {
    /// What a value of this kind must be, in words.
    fn need(&self) -> String {
        match self {
            FieldKind::Size => "a length".into(),
            FieldKind::Limits => "limits of size".into(),
            FieldKind::Quantity(_) | FieldKind::Number | FieldKind::Pure => "a number".into(),
            FieldKind::Seconds => "a number of seconds, zero or more".into(),
            FieldKind::Whole => "a whole number, zero or more".into(),
            FieldKind::Flag => "yes or no".into(),
            FieldKind::Choice(names) => match names.split_last() {
                Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
                _ => names.concat(),
            },
            FieldKind::Amount => "an amount of money".into(),
            FieldKind::Text => "text".into(),
            FieldKind::Object(record) => record.name.into(),
            FieldKind::List(_) => "a list".into(),
            FieldKind::ByName(_) => "values by name".into(),
            FieldKind::Optional(kind) => kind.need(),
        }
    }
}

impl std::fmt::Display for Value {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Value::Absent => f.write_str("nothing"),
            Value::Size(size) => size.fmt(f),
            Value::Limits(limits) => limits.fmt(f),
            Value::Number(number) => number.fmt(f),
            Value::Whole(count) => count.fmt(f),
            Value::Flag(flag) => flag.fmt(f),
            Value::Choice(place) => place.fmt(f),
            Value::Amount(amount) => amount.fmt(f),
            Value::Text(text) => write!(f, "'{}'", crate::error::excerpt(text)),
            Value::Object(told) => f.write_str(told.record.name),
            Value::List(values) => write!(f, "a list of {}", values.len()),
            Value::ByName(values) => write!(f, "{} values by name", values.len()),
        }
    }
}

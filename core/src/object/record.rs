//! The record of an object, and an object as its values.
use crate::limits::Limits;
use crate::money::Amount;
use crate::quantity::Kind;
use crate::size::Size;
use std::borrow::Cow;
use std::hash::{Hash, Hasher};

/// What an object is, as a record: name, meaning, fields.
#[derive(Debug)]
pub struct ObjectRecord {
    /// The name of the type: `Gauge`.
    pub name: &'static str,
    /// What it means.
    pub doc: &'static str,
    /// The fields of the struct, then what its methods tell.
    pub fields: [&'static [Field]; 2],
    /// Whether it unpacks in Python as a tuple of the fields of the struct.
    pub tuple: bool,
}

/// One thing that an object has.
#[derive(Debug)]
pub struct Field {
    /// The name, the same in every interface.
    pub name: &'static str,
    /// What it means.
    pub doc: &'static str,
    /// What kind of value it is.
    pub kind: FieldKind,
}

/// The kind of a field.
#[derive(Clone, Copy, Debug)]
pub enum FieldKind {
    /// An exact size.
    Size,
    /// Limits of size.
    Limits,
    /// A quantity, which each interface gives in the units of its caller.
    Quantity(&'static Kind),
    /// A plain number; of an object that has `units`, a length in them.
    Number,
    /// A number that never has a unit: a ratio, a share, an exponent.
    Pure,
    /// A time that a machine may take, in seconds.
    Seconds,
    /// A whole number.
    Whole,
    /// Yes or no.
    Flag,
    /// One of these names.
    Choice(&'static [&'static str]),
    /// An amount of money.
    Amount,
    /// Text.
    Text,
    /// Another object.
    Object(&'static ObjectRecord),
    /// Any number of values of one kind.
    List(&'static FieldKind),
    /// Values of one kind by name.
    ByName(&'static FieldKind),
    /// A value of that kind, or nothing.
    Optional(&'static FieldKind),
}

/// The value of a field.
#[derive(Clone, Debug)]
pub enum Value {
    /// Nothing, of a field that is optional.
    Absent,
    /// An exact size.
    Size(Size),
    /// Limits of size.
    Limits(Limits),
    /// A quantity in metric base units, or a plain number.
    Number(f64),
    /// A whole number.
    Whole(i64),
    /// Yes or no.
    Flag(bool),
    /// A name by its place among those of its kind.
    Choice(usize),
    /// An amount of money.
    Amount(Amount),
    /// Text.
    Text(Cow<'static, str>),
    /// Another object.
    Object(Told),
    /// Values of one kind.
    List(Vec<Value>),
    /// Values of one kind by name.
    ByName(Vec<(Cow<'static, str>, Value)>),
}

/// An object as its values: what the faces show, compare and keep.
#[derive(Clone, Debug)]
pub struct Told {
    /// What it is.
    pub record: &'static ObjectRecord,
    /// The values of its fields, in the order of the record.
    pub values: Vec<Value>,
    /// What it comes to, in a line, where its type has such a line.
    pub summary: Option<Box<str>>,
}

/// A type with a record, under `#[derive(Object)]`.
pub trait Object {
    /// What it is.
    const RECORD: &'static ObjectRecord;
    /// One object of it as its values.
    fn tell(&self) -> Told;
}

/// An object that can be made again from its values, since methods of it are called in every interface.
pub trait Restored: Object + Sized {
    /// The object of these values; nothing if none has them.
    fn restore(told: &Told) -> Option<Self>;
}

impl ObjectRecord {
    /// Every field, in order.
    pub fn fields(&self) -> impl Iterator<Item = &'static Field> {
        self.fields.into_iter().flatten()
    }
}

impl FieldKind {
    /// That of a field marked `#[pure]`: its numbers have no unit.
    #[must_use]
    pub const fn pure(self) -> FieldKind {
        match self {
            FieldKind::Number => FieldKind::Pure,
            FieldKind::Optional(FieldKind::Number) => FieldKind::Optional(&FieldKind::Pure),
            FieldKind::List(FieldKind::Number) => FieldKind::List(&FieldKind::Pure),
            FieldKind::ByName(FieldKind::Number) => FieldKind::ByName(&FieldKind::Pure),
            other => other,
        }
    }

    /// The kind of the value where there is one.
    pub const fn present(&self) -> &FieldKind {
        match self {
            FieldKind::Optional(inner) => inner,
            other => other,
        }
    }
}

impl Told {
    /// The value of a field.
    pub fn value(&self, name: &str) -> Option<&Value> {
        self.values.get(self.record.fields().position(|field| field.name == name)?)
    }
}

impl PartialEq for Told {
    fn eq(&self, other: &Told) -> bool {
        self.record.name == other.record.name && self.values == other.values
    }
}

impl PartialEq for Value {
    /// A number that is not one equals itself here, so that an object equals its copy.
    fn eq(&self, other: &Value) -> bool {
        match (self, other) {
            (Value::Absent, Value::Absent) => true,
            (Value::Size(one), Value::Size(other)) => one == other,
            (Value::Limits(one), Value::Limits(other)) => one == other,
            (Value::Number(one), Value::Number(other)) => one == other || one.is_nan() && other.is_nan(),
            (Value::Whole(one), Value::Whole(other)) => one == other,
            (Value::Flag(one), Value::Flag(other)) => one == other,
            (Value::Choice(one), Value::Choice(other)) => one == other,
            (Value::Amount(one), Value::Amount(other)) => one == other,
            (Value::Text(one), Value::Text(other)) => one == other,
            (Value::Object(one), Value::Object(other)) => one == other,
            (Value::List(one), Value::List(other)) => one == other,
            (Value::ByName(one), Value::ByName(other)) => one == other,
            _ => false,
        }
    }
}

impl Hash for Value {
    fn hash<H: Hasher>(&self, state: &mut H) {
        std::mem::discriminant(self).hash(state);
        match self {
            Value::Absent => {}
            Value::Size(size) => size.hash(state),
            Value::Limits(limits) => limits.hash(state),
            // Both zeros are equal, and so is every NaN.
            Value::Number(number) if *number == 0.0 => 0_u64.hash(state),
            Value::Number(number) if number.is_nan() => f64::NAN.to_bits().hash(state),
            Value::Number(number) => number.to_bits().hash(state),
            Value::Whole(count) => count.hash(state),
            Value::Flag(flag) => flag.hash(state),
            Value::Choice(place) => place.hash(state),
            Value::Amount(amount) => amount.hash(state),
            Value::Text(text) => text.hash(state),
            Value::Object(object) => object.values.hash(state),
            Value::List(values) => values.hash(state),
            Value::ByName(values) => values.hash(state),
        }
    }
}

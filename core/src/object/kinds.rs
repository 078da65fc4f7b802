//! What a field of an object may be, and how it is told and read again.
use super::record::{FieldKind, Told, Value};
use crate::limits::Limits;
use crate::money::Amount;
use crate::quantity::{FloatQuantity, Units};
use crate::size::Size;
use std::borrow::Cow;
use std::time::Duration;

/// A type that a field of an object may have.
pub trait FieldValue: Sized + 'static {
    /// What it is.
    const FIELD: FieldKind;
    /// Its value.
    fn value(&self) -> Value;
}

/// A field that can be read from its value again.
pub trait Readable: FieldValue {
    /// From a value; nothing if that is of another kind.
    fn read(value: &Value) -> Option<Self>;
}

/// One of a few names: an enumeration without fields, under `#[derive(Choice)]`.
pub trait Choice: Copy + 'static {
    /// Every one, in the order of their numbers in C.
    const ALL: &'static [Self];
    /// The names, in that order.
    const NAMES: &'static [&'static str];
    /// Its place among them.
    fn place(self) -> usize;

    /// The one of that name.
    fn of_name(name: &str) -> Option<Self> {
        let place = Self::NAMES.iter().position(|known| *known == name)?;
        Self::ALL.get(place).copied()
    }
}

/// Kinds that a variant of [`Value`] holds as they are.
macro_rules! plain {
    ($($type:ty: $kind:ident)*) => {$(
        impl FieldValue for $type {
            const FIELD: FieldKind = FieldKind::$kind;
            fn value(&self) -> Value {
                Value::$kind(self.clone().into())
            }
        }

        impl Readable for $type {
            fn read(value: &Value) -> Option<Self> {
                match value {
                    Value::$kind(value) => Some(value.clone().into()),
                    _ => None,
                }
            }
        }
    )*};
}

plain!(Amount: Amount  Size: Size  Limits: Limits  f64: Number  bool: Flag  String: Text  Cow<'static, str>: Text);

/// Whole numbers; a count beyond those of `i64` is more than any memory holds.
macro_rules! whole {
    ($($type:ty)*) => {$(
        impl FieldValue for $type {
            const FIELD: FieldKind = FieldKind::Whole;
            fn value(&self) -> Value {
                Value::Whole(i64::try_from(*self).unwrap_or(i64::MAX))
            }
        }

        impl Readable for $type {
            fn read(value: &Value) -> Option<Self> {
                match value {
                    Value::Whole(count) => (*count).try_into().ok(),
                    _ => None,
                }
            }
        }
    )*};
}

whole!(i8 i64 u8 u32 u64 usize);

impl<Q: FloatQuantity> FieldValue for Q {
    const FIELD: FieldKind = FieldKind::Quantity(Q::KIND);
    fn value(&self) -> Value {
        Value::Number(self.metric())
    }
}

impl<Q: FloatQuantity> Readable for Q {
    fn read(value: &Value) -> Option<Self> {
        match value {
            Value::Number(metric) => Some(Q::from_metric(*metric)),
            _ => None,
        }
    }
}

/// Infinitely long is as long as can be.
impl FieldValue for Duration {
    const FIELD: FieldKind = FieldKind::Seconds;
    fn value(&self) -> Value {
        Value::Number(self.as_secs_f64())
    }
}

impl Readable for Duration {
    fn read(value: &Value) -> Option<Self> {
        match value {
            Value::Number(f64::INFINITY) => Some(Duration::MAX),
            Value::Number(seconds) => Duration::try_from_secs_f64(*seconds).ok(),
            _ => None,
        }
    }
}

/// Text of the library's own.
impl FieldValue for &'static str {
    const FIELD: FieldKind = FieldKind::Text;
    fn value(&self) -> Value {
        Value::Text(Cow::Borrowed(*self))
    }
}

impl<T: FieldValue> FieldValue for Option<T> {
    const FIELD: FieldKind = FieldKind::Optional(&T::FIELD);
    fn value(&self) -> Value {
        self.as_ref().map_or(Value::Absent, T::value)
    }
}

impl<T: Readable> Readable for Option<T> {
    fn read(value: &Value) -> Option<Self> {
        match value {
            Value::Absent => Some(None),
            present => T::read(present).map(Some),
        }
    }
}

impl<T: FieldValue> FieldValue for Vec<T> {
    const FIELD: FieldKind = FieldKind::List(&T::FIELD);
    fn value(&self) -> Value {
        Value::List(self.iter().map(T::value).collect())
    }
}

impl<T: Readable> Readable for Vec<T> {
    fn read(value: &Value) -> Option<Self> {
        match value {
            Value::List(values) => values.iter().map(T::read).collect(),
            _ => None,
        }
    }
}

impl<T: FieldValue, const N: usize> FieldValue for [T; N] {
    const FIELD: FieldKind = FieldKind::List(&T::FIELD);
    fn value(&self) -> Value {
        Value::List(self.iter().map(T::value).collect())
    }
}

impl<T: Readable, const N: usize> Readable for [T; N] {
    fn read(value: &Value) -> Option<Self> {
        Vec::read(value)?.try_into().ok()
    }
}

impl Told {
    /// The value of a field of this type.
    pub fn get<T: Readable>(&self, name: &str) -> Option<T> {
        T::read(self.value(name)?)
    }

    /// The units in which the plain numbers of the object are readings, if it says so.
    pub fn units(&self) -> Option<Units> {
        self.get("units")
    }
}

//! Values of one kind by name.
use super::{FieldKind, FieldValue, Readable, Value};
use std::borrow::Cow;
use std::ops::Index;

/// Values by name, in their order: of inputs, of arguments.
#[derive(Clone, PartialEq, Debug)]
pub struct ByName<T>(Vec<(Cow<'static, str>, T)>);

impl<T> ByName<T> {
    /// The value of that name.
    pub fn get(&self, name: &str) -> Option<&T> {
        self.iter().find(|(known, _)| *known == name).map(|(_, value)| value)
    }

    /// Every name with its value.
    pub fn iter(&self) -> impl ExactSizeIterator<Item = (&str, &T)> {
        self.0.iter().map(|(name, value)| (name.as_ref(), value))
    }

    /// The values.
    pub fn values(&self) -> impl ExactSizeIterator<Item = &T> {
        self.0.iter().map(|(_, value)| value)
    }
}

impl<N: Into<Cow<'static, str>>, T> FromIterator<(N, T)> for ByName<T> {
    fn from_iter<I: IntoIterator<Item = (N, T)>>(pairs: I) -> Self {
        Self(pairs.into_iter().map(|(name, value)| (name.into(), value)).collect())
    }
}

/// The value at a place.
impl<T> Index<usize> for ByName<T> {
    type Output = T;

    fn index(&self, place: usize) -> &T {
        &self.0[place].1
    }
}

impl<T: FieldValue> FieldValue for ByName<T> {
    const FIELD: FieldKind = FieldKind::ByName(&T::FIELD);
    fn value(&self) -> Value {
        Value::ByName(self.0.iter().map(|(name, value)| (name.clone(), value.value())).collect())
    }
}

impl<T: Readable> Readable for ByName<T> {
    fn read(value: &Value) -> Option<Self> {
        match value {
            Value::ByName(pairs) => {
                let read = |(name, value): &(Cow<'static, str>, Value)| Some((name.clone(), T::read(value)?));
                pairs.iter().map(read).collect::<Option<Vec<_>>>().map(Self)
            }
            _ => None,
        }
    }
}

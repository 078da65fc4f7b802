//! Figures of the sheet: each with a key that stays the same, for programs, and with its unit.
use crate::document::decode::{Context, Decode, decode_field, sort_fields};
use crate::document::fault::{FaultKind, Place};
use crate::document::node::{Content, Node};
use crate::document::objects::objects;
use crate::document::shape::{Bound, DocumentField, Object, Shape};
use serde::ser::{SerializeMap, SerializeStruct};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::collections::BTreeSet;
use std::ops::Deref;

/// Text of the library, or of a sheet that was read back.
pub type Text = Cow<'static, str>;

objects! {
    /// A figure of the sheet, under a key that stays the same.
    Figure {
        /// What it is, for people; its words joined by `_` are its key.
        name: Text,
        /// Its value: a whole number where it is a count.
        value: f64,
        /// Its unit; empty for a plain number.
        unit: Text,
        /// Whether it is to be set at the machine or is a size before or after the work, as the plan states it. Others are
        /// computed.
        set: bool,
        /// Whether it is a count.
        count: bool,
        /// The range that it was judged against, and whether it lies within.
        judged: Option<Judged>,
    }

    /// A range that a maker recommends, and whether a figure lies within.
    #[derive(Copy, Serialize)]
    Judged {
        /// The lower end.
        lower: f64,
        /// The upper end.
        upper: f64,
        /// Whether the figure lies within, ends included.
        within: bool,
    }
}

impl Figure {
    /// A computed figure.
    pub(crate) fn new(name: impl Into<Text>, value: f64, unit: impl Into<Text>) -> Figure {
        Figure { name: name.into(), value, unit: unit.into(), set: false, count: false, judged: None }
    }

    /// A count to be set.
    pub(crate) fn counted(name: &'static str, count: u32) -> Figure {
        Figure { set: true, count: true, ..Figure::new(name, count.into(), "") }
    }

    /// The name for programs: letters and digits of its name in lower case, joined by `_`.
    pub fn key(&self) -> String {
        if !self.name.is_ascii() {
            let words = self.name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
            return words.collect::<Vec<_>>().join("_").to_lowercase();
        }
        // The same of plain letters, in one pass.
        let mut key = String::with_capacity(self.name.len());
        let mut is_apart = false;
        for letter in self.name.chars() {
            match letter.is_ascii_alphanumeric() {
                true if is_apart && !key.is_empty() => key.extend(['_', letter.to_ascii_lowercase()]),
                true => key.push(letter.to_ascii_lowercase()),
                false => {}
            }
            is_apart = !letter.is_ascii_alphanumeric();
        }
        key
    }
}

impl Figure {
    /// Whether its key may be that one, at a glance at the first letter.
    fn may_have(&self, key: &str) -> bool {
        let first =
            |text: &str| text.bytes().find(u8::is_ascii_alphanumeric).map(|byte| byte.to_ascii_lowercase());
        !self.name.is_ascii() || first(&self.name) == first(key)
    }
}

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut fields = serializer.serialize_struct("Figure", 6)?;
        fields.serialize_field("name", &self.name)?;
        match self.count && self.value >= 0.0 && self.value as u64 as f64 == self.value {
            true => fields.serialize_field("value", &(self.value as u64))?,
            false => fields.serialize_field("value", &self.value)?,
        }
        fields.serialize_field("unit", &self.unit)?;
        fields.serialize_field("set", &self.set)?;
        fields.serialize_field("count", &self.count)?;
        fields.serialize_field("judged", &self.judged)?;
        fields.end()
    }
}

/// Figures in their order, no two of one key.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Figures(Vec<Figure>);

impl Figures {
    pub(crate) fn push(&mut self, figure: Figure) {
        self.0.push(figure);
    }

    /// The figure of that key.
    pub fn get(&self, key: &str) -> Option<&Figure> {
        self.0.iter().find(|figure| figure.may_have(key) && figure.key() == key)
    }
}

impl From<Vec<Figure>> for Figures {
    fn from(figures: Vec<Figure>) -> Figures {
        Figures(figures)
    }
}

impl Deref for Figures {
    type Target = [Figure];

    fn deref(&self) -> &[Figure] {
        &self.0
    }
}

impl<'f> IntoIterator for &'f Figures {
    type Item = &'f Figure;
    type IntoIter = std::slice::Iter<'f, Figure>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl Serialize for Figures {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for figure in &self.0 {
            map.serialize_entry(&figure.key(), figure)?;
        }
        map.end()
    }
}

impl Decode for Figures {
    const SHAPE: &'static Shape = &Shape::Keyed(Figure::OBJECT);

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Figures> {
        let Content::Object(_) = node.content() else {
            context.fault(FaultKind::WrongType, at, || {
                format!("must be an object of figures, not {}", node.what())
            });
            return None;
        };
        let faults = context.faults();
        let mut keys = BTreeSet::new();
        let mut figures: Vec<Figure> = Vec::with_capacity(node.parts().count().min(16));
        for field in node.parts() {
            let place = at.field(field.name());
            let Some(figure) = Figure::decode(&field, place, context) else { continue };
            let key = figure.key();
            if key != field.name() {
                context.fault(FaultKind::Conflict, place, || {
                    format!("the key of `{}` must be `{key}`: correct the name or the key", figure.name)
                });
            }
            if !keys.insert(field.name()) {
                context.fault(FaultKind::GivenTwice, place, || format!("`{key}` is given twice: remove one"));
            }
            figures.push(figure);
        }
        (faults == context.faults()).then_some(Figures(figures))
    }
}

impl FromIterator<Figure> for Figures {
    fn from_iter<I: IntoIterator<Item = Figure>>(figures: I) -> Figures {
        Figures(figures.into_iter().collect())
    }
}

impl Extend<Figure> for Figures {
    fn extend<I: IntoIterator<Item = Figure>>(&mut self, figures: I) {
        self.0.extend(figures);
    }
}

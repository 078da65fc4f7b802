//! From a tree of JSON to values, noting every fault on the way.
use super::fault::{FaultKind, Faults, Place};
use super::node::{Content, Node};
use super::shape::{Bound, DocumentField, Object, Shape, one_of};
use crate::error::excerpt;
use crate::nearest::nearest;
use crate::quantity::{Quantity, Units};
use crate::size::SizeError;
use crate::{GeneralClass, Limits, Size};
use serde_json::Value;
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::marker::PhantomData;

/// The longest text in a document, in bytes; a reading is shorter.
pub const MAX_TEXT: usize = 1000;
pub(crate) const MAX_READING: usize = 100;

/// What the whole document says, and the faults so far.
pub(crate) struct Context {
    /// The side whose shop units bare numbers are in.
    pub(crate) units: Units,
    /// The class of general tolerances of the drawing.
    pub(crate) general: Option<GeneralClass>,
    /// The numbers of the characteristics.
    pub(crate) characteristics: BTreeSet<u32>,
    /// The limits that names and pointers of dimensions lead to, or why there are none.
    pub(crate) dimensions: BTreeMap<String, Result<Limits, String>>,
    /// Whether the document was written by the library: null stands for a field that is absent, and text is as long as
    /// the library made it.
    pub(crate) is_written: bool,
    faults: Faults,
}

impl Context {
    pub(crate) fn new(units: Units, characteristics: BTreeSet<u32>) -> Context {
        Context {
            units,
            general: None,
            characteristics,
            dimensions: BTreeMap::new(),
            is_written: false,
            faults: Faults::default(),
        }
    }

    pub(crate) fn fault(&mut self, kind: FaultKind, at: Place<'_>, message: impl FnOnce() -> String) {
        self.faults.add(kind, at, message);
    }

    /// How many faults there are so far.
    pub(crate) fn faults(&self) -> usize {
        self.faults.count()
    }

    pub(crate) fn into_faults(self) -> Faults {
        self.faults
    }

    fn wrong_type(&mut self, node: &Node<'_>, shape: &Shape, at: Place<'_>) {
        let units = self.units;
        self.fault(FaultKind::WrongType, at, || {
            format!("must be {}, not {}", shape.expected(units), node.what())
        });
    }
}

/// What can stand in a field.
pub(crate) trait Decode: Sized {
    /// What it looks like.
    const SHAPE: &'static Shape;
    /// Whether the field may be left out without a default.
    const MAY_BE_ABSENT: bool = false;

    /// The value, or `None` with at least one fault noted.
    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Self>;

    /// The value of a field that was left out.
    fn absent() -> Option<Self> {
        None
    }

    /// The number that a bound judges, in the shop unit of `units`.
    fn measure(&self, _: Units) -> Option<f64> {
        None
    }

    /// The unit of that number.
    fn label(_: Units) -> &'static str {
        ""
    }

    /// The value as a document writes it, where it is one that may be a default: the same in all units.
    fn written(&self) -> Value {
        Value::Null
    }
}

/// A number in the shop unit of its document.
///
/// Numbers stay on the side on which they were given, so that one that is just on a limit stays there.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
pub struct DocumentNumber<Q>(f64, PhantomData<Q>);

impl<Q: Quantity> DocumentNumber<Q> {
    /// A number in the shop unit of the document.
    pub const fn new(value: f64) -> Self {
        DocumentNumber(value, PhantomData)
    }

    /// The number.
    pub const fn value(self) -> f64 {
        self.0
    }
}

impl<Q: Quantity> Decode for DocumentNumber<Q> {
    const SHAPE: &'static Shape = &Shape::DocumentNumber(Q::KIND);

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Self> {
        match node.content() {
            Content::Number(_) | Content::Long(_) => node.number().map(DocumentNumber::new),
            Content::Text(text) => {
                let units = context.units;
                let read = |text: &str| Q::KIND.read(text, units).map(DocumentNumber::new);
                readable(text, read, at, context)
            }
            _ => mismatch::<Self>(node, at, context),
        }
    }

    fn measure(&self, _: Units) -> Option<f64> {
        Some(self.0)
    }

    fn label(units: Units) -> &'static str {
        Q::KIND.unit(units).label
    }

    fn written(&self) -> Value {
        self.0.into()
    }
}

impl Decode for Size {
    const SHAPE: &'static Shape = &Shape::Size;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Size> {
        match node.content() {
            Content::Number(value) => match Size::from_float(*value, context.units) {
                Ok(size) => Some(size),
                Err(error) => {
                    context.fault(FaultKind::OutOfRange, at, || error.to_string());
                    None
                }
            },
            Content::Long(digits) => {
                let error = SizeError::OutOfRange { text: digits.to_string() };
                context.fault(FaultKind::OutOfRange, at, || error.to_string());
                None
            }
            Content::Text(text) => readable(text, Size::parse, at, context),
            _ => mismatch::<Self>(node, at, context),
        }
    }

    fn measure(&self, units: Units) -> Option<f64> {
        Some(self.to_float(units))
    }

    fn label(units: Units) -> &'static str {
        ["in", "mm"][units as usize]
    }

    fn written(&self) -> Value {
        self.to_float(Units::Metric).into()
    }
}

impl Decode for String {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<String> {
        decode_text(node, at, context).map(Into::into)
    }
}

/// Text that the tree keeps.
pub(crate) fn decode_text<'n>(node: &Node<'n>, at: Place<'_>, context: &mut Context) -> Option<&'n str> {
    match node.content() {
        Content::Text(text) if text.len() <= MAX_TEXT || context.is_written => Some(text),
        Content::Text(text) => {
            context.fault(FaultKind::TooLarge, at, || {
                format!("text may have at most {MAX_TEXT} bytes, not {}", text.len())
            });
            None
        }
        _ => {
            context.wrong_type(node, String::SHAPE, at);
            None
        }
    }
}

impl Decode for Cow<'static, str> {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Self> {
        String::decode(node, at, context).map(Cow::Owned)
    }
}

impl Decode for f64 {
    const SHAPE: &'static Shape = &Shape::Number;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<f64> {
        node.number().or_else(|| mismatch::<Self>(node, at, context))
    }

    fn measure(&self, _: Units) -> Option<f64> {
        Some(*self)
    }

    fn written(&self) -> Value {
        (*self).into()
    }
}

impl Decode for bool {
    const SHAPE: &'static Shape = &Shape::Truth;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<bool> {
        match node.content() {
            Content::Truth(truth) => Some(*truth),
            _ => mismatch::<Self>(node, at, context),
        }
    }
}

impl Decode for u32 {
    const SHAPE: &'static Shape = &Shape::Count;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<u32> {
        match node.content() {
            // A number that is no such one becomes another.
            Content::Number(value) if f64::from(*value as u32) == *value => Some(*value as u32),
            Content::Number(_) | Content::Long(_) => {
                context.fault(FaultKind::OutOfRange, at, || {
                    let told = node.told(node.number().unwrap_or_default());
                    format!("must be a whole number from 0 to {}, not {told}", u32::MAX)
                });
                None
            }
            _ => mismatch::<Self>(node, at, context),
        }
    }

    fn measure(&self, _: Units) -> Option<f64> {
        Some(f64::from(*self))
    }

    fn written(&self) -> Value {
        (*self).into()
    }
}

/// A count that may be beyond those of plans, and is a whole float.
impl Decode for u64 {
    const SHAPE: &'static Shape = &Shape::Count;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<u64> {
        let number = f64::decode(node, at, context)?;
        let is_whole = number >= 0.0 && number as u64 as f64 == number;
        if !is_whole {
            let message = || format!("must be a whole number from 0 up, not {}", node.told(number));
            context.fault(FaultKind::OutOfRange, at, message);
        }
        is_whole.then_some(number as u64)
    }
}

/// The number of a characteristic that the document has.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Reference(pub u32);

impl Decode for Reference {
    const SHAPE: &'static Shape = &Shape::Reference;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Reference> {
        let number = match node.content() {
            Content::Number(_) | Content::Long(_) => u32::decode(node, at, context)?,
            _ => return mismatch::<Self>(node, at, context),
        };
        if !context.characteristics.contains(&number) {
            let characteristics = &context.characteristics;
            context.faults.add(FaultKind::NotThere, at, || {
                let known: Vec<_> = characteristics.iter().take(20).map(u32::to_string).collect();
                format!("no characteristic has the number {number}; the numbers are {}", known.join(", "))
            });
            return None;
        }
        Some(Reference(number))
    }
}

impl<T: Decode> Decode for Option<T> {
    const SHAPE: &'static Shape = T::SHAPE;
    const MAY_BE_ABSENT: bool = true;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Option<T>> {
        T::decode(node, at, context).map(Some)
    }

    fn absent() -> Option<Option<T>> {
        Some(None)
    }

    fn measure(&self, units: Units) -> Option<f64> {
        self.as_ref().and_then(|value| value.measure(units))
    }

    fn label(units: Units) -> &'static str {
        T::label(units)
    }
}

impl<T: Decode> Decode for Vec<T> {
    const SHAPE: &'static Shape = &Shape::List(T::SHAPE);

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Vec<T>> {
        let Content::List(_) = node.content() else { return mismatch::<Self>(node, at, context) };
        let count = node.parts().count();
        // A value may take far more room than its text: only a few are taken on trust.
        let mut list = Vec::with_capacity(count.min(16));
        for (index, node) in node.parts().enumerate() {
            list.extend(T::decode(&node, at.index(index), context));
        }
        (list.len() == count).then_some(list)
    }

    fn written(&self) -> Value {
        self.iter().map(T::written).collect()
    }
}

/// Notes that a value has another type than its field.
pub(crate) fn mismatch<T: Decode>(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<T> {
    context.wrong_type(node, T::SHAPE, at);
    None
}

/// Reads short text, and notes why it cannot be read.
pub(crate) fn readable<T, E: std::fmt::Display>(
    text: &str,
    read: impl FnOnce(&str) -> Result<T, E>,
    at: Place<'_>,
    context: &mut Context,
) -> Option<T> {
    let result = match text.len() <= MAX_READING {
        true => read(text).map_err(|error| error.to_string()),
        false => Err(format!("`{}` is too long for a reading", excerpt(text))),
    };
    result.map_err(|message| context.fault(FaultKind::Unreadable, at, || message)).ok()
}

/// What may stand in an object beside the fields of its table.
#[derive(Clone, Copy)]
pub(crate) enum Beside<'t> {
    /// No other field.
    Nothing,
    /// The field that tells its kind, and those that all kinds have, which are read elsewhere.
    Tag(&'t str, &'static [DocumentField]),
    /// Any field: they are judged elsewhere.
    Anything,
}

impl Beside<'_> {
    fn tag(&self) -> Option<&str> {
        match self {
            Beside::Tag(tag, _) => Some(tag),
            _ => None,
        }
    }

    fn shared(&self) -> &'static [DocumentField] {
        match self {
            Beside::Tag(_, shared) => shared,
            _ => &[],
        }
    }

    /// Whether a field is judged elsewhere.
    fn leaves(&self, name: &str) -> bool {
        matches!(self, Beside::Anything) || self.shared().iter().any(|field| field.name == name)
    }
}

/// Puts the fields of an object in the order of its table; notes unknown ones and those given twice.
pub(crate) fn sort_fields<'n>(
    node: &Node<'n>,
    object: &'static Object,
    place: fn(&str) -> Option<usize>,
    beside: Beside<'_>,
    at: Place<'_>,
    context: &mut Context,
    found: &mut [Option<Node<'n>>],
) -> Option<()> {
    let Content::Object(_) = node.content() else {
        context.wrong_type(node, &Shape::Object(object), at);
        return None;
    };
    let mut tags = 0;
    for field in node.parts() {
        let name = field.name();
        if context.is_written && *field.content() == Content::Null {
            continue;
        }
        let is_repeated = match place(name) {
            Some(index) => found[index].replace(field).is_some(),
            None if beside.tag() == Some(name) => {
                tags += 1;
                tags > 1
            }
            None if beside.leaves(name) => false,
            None => {
                context.fault(FaultKind::Unknown, at.field(name), || unknown_field(name, object, beside));
                false
            }
        };
        if is_repeated {
            context.fault(FaultKind::GivenTwice, at.field(name), || {
                format!("`{name}` is given twice: remove one")
            });
        }
    }
    Some(())
}

fn unknown_field(name: &str, object: &Object, beside: Beside<'_>) -> String {
    let fields = || object.fields.iter().chain(beside.shared()).map(|field| field.name);
    let names = || fields().chain(beside.tag());
    let name = excerpt(name);
    match nearest(&name, names()) {
        Some(meant) => format!("there is no field `{name}` here: did you mean `{meant}`?"),
        None => format!("there is no field `{name}` here; the fields are {}", one_of(names())),
    }
}

/// The value of one field, from what was found, its default or its absence.
pub(crate) fn decode_field<T: Decode>(
    node: Option<Node<'_>>,
    name: &'static str,
    bound: Bound,
    default: Option<T>,
    at: Place<'_>,
    context: &mut Context,
) -> Option<T> {
    let Some(node) = node else {
        let value = default.or_else(T::absent);
        if value.is_none() {
            let units = context.units;
            context.fault(FaultKind::Missing, at.field(name), || {
                format!("is missing: give {}", T::SHAPE.expected(units))
            });
        }
        return value;
    };
    let at = at.field(name);
    let value = T::decode(&node, at, context)?;
    match value.measure(context.units) {
        Some(number) if !bound.holds(number) => {
            let unit = T::label(context.units);
            let space = if unit.is_empty() || unit == "°" { "" } else { " " };
            context.fault(FaultKind::OutOfRange, at, || {
                format!("must be {}, not {}{space}{unit}", bound.need(), node.told(number))
            });
            None
        }
        _ => Some(value),
    }
}

/// The place of a name among the known ones.
pub(crate) fn decode_name<'n>(
    node: &Node<'_>,
    names: impl Iterator<Item = &'n str> + Clone,
    at: Place<'_>,
    context: &mut Context,
) -> Option<usize> {
    let Content::Text(text) = node.content() else {
        context.fault(FaultKind::WrongType, at, || format!("must be {}, not {}", one_of(names), node.what()));
        return None;
    };
    let index = names.clone().position(|name| name == text);
    if index.is_none() {
        context.fault(FaultKind::Unknown, at, || {
            let given = excerpt(text);
            match nearest(&given, names.clone()) {
                Some(meant) => format!("`{given}` is not accepted here: did you mean `{meant}`?"),
                None => format!("`{given}` is not accepted here: it must be {}", one_of(names)),
            }
        });
    }
    index
}

/// Which of several objects this is, by the name in its field `tag`.
pub(crate) fn decode_tag<'n>(
    node: &Node<'_>,
    tag: &str,
    names: impl Iterator<Item = &'n str> + Clone,
    at: Place<'_>,
    context: &mut Context,
) -> Option<usize> {
    let expected = || format!("an object whose `{tag}` is {}", one_of(names.clone()));
    match (node.content(), node.get(tag)) {
        (_, Some(name)) => decode_name(&name, names, at.field(tag), context),
        (Content::Object(_), None) => {
            context.fault(FaultKind::Missing, at.field(tag), || {
                format!("is missing: it must be {}", one_of(names.clone()))
            });
            None
        }
        _ => {
            context
                .fault(FaultKind::WrongType, at, || format!("must be {}, not {}", expected(), node.what()));
            None
        }
    }
}

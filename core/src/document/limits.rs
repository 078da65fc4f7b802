//! Limits of size as objects, and ranges that makers recommend.
use super::decode::{
    Beside, Context, Decode, DocumentNumber, decode_field, decode_text, mismatch, readable, sort_fields,
};
use super::fault::{FaultKind, Place};
use super::node::{Content, Node};
use super::objects::objects;
use super::shape::{Bound, DocumentField, Object, Shape};
use crate::fit::Designation;
use crate::quantity::{Quantity, Units};
use crate::{GeneralClass, Limits, LimitsError, Size};
use std::ops::Deref;

objects! {
    /// Two limits of size.
    TwoLimits {
        /// The lower limit.
        lower: Size,
        /// The upper limit.
        upper: Size,
    }

    /// A nominal size with signed deviations.
    Deviations {
        /// The size that deviations are counted from.
        nominal: Size,
        /// The upper limit less the nominal size, with its sign.
        upper_deviation: Size,
        /// The lower limit less the nominal size, with its sign.
        lower_deviation: Size,
    }
}

/// Limits as the document states them. Those of a characteristic of the `DRAWING` may be a size alone, where the document
/// has a general tolerance.
#[derive(Clone, PartialEq, Debug)]
pub struct StatedLimits<const DRAWING: bool = false> {
    /// The limits.
    pub limits: Limits,
    /// What they are stated by, if by a class or a fit.
    pub designation: Option<Designation>,
}

/// Limits of a characteristic.
pub type DrawingLimits = StatedLimits<true>;

impl<const DRAWING: bool> StatedLimits<DRAWING> {
    /// The text of the designation.
    pub(crate) fn by(&self) -> Option<String> {
        self.designation.as_ref().map(|designation| designation.text.clone())
    }
}

impl<const DRAWING: bool> Deref for StatedLimits<DRAWING> {
    type Target = Limits;

    fn deref(&self) -> &Limits {
        &self.limits
    }
}

impl Decode for Limits {
    const SHAPE: &'static Shape = &Shape::Limits;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Limits> {
        match node.content() {
            Content::Text(text) => readable(text, Limits::parse, at, context),
            Content::Object(_) => decode_object(node, at, context),
            _ => mismatch::<Self>(node, at, context),
        }
    }

    fn measure(&self, units: Units) -> Option<f64> {
        self.lower().measure(units)
    }

    fn label(units: Units) -> &'static str {
        Size::label(units)
    }
}

impl<const DRAWING: bool> Decode for StatedLimits<DRAWING> {
    const SHAPE: &'static Shape = &Shape::Limits;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Self> {
        let (limits, designation) = match node.content() {
            Content::Text(text) => {
                let general = context.general.filter(|_| DRAWING);
                let read = |text: &str| match general {
                    Some(class) => Limits::parse_general(text, class),
                    None => Limits::parse_stated(text, None),
                };
                readable(text, read, at, context)?
            }
            Content::Object(_) => (decode_object(node, at, context)?, None),
            _ => return mismatch::<Self>(node, at, context),
        };
        Some(StatedLimits { limits, designation })
    }

    fn measure(&self, units: Units) -> Option<f64> {
        Decode::measure(&self.limits, units)
    }

    fn label(units: Units) -> &'static str {
        <Limits as Decode>::label(units)
    }
}

/// Reads limits from whichever object they are written as.
pub(crate) fn decode_object(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Limits> {
    let limits: Result<Limits, LimitsError> = match node.get("nominal") {
        Some(_) => {
            let Deviations { nominal, upper_deviation, lower_deviation } = Decode::decode(node, at, context)?;
            Limits::with_deviations(nominal, upper_deviation, lower_deviation)
        }
        None => {
            let TwoLimits { lower, upper } = Decode::decode(node, at, context)?;
            Limits::between(lower, upper)
        }
    };
    limits.map_err(|error| context.fault(FaultKind::Conflict, at, || error.to_string())).ok()
}

/// A range, both ends included.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Range<Q> {
    /// Its lower end.
    pub lower: DocumentNumber<Q>,
    /// Its upper end.
    pub upper: DocumentNumber<Q>,
}

impl<Q: Quantity> Range<Q> {
    const OBJECT: &'static Object = &Object {
        name: "Range",
        doc: " A range, both ends included.",
        fields: &[
            DocumentField {
                name: "lower",
                doc: " Its lower end.",
                required: true,
                shape: &Shape::DocumentNumber(Q::KIND),
                bound: Bound::Anything,
                default: None,
            },
            DocumentField {
                name: "upper",
                doc: " Its upper end.",
                required: true,
                shape: &Shape::DocumentNumber(Q::KIND),
                bound: Bound::Anything,
                default: None,
            },
        ],
    };
}

impl<Q: Quantity> Decode for Range<Q> {
    const SHAPE: &'static Shape = &Shape::Range(Q::KIND);

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Range<Q>> {
        let (mut found, faults) = ([None; 2], context.faults());
        let place = |name: &str| ["lower", "upper"].iter().position(|end| *end == name);
        sort_fields(node, Self::OBJECT, place, Beside::Nothing, at, context, &mut found)?;
        let [lower, upper] = found;
        let lower: Option<DocumentNumber<Q>> =
            decode_field(lower, "lower", Bound::Anything, None, at, context);
        let upper: Option<DocumentNumber<Q>> =
            decode_field(upper, "upper", Bound::Anything, None, at, context);
        let (lower, upper) = (lower?, upper?);
        if lower.value() > upper.value() {
            context.fault(FaultKind::Conflict, at, || {
                format!("`lower`, {}, is above `upper`, {}", lower.value(), upper.value())
            });
        }
        (faults == context.faults()).then_some(Range { lower, upper })
    }

    fn measure(&self, _: Units) -> Option<f64> {
        Some(self.lower.value())
    }

    fn label(units: Units) -> &'static str {
        DocumentNumber::<Q>::label(units)
    }
}

impl Decode for GeneralClass {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<GeneralClass> {
        let text = decode_text(node, at, context)?;
        readable(text, GeneralClass::parse, at, context)
    }
}

impl GeneralClass {
    /// What the field `general_tolerance` of a document says; its decoder judges whether it may.
    pub(crate) fn of_document(node: &Node<'_>) -> Option<GeneralClass> {
        match node.get("general_tolerance").map(Node::content) {
            Some(Content::Text(text)) => GeneralClass::parse(text).ok(),
            _ => None,
        }
    }
}

//! What every document says first: the version of its form, and its units.
use super::decode::{Context, Decode, decode_name};
use super::fault::{FaultKind, Place};
use super::node::{Content, Node};
use super::shape::{ChoiceName, Shape};
use crate::quantity::Units;
use serde::{Serialize, Serializer};

/// The version of the document.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Version;

impl Version {
    /// The version that this library reads.
    pub const NUMBER: u32 = 1;
}

impl Serialize for Version {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(Version::NUMBER)
    }
}

impl Decode for Version {
    const SHAPE: &'static Shape = &Shape::Version(Version::NUMBER);

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Version> {
        if *node.content() == Content::Number(f64::from(Version::NUMBER)) {
            return Some(Version);
        }
        let given = match node.content() {
            Content::Number(version) => node.told(*version),
            Content::Long(digits) => digits.to_string(),
            _ => node.what().into(),
        };
        context.fault(FaultKind::OutOfRange, at, || {
            format!("must be {}, the version that this library reads, not {given}", Version::NUMBER)
        });
        None
    }
}

impl Serialize for Units {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

impl Units {
    const CHOICES: &'static [ChoiceName] = &[
        ChoiceName { name: "inch", doc: " Inches, feet per minute, pounds-force." },
        ChoiceName { name: "metric", doc: " Millimetres, metres per minute, newtons." },
    ];

    /// What the field `units` of a document says; its decoder judges whether it may.
    pub(crate) fn of_document(node: &Node<'_>) -> Units {
        match node.get("units").map(Node::content) {
            Some(Content::Text(name)) if name == Units::Inch.name() => Units::Inch,
            _ => Units::Metric,
        }
    }
}

impl Decode for Units {
    const SHAPE: &'static Shape = &Shape::Choice(Units::CHOICES);

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Units> {
        decode_name(node, Units::ALL.iter().map(|units| units.name()), at, context)
            .map(|index| Units::ALL[index])
    }
}

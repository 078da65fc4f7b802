//! What a plan is drafted from.
use super::feature::Feature;
use super::size::FeatureSize;
use crate::document::DocumentError;
use crate::document::decode::{Context, Decode, decode_field, mismatch, sort_fields};
use crate::document::fault::{FaultKind, Faults, Place};
use crate::document::limits::StatedLimits;
use crate::document::node::{Content, Node, Tree};
use crate::document::objects::objects;
use crate::document::shape::{Bound, DocumentField, Object, Shape};
use crate::plan::{Metal, MetalDesignation};
use crate::{Limits, Units};
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The most features of a draft.
pub const MAX_FEATURES: usize = 200;

objects! {
    /// What a plan is drafted from.
    DraftRequest {
        /// What fixes the unit of every bare number.
        units: Units,
        /// The material: its designation in the table of materials, or an object as a plan has it.
        material: DraftMaterial,
        /// How many to make.
        quantity: u32 where Positive,
        /// The name of the part.
        name: Option<String>,
        /// Its number.
        number: Option<String>,
        /// The length over all; without it the sum of the steps, with the general tolerance.
        length: Option<FeatureSize> where Positive,
        /// The bar: its limits, as `30 h9`, or an object as a plan has it; without it the next size of the lists of bars.
        bar: Option<DraftBar>,
        /// The features.
        features: Vec<Feature>,
    }
}

/// The material of a draft, as the plan states it.
#[derive(Clone, PartialEq, Debug)]
pub struct DraftMaterial(pub(super) Value);

impl Decode for DraftMaterial {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<DraftMaterial> {
        match node.content() {
            Content::Object(_) => {
                Metal::decode(node, at, context)?;
                Some(DraftMaterial(plain(*node)))
            }
            Content::Text(name) => {
                MetalDesignation::decode(node, at, context)?;
                Some(DraftMaterial(json!({ "designation": name })))
            }
            _ => mismatch::<Self>(node, at, context),
        }
    }
}

/// The bar of a draft, as the plan states it.
#[derive(Clone, PartialEq, Debug)]
pub struct DraftBar {
    pub(super) value: Value,
    /// Its limits, where they are stated.
    pub(super) limits: Option<Limits>,
}

impl Decode for DraftBar {
    const SHAPE: &'static Shape = &Shape::Limits;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<DraftBar> {
        let limits = |node: &Node<'_>, at: Place<'_>, context: &mut Context| {
            StatedLimits::<false>::decode(node, at, context).map(|stated| stated.limits)
        };
        match node.content() {
            Content::Text(text) => {
                let limits = limits(node, at, context)?;
                Some(DraftBar { value: json!({"form": "round", "limits": text}), limits: Some(limits) })
            }
            Content::Object(_) => {
                let stated = node.get("limits").and_then(|one| limits(&one, at.field("limits"), context));
                Some(DraftBar { value: plain(*node), limits: stated })
            }
            _ => mismatch::<Self>(node, at, context),
        }
    }
}

/// A node as plain data.
fn plain(node: Node<'_>) -> Value {
    match node.content() {
        Content::Null => Value::Null,
        Content::Truth(truth) => (*truth).into(),
        Content::Number(number) => (*number).into(),
        Content::Long(digits) => (**digits).into(),
        Content::Text(text) => (**text).into(),
        Content::List(_) => node.parts().map(plain).collect(),
        Content::Object(_) => {
            Value::Object(node.parts().map(|part| (part.name().to_string(), plain(part))).collect())
        }
    }
}

impl DraftRequest {
    /// Reads a request in JSON.
    ///
    /// # Errors
    /// [`DocumentError`] with every fault, each with its place.
    pub fn from_json(text: &str) -> Result<DraftRequest, DocumentError> {
        let tree = Tree::parse(text)?;
        let node = tree.root();
        let mut context = Context::new(Units::of_document(&node), BTreeSet::new());
        let count = node.get("features").map_or(0, |features| features.parts().count());
        if count > MAX_FEATURES {
            let mut faults = Faults::default();
            let place = Place::ROOT.field("features");
            faults.add(FaultKind::TooLarge, place, || {
                format!("a draft takes at most {MAX_FEATURES} features, not {count}. Fix: draft the part in pieces")
            });
            return Err(faults.into());
        }
        let request = DraftRequest::decode(&node, Place::ROOT, &mut context);
        let faults = context.into_faults();
        match request {
            Some(request) if faults.count() == 0 => Ok(request),
            _ => Err(faults.into()),
        }
    }
}

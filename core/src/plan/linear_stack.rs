//! Linear stacks of the document: chains of its own dimensions and of others.
use crate::Limits;
use crate::document::decode::{
    Context, Decode, DocumentNumber, Reference, decode_field, decode_name, mismatch, sort_fields,
};
use crate::document::fault::{FaultKind, Place};
use crate::document::limits::{DrawingLimits, StatedLimits};
use crate::document::node::{Content, Node};
use crate::document::objects::{choices, objects};
use crate::document::shape::{Bound, ChoiceName, DocumentField, Object, Shape};
use crate::error::excerpt;
use crate::quantity::Ratio;
use crate::stack::{Contributor, Distribution};
use std::collections::BTreeMap;

/// The most contributors of all stacks of a document together.
pub const MAX_CONTRIBUTORS: usize = 1000;
/// The most samples of one stack.
pub const MAX_STACK_SAMPLES: u32 = 10_000_000;
/// The most sizes that all stacks of a document together draw: samples times pieces.
pub const MAX_DRAWS: u64 = 100_000_000;

objects! {
    /// A closing dimension that is the sum of dimensions, each times its sensitivity.
    LinearStack {
        /// What the closing dimension is.
        name: String,
        /// The limits that it has to keep.
        wanted: Limits,
        /// The dimensions that it is the sum of.
        contributors: Vec<StackContributor>,
        /// The greatest share of assemblies that may lie outside the wanted limits.
        greatest_fraction_out: DocumentNumber<Ratio> where BelowOne = DocumentNumber::new(0.0027),
        /// A sample to take beside the exact moments.
        sample: Option<StackSample>,
    } => rules {
        contributors => one_at_least;
    }

    /// A dimension in a stack: one of this document, or one with limits of its own.
    StackContributor {
        /// What it is.
        name: String,
        /// Its limits, where it is no dimension of this document.
        limits: Option<StatedLimits>,
        /// The dimension of this document that it is: with the limits of the drawing, plating included.
        dimension: Option<StackDimension>,
        /// What a unit more of it adds to the closing dimension: 1, -1, 0.5 for a radius of a diameter.
        sensitivity: DocumentNumber<Ratio> = DocumentNumber::new(1.0),
        /// How many pieces like it, each of its own size, stand in the stack.
        count: u32 where Positive = 1,
        /// How it spreads about its limits.
        distribution: Law = Law::Normal,
        /// Capability Cp of a normal process; without it 1.
        cp: Option<DocumentNumber<Ratio>> where Positive,
        /// Capability Cpk of a normal process, at most Cp; without it the process is centred.
        cpk: Option<DocumentNumber<Ratio>> where NonNegative,
        /// Where the mean of a process lies whose Cpk is less than its Cp.
        mean: Option<Side>,
    } => rules {
        limits, dimension => either;
        sensitivity => is_counted;
        count => not_too_many;
        cp, distribution => capable_if_normal;
        cpk, cp, mean => lies_off;
    }

    /// A sample of a stack.
    StackSample {
        /// How many assemblies to draw.
        count: u32 where Positive,
        /// Any number: the same one gives the same sample.
        seed: u32 = 1,
    } => rules {
        count => is_bounded;
    }
}

choices! {
    /// How a number spreads about its limits.
    Law {
        /// Normal, with a standard deviation of the tolerance / (6 Cp).
        Normal = "normal",
        /// Normal, cut off at the limits by inspection.
        TruncatedNormal = "truncated_normal",
        /// Any size between the limits alike.
        Uniform = "uniform",
        /// Straight from the limits to the middle.
        Triangular = "triangular",
        /// Level over the middle half, and straight from there to the limits.
        Trapezoid = "trapezoid",
        /// Half an ellipse over the limits.
        HalfEllipse = "half_ellipse",
    }

    /// A side of the middle.
    Side {
        /// Toward the lower limit.
        Below = "below",
        /// Toward the upper limit.
        Above = "above",
    }
}

/// A dimension of the document, by the number or the name of its characteristic or by a JSON Pointer to its limits.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum StackDimension {
    /// The characteristic of this number.
    Characteristic(Reference),
    /// What stands where a name or a pointer leads.
    Limits(Limits),
}

impl Decode for StackDimension {
    const SHAPE: &'static Shape = &Shape::Dimension;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<StackDimension> {
        let text = match node.content() {
            Content::Number(_) | Content::Long(_) => {
                return Reference::decode(node, at, context).map(StackDimension::Characteristic);
            }
            Content::Text(text) => text,
            _ => return mismatch::<Self>(node, at, context),
        };
        let message = match context.dimensions.get(&**text) {
            Some(Ok(limits)) => return Some(StackDimension::Limits(*limits)),
            Some(Err(message)) => message.clone(),
            None => format!("it is not among the first {MAX_CONTRIBUTORS} contributors"),
        };
        context.fault(FaultKind::NotThere, at, || message);
        None
    }
}

/// Finds the dimensions that contributors give by a name or a pointer, so that each can be judged where it stands.
pub(crate) fn gather_dimensions(root: &Node<'_>, context: &mut Context) {
    let Some(stacks) = root.get("stacks") else { return };
    let contributors = stacks.parts().filter_map(|stack| stack.get("contributors"));
    let given = contributors.flat_map(Node::parts).take(MAX_CONTRIBUTORS);
    let texts = given.filter_map(|one| match one.get("dimension").map(Node::content) {
        Some(Content::Text(text)) => Some(&**text),
        _ => None,
    });
    let mut names = None;
    for text in texts {
        let found = match text.starts_with('/') {
            true => root.at(text).ok_or_else(|| format!("there is nothing at `{}`", excerpt(text))),
            false => characteristic(text, names.get_or_insert_with(|| characteristic_names(root))),
        };
        let limits = found.and_then(|node| {
            let mut apart = Context::new(context.units, Default::default());
            apart.general = context.general.filter(|_| of_characteristic(text));
            let limits = DrawingLimits::decode(&node, Place::ROOT, &mut apart).map(|stated| stated.limits);
            limits.ok_or_else(|| format!("`{}` does not point to limits of size", excerpt(text)))
        });
        context.dimensions.insert(text.into(), limits);
    }
}

/// Whether a dimension leads to the limits of a characteristic, by its name or by a pointer.
fn of_characteristic(text: &str) -> bool {
    !text.starts_with('/') || text.starts_with("/characteristics/") && text.ends_with("/limits")
}

/// The characteristics of each name.
fn characteristic_names<'n>(root: &Node<'n>) -> BTreeMap<&'n str, Vec<Node<'n>>> {
    let mut names = BTreeMap::new();
    for one in root.get("characteristics").into_iter().flat_map(Node::parts) {
        if let Some(Content::Text(name)) = one.get("name").map(Node::content) {
            names.entry(&**name).or_insert_with(Vec::new).push(one);
        }
    }
    names
}

fn characteristic<'n>(name: &str, names: &BTreeMap<&str, Vec<Node<'n>>>) -> Result<Node<'n>, String> {
    let own = excerpt(name);
    match names.get(name).map(Vec::as_slice) {
        Some([one]) => one.get("limits").ok_or_else(|| format!("the characteristic `{own}` has no limits")),
        Some(several) => {
            Err(format!("{} characteristics are called `{own}`: give the number of one", several.len()))
        }
        None => Err(format!("no characteristic is called `{own}`, and a pointer must begin with `/`")),
    }
}

/// The law of some limits.
pub(super) fn distribution(
    law: Law,
    cp: Option<DocumentNumber<Ratio>>,
    cpk: Option<DocumentNumber<Ratio>>,
    mean: Option<Side>,
) -> Distribution {
    let cp = cp.map_or(1.0, DocumentNumber::value);
    let off = cpk.map_or(0.0, |cpk| 1.0 - cpk.value() / cp);
    let shift = if mean == Some(Side::Below) { -off } else { off };
    match law {
        Law::Normal => Distribution::Normal { cp, shift },
        Law::TruncatedNormal => Distribution::TruncatedNormal { cp, shift },
        Law::Uniform => Distribution::Uniform,
        Law::Triangular => Distribution::Triangular { mode: 0.0 },
        Law::Trapezoid => Distribution::Trapezoid { top: 0.5 },
        Law::HalfEllipse => Distribution::Beta { alpha: 1.5, beta: 1.5 },
    }
}

impl StackContributor {
    pub(super) fn distribution(&self) -> Distribution {
        distribution(self.distribution, self.cp, self.cpk, self.mean)
    }
}

fn one_at_least(contributors: &[StackContributor]) -> Option<String> {
    contributors.is_empty().then(|| "a stack must have at least one contributor".into())
}

fn either(limits: &Option<StatedLimits>, dimension: &Option<StackDimension>) -> Option<String> {
    match (limits, dimension) {
        (None, None) => Some("a contributor needs its `limits`, or a `dimension` of this document".into()),
        (Some(_), Some(_)) => {
            Some("the `dimension` already has limits: give `limits` or `dimension`, not both".into())
        }
        _ => None,
    }
}

/// Whether the arithmetic takes a contributor; all limits serve to ask.
fn taken(sensitivity: f64, count: u32) -> Option<String> {
    if sensitivity.abs() == 1.0 && count == 1 {
        return None;
    }
    let size = crate::Size::ZERO;
    let one =
        Contributor::new("here", Limits::between(size, size).ok()?).sensitivity(sensitivity).count(count);
    one.check().err().map(|error| error.to_string())
}

fn is_counted(sensitivity: &DocumentNumber<Ratio>) -> Option<String> {
    taken(sensitivity.value(), 1)
}

fn not_too_many(count: &u32) -> Option<String> {
    taken(1.0, *count)
}

pub(super) fn capable_if_normal(cp: &Option<DocumentNumber<Ratio>>, law: &Law) -> Option<String> {
    let is_normal = matches!(law, Law::Normal | Law::TruncatedNormal);
    let other = cp.is_some() && !is_normal;
    if other {
        return Some(format!("a capability is for a normal distribution, not for `{}`", law.name()));
    }
    distribution(*law, *cp, None, None).fault()
}

pub(super) fn lies_off(
    cpk: &Option<DocumentNumber<Ratio>>,
    cp: &Option<DocumentNumber<Ratio>>,
    mean: &Option<Side>,
) -> Option<String> {
    let [cpk, cp] = [cpk, cp].map(|one| one.map(DocumentNumber::value));
    match (cpk, cp, mean) {
        (Some(_), None, _) => {
            Some("a `cpk` needs its `cp`: together they give how far the mean is off the middle".into())
        }
        (Some(cpk), Some(cp), _) if cpk > cp => Some(format!("a Cpk of {cpk} is above its Cp, {cp}")),
        (Some(cpk), Some(cp), None) if cpk < cp => {
            Some("a Cpk below its Cp needs `mean`: `below` or `above` the middle".into())
        }
        (None, _, Some(_)) => Some("`mean` needs a `cpk`, which gives how far off the middle it is".into()),
        _ => None,
    }
}

fn is_bounded(count: &u32) -> Option<String> {
    (*count > MAX_STACK_SAMPLES)
        .then(|| format!("a stack takes at most {MAX_STACK_SAMPLES} samples, not {count}"))
}

/// Whether the work for all stacks is bounded.
pub(super) fn bounded_work(stacks: &[LinearStack]) -> Option<String> {
    let contributors: usize = stacks.iter().map(|stack| stack.contributors.len()).sum();
    if contributors > MAX_CONTRIBUTORS {
        return Some(format!("a stack takes at most {MAX_CONTRIBUTORS} contributors, not {contributors}"));
    }
    let draws = |stack: &LinearStack| {
        let pieces: u64 = stack.contributors.iter().map(|one| u64::from(one.count)).sum();
        stack.sample.as_ref().map_or(0, |sample| u64::from(sample.count) * pieces)
    };
    let draws: u64 = stacks.iter().map(draws).sum();
    (draws > MAX_DRAWS)
        .then(|| format!("all stacks together may draw at most {MAX_DRAWS} pieces, not {draws}"))
}

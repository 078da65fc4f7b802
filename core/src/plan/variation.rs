//! A plan whose numbers vary: what is asked, and where in the document those numbers stand.
use super::document::Document;
use super::linear_stack::{Law, Side, capable_if_normal, distribution, lies_off};
use crate::Limits;
use crate::document::decode::{Context, Decode, DocumentNumber, MAX_READING, decode_field, sort_fields};
use crate::document::fault::{DocumentError, FaultKind, Faults, Place};
use crate::document::limits::{Deviations, TwoLimits};
use crate::document::node::{Content, Node, Tree, index, steps};
use crate::document::objects::objects;
use crate::document::shape::{Bound, DocumentField, Object, Shape};
use crate::error::excerpt;
use crate::quantity::{Kind, Length, Quantity, Ratio, Units};
use crate::stack::reading::{band, no_band};
use crate::stack::{Input, MAX_INPUTS, Sampling};

/// The most samples of a plan.
pub const MAX_PLAN_SAMPLES: u64 = 1_000_000;
/// The most bytes of documents that a propagation evaluates: samples times the length of the text.
pub const MAX_SAMPLED_BYTES: u64 = 10_000_000_000;
/// The most figures that a propagation follows.
pub const MAX_OUTPUTS: usize = 16;

objects! {
    /// Numbers of a plan that vary, and what is to be told of it: the request of a propagation.
    Variation {
        /// How many times the plan is evaluated.
        count: u32 where Positive,
        /// Any number: the same one gives the same sample.
        seed: u32 = 1,
        /// How many threads share the work, one as a rule; zero stands for as many as the machine runs at once. The result
        /// does not depend on it.
        threads: u32 = 1,
        /// The numbers that vary.
        varying: Vec<Varying>,
        /// Figures of the sheet whose spread is wanted, as JSON Pointers to numbers of the sheet as JSON.
        outputs: Vec<String> = Vec::new(),
    } => rules {
        threads => few;
    }

    /// A number of a plan that varies, each time on its own.
    Varying {
        /// Where it stands in the plan: a JSON Pointer to a number, or to a text with one number and its unit.
        place: String,
        /// Its limits as text with a unit, such as `240 ±10 ft/min` or `240 +10/-5 ft/min`; of a length any notation of limits.
        limits: Option<String>,
        /// Its nominal value as a number in the units of the plan, where no text gives its limits.
        nominal: Option<DocumentNumber<Ratio>>,
        /// Its upper deviation, with its sign.
        plus: Option<DocumentNumber<Ratio>>,
        /// Its lower deviation, with its sign.
        minus: Option<DocumentNumber<Ratio>>,
        /// How it spreads about its limits.
        distribution: Law = Law::Normal,
        /// Capability Cp of a normal process; without it 1.
        cp: Option<DocumentNumber<Ratio>> where Positive,
        /// Capability Cpk of a normal process, at most Cp; without it the process is centred.
        cpk: Option<DocumentNumber<Ratio>> where NonNegative,
        /// Where the mean of a process lies whose Cpk is less than its Cp.
        mean: Option<Side>,
    } => rules {
        limits, nominal, plus, minus => text_or_numbers;
        cp, distribution => capable_if_normal;
        cpk, cp, mean => lies_off;
    }
}

fn few(threads: &u32) -> Option<String> {
    const MOST: u32 = 256;
    (*threads > MOST).then(|| format!("at most {MOST} threads can share the work, not {threads}"))
}

fn text_or_numbers(
    limits: &Option<String>,
    nominal: &Option<DocumentNumber<Ratio>>,
    plus: &Option<DocumentNumber<Ratio>>,
    minus: &Option<DocumentNumber<Ratio>>,
) -> Option<String> {
    let numbers = [nominal, plus, minus].iter().filter(|one| one.is_some()).count();
    let is_right = matches!((limits, numbers), (Some(_), 0) | (None, 3));
    (!is_right).then(|| "give `limits` as text, or `nominal`, `plus` and `minus` as numbers".into())
}

static VARYING: Place<'static> = Place::ROOT.field("varying");

impl Variation {
    /// Reads a request from JSON text.
    pub(super) fn from_json(text: &str) -> Result<Variation, DocumentError> {
        let tree = Tree::parse(text)?;
        let mut context = Context::new(Units::Metric, Default::default());
        let variation = Variation::decode(&tree.root(), Place::ROOT, &mut context);
        let faults = context.into_faults();
        variation.filter(|_| faults.count() == 0).ok_or_else(|| faults.into())
    }

    /// Refuses figures that are followed where only one is.
    pub(super) fn follows_nothing(&self) -> Result<(), DocumentError> {
        if self.outputs.is_empty() {
            return Ok(());
        }
        let mut faults = Faults::default();
        faults.add(FaultKind::Conflict, Place::ROOT.field("outputs"), || {
            "the range of a price follows the total alone: remove `outputs`, or propagate the plan".into()
        });
        Err(faults.into())
    }

    pub(super) fn sampling(&self) -> Sampling {
        Sampling { threads: self.threads as usize, ..Sampling::new(self.count.into(), self.seed.into()) }
    }

    /// What varies, in the units of the plan.
    pub(super) fn inputs(&self, root: Node<'_>, units: Units) -> Result<Vec<Input>, DocumentError> {
        let mut faults = Faults::default();
        let mut inputs = vec![];
        for (k, varying) in self.varying.iter().enumerate() {
            let place = VARYING.index(k);
            let kind = match kind_at(root, &varying.place) {
                Ok(kind) => kind,
                Err((kind, message)) => {
                    faults.add(kind, place.field("place"), || message);
                    continue;
                }
            };
            match varying.input(kind, units) {
                Ok(input) => inputs.push(input),
                Err(message) => faults.add(FaultKind::Unreadable, place.field("limits"), || message),
            }
        }
        if faults.count() == 0 { Ok(inputs) } else { Err(faults.into()) }
    }
}

impl Varying {
    fn input(&self, kind: &Kind, units: Units) -> Result<Input, String> {
        let number = |one: Option<DocumentNumber<Ratio>>| one.map_or(f64::NAN, DocumentNumber::value);
        let input = match &self.limits {
            Some(text) => {
                let [nominal, lower, upper] = read_limits(kind, text, units)?;
                Input { lower, upper, ..Input::fixed(&*self.place, nominal) }
            }
            None => Input::new(&*self.place, number(self.nominal), number(self.plus), number(self.minus)),
        };
        Ok(input.distribution(distribution(self.distribution, self.cp, self.cpk, self.mean)))
    }
}

/// Nominal value, lower and upper limit of a quantity as text.
fn read_limits(kind: &Kind, text: &str, units: Units) -> Result<[f64; 3], String> {
    if text.len() > MAX_READING {
        return Err(format!("`{}` is too long for a reading", excerpt(text)));
    }
    if *kind == *Length::KIND {
        let limits = Limits::parse(text).map_err(|error| error.to_string())?;
        return Ok([limits.nominal(), limits.lower(), limits.upper()].map(|size| size.to_float(units)));
    }
    let band = band(text, kind, units).ok_or_else(|| no_band(text, kind, units))?;
    band.map_err(|error| error.to_string())
}

/// The quantity of the number where a pointer leads, or why none can vary there.
pub(super) fn kind_at(root: Node<'_>, pointer: &str) -> Result<&'static Kind, (FaultKind, String)> {
    let shown = || excerpt(pointer);
    if root.at(pointer).is_none() {
        return Err((FaultKind::NotThere, format!("there is nothing at `{}` of the plan", shown())));
    }
    let steps: Vec<String> = steps(pointer).collect();
    let document = Shape::Object(Document::OBJECT);
    let kind = kind_of(root, &document, &steps);
    kind.ok_or_else(|| {
        let message = format!(
            "`{}` is not a number that can vary: give the place of a quantity, a size or an amount of money",
            shown()
        );
        (FaultKind::WrongType, message)
    })
}

fn kind_of(node: Node<'_>, shape: &Shape, steps: &[String]) -> Option<&'static Kind> {
    let Some((step, rest)) = steps.split_first() else {
        return match shape {
            Shape::DocumentNumber(kind) => Some(kind),
            Shape::Size => Some(Length::KIND),
            Shape::Decimal => Some(Ratio::KIND),
            _ => None,
        };
    };
    let in_fields = |fields: &[DocumentField]| {
        let field = fields.iter().find(|field| field.name == step)?;
        kind_of(node.get(step)?, field.shape, rest)
    };
    let in_object = |object: &Object| in_fields(object.fields);
    match (shape, node.content()) {
        (Shape::Object(object), _) => in_object(object),
        (Shape::Tagged(tag, variants, shared), _) => match node.get(tag)?.content() {
            Content::Text(name) => {
                in_object(variants.iter().find(|(own, _)| own == name)?.1).or_else(|| in_fields(shared))
            }
            _ => None,
        },
        (Shape::List(item), _) => kind_of(node.parts().nth(index(step)?)?, item, rest),
        (Shape::Range(kind), _) => rest.is_empty().then_some(*kind),
        (Shape::Limits, Content::Object(_)) => match node.get("nominal") {
            Some(_) => in_object(Deviations::OBJECT),
            None => in_object(TwoLimits::OBJECT),
        },
        _ => None,
    }
}

/// Whether a plan of so many bytes can vary so; what is wrong stands where a request has it.
pub(super) fn check(
    root: Node<'_>,
    bytes: usize,
    varying: &[Input],
    sampling: &Sampling,
    outputs: usize,
) -> Result<(), DocumentError> {
    let mut faults = Faults::default();
    let mut fault = |kind, at: Place<'_>, message: String| faults.add(kind, at, || message);
    let (count, bytes) = (sampling.count, bytes as u64);
    if !(1..=MAX_PLAN_SAMPLES).contains(&count) {
        let message = format!("a plan takes 1 to {MAX_PLAN_SAMPLES} samples, not {count}");
        fault(FaultKind::OutOfRange, Place::ROOT.field("count"), message);
    } else if count * bytes > MAX_SAMPLED_BYTES {
        let most = MAX_SAMPLED_BYTES / bytes;
        let message = format!("a plan of {bytes} bytes takes at most {most} samples, not {count}");
        fault(FaultKind::TooLarge, Place::ROOT.field("count"), message);
    }
    if sampling.limits != (f64::NEG_INFINITY, f64::INFINITY) {
        let message = "a sampled plan takes no limits: remove those of the sampling".into();
        fault(FaultKind::Conflict, Place::ROOT.field("limits"), message);
    }
    if !(1..=MAX_INPUTS).contains(&varying.len()) {
        let message = format!("1 to {MAX_INPUTS} numbers can vary at a time, not {}", varying.len());
        fault(FaultKind::TooLarge, VARYING, message);
    }
    if outputs > MAX_OUTPUTS {
        let message = format!("at most {MAX_OUTPUTS} figures can be followed, not {outputs}");
        fault(FaultKind::TooLarge, Place::ROOT.field("outputs"), message);
    }
    for (k, input) in varying.iter().take(MAX_INPUTS).enumerate() {
        let at = VARYING.index(k);
        if let Err((kind, message)) = kind_at(root, &input.name) {
            fault(kind, at.field("place"), message);
        } else if varying[..k].iter().any(|other| other.name == input.name) {
            fault(
                FaultKind::GivenTwice,
                at.field("place"),
                format!("`{}` varies already", excerpt(&input.name)),
            );
        }
        if let Err(error) = input.check() {
            fault(FaultKind::OutOfRange, at, error.to_string());
        }
    }
    if faults.count() == 0 { Ok(()) } else { Err(faults.into()) }
}

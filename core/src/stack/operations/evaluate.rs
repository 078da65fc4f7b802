//! What a chart comes to.
use super::chains::{Span, States};
use super::{ChartError, OperationChart, Working};
use crate::finding::{Finding, Severity};
use crate::limits::Limits;
use crate::quantity::Units;
use crate::size::Size;

/// A working dimension of a chart, by its number there.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Step {
    /// A dimension of the stock.
    Stock(usize),
    /// That of a cut.
    Cut(usize),
}

/// A link of a chain.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Link {
    /// The working dimension.
    pub step: Step,
    /// Whether it adds to the whole, or takes away from it.
    pub adds: bool,
}

/// What a dimension of the drawing comes to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct DimensionResult {
    /// Its name.
    pub name: String,
    /// What the drawing allows.
    pub limits: Limits,
    /// The working dimensions that make it, from its left face to its right one.
    pub chain: Vec<Link>,
    /// What they make of it in the worst case. Its tolerance is the sum of theirs.
    pub made: Limits,
    /// By how much the least size made is above the lower limit; negative where it is below.
    pub lower_margin: Size,
    /// By how much the greatest size made is below the upper limit; negative where it is above.
    pub upper_margin: Size,
}

impl DimensionResult {
    /// Whether every part is within the drawing's limits.
    pub fn closes(&self) -> bool {
        !self.lower_margin.is_negative() && !self.upper_margin.is_negative()
    }
}

/// The stock that a cut removes.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct RemovalResult {
    /// The number of the cut in the chart.
    pub cut: usize,
    /// The working dimensions between the old face and the new one.
    pub chain: Vec<Link>,
    /// The least and the greatest stock. Below zero the cut misses the face.
    pub removal: Limits,
    /// The least that is wanted.
    pub least_wanted: Size,
    /// By how much the least stock is above that; negative where it is below.
    pub margin: Size,
}

impl RemovalResult {
    /// Whether the cut always finds the stock that is wanted.
    pub fn suffices(&self) -> bool {
        !self.margin.is_negative()
    }
}

/// What a chart comes to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ChartResult {
    /// For each dimension of the drawing.
    pub dimensions: Vec<DimensionResult>,
    /// For each cut on a face that was there before.
    pub removals: Vec<RemovalResult>,
    /// The dimensions that do not close, and the cuts that may find too little stock. A place is a JSON Pointer into
    /// the chart: `/drawing/0`, `/cuts/2`.
    pub findings: Vec<Finding>,
}

impl ChartResult {
    /// Whether every dimension closes and every cut finds its stock.
    pub fn is_good(&self) -> bool {
        self.findings.is_empty()
    }
}

impl OperationChart {
    /// The chains, dimensions and removals of the chart.
    ///
    /// # Errors
    /// Any [`ChartError`] but those of a resolution and of deriving; [`ChartError::NoLimits`] for a working dimension
    /// that has none.
    pub fn evaluate(&self) -> Result<ChartResult, ChartError> {
        let states = States::of(self)?;
        let working: Vec<(Step, Limits)> = self
            .working()
            .map(|(step, working)| match working {
                Working::Limits(limits) => Ok((step, limits)),
                Working::Holds(_) => Err(ChartError::NoLimits { what: self.describe(step) }),
            })
            .collect::<Result<_, _>>()?;
        let mut result = ChartResult { dimensions: vec![], removals: vec![], findings: vec![] };
        for (k, (dimension, span)) in self.drawing.iter().zip(&states.drawing).enumerate() {
            let what = || dimension.what();
            let (chain, made) = whole(&states, &working, *span, what)?;
            let margin = |one: Size, other: Size| difference(one, other, what);
            let lower_margin = margin(made.lower(), dimension.limits.lower())?;
            let upper_margin = margin(dimension.limits.upper(), made.upper())?;
            let (name, limits) = (dimension.name.clone(), dimension.limits);
            let told = DimensionResult { name, limits, chain, made, lower_margin, upper_margin };
            result.findings.extend((!told.closes()).then(|| open_dimension(k, &told, self.units)));
            result.dimensions.push(told);
        }
        for (k, (cut, span)) in self.cuts.iter().zip(&states.removals).enumerate() {
            let Some(span) = span else { continue };
            let what = || self.describe(Step::Cut(k));
            let (chain, removal) = whole(&states, &working, *span, what)?;
            let margin = difference(removal.lower(), cut.least_removal, what)?;
            let told = RemovalResult { cut: k, chain, removal, least_wanted: cut.least_removal, margin };
            result.findings.extend((!told.suffices()).then(|| short_removal(&what(), &told, self.units)));
            result.removals.push(told);
        }
        Ok(result)
    }
}

/// The chain of a span, and the least and the greatest sum of its links.
fn whole(
    states: &States,
    working: &[(Step, Limits)],
    span: Span,
    what: impl Fn() -> String,
) -> Result<(Vec<Link>, Limits), ChartError> {
    let chain = states.working.chain(span).ok_or_else(|| ChartError::Unjoined { what: what() })?;
    let (mut lower, mut upper, mut links) = (0_i128, 0_i128, vec![]);
    for (k, adds) in chain {
        let (step, limits) = working[k];
        let [least, greatest] = [limits.lower(), limits.upper()].map(|size| i128::from(size.picometres()));
        lower += if adds { least } else { -greatest };
        upper += if adds { greatest } else { -least };
        links.push(Link { step, adds });
    }
    Ok((links, limits_of(lower, upper, what)?))
}

fn limits_of(lower: i128, upper: i128, what: impl Fn() -> String) -> Result<Limits, ChartError> {
    let size = |count: i128| i64::try_from(count).ok().map(Size::from_picometres);
    let limits = size(lower).zip(size(upper)).and_then(|(lower, upper)| Limits::between(lower, upper).ok());
    limits.ok_or_else(|| ChartError::OutOfRange { what: what() })
}

fn difference(one: Size, other: Size, what: impl Fn() -> String) -> Result<Size, ChartError> {
    one.checked_sub(other).ok_or_else(|| ChartError::OutOfRange { what: what() })
}

fn open_dimension(place: usize, told: &DimensionResult, units: Units) -> Finding {
    let DimensionResult { name, limits, made, .. } = told;
    let beyond = |margin: Size, end: &str| {
        let beyond = margin.checked_neg().filter(|beyond| beyond.is_positive());
        beyond.map(|beyond| format!("{} {end} limit", beyond.format(units)))
    };
    let ends = [beyond(told.lower_margin, "below the lower"), beyond(told.upper_margin, "above the upper")];
    Finding {
        code: "dimension_does_not_close",
        severity: Severity::Error,
        place: format!("/drawing/{place}"),
        message: format!(
            "`{name}` is made {}, with a tolerance of {} where the drawing has {}: {}",
            made.format(units),
            made.tolerance().format(units),
            limits.tolerance().format(units),
            ends.into_iter().flatten().collect::<Vec<_>>().join(", "),
        ),
        remedy:
            "locate the cut from the face of the drawing dimension, hold the chain closer, or shift its means"
                .into(),
    }
}

fn short_removal(what: &str, told: &RemovalResult, units: Units) -> Finding {
    let misses = told.removal.lower().is_negative();
    Finding {
        code: "too_little_stock",
        severity: if misses { Severity::Error } else { Severity::Warning },
        place: format!("/cuts/{}", told.cut),
        message: format!(
            "{what}: the cut removes {} and shall find {} at least{}",
            told.removal.format(units),
            told.least_wanted.format(units),
            if misses { "; it may miss the face" } else { "" },
        ),
        remedy: "leave more stock in the cut before, or hold the dimensions of the chain closer".into(),
    }
}

//! What a chart comes to.
use super::chains::{Span, States};
use super::chart::{DrawingDimension, OperationChart, Step, Working};
use super::error::ChartError;
use super::result::{ChartResult, ChartRow};
use crate::finding::{Finding, FindingCode, Severity, Weighed};
use crate::limits::Limits;
use crate::quantity::Units;
use crate::size::Size;

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
        let mut result = self.unjudged();
        for (k, (dimension, span)) in self.drawing.iter().zip(&states.drawing).enumerate() {
            let what = || dimension.what();
            let (chain, made) = whole(&states, &working, *span, what)?;
            let margin = |one: Size, other: Size| difference(one, other, what);
            let lower_margin = margin(made.lower(), dimension.limits.lower())?;
            let upper_margin = margin(dimension.limits.upper(), made.upper())?;
            let good = !lower_margin.is_negative() && !upper_margin.is_negative();
            let finding = || open_dimension(k, dimension, made, [lower_margin, upper_margin], self.units);
            result.findings.extend((!good).then(finding));
            let row = ChartRow {
                made: Some(made),
                lower_margin: Some(lower_margin),
                upper_margin: Some(upper_margin),
                good: Some(good),
                ..ChartRow::drawing(k, dimension)
            };
            result.dimensions.push(row.made_by(&chain, &result.working));
        }
        for (k, (cut, span)) in self.cuts.iter().zip(&states.removals).enumerate() {
            let Some(span) = span else { continue };
            let what = || self.describe(Step::Cut(k));
            let (chain, removal) = whole(&states, &working, *span, what)?;
            let margin = difference(removal.lower(), cut.least_removal, what)?;
            let good = !margin.is_negative();
            let finding = || short_removal(k, &what(), removal, cut.least_removal, self.units);
            result.findings.extend((!good).then(finding));
            let row = ChartRow {
                made: Some(removal),
                lower_margin: Some(margin),
                good: Some(good),
                ..ChartRow::removal(k, cut)
            };
            result.removals.push(row.made_by(&chain, &result.working));
        }
        result.good = result.findings.is_empty();
        Ok(result)
    }

    /// The result before anything is judged.
    fn unjudged(&self) -> ChartResult {
        ChartResult {
            good: true,
            working: self.working_rows(),
            dimensions: vec![],
            removals: vec![],
            findings: vec![],
            units: self.units,
            faces: self.faces.iter().map(|face| face.name.clone()).collect(),
            facings: self.faces.iter().map(|face| face.facing).collect(),
            datums: self.datums.clone(),
        }
    }
}

/// The chain of a span, and the least and the greatest sum of its links.
fn whole(
    states: &States,
    working: &[(Step, Limits)],
    span: Span,
    what: impl Fn() -> String,
) -> Result<(Vec<(usize, bool)>, Limits), ChartError> {
    let chain = states.working.chain(span).ok_or_else(|| ChartError::Unjoined { what: what() })?;
    let (mut lower, mut upper) = (0_i128, 0_i128);
    for &(k, adds) in &chain {
        let (_, limits) = working[k];
        let [least, greatest] = [limits.lower(), limits.upper()].map(|size| i128::from(size.picometres()));
        lower += if adds { least } else { -greatest };
        upper += if adds { greatest } else { -least };
    }
    Ok((chain, limits_of(lower, upper, what)?))
}

fn limits_of(lower: i128, upper: i128, what: impl Fn() -> String) -> Result<Limits, ChartError> {
    let size = |count: i128| i64::try_from(count).ok().map(Size::from_picometres);
    let limits = size(lower).zip(size(upper)).and_then(|(lower, upper)| Limits::between(lower, upper).ok());
    limits.ok_or_else(|| ChartError::OutOfRange { what: what() })
}

fn difference(one: Size, other: Size, what: impl Fn() -> String) -> Result<Size, ChartError> {
    one.checked_sub(other).ok_or_else(|| ChartError::OutOfRange { what: what() })
}

fn open_dimension(
    place: usize,
    dimension: &DrawingDimension,
    made: Limits,
    margins: [Size; 2],
    units: Units,
) -> Finding {
    let DrawingDimension { name, limits, .. } = dimension;
    let beyond = |margin: Size, end: &str| {
        let beyond = margin.checked_neg().filter(|beyond| beyond.is_positive());
        beyond.map(|beyond| format!("{} {end} limit", beyond.format(units)))
    };
    let [lower, upper] = margins;
    let ends = [beyond(lower, "below the lower"), beyond(upper, "above the upper")];
    let message = format!(
        "`{name}` comes out at {}, a tolerance of {} where the drawing has {}: {}",
        made.format(units),
        made.tolerance().format(units),
        limits.tolerance().format(units),
        ends.into_iter().flatten().collect::<Vec<_>>().join(", "),
    );
    let remedy =
        "locate the cut from the face of the drawing dimension, hold the chain closer, or shift its means";
    FindingCode::DimensionDoesNotClose.found(format!("/drawing/{place}"), message, remedy)
}

fn short_removal(cut: usize, what: &str, removal: Limits, least_wanted: Size, units: Units) -> Finding {
    let misses = removal.lower().is_negative();
    let message = format!(
        "{what}: the cut removes {} and must remove at least {}{}",
        removal.format(units),
        least_wanted.format(units),
        if misses { "; it may miss the face" } else { "" },
    );
    let remedy = "leave more stock in the cut before, or hold the dimensions of the chain closer";
    let severity = if misses { Severity::Error } else { Severity::Warning };
    Weighed::from((FindingCode::TooLittleStock, severity)).found(format!("/cuts/{cut}"), message, remedy)
}

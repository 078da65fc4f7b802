//! What an evaluation knows and gathers, and how its figures and findings are made.
use super::bar::Bar;
use super::characteristic::Characteristic;
use super::joints::PlacedJoint;
use super::metal::Metal;
use super::sheet::{Figure, Judged};
use crate::Size;
use crate::document::fault::{DocumentError, Fault, FaultKind, Place};
use crate::document::{DocumentNumber, Range, Reference};
use crate::error::beside;
use crate::finding::{Finding, FindingCode, Severity, Weighed};
use crate::formula::{Advice, Formula, MAX_INPUTS, MAX_OUTPUTS};
use crate::quantity::{Quantity, Time, Units};
use std::borrow::Cow;

/// What the evaluation gathers on its way.
pub(super) struct Evaluation<'p> {
    pub(super) units: Units,
    /// How many parts are made.
    pub(super) quantity: u32,
    pub(super) material: &'p Metal,
    pub(super) characteristics: &'p [Characteristic],
    pub(super) bar: &'p Bar,
    pub(super) joints: Vec<PlacedJoint<'p>>,
    /// The numbers of the operations as the shop writes them, in the order of the work.
    pub(super) numbers: Vec<u32>,
    /// How the parts come from the saw.
    pub(super) sawn: Option<Sawn>,
    pub(super) findings: Vec<Finding>,
    /// How many more there are than are listed, and how grave the gravest of them is.
    pub(super) unlisted: Option<(usize, Severity)>,
    /// The numbers of the characteristics with their places in the document, in order of the numbers.
    pub(super) places: Vec<(u32, usize)>,
    /// The numbers of characteristics with the operations that make them, counted from 0, in order.
    pub(super) makers: Vec<(u32, usize)>,
}

/// The parts as they come from the saw.
#[derive(Clone, Copy)]
pub(super) struct Sawn {
    /// The operation, counted from 0.
    pub(super) index: usize,
    /// The length characteristic that parts are cut for.
    pub(super) cut_length: Reference,
    /// Whether the saw is to finish it.
    pub(super) finishes: bool,
    pub(super) kerf: Size,
    pub(super) facing_allowance: Size,
    /// The longest part that the drawing allows.
    pub(super) part: Size,
    /// With what is left on for facing.
    pub(super) length: Size,
}

/// A formula that has no answer for the values at a place of the document.
pub(super) fn no_answer(place: Place<'_>, error: impl ToString) -> DocumentError {
    let (place, message) = (place.pointer(), error.to_string());
    Fault { kind: FaultKind::NoAnswer, place, line_and_column: None, message }.into()
}

/// The most findings that a sheet lists one by one.
pub const MAX_FINDINGS: usize = 10_000;

// Parts of the document that findings lie in.
pub(super) static CHARACTERISTICS: Place<'static> = Place::ROOT.field("characteristics");
pub(super) static OPERATIONS: Place<'static> = Place::ROOT.field("operations");
pub(super) static MATERIAL: Place<'static> = Place::ROOT.field("material");
pub(super) static BAR: Place<'static> = Place::ROOT.field("bar");

impl<'p> Evaluation<'p> {
    /// An operation as the shop numbers it.
    pub(super) fn number(&self, index: usize) -> u32 {
        self.numbers.get(index).copied().unwrap_or_default()
    }

    /// The diameter at which a cut starts.
    pub(super) fn bar_or(&self, diameter: Option<Size>) -> Size {
        diameter.unwrap_or(self.bar.limits.upper())
    }

    /// A figure that the plan states itself.
    pub(super) fn stated<Q: Quantity>(&self, name: &'static str, reading: DocumentNumber<Q>) -> Figure {
        self.plain::<Q>(name, reading.value())
    }

    /// A figure in the shop unit of its quantity.
    pub(super) fn plain<Q: Quantity>(&self, name: &'static str, value: f64) -> Figure {
        Figure::new(name, value, Q::KIND.unit(self.units).label)
    }

    pub(super) fn time(&self, value: f64) -> Figure {
        self.plain::<Time>("cutting time", value)
    }

    /// One result of a formula as a figure.
    pub(super) fn output(&self, formula: &Formula, name: &'static str, output: usize, y: &[f64]) -> Figure {
        let unit = formula.outputs[output].kind.unit(self.units).label;
        Figure::new(name, y[output], unit)
    }

    /// The operations that make a characteristic, counted from 0.
    pub(super) fn makers(&self, number: u32) -> impl Iterator<Item = usize> {
        let from = self.makers.partition_point(|maker| maker.0 < number);
        self.makers[from..].iter().take_while(move |maker| maker.0 == number).map(|maker| maker.1)
    }

    /// Results of a formula in the units of the document. What lies outside the range of its source, or outside
    /// what is usual, is found.
    pub(super) fn results(
        &mut self,
        place: Place<'_>,
        formula: &Formula,
        x: &[f64],
    ) -> Result<[f64; MAX_OUTPUTS], DocumentError> {
        self.results_but(Advice::default(), place, formula, x)
    }

    /// As `results`, without the advice that the caller judges itself.
    pub(super) fn results_but(
        &mut self,
        judged: Advice,
        place: Place<'_>,
        formula: &Formula,
        x: &[f64],
    ) -> Result<[f64; MAX_OUTPUTS], DocumentError> {
        let mut y = [f64::NAN; MAX_OUTPUTS];
        let advice = formula
            .call(self.units, x, &mut y[..formula.outputs.len()])
            .map_err(|error| no_answer(place, error))?;
        let advice = Advice(advice.0 & !judged.0);
        if advice == Advice::default() {
            return Ok(y);
        }
        for remark in formula.remarks(self.units, x, &y, advice) {
            let message = remark.to_string().replacen(remark.concerns, &remark.concerns.replace('_', " "), 1);
            let (code, remedy) = match remark.is_usual {
                true => (
                    FindingCode::UnusualValue,
                    "check its unit; if the number is right, prove the result on a trial piece",
                ),
                false => {
                    (FindingCode::OutsideSource, "take the result with care, and prove it on a trial piece")
                }
            };
            self.find(code, place, message, remedy);
        }
        Ok(y)
    }

    /// The figure of a formula of one result.
    pub(super) fn figure(
        &mut self,
        place: Place<'_>,
        name: &'static str,
        formula: &Formula,
        x: &[f64],
    ) -> Result<Figure, DocumentError> {
        let y = self.results(place, formula, x)?;
        let unit = formula.outputs[0].kind.unit(self.units).label;
        Ok(Figure::new(name, y[0], unit))
    }

    pub(super) fn float(&self, size: Size) -> f64 {
        size.to_float(self.units)
    }

    pub(super) fn find(
        &mut self,
        code: impl Into<Weighed>,
        place: Place<'_>,
        message: String,
        remedy: impl Into<Cow<'static, str>>,
    ) {
        let finding = code.into().found(place.pointer(), message, remedy);
        let severity = finding.severity;
        // A joint asks the same of its formula at both ends of its interference. Looking back further would take
        // the square of their number for many findings.
        if self.findings.iter().rev().take(MAX_INPUTS).any(|last| *last == finding) {
            return;
        }
        if self.findings.len() < MAX_FINDINGS {
            return self.findings.push(finding);
        }
        let (count, gravest) = self.unlisted.unwrap_or((0, severity));
        self.unlisted = Some((count + 1, gravest.max(severity)));
    }

    /// One finding for all that are too many to list.
    pub(super) fn tell_unlisted(&mut self) {
        if let Some((count, severity)) = self.unlisted {
            let message = format!("{count} more findings are not listed");
            let remedy = "correct the listed ones, then evaluate the plan again";
            let code = Weighed::from((FindingCode::MoreFindings, severity));
            self.findings.push(code.found(Place::ROOT.pointer(), message, remedy));
        }
    }

    /// Judges a figure against what a maker recommends.
    pub(super) fn judge<Q: Quantity>(&mut self, place: Place<'_>, figure: &mut Figure, range: &Range<Q>) {
        let (lower, upper) = (range.lower.value(), range.upper.value());
        let within = lower <= figure.value && figure.value <= upper;
        figure.judged = Some(Judged { lower, upper, within });
        if !within {
            let Figure { name, value, unit, .. } = &*figure;
            let value = *value;
            let (side, remedy) = match value < lower {
                true => ("below", "raise the speed or the feed, or choose a tool for lower values"),
                false => ("above", "lower the speed or the feed, or choose a tool for higher values"),
            };
            let nearest = if value < lower { lower } else { upper };
            let shown = beside(value, nearest);
            let message =
                format!("{name} of {shown} {unit} is {side} the recommended {lower} to {upper} {unit}");
            self.find(FindingCode::OutsideRecommendation, place, message, remedy);
        }
    }

    pub(super) fn limits_of(&self, number: u32) -> Option<&'p Characteristic> {
        let found = self.places.binary_search_by_key(&number, |place| place.0).ok()?;
        self.characteristics.get(self.places[found].1)
    }
}

//! From a plan to its process sheet.
use super::caution;
use super::document::*;
use super::sheet::*;

use crate::document::fault::{DocumentError, Fault, FaultKind, Faults, Place};
use crate::document::{DocumentNumber, Range, Version};
use crate::finding::{Finding, Severity, beside};
use crate::formula::{Advice, Formula, MAX_INPUTS, MAX_OUTPUTS};
use crate::quantity::*;
use crate::{Gauge, GaugeError, Limits, Size};
use crate::{gauge, stock};
use std::borrow::Cow;

/// What the evaluation gathers on its way.
pub(super) struct Evaluation<'p> {
    pub(super) document: &'p Document,
    pub(super) units: Units,
    pub(super) findings: Vec<Finding>,
    /// How many more there are than are listed, and how grave the gravest of them is.
    unlisted: Option<(usize, Severity)>,
    /// The numbers of the characteristics with their places in the document, in order of the numbers.
    places: Vec<(u32, usize)>,
    /// The numbers of characteristics with the operations that make them, counted from 1, in order.
    pub(super) makers: Vec<(u32, usize)>,
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
pub(super) static JOINT: Place<'static> = Place::ROOT.field("joint");
pub(super) static MATERIAL: Place<'static> = Place::ROOT.field("material");
static BAR: Place<'static> = Place::ROOT.field("bar");

/// The sheet of a document, with or without the samples of its stacks.
pub(super) fn evaluate(document: &Document, sha256: &str, is_sampled: bool) -> Result<Sheet, DocumentError> {
    let mut work = Evaluation::new(document);
    // Whatever has no answer is told together with the rest.
    let mut faults = Faults::default();
    let bar = faults.keep(work.bar());
    let characteristics = work.characteristics();
    let mut operations = Vec::with_capacity(document.operations.len());
    for (index, operation) in document.operations.iter().enumerate() {
        operations.extend(faults.keep(work.operation(index, operation)));
    }
    let joint = document.joint.as_ref().and_then(|joint| faults.keep(work.joint(joint)));
    let mut stacks = Vec::with_capacity(document.stacks.len());
    for (index, stack) in document.stacks.iter().enumerate() {
        stacks.extend(faults.keep(work.stack(index, stack, is_sampled)));
    }
    let Some(bar) = bar.filter(|_| faults.count() == 0) else { return Err(faults.into()) };
    work.judge_plan();
    let gauges = work.gauges();
    let tables = tables(document, !gauges.is_empty());
    work.tell_unlisted();
    work.findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    let stamp =
        Stamp { tenths: env!("CARGO_PKG_VERSION"), document: Version::NUMBER, sha256: sha256.into(), tables };
    Ok(Sheet {
        stamp,
        units: work.units,
        part: document.part.name.clone(),
        part_number: document.part.number.clone(),
        quantity: document.part.quantity,
        material: document.material.title(),
        characteristics,
        bar,
        minutes_per_part: operations.iter().map(|operation| operation.minutes_per_part).sum(),
        operations,
        joint,
        stacks,
        gauges,
        assumptions: vec![],
        findings: work.findings,
        cautions: caution::of_sheet(document),
    })
}

/// The parts as they come from the saw.
pub(super) struct Sawn<'d> {
    /// The operation, counted from 0.
    pub(super) index: usize,
    pub(super) saw: &'d Saw,
    /// The longest part that the drawing allows.
    pub(super) part: Size,
    /// With what is left on for facing.
    pub(super) length: Size,
}

impl<'p> Evaluation<'p> {
    /// How parts come from the saw; nothing where no saw names a length.
    pub(super) fn sawn(&self) -> Option<Sawn<'p>> {
        let mut operations = self.document.operations.iter().enumerate();
        let (index, saw) = operations.find_map(|(index, operation)| match operation {
            Operation::Saw(saw) => Some((index, saw)),
            _ => None,
        })?;
        let length = self.limits_of(saw.cut_length.0).filter(|c| c.kind == CharacteristicKind::Length)?;
        let part = length.limits.upper();
        Some(Sawn { index, saw, part, length: part.checked_add(saw.facing_allowance)? })
    }
}

impl Evaluation<'_> {
    fn new(document: &Document) -> Evaluation<'_> {
        let numbers = document.characteristics.iter().map(|c| c.number);
        let mut places: Vec<_> = numbers.zip(0..).collect();
        let mut makers = Vec::with_capacity(document.operations.len());
        for (number, operation) in (1..).zip(&document.operations) {
            makers.extend(operation.makes().iter().map(|made| (made.0, number)));
        }
        places.sort_unstable();
        makers.sort_unstable();
        Evaluation { document, units: document.units, findings: vec![], unlisted: None, places, makers }
    }

    /// The operations that make a characteristic, counted from 1.
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
                    "unusual_value",
                    "check its unit; if the number is right, prove the result on a trial piece",
                ),
                false => ("outside_source", "take the result with care, and prove it on a trial piece"),
            };
            self.find(Severity::Warning, code, place, message, remedy);
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
        Ok(Figure { name, value: y[0], unit, judged: None })
    }

    pub(super) fn float(&self, size: Size) -> f64 {
        size.to_float(self.units)
    }

    pub(super) fn find(
        &mut self,
        severity: Severity,
        code: &'static str,
        place: Place<'_>,
        message: String,
        remedy: impl Into<Cow<'static, str>>,
    ) {
        let remedy = remedy.into();
        let finding = Finding { code, severity, place: place.pointer(), message, remedy };
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
    fn tell_unlisted(&mut self) {
        if let Some((count, severity)) = self.unlisted {
            let message = format!("{count} more findings are not listed");
            let remedy = "correct the listed ones, then evaluate the plan again".into();
            let place = Place::ROOT.pointer();
            self.findings.push(Finding { code: "more_findings", severity, place, message, remedy });
        }
    }

    /// Judges a figure against what a maker recommends.
    pub(super) fn judge<Q: Quantity>(&mut self, place: Place<'_>, figure: &mut Figure, range: &Range<Q>) {
        let (lower, upper) = (range.lower.value(), range.upper.value());
        let within = lower <= figure.value && figure.value <= upper;
        figure.judged = Some(Judged { lower, upper, within });
        if !within {
            let Figure { name, value, unit, .. } = *figure;
            let (side, remedy) = match value < lower {
                true => ("below", "raise the speed or the feed, or choose a tool for lower values"),
                false => ("above", "lower the speed or the feed, or choose a tool for higher values"),
            };
            let nearest = if value < lower { lower } else { upper };
            let shown = beside(value, nearest);
            let message =
                format!("{name} of {shown} {unit} is {side} the recommended {lower} to {upper} {unit}");
            self.find(Severity::Warning, "outside_recommendation", place, message, remedy);
        }
    }

    pub(super) fn limits_of(&self, number: u32) -> Option<&Characteristic> {
        let found = self.places.binary_search_by_key(&number, |place| place.0).ok()?;
        self.document.characteristics.get(self.places[found].1)
    }

    /// What the bar gives: parts from the largest part that the drawing allows, so that the count always holds.
    fn bar(&mut self) -> Result<BarLines, DocumentError> {
        let Document { bar, part: Part { quantity, .. }, .. } = self.document;
        let section = [bar.form.name(), ", ", &bar.limits.format(self.units)].concat();
        let mut lines = BarLines {
            section,
            designation: bar.limits.by(),
            length: bar.bar_length.format(self.units),
            part_length: None,
            parts_per_bar: None,
            bars: None,
        };
        let Some(Sawn { index, saw, part, length: each }) = self.sawn() else { return Ok(lines) };
        let place = OPERATIONS.index(index);
        let count = stock::parts_per_bar(
            bar.bar_length,
            part,
            saw.kerf,
            saw.facing_allowance,
            bar.end_trim,
            bar.remnant,
        );
        let count = count.map_err(|error| no_answer(place, error))?.metric();
        lines.part_length = Some(each.format(self.units));
        lines.parts_per_bar = Some(count);
        if count > 0.0 {
            lines.bars = Some((f64::from(*quantity) / count).ceil());
        } else {
            let message =
                format!("no part of {} can be cut from a bar of {}", each.format(self.units), lines.length);
            self.find(
                Severity::Error,
                "bar_too_short",
                BAR.field("bar_length"),
                message,
                "order longer bars",
            );
        }
        Ok(lines)
    }

    fn gauges(&mut self) -> Vec<GaugeLine> {
        let Document { characteristics, joint, .. } = self.document;
        let mut lines = vec![];
        let wanted = characteristics.iter().enumerate().filter_map(|(index, c)| {
            Some((CHARACTERISTICS.index(index), Some(c.number), *c.limits, c.gauge?))
        });
        let bore = joint.iter().map(Joint::bore);
        let bore = bore.filter_map(|(bore, gauge)| Some((JOINT, None, bore.limits, gauge?)));
        for (place, characteristic, limits, form) in wanted.chain(bore) {
            match make_gauge(form, &limits) {
                Ok(gauge) => lines.push(self.gauge_line(characteristic, form, &gauge)),
                Err(error) => {
                    let remedy =
                        "measure this characteristic instead, with an instrument that suits its tolerance";
                    self.find(Severity::Warning, "no_gauge", place.field("gauge"), error.to_string(), remedy);
                }
            }
        }
        lines
    }

    fn gauge_line(&self, characteristic: Option<u32>, form: GaugeKind, gauge: &Gauge) -> GaugeLine {
        GaugeLine {
            characteristic,
            form,
            class: gauge.gagemaker_class.map_or("", |class| class.name()),
            go: gauge.go.limits.format(self.units),
            go_proves: gauge.go.proves,
            no_go: gauge.no_go.limits.format(self.units),
            no_go_proves: gauge.no_go.proves,
            basis: gauge.basis.name(),
        }
    }
}

fn make_gauge(form: GaugeKind, limits: &Limits) -> Result<Gauge, GaugeError> {
    match form {
        GaugeKind::Plug => gauge::plug_gauge(limits),
        GaugeKind::Ring => gauge::ring_gauge(limits),
        GaugeKind::Length => gauge::length_gauge(limits),
    }
}

/// The tables of gauges, classes and fits that a document draws on: the edition, and where the figures were seen.
fn tables(document: &Document, has_gauges: bool) -> Vec<String> {
    let mut tables: Vec<&str> = has_gauges.then(gauge::standard).into_iter().collect();
    let drawing = document.characteristics.iter().map(|c| &c.limits.designation);
    let joint = document.joint.as_ref().map(|joint| joint.bore().0);
    let contributors = document.stacks.iter().flat_map(|stack| &stack.contributors);
    let others = [&document.bar.limits].into_iter().chain(joint);
    let others = others.chain(contributors.filter_map(|one| one.limits.as_ref()));
    let stated = drawing.chain(others.map(|limits| &limits.designation));
    for standard in stated.filter_map(|designation| Some(designation.as_ref()?.standard)) {
        if !tables.contains(&standard) {
            tables.push(standard);
        }
    }
    // Fits of both standards are partly from memory; the figures of gauges were seen in three reprints that agree.
    let figures = |table: &str| match table == gauge::standard() {
        true => "figures from reprints",
        false => "figures from reprints, in part from memory",
    };
    tables.into_iter().map(|table| [table, " (", figures(table), ")"].concat()).collect()
}

/// A time of the document.
pub(super) fn minutes(time: DocumentNumber<Time>) -> f64 {
    time.value()
}

//! From a plan to its process sheet.
use super::caution;
use super::characteristic::{CharacteristicKind, GaugeKind};
use super::document::Document;
use super::evaluation::{BAR, CHARACTERISTICS, Evaluation, OPERATIONS, Sawn, no_answer};
use super::operation::{Operation, Work};
use super::sheet::*;
use super::tool_use::tool_lines;
use crate::document::Version;
use crate::document::fault::{DocumentError, Faults};
use crate::finding::FindingCode;
use crate::quantity::Quantity;
use crate::{Gauge, GaugeError, Limits};
use crate::{gauge, stock};

/// The sheet of a document, with or without the samples of its stacks.
pub(super) fn evaluate(document: &Document, sha256: &str, is_sampled: bool) -> Result<Sheet, DocumentError> {
    let mut work = begin(document);
    // Whatever has no answer is told together with the rest.
    let mut faults = Faults::default();
    let bar = faults.keep(work.bar());
    let characteristics = work.characteristics();
    let mut operations = Vec::with_capacity(document.operations.len());
    for (index, operation) in document.operations.iter().enumerate() {
        operations.extend(faults.keep(work.operation(index, operation)));
    }
    let mut joints = Vec::with_capacity(work.joints.len());
    for placed in work.joints.clone() {
        joints.extend(faults.keep(work.joint(placed, &document.operations)));
    }
    let mut stacks = Vec::with_capacity(document.stacks.len());
    for (index, stack) in document.stacks.iter().enumerate() {
        stacks.extend(faults.keep(work.stack(index, stack, is_sampled)));
    }
    let Some(bar) = bar.filter(|_| faults.count() == 0) else { return Err(faults.into()) };
    work.judge_plan(&document.operations);
    let gauges = work.gauges();
    let tools = tool_lines(document, &operations);
    let tables = tables(document, !gauges.is_empty());
    work.tell_unlisted();
    work.findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    let is_joined = document.operations.iter().any(|one| Document::joins(one).is_some());
    let has_joints = !work.joints.is_empty();
    let joint = document.joint.as_ref().and_then(|_| joints.pop());
    let stamp = Stamp {
        tenths: env!("CARGO_PKG_VERSION").into(),
        document: Version::NUMBER,
        sha256: sha256.into(),
        tables,
    };
    Ok(Sheet {
        tenths_sheet: Version,
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
        joints,
        stacks,
        gauges,
        tools,
        quote: None,
        assumed: vec![],
        findings: work.findings,
        cautions: caution::of_sheet(has_joints && !is_joined).into_iter().map(Text::Borrowed).collect(),
    })
}

/// An evaluation of a document before any operation.
fn begin(document: &Document) -> Evaluation<'_> {
    let Document { characteristics, operations, material, bar, .. } = document;
    let numbers = characteristics.iter().map(|c| c.number);
    let mut places: Vec<_> = numbers.zip(0..).collect();
    let mut makers = Vec::with_capacity(operations.len());
    for (index, operation) in operations.iter().enumerate() {
        makers.extend(operation.makes().iter().map(|made| (made.0, index)));
    }
    places.sort_unstable();
    makers.sort_unstable();
    let numbers = operations.iter().enumerate().map(|(index, operation)| operation.number(index));
    let mut work = Evaluation {
        units: document.units,
        quantity: document.part.quantity,
        material,
        characteristics,
        bar,
        joints: document.placed_joints().collect(),
        numbers: numbers.collect(),
        sawn: None,
        findings: vec![],
        unlisted: None,
        places,
        makers,
    };
    work.sawn = sawn(&work, operations);
    work
}

/// How parts come from the saw or the lathe that parts them off; nothing where neither names a length.
fn sawn(work: &Evaluation<'_>, operations: &[Operation]) -> Option<Sawn> {
    let (index, cut_length, kerf, facing_allowance) =
        operations.iter().enumerate().find_map(|(index, operation)| match &operation.work {
            Work::Saw(saw) => Some((index, saw.cut_length, saw.kerf, saw.facing_allowance)),
            Work::PartOff(part) => Some((index, part.cut_length, part.tool.width, part.facing_allowance)),
            _ => None,
        })?;
    let length = work.limits_of(cut_length.0).filter(|c| c.kind == CharacteristicKind::Length)?;
    let part = length.limits.upper();
    let length = part.checked_add(facing_allowance)?;
    let finishes = operations.get(index)?.makes().contains(&cut_length);
    Some(Sawn { index, cut_length, finishes, kerf, facing_allowance, part, length })
}

impl Evaluation<'_> {
    /// What the bar gives: parts from the largest part that the drawing allows, so that the count always holds.
    fn bar(&mut self) -> Result<BarLines, DocumentError> {
        let (bar, quantity) = (self.bar, self.quantity);
        let section = [bar.form.name(), ", ", &bar.limits.format(self.units)].concat();
        let mut lines = BarLines {
            section,
            designation: bar.limits.by(),
            length: bar.bar_length.format(self.units),
            part_length: None,
            parts_per_bar: None,
            bars: None,
            kerf: None,
            end_trim: bar.end_trim.format(self.units),
            remnant: bar.remnant.format(self.units),
        };
        let Some(Sawn { index, kerf, facing_allowance, part, length: each, .. }) = self.sawn else {
            return Ok(lines);
        };
        let place = OPERATIONS.index(index);
        let count =
            stock::parts_per_bar(bar.bar_length, part, kerf, facing_allowance, bar.end_trim, bar.remnant);
        let count = count.map_err(|error| no_answer(place, error))?.metric();
        lines.part_length = Some(each.format(self.units));
        lines.kerf = Some(kerf.format(self.units));
        lines.parts_per_bar = Some(count as u64);
        if count > 0.0 {
            lines.bars = Some((f64::from(quantity) / count).ceil() as u64);
        } else {
            let message =
                format!("no part of {} can be cut from a bar of {}", each.format(self.units), lines.length);
            self.find(FindingCode::BarTooShort, BAR.field("bar_length"), message, "order longer bars");
        }
        Ok(lines)
    }

    fn gauges(&mut self) -> Vec<GaugeLine> {
        let mut lines = vec![];
        let wanted = self.characteristics.iter().enumerate().filter_map(|(index, c)| {
            Some((CHARACTERISTICS.index(index), Proved::Characteristic(c.number), *c.limits, c.gauge?))
        });
        let joints = self.joints.clone();
        let bores = joints.iter().filter_map(|placed| {
            let (bore, gauge) = placed.joint.bore();
            Some((placed.place, Proved::Bore(placed.joint.own_name()), bore.limits, gauge?))
        });
        for (place, proved, limits, form) in wanted.chain(bores) {
            match make_gauge(form, &limits) {
                Ok(gauge) => lines.push(self.gauge_line(proved, form, &gauge)),
                Err(error) => {
                    let remedy =
                        "measure this characteristic instead, with an instrument that suits its tolerance";
                    self.find(FindingCode::NoGauge, place.field("gauge"), error.to_string(), remedy);
                }
            }
        }
        lines
    }

    fn gauge_line(&self, proved: Proved<'_>, form: GaugeKind, gauge: &Gauge) -> GaugeLine {
        let (characteristic, joint) = match proved {
            Proved::Characteristic(number) => (Some(number), None),
            Proved::Bore(joint) => (None, joint.map(Into::into)),
        };
        GaugeLine {
            characteristic,
            joint,
            form,
            class: gauge.gagemaker_class.map_or("", |class| class.name()).into(),
            go: gauge.go.limits.format(self.units),
            go_proves: gauge.go.proves.into(),
            no_go: gauge.no_go.limits.format(self.units),
            no_go_proves: gauge.no_go.proves.into(),
            basis: gauge.basis.name().into(),
        }
    }
}

/// What a gauge proves: a characteristic by its number, or the bore of a hub by the name of its joint.
#[derive(Clone, Copy)]
enum Proved<'p> {
    Characteristic(u32),
    Bore(Option<&'p str>),
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
    let bores = document.placed_joints().map(|placed| placed.joint.bore().0);
    let contributors = document.stacks.iter().flat_map(|stack| &stack.contributors);
    let others = [&document.bar.limits].into_iter().chain(bores);
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

//! Lines that several pages have.
use crate::document::node::{index, steps};
use crate::page::{Part, Span, Table, Words, plain, shown, with_names};
use crate::plan::figures::{Figure, Judged};
use crate::plan::sheet::*;
use std::collections::BTreeSet;

/// A list of numbers: `1, 2, 3`.
pub(super) fn list(numbers: &[u32]) -> String {
    numbers.iter().map(u32::to_string).collect::<Vec<_>>().join(", ")
}

/// Limits with what they are stated by.
pub(super) fn limits(limits: &str, designation: &Option<String>) -> String {
    designation.as_ref().map_or(limits.into(), |designation| format!("{limits} ({designation})"))
}

/// A figure with its unit: a time in seconds, minutes or hours, what was set to its last digit, what was computed to four.
pub(super) fn value(figure: &Figure) -> [String; 2] {
    let Figure { value, unit, set, .. } = figure;
    match (&**unit, set) {
        ("min", _) => [shown::time(*value), String::new()],
        (_, true) => [shown::stated(*value), unit.to_string()],
        (_, false) => [shown::number(*value), unit.to_string()],
    }
}

/// Figures as a table, with what was recommended where some are judged.
pub(super) fn figures<'f>(title: &'static str, figures: impl IntoIterator<Item = &'f Figure>) -> Table {
    let row = |figure: &Figure| {
        let judged = figure.judged.map_or(String::new(), |Judged { lower, upper, within }| {
            let verdict = if within { "within" } else { "OUTSIDE" };
            format!("{verdict} {} to {}", shown::stated(lower), shown::stated(upper))
        });
        let [value, unit] = value(figure);
        [figure.name.to_string(), value, unit, judged]
    };
    Table::new([title, "value", "unit", "recommended"], figures.into_iter().map(row).collect())
}

/// What is to be set, and what was computed, side by side.
pub(super) fn settings(operation: &OperationLines) -> Part {
    let [set, computed] = [true, false].map(|set| operation.figures.iter().filter(move |one| one.set == set));
    Part::Beside(vec![figures("to be set", set), figures("computed", computed)])
}

pub(super) fn cautions(cautions: &[Text]) -> Part {
    Part::Cautions(cautions.iter().map(|caution| plain(caution.clone())).collect())
}

impl Sheet {
    /// The first line of each page.
    pub(super) fn lead(&self) -> Part {
        Part::Paragraph(plain(format!(
            "Quantity {}, {}, units {}.",
            self.quantity,
            self.material,
            self.units.name()
        )))
    }

    /// What is always to be borne in mind, and what the page was made from.
    pub(super) fn foot(&self) -> Vec<Part> {
        let Stamp { tenths, sha256, .. } = &self.stamp;
        let made = plain(format!("tenths {tenths}; SHA-256 of the plan: {sha256}"));
        vec![cautions(&self.cautions), Part::List(vec![made])]
    }

    /// The characteristics of these numbers, each once and in the order of the drawing, as it asks for them.
    pub(super) fn asked(&self, numbers: &[u32]) -> Table {
        let wanted: BTreeSet<u32> = numbers.iter().copied().collect();
        let row = |one: &CharacteristicLine| {
            let [number, name, limits, _, roughness, form, plating] = one.drawn();
            [number, name, limits, roughness, form, plating, one.proof()]
        };
        let asked = self.characteristics.iter().filter(|one| wanted.contains(&one.number));
        let rows = asked.map(row).collect();
        let head = [
            "No.",
            "characteristic",
            "limits",
            "Ra, at most",
            "form deviation, at most",
            "before plating",
            "gauge with",
        ];
        Table::new(head, rows)
    }

    /// What a pointer of the plan leads to, as the sheet numbers it: `Operation 40, Knurl`.
    pub(super) fn named(&self, pointer: &str) -> String {
        let steps: Vec<String> = steps(pointer).collect();
        let at = steps.get(1).and_then(|step| index(step)).unwrap_or(usize::MAX);
        let named = match steps.first().map(String::as_str) {
            Some("operations") => self.operations.get(at).map(OperationLines::title),
            Some("characteristics") => {
                self.characteristics.get(at).map(|one| format!("No. {}, {}", one.number, one.name))
            }
            Some("stacks") => self.stacks.get(at).map(|one| format!("Stack, {}", one.name)),
            Some("joint") => self.joint.as_ref().map(JointLines::title),
            Some("joints") => self.joints.get(at).map(JointLines::title),
            Some("bar") => Some("Bar".into()),
            Some("material") => Some("Material".into()),
            Some("rates") => Some("Rates".into()),
            _ => None,
        };
        named.unwrap_or_else(|| "Plan".into())
    }

    /// Where an operation of the sheet stands in the plan: a JSON Pointer.
    pub(super) fn place_of(&self, operation: &OperationLines) -> String {
        let at = self.operations.iter().take_while(|one| !std::ptr::eq(*one, operation)).count();
        format!("/operations/{at}")
    }

    /// What was assumed for an operation, its fields with their values; nothing where nothing was.
    pub(super) fn assumed_of(&self, operation: &OperationLines) -> Option<Part> {
        let top = self.place_of(operation) + "/";
        let own = self.assumed.iter().filter_map(|one| Some((one.place.strip_prefix(&*top)?, &one.value)));
        let own: Vec<String> =
            own.map(|(field, value)| format!("{} {value}", field.replace(['/', '_'], " "))).collect();
        let words = vec![Span::Strong("Assumed:".into()), Span::Plain(format!(" {}.", own.join(", ")))];
        (!own.is_empty()).then_some(Part::Paragraph(words))
    }

    /// A finding with the place that it speaks of.
    pub(super) fn finding(&self, finding: &crate::Finding) -> Words {
        let crate::Finding { severity, place, message, remedy, .. } = finding;
        let weight = match severity {
            crate::Severity::Note => "Note.",
            crate::Severity::Warning => "Warning.",
            crate::Severity::Error => "ERROR.",
        };
        let mut words = vec![Span::Strong(weight.into()), Span::Plain(format!(" {}", self.named(place)))];
        if !place.is_empty() {
            words.extend([Span::Plain(" (".into()), Span::Code(place.clone()), Span::Plain(")".into())]);
        }
        words.push(Span::Plain(format!(": {message}. Fix: ")));
        words.extend(with_names(remedy));
        words.push(Span::Plain(".".into()));
        words
    }
}

impl JointLines {
    /// `Joint, roller`.
    fn title(&self) -> String {
        self.name.as_ref().map_or("Joint".into(), |name| format!("Joint, {name}"))
    }
}

impl OperationLines {
    /// `Operation 40, Knurl`.
    fn title(&self) -> String {
        let (first, rest) = self.kind.split_at_checked(1).unwrap_or_default();
        format!("Operation {}, {}{}", self.number, first.to_uppercase(), rest.replace('_', " "))
    }
}

impl CharacteristicLine {
    /// What the drawing asks for: number, name, limits, requirement, roughness, form and the limits before plating.
    pub(super) fn drawn(&self) -> [String; 7] {
        let or_empty = |text: &Option<String>| text.clone().unwrap_or_default();
        [
            self.number.to_string(),
            self.name.clone(),
            limits(&self.limits, &self.designation),
            self.requirement.to_string(),
            or_empty(&self.roughness),
            or_empty(&self.form_deviation),
            or_empty(&self.before_plating),
        ]
    }

    /// What it is proved with.
    pub(super) fn proof(&self) -> String {
        match self.gauge {
            Some(gauge) => format!("{}; {} gauge", self.inspection, gauge.name()),
            None => self.inspection.clone(),
        }
    }
}

//! Lines that several pages have.
use crate::document::node::{index, steps};
use crate::page::{Part, Shown, Span, Table, Words, plain, shown, with_names};
use crate::plan::figures::{Figure, Judged};
use crate::plan::sheet::*;
use std::fmt::Write;

/// A list of numbers: `1, 2, 3`.
pub(super) fn list(numbers: &[u32]) -> String {
    let mut list = String::new();
    for number in numbers {
        let comma = if list.is_empty() { "" } else { ", " };
        // Writing to a String does not fail.
        let _ = write!(list, "{comma}{number}");
    }
    list
}

/// Limits with what they are stated by.
pub(super) fn limits<'s>(limits: &'s str, designation: &Option<String>) -> Shown<'s> {
    match designation {
        Some(designation) => [limits, " (", designation, ")"].concat().into(),
        None => limits.into(),
    }
}

/// Text that may be left out: nothing then.
pub(super) fn or_empty(text: &Option<String>) -> Shown<'_> {
    text.as_deref().unwrap_or_default().into()
}

/// A figure with its unit: a time in seconds, minutes or hours, what was set to its last digit, what was computed to four.
pub(super) fn value(figure: &Figure) -> [Shown<'_>; 2] {
    let Figure { value, unit, set, .. } = figure;
    match (&**unit, set) {
        ("min", _) => [shown::time(*value).into(), "".into()],
        (unit, true) => [shown::stated(*value).into(), unit.into()],
        (unit, false) => [shown::number(*value).into(), unit.into()],
    }
}

/// Figures as a table, with what was recommended where some are judged.
pub(super) fn figures<'f>(title: &'static str, figures: impl IntoIterator<Item = &'f Figure>) -> Table<'f> {
    let row = |figure: &'f Figure| {
        let judged = figure.judged.map_or("".into(), |Judged { lower, upper, within }| {
            let verdict = if within { "within " } else { "OUTSIDE " };
            [verdict, &*shown::stated(lower), " to ", &*shown::stated(upper)].concat().into()
        });
        let [value, unit] = value(figure);
        [(&*figure.name).into(), value, unit, judged]
    };
    Table::new([title, "value", "unit", "recommended"], figures.into_iter().map(row))
}

/// What is to be set, and what was computed, side by side.
pub(super) fn settings(operation: &OperationLines) -> Part<'_> {
    let [set, computed] = [true, false].map(|set| operation.figures.iter().filter(move |one| one.set == set));
    Part::Beside(vec![figures("to be set", set), figures("computed", computed)])
}

pub(super) fn cautions(cautions: &[Text]) -> Part<'_> {
    Part::Cautions(cautions.iter().map(|caution| plain(&**caution)).collect())
}

impl Sheet {
    /// The first line of each page.
    pub(super) fn lead(&self) -> Part<'_> {
        Part::Paragraph(plain(format!(
            "Quantity {}, {}, units {}.",
            self.quantity,
            self.material,
            self.units.name()
        )))
    }

    /// What is always to be borne in mind, and what the page was made from.
    pub(super) fn foot(&self) -> Vec<Part<'_>> {
        let Stamp { tenths, sha256, .. } = &self.stamp;
        let made = plain(format!("tenths {tenths}; SHA-256 of the plan: {sha256}"));
        vec![cautions(&self.cautions), Part::List(vec![made])]
    }

    /// The characteristics of these numbers, each once and in the order of the drawing, as it asks for them.
    pub(super) fn asked(&self, numbers: &[u32]) -> Table<'_> {
        let row = |one| {
            let [number, name, limits, _, roughness, form, plating] = CharacteristicLine::drawn(one);
            [number, name, limits, roughness, form, plating, one.proof()]
        };
        let mut wanted = numbers.to_vec();
        wanted.sort_unstable();
        let is_asked = |one: &&CharacteristicLine| wanted.binary_search(&one.number).is_ok();
        let rows = self.characteristics.iter().filter(is_asked).map(row);
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
    pub(super) fn named(&self, pointer: &str) -> Shown<'_> {
        let mut steps = steps(pointer);
        let (first, second) = (steps.next(), steps.next());
        let at = second.and_then(|step| index(&step)).unwrap_or(usize::MAX);
        let named = match first.as_deref() {
            Some("operations") => self.operations.get(at).map(|one| one.title().into()),
            Some("characteristics") => {
                self.characteristics.get(at).map(|one| format!("No. {}, {}", one.number, one.name).into())
            }
            Some("stacks") => self.stacks.get(at).map(|one| ["Stack, ", &*one.name].concat().into()),
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
    pub(super) fn assumed_of(&self, operation: &OperationLines) -> Option<Part<'_>> {
        if self.assumed.is_empty() {
            return None;
        }
        let top = self.place_of(operation) + "/";
        let own = self.assumed.iter().filter_map(|one| Some((one.place.strip_prefix(&*top)?, &one.value)));
        let own: Vec<String> =
            own.map(|(field, value)| format!("{} {value}", field.replace(['/', '_'], " "))).collect();
        let words =
            vec![Span::Strong("Assumed:".into()), Span::Plain([" ", &*own.join(", "), "."].concat().into())];
        (!own.is_empty()).then_some(Part::Paragraph(words))
    }

    /// A finding with the place that it speaks of.
    pub(super) fn finding<'s>(&'s self, finding: &'s crate::Finding) -> Words<'s> {
        let crate::Finding { severity, place, message, remedy, .. } = finding;
        let weight = match severity {
            crate::Severity::Note => "Note.",
            crate::Severity::Warning => "Warning.",
            crate::Severity::Error => "ERROR.",
        };
        let mut words =
            vec![Span::Strong(weight.into()), Span::Plain([" ", &*self.named(place)].concat().into())];
        if !place.is_empty() {
            words.extend([Span::Plain(" (".into()), Span::Code(place.into()), Span::Plain(")".into())]);
        }
        words.push(Span::Plain([": ", &**message, ". Fix: "].concat().into()));
        words.extend(with_names(remedy));
        words.push(Span::Plain(".".into()));
        words
    }
}

impl JointLines {
    /// `Joint, roller`.
    fn title(&self) -> Shown<'_> {
        self.name.as_ref().map_or("Joint".into(), |name| ["Joint, ", name].concat().into())
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
    pub(super) fn drawn(&self) -> [Shown<'_>; 7] {
        [
            self.number.to_string().into(),
            (&*self.name).into(),
            limits(&self.limits, &self.designation),
            (&*self.requirement).into(),
            or_empty(&self.roughness),
            or_empty(&self.form_deviation),
            or_empty(&self.before_plating),
        ]
    }

    /// What it is proved with.
    pub(super) fn proof(&self) -> Shown<'_> {
        let gauge = self.gauge.map(|gauge| [gauge.name(), " gauge"].concat());
        match gauge {
            Some(gauge) if !self.inspection.contains(&gauge) => {
                [&*self.inspection, "; ", &gauge].concat().into()
            }
            _ => (&*self.inspection).into(),
        }
    }
}

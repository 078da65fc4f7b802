//! How the drawing is met: by the bar as bought, or by an operation.
use super::bar::{Bar, Form};
use super::characteristic::{Characteristic, CharacteristicKind, Plating, Requirement};
use super::evaluation::{CHARACTERISTICS, Evaluation};
use super::sheet::CharacteristicLine;
use crate::finding::FindingCode;
use crate::quantity::{Quantity, RoughnessRa};
use crate::{Limits, Size};

impl Evaluation<'_> {
    pub(super) fn characteristics(&mut self) -> Vec<CharacteristicLine> {
        self.characteristics.iter().enumerate().map(|(index, c)| self.characteristic(index, c)).collect()
    }

    fn characteristic(&mut self, index: usize, c: &Characteristic) -> CharacteristicLine {
        let place = CHARACTERISTICS.index(index);
        let bar = self.bar;
        let mut made_by: Vec<u32> = self.makers(c.number).map(|index| self.number(index)).collect();
        made_by.dedup();
        let required = match &c.plating {
            Some(plating) => before_plating(c, plating),
            None => Some(*c.limits),
        };
        if required.is_none() {
            let message =
                format!("the scatter of the plating uses up the tolerance of characteristic {}", c.number);
            self.find(FindingCode::PlatingScatter, place, message, "ask for closer plating or wider limits");
        }
        let candidate = made_by.is_empty() && is_section(c.kind, bar.form);
        let shortcomings = match required {
            Some(required) if candidate => shortcomings(c, bar, &required),
            _ => vec![],
        };
        let bought = candidate && required.is_some() && shortcomings.is_empty();
        if made_by.is_empty() && !bought {
            let message = match shortcomings.is_empty() {
                true => format!("no operation makes characteristic {}", c.number),
                false => format!(
                    "the bar as bought does not meet characteristic {}: {}",
                    c.number,
                    shortcomings.join("; ")
                ),
            };
            let remedy = "name it in the `makes` of an operation, or order stock that meets it";
            self.find(FindingCode::NotMade, place, message, remedy);
        }
        CharacteristicLine {
            number: c.number,
            name: c.name.clone().unwrap_or_else(|| c.kind.name().replace('_', " ")),
            limits: c.limits.format(self.units),
            lower: self.float(c.limits.lower()),
            upper: self.float(c.limits.upper()),
            designation: c.limits.by(),
            requirement: c.requirement.name().into(),
            roughness: c.roughness.map(|ra| {
                let unit = RoughnessRa::KIND.unit(self.units).label;
                format!("{} {unit}", ra.value())
            }),
            form_deviation: c.form_deviation.map(|size| size.format(self.units)),
            before_plating: c.plating.as_ref().and(required).map(|limits| limits.format(self.units)),
            bought,
            made_by,
            inspection: c.inspection.clone(),
            gauge: c.gauge,
            capability: c.capability.map(|cpk| cpk.value()),
        }
    }
}

/// Whether the section of the bar can give this kind of characteristic.
fn is_section(kind: CharacteristicKind, form: Form) -> bool {
    matches!(
        (kind, form),
        (CharacteristicKind::Diameter, Form::Round)
            | (CharacteristicKind::AcrossFlats | CharacteristicKind::Width, Form::Hexagon | Form::Square)
    )
}

/// The limits that the bare part has to keep for the plated one to keep those of the drawing, at any thickness.
fn before_plating(c: &Characteristic, plating: &Plating) -> Option<Limits> {
    let surfaces = match c.kind {
        CharacteristicKind::Bore | CharacteristicKind::Slot => -2,
        CharacteristicKind::Depth => 0,
        _ => 2,
    };
    let thickness = |size: Size| size.checked_mul(surfaces);
    let (least, greatest) = (thickness(plating.thickness.lower())?, thickness(plating.thickness.upper())?);
    let lower = c.limits.lower().checked_sub(least.min(greatest))?;
    let upper = c.limits.upper().checked_sub(least.max(greatest))?;
    Limits::between(lower, upper).ok()
}

/// The limits to cut to: those before plating, where there is any and its scatter leaves some.
pub(super) fn to_cut(c: &Characteristic) -> Limits {
    c.plating.as_ref().and_then(|plating| before_plating(c, plating)).unwrap_or(*c.limits)
}

/// In what the bar as bought fails a characteristic; nothing if it meets it.
fn shortcomings(c: &Characteristic, bar: &Bar, required: &Limits) -> Vec<String> {
    let mut found = vec![];
    if !required.contains(&bar.limits) {
        found.push(format!("its limits {} are not within {required}", bar.limits.limits));
    }
    match (c.roughness, bar.roughness) {
        (Some(_), None) => found.push("its roughness is not stated".into()),
        (Some(asked), Some(given)) if given.value() > asked.value() => {
            found.push("it is rougher than the drawing allows".into())
        }
        _ => {}
    }
    match (c.form_deviation, bar.form_deviation) {
        (Some(_), None) => found.push("its deviation of form is not stated".into()),
        (Some(asked), Some(given)) if given > asked => {
            found.push("its form deviates more than the drawing allows".into())
        }
        _ => {}
    }
    if c.requirement == Requirement::Envelope {
        // The envelope holds if the largest bar with all of its deviation of form still fits in.
        let reach = bar.form_deviation.and_then(|deviation| bar.limits.upper().checked_add(deviation));
        if reach.is_none_or(|reach| reach > required.upper()) {
            found.push("its size and deviation of form together are not shown to keep the envelope".into());
        }
    }
    found
}

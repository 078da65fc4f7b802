//! The units in which an object shows itself.
use super::value::{element, side};
use tenths::object::{FieldKind, Told, Value};
use tenths::quantity::Length;
use tenths::size::natural_units;
use tenths::{Quantity, Size, Units};

/// What an object shows its figures in.
#[derive(Clone, Copy)]
pub(super) struct Shown {
    /// Exact sizes and limits.
    pub sizes: Units,
    /// Quantities, of an object of a namespace.
    pub quantities: Option<Units>,
    /// Plain numbers, of an object that says their units.
    numbers: Option<Units>,
}

impl Shown {
    /// Sizes in the units asked for, or the object's own, or those of its namespace, or whichever suit them.
    pub fn of(told: &Told, asked: Option<Units>, namespace: Option<Units>) -> Self {
        let own = asked.or(told.units()).or(namespace);
        let sizes = own.unwrap_or_else(|| natural_units(&sizes(told)));
        Self { sizes, quantities: namespace, numbers: told.units() }
    }

    /// The same for an object within.
    pub fn within(self, told: &Told) -> Self {
        Self { numbers: told.units().or(self.numbers), ..self }
    }

    /// The label of the unit of a kind; nothing where it has no unit.
    pub fn label(self, kind: &FieldKind) -> &'static str {
        match element(kind.present()) {
            FieldKind::Size | FieldKind::Limits => Length::KIND.unit(self.sizes).label,
            FieldKind::Quantity(kind) => kind.unit(side(self.quantities)).label,
            FieldKind::Number => self.numbers.map_or("", |units| Length::KIND.unit(units).label),
            _ => "",
        }
    }
}

/// The exact sizes that an object shows.
fn sizes(told: &Told) -> Vec<Size> {
    let mut sizes = vec![];
    for value in &told.values {
        match value {
            Value::Size(size) => sizes.push(*size),
            Value::Limits(limits) => sizes.extend([limits.lower(), limits.upper()]),
            Value::Object(told) => sizes.extend(self::sizes(told)),
            _ => {}
        }
    }
    sizes
}

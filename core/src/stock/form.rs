//! Forms of bar, and the mass of a bar of any form.
use super::error::StockError;
use super::mass::{
    FLAT_BAR_MASS, HEXAGON_BAR_MASS, PLATE_MASS, ROUND_BAR_MASS, SQUARE_BAR_MASS, TUBE_MASS, flat_bar_mass,
    hexagon_bar_mass, plate_mass, round_bar_mass, square_bar_mass, tube_mass,
};
use crate::Error;
use crate::error::excerpt;
use crate::formula::Formula;
use crate::quantity::{Density, Length, Mass, MassPerLength, Quantity};

/// The form of a bar, with its second dimension where it has one.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum BarForm {
    /// A round bar: the size is its diameter.
    Round,
    /// A hexagon bar: the size is across flats.
    Hexagon,
    /// A square bar: the size is across flats.
    Square,
    /// A round tube: the size is its outside diameter.
    Tube {
        /// Thickness of the wall.
        wall: Length,
    },
    /// A flat: the size is its width.
    Flat {
        /// Its thickness.
        thickness: Length,
    },
    /// A plate: the size is its thickness.
    Plate {
        /// Its width.
        width: Length,
    },
}

/// Mass of a bar of a form and size. Each form has its own formula, such as
/// [`tube_mass`].
///
/// ```
/// use tenths::quantity::{Density, Length};
/// use tenths::{Quantity, Units};
/// use tenths::stock::{BarForm, bar_mass};
/// let (steel, mm) = (Density::grams_per_cubic_centimetre(7.85), Length::millimetres);
/// let tube = bar_mass(BarForm::Tube { wall: mm(3.0) }, mm(30.0), mm(6000.0), steel)?;
/// assert_eq!(format!("{:.2} kg", tube.in_units(Units::Metric)), "11.99 kg");
/// # Ok::<(), tenths::Error>(())
/// ```
///
/// # Errors
/// [`Error`] where a dimension is not above zero, or a wall takes up half the size or more.
pub fn bar_mass(form: BarForm, size: Length, length: Length, density: Density) -> Result<Mass, Error> {
    match form {
        BarForm::Round => round_bar_mass(size, length, density),
        BarForm::Hexagon => hexagon_bar_mass(size, length, density),
        BarForm::Square => square_bar_mass(size, length, density),
        BarForm::Tube { wall } => tube_mass(size, wall, length, density),
        BarForm::Flat { thickness } => flat_bar_mass(size, thickness, length, density),
        BarForm::Plate { width } => plate_mass(size, width, length, density),
    }
}

/// Mass of a metre of a bar, or of a foot.
///
/// # Errors
/// As [`bar_mass`].
pub fn bar_mass_per_length(form: BarForm, size: Length, density: Density) -> Result<MassPerLength, Error> {
    let metre = bar_mass(form, size, Length::millimetres(1000.0), density)?;
    Ok(MassPerLength::kilograms_per_metre(metre.metric()))
}

/// The forms by name, each with the name of its second dimension and the formula of its mass, of which the size is the
/// first argument and the second dimension the next.
const FORMS: [(&str, Option<&str>, &Formula); 6] = [
    ("round", None, &ROUND_BAR_MASS),
    ("hexagon", None, &HEXAGON_BAR_MASS),
    ("square", None, &SQUARE_BAR_MASS),
    ("tube", Some("wall"), &TUBE_MASS),
    ("flat", Some("thickness"), &FLAT_BAR_MASS),
    ("plate", Some("width"), &PLATE_MASS),
];

/// The formula of the mass of a form by its name, where those of `given` are the second dimensions that are given. The
/// size is the first argument of the formula; the second dimension, if the form has one, is the next.
///
/// # Errors
/// [`StockError`] where no form has the name, it needs a dimension that is not given, or has none of one that is.
pub fn mass_formula(name: &str, given: &[&'static str]) -> Result<&'static Formula, StockError> {
    let found = FORMS.iter().find(|form| form.0 == name);
    let Some(&(form, needed, formula)) = found else {
        return Err(StockError::UnknownForm { name: excerpt(name) });
    };
    if let Some(surplus) = given.iter().find(|&&dimension| Some(dimension) != needed) {
        return Err(StockError::Surplus { form, surplus, needed });
    }
    match needed {
        Some(dimension) if given.is_empty() => Err(StockError::Missing { form, dimension }),
        _ => Ok(formula),
    }
}

impl BarForm {
    /// Reads the name of a form, which takes its second dimension where it has one: the wall of a `tube`, the thickness of
    /// a `flat`, the width of a `plate`. A `round`, `hexagon` or `square` takes none.
    ///
    /// # Errors
    /// [`StockError`].
    pub fn of_name(name: &str, second: Option<Length>) -> Result<Self, StockError> {
        let needed = FORMS.iter().find(|form| form.0 == name).and_then(|form| form.1);
        let given = second.map(|_| needed.unwrap_or("second dimension"));
        mass_formula(name, given.as_slice())?;
        Ok(match (name, second) {
            ("tube", Some(wall)) => Self::Tube { wall },
            ("flat", Some(thickness)) => Self::Flat { thickness },
            ("plate", Some(width)) => Self::Plate { width },
            ("hexagon", _) => Self::Hexagon,
            ("square", _) => Self::Square,
            _ => Self::Round,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(name: &str, given: &[&'static str]) -> String {
        mass_formula(name, given).map(|formula| formula.name).unwrap_err().to_string()
    }

    #[test]
    fn a_form_takes_its_own_dimensions() {
        assert_eq!(mass_formula("plate", &["width"]).unwrap().name, "plate_mass");
        assert_eq!(refused("tube", &[]), "form tube: wall is missing. Fix: give wall beside the size");
        assert_eq!(refused("round", &["wall"]), "form round has no wall; expected the size alone");
        assert_eq!(
            refused("flat", &["thickness", "wall"]),
            "form flat has no wall; expected size and thickness"
        );
        assert_eq!(
            refused("rod", &[]),
            "no form of bar is called \"rod\"; expected round, hexagon, square, tube, flat or plate"
        );
    }

    #[test]
    fn a_form_is_the_one_of_its_name() {
        let mm = Length::millimetres;
        assert_eq!(BarForm::of_name("hexagon", None), Ok(BarForm::Hexagon));
        assert_eq!(BarForm::of_name("flat", Some(mm(5.0))), Ok(BarForm::Flat { thickness: mm(5.0) }));
        let refused = BarForm::of_name("square", Some(mm(5.0))).unwrap_err().to_string();
        assert_eq!(refused, "form square has no second dimension; expected the size alone");
    }

    // The formulas of the tables take the size first and the second dimension next.
    #[test]
    fn the_arguments_stand_in_the_order_of_a_call() {
        for (name, second, formula) in FORMS {
            assert_eq!(second, second.and(Some(formula.arguments[1].name)), "{name}");
            assert_eq!(formula.arguments.len(), 3 + usize::from(second.is_some()), "{name}");
        }
    }
}

//! Feeds along a toolpath.
use crate::array::{numbers_of, to_array};
use crate::cutting::PyMachine;
use crate::error::value_error;
use crate::given::small;
use crate::number::Wanted;
use crate::size::units_of;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::collections::HashMap;
use tenths::cutting::path_feeds::{FeedBound, PathColumns, PathCut, PathFeedError, path_feeds};
use tenths::quantity::{
    Acceleration, Angle, Curvature, FeedRate, Force, Kind, Length, Power, Ratio, SpindleSpeed, Stiffness,
    Stress,
};
use tenths::{Quantity, Units};

/// What asks for numbers here, and of which quantity.
const ROLES: [(&str, &Kind); 20] = [
    ("length", Length::KIND),
    ("curvature", Curvature::KIND),
    ("radial_width", Length::KIND),
    ("axial_depth", Length::KIND),
    ("cutter_diameter", Length::KIND),
    ("spindle_speed", SpindleSpeed::KIND),
    ("chip_thickness", Length::KIND),
    ("kc11", Stress::KIND),
    ("mc", Ratio::KIND),
    ("entering_angle", Angle::KIND),
    ("least_chip_thickness", Length::KIND),
    ("greatest_force", Force::KIND),
    ("stiffness", Stiffness::KIND),
    ("greatest_deflection", Length::KIND),
    ("greatest_power", Power::KIND),
    ("greatest_feed_rate", FeedRate::KIND),
    ("acceleration", Acceleration::KIND),
    ("start_feed_rate", FeedRate::KIND),
    ("end_feed_rate", FeedRate::KIND),
    ("efficiency", Ratio::KIND),
];

/// What is asked of every number of this module, by name.
#[pyfunction]
pub fn _path_wanted<'py>(py: Python<'py>, units: &str) -> PyResult<Bound<'py, PyDict>> {
    let wanted = PyDict::new(py);
    for (name, kind) in ROLES {
        wanted.set_item(name, Py::new(py, Wanted::new("path_feeds", name, kind, units_of(units)?))?)?;
    }
    Ok(wanted)
}

/// The names of what bounds a feed, in the order of their places.
#[pyfunction]
pub fn _feed_bounds() -> Vec<&'static str> {
    FeedBound::ALL.map(FeedBound::name).to_vec()
}

/// Feeds, chips, times and places of bounds as arrays, then the time and the count of rubbing segments.
type Made<'py> = (Bound<'py, PyAny>, Bound<'py, PyAny>, Bound<'py, PyAny>, Bound<'py, PyAny>, f64, usize);

/// The feeds of a path: arrays of floats of one length, and the numbers of the cut by name.
#[pyfunction]
pub fn _path_feeds<'py>(
    py: Python<'py>,
    units: &str,
    columns: [Bound<'py, PyAny>; 4],
    teeth: &Bound<'py, PyAny>,
    numbers: HashMap<String, f64>,
    machine: Option<&Bound<'py, PyMachine>>,
) -> PyResult<Made<'py>> {
    let units = units_of(units)?;
    let mut cut = cut_of(&numbers, small("path_feeds: teeth", teeth)?, units);
    if let Some(machine) = machine {
        let efficiency = numbers.get("efficiency").copied().unwrap_or(f64::NAN);
        cut = cut.on_machine(&machine.get().0, efficiency).map_err(value_error)?;
    }
    let [lengths, curvatures, radial_widths, axial_depths] = [
        numbers_of(&columns[0])?,
        numbers_of(&columns[1])?,
        numbers_of(&columns[2])?,
        numbers_of(&columns[3])?,
    ];
    let path = PathColumns {
        lengths: &lengths,
        curvatures: &curvatures,
        radial_widths: &radial_widths,
        axial_depths: &axial_depths,
    };
    let made = py.detach(|| path_feeds(&cut, &path)).map_err(|error: PathFeedError| value_error(error))?;
    let bounds: Vec<f64> = made.bounds.iter().map(|bound| f64::from(*bound)).collect();
    Ok((
        to_array(py, &made.feed_rates)?,
        to_array(py, &made.chip_thicknesses)?,
        to_array(py, &made.times)?,
        to_array(py, &bounds)?,
        made.totals.time,
        made.totals.rubbing,
    ))
}

fn cut_of(numbers: &HashMap<String, f64>, teeth: u32, units: Units) -> PathCut {
    fn limit<Q: Quantity>(numbers: &HashMap<String, f64>, name: &str, units: Units) -> Option<Q> {
        numbers.get(name).map(|number| Q::new_in(*number, units))
    }
    // What Python always gives; a number that is missing is refused as not one.
    fn needed<Q: Quantity>(numbers: &HashMap<String, f64>, name: &str, units: Units) -> Q {
        Q::new_in(numbers.get(name).copied().unwrap_or(f64::NAN), units)
    }
    PathCut {
        cutter_diameter: needed::<Length>(numbers, "cutter_diameter", units),
        teeth,
        spindle_speed: needed(numbers, "spindle_speed", units),
        chip_thickness: needed(numbers, "chip_thickness", units),
        least_chip_thickness: limit(numbers, "least_chip_thickness", units),
        kc11: needed(numbers, "kc11", units),
        mc: numbers.get("mc").copied().unwrap_or(f64::NAN),
        entering_angle: needed(numbers, "entering_angle", units),
        greatest_force: limit(numbers, "greatest_force", units),
        stiffness: limit(numbers, "stiffness", units),
        greatest_deflection: limit(numbers, "greatest_deflection", units),
        greatest_power: limit(numbers, "greatest_power", units),
        least_feed_rate: None,
        greatest_feed_rate: limit(numbers, "greatest_feed_rate", units),
        acceleration: limit(numbers, "acceleration", units),
        start_feed_rate: needed(numbers, "start_feed_rate", units),
        end_feed_rate: needed(numbers, "end_feed_rate", units),
        units,
    }
}

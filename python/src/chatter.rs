//! Chatter: how deep a cut stays stable.
use crate::array::{numbers_of, to_array};
use crate::error::{raise, value_error};
use crate::number::{Wanted, helpers};
use crate::object::{PyObject, object_in, restored, rows_in};
use crate::size::units_of;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::cutting::chatter::{
    ChatterCut, Engagement, MillingDirection, ResponsePoint, SpeedRange, Stability, StabilityError,
    VibrationMode,
};
use tenths::quantity::{
    Angle, Compliance, Density, Frequency, Kind, Length, Modulus, Ratio, SpindleSpeed, Stiffness, Stress,
};
use tenths::{Quantity, Units};

/// What asks for numbers here, by what name, and of which quantity.
const ROLES: [(&str, &str, &Kind); 19] = [
    ("stability", "natural_frequency", Frequency::KIND),
    ("stability", "stiffness", Stiffness::KIND),
    ("stability", "damping_ratio", Ratio::KIND),
    ("stability", "direction", Angle::KIND),
    ("stability", "specific_cutting_force", Stress::KIND),
    ("stability", "force_angle", Angle::KIND),
    ("stability", "entry_angle", Angle::KIND),
    ("stability", "exit_angle", Angle::KIND),
    ("stability", "radial_force_ratio", Ratio::KIND),
    ("stability", "cutter_diameter", Length::KIND),
    ("stability", "radial_width", Length::KIND),
    ("stability_from_response", "frequency", Frequency::KIND),
    ("stability_from_response", "compliance", Compliance::KIND),
    ("tool_mode", "diameter", Length::KIND),
    ("tool_mode", "overhang", Length::KIND),
    ("tool_mode", "modulus", Modulus::KIND),
    ("tool_mode", "density", Density::KIND),
    ("tool_mode", "bore", Length::KIND),
    ("tool_mode", "tool_damping_ratio", Ratio::KIND),
];

/// What is asked of every number of this module, by name.
#[pyfunction]
pub fn _chatter_wanted<'py>(py: Python<'py>, units: &str) -> PyResult<Bound<'py, PyDict>> {
    let wanted = PyDict::new(py);
    for (asks, name, kind) in ROLES {
        let argument = name.strip_prefix("tool_").unwrap_or(name);
        wanted.set_item(name, Py::new(py, Wanted::new(asks, argument, kind, units_of(units)?))?)?;
    }
    Ok(wanted)
}

/// How deep a cut stays stable, by spindle speed: what `stability` gives.
#[pyclass(frozen, extends = PyObject, name = "Stability", module = "tenths")]
pub struct PyStability(pub Stability);

impl PyStability {
    fn units(&self) -> Units {
        self.0.units
    }

    fn speed(
        &self,
        asks: &'static str,
        name: &'static str,
        given: &Bound<'_, PyAny>,
    ) -> PyResult<SpindleSpeed> {
        let number = Wanted::new(asks, name, SpindleSpeed::KIND, self.units()).one(given)?;
        Ok(SpindleSpeed::new_in(number, self.units()))
    }

    /// The speeds of a range, of which an end that is not given is that of the first lobes.
    fn range(
        &self,
        asks: &'static str,
        least: Option<&Bound<'_, PyAny>>,
        greatest: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Option<SpeedRange>> {
        if least.is_none() && greatest.is_none() {
            return Ok(None);
        }
        let usual = self.0.usual_range();
        let end = |name, given: Option<&Bound<'_, PyAny>>, usual| {
            given.map_or(Ok(usual), |given| self.speed(asks, name, given))
        };
        Ok(Some(SpeedRange {
            least: end("least_speed", least, usual.least)?,
            greatest: end("greatest_speed", greatest, usual.greatest)?,
        }))
    }
}

#[pymethods]
impl PyStability {
    /// The deepest stable cut at a spindle speed, or at each of an array of them: infinite where no vibration is steady.
    fn depth<'py>(&self, py: Python<'py>, spindle_speed: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        let wanted = Wanted::new("depth", "spindle_speed", SpindleSpeed::KIND, self.units());
        let depth = |speed: f64| {
            let depth = self.0.depth(SpindleSpeed::new_in(speed, self.units())).map_err(value_error)?;
            Ok::<_, PyErr>(depth.in_units(self.units()))
        };
        if let Some(speed) = wanted.number(spindle_speed)? {
            return Ok(depth(speed)?.into_pyobject(py)?.into_any());
        }
        let column = helpers(py)?.call_method1("column", (Py::new(py, wanted)?, spindle_speed))?;
        let array = crate::array::as_array(&column)?;
        let numbers = numbers_of(&array)?;
        let depths = py.detach(|| {
            numbers
                .into_iter()
                .map(|n| if n.is_nan() { Ok(n) } else { depth(n) })
                .collect::<PyResult<Vec<f64>>>()
        })?;
        to_array(py, &depths)?.call_method1("reshape", (array.getattr("shape")?,))
    }

    /// The limit of stability at a spindle speed, with the frequency of the chatter and its lobe.
    fn cut_at<'py>(&self, py: Python<'py>, spindle_speed: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        let speed = self.speed("cut_at", "spindle_speed", spindle_speed)?;
        object_in(py, &self.0.cut_at(speed).map_err(value_error)?, self.units())
    }

    /// The lobes as rows of a table: for each, the depth at which a vibration is steady by spindle speed.
    #[pyo3(signature = (least_speed=None, greatest_speed=None))]
    fn lobes<'py>(
        &self,
        py: Python<'py>,
        least_speed: Option<&Bound<'py, PyAny>>,
        greatest_speed: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let range = self.range("lobes", least_speed, greatest_speed)?;
        rows_in(py, &self.0.lobes(range).map_err(value_error)?, self.units())
    }

    /// The spindle speed nearest to one at which a cut of this depth is stable; that one itself if it is.
    ///
    /// It lies on the edge of stability: go on past it by a few percent, or ask for a deeper cut than you take.
    #[pyo3(signature = (depth, spindle_speed, least_speed=None, greatest_speed=None))]
    fn nearest_stable_speed<'py>(
        &self,
        py: Python<'py>,
        depth: &Bound<'py, PyAny>,
        spindle_speed: &Bound<'py, PyAny>,
        least_speed: Option<&Bound<'py, PyAny>>,
        greatest_speed: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let asks = "nearest_stable_speed";
        let depth = Wanted::new(asks, "depth", Length::KIND, self.units()).one(depth)?;
        let speed = self.speed(asks, "spindle_speed", spindle_speed)?;
        let range = self.range(asks, least_speed, greatest_speed)?;
        let cut = self.0.nearest_stable_speed(Length::new_in(depth, self.units()), speed, range);
        object_in(py, &cut.map_err(value_error)?, self.units())
    }

    /// The deepest stable cut in a range of spindle speeds. It lies in a notch between lobes: take less.
    #[pyo3(signature = (least_speed=None, greatest_speed=None))]
    fn deepest<'py>(
        &self,
        py: Python<'py>,
        least_speed: Option<&Bound<'py, PyAny>>,
        greatest_speed: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let range = self.range("deepest", least_speed, greatest_speed)?;
        object_in(py, &self.0.deepest(range).map_err(value_error)?, self.units())
    }

    /// The limit of stability as a picture, SVG: what lies below the curve is stable.
    #[pyo3(signature = (least_speed=None, greatest_speed=None))]
    fn to_svg(
        &self,
        least_speed: Option<&Bound<'_, PyAny>>,
        greatest_speed: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<String> {
        self.0.to_svg(self.range("to_svg", least_speed, greatest_speed)?).map_err(value_error)
    }
}

/// The cut in numbers of a namespace: specific cutting force, teeth, then of milling entry angle, exit angle and radial force
/// ratio, or of turning the force angle.
type Cut = (f64, u32, Option<(f64, f64, f64)>, f64);

fn cut_of((force, teeth, milling, force_angle): Cut, units: Units) -> ChatterCut {
    let engagement = match milling {
        None => Engagement::Continuous { force_angle: Angle::degrees(force_angle) },
        Some((entry, exit, radial_force_ratio)) => Engagement::Milling {
            entry_angle: Angle::degrees(entry),
            exit_angle: Angle::degrees(exit),
            radial_force_ratio,
        },
    };
    ChatterCut { specific_cutting_force: Stress::new_in(force, units), teeth, engagement, units }
}

/// Entry and exit angle of a side cut.
#[pyfunction]
pub fn _side_cut_angles(units: &str, diameter: f64, width: f64, milling: &str) -> PyResult<(f64, f64)> {
    let units = units_of(units)?;
    let direction = MillingDirection::parse(milling).map_err(value_error)?;
    let [diameter, width] = [diameter, width].map(|length| Length::new_in(length, units));
    match Engagement::side_cut(diameter, width, direction, 0.0, units).map_err(value_error)? {
        Engagement::Milling { entry_angle, exit_angle, .. } => {
            Ok((entry_angle.metric(), exit_angle.metric()))
        }
        Engagement::Continuous { .. } => Ok((0.0, 0.0)),
    }
}

/// A mode of numbers in a namespace.
#[pyfunction]
#[pyo3(signature = (units, frequency, stiffness, damping_ratio, direction=None))]
pub fn _vibration_mode<'py>(
    py: Python<'py>,
    units: &str,
    frequency: f64,
    stiffness: f64,
    damping_ratio: f64,
    direction: Option<f64>,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units_of(units)?;
    let mode = VibrationMode {
        frequency: Frequency::new_in(frequency, units),
        stiffness: Stiffness::new_in(stiffness, units),
        damping_ratio,
        direction: direction.map(Angle::degrees),
        estimated: false,
    };
    object_in(py, &mode, units)
}

/// The estimated mode of a tool: diameter, overhang, modulus, density, bore, damping ratio, direction.
#[pyfunction]
pub fn _tool_mode<'py>(
    py: Python<'py>,
    units: &str,
    tool: (f64, f64, f64, f64, f64, f64),
    direction: Option<f64>,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units_of(units)?;
    let (diameter, overhang, modulus, density, bore, damping) = tool;
    let length = |number| Length::new_in(number, units);
    let (modulus, density) = (Modulus::new_in(modulus, units), Density::new_in(density, units));
    let mode =
        VibrationMode::of_tool(length(diameter), length(overhang), modulus, density, length(bore), damping);
    let mode = mode.map_err(|error| match error {
        StabilityError::Tool(error) => raise(py, &error),
        other => value_error(other),
    })?;
    object_in(py, &VibrationMode { direction: direction.map(Angle::degrees), ..mode }, units)
}

/// The stability of a cut with modes.
#[pyfunction]
pub fn _stability<'py>(
    py: Python<'py>,
    units: &str,
    modes: Vec<Bound<'py, PyObject>>,
    cut: Cut,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units_of(units)?;
    let modes: Vec<VibrationMode> = restored(&modes)?;
    object_in(py, &Stability::of_modes(&modes, &cut_of(cut, units)).map_err(value_error)?, units)
}

/// The stability of a cut with a measured response: columns of frequency, real and imaginary part, and of both across.
#[pyfunction]
pub fn _stability_from_response<'py>(
    py: Python<'py>,
    units: &str,
    frequency: Vec<f64>,
    columns: Vec<Vec<f64>>,
    cut: Cut,
) -> PyResult<Bound<'py, PyAny>> {
    let units = units_of(units)?;
    let names = ["real", "imaginary", "real_across", "imaginary_across"];
    for (column, name) in columns.iter().zip(names) {
        if column.len() != frequency.len() {
            let error = StabilityError::Lengths { column: name, got: column.len(), points: frequency.len() };
            return Err(value_error(error));
        }
    }
    let compliance =
        |column: usize, row: usize| columns.get(column).map(|column| Compliance::new_in(column[row], units));
    let point = |row: usize| ResponsePoint {
        frequency: Frequency::new_in(frequency[row], units),
        real: compliance(0, row).unwrap_or(Compliance::new_in(0.0, units)),
        imaginary: compliance(1, row).unwrap_or(Compliance::new_in(0.0, units)),
        real_across: compliance(2, row),
        imaginary_across: compliance(3, row),
    };
    let points: Vec<_> = (0..frequency.len()).map(point).collect();
    object_in(py, &Stability::of_response(&points, &cut_of(cut, units)).map_err(value_error)?, units)
}

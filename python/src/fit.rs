//! Limits and fits of ISO 286 and ASME B4.1.
use crate::error::value_error;
use crate::object::{PyObject, held, object, objects, rows};
use crate::size::{PyLimits, limits_of, size_of, units_of};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyDict, PyList, PyString};
use tenths::joint::press_joint::PressJoint;
use tenths::{Fit, FitBasis, Member, Quantity, Units};

/// A hole and a shaft with their limits: `Fit("25 H7/p6")` of ISO 286 in millimetres, `Fit("1.5 in FN2")` of ASME B4.1.
///
/// Clearance is positive and interference negative, on the diameter.
///
///     >>> fit = tenths.Fit("25 H7/p6")
///     >>> fit.kind, fit.max_clearance
///     ('interference', Size('-0.001 mm'))
#[pyclass(frozen, extends = PyObject, name = "Fit", module = "tenths")]
pub struct PyFit(pub Fit);

impl PyFit {
    pub const fn fit(&self) -> &Fit {
        &self.0
    }
}

#[pymethods]
impl PyFit {
    #[new]
    fn new(designation: &str) -> PyResult<PyClassInitializer<Self>> {
        Fit::parse(designation).map(held).map_err(value_error)
    }

    /// A fit of ASME B4.1 by its name, `Fit.inch("FN2", "1.5 in")`. The figures of LC are from memory: see `source`.
    #[staticmethod]
    fn inch<'py>(name: &str, nominal: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        object(nominal.py(), &Fit::inch(name, size_of(nominal)?).map_err(value_error)?)
    }

    /// A fit between given limits, without a standard.
    #[staticmethod]
    fn between<'py>(hole: &Bound<'py, PyAny>, shaft: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        object(hole.py(), &Fit::between(limits_of(hole)?, limits_of(shaft)?).map_err(value_error)?)
    }

    /// Mean and standard deviation of the clearance in 'in' or 'mm', and the probability of interference, where both
    /// parts are normal in process and centred, with these capabilities.
    #[pyo3(signature = (unit, *, hole_cp=1.0, shaft_cp=1.0))]
    fn statistics<'py>(
        &self,
        py: Python<'py>,
        unit: &str,
        hole_cp: f64,
        shaft_cp: f64,
    ) -> PyResult<Bound<'py, PyDict>> {
        let units = units_of(unit)?;
        let (mean, found) =
            self.0.statistics(hole_cp, shaft_cp).map_err(|error| crate::error::raise(py, &error))?;
        let dict = PyDict::new(py);
        dict.set_item("mean_clearance", mean.in_units(units))?;
        dict.set_item("clearance_deviation", found.clearance_deviation.in_units(units))?;
        dict.set_item("interference_probability", found.interference_probability.in_units(units))?;
        Ok(dict)
    }

    /// The tolerance zones of hole and shaft for plotting: label, and deviations from the nominal size in 'in' or 'mm'.
    fn zones<'py>(&self, py: Python<'py>, unit: &str) -> PyResult<Vec<Bound<'py, PyDict>>> {
        let units = units_of(unit)?;
        let zone = |zone: tenths::Zone| {
            let dict = PyDict::new(py);
            dict.set_item("member", zone.member.name())?;
            dict.set_item("label", zone.label)?;
            dict.set_item("lower", zone.lower.to_float(units))?;
            dict.set_item("upper", zone.upper.to_float(units))?;
            Ok(dict)
        };
        self.0.zones().into_iter().map(zone).collect()
    }

    /// The tolerance zones as a picture in SVG.
    fn to_svg(&self) -> String {
        self.0.to_svg()
    }

    fn _repr_svg_(&self) -> String {
        self.0.to_svg()
    }
}

fn limits(designation: &str, rounded_js: bool) -> Result<tenths::Limits, tenths::FitError> {
    if rounded_js { tenths::iso_limits_rounded_js(designation) } else { tenths::iso_limits(designation) }
}

/// Limits of a class of ISO 286 in millimetres, `iso_limits("25 H7")`. A column of them goes to `iso_limits` of
/// `tenths.inch` or `tenths.metric`.
///
/// The figures are those of ISO 286:2010, from reprints and in part from memory. js is unrounded, or with `rounded_js`
/// as older tables have it, where an odd tolerance of the grades 7 to 11 is first rounded down.
#[pyfunction]
#[pyo3(signature = (designation, *, rounded_js=false))]
pub fn iso_limits(designation: &Bound<'_, PyAny>, rounded_js: bool) -> PyResult<PyLimits> {
    let Ok(text) = designation.cast::<PyString>() else {
        return Err(PyTypeError::new_err(
            "iso_limits takes one designation such as '25 H7'; for a column of them use iso_limits of tenths.inch or \
             tenths.metric",
        ));
    };
    limits(text.to_str()?, rounded_js).map(PyLimits).map_err(value_error)
}

/// The classes of ISO 286 that every part within limits satisfies, the closest first; `member` is 'hole' or 'shaft'.
#[pyfunction]
pub fn iso_classes(limits: &Bound<'_, PyAny>, member: &str) -> PyResult<Vec<String>> {
    let member = Member::ALL.into_iter().find(|known| known.name() == member);
    let member = member.ok_or_else(|| value_error("member must be 'hole' or 'shaft'"))?;
    Ok(tenths::iso_classes(&limits_of(limits)?, member).iter().map(ToString::to_string).collect())
}

/// Fits of ISO 286 whose clearance stays between `least` and `greatest`, the best first; interference is negative.
///
/// Considered are basic holes (of hole basis) or shafts (of shaft basis) of the grades 4 to 13, with every deviation of the
/// other member whose grade makes the shaft as fine as the hole or up to two grades finer, and the preferred and
/// recommended fits. Preferred fits of ASME B4.2 come first, then those that ISO 286-1 recommends, then the others; within
/// each the widest tolerances together, as the cheapest to make, and of two as wide that whose middle is nearest to the
/// middle of the wish. They show as a table, and `.to_frame()` makes one of pandas'. `fit_selection` says all of this as data.
#[pyfunction]
#[pyo3(signature = (nominal, least, greatest, basis="hole"))]
pub fn select_fits<'py>(
    nominal: &Bound<'py, PyAny>,
    least: &Bound<'py, PyAny>,
    greatest: &Bound<'py, PyAny>,
    basis: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let basis = FitBasis::parse(basis).map_err(value_error)?;
    let choices = tenths::select_fits(size_of(nominal)?, size_of(least)?, size_of(greatest)?, basis);
    rows(nominal.py(), &choices.map_err(value_error)?)
}

/// Lower and upper limits as bytes of floats, how many rows have none, and the error of the first of them.
type Columns<'py> = (Bound<'py, PyBytes>, Bound<'py, PyBytes>, usize, Option<String>);

/// Lower and upper limits of a list of designations as the bytes of floats, NaN where there are none, and the rows that
/// are at fault with the reason of the first.
#[pyfunction]
pub fn _iso_limits<'py>(
    py: Python<'py>,
    designations: &Bound<'py, PyList>,
    units: &str,
    rounded_js: bool,
) -> PyResult<Columns<'py>> {
    let units: Units = units_of(units)?;
    let (mut lower, mut upper) = (Vec::new(), Vec::new());
    let (mut faults, mut first) = (0, None);
    for (row, item) in designations.iter().enumerate() {
        let read = match item.cast::<PyString>() {
            Ok(text) => limits(text.to_str()?, rounded_js).map_err(|error| error.to_string()),
            // A gap in a column; the caller makes None of every kind of them.
            Err(_) if item.is_none() => {
                lower.extend(f64::NAN.to_ne_bytes());
                upper.extend(f64::NAN.to_ne_bytes());
                continue;
            }
            Err(_) => Err(format!(
                "{:.60} is not a valid tolerance designation such as '25 H7'",
                item.repr()?.to_string()
            )),
        };
        let ends = read.map(|limits| (limits.lower().to_float(units), limits.upper().to_float(units)));
        let (low, high) = ends.unwrap_or_else(|why| {
            faults += 1;
            first.get_or_insert(format!("row {row}: {why}"));
            (f64::NAN, f64::NAN)
        });
        lower.extend(low.to_ne_bytes());
        upper.extend(high.to_ne_bytes());
    }
    Ok((PyBytes::new(py, &lower), PyBytes::new(py, &upper), faults, first))
}

/// What is wrong with the results of `press_joint`, which are in the units of a side.
#[pyfunction]
pub fn _joint_findings<'py>(
    py: Python<'py>,
    outputs: [f64; 12],
    units: &str,
) -> PyResult<Vec<Bound<'py, PyAny>>> {
    let units = units_of(units)?;
    objects(py, &PressJoint::from_outputs(units, &outputs).findings(units))
}

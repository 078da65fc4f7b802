//! Limits and fits of ISO 286 and ASME B4.1.
use crate::error::value_error;
use crate::plan::PyFinding;
use crate::size::{PyLimits, PySize, limits_of, side, size_of};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyDict, PyList, PyString};
use tenths::fit::joint::PressJoint;
use tenths::{Fit, FitBasis, FitChoice, Member, Quantity, Units};

/// A hole and a shaft with their limits: `Fit("25 H7/p6")` of ISO 286 in millimetres, `Fit("1.5 in FN2")` of ASME B4.1.
///
/// Clearance is positive and interference negative, on the diameter.
#[pyclass(frozen, eq, hash, name = "Fit", module = "tenths")]
#[derive(Clone, PartialEq, Hash)]
pub struct PyFit(Fit);

impl PyFit {
    pub const fn fit(&self) -> &Fit {
        &self.0
    }
}

#[pymethods]
impl PyFit {
    #[new]
    fn new(designation: &str) -> PyResult<Self> {
        Fit::parse(designation).map(Self).map_err(value_error)
    }

    /// A fit of ASME B4.1 by its name, `Fit.inch("FN2", "1.5 in")`. The figures of LC are from memory: see `source`.
    #[staticmethod]
    fn inch(name: &str, nominal: &Bound<'_, PyAny>) -> PyResult<Self> {
        Fit::inch(name, size_of(nominal)?).map(Self).map_err(value_error)
    }

    /// A fit of limits as they are, of no standard.
    #[staticmethod]
    fn between(hole: &Bound<'_, PyAny>, shaft: &Bound<'_, PyAny>) -> PyResult<Self> {
        Fit::between(limits_of(hole)?, limits_of(shaft)?).map(Self).map_err(value_error)
    }

    /// `clearance`, `transition` or `interference`.
    #[getter]
    fn kind(&self) -> &'static str {
        self.0.kind().name()
    }

    /// The nominal size.
    #[getter]
    fn nominal(&self) -> PySize {
        PySize(self.0.nominal())
    }

    /// Limits of the hole.
    #[getter]
    fn hole(&self) -> PyLimits {
        PyLimits(self.0.hole())
    }

    /// Limits of the shaft.
    #[getter]
    fn shaft(&self) -> PyLimits {
        PyLimits(self.0.shaft())
    }

    /// What the largest hole leaves about the smallest shaft; negative for an interference.
    #[getter]
    fn max_clearance(&self) -> PySize {
        PySize(self.0.max_clearance())
    }

    /// What the smallest hole leaves about the largest shaft; negative for an interference.
    #[getter]
    fn min_clearance(&self) -> PySize {
        PySize(self.0.min_clearance())
    }

    /// `H7/g6` or `FN2`; None for limits as given.
    #[getter]
    fn symbol(&self) -> Option<String> {
        self.0.symbol()
    }

    /// `hole` or `shaft`; None where neither starts at the nominal size.
    #[getter]
    fn basis(&self) -> Option<&'static str> {
        self.0.basis().map(FitBasis::name)
    }

    /// The standard with its edition; None for limits as given.
    #[getter]
    fn standard(&self) -> Option<&'static str> {
        self.0.standard()
    }

    /// Where the figures come from.
    #[getter]
    fn source(&self) -> &'static str {
        self.0.source()
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
        let units = side(unit)?;
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
        let units = side(unit)?;
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

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("symbol", self.symbol())?;
        dict.set_item("nominal", self.0.nominal().format(Units::Metric))?;
        dict.set_item("standard", self.standard())?;
        dict.set_item("source", self.source())?;
        dict.set_item("basis", self.basis())?;
        dict.set_item("kind", self.kind())?;
        dict.set_item("hole", self.hole().to_dict(py)?)?;
        dict.set_item("shaft", self.shaft().to_dict(py)?)?;
        dict.set_item("max_clearance", self.0.max_clearance().format(Units::Metric))?;
        dict.set_item("min_clearance", self.0.min_clearance().format(Units::Metric))?;
        Ok(dict)
    }

    fn __str__(&self) -> String {
        self.0.to_string()
    }

    fn __repr__(&self) -> String {
        match self.0.standard() {
            Some(_) => format!("Fit('{}')", self.0),
            None => format!("<fit of {}>", self.0),
        }
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyAny>)> {
        let class = py.get_type::<Self>();
        Ok(match self.0.standard() {
            Some(_) => (class.clone().into_any(), (self.0.to_string(),).into_pyobject(py)?.into_any()),
            None => (class.getattr("between")?, (self.hole(), self.shaft()).into_pyobject(py)?.into_any()),
        })
    }
}

/// A fit that holds a wish, and how much a standard recommends it.
#[pyclass(frozen, eq, hash, name = "FitChoice", module = "tenths")]
#[derive(PartialEq, Hash)]
pub struct PyFitChoice(FitChoice);

#[pymethods]
impl PyFitChoice {
    #[new]
    fn new(fit: &Bound<'_, PyFit>, preference: &str) -> PyResult<Self> {
        use tenths::Preference::{Other, Preferred, Recommended};
        let known = [Preferred, Recommended, Other].into_iter().find(|known| known.name() == preference);
        let preference = known.ok_or_else(|| value_error("preferred, recommended or other"))?;
        Ok(Self(FitChoice { fit: fit.get().0, preference }))
    }

    /// The fit.
    #[getter]
    fn fit(&self) -> PyFit {
        PyFit(self.0.fit)
    }

    /// `preferred` (ASME B4.2), `recommended` (ISO 286-1, from memory) or `other`.
    #[getter]
    fn preference(&self) -> &'static str {
        self.0.preference.name()
    }

    fn __repr__(&self) -> String {
        format!("<{}, {}>", self.0.fit, self.preference())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> (Bound<'py, PyAny>, (PyFit, &'static str)) {
        (py.get_type::<Self>().into_any(), (self.fit(), self.preference()))
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

/// The limits of a reamer for a hole by the rule of DIN 1420, `reamer_limits("10 D8")`.
///
/// Its upper limit lies below that of the hole by 15 percent of the tolerance of the hole, and its own tolerance is 35
/// percent of that, each rounded up to whole micrometres.
#[pyfunction]
pub fn reamer_limits(hole: &Bound<'_, PyAny>) -> PyResult<PyLimits> {
    tenths::cutting::reaming::reamer_limits(&limits_of(hole)?).map(PyLimits).map_err(value_error)
}

/// The classes of ISO 286 that every part within limits satisfies, the closest first; `member` is 'hole' or 'shaft'.
#[pyfunction]
pub fn iso_classes(limits: &Bound<'_, PyAny>, member: &str) -> PyResult<Vec<String>> {
    let member = Member::ALL.into_iter().find(|known| known.name() == member);
    let member = member.ok_or_else(|| value_error("member must be 'hole' or 'shaft'"))?;
    Ok(tenths::iso_classes(&limits_of(limits)?, member).iter().map(ToString::to_string).collect())
}

/// Fits of ISO 286 whose clearance stays between `least` and `greatest`, the best first; interference is negative.
#[pyfunction]
#[pyo3(signature = (nominal, least, greatest, basis="hole"))]
pub fn select_fits(
    nominal: &Bound<'_, PyAny>,
    least: &Bound<'_, PyAny>,
    greatest: &Bound<'_, PyAny>,
    basis: &str,
) -> PyResult<Vec<PyFitChoice>> {
    let basis = FitBasis::find(basis).ok_or_else(|| value_error("basis must be 'hole' or 'shaft'"))?;
    let choices = tenths::select_fits(size_of(nominal)?, size_of(least)?, size_of(greatest)?, basis);
    Ok(choices.map_err(value_error)?.into_iter().map(PyFitChoice).collect())
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
    let units: Units = crate::formula::units_of(units)?;
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
            Err(_) => Err(format!("{:.60} is no designation such as '25 H7'", item.repr()?.to_string())),
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
pub fn _joint_findings(outputs: [f64; 12], units: &str) -> PyResult<Vec<PyFinding>> {
    let units: Units = crate::formula::units_of(units)?;
    Ok(PressJoint::from_outputs(units, &outputs).findings(units).into_iter().map(PyFinding).collect())
}

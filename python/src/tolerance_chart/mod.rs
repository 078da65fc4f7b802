//! Tolerance charts.
mod result;

pub use result::PyChartResult;

use crate::error::value_error;
use crate::object::{PyObject, list_page, object, objects, plain_list, restored};
use crate::size::{limits_of, size_of, units_of};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};
use tenths::tolerance_chart::{Cut, DrawingDimension, Face, Facing, Stock, Working};
use tenths::{OperationChart, Size, Units};

/// A tolerance chart: the faces of a part, its stock, the cuts in their order and the drawing.
///
/// Faces are named from left to right, each with the way it looks, out of the material: `left` or `right`. A
/// dimension between two of them is the place of the right one less that of the left one, whichever is named first.
/// In a chart of diameters the axis of rotation is the first face and a datum, outside faces face right and bores
/// left, and dimensions and removals are on the diameter. Faces are taken as flat and square: what they lack of that,
/// and how a part seats, belongs in the working tolerances.
///
/// A builder: its methods add to it and return it. `unit`, 'mm' or 'in', is that of messages, tables and numbers that
/// come out::
///
///     chart = (
///         OperationChart("in")
///         .face("left end", "left")
///         .face("shoulder", "right")
///         .face("right end", "right")
///         .stock("right end", "left end", holds=".060 in")
///         .cut("10", "left end", "right end", holds=".010 in", least_removal=".020 in")
///         .cut("20", "right end", "left end", holds=".004 in", least_removal=".015 in")
///         .cut("20", "shoulder", "left end", holds=".004 in")
///         .cut("30", "shoulder", "right end", holds=".002 in", least_removal=".008 in")
///         .drawing("overall", "right end", "left end", "4.000 ±.005 in")
///         .drawing("step", "shoulder", "right end", "1.500 ±.004 in")
///     )
///     result = chart.derive(resolution=".001 in")
///
/// Common practice, in the worst case, with exact sizes. A chart takes 200 of each, of at most 9 km.
#[pyclass(eq, name = "OperationChart", module = "tenths")]
#[derive(Clone, PartialEq)]
pub struct PyOperationChart(pub OperationChart);

/// Limits, or a tolerance that a process holds: one of the two.
fn working_of(limits: Option<&Bound<'_, PyAny>>, holds: Option<&Bound<'_, PyAny>>) -> PyResult<Working> {
    match (limits, holds) {
        (Some(limits), None) => Ok(Working::Limits(limits_of(limits)?)),
        (None, Some(holds)) => Ok(Working::Holds(size_of(holds)?)),
        _ => Err(PyTypeError::new_err(
            "give either the limits or, as holds, the tolerance that the process holds",
        )),
    }
}

/// What a pickle keeps: names and facings of the faces, datums, working dimensions, drawing.
type State<'py> = (Vec<(String, String)>, Vec<String>, Vec<Bound<'py, PyObject>>, Vec<Bound<'py, PyObject>>);

#[pymethods]
impl PyOperationChart {
    #[new]
    #[pyo3(signature = (unit="mm"))]
    fn new(unit: &str) -> PyResult<Self> {
        Ok(Self(OperationChart::new().in_units(units_of(unit)?)))
    }

    /// The unit of messages, tables and numbers that come out: 'mm' or 'in'.
    #[getter]
    fn unit(&self) -> &'static str {
        label(self.0.units)
    }

    /// The names of the faces from left to right.
    #[getter]
    fn faces(&self) -> Vec<&str> {
        self.0.faces.iter().map(|face| face.name.as_str()).collect()
    }

    /// Adds a face to the right of those that are there; `facing`, 'left' or 'right', is the direction it faces, out
    /// of the material.
    fn face<'py>(mut slf: PyRefMut<'py, Self>, name: String, facing: &str) -> PyResult<PyRefMut<'py, Self>> {
        let facing = Facing::parse(facing).map_err(value_error)?;
        slf.0.faces.push(Face { name, facing });
        Ok(slf)
    }

    /// Makes a face a datum: it exists from the start and needs no dimension, such as an axis or a bar stop.
    fn datum(mut slf: PyRefMut<'_, Self>, face: String) -> PyRefMut<'_, Self> {
        slf.0.datums.push(face);
        slf
    }

    /// Adds a dimension between two faces of the stock: its limits or, as `holds`, the tolerance it is bought to.
    #[pyo3(signature = (face, from_face, limits=None, *, holds=None))]
    fn stock<'py>(
        mut slf: PyRefMut<'py, Self>,
        face: String,
        from_face: String,
        limits: Option<&Bound<'py, PyAny>>,
        holds: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<PyRefMut<'py, Self>> {
        let working = working_of(limits, holds)?;
        slf.0.stock.push(Stock { face, from: from_face, working });
        Ok(slf)
    }

    /// Adds a cut of `face` that is located from `from_face`, after those that are there.
    ///
    /// The dimension between them has limits or, as `holds`, the tolerance from limit to limit that the process holds.
    /// `least_removal` is the least stock that the cut must remove from a face that exists already.
    #[pyo3(signature = (operation, face, from_face, limits=None, *, holds=None, least_removal=None))]
    fn cut<'py>(
        mut slf: PyRefMut<'py, Self>,
        operation: String,
        face: String,
        from_face: String,
        limits: Option<&Bound<'py, PyAny>>,
        holds: Option<&Bound<'py, PyAny>>,
        least_removal: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<PyRefMut<'py, Self>> {
        let working = working_of(limits, holds)?;
        let least_removal = least_removal.map(size_of).transpose()?.unwrap_or(Size::ZERO);
        slf.0.cuts.push(Cut { operation, face, from: from_face, working, least_removal });
        Ok(slf)
    }

    /// Adds a dimension of the drawing, between two faces of the finished part.
    fn drawing<'py>(
        mut slf: PyRefMut<'py, Self>,
        name: String,
        face: String,
        from_face: String,
        limits: &Bound<'py, PyAny>,
    ) -> PyResult<PyRefMut<'py, Self>> {
        let limits = limits_of(limits)?;
        slf.0.drawing.push(DrawingDimension { name, face, from: from_face, limits });
        Ok(slf)
    }

    /// The chains, dimensions and removals of the chart, in which every working dimension has limits.
    ///
    /// Raises DomainError for a face that does not exist, a chain that breaks off, or dimensions that form a loop.
    fn evaluate<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        object(py, &self.0.evaluate().map_err(value_error)?)
    }

    /// Derives the working dimensions that have no limits, and evaluates the chart with them; this one stays as it is.
    ///
    /// The tolerance of each drawing dimension is shared out among its chain in proportion to what the processes hold,
    /// the scarcest first; a share never falls below that, and a drawing dimension that allows less does not close.
    /// Drawing dimensions are made at the middle of their limits, and each cut removes its least stock and half the
    /// tolerance of its chain. `resolution`, a Size or text, is the step of means and tolerances.
    #[pyo3(signature = (resolution=None))]
    fn derive<'py>(
        &self,
        py: Python<'py>,
        resolution: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let resolution = resolution.map(size_of).transpose()?;
        object(py, &self.0.derive(resolution).map_err(value_error)?)
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        dict.set_item("unit", self.unit())?;
        let facing = self.0.faces.iter().map(|face| (&face.name, face.facing.name()));
        dict.set_item("faces", facing.collect::<Vec<_>>())?;
        dict.set_item("datums", &self.0.datums)?;
        dict.set_item("working", plain_list(py, &self.0.working_rows())?)?;
        dict.set_item("drawing", plain_list(py, &self.0.drawing_rows())?)?;
        Ok(dict)
    }

    fn __repr__(&self) -> String {
        let OperationChart { faces, cuts, drawing, .. } = &self.0;
        let (faces, cuts, drawing) = (faces.len(), cuts.len(), drawing.len());
        format!("<tolerance chart: {faces} faces, {cuts} cuts, {drawing} drawing dimensions>")
    }

    fn _repr_html_(&self) -> String {
        let (working, drawing) = (self.0.working_rows(), self.0.drawing_rows());
        list_page("working", &working, self.0.units) + &list_page("drawing", &drawing, self.0.units)
    }

    fn __reduce__<'py>(
        slf: &Bound<'py, Self>,
    ) -> PyResult<(Bound<'py, PyAny>, (&'static str,), Bound<'py, PyTuple>)> {
        let (py, chart) = (slf.py(), &slf.borrow().0);
        let faces = chart.faces.iter().map(|face| (&face.name, face.facing.name())).collect::<Vec<_>>();
        let [working, drawing] = [chart.working_rows(), chart.drawing_rows()];
        let state = (faces, &chart.datums, objects(py, &working)?, objects(py, &drawing)?);
        Ok((slf.get_type().into_any(), (label(chart.units),), state.into_pyobject(py)?))
    }

    fn __setstate__(&mut self, state: State<'_>) -> PyResult<()> {
        let (faces, datums, working, drawing) = state;
        let face = |(name, facing): (String, String)| {
            Ok(Face { name, facing: Facing::parse(&facing).map_err(value_error)? })
        };
        let faces = faces.into_iter().map(face).collect::<PyResult<_>>()?;
        let (working, drawing) = (restored(&working)?, restored(&drawing)?);
        self.0 = OperationChart::of_rows(self.0.units, faces, datums, &working, &drawing);
        Ok(())
    }
}

const fn label(units: Units) -> &'static str {
    match units {
        Units::Inch => "in",
        Units::Metric => "mm",
    }
}

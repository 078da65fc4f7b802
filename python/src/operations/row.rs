//! The lines of a tolerance chart.
use super::label;
use crate::error::value_error;
use crate::size::{PyLimits, PySize, limits_of, size_of};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::stack::operations::{Cut, DrawingDimension, Working};
use tenths::{Limits, OperationChart, Size, Units};

/// A line of a tolerance chart: a working dimension, a dimension of the drawing, or the stock that a cut removes.
#[pyclass(frozen, eq, name = "ChartRow", module = "tenths")]
#[derive(Clone, PartialEq)]
pub struct PyChartRow {
    pub(super) kind: &'static str,
    pub(super) name: String,
    pub(super) face: String,
    pub(super) from: String,
    pub(super) limits: Option<Limits>,
    pub(super) holds: Option<Size>,
    pub(super) least_removal: Option<Size>,
    pub(super) made: Option<Limits>,
    pub(super) margins: [Option<Size>; 2],
    pub(super) good: Option<bool>,
    /// Numbers of working dimensions, 1 where they add and -1 where they take away.
    pub(super) chain: Vec<(usize, i8)>,
    /// The chain in words.
    pub(super) told: String,
}

#[pymethods]
impl PyChartRow {
    /// `stock`, `cut`, `drawing` or `removal`.
    #[getter]
    fn kind(&self) -> &'static str {
        self.kind
    }

    /// The operation of a cut or a removal, the name of a drawing dimension; empty for the stock.
    #[getter]
    fn name(&self) -> &str {
        &self.name
    }

    /// One face; of a cut and its removal the one that is machined.
    #[getter]
    fn face(&self) -> &str {
        &self.face
    }

    /// The other face; of a cut the one that locates.
    #[getter(from_face)]
    fn locating_face(&self) -> &str {
        &self.from
    }

    /// The limits of the working dimension or of the drawing; None for a removal and where they are not derived yet.
    #[getter]
    fn limits(&self) -> Option<PyLimits> {
        self.limits.map(PyLimits)
    }

    /// The tolerance that the process holds, where limits are not derived yet.
    #[getter]
    fn holds(&self) -> Option<PySize> {
        self.holds.map(PySize)
    }

    /// The least stock wanted of a cut and its removal.
    #[getter]
    fn least_removal(&self) -> Option<PySize> {
        self.least_removal.map(PySize)
    }

    /// What a drawing dimension or a removal comes to in the worst case.
    #[getter]
    fn made(&self) -> Option<PyLimits> {
        self.made.map(PyLimits)
    }

    /// By how much the least that is made is above the lower limit, or above the least removal; negative where below.
    #[getter]
    fn lower_margin(&self) -> Option<PySize> {
        self.margins[0].map(PySize)
    }

    /// By how much the greatest that is made is below the upper limit; negative where above.
    #[getter]
    fn upper_margin(&self) -> Option<PySize> {
        self.margins[1].map(PySize)
    }

    /// Whether a drawing dimension closes, or a removal suffices.
    #[getter]
    fn good(&self) -> Option<bool> {
        self.good
    }

    /// The links: the place of a working dimension in `working`, and 1 where it adds or -1 where it takes away.
    #[getter]
    fn chain(&self) -> Vec<(usize, i8)> {
        self.chain.clone()
    }

    /// Everything as plain data, sizes as text in millimetres.
    pub(super) fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        let limits = |limits: Option<PyLimits>| limits.map(|limits| limits.to_dict(py)).transpose();
        let size = |size: Option<Size>| size.map(|size| size.format(Units::Metric));
        dict.set_item("kind", self.kind)?;
        dict.set_item("name", &self.name)?;
        dict.set_item("face", &self.face)?;
        dict.set_item("from_face", &self.from)?;
        dict.set_item("limits", limits(self.limits())?)?;
        dict.set_item("holds", size(self.holds))?;
        dict.set_item("least_removal", size(self.least_removal))?;
        dict.set_item("made", limits(self.made())?)?;
        dict.set_item("lower_margin", size(self.margins[0]))?;
        dict.set_item("upper_margin", size(self.margins[1]))?;
        dict.set_item("good", self.good)?;
        dict.set_item("chain", self.chain())?;
        Ok(dict)
    }

    fn __repr__(&self) -> String {
        let told = match (self.made, self.limits, self.holds) {
            (Some(made), ..) => format!("made {made}"),
            (_, Some(limits), _) => limits.to_string(),
            (_, _, Some(holds)) => format!("holds {holds}"),
            _ => String::new(),
        };
        format!(
            "<{}: {told}>",
            [self.kind, &self.name, &self.between()].map(str::trim).join(" ").replace("  ", " ")
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, Pickled)> {
        let names = [self.kind.into(), self.name.clone(), self.face.clone(), self.from.clone()];
        let limits = [self.limits, self.made].map(|limits| limits.map(PyLimits));
        let [lower, upper] = self.margins;
        let sizes = [self.holds, self.least_removal, lower, upper].map(|size| size.map(PySize));
        let maker = PyModule::import(py, "tenths._tenths")?.getattr("_chart_row")?;
        Ok((maker, (names, limits, sizes, self.good, self.chain.clone(), self.told.clone())))
    }
}

impl PyChartRow {
    pub(super) fn between(&self) -> String {
        format!("{} – {}", self.from, self.face)
    }

    pub(super) fn limits_text(&self, units: Units) -> String {
        match (self.limits, self.holds) {
            (Some(limits), _) => limits.format_deviations(units),
            (_, Some(holds)) => format!("to derive, holds {}", holds.format(units)),
            _ => String::new(),
        }
    }

    /// A flat dict, sizes as numbers of a unit.
    pub(super) fn flat<'py>(&self, py: Python<'py>, units: Units) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        let size = |size: Option<Size>| size.map(|size| size.to_float(units));
        let range = self.made.or(self.limits);
        dict.set_item("kind", self.kind)?;
        dict.set_item("name", &self.name)?;
        dict.set_item("face", &self.face)?;
        dict.set_item("from_face", &self.from)?;
        dict.set_item("lower", size(range.map(|range| range.lower())))?;
        dict.set_item("upper", size(range.map(|range| range.upper())))?;
        dict.set_item("tolerance", size(range.map(|range| range.tolerance())))?;
        dict.set_item("least_removal", size(self.least_removal))?;
        dict.set_item("lower_margin", size(self.margins[0]))?;
        dict.set_item("upper_margin", size(self.margins[1]))?;
        dict.set_item("good", self.good)?;
        dict.set_item("chain", &self.told)?;
        dict.set_item("unit", label(units))?;
        Ok(dict)
    }
}

type Pickled =
    ([String; 4], [Option<PyLimits>; 2], [Option<PySize>; 4], Option<bool>, Vec<(usize, i8)>, String);

/// A row as it was pickled.
#[pyfunction]
pub fn _chart_row(
    names: [String; 4],
    limits: [Option<Bound<'_, PyAny>>; 2],
    sizes: [Option<Bound<'_, PyAny>>; 4],
    good: Option<bool>,
    chain: Vec<(usize, i8)>,
    told: String,
) -> PyResult<PyChartRow> {
    let [kind, name, face, from] = names;
    let kinds = ["stock", "cut", "drawing", "removal"];
    let kind = kinds.into_iter().find(|one| *one == kind).ok_or_else(|| value_error("no kind of row"))?;
    let [limits, made] = limits.map(|limits| limits.map(|limits| limits_of(&limits)).transpose());
    let [holds, least, lower, upper] = sizes.map(|size| size.map(|size| size_of(&size)).transpose());
    let (limits, made, holds, least_removal, margins) = (limits?, made?, holds?, least?, [lower?, upper?]);
    Ok(PyChartRow { kind, name, face, from, limits, holds, least_removal, made, margins, good, chain, told })
}

/// A row between two faces, of which nothing else is known.
pub(super) fn bare(kind: &'static str, name: &str, face: &str, from: &str) -> PyChartRow {
    let [name, face, from] = [name, face, from].map(String::from);
    PyChartRow {
        kind,
        name,
        face,
        from,
        limits: None,
        holds: None,
        least_removal: None,
        made: None,
        margins: [None; 2],
        good: None,
        chain: vec![],
        told: String::new(),
    }
}

pub(super) fn with_working(row: PyChartRow, working: Working) -> PyChartRow {
    match working {
        Working::Limits(limits) => PyChartRow { limits: Some(limits), ..row },
        Working::Holds(holds) => PyChartRow { holds: Some(holds), ..row },
    }
}

pub(super) fn cut_row(cut: &Cut) -> PyChartRow {
    let row = with_working(bare("cut", &cut.operation, &cut.face, &cut.from), cut.working);
    PyChartRow { least_removal: Some(cut.least_removal), ..row }
}

pub(super) fn working(chart: &OperationChart) -> Vec<PyChartRow> {
    let stock =
        chart.stock.iter().map(|one| with_working(bare("stock", "", &one.face, &one.from), one.working));
    stock.chain(chart.cuts.iter().map(cut_row)).collect()
}

pub(super) fn drawn(one: &DrawingDimension) -> PyChartRow {
    PyChartRow { limits: Some(one.limits), ..bare("drawing", &one.name, &one.face, &one.from) }
}

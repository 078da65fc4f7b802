//! What a tolerance chart comes to.
use super::PyOperationChart;
use super::row::{PyChartRow, cut_row, drawn, working};
use super::table::{escaped, table, working_table};
use crate::object::objects;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::stack::operations::{Link, Step};
use tenths::{ChartResult, OperationChart, Size};

/// What a tolerance chart comes to, in the worst case.
#[pyclass(frozen, eq, name = "ChartResult", module = "tenths")]
#[derive(PartialEq)]
pub struct PyChartResult {
    chart: OperationChart,
    result: ChartResult,
}

#[pymethods]
impl PyChartResult {
    /// A copy of the chart, in which every working dimension has limits.
    #[getter]
    fn chart(&self) -> PyOperationChart {
        PyOperationChart(self.chart.clone())
    }

    /// Whether every dimension closes and every cut finds its stock.
    #[getter]
    fn good(&self) -> bool {
        self.result.is_good()
    }

    /// The working dimensions: those of the stock, then those of the cuts.
    #[getter]
    fn working(&self) -> Vec<PyChartRow> {
        working(&self.chart)
    }

    /// The dimensions of the drawing.
    #[getter]
    fn dimensions(&self) -> Vec<PyChartRow> {
        let pairs = self.result.dimensions.iter().zip(&self.chart.drawing);
        pairs
            .map(|(told, dimension)| PyChartRow {
                made: Some(told.made),
                margins: [Some(told.lower_margin), Some(told.upper_margin)],
                good: Some(told.closes()),
                chain: self.numbers(&told.chain),
                told: self.words(&told.chain),
                ..drawn(dimension)
            })
            .collect()
    }

    /// The stock that each cut removes from a face that was there before.
    #[getter]
    fn removals(&self) -> Vec<PyChartRow> {
        let rows = self.result.removals.iter().map(|told| PyChartRow {
            kind: "removal",
            limits: None,
            made: Some(told.removal),
            margins: [Some(told.margin), None],
            good: Some(told.suffices()),
            chain: self.numbers(&told.chain),
            told: self.words(&told.chain),
            ..cut_row(&self.chart.cuts[told.cut])
        });
        rows.collect()
    }

    /// The dimensions that do not close, and the cuts that may find too little stock.
    #[getter]
    fn findings<'py>(&self, py: Python<'py>) -> PyResult<Vec<Bound<'py, PyAny>>> {
        objects(py, &self.result.findings)
    }

    /// Everything as plain data, sizes as text in millimetres.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        let rows =
            |rows: Vec<PyChartRow>| rows.iter().map(|row| row.to_dict(py)).collect::<PyResult<Vec<_>>>();
        dict.set_item("good", self.good())?;
        dict.set_item("working", rows(self.working())?)?;
        dict.set_item("dimensions", rows(self.dimensions())?)?;
        dict.set_item("removals", rows(self.removals())?)?;
        let findings = self.findings(py)?;
        let findings = findings.iter().map(|finding| finding.call_method0("to_dict"));
        dict.set_item("findings", findings.collect::<PyResult<Vec<_>>>()?)?;
        Ok(dict)
    }

    /// A flat dict for each line, as `pandas.DataFrame` takes them, with numbers in the unit of the chart.
    fn to_dicts<'py>(&self, py: Python<'py>) -> PyResult<Vec<Bound<'py, PyDict>>> {
        let rows = [self.working(), self.dimensions(), self.removals()];
        rows.iter().flatten().map(|row| row.flat(py, self.chart.units)).collect()
    }

    fn __repr__(&self) -> String {
        let count = |good: usize, all: usize| format!("{good} of {all}");
        let closed = self.result.dimensions.iter().filter(|told| told.closes()).count();
        let enough = self.result.removals.iter().filter(|told| told.suffices()).count();
        format!(
            "<tolerance chart: {} dimensions close, {} removals suffice>",
            count(closed, self.result.dimensions.len()),
            count(enough, self.result.removals.len()),
        )
    }

    fn _repr_html_(&self) -> String {
        let units = self.chart.units;
        let size = |size: Option<Size>| size.map_or(String::new(), |size| size.format(units));
        let made = |row: &PyChartRow| row.made.map_or(String::new(), |made| made.format(units));
        let verdict =
            |row: &PyChartRow, yes: &str, no: &str| if row.good == Some(true) { yes } else { no }.into();
        let dimensions = table(
            &["drawing", "between", "limits", "made", "left below", "left above", "", "chain"],
            &self.dimensions(),
            |row| {
                let [lower, upper] = row.margins.map(size);
                let verdict = verdict(row, "closes", "does not close");
                let (limits, told) = (row.limits_text(units), row.told.clone());
                vec![row.name.clone(), row.between(), limits, made(row), lower, upper, verdict, told]
            },
        );
        let removals =
            table(&["stock removal", "face", "wanted", "removed", "", "chain"], &self.removals(), |row| {
                let verdict = verdict(row, "suffices", "too little");
                let (face, told) = (row.face.clone(), row.told.clone());
                vec![row.name.clone(), face, size(row.least_removal), made(row), verdict, told]
            });
        let findings = self.result.findings.iter().map(|found| format!("<p>{}</p>", escaped(&found.message)));
        working_table(&self.chart) + &dimensions + &removals + &findings.collect::<String>()
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (PyOperationChart,))> {
        Ok((py.get_type::<PyOperationChart>().getattr("evaluate")?, (self.chart(),)))
    }
}

impl PyChartResult {
    pub(super) fn new(chart: OperationChart, result: ChartResult) -> Self {
        Self { chart, result }
    }

    fn number(&self, step: Step) -> usize {
        match step {
            Step::Stock(k) => k,
            Step::Cut(k) => self.chart.stock.len() + k,
        }
    }

    fn numbers(&self, chain: &[Link]) -> Vec<(usize, i8)> {
        chain.iter().map(|link| (self.number(link.step), if link.adds { 1 } else { -1 })).collect()
    }

    /// A chain such as `+ 10 left end - 20 shoulder`.
    fn words(&self, chain: &[Link]) -> String {
        let link = |link: &Link| {
            let sign = if link.adds { "+" } else { "-" };
            match link.step {
                Step::Stock(k) => format!("{sign} stock {}", self.chart.stock[k].face),
                Step::Cut(k) => {
                    format!("{sign} {} {}", self.chart.cuts[k].operation, self.chart.cuts[k].face)
                }
            }
        };
        chain.iter().map(link).collect::<Vec<_>>().join(" ")
    }
}

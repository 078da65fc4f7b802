//! First-article inspection.
use crate::error::{DomainError, named, value_error};
use crate::given::small;
use crate::number::{Wanted, is_flag};
use crate::object::{PyObject, object};
use crate::plan::PyPlan;
use crate::size::{PySize, size_of, units_of};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use tenths::first_article::{CsvError, PieceReading};
use tenths::{CsvForm, DecisionRule, FirstArticle, FirstArticleOptions, MeasuredValue, ReadingTable, Size};

/// A first-article inspection: the characteristics of a plan with what was measured, and a verdict on each reading.
#[pyclass(frozen, extends = PyObject, name = "FirstArticle", module = "tenths")]
pub struct PyFirstArticle(pub FirstArticle);

#[pymethods]
impl PyFirstArticle {
    /// As Markdown: the form to fill in, or what was filled in. Text shows as it was written.
    fn to_markdown(&self) -> String {
        self.0.to_markdown()
    }

    /// As one HTML file that needs nothing else, and prints on A4 and Letter: the form to fill in, or what was filled in.
    fn to_html(&self) -> String {
        self.0.to_html()
    }

    /// As CSV with headings, which `readings_from_csv` reads back; with a decimal comma its cells are apart by semicolons.
    #[pyo3(signature = (*, decimal_comma = false))]
    fn to_csv(&self, decimal_comma: bool) -> String {
        self.0.to_csv(decimal_comma)
    }

    /// As JSON: sizes are exact decimals as text, in the units of the plan.
    fn to_json(&self) -> String {
        self.0.to_json()
    }
}

/// Readings by the numbers of characteristics, as `readings_from_csv` gives them.
#[pyclass(frozen, eq, name = "ReadingTable", module = "tenths")]
#[derive(PartialEq)]
pub struct PyReadingTable(ReadingTable);

#[pymethods]
impl PyReadingTable {
    /// The numbers that have readings, in order.
    #[getter]
    fn numbers(&self) -> Vec<u32> {
        self.0.numbers().collect()
    }

    /// The readings of a characteristic in the order of their rows: a Size, or text of what gauges did.
    fn readings<'py>(&self, py: Python<'py>, number: &Bound<'py, PyAny>) -> PyResult<Vec<Bound<'py, PyAny>>> {
        self.0.of(small("number", number)?).iter().map(|reading| value(py, reading.value)).collect()
    }

    fn __len__(&self) -> usize {
        self.0.len()
    }

    fn __repr__(&self) -> String {
        format!("<{} readings of {} characteristics>", self.0.len(), self.0.numbers().count())
    }
}

fn value(py: Python<'_>, value: MeasuredValue) -> PyResult<Bound<'_, PyAny>> {
    match value {
        MeasuredValue::Size(size) => Ok(Bound::new(py, PySize(size))?.into_any()),
        MeasuredValue::Gauge(result) => Ok(PyString::new(py, &result.to_string()).into_any()),
    }
}

/// A reading of a piece: its number, the piece, and the reading.
type Given<'py> = (Bound<'py, PyAny>, Bound<'py, PyAny>, Bound<'py, PyAny>);

/// What `_first_article.py` calls, with a table or a list of readings.
#[pyfunction]
#[allow(clippy::too_many_arguments)]
pub fn _first_article<'py>(
    plan: &Bound<'py, PyPlan>,
    readings: &Bound<'py, PyAny>,
    rule: &str,
    uncertainty: Option<&Bound<'py, PyAny>>,
    uncertainties: &Bound<'py, PyDict>,
    pieces: Option<&Bound<'py, PyAny>>,
    measured_with: &Bound<'py, PyDict>,
    by: Option<String>,
    date: Option<String>,
) -> PyResult<Bound<'py, PyAny>> {
    let py = plan.py();
    let plan = plan.get().plan();
    let mut of_each = BTreeMap::new();
    for (number, size) in uncertainties {
        of_each.insert(small("the number of a characteristic", &number)?, size_of(&size)?);
    }
    let known: BTreeSet<u32> = plan.document().characteristics.iter().map(|c| c.number).collect();
    for number in measured_with.keys() {
        let number = small("the number of a characteristic", &number)?;
        if !known.contains(&number) {
            return Err(value_error(format!(
                "an instrument is given for characteristic {number}, which is not in the plan"
            )));
        }
    }
    let options = FirstArticleOptions {
        rule: DecisionRule::parse(rule).map_err(value_error)?,
        uncertainty: uncertainty.map_or(Ok(Size::ZERO), size_of)?,
        uncertainties: of_each,
        pieces: pieces.map(|pieces| small("pieces", pieces)).transpose()?,
    };
    let made = match readings.cast::<PyReadingTable>() {
        Ok(table) => FirstArticle::new(plan, &table.get().0, &options),
        Err(_) => {
            let [by, date] = [by, date].map(|text| text.map(Arc::<str>::from));
            let wanted = Wanted::length("first_article", "readings", plan.document().units);
            let mut table = ReadingTable::new();
            for (number, piece, reading) in readings.extract::<Vec<Given<'_>>>()? {
                let number = small("the number of a characteristic", &number)?;
                let piece = small("the number of a piece", &piece)?;
                let value = measured(&reading, &wanted)
                    .map_err(|error| named(py, format_args!("characteristic {number}"), error))?;
                let instrument: Option<String> =
                    measured_with.get_item(number)?.map(|text| text.extract()).transpose()?;
                let (by, date) = (by.clone(), date.clone());
                table.push(
                    number,
                    PieceReading { piece, value, measured_with: instrument.map(Arc::from), by, date },
                );
            }
            FirstArticle::new(plan, &table, &options)
        }
    };
    object(py, &made.map_err(value_error)?)
}

/// A number in the units of the plan, a Size, text with its unit, or what gauges did.
fn measured(reading: &Bound<'_, PyAny>, wanted: &Wanted) -> PyResult<MeasuredValue> {
    if let Ok(size) = reading.cast::<PySize>() {
        return Ok(MeasuredValue::Size(size.get().0));
    }
    if let Ok(text) = reading.cast::<PyString>() {
        return MeasuredValue::parse(text.to_str()?).map_err(value_error);
    }
    if is_flag(reading) {
        return Err(PyTypeError::new_err(
            "a reading is a number or text such as 'go entered, no-go refused', not a bool",
        ));
    }
    let number = wanted.one(reading)?;
    Size::from_float(number, wanted.units()).map(MeasuredValue::Size).map_err(value_error)
}

/// What `readings_from_csv` of `_first_article.py` calls.
#[pyfunction]
pub fn _readings_from_csv(
    py: Python<'_>,
    bytes: &[u8],
    units: Option<&str>,
    columns: &Bound<'_, PyDict>,
    decimal_comma: bool,
    delimiter: Option<char>,
) -> PyResult<PyReadingTable> {
    let units = units.map(units_of).transpose()?;
    let mut form = CsvForm { units, decimal_comma, delimiter, ..CsvForm::default() };
    for (column, heading) in columns {
        let (column, heading): (String, String) = (column.extract()?, heading.extract()?);
        form.headings.set(&column, &heading).map_err(value_error)?;
    }
    let read = py.detach(|| ReadingTable::from_csv(bytes, &form));
    read.map(PyReadingTable).map_err(|error| faulty(py, &error))
}

/// The faults of a CSV as an exception; `faults` lists their rows, columns and messages.
fn faulty(py: Python<'_>, error: &CsvError) -> PyErr {
    let raised = DomainError::new_err(error.to_string());
    let faults = error.faults().iter().map(|fault| (fault.row, fault.column.clone(), fault.message.clone()));
    raised.value(py).setattr("faults", faults.collect::<Vec<_>>()).err().unwrap_or(raised)
}

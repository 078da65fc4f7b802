//! Gauge studies.
use crate::array::{floats, floats_of, to_array};
use crate::error::value_error;
use crate::object::object;
use crate::options::options;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use tenths::inspect::control_chart::ChartOptions;
use tenths::inspect::gauge_study::{
    GaugeFigures, StudyData, attribute_agreement, gauge_linearity, gauge_stability, gauge_studies,
    gauge_study,
};

/// What `gauge_study` of `_gauge_study.py` calls.
#[pyfunction]
pub fn _gauge_study<'py>(
    py: Python<'py>,
    data: &[u8],
    layout: [usize; 3],
    given: &Bound<'py, PyDict>,
) -> PyResult<Bound<'py, PyAny>> {
    let options = options("gauge_study", given, None)?;
    let (readings, [parts, appraisers, trials]) = (floats(data), layout);
    let data = StudyData { readings: &readings, parts, appraisers, trials };
    object(py, &gauge_study(&data, &options).map_err(value_error)?)
}

/// The figures of many studies in an array, all studies for the first figure, then for the next.
#[pyfunction]
pub fn _gauge_studies<'py>(
    py: Python<'py>,
    data: &Bound<'py, PyAny>,
    layout: [usize; 3],
    given: &Bound<'py, PyDict>,
) -> PyResult<Bound<'py, PyAny>> {
    let options = options("gauge_studies", given, None)?;
    let [parts, appraisers, trials] = layout;
    // The interpreter is held, since the readings are the caller's own.
    let data = StudyData { readings: floats_of(data)?, parts, appraisers, trials };
    let made = gauge_studies(&data, &options).map_err(value_error)?;
    let mut figures = vec![0.0; made.len() * GaugeFigures::COUNT];
    for (place, study) in made.iter().enumerate() {
        for (of_all, figure) in figures.chunks_exact_mut(made.len().max(1)).zip(study.to_array()) {
            of_all[place] = figure;
        }
    }
    to_array(py, &figures)
}

/// What `gauge_linearity` of `_gauge_study.py` calls.
#[pyfunction]
pub fn _gauge_linearity<'py>(
    py: Python<'py>,
    references: &[u8],
    readings: &[u8],
    confidence: f64,
) -> PyResult<Bound<'py, PyAny>> {
    let (references, readings) = (floats(references), floats(readings));
    object(py, &gauge_linearity(&references, &readings, confidence).map_err(value_error)?)
}

/// What `gauge_stability` of `_gauge_study.py` calls.
#[pyfunction]
pub fn _gauge_stability<'py>(
    py: Python<'py>,
    readings: &[u8],
    sizes: &[u8],
    confidence: f64,
) -> PyResult<Bound<'py, PyAny>> {
    let (readings, sizes) = (floats(readings), floats(sizes));
    let made = gauge_stability(&readings, &sizes, &ChartOptions::default(), confidence);
    object(py, &made.map_err(value_error)?)
}

/// What `attribute_agreement` of `_gauge_study.py` calls.
#[pyfunction]
pub fn _attribute_agreement<'py>(
    py: Python<'py>,
    ratings: Vec<usize>,
    layout: [usize; 3],
    reference: Vec<usize>,
    confidence: f64,
) -> PyResult<Bound<'py, PyAny>> {
    object(py, &attribute_agreement(&ratings, layout, &reference, confidence).map_err(value_error)?)
}

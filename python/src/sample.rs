//! Samples, and the blocks that they are made of.
use crate::array::{as_array, numbers_of, to_array};
use crate::error::{raise, value_error};
use crate::given::{Threads, whole};
use crate::number::Wanted;
use crate::object::object;
use crate::size::{PyLimits, limits_of};
use crate::watch::watched;
use pyo3::exceptions::{PyAttributeError, PyTypeError};
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyDict, PyString};
use tenths::Units;
use tenths::stack::{Blocks, Fraction, Sample, Sampling, StackError};

/// An error of a stack as an exception.
#[cold]
pub fn stack_error(py: Python<'_>, error: &StackError) -> PyErr {
    match error {
        StackError::Formula(error) => raise(py, error),
        other => {
            let raised = value_error(other);
            let set = other.argument().map(|name| raised.value(py).setattr("argument", name));
            set.and_then(Result::err).unwrap_or(raised)
        }
    }
}

/// The Python module that holds results and tables.
pub fn helpers(py: Python<'_>) -> PyResult<Bound<'_, PyModule>> {
    PyModule::import(py, "tenths._stack")
}

/// What a call asks to be sampled, with limits for a result whose quantity `wanted` has.
pub struct Asked<'a, 'py> {
    pub n: &'a Bound<'py, PyAny>,
    pub seed: &'a Bound<'py, PyAny>,
    pub limits: Option<&'a Bound<'py, PyAny>>,
    pub threads: Threads,
}

impl Asked<'_, '_> {
    pub fn sampling(&self, wanted: &Wanted, units: Units) -> PyResult<Sampling> {
        Ok(Sampling {
            count: whole("n", self.n)?,
            seed: whole("seed", self.seed)?,
            limits: ends(self.limits, wanted, units)?,
            threads: self.threads.0,
        })
    }
}

fn ends(limits: Option<&Bound<'_, PyAny>>, wanted: &Wanted, units: Units) -> PyResult<(f64, f64)> {
    let Some(limits) = limits else { return Ok((f64::NEG_INFINITY, f64::INFINITY)) };
    if limits.is_instance_of::<PyLimits>() || limits.is_instance_of::<PyString>() {
        if !wanted.is_length() {
            return Err(PyTypeError::new_err(
                "the result is no length: limits are a pair of numbers or None",
            ));
        }
        let limits = limits_of(limits)?;
        return Ok((limits.lower().to_float(units), limits.upper().to_float(units)));
    }
    let pair: Option<(Bound<'_, PyAny>, Bound<'_, PyAny>)> = limits.extract().ok();
    let (lower, upper) = pair.ok_or_else(|| {
        PyTypeError::new_err("limits are a pair (lower, upper), either of which may be None, or Limits")
    })?;
    let end = |end: &Bound<'_, PyAny>, open: f64| match end.is_none() {
        true => Ok(open),
        false => wanted.one(end),
    };
    Ok((end(&lower, f64::NEG_INFINITY)?, end(&upper, f64::INFINITY)?))
}

/// The statistics of a sample. Equal samples have the same bits, whichever threads or machines drew them.
#[pyclass(frozen, eq, name = "Sample", module = "tenths")]
#[derive(PartialEq)]
pub struct PySample(pub Sample);

/// None for what JSON has no number for.
fn finite(number: f64) -> Option<f64> {
    number.is_finite().then_some(number)
}

fn fraction<'py>(py: Python<'py>, fraction: Fraction) -> PyResult<Bound<'py, PyAny>> {
    object(py, &fraction)
}

#[pymethods]
impl PySample {
    /// How many samples were taken, the undefined ones too.
    #[getter]
    fn count(&self) -> u64 {
        self.0.count()
    }

    /// The seed.
    #[getter]
    fn seed(&self) -> u64 {
        self.0.sampling().seed
    }

    /// Lower and upper limit, by which values are counted out.
    #[getter]
    fn limits(&self) -> (f64, f64) {
        self.0.sampling().limits
    }

    /// How many samples have no value, because the function is not defined there. The figures are those of the others;
    /// they count as out of limits.
    #[getter]
    fn undefined(&self) -> u64 {
        self.0.undefined()
    }

    /// Mean.
    #[getter]
    fn mean(&self) -> f64 {
        self.0.mean()
    }

    /// Standard deviation, over the count less one; NaN for a single value.
    #[getter]
    fn sigma(&self) -> f64 {
        self.0.sigma()
    }

    /// Standard error of the mean.
    #[getter]
    fn mean_error(&self) -> f64 {
        self.0.mean_error()
    }

    /// Standard error of the standard deviation.
    #[getter]
    fn sigma_error(&self) -> f64 {
        self.0.sigma_error()
    }

    /// Third standardised moment, zero for a symmetrical law; NaN where nothing spreads.
    #[getter]
    fn skewness(&self) -> f64 {
        self.0.skewness()
    }

    /// Fourth standardised moment, 3 for a normal law; NaN where nothing spreads.
    #[getter]
    fn kurtosis(&self) -> f64 {
        self.0.kurtosis()
    }

    /// The least value.
    #[getter]
    fn minimum(&self) -> f64 {
        self.0.minimum()
    }

    /// The greatest value.
    #[getter]
    fn maximum(&self) -> f64 {
        self.0.maximum()
    }

    /// Share of the pieces outside the limits, the undefined among them, with an interval of 95 percent confidence; None
    /// without limits.
    #[getter]
    fn fraction_out<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.share(py, self.is_judged(), Sample::fraction_out)
    }

    /// Share of the pieces below the lower limit; None without one.
    #[getter]
    fn fraction_below<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.share(py, self.limits().0 > f64::NEG_INFINITY, Sample::fraction_below)
    }

    /// Share of the pieces above the upper limit; None without one.
    #[getter]
    fn fraction_above<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.share(py, self.limits().1 < f64::INFINITY, Sample::fraction_above)
    }

    /// Pieces outside the limits of a million, None without limits; `fraction_out` has its interval.
    #[getter]
    fn ppm(&self) -> Option<f64> {
        self.is_judged().then(|| 1e6 * self.0.fraction_out().value)
    }

    /// Share of the pieces below any number, with an interval of 95 percent confidence, up to 2^24 samples.
    fn fraction_under<'py>(&self, py: Python<'py>, number: f64) -> PyResult<Bound<'py, PyAny>> {
        fraction(py, self.0.fraction_under(number).map_err(|error| stack_error(py, &error))?)
    }

    /// `fraction_out` with an interval of another confidence, between 0 and 1.
    fn fraction_out_at<'py>(&self, py: Python<'py>, confidence: f64) -> PyResult<Bound<'py, PyAny>> {
        if !(0.0 < confidence && confidence < 1.0) {
            return Err(value_error(format!("confidence must be between 0 and 1, not {confidence}")));
        }
        fraction(py, self.0.fraction_out_at(confidence))
    }

    /// The value that so many percent of the sample do not exceed; an array of percentages gives an array.
    ///
    /// Between two values of the sample it is linear. Exact up to 2^24 samples: see `percentile_error`. `progress`, for
    /// many percentages of a large sample, is True for a bar or a function of the fraction that is done.
    #[pyo3(signature = (q, *, progress=None))]
    fn percentile<'py>(
        &self,
        q: &Bound<'py, PyAny>,
        progress: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        self.percentiles(q, progress, |found| found.value)
    }

    /// By how much `percentile` may be off either way: zero up to 2^24 samples, of which all values are kept.
    #[pyo3(signature = (q, *, progress=None))]
    fn percentile_error<'py>(
        &self,
        q: &Bound<'py, PyAny>,
        progress: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        self.percentiles(q, progress, |found| found.error)
    }

    /// Counts in so many equal bins from the least to the greatest value, and the edges of the bins, as arrays.
    ///
    /// Edges of bins, rising, may stand for their number, up to 2^24 samples.
    #[pyo3(signature = (bins=None))]
    fn histogram<'py>(
        slf: &Bound<'py, Self>,
        bins: Option<&Bound<'py, PyAny>>,
    ) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyAny>)> {
        let py = slf.py();
        let count = match bins.map(|bins| bins.extract::<usize>()) {
            None => 50,
            Some(Ok(count)) => count,
            Some(Err(_)) => {
                return helpers(py)?.call_method1("histogram", (slf.getattr("values")?, bins))?.extract();
            }
        };
        let (counts, edges) = slf.get().0.histogram(count).map_err(|error| stack_error(py, &error))?;
        let counts = PyModule::import(py, "numpy")?.call_method1("array", (counts, "i8"))?;
        Ok((counts, to_array(py, &edges)?))
    }

    /// The defined values in the order in which they were drawn, as an array that shares their memory and cannot be
    /// written to; None of more than 2^24 samples, of which only a sketch is kept.
    #[getter]
    fn values<'py>(slf: &Bound<'py, Self>) -> PyResult<Option<Bound<'py, PyAny>>> {
        match slf.get().0.values().is_empty() {
            true => Ok(None),
            false => as_array(slf).map(Some),
        }
    }

    /// By which numpy shares the memory of the values.
    #[getter]
    fn __array_interface__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let values = self.0.values();
        if values.is_empty() {
            return Err(PyAttributeError::new_err("no values were kept of more than 2^24 samples"));
        }
        let interface = PyDict::new(py);
        interface.set_item("version", 3)?;
        interface.set_item("shape", (values.len(),))?;
        interface.set_item("typestr", if cfg!(target_endian = "little") { "<f8" } else { ">f8" })?;
        interface.set_item("data", (values.as_ptr() as usize, true))?;
        Ok(interface)
    }

    /// The figures as plain data; None for what is not finite.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let (sample, dict) = (&self.0, PyDict::new(py));
        let (lower, upper) = sample.sampling().limits;
        dict.set_item("count", sample.count())?;
        dict.set_item("seed", sample.sampling().seed)?;
        dict.set_item("limits", [finite(lower), finite(upper)])?;
        dict.set_item("undefined", sample.undefined())?;
        dict.set_item("mean", finite(sample.mean()))?;
        dict.set_item("mean_error", finite(sample.mean_error()))?;
        dict.set_item("sigma", finite(sample.sigma()))?;
        dict.set_item("sigma_error", finite(sample.sigma_error()))?;
        dict.set_item("skewness", finite(sample.skewness()))?;
        dict.set_item("kurtosis", finite(sample.kurtosis()))?;
        dict.set_item("minimum", finite(sample.minimum()))?;
        dict.set_item("maximum", finite(sample.maximum()))?;
        for (name, is_judged, share) in [
            ("fraction_below", lower > f64::NEG_INFINITY, sample.fraction_below()),
            ("fraction_above", upper < f64::INFINITY, sample.fraction_above()),
            ("fraction_out", self.is_judged(), sample.fraction_out()),
        ] {
            if !is_judged {
                dict.set_item(name, py.None())?;
                continue;
            }
            let told = PyDict::new(py);
            told.set_item("value", share.value)?;
            told.set_item("lower", share.lower)?;
            told.set_item("upper", share.upper)?;
            dict.set_item(name, told)?;
        }
        Ok(dict)
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, ([PyBlocks; 1],))> {
        let fold = PyModule::import(py, "tenths._tenths")?.getattr("fold_blocks")?;
        Ok((fold, ([PyBlocks(self.0.to_blocks())],)))
    }

    fn __repr__(&self) -> String {
        let sample = &self.0;
        let out = match self.is_judged() {
            true => format!(", fraction out {}", sample.fraction_out().value),
            false => String::new(),
        };
        format!("<sample of {}: mean {}, sigma {}{out}>", sample.count(), sample.mean(), sample.sigma())
    }

    fn _repr_html_<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        helpers(slf.py())?.call_method1("sample_html", (slf,))
    }
}

impl PySample {
    /// Whether any piece could be out: there is a limit, or the function has no value somewhere.
    fn is_judged(&self) -> bool {
        self.limits() != (f64::NEG_INFINITY, f64::INFINITY) || self.0.undefined() > 0
    }

    fn share<'py>(
        &self,
        py: Python<'py>,
        is_judged: bool,
        share: fn(&Sample) -> Fraction,
    ) -> PyResult<Option<Bound<'py, PyAny>>> {
        is_judged.then(|| fraction(py, share(&self.0))).transpose()
    }

    fn percentiles<'py>(
        &self,
        q: &Bound<'py, PyAny>,
        progress: Option<&Bound<'py, PyAny>>,
        part: fn(&tenths::stack::Percentile) -> f64,
    ) -> PyResult<Bound<'py, PyAny>> {
        let (py, asked) = (q.py(), as_array(q)?);
        let percents = numbers_of(&asked)?;
        let found = watched(py, progress, |watch| self.0.percentiles_watched(&percents, watch))?;
        let found = found.map_err(|error| stack_error(py, &error))?;
        let found: Vec<f64> = found.iter().map(part).collect();
        match asked.getattr("ndim")?.extract::<usize>()? {
            0 => Ok(found[0].into_pyobject(py)?.into_any()),
            _ => to_array(py, &found)?.call_method1("reshape", (asked.getattr("shape")?,)),
        }
    }
}

/// Some of the blocks of a sample, which `tenths.fold_blocks` folds. They pickle, on any machine.
#[pyclass(frozen, eq, name = "Blocks", module = "tenths")]
#[derive(PartialEq)]
pub struct PyBlocks(pub Blocks);

#[pymethods]
impl PyBlocks {
    /// The number of the first one.
    #[getter]
    fn first(&self) -> u64 {
        self.0.first()
    }

    /// How many there are.
    #[getter]
    fn count(&self) -> u64 {
        self.0.count()
    }

    /// These blocks as bytes, the same in Rust, C and Python.
    fn to_bytes<'py>(&self, py: Python<'py>) -> Bound<'py, PyBytes> {
        PyBytes::new(py, &self.0.to_bytes())
    }

    /// What `to_bytes` made.
    #[staticmethod]
    fn from_bytes(data: &[u8]) -> PyResult<Self> {
        Blocks::from_bytes(data).map(Self).map_err(value_error)
    }

    fn __repr__(&self) -> String {
        format!("<{} blocks from number {}>", self.0.count(), self.0.first())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (Bound<'py, PyBytes>,))> {
        Ok((py.get_type::<Self>().getattr("from_bytes")?, (self.to_bytes(py),)))
    }
}

/// The sample of all its blocks, in any order and portions.
#[pyfunction]
pub fn fold_blocks(py: Python<'_>, blocks: &Bound<'_, PyAny>) -> PyResult<PySample> {
    let mut portions = Vec::new();
    for item in blocks.try_iter()? {
        portions.push(item?.cast::<PyBlocks>()?.get().0.clone());
    }
    Sample::fold(portions).map(PySample).map_err(|error| stack_error(py, &error))
}

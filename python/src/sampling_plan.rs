//! Sampling plans, and the switching rules.
use crate::array::{as_array, numbers_of, to_array};
use crate::error::{unless_refused, value_error};
use crate::given::{plain, whole};
use crate::number::is_flag;
use crate::object::{PyObject, held, object, rows};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyString, PyTuple};
use tenths::inspect::sampling::{
    InspectionSeverity, LotModel, Quality, SamplingPlan, SamplingStage, SigmaKnowledge, Switching,
    VariablesPlan, zero_acceptance_plan as zero_acceptance,
};

/// A plan by which a sample decides on a lot: what `sampling_plan`, `staged_plan`, `zero_acceptance_plan` and
/// `two_point_plan` give.
#[pyclass(frozen, extends = PyObject, name = "SamplingPlan", module = "tenths")]
pub struct PySamplingPlan(pub SamplingPlan);

/// The nonconforming pieces of each sample: one number, or a list of them.
fn found_of(found: &Bound<'_, PyAny>) -> PyResult<Vec<u64>> {
    match unless_refused(found.py(), found.try_iter())? {
        Some(items) => items.map(|item| whole("found", &item?)).collect(),
        None => Ok(vec![whole("found", found)?]),
    }
}

fn model_of(model: &str) -> PyResult<LotModel> {
    LotModel::parse(model).map_err(value_error)
}

#[pymethods]
impl PySamplingPlan {
    /// The share of lots with a fraction `p` nonconforming that the plan accepts, for a number or an array of them.
    ///
    /// `p` is a fraction: 0.01 is 1 percent. `model` is `binomial` for lots from a process, `hypergeometric` for lots of
    /// the plan's size with that share, or `poisson` for nonconformities, of which a piece may have several.
    #[pyo3(signature = (p, model="binomial"))]
    fn acceptance_probability<'py>(&self, p: &Bound<'py, PyAny>, model: &str) -> PyResult<Bound<'py, PyAny>> {
        let (py, model) = (p.py(), model_of(model)?);
        if is_flag(p) {
            plain("p", p)?;
        }
        let array = as_array(p)?;
        let numbers = numbers_of(&array)?;
        let chances = numbers.iter().map(|p| self.0.acceptance_probability(*p, model).map_err(value_error));
        let chances: Vec<f64> = chances.collect::<PyResult<_>>()?;
        let shape = array.getattr("shape")?;
        match chances[..] {
            [chance] if shape.len()? == 0 => Ok(chance.into_pyobject(py)?.into_any()),
            _ => to_array(py, &chances)?.call_method1("reshape", (shape,)),
        }
    }

    /// What the plan does to lots with a fraction `p` nonconforming: acceptance, outgoing quality, pieces inspected.
    #[pyo3(signature = (p, model="binomial"))]
    fn performance<'py>(&self, p: &Bound<'py, PyAny>, model: &str) -> PyResult<Bound<'py, PyAny>> {
        let performance = self.0.performance(plain("p", p)?, model_of(model)?);
        object(p.py(), &performance.map_err(value_error)?)
    }

    /// The operating characteristic: the performance at each of some fractions, as rows of a table.
    #[pyo3(signature = (p, model="binomial"))]
    fn curve<'py>(&self, p: &Bound<'py, PyAny>, model: &str) -> PyResult<Bound<'py, PyAny>> {
        let model = model_of(model)?;
        let numbers = numbers_of(&as_array(p)?)?;
        let points = numbers.iter().map(|p| self.0.performance(*p, model).map_err(value_error));
        rows(p.py(), &points.collect::<PyResult<Vec<_>>>()?)
    }

    /// The performance at the fraction at which most goes out: its `average_outgoing_quality` is the limit, the AOQL.
    #[pyo3(signature = (model="binomial"))]
    fn worst_outgoing<'py>(&self, py: Python<'py>, model: &str) -> PyResult<Bound<'py, PyAny>> {
        object(py, &self.0.worst_outgoing(model_of(model)?).map_err(value_error)?)
    }

    /// The average outgoing quality limit (AOQL), a fraction.
    #[pyo3(signature = (model="binomial"))]
    fn aoql(&self, model: &str) -> PyResult<f64> {
        let worst = self.0.worst_outgoing(model_of(model)?).map_err(value_error)?;
        Ok(worst.average_outgoing_quality)
    }

    /// What the nonconforming pieces found decide: `accepted`, `rejected`, `next sample`, or of a reduced plan `accepted,
    /// back to normal`. `found` is one number, or a list with one for each sample so far.
    fn judge(&self, found: &Bound<'_, PyAny>) -> PyResult<&'static str> {
        Ok(self.0.judge(&found_of(found)?).map_err(value_error)?.name())
    }
}

/// Where the inspection of a series of lots stands: `Switching()` begins with normal inspection.
#[pyclass(frozen, extends = PyObject, name = "Switching", module = "tenths")]
pub struct PySwitching(pub Switching);

#[pymethods]
impl PySwitching {
    #[new]
    #[pyo3(signature = (severity="normal"))]
    fn new(severity: &str) -> PyResult<PyClassInitializer<Self>> {
        let severity = InspectionSeverity::parse(severity).map_err(value_error)?;
        Ok(held(Switching::start(severity)))
    }

    /// The state after one more lot, inspected by `plan` with so many nonconforming pieces found, a number or a list with
    /// one for each sample.
    ///
    /// `steady` says that production is steady and that whoever is responsible wants reduced inspection.
    #[pyo3(signature = (plan, found, *, steady=false))]
    fn after<'py>(
        &self,
        py: Python<'py>,
        plan: &Bound<'py, PySamplingPlan>,
        found: &Bound<'py, PyAny>,
        steady: bool,
    ) -> PyResult<Bound<'py, PyAny>> {
        let (plan, found) = (&plan.get().0, found_of(found)?);
        object(py, &self.0.after_lot(plan, &found, steady).map_err(value_error)?)
    }

    /// The state after a series of lots as text: `A` for an accepted one, `R` for a rejected one, with its points of the
    /// switching score behind it where they are known, such as `A3 A3 R0 A2`.
    #[pyo3(signature = (lots, *, steady=false))]
    fn after_all<'py>(&self, py: Python<'py>, lots: &str, steady: bool) -> PyResult<Bound<'py, PyAny>> {
        object(py, &self.0.after_all(lots, steady).map_err(value_error)?)
    }
}

/// A plan that judges a lot by the mean of measured pieces: what `variables_plan` gives; `VariablesPlan(28, 1.82)` is one of
/// your own numbers.
#[pyclass(frozen, extends = PyObject, name = "VariablesPlan", module = "tenths")]
pub struct PyVariablesPlan(pub VariablesPlan);

#[pymethods]
impl PyVariablesPlan {
    #[new]
    #[pyo3(signature = (sample_size, k, sigma="unknown"))]
    fn new(sample_size: &Bound<'_, PyAny>, k: f64, sigma: &str) -> PyResult<PyClassInitializer<Self>> {
        let sigma = SigmaKnowledge::parse(sigma).map_err(value_error)?;
        VariablesPlan::of(whole("sample_size", sample_size)?, k, sigma).map(held).map_err(value_error)
    }

    /// The share of lots with a fraction `p` beyond the limit that the plan accepts: 0.01 is 1 percent.
    fn acceptance_probability(&self, p: f64) -> PyResult<f64> {
        self.0.acceptance_probability(p).map_err(value_error)
    }

    /// `accepted` where the mean is at least k standard deviations within each limit, else `rejected`. `sigma` is that of the
    /// process where it is known, else that of the sample with a divisor of n - 1. `k` and the
    /// risks of the plan are for one limit: they do not hold for a lot with pieces beyond both.
    #[pyo3(signature = (mean, sigma, *, lower=None, upper=None))]
    fn judge(
        &self,
        mean: &Bound<'_, PyAny>,
        sigma: &Bound<'_, PyAny>,
        lower: Option<&Bound<'_, PyAny>>,
        upper: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<&'static str> {
        let limit =
            |name, limit: Option<&Bound<'_, PyAny>>| limit.map(|limit| plain(name, limit)).transpose();
        let (lower, upper) = (limit("lower", lower)?, limit("upper", upper)?);
        let verdict = self.0.judge(plain("mean", mean)?, plain("sigma", sigma)?, lower, upper);
        Ok(verdict.map_err(value_error)?.name())
    }
}

fn lot_of(lot: Option<&Bound<'_, PyAny>>) -> PyResult<Option<u64>> {
    lot.map(|lot| whole("lot", lot)).transpose()
}

/// A plan of your own samples, single, double or multiple: `staged_plan([(50, 1, 4), (50, 4, 5)])`.
///
/// Each sample has its pieces, its acceptance number, None where it accepts no lot, and its rejection number; the numbers
/// count the nonconforming pieces of all samples so far. Text such as `50/1/4, 50/4/5` will do, with `-` for None.
#[pyfunction]
#[pyo3(signature = (samples, lot=None, severity="normal"))]
pub fn staged_plan<'py>(
    samples: &Bound<'py, PyAny>,
    lot: Option<&Bound<'py, PyAny>>,
    severity: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let (py, lot) = (samples.py(), lot_of(lot)?);
    let severity = InspectionSeverity::parse(severity).map_err(value_error)?;
    let plan = match samples.cast::<PyString>() {
        Ok(text) => SamplingPlan::parse(text.to_str()?, lot, severity),
        Err(_) => {
            let expected = || {
                PyTypeError::new_err(
                    "samples must be text or (pieces, accept, reject) tuples, e.g. [(50, 1, 4), (50, 4, 5)]",
                )
            };
            let small = |name: &str, object: &Bound<'_, PyAny>| {
                let count = whole(name, object)?;
                u32::try_from(count)
                    .map_err(|_| value_error(format!("{name} must be at most 1000, not {count}")))
            };
            let stage = |sample: PyResult<Bound<'py, PyAny>>| {
                let sample = sample?;
                let sample = sample.cast::<PyTuple>().map_err(|_| expected())?;
                if sample.len() != 3 {
                    return Err(expected());
                }
                let [size, accept, reject] = [sample.get_item(0)?, sample.get_item(1)?, sample.get_item(2)?];
                let accept = if accept.is_none() { None } else { Some(small("accept", &accept)?) };
                Ok(SamplingStage {
                    sample_size: whole("pieces", &size)?,
                    accept,
                    reject: small("reject", &reject)?,
                })
            };
            let stages = samples.try_iter().map_err(|_| expected())?.map(stage);
            SamplingPlan::of_stages(&stages.collect::<PyResult<Vec<_>>>()?, lot, severity)
        }
    };
    object(py, &plan.map_err(value_error)?)
}

/// The single plan that accepts a lot only where the sample has no nonconforming piece.
///
/// With `ltpd`, in percent, lots that bad are accepted with the `risk` at the most, 0.1 by default; with `aql`, lots that
/// good are rejected with the `risk` at the most, 0.05 by default. Without `lot` the pieces are those of a process.
#[pyfunction]
#[pyo3(signature = (lot=None, *, ltpd=None, aql=None, risk=None))]
pub fn zero_acceptance_plan<'py>(
    py: Python<'py>,
    lot: Option<&Bound<'py, PyAny>>,
    ltpd: Option<&Bound<'py, PyAny>>,
    aql: Option<&Bound<'py, PyAny>>,
    risk: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let risk = risk.map(|risk| plain("risk", risk)).transpose()?;
    let (quality, usual) = match (ltpd, aql) {
        (Some(ltpd), None) => (Quality::Ltpd(plain("ltpd", ltpd)?), 0.1),
        (None, Some(aql)) => (Quality::Aql(plain("aql", aql)?), 0.05),
        _ => return Err(PyTypeError::new_err("zero_acceptance_plan takes ltpd or aql, one of the two")),
    };
    object(py, &zero_acceptance(lot_of(lot)?, quality, risk.unwrap_or(usual)).map_err(value_error)?)
}

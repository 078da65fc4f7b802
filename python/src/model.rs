//! What a propagation is of: a Python callable, a formula or a vector loop.
use crate::array::to_array;
use crate::sample::{helpers, stack_error};
use crate::watch::watched;
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyTuple};
use std::cell::RefCell;
use tenths::stack::{
    BLOCK, Blocks, ContributorKey, Extremes, FormulaOutput, Function, Input, LoopUnknown, Moments,
    Propagation, Sample, Sampling, StackError,
};

thread_local! {
    /// What a callable raised, on its way through the core, which stays on this thread.
    static RAISED: RefCell<Option<PyErr>> = const { RefCell::new(None) };
}

/// A Python callable over arrays, one for each input.
pub struct Callable(pub Py<PyAny>);

impl Callable {
    fn call(&self, py: Python<'_>, inputs: &[&[f64]], values: &mut [f64]) -> PyResult<()> {
        let columns = inputs.iter().map(|column| to_array(py, column)).collect::<PyResult<Vec<_>>>()?;
        let made =
            helpers(py)?.call_method1("evaluate", (&self.0, PyTuple::new(py, columns)?, values.len()))?;
        let made = made.cast_into::<PyBytes>()?;
        let (words, _) = made.as_bytes().as_chunks::<8>();
        values.iter_mut().zip(words).for_each(|(value, word)| *value = f64::from_ne_bytes(*word));
        Ok(())
    }
}

impl Function for Callable {
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError> {
        Python::attach(|py| self.call(py, inputs, values)).map_err(|raised| {
            RAISED.set(Some(raised));
            StackError::Function("the function raised an exception".into())
        })
    }

    fn rows(&self) -> usize {
        BLOCK as usize
    }

    /// It may raise an exception where it has no value.
    fn is_defined_beyond(&self) -> bool {
        false
    }
}

/// What the callable raised, or an error of the core.
#[cold]
pub fn fault(py: Python<'_>, error: &StackError) -> PyErr {
    RAISED.take().unwrap_or_else(|| stack_error(py, error))
}

/// A propagation of any of them.
pub enum Model {
    Callable(Propagation<Callable>),
    Formula(Propagation<FormulaOutput>),
    Loop { propagation: Propagation<LoopUnknown>, unknown: String },
}

/// The same for any model.
macro_rules! each {
    ($model:expr, $propagation:ident => $do:expr) => {
        match $model {
            Model::Callable($propagation) => $do,
            Model::Formula($propagation) => $do,
            Model::Loop { propagation: $propagation, .. } => $do,
        }
    };
}

impl Model {
    /// Samples it; what a signal or `progress` raises is the outer error.
    pub fn sample(
        &self,
        py: Python<'_>,
        sampling: &Sampling,
        progress: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Result<Sample, StackError>> {
        let sampling = self.on_threads(sampling);
        watched(
            py,
            progress,
            |watch| each!(self, propagation => propagation.sample_watched(&sampling, watch)),
        )
    }

    /// As [`Model::sample`], some of the blocks.
    pub fn sample_blocks(
        &self,
        py: Python<'_>,
        sampling: &Sampling,
        first: u64,
        count: u64,
        progress: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Result<Blocks, StackError>> {
        let sampling = self.on_threads(sampling);
        watched(
            py,
            progress,
            |watch| each!(self, propagation => propagation.sample_blocks_watched(&sampling, first, count, watch)),
        )
    }

    /// A callable holds the interpreter, and what it raises stays on its thread.
    fn on_threads(&self, sampling: &Sampling) -> Sampling {
        let threads = if matches!(self, Model::Callable(_)) { 1 } else { sampling.threads };
        Sampling { threads, ..*sampling }
    }

    pub fn nominal(&self) -> Result<f64, StackError> {
        each!(self, propagation => propagation.nominal())
    }

    pub fn extremes(&self) -> Result<Extremes, StackError> {
        each!(self, propagation => propagation.extremes())
    }

    pub fn moments(&self) -> Result<Moments, StackError> {
        each!(self, propagation => propagation.moments())
    }

    pub fn inputs(&self) -> &[Input] {
        each!(self, propagation => propagation.inputs())
    }

    pub fn correlations(&self) -> Vec<(usize, usize, f64)> {
        each!(self, propagation => propagation.correlations())
    }

    pub fn correlate(&mut self, a: &str, b: &str, coefficient: f64) -> Result<(), StackError> {
        let (a, b) = (ContributorKey::Name(a), ContributorKey::Name(b));
        each!(self, propagation => propagation.correlate(a, b, coefficient).map(|_| ()))
    }
}

//! A function whose inputs vary: its nominal value, and how it is sampled. Extremes and moments are in files of their
//! own.
use super::correlation::Correlation;
use super::function::{Function, Input};
use super::sample::{self, Blocks, Model, Sampling};
use super::summary::{self, Sample};
use super::variates::{Draw, ROWS, RandomSource, VariateBlock};
use super::{ContributorKey, StackError};
use crate::simd::{WideLoop, run_wide};
use crate::watch::Watch;

/// The greatest count of inputs.
pub const MAX_INPUTS: usize = 64;

/// A function, and inputs that vary.
#[derive(Clone, Debug)]
pub struct Propagation<F> {
    pub(crate) function: F,
    pub(crate) inputs: Vec<Input>,
    pub(crate) correlation: Correlation,
}

impl<F: Function + Send + 'static> Propagation<F> {
    /// The same without the type of its function, for whoever keeps functions of several kinds.
    pub fn boxed(self) -> Propagation<Box<dyn Function + Send>> {
        let Propagation { function, inputs, correlation } = self;
        Propagation { function: Box::new(function), inputs, correlation }
    }
}

impl<F: Function> Propagation<F> {
    /// A function of these inputs.
    ///
    /// # Errors
    /// [`StackError`] for no inputs or more than 64, reversed limits, or numbers of a distribution out of range.
    pub fn new(function: F, inputs: Vec<Input>) -> Result<Propagation<F>, StackError> {
        if !(1..=MAX_INPUTS).contains(&inputs.len()) {
            let need = format!("a function must have 1 to {MAX_INPUTS}");
            return Err(StackError::HowMany { what: "inputs", need, got: inputs.len() });
        }
        inputs.iter().try_for_each(Input::check)?;
        Ok(Propagation { function, inputs, correlation: Correlation::default() })
    }

    /// The function.
    pub fn function(&self) -> &F {
        &self.function
    }

    /// The inputs.
    pub fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    /// Correlates two normal inputs, by their coefficient of correlation, from -1 to 1.
    ///
    /// # Errors
    /// [`StackError::NotCorrelatable`] for other laws, [`StackError::NotPositive`] for a coefficient beyond 1; and
    /// where a place is unknown. Coefficients that contradict one another are found in use.
    pub fn correlate<'a>(
        &mut self,
        one: impl Into<ContributorKey<'a>>,
        other: impl Into<ContributorKey<'a>>,
        coefficient: f64,
    ) -> Result<&mut Self, StackError> {
        let names = || self.inputs.iter().map(|input| input.name.as_str());
        let places = [one.into().find(names())?, other.into().find(names())?];
        for input in places.map(|place| &self.inputs[place]) {
            if !input.distribution.is_normal() {
                return Err(StackError::NotCorrelatable { name: input.name.clone() });
            }
        }
        self.correlation.set(places[0], places[1], coefficient)?;
        Ok(self)
    }

    /// The coefficient of every pair of correlated inputs, by their places, in an order in which
    /// [`Propagation::correlate`] makes the same of them.
    pub fn correlations(&self) -> Vec<(usize, usize, f64)> {
        self.correlation.in_order()
    }

    /// The value at the nominal inputs.
    ///
    /// # Errors
    /// [`StackError::Undefined`] where there is none.
    pub fn nominal(&self) -> Result<f64, StackError> {
        let point: Vec<f64> = self.inputs.iter().map(|input| input.nominal).collect();
        Ok(self.at(&[point])?[0])
    }

    /// Samples it.
    ///
    /// # Errors
    /// [`StackError`] for a count or limits that are not valid, correlations that contradict one another, and what the
    /// function gives. Samples where it is undefined are counted, and it is an error if all are.
    pub fn sample(&self, sampling: &Sampling) -> Result<Sample, StackError> {
        self.sample_watched(sampling, &Watch::new())
    }

    /// [`Propagation::sample`] under a watch, which can stop it and is told how far it is.
    ///
    /// # Errors
    /// As [`Propagation::sample`], and [`StackError::Stopped`].
    pub fn sample_watched(&self, sampling: &Sampling, watch: &Watch) -> Result<Sample, StackError> {
        summary::sample(&Drawn::new(self)?, sampling, watch)
    }

    /// Samples `count` of the blocks from number `first`, for [`Sample::fold`].
    ///
    /// # Errors
    /// As [`Propagation::sample`], and [`StackError::Sampling`] for blocks that the sample does not have.
    pub fn sample_blocks(&self, sampling: &Sampling, first: u64, count: u64) -> Result<Blocks, StackError> {
        self.sample_blocks_watched(sampling, first, count, &Watch::new())
    }

    /// [`Propagation::sample_blocks`] under a watch.
    ///
    /// # Errors
    /// As [`Propagation::sample_blocks`], and [`StackError::Stopped`].
    pub fn sample_blocks_watched(
        &self,
        sampling: &Sampling,
        first: u64,
        count: u64,
        watch: &Watch,
    ) -> Result<Blocks, StackError> {
        sample::sample_blocks(&Drawn::new(self)?, sampling, first, count, watch)
    }

    /// The values at some points, all of which must have one.
    pub(crate) fn at(&self, points: &[Vec<f64>]) -> Result<Vec<f64>, StackError> {
        let values = self.anywhere(points)?;
        match values.iter().position(|value| value.is_nan()) {
            None => Ok(values),
            Some(place) => Err(self.undefined(&points[place])),
        }
    }

    /// The values at some points, NaN where there is none.
    pub(crate) fn anywhere(&self, points: &[Vec<f64>]) -> Result<Vec<f64>, StackError> {
        let columns: Vec<Vec<f64>> =
            (0..self.inputs.len()).map(|input| points.iter().map(|point| point[input]).collect()).collect();
        let columns: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
        let mut values = vec![f64::NAN; points.len()];
        self.function.evaluate(&columns, &mut values)?;
        Ok(values)
    }

    fn undefined(&self, point: &[f64]) -> StackError {
        let given = self.inputs.iter().zip(point).map(|(input, value)| format!("{} = {value}", input.name));
        let at = given.collect::<Vec<_>>().join(", ");
        StackError::Undefined { at, reason: self.function.why_undefined(point) }
    }
}

/// A propagation made ready to be drawn.
struct Drawn<'a, F> {
    propagation: &'a Propagation<F>,
    draws: Vec<Draw>,
    mixing: super::correlation::Mixing,
}

impl<'a, F: Function> Drawn<'a, F> {
    fn new(propagation: &'a Propagation<F>) -> Result<Drawn<'a, F>, StackError> {
        let draw = |input: &Input| Draw::new(&input.distribution, input.middle(), input.half());
        let draws = propagation.inputs.iter().map(draw).collect();
        Ok(Drawn { propagation, draws, mixing: propagation.correlation.mixing()? })
    }
}

impl<F: Function> Drawn<'_, F> {
    /// Whole groups of rows, so that what is drawn does not depend on how many the function takes.
    fn function_rows(&self) -> usize {
        self.propagation.function.rows().div_ceil(ROWS).max(1) * ROWS
    }
}

impl<F: Function> Model for Drawn<'_, F> {
    fn rows(&self) -> usize {
        // A vector loop takes some 30 µs for a row at the most.
        self.function_rows().max(2 * ROWS)
    }

    fn fill(&self, source: &mut RandomSource, values: &mut [f64]) -> Result<(), StackError> {
        let Drawn { propagation, draws, mixing } = self;
        let rows = self.function_rows();
        let mut columns = vec![vec![[0.0; ROWS]; rows / ROWS]; draws.len()];
        for part in values.chunks_mut(rows) {
            for group in 0..part.len().div_ceil(ROWS) {
                run_wide(DrawRows { draws, source, columns: &mut columns, group });
                mix(mixing, draws, &mut columns, group);
            }
            let inputs: Vec<&[f64]> =
                columns.iter().map(|column| &column.as_flattened()[..part.len()]).collect();
            propagation.function.evaluate(&inputs, part)?;
        }
        Ok(())
    }
}

/// Draws a group of rows of every input.
struct DrawRows<'a> {
    draws: &'a [Draw],
    source: &'a mut RandomSource,
    columns: &'a mut [Vec<VariateBlock>],
    group: usize,
}

impl WideLoop for DrawRows<'_> {
    type Output = ();

    #[inline(always)]
    fn run(self) {
        for (draw, column) in self.draws.iter().zip(self.columns) {
            draw.fill(self.source, &mut column[self.group]);
        }
    }
}

/// Correlates the members of a group of rows, which were drawn as if independent.
fn mix(mixing: &super::correlation::Mixing, draws: &[Draw], columns: &mut [Vec<VariateBlock>], group: usize) {
    let members = &mixing.members;
    let scale = |member: usize| match draws[member] {
        Draw::Normal { mean, sigma } => (mean, sigma),
        Draw::Constant(value) => (value, 0.0),
        _ => (0.0, 0.0),
    };
    let scales: Vec<(f64, f64)> = members.iter().map(|member| scale(*member)).collect();
    let mut row = vec![0.0; members.len()];
    let rows = if members.is_empty() { 0 } else { ROWS };
    #[allow(clippy::needless_range_loop)] // A row goes across the columns.
    for place in 0..rows {
        for ((value, member), (mean, sigma)) in row.iter_mut().zip(members).zip(&scales) {
            let drawn = columns[*member][group][place];
            *value = if *sigma > 0.0 { (drawn - mean) / sigma } else { 0.0 };
        }
        mixing.correlate(&mut row);
        for ((value, member), (mean, sigma)) in row.iter().zip(members).zip(&scales) {
            columns[*member][group][place] = mean + sigma * value;
        }
    }
}

//! Functions of several numbers, and the numbers that vary.
use super::variates::ROWS;
use super::{Distribution, StackError};
use crate::simd::{WideLoop, run_wide};
use crate::{Limits, Units};

/// A number that varies: a dimension, an angle, a load.
#[derive(Clone, PartialEq, Debug)]
pub struct Input {
    /// Its name.
    pub name: String,
    /// Its nominal value.
    pub nominal: f64,
    /// Its lower limit.
    pub lower: f64,
    /// Its upper limit, which may be the lower one.
    pub upper: f64,
    /// How it spreads.
    pub distribution: Distribution,
}

impl Input {
    /// From a nominal value and signed deviations, with a normal distribution.
    pub fn new(name: impl Into<String>, nominal: f64, plus: f64, minus: f64) -> Input {
        Input {
            name: name.into(),
            nominal,
            lower: nominal + minus,
            upper: nominal + plus,
            distribution: Distribution::NORMAL,
        }
    }

    /// A number that does not vary.
    pub fn fixed(name: impl Into<String>, value: f64) -> Input {
        Input::new(name, value, 0.0, 0.0)
    }

    /// Limits of size as numbers in inches or millimetres.
    pub fn sized(name: impl Into<String>, limits: &Limits, units: Units) -> Input {
        Input {
            name: name.into(),
            nominal: limits.nominal().to_float(units),
            lower: limits.lower().to_float(units),
            upper: limits.upper().to_float(units),
            distribution: Distribution::NORMAL,
        }
    }

    /// With another distribution.
    pub fn distribution(self, distribution: Distribution) -> Input {
        Input { distribution, ..self }
    }

    pub(crate) fn middle(&self) -> f64 {
        self.lower + self.half()
    }

    /// Half the distance of the limits.
    pub(crate) fn half(&self) -> f64 {
        0.5 * (self.upper - self.lower)
    }

    /// The value this far from the lower limit to the upper one, 0 to 1, and exactly the limits at these.
    pub(crate) fn at(&self, share: f64) -> f64 {
        if share >= 1.0 { self.upper } else { self.lower + share * (self.upper - self.lower) }
    }

    pub(crate) fn check(&self) -> Result<(), StackError> {
        let is_band =
            self.lower <= self.upper && (self.upper - self.lower).is_finite() && self.nominal.is_finite();
        if !is_band {
            return Err(StackError::Band { name: self.name.clone(), low: self.lower, high: self.upper });
        }
        match self.distribution.fault() {
            Some(fault) => Err(StackError::Distribution {
                name: self.name.clone(),
                distribution: self.distribution.name(),
                fault,
            }),
            None => Ok(()),
        }
    }
}

/// Inputs in the order of some names; one that is missing is what `otherwise` gives for its place.
pub(crate) fn in_order(
    names: &[&str],
    inputs: Vec<Input>,
    otherwise: impl Fn(usize) -> Option<Input>,
) -> Result<Vec<Input>, StackError> {
    let mut given: Vec<Option<Input>> = vec![None; names.len()];
    for input in inputs {
        let place = names
            .iter()
            .position(|name| *name == input.name)
            .ok_or_else(|| StackError::UnknownName { name: input.name.clone(), known: names.join(", ") })?;
        if given[place].is_some() {
            return Err(StackError::AmbiguousName { name: input.name, count: 2 });
        }
        given[place] = Some(input);
    }
    let or_missing = |(place, input): (usize, Option<Input>)| {
        let input = input.or_else(|| otherwise(place));
        input.ok_or_else(|| StackError::Missing { name: names[place].into() })
    };
    given.into_iter().enumerate().map(or_missing).collect()
}

/// A function of several numbers over columns of them.
pub trait Function: Sync {
    /// Fills `values` with its value for each row of the columns `inputs`, which are as long; NaN where it has none.
    ///
    /// # Errors
    /// Whatever keeps it from being evaluated at all.
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError>;

    /// How many rows it takes best at a time.
    fn rows(&self) -> usize {
        ROWS
    }

    /// Whether it may be evaluated farther from the means than samples go, and gives NaN where it has no value.
    fn is_defined_beyond(&self) -> bool {
        true
    }

    /// Why it has no value for a row, where it can tell.
    fn why_undefined(&self, inputs: &[f64]) -> Option<String> {
        let _ = inputs;
        None
    }
}

impl Function for Box<dyn Function + Send> {
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError> {
        self.as_ref().evaluate(inputs, values)
    }

    fn rows(&self) -> usize {
        self.as_ref().rows()
    }

    fn is_defined_beyond(&self) -> bool {
        self.as_ref().is_defined_beyond()
    }

    fn why_undefined(&self, inputs: &[f64]) -> Option<String> {
        self.as_ref().why_undefined(inputs)
    }
}

/// A function of one row of `N` numbers. Closures are such functions.
///
/// A large closure is called row by row. A type of one's own whose `value` is marked `#[inline(always)]` is compiled
/// into the loop over rows, for wide registers, if it has no branches; the functions of [`crate::math`] have none.
pub trait RowFunction<const N: usize>: Sync {
    /// Its value; NaN where it has none.
    fn value(&self, inputs: [f64; N]) -> f64;
}

impl<F: Fn([f64; N]) -> f64 + Sync, const N: usize> RowFunction<N> for F {
    #[inline(always)]
    fn value(&self, inputs: [f64; N]) -> f64 {
        self(inputs)
    }
}

/// A function over columns from one over a row of `N` numbers; [`by_row`] makes it of a closure.
#[derive(Clone, Copy, Debug)]
pub struct ByRow<F, const N: usize>(pub F);

/// A function over columns from a closure over a row of `N` numbers.
///
/// ```
/// use tenths::math::acos_degrees;
/// use tenths::stack::{Input, Propagation, by_row};
/// // Contact angle of a roller clutch from hub, roller and ring radius.
/// let clutch = by_row(|[hub, roller, ring]| acos_degrees((hub + roller) / (ring - roller)));
/// let angle = Propagation::new(clutch, vec![
///     Input::new("hub", 27.645, 0.0125, -0.0125),
///     Input::new("roller", 11.43, 0.01, -0.01),
///     Input::new("ring", 50.8, 0.0125, -0.0125),
/// ])?;
/// assert_eq!(format!("{:.4}", angle.nominal()?), "7.0184");
/// # Ok::<(), tenths::stack::StackError>(())
/// ```
pub fn by_row<F: Fn([f64; N]) -> f64 + Sync, const N: usize>(function: F) -> ByRow<F, N> {
    ByRow(function)
}

impl<F: RowFunction<N>, const N: usize> Function for ByRow<F, N> {
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError> {
        let Ok(columns) = <[&[f64]; N]>::try_from(inputs) else {
            let need = format!("the function takes {N}");
            return Err(StackError::HowMany { what: "inputs", need, got: inputs.len() });
        };
        run_wide(Rows { function: &self.0, columns, values });
        Ok(())
    }
}

struct Rows<'a, F, const N: usize> {
    function: &'a F,
    columns: [&'a [f64]; N],
    values: &'a mut [f64],
}

impl<F: RowFunction<N>, const N: usize> WideLoop for Rows<'_, F, N> {
    type Output = ();

    #[inline(always)]
    fn run(self) {
        let rows = self.values.len();
        let columns = self.columns.map(|column| &column[..rows]);
        for (row, value) in self.values.iter_mut().enumerate() {
            *value = self.function.value(std::array::from_fn(|k| columns[k][row]));
        }
    }
}

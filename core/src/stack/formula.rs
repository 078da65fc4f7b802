//! Any formula of the library as a function whose arguments vary.
use super::function::{Function, Input, in_order};
use super::propagation::Propagation;
use super::{Distribution, StackError};
use crate::fit::Fit;
use crate::{Formula, Limits, Units};

/// One output of a formula, its arguments and its value in the shop units of a side.
#[derive(Clone, Copy, Debug)]
pub struct FormulaOutput {
    formula: &'static Formula,
    units: Units,
    output: usize,
}

impl FormulaOutput {
    /// The formula.
    pub fn formula(&self) -> &'static Formula {
        self.formula
    }

    /// The name of the output.
    pub fn name(&self) -> &'static str {
        self.formula.output_name(self.output)
    }

    /// The unit of the value.
    pub fn unit(&self) -> &'static str {
        self.formula.outputs[self.output].kind.unit(self.units).label
    }
}

impl Function for FormulaOutput {
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError> {
        self.formula.batch_output(self.units, inputs, self.output, values)?;
        Ok(())
    }

    fn why_undefined(&self, inputs: &[f64]) -> Option<String> {
        let mut outputs = vec![0.0; self.formula.outputs.len()];
        self.formula.call(self.units, inputs, &mut outputs).err().map(|error| error.to_string())
    }
}

impl Formula {
    /// An output of this formula whose arguments vary: `output` by its name, or none for the only one.
    ///
    /// The inputs have the names of the arguments, in any order, and are numbers in the shop units of a side. An
    /// argument without an input takes its default.
    ///
    /// ```
    /// use tenths::stack::{Input, Sampling};
    /// use tenths::{Units, find};
    /// let speed = find("surface_speed").unwrap().propagate(Units::Inch, None, vec![
    ///     Input::new("diameter", 0.5, 0.001, -0.001),
    ///     Input::fixed("spindle_speed", 1500.0),
    /// ])?;
    /// assert_eq!(format!("{:.2}", speed.extremes()?.upper), "196.74");
    /// assert_eq!(format!("{:.1}", speed.sample(&Sampling::new(100_000, 1))?.mean()), "196.3");
    /// # Ok::<(), tenths::stack::StackError>(())
    /// ```
    ///
    /// # Errors
    /// [`StackError::UnknownName`] for an input or output that the formula does not have, [`StackError::AmbiguousName`]
    /// for one given twice, [`StackError::Missing`] for an argument that is missing; and as
    /// [`Propagation::new`].
    pub fn propagate(
        &'static self,
        units: Units,
        output: Option<&str>,
        inputs: Vec<Input>,
    ) -> Result<Propagation<FormulaOutput>, StackError> {
        let outputs: Vec<&str> = (0..self.outputs.len()).map(|output| self.output_name(output)).collect();
        let output = match output {
            Some(name) => outputs
                .iter()
                .position(|known| *known == name)
                .ok_or_else(|| StackError::UnknownName { name: name.into(), known: outputs.join(", ") })?,
            None if outputs.len() == 1 => 0,
            None => {
                return Err(StackError::SeveralResults { formula: self.name, outputs: outputs.join(", ") });
            }
        };
        let names: Vec<&str> = self.arguments.iter().map(|argument| argument.name).collect();
        let default = |place: usize| Some(Input::fixed(names[place], self.arguments[place].default(units)?));
        let inputs = in_order(&names, inputs, default)?;
        Propagation::new(FormulaOutput { formula: self, units, output }, inputs)
    }
}

impl Input {
    /// The clearance of a fit, negative for an interference, where hole and shaft are normal and centred in their
    /// tolerances with Cp = 1.
    pub fn clearance(name: impl Into<String>, fit: &Fit, units: Units) -> Input {
        let [lower, upper] = [fit.min_clearance(), fit.max_clearance()].map(|size| size.to_float(units));
        let sigma = |limits: Limits| limits.tolerance().to_float(units) / 6.0;
        let (hole, shaft) = (sigma(fit.hole()), sigma(fit.shaft()));
        let mean = lower + 0.5 * (upper - lower);
        let sigma = (hole * hole + shaft * shaft).sqrt();
        Input {
            name: name.into(),
            nominal: mean,
            lower,
            upper,
            distribution: Distribution::Process { mean, sigma },
        }
    }

    /// The interference of a fit, negative for a clearance; otherwise as [`Input::clearance`].
    pub fn interference(name: impl Into<String>, fit: &Fit, units: Units) -> Input {
        let clearance = Input::clearance(name, fit, units);
        let distribution = match clearance.distribution {
            Distribution::Process { mean, sigma } => Distribution::Process { mean: -mean, sigma },
            other => other,
        };
        Input {
            nominal: -clearance.nominal,
            lower: -clearance.upper,
            upper: -clearance.lower,
            distribution,
            ..clearance
        }
    }
}

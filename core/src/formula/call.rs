//! One row: the checked call by record, and the checks of the typed function.
use super::check::Advice;
use super::code::{MAX_INPUTS, MAX_OUTPUTS};
use super::record::{Argument, Formula, Outcome};
use crate::Error;
use crate::error::WithUnit;
use crate::quantity::Units;

/// Why a row has no answer, small enough for registers: [`Formula::error`] makes the error with its text where it is
/// needed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The argument of this place is outside its domain.
    Argument(usize),
    /// The rule of this place does not hold.
    Rule(usize),
    /// All is in order, and yet the output of this place is not finite.
    NoAnswer(usize),
    /// There are so many arguments, which is not what the formula takes.
    Arguments(usize),
    /// There is room for so many results, which is not what the formula gives.
    Results(usize),
}

impl Formula {
    /// A checked call with bare numbers in shop units of a side, one an argument, into one an output.
    ///
    /// The advice tells which arguments lie outside the range that the source states, or outside what is usual.
    ///
    /// # Errors
    /// [`Error`] as the typed function gives it; the outputs are NaN then.
    pub fn call(&self, units: Units, x: &[f64], y: &mut [f64]) -> Result<Advice, Error> {
        self.attempt(units, x, y).map_err(|refusal| self.error(refusal, units, x))
    }

    /// [`Formula::call`] without the text of an error, and so without memory of its own.
    ///
    /// # Errors
    /// [`Refusal`], from which [`Formula::error`] makes the error; the outputs are NaN then.
    pub fn attempt(&self, units: Units, x: &[f64], y: &mut [f64]) -> Result<Advice, Refusal> {
        // Most formulas are small, and clearing room for the largest would take longer than their arithmetic.
        match self.arguments.len() + self.constants.len() <= 4 && self.outputs.len() == 1 {
            true => self.call_within::<4, 1>(units, x, y),
            false => self.call_within::<MAX_INPUTS, MAX_OUTPUTS>(units, x, y),
        }
    }

    /// [`Formula::attempt`] with room for `I` inputs and `O` outputs.
    #[inline(always)]
    fn call_within<const I: usize, const O: usize>(
        &self,
        units: Units,
        x: &[f64],
        y: &mut [f64],
    ) -> Result<Advice, Refusal> {
        let (mut base, mut result) = ([0.0; I], [0.0; O]);
        let answer = match () {
            () if x.len() != self.arguments.len() => Err(Refusal::Arguments(x.len())),
            () if y.len() != self.outputs.len() => Err(Refusal::Results(y.len())),
            () => self.run(units, x, &mut base, &mut result),
        };
        match answer {
            Ok(_) => {
                for ((to, output), value) in y.iter_mut().zip(self.outputs).zip(result) {
                    *to = output.kind.unit(units).from_base(value);
                }
            }
            Err(_) => y.fill(f64::NAN),
        }
        answer
    }

    /// The result in base units of a side, if there is one.
    #[inline(always)]
    fn run(&self, units: Units, x: &[f64], base: &mut [f64], result: &mut [f64]) -> Result<Advice, Refusal> {
        let advice = self.admit_row(units, base, |argument, k| argument.unit(units).to_base(x[k]))?;
        (self.code.one)(units, base, result);
        Ok(advice | self.finite(units, result)?)
    }

    /// Sets a row in base units, with the constants behind the arguments, if all is in order.
    #[inline(always)]
    fn admit_row(
        &self,
        units: Units,
        base: &mut [f64],
        base_of: impl Fn(&Argument, usize) -> f64,
    ) -> Result<Advice, Refusal> {
        let mut advice = Advice::default();
        for (k, (argument, to)) in self.arguments.iter().zip(&mut *base).enumerate() {
            let (value, side) = (base_of(argument, k), argument.side(units));
            if !side.domain.holds(value) {
                return Err(Refusal::Argument(k));
            }
            advice |= Advice::argument(k, side.advises(value));
            *to = value;
        }
        for (to, constant) in base[self.arguments.len()..].iter_mut().zip(self.constants) {
            *to = constant.value[units as usize];
        }
        match self.rules.iter().position(|rule| !(rule.holds)(units, base)) {
            Some(rule) => Err(Refusal::Rule(rule)),
            None => Ok(advice),
        }
    }

    /// What a call says of a row that a batch has computed, from its inputs and outputs in base units.
    pub(super) fn judge(&self, units: Units, x: &[f64], result: &[f64]) -> Result<Advice, Refusal> {
        let advice = self.admit_row(units, &mut [0.0; MAX_INPUTS], |_, k| x[k])?;
        Ok(advice | self.finite(units, result)?)
    }

    /// The error of a row, of the same numbers, that was refused.
    #[cold]
    #[inline(never)]
    pub fn error(&self, refusal: Refusal, units: Units, x: &[f64]) -> Error {
        match refusal {
            Refusal::Argument(k) => self.refuse(k, x.get(k).copied().unwrap_or(f64::NAN), units),
            Refusal::Rule(rule) => {
                let base = self.arguments.iter().zip(x).map(|(argument, &x)| argument.unit(units).to_base(x));
                self.broken(rule, units, &base.collect::<Vec<_>>())
            }
            Refusal::NoAnswer(k) => Error::NoAnswer { formula: self.name, output: self.output_name(k) },
            Refusal::Arguments(got) => self.miscounted("arguments", self.arguments.len(), got),
            Refusal::Results(got) => self.miscounted("results", self.outputs.len(), got),
        }
    }

    fn miscounted(&self, what: &'static str, expected: usize, got: usize) -> Error {
        Error::Count { formula: self.name, what, expected, got }
    }

    #[inline]
    pub(crate) fn count(&self, what: &'static str, expected: usize, got: usize) -> Result<(), Error> {
        if expected == got { Ok(()) } else { Err(self.miscounted(what, expected, got)) }
    }

    /// Whether every argument, in base units of a side, lies in its domain.
    #[doc(hidden)]
    pub fn holds(&self, units: Units, base: &[f64]) -> bool {
        self.arguments.iter().zip(base).all(|(a, &x)| a.side(units).domain.holds(x))
    }

    /// The defaults of its `N` arguments in metric base units; where there is none, a number that no domain holds.
    #[doc(hidden)]
    pub fn metric_defaults<const N: usize>(&self) -> [f64; N] {
        std::array::from_fn(|k| {
            match self.arguments.get(k).map(|a| (a.exact, a.side(Units::Metric).default)) {
                Some((_, Some(default))) => default,
                // An exact size is never NaN, but its least number is farther than any length may be.
                Some((true, None)) => f64::NEG_INFINITY,
                _ => f64::NAN,
            }
        })
    }

    /// The domain checks of the typed function.
    #[doc(hidden)]
    pub fn admit(&self, units: Units, base: &[f64]) -> Result<(), Error> {
        for (k, (argument, &value)) in self.arguments.iter().zip(base).enumerate() {
            if !argument.side(units).domain.holds(value) {
                return Err(self.refuse(k, argument.unit(units).from_base(value), units));
            }
        }
        Ok(())
    }

    /// The error for a broken rule.
    #[doc(hidden)]
    #[cold]
    #[inline(never)]
    pub fn broken(&self, rule: usize, units: Units, base: &[f64]) -> Error {
        let rule = &self.rules[rule];
        let given = rule.arguments.iter().map(|&k| {
            let (argument, unit) = (&self.arguments[k], self.arguments[k].unit(units));
            format!("{} = {}", argument.name, WithUnit(unit.from_base(base[k]), unit.label))
        });
        let given = given.collect::<Vec<_>>().join(", ");
        Error::Rule { formula: self.name, rule: rule.text, given }
    }

    /// The last check of the typed function: a finite result.
    #[doc(hidden)]
    pub fn finish<T: Outcome>(&self, bare: T::Bare) -> Result<T, Error> {
        let mut result = [0.0; MAX_OUTPUTS];
        T::write(bare, &mut result);
        match self.finite(Units::Metric, &result) {
            Err(Refusal::NoAnswer(k)) => {
                Err(Error::NoAnswer { formula: self.name, output: self.output_name(k) })
            }
            _ => Ok(T::from_metric(bare)),
        }
    }

    /// Whether every output is finite in its shop unit, and advice on those outside a stated range.
    #[inline(always)]
    pub(super) fn finite(&self, units: Units, result: &[f64]) -> Result<Advice, Refusal> {
        let mut advice = Advice::default();
        for (k, (output, &y)) in self.outputs.iter().zip(result).enumerate() {
            if !output.kind.unit(units).can_represent(y) {
                return Err(Refusal::NoAnswer(k));
            }
            advice |= Advice::output(k, output.range(units).misses(y));
        }
        Ok(advice)
    }

    /// Unchecked, in any consistent base units, with constants given by the caller: for the law tests.
    #[doc(hidden)]
    pub fn evaluate_base(&self, units: Units, x: &[f64], y: &mut [f64]) {
        (self.code.one)(units, x, y);
    }
}

#[cfg(test)]
mod tests {
    use crate::Error;
    use crate::cutting::milling_cut::{MillingCutInput, milling_cut};
    use crate::quantity::*;
    use crate::stock::PartsPerBarInput;

    fn left_out<T>(result: Result<T, Error>) -> &'static str {
        match result {
            Err(Error::Argument { argument, .. }) => argument,
            _ => "nothing",
        }
    }

    #[test]
    fn arguments_by_name_are_those_by_place_with_the_defaults() {
        let input = MillingCutInput {
            cutter_diameter: Length::millimetres(20.0),
            teeth: Count::new(4.0),
            spindle_speed: SpindleSpeed::rev_per_minute(3000.0),
            chip_load: Length::millimetres(0.1),
            radial_width: Length::millimetres(8.0),
            axial_depth: Length::millimetres(5.0),
            kc11: Stress::megapascals(1700.0),
            mc: Ratio::new(0.25),
            ..Default::default()
        };
        let MillingCutInput { cutter_diameter, teeth, spindle_speed, chip_load, .. } = input;
        let MillingCutInput { radial_width, axial_depth, kc11, mc, .. } = input;
        let (square, zero, hundredth) = (Angle::degrees(90.0), Angle::degrees(0.0), Ratio::new(0.01));
        let (sharp, efficiency) = (Ratio::new(1.0), Ratio::new(0.8));
        let by_place = milling_cut(
            cutter_diameter,
            teeth,
            spindle_speed,
            chip_load,
            radial_width,
            axial_depth,
            kc11,
            mc,
            square,
            zero,
            zero,
            hundredth,
            sharp,
            efficiency,
        );
        assert!(by_place.is_ok() && input.evaluate() == by_place);
    }

    #[test]
    fn an_argument_that_is_left_out_is_refused_by_its_name() {
        let cutter_diameter = Length::millimetres(20.0);
        let input = MillingCutInput { cutter_diameter, ..Default::default() };
        assert_eq!(left_out(input.evaluate()), "teeth");
        assert_eq!(left_out(MillingCutInput { teeth: Count::new(4.0), ..input }.evaluate()), "spindle_speed");
        // Exact sizes have no NaN.
        assert_eq!(left_out(PartsPerBarInput::default().evaluate()), "bar_length");
    }
}

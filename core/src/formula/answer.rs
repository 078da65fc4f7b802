//! One row of a formula of one result, without advice: the shortest way through the same checks as [`Formula::call`].
use super::call::Refusal;
use super::record::Formula;
use crate::quantity::Units;

/// Arguments and constants together of the formulas that go the short way; others are far longer than their checks.
const ROOM: usize = 6;

impl Formula {
    /// The result of a formula of one, from bare numbers in shop units of a side, one an argument: what [`Formula::call`] gives,
    /// without its advice and without the text of an error.
    ///
    /// ```
    /// use tenths::Units;
    /// let speed = tenths::find("surface_speed")?.answer(Units::Inch, &[0.5, 1500.0]);
    /// assert_eq!(speed, Ok(196.34954084936206));
    /// # Ok::<(), tenths::registry::UnknownFormula>(())
    /// ```
    ///
    /// # Errors
    /// [`Refusal`], from which [`Formula::error`] makes the error.
    #[inline(always)]
    pub fn answer<const N: usize>(&self, units: Units, x: &[f64; N]) -> Result<f64, Refusal> {
        let ([output], true) = (self.outputs, N + self.constants.len() <= ROOM) else {
            return self.answer_of_many(units, x);
        };
        let Ok(arguments) = <&[_; N]>::try_from(self.arguments) else { return Err(Refusal::Arguments(N)) };
        let mut base = [0.0; ROOM];
        for (k, argument) in arguments.iter().enumerate() {
            let value = argument.unit(units).to_base(x[k]);
            if !argument.side(units).domain.holds(value) {
                return Err(Refusal::Argument(k));
            }
            base[k] = value;
        }
        for (to, constant) in base[N..].iter_mut().zip(self.constants) {
            *to = constant.value[units as usize];
        }
        if let Some(rule) = self.rules.iter().position(|rule| !(rule.holds)(units, &base)) {
            return Err(Refusal::Rule(rule));
        }
        let mut result = [f64::NAN];
        self.evaluate_base(units, &base, &mut result);
        let unit = output.kind.unit(units);
        match unit.can_represent(result[0]) {
            true => Ok(unit.from_base(result[0])),
            false => Err(Refusal::NoAnswer(0)),
        }
    }

    #[inline(never)]
    fn answer_of_many(&self, units: Units, x: &[f64]) -> Result<f64, Refusal> {
        let mut result = [f64::NAN];
        self.attempt(units, x, &mut result).map(|_| result[0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::registry::formulas;

    fn same<const N: usize>(formula: &Formula, units: Units, x: &[f64]) {
        let Ok(x) = <&[f64; N]>::try_from(x) else { return };
        let mut result = [f64::NAN];
        let expected = formula.attempt(units, x, &mut result).map(|_| result[0].to_bits());
        let got = formula.answer::<N>(units, x).map(f64::to_bits);
        assert_eq!(got, expected, "{} of {x:?}", formula.name);
    }

    #[test]
    fn an_answer_is_what_a_call_gives() {
        const ODD: [f64; 12] = [
            0.0,
            -0.0,
            1.0,
            -1.0,
            0.5,
            3.0,
            4503599627370497.5,
            1e19,
            1e-320,
            f64::MAX,
            f64::INFINITY,
            f64::NAN,
        ];
        for formula in formulas() {
            let count = formula.arguments.len();
            let seed = formula.name.bytes().map(usize::from).sum::<usize>();
            for (units, turn) in
                Units::ALL.into_iter().flat_map(|units| (0..60).map(move |turn| (units, turn)))
            {
                // In the domain as a rule, and something odd in one place.
                let mut x: Vec<f64> =
                    (0..count).map(|k| 1.0 + (seed + turn * (k + 7)) as f64 % 23.0).collect();
                if let (true, Some(place)) = (turn > 20, x.get_mut(turn % count)) {
                    *place = ODD[(turn + seed) % ODD.len()];
                }
                same::<1>(formula, units, &x);
                same::<2>(formula, units, &x);
                same::<3>(formula, units, &x);
                same::<4>(formula, units, &x);
                same::<5>(formula, units, &x);
                same::<6>(formula, units, &x);
                same::<7>(formula, units, &x);
            }
        }
    }
}

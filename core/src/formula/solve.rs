//! A formula the other way round: the argument that gives a wanted result.
use super::{Formula, MAX_INPUTS, MAX_OUTPUTS};
use crate::Error;
use crate::error::Reading;
use crate::quantity::Units;

/// A row in base units in which one argument is sought.
struct Search<'a> {
    formula: &'a Formula,
    units: Units,
    row: [f64; MAX_INPUTS],
    sought: usize,
    output: usize,
}

impl Formula {
    /// The value of `argument` for which `output` becomes `wanted`, all in shop units of a side.
    ///
    /// `given` holds one number an argument, of which that of the sought one is ignored. `output` may be left
    /// out where the formula has one. A declared inverse is used where there is one; otherwise the value is
    /// sought by bisection over the floats of the argument's domain, which ends at the nearest float.
    ///
    /// # Errors
    /// [`Error::Unsolvable`] where the argument or the output is unknown, is a count, or is not declared to
    /// move one way, and where no value gives the wanted result; otherwise as [`Formula::call`].
    pub fn solve_for(
        &self,
        units: Units,
        argument: &str,
        output: Option<&str>,
        wanted: f64,
        given: &[f64],
    ) -> Result<f64, Error> {
        let sought = self
            .arguments
            .iter()
            .position(|a| a.name == argument)
            .ok_or_else(|| self.unsolvable(argument, format!("it has no argument `{argument}`")))?;
        let output = self.solvable_output(sought, output)?;
        self.count("arguments", self.arguments.len(), given.len())?;
        if !wanted.is_finite() {
            return Err(self.unsolvable(argument, format!("the wanted result is {wanted}")));
        }
        let mut search = Search { formula: self, units, row: [0.0; MAX_INPUTS], sought, output };
        for (k, (a, &reading)) in self.arguments.iter().zip(given).enumerate() {
            let base = a.unit(units).to_base(reading);
            if k != sought && !a.side(units).domain.holds(base) {
                return Err(self.refuse(k, reading, units));
            }
            search.row[k] = base;
        }
        for (to, constant) in search.row[self.arguments.len()..].iter_mut().zip(self.constants) {
            *to = constant.value[units as usize];
        }
        let base = search.run(self.outputs[output].kind.unit(units).to_base(wanted))?;
        Ok(self.arguments[sought].unit(units).from_base(base))
    }

    /// Whether and from which outputs `argument` can be solved for: by a declared inverse or trend.
    pub fn is_solvable(&self, argument: usize) -> bool {
        (0..self.outputs.len()).any(|output| self.why_not_solvable(argument, output).is_none())
    }

    fn why_not_solvable(&self, sought: usize, output: usize) -> Option<&'static str> {
        let argument = &self.arguments[sought];
        let trend = argument.trends.iter().any(|t| t.output == self.outputs[output].name);
        let inverse = self.inverses.iter().any(|i| i.argument == sought);
        match () {
            () if argument.sides[0].domain.is_whole() => Some("it is a count"),
            () if self.is_exact() => Some("the formula counts, so that a range of values gives one result"),
            () if !(trend || inverse) => Some("the result is not known to move one way with it"),
            () => None,
        }
    }

    fn solvable_output(&self, sought: usize, output: Option<&str>) -> Result<usize, Error> {
        let name = self.arguments[sought].name;
        let names = || (0..self.outputs.len()).map(|k| self.output_name(k)).collect::<Vec<_>>().join(", ");
        let output = match output {
            Some(wanted) => {
                (0..self.outputs.len()).find(|&k| self.output_name(k) == wanted).ok_or_else(|| {
                    self.unsolvable(name, format!("`{wanted}` is not one of its results: {}", names()))
                })?
            }
            None if self.outputs.len() == 1 => 0,
            None => return Err(self.unsolvable(name, format!("say which result is wanted: {}", names()))),
        };
        match self.why_not_solvable(sought, output) {
            Some(reason) => Err(self.unsolvable(name, reason.into())),
            None => Ok(output),
        }
    }

    fn unsolvable(&self, argument: &str, reason: String) -> Error {
        Error::Unsolvable { formula: self.name, argument: argument.into(), reason }
    }
}

impl Search<'_> {
    fn run(mut self, wanted: f64) -> Result<f64, Error> {
        if let Some(inverse) = self.formula.inverses.iter().find(|i| i.argument == self.sought) {
            let x = (inverse.solve)(self.units, &self.row, wanted);
            return match self.at(x) {
                Some(_) => Ok(x),
                None => Err(self.out_of_reach(wanted, None)),
            };
        }
        // Any finite answer of the domain lies between two of these, or between one and the end of a rule.
        let stations = self.stations();
        let mut reach: Option<(f64, f64)> = None;
        for pair in stations.windows(2) {
            let (low, high) = match (self.at(pair[0]), self.at(pair[1])) {
                (Some(_), Some(_)) => (pair[0], pair[1]),
                (Some(_), None) => (pair[0], self.last_valid(pair[0], pair[1])),
                (None, Some(_)) => (self.last_valid(pair[1], pair[0]), pair[1]),
                (None, None) => continue,
            };
            if let (Some(a), Some(b)) = (self.at(low), self.at(high)) {
                if (a <= wanted && wanted <= b) || (b <= wanted && wanted <= a) {
                    return Ok(self.bisect(low, high, wanted));
                }
                let (least, greatest) = reach.unwrap_or((a, a));
                reach = Some((least.min(a).min(b), greatest.max(a).max(b)));
            }
        }
        Err(self.out_of_reach(wanted, reach))
    }

    /// The output at a value of the sought argument; `None` where the formula has no answer there.
    fn at(&mut self, x: f64) -> Option<f64> {
        self.row[self.sought] = x;
        let mut y = [f64::NAN; MAX_OUTPUTS];
        if self.formula.arguments[self.sought].side(self.units).domain.holds(x) {
            (self.formula.code.one)(self.units, &self.row, &mut y);
        }
        Some(y[self.output]).filter(|y| y.is_finite())
    }

    /// Values from one end of the domain to the other: its ends, zero, and powers of 64 of either sign.
    fn stations(&self) -> Vec<f64> {
        let domain = self.formula.arguments[self.sought].side(self.units).domain;
        let mut stations = vec![0.0, f64::MIN, f64::MAX, f64::from_bits(1), -f64::from_bits(1)];
        for (end, closed) in [domain.low(), domain.high()].into_iter().flatten() {
            stations.extend(if closed { vec![end] } else { vec![end.next_up(), end.next_down()] });
        }
        for power in (0..170).map(|k| f64::from_bits((1023 + 6 * k - 510) << 52)) {
            stations.extend([power, -power]);
        }
        stations.retain(|&x| domain.holds(x));
        stations.sort_by(f64::total_cmp);
        stations.dedup();
        stations
    }

    /// The last float from `valid` toward `invalid` at which the formula has an answer.
    fn last_valid(&mut self, valid: f64, invalid: f64) -> f64 {
        let (valid, _) = between(valid, invalid, |x| self.at(x).is_some());
        valid
    }

    /// The float between `low` and `high` whose output is nearest to `wanted`, which theirs enclose.
    fn bisect(&mut self, low: f64, high: f64, wanted: f64) -> f64 {
        let below = self.at(low) <= Some(wanted);
        let (a, b) = between(low, high, |x| (self.at(x) <= Some(wanted)) == below);
        let miss = |y: Option<f64>| y.map_or(f64::INFINITY, |y| (y - wanted).abs());
        if miss(self.at(a)) <= miss(self.at(b)) { a } else { b }
    }

    fn out_of_reach(&self, wanted: f64, reach: Option<(f64, f64)>) -> Error {
        let output = &self.formula.outputs[self.output];
        let unit = output.kind.unit(self.units);
        let reading = |base: f64| Reading(unit.from_base(base), unit.label);
        let name = self.formula.output_name(self.output);
        let mut reason = format!("no value gives {name} = {}", reading(wanted));
        if let Some((least, greatest)) = reach {
            reason += &format!(", which lies between {} and {} here", reading(least), reading(greatest));
        }
        self.formula.unsolvable(self.formula.arguments[self.sought].name, reason)
    }
}

/// Two neighbouring floats between `yes` and `no`, of which `holds` is true of the first and false of the second.
///
/// Bisection over the floats in their order ends in 64 steps whatever their size.
fn between(yes: f64, no: f64, mut holds: impl FnMut(f64) -> bool) -> (f64, f64) {
    let (mut yes, mut no) = (rank(yes), rank(no));
    while yes.abs_diff(no) > 1 {
        let middle = ((i128::from(yes) + i128::from(no)) / 2) as i64;
        if holds(float(middle)) { yes = middle } else { no = middle }
    }
    (float(yes), float(no))
}

/// The place of a float in the order of floats, in which both zeros are one.
fn rank(x: f64) -> i64 {
    let bits = x.to_bits() as i64;
    if bits < 0 { i64::MIN.wrapping_sub(bits) } else { bits }
}

fn float(rank: i64) -> f64 {
    f64::from_bits(if rank < 0 { i64::MIN.wrapping_sub(rank) } else { rank } as u64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn floats_are_ranked_in_order() {
        for x in [0.0, 1.0, -1.0, f64::MIN, f64::MAX, 5e-324, -5e-324, 1e-9] {
            assert_eq!(float(rank(x)), x);
            if x < f64::MAX {
                assert_eq!(rank(x.next_up()), rank(x) + 1);
            }
        }
        assert_eq!(rank(-0.0), 0);
        assert_eq!(between(1.0, 2.0, |x| x < 1.5), (1.5f64.next_down(), 1.5));
        assert_eq!(between(f64::MAX, f64::MIN, |x| x > -7.0), ((-7.0f64).next_up(), -7.0));
    }

    #[test]
    fn a_declared_inverse_is_used() {
        let surface_speed = crate::find("surface_speed").unwrap();
        let d = surface_speed.solve_for(Units::Inch, "diameter", None, 200.0, &[f64::NAN, 1500.0]).unwrap();
        // Common practice: d = 12 v / (π n).
        assert!((d - 12.0 * 200.0 / (std::f64::consts::PI * 1500.0)).abs() < 1e-15);
        let error = surface_speed.solve_for(Units::Inch, "speed", None, 200.0, &[1.0, 1500.0]).unwrap_err();
        assert_eq!(error.to_string(), "surface_speed cannot be solved for speed: it has no argument `speed`");
    }

    #[test]
    fn a_search_ends_at_the_nearest_float() {
        let growth = crate::find("knurl_growth").unwrap();
        let at = |angle: f64| {
            let mut y = [0.0];
            growth.call(Units::Metric, &[1.0, angle], &mut y).unwrap();
            y[0]
        };
        for wanted in [0.3, 0.45, 0.5, 0.61, 0.7] {
            let given = [1.0, f64::NAN];
            let angle = growth.solve_for(Units::Metric, "profile_angle", None, wanted, &given).unwrap();
            let miss = |angle: f64| (at(angle) - wanted).abs();
            assert!(
                miss(angle) <= miss(angle.next_up()) && miss(angle) <= miss(angle.next_down()),
                "{wanted}"
            );
        }
        let beyond = growth.solve_for(Units::Metric, "profile_angle", None, -1.0, &[1.0, 90.0]);
        assert!(beyond.unwrap_err().to_string().contains("no value gives knurl_growth = -1 mm"));
    }
}

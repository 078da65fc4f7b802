//! Solving a formula: the argument that gives a wanted result.
use super::code::{MAX_INPUTS, MAX_OUTPUTS};
use super::record::Formula;
use crate::Error;
use crate::error::{WithUnit, excerpt};
use crate::quantity::{Count, Quantity, Units};

/// What is sought of a formula, with the arguments of one row in base units.
struct Search<'a> {
    formula: &'a Formula,
    units: Units,
    row: [f64; MAX_INPUTS],
    sought: usize,
    output: usize,
    /// Whether the output rises with the argument; `None` where only an inverse is declared.
    rising: Option<bool>,
}

/// Why a row has no solution: the error with its text is made when it is needed.
enum Failure {
    Wanted,
    Argument(usize),
    /// The formula has no answer at any value tried.
    Nowhere,
    /// The output does not come to what is wanted from a value of the argument at which there is an answer.
    OutOfReach(Option<f64>),
    /// Every value between these gives the same, and beyond there is no answer.
    Level([f64; 2]),
}

impl Formula {
    /// The value of `argument` for which `output` becomes `wanted`, all in shop units of a side.
    ///
    /// `given` holds one number an argument, of which that of the sought one is ignored. `output` may be left
    /// out where the formula has one. A declared inverse is used where there is one; otherwise the value is
    /// sought by bisection over the floats of the argument's domain, which ends at the nearest float.
    ///
    /// Where the result stays level, so that a whole stretch of values gives it, the end of the stretch is given at
    /// which the result begins to move; where it moves beyond both ends, the one nearer to zero.
    ///
    /// # Errors
    /// [`Error::Unsolvable`] where the argument or the output is unknown, is a count, or is not declared to
    /// move one way, where no value gives the wanted result, and where every value does; otherwise as
    /// [`Formula::call`].
    pub fn solve_for(
        &self,
        units: Units,
        argument: &str,
        output: Option<&str>,
        wanted: f64,
        given: &[f64],
    ) -> Result<f64, Error> {
        let mut search = self.search(units, argument, output)?;
        self.count("arguments", self.arguments.len(), given.len())?;
        search.solve(wanted, |k| given[k]).map_err(|failure| search.error(&failure, wanted, |k| given[k]))
    }

    /// [`Formula::solve_for`] for many rows; a column of one number stands for every row.
    ///
    /// The column of the sought argument is ignored. A row without a solution becomes NaN, and it is told whether
    /// there is one in which no number is NaN.
    ///
    /// # Errors
    /// As [`Formula::solve_for`] for what is wrong with all rows, and [`Error::Count`] where a column has neither
    /// one number nor one a row.
    pub fn solve_rows(
        &self,
        units: Units,
        argument: &str,
        output: Option<&str>,
        wanted: &[f64],
        given: &[&[f64]],
        solved: &mut [f64],
    ) -> Result<bool, Error> {
        let mut search = self.search(units, argument, output)?;
        self.count("arguments", self.arguments.len(), given.len())?;
        let columns =
            || given.iter().enumerate().filter(|&(k, _)| k != search.sought).map(|(_, column)| *column);
        if let Some(column) =
            columns().chain([wanted]).find(|column| column.len() != 1 && column.len() != solved.len())
        {
            return Err(Error::Count {
                formula: self.name,
                what: "rows in every column",
                expected: solved.len(),
                got: column.len(),
            });
        }
        let at = |column: &[f64], row: usize| column[if column.len() == 1 { 0 } else { row }];
        let mut refused = false;
        for (row, solved) in solved.iter_mut().enumerate() {
            let sought = search.sought;
            let reading = |k: usize| if k == sought { f64::NAN } else { at(given[k], row) };
            *solved = search.solve(at(wanted, row), reading).unwrap_or(f64::NAN);
            let mut numbers = (0..given.len()).filter(|&k| k != sought).map(reading).chain([at(wanted, row)]);
            refused |= solved.is_nan() && !numbers.any(f64::is_nan);
        }
        Ok(refused)
    }

    /// Whether and from which outputs `argument` can be solved for: by a declared inverse or trend.
    pub fn is_solvable(&self, argument: usize) -> bool {
        (0..self.outputs.len()).any(|output| self.why_not_solvable(argument, output).is_none())
    }

    /// Why `argument` cannot be solved for from `output`; `None` where it can. Both are given by place.
    pub fn why_not_solvable(&self, argument: usize, output: usize) -> Option<&'static str> {
        if argument >= self.arguments.len() || output >= self.outputs.len() {
            return Some("there is no such argument or result");
        }
        let inverse = self.inverses.iter().any(|i| i.argument == argument);
        match () {
            () if self.arguments[argument].sides[0].domain.is_whole() => Some("it is a count"),
            () if self.is_exact() => {
                Some("the formula counts: a whole range of values gives the same result")
            }
            () if !inverse && self.outputs[output].kind == Count::KIND => {
                Some("the result is a count: a whole range of values gives the same one")
            }
            () if !inverse && self.rising(argument, output).is_none() => {
                Some("the result is not known to rise or fall steadily with it")
            }
            () => None,
        }
    }

    fn rising(&self, argument: usize, output: usize) -> Option<bool> {
        let mut trends = self.arguments[argument].trends.iter();
        trends.find(|t| t.output == self.outputs[output].name).map(|t| t.rising)
    }

    fn search(&self, units: Units, argument: &str, output: Option<&str>) -> Result<Search<'_>, Error> {
        let sought = self.arguments.iter().position(|a| a.name == argument);
        let sought = sought.ok_or_else(|| {
            let names: Vec<_> = self.arguments.iter().map(|a| a.name).collect();
            let reason =
                format!("it has no argument `{}`; its arguments are {}", excerpt(argument), names.join(", "));
            self.unsolvable(argument, reason)
        })?;
        let output = self.solvable_output(sought, output)?;
        let mut row = [0.0; MAX_INPUTS];
        for (to, constant) in row[self.arguments.len()..].iter_mut().zip(self.constants) {
            *to = constant.value[units as usize];
        }
        Ok(Search { formula: self, units, row, sought, output, rising: self.rising(sought, output) })
    }

    fn solvable_output(&self, sought: usize, output: Option<&str>) -> Result<usize, Error> {
        let name = self.arguments[sought].name;
        let names = || (0..self.outputs.len()).map(|k| self.output_name(k)).collect::<Vec<_>>().join(", ");
        let output = match output {
            Some(wanted) => {
                (0..self.outputs.len()).find(|&k| self.output_name(k) == wanted).ok_or_else(|| {
                    self.unsolvable(
                        name,
                        format!("`{}` is not one of its results, which are {}", excerpt(wanted), names()),
                    )
                })?
            }
            None if self.outputs.len() == 1 => 0,
            None => return Err(self.unsolvable(name, format!("give the result to solve from: {}", names()))),
        };
        match self.why_not_solvable(sought, output) {
            Some(reason) => Err(self.unsolvable(name, reason.into())),
            None => Ok(output),
        }
    }

    fn unsolvable(&self, argument: &str, reason: String) -> Error {
        Error::Unsolvable { formula: self.name, argument: excerpt(argument), reason }
    }
}

impl Search<'_> {
    /// The solution of one row, of which `given` tells the readings.
    fn solve(&mut self, wanted: f64, given: impl Fn(usize) -> f64) -> Result<f64, Failure> {
        if !wanted.is_finite() {
            return Err(Failure::Wanted);
        }
        for (k, argument) in self.formula.arguments.iter().enumerate().filter(|&(k, _)| k != self.sought) {
            self.row[k] = argument.unit(self.units).to_base(given(k));
            if !argument.side(self.units).domain.holds(self.row[k]) {
                return Err(Failure::Argument(k));
            }
        }
        let base = self.find(self.formula.outputs[self.output].kind.unit(self.units).to_base(wanted))?;
        let base = self.settle(base)?;
        // A reading rounded out of the domain, or over a rule, is not what the formula would take back.
        let unit = self.formula.arguments[self.sought].unit(self.units);
        let near = unit.from_base(base);
        let readings = [near, near.next_up(), near.next_down()];
        Ok(readings.into_iter().find(|&x| self.at(unit.to_base(x)).is_some()).unwrap_or(near))
    }

    /// The solution in base units.
    fn find(&mut self, wanted: f64) -> Result<f64, Failure> {
        if let Some(inverse) = self.formula.inverses.iter().find(|i| i.argument == self.sought) {
            let x = (inverse.solve)(self.units, &self.row, wanted);
            // A closed solution may lie on a branch that the wanted result is not on.
            if self.at(x).is_some_and(|y| (y - wanted).abs() <= 1e-6 * y.abs().max(wanted.abs())) {
                return Ok(x);
            }
        }
        let Some(rising) = self.rising else { return Err(Failure::OutOfReach(None)) };
        let anchors = self.anchors();
        // Before all others, so that nothing is sought among the smallest floats where zero will do.
        if let Some(&end) = anchors[..ENDS].iter().find(|&&x| self.at(x) == Some(wanted)) {
            return Ok(end);
        }
        let anchor = anchors.iter().find_map(|&x| Some((x, self.at(x)?)));
        let Some((anchor, y)) = anchor.or_else(|| self.power()) else { return Err(Failure::Nowhere) };
        if y == wanted {
            return Ok(anchor);
        }
        let below = y <= wanted;
        let end = if below == rising { f64::MAX } else { f64::MIN };
        let (near, far) = between(anchor, end, |x| self.at(x).is_some_and(|y| (y <= wanted) == below));
        match (self.at(near), self.at(far)) {
            (Some(a), Some(b)) if (b <= wanted) != below => {
                Ok(if (a - wanted).abs() <= (b - wanted).abs() { near } else { far })
            }
            // A reading may lie an ulp or two beyond the result that it was taken from.
            (Some(a), _) if (a - wanted).abs() <= 4.0 * f64::EPSILON * wanted.abs() => Ok(near),
            _ => Err(Failure::OutOfReach(Some(anchor))),
        }
    }

    /// The value to give for a solution: its own, or an end of the level stretch in which it lies.
    fn settle(&mut self, x: f64) -> Result<f64, Failure> {
        let Some(level) = self.at(x) else { return Ok(x) };
        let step = (NARROW * x.abs()).max(f64::MIN_POSITIVE);
        if ![x - step, x + step].into_iter().any(|x| self.at(x) == Some(level)) {
            return Ok(x);
        }
        let sides = [f64::MIN, f64::MAX].map(|last| match self.at(last) == Some(level) {
            true => (last, last),
            false => between(x, last, |x| self.at(x) == Some(level)),
        });
        let ends = sides.map(|(end, _)| end);
        let width = ends[1] - ends[0];
        let moves = sides.map(|(_, beyond)| self.at(beyond).is_some_and(|y| y != level));
        let nearer = usize::from(ends[1].abs() < ends[0].abs());
        let side = match moves {
            [false, false] => return Err(Failure::Level(ends)),
            [true, true] => nearer,
            [_, up] => usize::from(up),
        };
        // Rounding makes a result level too: near a turning point, or beside a greater term. There it hardly moves
        // farther on, and one value is as good as another.
        let (end, beyond) = sides[side];
        let reach = width.min(beyond.abs().max(f64::MIN_POSITIVE));
        let far = if side == 0 { beyond - 0.5 * reach } else { beyond + reach };
        let (last, _) = between(beyond, far, |x| self.at(x).is_some());
        let moved = self.at(last).map_or(0.0, |y| (y - level).abs());
        let is_level = moved > NARROW * level.abs() && moved > MIN_MOVE;
        match () {
            () if !is_level && width <= 2.0 * end.abs() => Ok(x),
            // The result began to move at zero, and vanished among the smallest floats.
            () if end.abs() < MIN_END && ends[0] <= 0.0 && 0.0 <= ends[1] => Ok(0.0),
            () => Ok(end),
        }
    }

    /// The output at a value of the sought argument; `None` where the formula has no answer there.
    fn at(&mut self, x: f64) -> Option<f64> {
        if !self.formula.arguments[self.sought].side(self.units).domain.holds(x) {
            return None;
        }
        self.row[self.sought] = x;
        let mut y = [f64::NAN; MAX_OUTPUTS];
        (self.formula.code.one)(self.units, &self.row, &mut y);
        // An answer has all its results.
        self.formula.finite(self.units, &y).ok().map(|_| y[self.output])
    }

    /// Values at which the formula may have an answer: the ends of the domain and zero, then what rules compare the
    /// argument with, which is another argument of its dimension, and the floats next to them.
    fn anchors(&self) -> [f64; ENDS + 3 * MAX_INPUTS] {
        let mut anchors = [0.0; ENDS + 3 * MAX_INPUTS];
        let sought = &self.formula.arguments[self.sought];
        let domain = sought.side(self.units).domain;
        for (to, end) in anchors[1..].iter_mut().zip([domain.low(), domain.high()]) {
            *to = end.map_or(0.0, |(end, _)| end);
        }
        for (k, argument) in self.formula.arguments.iter().enumerate() {
            if k != self.sought && argument.kind.dimension == sought.kind.dimension {
                let x = self.row[k];
                anchors[ENDS + 3 * k..][..3].copy_from_slice(&[x, x.next_up(), x.next_down()]);
            }
        }
        anchors
    }

    /// A power of two at which the formula has an answer, sought from one outward.
    fn power(&mut self) -> Option<(f64, f64)> {
        let exponents = (0..1023_i32).step_by(6).flat_map(|k| [k, -k]);
        exponents
            .map(|k| f64::from_bits(((1023 + k) as u64) << 52))
            .flat_map(|x| [x, -x])
            .find_map(|x| Some((x, self.at(x)?)))
    }

    /// The least and the greatest output, given a value of the argument at which there is an answer.
    fn reach(&mut self, anchor: f64) -> (f64, f64) {
        let ends = [f64::MIN, f64::MAX].map(|end| {
            let (last, _) = between(anchor, end, |x| self.at(x).is_some());
            self.at(last).unwrap_or(f64::NAN)
        });
        (ends[0].min(ends[1]), ends[0].max(ends[1]))
    }

    /// A rule between the given arguments that fails at any value of the sought one.
    fn broken_rule(&self) -> Option<usize> {
        self.formula
            .rules
            .iter()
            .position(|rule| !rule.arguments.contains(&self.sought) && !(rule.holds)(self.units, &self.row))
    }

    fn error(&mut self, failure: &Failure, wanted: f64, given: impl Fn(usize) -> f64) -> Error {
        let output = &self.formula.outputs[self.output];
        let unit = output.kind.unit(self.units);
        let sought = format!("{} = {}", self.formula.output_name(self.output), WithUnit(wanted, unit.label));
        let reason = match *failure {
            Failure::Argument(k) => return self.formula.refuse(k, given(k), self.units),
            Failure::Wanted => format!("the wanted result is {wanted}"),
            Failure::Nowhere => match self.broken_rule() {
                Some(rule) => return self.formula.broken(rule, self.units, &self.row),
                None => "with these arguments no value gives an answer".into(),
            },
            Failure::Level(ends) => {
                let unit = self.formula.arguments[self.sought].unit(self.units);
                let [least, greatest] = ends.map(|end| WithUnit(unit.from_base(end), unit.label));
                let is_bounded = ends.iter().all(|end| *end == 0.0 || (MIN_END..1e300).contains(&end.abs()));
                match is_bounded {
                    true => {
                        format!(
                            "every value from {least} to {greatest} gives {sought}: there is no single solution"
                        )
                    }
                    false => format!("every value gives {sought}: there is no single solution"),
                }
            }
            Failure::OutOfReach(None) => format!("no value gives {sought}"),
            Failure::OutOfReach(Some(anchor)) => {
                let (least, greatest) = self.reach(anchor);
                let reading = |base: f64| WithUnit(unit.from_base(base), unit.label);
                let reach = format!("between {} and {}", reading(least), reading(greatest));
                format!("no value gives {sought}: here the result is {reach}")
            }
        };
        self.formula.unsolvable(self.formula.arguments[self.sought].name, reason)
    }
}

/// Ends of a domain, and zero: they come first among the anchors.
const ENDS: usize = 3;

/// Part of a number that a step or a move must be of it to count as one, and not as rounding.
const NARROW: f64 = 1e-9;

/// What is less comes from results that vanish among the smallest floats.
const MIN_MOVE: f64 = 1e-200;

/// An end nearer to zero than this is zero.
const MIN_END: f64 = 1e-100;

/// Two neighbouring floats between `yes` and `no`, of which `holds` is true of the first and false of the second.
///
/// Bisection over the floats in their order ends in 64 steps at any size.
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
        let told = "surface_speed cannot be solved for speed: it has no argument `speed`; its arguments are diameter, spindle_speed";
        assert_eq!(error.to_string(), told);
    }

    // A ball of 10 mm leaves no scallop higher than its radius, though the closed solution gives a stepover for it.
    #[test]
    fn a_closed_solution_of_another_branch_is_none() {
        let scallop = crate::find("scallop_height").unwrap();
        let solve =
            |height: f64| scallop.solve_for(Units::Metric, "stepover", None, height, &[10.0, f64::NAN]);
        assert!((solve(1.0).unwrap() - 6.0).abs() < 1e-12); // 2 √(1 · 9)
        assert!(solve(9.0).unwrap_err().to_string().contains("no value gives scallop_height = 9 mm"));
    }

    #[test]
    fn of_a_level_stretch_the_end_is_given_at_which_the_result_begins_to_move() {
        let solve = |name: &str, argument: &str, wanted: f64, given: &[f64]| {
            crate::find(name).unwrap().solve_for(Units::Metric, argument, None, wanted, given)
        };
        // Grooves are full from an overlap as great as the tooth is high: 0.5 mm for a pitch of 1 mm and 90°, by hand.
        let overlap = |fill: f64| solve("groove_fill", "overlap", fill, &[f64::NAN, 1.0, 90.0]).unwrap();
        assert!((overlap(1.0) - 0.5).abs() < 1e-12);
        assert_eq!(overlap(0.0), 0.0);
        // A shaft of 80 mm at -79 °C has shrunk by 80 · 11e-6 · 99 mm: up to that less the clearance of 0.02 mm, no heat.
        let names: Vec<_> =
            crate::find("joining_temperature").unwrap().arguments.iter().map(|a| a.name).collect();
        let given: Vec<f64> = names
            .iter()
            .map(|name| match *name {
                "clearance" => 0.02,
                "diameter" => 80.0,
                "hub_expansion" => 12e-6,
                "shaft_expansion" => 11e-6,
                "temperature_limit" => 250.0,
                "shaft_temperature" => -79.0,
                "room_temperature" => 20.0,
                _ => f64::NAN,
            })
            .collect();
        let interference = solve("joining_temperature", "interference", 20.0, &given).unwrap();
        assert!((interference - (80.0 * 11e-6 * 99.0 - 0.02)).abs() < 1e-9, "{interference}");
        // Without fill nothing but the pitch's whole domain is left.
        let error = solve("groove_fill", "pitch", 0.0, &[-0.1, f64::NAN, 90.0]).unwrap_err().to_string();
        assert!(
            error.contains("every value gives groove_fill = 0")
                && error.ends_with("there is no single solution"),
            "{error}"
        );
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

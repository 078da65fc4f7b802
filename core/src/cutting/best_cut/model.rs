//! The figures of a cut as powers of what is chosen.
//!
//! A figure is straight in the logarithms of the arguments that its formula declares so. In another argument it lies
//! between its values at the ends of a stretch, if the formula declares that it rises or falls with it; if it does not,
//! nothing is known of it but at a point.
use super::figure::{Product, Stretch};
use super::problem::{BestCutError, CutChoice, CutProblem};
use super::program::{MAX_UNKNOWNS, Vector};
use crate::formula::{Formula, MAX_OUTPUTS};
use crate::math::{exp, ln};

/// Arguments that may be chosen at most: one unknown is for the search of a first point.
pub(super) const MAX_CHOSEN: usize = MAX_UNKNOWNS - 1;

/// What a problem comes to.
pub(super) struct Model<'a> {
    pub problem: &'a CutProblem,
    /// The arguments in whose logarithm figures are straight, by place.
    pub straight: Vec<usize>,
    /// Their ranges, in logarithms.
    pub ranges: Vec<(f64, f64)>,
    /// The other chosen arguments, by place.
    pub bent: Vec<usize>,
    /// Their ranges.
    pub stretches: Vec<Stretch>,
    /// A row of arguments, and of unknowns behind them, that has an answer.
    pub base: Vec<f64>,
    /// The slopes of each result.
    pub slopes: Vec<Vector>,
    pub derived: Vec<(String, Product)>,
    /// What is kept low: a constant and a sum.
    pub constant: f64,
    pub sum: Vec<Product>,
    /// Whether the objective is the inverse of the sum, which is one product then.
    pub inverted: bool,
}

pub(super) fn refused<T>(message: String) -> Result<T, BestCutError> {
    Err(BestCutError::Problem(message))
}

impl<'a> Model<'a> {
    pub fn new(problem: &'a CutProblem) -> Result<Model<'a>, BestCutError> {
        let formula = problem.formula;
        formula.count("arguments", formula.arguments.len(), problem.arguments.len())?;
        let mut model = Model {
            problem,
            straight: vec![],
            ranges: vec![],
            bent: vec![],
            stretches: vec![],
            base: problem
                .arguments
                .iter()
                .chain(problem.unknowns.iter().map(|own| &own.least))
                .copied()
                .collect(),
            slopes: vec![[0.0; MAX_UNKNOWNS]; formula.outputs.len()],
            derived: Vec::with_capacity(4 + problem.laws.len()),
            constant: 0.0,
            sum: vec![],
            inverted: false,
        };
        let ends = model.read_choices()?;
        let ends = model.accepted(ends)?;
        for (at, low, high) in ends {
            match formula.arguments.get(at).is_none_or(|argument| argument.power_law) && low > 0.0 {
                true => {
                    model.straight.push(at);
                    model.ranges.push((ln(low), ln(high)));
                }
                false => {
                    model.bent.push(at);
                    model.stretches.push(Stretch { low, high });
                }
            }
        }
        model.find_slopes()?;
        model.derive()?;
        model.set_objective()?;
        Ok(model)
    }

    /// The chosen arguments with their ends, without those between equal ends.
    fn read_choices(&mut self) -> Result<Vec<(usize, f64, f64)>, BestCutError> {
        let (formula, units) = (self.problem.formula, self.problem.units);
        let mut ends: Vec<(usize, f64, f64)> = vec![];
        if self.problem.choose.is_empty() && self.problem.unknowns.is_empty() {
            return refused("name at least one argument that may be chosen".into());
        }
        for choice in &self.problem.choose {
            let Some(at) = formula.arguments.iter().position(|argument| argument.name == choice.name) else {
                return refused(unknown(formula, &choice.name));
            };
            let (name, argument) = (&choice.name, &formula.arguments[at]);
            let (least, greatest) = (choice.least, choice.greatest);
            if !(least.is_finite() && greatest.is_finite() && least <= greatest) {
                return refused(format!(
                    "{name} must be chosen between two numbers, the lower first, not {least} and {greatest}"
                ));
            }
            if (argument.side(units).domain.is_whole() || argument.exact) && least < greatest {
                return refused(format!(
                    "{name} cannot be chosen between ends. Fix: give the values to choose from"
                ));
            }
            if ends.iter().any(|&(other, ..)| other == at) {
                return refused(format!("{name} is chosen twice"));
            }
            self.base[at] = least;
            ends.push((at, least, greatest));
        }
        for (k, CutChoice { name, least, greatest }) in self.problem.unknowns.iter().enumerate() {
            self.check_unknown(k)?;
            if !(*least > 0.0 && greatest.is_finite() && least <= greatest) {
                return refused(format!(
                    "{name} must lie between two numbers above 0, the lower first, not {least} and {greatest}"
                ));
            }
            ends.push((formula.arguments.len() + k, *least, *greatest));
        }
        let (fixed, open): (Vec<_>, Vec<_>) =
            ends.into_iter().partition(|(_, least, greatest)| least == greatest);
        if open.len() > MAX_CHOSEN {
            return refused(format!(
                "at most {MAX_CHOSEN} arguments and unknowns can be chosen at once, not {}",
                open.len()
            ));
        }
        debug_assert!(fixed.iter().all(|&(at, least, _)| self.base[at] == least));
        Ok(open)
    }

    /// The ends within which the formula has answers, from a row that has one, which becomes the base.
    fn accepted(&mut self, mut ends: Vec<(usize, f64, f64)>) -> Result<Vec<(usize, f64, f64)>, BestCutError> {
        let rules = self.problem.formula.rules;
        let chosen = |place: &usize| ends.iter().any(|(at, ..)| at == place);
        if let Some(rule) =
            rules.iter().find(|rule| rule.arguments.iter().filter(|place| chosen(place)).count() > 1)
        {
            return refused(format!("these arguments cannot be chosen at once, since {}", rule.text));
        }
        let mut error = None;
        let corners = 1usize << ends.len();
        let found = (0..corners).any(|corner| {
            for (k, &(at, low, high)) in ends.iter().enumerate() {
                self.base[at] = if corner >> k & 1 == 0 { low } else { high };
            }
            match self.results(&self.base) {
                Ok(_) => true,
                Err(refusal) => {
                    error.get_or_insert(refusal);
                    false
                }
            }
        });
        if !found {
            return match error {
                Some(error) => Err(error.into()),
                None => refused("there is nothing to choose".into()),
            };
        }
        for (at, low, high) in &mut ends {
            let inside = self.base[*at];
            *low = self.last_accepted(*at, inside, *low);
            *high = self.last_accepted(*at, inside, *high);
        }
        Ok(ends)
    }

    /// The value nearest to `end` at which the formula has an answer, from one at which it has.
    fn last_accepted(&self, at: usize, mut inside: f64, end: f64) -> f64 {
        let mut row = self.base.clone();
        let mut accepts = |value: f64| {
            row[at] = value;
            self.results(&row).is_ok()
        };
        if accepts(end) {
            return end;
        }
        let mut outside = end;
        for _ in 0..80 {
            let middle = inside + 0.5 * (outside - inside);
            match accepts(middle) {
                true => inside = middle,
                false => outside = middle,
            }
        }
        inside
    }

    pub fn results(&self, row: &[f64]) -> Result<[f64; MAX_OUTPUTS], crate::Error> {
        let formula = self.problem.formula;
        let mut results = [f64::NAN; MAX_OUTPUTS];
        formula.call(
            self.problem.units,
            &row[..formula.arguments.len()],
            &mut results[..formula.outputs.len()],
        )?;
        Ok(results)
    }

    /// The slope of each result by each straight argument, from two points of its line.
    fn find_slopes(&mut self) -> Result<(), BestCutError> {
        let here = self.results(&self.base)?;
        for j in 0..self.straight.len() {
            let (at, (low, high)) = (self.straight[j], self.ranges[j]);
            let mut row = self.base.clone();
            let own = ln(row[at]);
            row[at] = exp(if own - low > high - own { low } else { high });
            // The end may have rounded over a rule.
            if self.results(&row).is_err() {
                row[at] = exp(0.5 * (low + high));
            }
            let (there, step) = (self.results(&row)?, ln(row[at]) - own);
            for (k, slopes) in self.slopes.iter_mut().enumerate() {
                slopes[j] = match here[k] > 0.0 && there[k] > 0.0 && here[k] != there[k] {
                    true => ln(there[k] / here[k]) / step,
                    false => 0.0,
                };
            }
        }
        Ok(())
    }

    /// The name of an unknown must be its own.
    fn check_unknown(&self, k: usize) -> Result<(), BestCutError> {
        let CutProblem { formula, unknowns, .. } = self.problem;
        let name = unknowns[k].name.as_str();
        let taken = formula.arguments.iter().any(|argument| argument.name == name)
            || (0..formula.outputs.len()).any(|output| formula.output_name(output) == name)
            || unknowns[..k].iter().any(|other| other.name == name)
            || ["", "cost", "time", "tool_life", "edge_use", "stable_depth"].contains(&name);
        match taken {
            true => refused(format!("an unknown must have a name of its own, not `{name}`")),
            false => Ok(()),
        }
    }

    /// How long a row is: arguments and unknowns.
    pub fn width(&self) -> usize {
        self.base.len()
    }

    /// How many figures stand before the derived ones.
    pub fn told(&self) -> usize {
        self.width() + self.problem.formula.outputs.len()
    }

    /// The place of a figure among all of them.
    pub fn place(&self, name: &str) -> Option<usize> {
        let formula = self.problem.formula;
        let argument = || formula.arguments.iter().position(|argument| argument.name == name);
        let output = || (0..formula.outputs.len()).find(|&k| formula.output_name(k) == name);
        let unknown = || self.problem.unknowns.iter().position(|own| own.name == name);
        let derived = || self.derived.iter().position(|(known, _)| known == name);
        derived()
            .map(|k| self.told() + k)
            .or_else(|| output().map(|k| self.width() + k))
            .or_else(argument)
            .or_else(|| unknown().map(|k| formula.arguments.len() + k))
    }

    /// The name of a figure.
    pub fn name(&self, place: usize) -> &str {
        let formula = self.problem.formula;
        match place.checked_sub(self.width()) {
            None => match formula.arguments.get(place) {
                Some(argument) => argument.name,
                None => &self.problem.unknowns[place - formula.arguments.len()].name,
            },
            Some(output) if output < formula.outputs.len() => formula.output_name(output),
            Some(_) => &self.derived[place - self.told()].0,
        }
    }

    /// The place of a figure, or what figures there are.
    pub fn known(&self, name: &str) -> Result<usize, BestCutError> {
        match self.place(name) {
            Some(place) => Ok(place),
            None => {
                let formula = self.problem.formula;
                let results = (0..formula.outputs.len()).map(|k| formula.output_name(k));
                let own = self.derived.iter().map(|(name, _)| name.as_str());
                let names: Vec<_> = results
                    .chain(own)
                    .chain(formula.arguments.iter().map(|argument| argument.name))
                    .chain(self.problem.unknowns.iter().map(|own| own.name.as_str()))
                    .collect();
                let hint = match name {
                    "tool_life" | "edge_use" => "; for it, give tool_life",
                    "time" => "; for it, give path_length or volume",
                    _ => "",
                };
                let meant = crate::nearest::nearest(name, names.iter().copied());
                let meant = meant.map(|meant| format!(". Is it `{meant}`?")).unwrap_or_default();
                refused(format!(
                    "`{}` is not an argument or a result of {}; expected {}{hint}{meant}",
                    crate::error::excerpt(name),
                    formula.name,
                    names.join(", ")
                ))
            }
        }
    }

    /// The unit of a figure; empty for a plain number and for figures of the caller's own.
    pub fn unit(&self, place: usize) -> &'static str {
        let (formula, units) = (self.problem.formula, self.problem.units);
        match place.checked_sub(self.width()) {
            None => formula.arguments.get(place).map_or("", |argument| argument.unit(units).label),
            Some(output) if output < formula.outputs.len() => formula.outputs[output].kind.unit(units).label,
            Some(_) if matches!(self.derived[place - self.told()].0.as_str(), "time" | "tool_life") => "min",
            Some(_) => "",
        }
    }

    /// Every figure with its name: arguments, unknowns, results, and what is worked out beside them.
    pub fn named<'f>(&'f self, figures: &'f [f64]) -> impl Iterator<Item = (&'f str, f64)> {
        figures.iter().enumerate().map(|(place, &value)| (self.name(place), value))
    }

    /// Names and values of the figures that the formula does not tell itself.
    pub fn derived_of<'f>(&'f self, figures: &'f [f64]) -> impl Iterator<Item = (&'f str, f64)> {
        let told = self.told();
        self.derived.iter().enumerate().map(move |(k, (name, _))| (name.as_str(), figures[told + k]))
    }
}

pub(super) fn unknown(formula: &Formula, name: &str) -> String {
    let names: Vec<_> = formula.arguments.iter().map(|argument| argument.name).collect();
    format!(
        "{} has no argument `{}`; its arguments are {}",
        formula.name,
        crate::error::excerpt(name),
        names.join(", ")
    )
}

//! The figures of a cut as powers of what is chosen.
//!
//! A figure is straight in the logarithms of the arguments that its formula declares so. In another argument it lies
//! between its values at the ends of a stretch, if the formula declares that it rises or falls with it; if it does not,
//! nothing is known of it but at a point.
use super::problem::{BestCutError, CutChoice, CutLife, CutObjective, CutProblem, CutRates};
use super::program::{MAX_UNKNOWNS, Vector};
use crate::formula::{Formula, MAX_OUTPUTS};
use crate::math::{exp, ln, powf};

/// Arguments that may be chosen at most: one unknown is for the search of a first point.
pub(super) const MAX_CHOSEN: usize = MAX_UNKNOWNS - 1;
/// What divides a range in two, seen from its least end.
const MIDDLE: f64 = 0.5;

/// A figure between two planes of the same slopes, all in logarithms.
#[derive(Clone, Copy, Debug)]
pub(super) struct Figure {
    pub low: f64,
    pub high: f64,
    pub slopes: Vector,
}

impl Figure {
    fn constant(value: f64) -> Figure {
        let level = if value > 0.0 { ln(value) } else { f64::NEG_INFINITY };
        Figure { low: level, high: level, slopes: [0.0; MAX_UNKNOWNS] }
    }
}

/// `factor · Π figure^exponent`, the figures by place.
#[derive(Clone, Debug)]
pub(super) struct Product {
    pub factor: f64,
    pub parts: Vec<(usize, f64)>,
}

impl Product {
    fn of(place: usize) -> Product {
        Product { factor: 1.0, parts: vec![(place, 1.0)] }
    }

    pub fn times(&self, factor: f64) -> Product {
        Product { factor: self.factor * factor, parts: self.parts.clone() }
    }

    pub fn inverse(&self) -> Product {
        Product {
            factor: 1.0 / self.factor,
            parts: self.parts.iter().map(|&(place, by)| (place, -by)).collect(),
        }
    }

    /// Its value, from those of the figures.
    fn value(&self, figures: &[f64]) -> f64 {
        let powers = self.parts.iter().map(|&(place, by)| match by {
            1.0 => figures[place],
            -1.0 => 1.0 / figures[place],
            by => powf(figures[place], by),
        });
        powers.fold(self.factor, |product, power| product * power)
    }

    pub fn figure(&self, figures: &[Figure]) -> Figure {
        let mut product = Figure::constant(self.factor);
        for &(place, by) in &self.parts {
            let Figure { low, high, slopes } = figures[place];
            let (low, high) = if by > 0.0 { (low, high) } else { (high, low) };
            product.low += by * low;
            product.high += by * high;
            product.slopes.iter_mut().zip(&slopes).for_each(|(to, slope)| *to += by * slope);
        }
        product
    }
}

/// A stretch of an argument in which figures are not known to be straight.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Stretch {
    pub low: f64,
    pub high: f64,
}

impl Stretch {
    pub fn is_point(&self) -> bool {
        self.low == self.high
    }

    pub fn middle(&self) -> f64 {
        self.low + MIDDLE * (self.high - self.low)
    }
}

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
    slopes: Vec<Vector>,
    derived: Vec<(String, Product)>,
    /// What is kept low: a constant and a sum.
    pub constant: f64,
    pub sum: Vec<Product>,
    /// Whether the objective is the inverse of the sum, which is one product then.
    pub inverted: bool,
}

fn refused<T>(message: String) -> Result<T, BestCutError> {
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

    fn results(&self, row: &[f64]) -> Result<[f64; MAX_OUTPUTS], crate::Error> {
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
    fn told(&self) -> usize {
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

    /// Time, tool life, and the laws of the caller.
    fn derive(&mut self) -> Result<(), BestCutError> {
        let problem = self.problem;
        let told = |name: &str, value: f64| match value > 0.0 && value.is_finite() {
            true => Ok(value),
            false => refused(format!("{name} must be greater than 0, not {value}")),
        };
        let timed =
            [("path_length", problem.path_length, "feed_rate"), ("volume", problem.volume, "removal_rate")];
        let mut timed = timed.into_iter().filter_map(|(name, given, by)| Some((name, given?, by)));
        if let Some((name, given, by)) = timed.next() {
            if let Some((other, ..)) = timed.next() {
                return refused(format!("give {name} or {other}, not both"));
            }
            if self.place("time").is_some() {
                return refused(format!("{} has a time: leave out {name}", problem.formula.name));
            }
            let factor = told(name, given)?;
            let by = self.known(by)?;
            // Shop units of volume and removal rate go together on both sides, and so do those of length and feed rate.
            self.derived.push(("time".into(), Product { factor, parts: vec![(by, -1.0)] }));
        }
        if let Some(life) = problem.tool_life {
            let life = self.life(&life)?;
            self.derived.push(("tool_life".into(), life));
            if let Some(time) = self.place("time") {
                let life = self.known("tool_life")?;
                let parts = vec![(time, 1.0), (life, -1.0)];
                self.derived.push(("edge_use".into(), Product { factor: 1.0, parts }));
            }
        }
        for law in &problem.laws {
            if self.place(&law.name).is_some() || law.name.is_empty() {
                return refused(format!("a law must have a name of its own, not `{}`", law.name));
            }
            let factor = told(&format!("the factor of {}", law.name), law.factor)?;
            let mut parts = vec![];
            for (name, by) in &law.exponents {
                if !by.is_finite() {
                    return refused(format!(
                        "the exponent of {name} in {} must be finite, not {by}",
                        law.name
                    ));
                }
                parts.push((self.known(name)?, *by));
            }
            self.derived.push((law.name.clone(), Product { factor, parts }));
        }
        Ok(())
    }

    /// Taylor's law extended, as a power of speed, feed and depth.
    fn life(&self, life: &CutLife) -> Result<Product, BestCutError> {
        let CutLife { taylor_c, taylor_n, feed_exponent, depth_exponent, reference_feed, reference_depth } =
            *life;
        for (name, value) in
            [("taylor_c", taylor_c), ("reference_feed", reference_feed), ("reference_depth", reference_depth)]
        {
            if !(value > 0.0 && value.is_finite()) {
                return refused(format!("{name} must be greater than 0, not {value}"));
            }
        }
        if !(taylor_n > 0.0 && taylor_n <= 1.0) {
            return refused(format!("taylor_n must be greater than 0 and at most 1, not {taylor_n}"));
        }
        for (name, value) in [("feed_exponent", feed_exponent), ("depth_exponent", depth_exponent)] {
            if !(0.0..=10.0).contains(&value) {
                return refused(format!("{name} must be at least 0 and at most 10, not {value}"));
            }
        }
        let power = 1.0 / taylor_n;
        let mut product = Product { factor: powf(taylor_c, power), parts: vec![] };
        product.parts.push((self.known("surface_speed")?, -power));
        let mut by = |names: &[&str], exponent: f64, reference: f64, what: &str| {
            if exponent == 0.0 {
                return Ok(());
            }
            let Some(place) = names.iter().find_map(|name| self.place(name)) else {
                return refused(format!(
                    "{} has no {what} that tool life could depend on",
                    self.problem.formula.name
                ));
            };
            product.factor *= powf(reference, exponent * power);
            product.parts.push((place, -exponent * power));
            Ok(())
        };
        by(&["feed_per_revolution", "chip_load"], feed_exponent, reference_feed, "feed")?;
        // The depth of a drilled hole is not that of its cut.
        let is_hole = self.problem.formula.module.contains("drilling");
        let depths: &[&str] = if is_hole { &[] } else { &["axial_depth", "depth"] };
        by(depths, depth_exponent, reference_depth, "depth of cut")?;
        match product.factor > 0.0 && product.factor.is_finite() {
            true => Ok(product),
            false => refused("the tool life is too large or too small to represent".into()),
        }
    }

    fn set_objective(&mut self) -> Result<(), BestCutError> {
        let problem = self.problem;
        match &problem.objective {
            CutObjective::Most(name) => {
                self.sum = vec![Product::of(self.known(name)?).inverse()];
                self.inverted = true;
            }
            CutObjective::Own => {}
            CutObjective::Sum(parts) if parts.is_empty() => {
                return refused("the sum to minimise is empty".into());
            }
            CutObjective::Sum(parts) => {
                for (name, weight) in parts {
                    if !(*weight > 0.0 && weight.is_finite()) {
                        return refused(format!("the weight of {name} must be greater than 0, not {weight}"));
                    }
                    let part = match name.as_str() {
                        "cost" => CutObjective::Cost,
                        "time" => CutObjective::Time,
                        name => CutObjective::Least(name.into()),
                    };
                    self.add(&part, *weight)?;
                }
            }
            whole => self.add(whole, 1.0)?,
        }
        if self.sum.len() > 40 {
            return refused("the sum to minimise has too many parts: at most 20".into());
        }
        Ok(())
    }

    /// Adds a part of what is kept low.
    fn add(&mut self, part: &CutObjective, weight: f64) -> Result<(), BestCutError> {
        let rates = self.rates()?;
        let mut parts = vec![];
        match part {
            CutObjective::Cost => {
                let Some(CutRates { hourly_rate, edge_cost, tool_change_time, handling_time }) = rates else {
                    return refused("give rates to minimise the cost".into());
                };
                if hourly_rate <= 0.0 {
                    return refused(format!("hourly_rate must be greater than 0, not {hourly_rate}"));
                }
                if self.problem.tool_life.is_none() {
                    return refused(
                        "give tool_life to minimise the cost: without it the fastest cut would cost least"
                            .into(),
                    );
                }
                let minute = hourly_rate / 60.0;
                self.constant += weight * minute * handling_time;
                parts.push((self.known("time")?, minute));
                parts.push((self.known("edge_use")?, minute * tool_change_time + edge_cost));
            }
            CutObjective::Time => {
                self.constant += weight * rates.map_or(0.0, |rates| rates.handling_time);
                parts.push((self.known("time")?, 1.0));
                if let (Some(rates), Some(edges)) = (rates, self.place("edge_use")) {
                    parts.push((edges, rates.tool_change_time));
                }
            }
            CutObjective::EdgeUse => parts.push((self.known("edge_use")?, 1.0)),
            CutObjective::Least(name) => parts.push((self.known(name)?, 1.0)),
            CutObjective::Most(_) | CutObjective::Sum(_) | CutObjective::Own => {
                return refused("a sum has only parts that are kept low".into());
            }
        }
        let parts = parts.into_iter().filter(|(_, by)| *by > 0.0);
        self.sum.extend(parts.map(|(place, by)| Product::of(place).times(weight * by)));
        Ok(())
    }

    fn rates(&self) -> Result<Option<CutRates>, BestCutError> {
        let Some(rates) = self.problem.rates else { return Ok(None) };
        let numbers = [
            ("hourly_rate", rates.hourly_rate),
            ("edge_cost", rates.edge_cost),
            ("tool_change_time", rates.tool_change_time),
            ("handling_time", rates.handling_time),
        ];
        match numbers.into_iter().find(|(_, value)| !(*value >= 0.0 && value.is_finite())) {
            Some((name, value)) => refused(format!("{name} must be 0 or more, not {value}")),
            None => Ok(Some(rates)),
        }
    }

    /// All figures over stretches of the bent arguments.
    pub fn figures(&self, stretches: &[Stretch]) -> Vec<Figure> {
        let formula = self.problem.formula;
        let mut figures = Vec::with_capacity(self.told() + self.derived.len());
        figures.extend(self.base.iter().map(|&value| Figure::constant(value)));
        for (j, &at) in self.straight.iter().enumerate() {
            let mut slopes = [0.0; MAX_UNKNOWNS];
            slopes[j] = 1.0;
            figures[at] = Figure { low: 0.0, high: 0.0, slopes };
        }
        for (&at, stretch) in self.bent.iter().zip(stretches) {
            let [low, high] = [stretch.low, stretch.high].map(|end| Figure::constant(end).low);
            figures[at] = Figure { low, high, slopes: [0.0; MAX_UNKNOWNS] };
        }
        let corners: Vec<_> = self.corners(stretches).map(|row| self.results(&row).ok()).collect();
        for k in 0..formula.outputs.len() {
            let level = |corner: usize| match corners[corner] {
                Some(results) if results[k] >= 0.0 => self.level(results[k], &self.slopes[k]),
                _ => f64::NAN,
            };
            let [low, high] = match self.extreme_corners(stretches, formula.outputs[k].name) {
                Some([low, high]) => [level(low), level(high)],
                None => [f64::NAN; 2],
            };
            // What is not known may be anything.
            figures.push(Figure {
                low: if low.is_nan() { f64::NEG_INFINITY } else { low },
                high: if high.is_nan() { f64::INFINITY } else { high },
                slopes: self.slopes[k],
            });
        }
        for (_, product) in &self.derived {
            figures.push(product.figure(&figures));
        }
        figures
    }

    /// The logarithm of a figure where all chosen arguments are 1, from its value at the base.
    fn level(&self, value: f64, slopes: &Vector) -> f64 {
        let rise: f64 = self.straight.iter().zip(slopes).map(|(&at, slope)| slope * ln(self.base[at])).sum();
        if value > 0.0 { ln(value) - rise } else { f64::NEG_INFINITY }
    }

    /// Rows at the corners of the stretches, the straight arguments as in the base.
    fn corners(&self, stretches: &[Stretch]) -> impl Iterator<Item = Vec<f64>> {
        (0..1usize << stretches.len()).map(move |corner| {
            let mut row = self.base.clone();
            for (k, (&at, stretch)) in self.bent.iter().zip(stretches).enumerate() {
                row[at] = if corner >> k & 1 == 0 { stretch.low } else { stretch.high };
            }
            row
        })
    }

    /// The corners at which a result is least and greatest; nothing where that is not known.
    fn extreme_corners(&self, stretches: &[Stretch], output: &str) -> Option<[usize; 2]> {
        let mut corners = [0, 0];
        for (k, (&at, stretch)) in self.bent.iter().zip(stretches).enumerate() {
            if stretch.is_point() {
                continue;
            }
            let trends = self.problem.formula.arguments[at].trends;
            let rising = trends.iter().find(|trend| trend.output == output)?.rising;
            corners[usize::from(rising)] |= 1 << k;
        }
        Some(corners)
    }

    /// The row of a point.
    pub fn row(&self, at: &Vector, stretches: &[Stretch]) -> Vec<f64> {
        let mut row = self.base.clone();
        for (j, &place) in self.straight.iter().enumerate() {
            row[place] = exp(at[j]);
        }
        for (&place, stretch) in self.bent.iter().zip(stretches) {
            row[place] = stretch.middle();
        }
        row
    }

    /// Every figure of a row as the formulas have it.
    pub fn exact(&self, row: &[f64]) -> Option<Vec<f64>> {
        let results = self.results(row).ok()?;
        let mut figures = Vec::with_capacity(self.told() + self.derived.len());
        figures.extend_from_slice(row);
        figures.extend_from_slice(&results[..self.problem.formula.outputs.len()]);
        for (_, product) in &self.derived {
            figures.push(product.value(&figures));
        }
        Some(figures)
    }

    /// The objective, from all figures.
    pub fn objective(&self, figures: &[f64]) -> f64 {
        let sum: f64 = self.sum.iter().map(|product| product.value(figures)).sum();
        if self.inverted { 1.0 / sum } else { self.constant + sum }
    }

    /// The objective whose sum has this logarithm.
    pub fn objective_of(&self, logarithm: f64) -> f64 {
        if self.inverted { exp(-logarithm) } else { self.constant + exp(logarithm) }
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

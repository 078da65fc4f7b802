//! The limits of a choice, each as one side of one figure, and the curve of the machine's spindle.
use super::model::{Model, Stretch};
use super::problem::BestCutError;
use super::program::{MAX_UNKNOWNS, Program, Row, Term, Vector, dot};
use crate::cutting::machine::Machine;
use crate::math::{exp, ln};

/// Results that are the load of the motor, the better one first.
const POWERS: [&str; 2] = ["motor_power", "cutting_power"];
/// Results that are the force of the feeding axis.
const AXIS_FORCES: [&str; 3] = ["feed_force", "thrust", "thrust_force"];
/// How closely, in logarithms, a figure that is at its limit comes to it.
const AT_THE_LIMIT: f64 = 1e-7;
/// A bound in logarithms that is as low as none, of a figure that is zero.
const LOWEST: f64 = -700.0;
/// By how much a figure may be over its limit, for rounding.
const ROUNDING: f64 = 1e-9;

/// One side of a limit.
#[derive(Clone, Debug)]
pub(super) struct Limit {
    pub name: String,
    pub place: usize,
    pub least: bool,
    pub value: f64,
}

/// A load that the curve of the spindle bounds, by the speed.
#[derive(Clone, Copy, Debug)]
struct Load {
    place: usize,
    is_torque: bool,
}

/// All limits of a model.
pub(super) struct Limits<'a> {
    pub model: &'a Model<'a>,
    pub all: Vec<Limit>,
    machine: Option<&'a Machine>,
    loads: Vec<Load>,
    spindle: Option<usize>,
    /// Limits of the machine on which the formula has no figure.
    pub unchecked: Vec<&'static str>,
}

/// An interval of the logarithm of the spindle speed, within one piece of the curve.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Speeds(pub f64, pub f64);

/// A straight line by the logarithm of the speed.
#[derive(Clone, Copy)]
struct Line {
    level: f64,
    slope: f64,
}

impl<'a> Limits<'a> {
    pub fn new(model: &'a Model<'a>) -> Result<Limits<'a>, BestCutError> {
        let problem = model.problem;
        let mut limits = Limits {
            model,
            all: Vec::with_capacity(2 * problem.limits.len() + 16),
            machine: None,
            loads: vec![],
            spindle: None,
            unchecked: vec![],
        };
        for limit in &problem.limits {
            let place = model.known(&limit.name)?;
            let sides = [(true, limit.least), (false, limit.greatest)];
            for (least, value) in sides.into_iter().filter_map(|(least, value)| Some((least, value?))) {
                if value.is_nan() || (least && value == f64::INFINITY) || (!least && value <= 0.0) {
                    return Err(BestCutError::Problem(format!(
                        "the {} {} must be {}, not {value}",
                        if least { "least" } else { "greatest" },
                        limit.name,
                        if least { "a finite number" } else { "greater than 0" },
                    )));
                }
                // Every figure is above zero, and below infinity.
                if value > 0.0 && value < f64::INFINITY {
                    limits.add(limit.name.clone(), place, least, value);
                }
            }
            if let (Some(least), Some(greatest)) = (limit.least, limit.greatest)
                && least > greatest
            {
                return Err(BestCutError::Problem(format!(
                    "the least {} is {least}, above its greatest, {greatest}",
                    limit.name
                )));
            }
        }
        if let Some(machine) = &problem.machine {
            limits.add_machine(machine)?;
        }
        for (&at, &(low, high)) in model.straight.iter().zip(&model.ranges) {
            let name = problem.formula.arguments[at].name;
            limits.add(name.into(), at, true, exp(low));
            limits.add(name.into(), at, false, exp(high));
        }
        Ok(limits)
    }

    fn add(&mut self, name: String, place: usize, least: bool, value: f64) {
        self.all.push(Limit { name, place, least, value });
    }

    fn add_machine(&mut self, machine: &'a Machine) -> Result<(), BestCutError> {
        let (model, units) = (self.model, self.model.problem.units);
        let find = |names: &[&str]| names.iter().find_map(|name| model.place(name));
        let (spindle, feed_rate) = (find(&["spindle_speed"]), find(&["feed_rate"]));
        let Some(spindle) = spindle else {
            return Err(BestCutError::Problem(format!(
                "{} has no spindle_speed to hold against the machine",
                model.problem.formula.name
            )));
        };
        let (slowest, fastest) = machine.spindle_speeds(units);
        let plain = [
            ("spindle_speed", Some(spindle), true, Some(slowest).filter(|&speed| speed > 0.0)),
            ("spindle_speed", Some(spindle), false, Some(fastest)),
            ("least_feed_rate", feed_rate, true, machine.least_feed_rate(units)),
            ("greatest_feed_rate", feed_rate, false, machine.greatest_feed_rate(units)),
            ("greatest_axis_force", find(&AXIS_FORCES), false, machine.greatest_axis_force(units)),
        ];
        for (name, place, least, value) in plain {
            match (place, value) {
                (_, None) => {}
                (None, Some(_)) => self.unchecked.push(name),
                (Some(place), Some(value)) => self.add(model.name(place).into(), place, least, value),
            }
        }
        let loads = [
            ("power", find(&POWERS), false, machine.power_at(fastest, units)),
            ("torque", find(&["torque"]), true, machine.torque_at(fastest, units)),
        ];
        for (name, place, is_torque, told) in loads {
            match (place, told) {
                (_, None) => {}
                (None, Some(_)) => self.unchecked.push(name),
                (Some(place), Some(_)) => self.loads.push(Load { place, is_torque }),
            }
        }
        if !self.loads.is_empty() {
            self.machine = Some(machine);
            self.spindle = Some(spindle);
            if self.pieces().is_empty() {
                return Err(BestCutError::Problem(
                    "the curve of the machine gives no power or torque at any of its spindle speeds".into(),
                ));
            }
        }
        Ok(())
    }

    /// The most of a load at a spindle speed.
    fn most(&self, load: &Load, speed: f64) -> f64 {
        let units = self.model.problem.units;
        let told = self.machine.and_then(|machine| match load.is_torque {
            true => machine.torque_at(speed, units),
            false => machine.power_at(speed, units),
        });
        told.unwrap_or(f64::INFINITY)
    }

    /// The pieces of the curve between its points, in which each load has something.
    pub fn pieces(&self) -> Vec<Speeds> {
        let Some(machine) = self.machine else { return vec![] };
        let (slowest, fastest) = machine.spindle_speeds(self.model.problem.units);
        let slowest = slowest.max(1e-6 * fastest);
        let points = machine.data().curve.iter().map(|point| point.spindle_speed.value());
        let within = points.filter(|&speed| slowest < speed && speed < fastest);
        let ends: Vec<f64> = std::iter::once(slowest).chain(within).chain([fastest]).collect();
        let mut pieces = vec![];
        for pair in ends.windows(2) {
            // Where a load begins or ends at nothing, its logarithm does too: a millionth of the piece stays out.
            let (mut low, mut high) = (pair[0], pair[1]);
            let (width, gives) =
                (high - low, |speed| self.loads.iter().all(|load| self.most(load, speed) > 0.0));
            low += if gives(low) { 0.0 } else { 1e-6 * width };
            high -= if gives(high) { 0.0 } else { 1e-6 * width };
            if gives(low) && gives(high) {
                pieces.push(Speeds(ln(low), ln(high)));
            }
        }
        if slowest == fastest && self.loads.iter().all(|load| self.most(load, fastest) > 0.0) {
            pieces = vec![Speeds(ln(fastest), ln(fastest))];
        }
        pieces
    }

    /// A line above the logarithm of a load over some speeds, and one below.
    ///
    /// Between the points of the curve a load is straight by the speed, so that its logarithm bends one way: the chord is
    /// on one side of it, the tangent on the other. Beyond the points it is straight in logarithms too.
    fn lines(&self, load: &Load, speeds: Speeds) -> [Line; 2] {
        let Speeds(low, high) = speeds;
        let at = |logarithm: f64| self.most(load, exp(logarithm));
        let (first, last) = (at(low), at(high));
        if high - low < 1e-12 {
            return [Line { level: ln(first), slope: 0.0 }; 2];
        }
        let slope = (ln(last) - ln(first)) / (high - low);
        let chord = Line { level: ln(first) - slope * low, slope };
        let middle = 0.5 * (low + high);
        let (there, over) = (at(middle), chord.level + chord.slope * middle);
        if (ln(there) - over).abs() < 1e-13 {
            return [chord; 2];
        }
        let speed = exp(middle);
        let rise = (last - first) / (exp(high) - exp(low)) * speed / there;
        let tangent = Line { level: ln(there) - rise * middle, slope: rise };
        if over > ln(there) { [chord, tangent] } else { [tangent, chord] }
    }

    /// Whether the two lines of every load are one, so that a programme is exact.
    pub fn is_straight(&self, speeds: Option<Speeds>) -> bool {
        let Some(speeds) = speeds else { return true };
        let gap = |load: &Load| {
            let [above, below] = self.lines(load, speeds);
            let at = |speed| (above.level - below.level) + (above.slope - below.slope) * speed;
            at(speeds.0).max(at(speeds.1))
        };
        self.loads.iter().all(|load| gap(load) < 1e-9)
    }

    /// The programme over stretches and speeds: a generous one allows whatever may be within the limits there, the
    /// other only what surely is. That takes the stretches at a point.
    pub fn program(&self, stretches: &[Stretch], speeds: Option<Speeds>, generous: bool) -> Program {
        let figures = self.model.figures(stretches);
        let mut rows = Vec::with_capacity(self.all.len() + 4);
        let mut add = |slopes: Vector, bound: f64, limit: Option<usize>| {
            if bound < f64::INFINITY {
                rows.push(Row { slopes, bound: bound.max(LOWEST), limit });
            }
        };
        let negative = |slopes: &Vector| slopes.map(|slope| -slope);
        for (k, limit) in self.all.iter().enumerate() {
            let figure = &figures[limit.place];
            match limit.least {
                true => add(negative(&figure.slopes), figure.high - ln(limit.value), Some(k)),
                false => add(figure.slopes, ln(limit.value) - figure.low, Some(k)),
            }
        }
        if let (Some(speeds), Some(spindle)) = (speeds, self.spindle) {
            let speed = &figures[spindle];
            add(speed.slopes, speeds.1 - speed.low, None);
            add(negative(&speed.slopes), speed.high - speeds.0, None);
            for (k, load) in self.loads.iter().enumerate() {
                let [above, below] = self.lines(load, speeds);
                let mut line = if generous { above } else { below };
                // A speed that is not known to a point lies anywhere in its piece.
                if speed.low < speed.high {
                    let at = |end: f64| line.level + line.slope * end;
                    line = Line { level: at(speeds.0).max(at(speeds.1)), slope: 0.0 };
                }
                let mut slopes = figures[load.place].slopes;
                slopes.iter_mut().zip(&speed.slopes).for_each(|(to, by)| *to -= line.slope * by);
                let level = if line.slope == 0.0 { 0.0 } else { line.slope * speed.low };
                add(slopes, line.level + level - figures[load.place].low, Some(self.all.len() + k));
            }
        }
        let terms = self.model.sum.iter().map(|product| {
            let figure = product.figure(&figures);
            Term { level: figure.low, slopes: figure.slopes }
        });
        let terms = terms.filter(|term| term.level > f64::NEG_INFINITY).collect();
        Program { unknowns: self.model.straight.len(), terms, rows, ranges: self.model.ranges.clone() }
    }

    /// The name of a limit by the place that its row tells.
    pub fn name(&self, limit: usize) -> &str {
        match self.all.get(limit) {
            Some(limit) => &limit.name,
            None => self.model.name(self.loads[limit - self.all.len()].place),
        }
    }

    pub fn place_of(&self, limit: usize) -> usize {
        self.all.get(limit).map_or_else(|| self.loads[limit - self.all.len()].place, |limit| limit.place)
    }

    pub fn is_least(&self, limit: usize) -> bool {
        self.all.get(limit).is_some_and(|limit| limit.least)
    }

    /// How many limits there are, with the loads.
    pub fn count(&self) -> usize {
        self.all.len() + self.loads.len()
    }

    /// The value of a limit, which for a load is that at the spindle speed of these figures.
    pub fn value(&self, limit: usize, figures: &[f64]) -> f64 {
        match (self.all.get(limit), self.spindle) {
            (Some(limit), _) => limit.value,
            (None, Some(spindle)) => self.most(&self.loads[limit - self.all.len()], figures[spindle]),
            (None, None) => f64::INFINITY,
        }
    }

    /// How far a figure is within its limit, in logarithms.
    fn slack(&self, limit: usize, figures: &[f64]) -> f64 {
        let (figure, value) = (figures[self.place_of(limit)], self.value(limit, figures));
        let share = if self.is_least(limit) { figure / value } else { value / figure };
        share - 1.0
    }

    /// Whether these figures keep to every limit, but for `rounding`.
    pub fn hold(&self, figures: &[f64], rounding: bool) -> bool {
        let least = if rounding { -ROUNDING } else { 0.0 };
        (0..self.count()).all(|limit| self.slack(limit, figures) >= least)
    }

    /// Whether a figure is at its limit.
    pub fn binds(&self, limit: usize, figures: &[f64]) -> bool {
        self.slack(limit, figures) < AT_THE_LIMIT
    }
}

/// What a programme's row leaves at a point.
pub(super) fn slack(row: &Row, at: &[f64; MAX_UNKNOWNS]) -> f64 {
    row.bound - dot(&row.slopes, at)
}

//! The limits of a choice, each as one side of one figure, and the curve of the machine's spindle.
use super::curve::{Curve, Line, Speeds};
use super::figure::Stretch;
use super::model::Model;
use super::problem::BestCutError;
use super::program::{MAX_UNKNOWNS, Program, Row, Term, Vector, dot};
use crate::cutting::chatter::Stability;
use crate::cutting::machine::Machine;
use crate::math::{exp, ln};

/// Results that are the load of the motor, the better one first.
const POWERS: [&str; 2] = ["motor_power", "cutting_power"];
/// Arguments that are the depth which a stable cut may have.
const DEPTHS: [&str; 2] = ["axial_depth", "depth"];
/// The name of that limit.
const STABLE_DEPTH: &str = "stable_depth";
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

/// A figure that a curve bounds, by the spindle speed.
#[derive(Clone, Copy)]
struct Load<'a> {
    place: usize,
    curve: Curve<'a>,
}

/// All limits of a model.
pub(super) struct Limits<'a> {
    pub model: &'a Model<'a>,
    pub all: Vec<Limit>,
    loads: Vec<Load<'a>>,
    spindle: Option<usize>,
    /// The speeds between which all loads are judged, and those at which a curve bends or turns.
    speeds: (f64, f64),
    bends: Vec<f64>,
    /// Limits of the machine on which the formula has no figure.
    pub unchecked: Vec<&'static str>,
}

impl<'a> Limits<'a> {
    pub fn new(model: &'a Model<'a>) -> Result<Limits<'a>, BestCutError> {
        let problem = model.problem;
        let mut limits = Limits {
            model,
            all: Vec::with_capacity(2 * problem.limits.len() + 16),
            loads: vec![],
            spindle: None,
            speeds: (0.0, f64::INFINITY),
            bends: vec![],
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
        if let Some(stability) = &problem.stability {
            limits.add_stability(stability)?;
        }
        for (&at, &(low, high)) in model.straight.iter().zip(&model.ranges) {
            let name = model.name(at);
            limits.add(name.into(), at, true, exp(low));
            limits.add(name.into(), at, false, exp(high));
        }
        Ok(limits)
    }

    fn add(&mut self, name: String, place: usize, least: bool, value: f64) {
        self.all.push(Limit { name, place, least, value });
    }

    /// The place of the spindle speed, which a curve needs.
    fn spindle_speed(&self, against: &str) -> Result<usize, BestCutError> {
        self.model.place("spindle_speed").ok_or_else(|| {
            let formula = self.model.problem.formula.name;
            BestCutError::Problem(format!("{formula} has no spindle_speed to hold against {against}"))
        })
    }

    fn add_machine(&mut self, machine: &'a Machine) -> Result<(), BestCutError> {
        let (model, units) = (self.model, self.model.problem.units);
        let find = |names: &[&str]| names.iter().find_map(|name| model.place(name));
        let spindle = self.spindle_speed("the machine")?;
        let feed_rate = find(&["feed_rate"]);
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
            ("power", find(&POWERS), Curve::Power(machine), machine.power_at(fastest, units)),
            ("torque", find(&["torque"]), Curve::Torque(machine), machine.torque_at(fastest, units)),
        ];
        for (name, place, curve, told) in loads {
            match (place, told) {
                (_, None) => {}
                (None, Some(_)) => self.unchecked.push(name),
                (Some(place), Some(_)) => self.loads.push(Load { place, curve }),
            }
        }
        if !self.loads.is_empty() {
            self.spindle = Some(spindle);
            self.speeds = (slowest.max(1e-6 * fastest), fastest);
            self.bends.extend(machine.data().curve.iter().map(|point| point.spindle_speed.value()));
            if self.pieces().is_empty() {
                return Err(BestCutError::Problem(
                    "the curve of the machine gives no power or torque at any of its spindle speeds".into(),
                ));
            }
        }
        Ok(())
    }

    /// The depth of the cut is bounded by what is stable at its spindle speed.
    fn add_stability(&mut self, stability: &'a Stability) -> Result<(), BestCutError> {
        let spindle = self.spindle_speed("the stability")?;
        let Some(place) = DEPTHS.iter().find_map(|name| self.model.place(name)) else {
            let formula = self.model.problem.formula.name;
            return Err(BestCutError::Problem(format!(
                "{formula} has no depth to hold against the stability"
            )));
        };
        let (slowest, fastest) = self.speeds_of_choices(spindle);
        let speeds = (self.speeds.0.max(slowest), self.speeds.1.min(fastest));
        if speeds.0 < speeds.1 {
            let turns = stability.turning_points(speeds.0, speeds.1);
            self.bends.extend(turns.map_err(|error| BestCutError::Problem(error.to_string()))?);
        }
        // Speeds that cannot meet leave one, at which the limits contradict each other.
        self.speeds = (speeds.0.min(speeds.1), speeds.1);
        self.spindle = Some(spindle);
        self.loads.push(Load { place, curve: Curve::StableDepth(stability) });
        Ok(())
    }

    /// The spindle speeds that the choices and the limits of the speed itself leave.
    fn speeds_of_choices(&self, spindle: usize) -> (f64, f64) {
        let figure = self.model.figures(&self.model.stretches)[spindle];
        let (mut low, mut high) = (figure.low, figure.high);
        for (slope, &(least, greatest)) in figure.slopes.iter().zip(&self.model.ranges) {
            low += (slope * least).min(slope * greatest);
            high += (slope * least).max(slope * greatest);
        }
        let (mut low, mut high) = (exp(low), exp(high));
        for limit in self.all.iter().filter(|limit| limit.place == spindle) {
            match limit.least {
                true => low = low.max(limit.value),
                false => high = high.min(limit.value),
            }
        }
        (low, high)
    }

    /// The most of a load at a spindle speed.
    fn most(&self, load: &Load<'_>, speed: f64) -> f64 {
        load.curve.most(speed, self.model.problem.units)
    }

    /// The pieces of the spindle speeds between the points of the curves, in which each load has something.
    pub fn pieces(&self) -> Vec<Speeds> {
        if self.loads.is_empty() {
            return vec![];
        }
        let (slowest, fastest) = self.speeds;
        let mut ends: Vec<f64> =
            self.bends.iter().copied().filter(|&speed| slowest < speed && speed < fastest).collect();
        ends.extend([slowest, fastest]);
        ends.sort_by(f64::total_cmp);
        let gives = |speed| self.loads.iter().all(|load| self.most(load, speed) > 0.0);
        let mut pieces = vec![];
        for pair in ends.windows(2) {
            // Where a load begins or ends at nothing, its logarithm does too: a millionth of the piece stays out.
            let (mut low, mut high) = (pair[0], pair[1]);
            let width = high - low;
            low += if gives(low) { 0.0 } else { 1e-6 * width };
            high -= if gives(high) { 0.0 } else { 1e-6 * width };
            if gives(low) && gives(high) {
                pieces.push(Speeds(ln(low), ln(high)));
            }
        }
        if slowest == fastest && gives(fastest) {
            pieces = vec![Speeds(ln(fastest), ln(fastest))];
        }
        pieces
    }

    fn lines(&self, load: &Load<'_>, speeds: Speeds) -> [Line; 2] {
        load.curve.lines(speeds, self.model.problem.units)
    }

    /// Whether the two lines of every load are one, so that a programme is exact.
    pub fn is_straight(&self, speeds: Option<Speeds>) -> bool {
        let Some(speeds) = speeds else { return true };
        let gap = |load: &Load<'_>| {
            let [above, below] = self.lines(load, speeds);
            let at = |speed| {
                if above.level == below.level && above.slope == below.slope {
                    0.0
                } else {
                    above.at(speed) - below.at(speed)
                }
            };
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
                    line = Line { level: line.at(speeds.0).max(line.at(speeds.1)), slope: 0.0 };
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
            None => match self.loads[limit - self.all.len()] {
                Load { curve: Curve::StableDepth(_), .. } => STABLE_DEPTH,
                Load { place, .. } => self.model.name(place),
            },
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

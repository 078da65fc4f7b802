//! What is asked: which numbers may be chosen, under which limits, and what is kept low.
use super::super::chatter::Stability;
use super::super::machine::Machine;
use crate::Error;
use crate::formula::Formula;
use crate::quantity::Units;

/// A choice of a cut. All numbers are in shop units of `units`.
#[derive(Clone, Debug)]
pub struct CutProblem {
    /// The formula of the cut: `turning_cut_for_target`, `milling_cut`, `drilling_cut`, or any other.
    pub formula: &'static Formula,
    /// The units of every number.
    pub units: Units,
    /// One number for each argument of the formula, in order; those of the chosen ones are ignored.
    pub arguments: Vec<f64>,
    /// The arguments that may be chosen; of a count every whole number between the ends.
    pub choose: Vec<CutChoice>,
    /// The arguments that may be chosen from a list of values, all of which are tried.
    pub choose_from: Vec<CutSteps>,
    /// Quantities of your own that may be chosen too, for `laws` and limits: the speed of a second pass, say. They lie
    /// between two ends above zero.
    pub unknowns: Vec<CutChoice>,
    /// What must hold, beside what the machine demands.
    pub limits: Vec<CutLimit>,
    /// Figures of your own, which are powers of others: a force, a deflection, a temperature.
    pub laws: Vec<CutLaw>,
    /// What is kept low, or high.
    pub objective: CutObjective,
    /// What time and edges cost.
    pub rates: Option<CutRates>,
    /// How long an edge lasts.
    pub tool_life: Option<CutLife>,
    /// The machine, whose limits join those of `limits`.
    pub machine: Option<Machine>,
    /// The stability of the cut, whose depth at the spindle speed bounds `axial_depth`, or `depth`: the limit
    /// `stable_depth`.
    pub stability: Option<Stability>,
    /// Length of the path of the tool, from which a formula with a `feed_rate` and no `time` gets its time.
    pub path_length: Option<f64>,
    /// Metal to remove, from which a formula with a `removal_rate` and no `time` gets its time.
    pub volume: Option<f64>,
    /// What can be set on the machine, where that is not everything.
    pub steps: Vec<CutSteps>,
}

/// An argument that may be chosen, and between which ends.
#[derive(Clone, PartialEq, Debug)]
pub struct CutChoice {
    /// The argument.
    pub name: String,
    /// The least that it may be.
    pub least: f64,
    /// The greatest that it may be.
    pub greatest: f64,
}

/// What an argument, a result, `tool_life`, `edge_use` or a law of your own must keep to.
#[derive(Clone, PartialEq, Debug)]
pub struct CutLimit {
    /// The figure.
    pub name: String,
    /// The least that it may be, if there is one.
    pub least: Option<f64>,
    /// The greatest that it may be, if there is one.
    pub greatest: Option<f64>,
}

/// A figure that is a constant times powers of others: `factor · Π figure^exponent`.
#[derive(Clone, PartialEq, Debug)]
pub struct CutLaw {
    /// Its name, for limits and objectives.
    pub name: String,
    /// The constant, for figures in shop units.
    pub factor: f64,
    /// Arguments, results, unknowns or laws before this one, each with its exponent.
    pub exponents: Vec<(String, f64)>,
}

/// What is kept low, or high.
#[derive(Clone, PartialEq, Debug)]
pub enum CutObjective {
    /// Cost of a piece: machine and operator for its time, and its share of an edge.
    Cost,
    /// Time of a piece: handling, cutting, and its share of a tool change where `tool_life` tells it.
    Time,
    /// Edges that a piece takes: its time over the life of an edge.
    EdgeUse,
    /// The least of a figure.
    Least(String),
    /// The most of a figure.
    Most(String),
    /// A sum of `cost`, `time`, `edge_use` and figures, each times a weight above zero.
    Sum(Vec<(String, f64)>),
    /// The function that `best_cut_by` is given.
    Own,
}

/// What time and edges cost.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct CutRates {
    /// Cost of an hour of machine and operator.
    pub hourly_rate: f64,
    /// Cost of an edge.
    pub edge_cost: f64,
    /// Time of changing an edge, in minutes.
    pub tool_change_time: f64,
    /// Time of a piece in which nothing is cut, in minutes.
    pub handling_time: f64,
}

/// Taylor's law extended: V · T^n · (f/f₀)^a · (d/d₀)^b = C, as `tool_life_extended` has it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct CutLife {
    /// Surface speed at which an edge lasts one minute.
    pub taylor_c: f64,
    /// Exponent n.
    pub taylor_n: f64,
    /// Exponent a of the feed; 0 where the life is not known to depend on it.
    pub feed_exponent: f64,
    /// Exponent b of the depth; 0 where the life is not known to depend on it.
    pub depth_exponent: f64,
    /// Feed at which C holds.
    pub reference_feed: f64,
    /// Depth at which C holds.
    pub reference_depth: f64,
}

impl CutLife {
    /// A life by speed alone, V · T^n = C.
    pub fn by_speed(taylor_c: f64, taylor_n: f64) -> CutLife {
        CutLife {
            taylor_c,
            taylor_n,
            feed_exponent: 0.0,
            depth_exponent: 0.0,
            reference_feed: 1.0,
            reference_depth: 1.0,
        }
    }
}

/// Values that an argument may have, or that can be set of a chosen argument or of a result that one of them sets alone,
/// such as the spindle speed by the surface speed.
#[derive(Clone, PartialEq, Debug)]
pub struct CutSteps {
    /// The argument or result.
    pub name: String,
    /// The values, in any order.
    pub values: Vec<f64>,
}

/// Why there is no best cut.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BestCutError {
    /// The problem cannot be posed like this.
    #[error("best_cut: {0}")]
    Problem(String),
    /// No cut keeps to all limits.
    #[error("best_cut: {0}")]
    Contradiction(Contradiction),
    /// No point that was tried for a function of the caller's keeps to all limits and has an objective.
    #[error(
        "best_cut: no cut of the first grid keeps to all limits and has an objective. Fix: narrow the ranges"
    )]
    NotFound,
    /// The formula has no answer anywhere in the ranges.
    #[error("best_cut: no cut within the ranges has an answer: {0}")]
    Formula(#[from] Error),
    /// The work was stopped.
    #[error(transparent)]
    Stopped(#[from] crate::Stopped),
}

/// Limits that cannot all hold, of which each is needed for the contradiction.
#[derive(Clone, PartialEq, Debug)]
pub struct Contradiction {
    /// The limits.
    pub limits: Vec<LimitChange>,
    /// By what share all limits that may give would have to give at once, so that they meet: 0.1 is a tenth.
    pub share: f64,
}

/// A limit of a contradiction, and the least change of it alone that ends it.
#[derive(Clone, PartialEq, Debug)]
pub struct LimitChange {
    /// The figure that is limited.
    pub name: String,
    /// Whether the limit is the least that it may be.
    pub least: bool,
    /// The limit.
    pub limit: f64,
    /// What it would have to be, all other limits as they are; nothing where that alone does not help.
    pub needed: Option<f64>,
    /// The unit of both; empty for a plain number.
    pub unit: &'static str,
}

impl std::fmt::Display for Contradiction {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        use crate::error::{WithUnit, to_digits};
        let side = |least| if least { "at least" } else { "at most" };
        let told = |change: &LimitChange| {
            let limit = WithUnit(to_digits(change.limit, 7), change.unit);
            format!("{} {} {limit}", change.name, side(change.least))
        };
        let limits: Vec<_> = self.limits.iter().map(told).collect();
        let verdict = if limits.len() == 1 { "cannot be kept" } else { "cannot hold together" };
        write!(f, "no cut keeps to all limits: {} {verdict}. Fix: ", limits.join(", "))?;
        let fix = |change: &LimitChange| {
            // Rounded away from the limit, so that what is printed helps.
            let nudge = if change.least { 1.0 - 5e-5 } else { 1.0 + 5e-5 };
            let needed = to_digits(change.needed? * nudge, 5);
            Some(format!("{} {} {}", change.name, side(change.least), WithUnit(needed, change.unit)))
        };
        let fixes: Vec<_> = self.limits.iter().filter_map(fix).collect();
        match fixes.is_empty() {
            true => write!(f, "loosen all limits by {} %", to_digits(self.share * 100.0, 3)),
            false => write!(f, "allow {}", fixes.join(", or ")),
        }
    }
}

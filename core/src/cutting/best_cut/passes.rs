//! Roughing and finishing together: how many passes, how deep each, and its best cut.
use super::many::best_cuts;
use super::problem::{BestCutError, CutObjective, CutProblem};
use super::result::BestCut;
use crate::object::ByName;
use crate::quantity::Units;
use crate::watch::Watch;
use tenths_macros::{Choice, Object};

/// Steps of the depth at most.
const MAX_STEPS: usize = 400;
/// Passes at most.
const MAX_PASSES: usize = 200;

/// How the diameter of the work changes from pass to pass.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum DiameterChange {
    /// It stays: facing, milling, or a diameter that is taken as constant.
    Stays,
    /// It falls by twice the depth: turning outside. Its figures are those at the diameter before it.
    Falls,
    /// It rises by twice the depth: boring. Its figures are those at the diameter after it.
    Rises,
}

/// Which passes are sought.
#[derive(Clone, Debug)]
pub struct PassProblem {
    /// The roughing cut: its own choices and limits, without the depth, which the search sets.
    pub rough: CutProblem,
    /// The finishing cut, which comes last; nothing where all passes are roughing.
    pub finish: Option<CutProblem>,
    /// The argument that is the depth of cut: `depth` or `axial_depth`.
    pub depth: String,
    /// What all passes take off together, on one side.
    pub stock: f64,
    /// The least and the greatest depth of a roughing pass.
    pub rough_depths: (f64, f64),
    /// The least and the greatest depth of the finishing pass.
    pub finish_depths: (f64, f64),
    /// The step of the depths that are tried. The stock is divided into whole steps no longer than this.
    pub step: f64,
    /// Time of a pass in which nothing is cut: return and setting, in minutes.
    pub pass_time: f64,
    /// How the diameter changes, where the formula has a `workpiece_diameter`.
    pub diameter: DiameterChange,
    /// Whether all roughing passes are equally deep.
    pub equal: bool,
    /// Threads that solve the cuts.
    pub threads: usize,
}

/// A pass.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct CutPass {
    /// Whether it is the finishing pass.
    pub finishing: bool,
    /// Its depth.
    #[pure]
    pub depth: f64,
    /// Its share of the objective, with its time of return and setting.
    #[pure]
    pub objective: f64,
    /// The chosen arguments.
    pub chosen: ByName<f64>,
    /// All arguments of the formula.
    pub arguments: ByName<f64>,
    /// The results of the formula.
    pub results: ByName<f64>,
    /// The limits at which the cut stands.
    pub binding: Vec<String>,
}

/// The best passes, in their order.
///
/// Exact on the grid of depths: no other depths of that grid, with any speeds and feeds, have a lower objective than
/// `lower_bound`. A starting point for a trial, like each of its cuts; whether the grip holds, the tool is sound and the
/// guards are in place is not judged here.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct BestPasses {
    /// The formula.
    pub formula: String,
    /// The unit system of every number: those are in its shop units.
    pub system: Units,
    /// The objective of the piece, at its best.
    #[pure]
    pub objective: f64,
    /// No passes on the grid of depths have a lower objective.
    #[pure]
    pub lower_bound: f64,
    /// The step of the grid of depths.
    #[pure]
    pub step: f64,
    /// The passes.
    pub passes: Vec<CutPass>,
}

impl std::fmt::Display for BestPasses {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        use crate::error::to_digits;
        let depths: Vec<_> = self.passes.iter().map(|pass| to_digits(pass.depth, 5).to_string()).collect();
        let last =
            if self.passes.last().is_some_and(|pass| pass.finishing) { ", the last to finish" } else { "" };
        write!(f, "{}: passes of {}{last}; ", self.formula, depths.join(", "))?;
        write!(f, "objective {}", to_digits(self.objective, 6))
    }
}

/// A pass of a plan: how deep from what is off already, and whether it finishes.
#[derive(Clone, Copy)]
struct Stage {
    off: f64,
    depth: f64,
    finishing: bool,
}

/// The best passes, by dynamic programming over what is taken off.
///
/// Each depth of the grid has its [`best_cut`](super::best_cut) at its diameter; the sum over passes is least over all
/// ways to make up the stock. The objective is a cost, a time, edges, or a figure to be kept low; the `handling_time` of
/// the roughing rates counts once for the piece.
///
/// # Errors
/// As [`best_cut`](super::best_cut); and where no depths of the grid make up the stock.
pub fn best_passes(problem: &PassProblem, watch: &Watch<'_>) -> Result<BestPasses, BestCutError> {
    let search = Search::new(problem)?;
    let stages = if problem.equal { search.equal(watch)? } else { search.unequal(watch)? };
    search.told(&stages, watch)
}

fn refused<T>(message: String) -> Result<T, BestCutError> {
    Err(BestCutError::Problem(message))
}

struct Search<'a> {
    problem: &'a PassProblem,
    rough: CutProblem,
    finish: Option<CutProblem>,
    depth: usize,
    diameter: Option<usize>,
    steps: usize,
    step: f64,
    handling: f64,
}

impl<'a> Search<'a> {
    fn new(problem: &'a PassProblem) -> Result<Search<'a>, BestCutError> {
        let formula = problem.rough.formula;
        for cut in std::iter::once(&problem.rough).chain(&problem.finish) {
            formula.count("arguments", formula.arguments.len(), cut.arguments.len())?;
        }
        let place = |name: &str| formula.arguments.iter().position(|argument| argument.name == name);
        let Some(depth) = place(&problem.depth) else {
            return refused(format!("{} has no argument `{}`", formula.name, problem.depth));
        };
        if problem.finish.as_ref().is_some_and(|finish| !std::ptr::eq(finish.formula, formula)) {
            return refused("roughing and finishing must be of one formula".into());
        }
        for (name, value) in [("stock", problem.stock), ("step", problem.step)] {
            if !(value > 0.0 && value.is_finite()) {
                return refused(format!("{name} must be greater than 0, not {value}"));
            }
        }
        if !(problem.pass_time >= 0.0 && problem.pass_time.is_finite()) {
            return refused(format!("pass_time must be 0 or more, not {}", problem.pass_time));
        }
        for (name, (least, greatest)) in
            [("rough_depths", problem.rough_depths), ("finish_depths", problem.finish_depths)]
        {
            if !(least > 0.0 && least <= greatest && greatest.is_finite()) {
                return refused(format!(
                    "{name} must be two numbers above 0, the lower first, not {least} and {greatest}"
                ));
            }
        }
        let steps = (problem.stock / problem.step * (1.0 - 1e-9)).ceil();
        if !(1.0..=MAX_STEPS as f64).contains(&steps) {
            return refused(format!(
                "the stock may have at most {MAX_STEPS} steps, not {steps}: take a longer step"
            ));
        }
        let cuts = std::iter::once(&problem.rough).chain(&problem.finish);
        for cut in cuts {
            if matches!(cut.objective, CutObjective::Most(_) | CutObjective::Own | CutObjective::Sum(_)) {
                return refused("passes add up: minimise the cost, the time, edge_use or a figure".into());
            }
            let listed = cut.choose_from.iter().any(|list| list.name == problem.depth);
            if listed || cut.choose.iter().any(|choice| choice.name == problem.depth) {
                return refused(format!("the search sets {}: leave it out of what is chosen", problem.depth));
            }
            if !cut.steps.is_empty() {
                return refused("steps of speed and feed go with best_cut".into());
            }
        }
        let diameter = place("workpiece_diameter");
        let handling = match problem.rough.objective {
            CutObjective::Cost => {
                problem.rough.rates.map_or(0.0, |rates| rates.handling_time * rates.hourly_rate / 60.0)
            }
            CutObjective::Time => problem.rough.rates.map_or(0.0, |rates| rates.handling_time),
            _ => 0.0,
        };
        Ok(Search {
            problem,
            rough: single(&problem.rough, depth),
            finish: problem.finish.as_ref().map(|finish| single(finish, depth)),
            depth,
            diameter: diameter.filter(|_| problem.diameter != DiameterChange::Stays),
            steps: steps as usize,
            step: problem.stock / steps,
            handling,
        })
    }

    /// The problem of a pass.
    fn cut(&self, stage: &Stage) -> CutProblem {
        let pattern = if stage.finishing { self.finish.as_ref().unwrap_or(&self.rough) } else { &self.rough };
        let mut cut = pattern.clone();
        cut.arguments[self.depth] = stage.depth;
        if let Some(at) = self.diameter {
            cut.arguments[at] += match self.problem.diameter {
                DiameterChange::Falls => -2.0 * stage.off,
                DiameterChange::Rises => 2.0 * (stage.off + stage.depth),
                DiameterChange::Stays => 0.0,
            };
        }
        cut
    }

    /// What a pass costs beside its cut.
    fn between(&self) -> f64 {
        match self.rough.objective {
            CutObjective::Cost => {
                self.rough.rates.map_or(0.0, |rates| rates.hourly_rate / 60.0) * self.problem.pass_time
            }
            CutObjective::Time => self.problem.pass_time,
            _ => 0.0,
        }
    }

    /// The objective of each stage; infinite where there is no cut, with the first reason why.
    fn solve(
        &self,
        stages: &[Stage],
        watch: &Watch<'_>,
        reason: &mut Option<BestCutError>,
    ) -> Result<Vec<f64>, BestCutError> {
        let cuts: Vec<CutProblem> = stages.iter().map(|stage| self.cut(stage)).collect();
        let solved = best_cuts(&cuts, self.problem.threads, watch)?;
        let mut values = Vec::with_capacity(stages.len());
        for cut in solved {
            values.push(match cut {
                Ok(best) => best.objective + self.between(),
                Err(error @ BestCutError::Problem(_)) => return Err(error),
                Err(error) => {
                    reason.get_or_insert(error);
                    f64::INFINITY
                }
            });
        }
        Ok(values)
    }

    /// Whether a depth is within its range, but for rounding.
    fn within(&self, depth: f64, finishing: bool) -> bool {
        let (least, greatest) =
            if finishing { self.problem.finish_depths } else { self.problem.rough_depths };
        depth >= least * (1.0 - 1e-9) && depth <= greatest * (1.0 + 1e-9)
    }

    /// The stages from what is off, each with the step at which it ends.
    fn stages_from(&self, start: usize) -> Vec<(usize, Stage)> {
        let off = start as f64 * self.step;
        let rough_ends = if self.finish.is_some() { self.steps.saturating_sub(1) } else { self.steps };
        let stage = |end: usize, finishing| Stage { off, depth: (end - start) as f64 * self.step, finishing };
        let rough = (start + 1..=rough_ends).map(|end| (end, stage(end, false)));
        let finish = self.finish.iter().map(|_| (self.steps, stage(self.steps, true)));
        rough.chain(finish).filter(|(_, stage)| self.within(stage.depth, stage.finishing)).collect()
    }

    /// The passes of the least sum, from the last step back to the first.
    fn unequal(&self, watch: &Watch<'_>) -> Result<Vec<Stage>, BestCutError> {
        let mut ahead: Vec<(f64, Option<(usize, Stage)>)> = vec![(f64::INFINITY, None); self.steps + 1];
        ahead[self.steps].0 = 0.0;
        let mut reason = None;
        for start in (0..self.steps).rev() {
            let stages = self.stages_from(start);
            let stages: Vec<_> = stages.into_iter().filter(|(end, _)| ahead[*end].0.is_finite()).collect();
            let values =
                self.solve(&stages.iter().map(|(_, stage)| *stage).collect::<Vec<_>>(), watch, &mut reason)?;
            for ((end, stage), value) in stages.into_iter().zip(values) {
                let sum = value + ahead[end].0;
                if sum < ahead[start].0 {
                    ahead[start] = (sum, Some((end, stage)));
                }
            }
        }
        let mut stages = vec![];
        let mut at = 0;
        while let Some((end, stage)) = ahead[at].1 {
            stages.push(stage);
            at = end;
        }
        match at == self.steps {
            true => Ok(stages),
            false => Err(reason.unwrap_or_else(|| self.no_depths())),
        }
    }

    /// The passes of the least sum, all roughing passes equally deep.
    fn equal(&self, watch: &Watch<'_>) -> Result<Vec<Stage>, BestCutError> {
        let finishing: Vec<f64> = match &self.finish {
            None => vec![0.0],
            Some(_) => {
                (1..=self.steps).map(|k| k as f64 * self.step).filter(|&d| self.within(d, true)).collect()
            }
        };
        let (mut best, mut reason) = ((f64::INFINITY, vec![]), None);
        for last in finishing {
            let left = self.problem.stock - last;
            let most = (left / self.problem.rough_depths.0 * (1.0 + 1e-9)).floor();
            if most > MAX_PASSES as f64 {
                return refused(format!(
                    "more than {MAX_PASSES} passes may be needed: raise the least depth"
                ));
            }
            let fewest = usize::from(left > 1e-9 * self.problem.stock);
            for count in fewest..=most as usize {
                let depth = if count == 0 { 0.0 } else { left / count as f64 };
                if count > 0 && !self.within(depth, false) {
                    continue;
                }
                let rough = (0..count).map(|k| Stage { off: k as f64 * depth, depth, finishing: false });
                let finish = self.finish.iter().map(|_| Stage { off: left, depth: last, finishing: true });
                let stages: Vec<Stage> = rough.chain(finish).collect();
                let sum: f64 = self.solve(&stages, watch, &mut reason)?.iter().sum();
                if sum < best.0 {
                    best = (sum, stages);
                }
            }
        }
        match best.0.is_finite() {
            true => Ok(best.1),
            false => Err(reason.unwrap_or_else(|| self.no_depths())),
        }
    }

    fn no_depths(&self) -> BestCutError {
        BestCutError::Problem(format!(
            "no passes within rough_depths and finish_depths make up a stock of {} in steps of {}",
            self.problem.stock, self.step
        ))
    }

    /// The passes as they are handed out.
    fn told(&self, stages: &[Stage], watch: &Watch<'_>) -> Result<BestPasses, BestCutError> {
        let cuts: Vec<CutProblem> = stages.iter().map(|stage| self.cut(stage)).collect();
        let solved = best_cuts(&cuts, 1, watch)?.into_iter().collect::<Result<Vec<BestCut>, _>>()?;
        let sum = |of: fn(&BestCut) -> f64| {
            self.handling + solved.iter().map(|cut| of(cut) + self.between()).sum::<f64>()
        };
        let made = |(stage, cut): (&Stage, &BestCut)| CutPass {
            finishing: stage.finishing,
            depth: stage.depth,
            objective: cut.objective + self.between(),
            chosen: cut.chosen.clone(),
            arguments: cut.arguments.clone(),
            results: cut.results.clone(),
            binding: cut.binding.clone(),
        };
        Ok(BestPasses {
            formula: self.rough.formula.name.into(),
            system: self.rough.units,
            objective: sum(|cut| cut.objective),
            lower_bound: sum(|cut| cut.lower_bound.unwrap_or(cut.objective)),
            step: self.step,
            passes: stages.iter().zip(&solved).map(made).collect(),
        })
    }
}

/// A cut without handling time, which counts once for all passes, and with the depth as a plain argument.
fn single(cut: &CutProblem, depth: usize) -> CutProblem {
    let mut single = cut.clone();
    if let Some(rates) = &mut single.rates {
        rates.handling_time = 0.0;
    }
    if let Some(value) = single.arguments.get_mut(depth) {
        *value = f64::NAN;
    }
    single
}

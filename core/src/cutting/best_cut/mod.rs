//! The best cut within limits, proven to be the best.
//!
//! Most figures of a cut are powers of speed, feed and depth: in logarithms they are straight, and a cost, a sum of
//! powers, is convex. There one descent finds the least, and the prices of the limits prove a bound. What is not
//! straight is divided until the bound is reached: the curve of a spindle, and an argument such as the radial width,
//! for which the formula declares only that its results rise or fall.
mod contradiction;
mod flat;
mod limits;
mod many;
mod model;
mod own;
mod passes;
mod problem;
mod program;
mod result;
mod search;
mod spread;
mod steps;
#[cfg(test)]
mod tests;

pub use many::best_cuts;
pub use own::best_cut_by;
pub use passes::{BestPasses, CutPass, DiameterChange, PassProblem, best_passes};
pub use problem::{
    BestCutError, Contradiction, CutChoice, CutLaw, CutLife, CutLimit, CutObjective, CutProblem, CutRates,
    CutSteps, LimitChange,
};
pub use result::BestCut;
pub use spread::{CutSpread, best_cut_spread};

/// The best cut within limits, with a bound that proves it, the limits that bind, and what each is worth.
///
/// Where the formula declares its figures powers of what is chosen (`power_law` in its record), as those of turning and
/// drilling and of milling but for the radial width, the objective is within a part in a thousand million of the best; with
/// the curve of a machine, within a part in ten million. Where it declares only that figures rise or fall, as with the
/// radial width, the search ends after some thousand steps, a part in a thousand or so from its bound. `lower_bound` says
/// how near the cut is proven to be.
///
/// A starting point for a trial, not a setting to trust: the data of the makers of tool, machine and workholding come
/// first. Forces are known within about a fifth. Whether the grip holds, the tool is sound and the guards are in place is
/// not judged here.
///
/// # Errors
/// [`BestCutError`] for a problem that cannot be posed, such as an unknown name; with the limits that contradict each
/// other and the least change of each, where no cut keeps to all; and for ranges in which the formula has no answer.
pub fn best_cut(problem: &CutProblem) -> Result<BestCut, BestCutError> {
    if problem.objective == CutObjective::Own {
        return Err(BestCutError::Problem("an objective of your own goes with best_cut_by".into()));
    }
    let model = model::Model::new(problem)?;
    let limits = limits::Limits::new(&model)?;
    let found = search::search(&model, &limits)?;
    let mut best = result::result(&model, &limits, &found);
    if !problem.steps.is_empty()
        && let Some((set, objective)) = steps::best_set(&model, &best)?
    {
        best.set = set;
        best.set_objective = Some(objective);
    }
    Ok(best)
}

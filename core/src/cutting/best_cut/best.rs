//! The best cut, and the best that can be set.
use super::choices::{best_of, combinations};
use super::problem::{BestCutError, CutProblem};
use super::result::BestCut;
use super::solve::solve;
use super::steps::best_set;

/// The best cut within limits, with a bound that proves it, the limits that bind, and what each is worth.
///
/// Where the formula declares its figures powers of what is chosen (`power_law` in its record), as those of turning and
/// drilling and of milling but for the radial width, the objective is within a part in a thousand million of the best; with
/// the curve of a machine, within a part in ten million. Where it declares only that figures rise or fall, as with the
/// radial width, the search ends after some thousand steps, a part in a thousand or so from its bound. `lower_bound` says
/// how near the cut is proven to be. Counts, and values of a list, are all tried.
///
/// A starting point for a trial, not a setting to trust: the data of the makers of tool, machine and workholding come
/// first. Forces are known within about a fifth. Whether the grip holds, the tool is sound and the guards are in place is
/// not judged here.
///
/// # Errors
/// [`BestCutError`] for a problem that cannot be posed, such as an unknown name; with the limits that contradict each
/// other and the least change of each, where no cut keeps to all; and for ranges in which the formula has no answer.
pub fn best_cut(problem: &CutProblem) -> Result<BestCut, BestCutError> {
    match combinations(problem)? {
        None => best_between_ends(problem),
        Some(combinations) => {
            let each = |one: &CutProblem| Ok::<_, BestCutError>(best_between_ends(one));
            best_of(problem, combinations, each)?
        }
    }
}

/// The best of a problem in which nothing is counted or listed.
fn best_between_ends(problem: &CutProblem) -> Result<BestCut, BestCutError> {
    let mut best = solve(problem)?;
    if !problem.steps.is_empty()
        && let Some((set, objective)) = best_set(problem, &best)?
    {
        best.set = set;
        best.set_objective = Some(objective);
    }
    Ok(best)
}

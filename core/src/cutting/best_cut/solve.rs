//! The best cut of a problem, whatever can be set.
use super::limits::Limits;
use super::model::Model;
use super::problem::{BestCutError, CutObjective, CutProblem};
use super::result::{BestCut, result};
use super::search::search;

/// The best cut by an objective that has a name.
pub(super) fn solve(problem: &CutProblem) -> Result<BestCut, BestCutError> {
    if problem.objective == CutObjective::Own {
        return Err(BestCutError::Problem("an objective of your own goes with best_cut_by".into()));
    }
    let model = Model::new(problem)?;
    let limits = Limits::new(&model)?;
    let found = search(&model, &limits)?;
    Ok(result(&model, &limits, &found))
}

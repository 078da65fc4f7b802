//! The best cut by a function of the caller's.
use super::choices::{best_of, combinations};
use super::limits::Limits;
use super::model::Model;
use super::problem::{BestCutError, CutObjective, CutProblem};
use super::result::{BestCut, plain};
use crate::math::exp;

/// Points to a side of the first grid, by how many arguments are chosen.
const SIDES: [usize; 7] = [1, 401, 41, 15, 9, 7, 5];
/// How often the grid is drawn closer about the best point.
const ROUNDS: usize = 40;
/// How much closer, each time.
const CLOSER: f64 = 0.6;

/// A function of all figures by name.
pub type OwnObjective<'f, E> = dyn FnMut(&[(&str, f64)]) -> Result<f64, E> + 'f;

/// The best cut by a function of all figures by name, which is kept low.
///
/// The limits are those of the problem, whose objective must be [`CutObjective::Own`]. Nothing is known of such a function
/// between the points that are tried, so the result has no `lower_bound`: a grid over all choices, drawn closer and closer
/// about its best point, finds the least of a function that is smooth at the scale of the first grid, which has 401 points
/// for one chosen argument, 41 a side for two and 15 a side for three. Where the function is NaN, the cut is refused.
///
/// # Errors
/// As [`best_cut`](super::best_cut); what the function itself fails with comes back as it is.
pub fn best_cut_by<E: From<BestCutError>>(
    problem: &CutProblem,
    objective: &mut OwnObjective<'_, E>,
) -> Result<BestCut, E> {
    let best = match combinations(problem)? {
        None => best_between_ends(problem, objective)?,
        Some(combinations) => best_of(problem, combinations, |one| best_between_ends(one, objective))?,
    };
    Ok(best?)
}

/// The best of a problem in which nothing is counted or listed; what the function fails with ends the search.
fn best_between_ends<E: From<BestCutError>>(
    problem: &CutProblem,
    objective: &mut OwnObjective<'_, E>,
) -> Result<Result<BestCut, BestCutError>, E> {
    match search_by(problem, objective) {
        Ok(best) => Ok(Ok(best)),
        Err(Ended::Core(error)) => Ok(Err(error)),
        Err(Ended::Function(error)) => Err(error),
    }
}

/// Why a search by a function ended.
enum Ended<E> {
    Core(BestCutError),
    Function(E),
}

impl<E> From<BestCutError> for Ended<E> {
    fn from(error: BestCutError) -> Self {
        Ended::Core(error)
    }
}

fn search_by<E>(problem: &CutProblem, objective: &mut OwnObjective<'_, E>) -> Result<BestCut, Ended<E>> {
    if problem.objective != CutObjective::Own {
        return Err(BestCutError::Problem("a function is the objective: state no other".into()).into());
    }
    if !problem.steps.is_empty() {
        return Err(BestCutError::Problem(
            "steps go with the objectives by name, not with a function".into(),
        )
        .into());
    }
    let model = Model::new(problem)?;
    let limits = Limits::new(&model)?;
    let places: Vec<usize> = model.straight.iter().chain(&model.bent).copied().collect();
    let ends = whole(&model);
    let mut best: Option<(f64, Vec<f64>, Vec<f64>)> = None;
    let mut ranges = ends.clone();
    for _ in 0..ROUNDS {
        let side = SIDES[places.len()];
        for number in 0..side.pow(places.len() as u32) {
            let point = point(&ranges, number, side);
            let mut row = model.base.clone();
            for (k, &place) in places.iter().enumerate() {
                row[place] = if k < model.straight.len() { exp(point[k]) } else { point[k] };
            }
            let Some(figures) = model.exact(&row).filter(|figures| limits.hold(figures, false)) else {
                continue;
            };
            let named: Vec<(&str, f64)> = model.named(&figures).collect();
            let value = objective(&named).map_err(Ended::Function)?;
            if best.as_ref().map_or(!value.is_nan(), |(least, ..)| value < *least) {
                best = Some((value, point, row));
            }
        }
        let Some((_, centre, _)) = &best else { break };
        for ((range, centre), end) in ranges.iter_mut().zip(centre).zip(&ends) {
            let half = 0.5 * CLOSER * (range.1 - range.0);
            *range = ((centre - half).max(end.0), (centre + half).min(end.1));
        }
    }
    let Some((value, _, row)) = best else {
        return Err(BestCutError::NotFound.into());
    };
    let figures = model.exact(&row).unwrap_or_default();
    let mut best = plain(&model, &limits, &row, &figures);
    best.objective = value;
    Ok(best)
}

/// The whole ranges, of straight arguments in logarithms.
fn whole(model: &Model<'_>) -> Vec<(f64, f64)> {
    let straight = model.ranges.iter().copied();
    straight.chain(model.stretches.iter().map(|stretch| (stretch.low, stretch.high))).collect()
}

/// A point of a grid of so many points a side.
fn point(ranges: &[(f64, f64)], mut number: usize, side: usize) -> Vec<f64> {
    let mut point = Vec::with_capacity(ranges.len());
    for &(low, high) in ranges {
        let step = (number % side) as f64 / (side - 1).max(1) as f64;
        point.push(low + step * (high - low));
        number /= side;
    }
    point
}

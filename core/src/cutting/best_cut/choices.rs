//! Choices among values: counts, and arguments from a list. Each combination of values is a problem of its own, so the best
//! of all is found by trying all.
use super::model::unknown;
use super::problem::{BestCutError, CutChoice, CutObjective, CutProblem, CutSteps};
use super::result::BestCut;

/// Combinations of values at most.
const MAX_COMBINATIONS: usize = 10_000;

/// A problem for each combination of the values that are counted or listed; nothing where there are none.
pub(super) fn combinations(
    problem: &CutProblem,
) -> Result<Option<impl Iterator<Item = CutProblem>>, BestCutError> {
    let mut lists = counts(problem)?;
    lists.extend(problem.choose_from.iter().cloned());
    if lists.is_empty() {
        return Ok(None);
    }
    for list in &lists {
        check(problem, list)?;
    }
    let combined = lists.iter().try_fold(1usize, |count, list| count.checked_mul(list.values.len()));
    let combined = combined.filter(|&count| count <= MAX_COMBINATIONS).ok_or_else(|| too_many(problem))?;
    let problem = problem.clone();
    Ok(Some((0..combined).map(move |number| with_values(&problem, &lists, number))))
}

/// The best of all combinations, as `solve` finds that of each; one without a cut is left out.
pub(super) fn best_of<E>(
    problem: &CutProblem,
    combinations: impl Iterator<Item = CutProblem>,
    mut solve: impl FnMut(&CutProblem) -> Result<Result<BestCut, BestCutError>, E>,
) -> Result<Result<BestCut, BestCutError>, E> {
    let most = matches!(problem.objective, CutObjective::Most(_));
    let better = |value: f64, than: f64| if most { value > than } else { value < than };
    let (mut best, mut set): (Option<BestCut>, Option<BestCut>) = (None, None);
    let (mut bound, mut reason) = (None::<f64>, None);
    for combination in combinations {
        let cut = match solve(&combination)? {
            Ok(cut) => cut,
            Err(
                error @ (BestCutError::Contradiction(_) | BestCutError::Formula(_) | BestCutError::NotFound),
            ) => {
                reason = Some(nearer(reason, error));
                continue;
            }
            Err(error) => return Ok(Err(error)),
        };
        if let Some(own) = cut.lower_bound {
            bound = Some(bound.filter(|&bound| !better(own, bound)).unwrap_or(own));
        }
        if let Some(value) = cut.set_objective
            && set.as_ref().and_then(|set| set.set_objective).is_none_or(|than| better(value, than))
        {
            set = Some(cut.clone());
        }
        if best.as_ref().is_none_or(|best| better(cut.objective, best.objective)) {
            best = Some(cut);
        }
    }
    let Some(mut best) = best else { return Ok(Err(reason.unwrap_or_else(|| too_many(problem)))) };
    best.lower_bound = bound;
    if let Some(set) = set {
        (best.set, best.set_objective) = (set.set, set.set_objective);
    }
    Ok(Ok(best))
}

/// The reason that is nearer to a cut: limits that need the smaller change.
fn nearer(known: Option<BestCutError>, error: BestCutError) -> BestCutError {
    match (known, error) {
        (Some(BestCutError::Contradiction(known)), BestCutError::Contradiction(new)) => {
            BestCutError::Contradiction(if new.share < known.share { new } else { known })
        }
        (Some(known), BestCutError::Formula(_) | BestCutError::NotFound) => known,
        (_, error) => error,
    }
}

/// The whole numbers between the ends of each count.
fn counts(problem: &CutProblem) -> Result<Vec<CutSteps>, BestCutError> {
    let mut lists = vec![];
    for choice in &problem.choose {
        let argument = problem.formula.arguments.iter().find(|argument| argument.name == choice.name);
        let counted = argument.is_some_and(|argument| argument.side(problem.units).domain.is_whole());
        let (least, greatest) = (choice.least.ceil(), choice.greatest.floor());
        // What has no two ends is refused with all other choices.
        let has_ends = choice.least < choice.greatest && greatest.is_finite() && least.is_finite();
        if !(counted && has_ends) {
            continue;
        }
        if least > greatest {
            return Err(BestCutError::Problem(format!(
                "{} is a count, and there is no whole number from {} to {}",
                choice.name, choice.least, choice.greatest
            )));
        }
        if greatest - least >= MAX_COMBINATIONS as f64 {
            return Err(too_many(problem));
        }
        let values = (0..=(greatest - least) as usize).map(|k| least + k as f64).collect();
        lists.push(CutSteps { name: choice.name.clone(), values });
    }
    Ok(lists)
}

fn check(problem: &CutProblem, list: &CutSteps) -> Result<(), BestCutError> {
    let CutSteps { name, values } = list;
    if !problem.formula.arguments.iter().any(|argument| argument.name == name) {
        return Err(BestCutError::Problem(unknown(problem.formula, name)));
    }
    if values.is_empty() {
        return Err(BestCutError::Problem(format!(
            "the values of {name} to choose from must be at least one"
        )));
    }
    match values.iter().find(|value| !value.is_finite()) {
        Some(value) => Err(BestCutError::Problem(format!(
            "the values of {name} to choose from must be finite numbers, not {value}"
        ))),
        None => Ok(()),
    }
}

fn too_many(problem: &CutProblem) -> BestCutError {
    BestCutError::Problem(format!(
        "the values to choose from make more than {MAX_COMBINATIONS} combinations. Fix: give {} fewer values",
        problem.formula.name
    ))
}

/// The problem with the values of one combination, each between two equal ends.
fn with_values(problem: &CutProblem, lists: &[CutSteps], mut number: usize) -> CutProblem {
    let mut one = CutProblem { choose_from: vec![], ..problem.clone() };
    let counted = lists.len() - problem.choose_from.len();
    for (k, CutSteps { name, values }) in lists.iter().enumerate() {
        let value = values[number % values.len()];
        number /= values.len();
        let fixed = CutChoice { name: name.clone(), least: value, greatest: value };
        match one.choose.iter_mut().find(|choice| k < counted && choice.name == *name) {
            Some(choice) => *choice = fixed,
            None => one.choose.push(fixed),
        }
    }
    one
}

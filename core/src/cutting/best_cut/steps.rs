//! The cut that a shop would set: the best of the speeds and feeds that the machine has.
use super::model::Model;
use super::problem::{BestCutError, CutChoice, CutProblem};
use super::result::BestCut;
use super::solve::solve;
use crate::math::{exp, ln};
use crate::object::ByName;

/// Combinations of steps at most.
const MAX_COMBINATIONS: usize = 10_000;

/// The best of what can be set, and its objective; nothing where no combination keeps to the limits.
pub(super) fn best_set(
    problem: &CutProblem,
    best: &BestCut,
) -> Result<Option<(ByName<f64>, f64)>, BestCutError> {
    let model = Model::new(problem)?;
    let mut settings: Vec<(usize, Vec<f64>)> = vec![];
    for steps in &problem.steps {
        if steps.values.is_empty() {
            return Err(BestCutError::Problem(format!("the steps of {} must be at least one", steps.name)));
        }
        if let Some(value) = steps.values.iter().find(|value| !(**value > 0.0 && value.is_finite())) {
            return Err(BestCutError::Problem(format!(
                "the steps of {} must be greater than 0, not {value}",
                steps.name
            )));
        }
        settings.push(setting(&model, best, &steps.name, &steps.values)?);
    }
    let combined = settings.iter().try_fold(1usize, |count, (_, values)| count.checked_mul(values.len()));
    let combined = combined.filter(|&count| count <= MAX_COMBINATIONS).ok_or_else(|| {
        BestCutError::Problem(format!("the steps make more than {MAX_COMBINATIONS} combinations"))
    })?;
    let mut kept: Option<BestCut> = None;
    for mut number in 0..combined {
        let mut fixed = CutProblem { steps: vec![], ..problem.clone() };
        let mut within = true;
        for (at, values) in &settings {
            let value = values[number % values.len()];
            number /= values.len();
            let name = problem.formula.arguments[*at].name;
            if let Some(choice) = fixed.choose.iter_mut().find(|choice| choice.name == name) {
                // A hair beyond the range is its end, which was worked out from the same number.
                within &= value >= choice.least * (1.0 - 1e-12) && value <= choice.greatest * (1.0 + 1e-12);
                *choice = CutChoice { name: name.into(), least: value, greatest: value };
            }
        }
        if !within {
            continue;
        }
        let better = |set: &BestCut| {
            kept.as_ref().is_none_or(|kept| match model.inverted {
                true => set.objective > kept.objective,
                false => set.objective < kept.objective,
            })
        };
        match solve(&fixed) {
            Ok(set) if better(&set) => kept = Some(set),
            Ok(_) | Err(BestCutError::Contradiction(_) | BestCutError::Formula(_)) => {}
            Err(error) => return Err(error),
        }
    }
    Ok(kept.map(|set| (set.chosen, set.objective)))
}

/// The chosen argument that steps set, with its values.
fn setting(
    model: &Model<'_>,
    best: &BestCut,
    name: &str,
    steps: &[f64],
) -> Result<(usize, Vec<f64>), BestCutError> {
    let problem = model.problem;
    let chosen = |name: &str| problem.choose.iter().any(|choice| choice.name == name);
    if let Some(at) = problem.formula.arguments.iter().position(|argument| argument.name == name)
        && chosen(name)
    {
        return Ok((at, steps.to_vec()));
    }
    let place = model.known(name)?;
    let figures = model.figures(&model.stretches);
    let figure = &figures[place];
    let moving: Vec<usize> = (0..model.straight.len()).filter(|&j| figure.slopes[j] != 0.0).collect();
    match (moving.as_slice(), model.bent.is_empty(), best.results.get(name)) {
        (&[j], true, Some(&now)) if model.straight[j] < problem.formula.arguments.len() => {
            let at = model.straight[j];
            let own = best.arguments.values().nth(at).copied().unwrap_or(f64::NAN);
            let value = |step: &f64| own * exp(ln(step / now) / figure.slopes[j]);
            Ok((at, steps.iter().map(value).collect()))
        }
        _ => Err(BestCutError::Problem(format!(
            "{name} cannot be set by steps: no chosen argument alone sets it"
        ))),
    }
}

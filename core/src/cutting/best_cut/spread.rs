//! How far the best cut moves with constants of tool life that are not surely known, and what being wrong costs.
use super::best::best_cut;
use super::many::each;
use super::model::Model;
use super::problem::{BestCutError, CutChoice, CutLife, CutObjective, CutProblem};
use crate::math::{exp, normal_quantile};
use crate::object::ByName;
use crate::stack::random::{LANES, Stream};
use crate::watch::Watch;
use tenths_macros::Object;

/// Samples at most.
const MAX_SAMPLES: usize = 1_000_000;
/// Constants that vary: n, ln C, and the exponents of feed and depth.
const CONSTANTS: usize = 4;

/// The spread of a best cut, as constants of tool life vary.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct CutSpread {
    /// Sets of constants that were drawn.
    pub samples: usize,
    /// How many of them have no best cut: an exponent n that is not above 0 and at most 1, or limits that contradict each
    /// other. They are left out of the figures.
    pub refused: usize,
    /// Each chosen argument: the value that a twentieth of the samples lie below.
    pub chosen_low: ByName<f64>,
    /// The median.
    pub chosen_median: ByName<f64>,
    /// The value that a twentieth of the samples lie above.
    pub chosen_high: ByName<f64>,
    /// What the objective of the cut that is best by the constants as fitted is above the best of each sample: the mean.
    #[pure]
    pub mean_loss: f64,
    /// The loss that a twentieth of the samples lie above.
    #[pure]
    pub high_loss: f64,
}

impl std::fmt::Display for CutSpread {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        use crate::error::to_digits;
        let ends = self.chosen_low.iter().zip(self.chosen_high.values());
        let ranges = ends
            .map(|((name, low), high)| format!("{name} {} to {}", to_digits(*low, 4), to_digits(*high, 4)));
        write!(
            f,
            "{}; being wrong costs {} on average",
            ranges.collect::<Vec<_>>().join(", "),
            to_digits(self.mean_loss, 4)
        )
    }
}

/// The spread of the best cut, its constants of tool life drawn from a normal law about those of the problem.
///
/// `covariance` is that of n, ln C, the exponent of the feed and that of the depth, in this order, as `TaylorFit` gives
/// it; rows for exponents that were not fitted are left out. The same seed gives the same spread on any number of threads.
///
/// # Errors
/// As [`best_cut`], and for a matrix that is not a covariance.
pub fn best_cut_spread(
    problem: &CutProblem,
    covariance: &[Vec<f64>],
    samples: usize,
    seed: u64,
    threads: usize,
    watch: &Watch<'_>,
) -> Result<CutSpread, BestCutError> {
    let refused = |message: String| Err(BestCutError::Problem(message));
    let Some(life) = problem.tool_life else {
        return refused("give tool_life, whose constants vary".into());
    };
    if matches!(problem.objective, CutObjective::Most(_) | CutObjective::Own) {
        return refused("the spread is that of an objective by name that is kept low".into());
    }
    if !(2..=MAX_SAMPLES).contains(&samples) {
        return refused(format!("samples must be 2 to {MAX_SAMPLES}, not {samples}"));
    }
    let root = square_root(covariance, &life)?;
    let best = best_cut(problem)?;
    let lives: Vec<CutLife> = draws(samples, seed).iter().map(|draw| moved(&life, &root, draw)).collect();
    let unknowns = problem.unknowns.iter().filter_map(|own| best.chosen.get(&own.name));
    let fixed = problem
        .choose
        .iter()
        .map(|choice| &choice.name)
        .chain(problem.choose_from.iter().map(|list| &list.name));
    let at_best = |name: &String| {
        let value = best.chosen.get(name).copied().unwrap_or(f64::NAN);
        CutChoice { name: name.clone(), least: value, greatest: value }
    };
    let fixed: Vec<CutChoice> = fixed.map(at_best).collect();
    let row: Vec<f64> = best.arguments.values().chain(unknowns).copied().collect();
    // What the cut that is best by the constants as fitted loses by those of a sample, and what is best by them.
    let by = |life: &CutLife| -> Result<Option<(f64, Vec<f64>)>, BestCutError> {
        let problem = CutProblem { tool_life: Some(*life), steps: vec![], ..problem.clone() };
        let Ok(own) = best_cut(&problem) else { return Ok(None) };
        let fixed = CutProblem { choose: fixed.clone(), choose_from: vec![], ..problem };
        let model = Model::new(&fixed)?;
        let figures = model.exact(&row);
        let loss = figures.map(|figures| (model.objective(&figures) - own.objective).max(0.0));
        Ok(loss.map(|loss| (loss, own.chosen.values().copied().collect())))
    };
    let (mut losses, mut chosen) = (vec![], vec![vec![]; best.chosen.values().len()]);
    for sample in each(&lives, threads, watch, by)? {
        let Some((loss, values)) = sample? else { continue };
        losses.push(loss);
        chosen.iter_mut().zip(values).for_each(|(list, value)| list.push(value));
    }
    if losses.len() < 2 {
        return refused(
            "hardly any sample has a best cut: the constants of tool life are not known well enough".into(),
        );
    }
    losses.sort_by(f64::total_cmp);
    chosen.iter_mut().for_each(|list| list.sort_by(f64::total_cmp));
    let at = |share: f64| {
        let names = best.chosen.iter().map(|(name, _)| name.to_owned());
        names.zip(&chosen).map(|(name, list)| (name, quantile(list, share))).collect()
    };
    Ok(CutSpread {
        samples,
        refused: samples - losses.len(),
        chosen_low: at(0.05),
        chosen_median: at(0.5),
        chosen_high: at(0.95),
        mean_loss: losses.iter().sum::<f64>() / losses.len() as f64,
        high_loss: quantile(&losses, 0.95),
    })
}

/// A quantile of sorted values, straight between them.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * (sorted.len() - 1) as f64;
    let below = place.floor() as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (place - below as f64) * (sorted[above] - sorted[below])
}

/// The lower triangle whose square is the covariance, in the order n, ln C, feed, depth.
fn square_root(
    covariance: &[Vec<f64>],
    life: &CutLife,
) -> Result<[[f64; CONSTANTS]; CONSTANTS], BestCutError> {
    let count = covariance.len();
    let square = covariance.iter().all(|row| row.len() == count && row.iter().all(|value| value.is_finite()));
    if !(2..=CONSTANTS).contains(&count) || !square {
        return Err(BestCutError::Problem(
            "the covariance must be a square of 2 to 4 rows of finite numbers: n, ln C, and the exponents fitted".into(),
        ));
    }
    // A third row alone is that of the exponent which is not 0.
    let third = if count == 3 && life.feed_exponent == 0.0 { 3 } else { 2 };
    let place = |k: usize| if k == 2 { third } else { k };
    let mut root = [[0.0; CONSTANTS]; CONSTANTS];
    for i in 0..count {
        for j in 0..=i {
            let done: f64 = (0..j).map(|k| root[place(i)][place(k)] * root[place(j)][place(k)]).sum();
            let left = covariance[i][j] - done;
            root[place(i)][place(j)] = match i == j {
                // A constant that follows from the others adds nothing but rounding.
                true if left >= -1e-9 * covariance[i][i].abs() => left.max(0.0).sqrt(),
                true => {
                    return Err(BestCutError::Problem(
                        "the covariance is not one: a combination of the constants would have a variance below 0".into(),
                    ));
                }
                false if root[place(j)][place(j)] > 0.0 => left / root[place(j)][place(j)],
                false => 0.0,
            };
        }
    }
    Ok(root)
}

/// Standard normal numbers, four a sample.
fn draws(samples: usize, seed: u64) -> Vec<[f64; CONSTANTS]> {
    let mut words = vec![0; (samples * CONSTANTS).next_multiple_of(LANES)];
    Stream::new(seed, 0).fill(&mut words);
    let normal = |word: u64| normal_quantile(((word >> 11) as f64 + 0.5) / (1u64 << 53) as f64);
    words.chunks_exact(CONSTANTS).take(samples).map(|word| std::array::from_fn(|k| normal(word[k]))).collect()
}

fn moved(life: &CutLife, root: &[[f64; CONSTANTS]; CONSTANTS], draw: &[f64; CONSTANTS]) -> CutLife {
    let by: [f64; CONSTANTS] = std::array::from_fn(|i| (0..CONSTANTS).map(|k| root[i][k] * draw[k]).sum());
    CutLife {
        taylor_n: life.taylor_n + by[0],
        taylor_c: life.taylor_c * exp(by[1]),
        feed_exponent: (life.feed_exponent + by[2]).max(0.0),
        depth_exponent: (life.depth_exponent + by[3]).max(0.0),
        ..*life
    }
}

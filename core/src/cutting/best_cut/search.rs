//! The search: branch and bound over what is not straight, which for most cuts is nothing.
use super::contradiction::contradiction;
use super::curve::Speeds;
use super::figure::Stretch;
use super::limits::Limits;
use super::model::Model;
use super::problem::BestCutError;
use super::program::{Least, Program};

/// How far the best may be below what is found, in logarithms, where the search branches.
const TOLERANCE: f64 = 1e-7;
/// Parts looked at, at most. What is found then is told with the bound that is reached.
const MAX_NODES: usize = 4000;

/// What the search found.
pub(super) struct Found {
    /// The arguments.
    pub row: Vec<f64>,
    pub least: Least,
    /// The programme whose least it is.
    pub program: Program,
    /// No cut has a lower logarithm of the sum.
    pub bound: f64,
}

/// A part of all choices.
#[derive(Clone)]
struct Part {
    stretches: Vec<Stretch>,
    speeds: Option<Speeds>,
    bound: f64,
}

/// The best cut of a model within its limits.
pub(super) fn search(model: &Model<'_>, limits: &Limits<'_>) -> Result<Found, BestCutError> {
    let pieces = limits.pieces();
    let speeds: Vec<_> = if pieces.is_empty() { vec![None] } else { pieces.into_iter().map(Some).collect() };
    let part = |speeds| Part { stretches: model.stretches.clone(), speeds, bound: f64::NEG_INFINITY };
    let mut open: Vec<Part> = speeds.into_iter().map(part).collect();
    let roots = open.clone();
    let (mut best, mut settled, mut solved): (Option<Found>, f64, usize) = (None, f64::INFINITY, 0);
    while let Some(part) = take_lowest(&mut open) {
        let enough = best.as_ref().is_some_and(|best| part.bound >= best.least.value - TOLERANCE);
        if enough || solved >= MAX_NODES {
            settled = settled.min(part.bound);
            continue;
        }
        let generous = limits.program(&part.stretches, part.speeds, true);
        solved += 1;
        let Ok(least) = generous.least() else { continue };
        let bound = least.bound.max(part.bound);
        if part.stretches.iter().all(Stretch::is_point) && limits.is_straight(part.speeds) {
            settled = settled.min(bound);
            keep(&mut best, model, limits, &part.stretches, generous, least);
            continue;
        }
        // Corners find an optimum at the end of a range; within, the middle of ever smaller parts does.
        let tried = if solved == 1 { points(&part.stretches) } else { vec![middle(&part.stretches)] };
        for stretches in tried {
            let strict = limits.program(&stretches, part.speeds, false);
            if let Ok(least) = strict.least() {
                keep(&mut best, model, limits, &stretches, strict, least);
            }
        }
        match best.as_ref().is_some_and(|best| bound >= best.least.value - TOLERANCE) {
            true => settled = settled.min(bound),
            false => open.extend(halves(&part, bound)),
        }
    }
    match best {
        Some(best) => Ok(Found { bound: settled.min(best.least.value), ..best }),
        None => Err(BestCutError::Contradiction(contradiction(
            limits,
            roots.iter().map(|part| limits.program(&part.stretches, part.speeds, true)),
        ))),
    }
}

fn take_lowest(open: &mut Vec<Part>) -> Option<Part> {
    let lowest = (0..open.len()).min_by(|&a, &b| open[a].bound.total_cmp(&open[b].bound))?;
    Some(open.swap_remove(lowest))
}

/// Keeps a point that is better, and that the formula itself takes.
fn keep(
    best: &mut Option<Found>,
    model: &Model<'_>,
    limits: &Limits<'_>,
    stretches: &[Stretch],
    program: Program,
    least: Least,
) {
    if best.as_ref().is_some_and(|best| best.least.value <= least.value) {
        return;
    }
    let row = model.row(&least.at, stretches);
    if model.exact(&row).is_some_and(|figures| limits.hold(&figures, true)) {
        let bound = least.bound;
        *best = Some(Found { row, least, program, bound });
    }
}

fn middle(stretches: &[Stretch]) -> Vec<Stretch> {
    let middle = |stretch: &Stretch| Stretch { low: stretch.middle(), high: stretch.middle() };
    stretches.iter().map(middle).collect()
}

/// The middle and the corners of stretches, each as stretches of a point.
fn points(stretches: &[Stretch]) -> Vec<Vec<Stretch>> {
    let point = |value: f64| Stretch { low: value, high: value };
    let mut points = vec![middle(stretches)];
    if stretches.iter().any(|stretch| !stretch.is_point()) {
        for corner in 0..1usize << stretches.len() {
            let end = |(k, stretch): (usize, &Stretch)| {
                point(if corner >> k & 1 == 0 { stretch.low } else { stretch.high })
            };
            points.push(stretches.iter().enumerate().map(end).collect());
        }
    }
    points
}

/// The two halves of a part across its widest side.
fn halves(part: &Part, bound: f64) -> Vec<Part> {
    let width = |stretch: &Stretch| {
        let size = stretch.low.abs().max(stretch.high.abs()).max(f64::MIN_POSITIVE);
        (stretch.high - stretch.low) / size
    };
    let widest = (0..part.stretches.len())
        .max_by(|&a, &b| width(&part.stretches[a]).total_cmp(&width(&part.stretches[b])));
    let speeds = part.speeds.map_or(0.0, |Speeds(low, high)| high - low);
    let (mut lower, mut upper) = (Part { bound, ..part.clone() }, Part { bound, ..part.clone() });
    match widest.filter(|&k| width(&part.stretches[k]) > speeds || part.speeds.is_none()) {
        Some(k) => {
            let middle = part.stretches[k].middle();
            // Floats that are neighbours have nothing between them.
            if middle <= part.stretches[k].low || middle >= part.stretches[k].high {
                return vec![];
            }
            lower.stretches[k].high = middle;
            upper.stretches[k].low = middle;
        }
        None => {
            if let Some(Speeds(low, high)) = part.speeds {
                let middle = 0.5 * (low + high);
                lower.speeds = Some(Speeds(low, middle));
                upper.speeds = Some(Speeds(middle, high));
            }
        }
    }
    vec![lower, upper]
}

//! How flat the optimum is.
use super::limits::{Limits, slack};
use super::model::Model;
use super::program::{MAX_UNKNOWNS, Program, Vector, dot};
use super::search::Found;
use crate::math::exp;

/// By what share the objective may be worse.
const SHARE: f64 = 0.01;

/// A chosen argument by place, with the ends between which the objective is at most a hundredth worse, all else held.
pub(super) fn flat_range(
    model: &Model<'_>,
    limits: &Limits<'_>,
    found: &Found,
    row: &[f64],
    k: usize,
) -> (usize, f64, f64) {
    match k.checked_sub(model.straight.len()) {
        None => {
            let place = model.straight[k];
            let [low, high] = [-1.0, 1.0].map(|way| row[place] * exp(reach(model, found, k, way)));
            (place, low, high)
        }
        Some(k) => {
            let place = model.bent[k];
            let [low, high] = [model.stretches[k].low, model.stretches[k].high]
                .map(|end| bent_end(model, limits, row, place, end));
            (place, low, high)
        }
    }
}

/// How far the logarithm of a straight argument may move one way.
fn reach(model: &Model<'_>, found: &Found, k: usize, way: f64) -> f64 {
    let Program { rows, terms, .. } = &found.program;
    let at = found.least.at;
    let mut room = f64::INFINITY;
    for row in rows {
        let closing = row.slopes[k] * way;
        if closing > 1e-12 {
            room = room.min(slack(row, &at).max(0.0) / closing);
        }
    }
    let moved = |by: f64| -> f64 {
        let mut next: Vector = [0.0; MAX_UNKNOWNS];
        next.copy_from_slice(&at);
        next[k] += by * way;
        terms.iter().map(|term| exp(term.level + dot(&term.slopes, &next))).sum()
    };
    let here = moved(0.0);
    let most = match model.inverted {
        true => here / (1.0 - SHARE),
        false => here + SHARE * (here + model.constant),
    };
    if room.is_infinite() || moved(room) <= most {
        return if room.is_finite() { way * room } else { 0.0 };
    }
    let (mut low, mut high) = (0.0, room);
    while high - low > 1e-6 {
        let middle = 0.5 * (low + high);
        match moved(middle) <= most {
            true => low = middle,
            false => high = middle,
        }
    }
    way * low
}

/// The last value toward an end of an argument that is not straight.
fn bent_end(model: &Model<'_>, limits: &Limits<'_>, row: &[f64], place: usize, end: f64) -> f64 {
    let mut moved = row.to_vec();
    let best = model.exact(row).map_or(f64::NAN, |figures| model.objective(&figures));
    let mut serves = |value: f64| {
        moved[place] = value;
        model.exact(&moved).is_some_and(|figures| {
            let objective = model.objective(&figures);
            let near = match model.inverted {
                true => objective >= best * (1.0 - SHARE),
                false => objective <= best * (1.0 + SHARE),
            };
            near && limits.hold(&figures, true)
        })
    };
    if serves(end) {
        return end;
    }
    let (mut inside, mut outside) = (row[place], end);
    for _ in 0..30 {
        let middle = inside + 0.5 * (outside - inside);
        match serves(middle) {
            true => inside = middle,
            false => outside = middle,
        }
    }
    inside
}

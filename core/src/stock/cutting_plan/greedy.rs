//! Plans that are found quickly, as a start for the search.
use super::effort::Effort;
use super::knapsack::{Found, Item, Patience, best_pattern, sort};
use super::problem::{Layouts, Pattern, Problem};

/// What a filling search for one bar may take, in partial patterns.
const PARTIALS_A_BAR: usize = 20_000;

/// What each piece is taken to be worth while bars are filled, in parts of the longest bar.
pub(super) struct Worth(Vec<f64>);

impl Worth {
    /// Worth by length, so that bars are filled as full as they go. `eager` is how much a long piece is preferred
    /// to short ones.
    pub fn by_length(problem: &Problem, eager: f64) -> Self {
        let longest = problem.demands.iter().map(|demand| demand.weight).max().unwrap_or(1) as f64;
        let bar = problem.bars.iter().map(|bar| bar.capacity).max().unwrap_or(1) as f64;
        let worth = |weight: f64| weight / bar * (1.0 + eager * weight / longest);
        Self(problem.demands.iter().map(|demand| worth(demand.weight as f64)).collect())
    }

    /// Raises the worth of pieces that could only be cut with much waste, so that they are cut earlier next time,
    /// beside pieces that go well with them.
    fn learn(&mut self, problem: &Problem, pattern: &Pattern) {
        let capacity = problem.bars[pattern.bar].capacity as f64;
        let used = cut(problem, pattern) / capacity;
        for &(piece, _) in &pattern.pieces {
            let length = problem.demands[piece].weight as f64 / capacity;
            self.0[piece] = 0.5 * (self.0[piece] + length / used);
        }
    }
}

/// Fills bar after bar with what is worth most. Nothing where the bars run out.
pub(super) fn fill(
    problem: &Problem,
    wanted: &[i64],
    left: &[Option<i64>],
    worth: &mut Worth,
    effort: &Effort,
) -> Option<Layouts> {
    let mut wanted = wanted.to_vec();
    let mut left = left.to_vec();
    let mut layouts = Layouts::new();
    while wanted.iter().any(|&count| count > 0) {
        let (pattern, times) = next(problem, &wanted, &left, worth, effort)?;
        for &(piece, count) in &pattern.pieces {
            wanted[piece] -= (count * times).min(wanted[piece]);
        }
        if let Some(count) = &mut left[pattern.bar] {
            *count -= times;
        }
        worth.learn(problem, &pattern);
        layouts.push((pattern, times));
    }
    Some(layouts)
}

/// The pattern of the least cost for what it cuts, and how often it can be repeated.
fn next(
    problem: &Problem,
    wanted: &[i64],
    left: &[Option<i64>],
    worth: &Worth,
    effort: &Effort,
) -> Option<(Pattern, i64)> {
    let patience = Patience { enough: PARTIALS_A_BAR, most: PARTIALS_A_BAR };
    let mut best: Option<(f64, Pattern)> = None;
    for (bar, stock) in problem.bars.iter().enumerate() {
        if left[bar] == Some(0) {
            continue;
        }
        let mut items: Vec<Item> = Vec::new();
        for (piece, demand) in problem.demands.iter().enumerate() {
            if wanted[piece] > 0 && demand.weight <= stock.capacity {
                let value = ((worth.0[piece] * (1u64 << 40) as f64) as i64).max(1);
                items.push(Item { piece, weight: demand.weight, value, most: wanted[piece] });
            }
        }
        sort(&mut items);
        let pattern = match best_pattern(bar, stock.capacity, &items, 0, &[], patience, effort) {
            Found::Better(mut patterns) => patterns.pop(),
            Found::Nothing => None,
            Found::TooLong => Some(longest_first(bar, stock.capacity, &items)),
        };
        let Some(pattern) = pattern else { continue };
        let dearness = stock.cost as f64 / cut(problem, &pattern);
        if best.as_ref().is_none_or(|(least, _)| dearness < *least) {
            best = Some((dearness, pattern));
        }
    }
    let (_, pattern) = best?;
    let repeats = pattern.pieces.iter().map(|&(piece, count)| wanted[piece] / count).min()?;
    let times = repeats.min(left[pattern.bar].unwrap_or(i64::MAX)).max(1);
    Some((pattern, times))
}

/// The length of bar that the pieces of a pattern take.
fn cut(problem: &Problem, pattern: &Pattern) -> f64 {
    pattern.pieces.iter().map(|&(piece, count)| problem.demands[piece].weight as f64 * count as f64).sum()
}

/// Takes as many of each piece as fit, the longest first.
fn longest_first(bar: usize, capacity: i64, items: &[Item]) -> Pattern {
    let mut items = items.to_vec();
    items.sort_by_key(|item| (-item.weight, item.piece));
    let mut rest = capacity;
    let mut pieces = Vec::new();
    for item in items {
        let count = (rest / item.weight).min(item.most);
        if count > 0 {
            pieces.push((item.piece, count));
            rest -= count * item.weight;
        }
    }
    pieces.sort_unstable();
    Pattern { bar, pieces }
}

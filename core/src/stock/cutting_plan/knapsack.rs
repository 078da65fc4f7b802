//! The most valuable pattern of a bar: a bounded knapsack, exact.
//!
//! Partial patterns are kept in the order of what they take of the bar, without those that another one matches at
//! less length, and without those that could not reach the value sought if the rest of the bar were filled at the
//! best price per length that is left. Lengths and values are whole numbers, so that no rounding decides.
use super::effort::Effort;
use super::problem::Pattern;

/// A piece with what it is worth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Item {
    /// Place of the piece in the problem.
    pub piece: usize,
    /// What it takes of the bar.
    pub weight: i64,
    /// What one is worth.
    pub value: i64,
    /// How many can be used.
    pub most: i64,
}

impl Item {
    /// Value per length.
    fn density(&self) -> f64 {
        self.value as f64 / self.weight as f64
    }
}

/// A partial pattern: `copies` of the item `item` after the partial pattern `before`.
#[derive(Clone, Copy)]
struct Partial {
    weight: i64,
    value: i64,
    before: u32,
    item: u32,
    copies: i64,
}

/// How long to look for a pattern.
#[derive(Clone, Copy)]
pub(super) struct Patience {
    /// After so many partial patterns, any pattern that is worth more will do.
    pub enough: usize,
    /// After so many, the search is given up.
    pub most: usize,
}

/// What the search for a pattern came to.
pub(super) enum Found {
    /// Patterns that are worth more than the value sought, each better than the one before.
    Better(Vec<Pattern>),
    /// No pattern is worth more.
    Nothing,
    /// The search was longer than it may be.
    TooLong,
}

/// Items in the order in which a search takes them: best value per length first.
pub(super) fn sort(items: &mut [Item]) {
    items.sort_by(|a, b| b.density().total_cmp(&a.density()).then(a.piece.cmp(&b.piece)));
}

/// The most valuable pattern, out of those that are not excluded, that is worth more than `sought`. The items are sorted.
pub(super) fn best_pattern(
    bar: usize,
    capacity: i64,
    items: &[Item],
    sought: i64,
    excluded: &[Pattern],
    patience: Patience,
    effort: &Effort,
) -> Found {
    let mut all = vec![Partial { weight: 0, value: 0, before: 0, item: 0, copies: 0 }];
    let mut kept = vec![0u32];
    let mut best = sought;
    let mut found = Vec::new();
    let (mut merged, mut pruned) = (Vec::new(), Vec::new());
    for (place, item) in items.iter().enumerate() {
        let density = items.get(place + 1).map_or(0.0, Item::density);
        let base = kept.len();
        merged.clear();
        merged.extend_from_slice(&kept);
        let fitting = (capacity - all[kept[0] as usize].weight) / item.weight;
        for copies in 1..=item.most.min(fitting) {
            // Those that take least of the bar come first, so that what does not fit is a tail.
            let start = all.len();
            for &before in &kept[..base] {
                let from = all[before as usize];
                let Some(weight) = copies.checked_mul(item.weight).and_then(|w| w.checked_add(from.weight))
                else {
                    break;
                };
                if weight > capacity {
                    break;
                }
                let value = from.value + copies * item.value;
                all.push(Partial { weight, value, before, item: place as u32, copies });
            }
            let made = (all.len() - start) as u64 + 1;
            if all.len() > patience.most || !effort.spend(made + merged.len() as u64) {
                return Found::TooLong;
            }
            for state in start..all.len() {
                if all[state].value > best {
                    let pattern = pattern_of(&all, state, items, bar);
                    if !excluded.contains(&pattern) {
                        best = all[state].value;
                        found.push(pattern);
                    }
                }
            }
            merge(&all, &mut merged, start, excluded.len() + 1, &mut pruned);
            prune(&all, &mut merged, capacity, density, best);
        }
        prune(&all, &mut merged, capacity, density, best);
        std::mem::swap(&mut kept, &mut merged);
        if kept.is_empty() || (!found.is_empty() && all.len() > patience.enough) {
            break;
        }
    }
    if found.is_empty() { Found::Nothing } else { Found::Better(found) }
}

/// More partial patterns than this need too much memory.
pub(super) const MAX_PARTIALS: usize = 8_000_000;

/// Merges the partial patterns from `start` on into those kept, by length, and drops each one that `depth` others
/// match at no more length. As many as are excluded, and one more, have to be kept, so that a pattern that is not
/// excluded is left wherever there was one.
fn merge(all: &[Partial], kept: &mut Vec<u32>, start: usize, depth: usize, out: &mut Vec<u32>) {
    out.clear();
    let mut highest: Vec<i64> = Vec::with_capacity(depth + 1);
    let (mut old, mut new) = (0, start);
    loop {
        let from_old = match (kept.get(old), all.get(new)) {
            (None, None) => break,
            (Some(_), None) => true,
            (None, Some(_)) => false,
            (Some(&a), Some(b)) => {
                let a = &all[a as usize];
                (a.weight, -a.value) <= (b.weight, -b.value)
            }
        };
        let state = if from_old {
            old += 1;
            kept[old - 1]
        } else {
            new += 1;
            (new - 1) as u32
        };
        let value = all[state as usize].value;
        if highest.len() == depth {
            if value <= highest[depth - 1] {
                continue;
            }
            highest.pop();
        }
        let at = highest.partition_point(|&other| other >= value);
        highest.insert(at, value);
        out.push(state);
    }
    std::mem::swap(kept, out);
}

/// Drops what cannot be worth more than `best` even if the rest of the bar is filled at the best price left.
fn prune(all: &[Partial], kept: &mut Vec<u32>, capacity: i64, density: f64, best: i64) {
    kept.retain(|&state| {
        let partial = &all[state as usize];
        let rest = (capacity - partial.weight) as f64 * density;
        // One part in 10¹² covers the rounding of the product and of the density.
        partial.value as f64 + rest * (1.0 + 1e-12) + 1.0 > best as f64
    });
}

fn pattern_of(all: &[Partial], mut state: usize, items: &[Item], bar: usize) -> Pattern {
    let mut pieces = Vec::new();
    while state != 0 {
        let partial = &all[state];
        pieces.push((items[partial.item as usize].piece, partial.copies));
        state = partial.before as usize;
    }
    pieces.sort_unstable();
    Pattern { bar, pieces }
}

//! Branch and price: the search for a plan of least cost, with a proof.
use std::collections::HashMap;

use super::effort::Effort;
use super::greedy::{Worth, fill};
use super::problem::{Layouts, Pattern, Problem};
use super::relax::{Limit, Relaxed, relax};

/// What a search came to.
pub(super) struct Outcome {
    /// The best layouts found; nothing where no plan was found.
    pub layouts: Option<Layouts>,
    /// No plan costs less.
    pub bound: i64,
    /// Whether the search came to its end: without layouts, there is then no plan at all.
    pub complete: bool,
}

/// A part of the problem: what is still to be cut, with what, beside what is settled.
#[derive(Clone)]
struct Branch {
    wanted: Vec<i64>,
    left: Vec<Option<i64>>,
    settled: Layouts,
    limits: Vec<Limit>,
}

/// Looks for the layouts of least cost.
pub(super) fn search(problem: &Problem, effort: &Effort) -> Outcome {
    let wanted: Vec<i64> = problem.demands.iter().map(|demand| demand.count).collect();
    let left: Vec<Option<i64>> = problem.bars.iter().map(|bar| bar.available).collect();
    let mut search = Search { problem, best: None, least: i64::MAX, effort, cut_short: false };
    let bound = search.material_bound(&wanted);
    let mut worth = Worth::by_length(problem, 0.2);
    // Of many lengths a linear programme takes long, and some filling order soon wastes next to nothing.
    let rounds = if problem.demands.len() > MANY_LENGTHS { 10 } else { 3 };
    for _ in 0..rounds {
        if search.least > bound && !search.ended() {
            search.offer(fill(problem, &wanted, &left, &mut worth, effort));
        }
    }
    if search.least <= bound {
        return Outcome { layouts: search.best, bound, complete: true };
    }
    let mut pool = Vec::new();
    if let Some(layouts) = &search.best {
        pool.extend(layouts.iter().map(|(pattern, _)| pattern.clone()));
    }
    pool.sort_unstable();
    pool.dedup();
    let root = Branch { wanted, left, settled: Vec::new(), limits: Vec::new() };
    let relaxed = search.relax(&root, &mut pool);
    let bound = bound.max(relaxed.bound);
    if search.least > bound && !relaxed.short && !search.ended() {
        search.dive(root.clone(), &relaxed, &pool, bound);
    }
    let proven = search.explore(root, relaxed, &pool, 0);
    let bound = bound.max(proven).min(search.least);
    Outcome { layouts: search.best, bound, complete: !search.cut_short }
}

struct Search<'a> {
    problem: &'a Problem,
    best: Option<Layouts>,
    /// What the best layouts cost.
    least: i64,
    effort: &'a Effort<'a>,
    /// Whether some branch was left before it was explored.
    cut_short: bool,
}

/// More lengths than this are tried in many filling orders first.
const MANY_LENGTHS: usize = 30;
/// Deeper than this the search does not go, for the sake of the stack.
const DEEPEST: usize = 2000;

impl Search<'_> {
    /// What the material alone costs, if nothing is lost.
    fn material_bound(&self, wanted: &[i64]) -> i64 {
        let weight: i128 = self
            .problem
            .demands
            .iter()
            .zip(wanted)
            .map(|(demand, &count)| i128::from(demand.weight) * i128::from(count))
            .sum();
        // Cost / capacity is least for one kind of bar; compared as products, exactly.
        // A bar no longer than its trim holds nothing.
        let bars = self.problem.bars.iter().filter(|bar| bar.capacity > 0);
        let Some(best) = bars.min_by(|a, b| {
            let left = i128::from(a.cost) * i128::from(b.capacity);
            left.cmp(&(i128::from(b.cost) * i128::from(a.capacity)))
        }) else {
            return 0;
        };
        match weight.checked_mul(i128::from(best.cost)) {
            Some(cost) => {
                let capacity = i128::from(best.capacity);
                i64::try_from(cost / capacity + i128::from(cost % capacity > 0)).unwrap_or(i64::MAX)
            }
            None => 0,
        }
    }

    /// Takes layouts if they are better than the best so far.
    fn offer(&mut self, layouts: Option<Layouts>) {
        if let Some(layouts) = layouts {
            let cost = self.problem.cost(&layouts);
            if cost < self.least {
                self.least = cost;
                self.best = Some(together(layouts));
            }
        }
    }

    fn ended(&self) -> bool {
        self.effort.has_ended()
    }

    fn relax(&mut self, branch: &Branch, pool: &mut Vec<Pattern>) -> Relaxed {
        let limited = branch.left.iter().enumerate();
        let limits: Vec<Limit> = limited
            .filter_map(|(bar, left)| left.map(|count| Limit::Most { bar, count }))
            .chain(branch.limits.iter().cloned())
            .collect();
        for limit in &limits {
            if let Limit::Least { bar, .. } = limit {
                pool.push(Pattern { bar: *bar, pieces: Vec::new() });
            }
        }
        let settled = self.problem.cost(&branch.settled);
        let enough = self.least.saturating_sub(settled);
        let mut relaxed = relax(self.problem, &branch.wanted, &limits, pool, enough, self.effort);
        relaxed.bound = relaxed.bound.saturating_add(settled);
        relaxed
    }

    /// Rounds the relaxation down, settles that, and relaxes what is left, until all is settled: a good plan, soon.
    fn dive(&mut self, mut branch: Branch, relaxed: &Relaxed, pool: &[Pattern], bound: i64) {
        let mut next = None;
        loop {
            let relaxed = next.as_ref().unwrap_or(relaxed);
            if relaxed.short || relaxed.uses.is_empty() {
                return;
            }
            self.round(&branch, relaxed);
            if self.least <= bound || relaxed.bound >= self.least || self.ended() {
                return;
            }
            let whole: Vec<(&Pattern, i64)> =
                relaxed.uses.iter().map(|(pattern, used)| (pattern, (used + 1e-7) as i64)).collect();
            if whole.iter().any(|(_, times)| *times > 0) {
                whole.into_iter().for_each(|(pattern, times)| branch.settle(pattern, times));
            } else if let Some((pattern, _)) = relaxed.uses.iter().max_by(|a, b| a.1.total_cmp(&b.1)) {
                branch.settle(pattern, 1);
            }
            if branch.wanted.iter().all(|&count| count == 0) {
                self.offer(Some(branch.settled));
                return;
            }
            next = Some(self.relax(&branch, &mut clipped(pool, &branch.wanted)));
        }
    }

    /// Offers the relaxation rounded down, with what is then missing filled in.
    fn round(&mut self, branch: &Branch, relaxed: &Relaxed) {
        let mut rounded = branch.clone();
        let mut uses: Vec<&(Pattern, f64)> = relaxed.uses.iter().collect();
        for (pattern, used) in &uses {
            rounded.settle(pattern, (used + 1e-7) as i64);
        }
        for extra in [false, true] {
            let mut rounded = rounded.clone();
            if extra {
                let part = |used: f64| used - (used + 1e-7).floor();
                uses.sort_by(|a, b| part(b.1).total_cmp(&part(a.1)));
                for (pattern, used) in &uses {
                    let needed = pattern.pieces.iter().all(|&(piece, count)| rounded.wanted[piece] >= count);
                    if part(*used) > 0.1 && needed && rounded.left[pattern.bar] != Some(0) {
                        rounded.settle(pattern, 1);
                    }
                }
            }
            for eager in [0.0, 0.5] {
                let mut worth = Worth::by_length(self.problem, eager);
                if let Some(rest) =
                    fill(self.problem, &rounded.wanted, &rounded.left, &mut worth, self.effort)
                {
                    let mut layouts = rounded.settled.clone();
                    layouts.extend(rest);
                    if self.allowed(&layouts) {
                        self.offer(Some(layouts));
                    }
                }
            }
        }
    }

    /// Whether there are bars enough for the layouts.
    fn allowed(&self, layouts: &Layouts) -> bool {
        self.problem.bars.iter().enumerate().all(|(bar, stock)| {
            let used: i64 =
                layouts.iter().filter(|(pattern, _)| pattern.bar == bar).map(|(_, times)| times).sum();
            stock.available.is_none_or(|available| used <= available)
        })
    }

    /// Explores a branch from its relaxation, and returns what every plan in it costs at least.
    fn explore(&mut self, branch: Branch, relaxed: Relaxed, pool: &[Pattern], depth: usize) -> i64 {
        if relaxed.short {
            return i64::MAX;
        }
        if branch.wanted.iter().all(|&count| count == 0) && branch.limits.is_empty() {
            self.offer(Some(branch.settled));
            return relaxed.bound;
        }
        if relaxed.bound >= self.least {
            return relaxed.bound;
        }
        if relaxed.uses.is_empty() || depth > DEEPEST || self.ended() {
            self.cut_short = true;
            return relaxed.bound;
        }
        self.round(&branch, &relaxed);
        if relaxed.bound >= self.least {
            return relaxed.bound;
        }
        let mut lowest = i64::MAX;
        for child in self.split(&branch, &relaxed) {
            let mut pool = clipped(pool, &child.wanted);
            let below = self.relax(&child, &mut pool);
            lowest = lowest.min(self.explore(child, below, &pool, depth + 1));
            if relaxed.bound >= self.least {
                break;
            }
        }
        lowest.min(self.least).max(relaxed.bound)
    }

    /// Two branches that leave out the present relaxation, or its plan if it is whole.
    fn split(&mut self, branch: &Branch, relaxed: &Relaxed) -> Vec<Branch> {
        let away = |used: f64| (used - used.round()).abs();
        if let Some((bar, used)) = self.divided_bar(relaxed) {
            let mut fewer = branch.clone();
            fewer.limits.push(Limit::Most { bar, count: used.floor() as i64 });
            let mut more = branch.clone();
            more.limits.push(Limit::Least { bar, count: used.ceil() as i64 });
            return if used - used.floor() < 0.5 { vec![fewer, more] } else { vec![more, fewer] };
        }
        let part = |used: f64| if away(used) < 1e-6 { 0.0 } else { used - used.floor() };
        let divided = relaxed.uses.iter().max_by(|a, b| part(a.1).total_cmp(&part(b.1)));
        let Some((pattern, used)) = divided.filter(|(_, used)| part(*used) > 0.0) else {
            let mut layouts = branch.settled.clone();
            layouts.extend(relaxed.uses.iter().map(|(pattern, used)| (pattern.clone(), used.round() as i64)));
            if self.covers(&layouts) && self.allowed(&layouts) {
                self.offer(Some(layouts));
            } else {
                self.cut_short = true;
            }
            return Vec::new();
        };
        let times = used.ceil() as i64;
        let mut with = branch.clone();
        with.settle_within(self.problem, pattern, times);
        let mut without = branch.clone();
        without.limits.push(Limit::Pattern { pattern: pattern.clone(), count: times - 1 });
        vec![with, without]
    }

    /// The kind of bar that is used a fraction of a time, farthest from a whole.
    fn divided_bar(&self, relaxed: &Relaxed) -> Option<(usize, f64)> {
        if self.problem.bars.len() < 2 {
            return None;
        }
        let mut used = vec![0.0; self.problem.bars.len()];
        relaxed.uses.iter().for_each(|(pattern, times)| used[pattern.bar] += times);
        let away = |used: f64| (used - used.round()).abs();
        let divided = used.into_iter().enumerate().max_by(|a, b| away(a.1).total_cmp(&away(b.1)))?;
        (away(divided.1) > 1e-6).then_some(divided)
    }

    fn covers(&self, layouts: &Layouts) -> bool {
        let mut cut: HashMap<usize, i64> = HashMap::new();
        for (pattern, times) in layouts {
            for (piece, count) in &pattern.pieces {
                *cut.entry(*piece).or_default() += count * times;
            }
        }
        let enough = |(piece, demand): (usize, &super::problem::Demand)| {
            cut.get(&piece).copied().unwrap_or(0) >= demand.count
        };
        self.problem.demands.iter().enumerate().all(enough)
    }
}

impl Branch {
    /// Cuts so many bars by the pattern.
    fn settle(&mut self, pattern: &Pattern, times: i64) {
        if times <= 0 {
            return;
        }
        for &(piece, count) in &pattern.pieces {
            self.wanted[piece] -= (count * times).min(self.wanted[piece]);
        }
        if let Some(left) = &mut self.left[pattern.bar] {
            *left = (*left - times).max(0);
        }
        self.settled.push((pattern.clone(), times));
    }

    /// The same, and the limits of this branch count what is settled.
    fn settle_within(&mut self, problem: &Problem, pattern: &Pattern, times: i64) {
        let before = self.wanted.clone();
        self.settle(pattern, times);
        for limit in &mut self.limits {
            match limit {
                Limit::Most { bar, count } if *bar == pattern.bar => *count -= times,
                Limit::Least { bar, count } if *bar == pattern.bar => *count = (*count - times).max(0),
                Limit::Pattern { pattern: limited, count } if limited == pattern => *count -= times,
                _ => {}
            }
        }
        // A pattern that is limited may now stand for larger ones too, which are not.
        let wanted = &self.wanted;
        self.limits.retain(|limit| match limit {
            Limit::Pattern { pattern, .. } => !pattern.stands_for_others(problem, &before, wanted),
            _ => true,
        });
    }
}

/// The patterns without what nobody wants any more, each once.
fn clipped(pool: &[Pattern], wanted: &[i64]) -> Vec<Pattern> {
    let mut patterns: Vec<Pattern> = pool.iter().map(|pattern| pattern.clipped(wanted)).collect();
    patterns.retain(|pattern| !pattern.pieces.is_empty());
    patterns.sort_unstable();
    patterns.dedup();
    patterns
}

/// Layouts in order, each pattern once.
fn together(mut layouts: Layouts) -> Layouts {
    layouts.sort_unstable();
    layouts.retain(|(_, times)| *times > 0);
    let mut once: Layouts = Vec::new();
    for (pattern, times) in layouts {
        match once.last_mut() {
            Some((last, count)) if *last == pattern => *count += times,
            _ => once.push((pattern, times)),
        }
    }
    once
}

//! The relaxation of a cutting plan, in which a pattern may be used a fraction of a time, by column generation:
//! patterns are looked for only as long as one would bring the cost down.
use super::effort::Effort;
use super::knapsack::{Found, Item, MAX_PARTIALS, Patience, best_pattern, sort};
use super::master::{Master, PatternColumn};
use super::problem::{Pattern, Problem};

/// A limit on how often something is used.
#[derive(Clone, Debug)]
pub(super) enum Limit {
    /// At most so many bars of a kind.
    Most { bar: usize, count: i64 },
    /// At least so many bars of a kind.
    Least { bar: usize, count: i64 },
    /// A pattern at most so often.
    Pattern { pattern: Pattern, count: i64 },
}

impl Limit {
    fn count(&self) -> i64 {
        match self {
            Self::Most { count, .. } | Self::Least { count, .. } | Self::Pattern { count, .. } => *count,
        }
    }

    /// Whether a bar cut by the pattern counts against the limit.
    fn counts(&self, of: &Pattern) -> bool {
        match self {
            Self::Most { bar, .. } | Self::Least { bar, .. } => *bar == of.bar,
            Self::Pattern { pattern, .. } => pattern == of,
        }
    }
}

/// What the relaxation came to.
pub(super) struct Relaxed {
    /// No plan costs less, in whole units of the objective.
    pub bound: i64,
    /// How often each pattern is used that is used at all; nothing where the search was cut short.
    pub uses: Vec<(Pattern, f64)>,
    /// Whether some pieces cannot be cut within the limits, as far as floating point can tell.
    pub short: bool,
}

/// A price of 1, as a whole number.
const ONE: i64 = 1 << 44;
/// A price less than this is rounding of the linear programme, so a pattern has to gain more to be taken.
const SLACK: i64 = 1 << 16;
/// A pattern that would help is taken without looking for a better one after so many partial patterns.
const PATIENCE: Patience = Patience { enough: 2000, most: MAX_PARTIALS };
/// So many patterns at most are taken into the programme at once.
const COLUMNS_A_ROUND: usize = 4;
/// What a piece that is not cut costs, in the dearest bars.
const SHORTAGE: f64 = 1e4;

/// Relaxes the problem for what is still wanted of each piece. `pool` holds the patterns known so far, and takes
/// those that are found. It stops early at a bound of `enough`.
pub(super) fn relax(
    problem: &Problem,
    wanted: &[i64],
    limits: &[Limit],
    pool: &mut Vec<Pattern>,
    enough: i64,
    effort: &Effort,
) -> Relaxed {
    let rows: Vec<usize> = (0..wanted.len()).filter(|&piece| wanted[piece] > 0).collect();
    let mut row_of = vec![usize::MAX; wanted.len()];
    rows.iter().enumerate().for_each(|(row, &piece)| row_of[piece] = row);
    let dearest = problem.bars.iter().map(|bar| bar.cost).max().unwrap_or(0).max(1);
    let mut master = start(wanted, &rows, limits);
    let fixed = master.columns.len();
    let column = |pattern: &Pattern| {
        let pieces = pattern.pieces.iter().map(|&(piece, count)| (row_of[piece], count as f64));
        let counted = limits.iter().enumerate().filter(|(_, limit)| limit.counts(pattern));
        PatternColumn {
            cost: problem.bars[pattern.bar].cost as f64 / dearest as f64,
            entries: pieces.chain(counted.map(|(at, _)| (rows.len() + at, 1.0))).collect(),
        }
    };
    pool.iter().for_each(|pattern| master.add(column(pattern)));
    let excluded: Vec<Pattern> = limits
        .iter()
        .filter_map(|limit| match limit {
            Limit::Pattern { pattern, .. } => Some(pattern.clone()),
            _ => None,
        })
        .collect();
    let mut bound = 0;
    loop {
        let spend = (master.columns.len() * 4 + 50 * rows.len() + 1000).max(5000);
        if !master.optimise(spend, effort) {
            return Relaxed { bound, uses: Vec::new(), short: false };
        }
        let prices = Prices::new(problem, &rows, limits, master.prices(), dearest);
        let mut grown = false;
        let mut complete = true;
        for bar in 0..problem.bars.len() {
            let items = prices.items(problem, &rows, wanted, bar);
            let sought = prices.bars[bar] + SLACK;
            match best_pattern(bar, problem.bars[bar].capacity, &items, sought, &excluded, PATIENCE, effort) {
                Found::Better(patterns) => {
                    for pattern in patterns.into_iter().rev().take(COLUMNS_A_ROUND) {
                        master.add(column(&pattern));
                        pool.push(pattern);
                    }
                    grown = true;
                }
                Found::Nothing => {}
                Found::TooLong => complete = false,
            }
        }
        if !complete {
            return Relaxed { bound, uses: Vec::new(), short: false };
        }
        if !grown {
            bound = bound.max(prices.bound(problem, wanted, &rows, limits, dearest));
            break;
        }
        if bound >= enough {
            return Relaxed { bound, uses: Vec::new(), short: false };
        }
    }
    let solution = master.solution();
    let shortage = |column: usize| master.columns[column].cost >= SHORTAGE && solution[column] > 1e-6;
    let short = (0..fixed).any(shortage);
    let uses = pool.iter().zip(&solution[fixed..]).filter(|(_, used)| **used > 1e-7);
    Relaxed { bound, uses: uses.map(|(pattern, &used)| (pattern.clone(), used)).collect(), short }
}

/// The programme before there is any pattern: all pieces are missing.
fn start(wanted: &[i64], rows: &[usize], limits: &[Limit]) -> Master {
    let right = rows.iter().map(|&piece| wanted[piece]).chain(limits.iter().map(Limit::count));
    let missing =
        limits.iter().map(|limit| if matches!(limit, Limit::Least { .. }) { SHORTAGE } else { 0.0 });
    let costs: Vec<f64> = rows.iter().map(|_| SHORTAGE).chain(missing).collect();
    let mut master = Master::new(right.map(|count| count as f64).collect(), &costs);
    for (row, &cost) in costs.iter().enumerate() {
        if cost > 0.0 {
            master.add(PatternColumn { cost: 0.0, entries: vec![(row, -1.0)] });
        }
    }
    master
}

/// Prices in whole numbers, which need no trust in floating point.
struct Prices {
    /// What a piece may cost, by row.
    pieces: Vec<i64>,
    /// What each limit adds to the price of a bar that counts against it.
    limits: Vec<i64>,
    /// What the pieces of a bar may be worth together.
    bars: Vec<i64>,
}

impl Prices {
    fn new(problem: &Problem, rows: &[usize], limits: &[Limit], prices: &[f64], dearest: i64) -> Self {
        let whole = |price: f64| (price * ONE as f64) as i64;
        // A lower price is a weaker bound, but a sound one, where the worth of a bar would be too long a number.
        let lightest = rows.iter().map(|&piece| problem.demands[piece].weight).min().unwrap_or(1);
        let longest = problem.bars.iter().map(|bar| bar.capacity).max().unwrap_or(1);
        let highest = (i64::MAX / 4) / (longest / lightest + 1);
        let pieces = prices[..rows.len()].iter().map(|&price| whole(price).clamp(0, highest)).collect();
        let of_limit = |(limit, &price): (&Limit, &f64)| match limit {
            Limit::Least { .. } => whole(price).max(0),
            _ => whole(price).min(0),
        };
        let mut of_limits: Vec<i64> = limits.iter().zip(&prices[rows.len()..]).map(of_limit).collect();
        let mut bars: Vec<i64> = problem
            .bars
            .iter()
            .map(|bar| (i128::from(bar.cost) * i128::from(ONE) / i128::from(dearest)) as i64)
            .collect();
        for (limit, price) in limits.iter().zip(&mut of_limits) {
            if let Limit::Most { bar, .. } | Limit::Least { bar, .. } = limit {
                // An empty bar may be used too, so what is asked of one cannot be less than nothing.
                *price = (*price).min(bars[*bar]);
                bars[*bar] -= *price;
            }
        }
        Self { pieces, limits: of_limits, bars }
    }

    /// The pieces that fit a bar and are worth something, in the order of the search.
    fn items(&self, problem: &Problem, rows: &[usize], wanted: &[i64], bar: usize) -> Vec<Item> {
        let capacity = problem.bars[bar].capacity;
        let item = |(row, &piece): (usize, &usize)| Item {
            piece,
            weight: problem.demands[piece].weight,
            value: self.pieces[row],
            most: wanted[piece],
        };
        let mut items: Vec<Item> = rows.iter().enumerate().map(item).collect();
        items.retain(|item| item.value > 0 && item.weight <= capacity);
        sort(&mut items);
        items
    }

    /// What every plan costs at least, once no pattern is worth more than its bar and the slack.
    fn bound(
        &self,
        problem: &Problem,
        wanted: &[i64],
        rows: &[usize],
        limits: &[Limit],
        dearest: i64,
    ) -> i64 {
        // With the slack taken off each piece, no pattern is worth more than its bar.
        let lowered = |row: usize| (self.pieces[row] - SLACK).max(0);
        let pieces: i128 = rows
            .iter()
            .enumerate()
            .map(|(row, &piece)| i128::from(wanted[piece]) * i128::from(lowered(row)))
            .sum();
        let mut row_of = vec![usize::MAX; problem.demands.len()];
        rows.iter().enumerate().for_each(|(row, &piece)| row_of[piece] = row);
        let of_limits: i128 = limits
            .iter()
            .zip(&self.limits)
            .map(|(limit, &price)| {
                let price = match limit {
                    Limit::Pattern { pattern, .. } => {
                        let worth = |&(piece, count): &(usize, i64)| {
                            if row_of[piece] == usize::MAX { 0 } else { count * lowered(row_of[piece]) }
                        };
                        (self.bars[pattern.bar] - pattern.pieces.iter().map(worth).sum::<i64>()).min(0)
                    }
                    _ => price,
                };
                i128::from(price) * i128::from(limit.count())
            })
            .sum();
        let total = (pieces + of_limits).max(0);
        // total · dearest / ONE, rounded up; the last bits are let go where the product would be too long.
        let cost = match total.checked_mul(i128::from(dearest)) {
            Some(product) => ceiling(product, i128::from(ONE)),
            None => ceiling((total >> 22).saturating_mul(i128::from(dearest)), i128::from(ONE >> 22)),
        };
        i64::try_from(cost).unwrap_or(i64::MAX)
    }
}

fn ceiling(numerator: i128, denominator: i128) -> i128 {
    numerator / denominator + i128::from(numerator % denominator > 0)
}

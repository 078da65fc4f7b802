//! Exact percentiles of many values without sorting them all.
//!
//! A pilot, a sorted part of the values, tells a window in which each percentile surely lies. One pass counts the
//! values below each window and copies those inside, and a selection among these ends it. Should a window have missed,
//! the whole is searched: the answer is exact for any pilot was.
use crate::parallel::{on_threads, threads_for};
use crate::simd::{WideLoop, run_wide};
use crate::watch::{Steps, Stopped, Watch};
use std::convert::Infallible;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Values in the pilot.
const PILOT: usize = 4096;
/// Values that are looked at together.
const PART: usize = 512;
/// Values of a part that a thread takes: fewer are over before another thread has begun.
const SHARE: usize = 1 << 18;
/// Ranks beyond which bringing all values to their places is faster than a pass for each few of them.
const MANY: usize = 48;

/// A sorted selection of values spread over all of them.
pub(crate) fn pilot(values: &[f64]) -> Vec<f64> {
    let step = (values.len() / PILOT).max(1);
    let mut chosen: Vec<f64> = values.iter().step_by(step).copied().collect();
    chosen.sort_unstable_by(f64::total_cmp);
    chosen
}

/// The values of fractional ranks, counted from zero: linear between two whole ranks. So many threads share the work, which
/// the answer does not depend on; zero stands for as many as the machine runs at once.
pub(crate) fn select(
    values: &[f64],
    pilot: &[f64],
    ranks: &[f64],
    threads: usize,
    watch: &Watch,
) -> Result<Vec<f64>, Stopped> {
    if ranks.len() > MANY {
        return select_many(values, ranks, watch);
    }
    // A few ranks at a time: a copy of the pass for each count of them keeps the windows in registers.
    let few = |ranks: &[f64]| match *ranks {
        [a, b, c] => select_few(values, pilot, [a, b, c], threads).to_vec(),
        [a, b] => select_few(values, pilot, [a, b], threads).to_vec(),
        _ => ranks.iter().flat_map(|rank| select_few(values, pilot, [*rank], threads)).collect(),
    };
    let (steps, mut found) = (Steps::new(watch, ranks.len() as u64), Vec::with_capacity(ranks.len()));
    for ranks in ranks.chunks(3) {
        found.extend(few(ranks));
        steps.count(ranks.len() as u64)?;
    }
    steps.end()?;
    Ok(found)
}

/// As [`select`], by bringing every wanted value to its place in a copy, which costs little more for a thousand ranks
/// than for ten.
fn select_many(values: &[f64], ranks: &[f64], watch: &Watch) -> Result<Vec<f64>, Stopped> {
    let last = values.len() - 1;
    let ends = |rank: f64| [rank as usize, (rank.ceil() as usize).min(last)];
    let mut places: Vec<usize> = ranks.iter().flat_map(|rank| ends(*rank)).collect();
    places.sort_unstable();
    places.dedup();
    let (steps, mut placed) = (Steps::new(watch, places.len() as u64), values.to_vec());
    // Parts of the copy with the number of their first value, and the places within them.
    let mut open = vec![(0, &mut placed[..], &places[..])];
    while let Some((first, part, places)) = open.pop() {
        let Some(place) = places.get(places.len() / 2) else { continue };
        let (below, _, above) = part.select_nth_unstable_by(place - first, f64::total_cmp);
        open.push((first, below, &places[..places.len() / 2]));
        open.push((place + 1, above, &places[places.len() / 2 + 1..]));
        steps.count(1)?;
    }
    steps.end()?;
    let value = |rank: &f64| {
        let [low, high] = ends(*rank).map(|place| placed[place]);
        let rest = rank - rank.floor();
        if rest == 0.0 { low } else { low + rest * (high - low) }
    };
    Ok(ranks.iter().map(value).collect())
}

fn select_few<const N: usize>(values: &[f64], pilot: &[f64], ranks: [f64; N], threads: usize) -> [f64; N] {
    let windows = ranks.map(|rank| window(pilot, rank / values.len() as f64));
    let shares = pass(values, windows, threads);
    let select = |k: usize| {
        let below: u64 = shares.iter().map(|(below, _)| below[k]).sum();
        let inside = shares.iter().flat_map(|(_, inside)| inside).copied();
        let mut within: Vec<f64> = inside.filter(|value| windows[k].holds(*value)).collect();
        let found = at_rank(&mut within, ranks[k], below);
        found.or_else(|| at_rank(&mut values.to_vec(), ranks[k], 0)).unwrap_or(f64::NAN)
    };
    let threads = if values.len() > SHARE { threads_for(threads, N as u64) } else { 1 };
    let mut found = [f64::NAN; N];
    for (k, value) in each_of(N, threads, select) {
        found[k] = value;
    }
    found
}

/// What a pass finds in each share of the values.
fn pass<const N: usize>(values: &[f64], windows: [Window; N], threads: usize) -> Vec<([u64; N], Vec<f64>)> {
    let shares: Vec<&[f64]> = values.chunks(SHARE).collect();
    let threads = threads_for(threads, shares.len() as u64);
    let found = each_of(shares.len(), threads, |share| run_wide(Pass { values: shares[share], windows }));
    found.into_iter().map(|(_, found)| found).collect()
}

/// Every number below `count` with what the work makes of it, in the order in which threads come to them.
fn each_of<T: Send>(count: usize, threads: usize, work: impl Fn(usize) -> T + Sync) -> Vec<(usize, T)> {
    let next = AtomicUsize::new(0);
    let take = || {
        let mut done = Vec::new();
        loop {
            match next.fetch_add(1, Ordering::Relaxed) {
                number if number < count => done.push((number, work(number))),
                _ => return Ok::<_, Infallible>(done),
            }
        }
    };
    on_threads(threads, &take).unwrap_or_default().into_iter().flatten().collect()
}

/// A closed range of values.
#[derive(Clone, Copy)]
struct Window {
    low: f64,
    high: f64,
}

impl Window {
    fn holds(&self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }
}

/// Six standard errors of the pilot's own rank either way.
fn window(pilot: &[f64], share: f64) -> Window {
    let count = pilot.len() as f64;
    let (middle, error) = (share * count, (share * (1.0 - share) * count).max(0.0).sqrt());
    let reach = 6.0 * error + 6.0;
    let at = |rank: f64| match rank {
        rank if rank < 0.0 => f64::NEG_INFINITY,
        rank if rank < count => pilot[rank as usize],
        _ => f64::INFINITY,
    };
    Window { low: at(middle - reach), high: at(middle + reach) }
}

/// The value of a rank among `within`, below which there are `below` others; none where it is not among them.
fn at_rank(within: &mut [f64], rank: f64, below: u64) -> Option<f64> {
    let whole = rank as u64;
    let place = usize::try_from(whole.checked_sub(below)?).ok()?;
    let rest = rank - whole as f64;
    if place >= within.len() || (rest > 0.0 && place + 1 >= within.len()) {
        return None;
    }
    let (_, low, above) = within.select_nth_unstable_by(place, f64::total_cmp);
    let low = *low;
    if rest == 0.0 {
        return Some(low);
    }
    let high = above.iter().copied().fold(f64::INFINITY, f64::min);
    Some(low + rest * (high - low))
}

/// One pass over the values: how many are below each window, and those inside any.
struct Pass<'a, const N: usize> {
    values: &'a [f64],
    windows: [Window; N],
}

impl<const N: usize> WideLoop for Pass<'_, N> {
    type Output = ([u64; N], Vec<f64>);

    #[inline(always)]
    fn run(self) -> ([u64; N], Vec<f64>) {
        let (mut below, mut inside) = ([0u64; N], Vec::with_capacity(self.values.len() / 8 + PART));
        let (mut flags, mut copies) = ([0u64; PART], [0.0; PART]);
        for part in self.values.chunks(PART) {
            for (below, window) in below.iter_mut().zip(&self.windows) {
                *below += part.iter().map(|value| u64::from(*value < window.low)).sum::<u64>();
            }
            for (flag, value) in flags.iter_mut().zip(part) {
                let is_inside = |window: &Window| (*value >= window.low) & (*value <= window.high);
                *flag = u64::from(self.windows.iter().fold(false, |any, window| any | is_inside(window)));
            }
            // Without a branch: each value is written, and the place moves on if it counts.
            let mut kept = 0;
            for (value, flag) in part.iter().zip(&flags) {
                copies[kept % PART] = *value;
                kept += *flag as usize;
            }
            inside.extend_from_slice(&copies[..kept]);
        }
        (below, inside)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// By sorting.
    fn plain(values: &[f64], rank: f64) -> f64 {
        let mut sorted = values.to_vec();
        sorted.sort_unstable_by(f64::total_cmp);
        let (low, rest) = (sorted[rank as usize], rank - rank.floor());
        if rest == 0.0 { low } else { low + rest * (sorted[rank as usize + 1] - low) }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(40))]

        #[test]
        fn selection_is_that_of_sorted_values(
            values in prop::collection::vec(prop_oneof![-1.0..1.0f64, Just(0.25), -1e6..1e6f64], 1..3000),
            shares in prop_oneof![
                prop::collection::vec(0.0..=1.0f64, 1..8),
                prop::collection::vec(0.0..=1.0f64, MANY..2 * MANY),
            ],
        ) {
            let last = (values.len() - 1) as f64;
            let ranks: Vec<f64> = shares.iter().map(|share| share * last).chain([0.0, last]).collect();
            for pilot in [pilot(&values), vec![0.0], vec![]] {
                for (rank, got) in ranks.iter().zip(select(&values, &pilot, &ranks, 1, &Watch::new()).unwrap()) {
                    prop_assert_eq!(got.to_bits(), plain(&values, *rank).to_bits());
                }
            }
        }
    }

    #[test]
    fn threads_do_not_matter() {
        let values: Vec<f64> = (0..3 * SHARE as u64 + 5)
            .map(|k| (k.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 11) as f64 / (1u64 << 53) as f64)
            .collect();
        let mut sorted = values.clone();
        sorted.sort_unstable_by(f64::total_cmp);
        let ranks = [0.0, 7.25, 1e5, 3.9e5, 600_000.5, (values.len() - 1) as f64];
        for (pilot, threads) in [(pilot(&values), 0), (pilot(&values), 3), (vec![], 2)] {
            let found = select(&values, &pilot, &ranks, threads, &Watch::new()).unwrap();
            assert_eq!(found, select(&values, &pilot, &ranks, 1, &Watch::new()).unwrap());
            assert_eq!(
                (found[0], found[2], found[5]),
                (sorted[0], sorted[100_000], sorted[values.len() - 1])
            );
        }
    }
}

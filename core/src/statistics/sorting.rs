//! Columns of readings sorted side by side, without a branch to guess wrong.
use crate::simd::{WideLoop, run_wide};

/// Columns that are sorted together.
pub(super) const LANES: usize = 8;
/// The work of a network grows a little faster than that of a sort of one column; up to here it is far less.
pub(super) const MAX_READINGS: usize = 4096;

/// A reading of each column: a line of memory.
#[derive(Clone, Copy)]
#[repr(align(64))]
pub(super) struct Row(pub [f64; LANES]);

/// Which rows are put in order one after the other, so that all are in order at the end, for any readings.
///
/// Two ordered halves are merged by comparing each row with its mirror image, which leaves the smaller readings in the
/// lower half, and then rows half as far apart again and again. Registers hold eight rows: three such rounds in a pass.
///
/// Source: K. E. Batcher, AFIPS Spring Joint Computer Conference 32 (1968) 307, bitonic merging; D. E. Knuth, The Art of
/// Computer Programming 3, 2nd ed. (1998), section 5.3.4 (both from memory).
#[derive(Default)]
pub(super) struct Network {
    count: usize,
    passes: Vec<Pass>,
}

/// What is done with eight rows.
#[derive(Clone, Copy)]
enum Step {
    /// Puts them in order.
    Sort,
    /// The first three rounds of a merge: mirror images, then rows apart by two, then by one.
    Fold,
    /// Three later rounds: rows apart by four, by two, by one.
    Halve,
}

/// A step for groups of rows, each in rising order.
struct Pass {
    step: Step,
    groups: Vec<[u16; EIGHT]>,
}

/// Rows that are held in registers.
const EIGHT: usize = 8;

impl Network {
    /// Rebuilds the network for `count` rows, [`MAX_READINGS`] at most.
    fn fit(&mut self, count: usize) {
        if self.count == count {
            return;
        }
        self.count = count;
        self.passes.clear();
        let mut size = EIGHT;
        self.pass(Step::Sort, size, |start, _| std::array::from_fn(|k| start + k));
        while size < count {
            size *= 2;
            self.pass(Step::Fold, size, |start, k| {
                let apart = size / EIGHT;
                std::array::from_fn(|row| {
                    start + if row < 4 { k + row * apart } else { (row + 1) * apart - 1 - k }
                })
            });
            let mut apart = size / (2 * EIGHT);
            while apart > 0 {
                // Of fewer than three rounds that are left, the first repeat what is done.
                let least = apart.max(4) / 4;
                self.pass(Step::Halve, EIGHT * least, |start, k| {
                    std::array::from_fn(|row| start + k + row * least)
                });
                apart = least / 2;
            }
        }
    }

    /// A step for the groups of each block of `size` rows, of which `group` gives one after the other.
    fn pass(&mut self, step: Step, size: usize, group: impl Fn(usize, usize) -> [usize; EIGHT]) {
        let blocks = (0..self.count).step_by(size);
        let groups = blocks.flat_map(|start| (0..size / EIGHT).map(move |k| (start, k)));
        // Rows beyond the count are infinite: a group with fewer than two others is in order.
        let groups = groups.map(|(start, k)| group(start, k)).filter(|[_, second, ..]| *second < self.count);
        let groups = groups.map(|group| group.map(|row| row as u16)).collect();
        self.passes.push(Pass { step, groups });
    }

    /// Sorts each column of the rows.
    pub(super) fn sort(&mut self, rows: &mut Vec<Row>) {
        let count = rows.len();
        self.fit(count);
        rows.resize(count.next_power_of_two().max(EIGHT), Row([f64::INFINITY; LANES]));
        run_wide(Exchanges { rows, passes: &self.passes });
        rows.truncate(count);
    }
}

struct Exchanges<'a> {
    rows: &'a mut [Row],
    passes: &'a [Pass],
}

/// Puts pairs among the rows of each group in order, one pair after the other. It is no function of the pairs, since only
/// what is written out in the loop is compiled for the wide registers.
macro_rules! exchange {
    ($rows:ident, $groups:ident: $($one:literal $other:literal),*) => {
        for group in $groups {
            let group = group.map(usize::from);
            if group.iter().any(|row| *row >= $rows.len()) {
                continue;
            }
            let mut eight = group.map(|row| $rows[row].0);
            $(
                let (a, b) = (eight[$one], eight[$other]);
                eight[$one] = std::array::from_fn(|k| if a[k] < b[k] { a[k] } else { b[k] });
                eight[$other] = std::array::from_fn(|k| if a[k] > b[k] { a[k] } else { b[k] });
            )*
            for k in 0..EIGHT {
                $rows[group[k]].0 = eight[k];
            }
        }
    };
}

impl WideLoop for Exchanges<'_> {
    type Output = ();

    #[inline(always)]
    fn run(self) {
        let rows = self.rows;
        for Pass { step, groups } in self.passes {
            match step {
                // The fewest pairs that sort eight rows: Knuth, section 5.3.4 (from memory).
                Step::Sort => exchange!(rows, groups: 0 1, 2 3, 4 5, 6 7, 0 2, 1 3, 4 6, 5 7, 1 2, 5 6,
                    0 4, 1 5, 2 6, 3 7, 2 4, 3 5, 1 2, 3 4, 5 6),
                Step::Fold => {
                    exchange!(rows, groups: 0 7, 1 6, 2 5, 3 4, 0 2, 1 3, 4 6, 5 7, 0 1, 2 3, 4 5, 6 7)
                }
                Step::Halve => {
                    exchange!(rows, groups: 0 4, 1 5, 2 6, 3 7, 0 2, 1 3, 4 6, 5 7, 0 1, 2 3, 4 5, 6 7)
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_network_sorts_any_zeros_and_ones() {
        // A network that sorts every column of zeros and ones sorts every column: Knuth, theorem 5.3.4 Z.
        let mut network = Network::default();
        for count in 0..=11_u32 {
            for first in (0..1_u32 << count).step_by(LANES) {
                let bit = |place: u32, lane: usize| f64::from((first + lane as u32) >> place & 1);
                let mut rows: Vec<_> =
                    (0..count).map(|place| Row(std::array::from_fn(|k| bit(place, k)))).collect();
                network.sort(&mut rows);
                assert!((0..LANES).all(|k| rows.is_sorted_by_key(|row| row.0[k])), "{count}: {first}");
            }
        }
    }

    #[test]
    fn a_network_merges_any_two_halves() {
        // By the same theorem, with each half in order: those of the next smaller network, which leaves them as they are.
        let mut network = Network::default();
        for count in [16_usize, 31, 32, 61, 64, 100, 128] {
            let half = count.next_power_of_two() / 2;
            let zeros: Vec<_> =
                (0..=half).flat_map(|low| (0..=count - half).map(move |high| [low, high])).collect();
            for some in zeros.chunks(LANES) {
                let bit = |place: usize, [low, high]: [usize; 2]| {
                    f64::from(u8::from(if place < half { place >= low } else { place - half >= high }))
                };
                let column = |lane: usize| some[lane.min(some.len() - 1)];
                let mut rows: Vec<_> = (0..count)
                    .map(|place| Row(std::array::from_fn(|lane| bit(place, column(lane)))))
                    .collect();
                network.sort(&mut rows);
                assert!((0..LANES).all(|k| rows.is_sorted_by_key(|row| row.0[k])), "{count}");
            }
        }
    }

    #[test]
    fn long_columns_are_sorted_as_one_by_one() {
        let reading = |place: usize, lane: usize| ((place * 7919 + lane * 104_729) % 4093) as f64 - 2000.5;
        for count in [1, 9, 125, 129, 1000, MAX_READINGS] {
            let mut rows: Vec<_> =
                (0..count).map(|place| Row(std::array::from_fn(|k| reading(place, k)))).collect();
            Network::default().sort(&mut rows);
            for lane in 0..LANES {
                let mut column: Vec<_> = (0..count).map(|place| reading(place, lane)).collect();
                column.sort_unstable_by(f64::total_cmp);
                assert!(rows.iter().map(|row| row.0[lane]).eq(column));
            }
        }
    }
}

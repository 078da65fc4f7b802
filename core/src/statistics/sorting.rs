//! Columns of readings sorted side by side, without a branch to guess wrong.
use crate::simd::{WideLoop, run_wide};

/// Columns that are sorted together.
pub(super) const LANES: usize = 8;
/// The work of a network grows a little faster than that of a sort of one column; up to here it is far less.
pub(super) const MOST_READINGS: usize = 4096;

/// A reading of each column: a line of memory.
#[derive(Clone, Copy)]
#[repr(align(64))]
pub(super) struct Row(pub [f64; LANES]);

/// The pairs of rows whose readings are put in order, one pair after the other, so that all rows are in order at the end.
///
/// Source: D. E. Knuth, The Art of Computer Programming 3, 2nd ed. (1998), section 5.2.2, algorithm M, Batcher's merge
/// exchange (from memory).
#[derive(Default)]
pub(super) struct Network {
    count: usize,
    pairs: Vec<[u16; 2]>,
}

impl Network {
    /// Makes it that of so many rows, [`MOST_READINGS`] at most.
    fn fit(&mut self, count: usize) {
        if self.count == count {
            return;
        }
        self.count = count;
        self.pairs.clear();
        let top = count.next_power_of_two() / 2;
        let mut span = top;
        while span > 0 {
            let (mut reach, mut first, mut apart) = (top, 0, span);
            loop {
                let low = (0..count.saturating_sub(apart)).filter(|k| k & span == first);
                self.pairs.extend(low.map(|k| [k as u16, (k + apart) as u16]));
                if reach == span {
                    break;
                }
                (apart, first, reach) = (reach - span, span, reach / 2);
            }
            span /= 2;
        }
    }

    /// Sorts each column of the rows.
    pub(super) fn sort(&mut self, rows: &mut [Row]) {
        self.fit(rows.len());
        run_wide(Exchanges { rows, pairs: &self.pairs });
    }
}

struct Exchanges<'a> {
    rows: &'a mut [Row],
    pairs: &'a [[u16; 2]],
}

impl WideLoop for Exchanges<'_> {
    type Output = ();

    #[inline(always)]
    fn run(self) {
        for pair in self.pairs {
            if let Ok([one, other]) = self.rows.get_disjoint_mut(pair.map(usize::from)) {
                let (a, b) = (one.0, other.0);
                // `min` rather than a comparison, of which the compiler would make a store under a mask: reads wait for it.
                one.0 = std::array::from_fn(|k| a[k].min(b[k]));
                other.0 = std::array::from_fn(|k| a[k].max(b[k]));
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
    fn long_columns_are_sorted_as_one_by_one() {
        let reading = |place: usize, lane: usize| ((place * 7919 + lane * 104_729) % 4093) as f64 - 2000.5;
        for count in [125, 1000, MOST_READINGS] {
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

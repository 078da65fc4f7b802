//! Counts of values in bins, for percentiles of samples too many to keep.
//!
//! Bins are narrow by the spread of the values, wherever these lie. A pilot, one block of values that the sample does
//! not have, tells a centre and a scale; a value at the distance d from the centre then goes by 1 + d / scale, of which a
//! bin holds the numbers that share exponent and the first 14 bits of the fraction. So bins are 2^-14 scales wide beside
//! the centre, and at most 2^-14 of d and the scale together farther out. Counts add up in any order.
use super::moments::SampleMoments;

/// Bits of a number that do not choose its bin.
const IGNORED: u32 = 38;
/// The bin of a number by its bits, before it is counted from that of 1.
const FIRST: u64 = 1.0f64.to_bits() >> IGNORED;
/// Bins on each side of the centre. The last one has all that is farther than 2^64 scales from it.
const SIDE: usize = 64 << (52 - IGNORED);
/// Bins that are kept together.
const PAGE: usize = 1024;

/// Where the bins lie.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Grid {
    centre: f64,
    /// A power of two.
    scale: f64,
}

impl Default for Grid {
    fn default() -> Grid {
        Grid { centre: 0.0, scale: 1.0 }
    }
}

impl Grid {
    /// For values like these.
    pub(crate) fn of(mut pilot: Vec<f64>) -> Grid {
        pilot.retain(|value| value.is_finite());
        pilot.sort_unstable_by(f64::total_cmp);
        let Some(median) = pilot.get(pilot.len() / 2).copied() else { return Grid::default() };
        let quartiles = pilot[pilot.len() * 3 / 4] - pilot[pilot.len() / 4];
        let spread = if quartiles > 0.0 { quartiles } else { SampleMoments::of(&pilot).sigma().max(0.0) };
        // Neither the factor nor the shift puts a plain number on the edge between two grids, so that machines which
        // compute a function to other last digits still agree. Chebyshev's inequality bounds the distance of the
        // quartiles by 2.9 standard deviations, and so the scale by half of one.
        let least = (median.abs() / (1u64 << 50) as f64).max(MAX_SCALE.recip());
        let scale = power_of_two((0.17 * spread).clamp(least, MAX_SCALE.max(least)));
        Grid { centre: (median / scale + 0.38).floor() * scale, scale }
    }

    /// From [`Grid::words`]; none if they are of no grid.
    pub(crate) fn from_words([centre, scale]: [u64; 2]) -> Option<Grid> {
        let (centre, scale) = (f64::from_bits(centre), f64::from_bits(scale));
        let is_grid = centre.is_finite() && scale.is_normal() && scale > 0.0 && power_of_two(scale) == scale;
        is_grid.then_some(Grid { centre, scale })
    }

    pub(crate) fn words(&self) -> [u64; 2] {
        [self.centre.to_bits(), self.scale.to_bits()]
    }

    #[inline(always)]
    fn bin(&self, value: f64, per_scale: f64) -> usize {
        let distance = value - self.centre;
        let place = 1.0 + distance.abs() * per_scale;
        let out = ((place.to_bits() >> IGNORED) - FIRST).min(SIDE as u64 - 1) as usize;
        if distance < 0.0 { SIDE - 1 - out } else { SIDE + out }
    }

    /// Numbers between which all of a bin lie.
    fn ends(&self, bin: usize) -> [f64; 2] {
        let out = if bin < SIDE { SIDE - 1 - bin } else { bin - SIDE };
        let place = |out: usize| f64::from_bits((FIRST + out as u64) << IGNORED);
        let (near, far) = ((place(out) - 1.0) * self.scale, (place(out + 1) - 1.0) * self.scale);
        // By so much rounding may put a value into the next bin.
        let slack = 4.0 * f64::EPSILON * (self.centre.abs() + near + self.scale);
        let far = if out == SIDE - 1 { f64::INFINITY } else { far + slack };
        let near = near - slack;
        if bin < SIDE {
            [self.centre - far, self.centre - near]
        } else {
            [self.centre + near, self.centre + far]
        }
    }
}

/// No scale is greater, nor less than one by this.
const MAX_SCALE: f64 = 1e300;

/// The greatest power of two that is not above a normal number.
fn power_of_two(x: f64) -> f64 {
    f64::from_bits(x.to_bits() & f64::INFINITY.to_bits())
}

/// A count for each bin.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Sketch {
    grid: Grid,
    /// In the order of the numbers; empty at first.
    pages: Vec<Option<Box<[u64; PAGE]>>>,
}

impl Sketch {
    pub(crate) fn new(grid: Grid) -> Sketch {
        Sketch { grid, pages: Vec::new() }
    }

    pub(crate) fn grid(&self) -> Grid {
        self.grid
    }

    /// Counts values none of which is NaN.
    pub(crate) fn add(&mut self, values: &[f64]) {
        let (grid, per_scale) = (self.grid, self.grid.scale.recip());
        for value in values {
            let bin = grid.bin(*value, per_scale);
            self.page(bin / PAGE)[bin % PAGE] += 1;
        }
    }

    /// Adds the counts of another on the same grid.
    pub(crate) fn merge(&mut self, other: &Sketch) {
        for (number, theirs) in other.pages.iter().enumerate() {
            if let Some(theirs) = theirs {
                for (ours, theirs) in self.page(number).iter_mut().zip(theirs.iter()) {
                    *ours += theirs;
                }
            }
        }
    }

    fn page(&mut self, number: usize) -> &mut [u64; PAGE] {
        if self.pages.is_empty() {
            self.pages.resize(2 * SIDE / PAGE, None);
        }
        self.pages[number].get_or_insert_with(|| Box::new([0; PAGE]))
    }

    /// Bins that are not empty, from the least: their ends and their count.
    pub(crate) fn bins(&self) -> impl Iterator<Item = ([f64; 2], u64)> {
        self.counts().map(|(bin, count)| (self.grid.ends(bin as usize), count))
    }

    /// Bins that are not empty by their number, from the least, and their counts.
    pub(crate) fn counts(&self) -> impl Iterator<Item = (u64, u64)> {
        self.pages.iter().enumerate().flat_map(|(number, page)| {
            let bins = page.iter().flat_map(|page| page.iter().enumerate());
            bins.filter(|(_, count)| **count > 0)
                .map(move |(bin, count)| ((number * PAGE + bin) as u64, *count))
        })
    }

    /// Counts so many values of a numbered bin; tells whether there is such a bin.
    pub(crate) fn count(&mut self, bin: u64, times: u64) -> bool {
        let bin = usize::try_from(bin).ok().filter(|bin| *bin < 2 * SIDE);
        if let Some(bin) = bin {
            self.page(bin / PAGE)[bin % PAGE] += times;
        }
        bin.is_some()
    }

    /// The bin that holds the value of a rank from zero.
    pub(crate) fn bin_of(&self, rank: u64) -> Option<[f64; 2]> {
        let mut below = 0;
        let (bin, _) = self.counts().find(|(_, count)| {
            below += count;
            rank < below
        })?;
        Some(self.grid.ends(bin as usize))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Values about a centre, with a spread.
    fn values(centre: f64, spread: f64) -> Vec<f64> {
        (0..401).map(|k| centre + spread * (f64::from(k) / 200.0 - 1.0)).collect()
    }

    proptest! {
        #[test]
        fn a_bin_holds_its_value_and_is_narrow_by_the_spread(
            centre in prop_oneof![-1e6..1e6f64, Just(0.0), Just(10.0)],
            spread in prop::sample::select(vec![1e-9, 1e-6, 1e-3, 0.1, 1.0, 30.0, 1e8]),
            away in prop_oneof![-8.0..8.0f64, -1e6..1e6f64],
        ) {
            let value = centre + away * spread;
            let mut sketch = Sketch::new(Grid::of(values(centre, spread)));
            sketch.add(&[value]);
            let [low, high] = sketch.bin_of(0).unwrap();
            prop_assert!(low <= value && value <= high, "{low} {value} {high}");
            let narrow = 6.2e-5 * spread * (0.2 + away.abs());
            prop_assert!(high - low <= narrow + 1e-14 * (centre.abs() + value.abs()), "{low} {value} {high}");
            prop_assert_eq!(sketch.bin_of(1), None);
        }

        #[test]
        fn any_number_has_a_bin_on_any_grid(
            pilot in prop::collection::vec(any::<f64>(), 0..9),
            value in any::<f64>().prop_filter("a number", |value| !value.is_nan()),
        ) {
            let grid = Grid::of(pilot);
            prop_assert_eq!(Grid::from_words(grid.words()), Some(grid));
            let mut sketch = Sketch::new(grid);
            sketch.add(&[value]);
            let [low, high] = sketch.bin_of(0).unwrap();
            prop_assert!(low <= value && value <= high, "{grid:?} {low} {value} {high}");
        }

        #[test]
        fn ranks_are_those_of_the_sorted_values(mut values in prop::collection::vec(-1e3..1e3f64, 1..80), cut in 0usize..80) {
            let grid = Grid::of(values.clone());
            let (mut sketch, mut rest) = (Sketch::new(grid), Sketch::new(grid));
            let (left, right) = values.split_at(cut.min(values.len()));
            sketch.add(right);
            rest.add(left);
            sketch.merge(&rest);
            values.sort_unstable_by(f64::total_cmp);
            for (rank, value) in values.iter().enumerate() {
                let [low, high] = sketch.bin_of(rank as u64).unwrap();
                prop_assert!(low <= *value && *value <= high);
            }
        }
    }

    #[test]
    fn grids_do_not_depend_on_the_last_digits() {
        for centre in [0.0, 0.1, 10.0, 1e6, -0.375] {
            let grid = Grid::of(values(centre, 0.125));
            let off = values(centre, 0.125).into_iter().map(|value| value * (1.0 - 3e-16)).collect();
            assert_eq!(Grid::of(off), grid);
        }
        assert_eq!(Grid::of(vec![f64::NAN, f64::INFINITY]), Grid::default());
    }
}

//! Counts of values in bins, for percentiles of samples too many to keep.
//!
//! A bin holds the numbers that share sign, exponent and the first ten bits of the fraction, so that its width is at
//! most 2^-10 of the numbers in it. Bins need no knowledge of the values to come, and counts add up in any order.

/// Bits of a number that do not choose its bin.
const IGNORED: u32 = 42;
/// Bins that share sign and exponent.
const PAGE: usize = 1024;
/// Pages of one sign.
const EXPONENTS: usize = 2048;

/// A count for each bin.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Sketch {
    /// By sign and exponent, in the order of the numbers; empty at first.
    pages: Vec<Option<Box<[u64]>>>,
}

impl Sketch {
    /// Counts values none of which is NaN.
    pub(crate) fn add(&mut self, values: &[f64]) {
        for value in values {
            let (page, bin) = place(*value);
            self.page(page)[bin] += 1;
        }
    }

    /// Adds the counts of another.
    pub(crate) fn merge(&mut self, other: &Sketch) {
        for (number, theirs) in other.pages.iter().enumerate() {
            if let Some(theirs) = theirs {
                for (ours, theirs) in self.page(number).iter_mut().zip(theirs) {
                    *ours += theirs;
                }
            }
        }
    }

    fn page(&mut self, number: usize) -> &mut [u64] {
        if self.pages.is_empty() {
            self.pages.resize(2 * EXPONENTS, None);
        }
        self.pages[number].get_or_insert_with(|| vec![0; PAGE].into())
    }

    /// Bins that are not empty, from the least: their ends and their count.
    pub(crate) fn bins(&self) -> impl Iterator<Item = ([f64; 2], u64)> {
        self.counts().map(|(bin, count)| (ends(bin as usize / PAGE, bin as usize % PAGE), count))
    }

    /// Bins that are not empty by their number, from the least, and their counts.
    pub(crate) fn counts(&self) -> impl Iterator<Item = (u64, u64)> {
        self.pages.iter().enumerate().flat_map(|(number, page)| {
            let bins = page.iter().flat_map(|page| page.iter().enumerate());
            bins.filter(|(_, count)| **count > 0)
                .map(move |(bin, count)| ((number * PAGE + bin) as u64, *count))
        })
    }

    /// Counts so many values of a numbered bin; tells whether there is such a bin, of numbers.
    pub(crate) fn count(&mut self, bin: u64, times: u64) -> bool {
        let (page, bin) = match usize::try_from(bin) {
            Ok(bin) if bin < 2 * EXPONENTS * PAGE => (bin / PAGE, bin % PAGE),
            _ => return false,
        };
        let holds_numbers = ends(page, bin).iter().any(|end| !end.is_nan());
        if holds_numbers {
            self.page(page)[bin] += times;
        }
        holds_numbers
    }

    /// The bin that holds the value of a rank from zero.
    pub(crate) fn bin_of(&self, rank: u64) -> Option<[f64; 2]> {
        let mut below = 0;
        self.bins().find_map(|(ends, count)| {
            below += count;
            (rank < below).then_some(ends)
        })
    }
}

/// Bits that grow with the number.
fn ordered(value: f64) -> u64 {
    let bits = value.to_bits();
    if bits >> 63 == 0 { bits | 1 << 63 } else { !bits }
}

fn number(ordered: u64) -> f64 {
    f64::from_bits(if ordered >> 63 == 1 { ordered & !(1 << 63) } else { !ordered })
}

fn place(value: f64) -> (usize, usize) {
    let bin = (ordered(value) >> IGNORED) as usize;
    (bin / PAGE, bin % PAGE)
}

/// The least and the greatest number of a bin.
fn ends(page: usize, bin: usize) -> [f64; 2] {
    let first = ((page * PAGE + bin) as u64) << IGNORED;
    [number(first), number(first | ((1 << IGNORED) - 1))]
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_bin_holds_its_value_and_is_narrow(value in prop::num::f64::NORMAL | prop::num::f64::ZERO) {
            let mut sketch = Sketch::default();
            sketch.add(&[value]);
            let [low, high] = sketch.bin_of(0).unwrap();
            prop_assert!(low <= value && value <= high);
            if value.is_normal() {
                prop_assert!(high - low <= value.abs() / 1024.0);
            }
            prop_assert_eq!(sketch.bin_of(1), None);
        }

        #[test]
        fn ranks_are_those_of_the_sorted_values(mut values in prop::collection::vec(-1e3..1e3f64, 1..80), cut in 0usize..80) {
            let (mut sketch, mut rest) = (Sketch::default(), Sketch::default());
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
}

//! Random words in numbered streams: xoshiro256++ of Blackman and Vigna, many at once.
//!
//! A stream is made of its seed and its number alone, so a sample that is cut into numbered blocks does not depend on
//! who draws which of them.

/// Generators that run side by side, one a lane, so that a step is one loop over wide registers.
pub(crate) const LANES: usize = 16;

/// A stream of random words.
pub(crate) struct Stream {
    state: [[u64; LANES]; 4],
}

/// The step of SplitMix64 by Steele, Lea and Flood.
fn split_mix(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mixed = (*state ^ (*state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^ (mixed >> 31)
}

impl Stream {
    /// The stream of a number under a seed.
    ///
    /// Seed and number are mixed one after the other, so that no two pairs meet by a sum or an exclusive or. A lane
    /// whose state is all zeros would stay there; of 2^256 states, splitting never gives that one.
    pub(crate) fn new(seed: u64, number: u64) -> Stream {
        let mut of_seed = seed;
        let mut mixed = split_mix(&mut of_seed) ^ number.wrapping_mul(0xd134_2543_de82_ef95);
        let mut of_number = split_mix(&mut mixed).wrapping_add(split_mix(&mut of_seed));
        let mut state = [[0; LANES]; 4];
        for lane in 0..LANES {
            for word in &mut state {
                word[lane] = split_mix(&mut of_number);
            }
        }
        Stream { state }
    }

    /// Fills a slice whose length is a multiple of [`LANES`].
    #[inline(always)]
    pub(crate) fn fill(&mut self, words: &mut [u64]) {
        debug_assert!(words.len().is_multiple_of(LANES));
        let [a, b, c, d] = &mut self.state;
        for row in words.chunks_exact_mut(LANES) {
            for lane in 0..LANES {
                let (w, x, y, z) = (a[lane], b[lane], c[lane], d[lane]);
                row[lane] = w.wrapping_add(z).rotate_left(23).wrapping_add(w);
                let (y, z) = (y ^ w, z ^ x);
                a[lane] = w ^ z;
                b[lane] = x ^ y;
                c[lane] = y ^ (x << 17);
                d[lane] = z.rotate_left(45);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The first words of the reference C program of xoshiro256++ for the state 1, 2, 3, 4, as the authors' page and
    // the tests of many libraries have them: from memory.
    #[test]
    fn a_lane_is_the_published_generator() {
        let mut stream = Stream { state: [[1; LANES], [2; LANES], [3; LANES], [4; LANES]] };
        let mut words = [0; 10 * LANES];
        stream.fill(&mut words);
        let first: Vec<u64> = words.iter().step_by(LANES).copied().collect();
        assert_eq!(
            first,
            [
                41943041,
                58720359,
                3588806011781223,
                3591011842654386,
                9228616714210784205,
                9973669472204895162,
                14011001112246962877,
                12406186145184390807,
                15849039046786891736,
                10450023813501588000
            ]
        );
    }

    #[test]
    fn seeds_and_numbers_part_streams() {
        let first = |seed, number| {
            let mut words = [0; LANES];
            Stream::new(seed, number).fill(&mut words);
            words
        };
        let mut seen = std::collections::HashSet::new();
        for seed in [0, 1, 2, u64::MAX] {
            for number in [0, 1, 2, 3, 1 << 32, u64::MAX] {
                for word in first(seed, number) {
                    assert!(seen.insert(word), "{seed} {number}");
                }
            }
        }
    }
}

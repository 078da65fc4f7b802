//! Blocks of a sample as bytes, to be sent from one machine to another.
//!
//! All is in words of 64 bits, little endian. Nine come first: a mark, the version, count and seed of the sample, its
//! lower and upper limit, the number of the first block, the count of blocks and the probe. Each block has ten. Then
//! come the values where all are kept, and otherwise centre and scale of the sketch, and pairs of a bin and its count. A
//! check word ends it.
use super::StackError;
use super::moments::SampleMoments;
use super::sample::{Blocks, Sampling, Summary};
use super::sketch::{Grid, Sketch};

const MARK: u64 = u64::from_le_bytes(*b"10thsblk");
/// Raised when the form changes, or what a seed draws, since blocks of both would not go together.
const VERSION: u64 = 3;
const HEAD: usize = 9;
const OF_BLOCK: usize = 10;

impl Blocks {
    /// These blocks as bytes, which [`Blocks::from_bytes`] reads on any machine.
    ///
    /// They take 80 bytes a block, and besides 8 bytes a value where all are kept, or else 16 for each bin of the
    /// sketch that is not empty.
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut to = Writer { bytes: Vec::with_capacity(self.byte_count()), check: 0 };
        let Sampling { count, seed, limits: (lower, upper), .. } = self.sampling;
        for word in [MARK, VERSION, count, seed, lower.to_bits(), upper.to_bits(), self.first, self.count()] {
            to.put(word);
        }
        to.put(self.probe.to_bits());
        for Summary { moments, below, above, undefined } in &self.summaries {
            to.put(moments.count);
            for number in [moments.mean, moments.second, moments.third, moments.fourth] {
                to.put(number.to_bits());
            }
            for word in [moments.minimum.to_bits(), moments.maximum.to_bits(), *below, *above, *undefined] {
                to.put(word);
            }
        }
        self.values.iter().for_each(|value| to.put(value.to_bits()));
        if !self.sampling.is_exact() {
            self.sketch.grid().words().into_iter().for_each(|word| to.put(word));
        }
        for (bin, count) in self.sketch.counts() {
            to.put(bin);
            to.put(count);
        }
        to.put(to.check);
        to.bytes
    }

    /// What [`Blocks::to_bytes`] made.
    ///
    /// # Errors
    /// [`StackError::Bytes`] for bytes that are cut off or changed, of another version, or were never blocks.
    pub fn from_bytes(bytes: &[u8]) -> Result<Blocks, StackError> {
        let mut from = Reader::new(bytes)?;
        let [count, seed, lower, upper, first, blocks, probe] = from.take()?;
        let limits = (f64::from_bits(lower), f64::from_bits(upper));
        let sampling = Sampling { count, seed, limits, threads: 0 };
        sampling.check().map_err(|error| StackError::Bytes(error.to_string()))?;
        if first.checked_add(blocks).is_none_or(|end| end > sampling.blocks()) {
            return fault("the sample does not have these blocks");
        }
        // A count of blocks that the bytes cannot hold ends at the first that is missing.
        let summaries: Vec<Summary> = (first..first + blocks)
            .map(|number| from.summary(sampling.length(number) as u64))
            .collect::<Result<_, _>>()?;
        // A block has 2^14 values at most, and a sample 2^20 blocks.
        let defined = summaries.iter().map(|summary| summary.moments.count).sum();
        let (mut values, mut sketch) = (Vec::new(), Sketch::default());
        if sampling.is_exact() {
            values = from.values(defined)?;
        } else {
            sketch = from.sketch(defined)?;
        }
        Ok(Blocks { sampling, first, summaries, values, sketch, probe: f64::from_bits(probe) })
    }

    /// How many bytes [`Blocks::to_bytes`] makes.
    pub fn byte_count(&self) -> usize {
        let sketched = if self.sampling.is_exact() { 0 } else { 2 + 2 * self.sketch.counts().count() };
        8 * (HEAD + OF_BLOCK * self.summaries.len() + self.values.len() + sketched + 1)
    }
}

fn fault<T>(what: &str) -> Result<T, StackError> {
    Err(StackError::Bytes(what.into()))
}

/// Every step can be undone for either of its inputs, so that a change within one word always changes what follows.
fn mix(check: u64, word: u64) -> u64 {
    (check.rotate_left(23) ^ word).wrapping_mul(0x9e37_79b9_7f4a_7c15)
}

struct Writer {
    bytes: Vec<u8>,
    check: u64,
}

impl Writer {
    fn put(&mut self, word: u64) {
        self.check = mix(self.check, word);
        self.bytes.extend_from_slice(&word.to_le_bytes());
    }
}

struct Reader<'a> {
    words: &'a [[u8; 8]],
}

impl<'a> Reader<'a> {
    /// Past the mark and the version, with the check word taken off.
    fn new(bytes: &'a [u8]) -> Result<Reader<'a>, StackError> {
        let (words, rest) = bytes.as_chunks::<8>();
        if words.first() != Some(&MARK.to_le_bytes()) {
            return fault("they do not begin like blocks");
        }
        let mut from = Reader { words };
        let [_, version] = from.take()?;
        if version != VERSION {
            return fault(&format!("they are of version {version}, and this library reads {VERSION}"));
        }
        let Some((check, body)) = from.words.split_last() else {
            return fault("they end too early");
        };
        let expected =
            words[..words.len() - 1].iter().fold(0, |check, word| mix(check, u64::from_le_bytes(*word)));
        if !rest.is_empty() || u64::from_le_bytes(*check) != expected {
            return fault("they were cut off or changed");
        }
        from.words = body;
        Ok(from)
    }

    fn take<const N: usize>(&mut self) -> Result<[u64; N], StackError> {
        let Some((taken, rest)) = self.words.split_first_chunk::<N>() else {
            return fault("they end too early");
        };
        self.words = rest;
        Ok(taken.map(u64::from_le_bytes))
    }

    /// Of a block of so many samples.
    fn summary(&mut self, length: u64) -> Result<Summary, StackError> {
        let [count, mean, second, third, fourth, minimum, maximum, below, above, undefined] = self.take()?;
        let number = f64::from_bits;
        let moments = SampleMoments {
            count,
            mean: number(mean),
            second: number(second),
            third: number(third),
            fourth: number(fourth),
            minimum: number(minimum),
            maximum: number(maximum),
        };
        let is_whole = count.checked_add(undefined) == Some(length);
        let is_within = below.checked_add(above).is_some_and(|out| out <= count);
        let is_ordered =
            if count == 0 { moments == SampleMoments::NONE } else { moments.minimum <= moments.maximum };
        if !(is_whole && is_within && is_ordered) {
            return fault("the figures of a block contradict one another");
        }
        Ok(Summary { moments, below, above, undefined })
    }

    fn values(&self, count: u64) -> Result<Vec<f64>, StackError> {
        let values: Vec<f64> = self.words.iter().map(|word| f64::from_le_bytes(*word)).collect();
        if values.len() as u64 != count || values.iter().any(|value| value.is_nan()) {
            return fault("the values are not those of the blocks");
        }
        Ok(values)
    }

    fn sketch(&mut self, count: u64) -> Result<Sketch, StackError> {
        let Some(grid) = Grid::from_words(self.take()?) else {
            return fault("the bins are not those of the blocks");
        };
        let (mut sketch, mut total, mut next) = (Sketch::new(grid), 0_u64, 0);
        while !self.words.is_empty() {
            let [bin, times] = self.take()?;
            let sum = total.checked_add(times).filter(|sum| times > 0 && *sum <= count);
            let Some(sum) = sum.filter(|_| bin >= next && sketch.count(bin, times)) else {
                return fault("the bins are not those of the blocks");
            };
            (total, next) = (sum, bin + 1);
        }
        if total == count { Ok(sketch) } else { fault("the bins are not those of the blocks") }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{BLOCK, Contributor, EXACT_COUNT, Input, Propagation, Sample, Stack, by_row};
    use super::*;
    use crate::{Limits, Units};
    use proptest::prelude::*;
    use std::sync::LazyLock;

    fn stack() -> Stack {
        let mut stack = Stack::new(Units::Metric);
        for text in ["10 ±0.1 mm", "5 +0.2/0 mm"] {
            stack.add(Contributor::new("part", Limits::parse(text).unwrap())).unwrap();
        }
        stack
    }

    /// One portion of values, one of values with gaps among them, and one of a sketch.
    fn portions() -> [Blocks; 3] {
        let exact = Sampling::new(BLOCK + 100, 7).within(14.9, 15.2);
        // Half of it is not defined.
        let root = Propagation::new(by_row(|[x]: [f64; 1]| x.sqrt()), vec![Input::new("x", 0.0, 1.0, -1.0)]);
        let sketched = Sampling::new(EXACT_COUNT + 1, 7).within(14.9, 15.2);
        [
            stack().sample_blocks(&exact, 1, 1).unwrap(),
            root.unwrap().sample_blocks(&Sampling::new(300, 1), 0, 1).unwrap(),
            stack().sample_blocks(&sketched, EXACT_COUNT / BLOCK - 1, 2).unwrap(),
        ]
    }

    static BYTES: LazyLock<[Vec<u8>; 3]> = LazyLock::new(|| portions().map(|portion| portion.to_bytes()));

    /// With the check word that these bytes should have, so that what lies behind it is reached.
    fn sealed(mut bytes: Vec<u8>) -> Vec<u8> {
        let end = bytes.len().saturating_sub(8) / 8 * 8;
        bytes.truncate(end);
        let words = bytes.as_chunks::<8>().0.iter();
        let check = words.fold(0, |check, word| mix(check, u64::from_le_bytes(*word)));
        bytes.extend(check.to_le_bytes());
        bytes
    }

    #[test]
    fn bytes_give_the_blocks_back() {
        for (portion, bytes) in portions().iter().zip(BYTES.iter()) {
            assert_eq!(Blocks::from_bytes(bytes).as_ref(), Ok(portion));
            assert_eq!(bytes.len(), portion.byte_count());
            assert_eq!(sealed(bytes.clone()), *bytes);
        }
    }

    #[test]
    fn a_sample_of_sent_portions_is_that_of_one_machine() {
        let sampling = Sampling::new(3 * BLOCK + 5, 3).within(14.9, 15.2);
        let sent = [(2, 2), (0, 1), (1, 1)].map(|(first, count)| {
            let portion = stack().sample_blocks(&Sampling { threads: 2, ..sampling }, first, count).unwrap();
            Blocks::from_bytes(&portion.to_bytes()).unwrap()
        });
        let whole = stack().sample(&sampling).unwrap();
        assert_eq!(Sample::fold([whole.to_blocks()]).as_ref(), Ok(&whole));
        assert_eq!(Sample::fold(sent), Ok(whole));
    }

    #[test]
    fn portions_of_different_stacks_do_not_go_together() {
        let sampling = Sampling::new(3 * BLOCK, 3);
        let mut other = stack();
        other.add(Contributor::new("shim", Limits::parse("0.1 ±0.01 mm").unwrap())).unwrap();
        let portions = |models: [&Stack; 3]| {
            let numbered = models.iter().zip(0..);
            numbered
                .map(|(model, first)| model.sample_blocks(&sampling, first, 1).unwrap())
                .collect::<Vec<_>>()
        };
        let (ours, theirs) = (stack(), other);
        assert!(Sample::fold(portions([&ours, &ours, &ours])).is_ok());
        for mixed in [[&theirs, &ours, &ours], [&ours, &ours, &theirs]] {
            let error = Sample::fold(portions(mixed)).unwrap_err().to_string();
            assert!(error.ends_with("these blocks are of different stacks or functions"), "{error}");
        }
        // Other machines may compute a function to other last digits.
        let mut portions = portions([&ours; 3]);
        portions[1].probe *= 1.0 + 1e-13;
        assert!(Sample::fold(portions).is_ok());
    }

    #[test]
    fn other_bytes_are_refused_with_a_reason() {
        let reason = |bytes: &[u8]| Blocks::from_bytes(bytes).unwrap_err().to_string();
        assert!(reason(b"").ends_with("they do not begin like blocks"));
        assert!(reason(&BYTES[0][..8]).ends_with("they end too early"));
        assert!(reason(&BYTES[0][..16]).ends_with("they end too early"));
        let mut newer = BYTES[0].clone();
        newer[8] = 4;
        assert!(reason(&newer).ends_with("they are of version 4, and this library reads 3"));
        let with = |place: usize, word: u64| {
            let mut bytes = BYTES[0].clone();
            bytes[8 * place..][..8].copy_from_slice(&word.to_le_bytes());
            reason(&sealed(bytes))
        };
        assert!(with(2, u64::MAX).contains("a sample must have 1 to"));
        assert!(with(4, f64::NAN.to_bits()).contains("are not valid limits"));
        assert!(with(6, u64::MAX).ends_with("the sample does not have these blocks"));
        assert!(with(7, 2).ends_with("the sample does not have these blocks"));
        assert!(with(16, 101).ends_with("the figures of a block contradict one another"));
        assert!(with(19, f64::NAN.to_bits()).ends_with("the values are not those of the blocks"));
    }

    proptest! {
        #[test]
        fn no_shorter_bytes_are_blocks(kind in 0usize..3, length in 0usize..2000) {
            let bytes = &BYTES[kind];
            prop_assert!(Blocks::from_bytes(&bytes[..length.min(bytes.len() - 1)]).is_err());
        }

        #[test]
        fn no_changed_bytes_are_blocks(kind in 0usize..3, place in 0usize..400_000, flip in 1u8..=255) {
            let mut bytes = BYTES[kind].clone();
            let place = place % bytes.len();
            bytes[place] ^= flip;
            prop_assert!(Blocks::from_bytes(&bytes).is_err());
        }

        // Where the check word is right, nothing panics, and what is read is written alike.
        #[test]
        fn forged_bytes_are_read_whole_or_refused(
            kind in 0usize..3,
            changes in prop::collection::vec((0usize..40, prop_oneof![any::<u64>(), 0u64..200, Just(u64::MAX)]), 1..4),
            cut in prop_oneof![Just(0usize), 0usize..900],
        ) {
            let mut bytes = BYTES[kind].clone();
            for (place, word) in changes {
                bytes[8 * (2 + place)..][..8].copy_from_slice(&word.to_le_bytes());
            }
            bytes.truncate(bytes.len() - cut);
            let bytes = sealed(bytes);
            if let Ok(blocks) = Blocks::from_bytes(&bytes) {
                prop_assert_eq!(blocks.to_bytes(), bytes);
                let _ = Sample::fold([blocks]);
            }
        }
    }
}

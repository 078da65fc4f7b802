//! Tests of samples of which a sketch is kept, against the values themselves: the same seed draws the same blocks, so that
//! the greatest sample whose values are kept has all values of one more but its last.
use super::{Blocks, StackError};
use super::{Contributor, Distribution, EXACT_COUNT, Input, Propagation, Sample, Sampling, Stack, by_row};
use crate::math::tan_degrees;
use crate::{Limits, Units};

const PERCENTS: [f64; 7] = [0.001, 0.135, 5.0, 50.0, 84.1, 99.865, 99.999];

fn larger() -> Sampling {
    Sampling { threads: 2, ..Sampling::new(EXACT_COUNT + 1, 7) }
}

fn stack(limits: &str) -> Stack {
    let mut stack = Stack::new(Units::Metric);
    stack.add(Contributor::new("part", Limits::parse(limits).unwrap())).unwrap();
    stack
}

/// The percentiles of the sketch lie as near to those of all values as they say, which is near against `scale`.
fn judge(blocks: impl Fn(&Sampling, u64, u64) -> Result<Blocks, StackError>, scale: f64) -> Sample {
    let sample =
        |sampling: &Sampling| Sample::fold([blocks(sampling, 0, sampling.blocks()).unwrap()]).unwrap();
    let exact = sample(&Sampling { count: EXACT_COUNT, ..larger() });
    let last = blocks(&larger(), larger().blocks() - 1, 1).unwrap().summaries[0].moments;
    let mut values = [exact.values(), &[last.mean]].concat();
    values.sort_unstable_by(f64::total_cmp);
    let percentile = |percent: f64| {
        let rank = (values.len() - 1) as f64 * percent / 100.0;
        let (low, high) = (values[rank.floor() as usize], values[rank.ceil() as usize]);
        low + (rank - rank.floor()) * (high - low)
    };
    let sketched = sample(&larger());
    assert!(exact.values().len() as u64 == EXACT_COUNT && sketched.values().is_empty());
    for (percent, got) in PERCENTS.iter().zip(sketched.percentiles(&PERCENTS).unwrap()) {
        let (value, away) = (percentile(*percent), (percentile(*percent) - percentile(50.0)).abs());
        let rounding = 1e-12 * (value.abs() + away);
        assert!((got.value - value).abs() <= got.error + rounding, "{percent}: {got:?} for {value}");
        // The values themselves lie this far apart where they are rare.
        let step = percentile(*percent + 1e-4 * (percent - 50.0).signum().min(0.0)) - value;
        let allowed = if away <= scale { 1e-4 * scale } else { 1e-4 * (scale + away) } + step.abs();
        assert!(got.error <= allowed, "{percent}: {got:?} of {value}, spread {scale}");
    }
    sketched
}

#[test]
fn percentiles_are_narrow_by_the_spread_wherever_it_lies() {
    for limits in ["10 ±0.0005 mm", "1000000 ±0.0005 mm"] {
        let stack = stack(limits);
        let sample =
            judge(|sampling, first, count| stack.sample_blocks(sampling, first, count), 0.0005 / 3.0);
        let (counts, _) = sample.histogram(40).unwrap();
        assert!(counts.iter().filter(|count| **count > 0).count() >= 30, "{counts:?}");
    }
}

// A tangent of an even angle: Cauchy's law, whose quartiles lie 1 from the middle.
#[test]
fn heavy_tails_do_not_spoil_the_middle() {
    let angle = Input::new("angle", 0.0, 89.999, -89.999).distribution(Distribution::Uniform);
    let tangent =
        Propagation::new(by_row(|[angle]: [f64; 1]| 10.0 + tan_degrees(angle)), vec![angle]).unwrap();
    judge(|sampling, first, count| tangent.sample_blocks(sampling, first, count), 1.0);
}

#[test]
fn threads_and_portions_do_not_matter() {
    let stack = stack("10 ±0.0005 mm");
    let whole = stack.sample(&larger()).unwrap();
    assert_eq!(stack.sample(&Sampling { threads: 1, ..larger() }).unwrap(), whole);
    let all = larger().blocks();
    let portions = [(all - 5, 5), (0, 1), (1, all - 6)].map(|(first, count)| {
        let portion = stack.sample_blocks(&larger(), first, count).unwrap();
        Blocks::from_bytes(&portion.to_bytes()).unwrap()
    });
    let folded = Sample::fold(portions).unwrap();
    assert_eq!(folded, whole);
    assert_eq!(folded.percentiles(&PERCENTS), whole.percentiles(&PERCENTS));
}

//! Percentiles of more samples than are kept, against the values themselves: the same seed draws the same blocks, so
//! that a sample of the most that are kept has all values of a greater one but its last.
use tenths::math::tan_degrees;
use tenths::stack::{
    Blocks, Contributor, Distribution, EXACT_COUNT, Input, Propagation, Sample, Sampling, Stack, by_row,
};
use tenths::{Limits, Units};

const PERCENTS: [f64; 7] = [0.001, 0.135, 5.0, 50.0, 84.1, 99.865, 99.999];

fn larger() -> Sampling {
    Sampling { threads: 2, ..Sampling::new(EXACT_COUNT + 1, 7) }
}

fn stack(limits: &str) -> Stack {
    let mut stack = Stack::new(Units::Metric);
    stack.add(Contributor::new("part", Limits::parse(limits).unwrap())).unwrap();
    stack
}

/// Each percentile of the sketch in standard deviations off, its stated error likewise, and the exact value.
fn judge(sample: impl Fn(&Sampling) -> Sample, scale: f64) -> Sample {
    let exact = sample(&Sampling { count: EXACT_COUNT, ..larger() });
    let sketched = sample(&larger());
    assert!(sketched.values().is_empty());
    let median = exact.percentile(50.0).unwrap().value;
    let both =
        exact.percentiles(&PERCENTS).unwrap().into_iter().zip(sketched.percentiles(&PERCENTS).unwrap());
    for (percent, (exact, got)) in PERCENTS.iter().zip(both) {
        let (value, away) = (exact.value, (exact.value - median).abs());
        // One value more moves a percentile by a rank at the most, which is far out where values are rare.
        let rank = if (1.0..99.0).contains(percent) { 1e-6 } else { 1e-3 } * (scale + away);
        assert!((got.value - value).abs() <= got.error + rank, "{percent}: {got:?} for {value}");
        let allowed = if away <= scale { 1e-4 * scale } else { 1e-4 * (scale + away) };
        assert!(got.error <= allowed, "{percent}: {got:?} of {value}, spread {scale}");
    }
    sketched
}

#[test]
fn percentiles_are_narrow_by_the_spread_wherever_it_lies() {
    for limits in ["10 ±0.0005 mm", "1000000 ±0.0005 mm"] {
        let stack = stack(limits);
        let sample = judge(|sampling| stack.sample(sampling).unwrap(), 0.0005 / 3.0);
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
    judge(|sampling| tangent.sample(sampling).unwrap(), 1.0);
}

#[test]
fn what_does_not_vary_has_its_percentiles_exactly() {
    for percentile in stack("0.3 +0/-0 mm").sample(&larger()).unwrap().percentiles(&PERCENTS).unwrap() {
        assert_eq!((percentile.value, percentile.error), (0.3, 0.0));
    }
}

#[test]
fn threads_and_portions_do_not_matter() {
    let stack = stack("10 ±0.0005 mm");
    let whole = stack.sample(&larger()).unwrap();
    assert_eq!(stack.sample(&Sampling { threads: 1, ..larger() }).unwrap(), whole);
    let portions = [(1000, 25), (0, 1), (1, 999)].map(|(first, count)| {
        let portion = stack.sample_blocks(&larger(), first, count).unwrap();
        Blocks::from_bytes(&portion.to_bytes()).unwrap()
    });
    let folded = Sample::fold(portions).unwrap();
    assert_eq!(folded, whole);
    assert_eq!(folded.percentiles(&PERCENTS), whole.percentiles(&PERCENTS));
}

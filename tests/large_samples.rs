//! More samples than are kept: a sketch takes the place of their values. `core/src/stack/sketched.rs` judges sketches of
//! samples that vary, which a smaller border in the tests of that crate makes quick.
use tenths::stack::{Contributor, EXACT_COUNT, Sampling, Stack};
use tenths::{Limits, Units};

#[test]
fn values_are_kept_up_to_the_stated_count_and_percentiles_without_them_are_as_sure() {
    assert_eq!(EXACT_COUNT, 1 << 24);
    let mut stack = Stack::new(Units::Metric);
    stack.add(Contributor::new("part", Limits::parse("0.3 +0/-0 mm").unwrap())).unwrap();
    for (count, kept) in [(EXACT_COUNT, EXACT_COUNT as usize), (EXACT_COUNT + 1, 0)] {
        let sample = stack.sample(&Sampling { threads: 2, ..Sampling::new(count, 7) }).unwrap();
        assert_eq!((sample.count(), sample.values().len()), (count, kept));
        for percentile in sample.percentiles(&[0.001, 50.0, 99.999]).unwrap() {
            assert_eq!((percentile.value, percentile.error), (0.3, 0.0));
        }
    }
}

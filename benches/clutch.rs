//! Samples of a function with an inverse cosine on one thread, with three percentiles: `cargo bench --bench clutch`, whose line
//! `benches/timing.py` explains; `benches/stacks.py` sets numpy beside it.
use std::time::Instant;
use tenths::math::acos_degrees;
use tenths::stack::{ByRow, Input, Propagation, RowFunction, Sampling};

/// Contact angle of a roller clutch from the radii of hub, roller and ring.
struct ContactAngle;

impl RowFunction<3> for ContactAngle {
    #[inline(always)]
    fn value(&self, [hub, roller, ring]: [f64; 3]) -> f64 {
        acos_degrees((hub + roller) / (ring - roller))
    }
}

fn main() {
    let count = std::env::args().filter_map(|argument| argument.parse().ok()).next().unwrap_or(1_000_000);
    let angle = Propagation::new(
        ByRow(ContactAngle),
        vec![
            Input::new("hub", 27.645, 0.0125, -0.0125),
            Input::new("roller", 11.43, 0.01, -0.01),
            Input::new("ring", 50.8, 0.0125, -0.0125),
        ],
    )
    .expect("inputs");
    let sampling = Sampling { threads: 1, ..Sampling::new(count, 7).within(6.75, 7.3) };
    let mut least = f64::INFINITY;
    for _ in 0..9 {
        let start = Instant::now();
        let sample = angle.sample(&sampling).expect("a sample");
        let percentiles = sample.percentiles(&[0.135, 50.0, 99.865]).expect("percentages");
        std::hint::black_box((sample.mean(), sample.sigma(), sample.fraction_out(), percentiles));
        least = least.min(start.elapsed().as_secs_f64() * 1e9);
    }
    println!("inverse cosine of three, {count:e} samples with percentiles\ttenths\t{least:.0}");
}

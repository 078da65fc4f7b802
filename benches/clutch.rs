//! Milliseconds for samples of a function with an inverse cosine on one thread, with three percentiles:
//! `cargo bench --bench clutch`; `benches/stacks.py` sets numpy beside it.
use std::time::Instant;
use tenths::math::acos_degrees;
use tenths::stack::{Input, Propagation, Sampling, by_row};

fn main() {
    let count = std::env::args().filter_map(|argument| argument.parse().ok()).next().unwrap_or(1_000_000);
    let angle = Propagation::new(
        by_row(|[hub, roller, ring]| acos_degrees((hub + roller) / (ring - roller))),
        vec![
            Input::new("hub", 27.645, 0.0125, -0.0125),
            Input::new("roller", 11.43, 0.01, -0.01),
            Input::new("ring", 50.8, 0.0125, -0.0125),
        ],
    )
    .expect("inputs");
    let sampling = Sampling { threads: 1, ..Sampling::new(count, 7).within(6.75, 7.3) };
    let mut times: Vec<f64> = (0..7)
        .map(|_| {
            let start = Instant::now();
            let sample = angle.sample(&sampling).expect("a sample");
            let percentiles = sample.percentiles(&[0.135, 50.0, 99.865]).expect("percentages");
            std::hint::black_box((sample.mean(), sample.sigma(), sample.fraction_out(), percentiles));
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{:.3}", times[3]);
}

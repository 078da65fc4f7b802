//! Plans read and evaluated, beside their JSON alone, and samples of them on two threads: `cargo bench --bench plan`;
//! benches/timing.py says what the lines mean.
use std::hint::black_box;
use std::time::Instant;
use tenths::Plan;
use tenths::stack::{Input, Sampling};

const DEMOS: [(&str, &str); 2] = [
    ("roller axle", include_str!("../examples/plans/roller_axle.json")),
    ("jig rest pin", include_str!("../examples/plans/jig_rest_pin.json")),
];

/// The text of a demo with its operations over and over, until it has at least `length` bytes and `least` operations.
fn lengthened(text: &str, length: usize, least: usize) -> String {
    let mut plan: serde_json::Value = serde_json::from_str(text).expect("a demo");
    let operations = plan["operations"].as_array().expect("operations").clone();
    for operation in operations.iter().cycle() {
        let count = plan["operations"].as_array().map_or(0, Vec::len);
        if plan.to_string().len() >= length && count >= least {
            break;
        }
        plan["operations"].as_array_mut().expect("operations").push(operation.clone());
    }
    plan.to_string()
}

/// The least times of two works in nanoseconds, in turn.
fn least(runs: usize, mut works: [&mut dyn FnMut(); 2]) -> [f64; 2] {
    let mut least = [f64::INFINITY; 2];
    for _ in 0..runs {
        for (work, least) in works.iter_mut().zip(&mut least) {
            let start = Instant::now();
            work();
            *least = least.min(start.elapsed().as_secs_f64() * 1e9);
        }
    }
    least
}

fn main() {
    println!("# Plans of work");
    let long = DEMOS.map(|(name, text)| (name, lengthened(text, 5000, 0)));
    let many = DEMOS.map(|(name, text)| (name, lengthened(text, 0, 50)));
    for (name, text) in long.into_iter().chain(many) {
        let plan = Plan::from_json(&text).expect("a demo has no fault");
        let mut json = || drop(black_box(serde_json::from_str::<serde_json::Value>(black_box(&text))));
        let mut parse = || drop(black_box(Plan::from_json(black_box(&text))));
        let mut evaluate = || drop(black_box(black_box(&plan).evaluate()));
        let works: [(&str, &mut dyn FnMut()); 2] = [("parsed", &mut parse), ("evaluated", &mut evaluate)];
        for (done, work) in works {
            let [ours, tree] = least(3001, [work, &mut json]);
            let work = format!("{name} of {:.1} kB in Rust: {done}", text.len() as f64 / 1e3);
            println!("{work}\ttenths\t{ours:.0}\n{work}\tserde_json, the tree alone\t{tree:.0}");
        }
    }
    for (name, text) in DEMOS {
        const COUNT: u64 = 10_000;
        let plan = Plan::from_json(text).expect("a demo has no fault");
        let varying = [Input::new("/operations/3/spindle_speed", 300.0, 30.0, -30.0)];
        let run = |threads| {
            let sampling = Sampling { threads, ..Sampling::new(COUNT, 1) };
            black_box(plan.propagate(&varying, &sampling, &["/minutes_per_part"])).expect("a sample");
        };
        let both = least(11, [&mut || run(2), &mut || run(1)]).map(|taken| taken / COUNT as f64);
        let work = format!("a sample of {name} in Rust, two threads");
        println!("{work}\ttenths\t{:.0}\n{work}\ttenths on one thread\t{:.0}", both[0], both[1]);
    }
}

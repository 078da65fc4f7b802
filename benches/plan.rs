//! Microseconds to read, to evaluate and to print a plan, one thread: `cargo bench --bench plan`. The peer is serde_json, which
//! reads the same text as plain data in the same run.
use std::hint::black_box;
use std::time::Instant;
use tenths::stack::{Input, Sampling};
use tenths::{Plan, SheetKind};

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

/// The median time of a run in microseconds, and that of the fastest tenth, which a busy machine disturbs less.
fn times(mut run: impl FnMut()) -> [f64; 2] {
    const RUNS: usize = 5001;
    let mut times: Vec<f64> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    times.sort_by(f64::total_cmp);
    [times[RUNS / 2], times[RUNS / 20]]
}

fn main() {
    println!("Microseconds: the median, and in brackets the median of the fastest tenth.");
    let heads = ["parse", "evaluate", "Markdown", "all three", "sheet as JSON", "serde_json"];
    let heads: String = heads.iter().map(|head| format!(" {head:>16}")).collect();
    println!("{:<28} {:>6}{heads} {:>9} {:>9}", "plan", "bytes", "all/peer", "kB of all");
    let long = DEMOS.map(|(name, text)| (format!("{name}, 5 kB"), lengthened(text, 5000, 0)));
    let many = DEMOS.map(|(name, text)| (format!("{name}, 50 operations"), lengthened(text, 0, 50)));
    let demos = DEMOS.map(|(name, text)| (name.to_string(), text.to_string()));
    for (name, text) in demos.into_iter().chain(long).chain(many) {
        let plan = Plan::from_json(&text).expect("a demo has no fault");
        let parse = times(|| drop(black_box(Plan::from_json(black_box(&text)))));
        let evaluate = times(|| drop(black_box(black_box(&plan).evaluate())));
        let sheet = plan.evaluate().expect("a demo has an answer");
        let printed = sheet.to_markdown(SheetKind::Process).expect("a process sheet").len();
        let markdown = times(|| drop(black_box(black_box(&sheet).to_markdown(SheetKind::Process))));
        let all = times(|| {
            let sheet = Plan::from_json(black_box(&text)).and_then(|plan| plan.evaluate());
            drop(black_box(sheet.map(|sheet| sheet.to_markdown(SheetKind::Process))));
        });
        let json = times(|| drop(black_box(black_box(&sheet).to_json())));
        let peer = times(|| drop(black_box(serde_json::from_str::<serde_json::Value>(black_box(&text)))));
        let ratio = all[1] / peer[1];
        let figures = [parse, evaluate, markdown, all, json, peer];
        let figures: String = figures
            .iter()
            .map(|[median, fast]| format!(" {:>16}", format!("{median:.1} ({fast:.1})")))
            .collect();
        println!("{name:<28} {:>6}{figures} {ratio:>9.2} {:>9.1}", text.len(), printed as f64 / 1e3);
    }
    println!("\nSamples of a plan in a second, by threads: the median of eleven runs.");
    for (name, text) in DEMOS {
        let plan = Plan::from_json(text).expect("a demo has no fault");
        let rate = |threads| {
            const COUNT: u64 = 10_000;
            let (varying, sampling) = (
                [Input::new("/operations/3/spindle_speed", 300.0, 30.0, -30.0)],
                Sampling { threads, ..Sampling::new(COUNT, 1) },
            );
            let mut rates: Vec<f64> = (0..11)
                .map(|_| {
                    let start = Instant::now();
                    black_box(plan.propagate(&varying, &sampling, &["/minutes_per_part"])).expect("a sample");
                    COUNT as f64 / start.elapsed().as_secs_f64()
                })
                .collect();
            rates.sort_by(f64::total_cmp);
            rates[5]
        };
        println!("{name:<20} {:>12.0} (1) {:>12.0} (2)", rate(1), rate(2));
    }
}

//! Long work under a watch: it tells how far it is, stops where it is told to, and gives the same bits as without one.
use std::ops::ControlFlow;
use std::sync::Mutex;
use std::time::{Duration, Instant};
use tenths::plan::PropagateError;
use tenths::stack::{
    BLOCK, Contributor, Input, Propagation, Sample, Sampling, Stack, StackError, VectorLoop, by_row,
};
use tenths::{Error, Limits, Plan, Stopped, Units, Watch};

fn stack() -> Stack {
    let mut stack = Stack::new(Units::Metric);
    stack.add(Contributor::new("length", Limits::parse("20 ±0.1 mm").unwrap())).unwrap();
    stack.add(Contributor::new("groove", Limits::parse("5 +0.05/-0 mm").unwrap()).sensitivity(-1.0)).unwrap();
    stack
}

fn product() -> Propagation<impl tenths::stack::Function> {
    let inputs = vec![Input::new("a", 3.0, 0.1, -0.1), Input::new("b", 7.0, 0.2, -0.2)];
    Propagation::new(by_row(|[a, b]: [f64; 2]| a * b), inputs).unwrap()
}

/// What is told of some work that is stopped at its `last` report.
fn told<T>(last: usize, work: impl FnOnce(&Watch) -> T) -> (Vec<f64>, T) {
    let fractions = Mutex::new(vec![]);
    let watch = Watch::telling(|fraction| {
        let mut fractions = fractions.lock().unwrap();
        fractions.push(fraction);
        if fractions.len() < last { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    });
    let result = work(&watch);
    drop(watch);
    (fractions.into_inner().unwrap(), result)
}

/// Work tells rising fractions up to 1, `least` of them or more, and gives what it gives unwatched.
#[track_caller]
fn assert_rises<T: PartialEq + std::fmt::Debug>(least: usize, plain: T, work: impl Fn(&Watch) -> T) {
    let (fractions, result) = told(usize::MAX, work);
    assert!(result == plain, "{result:?} is not {plain:?}");
    assert!(fractions.len() >= least, "{fractions:?}");
    assert!(fractions.is_sorted_by(|a, b| a < b) && fractions[0] > 0.0, "{fractions:?}");
    assert_eq!(fractions.last(), Some(&1.0));
}

/// Work on this thread alone stops at the very report that says so.
#[track_caller]
fn assert_stops<T: std::fmt::Debug, E: PartialEq + std::fmt::Debug>(
    stopped: E,
    work: impl Fn(&Watch) -> Result<T, E>,
) {
    for last in [1, 3] {
        let (fractions, result) = told(last, &work);
        assert_eq!(result.unwrap_err(), stopped);
        assert_eq!(fractions.len(), last);
        assert!(fractions[last - 1] < 1.0, "{fractions:?}");
    }
    let watch = Watch::new();
    watch.stop();
    assert_eq!(work(&watch).unwrap_err(), stopped);
}

const STOPPED: StackError = StackError::Stopped(Stopped);

#[test]
fn samples_are_watched() {
    for threads in [1, 2] {
        let sampling = Sampling { threads, ..Sampling::new(5 * BLOCK + 7, 3) };
        let (stack, product) = (stack(), product());
        let least = if threads == 1 { 15 } else { 1 };
        assert_rises(least, stack.sample(&sampling), |watch| stack.sample_watched(&sampling, watch));
        assert_rises(least, product.sample(&sampling), |watch| product.sample_watched(&sampling, watch));
    }
    let alone = Sampling { threads: 1, ..Sampling::new(5 * BLOCK + 7, 3) };
    assert_stops(STOPPED, |watch| stack().sample_watched(&alone, watch));
    assert_stops(STOPPED, |watch| product().sample_watched(&alone, watch));
}

#[test]
fn blocks_are_watched() {
    let sampling = Sampling { threads: 1, ..Sampling::new(9 * BLOCK, 3) };
    let (stack, product) = (stack(), product());
    assert_rises(15, stack.sample_blocks(&sampling, 4, 5), |watch| {
        stack.sample_blocks_watched(&sampling, 4, 5, watch)
    });
    assert_rises(15, product.sample_blocks(&sampling, 4, 5), |watch| {
        product.sample_blocks_watched(&sampling, 4, 5, watch)
    });
    assert_stops(STOPPED, |watch| stack.sample_blocks_watched(&sampling, 0, 2, watch));
    assert_stops(STOPPED, |watch| product.sample_blocks_watched(&sampling, 0, 2, watch));
}

// Few and many percentages go different ways.
#[test]
fn percentiles_are_watched() {
    let sample = stack().sample(&Sampling::new(3 * BLOCK, 3)).unwrap();
    for count in [40, 400] {
        let percents: Vec<f64> = (0..count).map(|k| f64::from(k) * 0.25).collect();
        assert_rises(10, sample.percentiles(&percents), |watch| sample.percentiles_watched(&percents, watch));
        assert_stops(STOPPED, |watch| sample.percentiles_watched(&percents, watch));
    }
}

#[test]
fn varying_plans_are_watched() {
    let plan = Plan::from_json(include_str!("../examples/plans/roller_axle.json")).unwrap();
    let request = |threads: u32| {
        format!(
            r#"{{"count": 20, "threads": {threads}, "outputs": ["/minutes_per_part"],
            "varying": [{{"place": "/bar/bar_length", "limits": "3000 ±10 mm"}}]}}"#
        )
    };
    let plain = plan.propagate_json(&request(1)).unwrap();
    for threads in [1, 2] {
        let request = request(threads);
        assert_rises(1, Ok(plain.clone()), |watch| plan.propagate_json_watched(&request, watch));
    }
    assert_stops(PropagateError::Stopped(Stopped), |watch| plan.propagate_json_watched(&request(1), watch));
}

#[test]
fn batches_are_watched() {
    let formula = tenths::find("surface_speed").unwrap();
    const ROWS: usize = 300_000;
    let diameters: Vec<f64> = (0..ROWS).map(|row| (row % 1000) as f64 - 1.0).collect();
    let xs = [&diameters[..], &vec![1000.0; ROWS]];
    let mut plain = vec![0.0; ROWS];
    let met = formula.batch(Units::Metric, &xs, &mut [&mut plain]).unwrap();
    assert!(met.refused);
    let batch = |watch: &Watch| {
        let mut y = vec![0.0; ROWS];
        let met = formula.batch_watched(Units::Metric, &xs, &mut [&mut y], watch)?;
        Ok((met, y.into_iter().map(f64::to_bits).collect::<Vec<_>>()))
    };
    let bits = plain.into_iter().map(f64::to_bits).collect();
    assert_rises(5, Ok::<_, Error>((met, bits)), batch);
    assert_stops(Error::Stopped(Stopped), batch);
    let on_threads = |watch: &Watch| {
        let mut y = vec![0.0; ROWS];
        formula.batch_on_threads(Units::Metric, &xs, &mut [&mut y], 3, watch)
    };
    assert_eq!(on_threads(&Watch::new()), Ok(met));
    let watch = Watch::new();
    watch.stop();
    assert_eq!(on_threads(&watch), Err(Error::Stopped(Stopped)));
    // As without a watch, columns that do not go together are refused.
    let watch = Watch::new();
    let mut y = vec![0.0; ROWS];
    for wrong in [vec![], vec![&diameters[..]], vec![&diameters[1..], xs[1]], vec![xs[0], xs[1], xs[1]]] {
        let watched = formula.batch_watched(Units::Metric, &wrong, &mut [&mut y], &watch);
        assert_eq!(watched, formula.batch(Units::Metric, &wrong, &mut [&mut y]));
        assert!(watched.is_err());
    }
}

/// The longest sample, stopped from another thread.
#[track_caller]
fn assert_quick(work: impl FnOnce(&Watch) -> Result<Sample, StackError> + Send) {
    let watch = Watch::new();
    std::thread::scope(|scope| {
        let work = scope.spawn(|| work(&watch));
        std::thread::sleep(Duration::from_millis(50));
        let start = Instant::now();
        watch.stop();
        assert_eq!(work.join().unwrap().unwrap_err(), STOPPED);
        assert!(start.elapsed() < Duration::from_millis(500), "{:?}", start.elapsed());
    });
}

// Of a vector loop a row takes longest.
#[test]
fn the_longest_work_stops_within_half_a_second() {
    let longest = |threads| Sampling { threads, ..Sampling::new(tenths::stack::MAX_COUNT, 1) };
    let mut chain = VectorLoop::new();
    chain.unknown("x", 50.0).unwrap().unknown("phi", 60.0).unwrap();
    chain.link("x", "0").unwrap().link("a", "90").unwrap().link("b", "180 + phi").unwrap();
    let inputs = vec![Input::new("a", 30.0, 0.1, -0.1), Input::new("b", 60.0, 0.1, -0.1)];
    let chain = chain.propagate("x", inputs).unwrap();
    for threads in [1, 2] {
        assert_quick(|watch| stack().sample_watched(&longest(threads), watch));
        assert_quick(|watch| chain.sample_watched(&longest(threads), watch));
    }
}

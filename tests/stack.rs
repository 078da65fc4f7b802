//! Tolerance stacks against figures from outside the project, and samples against exact moments.
use serde_json::Value;
use tenths::math::{acos_degrees, cos_degrees, sin_degrees, tan_degrees};
use tenths::stack::{
    BLOCK, Contributor, Distribution, Input, MeanShift, Propagation, Sample, Sampling, Stack, StackError,
    by_row,
};
use tenths::{Limits, Size, Units};

fn cases(kind: &str) -> Vec<Value> {
    let all: Vec<Value> = serde_json::from_str(include_str!("published/stacks.json")).unwrap();
    assert!(all.iter().all(|case| case["source"].is_string() && case["seen"].is_string()));
    let cases: Vec<Value> = all.into_iter().filter(|case| case[kind].is_string()).collect();
    assert!(cases.len() >= 4, "{kind}");
    cases
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

fn units(case: &Value) -> Units {
    if case["units"] == "inch" { Units::Inch } else { Units::Metric }
}

fn distribution(value: &Value) -> Distribution {
    match value {
        Value::Null => Distribution::NORMAL,
        Value::String(name) => Distribution::parse(name).unwrap(),
        law => match law.as_object().unwrap().iter().next().unwrap() {
            (name, mode) if name == "triangular" => Distribution::Triangular { mode: number(mode) },
            (name, given) => match (name.as_str(), &numbers(given)[..]) {
                ("truncated_normal", [cp, shift]) => Distribution::TruncatedNormal { cp: *cp, shift: *shift },
                ("process", [mean, sigma]) => Distribution::Process { mean: *mean, sigma: *sigma },
                (name, _) => panic!("{name}"),
            },
        },
    }
}

fn stack(case: &Value) -> Stack {
    let units = units(case);
    let mut stack = Stack::new(units);
    for one in case["contributors"].as_array().unwrap() {
        let size = |field: &str| Size::from_float(number(&one[field]), units).unwrap();
        let limits = Limits::with_deviations(size("nominal"), size("plus"), size("minus")).unwrap();
        let mut law = distribution(&one["distribution"]);
        if let Some(cp) = case["cp"].as_f64() {
            law = Distribution::Normal { cp, shift: number(&case["shift"]) };
        }
        let contributor = Contributor::new(one["name"].as_str().unwrap(), limits);
        stack.add(contributor.sensitivity(number(&one["sensitivity"])).distribution(law)).unwrap();
    }
    stack
}

fn near(got: f64, expected: f64, relative: f64, what: &str) {
    let within = relative * expected.abs() + 1e-13;
    assert!((got - expected).abs() <= within, "{what}: {got} for {expected}");
}

#[test]
fn linear_stacks_are_as_published() {
    for case in cases("stack") {
        let stack = stack(&case);
        let worst = stack.worst_case().unwrap();
        let band = |result: Result<tenths::stack::Band, StackError>| result.unwrap().tolerance;
        let shares = || numbers(&case["shares"]);
        let spread = |shift| stack.spread(shift).unwrap();
        let z = |shift| spread(shift).z_lower(number(&case["lower_limit"]));
        let ppm = |shift| 1e6 * spread(shift).fraction_below(number(&case["lower_limit"]));
        for (what, expected) in case["results"].as_object().unwrap() {
            let exact = |size: Size| {
                let expected: f64 = expected.as_str().unwrap().parse().unwrap();
                assert_eq!(size, Size::from_float(expected, stack.units()).unwrap(), "{what} {case}");
            };
            let (got, relative) = match what.as_str() {
                "nominal" => {
                    exact(worst.nominal());
                    continue;
                }
                "lower" => {
                    exact(worst.lower());
                    continue;
                }
                "upper" => {
                    exact(worst.upper());
                    continue;
                }
                "rss_percent" | "worst_case_percent" => {
                    let all = stack.contributions().unwrap();
                    for (one, expected) in all.iter().zip(numbers(expected)) {
                        near(
                            if what == "rss_percent" { one.rss } else { one.worst_case },
                            expected,
                            1e-8,
                            what,
                        );
                    }
                    continue;
                }
                "mean" => (stack.rss().unwrap().mean, 1e-11),
                "worst_case_tolerance" => (0.5 * worst.tolerance().to_float(stack.units()), 1e-11),
                "rss_tolerance" => (band(stack.rss()), 1e-8),
                "inflated_tolerance" => (band(stack.inflated_rss(1.5)), 1e-8),
                "spotts_tolerance" => (band(stack.spotts()), 1e-8),
                "estimated_mean_shift" => (band(stack.estimated_mean_shift(&shares())), 1e-8),
                "sigma_centred" => (spread(MeanShift::Centred).sigma, 1e-8),
                "sigma_dynamic" => (spread(MeanShift::Dynamic).sigma, 1e-8),
                "static_shift" => (spread(MeanShift::Static).shift, 1e-8),
                "z_centred" => (z(MeanShift::Centred), 1e-8),
                "z_dynamic" => (z(MeanShift::Dynamic), 1e-8),
                "z_static" => (z(MeanShift::Static), 1e-8),
                "ppm_centred" => (ppm(MeanShift::Centred), 1e-6),
                "ppm_dynamic" => (ppm(MeanShift::Dynamic), 1e-6),
                "ppm_static" => (ppm(MeanShift::Static), 1e-6),
                other => panic!("{other}"),
            };
            near(got, number(expected), relative, &format!("{} {what}", case["stack"]));
        }
    }
}

/// Sampled figures lie within so many standard errors; at some hundred comparisons five is rare enough.
const STANDARD_ERRORS: f64 = 5.0;

#[test]
fn laws_are_as_published_and_samples_agree_with_them() {
    for case in cases("law") {
        let stack = stack(&case);
        let exact = stack.statistics().unwrap();
        let results = &case["results"];
        let limit = |side: &str, none: f64| results[side]["limit"].as_f64().unwrap_or(none);
        let limits = (limit("below", f64::NEG_INFINITY), limit("above", f64::INFINITY));
        for (what, expected) in results.as_object().unwrap() {
            let got = match what.as_str() {
                "mean" => exact.mean,
                "variance" => exact.sigma * exact.sigma,
                "sigma" => exact.sigma,
                "skewness" => exact.skewness,
                "kurtosis" => exact.kurtosis,
                _ => continue,
            };
            near(got, number(expected), 1e-8, &format!("{} {what}", case["law"]));
        }
        for seed in 0..6 {
            let sample = stack.sample(&Sampling::new(300_000, seed).within(limits.0, limits.1)).unwrap();
            let off = (sample.mean() - exact.mean) / sample.mean_error();
            assert!(off.abs() < STANDARD_ERRORS, "{} mean {off}", case["law"]);
            let off = (sample.sigma() - exact.sigma) / sample.sigma_error();
            assert!(off.abs() < STANDARD_ERRORS, "{} sigma {off}", case["law"]);
            for (side, got) in [("below", sample.fraction_below()), ("above", sample.fraction_above())] {
                if let Some(expected) = results[side]["fraction"].as_f64() {
                    let error = (expected * (1.0 - expected) / 300_000.0).sqrt();
                    assert!((got.value - expected).abs() < STANDARD_ERRORS * error, "{} {side}", case["law"]);
                }
            }
        }
    }
}

fn inputs(case: &Value) -> Vec<Input> {
    let input = |one: &Value| {
        let [nominal, plus, minus] = ["nominal", "plus", "minus"].map(|field| number(&one[field]));
        Input::new(one["name"].as_str().unwrap(), nominal, plus, minus)
    };
    case["inputs"].as_array().unwrap().iter().map(input).collect()
}

fn check_function<F: tenths::stack::Function>(case: &Value, function: F) {
    let propagation = Propagation::new(function, inputs(case)).unwrap();
    let (extremes, moments) = (propagation.extremes().unwrap(), propagation.moments().unwrap());
    assert!(extremes.monotonic.values().all(|is_so| *is_so));
    for (what, expected) in case["results"].as_object().unwrap() {
        let name = format!("{} {what}", case["function"]);
        match what.as_str() {
            "nominal" => near(propagation.nominal().unwrap(), number(expected), 1e-8, &name),
            "lower" => near(extremes.lower, number(expected), 1e-8, &name),
            "upper" => near(extremes.upper, number(expected), 1e-8, &name),
            "three_first_order_sigma" => near(3.0 * moments.first_order_sigma, number(expected), 1e-7, &name),
            "second_order_mean" => near(moments.mean, number(expected), 1e-8, &name),
            // What the second order leaves out.
            "mean" => near(moments.mean, number(expected), 2e-7, &name),
            "sigma" => near(moments.sigma, number(expected), 2e-6, &name),
            "derivatives" => {
                for (got, expected) in moments.derivatives.values().zip(numbers(expected)) {
                    near(*got, expected, 1e-7, &name);
                }
            }
            "contributions" => {
                for (got, expected) in moments.contributions.values().zip(numbers(expected)) {
                    near(*got, expected, 1e-6, &name);
                }
            }
            other => panic!("{other}"),
        }
    }
    for seed in 0..3 {
        let sample = propagation.sample(&Sampling::new(200_000, seed)).unwrap();
        let mean = (sample.mean() - number(&case["results"]["mean"])) / sample.mean_error();
        let sigma = (sample.sigma() - number(&case["results"]["sigma"])) / sample.sigma_error();
        assert!(mean.abs() < STANDARD_ERRORS && sigma.abs() < STANDARD_ERRORS, "{mean} {sigma}");
    }
}

#[test]
fn functions_are_as_published_and_samples_agree_with_them() {
    for case in cases("function") {
        match case["function"].as_str().unwrap() {
            "acos((a + c) / (e - c))" => {
                check_function(&case, by_row(|[a, c, e]| acos_degrees((a + c) / (e - c))));
            }
            "w + d (1 + cot(angle / 2))" => {
                check_function(&case, by_row(|[w, d, angle]| w + d * (1.0 + 1.0 / tan_degrees(0.5 * angle))));
            }
            "d sin(angle / 2)" => check_function(&case, by_row(|[d, angle]| d * sin_degrees(0.5 * angle))),
            "c² / (8 h) + h / 2" => check_function(&case, by_row(|[c, h]| c * c / (8.0 * h) + 0.5 * h)),
            other => panic!("{other}"),
        }
    }
}

/// One of each law, and a correlated pair.
fn mixed() -> Stack {
    let mut stack = Stack::new(Units::Metric);
    let limits = Limits::parse("10 +0.3/-0.1 mm").unwrap();
    let laws = [
        Distribution::Normal { cp: 1.33, shift: 0.2 },
        Distribution::NORMAL,
        Distribution::TruncatedNormal { cp: 0.8, shift: -0.3 },
        Distribution::Uniform,
        Distribution::Triangular { mode: 0.0 },
        Distribution::Triangular { mode: 0.7 },
        Distribution::Trapezoid { top: 0.4 },
        Distribution::Beta { alpha: 0.7, beta: 3.0 },
        Distribution::Process { mean: 10.05, sigma: 0.05 },
        Distribution::Measured([9.95, 10.0, 10.02, 10.3].into()),
    ];
    for (number, law) in laws.into_iter().enumerate() {
        let sensitivity = if number % 2 == 0 { 1.0 } else { -0.7 };
        stack
            .add(Contributor::new(format!("d{number}"), limits).sensitivity(sensitivity).distribution(law))
            .unwrap();
    }
    stack.correlate("d0", "d1", 0.6).unwrap();
    stack
}

#[test]
fn every_law_is_drawn_as_its_moments_say() {
    let all = mixed();
    let alone = all.contributors().iter().map(|one| {
        let mut stack = Stack::new(Units::Metric);
        stack.add(one.clone()).unwrap();
        stack
    });
    for stack in alone.chain([all.clone()]) {
        let exact = stack.statistics().unwrap();
        let name = stack.contributors()[0].distribution.name();
        for seed in 0..8 {
            let sample = stack.sample(&Sampling::new(200_000, seed)).unwrap();
            let off = [
                (sample.mean() - exact.mean) / sample.mean_error(),
                (sample.sigma() - exact.sigma) / sample.sigma_error(),
            ];
            assert!(off.iter().all(|off| off.abs() < STANDARD_ERRORS), "{name} {off:?}");
            // For the standard errors of a normal law, widened for flatter and steeper ones.
            assert!((sample.skewness() - exact.skewness).abs() < 0.08, "{name}");
            assert!((sample.kurtosis() - exact.kurtosis).abs() < 0.25, "{name}");
        }
    }
}

#[test]
fn the_bits_do_not_depend_on_threads_or_on_who_draws_which_blocks() {
    let stack = mixed();
    let clutch = Propagation::new(
        by_row(|[a, c, e]| acos_degrees((a + c) / (e - c))),
        vec![
            Input::new("a", 27.645, 0.5, -0.5),
            Input::new("c", 11.43, 0.5, -0.5).distribution(Distribution::Uniform),
            // Some of these are not defined.
            Input::new("e", 50.8, 0.5, -0.5).distribution(Distribution::Normal { cp: 0.5, shift: 0.0 }),
        ],
    )
    .unwrap();
    let sampling = Sampling::new(10 * BLOCK + 777, 42).within(-4.0, 4.0);
    let on = |threads| Sampling { threads, ..sampling };
    let check = |sample: &dyn Fn(&Sampling) -> Sample, blocks: &dyn Fn(u64, u64) -> tenths::stack::Blocks| {
        let one = sample(&on(1));
        assert_eq!(one, sample(&on(2)));
        assert_eq!(one, sample(&on(7)));
        let portions = [blocks(7, 4), blocks(0, 3), blocks(3, 4)];
        let folded = Sample::fold(portions).unwrap();
        assert_eq!(one, folded);
        for percent in [0.0, 0.135, 50.0, 99.865, 100.0] {
            assert_eq!(one.percentile(percent), folded.percentile(percent));
        }
        assert_eq!(one.mean().to_bits(), folded.mean().to_bits());
        one
    };
    check(&|s| stack.sample(s).unwrap(), &|first, count| stack.sample_blocks(&on(2), first, count).unwrap());
    let sample = check(&|s| clutch.sample(s).unwrap(), &|first, count| {
        clutch.sample_blocks(&sampling, first, count).unwrap()
    });
    assert_eq!(sample.count(), 10 * BLOCK + 777);
    assert!(sample.undefined() > 0);
    // Another seed is another sample, and a longer one begins with the same blocks.
    assert_ne!(
        stack.sample(&Sampling::new(1000, 1)).unwrap(),
        stack.sample(&Sampling::new(1000, 2)).unwrap()
    );
    let (short, long) = (stack.sample(&Sampling::new(BLOCK, 1)), stack.sample(&Sampling::new(3 * BLOCK, 1)));
    assert_eq!(short.unwrap().values(), &long.unwrap().values()[..BLOCK as usize]);
}

#[test]
fn blocks_that_do_not_make_a_sample_are_refused() {
    let stack = mixed();
    let sampling = Sampling::new(3 * BLOCK, 1);
    let blocks = |first, count| stack.sample_blocks(&sampling, first, count).unwrap();
    let other = stack.sample_blocks(&Sampling::new(3 * BLOCK, 2), 1, 2).unwrap();
    for (portions, what) in [
        (vec![], "no blocks"),
        (vec![blocks(0, 1), blocks(2, 1)], "block 1 is missing"),
        (vec![blocks(0, 2), blocks(1, 2)], "block 1 comes twice"),
        (vec![blocks(0, 2)], "block 2 is missing"),
        (vec![blocks(0, 1), other], "different samples"),
    ] {
        let error = Sample::fold(portions).unwrap_err().to_string();
        assert!(error.contains(what), "{error}");
    }
    assert!(
        stack.sample_blocks(&sampling, 2, 2).is_err() && stack.sample_blocks(&sampling, u64::MAX, 2).is_err()
    );
}

#[test]
fn a_large_sample_is_sketched_within_the_stated_error() {
    let mut stack = Stack::new(Units::Metric);
    stack.add(Contributor::new("a", Limits::parse("0 ±3 mm").unwrap())).unwrap();
    let sampling = Sampling::new((1 << 24) + 1, 5);
    let sample = stack.sample(&sampling).unwrap();
    assert!(sample.values().is_empty());
    // Quantiles of the standard normal law, as tables have them.
    for (percent, quantile) in
        [(0.134_989_803, -3.0), (2.275_013_195, -2.0), (84.134_474_607, 1.0), (50.0, 0.0)]
    {
        let percentile = sample.percentile(percent).unwrap();
        let density = tenths::math::normal_density(quantile);
        let share = percent / 100.0;
        let error = (share * (1.0 - share) / sampling.count as f64).sqrt() / density;
        assert!(
            (percentile.value - quantile).abs() <= percentile.error + STANDARD_ERRORS * error,
            "{percentile:?}"
        );
        assert!(percentile.error <= if quantile.abs() <= 1.0 { 1e-4 } else { 1e-3 }, "{percentile:?}");
    }
    assert_eq!(sample, stack.sample(&Sampling { threads: 1, ..sampling }).unwrap());
}

#[test]
fn the_words_are_uniform_normal_and_without_correlation_between_blocks() {
    // The statistic of Kolmogorov and Smirnov times √n exceeds 1.95 once in a thousand, by its limiting law.
    let ks = |values: &[f64], law: &dyn Fn(f64) -> f64| {
        let mut sorted = values.to_vec();
        sorted.sort_unstable_by(f64::total_cmp);
        let n = sorted.len() as f64;
        let distance = |(rank, value): (usize, &f64)| {
            let share = law(*value);
            (share - rank as f64 / n).abs().max((share - (rank as f64 + 1.0) / n).abs())
        };
        sorted.iter().enumerate().map(distance).fold(0.0, f64::max) * n.sqrt()
    };
    let one = |law: Distribution| {
        let mut stack = Stack::new(Units::Metric);
        stack.add(Contributor::new("a", Limits::parse("0 ±3 mm").unwrap()).distribution(law)).unwrap();
        stack
    };
    let uniform = |x: f64| (x / 6.0 + 0.5).clamp(0.0, 1.0);
    let triangle = |x: f64| {
        let share = (1.0 - x.abs() / 3.0).max(0.0);
        if x < 0.0 { 0.5 * share * share } else { 1.0 - 0.5 * share * share }
    };
    // Beta(2, 2): 3 s² - 2 s³.
    let beta = |x: f64| uniform(x) * uniform(x) * (3.0 - 2.0 * uniform(x));
    let skewed = |x: f64| {
        let share = uniform(x);
        if share < 0.8 { share * share / 0.8 } else { 1.0 - (1.0 - share) * (1.0 - share) / 0.2 }
    };
    let cut = |x: f64| {
        let below = |x: f64| tenths::math::normal_cdf(0.5 * x);
        ((below(x) - below(-3.0)) / (below(3.0) - below(-3.0))).clamp(0.0, 1.0)
    };
    let laws: [(Distribution, &dyn Fn(f64) -> f64); 6] = [
        (Distribution::NORMAL, &tenths::math::normal_cdf),
        (Distribution::Uniform, &uniform),
        (Distribution::Triangular { mode: 0.0 }, &triangle),
        (Distribution::Triangular { mode: 0.6 }, &skewed),
        (Distribution::Beta { alpha: 2.0, beta: 2.0 }, &beta),
        (Distribution::TruncatedNormal { cp: 0.5, shift: 0.0 }, &cut),
    ];
    for (law, distribution) in laws {
        let stack = one(law.clone());
        for seed in 0..4 {
            let sample = stack.sample(&Sampling::new(4 * BLOCK, seed)).unwrap();
            let statistic = ks(sample.values(), distribution);
            assert!(statistic < 1.95, "{} {statistic}", law.name());
            // Neighbours, rows a few lanes apart, and the same place of two blocks.
            let values = sample.values();
            let sigma = stack.statistics().unwrap().sigma;
            for lag in [1, 2, 15, 16, 17, 256, 512, BLOCK as usize, 2 * BLOCK as usize] {
                let pairs = values.iter().zip(&values[lag..]);
                let products: f64 = pairs.map(|(a, b)| (a - sample.mean()) * (b - sample.mean())).sum();
                let correlation = products / (sigma * sigma * (values.len() - lag) as f64);
                let error = 1.0 / ((values.len() - lag) as f64).sqrt();
                assert!(
                    correlation.abs() < STANDARD_ERRORS * error,
                    "{} lag {lag}: {correlation}",
                    law.name()
                );
            }
        }
    }
}

#[test]
fn what_is_no_stack_is_refused() {
    let limits = |text: &str| Limits::parse(text).unwrap();
    let mut stack = Stack::new(Units::Inch);
    assert_eq!(stack.worst_case(), Err(StackError::NoContributors));
    assert_eq!(stack.sample(&Sampling::new(10, 0)).unwrap_err(), StackError::NoContributors);
    for sensitivity in [f64::NAN, f64::INFINITY, 1e-12, 1e12] {
        let one = Contributor::new("a", limits("1 ±0.1 in")).sensitivity(sensitivity);
        assert!(matches!(stack.add(one), Err(StackError::Sensitivity { .. })));
    }
    for law in [
        Distribution::Normal { cp: 0.0, shift: 0.0 },
        Distribution::capable(1.0, 1.2),
        Distribution::Triangular { mode: 1.5 },
        Distribution::Trapezoid { top: f64::NAN },
        Distribution::Beta { alpha: 0.0, beta: 1.0 },
        Distribution::Process { mean: 1.0, sigma: -1.0 },
        Distribution::Measured([].into()),
        Distribution::Measured([1.0, f64::NAN].into()),
    ] {
        let one = Contributor::new("a", limits("1 ±0.1 in")).distribution(law.clone());
        assert!(matches!(stack.add(one), Err(StackError::Distribution { .. })), "{law:?}");
    }
    assert!(stack.contributors().is_empty());
    // A shim without a tolerance is normal, and so are names that repeat.
    for text in ["1 ±0 in", "1 ±0.1 in", "2 ±0.1 in"] {
        stack.add(Contributor::new("plate", limits(text))).unwrap();
    }
    stack.add(Contributor::new("cover", limits("3 ±0.2 in"))).unwrap();
    assert_eq!(
        stack.correlate("plate", "cover", 0.5).unwrap_err().to_string(),
        "3 are named `plate`: give the number of the one you mean"
    );
    assert_eq!(
        stack.correlate("plat", "cover", 0.5).unwrap_err().to_string(),
        "`plat` is unknown; expected one of plate, plate, plate, cover"
    );
    stack.correlate(1, 2, 0.9).unwrap().correlate(2, 3, 0.9).unwrap();
    assert!(matches!(stack.statistics(), Err(StackError::NotPositive { .. })));
    assert!(matches!(stack.sample(&Sampling::new(10, 0)), Err(StackError::NotPositive { .. })));
    stack.correlate(1, 3, 0.8).unwrap();
    stack.statistics().unwrap();
    assert!(stack.correlate(1, 1, 1.0).is_err() && stack.correlate(1, 2, 1.01).is_err());
    let places = [1.into(), 2.into()];
    for matrix in
        [&[1.0, 2.0, 2.0, 1.0][..], &[1.0, 0.0, 0.1, 1.0], &[-1.0, 0.0, 0.0, 1.0], &[1.0], &[f64::NAN; 4]]
    {
        assert!(matches!(stack.clone().covariance(&places, matrix), Err(StackError::NotPositive { .. })));
    }
    stack.covariance(&places, &[0.01, 0.018, 0.018, 0.04]).unwrap();
    for bad in [
        Sampling::new(0, 0),
        Sampling::new(10, 0).within(1.0, 0.0),
        Sampling::new(10, 0).within(f64::NAN, 1.0),
    ] {
        assert!(matches!(stack.sample(&bad), Err(StackError::Sampling(_))));
    }
    assert!(stack.sample(&Sampling::new(1, 0)).unwrap().percentile(100.1).is_err());
}

// Var(a + b) = σa² + σb² + 2 ρ σa σb.
#[test]
fn correlated_dimensions_add_up_as_their_covariance_says() {
    let mut stack = Stack::new(Units::Metric);
    let limits = Limits::parse("10 ±0.3 mm").unwrap();
    stack
        .add(Contributor::new("a", limits))
        .unwrap()
        .add(Contributor::new("b", limits).sensitivity(-1.0))
        .unwrap();
    for (coefficient, sigma) in [(0.0, 0.02f64.sqrt()), (1.0, 0.0), (-1.0, 0.2), (0.5, 0.1)] {
        stack.correlate("a", "b", coefficient).unwrap();
        near(stack.statistics().unwrap().sigma, sigma, 1e-12, "sigma");
        let sample = stack.sample(&Sampling::new(100_000, 3)).unwrap();
        near(sample.sigma(), sigma, 0.02, "sampled sigma");
    }
    stack.covariance(&["a".into(), "b".into()], &[0.04, 0.03, 0.03, 0.09]).unwrap();
    near(stack.statistics().unwrap().sigma, (0.04f64 + 0.09 - 0.06).sqrt(), 1e-12, "sigma");
    // The same pair through a function that is no sum.
    let mut product = Propagation::new(
        by_row(|[a, b]| a - b),
        vec![Input::new("a", 10.0, 0.3, -0.3), Input::new("b", 10.0, 0.3, -0.3)],
    )
    .unwrap();
    product.correlate("a", "b", 0.5).unwrap();
    near(product.moments().unwrap().sigma, 0.1, 1e-9, "sigma");
    near(product.sample(&Sampling::new(100_000, 3)).unwrap().sigma(), 0.1, 0.02, "sampled sigma");
}

#[test]
fn the_greatest_tolerance_is_the_greatest() {
    use tenths::stack::Closure;
    let mut stack = Stack::new(Units::Metric);
    for (name, text, sensitivity) in
        [("a", "10 ±0.1 mm", 1.0), ("b", "4 ±0.05 mm", -2.0), ("c", "1 ±0.2 mm", 0.3)]
    {
        stack.add(Contributor::new(name, Limits::parse(text).unwrap()).sensitivity(sensitivity)).unwrap();
    }
    // Middle 10 - 8 + 0.3 = 2.3; of 0.5 either way b and c take 0.1 and 0.06.
    let limits = Limits::parse("2.3 ±0.5 mm").unwrap();
    assert_eq!(
        stack.greatest_tolerance("a", &limits, Closure::WorstCase),
        Ok(Some(Size::parse("0.68 mm").unwrap()))
    );
    assert_eq!(
        stack.greatest_tolerance("b", &limits, Closure::WorstCase),
        Ok(Some(Size::parse("0.34 mm").unwrap()))
    );
    // √(0.5² - 0.1² - 0.06²) = 0.486 211 …
    let rss = stack.greatest_tolerance("a", &limits, Closure::Rss).unwrap().unwrap();
    near(rss.to_float(Units::Metric), 2.0 * 0.2364f64.sqrt(), 1e-8, "tolerance");
    let narrow = Limits::parse("2.3 ±0.15 mm").unwrap();
    assert_eq!(stack.greatest_tolerance("a", &narrow, Closure::WorstCase), Ok(None));
}

// The least of x² over -1 to 2 is at 0, which is no corner; the least of sin over 0 to 540° is -1 at 270°.
#[test]
fn extremes_within_the_box_are_found() {
    let square = Propagation::new(by_row(|[x]| x * x), vec![Input::new("x", 0.0, 2.0, -1.0)]).unwrap();
    let extremes = square.extremes().unwrap();
    assert!(extremes.lower.abs() < 1e-12 && extremes.upper == 4.0 && !extremes.monotonic[0]);
    let wave = Propagation::new(
        by_row(|[angle, shift]| sin_degrees(angle) + cos_degrees(shift)),
        vec![Input::new("angle", 270.0, 270.0, -270.0), Input::new("shift", 0.0, 90.0, -90.0)],
    )
    .unwrap();
    let extremes = wave.extremes().unwrap();
    assert!((extremes.lower + 1.0).abs() < 1e-9 && (extremes.upper - 2.0).abs() < 1e-9, "{extremes:?}");
    assert!((extremes.at_lower[0] - 270.0).abs() < 0.01);
    // x y rises with x for some y only, and its extremes are corners.
    let product = Propagation::new(
        by_row(|[x, y]| x * y),
        vec![Input::new("x", 0.0, 1.0, -1.0), Input::new("y", 0.0, 2.0, -1.0)],
    );
    let extremes = product.unwrap().extremes().unwrap();
    assert_eq!((extremes.lower, extremes.upper), (-2.0, 2.0));
    assert_eq!(extremes.monotonic.iter().collect::<Vec<_>>(), [("x", &false), ("y", &false)]);
    // Twenty inputs have too many corners to try.
    let wide = Propagation::new(
        by_row(|x: [f64; 20]| x.iter().enumerate().map(|(k, x)| if k % 3 == 0 { -x } else { *x }).sum()),
        (0..20).map(|k| Input::new(format!("x{k}"), 1.0, 0.1, -0.1)).collect(),
    );
    let extremes = wide.unwrap().extremes().unwrap();
    assert!((extremes.upper - extremes.lower - 4.0).abs() < 1e-12);
}

#[test]
fn where_a_function_is_not_defined_is_told() {
    let root =
        |low: f64| Propagation::new(by_row(|[x]| x.sqrt()), vec![Input::new("x", 1.0, 1.0, low)]).unwrap();
    assert_eq!(root(-1.5).extremes().unwrap_err().to_string(), "the function is not defined at x = -0.5");
    let sample = root(-1.5).sample(&Sampling::new(10_000, 0)).unwrap();
    assert!(sample.undefined() > 0 && sample.minimum() >= 0.0);
    assert_eq!(sample.values().len() as u64 + sample.undefined(), 10_000);
    assert!(sample.fraction_out().value > 0.0);
    let nowhere = Propagation::new(by_row(|[_x]| f64::NAN), vec![Input::fixed("x", 1.0)]).unwrap();
    assert!(matches!(nowhere.sample(&Sampling::new(10, 0)), Err(StackError::Undefined { .. })));
    let press = tenths::find("surface_speed").unwrap().propagate(
        Units::Metric,
        None,
        vec![Input::new("diameter", 1.0, 1.0, -1.5), Input::fixed("spindle_speed", 100.0)],
    );
    assert_eq!(
        press.unwrap().extremes().unwrap_err().to_string(),
        "the function is not defined at diameter = -0.5, spindle_speed = 100: surface_speed: diameter must be \
         greater than 0 mm, not -0.5 mm"
    );
}

// x = r cos θ + √(l² - r² sin² θ): the closed form of the slider crank.
#[test]
fn a_vector_loop_closes_as_the_closed_form_does() {
    use tenths::stack::VectorLoop;
    let mut crank = VectorLoop::new();
    crank.unknown("x", 100.0).unwrap().unknown("rod", 350.0).unwrap();
    crank.link("r", "theta").unwrap().link("l", "rod").unwrap().link("x", "180").unwrap();
    assert_eq!(crank.inputs(), ["r", "theta", "l"]);
    let inputs = |theta: f64| {
        vec![
            Input::new("theta", theta, 1.0, -1.0),
            Input::new("l", 90.0, 0.1, -0.1),
            Input::new("r", 30.0, 0.05, -0.05),
        ]
    };
    let closed = by_row(|[r, theta, l]| {
        let height = r * sin_degrees(theta);
        r * cos_degrees(theta) + (l * l - height * height).sqrt()
    });
    for theta in [0.0, 20.0, 60.0, 90.0, 140.0, 179.0] {
        let around = crank.propagate("x", inputs(theta)).unwrap();
        let mut ordered = inputs(theta);
        ordered.rotate_right(1);
        let direct = Propagation::new(closed, ordered).unwrap();
        near(around.nominal().unwrap(), direct.nominal().unwrap(), 1e-13, "nominal");
        let [x, rod] = crank.solve(&[30.0, theta, 90.0]).unwrap();
        near(x, direct.nominal().unwrap(), 1e-13, "x");
        // The rod falls from the pin to the line of the slide.
        assert!((30.0 * sin_degrees(theta) + 90.0 * sin_degrees(rod)).abs() < 1e-12, "{rod}");
        let (one, other) = (around.extremes().unwrap(), direct.extremes().unwrap());
        near(one.lower, other.lower, 1e-12, "lower");
        near(one.upper, other.upper, 1e-12, "upper");
        let sampling = Sampling::new(5_000, 3);
        near(
            around.sample(&sampling).unwrap().sigma(),
            direct.sample(&sampling).unwrap().sigma(),
            1e-9,
            "sigma",
        );
    }
    let error =
        |done: Result<Propagation<tenths::stack::LoopUnknown>, StackError>| done.unwrap_err().to_string();
    assert_eq!(error(crank.propagate("y", vec![])), "`y` is unknown; expected one of x, rod");
    assert_eq!(error(crank.propagate("x", vec![])), "the input r is missing");
    assert!(crank.is_angle("theta") && crank.is_angle("rod") && !crank.is_angle("r"));
    assert_eq!(crank.links()[2], ["x", "180"]);
    assert_eq!(crank.solve(&[30.0]).unwrap_err().to_string(), "the loop has 3 inputs, not 1");
    let error_of_solve = crank.solve(&[30.0, 90.0, 20.0]).unwrap_err().to_string();
    assert!(error_of_solve.contains("at r = 30, theta = 90, l = 20"), "{error_of_solve}");
    assert!(
        crank.solve(&[f64::INFINITY, 90.0, 20.0]).is_err() && crank.solve(&[30.0, 90.0, f64::NAN]).is_err()
    );
    for name in ["", "2x", "a b", "x + 1", "-x", " x"] {
        assert!(VectorLoop::new().unknown(name, 1.0).is_err(), "{name}");
    }
    assert!(crank.unknown("third", 1.0).is_err() && VectorLoop::new().solve_for("x").is_err());
    // A rod shorter than the crank cannot reach.
    let mut short = inputs(90.0);
    short[1] = Input::fixed("l", 20.0);
    let error = crank.propagate("x", short).unwrap().nominal().unwrap_err().to_string();
    assert!(error.contains("does not close"), "{error}");
}

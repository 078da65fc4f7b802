use super::*;

fn made(kind: ChartKind, data: &[f64], sizes: &[f64], options: &ChartOptions<'_>) -> ControlChart {
    control_chart(kind, data, sizes, options).unwrap_or_else(|error| panic!("{error}"))
}

fn refused(kind: ChartKind, data: &[f64], sizes: &[f64], options: &ChartOptions<'_>) -> String {
    control_chart(kind, data, sizes, options)
        .map_or_else(|error| error.to_string(), |chart| chart.to_string())
}

fn broken(distances: &[f64], rules: RuleSet, rule: usize) -> Vec<usize> {
    let options = ChartOptions { rules, centre: Some(0.0), sigma: Some(1.0), ..ChartOptions::default() };
    let chart = made(ChartKind::IMr, distances, &[], &options);
    chart.location.broken.iter().filter(|broken| broken.rule == rule).map(|broken| broken.point).collect()
}

// Patterns by hand, each the shortest that breaks its rule, and one that just does not.
#[test]
fn each_rule_of_nelson_ends_where_its_pattern_does() {
    let nelson = |distances: &[f64], rule| broken(distances, RuleSet::Nelson, rule);
    let alternating =
        |count: usize| (0..count).map(|k| if k % 2 == 0 { 0.5 } else { -0.5 }).collect::<Vec<_>>();
    assert_eq!(nelson(&[3.1, 3.0, -3.1], 1), [1, 3]);
    assert_eq!(nelson(&[0.1; 9], 2), [9]);
    assert!(nelson(&[0.1, 0.1, 0.1, 0.1, 0.0, 0.1, 0.1, 0.1, 0.1, 0.1], 2).is_empty());
    assert_eq!(nelson(&[-0.5, -0.4, 0.1, 0.2, 0.3, 0.9], 3), [6]);
    assert_eq!(nelson(&[0.9, 0.3, 0.2, 0.1, -0.4, -0.5], 3), [6]);
    assert!(nelson(&[-0.5, -0.4, 0.1, 0.1, 0.3, 0.9], 3).is_empty());
    assert_eq!(nelson(&alternating(14), 4), [14]);
    assert!(nelson(&alternating(13), 4).is_empty());
    assert_eq!(nelson(&[2.1, 0.0, 2.1], 5), [3]);
    assert!(nelson(&[2.1, 0.0, -2.1], 5).is_empty());
    assert_eq!(nelson(&[-1.1, -1.1, 0.0, -1.1, -1.1], 6), [5]);
    assert_eq!(nelson(&alternating(15), 7), [15]);
    assert_eq!(nelson(&[1.1, -1.1, 1.2, -1.2, 1.1, -1.1, 1.2, -1.2], 8), [8]);
    assert!(nelson(&[1.1, -1.1, 1.2, 0.9, 1.1, -1.1, 1.2, -1.2], 8).is_empty());
}

#[test]
fn phases_have_limits_of_their_own_and_no_pattern_crosses_them() {
    let data = [10.0, 10.2, 9.9, 10.1, 20.0, 20.4, 19.8, 20.2];
    let phases = [0, 0, 0, 0, 1, 1, 1, 1];
    let chart =
        made(ChartKind::IMr, &data, &[], &ChartOptions { phases: &phases, ..ChartOptions::default() });
    assert_eq!(chart.location.centre, None);
    assert_eq!(chart.phases.iter().map(|p| [p.first, p.last]).collect::<Vec<_>>(), [[1, 4], [5, 8]]);
    // Twice the spread in the second phase, and no moving range between the two.
    assert!((chart.phases[1].sigma / chart.phases[0].sigma - 2.0).abs() < 1e-9);
    let numbers: Vec<_> = chart.dispersion.iter().flat_map(|d| d.points.iter().map(|p| p.number)).collect();
    assert_eq!(numbers, [2, 3, 4, 6, 7, 8]);
    assert!(chart.location.broken.is_empty());
    let whole = made(ChartKind::IMr, &data, &[], &ChartOptions::default());
    assert!(!whole.location.broken.is_empty());
}

// A single estimate counts fully; of two sizes the weights are d2²/d3².
#[test]
fn unequal_subgroups_have_limits_of_their_own() {
    let data = [1.0, 2.0, 1.0, 3.0, 2.0, 2.0, 1.5];
    let chart = made(ChartKind::XbarR, &data, &[2.0, 5.0], &ChartOptions::default());
    let [two, five] =
        [2, 5].map(|n| ChartConstants::new(n, ConstantSource::Exact).unwrap_or_else(|e| panic!("{e}")));
    let weight = |c: &ChartConstants| (c.d2 / c.d3) * (c.d2 / c.d3);
    let sigma = (weight(&two) / two.d2 + weight(&five) * 2.0 / five.d2) / (weight(&two) + weight(&five));
    assert!((chart.phases[0].sigma - sigma).abs() < 1e-12);
    assert_eq!(chart.location.upper, None);
    let upper = |k: usize| chart.location.points[k].upper - chart.phases[0].centre;
    assert!((upper(0) - 3.0 * sigma / 2.0_f64.sqrt()).abs() < 1e-12);
    assert!((upper(1) - 3.0 * sigma / 5.0_f64.sqrt()).abs() < 1e-12);
    let shares = made(ChartKind::P, &[3.0, 5.0], &[100.0, 200.0], &ChartOptions::default());
    assert!((shares.phases[0].centre - 8.0 / 300.0).abs() < 1e-15);
    assert!(shares.location.points[0].upper > shares.location.points[1].upper);
}

// By hand: each point lies one standard deviation below the target, and half of one is slack.
#[test]
fn a_cusum_that_breaks_downward_tells_its_downward_sum() {
    let known = ChartOptions { centre: Some(0.0), sigma: Some(1.0), ..ChartOptions::default() };
    let broken = |reading: f64| made(ChartKind::Cusum, &[reading; 11], &[], &known).location.broken;
    assert_eq!(broken(-1.0), [BrokenRule { point: 11, rule: 1, value: -5.5 }]);
    assert_eq!(broken(1.0), [BrokenRule { point: 11, rule: 1, value: 5.5 }]);
}

// A process that makes readings near the largest number there is has none in a shop, but is told what is wrong.
#[test]
fn readings_that_are_too_large_are_refused() {
    for kind in [ChartKind::IMr, ChartKind::XbarR, ChartKind::XbarS, ChartKind::Ewma] {
        let sizes: &[f64] = if matches!(kind, ChartKind::XbarR | ChartKind::XbarS) { &[2.0] } else { &[] };
        let got = refused(kind, &[1e308, -1e308, 1.5e308, -1e308], sizes, &ChartOptions::default());
        assert!(got.contains("phase 1 are too large"), "{kind:?}: {got}");
    }
}

#[test]
fn what_has_no_chart_is_refused_with_its_place() {
    let usual = ChartOptions::default();
    type Case<'a> = (ChartKind, &'a [f64], &'a [f64], &'a ChartOptions<'a>, &'a str);
    let cases: [Case<'_>; 15] = [
        (ChartKind::IMr, &[1.0, f64::NAN, 2.0], &[], &usual, "reading 2 must be a finite number, not NaN"),
        (ChartKind::IMr, &[], &[], &usual, "phase 1 has too few points, 0"),
        (ChartKind::IMr, &[1.0], &[], &usual, "phase 1 has too few points, 1"),
        (ChartKind::IMr, &[1.0, 1.0, 1.0], &[], &usual, "shows no variation"),
        (ChartKind::IMr, &[1.0, 2.0], &[1.0], &usual, "i_mr takes no sizes"),
        (ChartKind::XbarR, &[1.0, 2.0], &[], &usual, "xbar_r needs"),
        (ChartKind::XbarR, &[1.0, 2.0, 3.0], &[2.0], &usual, "3 readings were given; expected a multiple"),
        (ChartKind::XbarS, &[1.0, 2.0, 3.0], &[1.0, 2.0], &usual, "size 1 must be a whole number, 2 or more"),
        (ChartKind::P, &[1.0, 2.0], &[1.0], &usual, "sample 2 has 2 defective pieces, but only 1"),
        (
            ChartKind::P,
            &[0.5, 2.0],
            &[9.0],
            &usual,
            "reading 1 must be a whole number, zero or more, not 0.5",
        ),
        (ChartKind::C, &[0.0, 0.0], &[], &usual, "shows no variation"),
        (ChartKind::U, &[1.0, 2.0], &[1.0, 0.0], &usual, "size 2 must be a finite number above zero"),
        (ChartKind::U, &[1.0, 2.0], &[1.0, 2.0, 3.0], &usual, "3 sizes were given; expected one for all"),
        (ChartKind::Cusum, &[1.0, 2.0, 3.0], &[1.0, 2.0], &usual, "size 2 must be the same as the others"),
        (ChartKind::Np, &[1.0, 2.0], &[9.0], &ChartOptions { centre: Some(9.0), ..usual }, "centre must be"),
    ];
    for (kind, data, sizes, options, message) in cases {
        let got = refused(kind, data, sizes, options);
        assert!(got.contains(message), "{got}\nis not about\n{message}");
    }
    let phased = |phases: &[usize]| {
        refused(ChartKind::C, &[1.0, 2.0, 3.0, 4.0], &[], &ChartOptions { phases, ..usual })
    };
    assert!(phased(&[0, 0, 1]).contains("3 phases were given; expected one for each of 4 points"));
    assert!(phased(&[0, 1, 0, 1]).contains("not 0 after 1 at point 3"));
    assert!(phased(&[0, 0, 2, 2]).contains("not 2 after 0 at point 3"));
    assert_eq!(phased(&[1, 1, 1, 1]), "the first point must be in phase 0, not 1");
    let refused_centre =
        |kind, centre| refused(kind, &[1.0, 2.0], &[9.0], &ChartOptions { centre: Some(centre), ..usual });
    assert_eq!(refused_centre(ChartKind::P, 1.5), "centre must be between 0 and 1, not 1.5");
    let np = "centre must be between 0 and the mean sample size, not 9";
    assert_eq!(refused_centre(ChartKind::Np, 9.0), np);
    let known = ChartOptions { sigma: Some(1.0), ..usual };
    assert!(refused(ChartKind::C, &[1.0, 2.0], &[], &known).contains("takes no sigma"));
    let printed = ChartOptions { constants: ConstantSource::Printed, ..usual };
    let data: Vec<_> = (0..60).map(f64::from).collect();
    assert!(refused(ChartKind::XbarR, &data, &[30.0], &printed).contains("no constants for subgroups of 30"));
    assert!(refused(ChartKind::XbarR, &data, &[30.0], &usual).contains("chart of 2 points"));
}

#[test]
fn counts_that_no_limit_can_be_worked_out_for_are_refused() {
    let of = |size: f64| {
        control_chart(ChartKind::U, &[1.0, 2.0, 3.0], &[size], &ChartOptions::default())
            .map_or_else(|error| error.to_string(), |_| String::new())
    };
    assert_eq!(
        of(1e-300),
        "the counts for each unit of sample 1 are too large to work with. Fix: give sizes in a smaller unit"
    );
    assert_eq!(of(-1e300), "size 1 must be a finite number above zero, not -1e300");
    assert_eq!(of(1e-3), "");
}

#[test]
fn a_run_that_is_too_long_says_what_shortens_it() {
    let of =
        |kind, options: &ChartOptions<'_>| average_run_length(kind, 0.0, 1, options).unwrap_err().to_string();
    let usual = ChartOptions::default();
    assert_eq!(
        of(ChartKind::Cusum, &ChartOptions { slack: 100.0, ..usual }),
        "the average run is longer than 1e12 points. Fix: lower slack or decision"
    );
    assert_eq!(
        of(ChartKind::IMr, &ChartOptions { sigmas: 50.0, ..usual }),
        "the average run is longer than 1e12 points. Fix: lower sigmas"
    );
}

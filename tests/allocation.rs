//! The cheapest tolerances against closed forms, published factors and scipy.
use tenths::stack::{
    Contributor, CostCurve, Distribution, FreeTolerance, Sampling, Stack, StackError, Target,
};
use tenths::{Limits, Size, Units};

fn stack(contributors: &[(f64, f64)]) -> Stack {
    let mut stack = Stack::new(Units::Metric);
    for (number, (half, sensitivity)) in contributors.iter().enumerate() {
        let limits = Limits::parse(&format!("10 ±{half} mm")).unwrap();
        stack.add(Contributor::new(format!("d{number}"), limits).sensitivity(*sensitivity)).unwrap();
    }
    stack
}

fn reciprocal(scale: f64, power: f64) -> CostCurve {
    CostCurve::Reciprocal { fixed: 1.0, scale, power }
}

fn free(cost: CostCurve) -> Option<FreeTolerance> {
    Some(FreeTolerance { cost, least: 1e-4, greatest: f64::INFINITY })
}

fn bands(stack: &Stack, choices: &[Option<FreeTolerance>], target: Target) -> Vec<f64> {
    stack.allocate(choices, target).unwrap().tolerances.iter().map(|one| one.half_band).collect()
}

fn close(got: &[f64], expected: &[f64], relative: f64) {
    assert_eq!(got.len(), expected.len());
    for (got, expected) in got.iter().zip(expected) {
        assert!((got - expected).abs() <= relative * expected, "{got} for {expected}");
    }
}

#[test]
fn points_too_few_for_a_line_are_no_curve() {
    let (none, one) = (CostCurve::Points(vec![]), CostCurve::Points(vec![(0.1, 5.0)]));
    for curve in [&none, &one] {
        assert!(curve.fault().unwrap().starts_with("a curve must have at least two points"));
        let choice = free(curve.clone());
        assert!(stack(&[(0.1, 1.0)]).allocate(&[choice], Target::WorstCase(0.5)).is_err());
    }
    for half_band in [0.0, 0.1, 1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(one.at(half_band), 5.0);
        assert!(none.at(half_band).is_nan());
    }
    // The line through the two nearest points goes on beyond the ends.
    let two = CostCurve::Points(vec![(0.1, 5.0), (0.2, 3.0)]);
    close(&[0.05, 0.1, 0.15, 0.2, 0.25].map(|half| two.at(half)), &[6.0, 5.0, 4.0, 3.0, 2.0], 1e-12);
}

// With one power k the tolerances go as (B / s)^(1 / (k + 1)) for a worst case and as (B / s²)^(1 / (k + 2)) for a root
// of squares: Lagrange's condition, worked by hand.
#[test]
fn equal_powers_give_the_closed_form() {
    let stack = stack(&[(0.1, 1.0), (0.1, -4.0)]);
    let choices = [free(reciprocal(1.0, 1.0)), free(reciprocal(4.0, 1.0))];
    // Both parts are 1: t = 1 : 1, and 1 + 4 of them make 0.5.
    close(&bands(&stack, &choices, Target::WorstCase(0.5)), &[0.1, 0.1], 1e-12);
    // 1 and 4 / 16: t = 1 : 0.25^(1/3), with t₁² + 16 t₂² = 0.25.
    let ratio = tenths::math::cbrt(0.25);
    let first = (0.25 / (1.0 + 16.0 * ratio * ratio)).sqrt();
    close(&bands(&stack, &choices, Target::Rss(0.5)), &[first, first * ratio], 1e-12);
    // The saving is what a wider target saves.
    for target in [Target::WorstCase, Target::Rss] {
        let cost = |half: f64| stack.allocate(&choices, target(half)).unwrap();
        let slope = (cost(0.501).cost - cost(0.499).cost) / 0.002;
        close(&[cost(0.5).saving], &[-slope], 1e-4);
    }
}

// scipy 1.17 (SLSQP) for the same problems.
#[test]
fn other_curves_and_bounds_agree_with_scipy() {
    let stack = stack(&[(0.1, 1.0), (0.1, 1.0), (0.1, 2.0), (0.1, 0.5)]);
    let curves = [(2.0, 1.0), (1.0, 0.5), (4.0, 1.0), (0.5, 2.0)];
    let choices: Vec<_> = curves.iter().map(|(scale, power)| free(reciprocal(*scale, *power))).collect();
    let solve = |target| stack.allocate(&choices, target).unwrap();
    close(
        &bands(&stack, &choices, Target::WorstCase(0.4)),
        &[0.0934137, 0.0168206, 0.0934137, 0.2058767],
        1e-5,
    );
    close(&[solve(Target::WorstCase(0.4)).cost], &[4.0 + 83.737_426_64], 1e-9);
    close(&bands(&stack, &choices, Target::Rss(0.4)), &[0.1884903, 0.0775394, 0.1496048, 0.3401920], 1e-5);
    close(&[solve(Target::Rss(0.4)).cost], &[4.0 + 45.259_305_44], 1e-9);
    // Half of a normal law beyond 0.4 either way is 0.27 percent where σ is 0.133 334 36.
    let rate = Target::Defects { half_band: 0.4, rate: 0.0027 };
    close(&bands(&stack, &choices, rate), &[0.1884918, 0.0775402, 0.1496060, 0.3401941], 1e-5);

    let mut bounded = choices.clone();
    for (choice, (least, greatest)) in
        bounded.iter_mut().zip([(0.05, 0.08), (0.05, 1.0), (0.06, 1.0), (0.05, 1.0)])
    {
        let choice = choice.as_mut().unwrap();
        (choice.least, choice.greatest) = (least, greatest);
    }
    let found = stack.allocate(&bounded, Target::WorstCase(0.4)).unwrap();
    close(&bands(&stack, &bounded, Target::WorstCase(0.4)), &[0.08, 0.05, 0.0862116, 0.1951538], 1e-5);
    close(&[found.cost], &[4.0 + 88.998_157_76], 1e-9);
    assert!(found.tolerances[0].is_greatest && found.tolerances[1].is_least && !found.tolerances[2].is_least);
}

#[test]
fn exponential_curves_agree_with_scipy() {
    let stack = stack(&[(0.1, 1.0); 3]);
    let curves = [(10.0, 20.0), (5.0, 10.0), (8.0, 15.0)];
    let curve =
        |(scale, rate): &(f64, f64)| free(CostCurve::Exponential { fixed: 0.0, scale: *scale, rate: *rate });
    let choices: Vec<_> = curves.iter().map(curve).collect();
    close(&bands(&stack, &choices, Target::WorstCase(0.5)), &[0.1552349, 0.1718403, 0.1729248], 1e-5);
    close(&bands(&stack, &choices, Target::Rss(0.5)), &[0.2471386, 0.3274953, 0.2857785], 1e-5);
    close(&[stack.allocate(&choices, Target::Rss(0.5)).unwrap().cost], &[0.370_445_480_75], 1e-8);
}

// By hand: of the savings for each hundredth, the largest are taken first.
#[test]
fn curves_with_corners_are_filled_where_they_save_most() {
    let stack = stack(&[(0.1, 1.0), (0.1, -1.0)]);
    let points = |points: &[(f64, f64)]| free(CostCurve::Points(points.to_vec()));
    let choices = [points(&[(0.01, 20.0), (0.03, 10.0), (0.06, 7.0)]), points(&[(0.01, 9.0), (0.05, 5.0)])];
    // From 0.02, the first saves 5 a hundredth up to 0.03, then the two save 1 a hundredth each.
    let cost = |half| stack.allocate(&choices, Target::WorstCase(half)).unwrap().cost;
    close(
        &[cost(0.02), cost(0.03), cost(0.04), cost(0.07), cost(0.11)],
        &[29.0, 24.0, 19.0, 16.0, 12.0],
        1e-12,
    );
    // Wider than all curves nothing more is saved.
    assert_eq!(stack.allocate(&choices, Target::WorstCase(0.2)).unwrap().saving, 0.0);
    let hollow = [points(&[(0.01, 20.0), (0.03, 19.0), (0.06, 7.0)]), None];
    assert!(matches!(stack.allocate(&hollow, Target::WorstCase(0.2)), Err(StackError::FreeTolerance { .. })));
}

// K. W. Chase, ADCATS 99-6: factors 0.47222 and 1.39526 (from memory, and worked out).
#[test]
fn proportional_scaling_is_as_published() {
    let stack = stack(&[
        (0.0015, 1.0),
        (0.0025, 1.0),
        (0.0025, 1.0),
        (0.008, 1.0),
        (0.002, 1.0),
        (0.006, 1.0),
        (0.002, 1.0),
    ]);
    let fixed = [true, true, true, false, false, false, false];
    let factor = |target| stack.proportional_factor(&fixed, target).unwrap();
    close(
        &[factor(Target::WorstCase(0.015)), factor(Target::Rss(0.015))],
        &[0.472_222_22, 1.395_263_15],
        1e-8,
    );
    assert!(stack.proportional_factor(&[true; 7], Target::Rss(0.015)).is_err());
    assert!(stack.proportional_factor(&fixed, Target::Rss(1e200)).is_err());
    assert!(stack.proportional_factor(&fixed, Target::WorstCase(0.0065)).is_err());
}

#[test]
fn an_allocation_is_applied_so_that_the_target_is_kept() {
    let stack = stack(&[(0.1, 1.0), (0.05, -1.0), (0.1, 2.0)]);
    let choices = [free(reciprocal(1.0, 0.8)), None, free(reciprocal(3.0, 1.3))];
    let found = stack.allocate(&choices, Target::WorstCase(0.3)).unwrap();
    assert_eq!((found.tolerances[1].half_band, found.tolerances[1].cost), (0.05, None));
    let applied = found.apply(&stack, Size::parse("1 µm").unwrap()).unwrap();
    let band = applied.worst_case().unwrap();
    let most = Size::parse("0.6 mm").unwrap();
    assert!(band.tolerance() <= most && band.tolerance() > Size::parse("0.59 mm").unwrap());
    assert_eq!(band.middle(), stack.worst_case().unwrap().middle());

    let rate = 0.01;
    let target = Target::Defects { half_band: 0.3, rate };
    let found = stack.allocate(&choices, target).unwrap().apply(&stack, Size::from_picometres(1)).unwrap();
    let middle = found.rss().unwrap().mean;
    let sample = found.sample(&Sampling::new(200_000, 1).within(middle - 0.3, middle + 0.3)).unwrap();
    let out = sample.fraction_out();
    assert!(out.lower - 2e-4 < rate && rate < out.upper + 2e-4, "{out:?}");
}

// By hand: a third of 0.2 mm is 66 666 666 2/3 pm, and three of the next picometre are too much.
#[test]
fn a_half_band_is_rounded_down_to_the_picometre() {
    let mut three = Stack::new(Units::Metric);
    three.add(Contributor::new("a", Limits::parse("10 ±0.1 mm").unwrap()).count(3)).unwrap();
    let found = three.allocate(&[free(reciprocal(1.0, 1.0))], Target::WorstCase(0.2)).unwrap();
    let applied = found.apply(&three, Size::from_picometres(1)).unwrap();
    assert_eq!(applied.contributors()[0].limits.tolerance(), Size::from_picometres(2 * 66_666_666));
    assert!(applied.worst_case().unwrap().upper() <= Size::parse("30.2 mm").unwrap());
}

#[test]
fn what_cannot_be_kept_or_chosen_is_told() {
    let stack = stack(&[(0.1, 1.0), (0.05, -1.0)]);
    let choices = [Some(FreeTolerance { cost: reciprocal(1.0, 1.0), least: 0.02, greatest: 1.0 }), None];
    let error = stack.allocate(&choices, Target::WorstCase(0.06)).unwrap_err().to_string();
    assert_eq!(
        error,
        "the target of 0.06 cannot be kept: with every tolerance as narrow as its process holds it is 0.07"
    );
    for (choices, target) in [
        (vec![None], Target::WorstCase(1.0)),
        (vec![free(reciprocal(-1.0, 1.0)), None], Target::WorstCase(1.0)),
        (vec![free(reciprocal(1.0, f64::NAN)), None], Target::WorstCase(1.0)),
        (
            vec![Some(FreeTolerance { cost: reciprocal(1.0, 1.0), least: 0.0, greatest: 1.0 }), None],
            Target::WorstCase(1.0),
        ),
        (choices.to_vec(), Target::WorstCase(f64::NAN)),
        (choices.to_vec(), Target::Rss(1e200)),
        (choices.to_vec(), Target::Defects { half_band: 1.0, rate: 1.0 }),
    ] {
        assert!(
            matches!(
                stack.allocate(&choices, target),
                Err(StackError::HowMany { .. }
                    | StackError::FreeTolerance { .. }
                    | StackError::Target { .. })
            ),
            "{choices:?} {target:?}"
        );
    }
    let mut shifted = Stack::new(Units::Metric);
    let one = Contributor::new("a", Limits::parse("1 ±0.1 mm").unwrap());
    shifted.add(one.distribution(Distribution::Normal { cp: 1.0, shift: 0.2 })).unwrap();
    let target = Target::Defects { half_band: 1.0, rate: 0.01 };
    assert!(shifted.allocate(&choices[..1], target).unwrap_err().to_string().contains("about the middles"));
}

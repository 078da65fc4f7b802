//! Choices among values and unknowns of the caller, against every problem by itself and closed forms.
use super::tests::{choice, limit, turning};
use super::*;
use crate::cutting::milling_cut::MILLING_CUT;

/// A side cut with teeth, chip load and spindle speed to choose; `teeth` between ends, or from a list.
fn milling() -> CutProblem {
    let mut problem = turning();
    problem.formula = &MILLING_CUT;
    problem.arguments =
        vec![20.0, f64::NAN, f64::NAN, f64::NAN, 8.0, 6.0, 1700.0, 0.25, 90.0, 0.0, 0.0, 0.01, 1.0, 0.8];
    problem.choose = vec![choice("spindle_speed", 500.0, 6000.0), choice("chip_load", 0.03, 0.15)];
    problem.limits = vec![limit("motor_power", None, Some(5.0))];
    problem.volume = Some(40.0);
    problem
}

/// The objective of each value by itself, by trying it alone.
fn one_by_one(problem: &CutProblem, place: usize, values: &[f64]) -> Vec<f64> {
    let one = |&value: &f64| {
        let mut alone = problem.clone();
        alone.arguments[place] = value;
        best_cut(&alone).map_or(f64::INFINITY, |best| best.objective)
    };
    values.iter().map(one).collect()
}

#[test]
fn a_count_is_tried_at_every_whole_number() {
    let mut problem = milling();
    // A cutter of more teeth costs more to change: the limit of the force on all teeth at once makes few better.
    problem.limits.push(limit("feed_rate", None, Some(1500.0)));
    let alone = one_by_one(&problem, 1, &[2.0, 3.0, 4.0, 5.0]);
    problem.choose.push(choice("teeth", 1.5, 5.2));
    let best = best_cut(&problem).unwrap();
    let least = alone.iter().copied().fold(f64::INFINITY, f64::min);
    assert!((best.objective - least).abs() < 1e-12 * least, "{best} {alone:?}");
    let teeth = *best.chosen.get("teeth").unwrap();
    assert_eq!(alone.iter().position(|own| *own == least).unwrap() as f64 + 2.0, teeth);
    assert!(best.lower_bound.unwrap() <= best.objective);
    // Nothing but a count may be chosen too.
    problem.choose.drain(..2);
    (problem.arguments[2], problem.arguments[3]) = (2000.0, 0.1);
    assert!(best_cut(&problem).unwrap().chosen.get("teeth").is_some());
    problem.choose = vec![choice("teeth", 2.2, 2.8)];
    assert!(best_cut(&problem).unwrap_err().to_string().contains("no whole number from 2.2 to 2.8"));
}

#[test]
fn a_list_is_tried_value_by_value() {
    let mut problem = turning();
    problem.limits = vec![limit("roughness_ra", None, Some(1.6)), limit("motor_power", None, Some(7.5))];
    let radii = [0.4, 0.8, 1.2, 1.6];
    let alone = one_by_one(&problem, 5, &radii);
    problem.choose_from = vec![CutSteps { name: "nose_radius".into(), values: radii.into() }];
    let best = best_cut(&problem).unwrap();
    // A larger radius gives the same roughness at a faster feed.
    assert_eq!(best.chosen.get("nose_radius"), Some(&1.6));
    assert!((best.objective - alone[3]).abs() < 1e-12 && alone[3] < alone[0]);
    // A function finds it too, and values of which none keeps to the limits say which change is least.
    let own = CutProblem { objective: CutObjective::Own, ..problem.clone() };
    let cost = |figures: &[(&str, f64)]| {
        let figure =
            |name| figures.iter().find(|(known, _)| *known == name).map_or(f64::NAN, |(_, value)| *value);
        Ok::<f64, BestCutError>(0.8 * figure("time") + 2.8 * figure("edge_use"))
    };
    let own = best_cut_by(&own, &mut |figures| cost(figures)).unwrap();
    assert!(own.chosen.get("nose_radius") == Some(&1.6) && own.objective < 1.001 * best.objective, "{own}");
    problem.limits[0] = limit("roughness_ra", None, Some(0.01));
    let error = best_cut(&problem).unwrap_err();
    let BestCutError::Contradiction(contradiction) = &error else { panic!("{error}") };
    let rough = contradiction.limits.iter().find(|change| change.name == "roughness_ra").unwrap();
    // By hand: 0.05² / (32 · 1.6) mm of the greatest radius.
    assert!((rough.needed.unwrap() - 1000.0 * 0.05 * 0.05 / (32.0 * 1.6)).abs() < 1e-3, "{error}");
}

#[test]
fn lists_that_cannot_be_are_refused() {
    let list = |name: &str, values: &[f64]| CutSteps { name: name.into(), values: values.into() };
    for (given, said) in [
        (list("nose", &[1.0]), "has no argument `nose`"),
        (list("depth", &[]), "at least one"),
        (list("depth", &[1.0, f64::NAN]), "not NaN"),
        (list("surface_speed", &[100.0]), "chosen twice"),
        (list("depth", &[1.0; 10_001]), "more than 10000 combinations"),
    ] {
        let problem = CutProblem { choose_from: vec![given], ..turning() };
        let error = best_cut(&problem).unwrap_err().to_string();
        assert!(error.contains(said), "{error}");
    }
}

// In closed form: of a sum a/x + b·x the least is 2·√(a·b), at x = √(a/b).
#[test]
fn an_unknown_of_the_caller_is_chosen_too() {
    let mut problem = turning();
    problem.choose = vec![];
    (problem.arguments[0], problem.arguments[2]) = (100.0, 0.2);
    problem.unknowns = vec![choice("x", 1e-3, 1e3)];
    problem.laws = vec![
        CutLaw { name: "falling".into(), factor: 8.0, exponents: vec![("x".into(), -1.0)] },
        CutLaw { name: "rising".into(), factor: 2.0, exponents: vec![("x".into(), 1.0)] },
    ];
    problem.objective = CutObjective::Sum(vec![("falling".into(), 1.0), ("rising".into(), 1.0)]);
    let best = best_cut(&problem).unwrap();
    assert!((best.objective - 8.0).abs() < 1e-8 && best.lower_bound.unwrap() <= best.objective, "{best}");
    assert!((best.chosen.get("x").unwrap() - 2.0).abs() < 1e-3);
    problem.limits = vec![limit("x", Some(4.0), None)];
    let best = best_cut(&problem).unwrap();
    assert!((best.objective - 10.0).abs() < 1e-8 && best.binding == ["x"], "{best}");
    // One unit more of x costs 2 - 8/16.
    assert!((best.prices.get("x").unwrap() - 1.5).abs() < 1e-6, "{:?}", best.prices);
    for name in ["depth", "time", "roughness_ra", ""] {
        let given = CutProblem { unknowns: vec![choice(name, 1.0, 2.0)], ..turning() };
        assert!(best_cut(&given).unwrap_err().to_string().contains("a name of its own"), "{name}");
    }
    let given = CutProblem { unknowns: vec![choice("x", 0.0, 2.0)], ..turning() };
    assert!(best_cut(&given).unwrap_err().to_string().contains("two numbers above 0"));
}

#[test]
fn the_set_cut_is_the_best_of_all_values() {
    let mut problem = turning();
    problem.limits = vec![limit("roughness_ra", None, Some(3.2))];
    problem.choose_from = vec![CutSteps { name: "nose_radius".into(), values: vec![0.8, 1.6] }];
    problem.steps = vec![CutSteps { name: "feed_per_revolution".into(), values: vec![0.1, 0.25, 0.4] }];
    let best = best_cut(&problem).unwrap();
    assert_eq!(best.set.get("nose_radius"), Some(&1.6));
    assert!(best.set_objective.unwrap() >= best.objective, "{best}");
    let spread =
        best_cut_spread(&problem, &[vec![1e-4, 0.0], vec![0.0, 1e-3]], 20, 1, 1, &crate::Watch::new());
    assert_eq!(spread.unwrap().chosen_median.get("nose_radius"), Some(&1.6));
}

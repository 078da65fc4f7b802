//! Cases that are solved by hand or by a search of another kind.
use super::*;
use crate::cutting::chatter::{ChatterCut, Engagement, Stability, VibrationMode};
use crate::cutting::machine::Machine;
use crate::cutting::milling_cut::MILLING_CUT;
use crate::cutting::turning_cut::TURNING_CUT_FOR_TARGET;
use crate::quantity::*;

/// A bar of 80 mm, 3 mm deep over 250 mm, at 2200 N/mm² for every chip.
pub(super) fn turning() -> CutProblem {
    CutProblem {
        formula: &TURNING_CUT_FOR_TARGET,
        units: Units::Metric,
        arguments: vec![
            f64::NAN,
            80.0,
            f64::NAN,
            3.0,
            250.0,
            1.2,
            2200.0,
            0.0,
            90.0,
            0.0,
            0.0,
            0.01,
            1.0,
            0.8,
        ],
        choose: vec![choice("surface_speed", 10.0, 500.0), choice("feed_per_revolution", 0.05, 0.5)],
        limits: vec![],
        laws: vec![],
        objective: CutObjective::Cost,
        rates: Some(CutRates {
            hourly_rate: 48.0,
            edge_cost: 2.0,
            tool_change_time: 1.0,
            handling_time: 0.0,
        }),
        tool_life: Some(CutLife {
            taylor_c: 300.0,
            taylor_n: 0.25,
            feed_exponent: 0.35,
            depth_exponent: 0.0,
            reference_feed: 1.0,
            reference_depth: 1.0,
        }),
        machine: None,
        stability: None,
        path_length: None,
        volume: None,
        choose_from: vec![],
        unknowns: vec![],
        steps: vec![],
    }
}

pub(super) fn choice(name: &str, least: f64, greatest: f64) -> CutChoice {
    CutChoice { name: name.into(), least, greatest }
}

pub(super) fn limit(name: &str, least: Option<f64>, greatest: Option<f64>) -> CutLimit {
    CutLimit { name: name.into(), least, greatest }
}

// Feed by the force, then speed by the power, worked in closed form: f = 3000 / (2200 · 3), V = 60 000 · 7.5 · 0.8 /
// (2200 · 3 · f) = 120 m/min; T = (300 / (V f^0.35))^4; cost = 0.8 t + (0.8 + 2) t / T.
#[test]
fn feed_first_and_speed_second_is_found() {
    let mut problem = turning();
    problem.limits = vec![
        limit("cutting_force", None, Some(3000.0)),
        limit("motor_power", None, Some(7.5)),
        limit("roughness_ra", None, Some(6.3)),
    ];
    let best = best_cut(&problem).unwrap();
    assert!((best.chosen.get("feed_per_revolution").unwrap() - 3000.0 / 6600.0).abs() < 1e-8);
    assert!((best.chosen.get("surface_speed").unwrap() - 120.0).abs() < 1e-6);
    assert!((best.objective - 0.948_913_473_27).abs() < 1e-8, "{}", best.objective);
    assert!(best.lower_bound.unwrap() <= best.objective && best.objective - best.lower_bound.unwrap() < 1e-8);
    assert_eq!(best.binding, ["cutting_force", "motor_power"]);
}

/// The least of the objective over a fine grid of two chosen arguments, by the formula itself.
fn by_grid(problem: &CutProblem, steps: usize) -> f64 {
    let model = model::Model::new(problem).unwrap();
    let limits = limits::Limits::new(&model).unwrap();
    let at = |k: usize, step: usize| {
        let CutChoice { least, greatest, .. } = problem.choose[k];
        least * crate::math::powf(greatest / least, step as f64 / steps as f64)
    };
    let places: Vec<usize> = problem
        .choose
        .iter()
        .map(|choice| problem.formula.arguments.iter().position(|a| a.name == choice.name).unwrap())
        .collect();
    let mut best = f64::INFINITY;
    for i in 0..=steps {
        for j in 0..=steps {
            let mut row = problem.arguments.clone();
            (row[places[0]], row[places[1]]) = (at(0, i), at(1, j));
            if let Some(figures) = model.exact(&row).filter(|figures| limits.hold(figures, true)) {
                let objective = model.objective(&figures);
                best = best.min(if model.inverted { -objective } else { objective });
            }
        }
    }
    if model.inverted { -best } else { best }
}

const LATHE: &str = r#"{"units": "metric", "least_spindle_speed": 50, "greatest_spindle_speed": 3000, "curve":
    [{"spindle_speed": 300, "power": 3}, {"spindle_speed": 900, "power": 6}, {"spindle_speed": 2000, "power": 4}]}"#;

#[test]
fn the_curve_of_a_machine_is_searched_piece_by_piece() {
    let mut problem = turning();
    problem.machine = Some(Machine::from_json(LATHE).unwrap());
    for objective in [CutObjective::Cost, CutObjective::Time, CutObjective::Most("removal_rate".into())] {
        problem.objective = objective;
        let best = best_cut(&problem).unwrap();
        let grid = by_grid(&problem, 150);
        let sign = if matches!(problem.objective, CutObjective::Most(_)) { -1.0 } else { 1.0 };
        let (best_of, bound, grid) = (sign * best.objective, sign * best.lower_bound.unwrap(), sign * grid);
        assert!(bound <= best_of && best_of - bound <= 2e-7 * best_of.abs(), "{best}");
        // A grid is coarser, and never lower than the bound.
        assert!(bound <= grid && grid - best_of < 0.04 * best_of.abs(), "{best}: {grid}");
        assert!(best.binding.iter().any(|name| name == "motor_power"), "{best}");
    }
}

#[test]
fn a_stable_depth_is_searched_lobe_by_lobe() {
    let mode = VibrationMode::new(Frequency::hertz(600.0), Stiffness::new_in(8000.0, Units::Metric), 0.03);
    let cut = ChatterCut {
        specific_cutting_force: Stress::new_in(2200.0, Units::Metric),
        teeth: 1,
        engagement: Engagement::Continuous { force_angle: Angle::degrees(0.0) },
        units: Units::Metric,
    };
    let stability = Stability::of_modes(&[mode], &cut).unwrap();
    let mut problem = turning();
    problem.choose = vec![choice("surface_speed", 150.0, 300.0), choice("depth", 0.2, 5.0)];
    problem.arguments[2] = 0.2;
    problem.objective = CutObjective::Most("removal_rate".into());
    problem.limits = vec![];
    problem.stability = Some(stability.clone());
    let best = best_cut(&problem).unwrap();
    assert_eq!(best.binding, ["stable_depth"], "{best}");
    // No cut of a fine grid that is stable removes more.
    let diameter = problem.arguments[1];
    let stable = |speed: f64| {
        let spindle = SpindleSpeed::rev_per_minute(1000.0 * speed / (std::f64::consts::PI * diameter));
        stability.depth(spindle).unwrap().in_units(Units::Metric).min(5.0)
    };
    let grid = (0..=4000).map(|k| 150.0 + 150.0 * f64::from(k) / 4000.0);
    let most = grid.map(|speed| speed * stable(speed)).fold(0.0, f64::max);
    let [speed, depth] = ["surface_speed", "depth"].map(|name| *best.chosen.get(name).unwrap());
    assert!(depth <= stable(speed) * (1.0 + 1e-8), "{best}");
    assert!(speed * depth >= most * (1.0 - 1e-6) && speed * depth <= most * 1.01, "{best}: {most}");
    assert!(best.lower_bound.unwrap() >= best.objective);
}

#[test]
fn a_width_that_is_not_straight_is_divided() {
    let mut problem = CutProblem {
        formula: &MILLING_CUT,
        arguments: vec![
            20.0,
            4.0,
            3000.0,
            f64::NAN,
            f64::NAN,
            8.0,
            1700.0,
            0.25,
            90.0,
            0.0,
            0.0,
            0.01,
            1.0,
            0.8,
        ],
        choose: vec![choice("chip_load", 0.02, 0.3), choice("radial_width", 0.5, 20.0)],
        objective: CutObjective::Most("removal_rate".into()),
        rates: None,
        tool_life: None,
        ..turning()
    };
    problem.limits =
        vec![limit("motor_power", None, Some(4.0)), limit("chip_thickness_max", None, Some(0.1))];
    let best = best_cut(&problem).unwrap();
    let grid = by_grid(&problem, 150);
    let bound = best.lower_bound.unwrap();
    assert!(bound >= best.objective && bound <= best.objective * (1.0 + 2e-7), "{best:?}");
    assert!(grid <= bound && grid > 0.96 * best.objective, "{best}: {grid}");
}

// By hand: 200 cm³/min at 2200 N/mm² take 7.333 kW at the cut and 9.1667 kW of the motor; 5 kW allow 109.09 cm³/min.
#[test]
fn limits_that_contradict_each_other_are_told_with_what_would_help() {
    let mut problem = turning();
    problem.limits = vec![
        limit("roughness_ra", None, Some(6.3)),
        limit("motor_power", None, Some(5.0)),
        limit("removal_rate", Some(200.0), None),
    ];
    let error = best_cut(&problem).unwrap_err();
    let BestCutError::Contradiction(contradiction) = &error else { panic!("{error}") };
    let told: Vec<_> =
        contradiction.limits.iter().map(|change| (change.name.as_str(), change.needed)).collect();
    assert_eq!(told[0].0, "motor_power");
    assert!((told[0].1.unwrap() - 200.0 * 2200.0 / 60_000.0 / 0.8).abs() < 1e-4, "{told:?}");
    assert!((told[1].1.unwrap() - 5.0 * 0.8 * 60_000.0 / 2200.0).abs() < 1e-3, "{told:?}");
    assert_eq!(
        error.to_string(),
        "best_cut: no cut keeps to all limits: motor_power at most 5 kW, removal_rate at least 200 cm³/min cannot hold \
         together. Fix: allow motor_power at most 9.1671 kW, or removal_rate at least 109.09 cm³/min"
    );
}

// By hand: at f = 0.454 545 mm the power allows 120 m/min, 477.46 rev/min; the step below is 450, at which f may be all
// that the force allows.
#[test]
fn the_cut_that_a_shop_would_set_takes_the_steps_of_the_machine() {
    let mut problem = turning();
    problem.limits = vec![limit("cutting_force", None, Some(3000.0)), limit("motor_power", None, Some(7.5))];
    problem.steps = vec![
        CutSteps { name: "spindle_speed".into(), values: vec![280.0, 355.0, 450.0, 560.0] },
        CutSteps { name: "feed_per_revolution".into(), values: vec![0.3, 0.35, 0.4, 0.45, 0.5] },
    ];
    let best = best_cut(&problem).unwrap();
    let set = &best.set;
    assert!((set.get("surface_speed").unwrap() - 450.0 * 80.0 * std::f64::consts::PI / 1000.0).abs() < 1e-7);
    assert_eq!(set.get("feed_per_revolution"), Some(&0.45));
    assert!(best.set_objective.unwrap() > best.objective);
}

fn passes(rough_depths: (f64, f64), equal: bool) -> PassProblem {
    let mut rough = turning();
    rough.limits = vec![limit("motor_power", None, Some(7.5)), limit("cutting_force", None, Some(3000.0))];
    let mut finish = turning();
    finish.limits = vec![limit("roughness_ra", None, Some(1.6))];
    PassProblem {
        rough,
        finish: Some(finish),
        depth: "depth".into(),
        stock: 4.0,
        rough_depths,
        finish_depths: (0.25, 0.75),
        step: 0.25,
        pass_time: 0.2,
        diameter: DiameterChange::Falls,
        equal,
        threads: 1,
    }
}

/// The least sum over every way to make up the stock, one after the other.
fn by_enumeration(problem: &PassProblem, off: f64) -> f64 {
    let left = problem.stock - off;
    let value = |pattern: &CutProblem, depth: f64| {
        let mut cut = pattern.clone();
        cut.arguments[3] = depth;
        cut.arguments[1] -= 2.0 * off;
        best_cut(&cut).map_or(f64::INFINITY, |best| best.objective + 0.8 * problem.pass_time)
    };
    let mut least = f64::INFINITY;
    if problem.finish_depths.0 <= left && left <= problem.finish_depths.1 {
        least = value(problem.finish.as_ref().unwrap(), left);
    }
    for k in 1..16 {
        let depth = problem.step * f64::from(k);
        if depth < left && problem.rough_depths.0 <= depth && depth <= problem.rough_depths.1 {
            least = least.min(value(&problem.rough, depth) + by_enumeration(problem, off + depth));
        }
    }
    least
}

#[test]
fn passes_are_the_best_of_all_ways_to_make_up_the_stock() {
    let problem = passes((1.0, 3.0), false);
    let best = best_passes(&problem, &crate::Watch::new()).unwrap();
    let all = by_enumeration(&problem, 0.0);
    assert!((best.objective - all).abs() < 1e-9 * all, "{best} {all}");
    assert!(best.lower_bound <= best.objective && best.objective - best.lower_bound < 1e-8);
    // Two passes of 1.625 mm are on a finer grid.
    let equal = best_passes(&passes((1.0, 3.0), true), &crate::Watch::new()).unwrap();
    let finer = PassProblem { step: 0.125, ..problem };
    let finer = best_passes(&finer, &crate::Watch::new()).unwrap();
    assert!(
        finer.objective <= equal.objective && equal.passes[0].depth == equal.passes[1].depth,
        "{finer} {equal}"
    );
    let depth: f64 = best.passes.iter().map(|pass| pass.depth).sum();
    assert!((depth - 4.0).abs() < 1e-12 && best.passes.last().unwrap().finishing);
    assert_eq!(
        best.passes[1].arguments.get("workpiece_diameter"),
        Some(&(80.0 - 2.0 * best.passes[0].depth))
    );
    let error = best_passes(&passes((3.9, 3.95), false), &crate::Watch::new()).unwrap_err();
    assert!(error.to_string().contains("make up a stock of 4"), "{error}");
}

#[test]
fn a_function_of_the_caller_finds_what_the_name_does() {
    let mut problem = turning();
    problem.limits = vec![limit("motor_power", None, Some(7.5)), limit("cutting_force", None, Some(3000.0))];
    let by_name = best_cut(&problem).unwrap();
    problem.objective = CutObjective::Own;
    let own = best_cut_by::<BestCutError>(&problem, &mut |figures| {
        let figure =
            |name| figures.iter().find(|(known, _)| *known == name).map_or(f64::NAN, |(_, value)| *value);
        Ok(0.8 * figure("time") + 2.8 * figure("edge_use"))
    });
    let own = own.unwrap();
    assert_eq!(own.lower_bound, None);
    assert!(
        own.objective >= by_name.lower_bound.unwrap() && own.objective < 1.0001 * by_name.objective,
        "{own}"
    );
}

#[test]
fn any_number_of_threads_gives_the_same() {
    let problems: Vec<CutProblem> = (0..37)
        .map(|k| {
            let mut problem = turning();
            problem.arguments[1] = 20.0 + f64::from(k);
            problem.limits = vec![limit("motor_power", None, Some(7.5))];
            problem
        })
        .collect();
    let one = best_cuts(&problems, 1, &crate::Watch::new()).unwrap();
    assert_eq!(best_cuts(&problems, 4, &crate::Watch::new()).unwrap(), one);
    assert!(one.iter().all(Result::is_ok));
    assert!(best_cuts(&[], 4, &crate::Watch::new()).unwrap().is_empty());
}

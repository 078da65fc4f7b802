//! Best cuts: each number of a problem odd in turn.
use super::*;
use tenths::Watch;
use tenths::cutting::best_cut::*;

/// A turned bar whose cut keeps to a power and a roughness, with everything that a problem can have.
fn problem() -> CutProblem {
    let limit = |name: &str, greatest| CutLimit { name: name.into(), least: None, greatest: Some(greatest) };
    CutProblem {
        formula: find("turning_cut_for_target").unwrap(),
        units: Units::Metric,
        arguments: vec![150.0, 80.0, 0.2, 3.0, 250.0, 1.2, 1700.0, 0.25, 90.0, 0.0, 0.0, 0.01, 1.0, 0.8],
        choose: vec![
            CutChoice { name: "surface_speed".into(), least: 50.0, greatest: 400.0 },
            CutChoice { name: "feed_per_revolution".into(), least: 0.05, greatest: 0.5 },
        ],
        limits: vec![limit("motor_power", 7.5), limit("roughness_ra", 3.2), limit("bending", 0.05)],
        laws: vec![CutLaw {
            name: "bending".into(),
            factor: 2e-5,
            exponents: vec![("cutting_force".into(), 1.0)],
        }],
        objective: CutObjective::Cost,
        rates: Some(CutRates {
            hourly_rate: 48.0,
            edge_cost: 2.0,
            tool_change_time: 1.0,
            handling_time: 0.5,
        }),
        tool_life: Some(CutLife { feed_exponent: 0.35, ..CutLife::by_speed(300.0, 0.25) }),
        machine: None,
        stability: None,
        path_length: None,
        volume: None,
        steps: vec![CutSteps { name: "spindle_speed".into(), values: vec![400.0, 560.0, 800.0] }],
        choose_from: vec![CutSteps { name: "nose_radius".into(), values: vec![0.8, 1.2] }],
        unknowns: vec![CutChoice { name: "margin".into(), least: 0.5, greatest: 2.0 }],
    }
}

/// The problem with its number of that place replaced.
fn with(place: usize, x: f64) -> CutProblem {
    let mut given = problem();
    let (rates, life) = (given.rates.as_mut().unwrap(), given.tool_life.as_mut().unwrap());
    match place {
        0 => given.choose[0].least = x,
        1 => given.choose[0].greatest = x,
        2 => given.limits[0].least = Some(x),
        3 => given.limits[1].greatest = Some(x),
        4 => given.laws[0].factor = x,
        5 => given.laws[0].exponents[0].1 = x,
        6 => rates.hourly_rate = x,
        7 => rates.edge_cost = x,
        8 => rates.tool_change_time = x,
        9 => life.taylor_c = x,
        10 => life.taylor_n = x,
        11 => life.feed_exponent = x,
        12 => life.reference_feed = x,
        13 => given.steps[0].values[1] = x,
        14 => given.objective = CutObjective::Sum(vec![("cost".into(), 1.0), ("cutting_force".into(), x)]),
        15 => given.choose_from[0].values[0] = x,
        16 => given.unknowns[0].least = x,
        17 => given.unknowns[0].greatest = x,
        place => given.arguments[place - 18] = x,
    }
    given
}

/// How many places there are.
const PLACES: usize = 32;

#[test]
fn best_cuts_of_odd_problems() {
    none_panics!(
        |x: f64| (0..PLACES).filter(|&place| best_cut(&with(place, x)).is_ok()).count(),
        |x: f64| {
            let problems: Vec<_> = (0..PLACES).map(|place| with(place, x)).collect();
            best_cuts(&problems, 2, &Watch::new()).map(|cuts| cuts.len())
        },
        |x: f64| {
            let given = CutProblem { objective: CutObjective::Own, steps: vec![], ..problem() };
            best_cut_by::<BestCutError>(&given, &mut |_| Ok(x)).is_ok()
        },
        |x: f64| best_cut_spread(&problem(), &[vec![x, 0.0], vec![0.0, x]], 8, 1, 1, &Watch::new()).is_ok(),
    );
}

#[test]
fn best_passes_of_odd_depths() {
    let passes = |place: usize, x: f64| {
        let mut given = [4.0, 1.0, 3.0, 0.3, 0.8, 0.5, 0.2];
        given[place] = x;
        let [stock, least, greatest, least_finish, greatest_finish, step, pass_time] = given;
        best_passes(
            &PassProblem {
                rough: problem(),
                finish: Some(problem()),
                depth: "depth".into(),
                stock,
                rough_depths: (least, greatest),
                finish_depths: (least_finish, greatest_finish),
                step,
                pass_time,
                diameter: DiameterChange::Falls,
                equal: false,
                threads: 1,
            },
            &Watch::new(),
        )
        .is_ok()
    };
    none_panics!(|x: f64| (0..7).filter(|&place| passes(place, x)).count());
}

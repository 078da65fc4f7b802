//! The best cut, the best passes, and many at once.
use crate::chatter::tenths_chatter;
use crate::formula::named;
use crate::guard::{document, finite, guard, place, side, tenths_units, text};
use crate::handle::{array, counted, free, hand_over, handle, results};
use crate::object::write;
use crate::objects::{tenths_best_cut, tenths_best_passes, tenths_cut_spread};
use crate::propagate::tenths_function;
use crate::status::{Failure, TENTHS_OK, tenths_status};
use crate::watch::{tenths_watch, watch};
use std::ffi::c_char;
use tenths::Units;
use tenths::cutting::best_cut::{
    BestCutError, CutChoice, CutLaw, CutLife, CutLimit, CutObjective, CutProblem, CutRates, CutSteps,
    DiameterChange, PassProblem, best_cut, best_cut_by, best_cut_spread, best_cuts, best_passes,
};
use tenths::cutting::machine::Machine;
use tenths::formula::MAX_INPUTS;

/// The diameter of the work stays the same from pass to pass: facing, milling.
pub const TENTHS_DIAMETER_STAYS: i32 = 0;
/// The diameter falls by twice the depth of each pass: turning outside.
pub const TENTHS_DIAMETER_FALLS: i32 = 1;
/// The diameter rises by twice the depth of each pass: boring.
pub const TENTHS_DIAMETER_RISES: i32 = 2;

/// A choice of a cut: made by `tenths_cut_problem_new`, freed by `tenths_cut_problem_free`. Several threads may read one at
/// once; while one changes or frees it, no other may use it.
pub struct tenths_cut_problem {
    problem: CutProblem,
    /// What is kept low, each with its weight; of several the sum.
    parts: Vec<(String, f64)>,
}

impl tenths_cut_problem {
    fn posed(&self) -> CutProblem {
        let objective = match (&self.problem.objective, self.parts.as_slice()) {
            (CutObjective::Most(_), _) | (_, []) => self.problem.objective.clone(),
            (_, [(name, 1.0)]) => match name.as_str() {
                "cost" => CutObjective::Cost,
                "time" => CutObjective::Time,
                "edge_use" => CutObjective::EdgeUse,
                name => CutObjective::Least(name.into()),
            },
            (_, parts) => CutObjective::Sum(parts.to_vec()),
        };
        CutProblem { objective, ..self.problem.clone() }
    }
}

/// A new choice of a cut of the formula called `name`:
/// `tenths_cut_problem_new(TENTHS_METRIC, "turning_cut_for_target", arguments, count, &problem)`.
///
/// `arguments` holds `count` numbers, all arguments of the formula in order; those that are chosen are ignored. Name
/// next what may be chosen, then limits and the objective: `cost` until another is named. All numbers are in shop units
/// of `units`.
///
/// # Safety
/// `name` ends with a NUL; `arguments` is valid for `count` numbers; `problem` is writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_new(
    units: tenths_units,
    name: *const c_char,
    arguments: *const f64,
    count: usize,
    problem: *mut *mut tenths_cut_problem,
) -> tenths_status {
    let made = || {
        // SAFETY: the caller's promise.
        let formula = unsafe { named(name) }?;
        counted("arguments", formula.arguments.len(), count)?;
        // SAFETY: the caller's promise.
        let arguments = unsafe { array(arguments, count, "arguments") }?;
        let problem = CutProblem {
            formula,
            units: side(units)?,
            arguments: arguments.to_vec(),
            choose: vec![],
            limits: vec![],
            laws: vec![],
            objective: CutObjective::Cost,
            rates: None,
            tool_life: None,
            machine: None,
            stability: None,
            path_length: None,
            volume: None,
            choose_from: vec![],
            unknowns: vec![],
            steps: vec![],
        };
        Ok(tenths_cut_problem { problem, parts: vec![] })
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { hand_over(problem, "problem", made) })
}

/// Frees a choice of a cut. Does nothing if null.
///
/// # Safety
/// `problem` is null or came from `tenths_cut_problem_new` and has not been freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_free(problem: *mut tenths_cut_problem) {
    // SAFETY: the caller's promise.
    unsafe { free(problem) };
}

/// Changes a problem by what a text names.
///
/// # Safety
/// `problem` is null or a problem; `name` is null or ends with a NUL.
unsafe fn change(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    by: impl FnOnce(&mut tenths_cut_problem, String) -> Result<(), Failure>,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (problem, name) = unsafe { (place(problem, "problem")?, text(name, "name")?) };
        by(problem, name.into())
    })
}

/// Lets an argument be chosen: `tenths_cut_problem_choose(problem, "surface_speed", 50, 300)`. Of a count, such as the teeth,
/// every whole number between the ends is tried.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_choose(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    least: f64,
    greatest: f64,
) -> tenths_status {
    let add = |problem: &mut tenths_cut_problem, name| {
        problem.problem.choose.push(CutChoice { name, least: finite(least)?, greatest: finite(greatest)? });
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, add) }
}

/// Lets an argument be chosen from `values`, which holds `count` numbers; all of them are tried:
/// `tenths_cut_problem_choose_from(problem, "teeth", values, count)`.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL; `values` is valid for `count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_choose_from(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    values: *const f64,
    count: usize,
) -> tenths_status {
    let add = |problem: &mut tenths_cut_problem, name| {
        // SAFETY: the caller's promise.
        let values = unsafe { array(values, count, "values") }?.to_vec();
        problem.problem.choose_from.push(CutSteps { name, values });
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, add) }
}

/// Adds a quantity of your own that may be chosen too, between two ends above zero, for laws and limits:
/// `tenths_cut_problem_unknown(problem, "finish_speed", 50, 300)`.
///
/// It stands behind the arguments in the `chosen` of the result, and in the figures that a function is given.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_unknown(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    least: f64,
    greatest: f64,
) -> tenths_status {
    let add = |problem: &mut tenths_cut_problem, name| {
        problem.problem.unknowns.push(CutChoice { name, least: finite(least)?, greatest: finite(greatest)? });
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, add) }
}

/// Limits an argument, a result, `tool_life`, `edge_use`, `time` or a law:
/// `tenths_cut_problem_limit(problem, "motor_power", -INFINITY, 5)`.
///
/// `least` may be infinite where there is no least, and `greatest` may be infinite where there is no greatest.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_limit(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    least: f64,
    greatest: f64,
) -> tenths_status {
    let add = |problem: &mut tenths_cut_problem, name| {
        if least.is_nan() || greatest.is_nan() {
            return Err(Failure::BestCut(BestCutError::Problem("a limit must be a number, not NaN".into())));
        }
        problem.problem.limits.push(CutLimit {
            name,
            least: (least != f64::NEG_INFINITY).then_some(least),
            greatest: (greatest != f64::INFINITY).then_some(greatest),
        });
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, add) }
}

/// Adds a figure of your own, a constant times powers of others, which `tenths_cut_problem_law_power` adds:
/// `tenths_cut_problem_law(problem, "deflection", 2e-5)`. Its numbers are those of figures in shop units.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_law(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    factor: f64,
) -> tenths_status {
    let add = |problem: &mut tenths_cut_problem, name| {
        problem.problem.laws.push(CutLaw { name, factor: finite(factor)?, exponents: vec![] });
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, add) }
}

/// Multiplies the law that was added last by a power of an argument, a result or an earlier law:
/// `tenths_cut_problem_law_power(problem, "cutting_force", 1)`.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_law_power(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    exponent: f64,
) -> tenths_status {
    let add = |problem: &mut tenths_cut_problem, name| {
        let exponent = finite(exponent)?;
        let law = problem.problem.laws.last_mut().ok_or_else(|| {
            Failure::BestCut(BestCutError::Problem("add a law before the powers that it is made of".into()))
        })?;
        law.exponents.push((name, exponent));
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, add) }
}

/// Keeps `cost`, `time`, `edge_use` or a figure low: `tenths_cut_problem_minimise(problem, "cost", 1)`.
///
/// Called more than once, it is their sum, each times its `weight`.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_minimise(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    weight: f64,
) -> tenths_status {
    let add = |problem: &mut tenths_cut_problem, name| {
        problem.parts.push((name, finite(weight)?));
        if matches!(problem.problem.objective, CutObjective::Most(_)) {
            problem.problem.objective = CutObjective::Cost;
        }
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, add) }
}

/// Keeps a figure high: `tenths_cut_problem_maximise(problem, "removal_rate")`.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_maximise(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
) -> tenths_status {
    let set = |problem: &mut tenths_cut_problem, name| {
        problem.problem.objective = CutObjective::Most(name);
        problem.parts.clear();
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, set) }
}

/// What an hour of machine and operator costs, an edge, and the minutes of changing an edge and of handling a piece:
/// `tenths_cut_problem_rates(problem, 60, 3, 1, 0.5)`.
///
/// # Safety
/// `problem` is a problem.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_rates(
    problem: *mut tenths_cut_problem,
    hourly_rate: f64,
    edge_cost: f64,
    tool_change_time: f64,
    handling_time: f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let problem = unsafe { place(problem, "problem") }?;
        problem.problem.rates = Some(CutRates {
            hourly_rate: finite(hourly_rate)?,
            edge_cost: finite(edge_cost)?,
            tool_change_time: finite(tool_change_time)?,
            handling_time: finite(handling_time)?,
        });
        Ok(())
    })
}

/// How long an edge lasts, V · T^n · (f/f0)^a · (d/d0)^b = C:
/// `tenths_cut_problem_tool_life(problem, 300, 0.25, 0.35, 0, 1, 1)`.
///
/// The exponents of feed and depth are 0 where life is not known to depend on them.
///
/// # Safety
/// `problem` is a problem.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_tool_life(
    problem: *mut tenths_cut_problem,
    taylor_c: f64,
    taylor_n: f64,
    feed_exponent: f64,
    depth_exponent: f64,
    reference_feed: f64,
    reference_depth: f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let problem = unsafe { place(problem, "problem") }?;
        problem.problem.tool_life = Some(CutLife {
            taylor_c: finite(taylor_c)?,
            taylor_n: finite(taylor_n)?,
            feed_exponent: finite(feed_exponent)?,
            depth_exponent: finite(depth_exponent)?,
            reference_feed: finite(reference_feed)?,
            reference_depth: finite(reference_depth)?,
        });
        Ok(())
    })
}

/// The machine, a JSON document of `length` bytes as `tenths_limit_to_machine` takes it; its limits join the others.
///
/// # Safety
/// `problem` is a problem; `machine` is readable for `length` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_machine(
    problem: *mut tenths_cut_problem,
    machine: *const c_char,
    length: usize,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (problem, document) =
            unsafe { (place(problem, "problem")?, document(machine, length, "machine")?) };
        problem.problem.machine = Some(Machine::from_json(document)?);
        Ok(())
    })
}

/// The stability of the cut: its depth at the spindle speed bounds `axial_depth`, or `depth`, as the limit `stable_depth`.
///
/// # Safety
/// `problem` is a problem; `chatter` was made by `tenths_chatter_new` or `tenths_chatter_from_response`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_stability(
    problem: *mut tenths_cut_problem,
    chatter: *const tenths_chatter,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (problem, chatter) = unsafe { (place(problem, "problem")?, handle(chatter, "chatter")?) };
        problem.problem.stability = Some(chatter.0.clone());
        Ok(())
    })
}

/// The length of the path, from which a formula with a feed rate and no time gets its time:
/// `tenths_cut_problem_path_length(problem, 250)`.
///
/// # Safety
/// `problem` is a problem.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_path_length(
    problem: *mut tenths_cut_problem,
    path_length: f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let problem = unsafe { place(problem, "problem") }?;
        problem.problem.path_length = Some(finite(path_length)?);
        Ok(())
    })
}

/// The metal to remove, from which a formula with a removal rate and no time gets its time:
/// `tenths_cut_problem_volume(problem, 50)`.
///
/// # Safety
/// `problem` is a problem.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_volume(
    problem: *mut tenths_cut_problem,
    volume: f64,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let problem = unsafe { place(problem, "problem") }?;
        problem.problem.volume = Some(finite(volume)?);
        Ok(())
    })
}

/// What can be set of a chosen argument, or of a result that one of them sets alone, such as the spindle speed: `values`
/// holds `count` numbers. The best of them stands in the `set` of the result.
///
/// `name` may be any text: it is looked up when the cut is sought.
///
/// # Safety
/// `problem` is a problem; `name` ends with a NUL; `values` is valid for `count` numbers.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_cut_problem_steps(
    problem: *mut tenths_cut_problem,
    name: *const c_char,
    values: *const f64,
    count: usize,
) -> tenths_status {
    let add = |problem: &mut tenths_cut_problem, name| {
        // SAFETY: the caller's promise.
        let values = unsafe { array(values, count, "values") }?.to_vec();
        problem.problem.steps.push(CutSteps { name, values });
        Ok(())
    };
    // SAFETY: the caller's promises.
    unsafe { change(problem, name, add) }
}

/// The best cut of a problem, with a bound that proves it, the limits that bind, and what each is worth:
/// `tenths_find_best_cut(problem, &best)`.
///
/// A starting point for a trial: the data of the makers of tool, machine and workholding come first. A wrong grip, tool or
/// guard is not judged here. The status is `TENTHS_NO_BEST_CUT` if the problem cannot be posed or its limits contradict
/// each other; the message then names them, and the least change of each that would help.
///
/// # Safety
/// `problem` is a problem; `best->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_find_best_cut(
    problem: *const tenths_cut_problem,
    best: *mut tenths_best_cut,
) -> tenths_status {
    // SAFETY: the caller's promise.
    let made = || Ok(best_cut(&unsafe { handle(problem, "problem") }?.posed())?);
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(best, "best", Units::Metric, made) })
}

/// The best cut by a function of yours, which is kept low: `tenths_find_best_cut_by(problem, function, context, &best)`.
///
/// The function gets all figures in one array: the arguments of the formula, its results, then `time`, `tool_life` and
/// `edge_use` where the problem has them, and the laws. NaN refuses a cut. Nothing is known of it between the points that
/// are tried, so `lower_bound` is absent. `context` may be null.
///
/// # Safety
/// `problem` is a problem; `function` may be called with `context` until the call returns; `best->struct_size` is set to
/// the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_find_best_cut_by(
    problem: *const tenths_cut_problem,
    function: tenths_function,
    context: *mut std::ffi::c_void,
    best: *mut tenths_best_cut,
) -> tenths_status {
    let made = || {
        let function = function.ok_or(Failure::Null("function"))?;
        // SAFETY: the caller's promise.
        let posed = unsafe { handle(problem, "problem") }?.posed();
        let posed = CutProblem { objective: CutObjective::Own, ..posed };
        let best = best_cut_by::<BestCutError>(&posed, &mut |figures| {
            let values: Vec<f64> = figures.iter().map(|(_, value)| *value).collect();
            // SAFETY: the caller's promise.
            Ok(unsafe { function(values.as_ptr(), context) })
        });
        Ok(best?)
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(best, "best", Units::Metric, made) })
}

/// The best cuts of `count` problems on so many threads, to the same bits with any number of them:
/// `tenths_find_best_cuts(problems, 1, 2, 1, objectives, chosen, statuses, NULL)`.
///
/// `objectives` is set to `count` numbers. `chosen` gets the first `width` chosen arguments of each problem, one problem
/// after the other, and may be null; what there is none of is NaN. `statuses` is set to `count` statuses and may be null.
/// `watch` may be null.
///
/// # Safety
/// `problems` has `count` problems; the arrays are writable for their counts.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_find_best_cuts(
    problems: *const *const tenths_cut_problem,
    count: usize,
    width: usize,
    threads: u32,
    objectives: *mut f64,
    chosen: *mut f64,
    statuses: *mut tenths_status,
    watch: *const tenths_watch,
) -> tenths_status {
    guard(|| {
        let room = width.saturating_mul(count);
        // SAFETY: the caller's promises.
        let (objectives, chosen) = unsafe { (results(objectives, count), results(chosen, room)) };
        let (objectives, mut chosen) = (objectives?, chosen?);
        let objectives = objectives.ok_or(Failure::Null("objectives"))?;
        if width > MAX_INPUTS {
            return Err(Failure::Length(width));
        }
        // SAFETY: the caller's promises.
        let problems = unsafe { array(problems, count, "problems") }?;
        let posed = problems.iter().map(|&problem| {
            // SAFETY: the caller's promise.
            Ok(unsafe { handle(problem, "problems") }?.posed())
        });
        let posed = posed.collect::<Result<Vec<_>, Failure>>()?;
        // SAFETY: the caller's promise.
        let watch = unsafe { self::watch(watch) }?;
        for (k, best) in best_cuts(&posed, threads as usize, &watch)?.into_iter().enumerate() {
            let status = match best {
                Ok(best) => {
                    objectives[k] = best.objective;
                    if let Some(chosen) = chosen.as_mut().filter(|_| width > 0) {
                        let to = &mut chosen[k * width..][..width];
                        to.iter_mut().zip(best.chosen.values()).for_each(|(to, value)| *to = *value);
                    }
                    TENTHS_OK
                }
                Err(error) => Failure::from(error).status(),
            };
            if !statuses.is_null() {
                // SAFETY: the caller's promise.
                unsafe { statuses.add(k).write(status) };
            }
        }
        Ok(())
    })
}

/// n, C and two exponents.
const MAX_CONSTANTS: usize = 4;

/// How far the best cut moves with the uncertainty of the constants of tool life, and what being wrong costs:
/// `tenths_find_cut_spread(problem, covariance, 2, 200, 1, 1, NULL, &spread)`.
///
/// `covariance` holds `order` times `order` numbers, row by row: of n, ln C, and the exponents that were fitted, as a
/// `tenths_taylor_fit` has them. `watch` may be null.
///
/// # Safety
/// `problem` is a problem; `covariance` is valid for its numbers; `spread->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_find_cut_spread(
    problem: *const tenths_cut_problem,
    covariance: *const f64,
    order: usize,
    samples: usize,
    seed: u64,
    threads: u32,
    watch: *const tenths_watch,
    spread: *mut tenths_cut_spread,
) -> tenths_status {
    let made = || {
        // SAFETY: the caller's promise.
        let posed = unsafe { handle(problem, "problem") }?.posed();
        if order > MAX_CONSTANTS {
            return Err(Failure::Length(order));
        }
        // SAFETY: the caller's promises.
        let (numbers, watch) =
            unsafe { (array(covariance, order * order, "covariance")?, self::watch(watch)?) };
        let rows: Vec<Vec<f64>> = numbers.chunks(order.max(1)).map(<[f64]>::to_vec).collect();
        Ok(best_cut_spread(&posed, &rows, samples, seed, threads as usize, &watch)?)
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(spread, "spread", Units::Metric, made) })
}

/// Roughing and finishing together: how many passes, how deep each, and the best cut of each:
/// `tenths_find_best_passes(problem, NULL, "depth", 4, 1, 3, 1, 3, 0.5, 0.2, TENTHS_DIAMETER_FALLS, 0, 1, NULL, &passes)`.
///
/// `finish` may be null, where all passes are roughing. `depth` names the argument that is the depth of cut, `stock` is
/// what all passes take off on one side, and `step` the grid of depths on which the passes are exact. `pass_time` is that of
/// return and setting, in minutes. `diameter` is `TENTHS_DIAMETER_FALLS`, `TENTHS_DIAMETER_RISES` or
/// `TENTHS_DIAMETER_STAYS`; with `equal` 1 all roughing passes are equally deep. `watch` may be null.
///
/// # Safety
/// `rough` and `finish` are problems; `depth` ends with a NUL; `passes->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_find_best_passes(
    rough: *const tenths_cut_problem,
    finish: *const tenths_cut_problem,
    depth: *const c_char,
    stock: f64,
    least_rough_depth: f64,
    greatest_rough_depth: f64,
    least_finish_depth: f64,
    greatest_finish_depth: f64,
    step: f64,
    pass_time: f64,
    diameter: i32,
    equal: i32,
    threads: u32,
    watch: *const tenths_watch,
    passes: *mut tenths_best_passes,
) -> tenths_status {
    let made = || {
        // SAFETY: the caller's promises.
        let (rough, finish, depth, watch) =
            unsafe { (handle(rough, "rough")?, finish.as_ref(), text(depth, "depth")?, self::watch(watch)?) };
        let problem = PassProblem {
            rough: rough.posed(),
            finish: finish.map(tenths_cut_problem::posed),
            depth: depth.into(),
            stock,
            rough_depths: (least_rough_depth, greatest_rough_depth),
            finish_depths: (least_finish_depth, greatest_finish_depth),
            step,
            pass_time,
            diameter: match diameter {
                TENTHS_DIAMETER_STAYS => DiameterChange::Stays,
                TENTHS_DIAMETER_FALLS => DiameterChange::Falls,
                TENTHS_DIAMETER_RISES => DiameterChange::Rises,
                other => return Err(Failure::Choice { what: "diameter", last: 2, got: other }),
            },
            equal: equal != 0,
            threads: threads as usize,
        };
        Ok(best_passes(&problem, &watch)?)
    };
    // SAFETY: the caller's promise.
    guard(|| unsafe { write(passes, "passes", Units::Metric, made) })
}

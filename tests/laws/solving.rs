//! Solving: what a call gave leads back to the argument, and what cannot be solved for is refused with the reason.
use crate::rows::{Draws, call, evaluate, rounding, slope, to_base};
use tenths::{Error, Formula, Units, formulas};

const ROWS: usize = 100;

/// Every argument and output of every formula, by place, and whether the one can be solved for from the other.
fn each_pair(mut judge: impl FnMut(&'static Formula, usize, usize, bool)) {
    for f in formulas() {
        for at in 0..f.arguments.len() {
            let solvable: Vec<bool> =
                (0..f.outputs.len()).map(|k| f.why_not_solvable(at, k).is_none()).collect();
            assert_eq!(f.is_solvable(at), solvable.contains(&true), "{f:?}: {}", f.arguments[at].name);
            for (k, solvable) in solvable.into_iter().enumerate() {
                judge(f, at, k, solvable);
            }
        }
    }
}

#[test]
fn a_result_leads_back_to_the_argument() {
    each_pair(|f, at, k, solvable| {
        if !solvable {
            return;
        }
        let (name, mut draws, mut told) = (f.arguments[at].name, Draws::of(f), 0);
        for round in 0..ROWS {
            let units = Units::ALL[round % 2];
            let x = draws.row(f, units);
            let y = call(f, units, &x).unwrap()[k];
            // Its own place must not matter.
            let mut given = x.clone();
            given[at] = f64::NAN;
            let solved = f.solve_for(units, name, Some(f.output_name(k)), y, &given);
            let place = format!("{f:?}: {name} for {} = {y} of {x:?}", f.output_name(k));
            let solved = match solved {
                // Any value will do.
                Err(Error::Unsolvable { reason, .. }) if reason.starts_with("every value ") => {
                    told += 1;
                    continue;
                }
                other => other.unwrap_or_else(|error| panic!("{place}: {error}")),
            };
            given[at] = solved;
            let again = call(f, units, &given).unwrap_or_else(|| panic!("{place}: {solved} is refused"));
            let base = to_base(f, units, &x);
            let unit = f.outputs[k].kind.unit(units);
            let off = (unit.to_base(again[k]) - evaluate(f, units, &base)[k]).abs();
            // The solution may lie beside an edge where the result begins to move.
            let allowed = rounding(f, units, &base, k).max(rounding(f, units, &to_base(f, units, &given), k));
            assert!(off <= allowed, "{place}: {solved} gives {}", again[k]);
            // Where the result does not move with the argument, it does not tell of it.
            let unclear = allowed / slope(f, units, &base, at, k);
            if unclear < 1e-6 {
                told += 1;
                let error = (solved - x[at]).abs() / x[at].abs();
                assert!(error <= unclear + 1e-12, "{place}: {solved}");
            }
        }
        assert!(told >= ROWS / 16, "{f:?}: only {told} rows tell of {name}");
    });
}

#[test]
fn a_search_for_many_rows_gives_the_same_bits() {
    each_pair(|f, at, k, solvable| {
        if !solvable {
            return;
        }
        let (name, output, units) = (f.arguments[at].name, Some(f.output_name(k)), Units::Inch);
        let mut draws = Draws::of(f);
        // Rows that need not go together, and wanted results from other rows: many have no solution.
        let rows: Vec<_> = (0..ROWS).map(|_| draws.any_row(f, units)).collect();
        let wanted: Vec<f64> = (0..ROWS).map(|_| call(f, units, &draws.row(f, units)).unwrap()[k]).collect();
        let columns: Vec<Vec<f64>> =
            (0..f.arguments.len()).map(|a| rows.iter().map(|row| row[a]).collect()).collect();
        let mut solved = vec![0.0; ROWS];
        let columns: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
        let refused = f.solve_rows(units, name, output, &wanted, &columns, &mut solved).unwrap();
        for ((row, &wanted), &solved) in rows.iter().zip(&wanted).zip(&solved) {
            let alone = f.solve_for(units, name, output, wanted, row).unwrap_or(f64::NAN);
            assert!(
                alone.to_bits() == solved.to_bits() || (alone.is_nan() && solved.is_nan()),
                "{f:?}: {name}"
            );
        }
        assert_eq!(refused, solved.iter().any(|x| x.is_nan()), "{f:?}: {name}");
        // One number stands for every row.
        let mut alike = vec![0.0; 3];
        let first: Vec<&[f64]> = columns.iter().map(|column| &column[..1]).collect();
        f.solve_rows(units, name, output, &wanted[..1], &first, &mut alike).unwrap();
        assert!(alike.iter().all(|x| x.to_bits() == solved[0].to_bits() || x.is_nan()), "{f:?}: {name}");
        let short = f.solve_rows(units, name, output, &wanted[..2], &first, &mut alike);
        assert!(matches!(short, Err(Error::Count { expected: 3, got: 2, .. })), "{f:?}: {name}");
    });
}

#[test]
fn what_cannot_be_solved_for_is_refused_with_the_reason() {
    let mut counts = 0;
    each_pair(|f, at, k, solvable| {
        let (a, mut draws) = (&f.arguments[at], Draws::of(f));
        let row = draws.row(f, Units::Metric);
        let solve = |wanted: f64| f.solve_for(Units::Metric, a.name, Some(f.output_name(k)), wanted, &row);
        if solvable {
            for wanted in [f64::NAN, f64::INFINITY] {
                assert!(matches!(solve(wanted), Err(Error::Unsolvable { .. })), "{f:?}: {}", a.name);
            }
            return;
        }
        let text = solve(1.0).unwrap_err().to_string();
        assert!(text.ends_with(f.why_not_solvable(at, k).unwrap()), "{f:?}: {text}");
        if a.side(Units::Metric).domain.is_whole() {
            counts += 1;
            assert!(text.ends_with("it is a count"), "{f:?}: {text}");
        }
    });
    assert!(counts > 0);
}

#[test]
fn a_result_beyond_reach_is_refused() {
    each_pair(|f, at, k, solvable| {
        if !solvable {
            return;
        }
        // No shop sees such a number, and no formula gives both: where it gives one, the argument gives it back.
        let (mut draws, mut refused) = (Draws::of(f), 0);
        for wanted in [-1e300, 1e300] {
            let mut row = draws.row(f, Units::Metric);
            match f.solve_for(Units::Metric, f.arguments[at].name, Some(f.output_name(k)), wanted, &row) {
                Ok(x) => {
                    row[at] = x;
                    let y = call(f, Units::Metric, &row).unwrap()[k];
                    // An argument may be among the smallest floats, which are coarse.
                    assert!(
                        (y / wanted - 1.0).abs() < 1e-6,
                        "{f:?}: {} = {x} gives {y}",
                        f.arguments[at].name
                    );
                }
                Err(_) => refused += 1,
            }
        }
        assert!(refused > 0, "{f:?}: {} for {}", f.arguments[at].name, f.output_name(k));
    });
}

/// Where a level stretch about a solution ends, and whether the result moves on beyond.
struct Stretch {
    ends: [f64; 2],
    moves: [bool; 2],
    /// Whether the result is clearly another one beyond an end that it moves at, rather than level by rounding.
    is_clear: bool,
}

/// The stretch of values about `x` that give the same result, told by calls alone; none where it is not wide.
fn stretch(at: impl Fn(f64) -> Option<f64>, x: f64) -> Option<Stretch> {
    let level = at(x)?;
    let is_level = |x: f64| at(x) == Some(level);
    let first = if x == 0.0 { 1e-6 } else { 1e-3 * x.abs() };
    if !is_level(x + first) && !is_level(x - first) {
        return None;
    }
    let (mut ends, mut moves, mut is_clear) = ([x; 2], [false; 2], true);
    for (side, sign) in [-1.0, 1.0].into_iter().enumerate() {
        let (mut inside, mut reach) = (x, first);
        while reach < 1e300 && is_level(x + sign * reach) {
            inside = x + sign * reach;
            reach *= 2.0;
        }
        let mut beyond = x + sign * reach;
        for _ in 0..200 {
            let middle = inside + 0.5 * (beyond - inside);
            if is_level(middle) { inside = middle } else { beyond = middle }
        }
        ends[side] = inside;
        moves[side] = reach < 1e300 && at(beyond).is_some();
    }
    for (side, sign) in [-1.0, 1.0].into_iter().enumerate() {
        let step = 0.25 * (ends[1] - ends[0]).min(ends[side].abs());
        let moved = at(ends[side] + sign * step).map_or(0.0, |y| (y - level).abs());
        is_clear &= !moves[side] || moved > 1e-7 * level.abs();
    }
    Some(Stretch { ends, moves, is_clear })
}

#[test]
fn of_a_level_stretch_the_end_is_given_at_which_the_result_begins_to_move() {
    let mut met = std::collections::BTreeSet::new();
    each_pair(|f, at, k, solvable| {
        if !solvable {
            return;
        }
        let (name, mut draws) = (f.arguments[at].name, Draws::of(f));
        for round in 0..ROWS {
            let units = Units::ALL[round % 2];
            let x = draws.row(f, units);
            let y = call(f, units, &x).unwrap()[k];
            let solved = f.solve_for(units, name, Some(f.output_name(k)), y, &x);
            let place = format!("{f:?}: {name} for {} = {y} of {x:?}", f.output_name(k));
            let result = |value: f64| {
                let mut moved = x.clone();
                moved[at] = value;
                call(f, units, &moved).map(|results| results[k])
            };
            let Some(stretch) = stretch(result, x[at]) else { continue };
            let [low, high] = stretch.ends;
            if let Err(error) = &solved
                && error.to_string().contains("every value ")
            {
                // What moves by rounding alone does not move.
                let is_level = stretch.moves == [false; 2] || !stretch.is_clear;
                assert!(is_level, "{place}: {error}, but it moves beyond {low} to {high}");
                continue;
            }
            let end = match stretch.moves {
                [false, false] => panic!("{place}: every value gives it, and not {solved:?} alone"),
                [true, false] => low,
                [false, true] => high,
                [true, true] => [low, high][usize::from(high.abs() < low.abs())],
            };
            let solved = solved.unwrap_or_else(|error| panic!("{place}: {error}"));
            // Where the result bends into the stretch, rounding blurs its end.
            let is_blurred = result(solved).is_some_and(|again| (again - y).abs() <= 1e-14 * y.abs());
            if stretch.is_clear {
                met.insert((f.name, name));
                let blur = if is_blurred { 1e-3 } else { 1e-6 };
                let allowed = blur * end.abs().max(1e-9 * (high - low).min(1.0));
                assert!((solved - end).abs() <= allowed, "{place}: {solved} in {low} to {high}");
            } else {
                let is_inside = low <= solved && solved <= high;
                assert!(is_inside || is_blurred, "{place}: {solved} in {low} to {high}");
            }
        }
    });
    for formula in ["groove_fill", "knurled_joint", "facing_time", "parting_time", "joining_temperature"] {
        assert!(met.iter().any(|(name, _)| *name == formula), "{formula} is not among {met:?}");
    }
}

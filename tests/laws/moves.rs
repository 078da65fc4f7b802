//! How results move with arguments: declared inverses, and declared trends.
use crate::rows::{Draws, call, evaluate, rounding, slope, to_base};
use tenths::{Units, formulas};

const ROWS: usize = 200;

#[test]
fn inverses_undo() {
    for f in formulas() {
        let mut draws = Draws::of(f);
        for inverse in f.inverses {
            let name = f.arguments[inverse.argument].name;
            let mut judged = 0;
            for units in Units::ALL {
                for _ in 0..ROWS {
                    let x = to_base(f, units, &draws.row(f, units));
                    let y = evaluate(f, units, &x)[0];
                    let (at, steep) = (inverse.argument, slope(f, units, &x, inverse.argument, 0));
                    // Where the result does not move with the argument, it does not tell of it.
                    let unclear = rounding(f, units, &x, 0) / steep;
                    if unclear.is_nan() || unclear >= 1e-6 {
                        continue;
                    }
                    judged += 1;
                    // Its own place must not matter.
                    let mut given = x.clone();
                    given[at] = f64::NAN;
                    let solved = (inverse.solve)(units, &given, y);
                    let error = (solved - x[at]).abs() / x[at].abs();
                    assert!(error <= unclear + 1e-12, "{f:?}: {name}: {x:?} gives {y}, and back {solved}");
                    given[at] = solved;
                    let again = evaluate(f, units, &given)[0];
                    let allowed = rounding(f, units, &x, 0);
                    // Over the edge of a rule by an ulp, the solution gives nothing to compare.
                    let off = (again - y).abs();
                    assert!(off.is_nan() || off <= allowed, "{f:?}: {name}: {y} again gives {again}");
                }
            }
            assert!(judged >= ROWS, "{f:?}: only {judged} rows tell of {name}");
        }
    }
}

#[test]
fn trends_hold() {
    for f in formulas() {
        let mut draws = Draws::of(f);
        for (at, a) in f.arguments.iter().enumerate().filter(|(_, a)| !a.trends.is_empty()) {
            let mut judged = 0;
            for round in 0..ROWS {
                let units = Units::ALL[round % 2];
                let mut low = draws.row(f, units);
                let mut high = low.clone();
                // Far apart in one draw of two, and near each other in the rest, if it is no count.
                high[at] = match round % 4 < 2 || a.exact || a.side(units).domain.is_whole() {
                    true => draws.value(a, units),
                    false => low[at] * (1.0 + 1e-6),
                };
                if low[at] > high[at] {
                    std::mem::swap(&mut low, &mut high);
                }
                let (Some(y), Some(z)) = (call(f, units, &low), call(f, units, &high)) else { continue };
                judged += 1;
                for trend in a.trends {
                    let k = f.outputs.iter().position(|o| o.name == trend.output).unwrap();
                    let rise = if trend.rising { z[k] - y[k] } else { y[k] - z[k] };
                    let allowed =
                        if f.is_exact() { 0.0 } else { 16.0 * f64::EPSILON * (y[k].abs() + z[k].abs()) };
                    assert!(
                        rise >= -allowed,
                        "{f:?}: {} with {}: {low:?} {y:?}, {high:?} {z:?}",
                        trend.output,
                        a.name
                    );
                }
            }
            assert!(judged >= ROWS / 4, "{f:?}: only {judged} pairs of {}", a.name);
        }
    }
}

// A power of an argument takes the same factor from each equal step of its logarithm.
#[test]
fn power_laws_are_straight_on_logarithmic_paper() {
    let mut judged = 0;
    for f in formulas() {
        let mut draws = Draws::of(f);
        for at in (0..f.arguments.len()).filter(|&at| f.arguments[at].power_law) {
            for round in 0..ROWS {
                let units = Units::ALL[round % 2];
                let row = draws.row(f, units);
                let at_step = |step: f64| {
                    let mut moved = row.clone();
                    moved[at] *= step;
                    call(f, units, &moved)
                };
                let (Some(y), Some(z), Some(last)) = (at_step(1.0), at_step(0.75), at_step(0.5625)) else {
                    continue;
                };
                judged += 1;
                for k in 0..y.len() {
                    let off = (y[k] * last[k] - z[k] * z[k]).abs();
                    assert!(off <= 1e-12 * z[k] * z[k], "{f:?}: {} of {row:?}", f.output_name(k));
                }
            }
        }
    }
    assert!(judged >= 10 * ROWS, "{judged}");
}

#[test]
fn trends_name_outputs_once() {
    for f in formulas() {
        for a in f.arguments {
            for (k, trend) in a.trends.iter().enumerate() {
                let known = f.outputs.iter().any(|output| output.name == trend.output);
                let again = a.trends[..k].iter().any(|other| other.output == trend.output);
                assert!(known && !again, "{f:?}: {} of {}", trend.output, a.name);
            }
        }
    }
}

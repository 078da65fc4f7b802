//! Dimensions: results scale as their quantity says, and both unit systems tell of the same thing.
use crate::rows::{Draws, call, evaluate, rounding, to_base};
use tenths::quantity::Kind;
use tenths::{Units, formulas};

const BASES: [&str; 5] = ["length", "force", "time", "temperature", "mass"];

/// `value` in a system whose base unit `base` is smaller by `factor`.
fn scaled(kind: &Kind, base: usize, factor: f64, value: f64) -> f64 {
    let exponent = kind.dimension.0[base];
    let times = |value: f64, factor: f64| (0..exponent.abs()).fold(value, |value, _| value * factor);
    if exponent < 0 { times(value, 1.0 / factor) } else { times(value, factor) }
}

// The factors are even powers of two, so products, quotients, sums and square roots scale to the bit. An exact
// formula sees picometres, which only lengths have, and which can be multiplied but not divided.
#[test]
fn formulas_are_homogeneous() {
    for f in formulas() {
        let mut draws = Draws::of(f);
        for _ in 0..100 {
            let x = to_base(f, Units::Metric, &draws.row(f, Units::Metric));
            let y = evaluate(f, Units::Metric, &x);
            for (base, name) in BASES.iter().enumerate() {
                for factor in [4096.0, 1.0 / 4096.0] {
                    if f.is_exact() && (base > 0 || factor < 1.0) {
                        continue;
                    }
                    let kinds = f.arguments.iter().map(|a| a.kind).chain(f.constants.iter().map(|c| c.kind));
                    let larger: Vec<f64> = kinds.zip(&x).map(|(k, &x)| scaled(k, base, factor, x)).collect();
                    for (k, got) in evaluate(f, Units::Metric, &larger).into_iter().enumerate() {
                        let want = scaled(f.outputs[k].kind, base, factor, y[k]);
                        assert!(got == want, "{f:?}: {} in {name}: {x:?} {got} {want}", f.output_name(k));
                    }
                }
            }
        }
    }
}

// A bare number in a body, a constant or a bound that is of one side only, and a wrong origin differ here.
#[test]
fn inch_and_metric_agree() {
    for f in formulas() {
        let mut draws = Draws::of(f);
        for _ in 0..100 {
            let inch = draws.row(f, Units::Inch);
            let metric: Vec<f64> = (f.arguments.iter().zip(&inch))
                .map(|(a, &x)| match a.exact {
                    // 1/10 000 in is 0.00254 mm: the nearest float to that decimal.
                    true => (x * 1e4).round() * 254.0 / 1e5,
                    false => {
                        let base = a.kind.metric_of(a.unit(Units::Inch).to_base(x), Units::Inch);
                        a.unit(Units::Metric).from_base(base)
                    }
                })
                .collect();
            let y = call(f, Units::Inch, &inch).unwrap_or_default();
            let base = to_base(f, Units::Metric, &metric);
            let z = evaluate(f, Units::Metric, &base);
            for (k, output) in f.outputs.iter().enumerate() {
                let y = output.kind.metric_of(output.kind.unit(Units::Inch).to_base(y[k]), Units::Inch);
                let allowed = if f.is_exact() { 0.0 } else { rounding(f, Units::Metric, &base, k) };
                assert!((y - z[k]).abs() <= allowed, "{f:?}: {}: {inch:?} {y} {}", f.output_name(k), z[k]);
            }
        }
    }
}

// Each side of the record is worked out from the metric one, and must name the same physical bounds.
#[test]
fn bounds_are_the_same_on_both_sides() {
    for f in formulas() {
        for a in f.arguments {
            let [inch, metric] = Units::ALL.map(|units| {
                let side = a.side(units);
                let ends = [side.domain.low(), side.domain.high()].map(|end| end.map(|(base, _)| base));
                let more = [Some(side.range.0), Some(side.range.1), side.default];
                [ends[0], ends[1], more[0], more[1], more[2]]
                    .map(|base| base.map(|base| a.kind.metric_of(base, units)))
            });
            for (inch, metric) in inch.into_iter().zip(metric) {
                let same = match (inch, metric) {
                    (Some(i), Some(m)) => i == m || (i - m).abs() <= 4.0 * f64::EPSILON * m.abs(),
                    (i, m) => i == m,
                };
                assert!(same, "{f:?}: {}: {inch:?} and {metric:?}", a.name);
            }
        }
    }
}

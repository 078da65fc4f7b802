//! Domains: each end is where the record says, for the call with numbers in shop units.
use crate::rows::Draws;
use tenths::{Error, Formula, Units, formulas};

/// Whether argument `at` is refused for its own sake in an otherwise sound row.
fn refused(f: &Formula, units: Units, row: &[f64], at: usize, value: f64) -> bool {
    let mut row = row.to_vec();
    row[at] = value;
    let result = f.call(units, &row, &mut vec![0.0; f.outputs.len()]);
    matches!(result, Err(Error::Argument { argument, .. }) if argument == f.arguments[at].name)
}

#[test]
fn ends_of_domains_are_where_they_are_said_to_be() {
    for f in formulas() {
        let mut draws = Draws::of(f);
        for units in Units::ALL {
            let row = draws.row(f, units);
            for (at, a) in f.arguments.iter().enumerate() {
                let domain = a.side(units).domain;
                // The direction out of the domain: down from its low end, up from its high end.
                for (end, out) in [(domain.low(), -1.0), (domain.high(), 1.0)] {
                    let Some((base, closed)) = end else { continue };
                    let value = a.unit(units).from_base(base);
                    let near = if value == 0.0 { 1e-200 } else { 1e-14 * value.abs() };
                    let inside = if domain.is_whole() { value - out } else { value - out * near };
                    let place = format!("{f:?}: {} at {value}, {}", a.name, units.name());
                    assert!(refused(f, units, &row, at, value + out * near), "{place}: outside");
                    assert!(!refused(f, units, &row, at, inside), "{place}: inside");
                    if a.unit(units).to_base(value) == base {
                        assert_eq!(refused(f, units, &row, at, value), !closed, "{place}: at the end");
                    }
                }
            }
        }
    }
}

#[test]
fn what_is_no_number_is_refused_by_name() {
    for f in formulas() {
        let mut draws = Draws::of(f);
        for units in Units::ALL {
            let row = draws.row(f, units);
            for (at, a) in f.arguments.iter().enumerate() {
                for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
                    assert!(refused(f, units, &row, at, value), "{f:?}: {} at {value}", a.name);
                }
                let half = a.side(units).domain.is_whole() && !refused(f, units, &row, at, row[at] + 0.5);
                assert!(!half, "{f:?}: half of {}", a.name);
            }
        }
    }
}

#[test]
fn defaults_are_sound() {
    for f in formulas() {
        for a in f.arguments {
            for side in &a.sides {
                let sound = side.default.is_none_or(|x| side.domain.holds(x) && !side.advises(x));
                assert!(sound, "{f:?}: {}", a.name);
            }
        }
        let first = f.arguments.iter().position(|a| a.sides[0].default.is_some());
        let last = f.arguments.iter().rposition(|a| a.sides[0].default.is_none());
        assert!(first.is_none_or(|first| last.is_none_or(|last| last < first)), "{f:?}: defaults come last");
    }
}

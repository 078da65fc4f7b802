//! A batch gives the very bits of scalar calls, row by row, however the columns lie in memory.
#![allow(unsafe_code)]
use crate::rows::Draws;
use std::collections::BTreeSet;
use tenths::formula::{Advice, Column, ColumnMut, Refusal, Row};
use tenths::{Error, Formula, Units, formulas};

/// More than two blocks of the batch, and not a whole number of them.
const ROWS: usize = 300;

/// The outputs, NaN where the row is refused; and whether it is.
fn scalar(f: &Formula, units: Units, x: &[f64]) -> (Vec<f64>, bool) {
    let mut y = vec![0.0; f.outputs.len()];
    let refused = f.call(units, x, &mut y).is_err();
    (y, refused)
}

/// What a scalar call says of a row, in the terms of a batch.
fn verdict(f: &Formula, units: Units, x: &[f64]) -> Result<Advice, Refusal> {
    let place = |name: &str| f.arguments.iter().position(|a| a.name == name).unwrap();
    let mut y = vec![0.0; f.outputs.len()];
    f.call(units, x, &mut y).map_err(|error| match error {
        Error::Argument { argument, .. } => Refusal::Argument(place(argument)),
        Error::Rule { rule, .. } => Refusal::Rule(f.rules.iter().position(|r| r.text == rule).unwrap()),
        Error::NoAnswer { output, .. } => {
            Refusal::NoAnswer((0..f.outputs.len()).position(|k| f.output_name(k) == output).unwrap())
        }
        other => panic!("{f:?}: {other}"),
    })
}

/// Whether two numbers are the same to the bit, any NaN being like any other.
fn same(a: f64, b: f64) -> bool {
    a.to_bits() == b.to_bits() || (a.is_nan() && b.is_nan())
}

/// A row, one in four with a number that seldom makes sense.
fn mixed_row(draws: &mut Draws, f: &Formula, units: Units) -> Vec<f64> {
    const ODD: [f64; 9] = [f64::NAN, f64::INFINITY, f64::MIN, f64::MAX, -1.0, 0.0, -0.0, 1.5, 5e-324];
    let mut row = draws.any_row(f, units);
    if draws.below(4) == 0 {
        row[draws.below(f.arguments.len())] = ODD[draws.below(ODD.len())];
    }
    row
}

#[test]
fn a_batch_gives_the_bits_of_scalar_calls() {
    for f in formulas() {
        let mut draws = Draws::of(f);
        for units in Units::ALL {
            // Sound rows take the quick way; rows that only break a rule look sound until the body has run.
            for rows_of in [Draws::row, Draws::any_row, mixed_row] {
                let rows: Vec<Vec<f64>> = (0..ROWS).map(|_| rows_of(&mut draws, f, units)).collect();
                let columns: Vec<Vec<f64>> =
                    (0..f.arguments.len()).map(|k| rows.iter().map(|row| row[k]).collect()).collect();
                let xs: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
                let mut ys = vec![vec![0.0; ROWS]; f.outputs.len()];
                let mut views: Vec<&mut [f64]> = ys.iter_mut().map(Vec::as_mut_slice).collect();
                let mut told = vec![];
                let met = f.batch_telling(units, &xs, &mut views, &mut |row| told.push(row)).unwrap();
                let mut silent = vec![vec![0.0; ROWS]; f.outputs.len()];
                let mut views: Vec<&mut [f64]> = silent.iter_mut().map(Vec::as_mut_slice).collect();
                assert_eq!(f.batch(units, &xs, &mut views).unwrap(), met, "{f:?}");
                assert!(silent.iter().flatten().zip(ys.iter().flatten()).all(|(a, b)| same(*a, *b)), "{f:?}");
                let told_alone = rows
                    .iter()
                    .enumerate()
                    .map(|(number, row)| Row { number, verdict: verdict(f, units, row) });
                let told_alone: Vec<Row> =
                    told_alone.filter(|row| row.verdict != Ok(Advice::default())).collect();
                assert_eq!(told, told_alone, "{f:?}");
                let mut any_refused = false;
                for (k, row) in rows.iter().enumerate() {
                    let (want, refused) = scalar(f, units, row);
                    any_refused |= refused && !row.iter().any(|x| x.is_nan());
                    for (got, want) in ys.iter().map(|y| y[k]).zip(want) {
                        assert!(same(got, want), "{f:?}: {row:?}: {got:?} in a batch, {want:?} alone");
                    }
                }
                assert_eq!(met.refused, any_refused, "{f:?}");
                for (k, a) in f.arguments.iter().enumerate() {
                    let (unit, side) = (a.unit(units), a.side(units));
                    let outside = |x: f64| side.domain.holds(x) && side.advises(x);
                    let advised = columns[k].iter().any(|&x| outside(unit.to_base(x)));
                    let met = met.advice.arguments().any(|met| met == k);
                    assert_eq!(met, advised, "{f:?}: advice on {}", a.name);
                }
                let outputs = told.iter().flat_map(|row| row.verdict.into_iter().flat_map(Advice::outputs));
                let outputs: BTreeSet<usize> = outputs.collect();
                assert!(met.advice.outputs().eq(outputs), "{f:?}: advice on results");
            }
        }
    }
}

/// Where a column lies in a store of numbers: its first element, and the step from one to the next.
#[derive(Clone, Copy, Debug)]
struct Layout {
    first: isize,
    step: isize,
}

impl Layout {
    /// A column of `rows` that stays inside a store of `size`.
    fn draw(draws: &mut Draws, rows: usize, size: usize) -> Layout {
        let step = [1, 1, 0, -1, 2, -2, 3][draws.below(7)];
        let reach = step * (rows as isize - 1);
        let room = size - reach.unsigned_abs();
        Layout { first: draws.below(room) as isize - reach.min(0), step }
    }

    fn at(self, row: usize) -> usize {
        (self.first + self.step * row as isize) as usize
    }
}

// Columns that are strided, reversed, repeated, in place, and running into one another: all must come out as if
// the rows were computed one by one, in order.
#[test]
fn columns_may_lie_anyhow() {
    const SIZE: usize = 1000;
    let word = size_of::<f64>() as isize;
    for f in formulas() {
        let mut draws = Draws::of(f);
        for round in 0..60 {
            let (units, rows) = (Units::ALL[round % 2], 1 + draws.below(ROWS));
            let inputs: Vec<Layout> =
                f.arguments.iter().map(|_| Layout::draw(&mut draws, rows, SIZE)).collect();
            let mut outputs: Vec<Layout> =
                f.outputs.iter().map(|_| Layout::draw(&mut draws, rows, SIZE)).collect();
            match round % 3 {
                0 => outputs[0] = inputs[draws.below(inputs.len())],
                // Each row reads what the one before it wrote, as numpy's accumulate does.
                1 if inputs[0].at(rows) < SIZE && inputs[0].step != 0 => {
                    outputs[0] = Layout { first: inputs[0].first + inputs[0].step, ..inputs[0] };
                }
                _ => {}
            }
            let mut store: Vec<f64> = vec![];
            while store.len() < SIZE {
                store.extend(mixed_row(&mut draws, f, units));
            }
            store.truncate(SIZE);
            // In one round of three each input finds numbers of its own kind.
            if round % 3 == 0 {
                for (k, layout) in inputs.iter().enumerate() {
                    (0..rows).for_each(|row| store[layout.at(row)] = draws.value(&f.arguments[k], units));
                }
            }
            let unwanted: Vec<usize> =
                (0..outputs.len()).filter(|_| round % 4 == 3 && draws.below(2) == 0).collect();
            let mut expected = store.clone();
            for row in 0..rows {
                let x: Vec<f64> = inputs.iter().map(|layout| expected[layout.at(row)]).collect();
                for (k, (layout, y)) in outputs.iter().zip(scalar(f, units, &x).0).enumerate() {
                    if !unwanted.contains(&k) {
                        expected[layout.at(row)] = y;
                    }
                }
            }
            let start = store.as_mut_ptr();
            // SAFETY: layouts stay inside the store.
            let place = |layout: &Layout| unsafe { start.offset(layout.first).cast::<u8>() };
            let xs: Vec<Column> =
                inputs.iter().map(|l| Column { at: place(l).cast_const(), step: l.step * word }).collect();
            let mut ys: Vec<ColumnMut> =
                outputs.iter().map(|l| ColumnMut { at: place(l), step: l.step * word }).collect();
            for k in unwanted {
                ys[k].at = std::ptr::null_mut();
            }
            // SAFETY: every column is valid for `rows` elements of the store, which nothing else touches.
            unsafe { f.batch_raw(units, &xs, &ys, rows, None) };
            for (k, (&got, &want)) in store.iter().zip(&expected).enumerate() {
                assert!(
                    same(got, want),
                    "{f:?}: {inputs:?} to {outputs:?}, {rows} rows, at {k}: {got} {want}"
                );
            }
        }
    }
}

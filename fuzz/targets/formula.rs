//! Any formula on any numbers: no panic, finite results or an error, and the same bits in a batch.
#![no_main]
use libfuzzer_sys::fuzz_target;
use tenths::formula::MAX_OUTPUTS;
use tenths::{Formula, Units};

fuzz_target!(|data: &[u8]| {
    let [which, side, data @ ..] = data else { return };
    let formula = tenths::formulas().nth(usize::from(*which) % tenths::formulas().count());
    let (Some(formula), units) = (formula, Units::ALL[usize::from(side & 1)]) else { return };
    let numbers: Vec<f64> = data.chunks_exact(9).map(number).collect();
    let rows: Vec<&[f64]> = numbers.chunks_exact(formula.arguments.len()).collect();
    let scalar: Vec<Vec<f64>> = rows.iter().map(|row| call(formula, units, row)).collect();
    let columns: Vec<Vec<f64>> =
        (0..formula.arguments.len()).map(|k| rows.iter().map(|row| row[k]).collect()).collect();
    let columns: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
    let mut results = vec![vec![0.0; rows.len()]; formula.outputs.len()];
    let mut places: Vec<&mut [f64]> = results.iter_mut().map(Vec::as_mut_slice).collect();
    formula.batch(units, &columns, &mut places).expect("a batch of the right shape");
    for (row, expected) in scalar.iter().enumerate() {
        for (k, expected) in expected.iter().enumerate() {
            let found = results[k][row];
            let same = found.to_bits() == expected.to_bits() || (found.is_nan() && expected.is_nan());
            assert!(same, "{formula:?} of {:?}: {expected} one by one, {found} in a batch", rows[row]);
        }
    }
});

/// A number by its bits, or one that is likelier to have an answer.
fn number(bytes: &[u8]) -> f64 {
    let [form, a, b, rest @ ..] = bytes else { return 0.0 };
    match form % 4 {
        0 => f64::from_le_bytes([*a, *b, rest[0], rest[1], rest[2], rest[3], rest[4], rest[5]]),
        1 => f64::from(*a),
        2 => f64::from(u16::from_le_bytes([*a, *b])) / 100.0,
        _ => f64::from(i16::from_le_bytes([*a, *b])) / 1e4,
    }
}

/// The results of one row, NaN on an error; asks on the way what else can be asked of it.
fn call(formula: &'static Formula, units: Units, row: &[f64]) -> Vec<f64> {
    let mut results = [0.0; MAX_OUTPUTS];
    let results = &mut results[..formula.outputs.len()];
    let answer = formula.call(units, row, results);
    assert_eq!(answer.is_ok(), formula.check(units, row).is_ok());
    assert!(results.iter().all(|result| if answer.is_ok() { result.is_finite() } else { result.is_nan() }));
    if let Err(error) = &answer {
        assert!(!error.to_string().is_empty());
    }
    let solvable = (0..row.len()).filter(|&k| answer.is_ok() && formula.is_solvable(k));
    for argument in solvable.map(|k| formula.arguments[k].name) {
        for (k, &wanted) in results.iter().enumerate() {
            if let Ok(value) = formula.solve_for(units, argument, Some(formula.output_name(k)), wanted, row) {
                assert!(value.is_finite(), "{formula:?}: {argument} for {wanted} is {value}");
            }
        }
    }
    results.to_vec()
}

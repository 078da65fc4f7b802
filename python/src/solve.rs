//! Solving a formula for an argument, for one row and for many.
use crate::error::raise;
use crate::formula::PyFormula;
use crate::number::Wanted;
use crate::ufunc::{self, Data, Operands};
use pyo3::prelude::*;
use std::ffi::{c_char, c_void};
use std::panic::{AssertUnwindSafe, catch_unwind};
use tenths::formula::{Column, Formula, MAX_INPUTS};

/// Rows that are gathered at a time.
const CHUNK: usize = 1024;

/// The value of an argument that gives a wanted result, which stands in its place among the arguments.
#[pyfunction]
pub fn _solve(
    py: Python<'_>,
    formula: &Bound<'_, PyFormula>,
    argument: &str,
    output: Option<&str>,
    row: Vec<f64>,
) -> PyResult<f64> {
    let PyFormula { record, units, .. } = formula.get();
    let place = record.arguments.iter().position(|a| a.name == argument);
    let wanted = place.and_then(|place| row.get(place)).copied().unwrap_or(f64::NAN);
    record.solve_for(*units, argument, output, wanted, &row).map_err(|error| raise(py, &error))
}

/// The ufunc that solves for an argument: in its place among the arguments it takes the wanted result.
#[pyfunction]
pub fn _solver(
    py: Python<'_>,
    formula: &Bound<'_, PyFormula>,
    argument: &str,
    output: Option<&str>,
) -> PyResult<Py<PyAny>> {
    let PyFormula { record, units, .. } = formula.get();
    // No row at all tells whether it can be done.
    let nothing: [&[f64]; MAX_INPUTS] = [&[]; MAX_INPUTS];
    let able = record.solve_rows(*units, argument, output, &[], &nothing[..record.arguments.len()], &mut []);
    able.map_err(|error| raise(py, &error))?;
    let place = record.arguments.iter().position(|a| a.name == argument).unwrap_or_default();
    let data = Data { formula: record, units: *units, sought: (place, place_of(record, output)) };
    ufunc::solving(py, data, run)
}

/// The place of a result, of which the only one needs no name.
fn place_of(formula: &Formula, output: Option<&str>) -> usize {
    (0..formula.outputs.len()).find(|&k| Some(formula.output_name(k)) == output).unwrap_or_default()
}

/// What is asked of a wanted result.
#[pyfunction]
pub fn _wanted_result(formula: &Bound<'_, PyFormula>, output: Option<&str>) -> Wanted {
    let PyFormula { record, units, .. } = formula.get();
    let output = place_of(record, output);
    Wanted::new(record.name, record.output_name(output), record.outputs[output].kind, *units)
}

/// Solves rows: those without a solution become NaN.
///
/// # Safety
/// Called by numpy with the operands of the ufunc that `data` was given to.
unsafe extern "C" fn run(args: *mut *mut c_char, dims: *mut isize, steps: *mut isize, data: *mut c_void) {
    // SAFETY: `data` is the leaked `Data`, and numpy gives one pointer and step an operand, and the count.
    let (data, rows) = unsafe { (&*data.cast::<Data>(), *dims as usize) };
    let operands = Operands { args, steps };
    // SAFETY: as above; the result comes after the arguments.
    let (xs, to) =
        unsafe { (operands.arguments(data.formula), operands.column_mut(data.formula.arguments.len())) };
    let solve = AssertUnwindSafe(|| {
        let mut refused = false;
        ufunc::in_pieces(rows, CHUNK, |start, count| {
            let mut solved = [f64::NAN; CHUNK];
            // SAFETY: as above.
            refused |= unsafe { chunk(data, &xs, start, &mut solved[..count]) };
            for (row, &solved) in solved[..count].iter().enumerate() {
                // SAFETY: as above.
                unsafe { ufunc::write(to, start + row, solved) };
            }
        });
        refused
    });
    let refused = catch_unwind(solve).unwrap_or_else(|payload| {
        std::mem::forget(payload); // dropping it might panic again
        // SAFETY: as above.
        unsafe { ufunc::fill(to, rows, f64::NAN) };
        true
    });
    ufunc::clear_flags();
    if refused {
        ufunc::raise_invalid();
    }
}

/// Solves some rows; tells whether one without a NaN was refused.
///
/// # Safety
/// The columns are valid for `start + solved.len()` rows.
unsafe fn chunk(data: &Data, xs: &[Column; MAX_INPUTS], start: usize, solved: &mut [f64]) -> bool {
    let (formula, units, (argument, output)) = (data.formula, data.units, data.sought);
    let gather = |x: &Column| -> Vec<f64> {
        let count = if x.step == 0 { 1 } else { solved.len() };
        let at = |row: usize| x.at.wrapping_offset((start + row) as isize * x.step).cast::<f64>();
        // SAFETY: the caller's promise.
        (0..count).map(|row| unsafe { at(row).read() }).collect()
    };
    let columns: Vec<Vec<f64>> = xs[..formula.arguments.len()].iter().map(gather).collect();
    let given: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
    let name = formula.arguments[argument].name;
    let done =
        formula.solve_rows(units, name, Some(formula.output_name(output)), given[argument], &given, solved);
    done.unwrap_or_else(|_| {
        solved.fill(f64::NAN);
        true
    })
}

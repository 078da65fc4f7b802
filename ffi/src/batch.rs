//! Many rows of any formula in one call, over columns with any layout in memory.
use crate::guard::{guard, side, tenths_units, text};
use crate::status::{Failure, TENTHS_OK, refusal_status, tenths_status};
use crate::watch::{tenths_watch, watch};
use std::ffi::c_char;
use tenths::formula::{Column, ColumnMut, MAX_INPUTS, MAX_OUTPUTS, Row};
use tenths::{Formula, Units};

/// A column of numbers to read.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_column {
    /// Its first number; null for the default of the argument in every row.
    pub first: *const f64,
    /// Bytes from one number to the next: `sizeof(double)` in an array, `sizeof(struct move)` in an array of
    /// structs, 0 for the same number in every row, negative from the last to the first.
    pub stride: isize,
}

/// A column of numbers to write.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_result_column {
    /// Where the first number goes; null for a result that is not wanted.
    pub first: *mut f64,
    /// Bytes from one number to the next.
    pub stride: isize,
}

/// Runs the formula called `name` on `rows` rows, with the same bits as its scalar function.
///
/// `arguments` holds a column for each argument and `results` one for each result, in the order of the formula. A result
/// column may be an argument column too: `results` then overwrites `arguments` row by row, in place.
///
/// A row without an answer is NaN in every result and does not stop the others. For each row, `statuses` is set to what
/// the scalar function would return, and `advice` to its advice: bit k is set if argument k is outside the range that
/// the source states, and bit `TENTHS_ADVICE_RESULTS` + k if result k is. `refused` is set to the number of rows without
/// an answer. Each of `statuses`, `advice` and `refused` may be null; the first two hold `rows` elements and must not
/// overlap the columns. For the message of one row, call `tenths_formula_check` with its numbers.
/// `watch` may be null; when it stops the work, the rows at the front are written.
///
/// # Safety
/// Every column is valid for `rows` numbers at its stride; `name` ends with a NUL; the other pointers are null or
/// valid.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_batch(
    name: *const c_char,
    units: tenths_units,
    rows: usize,
    arguments: *const tenths_column,
    argument_count: usize,
    results: *const tenths_result_column,
    result_count: usize,
    statuses: *mut tenths_status,
    advice: *mut u32,
    refused: *mut usize,
    watch: *const tenths_watch,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let mut refused = unsafe { refused.as_mut() };
        if let Some(refused) = refused.as_deref_mut() {
            *refused = 0;
        }
        // SAFETY: the caller's promise.
        let name = unsafe { text(name, "name") }?;
        let formula = tenths::find(name).ok_or_else(|| Failure::UnknownFormula(name.into()))?;
        let units = side(units)?;
        let defaults: [f64; MAX_INPUTS] = std::array::from_fn(|k| {
            formula.arguments.get(k).and_then(|a| a.default(units)).unwrap_or(f64::NAN)
        });
        // SAFETY: the caller's promise.
        let xs = unsafe { inputs(formula, units, arguments, argument_count, rows, &defaults) }?;
        // SAFETY: the caller's promise.
        let ys = unsafe { outputs(formula, results, result_count, rows) }?;
        // SAFETY: the caller's promise.
        let watch = unsafe { self::watch(watch) }?;
        let mut without = 0;
        // SAFETY: the caller's promise: columns and arrays are valid for `rows` elements.
        unsafe {
            quiet(statuses, rows, TENTHS_OK);
            quiet(advice, rows, 0);
            let mut tell = |Row { number, verdict }| {
                without += usize::from(verdict.is_err());
                let (status, concerned) = match verdict {
                    Ok(concerned) => (TENTHS_OK, concerned.0),
                    Err(refusal) => (refusal_status(refusal), 0),
                };
                for_row(statuses, number, status);
                for_row(advice, number, concerned);
            };
            let (xs, ys) = (&xs[..formula.arguments.len()], &ys[..formula.outputs.len()]);
            formula.batch_raw_watched(units, xs, ys, rows, Some(&mut tell), &watch)?;
        }
        if let Some(refused) = refused {
            *refused = without;
        }
        Ok(())
    })
}

/// Fills an array that the caller wants.
///
/// # Safety
/// `array` is null or writable for `rows` elements.
unsafe fn quiet<T: Copy>(array: *mut T, rows: usize, value: T) {
    for row in 0..rows {
        // SAFETY: the caller's promise.
        unsafe { for_row(array, row, value) };
    }
}

/// # Safety
/// `array` is null or writable at `row`.
unsafe fn for_row<T>(array: *mut T, row: usize, value: T) {
    if !array.is_null() {
        // SAFETY: the caller's promise.
        unsafe { array.add(row).write(value) };
    }
}

/// # Safety
/// `columns` is null or valid for `count` columns.
unsafe fn inputs(
    formula: &Formula,
    units: Units,
    columns: *const tenths_column,
    count: usize,
    rows: usize,
    defaults: &[f64; MAX_INPUTS],
) -> Result<[Column; MAX_INPUTS], Failure> {
    counted(formula, "arguments", formula.arguments.len(), count, columns.is_null())?;
    let mut xs = [Column { at: std::ptr::null(), step: 0 }; MAX_INPUTS];
    for (k, argument) in formula.arguments.iter().enumerate() {
        // SAFETY: the caller's promise.
        let tenths_column { first, stride } = unsafe { columns.add(k).read() };
        xs[k] = match first.is_null() {
            false => Column { at: first.cast(), step: walkable(argument.name, first, stride, rows)? },
            true if argument.default(units).is_none() => return Err(Failure::Null(argument.name)),
            true => Column { at: (&raw const defaults[k]).cast(), step: 0 },
        };
    }
    Ok(xs)
}

/// # Safety
/// `columns` is null or valid for `count` columns.
unsafe fn outputs(
    formula: &Formula,
    columns: *const tenths_result_column,
    count: usize,
    rows: usize,
) -> Result<[ColumnMut; MAX_OUTPUTS], Failure> {
    counted(formula, "results", formula.outputs.len(), count, columns.is_null())?;
    let mut ys = [ColumnMut { at: std::ptr::null_mut(), step: 0 }; MAX_OUTPUTS];
    for (k, y) in ys[..formula.outputs.len()].iter_mut().enumerate() {
        // SAFETY: the caller's promise.
        let tenths_result_column { first, stride } = unsafe { columns.add(k).read() };
        *y = ColumnMut { at: first.cast(), step: walkable(formula.output_name(k), first, stride, rows)? };
    }
    Ok(ys)
}

fn counted(
    formula: &Formula,
    what: &'static str,
    expected: usize,
    got: usize,
    is_null: bool,
) -> Result<(), Failure> {
    match () {
        () if expected != got => {
            Err(tenths::Error::Count { formula: formula.name, what, expected, got }.into())
        }
        () if is_null => Err(Failure::Null(what)),
        () => Ok(()),
    }
}

/// The stride of a column whose every number is aligned and within the reach of a pointer.
fn walkable(name: &'static str, first: *const f64, stride: isize, rows: usize) -> Result<isize, Failure> {
    let reach = rows.checked_mul(stride.unsigned_abs().max(size_of::<f64>()));
    let aligned = first.is_aligned() && stride.unsigned_abs().is_multiple_of(align_of::<f64>());
    match aligned && reach.is_some_and(|bytes| isize::try_from(bytes).is_ok()) {
        true => Ok(stride),
        false => Err(Failure::Column { name, stride, rows }),
    }
}

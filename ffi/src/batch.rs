//! Many rows of any formula in one call, over columns with any layout in memory.
use crate::formula::named;
use crate::guard::{guard, side, tenths_units};
use crate::status::{Failure, TENTHS_OK, refusal_status, tenths_status};
use crate::watch::{tenths_watch, watch};
use std::ffi::c_char;
use std::sync::atomic::{AtomicUsize, Ordering};
use tenths::formula::{Column, ColumnMut, MAX_INPUTS, MAX_OUTPUTS, Row};
use tenths::{Formula, Units, Watch};

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
    /// Bytes from one number to the next, not 0: the rows would overwrite each other.
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
///
/// If the call fails as a whole, no row has an answer: every result is NaN and every element of `statuses` is what the
/// call returns. `watch` may be null; when it stops the work, this holds for the rows that were not reached.
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
    let all = Rows { count: rows, results, result_count, statuses, advice };
    // SAFETY: the caller's promise.
    unsafe { batch(name, units, (arguments, argument_count), &all, refused, 1, watch) }
}

/// `tenths_formula_batch` on several threads, to the same bits: 0 stands for as many as the machine runs at once.
///
/// A formula of much arithmetic gains most; one of little is limited by memory, which the threads share. Where a result
/// column runs into an argument column, but is not the same one, the rows need their order, and one thread computes them.
/// `watch` may be null. Everything else is as `tenths_formula_batch` has it: `statuses`, `advice` and `refused` may be null.
///
/// # Safety
/// As for `tenths_formula_batch`: every column is valid for `rows` numbers at its stride; `name` ends with a NUL; the other
/// pointers are null or valid.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_formula_batch_on_threads(
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
    threads: u32,
    watch: *const tenths_watch,
) -> tenths_status {
    let all = Rows { count: rows, results, result_count, statuses, advice };
    // SAFETY: the caller's promise.
    unsafe {
        batch(
            name,
            units,
            (arguments, argument_count),
            &all,
            refused,
            usize::try_from(threads).unwrap_or(usize::MAX),
            watch,
        )
    }
}

/// # Safety
/// As for [`tenths_formula_batch`].
unsafe fn batch(
    name: *const c_char,
    units: tenths_units,
    arguments: (*const tenths_column, usize),
    all: &Rows,
    refused: *mut usize,
    threads: usize,
    watch: *const tenths_watch,
) -> tenths_status {
    let mut done = Done::default();
    guard(|| {
        // SAFETY: the caller's promise.
        let answer = unsafe { run(name, units, arguments, all, threads, self::watch(watch), &mut done) };
        let mut missing = done.refused.into_inner();
        if let Err(failure) = &answer {
            // SAFETY: the caller's promise.
            unsafe { all.refuse_from(done.rows, done.columns, failure.status()) };
            missing += all.count - done.rows;
        }
        // SAFETY: the caller's promise.
        if let Some(refused) = unsafe { refused.as_mut() } {
            *refused = missing;
        }
        answer
    })
}

/// Where the answers of a call go.
struct Rows {
    count: usize,
    results: *const tenths_result_column,
    result_count: usize,
    statuses: *mut tenths_status,
    advice: *mut u32,
}

// SAFETY: each row is told of by the thread that computes it.
unsafe impl Sync for Rows {}

/// How far a call has come.
struct Done {
    /// The rows that have been reached.
    rows: usize,
    /// Those of them that have no answer.
    refused: AtomicUsize,
    /// How many result columns there can be.
    columns: usize,
}

impl Default for Done {
    fn default() -> Self {
        Done { rows: 0, refused: AtomicUsize::new(0), columns: MAX_OUTPUTS }
    }
}

/// # Safety
/// As for [`tenths_formula_batch`].
unsafe fn run(
    name: *const c_char,
    units: tenths_units,
    (arguments, argument_count): (*const tenths_column, usize),
    all: &Rows,
    threads: usize,
    watch: Result<Watch<'_>, Failure>,
    done: &mut Done,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let formula = unsafe { named(name) }?;
    done.columns = formula.outputs.len();
    let units = side(units)?;
    let defaults: [f64; MAX_INPUTS] =
        std::array::from_fn(|k| formula.arguments.get(k).and_then(|a| a.default(units)).unwrap_or(f64::NAN));
    // SAFETY: the caller's promise.
    let xs = unsafe { inputs(formula, units, arguments, argument_count, all.count, &defaults) }?;
    // SAFETY: the caller's promise.
    let ys = unsafe { outputs(formula, all) }?;
    let refused = &done.refused;
    let tell = |Row { number, verdict }| {
        let (status, concerned) = match verdict {
            Ok(concerned) => (TENTHS_OK, concerned.0),
            Err(refusal) => (refusal_status(refusal), 0),
        };
        refused.fetch_add(usize::from(verdict.is_err()), Ordering::Relaxed);
        // SAFETY: the caller's promise, and `number` is below the count of rows.
        unsafe { all.tell(number, status, concerned) };
    };
    let (xs, ys) = (&xs[..formula.arguments.len()], &ys[..formula.outputs.len()]);
    // SAFETY: the caller's promise: columns are valid for so many rows.
    unsafe {
        // A row of which there is nothing to say has its answer.
        all.tell_from(0, TENTHS_OK);
        formula.batch_raw_watched(units, xs, ys, all.count, Some(&tell), threads, (&watch?, &mut done.rows))
    }?;
    Ok(())
}

impl Rows {
    /// # Safety
    /// Each array is null or writable at `row`.
    unsafe fn tell(&self, row: usize, status: tenths_status, advice: u32) {
        if !self.statuses.is_null() {
            // SAFETY: the caller's promise.
            unsafe { self.statuses.add(row).write(status) };
        }
        if !self.advice.is_null() {
            // SAFETY: the caller's promise.
            unsafe { self.advice.add(row).write(advice) };
        }
    }

    /// # Safety
    /// Each array is null or writable for all rows.
    unsafe fn tell_from(&self, first: usize, status: tenths_status) {
        for row in first..self.count {
            // SAFETY: the caller's promise.
            unsafe { self.tell(row, status, 0) };
        }
    }

    /// Leaves no answer in the rows from `first` on: not those of an earlier call, nor zeros that look like one.
    ///
    /// # Safety
    /// The arrays and the first `columns` result columns are null or valid for all rows.
    unsafe fn refuse_from(&self, first: usize, columns: usize, status: tenths_status) {
        // No array has so many rows, so the count itself is the mistake.
        if !can_hold(self.count, size_of::<f64>()) {
            return;
        }
        // SAFETY: the caller's promise.
        unsafe { self.tell_from(first, status) };
        let columns = if self.results.is_null() { 0 } else { columns.min(self.result_count) };
        for column in 0..columns {
            // SAFETY: the caller's promise.
            let tenths_result_column { first: to, stride } = unsafe { self.results.add(column).read() };
            if to.is_null() || !is_aligned(to, stride) || !is_within_reach(stride, self.count) {
                continue;
            }
            for row in first..self.count {
                // SAFETY: the caller's promise; the product is within reach.
                unsafe { to.byte_offset(row as isize * stride).write(f64::NAN) };
            }
        }
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
/// The result columns are null or valid for their count.
unsafe fn outputs(formula: &Formula, all: &Rows) -> Result<[ColumnMut; MAX_OUTPUTS], Failure> {
    counted(formula, "results", formula.outputs.len(), all.result_count, all.results.is_null())?;
    let mut ys = [ColumnMut { at: std::ptr::null_mut(), step: 0 }; MAX_OUTPUTS];
    for (k, y) in ys[..formula.outputs.len()].iter_mut().enumerate() {
        // SAFETY: the caller's promise.
        let tenths_result_column { first, stride } = unsafe { all.results.add(k).read() };
        let name = formula.output_name(k);
        if stride == 0 && !first.is_null() {
            return Err(Failure::NoStride(name));
        }
        *y = ColumnMut { at: first.cast(), step: walkable(name, first, stride, all.count)? };
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
    match () {
        () if !is_aligned(first, stride) => Err(Failure::Misaligned { name, stride }),
        () if !is_within_reach(stride, rows) => Err(Failure::Column { name, stride, rows }),
        () => Ok(stride),
    }
}

fn is_aligned(first: *const f64, stride: isize) -> bool {
    first.is_aligned() && stride.unsigned_abs().is_multiple_of(align_of::<f64>())
}

fn is_within_reach(stride: isize, rows: usize) -> bool {
    can_hold(rows, stride.unsigned_abs().max(size_of::<f64>()))
}

/// Whether memory can have so many elements of so many bytes.
fn can_hold(rows: usize, bytes: usize) -> bool {
    rows.checked_mul(bytes).is_some_and(|bytes| isize::try_from(bytes).is_ok())
}

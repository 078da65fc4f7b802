//! Readings judged by limits, many at once: for one pair of limits or for a pair in each row.
use crate::array::{floats_of, to_array};
use crate::error::{named, value_error};
use crate::number::Wanted;
use crate::size::{PySize, limits_of, size_of as size, units_of};
use crate::ufunc::{self, NPY_BOOL, NPY_DOUBLE, Operands, in_pieces, write};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyList, PyString};
use std::collections::HashMap;
use std::ffi::{c_char, c_void};
use std::slice;
use tenths::formula::{Column, ColumnMut};
use tenths::limits::{RowLimitsError, accept_rows};
use tenths::{Readings, Size, Units};

/// The step of an instrument, in the unit of a side where it is a number.
pub fn step(resolution: Option<&Bound<'_, PyAny>>, units: Units) -> PyResult<Option<Size>> {
    match resolution {
        None => Ok(None),
        Some(step) if step.is_instance_of::<PySize>() || step.is_instance_of::<PyString>() => {
            size(step).map(Some)
        }
        Some(step) => match Wanted::length("accepts", "resolution", units).number(step)? {
            Some(step) => Size::step_from_float(step, units).map(Some).map_err(value_error),
            None => Err(PyTypeError::new_err("the resolution is one number, a Size or text with a unit")),
        },
    }
}

/// The least and the greatest float that limits accept, for readings in the unit of a side.
#[pyfunction]
pub fn _good_readings(
    limits: &Bound<'_, PyAny>,
    units: &str,
    resolution: Option<&Bound<'_, PyAny>>,
) -> PyResult<(f64, f64)> {
    let units = units_of(units)?;
    let step = step(resolution, units)?;
    Ok(limits_of(limits)?.readings(units, step).map_err(value_error)?.ends())
}

/// Whether each reading is good by limits of its own: of columns of readings, lower and upper limits, arrays of floats in one
/// piece, the verdicts go into an array of bools. The labels of the rows serve an error.
#[pyfunction]
pub fn _accept_rows(
    columns: [Bound<'_, PyAny>; 3],
    verdicts: &Bound<'_, PyAny>,
    units: &str,
    resolution: Option<&Bound<'_, PyAny>>,
    labels: Option<&Bound<'_, PyAny>>,
) -> PyResult<()> {
    let (py, units) = (verdicts.py(), units_of(units)?);
    let step = step(resolution, units)?;
    let columns = [floats_of(&columns[0])?, floats_of(&columns[1])?, floats_of(&columns[2])?];
    let (count, mut piece) = (columns[0].len(), [false; PIECE]);
    let to = bools_of(verdicts, count)?;
    for start in (0..count).step_by(PIECE) {
        let rows = start..count.min(start + PIECE);
        let piece = &mut piece[..rows.len()];
        let [readings, lower, upper] = columns.map(|column| column.get(rows.clone()).unwrap_or_default());
        accept_rows(readings, lower, upper, units, step, piece)
            .map_err(|error| fault(py, error.from_row(start), labels))?;
        // SAFETY: the array has an element for each row.
        unsafe { put(ColumnMut { at: to.wrapping_add(start), step: 1 }, piece) };
    }
    Ok(())
}

/// Where the elements of an array of so many bools are, which lies in one piece and may be written to.
fn bools_of(array: &Bound<'_, PyAny>, count: usize) -> PyResult<*mut u8> {
    let interface = array.getattr("__array_interface__")?;
    let typestr: String = interface.get_item("typestr")?.extract()?;
    let (address, is_constant): (usize, bool) = interface.get_item("data")?.extract()?;
    let in_one_piece = interface.get_item("strides")?.is_none();
    let size: usize = array.getattr("size")?.extract()?;
    if typestr != "|b1" || is_constant || !in_one_piece || size != count {
        return Err(PyTypeError::new_err("the verdicts go into an array of bools, in one piece"));
    }
    Ok(std::ptr::with_exposed_provenance_mut(address))
}

fn fault(py: Python<'_>, error: RowLimitsError, labels: Option<&Bound<'_, PyAny>>) -> PyErr {
    match error {
        RowLimitsError::Limits { row: Some(row), error } => of_row(py, row, labels, value_error(error)),
        error => value_error(error),
    }
}

/// An error with its row before it, by its label where it has one.
fn of_row(py: Python<'_>, row: usize, labels: Option<&Bound<'_, PyAny>>, error: PyErr) -> PyErr {
    match labels.and_then(|labels| labels.get_item(row).ok()) {
        Some(label) => named(py, format!("row {label}"), error),
        None => named(py, format!("row {row}"), error),
    }
}

/// Lower and upper limits in the unit of a side, of a list of Limits or texts: two arrays, with NaN for None.
#[pyfunction]
pub fn _limits_of_rows<'py>(
    rows: &Bound<'py, PyList>,
    units: &str,
    labels: Option<&Bound<'py, PyAny>>,
) -> PyResult<(Bound<'py, PyAny>, Bound<'py, PyAny>)> {
    let (py, units) = (rows.py(), units_of(units)?);
    // A table has few texts, which stand in many rows.
    let mut known: HashMap<String, [f64; 2]> = HashMap::new();
    let mut limits_in = |limits: Bound<'py, PyAny>| -> PyResult<[f64; 2]> {
        if limits.is_none() {
            return Ok([f64::NAN; 2]);
        }
        let text = limits.cast::<PyString>().ok().map(|text| text.to_string());
        if let Some(ends) = text.as_ref().and_then(|text| known.get(text)) {
            return Ok(*ends);
        }
        let limits = limits_of(&limits)?;
        let ends = [limits.lower(), limits.upper()].map(|limit| limit.to_float(units));
        known.extend(text.map(|text| (text, ends)));
        Ok(ends)
    };
    let mut ends = [Vec::with_capacity(rows.len()), Vec::with_capacity(rows.len())];
    for (row, limits) in rows.iter().enumerate() {
        let [lower, upper] = limits_in(limits).map_err(|error| of_row(py, row, labels, error))?;
        ends[0].push(lower);
        ends[1].push(upper);
    }
    Ok((to_array(py, &ends[0])?, to_array(py, &ends[1])?))
}

/// The ufunc that tells of readings, least and greatest readings whether each is between.
#[pyfunction]
pub fn _within(py: Python<'_>) -> PyResult<Py<PyAny>> {
    const DOC: &str = "Whether readings lie from the least to the greatest good one, both of which are good.";
    ufunc::make(py, ("within", DOC), std::ptr::null_mut(), judge, &[NPY_DOUBLE; 3], &[NPY_BOOL])
}

/// Rows that are judged at a time, in the first cache.
const PIECE: usize = 4096;

/// # Safety
/// Called by numpy with the operands of [`_within`].
unsafe extern "C" fn judge(args: *mut *mut c_char, dims: *mut isize, steps: *mut isize, _data: *mut c_void) {
    let operands = Operands { args, steps };
    // SAFETY: numpy gives one pointer and step an operand, and the count.
    let (rows, columns, accepted) =
        unsafe { (*dims as usize, [0, 1, 2].map(|k| operands.column(k)), operands.column_mut(3)) };
    let mut verdicts = [false; PIECE];
    in_pieces(rows, 16 * PIECE, |start, count| {
        for first in (start..start + count).step_by(PIECE) {
            let verdicts = &mut verdicts[..(start + count - first).min(PIECE)];
            // SAFETY: numpy's columns are valid for `rows` aligned elements at their steps.
            unsafe {
                judge_piece(columns.map(|column| column.from_row(first)), verdicts);
                put(accepted.from_row(first), verdicts);
            }
        }
    });
    ufunc::clear_flags();
}

/// # Safety
/// The columns are valid for as many aligned numbers as there are verdicts.
unsafe fn judge_piece([readings, least, greatest]: [Column; 3], verdicts: &mut [bool]) {
    // SAFETY: the caller's promise.
    let number = |column: Column, row| unsafe { column.from_row(row).at.cast::<f64>().read() };
    if readings.step == WORD && least.step == 0 && greatest.step == 0 {
        // SAFETY: as above; they lie in one piece.
        let readings = unsafe { slice::from_raw_parts(readings.at.cast(), verdicts.len()) };
        return Readings::from_ends(number(least, 0), number(greatest, 0)).accept_all(readings, verdicts);
    }
    for (row, verdict) in verdicts.iter_mut().enumerate() {
        *verdict =
            Readings::from_ends(number(least, row), number(greatest, row)).accepts(number(readings, row));
    }
}

/// The step of numbers that lie in one piece.
const WORD: isize = size_of::<f64>() as isize;

/// # Safety
/// The column is valid for as many bytes.
unsafe fn put(column: ColumnMut, verdicts: &[bool]) {
    // SAFETY: the caller's promise.
    unsafe {
        if column.step == 1 {
            column.at.copy_from_nonoverlapping(verdicts.as_ptr().cast(), verdicts.len());
        } else {
            verdicts.iter().enumerate().for_each(|(row, verdict)| write(column, row, *verdict));
        }
    }
}

//! A `numpy.ufunc` for a record on one side. One loop function serves them all: the record is its data.
use crate::number::is_flag;
use crate::watch::goes_on;
use pyo3::exceptions::{PyRuntimeError, PyValueError};
use pyo3::ffi::{self, PyObject};
use pyo3::prelude::*;
use std::cell::Cell;
use std::ffi::{CString, c_char, c_int, c_void};
use std::hint::black_box;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::ptr;
use std::sync::OnceLock;
use tenths::formula::{Column, ColumnMut, Formula, MAX_INPUTS, MAX_OUTPUTS, Met, Row};
use tenths::{Units, Watch};

pub type Loop = unsafe extern "C" fn(*mut *mut c_char, *mut isize, *mut isize, *mut c_void);
type Make = unsafe extern "C" fn(
    *mut Loop,
    *mut *mut c_void,
    *mut c_char,
    c_int,
    c_int,
    c_int,
    c_int,
    *const c_char,
    *const c_char,
    c_int,
) -> *mut PyObject;

/// The functions of numpy's C API that are needed, by their places in its tables.
pub struct Numpy {
    /// `PyUFunc_FromFuncAndData`.
    make: Make,
    /// `PyUFunc_clearfperr`.
    clear_flags: unsafe extern "C" fn(),
    /// `PyDataMem_SetHandler`.
    pub set_handler: unsafe extern "C" fn(*mut PyObject) -> *mut PyObject,
}

/// Read by loops, which do not hold the interpreter.
static NUMPY: OnceLock<Numpy> = OnceLock::new();
pub const NPY_BOOL: c_char = 0;
const NPY_UINT: c_char = 6;
pub const NPY_DOUBLE: c_char = 12;

impl Numpy {
    pub fn get(py: Python<'_>) -> PyResult<&'static Numpy> {
        if let Some(numpy) = NUMPY.get() {
            return Ok(numpy);
        }
        // numpy 2 moved the module and left the old name as an alias that warns.
        let module = ["numpy._core._multiarray_umath", "numpy.core._multiarray_umath"]
            .into_iter()
            .find_map(|name| PyModule::import(py, name).ok())
            .ok_or_else(|| PyRuntimeError::new_err("numpy cannot be imported"))?;
        let (ufuncs, arrays) = (table(&module, "_UFUNC_API")?, table(&module, "_ARRAY_API")?);
        // SAFETY: these places are part of numpy's stable ABI, the first two since 1.0 and the third since 1.22.
        let numpy = unsafe {
            Numpy {
                make: std::mem::transmute::<*const c_void, Make>(*ufuncs.add(1)),
                clear_flags: std::mem::transmute::<*const c_void, unsafe extern "C" fn()>(*ufuncs.add(27)),
                set_handler: std::mem::transmute::<
                    *const c_void,
                    unsafe extern "C" fn(*mut PyObject) -> *mut PyObject,
                >(*arrays.add(304)),
            }
        };
        Ok(NUMPY.get_or_init(|| numpy))
    }
}

/// A table of function pointers, which a capsule of numpy's holds.
fn table(module: &Bound<'_, PyModule>, name: &str) -> PyResult<*const *const c_void> {
    let capsule = module.getattr(name)?;
    // SAFETY: so numpy says.
    let table = unsafe { ffi::PyCapsule_GetPointer(capsule.as_ptr(), ptr::null()) };
    if table.is_null() { Err(PyErr::fetch(module.py())) } else { Ok(table.cast()) }
}

/// What a loop is given; it lives as long as the process, since numpy keeps the pointer.
pub struct Data {
    pub formula: &'static Formula,
    pub units: Units,
    /// The argument that is sought and the result from which, by place; of no meaning to the others.
    pub sought: (usize, usize),
}

/// Rows between two looks at the signals.
const PIECE: usize = 1 << 16;
/// Rows of a loop that is over soon, or of a piece where numpy converts them: it gives 8192 at a time.
const FEW: usize = 1024;

thread_local! {
    /// How many threads share the rows of a loop that this thread calls.
    static THREADS: Cell<usize> = const { Cell::new(1) };
}

/// Lets so many threads share the rows of large tables that this thread computes, as long as it lives.
pub struct Threads {
    before: usize,
}

impl Threads {
    /// As the `threads=` of a call asks for them: None is as many as the machine runs at once.
    pub fn read(py: Python<'_>, object: *mut PyObject) -> PyResult<Threads> {
        // SAFETY: an argument of a call, which lives while it lasts.
        let object = unsafe { Bound::from_borrowed_ptr(py, object) };
        let wanted = match object.is_none() {
            true => 0,
            false if is_flag(&object) => usize::MAX,
            false => object.extract::<usize>().ok().filter(|count| *count > 0).unwrap_or(usize::MAX),
        };
        if wanted == usize::MAX {
            let message =
                format!("threads must be a whole number of at least 1, or None, not {}", object.repr()?);
            return Err(PyValueError::new_err(message));
        }
        Ok(Threads { before: THREADS.replace(wanted) })
    }
}

impl Drop for Threads {
    fn drop(&mut self) {
        THREADS.set(self.before);
    }
}

/// Raises the IEEE invalid flag in this thread, which numpy reads after the loop.
#[inline(never)]
pub fn raise_invalid() {
    black_box(black_box(f64::INFINITY) - black_box(f64::INFINITY));
}

/// The operands that a loop of numpy's is given: a pointer and a step each.
pub struct Operands {
    pub args: *mut *mut c_char,
    pub steps: *mut isize,
}

impl Operands {
    /// # Safety
    /// There is an operand `k`.
    pub unsafe fn column(&self, k: usize) -> Column {
        // SAFETY: the caller's promise.
        unsafe { Column { at: (*self.args.add(k)).cast(), step: *self.steps.add(k) } }
    }

    /// # Safety
    /// There is an operand `k`.
    pub unsafe fn column_mut(&self, k: usize) -> ColumnMut {
        // SAFETY: the caller's promise.
        unsafe { ColumnMut { at: (*self.args.add(k)).cast(), step: *self.steps.add(k) } }
    }

    /// The arguments of a formula.
    ///
    /// # Safety
    /// They are the first operands.
    pub unsafe fn arguments(&self, formula: &Formula) -> [Column; MAX_INPUTS] {
        let count = formula.arguments.len();
        // SAFETY: the caller's promise.
        std::array::from_fn(|k| if k < count { unsafe { self.column(k) } } else { NOWHERE })
    }
}

const NOWHERE: Column = Column { at: ptr::null(), step: 0 };
const UNWANTED: ColumnMut = ColumnMut { at: ptr::null_mut(), step: 0 };

/// Computes rows: bad ones become NaN.
///
/// # Safety
/// Called by numpy with the operands of the ufunc that `data` was given to.
unsafe extern "C" fn compute(args: *mut *mut c_char, dims: *mut isize, steps: *mut isize, data: *mut c_void) {
    // SAFETY: `data` is the leaked `Data`, and numpy gives one pointer and step an operand, and the count.
    let (Data { formula, units, .. }, rows) = unsafe { (&*data.cast::<Data>(), *dims as usize) };
    let (inputs, outputs) = (formula.arguments.len(), formula.outputs.len());
    let operands = Operands { args, steps };
    // SAFETY: as above.
    let xs = unsafe { operands.arguments(formula) };
    let ys: [ColumnMut; MAX_OUTPUTS] = std::array::from_fn(|k| match k < outputs {
        // SAFETY: as above.
        true => unsafe { operands.column_mut(inputs + k) },
        false => UNWANTED,
    });
    let mut met = Met::default();
    let batch = AssertUnwindSafe(|| {
        let (xs, ys) = (&xs[..inputs], &ys[..outputs]);
        // SAFETY: numpy's columns are valid for `rows` aligned elements at their steps.
        unsafe {
            if rows >= FEW && goes_on().is_break() {
                return;
            }
            if rows < FEW {
                met = formula.batch_raw(*units, xs, ys, rows, None);
            } else {
                let (watch, reached) = (Watch::telling(|_| goes_on()), &mut 0);
                let batch =
                    formula.batch_raw_watched(*units, xs, ys, rows, None, THREADS.get(), (&watch, reached));
                // Nobody sees the rows of stopped work.
                met = batch.unwrap_or_default();
            }
        }
    });
    if let Err(payload) = catch_unwind(batch) {
        std::mem::forget(payload); // dropping it might panic again
        for y in &ys[..outputs] {
            // SAFETY: as above.
            unsafe { fill(*y, rows, f64::NAN) };
        }
        met.refused = true;
    }
    clear_flags();
    if met.refused {
        raise_invalid();
    }
}

/// Judges rows: whether each is refused, and its advice.
///
/// # Safety
/// As for `compute`.
unsafe extern "C" fn judge(args: *mut *mut c_char, dims: *mut isize, steps: *mut isize, data: *mut c_void) {
    // SAFETY: as for `compute`.
    let (Data { formula, units, .. }, rows) = unsafe { (&*data.cast::<Data>(), *dims as usize) };
    let (inputs, outputs) = (formula.arguments.len(), formula.outputs.len());
    let operands = Operands { args, steps };
    // SAFETY: as above; the two results come after the arguments.
    let (xs, refused, advice) = unsafe {
        (operands.arguments(formula), operands.column_mut(inputs), operands.column_mut(inputs + 1))
    };
    let batch = AssertUnwindSafe(|| {
        in_pieces(rows, PIECE, |start, count| {
            let (refused, advice) = (refused.from_row(start), advice.from_row(start));
            let xs = xs.map(|x| x.from_row(start));
            // SAFETY: as above.
            unsafe {
                fill(refused, count, false);
                fill(advice, count, 0u32);
                let mut tell = |row: Row| match row.verdict {
                    Ok(concerned) => write(advice, row.number, concerned.0),
                    Err(_) => write(refused, row.number, true),
                };
                let ys = &[UNWANTED; MAX_OUTPUTS][..outputs];
                formula.batch_raw(*units, &xs[..inputs], ys, count, Some(&mut tell));
            }
        });
    });
    if let Err(payload) = catch_unwind(batch) {
        std::mem::forget(payload); // dropping it might panic again
        // SAFETY: as above.
        unsafe { fill(refused, rows, true) };
    }
    clear_flags();
}

/// Does the rows of a loop piece by piece, by their first and their count, as long as no signal stops it.
pub fn in_pieces(rows: usize, size: usize, mut piece: impl FnMut(usize, usize)) {
    for start in (0..rows).step_by(size) {
        if rows >= FEW && goes_on().is_break() {
            return;
        }
        piece(start, size.min(rows - start));
    }
}

/// # Safety
/// The column is valid for an aligned `T` at `row`.
pub unsafe fn write<T>(column: ColumnMut, row: usize, value: T) {
    // SAFETY: the caller's promise.
    unsafe { column.at.offset(row as isize * column.step).cast::<T>().write(value) };
}

/// # Safety
/// The column is valid for `rows` aligned `T`.
pub unsafe fn fill<T: Copy>(column: ColumnMut, rows: usize, value: T) {
    for row in 0..rows {
        // SAFETY: the caller's promise.
        unsafe { write(column, row, value) };
    }
}

/// Vector lanes that were thrown away leave flags behind.
pub fn clear_flags() {
    if let Some(numpy) = NUMPY.get() {
        // SAFETY: it takes nothing and touches the flags of this thread alone.
        unsafe { (numpy.clear_flags)() };
    }
}

/// The ufunc of a record on one side.
pub fn computing(py: Python<'_>, formula: &'static Formula, units: Units) -> PyResult<Py<PyAny>> {
    of_formula(py, Data { formula, units, sought: (0, 0) }, compute, &vec![NPY_DOUBLE; formula.outputs.len()])
}

/// The ufunc that gives for each row whether it is refused, and advice on it by bit.
pub fn judging(py: Python<'_>, formula: &'static Formula, units: Units) -> PyResult<Py<PyAny>> {
    of_formula(py, Data { formula, units, sought: (0, 0) }, judge, &[NPY_BOOL, NPY_UINT])
}

/// The ufunc that solves for an argument, whose loop is given.
pub fn solving(py: Python<'_>, data: Data, run: Loop) -> PyResult<Py<PyAny>> {
    of_formula(py, data, run, &[NPY_DOUBLE])
}

fn of_formula(py: Python<'_>, data: Data, run: Loop, results: &[c_char]) -> PyResult<Py<PyAny>> {
    let formula = data.formula;
    let data: *mut Data = Box::leak(Box::new(data));
    make(
        py,
        (formula.name, formula.doc),
        data.cast(),
        run,
        &vec![NPY_DOUBLE; formula.arguments.len()],
        results,
    )
}

/// A ufunc of one loop, of a name and a documentation, whose data live as long as the process.
pub fn make(
    py: Python<'_>,
    (name, doc): (&str, &str),
    data: *mut c_void,
    run: Loop,
    arguments: &[c_char],
    results: &[c_char],
) -> PyResult<Py<PyAny>> {
    let numpy = Numpy::get(py)?;
    let loops = Box::leak(Box::new([run]));
    let data = Box::leak(Box::new([data]));
    let types = [arguments, results].concat().leak();
    let (name, doc) = (CString::new(name)?.into_raw(), CString::new(doc)?.into_raw());
    // SAFETY: everything that numpy keeps a pointer to has been leaked; identity -1 is "none".
    unsafe {
        let made = (numpy.make)(
            loops.as_mut_ptr(),
            data.as_mut_ptr(),
            types.as_mut_ptr(),
            1,
            arguments.len() as c_int,
            results.len() as c_int,
            -1,
            name,
            doc,
            0,
        );
        Ok(Bound::from_owned_ptr_or_err(py, made)?.unbind())
    }
}

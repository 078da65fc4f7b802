//! The fast road into a formula: a subtype with one pointer more, which the interpreter calls directly.
use crate::formula::{OPTIONS, PyFormula};
use pyo3::exceptions::{PySystemError, PyTypeError};
use pyo3::ffi::{self, PyObject};
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyString, PyType};
use std::ffi::{c_int, c_uint, c_ulong, c_void};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::ptr;
use tenths::Units;
use tenths::formula::{Formula, MAX_INPUTS};

type Vectorcall =
    unsafe extern "C" fn(*mut PyObject, *const *mut PyObject, usize, *mut PyObject) -> *mut PyObject;

/// # Safety
/// Called by the interpreter, with `slf` of the type made below.
unsafe extern "C" fn vectorcall(
    slf: *mut PyObject,
    args: *const *mut PyObject,
    nargsf: usize,
    names: *mut PyObject,
) -> *mut PyObject {
    // The highest bit of the count is the interpreter's own.
    let positional = nargsf & (usize::MAX >> 1);
    // SAFETY: the interpreter calls with its lock held, a tuple of names or null, and as many values.
    unsafe {
        let py = Python::assume_attached();
        let slf = Bound::from_borrowed_ptr(py, slf);
        let formula = slf.cast_unchecked::<PyFormula>().get();
        let mut keywords = [ptr::null_mut(); MAX_INPUTS + OPTIONS.len()];
        let count = if names.is_null() { 0 } else { ffi::PyTuple_Size(names) as usize };
        let mut call = || {
            if count > keywords.len() {
                return Err(PyTypeError::new_err("too many keyword arguments"));
            }
            for (k, keyword) in keywords[..count].iter_mut().enumerate() {
                *keyword = ffi::PyTuple_GetItem(names, k as isize);
            }
            let all = match positional + count {
                0 => &[][..],
                all => std::slice::from_raw_parts(args, all),
            };
            formula.invoke(py, all, &keywords[..count])
        };
        // The error is put down inside, since carrying it out through the guard costs the good road as well.
        let guarded = || {
            call().unwrap_or_else(|error| {
                error.restore(py);
                ptr::null_mut()
            })
        };
        catch_unwind(AssertUnwindSafe(guarded)).unwrap_or_else(|payload| {
            std::mem::forget(payload);
            PySystemError::new_err("a bug in tenths: a panic was caught").restore(py);
            ptr::null_mut()
        })
    }
}

/// # Safety
/// Called by the interpreter, with `slf` of the type made below.
unsafe extern "C" fn doc(slf: *mut PyObject, _: *mut c_void) -> *mut PyObject {
    // SAFETY: as for `vectorcall`.
    unsafe {
        let py = Python::assume_attached();
        let slf = Bound::from_borrowed_ptr(py, slf);
        PyString::new(py, &slf.cast_unchecked::<PyFormula>().get().doc()).into_ptr()
    }
}

const HAVE_VECTORCALL: c_ulong = 1 << 11; // named in the limited API from 3.12 on, there since 3.8
const MEMBER_OFFSET: c_int = 19; // T_PYSSIZET, with the flag READONLY = 1

fn make_type(py: Python<'_>) -> PyResult<(Py<PyType>, usize)> {
    let base = py.get_type::<PyFormula>();
    let size: usize = base.getattr("__basicsize__")?.extract()?;
    let members = vec![
        ffi::PyMemberDef {
            name: c"__vectorcalloffset__".as_ptr(),
            type_code: MEMBER_OFFSET,
            offset: size as isize,
            flags: 1,
            doc: ptr::null(),
        },
        // SAFETY: a row of zeros ends the list.
        unsafe { std::mem::zeroed() },
    ]
    .leak();
    let getters = vec![
        ffi::PyGetSetDef {
            name: c"__doc__".as_ptr(),
            get: Some(doc),
            set: None,
            doc: ptr::null(),
            closure: ptr::null_mut(),
        },
        // SAFETY: as above.
        unsafe { std::mem::zeroed() },
    ]
    .leak();
    let mut slots = [
        ffi::PyType_Slot { slot: ffi::Py_tp_members, pfunc: members.as_mut_ptr().cast() },
        ffi::PyType_Slot { slot: ffi::Py_tp_getset, pfunc: getters.as_mut_ptr().cast() },
        ffi::PyType_Slot { slot: 0, pfunc: ptr::null_mut() },
    ];
    let mut spec = ffi::PyType_Spec {
        name: c"tenths.Formula".as_ptr(),
        basicsize: (size + size_of::<Vectorcall>()) as c_int,
        itemsize: 0,
        // Not an immutable type, which may have no mutable base from Python 3.14 on.
        flags: (ffi::Py_TPFLAGS_DEFAULT | HAVE_VECTORCALL) as c_uint,
        slots: slots.as_mut_ptr(),
    };
    // SAFETY: the spec and what it points to are sound; members and getters outlive the type.
    let made = unsafe { ffi::PyType_FromSpecWithBases(&mut spec, base.as_ptr()) };
    // SAFETY: a new reference, or null with an exception set.
    Ok((unsafe { Bound::from_owned_ptr_or_err(py, made)? }.cast_into::<PyType>()?.unbind(), size))
}

/// The callable of a record on one side.
pub fn callable<'py>(py: Python<'py>, record: &'static Formula, units: Units) -> PyResult<Bound<'py, PyAny>> {
    static TYPE: PyOnceLock<(Py<PyType>, usize)> = PyOnceLock::new();
    let (made, offset) = TYPE.get_or_try_init(py, || make_type(py))?;
    let object = made.bind(py).call1((record.name, units.name()))?;
    // SAFETY: the type has room for one pointer at `offset`, which the interpreter reads as the vectorcall slot.
    unsafe { object.as_ptr().cast::<u8>().add(*offset).cast::<Vectorcall>().write(vectorcall) };
    Ok(object)
}

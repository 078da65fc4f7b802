//! Memory for the columns that a table call makes.
//!
//! The system fills memory with zeros, page by page, when it is first touched, which takes longer than most formulas do. So
//! a few freed blocks are kept for the next call. numpy takes them through its interface for allocators (NEP 49), so that
//! the arrays own their memory as any others do.
use crate::number::is_array;
use crate::ufunc::Numpy;
use pyo3::ffi::{self, PyObject};
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use std::alloc::{Layout, alloc, dealloc};
use std::ffi::{c_char, c_void};
use std::ptr;
use std::sync::{Mutex, MutexGuard, TryLockError};

/// Blocks of at least so many bytes are kept; smaller ones are handed out fast enough.
const MIN_KEPT: usize = 1 << 20;
/// How many bytes are kept at most: twelve columns of a million rows, and some more.
const MAX_KEPT: usize = 128 << 20;

/// A freed block of so many bytes, which nobody reads any more.
struct Block {
    at: *mut c_void,
    size: usize,
}

// SAFETY: the block belongs to whoever holds this.
unsafe impl Send for Block {}

struct Kept {
    blocks: Vec<Block>,
    bytes: usize,
}

static KEPT: Mutex<Kept> = Mutex::new(Kept { blocks: Vec::new(), bytes: 0 });

/// The kept blocks, unless another thread has them: a child process might wait for it in vain.
fn kept() -> Option<MutexGuard<'static, Kept>> {
    match KEPT.try_lock() {
        Ok(kept) => Some(kept),
        Err(TryLockError::Poisoned(poisoned)) => Some(poisoned.into_inner()),
        Err(TryLockError::WouldBlock) => None,
    }
}

/// Before a block stands its size; as much as keeps the block on a line of memory.
const HEAD: usize = 64;

fn layout(size: usize) -> Option<Layout> {
    Layout::from_size_align(size.checked_add(HEAD)?, HEAD).ok()
}

/// # Safety
/// `at` came from [`allocate`].
unsafe fn size_of_block(at: *mut c_void) -> usize {
    // SAFETY: so it was written.
    unsafe { at.byte_sub(HEAD).cast::<usize>().read() }
}

/// # Safety
/// `at` came from [`allocate`], and nobody uses it any more.
unsafe fn give_back(at: *mut c_void, size: usize) {
    if let Some(layout) = layout(size) {
        // SAFETY: so it was allocated.
        unsafe { dealloc(at.byte_sub(HEAD).cast(), layout) };
    }
}

unsafe extern "C" fn allocate(_: *mut c_void, size: usize) -> *mut c_void {
    if size >= MIN_KEPT
        && let Some(mut kept) = kept()
        && let Some(place) = kept.blocks.iter().position(|block| block.size == size)
    {
        kept.bytes -= size;
        return kept.blocks.swap_remove(place).at;
    }
    let Some(layout) = layout(size) else { return ptr::null_mut() };
    // SAFETY: the layout is not empty, and has room for the size.
    unsafe {
        let head = alloc(layout);
        if head.is_null() {
            return ptr::null_mut();
        }
        ask_for_large_pages(head, layout.size());
        head.cast::<usize>().write(size);
        head.byte_add(HEAD).cast()
    }
}

unsafe extern "C" fn allocate_zeroed(context: *mut c_void, count: usize, size: usize) -> *mut c_void {
    let Some(size) = count.checked_mul(size) else { return ptr::null_mut() };
    // SAFETY: the block has so many bytes.
    unsafe {
        let made = allocate(context, size);
        if !made.is_null() {
            made.write_bytes(0, size);
        }
        made
    }
}

unsafe extern "C" fn reallocate(context: *mut c_void, at: *mut c_void, size: usize) -> *mut c_void {
    // SAFETY: numpy gives a block of ours, or null; both have room for what is copied.
    unsafe {
        let made = allocate(context, size);
        if !made.is_null() && !at.is_null() {
            made.copy_from_nonoverlapping(at, size.min(size_of_block(at)));
            free(context, at, 0);
        }
        made
    }
}

unsafe extern "C" fn free(_: *mut c_void, at: *mut c_void, _size: usize) {
    if at.is_null() {
        return;
    }
    // SAFETY: numpy gives back a block of ours.
    let size = unsafe { size_of_block(at) };
    if size >= MIN_KEPT
        && let Some(mut kept) = kept()
        && kept.bytes + size <= MAX_KEPT
    {
        kept.bytes += size;
        kept.blocks.push(Block { at, size });
        return;
    }
    // SAFETY: as above.
    unsafe { give_back(at, size) };
}

/// Asks the system for pages of megabytes, of which it needs fewer.
#[cfg(target_os = "linux")]
fn ask_for_large_pages(at: *mut u8, size: usize) {
    const PAGE: usize = 4096;
    const MADV_HUGEPAGE: std::ffi::c_int = 14;
    unsafe extern "C" {
        fn madvise(at: *mut c_void, length: usize, advice: std::ffi::c_int) -> std::ffi::c_int;
    }
    if size >= 4 << 20 {
        let before = at.align_offset(PAGE);
        // SAFETY: it changes how whole pages of the block are made, not what is in them; a refusal does no harm.
        unsafe { madvise(at.wrapping_add(before).cast(), (size - before) / PAGE * PAGE, MADV_HUGEPAGE) };
    }
}

#[cfg(not(target_os = "linux"))]
fn ask_for_large_pages(_: *mut u8, _: usize) {}

/// Gives the memory that freed columns of tables left for later calls back to the system: how many bytes they were, 128 MiB at
/// most.
///
///     >>> tenths.release_memory() >= 0
///     True
#[pyfunction]
pub fn release_memory() -> usize {
    let Some(mut kept) = kept() else { return 0 };
    let (blocks, bytes) = (std::mem::take(&mut kept.blocks), std::mem::take(&mut kept.bytes));
    drop(kept);
    for Block { at, size } in blocks {
        // SAFETY: a kept block belongs to nobody else.
        unsafe { give_back(at, size) };
    }
    bytes
}

/// numpy's `PyDataMem_Handler`.
#[repr(C)]
struct Handler {
    name: [c_char; 127],
    version: u8,
    context: *mut c_void,
    malloc: unsafe extern "C" fn(*mut c_void, usize) -> *mut c_void,
    calloc: unsafe extern "C" fn(*mut c_void, usize, usize) -> *mut c_void,
    realloc: unsafe extern "C" fn(*mut c_void, *mut c_void, usize) -> *mut c_void,
    free: unsafe extern "C" fn(*mut c_void, *mut c_void, usize),
}

// SAFETY: nobody writes to it.
unsafe impl Sync for Handler {}

static HANDLER: Handler = Handler {
    name: named(b"tenths"),
    version: 1,
    context: ptr::null_mut(),
    malloc: allocate,
    calloc: allocate_zeroed,
    realloc: reallocate,
    free,
};

const fn named(text: &[u8]) -> [c_char; 127] {
    let mut name = [0; 127];
    let mut k = 0;
    while k < text.len() {
        name[k] = text[k] as c_char;
        k += 1;
    }
    name
}

/// Arrays that numpy makes in this thread take kept blocks, as long as it lives.
pub struct KeptMemory<'py> {
    before: Bound<'py, PyAny>,
}

impl<'py> KeptMemory<'py> {
    /// For a call with arrays, if one of them is large.
    pub fn for_call(py: Python<'py>, arguments: &[*mut PyObject]) -> PyResult<Option<KeptMemory<'py>>> {
        for &argument in arguments.iter().filter(|argument| !argument.is_null()) {
            // SAFETY: the objects of a call are alive while it lasts.
            let argument = unsafe { Bound::from_borrowed_ptr(py, argument) };
            if size(&argument)? >= MIN_KEPT / size_of::<f64>() {
                return KeptMemory::begin(py).map(Some);
            }
        }
        Ok(None)
    }

    fn begin(py: Python<'py>) -> PyResult<KeptMemory<'py>> {
        static CAPSULE: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
        let capsule = CAPSULE.get_or_try_init(py, || {
            let handler = (&raw const HANDLER).cast_mut().cast();
            // SAFETY: the handler lives as long as the process.
            unsafe {
                let made = ffi::PyCapsule_New(handler, c"mem_handler".as_ptr(), None);
                Bound::from_owned_ptr_or_err(py, made).map(Bound::unbind)
            }
        })?;
        Ok(KeptMemory { before: set(py, capsule.as_ptr())? })
    }
}

impl Drop for KeptMemory<'_> {
    fn drop(&mut self) {
        if let Err(error) = set(self.before.py(), self.before.as_ptr()) {
            error.write_unraisable(self.before.py(), None);
        }
    }
}

/// Gives numpy another handler; gives back the one that it had.
fn set<'py>(py: Python<'py>, capsule: *mut PyObject) -> PyResult<Bound<'py, PyAny>> {
    let numpy = Numpy::get(py)?;
    // SAFETY: a capsule of a handler.
    unsafe { Bound::from_owned_ptr_or_err(py, (numpy.set_handler)(capsule)) }
}

/// How many numbers an array or a column of pandas' has; zero for anything else.
fn size(object: &Bound<'_, PyAny>) -> PyResult<usize> {
    let py = object.py();
    if is_array(object)? {
        return object.getattr(intern!(py, "size"))?.extract();
    }
    let module = object.get_type().module()?;
    let is_pandas = module.to_string_lossy().split('.').next() == Some("pandas");
    if is_pandas { object.len() } else { Ok(0) }
}

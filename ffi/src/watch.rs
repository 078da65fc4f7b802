//! Long work. It can be stopped, and tells how far it is.
use crate::handle::given;
use crate::status::Failure;
use std::ffi::{c_int, c_void};
use std::ops::ControlFlow;
use tenths::Watch;
use tenths_macros::export;

/// A function of the caller's that is told what fraction of some work is done: it rises to 1. Zero lets the work go on;
/// any other answer stops it, and the call returns `TENTHS_STOPPED`.
///
/// It is called from the thread that calls the library alone, every few milliseconds as a rule. It must neither throw
/// an exception nor jump out.
pub type tenths_progress = Option<unsafe extern "C" fn(context: *mut c_void, fraction: f64) -> c_int>;

/// By what long work is watched. Set by `tenths_watch_init`, then name the function.
#[repr(C)]
#[derive(Clone, Copy)]
pub struct tenths_watch {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_watch)`.
    pub struct_size: usize,
    /// The function; null for none.
    pub progress: tenths_progress,
    /// Handed to it at each call; may be null.
    pub context: *mut c_void,
}

/// Sets a watch without a function. Set `struct_size` before the call.
#[export(watch)]
pub(crate) fn watch_init() -> tenths_watch {
    let struct_size = size_of::<tenths_watch>();
    tenths_watch { struct_size, progress: None, context: std::ptr::null_mut() }
}

/// What is told, which goes to the thread of the call alone.
struct Told {
    progress: unsafe extern "C" fn(context: *mut c_void, fraction: f64) -> c_int,
    context: *mut c_void,
}

// SAFETY: a watch calls its function from the thread that called for the work.
unsafe impl Send for Told {}
// SAFETY: as above.
unsafe impl Sync for Told {}

impl Told {
    fn tell(&self, fraction: f64) -> ControlFlow<()> {
        // SAFETY: what the caller promised in naming the function.
        match unsafe { (self.progress)(self.context, fraction) } {
            0 => ControlFlow::Continue(()),
            _ => ControlFlow::Break(()),
        }
    }
}

/// A watch as the caller gave it; null for none.
///
/// # Safety
/// `pointer` is null or leads to a struct that begins with its size, and whose function may be called while the result is
/// used.
pub(crate) unsafe fn watch(pointer: *const tenths_watch) -> Result<Watch<'static>, Failure> {
    if pointer.is_null() {
        return Ok(Watch::new());
    }
    // SAFETY: the caller's promise.
    let tenths_watch { progress, context, .. } = unsafe { given(pointer, "tenths_watch") }?;
    let Some(progress) = progress else { return Ok(Watch::new()) };
    let told = Told { progress, context };
    Ok(Watch::telling(move |fraction| told.tell(fraction)))
}

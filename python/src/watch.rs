//! Long work: signals stop it, and `progress=` is told how far it is.
use pyo3::exceptions::PyTypeError;
use pyo3::ffi;
use pyo3::prelude::*;
use std::cell::{Cell, RefCell};
use std::ffi::{c_int, c_void};
use std::ops::ControlFlow;
use std::sync::Mutex;
use std::time::{Duration, Instant};
use tenths::Watch;

/// Between two looks at the signals, for each of which the interpreter is asked for.
const PAUSE: Duration = Duration::from_millis(50);

/// Does work without the interpreter, looks at the signals as it goes, and tells `progress` how far it is: a function of
/// the fraction that is done, or True for a bar. What a signal or that function raises stops the work.
pub fn watched<T: Send, E: Send>(
    py: Python<'_>,
    progress: Option<&Bound<'_, PyAny>>,
    work: impl FnOnce(&Watch<'_>) -> Result<T, E> + Send,
) -> PyResult<Result<T, E>> {
    let progress = Progress::of(py, progress)?;
    let (raised, last) = (Mutex::new(None), Mutex::new(Instant::now()));
    let look = |fraction: f64| {
        let Ok(mut last) = last.lock() else { return ControlFlow::Continue(()) };
        if fraction < 1.0 && last.elapsed() < PAUSE {
            return ControlFlow::Continue(());
        }
        let told = Python::attach(|py| py.check_signals().and_then(|()| progress.tell(py, fraction)));
        *last = Instant::now();
        match (told, raised.lock()) {
            (Err(error), Ok(mut raised)) => {
                *raised = Some(error);
                ControlFlow::Break(())
            }
            _ => ControlFlow::Continue(()),
        }
    };
    let watch = Watch::telling(look);
    let done = py.detach(|| work(&watch));
    drop(watch);
    let closed = progress.close(py);
    match raised.into_inner().ok().flatten() {
        Some(error) => Err(error),
        None => closed.map(|()| done),
    }
}

/// Whom to tell how far work is.
struct Progress {
    tell: Option<Py<PyAny>>,
    is_bar: bool,
}

impl Progress {
    fn of(py: Python<'_>, progress: Option<&Bound<'_, PyAny>>) -> PyResult<Progress> {
        let none = Progress { tell: None, is_bar: false };
        let Some(progress) = progress.filter(|progress| !progress.is_none()) else { return Ok(none) };
        match progress.extract::<bool>() {
            Ok(false) => Ok(none),
            Ok(true) => {
                let bar = PyModule::import(py, "tenths._progress")?.call_method0("bar")?;
                Ok(Progress { tell: Some(bar.unbind()), is_bar: true })
            }
            Err(_) if progress.is_callable() => {
                Ok(Progress { tell: Some(progress.clone().unbind()), is_bar: false })
            }
            Err(_) => Err(PyTypeError::new_err(format!(
                "progress must be True, False or a function of the fraction that is done, not {}",
                progress.repr()?
            ))),
        }
    }

    fn tell(&self, py: Python<'_>, fraction: f64) -> PyResult<()> {
        self.tell.as_ref().map_or(Ok(()), |tell| tell.call1(py, (fraction,)).map(drop))
    }

    fn close(&self, py: Python<'_>) -> PyResult<()> {
        match &self.tell {
            Some(bar) if self.is_bar => bar.call_method0(py, "close").map(drop),
            _ => Ok(()),
        }
    }
}

thread_local! {
    /// When a loop of this thread last looked at the signals.
    static LOOKED: Cell<Option<Instant>> = const { Cell::new(None) };
    /// What a signal raised in a loop of numpy's, until the interpreter takes it.
    static RAISED: RefCell<Option<PyErr>> = const { RefCell::new(None) };
}

/// Whether a loop of numpy's, which cannot raise an exception, goes on: not where a signal did. The interpreter raises
/// its exception as soon as numpy gives back the control, so that nobody sees the rows that are left out.
pub fn goes_on() -> ControlFlow<()> {
    if RAISED.with_borrow(Option::is_some) {
        return ControlFlow::Break(());
    }
    let now = Instant::now();
    if LOOKED.get().is_some_and(|looked| now.duration_since(looked) < PAUSE) {
        return ControlFlow::Continue(());
    }
    let signalled = signalled();
    LOOKED.set(Some(Instant::now()));
    let Some(error) = signalled else { return ControlFlow::Continue(()) };
    RAISED.set(Some(error));
    // SAFETY: the function takes nothing, and is called on this thread, the main one, which alone sees signals.
    if unsafe { ffi::Py_AddPendingCall(Some(raise), std::ptr::null_mut()) } != 0 {
        // There is no room: the signal comes again, after the work.
        RAISED.set(None);
        // SAFETY: it takes nothing.
        unsafe { ffi::PyErr_SetInterrupt() };
        return ControlFlow::Continue(());
    }
    ControlFlow::Break(())
}

/// What a signal raised. numpy gives the interpreter away behind the back of `Python::attach`, which would take it to be
/// held where a call of ours led to the loop.
fn signalled() -> Option<PyErr> {
    // SAFETY: a loop runs on a thread that the interpreter knows, and holds it between these two.
    unsafe {
        let state = ffi::PyGILState_Ensure();
        let raised = (ffi::PyErr_CheckSignals() != 0).then(|| PyErr::fetch(Python::assume_attached()));
        ffi::PyGILState_Release(state);
        raised
    }
}

extern "C" fn raise(_: *mut c_void) -> c_int {
    Python::attach(|py| match RAISED.take() {
        Some(error) => {
            error.restore(py);
            -1
        }
        None => 0,
    })
}

//! Text that the library hands to its caller.
use std::ffi::{CString, c_char};

/// Hands text over to the caller, who gives it back through [`tenths_text_free`]. It ends at its first NUL.
pub(crate) fn give(text: String) -> *mut c_char {
    let text = text.split('\0').next().unwrap_or_default();
    CString::new(text).unwrap_or_default().into_raw()
}

/// Frees a text that the library has returned through a `char **`. Does nothing if null.
///
/// # Safety
/// `text` is null or came from this library and has not been freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_text_free(text: *mut c_char) {
    if !text.is_null() {
        // SAFETY: the caller's promise: it came from `give`.
        drop(unsafe { CString::from_raw(text) });
    }
}

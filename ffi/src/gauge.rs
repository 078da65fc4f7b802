//! What gauges prove.
use crate::guard::{guard, place, text};
use crate::status::tenths_status;
use crate::text::give;
use std::ffi::c_char;
use tenths::GaugeForm;

/// What the members of a form of gauge prove, in English: GO, NO-GO, and when the envelope is asked for, a line each.
///
/// # Safety
/// `form` ends with a NUL; `proofs` is writable. Free the text with `tenths_text_free`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_gauge_proofs(form: *const c_char, proofs: *mut *mut c_char) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (form, proofs) = unsafe { (text(form, "form"), place(proofs, "proofs")?) };
        *proofs = std::ptr::null_mut();
        let [go, no_go] = GaugeForm::parse(form?)?.proves();
        *proofs = give(format!("{go}\n{no_go}\n{}\n", tenths::gauge::ENVELOPE));
        Ok(())
    })
}

//! What is wrong with a pressed joint.
use crate::formulas::tenths_press_joint_output;
use crate::guard::{guard, place, side, tenths_units};
use crate::status::{Failure, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use tenths::Finding;
use tenths::joint::press_joint::PressJoint;

/// What is wrong with a joint of `tenths_press_joint`: a JSON array with an object for each finding, which has `code`,
/// `severity`, `place`, `message` and `remedy`.
///
/// Codes: `joint_may_be_loose`, `joint_yields`. The messages are in the units of the call. A sound joint has an empty
/// array, `[]`; a result that is NaN is not a sound joint. The text is freed by `tenths_text_free`; null on an error.
///
/// # Safety
/// `joint` is null or leads to a struct that begins with its size; `findings` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_press_joint_findings(
    units: tenths_units,
    joint: *const tenths_press_joint_output,
    findings: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let findings = unsafe { place(findings, "findings") }?;
        *findings = std::ptr::null_mut();
        if joint.is_null() {
            return Err(Failure::Null("joint"));
        }
        // SAFETY: the caller's promise: the size stands first in every version of the struct.
        let struct_size = unsafe { joint.cast::<usize>().read() };
        let least = size_of::<tenths_press_joint_output>();
        if struct_size < least {
            return Err(Failure::StructSize { what: "tenths_press_joint_output", least, got: struct_size });
        }
        let units = side(units)?;
        // SAFETY: the struct is at least as large as ours, and has the outputs in their order behind its size.
        let outputs = unsafe { joint.cast::<u8>().add(size_of::<usize>()).cast::<[f64; 12]>().read() };
        let found = PressJoint::from_outputs(units, &outputs).findings(units);
        *findings = give(Finding::list_to_json(&found));
        Ok(())
    })
}

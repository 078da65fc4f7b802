//! Plan documents: JSON in, a process sheet out.
use crate::guard::{document, guard, place};
use crate::status::tenths_status;
use crate::text::give;
use crate::watch::{tenths_watch, watch};
use std::ffi::c_char;
use tenths::{Plan, Sheet};

/// Evaluates a plan and gives its process sheet as JSON.
///
/// `plan` is UTF-8 of `length` bytes and needs no NUL. The sheet is freed by `tenths_text_free`; on an error it is
/// null, and the message lists every fault of the document, each with its place as a JSON Pointer.
///
/// # Safety
/// `plan` is null or readable for `length` bytes, `sheet` null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_evaluate(
    plan: *const c_char,
    length: usize,
    sheet: *mut *mut c_char,
) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe { evaluate(plan, length, sheet, Sheet::to_json) }
}

/// Evaluates a plan and gives its process sheet as Markdown, otherwise as `tenths_plan_evaluate`.
///
/// # Safety
/// As `tenths_plan_evaluate`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_markdown(
    plan: *const c_char,
    length: usize,
    markdown: *mut *mut c_char,
) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe { evaluate(plan, length, markdown, Sheet::to_markdown) }
}

/// Evaluates a plan for a sample of its numbers that vary, and gives as JSON how often each finding occurs and how
/// figures of the sheet spread. The result is freed by `tenths_text_free`, and null on an error.
///
/// `variation` is a JSON object: its fields are those of Variation on the page of the plan document. One that
/// varies a number is
/// {"count": 10000, "varying": [{"place": "/operations/0/spindle_speed", "nominal": 60, "plus": 5, "minus": -5}]}.
/// Both texts are UTF-8 of a length and need no NUL. `watch` may be null. A fault of the variation has its place in it, as one of the plan
/// has in the plan.
///
/// # Safety
/// `plan` is null or readable for `length` bytes, `variation` null or readable for `variation_length` bytes,
/// `watch` null or such that it tells its size, `propagated` null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_propagate(
    plan: *const c_char,
    length: usize,
    variation: *const c_char,
    variation_length: usize,
    watch: *const tenths_watch,
    propagated: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let propagated = unsafe { place(propagated, "the place for the result") }?;
        *propagated = std::ptr::null_mut();
        // SAFETY: the caller's promise.
        let (plan, variation) =
            unsafe { (document(plan, length, "plan")?, document(variation, variation_length, "variation")?) };
        // SAFETY: the caller's promise.
        let watch = unsafe { self::watch(watch) }?;
        let made = Plan::from_json(plan)?.propagate_json_watched(variation, &watch)?;
        *propagated = give(made.to_json());
        Ok(())
    })
}

/// Gives the JSON Schema (draft 2020-12) of a plan, freed by `tenths_text_free`; null on an error.
///
/// # Safety
/// `schema` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_schema(schema: *mut *mut c_char) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let schema = unsafe { place(schema, "the place for the schema") }?;
        *schema = std::ptr::null_mut();
        *schema = give(tenths::plan::schema().to_string());
        Ok(())
    })
}

/// # Safety
/// As [`tenths_plan_evaluate`].
unsafe fn evaluate(
    plan: *const c_char,
    length: usize,
    out: *mut *mut c_char,
    form: fn(&Sheet) -> String,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let out = unsafe { place(out, "the place for the sheet") }?;
        *out = std::ptr::null_mut();
        // SAFETY: the caller's promise.
        let text = unsafe { document(plan, length, "plan") }?;
        let sheet = Plan::from_json(text)?.evaluate()?;
        *out = give(form(&sheet));
        Ok(())
    })
}

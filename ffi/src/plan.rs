//! Plan documents: JSON in, a process sheet out.
use crate::guard::{document, guard, optional_text, place};
use crate::status::tenths_status;
use crate::text::give;
use crate::watch::{tenths_watch, watch};
use std::ffi::c_char;
use tenths::document::Change;
use tenths::plan::changes_to_json;
use tenths::{DocumentError, Plan, Sheet, SheetKind};

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
    unsafe { sheet_text(plan, length, std::ptr::null(), c"json".as_ptr(), sheet, PLAN) }
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
    unsafe { sheet_text(plan, length, std::ptr::null(), std::ptr::null(), markdown, PLAN) }
}

/// Evaluates a plan and gives a sheet of it to work from, such as
/// `tenths_plan_sheet(plan, strlen(plan), "cards", "html", &text)`; freed by `tenths_text_free`, and null on an error.
///
/// `kind` is `process`, `cards`, `setups`, `tools`, `cut_list`, `gauges`, `first_article` or `quote`, and may be null for `process`.
/// `format` is `markdown`, `html` or `json`, and may be null for Markdown; JSON is the whole sheet as data. An HTML file needs
/// nothing else, and prints on A4 and Letter.
///
/// # Safety
/// As `tenths_plan_evaluate`; `kind` is null or ends with a NUL, and so does `format`.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_sheet(
    plan: *const c_char,
    length: usize,
    kind: *const c_char,
    format: *const c_char,
    text: *mut *mut c_char,
) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe { sheet_text(plan, length, kind, format, text, PLAN) }
}

/// Reads a sheet back that was written as JSON, and gives it as `tenths_plan_sheet` does: so a sheet that was kept can be
/// printed without its plan.
///
/// `kind` may be null for `process`, and `format` may be null for Markdown. `sheet` is UTF-8 of `length` bytes and needs no
/// NUL; a fault of it has its place in it.
///
/// # Safety
/// `sheet` is null or readable for `length` bytes, `text` null or writable; `kind` and `format` are null or end with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sheet_text(
    sheet: *const c_char,
    length: usize,
    kind: *const c_char,
    format: *const c_char,
    text: *mut *mut c_char,
) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe { sheet_text(sheet, length, kind, format, text, WRITTEN) }
}

/// Gives what differs between two plans as JSON: a list of objects, each with `place`, a JSON Pointer, and the `old` and the
/// `new` value, null for one that is not there. Operations and characteristics that have numbers are compared by them. The text is
/// freed by `tenths_text_free`, and null on an error.
///
/// Both plans are UTF-8 of a length and need no NUL.
///
/// # Safety
/// `plan` is null or readable for `length` bytes, `newer` null or readable for `newer_length` bytes, `changes` null or
/// writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_changes(
    plan: *const c_char,
    length: usize,
    newer: *const c_char,
    newer_length: usize,
    changes: *mut *mut c_char,
) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe {
        changed([plan, newer], [length, newer_length], changes, ["plan", "newer plan"], |[old, new]| {
            Ok(Plan::from_json(old)?.changes(&Plan::from_json(new)?))
        })
    }
}

/// Gives what differs between two sheets that were written as JSON, as `tenths_plan_changes` does of plans.
///
/// # Safety
/// `sheet` is null or readable for `length` bytes, `newer` null or readable for `newer_length` bytes, `changes` null or
/// writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sheet_changes(
    sheet: *const c_char,
    length: usize,
    newer: *const c_char,
    newer_length: usize,
    changes: *mut *mut c_char,
) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe {
        changed([sheet, newer], [length, newer_length], changes, ["sheet", "newer sheet"], |[old, new]| {
            Ok(Sheet::from_json(old)?.changes(&Sheet::from_json(new)?))
        })
    }
}

/// # Safety
/// As [`tenths_plan_changes`].
unsafe fn changed(
    [old, new]: [*const c_char; 2],
    [length, newer_length]: [usize; 2],
    out: *mut *mut c_char,
    [name, newer_name]: [&'static str; 2],
    found: fn([&str; 2]) -> Result<Vec<Change>, DocumentError>,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let out = unsafe { place(out, "the place for the changes") }?;
        *out = std::ptr::null_mut();
        // SAFETY: the caller's promise.
        let texts = unsafe { [document(old, length, name)?, document(new, newer_length, newer_name)?] };
        *out = give(changes_to_json(&found(texts)?));
        Ok(())
    })
}

/// Gives the JSON Schema (draft 2020-12) of a sheet, freed by `tenths_text_free`; null on an error.
///
/// # Safety
/// `schema` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_sheet_schema(schema: *mut *mut c_char) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe { schema_text(schema, tenths::plan::sheet_schema) }
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
    // SAFETY: the caller's promise.
    unsafe { schema_text(schema, tenths::plan::schema) }
}

/// # Safety
/// As [`tenths_plan_schema`].
unsafe fn schema_text<T: ToString>(schema: *mut *mut c_char, of: fn() -> T) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let schema = unsafe { place(schema, "the place for the schema") }?;
        *schema = std::ptr::null_mut();
        *schema = give(of().to_string());
        Ok(())
    })
}

/// What a document is called in a message, and how it comes to a sheet.
type Source = (&'static str, fn(&str) -> Result<Sheet, DocumentError>);

const PLAN: Source = ("plan", |text| Plan::from_json(text)?.evaluate());
const WRITTEN: Source = ("sheet", Sheet::from_json);

/// # Safety
/// As [`tenths_plan_sheet`].
unsafe fn sheet_text(
    from: *const c_char,
    length: usize,
    kind: *const c_char,
    format: *const c_char,
    out: *mut *mut c_char,
    (name, read): Source,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let out = unsafe { place(out, "the place for the sheet") }?;
        *out = std::ptr::null_mut();
        // SAFETY: the caller's promise.
        let (kind, format) = unsafe { (optional_text(kind, "kind")?, optional_text(format, "format")?) };
        let kind = kind.map_or(Ok(SheetKind::Process), SheetKind::parse)?;
        // SAFETY: the caller's promise.
        let from = unsafe { document(from, length, name) }?;
        *out = give(read(from)?.to_format(kind, format.unwrap_or("markdown"))?);
        Ok(())
    })
}

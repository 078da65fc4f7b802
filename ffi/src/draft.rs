//! Starting values, drafted plans, and what a plan leaves out.
use crate::guard::{document, guard, place, side, tenths_units, text};
use crate::object::write;
use crate::objects::tenths_starting_value;
use crate::status::{Failure, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use tenths::quantity::Length;
use tenths::starting_values::{CutOperation, ToolMaterial, starting_values};
use tenths::{Plan, Quantity, Units};

/// A speed and a feed to start from, the closest first: `tenths_starting_value_at(TENTHS_METRIC, "SAE 1045", "turning", "carbide", 0, 0, &value)`.
///
/// `material` is a name of the table of materials or a family such as `aluminium`, `operation` one such as `turning` or
/// `drilling`. `tool`, such as `carbide` or `HSS`, may be null for any. `diameter` is that of the tool in mm or inches, 0 for
/// any. `index` counts from 0; behind the last is an error. These are starting values: the data of the makers of tool and
/// machine come first.
///
/// # Safety
/// `material` and `operation` end with a NUL; `tool` is null or ends with one; `value->struct_size` is set to the size of the
/// struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_starting_value_at(
    units: tenths_units,
    material: *const c_char,
    operation: *const c_char,
    tool: *const c_char,
    diameter: f64,
    index: usize,
    value: *mut tenths_starting_value,
) -> tenths_status {
    guard(|| {
        let units = side(units);
        let shown = units.as_ref().map_or(Units::Metric, |units| *units);
        let made = || {
            let units = units?;
            // SAFETY: the caller's promises.
            let (material, operation) =
                unsafe { (text(material, "material")?, text(operation, "operation")?) };
            let operation = CutOperation::parse(operation)?;
            let tool = match tool.is_null() {
                true => None,
                // SAFETY: the caller's promise.
                false => Some(ToolMaterial::parse(unsafe { text(tool, "tool") }?)?),
            };
            let diameter = (diameter != 0.0).then(|| Length::new_in(diameter, units));
            let rows = starting_values(material, operation, tool, diameter)?;
            let (what, count) = ("starting values", rows.len());
            rows.into_iter().nth(index).ok_or(Failure::Index { formula: "the table", what, count, index })
        };
        // SAFETY: the caller's promise.
        unsafe { write(value, "value", shown, made) }
    })
}

/// Drafts a plan from the features of a part, and gives its document, freed by `tenths_text_free`; null on an error.
///
/// `request` is JSON, UTF-8 of a length without a NUL:
/// {"units": "metric", "material": "SAE 1045", "quantity": 25, "features": [{"kind": "step", "diameter": "20 h9", "length": 25}]}.
/// `standards`, a document of the shop's own standard values, may be null. The document leaves out what is assumed:
/// `tenths_plan_evaluate` lists that on the sheet, and `tenths_plan_complete` writes it out. A draft is a proposal: read what it
/// assumes and its findings before anything is cut.
///
/// # Safety
/// `request` is readable for `length` bytes, `standards` null or readable for `standards_length` bytes, `plan` writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_draft_plan(
    request: *const c_char,
    length: usize,
    standards: *const c_char,
    standards_length: usize,
    plan: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let plan = unsafe { place(plan, "the place for the plan") }?;
        *plan = std::ptr::null_mut();
        // SAFETY: the caller's promises.
        let (request, standards) =
            unsafe { (document(request, length, "request")?, standard(standards, standards_length)?) };
        *plan = give(tenths::draft::draft_plan(request, standards)?.to_json().to_string());
        Ok(())
    })
}

/// Gives the document of a plan with what it leaves out and is assumed, freed by `tenths_text_free`; null on an error.
///
/// `standards`, a document of the shop's own standard values, may be null. Both texts are UTF-8 of a length without a NUL.
///
/// # Safety
/// `plan` is readable for `length` bytes, `standards` null or readable for `standards_length` bytes, `completed` writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_complete(
    plan: *const c_char,
    length: usize,
    standards: *const c_char,
    standards_length: usize,
    completed: *mut *mut c_char,
) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe {
        read(plan, length, standards, standards_length, completed, |plan| {
            Ok(plan.completed_json().to_string())
        })
    }
}

/// Evaluates a plan with a shop's own standard values, and gives its process sheet as JSON, otherwise as
/// `tenths_plan_evaluate`.
///
/// `standards` may be null.
///
/// # Safety
/// `plan` is readable for `length` bytes, `standards` null or readable for `standards_length` bytes, `sheet` writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_plan_evaluate_with(
    plan: *const c_char,
    length: usize,
    standards: *const c_char,
    standards_length: usize,
    sheet: *mut *mut c_char,
) -> tenths_status {
    // SAFETY: the caller's promise.
    unsafe { read(plan, length, standards, standards_length, sheet, |plan| Ok(plan.evaluate()?.to_json())) }
}

/// # Safety
/// As [`tenths_plan_complete`].
unsafe fn read(
    plan: *const c_char,
    length: usize,
    standards: *const c_char,
    standards_length: usize,
    out: *mut *mut c_char,
    form: fn(&Plan) -> Result<String, Failure>,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promise.
        let out = unsafe { place(out, "the place for the result") }?;
        *out = std::ptr::null_mut();
        // SAFETY: the caller's promises.
        let (plan, standards) =
            unsafe { (document(plan, length, "plan")?, standard(standards, standards_length)?) };
        let plan = match standards {
            Some(standards) => Plan::from_json_with(plan, standards)?,
            None => Plan::from_json(plan)?,
        };
        *out = give(form(&plan)?);
        Ok(())
    })
}

/// The standards of a shop, where there are any.
///
/// # Safety
/// `standards` is null or readable for `length` bytes.
unsafe fn standard<'a>(standards: *const c_char, length: usize) -> Result<Option<&'a str>, Failure> {
    match standards.is_null() {
        true => Ok(None),
        // SAFETY: the caller's promise.
        false => unsafe { document(standards, length, "standards") }.map(Some),
    }
}

//! Plan documents: JSON in, a process sheet out.
use crate::export::Document;
use crate::status::Failure;
use tenths::plan::{PropagateError, changes_to_json};
use tenths::{DocumentError, Plan, Sheet, SheetKind, Watch};
use tenths_macros::export;

/// Evaluates a plan and gives its process sheet as JSON.
///
/// `plan` is UTF-8 of `length` bytes and needs no NUL. The sheet is freed by `tenths_text_free`; on an error it is
/// null, and the message lists every fault of the document, each with its place as a JSON Pointer.
#[export(sheet)]
pub(crate) fn plan_evaluate(plan: Document) -> Result<String, DocumentError> {
    Ok(Plan::from_json(plan)?.evaluate()?.to_json())
}

/// Evaluates a plan and gives its process sheet as Markdown, otherwise as `tenths_plan_evaluate`.
#[export(markdown)]
pub(crate) fn plan_markdown(plan: Document) -> Result<String, Failure> {
    plan_sheet(plan, None, None)
}

/// Evaluates a plan and gives a sheet of it to work from, such as
/// `tenths_plan_sheet(plan, strlen(plan), "cards", "html", &text)`; freed by `tenths_text_free`, and null on an error.
///
/// `kind` is `process`, `cards`, `setups`, `tools`, `cut_list`, `gauges`, `first_article` or `quote`, and may be null for `process`.
/// `format` is `markdown`, `html` or `json`, and may be null for Markdown; JSON is the whole sheet as data. An HTML file needs
/// nothing else, and prints on A4 and Letter.
#[export(text)]
pub(crate) fn plan_sheet(
    plan: Document,
    kind: Option<&str>,
    format: Option<&str>,
) -> Result<String, Failure> {
    written(|| Plan::from_json(plan)?.evaluate(), kind, format)
}

/// Reads a sheet back that was written as JSON, and gives it as `tenths_plan_sheet` does: so a sheet that was kept can be
/// printed without its plan.
///
/// `kind` may be null for `process`, and `format` may be null for Markdown. `sheet` is UTF-8 of `length` bytes and needs no
/// NUL; a fault of it has its place in it.
#[export(text)]
pub(crate) fn sheet_text(
    sheet: Document,
    kind: Option<&str>,
    format: Option<&str>,
) -> Result<String, Failure> {
    written(|| Sheet::from_json(sheet), kind, format)
}

/// Gives what differs between two plans as JSON: a list of objects, each with `place`, a JSON Pointer, and the `old` and the
/// `new` value, null for one that is not there. Operations and characteristics that have numbers are compared by them. The text is
/// freed by `tenths_text_free`, and null on an error.
///
/// Both plans are UTF-8 of a length and need no NUL.
#[export(changes)]
pub(crate) fn plan_changes(plan: Document, newer: Document) -> Result<String, DocumentError> {
    Ok(changes_to_json(&Plan::from_json(plan)?.changes(&Plan::from_json(newer)?)))
}

/// Gives what differs between two sheets that were written as JSON, as `tenths_plan_changes` does of plans.
#[export(changes)]
pub(crate) fn sheet_changes(sheet: Document, newer: Document) -> Result<String, DocumentError> {
    Ok(changes_to_json(&Sheet::from_json(sheet)?.changes(&Sheet::from_json(newer)?)))
}

/// Gives the JSON Schema (draft 2020-12) of a sheet, freed by `tenths_text_free`; null on an error.
#[export(schema)]
pub(crate) fn sheet_schema() -> String {
    tenths::plan::sheet_schema().to_string()
}

/// Evaluates a plan for a sample of its numbers that vary, and gives as JSON how often each finding occurs and how
/// figures of the sheet spread. The result is freed by `tenths_text_free`, and null on an error.
///
/// `variation` is a JSON object: its fields are those of Variation on the page of the plan document. One that
/// varies a number is
/// {"count": 10000, "varying": [{"place": "/operations/0/spindle_speed", "nominal": 60, "plus": 5, "minus": -5}]}.
/// Both texts are UTF-8 of a length and need no NUL. `watch` may be null. A fault of the variation has its place in it, as one of the plan
/// has in the plan.
#[export(propagated)]
pub(crate) fn plan_propagate(
    plan: Document,
    variation: Document,
    watch: Watch,
) -> Result<String, PropagateError> {
    Ok(Plan::from_json(plan)?.propagate_json_watched(variation, &watch)?.to_json())
}

/// Gives the JSON Schema (draft 2020-12) of a plan, freed by `tenths_text_free`; null on an error.
#[export(schema)]
pub(crate) fn plan_schema() -> String {
    tenths::plan::schema().to_string()
}

/// A sheet as a kind and a format have it.
fn written(
    sheet: impl FnOnce() -> Result<Sheet, DocumentError>,
    kind: Option<&str>,
    format: Option<&str>,
) -> Result<String, Failure> {
    let kind = kind.map_or(Ok(SheetKind::Process), SheetKind::parse)?;
    Ok(sheet()?.to_format(kind, format.unwrap_or("markdown"))?)
}

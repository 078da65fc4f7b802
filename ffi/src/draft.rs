//! Starting values, drafted plans, and what a plan leaves out.
use crate::export::Document;
use crate::handle::at;
use crate::status::Failure;
use tenths::quantity::Length;
use tenths::starting_values::{CutOperation, StartingValue, ToolMaterial, starting_values};
use tenths::{DocumentError, Plan, Quantity, Units};
use tenths_macros::export;

/// A speed and a feed to start from, the closest first: `tenths_starting_value_at(TENTHS_METRIC, "SAE 1045", "turning", "carbide", 0, 0, &value)`.
///
/// `material` is a name of the table of materials or a family such as `aluminium`, `operation` one such as `turning` or
/// `drilling`. `tool`, such as `carbide` or `HSS`, may be null for any. `diameter` is that of the tool in mm or inches, 0 for
/// any. `index` counts from 0; behind the last is an error. These are starting values: the data of the makers of tool and
/// machine come first.
#[export(value)]
pub(crate) fn starting_value_at(
    units: Units,
    material: &str,
    operation: &str,
    tool: Option<&str>,
    diameter: f64,
    index: usize,
) -> Result<StartingValue, Failure> {
    let operation = CutOperation::parse(operation)?;
    let tool = tool.map(ToolMaterial::parse).transpose()?;
    let diameter = (diameter != 0.0).then(|| Length::new_in(diameter, units));
    at(starting_values(material, operation, tool, diameter)?, index, "the table", "starting values")
}

/// Drafts a plan from the features of a part, and gives its document, freed by `tenths_text_free`; null on an error.
///
/// `request` is JSON, UTF-8 of a length without a NUL:
/// {"units": "metric", "material": "SAE 1045", "quantity": 25, "features": [{"kind": "step", "diameter": "20 h9", "length": 25}]}.
/// `standards`, a document of the shop's own standard values, may be null. The document leaves out what is assumed:
/// `tenths_plan_evaluate` lists that on the sheet, and `tenths_plan_complete` writes it out. A draft is a proposal: read what it
/// assumes and its findings before anything is cut.
#[export(plan)]
pub(crate) fn draft_plan(request: Document, standards: Option<Document>) -> Result<String, DocumentError> {
    Ok(tenths::draft::draft_plan(request, standards)?.to_json().to_string())
}

/// Gives the document of a plan with what it leaves out and is assumed, freed by `tenths_text_free`; null on an error.
///
/// `standards`, a document of the shop's own standard values, may be null. Both texts are UTF-8 of a length without a NUL.
#[export(completed)]
pub(crate) fn plan_complete(plan: Document, standards: Option<Document>) -> Result<String, DocumentError> {
    Ok(read(plan, standards)?.completed_json().to_string())
}

/// Evaluates a plan with a shop's own standard values, and gives its process sheet as JSON, otherwise as
/// `tenths_plan_evaluate`.
///
/// `standards` may be null.
#[export(sheet)]
pub(crate) fn plan_evaluate_with(
    plan: Document,
    standards: Option<Document>,
) -> Result<String, DocumentError> {
    Ok(read(plan, standards)?.evaluate()?.to_json())
}

fn read(plan: Document, standards: Option<Document>) -> Result<Plan, DocumentError> {
    match standards {
        Some(standards) => Plan::from_json_with(plan, standards),
        None => Plan::from_json(plan),
    }
}

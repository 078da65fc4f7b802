//! From a request to a plan.
use super::layout::{BAR, Layout, conflict};
use super::request::DraftRequest;
use super::route::Route;
use crate::document::DocumentError;
use crate::document::fault::{Fault, FaultKind, Faults};
use crate::finding::{Finding, Severity};
use crate::plan::{Plan, proposed_bar};
use serde_json::{Value, json};

/// Drafts a plan from the features of a part: its characteristics, its bar and its operations in a workable order.
///
/// `request` is JSON with `units`, `material`, `quantity` and `features`, and where wanted `name`, `number`, `length` and
/// `bar`: docs/draft.md has the features. Steps and outside threads stand in their order along the part. What the draft
/// leaves out is assumed as in any plan, and `standards` is a document of the shop's own values. The result is a proposal: read
/// what it assumes and its findings, and change it as any plan.
///
/// ```
/// use tenths::draft::draft_plan;
/// let plan = draft_plan(
///     r#"{"units": "metric", "material": "SAE 1045", "quantity": 25,
///         "features": [{"kind": "step", "diameter": "20 h9", "length": 25, "roughness": 1.6},
///                      {"kind": "hole", "diameter": 8, "depth": 20}]}"#,
///     None,
/// )?;
/// assert!(plan.evaluate()?.operations.len() > 5);
/// assert!(!plan.assumptions().is_empty());
/// # Ok::<(), tenths::DocumentError>(())
/// ```
///
/// # Errors
/// [`DocumentError`] with every fault of the request, each with its place in it; also where the plan that comes out of it
/// has an error by its own judgement.
pub fn draft_plan(request: &str, standards: Option<&str>) -> Result<Plan, DocumentError> {
    let request = DraftRequest::from_json(request)?;
    let document = document(&request)?.to_string();
    let plan = match standards {
        Some(standards) => Plan::from_json_with(&document, standards)?,
        None => Plan::from_json(&document)?,
    };
    let errors = plan.evaluate()?.findings.into_iter().filter(|one| one.severity == Severity::Error);
    let mut faults = Faults::default();
    errors.for_each(|finding| faults.push(|| judged(finding)));
    if faults.count() > 0 { Err(faults.into()) } else { Ok(plan) }
}

/// An error of the plan as a fault of the request, which has no place for it.
fn judged(Finding { place, message, remedy, .. }: Finding) -> Fault {
    let message = format!("the draft does not hold at {place} of its plan: {message}. Fix: {remedy}");
    Fault { kind: FaultKind::Conflict, place: "/features".into(), line_and_column: None, message }
}

fn document(request: &DraftRequest) -> Result<Value, DocumentError> {
    let mut faults = Faults::default();
    let Some(layout) = Layout::of(request, &mut faults) else { return Err(faults.into()) };
    let bar = bar(request, &layout, &mut faults);
    let route = Route::of(request, &layout, &mut faults);
    let (Some(bar), 0) = (bar, faults.count()) else { return Err(faults.into()) };
    let mut part = json!({
        "name": request.name.as_deref().unwrap_or("Drafted part"),
        "quantity": request.quantity,
    });
    if let Some(number) = &request.number {
        part["number"] = number.clone().into();
    }
    let mut document = json!({
        "tenths_plan": 1,
        "units": request.units.name(),
        "part": part,
        "material": request.material.0,
        "characteristics": route.characteristics,
        "operations": route.operations,
    });
    if !bar.is_null() {
        document["bar"] = bar;
    }
    Ok(document)
}

/// The bar that is asked for; null where the plan is to assume the next size above the largest diameter.
fn bar(request: &DraftRequest, layout: &Layout<'_>, faults: &mut Faults) -> Option<Value> {
    let largest = layout.segments.get(layout.largest)?.diameter.limits.upper();
    let Some(bar) = &request.bar else {
        // The plan leaves the bar out, and so lists the one that is taken among what it assumes.
        if proposed_bar(largest, request.units).is_none() {
            let message = format!(
                "no list of bars has a bar for a diameter of {}. Fix: give the `bar`, or forge the part",
                largest.format(request.units)
            );
            conflict(faults, BAR, message);
        }
        return Some(Value::Null);
    };
    if let Some(limits) = bar.limits.filter(|limits| limits.lower() < largest) {
        let message = format!(
            "a bar of {} may be smaller than the largest diameter, {}. Fix: take a larger bar, or leave out `bar`",
            limits.format(request.units),
            largest.format(request.units)
        );
        conflict(faults, BAR, message);
    }
    Some(bar.value.clone())
}

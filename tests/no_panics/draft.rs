//! Starting values, what a plan leaves out, and drafts.
use super::*;
use serde_json::{Value, json};
use tenths::draft::{DraftRequest, draft_plan};
use tenths::material::materials;
use tenths::plan::proposed_fields;
use tenths::quantity::Length;
use tenths::starting_values::{
    CutOperation, MaterialFamily, ToolMaterial, all_starting_values, starting_values,
};

const PLAN: &str = include_str!("../../examples/plans/roller_axle.json");

fn request() -> Value {
    json!({"units": "metric", "material": "SAE 1045", "quantity": 2, "length": 60, "bar": "40 h9", "features": [
        {"kind": "step", "diameter": 30, "length": 40, "roughness": 1.6}, {"kind": "step", "diameter": 20, "length": 20},
        {"kind": "hole", "diameter": 8, "depth": 20}, {"kind": "thread", "thread": "M6-6H", "length": 9, "end": "second"},
        {"kind": "flats", "across": 17, "flats": 2, "on": 2}, {"kind": "knurl", "pitch": 1, "length": 5, "on": 1},
        {"kind": "groove", "diameter": 15, "width": 2}, {"kind": "chamfer", "size": 1},
        {"kind": "keyseat", "width": 5, "length": 9}, {"kind": "cross_hole", "diameter": 3, "holes": 2}]})
}

/// Puts a value at each place of a document in turn.
fn with_each(document: &Value, value: &Value, mut visit: impl FnMut(String)) {
    let mut places = vec![];
    fn gather(value: &Value, place: String, places: &mut Vec<String>) {
        match value {
            Value::Object(map) => {
                map.iter().for_each(|(key, one)| gather(one, format!("{place}/{key}"), places))
            }
            Value::Array(list) => {
                list.iter().enumerate().for_each(|(k, one)| gather(one, format!("{place}/{k}"), places));
            }
            _ => {}
        }
        places.push(place);
    }
    gather(document, String::new(), &mut places);
    for place in places {
        let mut changed = document.clone();
        if let Some(spot) = changed.pointer_mut(&place) {
            *spot = value.clone();
        }
        visit(changed.to_string());
    }
}

#[test]
fn starting_values_of_odd_materials_and_diameters() {
    none_panics!(
        |x: f64| {
            for material in ["SAE 1045", "titanium", "PTFE", "", "x"] {
                for operation in CutOperation::ALL {
                    let length = Some(Length::millimetres(x));
                    black_box(
                        starting_values(material, operation, Some(ToolMaterial::Carbide), length).is_ok(),
                    );
                }
            }
        },
        |text: &'static str| {
            black_box((CutOperation::parse(text).is_ok(), ToolMaterial::parse(text).is_ok()));
            starting_values(text, CutOperation::Turning, None, None).is_ok()
        },
        |_units: Units| {
            black_box(materials().iter().map(MaterialFamily::of).collect::<Vec<_>>());
            (all_starting_values().len(), proposed_fields().len())
        }
    );
}

#[test]
fn drafts_of_odd_features() {
    none_panics!(
        |x: f64| {
            with_each(&request(), &json!(x), |text| _ = black_box(draft_plan(&text, None).is_ok()));
        },
        |text: &'static str| {
            with_each(&request(), &json!(text), |text| _ = black_box(draft_plan(&text, None).is_ok()));
            black_box((draft_plan(text, Some(text)).is_ok(), DraftRequest::from_json(text).is_ok()));
        }
    );
}

#[test]
fn plans_that_leave_out_and_odd_standards() {
    let standards = json!({"tenths_standards": 1, "units": "inch", "operations": [{"kind": "turn", "handling": 1,
        "tool": {"name": "x", "nose_radius": 0.03}}], "characteristics": [{"requirement": "envelope"}], "bar": {"end_trim": 1}});
    none_panics!(
        |x: f64| {
            with_each(&standards, &json!(x), |text| _ = black_box(Plan::from_json_with(PLAN, &text).is_ok()));
        },
        |text: &'static str| {
            with_each(&standards, &json!(text), |text| {
                _ = black_box(Plan::from_json_with(PLAN, &text).is_ok())
            });
            let plan = Plan::from_json_with(PLAN, &standards.to_string()).unwrap();
            black_box((Plan::assumptions(&plan).len(), Plan::to_json(&plan), Plan::completed_json(&plan)));
            Plan::from_json_with(text, text).is_ok()
        }
    );
}

//! Findings of a sheet or of a pickle that is read back.
use super::codes::FindingCode;
use super::found::{Finding, Severity};
use crate::document::decode::{Context, Decode, decode_field, decode_name, sort_fields};
use crate::document::fault::Place;
use crate::document::node::Node;
use crate::document::objects::objects;
use crate::document::shape::{Bound, ChoiceName, DocumentField, Object, Shape};
use crate::object::{Choice, Value};

objects! {
    /// Something that is computable, and yet wrong or worth a second look for the job.
    FindingLine {
        /// A name that stays the same, for programs: one of the page of findings.
        code: FindingCode,
        /// How much it weighs.
        severity: Severity,
        /// Where in the plan: a JSON Pointer.
        place: String,
        /// What was found.
        message: String,
        /// What to do about it.
        remedy: String,
    }
}

impl Finding {
    /// A finding from the values of a pickle.
    pub(crate) fn restored(value: &Value) -> Option<Finding> {
        let Value::Object(told) = value else { return None };
        let code: String = told.get("code")?;
        Some(Finding {
            code: FindingCode::named(&code)?.name(),
            severity: told.get("severity")?,
            place: told.get("place")?,
            message: told.get("message")?,
            remedy: told.get("remedy")?,
        })
    }
}

impl Decode for Finding {
    const SHAPE: &'static Shape = FindingLine::SHAPE;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Finding> {
        let FindingLine { code, severity, place, message, remedy } = FindingLine::decode(node, at, context)?;
        Some(Finding { code: code.name(), severity, place, message, remedy: remedy.into() })
    }
}

impl Decode for Severity {
    const SHAPE: &'static Shape = &Shape::Choice(&[
        ChoiceName { name: "note", doc: " Worth knowing." },
        ChoiceName { name: "warning", doc: " To be looked at before the work starts." },
        ChoiceName { name: "error", doc: " The job fails as planned." },
    ]);

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Severity> {
        let place = decode_name(node, Severity::NAMES.iter().copied(), at, context)?;
        Severity::of_name(Severity::NAMES[place])
    }
}

impl Decode for FindingCode {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<FindingCode> {
        let place = decode_name(node, FindingCode::all().map(FindingCode::name), at, context)?;
        FindingCode::all().nth(place)
    }
}

//! Which operations a plan has.
use crate::document::shape::Shape;
use crate::plan::Document;

/// Whether a plan has operations of a kind.
pub(super) fn has_kind(kind: &str) -> bool {
    let field = Document::OBJECT.fields.iter().find(|field| field.name == "operations");
    match field.map(|field| field.shape) {
        Some(Shape::List(Shape::Tagged(_, variants, _))) => variants.iter().any(|(name, _)| *name == kind),
        _ => false,
    }
}

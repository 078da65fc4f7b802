//! The JSON Schemas of the plan document and of its sheet, from the table of fields that the decoder reads by.
//!
//! It says what can be said of one field at a time. Rules between fields, the value of a text, the names of
//! materials and fields given twice are the decoder's: what it accepts the schema accepts, not always the other
//! way round.
use super::document::Document;
use super::propose::proposed_fields;
use super::sheet::Sheet;
use crate::document::decode::{MAX_READING, MAX_TEXT};
use crate::document::limits::{Deviations, TwoLimits};
use crate::document::shape::{Bound, ChoiceName, DocumentField, Object, Shape};
use crate::quantity::{Kind, Units};
use serde_json::{Map, Value, json};

/// The JSON Schema (draft 2020-12) of a plan document.
pub fn schema() -> Value {
    let mut definitions = Map::new();
    let mut schema = object(Document::OBJECT, None, &[], &mut definitions);
    // The operations of a routing look like those of the plan, and are too long to stand twice.
    let routed =
        definitions.get_mut("Routing").and_then(|routing| routing.pointer_mut("/properties/operations"));
    if let Some(Value::Object(operations)) = routed {
        operations.remove("type");
        operations.remove("items");
        operations.insert("$ref".into(), "#/properties/operations".into());
    }
    schema.insert("$schema".into(), "https://json-schema.org/draft/2020-12/schema".into());
    schema.insert("title".into(), "Plan".into());
    schema.insert("$defs".into(), definitions.into());
    schema.into()
}

/// The JSON Schema (draft 2020-12) of a sheet as the library writes it: every field is there, and null where it is absent.
pub fn sheet_schema() -> Value {
    let mut definitions = Map::new();
    let mut schema = object(Sheet::OBJECT, None, &[], &mut definitions);
    schema.insert("$schema".into(), "https://json-schema.org/draft/2020-12/schema".into());
    written(&mut schema);
    definitions.values_mut().filter_map(Value::as_object_mut).for_each(written);
    schema.insert("$defs".into(), definitions.into());
    schema.into()
}

/// Makes the fields that may be absent those that may be null, and text as long as the library makes it.
fn written(object: &mut Map<String, Value>) {
    let Some(Value::Array(required)) = object.get("required").cloned() else { return };
    let Some(Value::Object(properties)) = object.get_mut("properties") else { return };
    let names: Vec<Value> = properties.keys().map(|name| name.as_str().into()).collect();
    for (name, schema) in properties.iter_mut() {
        if let Some(schema) = schema.as_object_mut() {
            schema.remove("maxLength");
        }
        if !required.iter().any(|one| one == name) {
            let description = schema.as_object_mut().and_then(|schema| schema.remove("description"));
            *schema = json!({"anyOf": [schema.take(), {"type": "null"}], "description": description});
        }
    }
    object.insert("required".into(), names.into());
}

/// An object; with a tag, one of several, told by that field and its name, and with the fields that all of them have.
fn object(
    object: &Object,
    tag: Option<(&str, &str)>,
    shared: &[DocumentField],
    definitions: &mut Map<String, Value>,
) -> Map<String, Value> {
    let mut properties = Map::new();
    let mut required: Vec<&str> = vec![];
    if let Some((field, name)) = tag {
        properties.insert(field.into(), json!({"const": name}));
        required.push(field);
    }
    for field in object.fields.iter().chain(shared) {
        let mut own = property(field, definitions);
        if let Some(rule) = proposed(object.name, field.name) {
            let before = own.get("description").and_then(Value::as_str).unwrap_or_default();
            own.insert("description".into(), format!("{before} Where it is left out: {rule}.").into());
        }
        properties.insert(field.name.into(), own.into());
    }
    let is_proposed = |field: &&DocumentField| proposed(object.name, field.name).is_some();
    let needed = object.fields.iter().chain(shared).filter(|field| field.required && !is_proposed(field));
    required.extend(needed.map(|field| field.name));
    fields_of([
        ("title", object.name.into()),
        ("description", object.doc.trim().into()),
        ("type", "object".into()),
        ("properties", properties.into()),
        ("required", required.into()),
        ("additionalProperties", false.into()),
    ])
}

/// What is proposed for a field that may be left out.
fn proposed(object: &str, field: &str) -> Option<&'static str> {
    proposed_fields().iter().find(|own| own.object == object && own.field == field).map(|own| own.rule)
}

fn fields_of<const N: usize>(fields: [(&str, Value); N]) -> Map<String, Value> {
    fields.into_iter().map(|(name, value)| (name.to_string(), value)).collect()
}

fn property(field: &DocumentField, definitions: &mut Map<String, Value>) -> Map<String, Value> {
    let mut schema = of_shape(field.shape, field.bound, definitions);
    let mut description = field.doc.trim().to_string();
    if let Some(Value::String(own)) = schema.get("description") {
        description = format!("{description} {own}");
    }
    schema.insert("description".into(), description.into());
    if let Some(default) = field.default {
        schema.insert("default".into(), default());
    }
    schema
}

fn of_shape(shape: &Shape, bound: Bound, definitions: &mut Map<String, Value>) -> Map<String, Value> {
    match shape {
        Shape::Version(version) => fields_of([("const", (*version).into())]),
        Shape::Text => fields_of([("type", "string".into()), ("maxLength", MAX_TEXT.into())]),
        Shape::Truth => fields_of([("type", "boolean".into())]),
        Shape::Count | Shape::Reference => whole_number(shape, bound),
        Shape::Number => fields_of([("type", "number".into())]),
        Shape::DocumentNumber(kind) => reading(kind, bound),
        Shape::Range(kind) => range(kind, bound),
        Shape::Decimal => decimal(bound),
        Shape::Size => size(bound),
        Shape::Limits => limits(bound, definitions),
        Shape::Dimension => dimension(),
        Shape::Choice(choices) => choice(choices),
        Shape::List(item) => {
            let items = of_shape(item, Bound::Anything, definitions);
            fields_of([("type", "array".into()), ("items", items.into())])
        }
        Shape::Object(own) => reference(own, definitions),
        Shape::Keyed(own) => fields_of([
            ("type", "object".into()),
            ("additionalProperties", reference(own, definitions).into()),
        ]),
        Shape::Tagged(tag, variants, shared) => {
            let variants =
                variants.iter().map(|(name, own)| object(own, Some((tag, name)), shared, definitions));
            fields_of([("oneOf", variants.collect::<Vec<_>>().into())])
        }
    }
}

/// What stands for an object that has its own definition.
fn reference(own: &Object, definitions: &mut Map<String, Value>) -> Map<String, Value> {
    if !definitions.contains_key(own.name) {
        let definition = object(own, None, &[], definitions);
        definitions.insert(own.name.into(), definition.into());
    }
    fields_of([("$ref", format!("#/$defs/{}", own.name).into())])
}

fn whole_number(shape: &Shape, bound: Bound) -> Map<String, Value> {
    let least = u32::from(bound == Bound::Positive || matches!(shape, Shape::Reference));
    fields_of([("type", "integer".into()), ("minimum", least.into()), ("maximum", u32::MAX.into())])
}

fn dimension() -> Map<String, Value> {
    let expected = Shape::Dimension.expected(Units::Metric);
    fields_of([
        ("type", json!(["integer", "string"])),
        ("minimum", 1.into()),
        ("maximum", u32::MAX.into()),
        ("description", format!("Give {expected}.").into()),
    ])
}

fn choice(choices: &[ChoiceName]) -> Map<String, Value> {
    let names: Vec<&str> = choices.iter().map(|choice| choice.name).collect();
    let meanings: Vec<String> =
        choices.iter().map(|choice| format!("`{}`: {}", choice.name, choice.doc.trim())).collect();
    fields_of([("enum", names.into()), ("description", meanings.join(" ").into())])
}

/// A number or a text, with what bounds the number.
fn number_or_text(bound: Bound, pattern: String, description: String) -> Map<String, Value> {
    let mut schema = fields_of([
        ("type", json!(["number", "string"])),
        ("pattern", pattern.into()),
        ("maxLength", MAX_READING.into()),
        ("description", description.into()),
    ]);
    let (above, from, below) = match bound {
        Bound::Anything => (None, None, None),
        Bound::Positive => (Some(0.0), None, None),
        Bound::NonNegative => (None, Some(0.0), None),
        Bound::BelowHalf => (Some(0.0), None, Some(0.5)),
        Bound::BelowOne => (Some(0.0), None, Some(1.0)),
        Bound::Share => (None, Some(0.0), Some(1.0)),
        Bound::BelowStraight => (Some(0.0), None, Some(180.0)),
        Bound::BelowRight => (None, Some(0.0), Some(90.0)),
    };
    for (name, end) in [("exclusiveMinimum", above), ("minimum", from), ("exclusiveMaximum", below)] {
        schema.extend(end.map(|end: f64| (name.to_string(), end.into())));
    }
    schema
}

/// A decimal or a fraction.
const NUMBER: &str =
    r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?|[0-9]+/[0-9]+|[0-9]+[ -][0-9]+/[0-9]+";
/// A digit somewhere, and somewhere a unit.
const SIZES: &str = "^(?=.*[0-9]).*[A-Za-zµμ\"″]";

fn reading(kind: &Kind, bound: Bound) -> Map<String, Value> {
    let mut units: Vec<String> = kind.spellings().map(escaped).collect();
    units.sort();
    units.dedup();
    let pattern = format!(r"^\s*({NUMBER})\s*({})\s*$", units.join("|"));
    number_or_text(bound, pattern, in_units(kind.units.map(|unit| unit.label)))
}

/// A unit as a regular expression.
fn escaped(unit: &str) -> String {
    let special = |c: char| "^*()".contains(c);
    unit.chars().flat_map(|c| special(c).then_some('\\').into_iter().chain([c])).collect()
}

/// What a bare number is in.
fn in_units(labels: [&str; 2]) -> String {
    match labels {
        ["", _] => "A plain number.".into(),
        [inch, metric] if inch == metric => format!("Unit: {inch}; text gives its unit."),
        [inch, metric] => {
            format!("Unit: {inch} or, where `units` is `metric`, {metric}; text gives its own.")
        }
    }
}

fn range(kind: &Kind, bound: Bound) -> Map<String, Value> {
    let end = Value::from(reading(kind, bound));
    fields_of([
        ("type", "object".into()),
        ("properties", json!({"lower": end, "upper": end})),
        ("required", json!(["lower", "upper"])),
        ("additionalProperties", false.into()),
    ])
}

fn decimal(bound: Bound) -> Map<String, Value> {
    let pattern = format!(r"^\s*({NUMBER})\s*$");
    number_or_text(bound, pattern, "An exact decimal; a number is taken to nine decimals.".into())
}

fn size(bound: Bound) -> Map<String, Value> {
    number_or_text(bound, SIZES.into(), in_units(["in", "mm"]))
}

fn limits(bound: Bound, definitions: &mut Map<String, Value>) -> Map<String, Value> {
    let text = json!({"type": "string", "pattern": SIZES, "maxLength": MAX_READING});
    let mut two = object(TwoLimits::OBJECT, None, &[], definitions);
    if let Some(Value::Object(properties)) = two.get_mut("properties") {
        for end in ["lower", "upper"] {
            properties.insert(end.into(), size(bound).into());
        }
    }
    let deviations = object(Deviations::OBJECT, None, &[], definitions);
    let expected = Shape::Limits.expected(Units::Metric);
    fields_of([
        ("anyOf", json!([text, two, deviations])),
        ("description", format!("Give {expected}.").into()),
    ])
}

//! The types of values in stubs.
use tenths::object::FieldKind;

/// What a field of an object gives.
pub(crate) fn python_type(kind: &FieldKind) -> String {
    match kind {
        FieldKind::Size => "Size".into(),
        FieldKind::Limits => "Limits".into(),
        FieldKind::Quantity(_) | FieldKind::Number | FieldKind::Pure | FieldKind::Seconds => "float".into(),
        FieldKind::Whole => "int".into(),
        FieldKind::Flag => "bool".into(),
        FieldKind::Amount => "Decimal".into(),
        FieldKind::Choice(names) => {
            let names: Vec<_> = names.iter().map(|name| format!("\"{name}\"")).collect();
            format!("Literal[{}]", names.join(", "))
        }
        FieldKind::Text => "str".into(),
        FieldKind::Object(record) => record.name.into(),
        FieldKind::List(FieldKind::Object(record)) => format!("Rows[{}]", record.name),
        FieldKind::List(element) => format!("tuple[{}, ...]", python_type(element)),
        FieldKind::ByName(inner) => format!("dict[str, {}]", python_type(inner)),
        FieldKind::Optional(inner) => format!("{} | None", python_type(inner)),
    }
}

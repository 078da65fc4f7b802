//! An object as a table for a notebook.
use super::Shown;
use super::value::{choice_name, element, reading, side};
use tenths::object::{Field, FieldKind, ObjectRecord, Told, Value};

/// A table of the fields, and below it one for each list of objects.
pub(super) fn page(told: &Told, shown: Shown) -> String {
    let caption = told.summary.as_deref().map_or_else(|| words(told.record.name), str::to_string);
    let (mut lines, mut tables) = (String::new(), String::new());
    fields(&mut lines, &mut tables, "", told, shown);
    format!("<table><caption>{}</caption>{lines}</table>{tables}", escaped(&caption))
}

fn fields(lines: &mut String, tables: &mut String, before: &str, told: &Told, shown: Shown) {
    for (field, value) in told.record.fields().zip(&told.values) {
        let name = format!("{before}{}", words(field.name));
        match (element(field.kind.present()), value) {
            (_, value) if is_empty(value) => {}
            (_, Value::Object(told)) => {
                fields(lines, tables, &format!("{name}: "), told, shown.within(told));
            }
            (FieldKind::Object(record), Value::List(rows)) => {
                *tables += &table(&name, record, rows, shown);
            }
            _ => {
                let cell = escaped(&text(&field.kind, value, shown));
                let title = escaped(field.doc);
                *lines += &format!("<tr><th title=\"{title}\">{}</th><td>{cell}</td></tr>", escaped(&name));
            }
        }
    }
}

/// Whether there is nothing to show.
fn is_empty(value: &Value) -> bool {
    match value {
        Value::Absent => true,
        Value::Text(text) => text.is_empty(),
        Value::List(values) => values.is_empty(),
        Value::ByName(values) => values.is_empty(),
        _ => false,
    }
}

/// A table of objects of one record, without the columns in which all are empty.
pub(super) fn table(name: &str, record: &ObjectRecord, rows: &[Value], shown: Shown) -> String {
    let rows: Vec<&Told> = rows
        .iter()
        .filter_map(|row| match row {
            Value::Object(told) => Some(told),
            _ => None,
        })
        .collect();
    let filled = |place: &usize| rows.iter().any(|row| !is_empty(&row.values[*place]));
    let columns: Vec<(usize, &Field)> =
        record.fields().enumerate().filter(|(place, _)| filled(place)).collect();
    let heads = columns.iter().map(|(_, field)| {
        format!("<th title=\"{}\">{}</th>", escaped(field.doc), escaped(&words(field.name)))
    });
    let lines = rows.iter().map(|row| {
        let cells = columns.iter().map(|(place, field)| {
            format!("<td>{}</td>", escaped(&text(&field.kind, &row.values[*place], shown.within(row))))
        });
        format!("<tr>{}</tr>", cells.collect::<String>())
    });
    format!(
        "<table><caption>{}</caption><thead><tr>{}</tr></thead><tbody>{}</tbody></table>",
        escaped(name),
        heads.collect::<String>(),
        lines.collect::<String>()
    )
}

/// A value with its unit.
pub(super) fn text(kind: &FieldKind, value: &Value, shown: Shown) -> String {
    let kind = kind.present();
    match value {
        Value::Absent => String::new(),
        Value::Size(size) => size.format(shown.sizes),
        Value::Limits(limits) => limits.format(shown.sizes),
        Value::Number(number) => {
            let number = match kind {
                FieldKind::Quantity(kind) => reading(kind, *number, side(shown.quantities)),
                _ => *number,
            };
            format!("{} {}", figure(number), shown.label(kind)).trim_end().into()
        }
        Value::Whole(count) => count.to_string(),
        Value::Flag(flag) => if *flag { "yes" } else { "no" }.into(),
        Value::Amount(amount) => amount.to_string(),
        Value::Choice(place) => words(choice_name(kind, *place)),
        Value::Text(text) => text.to_string(),
        Value::Object(told) => told.summary.as_deref().map_or_else(
            || {
                let pairs = told.record.fields().zip(&told.values);
                let texts = pairs.map(|(field, value)| text(&field.kind, value, shown));
                texts.filter(|text| !text.is_empty()).collect::<Vec<_>>().join(", ")
            },
            str::to_string,
        ),
        Value::ByName(pairs) => {
            let pair = |(name, value): &(_, _)| format!("{name}: {}", text(element(kind), value, shown));
            pairs.iter().map(pair).collect::<Vec<_>>().join(", ")
        }
        Value::List(values) => {
            let texts = values.iter().map(|value| text(element(kind), value, shown));
            texts.collect::<Vec<_>>().join(", ")
        }
    }
}

/// A number to six places that count.
fn figure(number: f64) -> String {
    let rounded: f64 = format!("{number:.5e}").parse().unwrap_or(number);
    rounded.to_string()
}

/// A name as words: `wear_limit` as `wear limit`, `GaugeMember` as `gauge member`.
fn words(name: &str) -> String {
    let mut words = String::new();
    for (place, letter) in name.chars().enumerate() {
        let follows = name[..].chars().nth(place.wrapping_sub(1)).is_some_and(char::is_lowercase);
        match letter {
            '_' => words.push(' '),
            letter if letter.is_uppercase() && follows => {
                words.push(' ');
                words.extend(letter.to_lowercase());
            }
            letter => words.push(letter),
        }
    }
    words
}

pub fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

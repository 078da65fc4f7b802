//! What was assumed, on the sheet.
use super::assumption::Assumption;
use crate::plan::markup::{entry, escaped};

/// What was assumed for one operation, counted from 0: its fields with their values.
pub(in crate::plan) fn write_assumed_of(text: &mut String, assumptions: &[Assumption], operation: usize) {
    let top = format!("/operations/{operation}/");
    let own = assumptions.iter().filter_map(|one| Some((one.place.strip_prefix(&top)?, &one.value)));
    let own: Vec<String> = own.map(|(field, value)| format!("{} {value}", in_words(field))).collect();
    if !own.is_empty() {
        entry(text, &format!("**Assumed.** {}.", escaped(&own.join(", "))));
        text.push('\n');
    }
}

/// The list of all that was assumed; nothing where nothing was.
pub(in crate::plan) fn write_assumed(text: &mut String, assumptions: &[Assumption]) {
    if assumptions.is_empty() {
        return;
    }
    text.push_str(
        "## Assumed\n\nThe plan leaves these out. Each is a proposal: give the field to override it.\n\n",
    );
    for Assumption { place, value, reason } in assumptions {
        entry(text, &format!("`{place}`: {}. {}.", escaped(value), escaped(reason)));
    }
    text.push('\n');
}

/// `tool/surface_speed` as `tool surface speed`.
fn in_words(field: &str) -> String {
    field.replace(['/', '_'], " ")
}

//! What is said of the inch and of the metric side of an argument.
use tenths::Units;
use tenths::formula::Argument;

/// What is said for inch and for metric, once if it is the same.
pub(crate) fn both([inch, metric]: [String; 2]) -> String {
    if inch == metric { inch } else { format!("{inch}, or {metric}") }
}

/// What an argument must be, once if the sides differ in the unit alone: `greater than 0`.
pub(crate) fn need(argument: &Argument) -> String {
    let bare = Units::ALL.map(|units| match argument.unit(units).label {
        "" => argument.need(units),
        label => argument.need(units).replace(&format!(" {label}"), ""),
    });
    match bare {
        [inch, metric] if inch == metric && argument.need(Units::Inch) != argument.need(Units::Metric) => {
            inch
        }
        _ => both(Units::ALL.map(|units| argument.need(units))),
    }
}

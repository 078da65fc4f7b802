//! What the drawing leaves out, and the bar.
use super::facts::{Asked, COMMON, Facts};
use super::filling::Filling;
use crate::stock::{BarSize, bar_sizes, next_bar_size};
use crate::{Limits, Size, Units};

pub(super) fn characteristic(one: &mut Filling<'_, '_>, asked: Option<&Asked>) {
    let (requirement, why) = one.facts.either(
        ("envelope", "the rule of ASME Y14.5 for a size without another mark"),
        ("independency", "the rule of ISO 8015 for a size without another mark"),
    );
    one.put_text("requirement", requirement, why);
    if let Some(asked) = asked {
        let how = inspection(&asked.kind, &asked.limits);
        one.put_text("inspection", how, "by kind and tolerance: common practice, no source");
    }
}

/// How a size is measured: common practice, no source.
fn inspection(kind: &str, limits: &Limits) -> &'static str {
    // 0.05 mm: below it a caliper is not to be trusted.
    let is_close = limits.tolerance() < Size::from_picometres(50_000_000);
    match (kind, is_close) {
        ("bore", true) => "plug gauge or bore micrometer",
        ("bore", false) => "pin gauges",
        ("depth", true) => "depth micrometer",
        ("depth", false) => "depth gauge",
        ("slot", true) => "gauge blocks",
        (_, true) => "micrometer",
        (_, false) => "caliper",
    }
}

/// What is left on a diameter for cleaning up: common practice, no source.
fn cleanup(units: Units) -> Size {
    match units {
        Units::Inch => Size::from_picometres(25_400_000_000 / 16),
        Units::Metric => Size::from_picometres(1_000_000_000),
    }
}

/// The bar that is bought for a diameter: its limits as text, and why.
///
/// A metric bar is bright, in h11; an inch bar is cold finished, to limits of common practice. Larger ones are hot rolled.
pub(crate) fn proposed_bar(largest: Size, units: Units) -> Option<(String, String)> {
    let least = largest.checked_add(cleanup(units))?;
    let [bright, rolled] = match units {
        Units::Inch => ["inch cold finished", "inch hot rolled"],
        Units::Metric => ["metric bright", "metric hot rolled"],
    };
    let found = |list: &str| next_bar_size(least, &bar_sizes(list).ok()?).ok();
    let bar = found(bright).or_else(|| found(rolled))?;
    let reason = format!(
        "the next size at or above {} and {} for cleaning up; {}",
        largest.format(units),
        cleanup(units).format(units),
        bar.source
    );
    Some((limits_of(&bar, units), reason))
}

fn limits_of(bar: &BarSize, units: Units) -> String {
    match (bar.limits, units) {
        (Some(limits), _) => limits.format(units),
        (None, Units::Metric) => format!("{} h11", bar.size.decimal(units)),
        // Cold-finished rounds of ASTM A108, low carbon: from memory, the widest of common sizes.
        (None, Units::Inch) => format!("{} +0/-.006 in", bar.size.decimal(units)),
    }
}

pub(super) fn bar(one: &mut Filling<'_, '_>, largest: Option<Size>) {
    let (units, facts) = (one.facts.units, one.facts);
    one.put_text("form", "round", COMMON);
    if let Some((limits, reason)) = largest.and_then(|largest| proposed_bar(largest, units)) {
        one.put_text("limits", &limits, reason);
    }
    one.put_text(
        "bar_length",
        facts.either("12 ft", "3000 mm"),
        "as dealers sell it: common practice, no source",
    );
    if one.leaves_out() {
        let what = "for a bar that is proposed: common practice, no source";
        one.put_number("end_trim", facts.either(0.25, 5.0), facts.length(), what);
        one.put_number("remnant", facts.either(2.0, 50.0), facts.length(), what);
    }
}

/// The largest outer diameter of the drawing.
pub(super) fn largest(facts: &Facts<'_>) -> Option<Size> {
    let outer = ["diameter", "across_flats", "width"];
    let sizes = facts.characteristics.iter().filter(|one| outer.contains(&&*one.kind));
    sizes.map(|one| one.limits.upper()).max()
}

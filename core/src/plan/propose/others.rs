//! Operations whose time alone is proposed, and inspection.
use super::facts::COMMON;
use super::filling::Filling;

/// The time for a part, in minutes.
pub(super) fn time(work: &mut Filling<'_, '_>, minutes: f64) {
    work.put_number("time", minutes, "min", COMMON);
}

/// Minutes to inspect a characteristic.
const EACH: f64 = 0.3;

/// An inspection checks all where it is the only one that leaves out what it checks.
pub(super) fn inspect(work: &mut Filling<'_, '_>, checks: Option<usize>, is_alone: bool) {
    let numbers: Vec<u32> = work.facts.characteristics.iter().map(|one| one.number).collect();
    let count = checks.unwrap_or(numbers.len());
    if is_alone && !numbers.is_empty() {
        work.put("checks", numbers.into(), "all".into(), "every characteristic of the drawing");
    }
    let minutes = format!("{:.1}", EACH * count.max(1) as f64).parse().unwrap_or(EACH);
    let reason = format!("{EACH} min for each characteristic: common practice, no source");
    work.put_number("time", minutes, "min", reason);
}

//! The milling cutter of an operation, its speed and its feed.
use super::cut::{reachable, third, two_digits_down};
use super::facts::{COMMON, three_digits};
use super::filling::Filling;
use crate::quantity::{Length, Quantity, SpindleSpeed, SurfaceSpeed};
use crate::starting_values::{CutOperation, ToolMaterial};

/// Sizes in which end mills are common: common practice, no source.
const METRIC: [f64; 7] = [6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0];
const INCH: [f64; 7] = [0.25, 0.3125, 0.375, 0.5, 0.625, 0.75, 1.0];

/// The cutter that is proposed.
pub(super) struct Wanted<'s> {
    pub(super) name: &'s str,
    pub(super) operation: CutOperation,
    pub(super) diameter: f64,
    /// Why it has that diameter.
    pub(super) reason: String,
    pub(super) teeth: f64,
}

/// The least common end mill that is at least so large, or the largest.
pub(super) fn end_mill(work: &Filling<'_, '_>, least: f64) -> f64 {
    let sizes = work.facts.either(INCH, METRIC);
    sizes.into_iter().find(|size| *size >= least).unwrap_or(sizes[6])
}

/// Fills the cutter, then the spindle speed and the feed rate; gives the diameter of the cutter.
pub(super) fn cutter(work: &mut Filling<'_, '_>, wanted: &Wanted<'_>) -> Option<f64> {
    let facts = work.facts;
    let unit = facts.length();
    let (diameter, teeth, [speed, chip]) = work.inside("tool", |tool| {
        tool.put_text("name", wanted.name, COMMON);
        tool.put_number("diameter", wanted.diameter, unit, &*wanted.reason);
        tool.put_number("teeth", wanted.teeth, "", COMMON);
        let diameter = tool.length_of("diameter").unwrap_or(wanted.diameter);
        let speeds = facts
            .speeds(wanted.operation, ToolMaterial::Carbide, Some(diameter))
            .map(|speeds| reachable(speeds, Some(diameter), facts.units));
        tool.recommend(speeds, Some("chip_load"));
        let ranges = [("surface_speed", SurfaceSpeed::KIND), ("chip_load", Length::KIND)];
        let ranges = ranges.map(|(name, kind)| tool.tool_range(name, kind));
        (diameter, tool.count("teeth", wanted.teeth), ranges)
    })?;
    work.put_spindle(speed, Some(diameter));
    if let (Some(chip), Some(spindle)) = (chip, work.number("spindle_speed", SpindleSpeed::KIND)) {
        let each = two_digits_down(third(chip));
        let reason = format!("{teeth} teeth at a chip load of {each} {unit}");
        let rate = facts.either("in/min", "mm/min");
        work.put_number("feed_rate", three_digits(each * teeth * spindle), rate, reason);
    }
    Some(diameter)
}

//! Speeds and feeds of a tool, and what the spindle is then set to.
use super::facts::{COMMON, Speeds};
use super::filling::Filling;
use crate::cutting::speed::spindle_speed;
use crate::quantity::{Kind, Length, Quantity, SpindleSpeed, SurfaceSpeed};

/// The fastest that a spindle is set to without being asked: common practice, no source.
const TOP_SPEED: f64 = 4000.0;

/// The way up a range at which work starts: common practice, no source.
pub(super) fn third([low, high]: [f64; 2]) -> f64 {
    low + (high - low) / 3.0
}

impl Filling<'_, '_> {
    /// The range of speeds of a tool, and of the feeds that a field of it is for.
    pub(super) fn recommend(&mut self, speeds: Option<Speeds>, feed_field: Option<&str>) {
        let Some(speeds) = speeds else { return };
        let unit = SurfaceSpeed::KIND.unit(self.facts.units).label;
        let reason = format!("starting values: {}", speeds.speed_source);
        self.put_range("surface_speed", speeds.speed, unit, &reason);
        if let Some(field) = feed_field {
            let reason = format!("starting values: {}", speeds.feed_source);
            self.put_range(field, speeds.feed, self.facts.length(), &reason);
        }
    }

    /// The spindle speed for a range of surface speeds at a diameter.
    pub(super) fn put_spindle(&mut self, speeds: Option<[f64; 2]>, diameter: Option<f64>) {
        self.put_spindle_at(TOP_SPEED, speeds, diameter);
    }

    /// The spindle speed, at most one in rev/min.
    pub(super) fn put_spindle_at(&mut self, top: f64, speeds: Option<[f64; 2]>, diameter: Option<f64>) {
        let (Some(speeds), Some(diameter)) = (speeds, diameter) else { return };
        let Some(rev) = spindle(third(speeds), diameter, self.facts.units) else { return };
        let unit = SurfaceSpeed::KIND.unit(self.facts.units).label;
        let length = self.facts.length();
        let reason = match rev > top {
            true => format!(
                "the diameter of {diameter} {length} asks for more than {top} rev/min, which a plan assumes at most"
            ),
            false => format!(
                "a third of the way up {} to {} {unit}, at a diameter of {diameter} {length}",
                speeds[0], speeds[1]
            ),
        };
        self.put_number("spindle_speed", rounded_down(rev.min(top)), "rev/min", reason);
    }

    /// The feed of a range, or less where the finish asks for it.
    pub(super) fn put_feed(&mut self, name: &str, range: Option<[f64; 2]>, most: Option<(f64, String)>) {
        let Some(range) = range else { return };
        let (feed, unit) = (third(range), self.facts.length());
        let (feed, reason) = match most {
            Some((most, reason)) if most < feed => (most, reason),
            _ => (feed, format!("a third of the way up {} to {} {unit}", range[0], range[1])),
        };
        self.put_number(name, two_digits_down(feed), unit, reason);
    }

    pub(super) fn put_handling(&mut self, minutes: f64) {
        if self.leaves_out() {
            self.put_number("handling", minutes, "min", COMMON);
        }
    }

    /// The range of a tool that is given or was added.
    pub(super) fn tool_range(&self, name: &str, kind: &Kind) -> Option<[f64; 2]> {
        self.range(name, kind)
    }
}

/// The lowest surface speed that the top speed of a spindle reaches at a diameter; a range that lies above is widened to it.
pub(super) fn reachable(speeds: Speeds, diameter: Option<f64>, units: crate::Units) -> Speeds {
    reachable_at(TOP_SPEED, speeds, diameter, units)
}

/// The same with a top speed of its own.
pub(super) fn reachable_at(
    most: f64,
    mut speeds: Speeds,
    diameter: Option<f64>,
    units: crate::Units,
) -> Speeds {
    let top = diameter.and_then(|diameter| {
        let surface = crate::cutting::speed::surface_speed(
            Length::new_in(diameter, units),
            SpindleSpeed::new_in(most, units),
        );
        surface.ok().map(|speed| speed.in_units(units))
    });
    if let Some(top) = top.filter(|top| *top < speeds.speed[0]) {
        speeds.speed[0] = super::facts::three_digits(0.95 * top);
        speeds.speed_source.push_str(&format!("; lowered to what {most} rev/min reach"));
    }
    speeds
}

pub(super) fn spindle(speed: f64, diameter: f64, units: crate::Units) -> Option<f64> {
    let speed = SurfaceSpeed::new_in(speed, units);
    spindle_speed(speed, Length::new_in(diameter, units)).ok().map(|rev| rev.in_units(units))
}

/// A spindle speed as a shop sets it: whole tens, below 100 whole numbers.
pub(super) fn rounded_down(rev: f64) -> f64 {
    let step = if rev >= 100.0 { 10.0 } else { 1.0 };
    if rev < 1.0 { rev } else { (rev / step).floor() * step }
}

/// A feed to two digits, rounded down.
pub(super) fn two_digits_down(value: f64) -> f64 {
    let near = |value: f64| format!("{value:.1e}").parse::<f64>().unwrap_or(value);
    let rounded = near(value);
    if rounded <= value * (1.0 + 1e-12) { rounded } else { near(value * 0.96) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_rounded_as_a_shop_sets_them() {
        assert_eq!([1194.9, 57.8, 0.4].map(rounded_down), [1190.0, 57.0, 0.4]);
        assert_eq!([0.128, 0.2, 0.0057].map(two_digits_down), [0.12, 0.2, 0.0057]);
    }
}

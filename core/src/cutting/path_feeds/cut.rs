//! What cutter, work and machine set for every segment of a path.
use super::error::PathFeedError;
use crate::math::sin_acute_degrees;
use crate::quantity::*;
use tenths_macros::Choice;

/// The most teeth of a cutter.
const MAX_TEETH: u32 = 10_000;

/// What bounds the feed of a segment.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum FeedBound {
    /// The largest chip thickness.
    ChipThickness,
    /// The force on the cutter.
    Force,
    /// The deflection of the cutter.
    Deflection,
    /// The power at the cutter.
    Power,
    /// The greatest feed rate of the machine.
    FeedRate,
    /// The acceleration across a curved path.
    Curve,
    /// The acceleration from one segment to the next.
    Acceleration,
}

/// A milling cut along a path: what holds for all its segments. A limit that is left out does not bind.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PathCut {
    /// Diameter of the cutter.
    pub cutter_diameter: Length,
    /// Number of its teeth, equally spaced.
    pub teeth: u32,
    /// Spindle speed.
    pub spindle_speed: SpindleSpeed,
    /// Largest chip thickness wanted.
    pub chip_thickness: Length,
    /// Chip thickness below which the teeth rub.
    pub least_chip_thickness: Option<Length>,
    /// Specific cutting force of the material at a chip 1 mm thick.
    pub kc11: Stress,
    /// Its exponent.
    pub mc: f64,
    /// Entering angle: 90° is a square shoulder.
    pub entering_angle: Angle,
    /// Greatest force on the cutter: that of one tooth in its thickest chip, for as many teeth as are in the cut at once.
    pub greatest_force: Option<Force>,
    /// Stiffness of the cutter at its tip.
    pub stiffness: Option<Stiffness>,
    /// Greatest deflection of the cutter under that force.
    pub greatest_deflection: Option<Length>,
    /// Greatest mean power at the cutter.
    pub greatest_power: Option<Power>,
    /// Lowest feed rate of the machine: a segment whose limits are below it is refused.
    pub least_feed_rate: Option<FeedRate>,
    /// Greatest feed rate of the machine.
    pub greatest_feed_rate: Option<FeedRate>,
    /// Greatest acceleration along the path and across it.
    pub acceleration: Option<Acceleration>,
    /// Feed rate at which the path is entered.
    pub start_feed_rate: FeedRate,
    /// Feed rate at which the path is left, at most.
    pub end_feed_rate: FeedRate,
    /// The units of columns and messages.
    pub units: Units,
}

/// The same as bare numbers in base units of a side; without a limit infinite.
#[derive(Clone, Copy, Debug)]
pub(super) struct BareCut {
    pub(super) diameter: f64,
    pub(super) teeth: f64,
    /// Teeth times spindle speed.
    pub(super) passing: f64,
    pub(super) chip: f64,
    pub(super) least_chip: f64,
    /// Kienzle's constant for a chip as thick as the unit of length.
    pub(super) kc: f64,
    pub(super) mc: f64,
    pub(super) sine: f64,
    pub(super) force: f64,
    /// What bounds the force.
    pub(super) force_bound: FeedBound,
    pub(super) power: f64,
    pub(super) least_feed: f64,
    pub(super) feed: f64,
    pub(super) acceleration: f64,
    pub(super) start: f64,
    pub(super) end: f64,
}

impl PathCut {
    pub(super) fn bare(&self) -> Result<BareCut, PathFeedError> {
        self.check()?;
        let units = self.units;
        let base = |kind: &Kind, metric: f64| kind.base_in(metric, units);
        let deflecting = match (self.stiffness, self.greatest_deflection) {
            (Some(stiffness), Some(deflection)) => {
                base(Force::KIND, stiffness.metric() * deflection.metric())
            }
            (None, None) => f64::INFINITY,
            (Some(_), None) => return Err(incomplete("stiffness", "greatest_deflection")),
            (None, Some(_)) => return Err(incomplete("greatest_deflection", "stiffness")),
        };
        let force = self.greatest_force.map_or(f64::INFINITY, |force| base(Force::KIND, force.metric()));
        let unit_chip = base(Length::KIND, 1.0);
        Ok(BareCut {
            diameter: base(Length::KIND, self.cutter_diameter.metric()),
            teeth: f64::from(self.teeth),
            passing: f64::from(self.teeth) * self.spindle_speed.metric(),
            chip: base(Length::KIND, self.chip_thickness.metric()),
            least_chip: self.least_chip_thickness.map_or(0.0, |chip| base(Length::KIND, chip.metric())),
            kc: base(Stress::KIND, self.kc11.metric()) * crate::math::powf(unit_chip, self.mc),
            mc: self.mc,
            sine: sin_acute_degrees(self.entering_angle.metric()),
            force: force.min(deflecting),
            force_bound: if deflecting < force { FeedBound::Deflection } else { FeedBound::Force },
            power: self.greatest_power.map_or(f64::INFINITY, |power| base(Power::KIND, power.metric())),
            least_feed: self.least_feed_rate.map_or(0.0, |feed| base(FeedRate::KIND, feed.metric())),
            feed: self.greatest_feed_rate.map_or(f64::INFINITY, |feed| base(FeedRate::KIND, feed.metric())),
            acceleration: self
                .acceleration
                .map_or(f64::INFINITY, |acceleration| base(Acceleration::KIND, acceleration.metric())),
            start: base(FeedRate::KIND, self.start_feed_rate.metric()),
            end: base(FeedRate::KIND, self.end_feed_rate.metric()),
        })
    }

    fn check(&self) -> Result<(), PathFeedError> {
        let units = self.units;
        positive("cutter_diameter", Some(self.cutter_diameter), units)?;
        positive("spindle_speed", Some(self.spindle_speed), units)?;
        positive("chip_thickness", Some(self.chip_thickness), units)?;
        positive("kc11", Some(self.kc11), units)?;
        positive("least_chip_thickness", self.least_chip_thickness, units)?;
        positive("greatest_force", self.greatest_force, units)?;
        positive("stiffness", self.stiffness, units)?;
        positive("greatest_deflection", self.greatest_deflection, units)?;
        positive("greatest_power", self.greatest_power, units)?;
        positive("least_feed_rate", self.least_feed_rate, units)?;
        positive("greatest_feed_rate", self.greatest_feed_rate, units)?;
        positive("acceleration", self.acceleration, units)?;
        let refuse = |what, must, value: String| Err(PathFeedError::Number { what, must, value });
        if self.teeth == 0 || self.teeth > MAX_TEETH {
            return refuse("teeth", "from 1 to 10000", self.teeth.to_string());
        }
        if !(0.0..=0.9).contains(&self.mc) {
            return refuse("mc", "from 0 to 0.9", self.mc.to_string());
        }
        let angle = self.entering_angle.metric();
        if !(angle > 0.0 && angle <= 90.0) {
            return refuse("entering_angle", "above 0 and at most 90 degrees", angle.to_string());
        }
        if self.least_chip_thickness.is_some_and(|least| least > self.chip_thickness) {
            let least = self.least_chip_thickness.unwrap_or(self.chip_thickness);
            return refuse("least_chip_thickness", "at most chip_thickness", shown(least, units));
        }
        if let (Some(least), Some(greatest)) = (self.least_feed_rate, self.greatest_feed_rate)
            && least > greatest
        {
            return refuse("least_feed_rate", "at most greatest_feed_rate", shown(least, units));
        }
        for (what, feed) in [("start_feed_rate", self.start_feed_rate), ("end_feed_rate", self.end_feed_rate)]
        {
            if !(feed.metric() >= 0.0 && feed.metric().is_finite()) {
                return refuse(what, "zero or more", shown(feed, units));
            }
        }
        Ok(())
    }
}

fn incomplete(given: &'static str, missing: &'static str) -> PathFeedError {
    PathFeedError::Incomplete { given, missing }
}

fn shown<Q: Quantity>(value: Q, units: Units) -> String {
    format!("{} {}", value.in_units(units), Q::KIND.unit(units).label)
}

fn positive<Q: Quantity>(what: &'static str, value: Option<Q>, units: Units) -> Result<(), PathFeedError> {
    match value {
        Some(value) if !(value.metric() > 0.0 && value.metric().is_finite()) => {
            Err(PathFeedError::Number { what, must: "greater than 0", value: shown(value, units) })
        }
        _ => Ok(()),
    }
}

//! What a machine leaves of the limits of a path.
use super::cut::PathCut;
use super::error::PathFeedError;
use crate::cutting::machine::Machine;
use crate::quantity::*;
use std::f64::consts::PI;

impl PathCut {
    /// The cut within the limits of a machine too: power and torque by its curve at the spindle speed, feed rates and
    /// acceleration. `efficiency` is the share of the motor's power that reaches the cutter. The force of the axis is not
    /// compared: that of a path is the force on the cutter.
    ///
    /// # Errors
    /// [`PathFeedError`] for a spindle speed that the machine does not have, or at which it has no power, and for an efficiency
    /// that is not above 0 and at most 1.
    pub fn on_machine(&self, machine: &Machine, efficiency: f64) -> Result<PathCut, PathFeedError> {
        let (units, metric) = (self.units, Units::Metric);
        if !(efficiency > 0.0 && efficiency <= 1.0) {
            let (what, must) = ("efficiency", "greater than 0 and at most 1");
            return Err(PathFeedError::Number { what, must, value: efficiency.to_string() });
        }
        let (least, greatest) = machine.spindle_speeds(units);
        let speed = self.spindle_speed.in_units(units);
        let unit = SpindleSpeed::KIND.unit(units).label;
        // A hair beyond an end is that end in other units.
        if !(speed >= least * (1.0 - 1e-12) && speed <= greatest * (1.0 + 1e-12)) {
            return Err(PathFeedError::SpindleSpeed { speed, least, greatest, unit });
        }
        let turns = self.spindle_speed.in_units(metric);
        let by_motor = machine.power_at(turns, metric).map(|power| power * efficiency);
        // N·m and rev/min make 2π/60 000 kW.
        let by_torque = machine.torque_at(turns, metric).map(|torque| torque * turns * PI / 30_000.0);
        let power = smaller(by_motor, by_torque);
        if power.is_some_and(|power| power <= 0.0) {
            return Err(PathFeedError::NoPower { speed, unit });
        }
        let power = smaller(self.greatest_power.map(|power| power.in_units(metric)), power);
        let feed_rate = |number: Option<f64>| number.map(|feed| FeedRate::new_in(feed, metric));
        let feed = smaller(
            self.greatest_feed_rate.map(|feed| feed.in_units(metric)),
            machine.greatest_feed_rate(metric),
        );
        let acceleration = smaller(
            self.acceleration.map(|acceleration| acceleration.in_units(metric)),
            machine.greatest_acceleration(metric),
        );
        let least_feed =
            larger(self.least_feed_rate.map(|feed| feed.in_units(metric)), machine.least_feed_rate(metric));
        Ok(PathCut {
            greatest_power: power.map(|power| Power::new_in(power, metric)),
            least_feed_rate: feed_rate(least_feed),
            greatest_feed_rate: feed_rate(feed),
            acceleration: acceleration.map(|acceleration| Acceleration::new_in(acceleration, metric)),
            ..*self
        })
    }
}

/// The smaller of two limits, either of which may be absent.
fn smaller(a: Option<f64>, b: Option<f64>) -> Option<f64> {
    match (a, b) {
        (Some(a), Some(b)) => Some(a.min(b)),
        (a, b) => a.or(b),
    }
}

/// The larger of two limits, either of which may be absent.
fn larger(a: Option<f64>, b: Option<f64>) -> Option<f64> {
    smaller(a.map(|a| -a), b.map(|b| -b)).map(|larger| -larger)
}

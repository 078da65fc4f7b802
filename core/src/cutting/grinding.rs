//! Grinding: the speed of the wheel against what it is rated for, centreless feed, passes and time.
use super::drilling::whole_steps;
use crate::Size;
use crate::formula::Formula;
use crate::math::sin_degrees;
use crate::quantity::*;
use std::f64::consts::PI;
use tenths_macros::{Outcome, formula};

/// Speed of a grinding wheel and what it uses of its rating.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct GrindingWheelSpeed {
    /// Surface speed of the wheel.
    pub surface_speed: SurfaceSpeed,
    /// That speed as a share of the rated one, 1 at most.
    pub share_of_rating: Ratio,
}

/// The speed that `grinding_wheel_greatest_spindle_speed` gives is within the rating, however it was rounded.
const ROUNDING: f64 = 1.0 + 4.0 * f64::EPSILON;

/// Surface speed of a grinding wheel, refused above the speed that the wheel is rated for.
///
/// It is π · wheel diameter · spindle speed. Take the diameter of the new wheel, and 1 m/s as 60 m/min.
#[formula(
    source = "Kinematics; the maximum operating speed is marked on the wheel, ISO 525 and EN 12413 (from \
              memory)",
    caution(grinding_wheel),
    rule(
        PI * wheel_diameter * spindle_speed <= rated_speed * ROUNDING,
        "the rim of wheel_diameter at spindle_speed must not run faster than rated_speed: wheels burst"
    )
)]
pub fn grinding_wheel_speed(
    /// Diameter of the wheel.
    #[positive]
    #[increasing(surface_speed, share_of_rating)]
    wheel_diameter: Length,
    /// Speed of the wheel spindle.
    #[non_negative]
    #[increasing(surface_speed, share_of_rating)]
    spindle_speed: SpindleSpeed,
    #[term(rated_wheel_speed)]
    #[decreasing(share_of_rating)]
    rated_speed: SurfaceSpeed,
) -> GrindingWheelSpeed {
    let surface_speed = PI * wheel_diameter * spindle_speed;
    BareGrindingWheelSpeed { surface_speed, share_of_rating: surface_speed / rated_speed }
}

/// Greatest spindle speed at the wheel's rated speed: rated speed / (π · wheel diameter).
///
/// For a wheel marked in rev/min that figure holds,
/// however worn it is.
#[formula(
    source = "Kinematics; the maximum operating speed is marked on the wheel, ISO 525 and EN 12413 (from \
              memory)",
    caution(grinding_wheel),
    inverse(rated_speed = PI * wheel_diameter * grinding_wheel_greatest_spindle_speed)
)]
pub fn grinding_wheel_greatest_spindle_speed(
    /// Diameter of the new wheel.
    #[positive]
    #[decreasing]
    wheel_diameter: Length,
    #[term(rated_wheel_speed)]
    #[increasing]
    rated_speed: SurfaceSpeed,
) -> SpindleSpeed {
    rated_speed / (PI * wheel_diameter)
}

/// Through-feed rate of centreless grinding: π · regulating wheel diameter · its speed · sin(tilt).
///
/// Without slip; parts lag by a few hundredths.
#[formula(
    source = "Kinematics, as in textbooks of production engineering: feed = π d n sin α",
    inverse(regulating_wheel_speed = centreless_feed_rate
        / (PI * regulating_wheel_diameter * sin_degrees(tilt_angle))),
    inverse(regulating_wheel_diameter = centreless_feed_rate
        / (PI * regulating_wheel_speed * sin_degrees(tilt_angle)))
)]
pub fn centreless_feed_rate(
    /// Diameter of the regulating wheel.
    #[positive]
    #[increasing]
    regulating_wheel_diameter: Length,
    /// Speed of rotation of the regulating wheel.
    #[positive]
    #[increasing]
    regulating_wheel_speed: SpindleSpeed,
    /// Angle between the axes of the regulating wheel and of the grinding wheel.
    #[positive]
    #[at_most(90.0)]
    #[range(.., 8.0)]
    #[increasing]
    tilt_angle: Angle,
) -> FeedRate {
    PI * regulating_wheel_diameter * regulating_wheel_speed * sin_degrees(tilt_angle)
}

/// Number of grinding passes: stock / infeed of a pass, rounded up, and the passes that spark out.
///
/// Stock and infeed are both measured on the diameter, or both on the radius or height. Sizes are exact:
/// stock that is a whole number of infeeds to the last digit takes no pass more.
#[formula(
    source = "Common practice, as in P. C. Sharma, A Textbook of Production Engineering, 11th ed. (from \
              memory)",
    rule(infeed > Size::ZERO, "infeed must be at least a picometre")
)]
pub fn grinding_passes(
    /// What is ground off.
    #[non_negative]
    #[increasing]
    stock: Size,
    /// What a pass takes off, measured as the stock is.
    #[positive]
    #[decreasing]
    infeed: Size,
    /// Passes without infeed at the end.
    #[within(0.0, 1e6)]
    #[whole]
    #[default(0.0)]
    #[increasing]
    spark_out_passes: Count,
) -> Count {
    whole_steps(stock, infeed) + spark_out_passes
}

/// Time of cylindrical traverse grinding: passes · travel / (traverse feed · work speed).
///
/// A pass is one way of the table. Dwell at the ends and the return to the start come on top.
#[formula(
    source = "Common practice, as in trade tables for machining (from memory)",
    inverse(travel = traverse_grinding_time * (traverse_feed * work_speed) / passes),
    inverse(work_speed = passes * travel / (traverse_feed * traverse_grinding_time)),
    inverse(traverse_feed = passes * travel / (work_speed * traverse_grinding_time))
)]
pub fn traverse_grinding_time(
    /// Travel of a pass: length of the work, less a third of the wheel's width where it overruns by a third
    /// at each end.
    #[non_negative]
    #[increasing]
    travel: Length,
    /// Feed of the table in one turn of the work: two thirds or so of the wheel's width for roughing, a
    /// third for finishing.
    #[positive]
    #[decreasing]
    traverse_feed: Length,
    /// Speed of rotation of the work.
    #[positive]
    #[decreasing]
    work_speed: SpindleSpeed,
    #[term(grinding_passes)]
    #[increasing]
    passes: Count,
) -> Time {
    passes * travel / (traverse_feed * work_speed)
}

/// Time of plunge grinding: stock on the radius / infeed rate, and the time that sparks out.
#[formula(
    source = "Common practice; time is path over speed",
    inverse(stock = (plunge_grinding_time - spark_out_time) * infeed_rate),
    inverse(infeed_rate = stock / (plunge_grinding_time - spark_out_time))
)]
pub fn plunge_grinding_time(
    /// What is ground off on the radius, with the approach in air.
    #[non_negative]
    #[increasing]
    stock: Length,
    /// Infeed rate, on the radius.
    #[positive]
    #[decreasing]
    infeed_rate: FeedRate,
    /// Time without infeed at the end.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    spark_out_time: Time,
) -> Time {
    stock / infeed_rate + spark_out_time
}

/// Time of grinding a flat: passes · (width / crossfeed + 1) · travel / table speed.
///
/// A pass takes one stroke more than the width holds crossfeeds; part of a crossfeed counts as that part. A
/// stroke is one way of the table, with its overrun.
#[formula(
    source = "Trade tables for machining: strokes = width / crossfeed + 1 (from memory)",
    inverse(travel = surface_grinding_time * table_speed / (passes * (width / crossfeed + 1.0))),
    inverse(table_speed = passes * (width / crossfeed + 1.0) * travel / surface_grinding_time)
)]
pub fn surface_grinding_time(
    /// Travel of a stroke: length of the work and the overrun at both ends.
    #[non_negative]
    #[increasing]
    travel: Length,
    /// Width across which the wheel steps.
    #[non_negative]
    #[increasing]
    width: Length,
    /// Step across after each stroke.
    #[positive]
    #[decreasing]
    crossfeed: Length,
    /// Speed of the table.
    #[positive]
    #[decreasing]
    table_speed: SurfaceSpeed,
    #[term(grinding_passes)]
    #[increasing]
    passes: Count,
) -> Time {
    passes * (width / crossfeed + 1.0) * travel / table_speed
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &GRINDING_WHEEL_SPEED,
    &GRINDING_WHEEL_GREATEST_SPINDLE_SPEED,
    &CENTRELESS_FEED_RATE,
    &GRINDING_PASSES,
    &TRAVERSE_GRINDING_TIME,
    &PLUNGE_GRINDING_TIME,
    &SURFACE_GRINDING_TIME,
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;

    // A 200 mm wheel for 35 m/s: 3342.25 rev/min at its rating.
    #[test]
    fn a_wheel_above_its_rating_is_an_error() {
        let run = |speed| GRINDING_WHEEL_SPEED.call(Units::Metric, &[200.0, speed, 2100.0], &mut [0.0; 2]);
        assert!(run(3342.2).is_ok());
        let error = run(3342.3).unwrap_err().to_string();
        let need =
            "the rim of wheel_diameter at spindle_speed must not run faster than rated_speed: wheels burst";
        let given = "(wheel_diameter = 200 mm, spindle_speed = 3342.3 rev/min, rated_speed = 2100 m/min)";
        assert_eq!(error, format!("grinding_wheel_speed: {need} {given}"));
    }

    #[test]
    fn the_greatest_spindle_speed_is_within_the_rating() {
        for diameter in 1..2000 {
            for units in Units::ALL {
                let (diameter, mut greatest) = (f64::from(diameter) * 0.3, [0.0]);
                let greatest_speed = &GRINDING_WHEEL_GREATEST_SPINDLE_SPEED;
                greatest_speed.call(units, &[diameter, 6500.0], &mut greatest).unwrap();
                let x = [diameter, greatest[0], 6500.0];
                GRINDING_WHEEL_SPEED.call(units, &x, &mut [0.0; 2]).unwrap();
            }
        }
    }
}

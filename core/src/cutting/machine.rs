//! What a machine can give: its spindle, its power and torque, its feeds.
use crate::quantity::*;
use serde::{Deserialize, Serialize};

/// What happens beside the points of a curve, in words.
pub const BESIDE_THE_CURVE: &str = "Between points the curve is straight. Below the first point its torque holds, \
                                    so that power falls with speed; above the last its power holds, so that torque falls.";
/// Points that a curve may have at most.
pub const MAX_POINTS: usize = 1000;
/// Bytes that a document of a machine may have at most.
pub const MAX_BYTES: usize = 1 << 20;

/// The numbers of a machine, in the shop units of `units`.
///
/// As JSON it is an object of the same names; what is left out is no limit.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MachineData {
    /// The unit system of every number: `inch` or `metric`.
    #[serde(with = "side")]
    pub units: Units,
    /// What the machine is called.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Lowest spindle speed that the machine holds.
    pub least_spindle_speed: f64,
    /// Highest spindle speed, of spindle, chuck and tool holder together.
    pub greatest_spindle_speed: f64,
    /// Power and torque by spindle speed, for the duty that the cut asks for; see [`BESIDE_THE_CURVE`].
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub curve: Vec<CurvePoint>,
    /// Lowest feed rate that the machine holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least_feed_rate: Option<f64>,
    /// Highest feed rate in a cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub greatest_feed_rate: Option<f64>,
    /// Highest force of the feeding axis.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub greatest_axis_force: Option<f64>,
}

/// A point of the curve of a spindle; it tells power, torque or both.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CurvePoint {
    /// Spindle speed.
    pub spindle_speed: f64,
    /// Power of the motor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub power: Option<f64>,
    /// Torque at the spindle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque: Option<f64>,
}

/// The name of a unit system in JSON.
mod side {
    use crate::Units;
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    pub fn serialize<S: Serializer>(units: &Units, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(units.name())
    }

    pub fn deserialize<'a, D: Deserializer<'a>>(deserializer: D) -> Result<Units, D::Error> {
        let name = String::deserialize(deserializer)?;
        let side = Units::ALL.into_iter().find(|side| side.name() == name);
        side.ok_or_else(|| D::Error::custom("units must be `inch` or `metric`"))
    }
}

/// Why numbers are no machine.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum MachineError {
    /// The text is no document of a machine.
    #[error("machine: {0}")]
    Json(String),
    /// Every number that cannot be, each with its name.
    #[error("machine: {}", .0.join("; "))]
    Numbers(Vec<String>),
}

/// What a machine can give. See [`limit_to_machine`](super::limit_to_machine::limit_to_machine).
#[derive(Clone, PartialEq, Debug)]
pub struct Machine(MachineData);

impl Machine {
    /// A machine of these numbers.
    ///
    /// # Errors
    /// [`MachineError`] with everything that cannot be: a highest spindle speed below the lowest, numbers below
    /// zero, a curve whose points do not rise, or which tells nothing.
    pub fn new(data: MachineData) -> Result<Machine, MachineError> {
        let faults = faults(&data);
        if faults.is_empty() { Ok(Machine(data)) } else { Err(MachineError::Numbers(faults)) }
    }

    /// A machine of a JSON document of at most [`MAX_BYTES`].
    ///
    /// # Errors
    /// [`MachineError`] for text that is no such document, and as [`Machine::new`].
    pub fn from_json(text: &str) -> Result<Machine, MachineError> {
        if text.len() > MAX_BYTES {
            return Err(MachineError::Json(format!("the document is longer than {MAX_BYTES} bytes")));
        }
        // Some editors put a byte order mark before the text.
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        Self::new(serde_json::from_str(text).map_err(|error| MachineError::Json(error.to_string()))?)
    }

    /// The machine as JSON, which gives the same machine again.
    pub fn to_json(&self) -> String {
        serde_json::to_string(&self.0).unwrap_or_default()
    }

    /// Its numbers.
    pub fn data(&self) -> &MachineData {
        &self.0
    }

    /// A number of this machine as a reading of a side; one of the same side stays as it is.
    fn reading<Q: Quantity>(&self, value: f64, units: Units) -> f64 {
        match units == self.0.units {
            true => value,
            false => Q::new_in(value, self.0.units).in_units(units),
        }
    }

    /// Lowest and highest spindle speed.
    pub fn spindle_speeds(&self, units: Units) -> (f64, f64) {
        let reading = |value| self.reading::<SpindleSpeed>(value, units);
        (reading(self.0.least_spindle_speed), reading(self.0.greatest_spindle_speed))
    }

    /// Lowest feed rate.
    pub fn least_feed_rate(&self, units: Units) -> Option<f64> {
        self.0.least_feed_rate.map(|value| self.reading::<FeedRate>(value, units))
    }

    /// Highest feed rate.
    pub fn greatest_feed_rate(&self, units: Units) -> Option<f64> {
        self.0.greatest_feed_rate.map(|value| self.reading::<FeedRate>(value, units))
    }

    /// Highest force of the feeding axis.
    pub fn greatest_axis_force(&self, units: Units) -> Option<f64> {
        self.0.greatest_axis_force.map(|value| self.reading::<Force>(value, units))
    }

    /// Power of the motor at a spindle speed, where the curve tells power.
    pub fn power_at(&self, spindle_speed: f64, units: Units) -> Option<f64> {
        let points: Vec<_> = self.points(|point| point.power);
        let (&(first, first_power), &(last, power)) = (points.first()?, points.last()?);
        let value = match spindle_speed {
            n if n >= last => power,
            n if n <= first => first_power * (n / first),
            n => between(&points, n),
        };
        Some(self.reading::<Power>(value, units))
    }

    /// Torque at the spindle at a spindle speed, where the curve tells torque.
    pub fn torque_at(&self, spindle_speed: f64, units: Units) -> Option<f64> {
        let points: Vec<_> = self.points(|point| point.torque);
        let (&(first, first_torque), &(last, torque)) = (points.first()?, points.last()?);
        let value = match spindle_speed {
            n if n >= last => torque * (last / n),
            n if n <= first => first_torque,
            n => between(&points, n),
        };
        Some(self.reading::<Torque>(value, units))
    }

    fn points(&self, told: impl Fn(&CurvePoint) -> Option<f64>) -> Vec<(f64, f64)> {
        self.0.curve.iter().filter_map(|point| Some((point.spindle_speed, told(point)?))).collect()
    }
}

/// Straight between the two points about a speed, which lies between the first and the last.
fn between(points: &[(f64, f64)], speed: f64) -> f64 {
    let above = points.partition_point(|&(at, _)| at <= speed).clamp(1, points.len() - 1);
    let ((low, from), (high, to)) = (points[above - 1], points[above]);
    from + (to - from) * ((speed - low) / (high - low))
}

/// Everything that cannot be.
fn faults(data: &MachineData) -> Vec<String> {
    let mut faults = vec![];
    let mut must = |holds: bool, text: String| {
        if !holds {
            faults.push(text);
        }
    };
    let positive = |value: f64| value > 0.0 && value.is_finite();
    let (least, greatest) = (data.least_spindle_speed, data.greatest_spindle_speed);
    must(least >= 0.0 && least.is_finite(), format!("least_spindle_speed must be 0 or more, not {least}"));
    must(positive(greatest), format!("greatest_spindle_speed must be greater than 0, not {greatest}"));
    must(
        least <= greatest,
        format!("greatest_spindle_speed {greatest} is below least_spindle_speed {least}"),
    );
    let numbers = [
        ("least_feed_rate", data.least_feed_rate),
        ("greatest_feed_rate", data.greatest_feed_rate),
        ("greatest_axis_force", data.greatest_axis_force),
    ];
    for (name, value) in numbers.into_iter().filter_map(|(name, value)| Some((name, value?))) {
        must(positive(value), format!("{name} must be greater than 0, not {value}"));
    }
    if let (Some(least), Some(greatest)) = (data.least_feed_rate, data.greatest_feed_rate) {
        must(least <= greatest, format!("greatest_feed_rate {greatest} is below least_feed_rate {least}"));
    }
    let points = data.curve.len();
    must(points <= MAX_POINTS, format!("curve may have at most {MAX_POINTS} points, not {points}"));
    let mut before = f64::NEG_INFINITY;
    for (k, point) in data.curve.iter().take(MAX_POINTS).enumerate() {
        let speed = point.spindle_speed;
        must(
            speed >= 0.0 && speed.is_finite(),
            format!("curve[{k}].spindle_speed must be 0 or more, not {speed}"),
        );
        must(
            speed > before,
            format!("curve[{k}].spindle_speed must be greater than that of the point before"),
        );
        before = speed;
        must(point.power.is_some() || point.torque.is_some(), format!("curve[{k}] needs power or torque"));
        for (name, value) in [("power", point.power), ("torque", point.torque)] {
            let holds = value.is_none_or(|value| value >= 0.0 && value.is_finite());
            must(holds, format!("curve[{k}].{name} must be 0 or more, not {}", value.unwrap_or_default()));
        }
    }
    for (name, told) in [
        ("power", data.curve.iter().rfind(|point| point.power.is_some())),
        ("torque", data.curve.iter().rfind(|point| point.torque.is_some())),
    ] {
        let holds = told.is_none_or(|point| point.spindle_speed > 0.0);
        must(holds, format!("curve must give {name} at a spindle speed above 0"));
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;

    const TURRET: &str = r#"{"units": "metric", "name": "mill", "least_spindle_speed": 50, "greatest_spindle_speed": 8000,
        "curve": [{"spindle_speed": 1000, "power": 10, "torque": 100}, {"spindle_speed": 2000, "power": 14},
        {"spindle_speed": 4000, "power": 12, "torque": 40}], "greatest_feed_rate": 15000, "greatest_axis_force": 5000}"#;

    // By hand: straight between points, torque held below and power held above.
    #[test]
    fn a_curve_is_straight_between_its_points() {
        let machine = Machine::from_json(TURRET).unwrap();
        let power = |n| machine.power_at(n, Units::Metric).unwrap();
        assert_eq!(
            [500.0, 1000.0, 1500.0, 2000.0, 3000.0, 4000.0, 8000.0].map(power),
            [5.0, 10.0, 12.0, 14.0, 13.0, 12.0, 12.0]
        );
        let torque = |n| machine.torque_at(n, Units::Metric).unwrap();
        assert_eq!([500.0, 1000.0, 2500.0, 4000.0, 8000.0].map(torque), [100.0, 100.0, 70.0, 40.0, 20.0]);
        // 1 hp = 0.745 699 87 kW.
        assert!((machine.power_at(1000.0, Units::Inch).unwrap() - 13.410_221).abs() < 1e-6);
    }

    #[test]
    fn json_gives_the_same_machine_again() {
        let machine = Machine::from_json(TURRET).unwrap();
        assert_eq!(Machine::from_json(&machine.to_json()), Ok(machine));
    }

    #[test]
    fn a_byte_order_mark_is_read_over() {
        assert_eq!(Machine::from_json(&format!("\u{feff}{TURRET}")), Machine::from_json(TURRET));
        assert!(Machine::from_json(TURRET).is_ok() && Machine::from_json("\u{feff}\u{feff}{}").is_err());
    }

    #[test]
    fn every_number_that_cannot_be_is_told() {
        let told = |text: &str| Machine::from_json(text).unwrap_err().to_string();
        let text = told(
            r#"{"units": "inch", "least_spindle_speed": 500, "greatest_spindle_speed": 100, "greatest_feed_rate": 0,
            "curve": [{"spindle_speed": 0, "torque": 5}, {"spindle_speed": 0, "power": -1}, {"spindle_speed": 9}]}"#,
        );
        for part in [
            "greatest_spindle_speed 100 is below least_spindle_speed 500",
            "greatest_feed_rate must be greater than 0, not 0",
            "curve[1].spindle_speed must be greater than that of the point before",
            "curve[1].power must be 0 or more, not -1",
            "curve[2] needs power or torque",
            "curve must give torque at a spindle speed above 0",
        ] {
            assert!(text.contains(part), "{text}: {part}");
        }
        assert!(told(r#"{"units": "inch"}"#).contains("least_spindle_speed"));
        assert!(told(&TURRET.replace("metric", "furlong")).contains("units must be"));
        assert!(told(&TURRET.replace("\"name\"", "\"nome\"")).contains("nome"));
        assert!(told(&TURRET.replace("\"name\"", "\"units\"")).contains("units"));
        assert!(told(&" ".repeat(MAX_BYTES + 1)).contains("longer than"));
    }
}

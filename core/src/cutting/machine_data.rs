//! The numbers of a machine, and the document that gives them.
use crate::document::decode::{Context, Decode, decode_field, sort_fields};
use crate::document::fault::{FaultKind, Place};
use crate::document::node::Node;
use crate::document::objects::objects;
use crate::document::shape::{Bound, DocumentField, Object, Shape};
use crate::document::{DocumentNumber, Version};
use crate::quantity::*;
use serde_json::{Map, Value};

/// What happens beside the points of a curve, in words.
pub const BESIDE_THE_CURVE: &str = "Between points the curve is straight. Below the first point its torque holds, \
                                    so that power falls with speed; above the last its power holds, so that torque falls.";
/// Points that a curve may have at most.
pub const MAX_POINTS: usize = 1000;

objects! {
    /// The numbers of a machine.
    ///
    /// As JSON it is an object of the same names, whose bare numbers are in the shop units of `units`; text carries its
    /// own unit. A field that is left out sets no limit.
    MachineData {
        /// The version of this form of document; it may be left out.
        tenths_machine: Option<Version>,
        /// What fixes the unit of every bare number.
        units: Units,
        /// What the machine is called.
        name: Option<String>,
        /// Lowest spindle speed that the machine holds.
        least_spindle_speed: DocumentNumber<SpindleSpeed> where NonNegative,
        /// Highest spindle speed, of spindle, chuck and tool holder together.
        greatest_spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Power and torque by spindle speed, for the duty that the cut asks for. Between points the curve is straight;
        /// below the first point torque holds, above the last power.
        curve: Vec<CurvePoint> = Vec::new(),
        /// Lowest feed rate that the machine holds.
        least_feed_rate: Option<DocumentNumber<FeedRate>> where Positive,
        /// Highest feed rate in a cut.
        greatest_feed_rate: Option<DocumentNumber<FeedRate>> where Positive,
        /// Highest force of the feeding axis.
        greatest_axis_force: Option<DocumentNumber<Force>> where Positive,
        /// Highest acceleration of the axes.
        greatest_acceleration: Option<DocumentNumber<Acceleration>> where Positive,
    } => rules {
        least_spindle_speed, greatest_spindle_speed, units => speeds_out_of_order;
        least_feed_rate, greatest_feed_rate, units => feeds_out_of_order;
        curve, units => curve_fault;
    }

    /// A point of the curve of a spindle: power, torque or both.
    CurvePoint {
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where NonNegative,
        /// Power of the motor.
        power: Option<DocumentNumber<Power>> where NonNegative,
        /// Torque at the spindle.
        torque: Option<DocumentNumber<Torque>> where NonNegative,
    } => rules {
        power, torque => nothing_given;
    }
}

impl MachineData {
    /// A machine of a range of spindle speeds and no other limit.
    pub fn new(units: Units, least_spindle_speed: f64, greatest_spindle_speed: f64) -> MachineData {
        MachineData {
            tenths_machine: None,
            units,
            name: None,
            least_spindle_speed: DocumentNumber::new(least_spindle_speed),
            greatest_spindle_speed: DocumentNumber::new(greatest_spindle_speed),
            curve: Vec::new(),
            least_feed_rate: None,
            greatest_feed_rate: None,
            greatest_axis_force: None,
            greatest_acceleration: None,
        }
    }

    /// The document of these numbers.
    pub fn to_json(&self) -> String {
        let mut document = Map::new();
        if self.tenths_machine.is_some() {
            document.insert("tenths_machine".into(), Version::NUMBER.into());
        }
        document.insert("units".into(), self.units.name().into());
        document.extend(self.name.iter().map(|name| ("name".into(), name.as_str().into())));
        put(&mut document, "least_spindle_speed", Some(self.least_spindle_speed));
        put(&mut document, "greatest_spindle_speed", Some(self.greatest_spindle_speed));
        if !self.curve.is_empty() {
            document.insert("curve".into(), self.curve.iter().map(CurvePoint::to_value).collect());
        }
        put(&mut document, "least_feed_rate", self.least_feed_rate);
        put(&mut document, "greatest_feed_rate", self.greatest_feed_rate);
        put(&mut document, "greatest_axis_force", self.greatest_axis_force);
        put(&mut document, "greatest_acceleration", self.greatest_acceleration);
        Value::Object(document).to_string()
    }
}

impl CurvePoint {
    /// A point with power, torque or both.
    pub fn new(spindle_speed: f64, power: Option<f64>, torque: Option<f64>) -> CurvePoint {
        CurvePoint {
            spindle_speed: DocumentNumber::new(spindle_speed),
            power: power.map(DocumentNumber::new),
            torque: torque.map(DocumentNumber::new),
        }
    }

    fn to_value(&self) -> Value {
        let mut point = Map::new();
        put(&mut point, "spindle_speed", Some(self.spindle_speed));
        put(&mut point, "power", self.power);
        put(&mut point, "torque", self.torque);
        point.into()
    }
}

/// A number of a document. JSON has no NaN and no infinity: as text they are refused with their place.
fn put<Q: Quantity>(object: &mut Map<String, Value>, name: &str, number: Option<DocumentNumber<Q>>) {
    let Some(number) = number.map(DocumentNumber::value) else { return };
    let value = if number.is_finite() { number.into() } else { number.to_string().into() };
    object.insert(name.into(), value);
}

fn told<Q: Quantity>(number: DocumentNumber<Q>, units: Units) -> String {
    format!("{} {}", number.value(), Q::KIND.unit(units).label)
}

fn out_of_order<Q: Quantity>(
    least: DocumentNumber<Q>,
    greatest: DocumentNumber<Q>,
    name: &str,
    units: Units,
) -> Option<String> {
    (least.value() > greatest.value())
        .then(|| format!("{} is above {name}, {}", told(least, units), told(greatest, units)))
}

fn speeds_out_of_order(
    least: &DocumentNumber<SpindleSpeed>,
    greatest: &DocumentNumber<SpindleSpeed>,
    units: &Units,
) -> Option<String> {
    out_of_order(*least, *greatest, "greatest_spindle_speed", *units)
}

fn feeds_out_of_order(
    least: &Option<DocumentNumber<FeedRate>>,
    greatest: &Option<DocumentNumber<FeedRate>>,
    units: &Units,
) -> Option<String> {
    out_of_order((*least)?, (*greatest)?, "greatest_feed_rate", *units)
}

fn nothing_given(
    power: &Option<DocumentNumber<Power>>,
    torque: &Option<DocumentNumber<Torque>>,
) -> Option<String> {
    (power.is_none() && torque.is_none()).then(|| "give power, torque or both".into())
}

/// What is wrong with a curve as a whole.
#[expect(clippy::ptr_arg, reason = "the type of the field")]
fn curve_fault(curve: &Vec<CurvePoint>, units: &Units) -> Option<String> {
    if curve.len() > MAX_POINTS {
        return Some(format!("may have at most {MAX_POINTS} points, not {}", curve.len()));
    }
    let falls = |pair: &[CurvePoint]| pair[0].spindle_speed >= pair[1].spindle_speed;
    if let Some(k) = curve.windows(2).position(falls) {
        let [before, after] = [k, k + 1].map(|k| told(curve[k].spindle_speed, *units));
        return Some(format!(
            "the spindle speed of /curve/{}, {after}, must be greater than that of the point before, {before}",
            k + 1
        ));
    }
    let last = |has: fn(&CurvePoint) -> bool| curve.iter().rfind(|point| has(point));
    let ends =
        [("power", last(|point| point.power.is_some())), ("torque", last(|point| point.torque.is_some()))];
    let still = ends.iter().find(|(_, last)| last.is_some_and(|point| point.spindle_speed.value() == 0.0));
    still.map(|(name, _)| format!("give {name} at a spindle speed above 0, not at 0 alone"))
}

//! What a machine can give: its spindle, its power and torque, its feeds.
pub use super::machine_data::{BESIDE_THE_CURVE, CurvePoint, MAX_POINTS, MachineData};
use crate::document::DocumentNumber;
use crate::document::decode::{Context, Decode};
use crate::document::fault::{DocumentError, Place};
use crate::document::node::Tree;
use crate::quantity::*;
use std::collections::BTreeSet;

/// What a machine can give. See [`limit_to_machine`](super::limit_to_machine::limit_to_machine).
#[derive(Clone, PartialEq, Debug)]
pub struct Machine(MachineData);

impl Machine {
    /// A machine of these numbers.
    ///
    /// # Errors
    /// [`DocumentError`] with everything that cannot be: a highest spindle speed below the lowest, numbers below
    /// zero, a curve whose points do not rise, or a point that gives neither power nor torque.
    pub fn new(data: MachineData) -> Result<Machine, DocumentError> {
        // One judge for both: the numbers stay as they were given.
        Self::from_json(&data.to_json())?;
        Ok(Machine(data))
    }

    /// A machine of a JSON document, whose fields are those of [`MachineData`].
    ///
    /// # Errors
    /// [`DocumentError`] with every fault of the document, each with its place, as [`Machine::new`].
    pub fn from_json(text: &str) -> Result<Machine, DocumentError> {
        let tree = Tree::parse(text)?;
        let node = tree.root();
        let mut context = Context::new(Units::of_document(&node), BTreeSet::new());
        let data = MachineData::decode(&node, Place::ROOT, &mut context);
        match data {
            Some(data) if context.faults() == 0 => Ok(Machine(data)),
            _ => Err(context.into_faults().into()),
        }
    }

    /// The machine as JSON, which gives the same machine again.
    pub fn to_json(&self) -> String {
        self.0.to_json()
    }

    /// Its numbers.
    pub fn data(&self) -> &MachineData {
        &self.0
    }

    /// A number of this machine as a reading of a side; one of the same side stays as it is.
    fn reading<Q: Quantity>(&self, number: DocumentNumber<Q>, units: Units) -> f64 {
        match units == self.0.units {
            true => number.value(),
            false => Q::new_in(number.value(), self.0.units).in_units(units),
        }
    }

    /// Lowest and highest spindle speed.
    pub fn spindle_speeds(&self, units: Units) -> (f64, f64) {
        let reading = |number| self.reading(number, units);
        (reading(self.0.least_spindle_speed), reading(self.0.greatest_spindle_speed))
    }

    /// Lowest feed rate.
    pub fn least_feed_rate(&self, units: Units) -> Option<f64> {
        self.0.least_feed_rate.map(|number| self.reading(number, units))
    }

    /// Highest feed rate.
    pub fn greatest_feed_rate(&self, units: Units) -> Option<f64> {
        self.0.greatest_feed_rate.map(|number| self.reading(number, units))
    }

    /// Highest force of the feeding axis.
    pub fn greatest_axis_force(&self, units: Units) -> Option<f64> {
        self.0.greatest_axis_force.map(|number| self.reading(number, units))
    }

    /// Highest acceleration of the axes.
    pub fn greatest_acceleration(&self, units: Units) -> Option<f64> {
        self.0.greatest_acceleration.map(|number| self.reading(number, units))
    }

    /// Power of the motor at a spindle speed, where the curve tells power.
    pub fn power_at(&self, spindle_speed: f64, units: Units) -> Option<f64> {
        let points = self.points(|point| point.power);
        let (&(first, first_power), &(last, power)) = (points.first()?, points.last()?);
        let value = match spindle_speed {
            n if n >= last => power,
            n if n <= first => first_power * (n / first),
            n => between(&points, n),
        };
        Some(self.reading(DocumentNumber::<Power>::new(value), units))
    }

    /// Torque at the spindle at a spindle speed, where the curve tells torque.
    pub fn torque_at(&self, spindle_speed: f64, units: Units) -> Option<f64> {
        let points = self.points(|point| point.torque);
        let (&(first, first_torque), &(last, torque)) = (points.first()?, points.last()?);
        let value = match spindle_speed {
            n if n >= last => torque * (last / n),
            n if n <= first => first_torque,
            n => between(&points, n),
        };
        Some(self.reading(DocumentNumber::<Torque>::new(value), units))
    }

    fn points<Q: Quantity>(
        &self,
        given: impl Fn(&CurvePoint) -> Option<DocumentNumber<Q>>,
    ) -> Vec<(f64, f64)> {
        let point = |point: &CurvePoint| Some((point.spindle_speed.value(), given(point)?.value()));
        self.0.curve.iter().filter_map(point).collect()
    }
}

/// Straight between the two points about a speed, which lies between the first and the last.
fn between(points: &[(f64, f64)], speed: f64) -> f64 {
    let above = points.partition_point(|&(at, _)| at <= speed).clamp(1, points.len() - 1);
    let ((low, from), (high, to)) = (points[above - 1], points[above]);
    from + (to - from) * ((speed - low) / (high - low))
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
    fn every_fault_is_told_at_once_with_its_place() {
        let told = |text: &str| Machine::from_json(text).unwrap_err().to_string();
        let text = told(
            r#"{"units": "inch", "least_spindle_speed": 500, "greatest_spindle_speed": 100, "greatest_feed_rate": 0,
            "curve": [{"spindle_speed": 0, "torque": 5}, {"spindle_speed": 0, "power": -1}, {"spindle_speed": 9}],
            "greatest_axis_force": "5 mm", "axis": 1}"#,
        );
        for part in [
            "the document has 6 faults",
            "/least_spindle_speed: 500 rev/min is above greatest_spindle_speed, 100 rev/min",
            "/greatest_feed_rate: must be greater than 0, not 0 in/min",
            "/curve/1/power: must be 0 or greater, not -1 hp",
            "/curve/2/power: give power, torque or both",
            "/greatest_axis_force: ",
            "/axis: there is no field `axis` here",
        ] {
            assert!(text.contains(part), "{text}: {part}");
        }
        let curve = |points: &str| {
            told(&TURRET.replace(r#"{"spindle_speed": 1000, "power": 10, "torque": 100}"#, points))
        };
        let level = curve(r#"{"spindle_speed": 2000, "power": 10}"#);
        assert!(
            level.contains("/curve: the spindle speed of /curve/1, 2000 rev/min, must be greater"),
            "{level}"
        );
        let still = told(
            r#"{"units": "inch", "least_spindle_speed": 5, "greatest_spindle_speed": 100,
            "curve": [{"spindle_speed": 0, "torque": 5}, {"spindle_speed": 9, "power": 1}]}"#,
        );
        assert!(still.contains("/curve: give torque at a spindle speed above 0"), "{still}");
        assert!(told(r#"{"units": "inch"}"#).contains("/least_spindle_speed: is missing"));
        assert!(
            told(&TURRET.replace("metric", "furlong")).contains("/units: `furlong` is not accepted here")
        );
        assert!(told(&TURRET.replace("\"name\"", "\"nome\"")).contains("did you mean `name`?"));
        assert!(told(&TURRET.replace("\"name\"", "\"units\"")).contains("/units: `units` is given twice"));
        assert!(told(&" ".repeat(crate::document::MAX_BYTES + 1)).contains("the document"));
    }

    #[test]
    fn numbers_and_documents_are_judged_alike() {
        let data = |least: f64, greatest: f64| MachineData::new(Units::Metric, least, greatest);
        assert!(Machine::new(data(0.0, 10.0)).is_ok());
        for (least, greatest) in [(5.0, 1.0), (-1.0, 1.0), (f64::NAN, 1.0), (1.0, f64::INFINITY), (0.0, 0.0)]
        {
            assert!(Machine::new(data(least, greatest)).is_err(), "{least} {greatest}");
        }
        let text = Machine::new(data(f64::NAN, 9.0)).unwrap_err().to_string();
        assert!(text.contains("/least_spindle_speed: "), "{text}");
    }

    // 60 m/min on the metric side is 60 000 mm/min by the definition of the metre.
    #[test]
    fn text_carries_its_own_unit() {
        let text = TURRET.replace("15000", "\"60 m/min\"");
        assert_eq!(Machine::from_json(&text).unwrap().greatest_feed_rate(Units::Metric), Some(60_000.0));
    }
}

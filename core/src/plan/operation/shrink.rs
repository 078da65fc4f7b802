//! Shrinking the hub of a joint on, by heat or cold.
use super::prelude::*;
use crate::finding::Severity;
use crate::joint::shrink::JOINING_TEMPERATURE;
use crate::plan::hub::{Joint, PlainJoint};
use crate::plan::joints::joint_named;

objects! {
    /// Shrinks the hub of a joint on: the hub is heated, the shaft cooled, or both, and the joint goes together without force.
    ///
    /// Caution: hot hubs burn, and dry ice and liquid nitrogen burn, suffocate and make steel brittle. Ventilate, follow
    /// the makers of both metals for the temperatures that they bear, and join without a pause.
    Shrink {
        /// The name of the joint that it makes; without it the only one.
        joint: Option<String>,
        /// The temperature to which the hub is heated; without it that of the room.
        hub_temperature: Option<DocumentNumber<Temperature>>,
        /// The temperature to which the shaft is cooled; without it that of the room.
        shaft_temperature: Option<DocumentNumber<Temperature>>,
        /// The temperature of the room; without it 20 °C.
        room_temperature: Option<DocumentNumber<Temperature>>,
        /// The clearance on the diameter that is needed to join in; without it 0.001 of the diameter, common practice.
        clearance: Option<Size> where Positive,
        /// The time for a part, heating shared by a batch included.
        time: DocumentNumber<Time> where NonNegative,
    } => rules {
        hub_temperature, shaft_temperature => heated_or_cooled;
    }
}

/// The clearance over the diameter that gives time to join: common practice, no source.
const CLEARANCE: f64 = 0.001;
/// A part of a degree that is rounding of the arithmetic.
const ROUNDING: f64 = 1e-6;
/// Rules are left to the plan: the formula must not refuse a temperature.
const NO_LIMIT: f64 = 1e9;

/// Above this, common steels lose strength: 350 °C for a hub of plain steel in DIN 7190-1, from memory.
fn hottest(units: Units) -> f64 {
    Temperature::celsius(350.0).in_units(units)
}

fn heated_or_cooled(
    hub: &Option<DocumentNumber<Temperature>>,
    shaft: &Option<DocumentNumber<Temperature>>,
) -> Option<String> {
    let none = hub.is_none() && shaft.is_none();
    none.then(|| "nothing is heated or cooled: give `hub_temperature`, `shaft_temperature` or both".into())
}

impl Shrink {
    fn room(&self, units: Units) -> f64 {
        self.room_temperature.map_or(Temperature::celsius(20.0).in_units(units), DocumentNumber::value)
    }

    /// The temperature that the hub needs to go over its shaft, as a figure.
    fn needed(
        &self,
        work: &mut Evaluation<'_>,
        place: Place<'_>,
        joint: &PlainJoint,
    ) -> Result<Option<Figure>, DocumentError> {
        let Some(shaft) = work.limits_of(joint.shaft.0).map(|c| *c.limits) else { return Ok(None) };
        let known = [&joint.hub_material, work.material].map(|metal| metal.expansion(work.units));
        let [Some(hub_expansion), Some(shaft_expansion)] = known else {
            let member = if known[0].is_none() { "hub" } else { "shaft" };
            let message = format!(
                "the expansion of the {member} is not known, and the temperature to join was not checked"
            );
            let remedy = "state the `expansion` of its material";
            work.find((FindingCode::LeftOut, Severity::Warning), place, message, remedy);
            return Ok(None);
        };
        let room = self.room(work.units);
        let diameter = work.float(shaft.nominal());
        let clearance = self.clearance.map_or(CLEARANCE * diameter, |clearance| work.float(clearance));
        let greatest = work.float(shaft.upper()) - work.float(joint.bore.lower());
        let x = [
            greatest,
            clearance,
            diameter,
            hub_expansion,
            NO_LIMIT,
            shaft_expansion,
            self.shaft_temperature.map_or(room, DocumentNumber::value),
            room,
        ];
        let needed = work.figure(place, "hub temperature, at least", &JOINING_TEMPERATURE, &x)?;
        let (has, unit) = (self.hub_temperature.map_or(room, DocumentNumber::value), needed.unit.clone());
        if has < needed.value - ROUNDING {
            let message = format!(
                "the hub has {} {unit}, and to go over its largest shaft with a clearance of {} {} it needs {} {unit}",
                beside(has, needed.value),
                beside(clearance, 0.0),
                work.units.length_label(),
                beside(needed.value, has)
            );
            let remedy = "heat the hub more, or cool the shaft";
            work.find(FindingCode::DoesNotSlipOn, place.field("hub_temperature"), message, remedy);
        }
        Ok(Some(needed))
    }

    fn judge_heat(&self, work: &mut Evaluation<'_>, place: Place<'_>) {
        let (most, room) = (hottest(work.units), self.room(work.units));
        let unit = Temperature::KIND.unit(work.units).label;
        if let Some(hub) = self.hub_temperature.map(DocumentNumber::value).filter(|&hub| hub > most) {
            let message =
                format!("a hub of {hub} {unit} is hotter than common steels bear, about {most} {unit}");
            let remedy = "cool the shaft as well, or ask the maker of the metal what it bears";
            work.find(FindingCode::HubTooHot, place.field("hub_temperature"), message, remedy);
        }
        if let Some(shaft) = self.shaft_temperature.map(DocumentNumber::value).filter(|&shaft| shaft > room) {
            let message =
                format!("the shaft has {shaft} {unit}, warmer than the room, {room} {unit}: it grows");
            let remedy = "cool the shaft, or leave out `shaft_temperature`";
            work.find(FindingCode::DoesNotSlipOn, place.field("shaft_temperature"), message, remedy);
        }
    }
}

impl Kind for Shrink {
    fn cautions(&self) -> &'static [&'static str] {
        &[caution::SHRINK, caution::JOINT]
    }

    fn makes_chips(&self) -> bool {
        false
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        self.judge_heat(work, place);
        let joint = joint_named(&work.joints, self.joint.as_deref()).map(|placed| placed.joint);
        let needed = match joint {
            Some(Joint::PlainJoint(joint)) => self.needed(work, place, joint)?,
            _ => None,
        };
        let name = match &self.joint {
            Some(joint) => ["Shrink the hub on: ", joint].concat(),
            None => "Shrink the hub on".into(),
        };
        Ok(Done { name, figures: needed.into_iter().collect(), minutes: self.time.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let joint = joint_named(&work.joints, self.joint.as_deref());
        let length = joint.map(|placed| work.stated("length of contact", placed.joint.length()));
        let hub = self.hub_temperature.map(|hub| work.stated("hub temperature", hub));
        let shaft = self.shaft_temperature.map(|shaft| work.stated("shaft temperature", shaft));
        length.into_iter().chain(hub).chain(shaft).collect()
    }
}

//! What a plain joint loses of its interference: to roughness, to heat and to speed.
use super::evaluation::{Evaluation, MATERIAL};
use super::hub::PlainJoint;
use super::sheet::Figure;
use crate::document::fault::Place;
use crate::document::{DocumentError, DocumentNumber};
use crate::finding::{FindingCode, Severity};
use crate::joint::service::{INTERFERENCE_LOST_TO_HEAT, INTERFERENCE_LOST_TO_SPEED};
use crate::quantity::{Length, Quantity, RoughnessRa, Temperature};
use crate::{Limits, Units};

/// Rz over Ra where Rz is not stated: that of feed marks, whose Ra is a quarter of their height. Common practice, no
/// source; ground and honed surfaces have more.
const RZ_OVER_RA: f64 = 4.0;

/// Interference lost in service; negative where the joint tightens, and `None` where it is left out.
pub(super) struct Service {
    heat: Option<f64>,
    speed: Option<f64>,
}

impl Service {
    /// What the loosest pair may lose: each may act without the other.
    pub(super) fn lost(&self) -> f64 {
        self.heat.map_or(0.0, |lost| lost.max(0.0)) + self.speed.map_or(0.0, |lost| lost.max(0.0))
    }

    /// What the tightest pair may gain.
    pub(super) fn gained(&self) -> f64 {
        self.heat.map_or(0.0, |lost| (-lost).max(0.0)) + self.speed.map_or(0.0, |lost| (-lost).max(0.0))
    }

    pub(super) fn figures(&self, work: &Evaluation<'_>) -> impl Iterator<Item = Figure> {
        let heat = self.heat.map(|lost| work.plain::<Length>("interference lost to heat", lost));
        heat.into_iter()
            .chain(self.speed.map(|lost| work.plain::<Length>("interference lost to speed", lost)))
    }
}

/// The temperature at which the limits of drawings hold: ISO 1.
fn reference_temperature(units: Units) -> f64 {
    Temperature::celsius(20.0).in_units(units)
}

impl Evaluation<'_> {
    /// Rz of the bore, then of the shaft: as stated, assumed from Ra, or left out.
    pub(super) fn joint_roughness(&mut self, at: Place<'_>, joint: &PlainJoint) -> [f64; 2] {
        let hub = joint.hub_roughness.map(DocumentNumber::value).unwrap_or_else(|| {
            self.left_out(
                at,
                "hub_roughness",
                "the roughness of the bore is not stated, and the bore counts as smooth",
            );
            0.0
        });
        let shaft = joint
            .shaft_roughness
            .map(DocumentNumber::value)
            .unwrap_or_else(|| self.assumed_roughness(at, joint));
        [hub, shaft]
    }

    fn assumed_roughness(&mut self, at: Place<'_>, joint: &PlainJoint) -> f64 {
        let Some(ra) = self.limits_of(joint.shaft.0).and_then(|c| c.roughness).map(DocumentNumber::value)
        else {
            self.left_out(
                at,
                "shaft_roughness",
                "the roughness of the shaft is not stated, and the shaft counts as smooth",
            );
            return 0.0;
        };
        let unit = RoughnessRa::KIND.unit(self.units).label;
        let rz = RZ_OVER_RA * ra;
        let message = format!(
            "Rz of the shaft is assumed to be {rz} {unit}, {RZ_OVER_RA} times the Ra of {ra} {unit} that number {} \
             allows, as on a turned surface",
            joint.shaft.0
        );
        let remedy = "state `shaft_roughness` as measured: a ground surface may have 5 to 7 times its Ra";
        self.find(FindingCode::RoughnessAssumed, at.field("shaft_roughness"), message, remedy);
        rz
    }

    /// Says what the joint is judged without.
    fn left_out(&mut self, at: Place<'_>, field: &'static str, message: &str) {
        let remedy = format!("state `{field}`");
        self.find((FindingCode::LeftOut, Severity::Note), at.field(field), message.into(), remedy);
    }

    pub(super) fn service(
        &mut self,
        at: Place<'_>,
        joint: &PlainJoint,
        shaft: &Limits,
    ) -> Result<Service, DocumentError> {
        let diameter = self.float(shaft.nominal());
        let heat = self.lost_to_heat(at, joint, diameter)?;
        Ok(Service { heat, speed: self.lost_to_speed(at, joint, diameter)? })
    }

    fn lost_to_heat(
        &mut self,
        at: Place<'_>,
        joint: &PlainJoint,
        diameter: f64,
    ) -> Result<Option<f64>, DocumentError> {
        let (Some(hub), Some(shaft)) = (joint.hub_temperature, joint.shaft_temperature) else {
            self.left_out(
                at,
                "hub_temperature",
                "no temperature is stated, and the joint is judged at 20 °C (68 °F)",
            );
            return Ok(None);
        };
        let known = [&joint.hub_material, self.material].map(|metal| metal.expansion(self.units));
        let Some([hub_expansion, shaft_expansion]) = self.both(at, known, "expansion", "heat") else {
            return Ok(None);
        };
        let reference = reference_temperature(self.units);
        let rises = [hub, shaft].map(|temperature| temperature.value() - reference);
        let x = [diameter, hub_expansion, rises[0], shaft_expansion, rises[1]];
        let place = at.field("hub_temperature");
        Ok(Some(self.results(place, &INTERFERENCE_LOST_TO_HEAT, &x)?[0]))
    }

    fn lost_to_speed(
        &mut self,
        at: Place<'_>,
        joint: &PlainJoint,
        diameter: f64,
    ) -> Result<Option<f64>, DocumentError> {
        let Some(speed) = joint.rotational_speed.map(DocumentNumber::value) else {
            self.left_out(
                at,
                "rotational_speed",
                "no speed of rotation is stated, and the joint is judged at rest",
            );
            return Ok(None);
        };
        let known = [&joint.hub_material, self.material].map(|metal| metal.density(self.units));
        let Some([hub_density, shaft_density]) = self.both(at, known, "density", "speed") else {
            return Ok(None);
        };
        let [[hub_modulus, hub_poisson], [shaft_modulus, shaft_poisson]] = self.elasticities(at, joint)?;
        let x = [
            speed,
            diameter,
            self.float(joint.hub_outer_diameter),
            hub_density,
            hub_modulus,
            hub_poisson,
            shaft_density,
            shaft_modulus,
            shaft_poisson,
            self.float(joint.shaft_bore),
        ];
        let place = at.field("rotational_speed");
        Ok(Some(self.results(place, &INTERFERENCE_LOST_TO_SPEED, &x)?[0]))
    }

    /// A property of hub and shaft; where one is not known, that its effect is left out.
    fn both(
        &mut self,
        at: Place<'_>,
        known: [Option<f64>; 2],
        property: &'static str,
        effect: &str,
    ) -> Option<[f64; 2]> {
        if let [Some(hub), Some(shaft)] = known {
            return Some([hub, shaft]);
        }
        let (member, place): (&str, Place<'_>) = match known[0] {
            None => ("hub", at.field("hub_material")),
            Some(_) => ("shaft", MATERIAL),
        };
        let message = format!(
            "the {property} of the {member} is not known, and what the joint loses to {effect} is left out"
        );
        let remedy = format!("state the `{property}` of its material");
        self.find((FindingCode::LeftOut, Severity::Warning), place, message, remedy);
        None
    }
}

//! A plain pressed joint over the limits of its shaft and its bore, judged as `press_joint` judges it.
use super::evaluation::{Evaluation, MATERIAL, OPERATIONS, no_answer};
use super::hub::{Joint, PlainJoint};
use super::joints::joint_named;
use super::metal::Metal;
use super::operation::{Operation, Work};
use super::sheet::{Figure, JointLines};
use crate::Limits;
use crate::document::DocumentError;
use crate::document::fault::Place;
use crate::error::beside;
use crate::finding::FindingCode;
use crate::formula::Advice;
use crate::joint::press_joint::{PRESS_JOINT, PressJoint, ROUGHNESS_LOSS, resultant};
use crate::quantity::{Force, Length, Quantity, Stress, Torque};

/// SampledShare of Rz that flattens, by default of the formulas.
const ROUGHNESS_COEFFICIENT: f64 = 0.8;
/// A strength that no stress reaches, in place of one that is not known: its margin is not told.
const UNKNOWN_STRENGTH: f64 = 1e15;
/// The advice that the least interference is a clearance, which is a finding of its own.
const CLEARANCE: Advice = Advice(1);

/// A pressed joint, with what its results were computed from.
struct Pressed {
    joint: PressJoint,
    /// Force to press it together as it is assembled, before heat and speed act.
    press_force: f64,
}

impl Evaluation<'_> {
    pub(super) fn plain_joint(
        &mut self,
        at: Place<'_>,
        joint: &PlainJoint,
        operations: &[Operation],
    ) -> Result<JointLines, DocumentError> {
        let shaft = self.pressed_in(at, joint.shaft)?;
        let (mut lines, interference) = self.interference(at, "plain", &shaft, &joint.bore)?;
        let [least, greatest] = interference.map(|size| self.float(size));
        let roughness = self.joint_roughness(at, joint);
        let [hub_roughness, shaft_roughness] = roughness;
        let flattened =
            self.results(at, &ROUGHNESS_LOSS, &[hub_roughness, shaft_roughness, ROUGHNESS_COEFFICIENT])?[0];
        let service = self.service(at, joint, &shaft)?;
        let least = least - service.lost();
        let in_service = greatest + service.gained();
        if greatest <= flattened {
            self.judge_looseness(at, least - flattened);
            return Ok(lines);
        }
        let pressed = self.pressed(at, joint, &shaft, [least, in_service, greatest], roughness)?;
        for mut finding in pressed.joint.findings(self.units) {
            finding.place = match &*finding.place {
                "/interference_at_loosest" => at.field("bore").pointer(),
                "/hub_yield_margin" => at.field("hub_material").pointer(),
                _ => MATERIAL.pointer(),
            };
            self.findings.push(finding);
        }
        if pressed.joint.interference_at_loosest.metric() > 0.0 {
            lines.loosest = self.loosest(at, joint, &pressed.joint).into();
            lines.loosest.push(self.plain::<Length>("interference lost to roughness", flattened));
            lines.loosest.extend(service.figures(self));
        }
        lines.tightest = self.tightest(at, joint, &pressed, operations).into();
        Ok(lines)
    }

    fn pressed(
        &mut self,
        at: Place<'_>,
        joint: &PlainJoint,
        shaft: &Limits,
        [least, in_service, greatest]: [f64; 3],
        [hub_roughness, shaft_roughness]: [f64; 2],
    ) -> Result<Pressed, DocumentError> {
        let [[hub_modulus, hub_poisson], [shaft_modulus, shaft_poisson]] = self.elasticities(at, joint)?;
        let strength = |metal: &Metal| metal.yield_strength(self.units).unwrap_or(UNKNOWN_STRENGTH);
        let mut x = [
            least,
            in_service,
            self.float(shaft.nominal()),
            self.float(joint.hub_outer_diameter),
            joint.length.value(),
            hub_modulus,
            hub_poisson,
            shaft_modulus,
            shaft_poisson,
            joint.friction.lower.value(),
            joint.friction.upper.value(),
            strength(&joint.hub_material),
            strength(self.material),
            self.float(joint.shaft_bore),
            hub_roughness,
            shaft_roughness,
            ROUGHNESS_COEFFICIENT,
        ];
        let y = self.results_but(CLEARANCE, at, &PRESS_JOINT, &x)?;
        let mut outputs = [f64::NAN; 12];
        outputs.copy_from_slice(&y[..12]);
        let joint = PressJoint::from_outputs(self.units, &outputs);
        const PRESS_FORCE: usize = 6;
        let press_force = if in_service > greatest {
            // Heat and speed only tighten what has been pressed.
            [x[0], x[1]] = [least.min(greatest), greatest];
            self.results_but(CLEARANCE, at, &PRESS_JOINT, &x)?[PRESS_FORCE]
        } else {
            outputs[PRESS_FORCE]
        };
        Ok(Pressed { joint, press_force })
    }

    /// Modulus and Poisson's ratio of the hub, then of the shaft.
    pub(super) fn elasticities(
        &self,
        at: Place<'_>,
        joint: &PlainJoint,
    ) -> Result<[[f64; 2]; 2], DocumentError> {
        let elastic = |metal: &Metal, place: Place<'_>| {
            metal
                .elasticity(self.units)
                .ok_or_else(|| no_answer(place, "the modulus and Poisson's ratio are not known"))
        };
        let hub = elastic(&joint.hub_material, at.field("hub_material"))?;
        Ok([hub, elastic(self.material, MATERIAL)?])
    }

    /// What it holds at the least interference with the lower friction.
    fn loosest(&mut self, at: Place<'_>, joint: &PlainJoint, pressed: &PressJoint) -> Vec<Figure> {
        let units = self.units;
        let torque = self.plain::<Torque>("torque held", pressed.torque.in_units(units));
        let force = self.plain::<Force>("axial force held", pressed.axial_force.in_units(units));
        // Both together slip at the root of the squares of their shares.
        let share = |asked: Option<f64>, held: f64| asked.map_or(0.0, |asked| asked / held);
        let used = resultant(
            share(joint.torque.map(|t| t.value()), torque.value),
            share(joint.axial_force.map(|f| f.value()), force.value),
        );
        if used > 1.0 {
            let message = format!(
                "at its loosest the joint holds only {:.0} percent of its load",
                (100.0 / used).floor()
            );
            let remedy = "raise the least interference or the length of contact, or lower the load";
            self.find(FindingCode::JointSlips, at, message, remedy);
        }
        let pressure = pressed.pressure_at_loosest.in_units(units);
        let left = pressed.interference_at_loosest.in_units(units);
        vec![
            self.plain::<Stress>("pressure", pressure),
            torque,
            force,
            self.plain::<Length>("interference left", left),
        ]
    }

    /// What it takes to press, and what it bears, at the greatest interference with the higher friction.
    fn tightest(
        &mut self,
        at: Place<'_>,
        joint: &PlainJoint,
        pressed: &Pressed,
        operations: &[Operation],
    ) -> Vec<Figure> {
        let units = self.units;
        let force = self.plain::<Force>("press force", pressed.press_force);
        self.judge_press(joint, &force, operations);
        let pressed = &pressed.joint;
        let pressure = self.plain::<Stress>("pressure", pressed.pressure_at_tightest.in_units(units));
        let hub =
            self.plain::<Stress>("hub equivalent stress", pressed.hub_equivalent_stress.in_units(units));
        let shaft =
            self.plain::<Stress>("shaft equivalent stress", pressed.shaft_equivalent_stress.in_units(units));
        let left = pressed.interference_at_tightest.in_units(units);
        let mut figures = Vec::with_capacity(7);
        figures.extend([pressure, force]);
        figures.push(hub);
        let margin = pressed.hub_yield_margin.metric();
        let place = at.field("hub_material");
        figures.extend(self.margin("hub yield margin", margin, &joint.hub_material, place, "hub"));
        figures.push(shaft);
        let margin = pressed.shaft_yield_margin.metric();
        let metal = self.material;
        figures.extend(self.margin("shaft yield margin", margin, metal, MATERIAL, "shaft"));
        figures.push(self.plain::<Length>("interference left", left));
        figures
    }

    fn judge_press(&mut self, joint: &PlainJoint, force: &Figure, operations: &[Operation]) {
        let is_own = |name: Option<&str>| match joint_named(&self.joints, name).map(|placed| placed.joint) {
            Some(Joint::PlainJoint(own)) => std::ptr::eq(own, joint),
            _ => false,
        };
        let operations = operations.iter().enumerate();
        let press = operations.filter_map(|(index, operation)| match &operation.work {
            Work::Press(press) if is_own(press.joint.as_deref()) => Some((index, press.capacity?.value())),
            _ => None,
        });
        let weak: Vec<_> = press.filter(|press| force.value > press.1).collect();
        for (index, capacity) in weak {
            let message = format!(
                "pressing may take {} {unit}, and the press gives {capacity} {unit}",
                beside(force.value, capacity),
                unit = force.unit
            );
            let place = OPERATIONS.index(index);
            let remedy = "use a larger press, or heat the hub";
            self.find(FindingCode::PressTooWeak, place.field("capacity"), message, remedy);
        }
    }

    /// The yield margin of a member whose strength is known, and where that strength came from.
    fn margin(
        &mut self,
        name: &'static str,
        value: f64,
        metal: &Metal,
        place: Place<'_>,
        member: &str,
    ) -> Option<Figure> {
        let Some(strength) = metal.yield_strength(self.units) else {
            let message = format!("the yield strength of the {member} is not known, and was not checked");
            self.find(FindingCode::YieldUnknown, place, message, "state its `yield_strength`");
            return None;
        };
        if metal.yield_strength.is_none() {
            let message = format!(
                "the yield strength of the {member}, {} {}, is a typical figure of the table",
                beside(strength, 0.0),
                Stress::KIND.unit(self.units).label
            );
            let remedy = "state the `yield_strength` of the certificate that came with the material";
            self.find(FindingCode::TypicalStrength, place, message, remedy);
        }
        Some(Figure::new(name, value, ""))
    }
}

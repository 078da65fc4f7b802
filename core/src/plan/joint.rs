//! A pressed joint over the limits of its shaft and its bore.
use super::document::*;
use super::evaluate::{JOINT, MATERIAL, OPERATIONS, Work, no_answer};
use super::fault::Place;
use super::sheet::{Figure, JointLines};
use super::{PlanError, StatedLimits};
use crate::finding::{Severity, beside};
use crate::fit::press::PRESS_FIT;
use crate::quantity::{Force, Quantity, Stress, Torque};
use crate::{Limits, Size};

/// The results of the press fit formula by name, in the order of its record.
struct Pressed {
    pressure: f64,
    hub_equivalent: f64,
    shaft_hoop: f64,
    shaft_bore_hoop: f64,
    axial_force: f64,
    torque: f64,
}

impl Metal {
    fn elasticity(&self, units: crate::Units) -> Option<[f64; 2]> {
        let table = self.designation.map(|d| d.0);
        Some([
            self.modulus.map(|m| m.value()).or(table.and_then(|m| m.modulus).map(|m| m.in_units(units)))?,
            self.poisson.map(|p| p.value()).or(table.and_then(|m| m.poisson).map(|m| m.in_units(units)))?,
        ])
    }

    /// kc1.1 and mc.
    pub(super) fn cutting_force(&self, units: crate::Units) -> Option<[f64; 2]> {
        let table = self.designation.map(|d| d.0);
        Some([
            self.kc11.map(|kc| kc.value()).or(table.and_then(|m| m.kc11).map(|kc| kc.in_units(units)))?,
            self.mc.map(|mc| mc.value()).or(table.and_then(|m| m.mc).map(|mc| mc.in_units(units)))?,
        ])
    }

    pub(super) fn yield_strength(&self, units: crate::Units) -> Option<f64> {
        let table = self.designation.and_then(|d| d.0.yield_strength);
        self.yield_strength.map(|y| y.value()).or(table.map(|y| y.in_units(units)))
    }
}

impl Work<'_> {
    pub(super) fn joint(&mut self, joint: &Joint) -> Result<JointLines, PlanError> {
        match joint {
            Joint::PlainJoint(joint) => self.plain_joint(joint),
            Joint::KnurledJoint(joint) => self.knurled_joint(joint),
        }
    }

    /// A joint without figures as yet; its least and its greatest interference in exact sizes.
    pub(super) fn interference(
        &mut self,
        kind: &'static str,
        shaft: &Limits,
        bore: &StatedLimits,
    ) -> Result<(JointLines, [Size; 2]), PlanError> {
        let difference = |a: Size, b: Size| {
            a.checked_sub(b).ok_or_else(|| no_answer(JOINT.field("bore"), "the interference is out of range"))
        };
        let least = difference(shaft.lower(), bore.upper())?;
        let greatest = difference(shaft.upper(), bore.lower())?;
        let lines = JointLines {
            kind,
            bore: bore.format(self.units),
            bore_designation: bore.by(),
            least_interference: least.format(self.units),
            greatest_interference: greatest.format(self.units),
            loosest: vec![],
            tightest: vec![],
        };
        if !least.is_positive() {
            let message = format!(
                "the joint may be loose: its interference is {} to {}",
                lines.least_interference, lines.greatest_interference
            );
            let remedy = "move the limits of shaft or bore until the least interference holds the load";
            self.find(Severity::Error, "joint_may_be_loose", JOINT.field("bore"), message, remedy);
        }
        Ok((lines, [least, greatest]))
    }

    /// The limits of the characteristic that is pressed in.
    pub(super) fn pressed_in(&self, shaft: super::Reference) -> Result<Limits, PlanError> {
        let shaft = self.limits_of(shaft.0).map(|c| *c.limits);
        shaft.ok_or_else(|| no_answer(JOINT.field("shaft"), "there is no such characteristic"))
    }

    fn plain_joint(&mut self, joint: &PlainJoint) -> Result<JointLines, PlanError> {
        let shaft = self.pressed_in(joint.shaft)?;
        let (mut lines, [least, greatest]) = self.interference("plain", &shaft, &joint.bore)?;
        if least.is_positive() {
            let pressed = self.pressed(joint, &shaft, least, joint.friction.lower.value())?;
            lines.loosest = self.loosest(joint, &pressed);
        }
        if greatest.is_positive() {
            let pressed = self.pressed(joint, &shaft, greatest, joint.friction.upper.value())?;
            lines.tightest = self.tightest(joint, &pressed);
        }
        Ok(lines)
    }

    fn pressed(
        &mut self,
        joint: &PlainJoint,
        shaft: &Limits,
        interference: Size,
        friction: f64,
    ) -> Result<Pressed, PlanError> {
        let units = self.units;
        let elastic = |metal: &Metal, place: Place<'_>| {
            metal
                .elasticity(units)
                .ok_or_else(|| no_answer(place, "the modulus and Poisson's ratio are not known"))
        };
        let [hub_modulus, hub_poisson] = elastic(&joint.hub_material, JOINT.field("hub_material"))?;
        let [shaft_modulus, shaft_poisson] = elastic(&self.document.material, MATERIAL)?;
        let x = [
            self.float(interference),
            self.float(shaft.nominal()),
            self.float(joint.hub_outer_diameter),
            joint.length.value(),
            hub_modulus,
            hub_poisson,
            shaft_modulus,
            shaft_poisson,
            friction,
            self.float(joint.shaft_bore),
        ];
        let y = self.results(JOINT, &PRESS_FIT, &x)?;
        let [pressure, _, hub_equivalent, shaft_hoop, shaft_bore_hoop, axial_force, torque, ..] = y;
        Ok(Pressed { pressure, hub_equivalent, shaft_hoop, shaft_bore_hoop, axial_force, torque })
    }

    /// What it holds at the least interference with the lower friction.
    fn loosest(&mut self, joint: &PlainJoint, pressed: &Pressed) -> Vec<Figure> {
        let torque = self.plain::<Torque>("torque held", pressed.torque);
        let force = self.plain::<Force>("axial force held", pressed.axial_force);
        let (asked_torque, asked_force) =
            (joint.torque.map(|t| t.value()), joint.axial_force.map(|f| f.value()));
        // Both together slip at the root of the squares of their shares.
        let share = |asked: Option<f64>, held: f64| asked.map_or(0.0, |asked| asked / held);
        let (a, b) = (share(asked_torque, torque.value), share(asked_force, force.value));
        let used = (a * a + b * b).sqrt();
        if used > 1.0 {
            let message = format!(
                "at its loosest the joint holds only {:.0} percent of the load asked of it",
                100.0 / used
            );
            let remedy = "raise the least interference or the length of contact, or ease the load";
            self.find(Severity::Error, "joint_slips", JOINT, message, remedy);
        }
        vec![self.plain::<Stress>("pressure", pressed.pressure), torque, force]
    }

    /// What it takes to press, and what it bears, at the greatest interference with the higher friction.
    fn tightest(&mut self, joint: &PlainJoint, pressed: &Pressed) -> Vec<Figure> {
        let force = self.plain::<Force>("press force", pressed.axial_force);
        let press =
            self.document.operations.iter().enumerate().find_map(|(index, operation)| match operation {
                Operation::Press(press) => Some((index, press.capacity?.value())),
                _ => None,
            });
        if let Some((index, capacity)) = press
            && force.value > capacity
        {
            let message = format!(
                "pressing may take {} {unit}, and the press gives {capacity} {unit}",
                beside(force.value, capacity),
                unit = force.unit
            );
            let place = OPERATIONS.index(index);
            let remedy = "take a larger press, or heat the hub";
            self.find(Severity::Error, "press_too_weak", place.field("capacity"), message, remedy);
        }
        // Radial stress at the surface is minus the pressure, and none at the bore of a hollow shaft.
        let (hoop, radial) = (pressed.shaft_hoop, -pressed.pressure);
        let surface = (hoop * hoop - hoop * radial + radial * radial).sqrt();
        let hub = self.plain::<Stress>("hub equivalent stress", pressed.hub_equivalent);
        let shaft =
            self.plain::<Stress>("shaft equivalent stress", surface.max(pressed.shaft_bore_hoop.abs()));
        let mut figures = Vec::with_capacity(6);
        figures.extend([self.plain::<Stress>("pressure", pressed.pressure), force]);
        let metals = [
            (hub, "hub yield margin", &joint.hub_material, JOINT.field("hub_material"), "hub"),
            (shaft, "shaft yield margin", &self.document.material, MATERIAL, "shaft"),
        ];
        for (stress, margin, metal, place, member) in metals {
            match metal.yield_strength(self.units) {
                Some(strength) => {
                    let value = strength / stress.value;
                    if value < 1.0 {
                        let message = format!(
                            "at its tightest the {member} bears {} {unit}, and yields at {strength} {unit}",
                            beside(stress.value, strength),
                            unit = stress.unit
                        );
                        let remedy = "lower the greatest interference, or take a stronger or thicker member";
                        self.find(Severity::Error, "joint_yields", place, message, remedy);
                    }
                    let unit = stress.unit;
                    figures.push(stress);
                    figures.push(Figure { name: margin, value, unit: "", judged: None });
                    if metal.yield_strength.is_none() {
                        let message = format!(
                            "the yield strength of the {member}, {} {unit}, is a typical figure of the table",
                            beside(strength, 0.0)
                        );
                        let remedy =
                            "state the `yield_strength` of the certificate that came with the material";
                        self.find(Severity::Note, "typical_strength", place, message, remedy);
                    }
                }
                None => {
                    figures.push(stress);
                    let message =
                        format!("the yield strength of the {member} is not known, and was not judged");
                    self.find(
                        Severity::Warning,
                        "yield_unknown",
                        place,
                        message,
                        "state its `yield_strength`",
                    );
                }
            }
        }
        figures
    }

    pub(super) fn plain<Q: Quantity>(&self, name: &'static str, value: f64) -> Figure {
        Figure { name, value, unit: Q::KIND.unit(self.units).label, judged: None }
    }
}

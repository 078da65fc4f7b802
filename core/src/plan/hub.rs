//! A pressed joint of the part and a hub, as the document has it.
use super::characteristic::GaugeKind;
use super::metal::Metal;
use crate::Size;
use crate::document::form::*;
use crate::quantity::{Force, Length, Ratio, RoughnessRz, SpindleSpeed, Temperature, Torque};
use crate::size::alike;

objects! {
    /// A plain joint, pressed or shrunk: this part is the shaft.
    ///
    /// Caution: the figures are starting points. A joint whose failure can injure needs the review of a licensed engineer.
    PlainJoint {
        /// What it is called, by which operations and findings name it.
        name: Option<String>,
        /// The characteristic that is pressed in.
        shaft: Reference,
        /// The bore of the hub.
        bore: StatedLimits where Positive,
        /// Outer diameter of the hub.
        hub_outer_diameter: Size where Positive,
        /// Length of contact.
        length: DocumentNumber<Length> where Positive,
        /// Bore of a hollow shaft.
        shaft_bore: Size where NonNegative = Size::ZERO,
        /// What the hub is made of.
        hub_material: Metal,
        /// Roughness Rz of the bore of the hub; without it the bore counts as smooth, and the sheet says so.
        hub_roughness: Option<DocumentNumber<RoughnessRz>> where NonNegative,
        /// Roughness Rz of the shaft; without it, 4 times the Ra that the drawing allows there, marked as assumed.
        shaft_roughness: Option<DocumentNumber<RoughnessRz>> where NonNegative,
        /// Temperature of the hub in service, with that of the shaft; limits hold at 20 °C.
        hub_temperature: Option<DocumentNumber<Temperature>>,
        /// Temperature of the shaft in service.
        shaft_temperature: Option<DocumentNumber<Temperature>>,
        /// The highest speed of rotation in service.
        rotational_speed: Option<DocumentNumber<SpindleSpeed>> where NonNegative,
        /// The lower and the upper coefficient of friction that may be met.
        friction: Range<Ratio> where Positive,
        /// The torque that the joint has to hold.
        torque: Option<DocumentNumber<Torque>> where Positive,
        /// The axial force that the joint has to hold.
        axial_force: Option<DocumentNumber<Force>> where Positive,
        /// The gauge that the bore is to be proved with.
        gauge: Option<GaugeKind>,
    } => rules {
        hub_outer_diameter, bore => around_bore;
        shaft_bore, bore => inside_bore;
        hub_temperature, shaft_temperature => both_or_neither;
    }

    /// A joint whose knurled shaft, this part, cuts its own way into a smooth bore. What it holds is an estimate.
    ///
    /// Caution: prove each design by a trial. A joint whose failure can injure needs the review of a licensed engineer.
    KnurledJoint {
        /// What it is called, by which operations and findings name it.
        name: Option<String>,
        /// The characteristic that is pressed in: the diameter over the crests, which a knurling operation makes.
        shaft: Reference,
        /// The bore of the hub.
        bore: StatedLimits where Positive,
        /// Outer diameter of the hub.
        hub_outer_diameter: Size where Positive,
        /// Length of contact.
        length: DocumentNumber<Length> where Positive,
        /// What the hub is made of.
        hub_material: Metal,
        /// The torque that the joint has to hold.
        torque: Option<DocumentNumber<Torque>> where Positive,
        /// The gauge that the bore is to be proved with.
        gauge: Option<GaugeKind>,
    } => rules {
        hub_outer_diameter, bore => around_bore;
    }
}

tagged! {
    /// A joint of this part and a hub, pressed or shrunk.
    Joint by "kind" {
        /// A smooth shaft in a smooth bore.
        PlainJoint = "plain",
        /// A knurled shaft in a smooth bore.
        KnurledJoint = "knurled",
    }
}

impl Joint {
    /// The bore of the hub, and the gauge that it is to be proved with.
    pub fn bore(&self) -> (&StatedLimits, Option<GaugeKind>) {
        match self {
            Joint::PlainJoint(joint) => (&joint.bore, joint.gauge),
            Joint::KnurledJoint(joint) => (&joint.bore, joint.gauge),
        }
    }

    /// What it is called.
    pub fn own_name(&self) -> Option<&str> {
        match self {
            Joint::PlainJoint(joint) => joint.name.as_deref(),
            Joint::KnurledJoint(joint) => joint.name.as_deref(),
        }
    }

    /// The characteristic that is pressed in.
    pub(super) fn shaft(&self) -> Reference {
        match self {
            Joint::PlainJoint(joint) => joint.shaft,
            Joint::KnurledJoint(joint) => joint.shaft,
        }
    }

    /// The length of contact.
    pub(super) fn length(&self) -> DocumentNumber<Length> {
        match self {
            Joint::PlainJoint(joint) => joint.length,
            Joint::KnurledJoint(joint) => joint.length,
        }
    }
}

/// The most joints of a plan.
pub const MAX_JOINTS: usize = 100;

pub(super) fn few_joints(joints: &[Joint]) -> Option<String> {
    let count = joints.len();
    (count > MAX_JOINTS).then(|| format!("a plan has at most {MAX_JOINTS} joints, not {count}"))
}

fn around_bore(hub: &Size, bore: &StatedLimits) -> Option<String> {
    let thin = *hub <= bore.upper();
    thin.then(|| {
        let [hub, bore] = alike([*hub, bore.upper()]);
        format!("the hub, {hub}, must be wider than its bore and shaft, {bore}")
    })
}

fn inside_bore(shaft_bore: &Size, bore: &StatedLimits) -> Option<String> {
    let wide = *shaft_bore >= bore.lower();
    wide.then(|| {
        let [inner, shaft] = alike([*shaft_bore, bore.lower()]);
        format!("the bore of the shaft, {inner}, must be narrower than the shaft, {shaft}")
    })
}

fn both_or_neither(
    hub: &Option<DocumentNumber<Temperature>>,
    shaft: &Option<DocumentNumber<Temperature>>,
) -> Option<String> {
    let alone = hub.is_some() != shaft.is_some();
    alone.then(|| {
        "needs the temperature of hub and shaft: give `hub_temperature` and `shaft_temperature`".into()
    })
}

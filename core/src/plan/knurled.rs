//! A knurled joint: how far its crests overlap the bore and fill their grooves, and the most torque it could hold.
//!
//! Always an estimate: how the metal flows is not computed, so each design is proved by a trial.
use super::evaluation::{Evaluation, OPERATIONS};
use super::hub::KnurledJoint;
use super::operation::{Operation, Pattern, Work};
use super::sheet::{Figure, JointLines};
use crate::document::DocumentError;
use crate::document::fault::Place;
use crate::error::beside;
use crate::finding::FindingCode;
use crate::knurl::KNURL_GROWTH;
use crate::knurl::joint::{GROOVE_FILL, KNURLED_TORQUE_BOUND};
use crate::quantity::{Length, Quantity, Torque};

/// Whether grooves run one way, so that teeth stand between them and not points.
fn has_teeth(pattern: Pattern) -> bool {
    matches!(pattern, Pattern::Straight | Pattern::Diagonal)
}

/// The teeth of a knurl, in the units of the document.
struct Tooth {
    pitch: f64,
    profile_angle: f64,
    height: f64,
}

impl Evaluation<'_> {
    pub(super) fn knurled_joint(
        &mut self,
        at: Place<'_>,
        joint: &KnurledJoint,
        operations: &[Operation],
    ) -> Result<JointLines, DocumentError> {
        let crests = self.pressed_in(at, joint.shaft)?;
        let (mut lines, [least, greatest]) = self.interference(at, "knurled", &crests, &joint.bore)?;
        self.judge_looseness(at, self.float(least));
        let message = "the figures of a knurled joint are an estimate, and its press force is not computed";
        self.find(
            FindingCode::Estimate,
            at,
            message.into(),
            "prove the joint by a push-out trial, and by one under torque",
        );
        let Some(tooth) = self.tooth(at, joint, operations)? else { return Ok(lines) };
        if least.is_positive() {
            lines.loosest = vec![self.fill(at, self.float(least), &tooth)?].into();
        }
        if greatest.is_positive() {
            let overlap = self.float(greatest);
            lines.tightest = vec![self.fill(at, overlap, &tooth)?].into();
            self.judge_fill(at, overlap, tooth.height);
            lines.tightest.extend(self.torque_at_most(at, joint)?);
        }
        Ok(lines)
    }

    /// The sharp tooth of the knurl that the shaft has, if an operation rolls it.
    fn tooth(
        &mut self,
        at: Place<'_>,
        joint: &KnurledJoint,
        operations: &[Operation],
    ) -> Result<Option<Tooth>, DocumentError> {
        let rolled = operations.iter().enumerate().find_map(|(index, operation)| match &operation.work {
            Work::Knurl(knurl) if knurl.makes.contains(&joint.shaft) && has_teeth(knurl.pattern) => {
                Some((index, knurl))
            }
            _ => None,
        });
        let Some((index, knurl)) = rolled else {
            let message =
                format!("no operation knurls characteristic {} in grooves of one direction", joint.shaft.0);
            let remedy = "name it in the `makes` of an operation that rolls a straight or a diagonal knurl";
            self.find(FindingCode::NotKnurled, at.field("shaft"), message, remedy);
            return Ok(None);
        };
        let (pitch, profile_angle) = (knurl.pitch.value(), knurl.profile_angle.value());
        // The growth of a straight knurl at full form is the height of its sharp tooth.
        let height = self.results(OPERATIONS.index(index), &KNURL_GROWTH, &[pitch, profile_angle])?[0];
        Ok(Some(Tooth { pitch, profile_angle, height }))
    }

    /// How much of the grooves the metal of the bore fills.
    fn fill(&mut self, at: Place<'_>, overlap: f64, tooth: &Tooth) -> Result<Figure, DocumentError> {
        let value = self.results(at, &GROOVE_FILL, &[overlap, tooth.pitch, tooth.profile_angle])?[0];
        Ok(Figure::new("fill of the grooves", value, ""))
    }

    fn judge_fill(&mut self, at: Place<'_>, overlap: f64, height: f64) {
        if overlap < height {
            return;
        }
        let unit = Length::KIND.unit(self.units).label;
        let message = format!(
            "the crests may overlap the bore by {} {unit}; at {} {unit} the grooves are full, and the hub is \
             only spread",
            beside(overlap, height),
            beside(height, overlap),
        );
        let remedy = "enlarge the bore, roll a lower knurl, or use a coarser pitch";
        self.find(FindingCode::KnurlOverfilled, at.field("bore"), message, remedy);
    }

    /// The torque at which the weaker metal yields in shear all round the bore: a bound, not what it holds.
    fn torque_at_most(
        &mut self,
        at: Place<'_>,
        joint: &KnurledJoint,
    ) -> Result<Option<Figure>, DocumentError> {
        let metals = [&joint.hub_material, self.material];
        let [hub, shaft] = metals.map(|metal| metal.yield_strength(self.units));
        let Some(weaker) = hub.zip(shaft).map(|(hub, shaft)| hub.min(shaft)) else {
            let message = "the yield strength of hub or shaft is not known, so the upper bound of the torque was not computed";
            let remedy = "state the `yield_strength` of both materials";
            self.find(FindingCode::YieldUnknown, at.field("hub_material"), message.into(), remedy);
            return Ok(None);
        };
        let x = [self.float(joint.bore.nominal()), joint.length.value(), weaker];
        let torque = self.results(at, &KNURLED_TORQUE_BOUND, &x)?[0];
        let torque = self.plain::<Torque>("torque, at most", torque);
        if let Some(asked) = joint.torque.map(|torque| torque.value())
            && asked > torque.value
        {
            let message = format!(
                "the joint must carry {asked} {unit}, and {} {unit} shears its weaker metal all round",
                beside(torque.value, asked),
                unit = torque.unit
            );
            let remedy = "lengthen the contact, use a larger diameter, or lower the load";
            self.find(FindingCode::JointSlips, at.field("torque"), message, remedy);
        }
        Ok(Some(torque))
    }
}

//! The joint of the part and a hub: what a plain and a knurled one share.
use super::evaluation::{Evaluation, JOINT, no_answer};
use super::hub::Joint;
use super::operation::Operation;
use super::sheet::{Figures, JointLines};
use crate::document::{DocumentError, Reference, StatedLimits};
use crate::finding::FindingCode;
use crate::joint::press_joint::may_be_loose;
use crate::{Limits, Size};

impl Evaluation<'_> {
    pub(super) fn joint(
        &mut self,
        joint: &Joint,
        operations: &[Operation],
    ) -> Result<JointLines, DocumentError> {
        match joint {
            Joint::PlainJoint(joint) => self.plain_joint(joint, operations),
            Joint::KnurledJoint(joint) => self.knurled_joint(joint, operations),
        }
    }

    /// A joint without figures as yet; its least and its greatest interference in exact sizes.
    pub(super) fn interference(
        &self,
        kind: &'static str,
        shaft: &Limits,
        bore: &StatedLimits,
    ) -> Result<(JointLines, [Size; 2]), DocumentError> {
        let difference = |a: Size, b: Size| {
            a.checked_sub(b).ok_or_else(|| no_answer(JOINT.field("bore"), "the interference is out of range"))
        };
        let least = difference(shaft.lower(), bore.upper())?;
        let greatest = difference(shaft.upper(), bore.lower())?;
        let lines = JointLines {
            kind: kind.into(),
            bore: bore.format(self.units),
            bore_designation: bore.by(),
            least_interference: least.format(self.units),
            greatest_interference: greatest.format(self.units),
            loosest: Figures::default(),
            tightest: Figures::default(),
        };
        Ok((lines, [least, greatest]))
    }

    /// Judges what is left of the interference at the loosest.
    pub(super) fn judge_looseness(&mut self, left: f64) {
        if let Some(finding) = may_be_loose(left, self.units) {
            self.find(FindingCode::JointMayBeLoose, JOINT.field("bore"), finding.message, finding.remedy);
        }
    }

    /// The limits of the characteristic that is pressed in.
    pub(super) fn pressed_in(&self, shaft: Reference) -> Result<Limits, DocumentError> {
        let shaft = self.limits_of(shaft.0).map(|c| *c.limits);
        shaft.ok_or_else(|| no_answer(JOINT.field("shaft"), "no characteristic has that number"))
    }
}

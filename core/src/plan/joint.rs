//! The joint of the part and a hub: what a plain and a knurled one share.
use super::evaluation::{Evaluation, no_answer};
use super::hub::Joint;
use super::joints::PlacedJoint;
use super::operation::Operation;
use super::sheet::{Figures, JointLines};
use crate::document::fault::Place;
use crate::document::{DocumentError, Reference, StatedLimits};
use crate::error::excerpt;
use crate::finding::FindingCode;
use crate::joint::press_joint::may_be_loose;
use crate::{Limits, Size};

impl Evaluation<'_> {
    pub(super) fn joint(
        &mut self,
        placed: PlacedJoint<'_>,
        operations: &[Operation],
    ) -> Result<JointLines, DocumentError> {
        let (at, before) = (placed.place, self.findings.len());
        let lines = match placed.joint {
            Joint::PlainJoint(joint) => self.plain_joint(at, joint, operations),
            Joint::KnurledJoint(joint) => self.knurled_joint(at, joint, operations),
        };
        self.name_joint(placed.joint, before);
        Ok(JointLines { name: placed.joint.own_name().map(Into::into), ..lines? })
    }

    /// Of several joints, findings say which one they are of; those of a metal alone are of the part.
    fn name_joint(&mut self, joint: &Joint, from: usize) {
        let Some(name) = joint.own_name().filter(|_| self.joints.len() > 1) else { return };
        let yields = FindingCode::JointYields.name();
        let own = self.findings.iter_mut().skip(from);
        for finding in own.filter(|one| one.place.starts_with("/joints/") || one.code == yields) {
            finding.message = format!("joint `{}`: {}", excerpt(name), finding.message);
        }
    }

    /// A joint without figures as yet; its least and its greatest interference in exact sizes.
    pub(super) fn interference(
        &self,
        at: Place<'_>,
        kind: &'static str,
        shaft: &Limits,
        bore: &StatedLimits,
    ) -> Result<(JointLines, [Size; 2]), DocumentError> {
        let difference = |a: Size, b: Size| {
            a.checked_sub(b).ok_or_else(|| no_answer(at.field("bore"), "the interference is out of range"))
        };
        let least = difference(shaft.lower(), bore.upper())?;
        let greatest = difference(shaft.upper(), bore.lower())?;
        let lines = JointLines {
            name: None,
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
    pub(super) fn judge_looseness(&mut self, at: Place<'_>, left: f64) {
        if let Some(finding) = may_be_loose(left, self.units) {
            self.find(FindingCode::JointMayBeLoose, at.field("bore"), finding.message, finding.remedy);
        }
    }

    /// The limits of the characteristic that is pressed in.
    pub(super) fn pressed_in(&self, at: Place<'_>, shaft: Reference) -> Result<Limits, DocumentError> {
        let shaft = self.limits_of(shaft.0).map(|c| *c.limits);
        shaft.ok_or_else(|| no_answer(at.field("shaft"), "no characteristic has that number"))
    }
}

//! Where the joints of a document stand, and which operation joins which.
use super::document::Document;
use super::hub::Joint;
use super::joints::{PlacedJoint, joint_named};
use super::operation::{Operation, Work};
use crate::document::decode::Context;
use crate::document::fault::{FaultKind, Place};
use crate::error::excerpt;
use crate::nearest::nearest;

static JOINT: Place<'static> = Place::ROOT.field("joint");
static JOINTS: Place<'static> = Place::ROOT.field("joints");

impl Document {
    /// The joints: that of `joint` or those of `joints`.
    pub(super) fn placed_joints(&self) -> impl Iterator<Item = PlacedJoint<'_>> {
        let one = self.joint.iter().map(|joint| PlacedJoint { place: JOINT, joint });
        let listed = self.joints.iter().enumerate();
        one.chain(listed.map(|(index, joint)| PlacedJoint { place: JOINTS.index(index), joint }))
    }

    /// Whether an operation joins a hub: the name of the joint, where the operation gives one.
    pub(super) fn joins(operation: &Operation) -> Option<Option<&str>> {
        match &operation.work {
            Work::Press(press) => Some(press.joint.as_deref()),
            Work::Shrink(shrink) => Some(shrink.joint.as_deref()),
            _ => None,
        }
    }
}

/// Notes joints that cannot be told apart, and operations that do not say which joint they make.
pub(super) fn judge_names(document: &Document, context: &mut Context) {
    let joints: Vec<_> = document.placed_joints().collect();
    if document.joint.is_some() && !document.joints.is_empty() {
        context.fault(FaultKind::Conflict, JOINT, || {
            "the plan has `joint` and `joints`: move this one into the list, with a `name`".into()
        });
    }
    for (index, placed) in joints.iter().enumerate().filter(|_| joints.len() > 1) {
        let at = placed.place.field("name");
        match placed.joint.own_name() {
            None => context.fault(FaultKind::Missing, at, || {
                "is missing: of several joints each needs a name, e.g. \"roller\", by which operations and findings name it".into()
            }),
            Some(name) if joints[..index].iter().any(|other| other.joint.own_name() == Some(name)) => {
                context.fault(FaultKind::GivenTwice, at, || {
                    format!("another joint is called `{}`", excerpt(name))
                });
            }
            Some(_) => {}
        }
    }
    static OPERATIONS: Place<'static> = Place::ROOT.field("operations");
    for (index, operation) in document.operations.iter().enumerate() {
        let Some(name) = Document::joins(operation) else { continue };
        let place = OPERATIONS.index(index);
        let at = place.field("joint");
        match (name, joint_named(&joints, name)) {
            (Some(name), None) => context.fault(FaultKind::NotThere, at, || unknown(name, &joints)),
            (None, None) if !joints.is_empty() => context.fault(FaultKind::Missing, at, || {
                let names: Vec<String> =
                    joints.iter().filter_map(|one| one.joint.own_name()).map(quoted).collect();
                format!(
                    "is missing: the plan has {} joints. Fix: say which one this operation makes: {}",
                    joints.len(),
                    names.join(", ")
                )
            }),
            (_, Some(PlacedJoint { joint: Joint::KnurledJoint(_), .. }))
                if matches!(operation.work, Work::Shrink(_)) =>
            {
                context.fault(FaultKind::Conflict, at, || {
                    "a knurled joint is pressed: its crests cut into the bore. Fix: make it by a `press` operation".into()
                });
            }
            _ => {}
        }
    }
}

fn quoted(name: &str) -> String {
    format!("`{}`", excerpt(name))
}

fn unknown(name: &str, joints: &[PlacedJoint<'_>]) -> String {
    let names: Vec<&str> = joints.iter().filter_map(|one| one.joint.own_name()).collect();
    let shown = excerpt(name);
    match (nearest(&shown, names.iter().copied()), names.is_empty()) {
        (Some(meant), _) => format!("no joint is called `{shown}`: did you mean `{meant}`?"),
        (None, false) => {
            let known: Vec<String> = names.into_iter().map(quoted).collect();
            format!("no joint is called `{shown}`; expected one of {}", known.join(", "))
        }
        (None, true) => format!("no joint is called `{shown}`. Fix: give the joint this `name`"),
    }
}

//! The joints of a plan, each with its place in the document.
use super::hub::Joint;
use crate::document::fault::Place;
use crate::error::excerpt;

/// A joint, and where it stands.
#[derive(Clone, Copy)]
pub(super) struct PlacedJoint<'p> {
    pub(super) place: Place<'static>,
    pub(super) joint: &'p Joint,
}

impl PlacedJoint<'_> {
    /// `the hub`, or with its name where it has one.
    pub(super) fn hub(&self) -> String {
        self.joint.own_name().map_or("the hub".into(), |name| format!("the hub of {}", excerpt(name)))
    }
}

/// The joint that an operation means: that of the name, or without one the only joint.
pub(super) fn joint_named<'p>(joints: &[PlacedJoint<'p>], name: Option<&str>) -> Option<PlacedJoint<'p>> {
    match name {
        Some(name) => joints.iter().find(|placed| placed.joint.own_name() == Some(name)).copied(),
        None => joints.first().filter(|_| joints.len() == 1).copied(),
    }
}

//! How an operation holds the work, in the words of its card.
use super::evaluation::Evaluation;
use super::operation::Kind;
use crate::quantity::{Force, Quantity, Torque};

impl Evaluation<'_> {
    /// How an operation holds the work, with the torque and the force that the plan states.
    pub(super) fn held(&self, kind: &dyn Kind) -> Option<String> {
        let seat = kind.seat().map(|seat| {
            let (depth, torque) = (seat.depth.format(self.units), seat.screw.torque.value());
            let unit = Torque::KIND.unit(self.units).label;
            format!("step seat {depth} deep, clamp screw tightened to {torque} {unit}")
        });
        let clamps = kind.holding().map(|held| {
            let (by, force) = (held.by.name().replace('_', "-"), held.clamp_force.value());
            format!("{by}, clamping force {force} {}", Force::KIND.unit(self.units).label)
        });
        let words: Vec<String> = seat.into_iter().chain(clamps).collect();
        (!words.is_empty()).then(|| words.join("; "))
    }
}

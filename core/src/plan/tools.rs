//! What an operation is done with, in the words of its card.
use super::document::*;
use super::evaluate::Evaluation;
use crate::quantity::{Force, Quantity, Torque};

impl Operation {
    /// Its tool or tools.
    pub(super) fn tool(&self) -> Option<String> {
        let name = match self {
            Operation::Saw(saw) => &saw.blade.name,
            Operation::MillFlats(mill) => &mill.tool.name,
            Operation::Turn(turn) => &turn.tool.name,
            Operation::Face(face) => &face.tool.name,
            Operation::Drill(drill) => &drill.tool.name,
            Operation::Tap(tap) => &tap.tool.name,
            Operation::Knurl(knurl) => &knurl.tool.name,
            Operation::Deburr(deburr) => return deburr.tool.clone(),
            Operation::Press(_) | Operation::Inspect(_) => return None,
        };
        Some(name.clone())
    }
}

impl Evaluation<'_> {
    /// How an operation holds the work, with the torque and the force that the plan states.
    pub(super) fn held(&self, operation: &Operation) -> Option<String> {
        let mut words = vec![];
        if let Operation::MillFlats(MillFlats { seat: Some(seat), .. }) = operation {
            let torque = Torque::KIND.unit(self.units).label;
            words.push(format!(
                "step seat {} deep, clamp screw tightened to {} {torque}",
                seat.depth.format(self.units),
                seat.screw.torque.value()
            ));
        }
        if let Some(held) = operation.holding() {
            let force = Force::KIND.unit(self.units).label;
            let by = held.by.name().replace('_', "-");
            words.push(format!("{by}, clamping force {} {force}", held.clamp_force.value()));
        }
        (!words.is_empty()).then(|| words.join("; "))
    }
}

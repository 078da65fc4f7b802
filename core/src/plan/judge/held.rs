//! Whether the jaws leave free what is cut.
use crate::Size;
use crate::document::fault::Place;
use crate::finding::FindingCode;
use crate::plan::evaluation::Evaluation;
use crate::plan::operation::{Operation, Work};
use crate::plan::workpiece::{End, Workpiece};

impl Evaluation<'_> {
    pub(super) fn judge_held(&mut self, place: Place<'_>, operation: &Operation, piece: &Workpiece) {
        let Some(held) = operation.holding() else { return };
        let Some(end) = held.end else { return };
        let (cut, reach): (Option<End>, Option<Size>) = match &operation.work {
            Work::Face(face) => (face.end, None),
            Work::Turn(turn) => (turn.length.map(|_| turn.end), turn.length),
            Work::MillFlats(mill) => (mill.length.map(|_| mill.end), mill.length),
            Work::TurnThread(thread) => (thread.length.map(|_| thread.end), thread.length),
            _ => return,
        };
        let Some(cut) = cut else { return };
        if cut == end {
            let message = format!("the jaws hold the {} end, which this operation cuts", end.name());
            let remedy = "hold the part by its other end, or cut there in a set-up of its own";
            return self.find(FindingCode::JawsInTheWay, place.field("end"), message, remedy);
        }
        let (Some(reach), Some(grip), Some(length)) = (reach, held.grip_length, piece.length) else { return };
        if reach.checked_add(grip).is_some_and(|both| both > length) {
            let [reach, grip, length] = [reach, grip, length].map(|size| size.format(self.units));
            let message =
                format!("a cut of {reach} runs into the jaws, which cover {grip} of a part of {length}");
            let remedy = "hold less of the part, or cut the rest after turning it round";
            self.find(FindingCode::JawsInTheWay, place.field("length"), message, remedy);
        }
    }
}

//! What a cut round the outside meets: whether its start is there, and whether there is metal left to cut.
use super::Stop;
use crate::Size;
use crate::document::fault::Place;
use crate::finding::FindingCode;
use crate::plan::evaluation::Evaluation;
use crate::plan::operation::{TurnThread, Work};
use crate::plan::workpiece::{Step, Workpiece};

impl Evaluation<'_> {
    pub(super) fn judge_outside(&mut self, stop: Stop<'_>, place: Place<'_>, piece: &mut Workpiece) {
        match &stop.operation.work {
            Work::Knurl(knurl) => {
                let blank = knurl.blank.map(|blank| blank.upper());
                self.judge_start(place.field("blank"), blank, piece);
                piece.knurled = Some(stop.index);
            }
            Work::MillFlats(mill) => self.judge_start(place.field("diameter"), mill.diameter, piece),
            Work::TurnThread(thread) => self.judge_blank(place, thread, piece),
            _ => {}
        }
        let Some(cut) = stop.operation.work.kind().turned(self) else { return };
        self.judge_start(place.field("diameter"), cut.start, piece);
        if let (Some((end, length)), Some(diameter)) = (cut.reach, cut.left) {
            self.judge_step(place, Step { end, length, diameter, index: stop.index }, piece);
        }
        if let Some(diameter) = cut.left {
            let step = cut.reach.map(|(end, length)| Step { end, length, diameter, index: stop.index });
            piece.outside.leave(diameter, step);
        }
    }

    /// The diameter that a cut starts from has to be there.
    pub(super) fn judge_start(&mut self, place: Place<'_>, start: Option<Size>, piece: &Workpiece) {
        // A knurl stands above the diameter that it was rolled on.
        let Some(start) = start.filter(|_| piece.knurled.is_none()) else { return };
        if start > self.bar.limits.upper() || piece.outside.has(start) {
            return;
        }
        let message = format!(
            "the work starts at {}, and nothing before leaves that diameter",
            start.format(self.units)
        );
        let remedy = "turn to it first, or start at the diameter that is there";
        self.find(FindingCode::StartNotThere, place, message, remedy);
    }

    /// A step has to lie on the part, clear of the other end, and in metal.
    fn judge_step(&mut self, place: Place<'_>, step: Step, piece: &Workpiece) {
        let units = self.units;
        if let Some(made) = piece.outside.covers(step.end, step.length, step.diameter) {
            let message = format!(
                "the tool cuts air: operation {} has left {} there, and this one leaves {}",
                self.number(made.index),
                made.diameter.format(units),
                step.diameter.format(units)
            );
            let remedy = "remove the operation, or turn the larger diameter first";
            self.find(FindingCode::CutsAir, place, message, remedy);
        }
        let Some(length) = piece.length else { return };
        let (reach, whole) = (step.length.format(units), length.format(units));
        if step.length > length {
            let message = format!("a step of {reach} is longer than the part, {whole}");
            let remedy = "check the length, or the `cut_length` of the saw";
            return self.find(FindingCode::BeyondPart, place.field("length"), message, remedy);
        }
        let Some(other) = piece.outside.opposite(step.end) else { return };
        if step.length.checked_add(other.length).is_some_and(|both| both > length)
            && step.diameter != other.diameter
        {
            let message = format!(
                "a step of {reach} meets that of {} from the other end, which operation {} turns: the part has {whole}",
                other.length.format(units),
                self.number(other.index)
            );
            let remedy = "shorten one of the steps";
            self.find(FindingCode::StepsOverlap, place.field("length"), message, remedy);
        }
    }

    /// The blank of a thread is its major diameter, which has limits.
    fn judge_blank(&mut self, place: Place<'_>, thread: &TurnThread, piece: &Workpiece) {
        let (blank, major) = (self.bar_or(thread.diameter), &thread.thread.major);
        let place = place.field("diameter");
        if !major.accepts(blank) {
            let message = format!(
                "a blank of {} is outside the limits of the major diameter of {}, {}",
                blank.format(self.units),
                thread.thread.designation,
                major.format(self.units)
            );
            let remedy = "turn the blank to them first, and state it as `diameter`";
            self.find(FindingCode::BlankOffSize, place, message, remedy);
        } else if piece.knurled.is_none() && !piece.outside.has(blank) {
            let message = format!("no operation leaves the blank of {}", blank.format(self.units));
            let remedy = "turn to it before the thread";
            self.find(FindingCode::StartNotThere, place, message, remedy);
        }
    }
}

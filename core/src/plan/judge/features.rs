//! Threads and flats: whether they stand on the diameter that is there, and what takes them away or grips them.
use super::Stop;
use crate::Size;
use crate::document::fault::Place;
use crate::finding::{FindingCode, Severity};
use crate::plan::evaluation::Evaluation;
use crate::plan::operation::{MillFlats, TurnThread, Turned, Work};
use crate::plan::workpiece::{End, Feature, FeatureKind, Met, Workpiece};

impl Evaluation<'_> {
    /// Judges an operation by the threads and flats that are there, and notes those that it makes.
    pub(super) fn judge_features(&mut self, stop: Stop<'_>, place: Place<'_>, piece: &mut Workpiece) {
        self.judge_gripped(stop, place, piece);
        let index = stop.index;
        match &stop.operation.work {
            Work::TurnThread(thread) => {
                self.judge_step_of_thread(place, thread, piece);
                let kind = FeatureKind::Thread {
                    designation: thread.thread.designation.clone(),
                    major: thread.thread.major,
                };
                piece.features.push(Feature { kind, end: thread.end, length: thread.length, index });
            }
            Work::MillFlats(mill) => {
                self.judge_step_of_flats(place, mill, piece);
                let diameter = self.bar_or(mill.diameter);
                if let Some(across) = self.limits_of(mill.across.0).map(|c| c.limits.upper()) {
                    let kind = FeatureKind::Flats { diameter, across };
                    piece.features.push(Feature { kind, end: mill.end, length: mill.length, index });
                }
            }
            Work::Knurl(knurl) => {
                let blank = knurl.blank.map(|blank| blank.upper());
                // A knurl grows outward, and presses what it rolls on flat.
                self.judge_taken(place, (blank, Size::ZERO), None, piece);
            }
            work => {
                if let Some(Turned { start, left: Some(left), reach, .. }) = work.kind().turned(self) {
                    self.judge_taken(place, (start, left), reach, piece);
                }
            }
        }
    }

    /// What a cut takes of threads and flats is gone afterwards.
    fn judge_taken(
        &mut self,
        place: Place<'_>,
        (start, left): (Option<Size>, Size),
        reach: Option<(End, Size)>,
        piece: &mut Workpiece,
    ) {
        let mut gone = vec![];
        let turned = start.filter(|start| *start != self.bar.limits.upper());
        for (at, feature) in piece.features.iter().enumerate() {
            let Some(met) = feature.met(turned, left, reach, piece.length) else { continue };
            let is_flat_left = match feature.kind {
                FeatureKind::Flats { across, .. } => left > across,
                FeatureKind::Thread { .. } => false,
            };
            let by = self.number(feature.index);
            let words = feature.words();
            let (severity, message, remedy) = match met {
                _ if is_flat_left => (
                    Severity::Warning,
                    format!("the tool beats on {words} that operation {by} mills, and narrows them"),
                    "turn first, and mill the flats afterwards",
                ),
                Met::Wholly => (
                    Severity::Error,
                    format!("this cut takes off {words} that operation {by} makes"),
                    "do it before, or on another step",
                ),
                Met::Partly => (
                    Severity::Warning,
                    format!("this cut takes off a part of {words} that operation {by} makes"),
                    "do it before, so that the end of the cut is clean",
                ),
            };
            if met == Met::Wholly && !is_flat_left {
                gone.push(at);
            }
            self.find((FindingCode::TakesOff, severity), place, message, remedy);
        }
        gone.into_iter().rev().for_each(|at| drop(piece.features.remove(at)));
    }

    fn judge_gripped(&mut self, stop: Stop<'_>, place: Place<'_>, piece: &Workpiece) {
        let Some(held) = stop.operation.holding() else { return };
        let Some(end) = held.end else { return };
        let is_gripped = |feature: &&Feature| {
            matches!(feature.kind, FeatureKind::Thread { .. })
                && feature.is_gripped(end, held.grip_length, piece.length)
        };
        if let Some(thread) = piece.features.iter().find(is_gripped) {
            let message =
                format!("the jaws close on {} of operation {}", thread.words(), self.number(thread.index));
            let remedy = "cut the thread in the last set-up, or hold it in a threaded bush or in soft jaws";
            self.find(FindingCode::ClampedOnThread, place.field("holding"), message, remedy);
        }
    }

    /// A thread stands on a step that is turned to its major diameter.
    fn judge_step_of_thread(&mut self, place: Place<'_>, thread: &TurnThread, piece: &Workpiece) {
        let (Some(length), major) = (thread.length, &thread.thread.major) else { return };
        // A stated blank off size has been found; cuts whose place is not known may have left the right one.
        if piece.knurled.is_some()
            || !major.accepts(self.bar_or(thread.diameter))
            || piece.outside.left_somewhere(|left| major.accepts(left))
        {
            return;
        }
        let (there, by) = piece.outside.at(thread.end, length);
        if major.accepts(there) {
            return;
        }
        let from = by.map_or("the bar has".into(), |by| format!("operation {} has left", self.number(by)));
        let message = format!(
            "{from} {} where {} is cut, outside the limits of its major diameter, {}",
            there.format(self.units),
            thread.thread.designation,
            major.format(self.units)
        );
        let remedy = "turn that step to them first";
        self.find(FindingCode::BlankOffSize, place.field("length"), message, remedy);
    }

    /// The depth of flats counts from the diameter of their step.
    fn judge_step_of_flats(&mut self, place: Place<'_>, mill: &MillFlats, piece: &Workpiece) {
        let Some(length) = mill.length else {
            return self.judge_start(place.field("diameter"), mill.diameter, piece);
        };
        let (there, Some(by)) = piece.outside.at(mill.end, length) else { return };
        let from = self.bar_or(mill.diameter);
        let apart = there.picometres().abs_diff(from.picometres());
        // What a turned diameter scatters by is in the limits across the flats.
        if apart <= there.picometres().unsigned_abs() / 100 {
            return;
        }
        let message = format!(
            "the depth of the flats counts from {}, and operation {} has left {} there",
            from.format(self.units),
            self.number(by),
            there.format(self.units)
        );
        let remedy = "state the diameter of that step as `diameter`, and set the depth from it";
        let code = (FindingCode::StartNotThere, Severity::Error);
        self.find(code, place.field("diameter"), message, remedy);
    }
}

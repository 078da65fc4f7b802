//! The condition of the work: burrs, scale, hardness and plating that an operation meets.
use super::Stop;
use crate::document::Reference;
use crate::document::fault::Place;
use crate::finding::{FindingCode, Severity};
use crate::plan::evaluation::{Evaluation, OPERATIONS};
use crate::plan::holding::{HoldingKind, Workholding};
use crate::plan::operation::Work;
use crate::plan::workpiece::{TOO_HARD, Workpiece};

/// Whether work lies on faces, which a burr lifts.
fn lies_on_faces(held: &Workholding) -> bool {
    matches!(held.by, HoldingKind::Vice | HoldingKind::Strap | HoldingKind::VBlock)
}

impl Evaluation<'_> {
    pub(super) fn judge_condition(&mut self, stop: Stop<'_>, place: Place<'_>, piece: &mut Workpiece) {
        let Stop { index, operation } = stop;
        let kind = operation.work.kind();
        self.judge_scale(stop, place, piece);
        self.judge_hardness(stop, place, piece);
        self.judge_plating(stop, place, piece);
        match &operation.work {
            Work::Deburr(_) => piece.burrs = None,
            Work::Inspect(_) | Work::Press(_) | Work::Shrink(_) => {
                if let Some((first, count)) = piece.burrs.take() {
                    let then = match operation.work {
                        Work::Press(_) => "presses the hub on",
                        Work::Shrink(_) => "shrinks the hub on",
                        _ => "inspects the parts",
                    };
                    let before = format!("before operation {} {then}", self.number(index));
                    self.still_burred(first, count, &before);
                }
            }
            Work::Saw(_) => {}
            // A chuck holds round work beside the burrs of its ends and flats.
            _ if kind.holding().is_some_and(lies_on_faces) => {
                if let Some((first, _)) = piece.burrs {
                    let first = self.number(first);
                    let message = format!("the work is clamped on the burrs that operation {first} leaves");
                    let remedy =
                        "deburr in between: on a burr the work lies askew, and the clamping gives way";
                    let place = place.field("holding");
                    self.find(FindingCode::ClampedOnBurr, place, message, remedy);
                }
            }
            _ => {}
        }
        if kind.leaves_burrs() {
            piece.burr(index);
        }
    }

    /// Burrs that nothing takes off before the parts leave.
    pub(super) fn judge_leaving(&mut self, piece: &Workpiece) {
        if let Some((first, count)) = piece.burrs {
            self.still_burred(first, count, "before the parts leave");
        }
    }

    /// A burr under a gauge or a micrometer is read as size, and it scores the bore of a hub.
    fn still_burred(&mut self, first: usize, count: usize, before: &str) {
        let who = match count {
            1 => "this operation leaves burrs".to_string(),
            2 => "this operation and a later one leave burrs".to_string(),
            _ => format!("this operation and {} later ones leave burrs", count - 1),
        };
        let message = format!("{who}, and no `deburr` operation breaks the edges {before}");
        let remedy = "deburr in between: a burr is gauged as size, and cuts hands";
        self.find(FindingCode::NotDeburred, OPERATIONS.index(first), message, remedy);
    }

    fn judge_scale(&mut self, stop: Stop<'_>, place: Place<'_>, piece: &mut Workpiece) {
        if let (Some(scaled), what @ (Work::Inspect(_) | Work::Press(_) | Work::Shrink(_) | Work::Plate(_))) =
            (piece.scale, &stop.operation.work)
        {
            let what = match what {
                Work::Inspect(_) => "measured on",
                Work::Press(_) | Work::Shrink(_) => "joined on",
                _ => "plated over",
            };
            let message =
                format!("the parts are {what} the scale that operation {} leaves", self.number(scaled));
            let remedy = "blast or pickle the parts in between, or harden them where no scale forms and say `leaves_scale: false`";
            self.find(FindingCode::ScaleLeft, place, message, remedy);
        }
        match &stop.operation.work {
            Work::HeatTreat(treated) => piece.scale = treated.leaves_scale.then_some(stop.index),
            // Blasting and pickling have no kind of their own.
            Work::Grind(_) | Work::Other(_) | Work::Outside(_) => piece.scale = None,
            _ => {}
        }
    }

    fn judge_hardness(&mut self, stop: Stop<'_>, place: Place<'_>, piece: &mut Workpiece) {
        let work = &stop.operation.work;
        if let Work::HeatTreat(treated) = work {
            let least = treated.hardness.map(|hardness| hardness.lower.value());
            piece.hardened = least.map(|least| (stop.index, least));
            return;
        }
        let cuts_hard = matches!(work, Work::Grind(_) | Work::Deburr(_) | Work::Other(_));
        let cuts = (work.kind().makes_chips() && !cuts_hard) || matches!(work, Work::Knurl(_));
        if let Some((by, least)) = piece.hardened.filter(|(_, least)| cuts && *least >= TOO_HARD) {
            // A tap or a knurl that does not cut breaks at once; hard turning is a trade of its own.
            let severity = match work {
                Work::Tap(_) | Work::Knurl(_) => Severity::Error,
                _ => Severity::Warning,
            };
            let message = format!(
                "the work has {least} HRC or more since operation {}, and common tools stop cutting at about {TOO_HARD} HRC",
                self.number(by)
            );
            let remedy = "do it before hardening, or grind";
            self.find((FindingCode::TooHard, severity), place, message, remedy);
        }
    }

    fn judge_plating(&mut self, stop: Stop<'_>, place: Place<'_>, piece: &mut Workpiece) {
        for &Reference(number) in stop.operation.makes() {
            let Some(&by) = piece.plated.get(&number) else { continue };
            let by = self.number(by);
            let message = format!("number {number} is cut after operation {by} plates it");
            let remedy = "plate after the last cut, with the limits before plating";
            self.find(FindingCode::CutAfterPlating, place.field("makes"), message, remedy);
        }
        let Work::Plate(plate) = &stop.operation.work else { return };
        for (position, plated) in plate.plates.iter().enumerate() {
            piece.plated.insert(plated.0, stop.index);
            if self.limits_of(plated.0).is_some_and(|c| c.plating.is_none()) {
                let message = format!(
                    "number {} is plated, and the drawing's `plating` of it is not stated: its limits count as bare",
                    plated.0
                );
                let remedy =
                    "state the `plating` of the characteristic with its thickness, or mask the surface";
                let list = place.field("plates");
                self.find(FindingCode::PlatingNotStated, list.index(position), message, remedy);
            }
        }
    }
}

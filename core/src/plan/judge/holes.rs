//! Whether holes have the size and the depth that the drawing and the tap ask for.
use super::Stop;
use crate::cutting::reaming::REAMING_ALLOWANCE;
use crate::document::Reference;
use crate::document::fault::Place;
use crate::error::beside;
use crate::finding::{FindingCode, Severity};
use crate::plan::characteristic::CharacteristicKind;
use crate::plan::drawing::to_cut;
use crate::plan::evaluation::Evaluation;
use crate::plan::operation::{Bore, Countersink, Drill, Ream, Tap, Work};
use crate::plan::workpiece::{Hole, Holes, Workpiece};
use crate::{Limits, Size};

/// Pitches from the start of a tap to the face, where the drill starts nearer: common practice, no source.
const START: f64 = 3.0;

impl Evaluation<'_> {
    pub(super) fn judge_holes(&mut self, stop: Stop<'_>, place: Place<'_>, piece: &mut Workpiece) {
        let index = stop.index;
        match &stop.operation.work {
            Work::Drill(drill) => {
                self.judge_drilled(place, drill);
                piece.holes.add(Hole {
                    diameter: drill.tool.diameter.value(),
                    depth: drill.depth.value(),
                    approach: drill.approach.value(),
                    breakthrough: drill.breakthrough.value(),
                    count: drill.holes.into(),
                    index,
                });
            }
            Work::Tap(tap) => {
                self.judge_minor(place, tap);
                self.judge_tapped(place, tap, &piece.holes);
            }
            Work::Ream(ream) => self.judge_reamed(index, place, ream, piece),
            Work::Bore(bore) => self.judge_opened(index, place, bore, piece),
            Work::Countersink(sink) => self.judge_sunk(place, sink, piece),
            Work::Face(face) => {
                let taken = Size::from_float(face.depth.value(), self.units).ok();
                let taken = taken.and_then(|depth| depth.checked_mul(face.passes.into()));
                if face.inner_diameter == Size::ZERO {
                    piece.shorten(taken);
                }
            }
            _ => {}
        }
    }

    /// The holes that an operation works in, which have to be there, and as many.
    fn holes_there(
        &mut self,
        place: Place<'_>,
        diameter: f64,
        count: u32,
        holes: &Holes,
        work: &str,
    ) -> Option<Hole> {
        let place_of = |field| place.field(field);
        let Some(found) = holes.of(diameter) else {
            let made = match holes.last() {
                Some(last) => {
                    format!("operation {} leaves {}", self.number(last.index), self.length(last.diameter))
                }
                None => "no hole is drilled before".into(),
            };
            let message = format!("{work} needs a hole of {}, and {made}", self.length(diameter));
            let remedy = "drill the hole first, or state the one that is there";
            let at = place_of("hole_diameter");
            self.find(FindingCode::HoleNotDrilled, at, message, remedy);
            return None;
        };
        if found.count < count.into() {
            let message =
                format!("{count} holes are worked, and only {} of this size are there", found.count);
            let remedy = "drill as many holes as are worked";
            self.find(FindingCode::TooFewHoles, place_of("holes"), message, remedy);
        }
        Some(found)
    }

    /// A reamer needs something to cut, and not much.
    fn judge_reamed(&mut self, index: usize, place: Place<'_>, ream: &Ream, piece: &mut Workpiece) {
        let (before, diameter) = (ream.hole_diameter.value(), ream.tool.diameter.value());
        self.judge_bore_size(place, &ream.makes, diameter, "a reamer");
        let found = self.holes_there(place, before, ream.holes, &piece.holes, "reaming");
        self.judge_allowance(place, diameter, diameter - before);
        let Some(found) = found else { return };
        let depth = ream.depth.value();
        let is_through = found.breakthrough > 0.0;
        if depth > found.depth && !is_through {
            let message = format!(
                "reaming {} deep runs into the floor of a hole {} deep",
                self.length(depth),
                self.length(found.depth)
            );
            let remedy = "ream less deep, or drill deeper";
            self.find(FindingCode::ReamsTooDeep, place.field("depth"), message, remedy);
        }
        let hole = Hole { diameter, count: ream.holes.into(), index, ..found };
        piece.holes.enlarge(found, hole);
    }

    fn judge_allowance(&mut self, place: Place<'_>, diameter: f64, allowance: f64) {
        let place = place.field("hole_diameter");
        if allowance <= 0.0 {
            let message = format!("a reamer of {} finds no metal in its hole", self.length(diameter));
            let remedy = "drill smaller than the reamer";
            return self.find(FindingCode::NoReamingAllowance, place, message, remedy);
        }
        let Ok([least, greatest, ..]) = self.results(place, &REAMING_ALLOWANCE, &[diameter]) else { return };
        // Light metals take half as much again, and tables differ by a third.
        let (side, remedy) = if allowance < least * 0.66 {
            ("little: the reamer rubs and wears", "drill smaller")
        } else if allowance > greatest * 1.5 {
            ("much: the reamer cuts large and may break", "drill larger, or bore first")
        } else {
            return;
        };
        let message = format!(
            "{} on the diameter is too {side}; {} to {} is usual",
            self.length(beside(allowance, least)),
            self.length(beside(least, 0.0)),
            self.length(beside(greatest, 0.0))
        );
        self.find((FindingCode::ReamingAllowance, Severity::Warning), place, message, remedy);
    }

    fn judge_opened(&mut self, index: usize, place: Place<'_>, bore: &Bore, piece: &mut Workpiece) {
        let diameter = self.float(bore.diameter);
        let Some(found) = piece.holes.of(diameter) else {
            let message = format!("no operation leaves the hole of {} that is bored", self.length(diameter));
            let remedy = "drill the hole first, or state the one that is there";
            return self.find(
                (FindingCode::HoleNotDrilled, Severity::Warning),
                place.field("diameter"),
                message,
                remedy,
            );
        };
        let left = self.grown(bore.diameter, bore.depth, bore.passes.checked_mul(2));
        if let Some(left) = left.map(|left| self.float(left)) {
            let hole = Hole { diameter: left, count: 1, index, ..found };
            piece.holes.enlarge(found, hole);
        }
    }

    fn judge_sunk(&mut self, place: Place<'_>, sink: &Countersink, piece: &Workpiece) {
        self.holes_there(place, sink.hole_diameter.value(), sink.holes, &piece.holes, "countersinking");
    }

    /// The limits of a characteristic of a kind, in the units of the document.
    fn asked(&self, number: Reference, kind: CharacteristicKind) -> Option<(Limits, [f64; 2])> {
        let limits = self.limits_of(number.0).filter(|c| c.kind == kind).map(to_cut)?;
        Some((limits, [limits.lower(), limits.upper()].map(|size| self.float(size))))
    }

    /// A drill cuts its own diameter or a little more.
    fn judge_drilled(&mut self, place: Place<'_>, drill: &Drill) {
        self.judge_bore_size(place, &drill.makes, drill.tool.diameter.value(), "a drill");
        for &number in &drill.makes {
            let depth = drill.depth.value();
            if let Some((limits, [lower, upper])) = self.asked(number, CharacteristicKind::Depth)
                && !(lower <= depth && depth <= upper)
            {
                let message = format!(
                    "a hole {} deep is outside the limits of number {}, {}",
                    self.length(depth),
                    number.0,
                    limits.format(self.units)
                );
                let remedy = "drill to a depth within them";
                self.find(FindingCode::DrillOffDepth, place.field("depth"), message, remedy);
            }
        }
    }

    /// A drill or a reamer makes a bore of its own size.
    fn judge_bore_size(&mut self, place: Place<'_>, makes: &[Reference], diameter: f64, tool: &str) {
        for &number in makes {
            if let Some((limits, [lower, upper])) = self.asked(number, CharacteristicKind::Bore)
                && !(lower <= diameter && diameter <= upper)
            {
                let message = format!(
                    "{tool} of {} is outside the limits of its hole, {}",
                    self.length(diameter),
                    limits.format(self.units)
                );
                let remedy = "use one whose diameter is within them, preferably near the lower limit";
                let place = place.field("tool");
                let code = match tool {
                    "a drill" => FindingCode::DrillOffSize,
                    _ => FindingCode::ReamerOffSize,
                };
                self.find(code, place.field("diameter"), message, remedy);
            }
        }
    }

    fn judge_tapped(&mut self, place: Place<'_>, tap: &Tap, drilled: &Holes) {
        let hole = tap.hole_diameter.value();
        if let Some(drill) = drilled.of(hole) {
            let holes = drill.count;
            if holes < tap.holes.into() {
                let message =
                    format!("{} holes of this size are tapped, and the drill makes only {holes}", tap.holes);
                let remedy = "drill as many holes as are tapped";
                self.find(FindingCode::TooFewHoles, place.field("holes"), message, remedy);
            }
            return self.judge_thread_depth(place, tap, drill);
        }
        let Some(drill) = drilled.last() else {
            let message = format!("no hole is drilled before {} is tapped", tap.thread.designation);
            let remedy = "drill before tapping";
            return self.find(FindingCode::TapWithoutHole, place, message, remedy);
        };
        let message = format!(
            "the tap needs a hole of {}, and operation {} leaves {}",
            self.length(hole),
            self.number(drill.index),
            self.length(drill.diameter)
        );
        let remedy = "set `hole_diameter` to the hole that is drilled, or change the drill";
        self.find(FindingCode::HoleNotDrilled, place.field("hole_diameter"), message, remedy);
    }

    /// The hole becomes the minor diameter of the thread, which has limits.
    fn judge_minor(&mut self, place: Place<'_>, tap: &Tap) {
        let (hole, minor) = (tap.hole_diameter.value(), &tap.thread.minor);
        let [lower, upper] = [minor.lower(), minor.upper()].map(|size| self.float(size));
        if !(lower <= hole && hole <= upper) {
            let message = format!(
                "a hole of {} is outside the limits of the minor diameter of {}, {}",
                self.length(hole),
                tap.thread.designation,
                minor.format(self.units)
            );
            let remedy = "use a drill whose diameter is within them";
            self.find(FindingCode::HoleOffSize, place.field("hole_diameter"), message, remedy);
        }
    }

    /// The tap must reach the depth of the thread, and not the floor of the hole.
    fn judge_thread_depth(&mut self, place: Place<'_>, tap: &Tap, drill: Hole) {
        let (travel, depth) = (tap.travel.value(), drill.depth);
        let start = drill.approach.max(START * self.float(tap.thread.pitch));
        let is_through = drill.breakthrough > 0.0;
        // Through the far side there is room, if not for long.
        let beyond = if is_through { drill.breakthrough + 2.0 * self.float(tap.thread.nominal) } else { 0.0 };
        if travel > start + depth + beyond {
            let (severity, what) = match is_through {
                true => (Severity::Warning, "runs far out of"),
                false => (Severity::Error, "runs into the floor of"),
            };
            let message = format!(
                "a tap that travels {}, from about {} above the face, {what} a hole {} deep",
                self.length(travel),
                self.length(beside(start, 0.0)),
                self.length(depth)
            );
            let remedy = "shorten the `travel`, or drill deeper";
            self.find((FindingCode::TapTooDeep, severity), place.field("travel"), message, remedy);
        }
        for &number in &tap.makes {
            let Some((limits, [lower, _])) = self.asked(number, CharacteristicKind::Depth) else { continue };
            let (reach, field, what) = match travel < lower {
                true => (travel, "travel", "the tap travels"),
                false if !is_through && depth < lower => (depth, "makes", "the hole is"),
                false => continue,
            };
            let message = format!(
                "number {} needs a thread {} deep, and {what} only {}",
                number.0,
                limits.format(self.units),
                self.length(reach)
            );
            let remedy = "drill and tap deeper";
            self.find(FindingCode::ThreadTooShallow, place.field(field), message, remedy);
        }
    }

    /// A length for a message.
    fn length(&self, value: f64) -> String {
        format!("{value} {}", self.units.length_label())
    }
}

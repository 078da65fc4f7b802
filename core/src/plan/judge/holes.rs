//! Whether holes have the size and the depth that the drawing and the tap ask for.
use crate::Limits;
use crate::document::Reference;
use crate::document::fault::Place;
use crate::finding::{Severity, beside};
use crate::plan::drawing::to_cut;
use crate::plan::evaluation::{Evaluation, OPERATIONS};
use crate::plan::*;
use std::collections::BTreeMap;

/// How much larger than its drill a hole may be stated: common practice, no source.
const OVERSIZE: f64 = 1.03;
/// Pitches from the start of a tap to the face, where the drill starts nearer: common practice, no source.
const START: f64 = 3.0;

/// Holes of one diameter that are drilled so far.
struct Drilled<'d> {
    /// The last operation that drills them.
    drill: &'d Drill,
    holes: u64,
}

/// Holes that are drilled so far, by the bits of their diameter, which is positive: these stand in its order.
#[derive(Default)]
struct Holes<'d> {
    by_diameter: BTreeMap<u64, Drilled<'d>>,
    /// The number of the last operation that drills.
    last: Option<(u32, &'d Drill)>,
}

impl<'d> Holes<'d> {
    fn add(&mut self, number: u32, drill: &'d Drill) {
        self.last = Some((number, drill));
        let diameter = drill.tool.diameter.value().to_bits();
        let own = self.by_diameter.entry(diameter).or_insert(Drilled { drill, holes: 0 });
        *own = Drilled { drill, holes: own.holes + u64::from(drill.holes) };
    }

    /// The holes that a stated diameter means: a drill cuts its own or a little more.
    fn of(&self, diameter: f64) -> Option<&Drilled<'d>> {
        let (_, found) = self.by_diameter.range(..=diameter.to_bits()).next_back()?;
        (diameter <= found.drill.tool.diameter.value() * OVERSIZE).then_some(found)
    }
}

impl Evaluation<'_> {
    pub(super) fn judge_holes(&mut self, operations: &[Operation]) {
        let mut holes = Holes::default();
        for (index, operation) in operations.iter().enumerate() {
            let place = OPERATIONS.index(index);
            match &operation.work {
                Work::Drill(drill) => {
                    self.judge_drilled(place, drill);
                    holes.add(self.number(index), drill);
                }
                Work::Tap(tap) => {
                    self.judge_minor(place, tap);
                    self.judge_tapped(place, tap, &holes);
                }
                _ => {}
            }
        }
    }

    /// The limits of a characteristic of a kind, in the units of the document.
    fn asked(&self, number: Reference, kind: CharacteristicKind) -> Option<(Limits, [f64; 2])> {
        let limits = self.limits_of(number.0).filter(|c| c.kind == kind).map(to_cut)?;
        Some((limits, [limits.lower(), limits.upper()].map(|size| self.float(size))))
    }

    /// A drill cuts its own diameter or a little more.
    fn judge_drilled(&mut self, place: Place<'_>, drill: &Drill) {
        for &number in &drill.makes {
            let diameter = drill.tool.diameter.value();
            if let Some((limits, [lower, upper])) = self.asked(number, CharacteristicKind::Bore)
                && !(lower <= diameter && diameter <= upper)
            {
                let message = format!(
                    "a drill of {} is outside the limits of its hole, {}",
                    self.length(diameter),
                    limits.format(self.units)
                );
                let remedy = "use a drill whose diameter is within them, preferably near the lower limit";
                let place = place.field("tool");
                self.find(Severity::Error, "drill_off_size", place.field("diameter"), message, remedy);
            }
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
                self.find(Severity::Error, "drill_off_depth", place.field("depth"), message, remedy);
            }
        }
    }

    fn judge_tapped(&mut self, place: Place<'_>, tap: &Tap, drilled: &Holes<'_>) {
        let hole = tap.hole_diameter.value();
        if let Some(&Drilled { drill, holes }) = drilled.of(hole) {
            if holes < tap.holes.into() {
                let message =
                    format!("{} holes of this size are tapped, and the drill makes only {holes}", tap.holes);
                let remedy = "drill as many holes as are tapped";
                self.find(Severity::Error, "too_few_holes", place.field("holes"), message, remedy);
            }
            return self.judge_thread_depth(place, tap, drill);
        }
        let Some((number, drill)) = drilled.last else {
            let message = format!("no hole is drilled before {} is tapped", tap.thread.designation);
            let remedy = "drill before tapping";
            return self.find(Severity::Error, "tap_without_hole", place, message, remedy);
        };
        let message = format!(
            "the tap needs a hole of {}, and operation {number} drills {}",
            self.length(hole),
            self.length(drill.tool.diameter.value())
        );
        let remedy = "set `hole_diameter` to the hole that is drilled, or change the drill";
        self.find(Severity::Error, "hole_not_drilled", place.field("hole_diameter"), message, remedy);
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
            self.find(Severity::Error, "hole_off_size", place.field("hole_diameter"), message, remedy);
        }
    }

    /// The tap must reach the depth of the thread, and not the floor of the hole.
    fn judge_thread_depth(&mut self, place: Place<'_>, tap: &Tap, drill: &Drill) {
        let (travel, depth) = (tap.travel.value(), drill.depth.value());
        let start = drill.approach.value().max(START * self.float(tap.thread.pitch));
        let is_through = drill.breakthrough.value() > 0.0;
        // Through the far side there is room, if not for long.
        let beyond =
            if is_through { drill.breakthrough.value() + 2.0 * self.float(tap.thread.nominal) } else { 0.0 };
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
            self.find(severity, "tap_too_deep", place.field("travel"), message, remedy);
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
            self.find(Severity::Error, "thread_too_shallow", place.field(field), message, remedy);
        }
    }

    /// A length for a message.
    fn length(&self, value: f64) -> String {
        format!("{value} {}", self.units.length_label())
    }
}

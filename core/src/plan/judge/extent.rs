//! Whether cuts stay within the bar and the part.
use crate::document::fault::Place;
use crate::finding::{Severity, beside};
use crate::math;
use crate::plan::evaluation::{Evaluation, JOINT, OPERATIONS};
use crate::plan::*;
use crate::quantity::{Length, Quantity};
use crate::{Limits, Size};

impl<'p> Evaluation<'p> {
    /// The diameter that the largest bar turns in: across the corners of one with flats.
    fn swing(&self) -> f64 {
        let bar = &self.bar;
        let corners = match bar.form {
            Form::Round => 1.0,
            // 1 over the cosine of half of 60°, and of half of 90°.
            Form::Hexagon => 1.0 / math::cos_degrees(30.0),
            Form::Square => 1.0 / math::cos_degrees(45.0),
        };
        // The last digits of the corners are left to them.
        self.float(bar.limits.upper()) * corners * (1.0 + 1e-12)
    }

    pub(super) fn judge_extent(&mut self, operations: &[Operation]) {
        let swing = self.swing();
        let length = self.sawn.map(|sawn| sawn.length);
        let mut knurled = false;
        for (index, operation) in operations.iter().enumerate() {
            let place = OPERATIONS.index(index);
            // A knurl stands above the bar that it was rolled on.
            let from = if knurled { None } else { starts_at(operation) };
            if let Some((field, size)) = from
                && self.float(size) > swing
            {
                self.larger_than_bar(place.field(field), size, swing);
            }
            if let Work::Drill(drill) = &operation.work {
                self.judge_width(place, drill);
            }
            if let Some(length) = length {
                self.judge_reach(place, operation, length, swing);
            }
            knurled |= matches!(operation.work, Work::Knurl(_));
        }
        if let (Some(length), Some(Joint::PlainJoint(PlainJoint { length: contact, .. }))) =
            (length, self.joint)
            && contact.value() > self.float(length)
        {
            self.beyond(
                JOINT.field("length"),
                "a contact",
                contact.value(),
                length,
                "shorten the contact, or check the `cut_length` of the saw",
            );
        }
    }

    fn larger_than_bar(&mut self, place: Place<'_>, size: Size, swing: f64) {
        let unit = Length::KIND.unit(self.units).label;
        let message = format!(
            "the cut starts at a diameter of {}, and the largest bar is only {} {unit} across",
            size.format(self.units),
            beside(swing, 0.0)
        );
        let remedy = "start at the diameter of the bar, or order a larger bar";
        self.find(Severity::Error, "larger_than_bar", place, message, remedy);
    }

    fn judge_width(&mut self, place: Place<'_>, drill: &Drill) {
        let (diameter, bar) = (drill.tool.diameter.value(), self.bar.limits.upper());
        if diameter >= self.float(bar) {
            let unit = Length::KIND.unit(self.units).label;
            let message =
                format!("a drill of {diameter} {unit} is as large as the bar of {}", bar.format(self.units));
            let remedy = "use a smaller drill";
            self.find(
                Severity::Error,
                "drill_too_large",
                place.field("tool").field("diameter"),
                message,
                remedy,
            );
        }
    }

    /// A pass may start and end outside the part, by a diameter at most: common practice, no source.
    fn judge_reach(&mut self, place: Place<'_>, operation: &Operation, length: Size, swing: f64) {
        let part = self.float(length);
        let (field, what, reach, room) = match &operation.work {
            Work::Turn(turn) => ("travel", "a travel", turn.travel, part + swing),
            Work::Knurl(knurl) => ("travel", "a knurl", knurl.travel, part + swing),
            Work::MillFlats(mill) => {
                ("travel", "a travel", mill.travel, part.max(swing) + 2.0 * mill.tool.diameter.value())
            }
            // A cross hole is as deep as the bar is thick.
            Work::Drill(drill) => ("depth", "a hole", drill.depth, part.max(swing)),
            Work::Tap(tap) => ("travel", "a travel of the tap", tap.travel, part.max(swing) + swing),
            _ => return,
        };
        if reach.value() > room {
            let remedy = "check the length, or the `cut_length` of the saw";
            self.beyond(place.field(field), what, reach.value(), length, remedy);
        }
    }

    fn beyond(&mut self, place: Place<'_>, what: &str, reach: f64, length: Size, remedy: &'static str) {
        let unit = Length::KIND.unit(self.units).label;
        let message = format!(
            "{what} of {reach} {unit} is longer than the part, which the saw cuts to {}",
            length.format(self.units)
        );
        self.find(Severity::Error, "beyond_part", place, message, remedy);
    }
}

/// The diameter at which an operation says that it starts.
fn starts_at(operation: &Operation) -> Option<(&'static str, Size)> {
    match &operation.work {
        Work::Turn(Turn { diameter, .. }) | Work::Face(Face { diameter, .. }) => {
            Some(("diameter", (*diameter)?))
        }
        Work::Knurl(Knurl { blank, .. }) => Some(("blank", blank.as_ref().map(Limits::upper)?)),
        _ => None,
    }
}

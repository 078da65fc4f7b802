//! Whether cuts stay within the bar and the part.
use crate::document::fault::Place;
use crate::error::beside;
use crate::finding::FindingCode;
use crate::math;
use crate::plan::bar::Form;
use crate::plan::evaluation::Evaluation;
use crate::plan::operation::{Drill, Knurl, Operation, Work};
use crate::plan::workpiece::Workpiece;
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

    pub(super) fn judge_extent(&mut self, place: Place<'_>, operation: &Operation, piece: &Workpiece) {
        let swing = self.swing();
        // A knurl stands above the bar that it was rolled on.
        let from = if piece.knurled.is_some() { None } else { starts_at(operation) };
        if let Some((field, size)) = from
            && self.float(size) > swing
        {
            self.larger_than_bar(place.field(field), size, swing);
        }
        if let Work::Drill(drill) = &operation.work {
            self.judge_width(place, drill);
        }
        if let Some(length) = piece.length {
            self.judge_reach(place, operation, length, swing);
        }
    }

    /// Hubs cannot touch more than the part is long, each alone and all side by side.
    pub(super) fn judge_contact(&mut self) {
        let Some(length) = self.sawn.map(|sawn| sawn.length) else { return };
        let part = self.float(length);
        let mut all = 0.0;
        for placed in self.joints.clone() {
            let (contact, before) = (placed.joint.length().value(), all);
            all += contact;
            let place = placed.place.field("length");
            if contact > part {
                let remedy = "shorten the contact, or check the `cut_length` of the saw";
                self.beyond(place, "a contact", contact, length, remedy);
            } else if before <= part && all > part {
                let remedy = "shorten the hubs: they sit side by side on the part";
                self.beyond(place, "this contact beside those before it, together", all, length, remedy);
            }
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
        self.find(FindingCode::LargerThanBar, place, message, remedy);
    }

    fn judge_width(&mut self, place: Place<'_>, drill: &Drill) {
        let (diameter, bar) = (drill.tool.diameter.value(), self.bar.limits.upper());
        if diameter >= self.float(bar) {
            let unit = Length::KIND.unit(self.units).label;
            let message =
                format!("a drill of {diameter} {unit} is as large as the bar of {}", bar.format(self.units));
            let remedy = "use a smaller drill";
            self.find(FindingCode::DrillTooLarge, place.field("tool").field("diameter"), message, remedy);
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
            Work::TurnThread(thread) => ("travel", "a thread", thread.travel, part + swing),
            Work::Bore(bore) => ("travel", "a bore", bore.travel, part + swing),
            Work::Keyseat(keyseat) => {
                ("travel", "a keyseat", keyseat.travel, part + 2.0 * keyseat.tool.diameter.value())
            }
            Work::Ream(ream) => ("depth", "a hole", ream.depth, part.max(swing)),
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
        self.find(FindingCode::BeyondPart, place, message, remedy);
    }
}

/// The diameter at which an operation says that it starts.
fn starts_at(operation: &Operation) -> Option<(&'static str, Size)> {
    match &operation.work {
        Work::Turn(turn) => Some(("diameter", turn.diameter?)),
        Work::MillFlats(mill) => Some(("diameter", mill.diameter?)),
        Work::Face(face) => Some(("diameter", face.diameter?)),
        Work::Groove(groove) => Some(("diameter", groove.diameter?)),
        Work::TurnThread(thread) => Some(("diameter", thread.diameter?)),
        Work::Grind(grind) => Some(("diameter", grind.diameter?)),
        Work::Keyseat(keyseat) => Some(("diameter", keyseat.diameter?)),
        Work::PartOff(part) => Some(("diameter", part.diameter?)),
        Work::Knurl(Knurl { blank, .. }) => Some(("blank", blank.as_ref().map(Limits::upper)?)),
        _ => None,
    }
}

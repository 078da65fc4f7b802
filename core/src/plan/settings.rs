//! What is to be set at the machine for each operation, as a sheet at the machine shows it.
use super::document::*;
use super::evaluate::Evaluation;
use super::sheet::Figure;
use crate::Size;
use crate::document::fault::Place;
use crate::document::{DocumentNumber, Reference};
use crate::quantity::{Length, SpindleSpeed};

fn count(name: &'static str, count: u32) -> Figure {
    Figure::counted(name, count)
}

impl Evaluation<'_> {
    /// Speeds and feeds are judged by what their makers recommend, as far as the plan states them itself.
    pub(super) fn settings(&mut self, place: Place<'_>, operation: &Operation) -> Vec<Figure> {
        match operation {
            Operation::Saw(saw) => self.saw_settings(place, saw),
            Operation::MillFlats(mill) => self.mill_settings(mill),
            Operation::Turn(turn) => self.turn_settings(place, turn),
            Operation::Face(face) => self.face_settings(place, face),
            Operation::Drill(drill) => self.drill_settings(place, drill),
            Operation::Tap(tap) => self.tap_settings(tap),
            Operation::Knurl(knurl) => self.knurl_settings(knurl),
            Operation::Press(press) => self.press_settings(press),
            Operation::Deburr(_) | Operation::Inspect(_) => vec![],
        }
    }

    fn size(&self, name: &'static str, size: Size) -> Figure {
        self.stated(name, DocumentNumber::<Length>::new(self.float(size)))
    }

    /// A size less what cuts of a depth take off it; nothing beyond what a size can be.
    fn less(&self, from: Size, depth: DocumentNumber<Length>, cuts: Option<u32>) -> Option<Size> {
        let depth = Size::from_float(depth.value(), self.units).ok()?;
        from.checked_sub(depth.checked_mul(cuts?.into())?)
    }

    fn limits_or(&self, number: Reference, names: [&'static str; 2], more: Size) -> Vec<Figure> {
        let limits = self.limits_of(number.0).map(|c| *c.limits);
        let ends = limits.and_then(|l| Some([l.lower().checked_add(more)?, l.upper().checked_add(more)?]));
        let ends = ends.into_iter().flatten();
        names.into_iter().zip(ends).map(|(name, size)| self.size(name, size)).collect()
    }

    fn saw_settings(&mut self, place: Place<'_>, saw: &Saw) -> Vec<Figure> {
        let mut speed = self.stated("surface speed", saw.surface_speed);
        self.judge(place.field("surface_speed"), &mut speed, &saw.blade.surface_speed);
        let mut rate = self.stated("sawing rate", saw.sawing_rate);
        self.judge(place.field("sawing_rate"), &mut rate, &saw.blade.sawing_rate);
        let names = ["sawn length, least", "sawn length, greatest"];
        let mut settings = vec![speed, rate];
        settings.extend(self.limits_or(saw.cut_length, names, saw.facing_allowance));
        settings.push(self.size("kerf", saw.kerf));
        settings
    }

    fn mill_settings(&self, mill: &MillFlats) -> Vec<Figure> {
        let bar = self.document.bar.limits.upper();
        let sides = if mill.flats == 1 { 1 } else { 2 };
        let finish = self.less(bar, mill.axial_depth, mill.passes.checked_mul(sides));
        let mut settings = Vec::with_capacity(9);
        settings.extend([
            self.stated("spindle speed", mill.spindle_speed),
            self.stated("feed rate", mill.feed_rate),
            self.stated("depth of a pass", mill.axial_depth),
            self.stated("width of cut", mill.radial_width),
            count("passes for a flat", mill.passes),
            self.stated("travel of a pass", mill.travel),
            self.size("start, largest bar", bar),
        ]);
        settings.extend(finish.map(|size| self.size("finish across, from that bar", size)));
        if let Some(seat) = &mill.seat {
            settings.push(self.stated("torque of the clamp screw", seat.screw.torque));
        }
        settings
    }

    fn turn_settings(&mut self, place: Place<'_>, turn: &Turn) -> Vec<Figure> {
        let start = turn.diameter.unwrap_or(self.document.bar.limits.upper());
        let finish = self.less(start, turn.depth, turn.passes.checked_mul(2));
        let mut feed = self.stated("feed per revolution", turn.feed_per_revolution);
        self.judge(place.field("feed_per_revolution"), &mut feed, &turn.tool.feed_per_revolution);
        let mut settings = Vec::with_capacity(7);
        settings.extend([
            self.stated("spindle speed", turn.spindle_speed),
            feed,
            self.stated("depth of a pass", turn.depth),
            count("passes", turn.passes),
            self.stated("travel of a pass", turn.travel),
            self.size("start diameter", start),
        ]);
        settings.extend(finish.map(|size| self.size("finish diameter", size)));
        settings
    }

    fn face_settings(&mut self, place: Place<'_>, face: &Face) -> Vec<Figure> {
        let start = face.diameter.unwrap_or(self.document.bar.limits.upper());
        let mut feed = self.stated("feed per revolution", face.feed_per_revolution);
        self.judge(place.field("feed_per_revolution"), &mut feed, &face.tool.feed_per_revolution);
        let taken = self.less(Size::ZERO, face.depth, Some(face.passes));
        let mut settings = Vec::with_capacity(7);
        settings.extend([
            self.stated("spindle speed", face.spindle_speed),
            feed,
            self.stated("depth of a pass", face.depth),
            count("passes", face.passes),
        ]);
        let taken = taken.and_then(|taken| taken.checked_mul(-1));
        settings.extend(taken.map(|size| self.size("taken off the length", size)));
        settings.push(self.size("start diameter", start));
        settings.push(self.size("end diameter", face.inner_diameter));
        settings
    }

    fn drill_settings(&mut self, place: Place<'_>, drill: &Drill) -> Vec<Figure> {
        let mut feed = self.stated("feed per revolution", drill.feed_per_revolution);
        self.judge(place.field("feed_per_revolution"), &mut feed, &drill.tool.feed_per_revolution);
        vec![
            self.stated("spindle speed", drill.spindle_speed),
            feed,
            count("holes", drill.holes),
            self.stated("hole diameter", drill.tool.diameter),
            self.stated("depth at full diameter", drill.depth),
            self.stated("approach", drill.approach),
            self.stated("breakthrough", drill.breakthrough),
        ]
    }

    fn tap_settings(&self, tap: &Tap) -> Vec<Figure> {
        let out = DocumentNumber::<SpindleSpeed>::new(tap.spindle_speed.value() * tap.reverse_ratio.value());
        vec![
            self.stated("spindle speed, in", tap.spindle_speed),
            self.stated("spindle speed, out", out),
            self.size("pitch", tap.thread.pitch),
            count("holes", tap.holes),
            self.stated("hole diameter", tap.hole_diameter),
            self.stated("travel", tap.travel),
        ]
    }

    fn knurl_settings(&self, knurl: &Knurl) -> Vec<Figure> {
        let blank = knurl.blank.unwrap_or(*self.document.bar.limits);
        vec![
            self.stated("spindle speed", knurl.spindle_speed),
            self.stated("feed rate", knurl.feed_rate),
            self.stated("travel", knurl.travel),
            self.size("blank, least", blank.lower()),
            self.size("blank, greatest", blank.upper()),
            self.stated("pitch", knurl.pitch),
            self.stated("profile angle", knurl.profile_angle),
            self.stated("helix angle", knurl.helix_angle),
        ]
    }

    fn press_settings(&self, press: &Press) -> Vec<Figure> {
        let length = self.document.joint.as_ref().map(|joint| match joint {
            Joint::PlainJoint(joint) => joint.length,
            Joint::KnurledJoint(joint) => joint.length,
        });
        let length = length.map(|length| self.stated("length of contact", length));
        let capacity = press.capacity.map(|force| self.stated("force of the press, at most", force));
        length.into_iter().chain(capacity).collect()
    }
}

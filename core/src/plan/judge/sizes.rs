//! What cuts leave of the sizes that they make.
use crate::document::Reference;
use crate::document::fault::Place;
use crate::finding::FindingCode;
use crate::plan::bar::Form;
use crate::plan::characteristic::CharacteristicKind;
use crate::plan::drawing::to_cut;
use crate::plan::evaluation::{Evaluation, OPERATIONS};
use crate::plan::operation::{Bore, Face, MillFlats, Operation, Turned, Work};
use crate::shape::flat::flat_width_base;
use crate::{Limits, Size};

/// A cut, from the size before it to what is left; nothing is left where it goes through.
struct Cut {
    /// What is cut, for messages: `diameter`.
    what: &'static str,
    from: Size,
    left: Option<Size>,
}

impl Evaluation<'_> {
    pub(super) fn judge_sizes(&mut self, place: Place<'_>, operation: &Operation) {
        if let Some(cut) = operation.work.kind().turned(self) {
            self.judge_turned(place, &cut, operation.makes());
        }
        match &operation.work {
            Work::MillFlats(mill) => self.judge_milled(place, mill),
            Work::Face(face) => self.judge_faced(place, face),
            Work::Bore(bore) => self.judge_bored(place, bore),
            _ => {}
        }
    }

    fn judge_turned(&mut self, place: Place<'_>, turned: &Turned, makes: &[Reference]) {
        let cut = Cut { what: "diameter", from: self.bar_or(turned.start), left: turned.left };
        let place = place.field(turned.field);
        if cut.left.is_none() {
            return self.past_centre(place, &cut);
        }
        for number in makes {
            let made = self.limits_of(number.0).filter(|c| c.kind == CharacteristicKind::Diameter);
            if let Some(asked) = made.map(to_cut) {
                self.judge_left(place, &cut, number.0, &asked);
            }
        }
        if cut.left.is_some_and(|left| left >= cut.from) {
            let message = format!("the cut starts at {}, and leaves no less", cut.from.format(self.units));
            let remedy = "start at a larger diameter, or cut to a smaller one";
            self.find(FindingCode::CutsNothing, place, message, remedy);
        }
    }

    /// A bore grows.
    fn judge_bored(&mut self, place: Place<'_>, bore: &Bore) {
        let left = self.grown(bore.diameter, bore.depth, bore.passes.checked_mul(2));
        for number in &bore.makes {
            let made = self.limits_of(number.0).filter(|c| c.kind == CharacteristicKind::Bore);
            let (Some(asked), Some(left)) = (made.map(to_cut), left) else { continue };
            if asked.accepts(left) {
                continue;
            }
            let (code, side, remedy) = match left < asked.lower() {
                true => (FindingCode::CutTooShallow, "under", "cut deeper, or in more passes"),
                false => (FindingCode::CutTooDeep, "over", "use a smaller depth, or fewer passes"),
            };
            let message = format!(
                "the passes leave a bore of {}, {side} the limits of number {}, {}",
                left.format(self.units),
                number.0,
                asked.format(self.units)
            );
            self.find(code, place.field("depth"), message, remedy);
        }
    }

    /// Passes are counted from the diameter that is there, or the largest bar, by which the cutter is set.
    fn judge_milled(&mut self, place: Place<'_>, mill: &MillFlats) {
        self.judge_bar_of_flats(place, mill);
        let from = self.bar_or(mill.diameter);
        let sides = if mill.flats == 1 { 1 } else { 2 };
        let left = self.left(from, mill.axial_depth.value(), sides, mill.passes);
        let cut = Cut { what: "size across the flats", from, left };
        let depth = place.field("axial_depth");
        let Some(left) = left else { return self.past_centre(depth, &cut) };
        if let Some(asked) = self.limits_of(mill.across.0).map(to_cut) {
            self.judge_left(depth, &cut, mill.across.0, &asked);
        }
        let (bar, left) = (self.float(from), self.float(left));
        let remaining = if sides == 1 { left } else { 0.5 * (bar + left) };
        let width = flat_width_base(bar, remaining);
        // The cutter may travel along the flat or across it.
        if self.bar.form == Form::Round && width > mill.radial_width.value().max(mill.travel.value()) {
            let unit = self.units.length_label();
            let message = format!("the flat is {width:.4} {unit} wide, wider than the cut and its travel");
            let remedy = "use a wider cut or a larger cutter";
            self.find(FindingCode::FlatNotCovered, place.field("radial_width"), message, remedy);
        }
    }

    /// Flats on a bar that has faces of its own: depth, seat and count mean something else there.
    fn judge_bar_of_flats(&mut self, place: Place<'_>, mill: &MillFlats) {
        let (bar, faces) = match self.bar.form {
            Form::Round => return,
            Form::Hexagon => ("hexagonal", 6),
            Form::Square => ("square", 4),
        };
        if mill.seat.is_some() {
            let message = format!("the step seat is calculated for a round bar, but this one is {bar}");
            let remedy =
                "hold the bar by its faces, in a vice or a collet of its form, and leave out the seat";
            self.find(FindingCode::SeatForRoundBar, place.field("seat"), message, remedy);
        }
        if mill.flats > faces {
            let message = format!("{} flats do not lie on the {faces} faces of a {bar} bar", mill.flats);
            let remedy = "mill as many flats as the bar has faces or fewer, or take a round bar";
            self.find(FindingCode::MoreFlatsThanFaces, place.field("flats"), message, remedy);
            return;
        }
        let message =
            format!("the bar is {bar}: the depth counts from its faces, so each flat must lie on a face");
        let remedy = "set the bar by its faces before milling, or take a round bar";
        self.find(FindingCode::FlatsOnFaces, place.field("flats"), message, remedy);
    }

    fn judge_faced(&mut self, place: Place<'_>, face: &Face) {
        let from = self.bar_or(face.diameter);
        if face.inner_diameter >= from {
            let message = format!(
                "the cut ends at a diameter of {}, and starts at {}: nothing is cut",
                face.inner_diameter.format(self.units),
                from.format(self.units)
            );
            let remedy = "end at a smaller diameter, or at 0 for the centre";
            self.find(FindingCode::CutsNothing, place.field("inner_diameter"), message, remedy);
        }
    }

    /// The length of the part after the saw and every facing of an end.
    pub(super) fn judge_length(&mut self, operations: &[Operation]) {
        let Some(sawn) = self.sawn else { return };
        let operations = operations.iter().enumerate();
        let number = sawn.cut_length;
        let Some(asked) = self.limits_of(number.0).map(to_cut) else { return };
        let mut cut = Cut { what: "length", from: sawn.length, left: Some(sawn.length) };
        let mut last = None;
        for (index, operation) in operations {
            match &operation.work {
                // A face with a middle that is left standing may be that of a shoulder.
                Work::Face(face) if face.inner_diameter == Size::ZERO || face.makes.contains(&number) => {
                    cut.left = cut.left.and_then(|left| self.left(left, face.depth.value(), 1, face.passes));
                    last = Some(index);
                }
                // How far a pass along the axis shortens a part is not said.
                Work::Turn(turn) if turn.makes.contains(&number) => return,
                _ => {}
            }
        }
        if let Some(index) = last {
            let place = OPERATIONS.index(index);
            self.judge_left(place.field("depth"), &cut, number.0, &asked);
        } else if sawn.finishes && sawn.length > asked.upper() {
            let message = format!(
                "parts are sawn to {}, over the limits of number {}, {}, and no operation faces them to length",
                sawn.length.format(self.units),
                number.0,
                asked.format(self.units)
            );
            let remedy = "add a `face` operation, or set `facing_allowance` to 0";
            let place = OPERATIONS.index(sawn.index);
            self.find(FindingCode::NotFaced, place.field("facing_allowance"), message, remedy);
        }
    }

    fn past_centre(&mut self, place: Place<'_>, cut: &Cut) {
        let from = cut.from.format(self.units);
        let message = format!("the passes remove the whole {} of {from}: they go past the middle", cut.what);
        let remedy = "use a smaller depth, or fewer passes";
        self.find(FindingCode::CutPastCentre, place, message, remedy);
    }

    fn judge_left(&mut self, place: Place<'_>, cut: &Cut, number: u32, asked: &Limits) {
        let what = cut.what;
        if cut.left.is_some_and(|left| asked.accepts(left)) {
            return;
        }
        let from = cut.from.format(self.units);
        let limits = format!("the limits of number {number}, {}", asked.format(self.units));
        let left = match cut.left {
            Some(left) => format!("the passes leave a {what} of {}", left.format(self.units)),
            None => format!("the passes remove the whole {what} of {from}"),
        };
        let (code, message, remedy) = if cut.from < asked.lower() {
            let message = format!("a cut from {from} cannot leave a {what} within {limits}");
            (FindingCode::StockTooSmall, message, "order a larger bar, or check the size before the cut")
        } else if cut.left.is_some_and(|left| left > asked.upper()) {
            (FindingCode::CutTooShallow, format!("{left}, over {limits}"), "cut deeper, or in more passes")
        } else {
            (
                FindingCode::CutTooDeep,
                format!("{left}, under {limits}"),
                "use a smaller depth, or fewer passes",
            )
        };
        self.find(code, place, message, remedy);
    }
}

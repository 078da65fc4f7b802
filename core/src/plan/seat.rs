//! The step seat: a round bar lies in a corner, and a screw clamps it.
use super::evaluation::{Evaluation, no_answer};
use super::sheet::Figure;
use crate::Size;
use crate::document::DocumentError;
use crate::document::form::*;
use crate::finding::FindingCode;
use crate::quantity::{Length, Ratio, Torque};
use crate::workholding::{screw::SCREW_PRELOAD, seat::SEAT_MARGIN};

/// How far the preload of a screw scatters either way: common practice.
const PRELOAD_SCATTER: f64 = 0.3;

objects! {
    /// A step seat: a round bar lies in a corner, and a clamp screw holds it against floor and wall.
    ///
    /// Caution: screw preload scatters by about 30 percent either way, and is tension in the screw, not yet force on the
    /// part. Try the clamping before cutting: a part that comes loose is thrown.
    Seat {
        /// Height of the wall above the floor.
        depth: Size where Positive,
        /// The clamp screw.
        screw: Screw,
    }

    /// A clamp screw.
    Screw {
        /// Its nominal diameter.
        diameter: DocumentNumber<Length> where Positive,
        /// The torque that it is tightened with.
        torque: DocumentNumber<Torque> where Positive,
        /// The nut factor of torque over tension.
        nut_factor: DocumentNumber<Ratio> where Positive = DocumentNumber::new(0.2),
    }
}

impl Evaluation<'_> {
    /// The seat is judged at the largest bar, in exact sizes.
    pub(super) fn seat(
        &mut self,
        place: Place<'_>,
        seat: &Seat,
        figures: &mut Vec<Figure>,
    ) -> Result<(), DocumentError> {
        let largest = self.bar.limits.upper();
        let margin = [self.float(largest), self.float(seat.depth)];
        figures.push(self.figure(place, "seat margin", &SEAT_MARGIN, &margin)?);
        let twice = seat.depth.checked_mul(2).ok_or_else(|| no_answer(place, "the seat is too deep"))?;
        if twice <= largest {
            let message = format!(
                "a wall of {} does not reach past the middle of the largest bar, {}: it cannot hold it",
                seat.depth.format(self.units),
                largest.format(self.units)
            );
            self.find(
                FindingCode::SeatTooShallow,
                place,
                message,
                "use a seat deeper than half the largest bar",
            );
        }
        let Screw { diameter, torque, nut_factor } = &seat.screw;
        let preload = [torque.value(), diameter.value(), nut_factor.value()];
        let preload = self.figure(place.field("screw"), "screw preload", &SCREW_PRELOAD, &preload)?;
        let scattered = |name, factor: f64| Figure::new(name, preload.value * factor, preload.unit.clone());
        let [low, high] = [
            scattered("screw preload, low", 1.0 - PRELOAD_SCATTER),
            scattered("screw preload, high", 1.0 + PRELOAD_SCATTER),
        ];
        figures.extend([low, preload, high]);
        Ok(())
    }
}

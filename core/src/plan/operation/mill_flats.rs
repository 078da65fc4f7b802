//! Milling flats on a bar.
use super::prelude::*;
use super::tools::{Cutter, milling_forces, within_cutter};
use crate::cutting::milling::MILLING_REMOVAL_RATE;
use crate::cutting::speed::{CHIP_LOAD, SURFACE_SPEED};
use crate::cutting::time::CUTTING_TIME;
use crate::plan::seat::Seat;
use crate::shape::flat::{FLAT_DEPTH, FLAT_WIDTH};

objects! {
    /// Mills flats on a round bar.
    MillFlats {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The diameter that the flats are milled on; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// The characteristic across the flats: from flat to flat, or for a single one to the far side.
        across: Reference,
        /// How many flats. One stands alone; an even number lies in opposite pairs.
        flats: u32 where Positive,
        /// The cutter.
        tool: Cutter,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed rate of the table.
        feed_rate: DocumentNumber<FeedRate> where Positive,
        /// Depth of one pass along the axis of the cutter, toward the axis of the bar.
        axial_depth: DocumentNumber<Length> where Positive,
        /// Width of the cut across the cutter.
        radial_width: DocumentNumber<Length> where Positive,
        /// Passes for each flat.
        passes: u32 where Positive = 1,
        /// Travel of one pass, approach and overrun included.
        travel: DocumentNumber<Length> where Positive,
        /// The step seat that holds the bar.
        seat: Option<Seat>,
        /// How the work is held; with it the sheet tells the safety of the clamping.
        holding: Option<Workholding>,
        /// The time to load, turn and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        flats => one_or_even;
        radial_width, tool => within_cutter;
    }
}

fn one_or_even(flats: &u32) -> Option<String> {
    let odd = *flats != 1 && !flats.is_multiple_of(2);
    odd.then(|| format!("flats must be one, or an even number in opposite pairs, not {flats}"))
}

impl Kind for MillFlats {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        use CharacteristicKind::{AcrossFlats, Depth, Length, Slot, Width};
        &[AcrossFlats, Width, Length, Slot, Depth]
    }

    fn holding(&self) -> Option<&Workholding> {
        self.holding.as_ref()
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool.name)
    }

    fn seat(&self) -> Option<&Seat> {
        self.seat.as_ref()
    }

    fn cautions(&self) -> &'static [&'static str] {
        if self.seat.is_some() { &[caution::CUT, caution::CLAMP] } else { &[caution::CUT] }
    }

    fn leaves_burrs(&self) -> bool {
        true
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(7)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let (spindle, feed) = (self.spindle_speed.value(), self.feed_rate.value());
        let tool = &self.tool;
        let mut speed =
            work.figure(place, "surface speed", &SURFACE_SPEED, &[tool.diameter.value(), spindle])?;
        work.judge(place.field("spindle_speed"), &mut speed, &tool.surface_speed);
        let mut chip =
            work.figure(place, "chip load", &CHIP_LOAD, &[feed, f64::from(tool.teeth), spindle])?;
        work.judge(place.field("feed_rate"), &mut chip, &tool.chip_load);
        let removal = [self.axial_depth.value(), self.radial_width.value(), feed];
        let removal = work.figure(place, "removal rate", &MILLING_REMOVAL_RATE, &removal)?;
        let mut figures = Vec::with_capacity(10);
        figures.extend([speed, chip, removal]);
        if let Some(across) = work.limits_of(self.across.0).map(|across| *across.limits) {
            let bar = work.float(work.bar_or(self.diameter));
            let across = work.float(across.middle());
            // Opposite flats share what is taken off between them.
            let remaining = if self.flats == 1 { across } else { 0.5 * (bar + across) };
            // Flats that are no smaller than the bar are judged with the sizes that cuts leave.
            if remaining <= bar {
                let place = place.field("across");
                figures.push(work.figure(place, "depth of a flat", &FLAT_DEPTH, &[bar, remaining])?);
                figures.push(work.figure(place, "width of a flat", &FLAT_WIDTH, &[bar, remaining])?);
            }
        }
        if let Some(seat) = &self.seat {
            work.seat(place.field("seat"), seat, &mut figures)?;
        }
        let pass = work.figure(place, "time of a pass", &CUTTING_TIME, &[self.travel.value(), feed])?;
        let cutting = work.time(pass.value * f64::from(self.flats) * f64::from(self.passes));
        let minutes = cutting.value + self.handling.value();
        figures.push(cutting);
        let name = ["Mill ", &several(self.flats, "flat"), " with ", &tool.name].concat();
        Ok(Done { name, figures, minutes })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let start = work.bar_or(self.diameter);
        let sides = if self.flats == 1 { 1 } else { 2 };
        let finish = work.less(start, self.axial_depth, self.passes.checked_mul(sides));
        let [from, to] = match self.diameter {
            Some(_) => ["start diameter", "finish across"],
            None => ["start, largest bar", "finish across, from that bar"],
        };
        let mut settings = Vec::with_capacity(9);
        settings.extend([
            work.stated("spindle speed", self.spindle_speed),
            work.stated("feed rate", self.feed_rate),
            work.stated("depth of a pass", self.axial_depth),
            work.stated("width of cut", self.radial_width),
            count("passes for a flat", self.passes),
            work.stated("travel of a pass", self.travel),
            work.size(from, start),
        ]);
        settings.extend(finish.map(|size| work.size(to, size)));
        if let Some(seat) = &self.seat {
            settings.push(work.stated("torque of the clamp screw", seat.screw.torque));
        }
        settings
    }

    fn forces(
        &self,
        work: &Evaluation<'_>,
        place: Place<'_>,
        _: &[Figure],
    ) -> Result<Option<CutForces>, DocumentError> {
        let load = self.feed_rate.value() / (f64::from(self.tool.teeth) * self.spindle_speed.value());
        let cut = [self.spindle_speed.value(), load, self.radial_width.value(), self.axial_depth.value()];
        milling_forces(work, place, &self.tool, cut)
    }
}

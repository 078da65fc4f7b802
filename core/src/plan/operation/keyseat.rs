//! Milling a keyseat in a shaft.
use super::prelude::*;
use super::tools::{Cutter, cutter_bends, milling_forces};
use crate::cutting::speed::{CHIP_LOAD, SURFACE_SPEED};
use crate::cutting::time::CUTTING_TIME;
use crate::shape::keyseat::{KEYSEAT_DEPTH, SHAFT_KEYSEAT_FAR_SIDE};

objects! {
    /// Mills a keyseat in a shaft, for a square or flat key that lies half in it.
    Keyseat {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The diameter of the shaft there; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// The width of the key.
        key_width: DocumentNumber<Length> where Positive,
        /// The height of the key.
        key_height: DocumentNumber<Length> where Positive,
        /// The cutter.
        tool: Cutter,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed rate of the table.
        feed_rate: DocumentNumber<FeedRate> where Positive,
        /// Travel of one pass, approach and overrun included.
        travel: DocumentNumber<Length> where Positive,
        /// Passes.
        passes: u32 where Positive = 1,
        /// How the work is held; with it the sheet tells the safety of the clamping.
        holding: Option<Workholding>,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }
}

impl Keyseat {
    /// Depth of the whole cut.
    fn depth(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Figure, DocumentError> {
        let shaft = work.float(work.bar_or(self.diameter));
        let x = [shaft, self.key_width.value(), self.key_height.value()];
        work.figure(place, "depth of the keyseat", &KEYSEAT_DEPTH, &x)
    }
}

impl Kind for Keyseat {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        use CharacteristicKind::{AcrossFlats, Depth, Length, Slot, Width};
        &[Slot, Depth, AcrossFlats, Length, Width]
    }

    fn holding(&self) -> Option<&Workholding> {
        self.holding.as_ref()
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::MILL]
    }

    fn leaves_burrs(&self) -> bool {
        true
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(7)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let (spindle, feed) = (self.spindle_speed.value(), self.feed_rate.value());
        let (diameter, teeth) = (self.tool.diameter.value(), f64::from(self.tool.teeth));
        let mut speed = work.figure(place, "surface speed", &SURFACE_SPEED, &[diameter, spindle])?;
        work.judge(place.field("spindle_speed"), &mut speed, &self.tool.surface_speed);
        let mut chip = work.figure(place, "chip load", &CHIP_LOAD, &[feed, teeth, spindle])?;
        work.judge(place.field("feed_rate"), &mut chip, &self.tool.chip_load);
        let depth = self.depth(work, place)?;
        let shaft = work.float(work.bar_or(self.diameter));
        let x = [shaft, self.key_width.value(), self.key_height.value()];
        let far = work.figure(place, "floor to the far side", &SHAFT_KEYSEAT_FAR_SIDE, &x)?;
        let each = work.plain::<Length>("depth of a pass", depth.value / f64::from(self.passes));
        let mut figures = vec![speed, chip, depth, each, far];
        if let Some(cut) = self.forces(work, place, &figures)? {
            figures.extend(cutter_bends(work, place, &self.tool, cut.forces[0], &self.makes)?);
        }
        let [pass, ..] = work.results(place, &CUTTING_TIME, &[self.travel.value(), feed])?;
        let cutting = pass * f64::from(self.passes);
        figures.push(work.time(cutting));
        let name = ["Mill the keyseat with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        vec![
            work.stated("spindle speed", self.spindle_speed),
            work.stated("feed rate", self.feed_rate),
            count("passes", self.passes),
            work.stated("travel of a pass", self.travel),
            work.size("shaft diameter", work.bar_or(self.diameter)),
        ]
    }

    /// The deepest a pass can be is an equal share of the keyseat's half key.
    fn forces(
        &self,
        work: &Evaluation<'_>,
        place: Place<'_>,
        _: &[Figure],
    ) -> Result<Option<CutForces>, DocumentError> {
        let load = self.feed_rate.value() / (f64::from(self.tool.teeth) * self.spindle_speed.value());
        let width = self.key_width.value().min(self.tool.diameter.value());
        let depth = self.key_height.value() / f64::from(self.passes);
        milling_forces(work, place, &self.tool, [self.spindle_speed.value(), load, width, depth])
    }
}

//! Milling sides, faces, slots and pockets.
use super::prelude::*;
use super::tools::{Cutter, EFFICIENCY, UNKNOWN, cutter_bends, judge_power, milling_forces, within_cutter};
use crate::cutting::milling_cut::MILLING_CUT;
use crate::cutting::speed::CHIP_LOAD;
use crate::cutting::time::CUTTING_TIME;

objects! {
    /// Mills a side, a face, a slot or a pocket.
    Mill {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// What is milled.
        cut: MilledCut,
        /// The cutter.
        tool: Cutter,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed rate of the table.
        feed_rate: DocumentNumber<FeedRate> where Positive,
        /// Depth of one pass along the axis of the cutter.
        axial_depth: DocumentNumber<Length> where Positive,
        /// Width of the cut across the cutter; of a slot its diameter.
        radial_width: DocumentNumber<Length> where Positive,
        /// Passes, of a side, a face or a slot.
        passes: u32 where Positive = 1,
        /// Travel of one pass, approach and overrun included; of a side, a face or a slot.
        travel: Option<DocumentNumber<Length>> where Positive,
        /// The metal to be cut from a pocket.
        volume: Option<DocumentNumber<Volume>> where Positive,
        /// The power of the machine's motor.
        motor_power: Option<DocumentNumber<Power>> where Positive,
        /// How the work is held; with it the sheet tells the safety of the clamping.
        holding: Option<Workholding>,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        cut, travel, volume => travels_or_empties;
        radial_width, tool => within_cutter;
    }
}

choices! {
    /// What is milled.
    MilledCut {
        /// A side, with the flank of the cutter.
        Side = "side",
        /// A face, square to the axis of the cutter.
        Face = "face",
        /// A slot as wide as the cutter.
        Slot = "slot",
        /// A pocket, by the volume of its metal.
        Pocket = "pocket",
    }
}

fn travels_or_empties(
    cut: &MilledCut,
    travel: &Option<DocumentNumber<Length>>,
    volume: &Option<DocumentNumber<Volume>>,
) -> Option<String> {
    let given = (travel.is_some(), volume.is_some());
    match (cut, given) {
        (MilledCut::Pocket, (false, true)) => None,
        (MilledCut::Pocket, _) => Some("a pocket needs its `volume`, and no `travel`".into()),
        (_, (true, false)) => None,
        _ => Some(format!("a {} needs its `travel`, and no `volume`", cut.name())),
    }
}

impl Mill {
    fn chip_load(&self) -> f64 {
        self.feed_rate.value() / (f64::from(self.tool.teeth) * self.spindle_speed.value())
    }

    /// Minutes in the cut.
    fn time(&self, work: &mut Evaluation<'_>, place: Place<'_>, rate: f64) -> Result<f64, DocumentError> {
        let volume = self.volume.map(|volume| volume.value() / rate);
        let travel = self.travel.map(DocumentNumber::value);
        let pass = travel.map(|travel| work.results(place, &CUTTING_TIME, &[travel, self.feed_rate.value()]));
        let passes = pass.transpose()?.map(|pass| pass[0] * f64::from(self.passes));
        Ok(volume.or(passes).unwrap_or_default())
    }
}

impl Kind for Mill {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        use CharacteristicKind::{AcrossFlats, Bore, Depth, Length, Slot, Width};
        &[AcrossFlats, Width, Length, Slot, Depth, Bore]
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
        let known = work.material.cutting_force(work.units);
        let [kc11, mc] = known.unwrap_or(UNKNOWN);
        let (spindle, teeth) = (self.spindle_speed.value(), f64::from(self.tool.teeth));
        let chip = work.figure(place, "chip load", &CHIP_LOAD, &[self.feed_rate.value(), teeth, spindle])?;
        let (width, depth) = (self.radial_width.value(), self.axial_depth.value());
        let x = [
            self.tool.diameter.value(),
            teeth,
            spindle,
            chip.value,
            width,
            depth,
            kc11,
            mc,
            90.0,
            0.0,
            0.0,
            0.01,
            1.0,
            EFFICIENCY,
        ];
        let y = work.results(place, &MILLING_CUT, &x)?;
        let told = |name, output| work.output(&MILLING_CUT, name, output, &y);
        let mut figures = vec![told("surface speed", 0), chip, told("removal rate", 6)];
        if known.is_some() {
            figures.extend([told("force of a tooth", 7), told("motor power", 10)]);
        }
        work.judge(place.field("spindle_speed"), &mut figures[0], &self.tool.surface_speed);
        work.judge(place.field("feed_rate"), &mut figures[1], &self.tool.chip_load);
        if known.is_some() {
            judge_power(work, place, &figures[4], self.motor_power);
            figures.extend(cutter_bends(work, place, &self.tool, y[7], &self.makes)?);
        }
        let cutting = self.time(work, place, y[6])?;
        figures.push(work.time(cutting));
        let what = ["Mill a ", self.cut.name(), " with "].concat();
        Ok(Done {
            name: [&what, &*self.tool.name].concat(),
            figures,
            minutes: cutting + self.handling.value(),
        })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let mut settings = vec![
            work.stated("spindle speed", self.spindle_speed),
            work.stated("feed rate", self.feed_rate),
            work.stated("depth of a pass", self.axial_depth),
            work.stated("width of cut", self.radial_width),
        ];
        if let Some(travel) = self.travel {
            settings.extend([count("passes", self.passes), work.stated("travel of a pass", travel)]);
        }
        settings.extend(self.volume.map(|volume| work.stated("metal of the pocket", volume)));
        settings
    }

    fn forces(
        &self,
        work: &Evaluation<'_>,
        place: Place<'_>,
        _: &[Figure],
    ) -> Result<Option<CutForces>, DocumentError> {
        let (width, depth) = (self.radial_width.value(), self.axial_depth.value());
        let cut = [self.spindle_speed.value(), self.chip_load(), width, depth];
        milling_forces(work, place, &self.tool, cut)
    }
}

//! Boring: turning a hole larger.
use super::prelude::*;
use super::tools::{Pass, TurningTool, in_passes, judge_bent, passes, steel, turning_forces, within_nose};
use crate::cutting::deflection::BORING_BAR_DEFLECTION;

objects! {
    /// Bores a hole larger with a boring bar.
    Bore {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The diameter of the hole before the cut.
        diameter: Size where Positive,
        /// Depth of a pass, on the radius.
        depth: DocumentNumber<Length> where Positive,
        /// Passes.
        passes: u32 where Positive = 1,
        /// Travel of a pass, approach and overrun included.
        travel: DocumentNumber<Length> where Positive,
        /// The insert.
        tool: TurningTool,
        /// The boring bar; with it the sheet tells how far it bends.
        bar: Option<BoringBar>,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed per revolution.
        feed_per_revolution: DocumentNumber<Length> where Positive,
        /// The power of the machine's motor.
        motor_power: Option<DocumentNumber<Power>> where Positive,
        /// How the work is held; with it the sheet tells the safety of the clamping.
        holding: Option<Workholding>,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        feed_per_revolution, tool => within_nose;
    }

    /// A boring bar.
    BoringBar {
        /// Its diameter.
        diameter: DocumentNumber<Length> where Positive,
        /// How far it sticks out of its holder.
        overhang: DocumentNumber<Length> where Positive,
        /// Its modulus of elasticity; without it that of steel, 205 GPa.
        modulus: Option<DocumentNumber<Modulus>> where Positive,
    }
}

/// The part of the main force that bends a boring bar away from the wall: common practice, as for turning.
const PASSIVE: f64 = 0.25;

impl Kind for Bore {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Bore, CharacteristicKind::Depth]
    }

    fn holding(&self) -> Option<&Workholding> {
        self.holding.as_ref()
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::CHUCK]
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(6)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let finish = work.grown(self.diameter, self.depth, self.passes.checked_mul(2));
        let pass = Pass {
            // The last pass is the fastest.
            diameter: work.float(finish.unwrap_or(self.diameter)),
            depth: self.depth.value(),
            travel: self.travel.value(),
            passes: self.passes,
            tool: &self.tool,
            spindle_speed: self.spindle_speed,
            feed: self.feed_per_revolution,
            power: self.motor_power,
            makes: &self.makes,
        };
        let (mut figures, cutting) = passes(work, place, &pass)?;
        self.judge_bar(work, place);
        let force = figures.iter().find(|figure| figure.name == "cutting force").map(|one| one.value);
        if let (Some(bar), Some(force)) = (&self.bar, force) {
            let at = place.field("bar");
            let modulus = bar.modulus.map_or(steel(work.units), DocumentNumber::value);
            let x = [PASSIVE * force, bar.overhang.value(), bar.diameter.value(), modulus, 0.0];
            let y = work.results(at, &BORING_BAR_DEFLECTION, &x)?;
            figures.push(work.output(&BORING_BAR_DEFLECTION, "diameter error from bending", 1, &y));
            judge_bent(work, at.field("overhang"), "the boring bar makes an error of", y[1], &self.makes);
        }
        let name = ["Bore ", &in_passes(self.passes), "with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let finish = work.grown(self.diameter, self.depth, self.passes.checked_mul(2));
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        let mut settings = vec![
            work.stated("spindle speed", self.spindle_speed),
            feed,
            work.stated("depth of a pass", self.depth),
            count("passes", self.passes),
            work.stated("travel of a pass", self.travel),
            work.size("start diameter", self.diameter),
        ];
        settings.extend(finish.map(|size| work.size("finish diameter", size)));
        settings
    }

    fn forces(
        &self,
        work: &Evaluation<'_>,
        _: Place<'_>,
        figures: &[Figure],
    ) -> Result<Option<CutForces>, DocumentError> {
        Ok(turning_forces(figures, work.float(self.diameter)))
    }
}

impl Bore {
    /// A bar thicker than the hole does not enter it.
    fn judge_bar(&self, work: &mut Evaluation<'_>, place: Place<'_>) {
        let Some(bar) = self.bar.as_ref().map(|bar| bar.diameter.value()) else { return };
        if bar >= work.float(self.diameter) {
            let hole = self.diameter.format(work.units);
            let message = format!(
                "a boring bar of {bar} {} does not fit into the hole of {hole}",
                work.units.length_label()
            );
            let (place, remedy) = (place.field("bar"), "use a thinner boring bar");
            work.find(FindingCode::BarDoesNotFit, place.field("diameter"), message, remedy);
        }
    }
}

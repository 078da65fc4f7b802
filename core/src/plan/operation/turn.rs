//! Turning a diameter.
use super::prelude::*;
use super::tools::{Pass, TurningTool, in_passes, passes, turning_forces, within_nose};

objects! {
    /// Turns a diameter along the axis.
    Turn {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The diameter before the cut; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// The end that it works from; with `length` it tells where the step lies.
        end: End = End::First,
        /// How far the step reaches from that end; without it its place is not judged.
        length: Option<Size> where Positive,
        /// Depth of a pass, on the radius.
        depth: DocumentNumber<Length> where Positive,
        /// Passes.
        passes: u32 where Positive = 1,
        /// Travel of a pass, approach and overrun included.
        travel: DocumentNumber<Length> where Positive,
        /// The tool.
        tool: TurningTool,
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
}

impl Kind for Turn {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        use CharacteristicKind::{Bore, Depth, Diameter, Length, Slot, Width};
        // A bore may be turned with a boring bar.
        &[Diameter, Bore, Length, Width, Slot, Depth]
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

    fn bends_work(&self) -> bool {
        true
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(6)
    }

    fn turned(&self, work: &Evaluation<'_>) -> Option<Turned> {
        let left = work.left(work.bar_or(self.diameter), self.depth.value(), 2, self.passes);
        let reach = self.length.map(|length| (self.end, length));
        Some(Turned { field: "depth", start: self.diameter, left, reach })
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let pass = Pass {
            diameter: work.float(work.bar_or(self.diameter)),
            depth: self.depth.value(),
            travel: self.travel.value(),
            passes: self.passes,
            tool: &self.tool,
            spindle_speed: self.spindle_speed,
            feed: self.feed_per_revolution,
            power: self.motor_power,
            makes: &self.makes,
        };
        let (figures, cutting) = passes(work, place, &pass)?;
        let name = ["Turn ", &in_passes(self.passes), "with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let start = work.bar_or(self.diameter);
        let finish = work.less(start, self.depth, self.passes.checked_mul(2));
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        let mut settings = Vec::with_capacity(7);
        settings.extend([
            work.stated("spindle speed", self.spindle_speed),
            feed,
            work.stated("depth of a pass", self.depth),
            count("passes", self.passes),
            work.stated("travel of a pass", self.travel),
            work.size("start diameter", start),
        ]);
        settings.extend(finish.map(|size| work.size("finish diameter", size)));
        settings
    }

    fn forces(
        &self,
        work: &Evaluation<'_>,
        _: Place<'_>,
        figures: &[Figure],
    ) -> Result<Option<CutForces>, DocumentError> {
        Ok(turning_forces(figures, work.float(work.bar_or(self.diameter))))
    }
}

//! Turning a face across the axis.
use super::prelude::*;
use super::tools::{Pass, TurningTool, in_passes, passes, turning_forces, within_nose};

objects! {
    /// Turns a face across the axis.
    Face {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The diameter at which the cut begins; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// The diameter at which the cut ends; zero for the centre.
        inner_diameter: Size where NonNegative = Size::ZERO,
        /// The end that is faced, where the plan says which.
        end: Option<End>,
        /// Depth of a pass, along the axis.
        depth: DocumentNumber<Length> where Positive,
        /// Passes.
        passes: u32 where Positive = 1,
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

impl Kind for Face {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Length, CharacteristicKind::Width, CharacteristicKind::Depth]
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
        Some(7)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let diameter = work.float(work.bar_or(self.diameter));
        let pass = Pass {
            diameter,
            depth: self.depth.value(),
            travel: (0.5 * (diameter - work.float(self.inner_diameter))).max(0.0),
            passes: self.passes,
            tool: &self.tool,
            spindle_speed: self.spindle_speed,
            feed: self.feed_per_revolution,
            power: self.motor_power,
            makes: &self.makes,
        };
        let (figures, cutting) = passes(work, place, &pass)?;
        let name = ["Face ", &in_passes(self.passes), "with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let start = work.bar_or(self.diameter);
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        let taken = work.less(Size::ZERO, self.depth, Some(self.passes));
        let mut settings = Vec::with_capacity(7);
        settings.extend([
            work.stated("spindle speed", self.spindle_speed),
            feed,
            work.stated("depth of a pass", self.depth),
            count("passes", self.passes),
        ]);
        let taken = taken.and_then(|taken| taken.checked_mul(-1));
        settings.extend(taken.map(|size| work.size("taken off the length", size)));
        settings.push(work.size("start diameter", start));
        settings.push(work.size("end diameter", self.inner_diameter));
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

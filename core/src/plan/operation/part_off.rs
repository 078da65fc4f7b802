//! Parting the finished part off the bar on the lathe.
use super::prelude::*;
use super::tools::{Plunge, PlungeTool, plunge, turning_forces};

objects! {
    /// Parts the work off the bar on the lathe.
    ///
    /// Caution: a part that drops, or a blade that catches, is thrown. Catch the part, keep the blade on centre, and never
    /// part off work that a centre carries.
    PartOff {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The length characteristic that parts are cut for.
        cut_length: Reference,
        /// What each part is cut longer by, for facing.
        facing_allowance: Size where NonNegative = Size::ZERO,
        /// The diameter at which the cut begins; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// The diameter at which the cut ends: that of a bore, or zero.
        inner_diameter: Size where NonNegative = Size::ZERO,
        /// The blade.
        tool: PlungeTool,
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
    }
}

impl Kind for PartOff {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Length]
    }

    fn holding(&self) -> Option<&Workholding> {
        self.holding.as_ref()
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::CHUCK, caution::PART_OFF]
    }

    fn leaves_burrs(&self) -> bool {
        true
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(10)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let cut = Plunge {
            outer: work.float(work.bar_or(self.diameter)),
            inner: work.float(self.inner_diameter),
            tool: &self.tool,
            spindle_speed: self.spindle_speed,
            feed: self.feed_per_revolution,
            power: self.motor_power,
            count: 1,
        };
        let (figures, cutting) = plunge(work, place, &cut)?;
        let name = ["Part off with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        let names = ["length from the face, least", "length from the face, greatest"];
        let mut settings = vec![work.stated("spindle speed", self.spindle_speed), feed];
        settings.extend(work.limits_or(self.cut_length, names, self.facing_allowance));
        settings.push(work.size("width of the blade", self.tool.width));
        settings.push(work.size("start diameter", work.bar_or(self.diameter)));
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

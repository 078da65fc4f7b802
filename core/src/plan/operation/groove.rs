//! Turning a groove.
use super::prelude::*;
use super::tools::{Plunge, PlungeTool, plunge, turning_forces};

objects! {
    /// Turns a groove with plunges of an insert.
    Groove {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The diameter at which the cut begins; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// The diameter of the floor.
        floor_diameter: Size where Positive,
        /// The width of the groove.
        width: Size where Positive,
        /// The insert.
        tool: PlungeTool,
        /// Plunges side by side.
        plunges: u32 where Positive = 1,
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
        width, tool, plunges => covered;
    }
}

fn covered(width: &Size, tool: &PlungeTool, plunges: &u32) -> Option<String> {
    let reach = tool.width.checked_mul(i64::from(*plunges));
    let wrong = if *width < tool.width {
        "narrower than its tool"
    } else if reach.is_some_and(|reach| reach < *width) {
        "wider than its plunges side by side"
    } else {
        return None;
    };
    let [width, tool] = crate::size::alike([*width, tool.width]);
    Some(format!(
        "a groove of {width} is {wrong}, {plunges} of {tool}: change `width`, the tool or `plunges`"
    ))
}

impl Kind for Groove {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        use CharacteristicKind::{Depth, Diameter, Length, Slot, Width};
        &[Diameter, Slot, Width, Length, Depth]
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
        Some(8)
    }

    fn turned(&self, _: &Evaluation<'_>) -> Option<Turned> {
        let left = Some(self.floor_diameter);
        Some(Turned { field: "floor_diameter", start: self.diameter, left, reach: None })
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let cut = Plunge {
            outer: work.float(work.bar_or(self.diameter)),
            inner: work.float(self.floor_diameter),
            tool: &self.tool,
            spindle_speed: self.spindle_speed,
            feed: self.feed_per_revolution,
            power: self.motor_power,
            count: self.plunges,
        };
        let (figures, cutting) = plunge(work, place, &cut)?;
        let name = ["Turn a groove with ", &self.tool.name].concat();
        Ok(Done { name, figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let mut feed = work.stated("feed per revolution", self.feed_per_revolution);
        work.judge(place.field("feed_per_revolution"), &mut feed, &self.tool.feed_per_revolution);
        vec![
            work.stated("spindle speed", self.spindle_speed),
            feed,
            count("plunges", self.plunges),
            work.size("width of the groove", self.width),
            work.size("width of the tool", self.tool.width),
            work.size("start diameter", work.bar_or(self.diameter)),
            work.size("finish diameter", self.floor_diameter),
        ]
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

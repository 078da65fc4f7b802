//! Turning a thread with a single point.
use super::prelude::*;
use crate::Thread;
use crate::cutting::speed::SURFACE_SPEED;
use crate::cutting::threading_infeed::THREADING_INFEED;
use crate::error::shortened;
use crate::thread::profile::THREAD_HEIGHTS;
use crate::thread::tapping::{THREADING_FEED_RATE, THREADING_TIME};

objects! {
    /// Turns an external thread with a single point.
    TurnThread {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The external thread with its tolerance class: `M12-6g` or `1/2-13 UNC-2A`.
        thread: TurnedThread,
        /// The diameter before the cut; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// The end that it works from; with `length` it tells where the step lies.
        end: End = End::First,
        /// How far the step reaches from that end; without it its place is not judged.
        length: Option<Size> where Positive,
        /// Travel of a pass, approach and overrun included.
        travel: DocumentNumber<Length> where Positive,
        /// Passes.
        passes: u32 where Positive,
        /// The threading tool.
        tool: ThreadTool,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// How the work is held; with it the sheet tells what holds it.
        holding: Option<Workholding>,
        /// The time to load and unload a part, and to return the tool for each pass.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }

    /// A threading tool, with what its maker recommends for the material.
    ThreadTool {
        /// What it is.
        name: String,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
    }
}

/// An external thread.
#[derive(Clone, PartialEq, Debug)]
pub struct TurnedThread {
    /// Its designation as given.
    pub designation: String,
    /// Its nominal diameter.
    pub nominal: Size,
    /// Its pitch.
    pub pitch: Size,
    /// Limits of its major diameter, to which the blank is turned.
    pub major: Limits,
}

impl Decode for TurnedThread {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<TurnedThread> {
        let designation = decode_text(node, at, context)?;
        let fault =
            match Thread::parse_with_class(&shortened(designation)).map(|thread| (thread, thread.major())) {
                // External threads alone have two limits of the major diameter.
                Ok((thread, Some(major))) => {
                    let (nominal, pitch) = (thread.nominal(), thread.thread_pitch());
                    return Some(TurnedThread { designation: designation.into(), nominal, pitch, major });
                }
                Ok(_) => {
                    format!("`{designation}` is an internal thread; expected an external one, e.g. `M12-6g`")
                }
                Err(error) => error.to_string(),
            };
        context.fault(FaultKind::Unreadable, at, || fault);
        None
    }
}

impl Kind for TurnThread {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Diameter, CharacteristicKind::Length, CharacteristicKind::Depth]
    }

    fn holding(&self) -> Option<&Workholding> {
        self.holding.as_ref()
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::CHUCK, caution::THREAD]
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let [nominal, pitch] = [self.thread.nominal, self.thread.pitch].map(|size| work.float(size));
        let (spindle, passes) = (self.spindle_speed.value(), f64::from(self.passes));
        let mut speed = work.figure(place, "surface speed", &SURFACE_SPEED, &[nominal, spindle])?;
        work.judge(place.field("spindle_speed"), &mut speed, &self.tool.surface_speed);
        let feed = work.figure(place, "feed rate", &THREADING_FEED_RATE, &[spindle, pitch, 1.0])?;
        let heights = work.results(place, &THREAD_HEIGHTS, &[pitch])?;
        let depth = work.output(&THREAD_HEIGHTS, "depth of the thread", 2, &heights);
        let first =
            work.figure(place, "infeed of the first pass", &THREADING_INFEED, &[depth.value, 1.0, passes])?;
        let time = work.figure(
            place,
            "cutting time",
            &THREADING_TIME,
            &[self.travel.value(), pitch, spindle, passes],
        )?;
        let minutes = time.value + self.handling.value();
        let name = ["Turn the thread ", &self.thread.designation, " with ", &self.tool.name].concat();
        Ok(Done { name, figures: vec![speed, feed, depth, first, time], minutes })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let [least, greatest] = [self.thread.major.lower(), self.thread.major.upper()];
        vec![
            work.stated("spindle speed", self.spindle_speed),
            work.size("feed per revolution", self.thread.pitch),
            count("passes", self.passes),
            work.stated("travel of a pass", self.travel),
            work.size("blank, least", least),
            work.size("blank, greatest", greatest),
        ]
    }
}

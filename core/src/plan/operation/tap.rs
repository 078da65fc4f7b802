//! Tapping holes.
use super::prelude::*;
use crate::Thread;
use crate::cutting::speed::SURFACE_SPEED;
use crate::error::shortened;
use crate::thread::tapping::{PERCENT_THREAD, TAPPING_TIME, THREADING_FEED_RATE};

objects! {
    /// Taps holes.
    Tap {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The internal thread with its tolerance class: `M6-6H` or `1/4-20 UNC-2B`.
        thread: TappedThread,
        /// Diameter of the hole before tapping.
        hole_diameter: DocumentNumber<Length> where Positive,
        /// Path of the tap in one direction, from the start above the hole to the depth.
        travel: DocumentNumber<Length> where Positive,
        /// How many holes.
        holes: u32 where Positive = 1,
        /// The tap.
        tool: TapTool,
        /// Spindle speed on the way in.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Spindle speed on the way out, as a multiple of that on the way in.
        reverse_ratio: DocumentNumber<Ratio> where Positive = DocumentNumber::new(1.0),
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }

    /// A tap, with what its maker recommends for the material.
    TapTool {
        /// What it is.
        name: String,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
    }
}

impl Kind for Tap {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Bore, CharacteristicKind::Depth]
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::HOLE]
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let [nominal, pitch] = [self.thread.nominal, self.thread.pitch].map(|size| work.float(size));
        let spindle = self.spindle_speed.value();
        let mut speed = work.figure(place, "surface speed", &SURFACE_SPEED, &[nominal, spindle])?;
        work.judge(place.field("spindle_speed"), &mut speed, &self.tool.surface_speed);
        let feed = work.figure(place, "feed rate", &THREADING_FEED_RATE, &[spindle, pitch, 1.0])?;
        let hole = [nominal, pitch, self.hole_diameter.value()];
        let at = place.field("hole_diameter");
        let mut percent = work.figure(at, "height of thread", &PERCENT_THREAD, &hole)?;
        percent.unit = "%".into();
        judge_percent(work, at, &percent);
        let x = [self.travel.value(), pitch, spindle, self.reverse_ratio.value()];
        let hole = work.figure(place, "time of a hole", &TAPPING_TIME, &x)?;
        let cutting = work.time(hole.value * f64::from(self.holes));
        let minutes = cutting.value + self.handling.value();
        let name = ["Tap ", &self.thread.designation, " with ", &self.tool.name].concat();
        Ok(Done { name, figures: vec![speed, feed, percent, cutting], minutes })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let out =
            DocumentNumber::<SpindleSpeed>::new(self.spindle_speed.value() * self.reverse_ratio.value());
        vec![
            work.stated("spindle speed, in", self.spindle_speed),
            work.stated("spindle speed, out", out),
            work.size("pitch", self.thread.pitch),
            count("holes", self.holes),
            work.stated("hole diameter", self.hole_diameter),
            work.stated("travel", self.travel),
        ]
    }
}

/// Common practice, no source: 60 to 75 percent for most work, 50 to 85 at the outside.
fn judge_percent(work: &mut Evaluation<'_>, place: Place<'_>, percent: &Figure) {
    let (message, remedy) = match percent.value {
        ..50.0 => ("leaves a thread too shallow to hold", "drill smaller"),
        50.0..=85.0 => return,
        _ => ("leaves so much thread that the tap may break", "drill larger"),
    };
    let message = format!("the hole {message}: {:.1} percent of a full one", percent.value);
    work.find(FindingCode::PercentThread, place, message, remedy);
}

/// An internal thread.
#[derive(Clone, PartialEq, Debug)]
pub struct TappedThread {
    /// Its designation as given.
    pub designation: String,
    /// Its nominal diameter.
    pub nominal: Size,
    /// Its pitch.
    pub pitch: Size,
    /// Limits of its minor diameter, which is the hole before tapping.
    pub minor: Limits,
}

impl Decode for TappedThread {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<TappedThread> {
        let designation = decode_text(node, at, context)?;
        let fault = match Thread::parse_with_class(&shortened(designation))
            .map(|thread| (thread, thread.minor()))
        {
            // Internal threads alone have two limits of the minor diameter.
            Ok((thread, Some(minor))) => {
                let (nominal, pitch) = (thread.nominal(), thread.thread_pitch());
                return Some(TappedThread { designation: designation.into(), nominal, pitch, minor });
            }
            Ok(_) => format!("`{designation}` is an external thread; expected an internal one, e.g. `M6-6H`"),
            Err(error) => error.to_string(),
        };
        context.fault(FaultKind::Unreadable, at, || fault);
        None
    }
}

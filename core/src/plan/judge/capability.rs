//! Whether the capabilities that the drawing asks for can be shown with the parts that are planned.
use crate::error::beside;
use crate::finding::FindingCode;
use crate::inspect::process::proof::capability_to_show;
use crate::plan::evaluation::{CHARACTERISTICS, Evaluation};
use crate::quantity::{Count, Quantity, Ratio};

/// A sample that needs so many times the Cpk that it is to show is too small for the job.
const MAX_MARGIN: f64 = 1.5;
/// The confidence with which a Cpk is to be shown.
const CONFIDENCE: f64 = 0.95;

impl Evaluation<'_> {
    pub(super) fn judge_capability(&mut self) {
        for (index, c) in self.characteristics.iter().enumerate() {
            let Some(demanded) = c.capability.map(|cpk| cpk.value()) else { continue };
            let place = CHARACTERISTICS.index(index);
            let mut find = |code, message: String, remedy: &'static str| {
                self.find(code, place.field("capability"), message, remedy);
            };
            if c.gauge.is_some() {
                let message =
                    format!("number {} is proved by gauges, which do not show a Cpk of {demanded}", c.number);
                find(FindingCode::GaugedCapability, message, "measure a sample of parts as well");
            }
            let parts = self.quantity;
            let needed = capability_to_show(
                Ratio::new(demanded),
                Count::new(f64::from(parts)),
                Ratio::new(CONFIDENCE),
            );
            let needed = needed.map(|cpk| cpk.metric()).unwrap_or(f64::INFINITY);
            if needed <= MAX_MARGIN * demanded {
                continue;
            }
            let all = if parts == 1 { "one part".into() } else { format!("{parts} parts") };
            let message = match needed.is_finite() {
                true => format!(
                    "the {all} planned must have a Cpk of {} to show the {demanded} that number {} asks for",
                    beside(needed, demanded),
                    c.number
                ),
                false => format!(
                    "the {all} planned cannot show the Cpk of {demanded} that number {} asks for",
                    c.number
                ),
            };
            let remedy = "take readings of earlier batches too, or agree on another proof";
            self.find(FindingCode::TooFewForCapability, place.field("capability"), message, remedy);
        }
    }
}

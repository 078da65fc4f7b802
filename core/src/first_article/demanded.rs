//! Whether the pieces of a first article show the capabilities that the plan demands.
use super::verdict::is_maximum;
use super::{CharacteristicVerdict, FirstArticle};
use crate::error::beside;
use crate::finding::{Finding, FindingCode, Severity, Weighed};
use crate::inspect::capability::{CapabilityLimits, CapabilityOptions, SigmaRule, capability};
use crate::inspect::process::proof::{capability_shown, readings_to_show_capability};
use crate::quantity::{Count, Quantity, Ratio};
use crate::size::Size;
use std::borrow::Cow;

/// The confidence with which a Cpk is shown, on one side.
const CONFIDENCE: f64 = 0.95;

/// What is found of a characteristic.
type Found = (Severity, String, Cow<'static, str>);

impl FirstArticle {
    pub(super) fn capabilities_not_shown(&self) -> Vec<Finding> {
        let of_characteristics = self.verdicts.chunks(self.pieces.max(1) as usize).enumerate();
        let found = of_characteristics.filter_map(|(index, lines)| {
            let (severity, message, remedy) = self.not_shown(lines)?;
            let place = format!("/characteristics/{index}/capability");
            Some(Weighed::from((FindingCode::CapabilityNotShown, severity)).found(place, message, remedy))
        });
        found.collect()
    }

    /// Of the pieces of one characteristic: nothing where they show what is demanded.
    fn not_shown(&self, lines: &[CharacteristicVerdict]) -> Option<Found> {
        let first = lines.first()?;
        let (demanded, number) = (first.capability?, first.number);
        let bare = |size: Size| size.to_float(self.units);
        let readings: Vec<f64> = lines.iter().filter_map(|line| line.measured.map(bare)).collect();
        if readings.len() < 2 {
            let measured = if readings.is_empty() { "no piece has" } else { "only one piece has" };
            let message =
                format!("No. {number}: a Cpk of {demanded} is demanded, and {measured} a measured size");
            return Some((Severity::Note, message, "measure a sample of pieces".into()));
        }
        let lower = (!is_maximum(&first.limits)).then(|| bare(first.limits.lower()));
        let limits = CapabilityLimits { lower, upper: Some(bare(first.limits.upper())) };
        let options =
            CapabilityOptions { sigma: Some(SigmaRule::Overall), ..CapabilityOptions::new(self.units) };
        let made = match capability(&readings, limits, &options) {
            Ok(made) => made,
            Err(error) => {
                let message = format!("No. {number}: a Cpk of {demanded} is demanded: {error}");
                return Some((Severity::Warning, message, "measure with a finer resolution".into()));
            }
        };
        not_shown_by(number, demanded, made.cpk, made.count)
    }
}

fn not_shown_by(number: u32, demanded: f64, cpk: f64, count: usize) -> Option<Found> {
    let [observed, required, confidence] = [cpk, demanded, CONFIDENCE].map(Ratio::new);
    let shown = capability_shown(observed, Count::new(count as f64), confidence).ok()?.metric();
    if shown >= demanded {
        return None;
    }
    let message = format!(
        "No. {number}: {count} pieces have a Cpk of {} and show {} with 95 percent confidence; {demanded} is demanded",
        beside(cpk, demanded),
        beside(shown, demanded)
    );
    let even = Ratio::new(0.5);
    Some(match readings_to_show_capability(observed, required, confidence, even) {
        Ok(enough) if cpk > demanded => {
            let remedy =
                format!("measure {} pieces, which show it if they come out the same", enough.metric());
            (Severity::Warning, message, remedy.into())
        }
        _ => (Severity::Error, message, "bring the mean to the middle, or reduce the spread".into()),
    })
}

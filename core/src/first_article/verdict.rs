//! A line of a first article: what the drawing asks for, what was measured, and what that means.
use super::reading::{GaugeResult, MeasuredValue, PieceReading};
use crate::inspect::decision::{Decision, Verdict};
use crate::limits::Limits;
use crate::plan::Characteristic;
use crate::quantity::Units;
use crate::size::Size;
use std::fmt;
use tenths_macros::Object;

/// A characteristic of a piece with its reading and the verdict on it; without a reading a line of the form to fill in.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct CharacteristicVerdict {
    /// Its number on the drawing.
    pub number: u32,
    /// What it is.
    pub name: String,
    /// The piece, from 1.
    pub piece: u32,
    /// Its limits, plating included.
    pub limits: Limits,
    /// How it is to be inspected.
    pub inspection: String,
    /// The form of gauge that it is to be proved with.
    pub gauge: Option<String>,
    /// The size as measured.
    pub measured: Option<Size>,
    /// What a pair of gauges did: `go entered, no-go refused`.
    pub gauged: Option<String>,
    /// What it was measured with.
    pub measured_with: Option<String>,
    /// The verdict; absent where there is no reading. Of gauges that were not both tried it is indeterminate, unless one
    /// rejects.
    pub verdict: Option<Verdict>,
    /// The measured size less the nominal size of the drawing, with its sign.
    pub deviation: Option<Size>,
    /// How far the measured size is beyond the nearer limit; zero within the limits.
    pub beyond: Option<Size>,
    /// The share of the tolerance that is used: the distance from the middle of the limits over half the tolerance, 0 in the
    /// middle, 1 at a limit and above 1 outside. Of a maximum alone the measured size over the maximum. Absent where the
    /// tolerance is zero.
    pub share: Option<f64>,
    /// Who measured.
    pub by: Option<String>,
    /// When it was measured.
    pub date: Option<String>,
    /// The least Cpk that the plan demands.
    #[pure]
    pub capability: Option<f64>,
}

impl CharacteristicVerdict {
    pub(super) fn new(
        c: &Characteristic,
        piece: u32,
        reading: Option<&PieceReading>,
        decision: &Decision,
    ) -> CharacteristicVerdict {
        let limits = *c.limits;
        let mut line = CharacteristicVerdict {
            number: c.number,
            name: c.name.clone().unwrap_or_else(|| c.kind.name().replace('_', " ")),
            piece,
            limits,
            inspection: c.inspection.clone(),
            gauge: c.gauge.map(|gauge| gauge.name().into()),
            measured: None,
            gauged: None,
            measured_with: None,
            verdict: None,
            deviation: None,
            beyond: None,
            share: None,
            by: None,
            date: None,
            capability: c.capability.map(|cpk| cpk.value()),
        };
        let Some(reading) = reading else { return line };
        let text = |text: &Option<std::sync::Arc<str>>| text.as_deref().map(String::from);
        (line.measured_with, line.by, line.date) =
            (text(&reading.measured_with), text(&reading.by), text(&reading.date));
        match reading.value {
            MeasuredValue::Size(size) => {
                line.measured = Some(size);
                line.verdict = Some(decision.judge(size));
                line.deviation = size.checked_sub(limits.nominal());
                line.beyond = beyond(&limits, size);
                line.share = share(&limits, size);
            }
            MeasuredValue::Gauge(result) => {
                line.gauged = Some(result.to_string());
                line.verdict = Some(proved(result));
            }
        }
        line
    }

    /// What a reading looks like that is far off, if it looks like a slip.
    pub(super) fn slip(&self, units: Units) -> Option<String> {
        let (measured, nominal) = (self.measured?, self.limits.nominal());
        if self.limits.accepts(measured) {
            return None;
        }
        let of = format!("No. {}, piece {}: {}", self.number, self.piece, exact(measured, units));
        if !measured.is_positive() && self.limits.lower().is_positive() {
            return Some(format!("{of} is not a size of a part. Fix: check the reading"));
        }
        let ratio = measured.picometres() as f64 / nominal.picometres() as f64;
        let near = |factor: f64| (ratio / factor - 1.0).abs() < 0.02;
        let guess = match () {
            () if near(25.4) => "looks like millimetres read as inches",
            () if near(1.0 / 25.4) => "looks like inches read as millimetres",
            () if near(10.0) || near(0.1) => "looks like a slip of the decimal point",
            () => return None,
        };
        Some(format!("{of} {guess}: the nominal size is {}. Fix: check the reading", exact(nominal, units)))
    }
}

/// What gauges prove: that both did as they should, or that one did not.
fn proved(result: GaugeResult) -> Verdict {
    match (result.go_entered, result.no_go_entered) {
        (Some(false), _) | (_, Some(true)) => Verdict::NotConforming,
        (Some(true), Some(false)) => Verdict::Conforming,
        _ => Verdict::Indeterminate,
    }
}

/// Whether the limits are a maximum alone, of which zero is the best.
pub(super) fn is_maximum(limits: &Limits) -> bool {
    limits.lower() == Size::ZERO && limits.nominal() == limits.upper()
}

fn beyond(limits: &Limits, size: Size) -> Option<Size> {
    match size {
        size if size < limits.lower() => limits.lower().checked_sub(size),
        size if size > limits.upper() => size.checked_sub(limits.upper()),
        _ => Some(Size::ZERO),
    }
}

/// In whole picometres, doubled where the middle may lie between two.
fn share(limits: &Limits, size: Size) -> Option<f64> {
    let [lower, upper, size] =
        [limits.lower(), limits.upper(), size].map(|size| i128::from(size.picometres()));
    match (upper - lower, is_maximum(limits)) {
        (0, _) => None,
        (_, true) => Some(size as f64 / upper as f64),
        (tolerance, false) => Some((2 * size - lower - upper).abs() as f64 / tolerance as f64),
    }
}

/// A size as an exact decimal: in the units of the plan, or in millimetres where it has no end in inches.
pub(super) fn exact(size: Size, units: Units) -> String {
    size.format(units_for(size, units))
}

pub(super) fn units_for(size: Size, units: Units) -> Units {
    match units {
        Units::Inch if size != Size::ZERO && size.natural_units() == Units::Metric => Units::Metric,
        units => units,
    }
}

impl fmt::Display for CharacteristicVerdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let CharacteristicVerdict { number, name, piece, limits, .. } = self;
        write!(f, "No. {number}, {name}, piece {piece}: ")?;
        match (self.measured, &self.gauged, self.verdict) {
            (Some(size), _, Some(verdict)) => write!(f, "{size} is {} to {limits}", verdict.name()),
            (_, Some(gauged), Some(verdict)) => write!(f, "{gauged}, {} to {limits}", verdict.name()),
            _ => write!(f, "not measured, {limits}"),
        }
    }
}

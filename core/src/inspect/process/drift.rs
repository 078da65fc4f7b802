//! Drift of a process from readings in order: how fast a tool wears, and when it is to be set again.
use super::wear::whole_steps;
use crate::inspect::capability::{CapabilityError, CapabilityLimits, FAR_OFF};
use crate::inspect::gauge_study::{GaugeStudyError, Regression, regression};
use crate::quantity::Units;
use crate::statistics::{mean_and_deviation, t_above};
use std::fmt;
use tenths_macros::Object;

/// How a drift is wanted.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct DriftOptions {
    /// The unit system of readings and limits.
    pub units: Units,
    /// The Cpk that is to be kept between two settings of the tool.
    pub required_capability: f64,
    /// The confidence of the interval of the drift.
    pub confidence: f64,
}

impl DriftOptions {
    /// The defaults for readings in these units.
    pub fn new(units: Units) -> Self {
        Self { units, required_capability: 1.0, confidence: 0.95 }
    }
}

/// The drift of a characteristic from part to part, by a straight line through its readings, and what the limits leave it.
///
/// Lengths are in the unit of the readings.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct ToolDrift {
    /// The unit system of the readings: inches or millimetres.
    pub units: Units,
    /// The number of readings.
    pub count: usize,
    /// The lower limit; absent where there is none.
    pub lower_limit: Option<f64>,
    /// The upper limit; absent where there is none.
    pub upper_limit: Option<f64>,
    /// The Cpk that is to be kept.
    #[pure]
    pub required_capability: f64,
    /// By how much a part is larger than the one before it; negative where sizes fall.
    pub drift_per_part: f64,
    /// The confidence interval of the drift, from and to.
    pub drift_interval: Vec<f64>,
    /// The probability of so steep a line, either way, of a process that does not drift.
    #[pure]
    pub drift_p: f64,
    /// Where the line stands at the first reading.
    pub first: f64,
    /// Where the line stands at the last reading.
    pub last: f64,
    /// The standard deviation of the readings about the line.
    pub deviation: f64,
    /// Parts from one setting of the tool to the next, while the line runs from one side of the middle of the limits to the
    /// other; absent with one limit, without drift, and where the spread uses up the tolerance.
    pub parts_between_offsets: Option<u64>,
    /// The same with the steeper end of the interval of the drift: the safer figure.
    pub least_parts_between_offsets: Option<u64>,
    /// Where the first part after setting the tool is to lie; absent where `parts_between_offsets` is.
    pub aim: Option<f64>,
    /// What is to be added to the size when the tool is set after the last reading: `aim` less `last`.
    pub offset: Option<f64>,
    /// Parts after the last reading until the line is too close to the limit that it runs to; 0 where it is so already,
    /// absent where it runs to no limit.
    pub parts_left: Option<u64>,
    /// What to mind before the figures are used; empty if nothing.
    pub advice: &'static str,
}

/// Why there is no drift.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum DriftError {
    /// Readings or a confidence through which there is no line.
    #[error(transparent)]
    Line(#[from] GaugeStudyError),
    /// A reading that is missing or infinite.
    #[error(
        "reading {place} must be a finite number, not {value}. Fix: leave it out, and give the part numbers of the others"
    )]
    Reading {
        /// Its place, from 1.
        place: usize,
        /// The reading.
        value: f64,
    },
    /// Too few readings for a line.
    #[error("a drift needs {LEAST_READINGS} or more readings, not {count}")]
    TooFew {
        /// How many there are.
        count: usize,
    },
    /// Limits that go against each other, or none.
    #[error(transparent)]
    Limits(#[from] CapabilityError),
    /// Part numbers that do not rise, or are no numbers of parts.
    #[error(
        "part number {value} at reading {place} must be a whole number above that of the reading before it"
    )]
    Part {
        /// The place of the reading, from 1.
        place: usize,
        /// The part number as given.
        value: f64,
    },
    /// A capability that nothing can be held to.
    #[error("the required capability must be above 0 and finite, e.g. 1.33, not {value}")]
    Required {
        /// The capability as given.
        value: f64,
    },
}

/// The drift of readings from part to part.
///
/// `parts` are the numbers of the parts that were measured, in rising order, and `None` where every part was. The line is that of
/// least squares. It holds as far as wear is even: a new edge wears faster at first, and a worn one at the end. Readings from
/// before and after a setting of the tool do not go on one line.
///
/// # Errors
/// [`DriftError`]: three readings at least.
pub fn tool_drift(
    parts: Option<&[f64]>,
    readings: &[f64],
    limits: CapabilityLimits,
    options: &DriftOptions,
) -> Result<ToolDrift, DriftError> {
    limits.check()?;
    let required = options.required_capability;
    if !(required > 0.0 && required.is_finite()) {
        return Err(DriftError::Required { value: required });
    }
    if let Some(place) = readings.iter().position(|x| !x.is_finite()) {
        return Err(DriftError::Reading { place: place + 1, value: readings[place] });
    }
    let every: Vec<f64> = (1..=readings.len()).map(|part| part as f64).collect();
    let parts = parts.unwrap_or(&every);
    check_parts(parts)?;
    if readings.len() < LEAST_READINGS && readings.len() == parts.len() {
        return Err(DriftError::TooFew { count: readings.len() });
    }
    let line = regression(parts, readings, options.confidence)?;
    let [mean, deviation] = mean_and_deviation(readings);
    let mut made = drift_of(&line, parts, limits, options);
    if limits.are_far_from(mean, deviation) {
        made.advice = FAR_OFF;
    } else if jumps_back(parts, readings) {
        made.advice = JUMP;
    }
    Ok(made)
}

/// Whether one step from reading to reading goes against the drift of the others, and further than chance lets any step go:
/// such as where the tool was set.
fn jumps_back(parts: &[f64], readings: &[f64]) -> bool {
    // Fewer steps of a coarse instrument jump by themselves.
    const LEAST_STEPS: usize = 7;
    const CHANCE: f64 = 1e-3;
    let pairs = parts.windows(2).zip(readings.windows(2));
    let steps: Vec<[f64; 2]> =
        pairs.map(|(part, reading)| [part[1] - part[0], reading[1] - reading[0]]).collect();
    if steps.len() < LEAST_STEPS {
        return false;
    }
    let rate = |step: &[f64; 2]| step[1] / step[0];
    let by_rate = |one: &&[f64; 2], other: &&[f64; 2]| rate(one).total_cmp(&rate(other));
    let [over, rise] = steps.iter().fold([0.0; 2], |sums, step| [sums[0] + step[0], sums[1] + step[1]]);
    let others = steps.len() as f64 - 1.0;
    steps.iter().min_by(by_rate).into_iter().chain(steps.iter().max_by(by_rate)).any(|jump| {
        let drift = (rise - jump[1]) / (over - jump[0]);
        let off = |step: &[f64; 2]| step[1] - drift * step[0];
        let squares: f64 =
            steps.iter().map(|step| off(step) * off(step)).sum::<f64>() - off(jump) * off(jump);
        let deviation = (squares.max(0.0) / (others - 1.0) * (1.0 + 1.0 / others)).sqrt();
        let t = off(jump).abs() / deviation;
        jump[1] * drift < 0.0 && (t.is_infinite() || t_above(t, others - 1.0) * (others + 1.0) < CHANCE)
    })
}

fn check_parts(parts: &[f64]) -> Result<(), DriftError> {
    let mut before = f64::NEG_INFINITY;
    for (place, &part) in (1..).zip(parts) {
        if !(part.is_finite() && part == part.floor() && part > before) {
            return Err(DriftError::Part { place, value: part });
        }
        before = part;
    }
    Ok(())
}

fn drift_of(line: &Regression, parts: &[f64], limits: CapabilityLimits, options: &DriftOptions) -> ToolDrift {
    let CapabilityLimits { lower, upper } = limits;
    let at = |part: Option<&f64>| part.map_or(f64::NAN, |part| line.intercept + line.slope * part);
    let (drift, last) = (line.slope, at(parts.last()));
    let margin = 3.0 * options.required_capability * line.residual_sd;
    let steepest = line.slope_interval.iter().fold(0.0, |most: f64, end| most.max(end.abs()));
    // What the line may travel between two settings of the tool.
    let travel = lower.zip(upper).map(|(lower, upper)| upper - lower - 2.0 * margin);
    let travel = travel.filter(|travel| *travel >= 0.0 && drift != 0.0);
    let middle = lower.zip(upper).map(|(lower, upper)| lower + 0.5 * (upper - lower));
    let aim = middle.zip(travel).map(|(middle, travel)| middle - (0.5 * travel).copysign(drift));
    let room = match drift {
        drift if drift > 0.0 => upper.map(|upper| upper - margin - last),
        drift if drift < 0.0 => lower.map(|lower| last - margin - lower),
        _ => None,
    };
    ToolDrift {
        units: options.units,
        count: line.count,
        lower_limit: lower,
        upper_limit: upper,
        required_capability: options.required_capability,
        drift_per_part: drift,
        drift_interval: line.slope_interval.clone(),
        drift_p: line.slope_p,
        first: at(parts.first()),
        last,
        deviation: line.residual_sd,
        parts_between_offsets: travel.map(|travel| steps(travel, drift).saturating_add(1)),
        least_parts_between_offsets: travel.map(|travel| steps(travel, steepest).saturating_add(1)),
        aim,
        offset: aim.map(|aim| aim - last),
        parts_left: room.map(|room| steps(room, drift)),
        advice: advice(line, travel.is_none() && middle.is_some() && drift != 0.0, options.confidence),
    }
}

/// Whole steps of `drift` that fit in `room`, 0 if it is negative. The cast saturates.
fn steps(room: f64, drift: f64) -> u64 {
    whole_steps(room / drift.abs()).max(0.0) as u64
}

fn advice(line: &Regression, used_up: bool, confidence: f64) -> &'static str {
    match () {
        () if used_up => USED_UP,
        () if line.slope_p > 1.0 - confidence => NOT_SHOWN,
        () if line.count < 10 => FEW,
        () => "",
    }
}

/// The fewest readings through which a line leaves a spread.
const LEAST_READINGS: usize = 3;

const JUMP: &str = "One reading jumps back against the drift: was the tool set there? A line through readings from before and after a \
                    setting is too flat: give those after it alone.";
const USED_UP: &str =
    "The spread about the line leaves no room for drift between the limits. Reduce the spread, or ask less.";
const NOT_SHOWN: &str = "The readings do not show that the process drifts: go by least_parts_between_offsets, or take \
                         more readings.";
const FEW: &str = "Fewer than 10 readings: go by least_parts_between_offsets, and measure on.";

impl fmt::Display for ToolDrift {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (unit, digits) = if self.units == Units::Inch { ("in", 7) } else { ("mm", 6) };
        write!(f, "drift {:+.digits$} {unit} a part from {} readings", self.drift_per_part, self.count)?;
        match self.parts_between_offsets {
            Some(parts) => write!(f, ", {parts} parts between offsets"),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(readings: &[f64], lower: Option<f64>, upper: Option<f64>) -> Result<ToolDrift, DriftError> {
        tool_drift(None, readings, CapabilityLimits { lower, upper }, &DriftOptions::new(Units::Metric))
    }

    // By hand: a line through all points leaves no spread, so that the whole tolerance is there to travel.
    #[test]
    fn a_line_without_spread_travels_over_the_whole_tolerance() {
        let made = of(&[10.0, 10.25, 10.5, 10.75], Some(9.0), Some(11.0)).unwrap();
        assert_eq!((made.drift_per_part, made.deviation, made.last), (0.25, 0.0, 10.75));
        assert_eq!((made.parts_between_offsets, made.parts_left), (Some(9), Some(1)));
        assert_eq!((made.aim, made.offset), (Some(9.0), Some(-1.75)));
        let falling = of(&[10.75, 10.5, 10.25, 10.0], Some(9.0), Some(11.0)).unwrap();
        assert_eq!((falling.aim, falling.parts_left), (Some(11.0), Some(4)));
        let one_limit = of(&[10.75, 10.5, 10.25, 10.0], None, Some(11.0)).unwrap();
        assert_eq!((one_limit.parts_left, one_limit.parts_between_offsets), (None, None));
    }

    #[test]
    fn every_fifth_part_drifts_a_fifth() {
        let limits = CapabilityLimits { lower: Some(9.0), upper: Some(11.0) };
        let options = DriftOptions::new(Units::Metric);
        let made = tool_drift(Some(&[1.0, 6.0, 11.0]), &[10.0, 10.25, 10.5], limits, &options).unwrap();
        assert!((made.drift_per_part - 0.05).abs() < 1e-15);
        assert_eq!(made.parts_left, Some(10));
    }

    #[test]
    fn a_process_that_stands_still_needs_no_offset() {
        let made = of(&[10.0; 12], Some(9.0), Some(11.0)).unwrap();
        assert_eq!((made.drift_p, made.parts_between_offsets, made.parts_left), (1.0, None, None));
        assert_eq!(made.advice, NOT_SHOWN);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let of = |readings: &[f64]| of(readings, Some(9.0), Some(11.0)).unwrap_err().to_string();
        assert_eq!(of(&[10.0, 10.1]), "a drift needs 3 or more readings, not 2");
        assert!(of(&[10.0, f64::NAN, 10.1]).starts_with("reading 2 must be a finite number, not NaN."));
        let limits = CapabilityLimits { lower: Some(9.0), upper: Some(11.0) };
        let options = DriftOptions::new(Units::Metric);
        for parts in [[1.0, 1.0, 2.0], [1.0, 0.0, 2.0], [1.0, 1.5, 2.0], [1.0, 2.0, f64::NAN]] {
            let made = tool_drift(Some(&parts), &[10.0, 10.1, 10.3], limits, &options);
            assert!(matches!(made, Err(DriftError::Part { .. })), "{parts:?}");
        }
        assert!(tool_drift(Some(&[1.0, 2.0]), &[10.0, 10.1, 10.3], limits, &options).is_err());
        let reversed = CapabilityLimits { lower: Some(11.0), upper: Some(9.0) };
        assert!(tool_drift(None, &[10.0, 10.1, 10.3], reversed, &options).is_err());
        for required_capability in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let options = DriftOptions { required_capability, ..options };
            assert!(tool_drift(None, &[10.0, 10.1, 10.3], limits, &options).is_err());
        }
    }

    /// Readings that drift by a thousandth a part, and vary by three ten-thousandths to both sides.
    fn run(parts: usize) -> Vec<f64> {
        let size = |k: usize| 9.95 + 0.001 * k as f64 + if k.is_multiple_of(2) { 3e-4 } else { -3e-4 };
        (0..parts).map(size).collect()
    }

    #[test]
    fn a_setting_of_the_tool_among_the_readings_is_noticed() {
        let advice = |readings: &[f64]| of(readings, Some(9.9), Some(10.1)).unwrap().advice;
        assert_eq!((advice(&run(30)), advice(&run(60))), ("", ""));
        assert_eq!(advice(&[run(30), run(30)].concat()), JUMP);
        assert_eq!(advice(&[run(30), run(20), run(25)].concat()), JUMP);
        let falling: Vec<f64> = [run(30), run(30)].concat().iter().map(|size| 20.0 - size).collect();
        assert_eq!(advice(&falling), JUMP);
        // A step of the resolution against the drift is no setting.
        let coarse = [10.0, 10.0, 10.01, 10.01, 10.0, 10.01, 10.02, 10.02, 10.01, 10.03, 10.03, 10.04];
        assert_eq!(advice(&coarse), "");
    }

    #[test]
    fn readings_in_inches_against_millimetres_are_noticed() {
        let inches: Vec<f64> = run(30).iter().map(|size| size / 25.4).collect();
        for (lower, upper) in [(Some(9.9), Some(10.1)), (None, Some(10.1)), (Some(9.9), None)] {
            assert_eq!(of(&inches, lower, upper).unwrap().advice, FAR_OFF);
            assert_eq!(of(&run(30), lower, upper).unwrap().advice, "");
        }
    }

    #[test]
    fn a_spread_that_uses_up_the_tolerance_is_told() {
        let made = of(&[10.0, 10.9, 9.9, 11.0, 10.2, 11.3], Some(9.9), Some(11.0)).unwrap();
        assert_eq!((made.parts_between_offsets, made.aim, made.advice), (None, None, USED_UP));
        assert_eq!(made.parts_left, Some(0));
    }
}

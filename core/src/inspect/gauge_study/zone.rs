//! Where a gauge that only accepts and refuses cannot decide: the zones about the limits in which its verdicts differ.
use super::error::GaugeStudyError;
use super::readings::check_finite;
use std::fmt;
use tenths_macros::{Object, function};

/// Where an attribute gauge cannot decide, from parts of known size.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary)]
pub struct AttributeZone {
    /// How many parts.
    pub parts: usize,
    /// How many of them were accepted by some ratings and refused by others.
    pub undecided: usize,
    /// The zone about the lower limit, from and to: below it every rating refused, above it every rating accepted. Empty
    /// where there is none.
    pub lower_zone: Vec<f64>,
    /// The zone about the upper limit, from and to: below it every rating accepted, above it every rating refused. Empty
    /// where there is none.
    pub upper_zone: Vec<f64>,
    /// The mean width of the zones, which estimates the spread of the gauge: six standard deviations of repeatability and
    /// reproducibility together.
    pub width: f64,
    /// The standard deviation of the gauge by that width: a sixth of it.
    pub sd: f64,
    /// Percent of the tolerance that the width takes; absent without both limits. 10 percent or less is good; over 30 is
    /// usually rejected.
    #[pure]
    pub percent_of_tolerance: Option<f64>,
}

/// Where an attribute gauge cannot decide: the zone about each limit in which ratings of one size differ.
///
/// The parts must lie close together about each limit, from some that every rating refuses to some that every rating
/// accepts. A zone reaches from the last part that all refuse to the first that all accept, so that parts that lie far
/// apart make it look wider than it is.
///
/// Source: AIAG, Measurement Systems Analysis, 4th ed., chapter III, the signal detection approach (from memory).
///
/// # Errors
/// [`GaugeStudyError`].
#[function(
    gives = "zone",
    example([9.88, 9.9, 9.91, 10, 10.09, 10.1, 10.12], [0, 0.5, 1, 1, 1, 0.25, 0], 9.9, 10.1)
)]
pub fn attribute_zone(
    /// The size of each part, measured by something much better than the gauge.
    #[pure]
    references: &[f64],
    /// The share of the ratings of each part that accept it, from 0 to 1: of all appraisers in all trials.
    #[pure]
    accepted: &[f64],
    /// The lower limit. Without either limit there is a zone wherever the outermost parts are refused.
    #[pure]
    lower: Option<f64>,
    /// The upper limit.
    #[pure]
    upper: Option<f64>,
) -> Result<AttributeZone, GaugeStudyError> {
    check(references, accepted, lower, upper)?;
    let mut parts: Vec<(f64, f64)> = references.iter().copied().zip(accepted.iter().copied()).collect();
    parts.sort_unstable_by(|one, other| one.0.total_cmp(&other.0));
    // Without limits there is a zone wherever the outermost part was refused.
    let refused = |part: Option<&(f64, f64)>| part.is_some_and(|(_, share)| *share == 0.0);
    let [has_lower, has_upper] = match (lower, upper) {
        (None, None) => [refused(parts.first()), refused(parts.last())],
        _ => [lower.is_some(), upper.is_some()],
    };
    let (below, above) = match (has_lower, has_upper) {
        (true, true) => {
            // A part in the middle serves both.
            let middle = middle(lower, upper, &parts);
            let to = parts.partition_point(|(size, _)| *size <= middle);
            let from = parts.partition_point(|(size, _)| *size < middle);
            (parts.split_at(to).0, parts.split_at(from).1)
        }
        (true, false) => (parts.as_slice(), [].as_slice()),
        (false, true) => ([].as_slice(), parts.as_slice()),
        (false, false) => return Err(GaugeStudyError::NoZone),
    };
    // The same search for both limits: from the refused side inwards.
    let lower_zone = has_lower.then(|| zone(below.iter(), "lower")).transpose()?;
    let upper_zone = has_upper.then(|| zone(above.iter().rev(), "upper")).transpose()?;
    let widths = lower_zone.iter().chain(&upper_zone).map(|[from, to]| (to - from).abs());
    let width = widths.clone().sum::<f64>() / widths.count() as f64;
    let tolerance = lower.zip(upper).map(|(lower, upper)| upper - lower);
    Ok(AttributeZone {
        parts: parts.len(),
        undecided: parts.iter().filter(|(_, share)| *share > 0.0 && *share < 1.0).count(),
        lower_zone: lower_zone.map_or(vec![], Vec::from),
        upper_zone: upper_zone.map_or(vec![], |[from, to]| vec![to, from]),
        width,
        sd: width / 6.0,
        percent_of_tolerance: tolerance.map(|tolerance| 100.0 * width / tolerance),
    })
}

/// What parts the two limits: the middle between them, or that of the parts that every rating accepts.
fn middle(lower: Option<f64>, upper: Option<f64>, parts: &[(f64, f64)]) -> f64 {
    let accepted = || parts.iter().filter(|(_, share)| *share == 1.0).map(|(size, _)| *size);
    let ends = lower.zip(upper).or_else(|| accepted().next().zip(accepted().next_back()));
    ends.map_or(f64::INFINITY, |(low, high)| low + 0.5 * (high - low))
}

/// From the last part of those that all refuse to the first of those that all accept, of parts from the refused side
/// inwards: the ends between which a part may be judged either way.
fn zone<'a>(
    parts: impl DoubleEndedIterator<Item = &'a (f64, f64)> + Clone,
    name: &'static str,
) -> Result<[f64; 2], GaugeStudyError> {
    if parts.clone().next().is_none() {
        return Err(GaugeStudyError::NoParts { name });
    }
    let refused = parts.clone().take_while(|(_, share)| *share == 0.0).last();
    let accepted = parts.rev().take_while(|(_, share)| *share == 1.0).last();
    let missing = |place, verdict, where_to| GaugeStudyError::Zone { name, place, verdict, where_to };
    let (from, _) = refused.ok_or(missing("outermost", "refused", "further outside"))?;
    let (to, _) = accepted.ok_or(missing("innermost", "accepted", "further inside"))?;
    Ok([*from, *to])
}

fn check(
    references: &[f64],
    accepted: &[f64],
    lower: Option<f64>,
    upper: Option<f64>,
) -> Result<(), GaugeStudyError> {
    check_finite("reference", references)?;
    if references.len() != accepted.len() {
        return Err(GaugeStudyError::Shares { references: references.len(), shares: accepted.len() });
    }
    if let Some(value) = accepted.iter().find(|share| !(0.0..=1.0).contains(*share)) {
        let need = "a share from 0 to 1 of the ratings of each part";
        return Err(GaugeStudyError::Option { name: "accepted", need, value: *value });
    }
    for (name, limit) in [("lower", lower), ("upper", upper)] {
        if let Some(value) = limit.filter(|limit| !limit.is_finite()) {
            return Err(GaugeStudyError::Option { name, need: "a finite number", value });
        }
    }
    match (lower, upper) {
        (Some(lower), Some(upper)) if lower >= upper => {
            Err(GaugeStudyError::Option { name: "lower", need: "below the upper limit", value: lower })
        }
        _ => Ok(()),
    }
}

impl fmt::Display for AttributeZone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "attribute gauge: cannot decide over {:.6}", self.width)?;
        match self.percent_of_tolerance {
            Some(percent) => write!(f, ", {percent:.1} % of the tolerance"),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_out_of_turn_widens_the_zone() {
        let sizes = [9.0, 9.1, 9.2, 9.3, 9.4, 9.5];
        let zone = |shares: [f64; 6]| attribute_zone(&sizes, &shares, Some(9.25), None).unwrap().lower_zone;
        assert_eq!(zone([0.0, 0.0, 0.5, 1.0, 1.0, 1.0]), [9.1, 9.3]);
        // All accept the part at 9.2, and some refuse that at 9.4.
        assert_eq!(zone([0.0, 0.0, 1.0, 1.0, 0.9, 1.0]), [9.1, 9.5]);
        assert_eq!(zone([0.0, 0.0, 0.0, 1.0, 1.0, 1.0]), [9.2, 9.3]);
    }

    #[test]
    fn the_two_limits_mirror_each_other() {
        let (sizes, shares) = ([-3.0, -2.0, -1.0, 0.0], [0.0, 0.3, 1.0, 1.0]);
        let lower = attribute_zone(&sizes, &shares, Some(-2.0), None).unwrap();
        let upper = attribute_zone(&sizes.map(|x| -x), &shares, None, Some(2.0)).unwrap();
        assert_eq!((lower.lower_zone, lower.width), (vec![-3.0, -1.0], 2.0));
        assert_eq!((&*upper.upper_zone, upper.width, upper.undecided), ([1.0, 3.0].as_slice(), 2.0, 1));
        assert_eq!(attribute_zone(&sizes.map(|x| -x), &shares, None, None).unwrap(), upper);
    }

    #[test]
    fn without_limits_the_accepted_parts_divide_the_two_zones() {
        let zone =
            attribute_zone(&[1.0, 2.0, 3.0, 4.0, 5.5], &[0.0, 0.2, 1.0, 1.0, 0.0], None, None).unwrap();
        assert_eq!((zone.lower_zone, zone.upper_zone), (vec![1.0, 3.0], vec![4.0, 5.5]));
        assert_eq!((zone.width, zone.percent_of_tolerance), (1.75, None));
    }

    #[test]
    fn what_shows_no_zone_is_refused() {
        let sizes = [9.8, 9.9, 10.0, 10.1, 10.2];
        for (shares, lower, upper, why) in [
            (
                [0.0, 0.5, 1.0, 0.5, 0.1],
                Some(9.9),
                Some(10.1),
                "about the upper limit the outermost part was not refused by every rating, so the zone has no end there. Fix: add parts further outside",
            ),
            (
                [0.0, 0.5, 0.9, 0.5, 0.0],
                Some(9.9),
                Some(10.1),
                "about the lower limit the innermost part was not accepted by every rating",
            ),
            // Others are accepted by all, but the one farthest inside is not.
            (
                [0.0, 0.5, 1.0, 1.0, 0.9],
                Some(9.9),
                None,
                "about the lower limit the innermost part was not accepted by every rating",
            ),
            (
                [0.0, 0.5, 1.0, 0.5, 0.0],
                Some(9.0),
                Some(9.4),
                "no part is near the lower limit, so its zone is not known. Fix: add parts on both sides of it",
            ),
            ([0.1, 0.5, 1.0, 0.5, 0.3], None, None, "no part at either end was refused by every rating"),
            (
                [0.0, 0.5, 1.0, 0.5, 0.0],
                Some(10.1),
                Some(9.9),
                "lower must be below the upper limit, not 10.1",
            ),
            ([0.0, 5.0, 1.0, 0.5, 0.0], Some(9.9), None, "accepted must be a share from 0 to 1"),
            ([0.0, f64::NAN, 1.0, 0.5, 0.0], Some(9.9), None, "accepted must be a share from 0 to 1"),
            ([0.0, 0.5, 1.0, 0.5, 0.0], Some(f64::NAN), None, "lower must be a finite number"),
        ] {
            let message = attribute_zone(&sizes, &shares, lower, upper).unwrap_err().to_string();
            assert!(message.contains(why), "{message}");
        }
    }
}

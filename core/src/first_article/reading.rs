//! What an inspector writes down: a size, or what a pair of gauges did.
use crate::error::excerpt;
use crate::quantity::Units;
use crate::size::{Size, SizeError};
use std::fmt;
use std::str::FromStr;
use std::sync::Arc;

/// What a pair of go and no-go gauges did at a feature.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub struct GaugeResult {
    /// Whether GO entered; none where it was not tried.
    pub go_entered: Option<bool>,
    /// Whether NO-GO entered; none where it was not tried.
    pub no_go_entered: Option<bool>,
}

/// One reading of a characteristic.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum MeasuredValue {
    /// A measured size.
    Size(Size),
    /// What a pair of gauges did.
    Gauge(GaugeResult),
}

/// A reading of one piece, with what it was taken with, by whom and when.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PieceReading {
    /// The piece, from 1.
    pub piece: u32,
    /// The reading.
    pub value: MeasuredValue,
    /// The instrument.
    pub measured_with: Option<Arc<str>>,
    /// Who measured.
    pub by: Option<Arc<str>>,
    /// When it was measured.
    pub date: Option<Arc<str>>,
}

/// Why a text is no reading.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PieceReadingError {
    /// Words that do not say what gauges did.
    #[error("`{text}` does not say what the gauges did; expected e.g. `go entered, no-go refused`")]
    Gauge {
        /// The text as given.
        text: String,
    },
    /// A feature that takes the NO-GO member takes the GO member too.
    #[error(
        "`{text}` is impossible: where NO-GO enters, GO enters too. Fix: check the gauges, or which one refused"
    )]
    Impossible {
        /// The text as given.
        text: String,
    },
    /// A word such as NaN.
    #[error("`{text}` is not a reading. Fix: leave it out where nothing was measured")]
    NotANumber {
        /// The text as given.
        text: String,
    },
    /// A size that cannot be read.
    #[error(transparent)]
    Size(#[from] SizeError),
}

impl GaugeResult {
    /// Reads `go entered, no-go refused`, or one of the two alone.
    ///
    /// # Errors
    /// [`PieceReadingError::Gauge`], and [`PieceReadingError::Impossible`] where GO refused and NO-GO entered.
    pub fn parse(text: &str) -> Result<GaugeResult, PieceReadingError> {
        let unreadable = || PieceReadingError::Gauge { text: excerpt(text) };
        let words = text.to_lowercase().replace("no-go", "nogo").replace("no go", "nogo");
        let mut read = GaugeResult::default();
        for part in words.split([',', ';']) {
            let (member, did) = part.trim().split_once(char::is_whitespace).ok_or_else(unreadable)?;
            let entered = match did.trim() {
                "entered" | "enters" => true,
                "refused" | "refuses" => false,
                _ => return Err(unreadable()),
            };
            let place = match member {
                "go" => &mut read.go_entered,
                "nogo" => &mut read.no_go_entered,
                _ => return Err(unreadable()),
            };
            if place.replace(entered).is_some() {
                return Err(unreadable());
            }
        }
        match read {
            GaugeResult { go_entered: Some(false), no_go_entered: Some(true) } => {
                Err(PieceReadingError::Impossible { text: excerpt(text) })
            }
            read => Ok(read),
        }
    }
}

impl fmt::Display for GaugeResult {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let did = |entered| if entered { "entered" } else { "refused" };
        match (self.go_entered, self.no_go_entered) {
            (Some(go), Some(no_go)) => write!(f, "go {}, no-go {}", did(go), did(no_go)),
            (Some(go), None) => write!(f, "go {}", did(go)),
            (None, Some(no_go)) => write!(f, "no-go {}", did(no_go)),
            (None, None) => Ok(()),
        }
    }
}

impl MeasuredValue {
    /// Reads a size with its unit, `12.005 mm`, or what gauges did, `go entered, no-go refused`.
    ///
    /// # Errors
    /// [`PieceReadingError`].
    pub fn parse(text: &str) -> Result<MeasuredValue, PieceReadingError> {
        MeasuredValue::parse_in(text, None)
    }

    /// Reads text as [`MeasuredValue::parse`] does; a bare number is in inches or millimetres as `units` says.
    ///
    /// A number with more digits than a picometre shows is rounded to one, as a float is.
    ///
    /// # Errors
    /// [`PieceReadingError`].
    pub fn parse_in(text: &str, units: Option<Units>) -> Result<MeasuredValue, PieceReadingError> {
        let text = text.trim();
        let starts = |words: &[&str]| {
            let head =
                |word: &&str| text.get(..word.len()).is_some_and(|head| head.eq_ignore_ascii_case(word));
            words.iter().any(head)
        };
        if starts(&["go", "no-go", "no go", "nogo"]) {
            return GaugeResult::parse(text).map(MeasuredValue::Gauge);
        }
        if starts(&["nan", "inf", "-inf", "+inf", "-nan", "none", "null", "n/a", "#"]) {
            return Err(PieceReadingError::NotANumber { text: excerpt(text) });
        }
        match Size::parse_in(text, units) {
            Err(SizeError::OffGrid { .. }) => Ok(MeasuredValue::Size(nearest(text, units)?)),
            read => Ok(MeasuredValue::Size(read?)),
        }
    }
}

/// A decimal between two picometres, rounded to the nearer one. A fraction such as 1/3 is refused.
fn nearest(text: &str, units: Option<Units>) -> Result<Size, SizeError> {
    let digits = text.trim_end_matches(|c: char| c.is_alphabetic() || c == '"' || c == '″').trim_end();
    let unit = text.get(digits.len()..).unwrap_or_default().trim();
    let own = match unit {
        "" => units,
        "mm" => Some(Units::Metric),
        "in" | "\"" | "″" => Some(Units::Inch),
        _ => None,
    };
    match (digits.parse::<f64>(), own) {
        (Ok(value), Some(units)) => Size::from_float(value, units),
        _ => Size::parse_in(text, units),
    }
}

impl FromStr for MeasuredValue {
    type Err = PieceReadingError;

    /// As [`MeasuredValue::parse`].
    fn from_str(text: &str) -> Result<MeasuredValue, PieceReadingError> {
        MeasuredValue::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gauges_are_read_in_words() {
        for (text, go, no_go) in [
            ("go entered, no-go refused", Some(true), Some(false)),
            ("GO enters; NO-GO enters", Some(true), Some(true)),
            (" No Go refused , GO refused", Some(false), Some(false)),
            ("nogo refused", None, Some(false)),
            ("go refused", Some(false), None),
        ] {
            let read = MeasuredValue::parse(text).unwrap();
            assert_eq!(
                read,
                MeasuredValue::Gauge(GaugeResult { go_entered: go, no_go_entered: no_go }),
                "{text}"
            );
            let MeasuredValue::Gauge(result) = read else { panic!("{text}") };
            assert_eq!(GaugeResult::parse(&result.to_string()), Ok(result));
        }
        for text in ["go", "go entered, go entered", "go passed", "go entered no-go refused", "no-go"] {
            assert!(matches!(MeasuredValue::parse(text), Err(PieceReadingError::Gauge { .. })), "{text}");
        }
        let refused = MeasuredValue::parse("go refused, no-go entered").unwrap_err();
        assert!(refused.to_string().contains("where NO-GO enters, GO enters too"), "{refused}");
    }

    #[test]
    fn a_reading_finer_than_a_picometre_is_rounded_to_one() {
        let size = |text: &str, units| match MeasuredValue::parse_in(text, units) {
            Ok(MeasuredValue::Size(size)) => size.picometres(),
            other => panic!("{text}: {other:?}"),
        };
        assert_eq!(size("12.0000000004 mm", None), 12_000_000_000);
        assert_eq!(size("12.0000000006", Some(Units::Metric)), 12_000_000_001);
        assert_eq!(size("0.12345678912 in", None), 3_135_802_444);
        assert_eq!(size("1/4 in", None), 6_350_000_000);
        for (text, why) in [
            ("1/3 in", "picometre"),
            ("12", "needs a unit"),
            ("NaN", "is not a reading"),
            ("#N/A", "is not a reading"),
        ] {
            let error = MeasuredValue::parse(text).unwrap_err().to_string();
            assert!(error.contains(why), "{text}: {error}");
        }
    }
}

//! Reads quantities out of text: a number and a unit.

use super::factor::converted;
use super::{Factor, Kind, Units};
use crate::error::excerpt;
use crate::number::exact;

/// Why text is no reading of a quantity.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
pub enum ReadingError {
    /// There is no number at the start, or one that is too large, if only in the unit of the other side.
    #[error("`{text}` does not begin with a finite number")]
    Number {
        /// The text as given.
        text: String,
    },
    /// A number without a unit.
    #[error("`{text}` needs a unit: {expected}")]
    NoUnit {
        /// The text as given.
        text: String,
        /// The units that this quantity is given in.
        expected: String,
    },
    /// A unit that is not one of this quantity.
    #[error("`{unit}` is not a unit of this quantity; expected {expected}")]
    Unit {
        /// The unit as given.
        unit: String,
        /// The units that this quantity is given in.
        expected: String,
    },
}

impl Kind {
    /// Reads text such as `200 ft/min` or `1 7/16 in` and gives the number in shop units of `units`.
    ///
    /// Text may be in the shop unit of either side or in one of [`others`](Kind::others). A reading in the unit of
    /// `units` comes through unchanged. Any other is converted by an exact factor and rounded once, so that `1.5 m` is
    /// 1500 mm, save one of more than some twenty digits.
    ///
    /// # Errors
    /// [`ReadingError`] where there is no number, no unit, or a unit of another quantity. Quantities without
    /// a unit (ratios, counts, money) take the bare number.
    pub fn read(&self, text: &str, units: Units) -> Result<f64, ReadingError> {
        let no_number = || ReadingError::Number { text: excerpt(text) };
        let trimmed = text.trim();
        let (value, rest) = leading(trimmed).filter(|(value, _)| value.is_finite()).ok_or_else(no_number)?;
        let label = rest.trim_start();
        let number = &trimmed[..trimmed.len() - rest.len()];
        if self.unit(units).is_written(label) {
            // A decimal is rounded already; a whole number and a fraction would be rounded apart.
            let fraction = if number.contains('/') { exact(number) } else { None };
            return Ok(fraction.and_then(|number| converted(number, Factor::ONE, [0, 0])).unwrap_or(value));
        }
        match self.factor(label, units) {
            Some(factor) => {
                let origin = self.shift(units);
                let exactly = exact(number);
                let value = exactly
                    .and_then(|number| converted(number, factor, origin))
                    .unwrap_or_else(|| (value + origin[0] as f64) * factor.nearest() + origin[1] as f64);
                // A number near the end of the range may have none on the other side.
                value.is_finite().then_some(value).ok_or_else(no_number)
            }
            None if label.is_empty() => {
                Err(ReadingError::NoUnit { text: excerpt(text), expected: one_of(&self.shop_labels()) })
            }
            None => Err(ReadingError::Unit { unit: excerpt(label), expected: self.labels() }),
        }
    }

    /// Whether text is in the shop unit of either side, and not in another unit.
    pub(crate) fn is_shop_unit(&self, label: &str) -> bool {
        self.units.iter().any(|unit| unit.is_written(label))
    }

    /// Every way in which text may write a unit, each once or, where both sides have it, twice.
    pub fn spellings(&self) -> impl Iterator<Item = &'static str> {
        let shop = self
            .units
            .iter()
            .flat_map(|unit| std::iter::once(unit.label).chain(unit.spellings.iter().copied()));
        let others = self.others.iter();
        shop.chain(others.flat_map(|unit| std::iter::once(unit.label).chain(unit.spellings.iter().copied())))
    }

    /// The units that text may be in, as a message lists them: `in, mm, ft, m or cm`.
    pub fn labels(&self) -> String {
        let mut labels = self.shop_labels();
        labels.extend(self.others.iter().map(|unit| unit.label));
        one_of(&labels)
    }

    fn shop_labels(&self) -> Vec<&'static str> {
        let mut labels =
            self.units.map(|unit| if unit.label.is_empty() { "a plain number" } else { unit.label }).to_vec();
        labels.dedup();
        labels
    }

    /// What a unit other than the shop unit of `units` is in it.
    fn factor(&self, label: &str, units: Units) -> Option<Factor> {
        if self.unit(units.other()).is_written(label) {
            return Some(match units {
                Units::Inch => self.across.inverse(),
                Units::Metric => self.across,
            });
        }
        self.others.iter().find(|unit| unit.is_written(label)).map(|unit| unit.to[units as usize])
    }

    /// What is added before and after the factor, where the scales have different zeros.
    fn shift(&self, units: Units) -> [i128; 2] {
        match units {
            Units::Inch => [0, self.origin as i128],
            Units::Metric => [-self.origin as i128, 0],
        }
    }
}

/// `in, mm or ft`.
fn one_of(labels: &[&str]) -> String {
    match labels.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => labels.concat(),
    }
}

/// The number at the start of a text, a decimal, `7/16` or `1 7/16`, and the rest of the text.
fn leading(text: &str) -> Option<(f64, &str)> {
    let (number, rest) = text.split_at(number_length(text));
    let value = number.parse::<f64>().ok()?;
    if !number.bytes().all(|b| b.is_ascii_digit()) {
        return Some((value, rest));
    }
    if let Some((under, rest)) = rest.strip_prefix('/').and_then(whole) {
        return Some((value / under, rest));
    }
    let fraction = rest.strip_prefix([' ', '-']).and_then(|part| {
        let (over, rest) = whole(part)?;
        let (under, rest) = whole(rest.strip_prefix('/')?)?;
        Some((value + over / under, rest))
    });
    Some(fraction.unwrap_or((value, rest)))
}

/// The digits at the start of a text, if there are any, and the rest of it.
fn whole(text: &str) -> Option<(f64, &str)> {
    let end = text.bytes().take_while(u8::is_ascii_digit).count();
    let (digits, rest) = text.split_at(end);
    Some((digits.parse().ok()?, rest))
}

/// How many bytes at the start of a text are a decimal number: one pass over any text.
pub(crate) fn number_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits = |from: usize| from + bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let sign = |from: usize| from + usize::from(matches!(bytes.get(from), Some(b'+' | b'-')));
    let mut end = digits(sign(0));
    if bytes.get(end) == Some(&b'.') {
        end = digits(end + 1);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let from = sign(end + 1);
        let exponent = digits(from);
        if exponent > from {
            end = exponent;
        }
    }
    end
}

#[cfg(test)]
mod tests {
    use crate::Quantity;
    use crate::quantity::*;

    #[test]
    fn text_is_a_number_and_a_unit() {
        let speed = |text: &str| SurfaceSpeed::KIND.read(text, Units::Inch);
        assert_eq!(speed(" 200 ft/min "), Ok(200.0));
        assert_eq!(speed("2e2ft/min"), Ok(200.0));
        assert_eq!(speed("-.5 sfm"), Ok(-0.5));
        // 1 m = 1 / 0.3048 ft.
        assert_eq!(speed("60.96 m/min"), Ok(200.0));
        assert_eq!(Temperature::KIND.read("100 °C", Units::Inch), Ok(212.0));
        assert_eq!(Count::KIND.read("4", Units::Metric), Ok(4.0));
    }

    #[test]
    fn fractions_are_read() {
        let length = |text: &str| Length::KIND.read(text, Units::Inch);
        for (text, value) in [("7/16 in", 0.4375), ("1 7/16 in", 1.4375), ("1-7/16\"", 1.4375)] {
            assert_eq!(length(text), Ok(value), "{text}");
        }
        // Units may begin with a number over a stroke, or follow one.
        assert_eq!(SpindleSpeed::KIND.read("500 1/min", Units::Inch), Ok(500.0));
        assert_eq!(ExpansionCoefficient::KIND.read("12e-6 1/K", Units::Metric), Ok(12e-6));
        for text in ["1/0 in", "1.5/2 in", "1 7/ in", "1 7 in", "1/-2 in", "1/2"] {
            assert!(length(text).is_err(), "{text}");
        }
    }

    #[test]
    fn other_text_is_refused_with_what_would_be_right() {
        let told = |text: &str| Length::KIND.read(text, Units::Inch).unwrap_err().to_string();
        assert_eq!(told("12"), "`12` needs a unit: in or mm");
        assert_eq!(
            told("12 N"),
            "`N` is not a unit of this quantity; expected in, mm, ft, thou, µin, m, cm or µm"
        );
        for text in ["", "in", ".", "-", "e5 in", "nan in", "inf mm", "1e400 in"] {
            assert_eq!(told(text), format!("`{text}` does not begin with a finite number"));
        }
        let told = |kind: &Kind, text: &str| kind.read(text, Units::Metric).unwrap_err().to_string();
        assert_eq!(
            told(SpindleSpeed::KIND, "50 Hz"),
            "`Hz` is not a unit of this quantity; expected rev/min or rev/s"
        );
        assert_eq!(
            told(Ratio::KIND, "5 mm"),
            "`mm` is not a unit of this quantity; expected a plain number or %"
        );
        assert_eq!(told(Count::KIND, "5 mm"), "`mm` is not a unit of this quantity; expected a plain number");
    }

    // A hertz counts turns, radians or strokes; ' is feet or minutes; a mil is a thousandth of an inch or a millimetre in
    // speech; tons, gallons and a pound of force have several sizes or names; letters of the wrong case mean other units.
    #[test]
    fn ambiguous_units_are_refused() {
        for (kind, units) in [
            (SpindleSpeed::KIND, &["Hz", "1/s", "s⁻¹", "rad/s", "mm/min"][..]),
            (Length::KIND, &["'", "′", "mil", "yd", "M", "MM", "Mm", "mm/rev"]),
            (Time::KIND, &["m", "'", "M", "\"", "d"]),
            (Angle::KIND, &["'", "\"", "′", "″", "min"]),
            (Force::KIND, &["lb", "kg", "ton", "K", "mN"]),
            (Mass::KIND, &["ton", "tons", "N", "lbf", "T"]),
            (Stress::KIND, &["mPa", "Mpa", "kg/mm²", "tsi"]),
            (Power::KIND, &["CV", "kw", "mW"]),
            (UnitPower::KIND, &["hp/in³/min", "kW/cm³/min"]),
            (Volume::KIND, &["gal", "ml", "oz"]),
            (Temperature::KIND, &["K", "°", "R"]),
            (Count::KIND, &["%", "pcs"]),
        ] {
            for unit in units {
                for side in Units::ALL {
                    assert!(kind.read(&format!("5 {unit}"), side).is_err(), "{unit} of {}", kind.name);
                }
            }
        }
    }

    #[test]
    fn no_spelling_means_two_units_of_one_kind() {
        for kind in KINDS {
            for spelling in kind.spellings() {
                let count = kind.spellings().filter(|other| *other == spelling).count();
                // The shop unit of both sides stands twice, and means the same.
                let is_shared = kind.units[0] == kind.units[1] && kind.is_shop_unit(spelling);
                assert_eq!(count, if is_shared { 2 } else { 1 }, "{spelling} of {}", kind.name);
                assert_eq!(spelling, spelling.trim(), "of {}", kind.name);
            }
            // Other units differ from the shop units and from each other.
            for (k, unit) in kind.others.iter().enumerate() {
                for other in &kind.others[..k] {
                    assert_ne!(unit.to, other.to, "{} and {} of {}", unit.label, other.label, kind.name);
                }
                assert!(unit.to.iter().all(|to| *to != Factor::ONE), "{} of {}", unit.label, kind.name);
            }
        }
    }

    #[test]
    fn both_ways_are_inverse() {
        for kind in KINDS.iter().filter(|kind| kind.origin == 0.0) {
            assert!(
                (kind.across.nearest() - kind.inch_size() * kind.units[0].scale / kind.units[1].scale).abs()
                    <= 1e-15 * kind.across.nearest(),
                "{}",
                kind.name
            );
            for unit in kind.others {
                assert_eq!(unit.to[0].times(kind.across), unit.to[1], "{}", unit.label);
            }
        }
    }

    #[test]
    fn a_number_too_large_for_the_other_side_is_refused() {
        assert_eq!(Length::KIND.read("1e308 in", Units::Inch), Ok(1e308));
        assert!(Length::KIND.read("1e308 in", Units::Metric).is_err());
    }

    #[test]
    fn long_text_takes_one_pass_and_a_short_message() {
        let text = "1".repeat(4_000_000);
        let error = Length::KIND.read(&text, Units::Inch).unwrap_err().to_string();
        assert!(error.len() < 300, "{} bytes", error.len());
        assert!(Length::KIND.read(&("5 ".to_string() + &text), Units::Inch).is_err());
    }
}

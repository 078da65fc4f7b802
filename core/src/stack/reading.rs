//! Inputs from text: limits of any quantity.
use super::{Distribution, Input, StackError};
use crate::error::excerpt;
use crate::quantity::{KINDS, Kind, Length, ReadingError, number_length};
use crate::{Limits, LimitsError, Quantity, Size, SizeError, Units};

impl Input {
    /// Reads a quantity with its tolerance and its unit, in the shop unit of `units`: `60 ±0.1 deg`, `60 +0.2/-0.1
    /// deg`, `59.9..60.1 deg`, or `60 deg` for one that does not vary. A length may be written as [`Limits::parse`] has
    /// it.
    ///
    /// # Errors
    /// [`StackError::Limits`] for a length, [`StackError::Reading`] with what is wrong otherwise.
    pub fn read(name: &str, text: &str, kind: &Kind, units: Units) -> Result<Input, StackError> {
        if kind == Length::KIND {
            return match Limits::parse(text) {
                Ok(limits) => Ok(Input::sized(name, &limits, units)),
                Err(error) => match Size::parse(text) {
                    Ok(size) => Ok(Input::fixed(name, size.to_float(units))),
                    Err(_) => Err(StackError::Limits { name: name.into(), error }),
                },
            };
        }
        let told = |error: &dyn std::fmt::Display| StackError::Reading {
            name: name.into(),
            fault: error.to_string(),
        };
        let Some(band) = band(text, kind, units) else {
            return kind.read(text, units).map(|value| Input::fixed(name, value)).map_err(
                |error| match error {
                    // A sign behind the number was meant for a tolerance.
                    ReadingError::Unit { unit, .. } if unit.starts_with(['+', '-', '±', '.']) => {
                        told(&no_band(text, kind, units))
                    }
                    error => told(&error),
                },
            );
        };
        let [nominal, lower, upper] = band.map_err(|error| told(&error))?;
        Ok(Input { name: name.into(), nominal, lower, upper, distribution: Distribution::NORMAL })
    }

    /// Reads text as [`Input::read`] does, where only its unit tells the quantity: a length if it can be one, then a
    /// quantity that has it as its shop unit, then any other. A unit that could mean two different numbers, as `°F` of
    /// a temperature and of a difference, is refused.
    ///
    /// # Errors
    /// As [`Input::read`], and [`StackError::Reading`] for text that could be limits of nothing.
    pub fn read_any(name: &str, text: &str, units: Units) -> Result<Input, StackError> {
        let error = match Input::read(name, text, Length::KIND, units) {
            Ok(length) => return Ok(length),
            Err(error) => error,
        };
        let unit = split(text).map_or_else(|| unit_of(text), |(_, unit)| Some(unit)).unwrap_or("");
        let (owners, others): (Vec<&Kind>, Vec<&Kind>) =
            KINDS.iter().filter(|kind| **kind != Length::KIND).partition(|kind| kind.is_shop_unit(unit));
        for kinds in [owners, others] {
            let mut readings = kinds.iter().filter_map(|kind| Input::read(name, text, kind, units).ok());
            let Some(first) = readings.next() else { continue };
            return match readings.find(|other| *other != first) {
                None => Ok(first),
                Some(_) => Err(StackError::Reading {
                    name: name.into(),
                    fault: format!(
                        "the unit of `{}` belongs to several quantities: give numbers",
                        excerpt(text)
                    ),
                }),
            };
        }
        match error {
            StackError::Limits {
                error:
                    LimitsError::Syntax { .. }
                    | LimitsError::Size(SizeError::Syntax { .. } | SizeError::UnknownUnit { .. }),
                ..
            } => Err(StackError::Reading {
                name: name.into(),
                fault: format!(
                    "`{}` is not a number with a known unit; expected e.g. `60 ±0.1 °`, `200 +10/-5 ft/min`, \
                     `1.415..1.425 in` or `25 H7`",
                    excerpt(text)
                ),
            }),
            error => Err(error),
        }
    }
}

/// Nominal value, lower and upper limit of a quantity other than a length as text, in its shop unit; `None` where the
/// text has no tolerance.
pub(crate) fn band(text: &str, kind: &Kind, units: Units) -> Option<Result<[f64; 3], ReadingError>> {
    let (numbers, unit) = split(text)?;
    // Each end is read as it stands, since a scale may have an origin of its own.
    let read = |number: f64| kind.read(&format!("{number} {unit}"), units);
    let all = || Ok([read(numbers[0])?, read(numbers[1])?, read(numbers[2])?]);
    Some(all())
}

/// What is said of text that should be a number with its tolerance.
pub(crate) fn no_band(text: &str, kind: &Kind, units: Units) -> String {
    let with_unit = |number: &str| format!("{number} {}", kind.unit(units).label).trim_end().to_owned();
    format!(
        "`{}` is not a number with its tolerance; expected e.g. `{}`, `{}` or `{}`",
        excerpt(text),
        with_unit("60 ±5"),
        with_unit("60 +5/-2"),
        with_unit("58..65")
    )
}

/// Nominal value, lower and upper limit of text with a tolerance, and its unit.
fn split(text: &str) -> Option<([f64; 3], &str)> {
    let text = text.trim();
    if let Some((lower, rest)) = text.split_once('…').or_else(|| text.split_once("..")) {
        let lower = lower.trim().parse::<f64>().ok()?;
        // Of three dots the last could be a decimal point, unless that would put the limits in the wrong order.
        let rest = match (rest.strip_prefix('.'), number(rest)) {
            (Some(_), Some((fraction, _))) if lower <= fraction => return None,
            (behind, _) => behind.unwrap_or(rest),
        };
        let (upper, unit) = number(rest).filter(|_| !rest.starts_with('.'))?;
        return Some(([lower + 0.5 * (upper - lower), lower, upper], unit));
    }
    if let Some((nominal, rest)) = text.split_once('±').or_else(|| text.split_once("+/-")) {
        let (nominal, (half, unit)) = (nominal.trim().parse::<f64>().ok()?, number(rest)?);
        return Some(([nominal, nominal - half, nominal + half], unit));
    }
    let (nominal, rest) = number(text)?;
    let (plus, rest) = rest.starts_with(['+', '-']).then(|| number(rest))??;
    let rest = rest.trim_start().strip_prefix('/').unwrap_or(rest);
    let (minus, unit) = number(rest)?;
    Some(([nominal, nominal + minus, nominal + plus], unit))
}

/// The decimal at the start of a text, and what follows it.
fn number(text: &str) -> Option<(f64, &str)> {
    let text = text.trim_start();
    let (number, rest) = text.split_at(number_length(text));
    let value = number.parse::<f64>().ok().filter(|value| value.is_finite())?;
    Some((value, rest.trim()))
}

/// What follows the number at the start of a text.
fn unit_of(text: &str) -> Option<&str> {
    number(text).map(|(_, unit)| unit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Angle, Temperature};

    fn band(text: &str, kind: &Kind, units: Units) -> [f64; 3] {
        let input = Input::read("x", text, kind, units).unwrap_or_else(|error| panic!("{error}"));
        [input.nominal, input.lower, input.upper]
    }

    // By hand; 68 °F is 20 °C, and 1.8 °F are 1 °C.
    #[test]
    fn limits_of_any_quantity_are_read() {
        for text in ["60 ±0.5 °", "60 +/-0.5 deg", "59.5..60.5 °", "60 +0.5/-0.5 °", "60 +0.5 -0.5 °"] {
            assert_eq!(band(text, Angle::KIND, Units::Metric), [60.0, 59.5, 60.5], "{text}");
        }
        for text in ["59.5...60.5 °", "59.5 ... 60.5 °", "59.5…60.5 °"] {
            assert_eq!(band(text, Angle::KIND, Units::Metric), [60.0, 59.5, 60.5], "{text}");
        }
        assert_eq!(band("59...61 °", Angle::KIND, Units::Metric), [60.0, 59.0, 61.0]);
        assert_eq!(band("60 °", Angle::KIND, Units::Metric), [60.0; 3]);
        assert_eq!(band("20 +2/-1 °C", Temperature::KIND, Units::Metric), [20.0, 19.0, 22.0]);
        assert_eq!(band("20 ±5 °C", Temperature::KIND, Units::Inch), [68.0, 59.0, 77.0]);
        assert_eq!(band("1 ±0.1 in", Length::KIND, Units::Metric), [25.4, 22.86, 27.94]);
        assert_eq!(band("25 H7", Length::KIND, Units::Metric), [25.0, 25.0, 25.021]);
        assert_eq!(band("1 in", Length::KIND, Units::Inch), [1.0; 3]);
    }

    #[test]
    fn a_unit_tells_the_quantity() {
        let read = |text| Input::read_any("x", text, Units::Metric);
        assert_eq!(read("60 ±0.5 °").unwrap().upper, 60.5);
        assert_eq!(read("25 H7").unwrap().upper, 25.021);
        assert_eq!(read("0.12").unwrap(), Input::fixed("x", 0.12));
        assert!(read("68 ±5 °F").is_err_and(|error| error.to_string().contains("several quantities")));
        // Feed rates may be in m/min as well, but are in mm/min; a modulus may be in MPa, but is in GPa.
        assert_eq!(read("120 ±5 m/min").unwrap().upper, 125.0);
        assert_eq!(read("300 ±5 MPa").unwrap().upper, 305.0);
        assert_eq!(read("2 ±0.5 kN").unwrap().upper, 2500.0);
        assert_eq!(read("2 ±0.5 s").unwrap().nominal, 2.0 / 60.0);
        assert!(read("2 m/s").is_err_and(|error| error.to_string().contains("several quantities")));
    }

    #[test]
    fn a_message_speaks_of_the_quantity() {
        let told = |text, kind| Input::read("x", text, kind, Units::Metric).unwrap_err().to_string();
        assert_eq!(
            told("60 +0.5 °", Angle::KIND),
            "x: `60 +0.5 °` is not a number with its tolerance; expected e.g. `60 ±5 °`, `60 +5/-2 °` or `58..65 °`"
        );
        assert!(told("60 ±0.5 mm", Angle::KIND).contains("expected °, arcmin"));
        for text in ["60 ±5 furlong", "five", "50 ±2 lm"] {
            let told = Input::read_any("x", text, Units::Metric).unwrap_err().to_string();
            assert!(told.contains("not a number with a known unit"), "{told}");
        }
        // A length was meant.
        let told = Input::read_any("x", "12 +0.1 mm", Units::Metric).unwrap_err().to_string();
        assert!(told.contains("has only one deviation"), "{told}");
    }

    #[test]
    fn long_text_takes_one_pass() {
        let text = "1".repeat(4_000_000);
        for text in [text.clone(), format!("5 ±{text}"), format!("{text} ° 5")] {
            assert!(Input::read("x", &text, Angle::KIND, Units::Metric).is_err());
        }
    }

    #[test]
    fn other_text_is_refused() {
        for text in [
            "",
            "60",
            "60 ±0.5",
            "60 ±0.5 mm",
            "±0.5 °",
            "60 ± °",
            "60 +0.5 °",
            "nan ±1 °",
            "0...6 °",
            "0....6 °",
            "0.. ....6 °",
            "60 ±inf °",
            "é ±é °",
        ] {
            assert!(Input::read("x", text, Angle::KIND, Units::Metric).is_err(), "{text}");
        }
        assert!(Input::read_any("x", "five", Units::Metric).is_err());
    }
}

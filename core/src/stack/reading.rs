//! Inputs from text: limits of any quantity.
use super::{Distribution, Input, StackError};
use crate::error::excerpt;
use crate::quantity::{Kind, Length, ReadingError};
use crate::{Limits, Quantity, Size, Units};

impl Input {
    /// Reads a quantity with its tolerance and its unit, in the shop unit of `units`: `60 ±0.1 deg`, `60 +0.2/-0.1
    /// deg`, `59.9..60.1 deg`, or `60 deg` for one that does not vary. A length may be written as [`Limits::parse`] has
    /// it.
    ///
    /// # Errors
    /// [`StackError::Limits`] for a length, [`StackError::Function`] with what is wrong otherwise.
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
        let told = |error: ReadingError| StackError::Function(format!("{}: {error}", excerpt(name)));
        let Some((numbers, unit)) = split(text) else {
            return kind.read(text, units).map(|value| Input::fixed(name, value)).map_err(told);
        };
        // Each end is read as it stands, since a scale may have an origin of its own.
        let read = |number: f64| kind.read(&format!("{number} {unit}"), units).map_err(told);
        let [nominal, lower, upper] = [read(numbers[0])?, read(numbers[1])?, read(numbers[2])?];
        Ok(Input { name: name.into(), nominal, lower, upper, distribution: Distribution::NORMAL })
    }

    /// Reads text as [`Input::read`] does, where only its unit tells the quantity: a length if it can be one. A unit
    /// that could mean two different numbers, as `°F` of a temperature and of a difference, is refused.
    ///
    /// # Errors
    /// As [`Input::read`].
    pub fn read_any(name: &str, text: &str, units: Units) -> Result<Input, StackError> {
        let length = Input::read(name, text, Length::KIND, units);
        if length.is_ok() {
            return length;
        }
        let mut others = crate::quantity::KINDS.iter().filter(|kind| **kind != Length::KIND);
        let mut readings = others.by_ref().filter_map(|kind| Input::read(name, text, kind, units).ok());
        let Some(first) = readings.next() else { return length };
        match readings.find(|other| *other != first) {
            None => Ok(first),
            Some(_) => Err(StackError::Function(format!(
                "{}: `{}` has a unit of several quantities: give numbers",
                excerpt(name),
                excerpt(text)
            ))),
        }
    }
}

/// Nominal value, lower and upper limit of text with a tolerance, and its unit.
fn split(text: &str) -> Option<([f64; 3], &str)> {
    let text = text.trim();
    if let Some((lower, rest)) = text.split_once("..") {
        let (lower, (upper, unit)) = (lower.trim().parse::<f64>().ok()?, number(rest)?);
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
    let is_end = |place: &usize| text.is_char_boundary(*place);
    let ends = (1..=text.len()).rev().filter(is_end);
    ends.filter_map(|end| Some((text[..end].parse::<f64>().ok()?, text[end..].trim())))
        .find(|(value, _)| value.is_finite())
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
            "60 ±inf °",
            "é ±é °",
        ] {
            assert!(Input::read("x", text, Angle::KIND, Units::Metric).is_err(), "{text}");
        }
        assert!(Input::read_any("x", "five", Units::Metric).is_err());
    }
}

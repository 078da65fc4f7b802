//! Lengths and angles of a vector loop as text.
use super::StackError;
use std::fmt;

/// A number in a loop: `offset + scale · name`, or the offset alone.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct LoopPart {
    pub(crate) offset: f64,
    pub(crate) scale: f64,
    pub(crate) name: Option<String>,
}

impl LoopPart {
    /// A name alone.
    pub(crate) fn named(name: &str) -> LoopPart {
        LoopPart { offset: 0.0, scale: 1.0, name: Some(name.into()) }
    }

    /// A number, a name, or a sum of the two, in any order; before a name may stand a factor.
    pub(crate) fn parse(text: &str) -> Result<LoopPart, StackError> {
        let fault = || StackError::LoopPart { text: text.into() };
        let (mut offset, mut named, mut has_number) = (0.0, None, false);
        let mut rest = text.trim();
        let mut is_first = true;
        while !rest.is_empty() || is_first {
            let (sign, after) = match rest.chars().next() {
                Some('+') => (1.0, &rest[1..]),
                Some('-') => (-1.0, &rest[1..]),
                Some(_) if is_first => (1.0, rest),
                _ => return Err(fault()),
            };
            let after = after.trim_start();
            let digits = after.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(after.len());
            let (number, after) = after.split_at(digits);
            let number = match number {
                "" => None,
                number => {
                    Some(number.parse().ok().filter(|number: &f64| number.is_finite()).ok_or_else(fault)?)
                }
            };
            // What looks like a power of ten is not taken for a factor of a name.
            if number.is_some() && is_power(after) {
                return Err(fault());
            }
            let after = after.trim_start().trim_start_matches(['*', '·']).trim_start();
            let letters = after.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(after.len());
            let (name, after) = after.split_at(letters);
            match (number, name) {
                (None, "") => return Err(fault()),
                (Some(number), "") if !has_number => (offset, has_number) = (sign * number, true),
                (factor, name) if named.is_none() && !name.is_empty() => {
                    named = Some((sign * factor.unwrap_or(1.0), name.to_owned()));
                }
                _ => return Err(fault()),
            }
            rest = after.trim_start();
            is_first = false;
        }
        let (scale, name) = match named {
            Some((scale, name)) => (scale, Some(name)),
            None => (0.0, None),
        };
        Ok(LoopPart { offset, scale, name })
    }
}

/// Whether the rest of a number goes on as `e-3` does.
fn is_power(rest: &str) -> bool {
    rest.strip_prefix(['e', 'E'])
        .is_some_and(|power| power.trim_start_matches(['+', '-']).starts_with(|c: char| c.is_ascii_digit()))
}

impl fmt::Display for LoopPart {
    /// As [`LoopPart::parse`] reads it, with the same numbers.
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let LoopPart { offset, scale, name } = self;
        let Some(name) = name else { return write!(f, "{offset}") };
        match (*offset == 0.0, *scale < 0.0) {
            (true, false) => {}
            (true, true) => write!(f, "-")?,
            (false, false) => write!(f, "{offset} + ")?,
            (false, true) => write!(f, "{offset} - ")?,
        }
        if scale.abs() != 1.0 {
            write!(f, "{} ", scale.abs())?;
        }
        write!(f, "{name}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(text: &str) -> (f64, f64, Option<String>) {
        let part = LoopPart::parse(text).unwrap();
        (part.offset, part.scale, part.name)
    }

    #[test]
    fn sums_of_a_number_and_a_name_are_read() {
        let phi = || Some("phi".to_owned());
        assert_eq!(part("90"), (90.0, 0.0, None));
        assert_eq!(part(" -7.5 "), (-7.5, 0.0, None));
        assert_eq!(part("phi"), (0.0, 1.0, phi()));
        assert_eq!(part("-phi"), (0.0, -1.0, phi()));
        assert_eq!(part("270 - phi"), (270.0, -1.0, phi()));
        assert_eq!(part("0.5phi+90"), (90.0, 0.5, phi()));
        assert_eq!(part("180 - 2 * phi"), (180.0, -2.0, phi()));
        assert_eq!(part("0.5 d_1"), (0.0, 0.5, Some("d_1".to_owned())));
        for text in
            ["", " ", "-", "a b", "a + b", "1 + 2", "a - ", "1..2", "a / 2", "2 - - a", "(a)", "1e-3", "2E5"]
        {
            assert!(LoopPart::parse(text).is_err(), "{text}");
        }
        assert!(LoopPart::parse(&"1".repeat(400)).is_err());
        assert_eq!(part("2 e5"), (0.0, 2.0, Some("e5".to_owned())));
    }

    #[test]
    fn parts_are_read_as_they_are_written() {
        for text in [
            "90",
            "-7.5",
            "phi",
            "-phi",
            "270 - phi",
            "0.00001 + 0.5 phi",
            "-1 - 0.1 e5",
            "0",
            "0 phi",
            "-0.5 phi",
        ] {
            assert_eq!(LoopPart::parse(text).unwrap().to_string(), text);
        }
        let tiny = LoopPart { offset: 1.7e308, scale: -5e-324, name: Some("e".into()) };
        assert_eq!(LoopPart::parse(&tiny.to_string()), Ok(tiny));
    }
}

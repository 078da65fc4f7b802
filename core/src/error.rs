//! Why a formula has no answer.
use std::borrow::Cow;

/// Why a formula has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// An argument lies outside its hard domain. `value` is in `unit`, and so is `need`.
    #[error("{formula}: {argument} must be {need}, not {}", WithUnit(*value, unit))]
    Argument {
        /// Name of the formula.
        formula: &'static str,
        /// Name of the argument.
        argument: &'static str,
        /// Its value.
        value: f64,
        /// The unit of the value.
        unit: &'static str,
        /// What it must be.
        need: String,
    },
    /// The arguments do not go together.
    #[error("{formula}: {rule} ({given})")]
    Rule {
        /// Name of the formula.
        formula: &'static str,
        /// What must hold.
        rule: &'static str,
        /// The arguments that the rule speaks of, with their values.
        given: String,
    },
    /// The arguments pass, and yet the result is too large to represent, or is not defined.
    #[error("{formula}: the result{} is too large to represent, or is not defined", named(formula, output))]
    NoAnswer {
        /// Name of the formula.
        formula: &'static str,
        /// Name of the output.
        output: &'static str,
    },
    /// A call by record with the wrong count of numbers.
    #[error("{formula} takes {expected} {what}, not {got}")]
    Count {
        /// Name of the formula.
        formula: &'static str,
        /// `arguments` or `results`.
        what: &'static str,
        /// How many it takes.
        expected: usize,
        /// How many were given.
        got: usize,
    },
    /// There is no solution for an argument, or none that could be trusted.
    #[error("{formula} cannot be solved for {argument}: {reason}")]
    Unsolvable {
        /// Name of the formula.
        formula: &'static str,
        /// The argument sought.
        argument: String,
        /// Why not.
        reason: String,
    },
    /// The work was stopped.
    #[error(transparent)]
    Stopped(#[from] crate::Stopped),
}

/// A number with its unit, for a message: to the last digit, so that no rounding hides why it was refused.
pub(crate) struct WithUnit(pub f64, pub &'static str);

impl std::fmt::Display for WithUnit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let WithUnit(value, unit) = *self;
        if value.is_nan() {
            return write!(f, "NaN");
        }
        match value.abs() {
            size if size != 0.0 && !(1e-6..1e15).contains(&size) => write!(f, "{value:e}")?,
            _ => write!(f, "{value}")?,
        }
        match unit {
            "" => Ok(()),
            "°" => write!(f, "°"),
            unit => write!(f, " {unit}"),
        }
    }
}

/// The nearest number of twelve significant digits, for a bound: one that was converted between the sides carries
/// digits that nobody wrote.
pub(crate) fn rounded(value: f64) -> f64 {
    to_digits(value, 12)
}

/// The nearest number of so many significant digits.
pub(crate) fn to_digits(value: f64, digits: usize) -> f64 {
    // A whole number of so many digits over a power of ten that is exact, where there is one, is quicker than text.
    let least = (1..digits).fold(1.0, |power, _| 10.0 * power);
    let mut scale = 1.0;
    while value.abs() * scale < least && scale < 1e22 {
        scale *= 10.0;
    }
    match value.abs() * scale {
        scaled if scaled >= least && scaled < 10.0 * least => (value * scale).round() / scale,
        _ => format!("{value:.*e}", digits - 1).parse().unwrap_or(value),
    }
}

/// A value for a message beside the limit that it was judged against: four digits, or as many more as leave the verdict.
pub(crate) fn beside(value: f64, limit: f64) -> f64 {
    let is_same = |shown: &f64| shown.partial_cmp(&limit) == value.partial_cmp(&limit);
    (4..=12).map(|digits| to_digits(value, digits)).find(is_same).unwrap_or(value)
}

/// A count of things, of which one goes without an s.
pub(crate) fn plural(count: u64, thing: &str) -> String {
    format!("{count} {thing}{}", if count == 1 { "" } else { "s" })
}

/// Which of several results.
fn named(formula: &str, output: &str) -> String {
    if formula == output { String::new() } else { format!(" `{output}`") }
}

/// Text for a message, cut to a length that a line can bear.
pub(crate) fn excerpt(text: &str) -> String {
    shortened(text).into_owned()
}

/// [`excerpt`] that leaves a short text where it is.
pub(crate) fn shortened(text: &str) -> Cow<'_, str> {
    const LONGEST: usize = 60;
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", &text[..end]).into(),
        None => text.into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn digits_are_those_of_the_text(fraction in 1.0..10.0f64, power in -30i32..30, digits in 1usize..13) {
            let value: f64 = format!("{fraction}e{power}").parse().unwrap();
            let text: f64 = format!("{value:.*e}", digits - 1).parse().unwrap();
            prop_assert_eq!(to_digits(value, digits), text);
            prop_assert_eq!(to_digits(-value, digits), -text);
        }
    }

    #[test]
    fn what_has_few_digits_stays() {
        for value in [0.0, 0.05, 2.5, 1e-300, 1e300, f64::INFINITY, 83.333] {
            assert_eq!(to_digits(value, 5), value);
        }
        assert_eq!((to_digits(83.3333333, 5), to_digits(99999.7, 5)), (83.333, 1e5));
    }

    #[test]
    fn rounding_never_hides_a_verdict() {
        assert_eq!(beside(18.849_555_921_538_76, 20.0), 18.85);
        assert_eq!(beside(60.000_000_000_000_01, 60.0), 60.000_000_000_000_01);
        assert_eq!(beside(59.99999, 60.0), 59.99999);
        assert_eq!(beside(60.0, 60.0), 60.0);
        assert_eq!((beside(1.23456, 1.23461), beside(1.23461, 1.23456)), (1.2346, 1.235));
        assert!(beside(f64::NAN, 1.0).is_nan());
    }
}

//! Why a formula has no answer.

/// Why a formula has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// An argument lies outside its hard domain. `value` is in `unit`, and so is `need`.
    #[error("{formula}: {argument} must be {need}, not {}", Reading(*value, unit))]
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
    /// The arguments pass, and yet the result is too large for a number, or there is none.
    #[error("{formula}: {output} has no finite value for these arguments")]
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
}

/// A number with its unit, for a message.
pub(crate) struct Reading(pub f64, pub &'static str);

impl std::fmt::Display for Reading {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Reading(value, unit) = *self;
        match value.abs() {
            // Bounds that were converted between the sides carry digits that nobody wrote.
            size if size != 0.0 && !(1e-6..1e15).contains(&size) => write!(f, "{value:e}")?,
            _ => write!(f, "{}", rounded(value))?,
        }
        match unit {
            "" => Ok(()),
            "°" => write!(f, "°"),
            unit => write!(f, " {unit}"),
        }
    }
}

/// The nearest number of twelve significant digits.
fn rounded(value: f64) -> f64 {
    format!("{value:.11e}").parse().unwrap_or(value)
}

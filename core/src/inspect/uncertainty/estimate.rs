//! What is known of one input: its value, its standard uncertainty, and the degrees of freedom of that.
use super::error::UncertaintyError;
use super::freedom::freedom_in_range;
use crate::object::{Restored, Told};
use crate::stack::{Distribution, Input};
use crate::statistics::mean_and_deviation;
use std::fmt;
use tenths_macros::{Object, function};

/// A value with its standard uncertainty, from readings (type A) or from a certificate or other knowledge (type B).
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(summary)]
pub struct Estimate {
    /// The best value.
    pub value: f64,
    /// Its standard uncertainty, in the unit of the value.
    pub standard_uncertainty: f64,
    /// The degrees of freedom of the uncertainty; infinite where it is taken as exactly known.
    pub degrees_of_freedom: f64,
}

impl Estimate {
    /// An estimate of these figures.
    ///
    /// # Errors
    /// [`UncertaintyError::Number`] for a value that is not finite, a negative uncertainty, and fewer degrees of freedom
    /// than one.
    pub fn new(
        value: f64,
        standard_uncertainty: f64,
        degrees_of_freedom: f64,
    ) -> Result<Estimate, UncertaintyError> {
        let refuse =
            |what: &str, need, value| Err(UncertaintyError::Number { what: what.into(), need, value });
        if !(-1e15..=1e15).contains(&value) {
            return refuse("a value", "finite, and at most 1e15 in size", value);
        }
        if !(0.0..=1e15).contains(&standard_uncertainty) {
            return refuse("a standard uncertainty", "zero or more, and at most 1e15", standard_uncertainty);
        }
        freedom_in_range("degrees of freedom", degrees_of_freedom)?;
        Ok(Estimate { value, standard_uncertainty, degrees_of_freedom })
    }

    /// The mean of repeated readings: its standard uncertainty is their standard deviation over the root of their count,
    /// with one degree of freedom less than readings. Readings that are all alike give zero: add the resolution of the
    /// instrument as an input of its own.
    ///
    /// # Errors
    /// [`UncertaintyError::TooFew`] for fewer than two readings, [`UncertaintyError::Number`] for one that is not finite.
    pub fn of_readings(readings: &[f64]) -> Result<Estimate, UncertaintyError> {
        if readings.len() < 2 {
            return Err(UncertaintyError::TooFew { count: readings.len() });
        }
        if let Some(place) = readings.iter().position(|reading| !reading.is_finite()) {
            let what = format!("reading {}", place + 1);
            return Err(UncertaintyError::Number { what, need: "a finite number", value: readings[place] });
        }
        let count = readings.len() as f64;
        let [mean, deviation] = mean_and_deviation(readings);
        Estimate::new(mean, deviation / count.sqrt(), count - 1.0)
    }

    /// What a certificate says: a value, its expanded uncertainty and the coverage factor, with no degrees of freedom to
    /// count.
    ///
    /// # Errors
    /// [`UncertaintyError::Number`] for a coverage factor that is not from 1 to 10; and as [`Estimate::new`].
    pub fn of_certificate(
        value: f64,
        expanded: f64,
        coverage_factor: f64,
    ) -> Result<Estimate, UncertaintyError> {
        match (1.0..=10.0).contains(&coverage_factor) {
            true => Estimate::new(value, expanded / coverage_factor, f64::INFINITY),
            false => {
                let need = "from 1 to 10, e.g. 2 for about 95 percent";
                Err(UncertaintyError::Number {
                    what: "a coverage factor".into(),
                    need,
                    value: coverage_factor,
                })
            }
        }
    }

    /// The input of a model that this is.
    pub fn input(&self, name: impl Into<String>) -> Input {
        let distribution = Distribution::Process { mean: self.value, sigma: self.standard_uncertainty };
        Input::fixed(name, self.value).distribution(distribution)
    }
}

impl Restored for Estimate {
    fn restore(told: &Told) -> Option<Estimate> {
        let uncertainty = told.get("standard_uncertainty")?;
        Estimate::new(told.get("value")?, uncertainty, told.get("degrees_of_freedom")?).ok()
    }
}

impl fmt::Display for Estimate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "estimate {}, standard uncertainty {}", self.value, self.standard_uncertainty)?;
        match self.degrees_of_freedom.is_finite() {
            true => write!(f, ", {} degrees of freedom", self.degrees_of_freedom),
            false => Ok(()),
        }
    }
}

/// The mean of repeated readings, with their standard deviation over the root of their count, and one degree of freedom
/// less than readings.
///
/// # Errors
/// As [`Estimate::of_readings`].
#[function(c = "tenths_estimate_of_readings", gives = "estimate", only_c, example([10.001, 10.003, 9.998]))]
pub fn estimate_of_readings(
    /// The readings.
    #[pure]
    readings: &[f64],
) -> Result<Estimate, UncertaintyError> {
    Estimate::of_readings(readings)
}

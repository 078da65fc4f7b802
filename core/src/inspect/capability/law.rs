//! The laws by which Pp, Ppk and the expected ppm are calculated: tails, and the points of ISO 22514-2.
use super::kinds::{CapabilityError, CapabilityLaw};
use crate::math::{exp, ln, normal_cdf, normal_quantile, powf};
use crate::statistics::{exp_less_one, gamma_above, gamma_below, gamma_quantile, mean, mean_and_deviation};

/// A law with its parameters.
#[derive(Clone, Copy, Debug)]
pub(super) enum Fitted {
    /// Mean and deviation.
    Normal(f64, f64),
    /// Mean and deviation of the logarithms.
    Lognormal(f64, f64),
    /// Scale and shape.
    Weibull(f64, f64),
    /// Mean, deviation with the sign of the skewness, and shape of the gamma law.
    Pearson(f64, f64, f64),
}

/// The shares of a normal law below three deviations under its mean, below the mean, and below three above it.
const POINTS: [f64; 3] = [0.001_349_898_031_630_094_6, 0.5, 0.998_650_101_968_369_9];

/// These points of the standard normal law, which all columns of a table share.
pub(super) struct NormalPoints([f64; 3]);

impl NormalPoints {
    pub(super) fn new() -> Self {
        NormalPoints(POINTS.map(normal_quantile))
    }
}

impl Fitted {
    pub(super) fn of(
        law: CapabilityLaw,
        readings: &[f64],
        mean: f64,
        deviation: f64,
    ) -> Result<Self, CapabilityError> {
        if [CapabilityLaw::Lognormal, CapabilityLaw::Weibull].contains(&law) {
            let least = readings.iter().fold(f64::INFINITY, |least, x| least.min(*x));
            if least <= 0.0 {
                return Err(CapabilityError::NotPositive { law, least });
            }
        }
        Ok(match law {
            CapabilityLaw::Normal => Fitted::Normal(mean, deviation),
            CapabilityLaw::Lognormal => {
                let logarithms: Vec<f64> = readings.iter().map(|x| ln(*x)).collect();
                let [mean, deviation] = mean_and_deviation(&logarithms);
                Fitted::Lognormal(mean, deviation)
            }
            CapabilityLaw::Weibull => weibull(readings),
            CapabilityLaw::Pearson => pearson(readings, mean, deviation)?,
        })
    }

    /// The shares below one point and above another.
    pub(super) fn tails(&self, lower: Option<f64>, upper: Option<f64>) -> [f64; 2] {
        [lower.map_or(0.0, |x| self.tail(x, false)), upper.map_or(0.0, |x| self.tail(x, true))]
    }

    fn tail(&self, x: f64, above: bool) -> f64 {
        let sign = if above { -1.0 } else { 1.0 };
        match *self {
            Fitted::Normal(mean, deviation) => normal_cdf(sign * (x - mean) / deviation),
            Fitted::Lognormal(..) | Fitted::Weibull(..) if x <= 0.0 => f64::from(u8::from(above)),
            Fitted::Lognormal(mean, deviation) => normal_cdf(sign * (ln(x) - mean) / deviation),
            Fitted::Weibull(scale, shape) => {
                let power = powf(x / scale, shape);
                if above { exp(-power) } else { -exp_less_one(-power) }
            }
            Fitted::Pearson(mean, deviation, shape) => {
                let at = shape + (x - mean) / deviation * shape.sqrt();
                let at = if at > 0.0 { at } else { 0.0 };
                if above == (deviation > 0.0) { gamma_above(shape, at) } else { gamma_below(shape, at) }
            }
        }
    }

    /// The points that stand for the mean and three deviations to both sides of it.
    pub(super) fn points(&self, normal: &NormalPoints) -> [f64; 3] {
        [0, 1, 2].map(|k| (POINTS[k], normal.0[k])).map(|(p, z)| match *self {
            Fitted::Normal(mean, deviation) => mean + deviation * z,
            Fitted::Lognormal(mean, deviation) => exp(mean + deviation * z),
            Fitted::Weibull(scale, shape) => scale * powf(-ln(1.0 - p), 1.0 / shape),
            Fitted::Pearson(mean, deviation, shape) => {
                let p = if deviation > 0.0 { p } else { 1.0 - p };
                mean + deviation * (gamma_quantile(shape, p) - shape) / shape.sqrt()
            }
        })
    }
}

/// The scale and the shape of greatest likelihood. The shape is where 1 / shape + the mean logarithm is the mean logarithm
/// weighted by the powers of the readings, which rises with the shape.
fn weibull(readings: &[f64]) -> Fitted {
    let largest = readings.iter().fold(0.0, |largest, x| if *x > largest { *x } else { largest });
    // Of shares of the largest reading, so that no power is too large.
    let logarithms: Vec<f64> = readings.iter().map(|x| ln(x / largest)).collect();
    let centre = mean(&logarithms);
    let off = |shape: f64| {
        let (mut powers, mut weighted) = (0.0, 0.0);
        for logarithm in &logarithms {
            let power = exp(shape * logarithm);
            powers += power;
            weighted += power * logarithm;
        }
        weighted / powers - centre - 1.0 / shape
    };
    let (mut low, mut high) = (1e-6_f64, 1e9_f64);
    for _ in 0..100 {
        let middle = (low * high).sqrt();
        if off(middle) < 0.0 { low = middle } else { high = middle }
    }
    let shape = (low * high).sqrt();
    let powers: Vec<f64> = logarithms.iter().map(|logarithm| exp(shape * logarithm)).collect();
    Fitted::Weibull(largest * powf(mean(&powers), 1.0 / shape), shape)
}

/// By the skewness of the readings. With a very small one the gamma law is the normal law; with a very strong one its points
/// are beyond what is computed.
fn pearson(readings: &[f64], mean: f64, deviation: f64) -> Result<Fitted, CapabilityError> {
    if readings.len() < 3 {
        return Err(CapabilityError::NoSkewness { count: readings.len() });
    }
    let count = readings.len() as f64;
    let cube = |z: f64| z * z * z;
    let cubes: f64 = readings.iter().map(|x| cube((x - mean) / deviation)).sum();
    // Adjusted for the count of readings.
    let skewness = cubes * count / ((count - 1.0) * (count - 2.0));
    match 4.0 / (skewness * skewness) {
        shape if shape >= 1e8 => Ok(Fitted::Normal(mean, deviation)),
        shape if shape >= 1e-3 => Ok(Fitted::Pearson(mean, deviation.copysign(skewness), shape)),
        _ => Err(CapabilityError::TooSkewed { skewness }),
    }
}

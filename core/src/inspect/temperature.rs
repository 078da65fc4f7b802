//! Sizes at 20 °C, the reference temperature of ISO 1.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// A length brought to 20 °C.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct LengthAt20 {
    /// The length of the part at 20 °C.
    pub length: Length,
    /// What was added to the reading.
    pub correction: Length,
}

/// Length of a part at 20 °C from a reading at other temperatures of part and scale.
///
/// Length = reading · (1 + scale_expansion · (scale_temperature - 20 °C)) / (1 + part_expansion ·
/// (part_temperature - 20 °C)). The scale is right at 20 °C. With a scale at 20 °C, as by default, or one that does not
/// expand, only the part is brought back.
///
/// Part and scale are each evenly warm. A part fresh from the machine is not.
#[formula(
    source = "ISO 1:2022 for the reference temperature; linear expansion, common practice",
    constant(reference: Temperature = Temperature::celsius(20.0)),
    rule(1.0 + part_expansion * (part_temperature - reference) > 0.0, "part_expansion and part_temperature must not shrink the part to nothing"),
    rule(1.0 + scale_expansion * (scale_temperature - reference) > 0.0, "scale_expansion and scale_temperature must not shrink the scale to nothing")
)]
pub fn length_at_20(
    /// What the scale reads.
    #[positive]
    #[increasing(length)]
    reading: Length,
    /// Temperature of the part.
    #[above(Temperature::celsius(-273.15))]
    #[range(Temperature::celsius(-20.0), Temperature::celsius(120.0))]
    #[decreasing(length, correction)]
    part_temperature: Temperature,
    /// Coefficient of expansion of the part.
    #[non_negative]
    #[range(.., ExpansionCoefficient::per_kelvin(3e-5))]
    part_expansion: ExpansionCoefficient,
    /// Temperature of the scale.
    #[above(Temperature::celsius(-273.15))]
    #[range(Temperature::celsius(-20.0), Temperature::celsius(120.0))]
    #[default(Temperature::celsius(20.0))]
    #[increasing(length, correction)]
    scale_temperature: Temperature,
    /// Coefficient of expansion of the scale.
    #[non_negative]
    #[range(.., ExpansionCoefficient::per_kelvin(3e-5))]
    #[default(ExpansionCoefficient::per_kelvin(1.15e-5))]
    scale_expansion: ExpansionCoefficient,
) -> LengthAt20 {
    let part = part_expansion * (part_temperature - reference);
    let scale = scale_expansion * (scale_temperature - reference);
    BareLengthAt20 {
        length: reading * ((1.0 + scale) / (1.0 + part)),
        correction: reading * ((scale - part) / (1.0 + part)),
    }
}

/// What temperature and expansion leave uncertain of a length at 20 °C.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct TemperatureUncertainty {
    /// Standard uncertainty of the length from both.
    pub uncertainty: Length,
    /// What the temperature contributes.
    pub from_temperature: Length,
    /// What the coefficient of expansion contributes.
    pub from_expansion: Length,
}

/// Standard uncertainty of a length at 20 °C from those of temperature and coefficient of expansion.
///
/// The contributions are length · expansion · temperature_uncertainty and length · |temperature - 20 °C| ·
/// expansion_uncertainty, and the whole is the root of the sum of their squares. For a comparison of part and scale,
/// give the differences of their temperatures and coefficients with the common figures of the other.
///
/// All are standard uncertainties: the half-width of a rectangular distribution over √3.
#[formula(
    source = "JCGM 100:2008, 5.1.2, applied to linear expansion as in its example H.1",
    constant(reference: Temperature = Temperature::celsius(20.0))
)]
pub fn temperature_uncertainty(
    /// The length.
    #[positive]
    #[increasing(uncertainty, from_temperature, from_expansion)]
    length: Length,
    /// Temperature of the part.
    #[above(Temperature::celsius(-273.15))]
    temperature: Temperature,
    /// Coefficient of expansion.
    #[non_negative]
    #[increasing(uncertainty, from_temperature)]
    expansion: ExpansionCoefficient,
    /// Standard uncertainty of the temperature.
    #[non_negative]
    #[increasing(uncertainty, from_temperature)]
    temperature_uncertainty: TemperatureDifference,
    /// Standard uncertainty of the coefficient.
    #[non_negative]
    #[increasing(uncertainty, from_expansion)]
    expansion_uncertainty: ExpansionCoefficient,
) -> TemperatureUncertainty {
    let from_temperature = expansion * temperature_uncertainty;
    let from_expansion = (temperature - reference).abs() * expansion_uncertainty;
    let whole = (from_temperature * from_temperature + from_expansion * from_expansion).sqrt();
    BareTemperatureUncertainty {
        uncertainty: length * whole,
        from_temperature: length * from_temperature,
        from_expansion: length * from_expansion,
    }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&LENGTH_AT_20, &TEMPERATURE_UNCERTAINTY];

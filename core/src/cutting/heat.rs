//! Heat of a cut: temperature at the edge, and how far the part grows. Estimates.
use crate::formula::Formula;
use crate::math::powf_quick;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// Temperature at the edge of a tool.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct EdgeTemperature {
    /// Mean rise of temperature where chip and tool touch.
    pub temperature_rise: TemperatureDifference,
    /// Mean temperature there.
    pub temperature: Temperature,
}

/// Estimate of the mean temperature at the edge after Cook: 0.4 · u / C · (V · t / a)^0.333.
///
/// With u the energy of the cut for unit volume, which is the specific cutting force, C the heat capacity of unit volume, V the
/// surface speed, t the chip's thickness before the cut and a the diffusivity of the work. Orthogonal cuts without coolant;
/// expect it within a fifth or so. The exponent is 0.333, as printed.
#[formula(
    source = "N. Cook, Tool wear and tool life, Trans. ASME, J. Eng. for Industry 95 (1973), as in M. P. Groover, Fundamentals of \
              Modern Manufacturing, cutting temperature (both from memory)",
    caution(hot_chips)
)]
pub fn edge_temperature(
    #[increasing(temperature_rise, temperature)] specific_cutting_force: Stress,
    #[increasing(temperature_rise, temperature)]
    #[positive]
    surface_speed: SurfaceSpeed,
    /// Thickness of the chip before the cut: feed per revolution in turning with an entering angle of 90°.
    #[positive]
    #[increasing(temperature_rise, temperature)]
    chip_thickness: Length,
    #[term(heat_capacity)]
    #[decreasing(temperature_rise, temperature)]
    heat_capacity: HeatCapacity,
    /// Thermal diffusivity of the work: about 13 mm²/s for plain steel, 4 for stainless steel, 60 to 90 for aluminium.
    #[positive]
    #[decreasing(temperature_rise, temperature)]
    diffusivity: Diffusivity,
    /// Temperature of the work before the cut.
    #[above(Temperature::celsius(-273.15))]
    #[default(Temperature::celsius(20.0))]
    #[increasing(temperature)]
    ambient_temperature: Temperature,
) -> EdgeTemperature {
    let temperature_rise = 0.4
        * (specific_cutting_force / heat_capacity)
        * powf_quick(surface_speed * chip_thickness / diffusivity, 0.333);
    BareEdgeTemperature { temperature_rise, temperature: ambient_temperature + temperature_rise }
}

/// How far a part grows by the heat of a cut.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct HeatGrowth {
    /// Mean rise of the part's temperature.
    pub temperature_rise: TemperatureDifference,
    /// How much the dimension grows; it is this much smaller when the part is cold again.
    pub growth: Length,
    /// Growth over the width of the tolerance.
    pub tolerance_share: Ratio,
}

/// Estimate of how far a part grows by the heat of a cut that stays in it.
///
/// Temperature rise is power · time · share / (C · volume), growth is expansion · dimension · rise. It is the upper bound of a
/// dry cut: nothing is lost to air, coolant, jaws and machine, and the heat is spread evenly. Just after a cut the skin is
/// hotter. About a tenth of the heat stays in the part in common turning and milling, more at low speed, half and more in
/// grinding and drilling; common practice, no source. Let the part cool before you measure it.
#[formula(
    source = "Energy kept in a body and linear expansion, elementary physics; the shares of heat are common practice, no source"
)]
pub fn heat_growth(
    #[positive]
    #[increasing(temperature_rise, growth, tolerance_share)]
    cutting_power: Power,
    /// Time in the cut.
    #[non_negative]
    #[increasing(temperature_rise, growth, tolerance_share)]
    cutting_time: Time,
    /// Volume of the part.
    #[positive]
    #[decreasing(temperature_rise, growth, tolerance_share)]
    part_volume: Volume,
    #[term(heat_capacity)]
    #[decreasing(temperature_rise, growth, tolerance_share)]
    heat_capacity: HeatCapacity,
    /// Coefficient of expansion of the part.
    #[non_negative]
    #[range(.., ExpansionCoefficient::per_kelvin(3e-5))]
    #[increasing(growth, tolerance_share)]
    expansion: ExpansionCoefficient,
    /// The dimension that is cut.
    #[positive]
    #[increasing(growth, tolerance_share)]
    dimension: Length,
    /// Width of its tolerance, from limit to limit.
    #[positive]
    #[decreasing(tolerance_share)]
    tolerance: Length,
    /// Share of the heat that stays in the part.
    #[positive]
    #[at_most(1.0)]
    #[default(0.1)]
    #[increasing(temperature_rise, growth, tolerance_share)]
    heat_share: Ratio,
) -> HeatGrowth {
    let temperature_rise = cutting_power * cutting_time * heat_share / (heat_capacity * part_volume);
    let growth = expansion * temperature_rise * dimension;
    BareHeatGrowth { temperature_rise, growth, tolerance_share: growth / tolerance }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&EDGE_TEMPERATURE, &HEAT_GROWTH];

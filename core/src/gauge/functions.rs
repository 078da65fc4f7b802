//! Gauges by the names of what is wanted, as C and Python ask for them.
use super::{GagemakerClass, Gauge, GaugeError, GaugeForm, GaugeOptions, GaugeScheme};
use crate::limits::Limits;
use crate::size::Size;
use tenths_macros::function;

/// A gauge of any form and scheme.
///
/// # Errors
/// As [`Gauge::new`].
#[function(gives = "gauge", only_c, example("plug", "25 +0.021/0 mm", "ISO 1938-1", null, null))]
pub fn gauge(
    /// The form: `plug`, `ring`, `snap`, `length` or `flush_pin`.
    #[text]
    form: GaugeForm,
    /// The limits of the part.
    part: Limits,
    /// The scheme: `B89.1.5`, `B89.1.6`, `10 percent` or `ISO 1938-1`.
    #[text]
    scheme: GaugeScheme,
    /// The allowance for wear, by which a new GO is moved in.
    wear: Option<Size>,
    /// The step that sizes are rounded to, so that no more parts pass; without it they are exact.
    resolution: Option<Size>,
) -> Result<Gauge, GaugeError> {
    Gauge::new(form, &part, &GaugeOptions { scheme, wear: wear.unwrap_or(Size::ZERO), resolution })
}

/// The limits of a master disc or plug of a size and a gagemaker class.
///
/// Half of the tolerance of the class is on each side. Source: ASME B89.1.5-1998.
///
/// # Errors
/// As [`GagemakerClass::master`].
#[function(c = "tenths_check_master", example("1 in", "X"))]
pub fn check_master(
    /// The size of the master.
    size: Size,
    /// The class: `XXX`, `XX`, `X`, `Y`, `Z` or `ZZ`.
    #[text]
    gagemaker_class: GagemakerClass,
) -> Result<Limits, GaugeError> {
    gagemaker_class.master(size)
}

//! Go and no-go gauges.
use crate::error::{unless_refused, value_error};
use crate::object::object;
use crate::size::{limits_of, size_of};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use tenths::{Gauge, GaugeForm, GaugeOptions, GaugeScheme, Limits, Size, Units};

/// A gauge of any form: what the functions named after them call.
fn gauge<'py>(
    py: Python<'py>,
    form: GaugeForm,
    part: &Bound<'py, PyAny>,
    scheme: &str,
    wear: Option<&Bound<'py, PyAny>>,
    resolution: Option<&Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyAny>> {
    let part = limits_of(part)?;
    let options = GaugeOptions {
        scheme: GaugeScheme::parse(scheme).map_err(value_error)?,
        wear: wear.map_or(Ok(Size::ZERO), |wear| wear_of(wear, &part))?,
        resolution: resolution.map(size_of).transpose()?,
    };
    object(py, &Gauge::new(form, &part, &options).map_err(value_error)?)
}

/// A wear allowance: a size, or a share of the part's tolerance.
fn wear_of(wear: &Bound<'_, PyAny>, part: &Limits) -> PyResult<Size> {
    match unless_refused(wear.py(), wear.extract::<f64>())? {
        Some(share) if (0.0..1.0).contains(&share) => {
            let wear = share * part.tolerance().to_float(Units::Metric);
            Size::from_float(wear, Units::Metric).map_err(value_error)
        }
        Some(share) => Err(value_error(format!("a wear allowance must be a share from 0 to 1, not {share}"))),
        None => size_of(wear).map_err(|error| match error.is_instance_of::<PyTypeError>(wear.py()) {
            true => PyTypeError::new_err("wear is a Size, text such as '2 um', or a share of the tolerance"),
            false => error,
        }),
    }
}

/// A function for each form of gauge.
macro_rules! makers {
    ($($(#[doc = $doc:literal])* $name:ident($part:ident) = $form:expr;)*) => {$(
        $(#[doc = $doc])*
        ///
        /// `scheme` is `B89.1.5` or `B89.1.6` (gagemaker classes by the ten percent rule; the figures are those for
        /// plugs), `10 percent` (five percent of the part's tolerance to each member) or `ISO 1938-1`. `wear` moves a
        /// new GO in, by a size or by a share of the part's tolerance; `resolution` rounds sizes so that no more parts
        /// pass.
        #[pyfunction]
        #[pyo3(signature = ($part, *, scheme="B89.1.5", wear=None, resolution=None))]
        pub fn $name<'py>(
            py: Python<'py>,
            $part: &Bound<'py, PyAny>,
            scheme: &str,
            wear: Option<&Bound<'py, PyAny>>,
            resolution: Option<&Bound<'py, PyAny>>,
        ) -> PyResult<Bound<'py, PyAny>> {
            gauge(py, $form, $part, scheme, wear, resolution)
        }
    )*};
}

makers! {
    /// A plug gauge for a hole: GO at the lower limit and up, NO-GO at the upper limit and down.
    plug_gauge(hole) = GaugeForm::Plug;
    /// A ring gauge for a shaft: GO at the upper limit and down, NO-GO at the lower limit and up.
    ring_gauge(shaft) = GaugeForm::Ring;
    /// A snap gauge for a shaft: GO at the upper limit and down, NO-GO at the lower limit and up.
    snap_gauge(shaft) = GaugeForm::Snap;
    /// A gap gauge for an outside length: GO at the upper limit and down, NO-GO at the lower limit and up.
    length_gauge(length) = GaugeForm::Length;
    /// A flush-pin gauge for a depth or a step: a land at each limit, and the step between them.
    flush_pin_gauge(depth) = GaugeForm::FlushPin;
}

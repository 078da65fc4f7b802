//! Control charts. Readings, counts and sizes come in as arrays.
use tenths::inspect::control_chart::{
    self, ChartKind, ChartOptions, ControlChart, ControlChartError, control_chart,
};
use tenths_macros::export;

/// A control chart: `tenths_make_control_chart("i_mr", readings, 20, NULL, 0, NULL, 0, NULL, &chart)`.
///
/// Kinds: `xbar_r`, `xbar_s`, `i_mr`, `p`, `np`, `c`, `u`, `ewma`, `cusum`. `sizes` are the readings of each subgroup, or
/// the pieces or units inspected in each sample; one size holds for all, and `sizes` may be null for single readings and
/// defects. `phases` numbers the phase of each point from 0, and `phases` may be null for one phase. `options` may be null
/// for the usual ones.
#[export(chart, data = count, sizes = size_count, phases = phase_count)]
pub(crate) fn make_control_chart(
    kind: &str,
    data: &[f64],
    sizes: Option<&[f64]>,
    phases: Option<&[usize]>,
    options: ChartOptions,
) -> Result<ControlChart, ControlChartError> {
    let options = ChartOptions { phases: phases.unwrap_or_default(), ..options };
    control_chart(ChartKind::parse(kind)?, data, sizes.unwrap_or_default(), &options)
}

/// The average number of points until one lies beyond the limits, from the start of a lasting shift:
/// `tenths_average_run_length("cusum", 1.0, 1, NULL, &run_length)`.
///
/// `kind` is `xbar_r`, `xbar_s`, `i_mr`, `ewma` or `cusum`; `shift` is in standard deviations of single readings, of which
/// each point is the mean of `size`. `options` may be null for the usual ones.
#[export(run_length)]
pub(crate) fn average_run_length(
    kind: &str,
    shift: f64,
    size: u32,
    options: ChartOptions,
) -> Result<f64, ControlChartError> {
    control_chart::average_run_length(ChartKind::parse(kind)?, shift, size as usize, &options)
}

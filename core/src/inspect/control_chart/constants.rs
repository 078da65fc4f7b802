//! The constants of control charts, for subgroups of any size.
use super::error::ControlChartError;
use super::printed::{PRINTED, SIZES};
use crate::statistics::{c4, d2, d3};
use tenths_macros::{Choice, Object, function};

/// The largest subgroup. Beyond it a range says little that the standard deviation does not.
const MAX_SIZE: usize = 10_000;

/// Where the constants of a chart come from.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum ConstantSource {
    /// Computed to all digits, for subgroups of any size.
    #[default]
    Exact,
    /// d2, d3, c4, A2, A3, B3, B4, D3 and D4 as tables print them, to three or four digits, for subgroups of 2 to 25. The
    /// others are computed from these, so the last digit may differ from a table.
    Printed,
}

/// The constants of control charts for one size of subgroup, with limits at three standard deviations.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
pub struct ChartConstants {
    /// Readings in a subgroup.
    pub n: usize,
    /// Mean range of a subgroup, in standard deviations of the process.
    pub d2: f64,
    /// Standard deviation of the range, in standard deviations of the process.
    pub d3: f64,
    /// Mean standard deviation of a subgroup, in standard deviations of the process.
    pub c4: f64,
    /// A: limits of the mean from a known standard deviation: 3/√n.
    pub a: f64,
    /// A2: limits of the mean from the mean range: 3/(d2 √n).
    pub a2: f64,
    /// A3: limits of the mean from the mean standard deviation: 3/(c4 √n).
    pub a3: f64,
    /// B3: lower limit of the standard deviation from its mean.
    pub b3: f64,
    /// B4: upper limit of the standard deviation from its mean.
    pub b4: f64,
    /// B5: lower limit of the standard deviation from that of the process.
    pub b5: f64,
    /// B6: upper limit of the standard deviation from that of the process.
    pub b6: f64,
    /// D1: lower limit of the range from the standard deviation of the process.
    pub d1_limit: f64,
    /// D2: upper limit of the range from the standard deviation of the process.
    pub d2_limit: f64,
    /// D3: lower limit of the range from its mean.
    pub d3_limit: f64,
    /// D4: upper limit of the range from its mean.
    pub d4_limit: f64,
    /// E2: limits of single readings from the mean range: 3/d2.
    pub e2: f64,
}

impl ChartConstants {
    /// The constants for subgroups of `n` readings.
    ///
    /// Source: exact ones by integration of the range of normal readings; printed ones from the usual table, or computed from
    /// its d2, d3 and c4.
    ///
    /// # Errors
    /// [`ControlChartError::Constants`] where there are none for that size.
    pub fn new(n: usize, source: ConstantSource) -> Result<ChartConstants, ControlChartError> {
        let [least, most] = match source {
            ConstantSource::Exact => [2, MAX_SIZE],
            ConstantSource::Printed => SIZES,
        };
        if !(least..=most).contains(&n) {
            return Err(ControlChartError::Constants { n, least, most });
        }
        if let (ConstantSource::Printed, Some(row)) = (source, PRINTED.get(n - least)) {
            let &[d2, d3, c4, a2, a3, b3, b4, d3_limit, d4_limit] = row;
            let known = ChartConstants::of(n, d2, d3, c4);
            return Ok(ChartConstants { a2, a3, b3, b4, d3_limit, d4_limit, ..known });
        }
        // At most MAX_SIZE, checked above.
        let count = n as u32;
        Ok(ChartConstants::of(n, d2(count), d3(count), c4(count)))
    }

    /// What follows from the mean and the spread of range and standard deviation.
    fn of(n: usize, d2: f64, d3: f64, c4: f64) -> ChartConstants {
        let root = (n as f64).sqrt();
        let spread = 3.0 * (1.0 - c4 * c4).max(0.0).sqrt();
        let floor = |limit: f64| limit.max(0.0);
        ChartConstants {
            n,
            d2,
            d3,
            c4,
            a: 3.0 / root,
            a2: 3.0 / (d2 * root),
            a3: 3.0 / (c4 * root),
            b3: floor(1.0 - spread / c4),
            b4: 1.0 + spread / c4,
            b5: floor(c4 - spread),
            b6: c4 + spread,
            d1_limit: floor(d2 - 3.0 * d3),
            d2_limit: d2 + 3.0 * d3,
            d3_limit: floor(1.0 - 3.0 * d3 / d2),
            d4_limit: 1.0 + 3.0 * d3 / d2,
            e2: 3.0 / d2,
        }
    }
}

/// The constants of control charts for subgroups of `n` readings.
///
/// # Errors
/// As [`ChartConstants::new`].
#[function(gives = "constants", example(5, "exact"))]
pub fn chart_constants(
    /// Readings of a subgroup.
    n: usize,
    /// `exact`, computed for 2 to 10 000 readings, or `printed`: d2, d3, c4, A2, A3, B3, B4, D3 and D4 as in the usual table
    /// for 2 to 25, and the others computed from these.
    #[text(choice)]
    #[default("exact")]
    source: ConstantSource,
) -> Result<ChartConstants, ControlChartError> {
    ChartConstants::new(n, source)
}

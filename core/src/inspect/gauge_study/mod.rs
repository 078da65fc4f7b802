//! Gauge studies: how much of what a gauge shows is the gauge, and how much the parts.
//!
//! Several appraisers measure the same parts several times. The analysis of variance splits what their readings differ
//! by into parts, appraisers, their interaction and repeatability; the older average and range method does so from
//! ranges.
//!
//! Source: AIAG, Measurement Systems Analysis, 4th ed., chapter III; R. K. Burdick, C. M. Borror and D. C. Montgomery,
//! Design and Analysis of Gauge R&R Studies, 2005, for the intervals.

mod agreement;
mod anova;
mod batch;
mod bias;
mod error;
mod intervals;
mod options;
mod ranges;
mod readings;
mod result;
mod study;
mod sums;
mod zone;

pub use agreement::{AppraiserScore, AttributeAgreement, Kappa, attribute_agreement};
pub use batch::{GaugeFigures, gauge_studies};
pub use bias::{
    GAUGE_BIAS, GAUGE_LINEARITY, GaugeBias, GaugeLinearity, GaugeStability, REGRESSION, Regression,
    gauge_bias, gauge_linearity, gauge_stability, regression,
};
pub use error::GaugeStudyError;
pub use options::{StudyMethod, StudyOptions};
pub use readings::StudyData;
pub use result::{GaugeStudy, VarianceComponent, VarianceRow, VarianceSource};
pub use study::gauge_study;
pub use zone::{ATTRIBUTE_ZONE, AttributeZone, attribute_zone};

#[cfg(test)]
mod tests;

#![doc = include_str!("tour.md")]
#![deny(unsafe_code)]
// The record that `#[formula]` writes names this crate by its public path.
extern crate self as tenths;

/// What the README shows in Rust.
#[cfg(doctest)]
#[doc = include_str!("../../README.md")]
struct Readme;

mod decimals;
pub mod document;
pub mod draft;
mod error;
pub mod finding;
pub mod formula;
pub mod gauge;
pub mod limits;
pub mod material;
pub mod math;
pub mod money;
mod nearest;
mod number;
pub mod object;
mod page;
mod parallel;
pub mod plan;
pub mod quantity;
pub mod registry;
mod simd;
pub mod size;
pub mod statistics;
pub mod watch;

pub mod cost;
pub mod cutting;
pub mod first_article;
pub mod fit;
pub mod general_tolerance;
pub mod inspect;
pub mod joint;
pub mod knurl;
pub mod position;
pub mod shape;
pub mod stack;
pub mod starting_values;
pub mod stock;
pub mod thread;
pub mod tolerance_chart;
pub mod workholding;

pub use document::DocumentError;
pub use error::Error;
pub use finding::{Finding, FindingCode, Severity};
pub use first_article::{
    CharacteristicVerdict, CsvError, CsvForm, FirstArticle, FirstArticleError, FirstArticleOptions,
    MeasuredValue, ReadingTable,
};
pub use fit::{
    Fit, FitBasis, FitChoice, FitError, FitKind, FitSelection, Member, Preference, ToleranceClass, Zone,
    fit_selection, iso_classes, iso_limits, iso_limits_rounded_js, select_fits,
};
pub use formula::{Formula, Outcome};
pub use gauge::{
    GagemakerClass, Gauge, GaugeBasis, GaugeError, GaugeForm, GaugeMember, GaugeOptions, GaugeScheme,
    flush_pin_gauge, length_gauge, plug_gauge, ring_gauge, snap_gauge,
};
pub use general_tolerance::{GeneralClass, GeneralFeature, GeneralTolerance, GeneralToleranceError};
pub use inspect::decision::{Decision, DecisionError, DecisionRule, Verdict};
pub use inspect::form::{FormCriterion, FormError, FormFeature, FormFit, HolePosition, hole_position};
pub use inspect::verdicts::DecisionReadings;
pub use knurl::{Knurl, KnurlError, KnurlPattern, KnurlTolerance};
pub use limits::{Limits, LimitsError, Readings};
pub use plan::{Plan, Sheet, SheetKind};
pub use position::check::{MaterialCondition, MeasuredFeature, PositionCheck, PositionError};
pub use quantity::{Quantity, Units, UnitsError};
pub use registry::{find, formulas};
pub use shape::standard_taper::{StandardTaper, TaperError, TaperFamily};
pub use size::{LengthUnit, Size, SizeError};
pub use tenths_macros::{Choice, Object, Options, Outcome, accessors, formula, function};
pub use thread::{Thread, ThreadError};
pub use tolerance_chart::{ChartError, ChartResult, ChartRow, OperationChart};
pub use watch::{Stopped, Watch};

//! The list of every object with a record.
use crate::object::{Object, ObjectRecord};

/// Every object of the library, in the order of the reference.
pub const fn objects() -> &'static [&'static ObjectRecord] {
    OBJECTS
}

const OBJECTS: &[&ObjectRecord] = &[
    crate::GaugeMember::RECORD,
    crate::Gauge::RECORD,
    crate::Decision::RECORD,
    crate::PositionCheck::RECORD,
    crate::inspect::capability::CapabilityInterval::RECORD,
    crate::inspect::capability::Capability::RECORD,
    crate::Finding::RECORD,
    crate::Knurl::RECORD,
    crate::KnurlTolerance::RECORD,
    crate::StandardTaper::RECORD,
    crate::Fit::RECORD,
    crate::FitChoice::RECORD,
    crate::Thread::RECORD,
    crate::ChartRow::RECORD,
    crate::ChartResult::RECORD,
    crate::stack::Band::RECORD,
    crate::stack::Statistics::RECORD,
    crate::stack::Spread::RECORD,
    crate::stack::SpreadWithin::RECORD,
    crate::stack::Contribution::RECORD,
    crate::stack::Fraction::RECORD,
    crate::stack::Allotted::RECORD,
    crate::inspect::control_chart::ChartConstants::RECORD,
    crate::inspect::control_chart::BrokenRule::RECORD,
    crate::inspect::control_chart::ControlPoint::RECORD,
    crate::inspect::control_chart::ControlSeries::RECORD,
    crate::inspect::control_chart::ChartPhase::RECORD,
    crate::inspect::control_chart::ControlChart::RECORD,
];

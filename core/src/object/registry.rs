//! The list of every object with a record.
use super::{Object, ObjectRecord};

/// Every object of the library, in the order of the reference.
pub const fn objects() -> &'static [&'static ObjectRecord] {
    OBJECTS
}

const OBJECTS: &[&ObjectRecord] = &[
    crate::GaugeMember::RECORD,
    crate::Gauge::RECORD,
    crate::Decision::RECORD,
    crate::PositionCheck::RECORD,
    crate::GeneralTolerance::RECORD,
    crate::CharacteristicVerdict::RECORD,
    crate::FirstArticle::RECORD,
    crate::inspect::form::FormFit::RECORD,
    crate::inspect::form::HolePosition::RECORD,
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
];

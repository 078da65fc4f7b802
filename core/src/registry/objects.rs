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
    crate::Finding::RECORD,
    crate::Knurl::RECORD,
    crate::KnurlTolerance::RECORD,
    crate::StandardTaper::RECORD,
    crate::Fit::RECORD,
    crate::FitChoice::RECORD,
    crate::Thread::RECORD,
    crate::stock::CutLength::RECORD,
    crate::stock::CuttingLayout::RECORD,
    crate::stock::CuttingPlan::RECORD,
    crate::ChartRow::RECORD,
    crate::ChartResult::RECORD,
    crate::stack::Band::RECORD,
    crate::stack::Statistics::RECORD,
    crate::stack::Spread::RECORD,
    crate::stack::SpreadWithin::RECORD,
    crate::stack::Contribution::RECORD,
    crate::stack::Fraction::RECORD,
    crate::stack::Allotted::RECORD,
    crate::stack::Allocation::RECORD,
    crate::stack::Extremes::RECORD,
    crate::stack::Moments::RECORD,
    crate::cutting::taylor_fit::TaylorFit::RECORD,
    crate::cutting::taylor_fit::PredictedLife::RECORD,
    crate::cutting::limit_to_machine::Bound::RECORD,
    crate::inspect::control_chart::ChartConstants::RECORD,
    crate::inspect::control_chart::BrokenRule::RECORD,
    crate::inspect::control_chart::ControlPoint::RECORD,
    crate::inspect::control_chart::ControlSeries::RECORD,
    crate::inspect::control_chart::ChartPhase::RECORD,
    crate::inspect::control_chart::ControlChart::RECORD,
    crate::inspect::sampling::SamplingStage::RECORD,
    crate::inspect::sampling::SamplingPlan::RECORD,
    crate::inspect::sampling::PlanPerformance::RECORD,
    crate::inspect::sampling::Switching::RECORD,
    crate::inspect::sampling::VariablesPlan::RECORD,
    crate::inspect::uncertainty::Estimate::RECORD,
    crate::inspect::uncertainty::UncertaintyRow::RECORD,
    crate::inspect::uncertainty::MonteCarlo::RECORD,
    crate::inspect::uncertainty::UncertaintyBudget::RECORD,
];

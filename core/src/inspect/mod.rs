//! Inspection: what a reading near a limit means, and what it means at 20 °C.
pub mod capability;
pub mod control_chart;
pub mod decision;
pub mod form;
pub mod gauge_study;
pub mod process;
pub mod risk;
pub mod sampling;
pub mod temperature;
pub mod uncertainty;
pub mod verdicts;

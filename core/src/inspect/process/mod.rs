//! Decisions about a process: how much to measure, when to stop, and when to set a tool again.
pub mod drift;
pub mod pre_control;
pub mod proof;
pub mod wear;

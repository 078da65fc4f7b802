//! The mechanics of pressed and shrunk joints: what they hold and bear, assembly, and service in heat and at speed.
pub mod assembled;
pub mod cylinder;
pub mod press_fit;
pub mod press_joint;
pub mod service;
pub mod shrink;

//! The record of a formula, and the two ways to run any formula from it: a checked scalar call and a strided
//! batch.
//!
//! A formula adds its arithmetic alone; everything in this module is compiled once and serves them all.
mod answer;
mod batch;
mod call;
mod check;
mod code;
mod column;
mod domain;
mod prefetch;
mod record;
mod solve;
mod usual;
mod watched;

pub use batch::{Met, Row};
pub use call::Refusal;
pub use check::{Advice, Remark};
pub use code::{Body, Code, MAX_INPUTS, MAX_OUTPUTS};
pub use column::{Column, ColumnMut};
pub use domain::{Domain, Side, StatedRange};
pub use record::*;
pub use usual::Usual;

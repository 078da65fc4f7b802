//! The record of an object: what it is made of, told once for every interface.
//!
//! A fit, a gauge or the result of a stack is a struct under `#[derive(Object)]`. From its fields, their types and
//! their documentation come the C struct, the Python class, its stub and its page in the reference. An object that
//! works out some of what it has does so by methods under `#[accessors]`.
//!
//! A function that makes an object has a record too, under `#[function]`, and what it is asked for beside its data: a
//! struct under `#[derive(Options)]`.

mod by_name;
mod function;
mod kinds;
mod options;
mod record;
#[cfg(test)]
mod tests;
mod unknown;

pub use by_name::ByName;
pub use function::{Function, FunctionArgument, FunctionRecord};
pub use kinds::{Choice, FieldValue, Readable};
pub use options::{OptionError, Options, OptionsRecord};
pub use record::*;
pub use unknown::UnknownName;

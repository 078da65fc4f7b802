//! The record of a function that makes an object: what it takes, what it gives, by what name.
use super::{Field, FieldKind, FieldValue, OptionError, Value};
use crate::nearest::nearest;

/// A function with a record, under `#[function]`, as every interface calls it.
pub struct Function<T: 'static, E: 'static> {
    /// What it is.
    pub record: FunctionRecord,
    /// Calls it with a value for each argument.
    #[doc(hidden)]
    pub body: Body<T, E>,
}

/// Reads a value for each argument, and calls the function.
#[doc(hidden)]
pub type Body<T, E> = fn(&[Value]) -> Result<Result<T, E>, OptionError>;

/// What a function is, as a record: name, meaning, arguments, result.
#[derive(Debug)]
pub struct FunctionRecord {
    /// The name, the same in Rust and Python.
    pub name: &'static str,
    /// The name of its export in C.
    pub c_name: &'static str,
    /// The module that it stands in.
    pub module: &'static str,
    /// What it gives, and what to know about it.
    pub doc: &'static str,
    /// What it takes, in order.
    pub arguments: &'static [FunctionArgument],
    /// What C calls the result.
    pub result_name: &'static str,
    /// What the result is.
    pub result: FieldKind,
    /// The arguments of a call that has an answer, as JSON has them.
    pub example: &'static str,
    /// Whether it is a function in Python too, and not the constructor of a class.
    pub in_python: bool,
    /// Its result for a value of each argument, where it has one.
    #[doc(hidden)]
    pub attempt: fn(&[Value]) -> Option<Value>,
}

/// An argument of a function.
#[derive(Debug)]
pub struct FunctionArgument {
    /// Its name, meaning and kind.
    pub field: Field,
    /// What it is where a caller does not say; in C every argument is given.
    pub default: Option<fn() -> Value>,
    /// The names that it may have, of a choice that comes as text.
    pub names: &'static [&'static str],
    /// How many bits C counts it in, of a whole number; 0 for those of a size.
    pub bits: u32,
    /// Whether Python takes it by name alone.
    pub by_name: bool,
}

impl<T: FieldValue, E> Function<T, E> {
    /// What it gives for these values, one for each argument; or what the function says against them.
    ///
    /// # Errors
    /// The first value that is not one of its argument.
    pub fn answer(&self, values: &[Value]) -> Result<Result<T, E>, OptionError> {
        (self.body)(values)
    }
}

impl FunctionRecord {
    /// The heading to find it under: the module as words.
    pub fn topic(&self) -> String {
        let inner = self.module.split_once("::").map_or(self.module, |(_, inner)| inner);
        let parts: Vec<_> = inner.split("::").take(2).map(|part| part.replace('_', " ")).collect();
        format!("Functions of {}", parts.join(": "))
    }

    /// The argument whose name is most like this one, if any is like it.
    pub fn nearest(&self, name: &str) -> Option<&'static str> {
        nearest(name, self.arguments.iter().map(|argument| argument.field.name))
    }
}

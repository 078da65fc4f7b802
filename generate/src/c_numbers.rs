//! Numbers and formulas as C checks name them.
use crate::parity::bits;

pub(crate) fn place(name: &str) -> Option<usize> {
    tenths::formulas().position(|formula| formula.name == name)
}

pub(crate) fn list(numbers: &[f64]) -> String {
    numbers.iter().map(|&x| format!("UINT64_C({})", bits(x))).collect::<Vec<_>>().join(", ")
}

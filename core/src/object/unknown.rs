//! Text that names none of a choice.
use super::kinds::Choice;
use crate::error::excerpt;
use crate::nearest::nearest;
use std::fmt;

/// Text that names none of a choice.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct UnknownName {
    /// What was wanted, with its article: `a rule for sigma`.
    pub what: &'static str,
    /// The text as given, shortened.
    pub text: String,
    /// The names that there are.
    pub names: &'static [&'static str],
}

impl UnknownName {
    /// The one of that name, spaces at its ends left out.
    ///
    /// # Errors
    /// [`UnknownName`].
    pub fn or_named<T: Choice>(what: &'static str, text: &str) -> Result<T, UnknownName> {
        T::of_name(text.trim()).ok_or_else(|| UnknownName { what, text: excerpt(text), names: T::NAMES })
    }
}

impl std::error::Error for UnknownName {}

impl fmt::Display for UnknownName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let UnknownName { what, text, names } = self;
        write!(f, "`{text}` is not {what}; expected ")?;
        match names {
            [rest @ .., last] if !rest.is_empty() => write!(f, "{} or {last}", rest.join(", "))?,
            names => write!(f, "{}", names.concat())?,
        }
        // Of short names any is near to any other.
        match nearest(text, names.iter().copied().filter(|name| name.len() > 3)) {
            Some(name) => write!(f, ". Is it `{name}`?"),
            None => Ok(()),
        }
    }
}

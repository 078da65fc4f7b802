//! What is wrong with a document, and where: all of it at once.
use crate::error::shortened;
use serde::Serialize;
use std::fmt::{self, Write};

/// The most faults of one document that are listed; the rest are counted.
pub const MAX_FAULTS: usize = 100;

/// The kinds of fault.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum FaultKind {
    /// The text is not JSON.
    Syntax,
    /// The document is beyond a stated limit, such as its length or its depth.
    TooLarge,
    /// A field that has to be there is not.
    Missing,
    /// A field, or a name in a choice, that is not known.
    Unknown,
    /// A field that stands twice in one object, or a number that is given to two characteristics.
    GivenTwice,
    /// Another type of value than the field takes.
    WrongType,
    /// Text that does not give the quantity: no number, no unit, or a unit of another quantity.
    Unreadable,
    /// A value outside what is possible.
    OutOfRange,
    /// Values that do not go together.
    Conflict,
    /// A characteristic, a joint or a material that is not there.
    NotThere,
    /// A formula has no answer for these values.
    NoAnswer,
}

/// One fault of a document, with its place.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Fault {
    /// What kind of fault it is.
    pub kind: FaultKind,
    /// Where it is: a JSON Pointer (RFC 6901), empty for the whole document.
    pub place: String,
    /// Line and column, counted from 1, of text that is not JSON.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line_and_column: Option<(usize, usize)>,
    /// What is wrong, and what would be right.
    pub message: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.line_and_column, &*self.place) {
            (Some((line, column)), _) => write!(f, "line {line}, column {column}: ")?,
            (None, "") => write!(f, "the document: ")?,
            (None, place) => write!(f, "{place}: ")?,
        }
        write!(f, "{}", self.message)
    }
}

/// Every fault of a document, in the order of its text as far as that can be told.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct DocumentError {
    faults: Vec<Fault>,
    count: usize,
}

impl DocumentError {
    /// The faults, [`MAX_FAULTS`] of them at most.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// How many faults there are, those that are not listed among them.
    pub fn count(&self) -> usize {
        self.count
    }
}

impl fmt::Display for DocumentError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.count {
            1 => write!(f, "the document has a fault")?,
            count => write!(f, "the document has {count} faults")?,
        }
        self.faults.iter().try_for_each(|fault| write!(f, "\n  {fault}"))?;
        match self.count - self.faults.len() {
            0 => Ok(()),
            more => write!(f, "\n  and {more} more"),
        }
    }
}

impl std::error::Error for DocumentError {}

/// Faults as they are found.
#[derive(Default)]
pub(crate) struct Faults {
    faults: Vec<Fault>,
    count: usize,
}

impl Faults {
    /// Notes a fault; its text is only made while it will be listed.
    #[cold]
    pub(crate) fn add(&mut self, kind: FaultKind, at: Place<'_>, message: impl FnOnce() -> String) {
        self.push(|| Fault { kind, place: at.pointer(), line_and_column: None, message: message() });
    }

    pub(crate) fn push(&mut self, fault: impl FnOnce() -> Fault) {
        self.count += 1;
        if self.faults.len() < MAX_FAULTS {
            self.faults.push(fault());
        }
    }

    pub(crate) fn count(&self) -> usize {
        self.count
    }

    /// Takes the value, or the faults in its place.
    pub(crate) fn keep<T>(&mut self, result: Result<T, DocumentError>) -> Option<T> {
        result.map_err(|error| error.faults.into_iter().for_each(|fault| self.push(|| fault))).ok()
    }
}

impl From<Faults> for DocumentError {
    fn from(Faults { faults, count }: Faults) -> DocumentError {
        DocumentError { faults, count }
    }
}

impl From<Fault> for DocumentError {
    fn from(fault: Fault) -> DocumentError {
        DocumentError { faults: vec![fault], count: 1 }
    }
}

/// A place in a document, as a chain of steps on the stack, so that only faults and findings cost text.
#[derive(Clone, Copy)]
pub(crate) struct Place<'p>(Option<(&'p Place<'p>, Step<'p>)>);

#[derive(Clone, Copy)]
enum Step<'p> {
    Field(&'p str),
    Index(usize),
}

impl<'p> Place<'p> {
    /// The whole document.
    pub(crate) const ROOT: Place<'static> = Place(None);

    pub(crate) const fn field(&'p self, name: &'p str) -> Place<'p> {
        Place(Some((self, Step::Field(name))))
    }

    pub(crate) const fn index(&'p self, index: usize) -> Place<'p> {
        Place(Some((self, Step::Index(index))))
    }

    /// The JSON Pointer, in which a name of inordinate length is cut.
    pub(crate) fn pointer(&self) -> String {
        // Most pointers are shorter.
        let mut pointer = String::with_capacity(40);
        self.write(&mut pointer);
        pointer
    }

    fn write(&self, pointer: &mut String) {
        let Some((parent, step)) = self.0 else { return };
        parent.write(pointer);
        pointer.push('/');
        match step {
            Step::Index(index) => {
                let _ = write!(pointer, "{index}");
            }
            Step::Field(name) => shortened(name).chars().for_each(|letter| match letter {
                '~' => pointer.push_str("~0"),
                '/' => pointer.push_str("~1"),
                _ => pointer.push(letter),
            }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // RFC 6901, section 3: `~` is written `~0` and `/` is written `~1`.
    #[test]
    fn a_place_is_a_json_pointer() {
        let (list, field) = (Place::ROOT.field("a/b~c"), Place::ROOT.field(""));
        assert_eq!(Place::ROOT.pointer(), "");
        assert_eq!(field.pointer(), "/");
        assert_eq!(list.index(3).pointer(), "/a~1b~0c/3");
    }

    #[test]
    fn faults_beyond_the_list_are_counted() {
        let mut faults = Faults::default();
        for k in 0..250 {
            faults.add(FaultKind::Unknown, Place::ROOT.index(k), || {
                assert!(k < MAX_FAULTS, "text that is not listed");
                "odd".into()
            });
        }
        let error = DocumentError::from(faults);
        assert_eq!((error.faults().len(), error.count()), (100, 250));
        let text = error.to_string();
        assert!(text.starts_with("the document has 250 faults\n  /0: odd\n"), "{text}");
        assert!(text.ends_with("\n  and 150 more"), "{text}");
    }
}

//! Threads with a 60° profile: basic sizes, tapping, measurement over wires, and limits from a designation.
mod designation;
mod diameters;
mod metric;
pub mod profile;
pub mod tapping;
mod unified;
pub mod wires;

use crate::error::excerpt;
use crate::{Limits, Size};
use designation::Designation;
pub use diameters::ThreadError;
use diameters::{Basic, Diameters};
use std::{fmt, str::FromStr};
use tenths_macros::{Object, accessors};

/// A thread by its designation: its basic sizes, and with a tolerance class its limits of size.
///
/// ```
/// use tenths::{Limits, Size, Thread};
/// let screw = Thread::parse("M8-6g")?;
/// assert_eq!(screw.pitch_diameter(), Some(Limits::parse("7.188 -0.028/-0.146 mm")?));
/// let nut = Thread::parse("1/4-20 UNC-2B")?;
/// assert_eq!(nut.minor(), Some(Limits::parse(".196 +.011/0 in")?));
/// assert_eq!(Thread::parse("1/4-20 UNC")?.basic_pitch_diameter(), Size::parse(".2175 in")?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Object)]
#[object(accessors, designation)]
pub struct Thread {
    designation: Designation,
    basic: Basic,
    diameters: Option<Diameters>,
}

impl Thread {
    /// Reads a designation. Its tolerance class gives the limits; without one there are basic sizes alone, and it
    /// stays open whether the thread is a screw's or a nut's.
    ///
    /// - ISO metric, `M10x1.5-6g`, `M10-6H` in the coarse pitch, `M10x1.25-5g6g` for pitch diameter and crest: limits
    ///   of ISO 965-1, positions e, f, g and h for external threads and G and H for internal ones.
    /// - Unified, `1/4-20 UNC-2A`, `#10-24 UNC-2B`, `1 1/8-8 UN-3A`, `.500-20 UNRF-2A`: limits of ASME B1.1, classes
    ///   1A to 3A and 1B to 3B. A whole number stands for a numbered size where one has these threads in a standard
    ///   series, and for inches otherwise. A fraction is rounded to 0.0001 in, as the standard rounds the basic major
    ///   diameter: `19/64-36 UNS-2A` is 0.2969 in.
    ///
    /// `-LH` at the end makes a left-hand thread, whose limits are the same. Threads of several starts are not
    /// covered.
    ///
    /// The limits hold before plating unless the drawing says otherwise. They are figures from memory, held against
    /// reprinted tables: check a thread that matters against the standard.
    ///
    /// # Errors
    /// Any [`ThreadError`].
    pub fn parse(text: &str) -> Result<Thread, ThreadError> {
        let designation = Designation::parse(text)?;
        let (basic, diameters) = (designation.basic(text)?, designation.diameters(text)?);
        Ok(Thread { designation, basic, diameters })
    }

    /// Reads a designation that must have a tolerance class, and so limits.
    ///
    /// # Errors
    /// Any [`ThreadError`].
    pub fn parse_with_class(text: &str) -> Result<Thread, ThreadError> {
        let thread = Thread::parse(text)?;
        match thread.diameters {
            Some(_) => Ok(thread),
            None => Err(ThreadError::NoClass { text: excerpt(text), need: thread.designation.classes() }),
        }
    }
}

#[accessors]
impl Thread {
    /// The designation, which reads back as the same thread.
    #[field]
    pub fn designation(&self) -> String {
        self.to_string()
    }

    /// The standard of the limits, with its edition.
    #[field]
    pub const fn standard(&self) -> &'static str {
        self.designation.standard()
    }

    /// The tolerance class, such as `6g` or `2B`.
    #[field]
    pub fn tolerance_class(&self) -> Option<String> {
        self.designation.class()
    }

    /// Whether the thread is internal, as of a nut, rather than external, as of a screw; absent without a tolerance
    /// class, which settles it.
    #[field]
    pub fn is_internal(&self) -> Option<bool> {
        self.designation.is_internal()
    }

    /// Whether it is a left-hand thread.
    #[field]
    pub const fn is_left_hand(&self) -> bool {
        self.designation.left_hand
    }

    /// The basic major diameter.
    #[field]
    pub const fn nominal(&self) -> Size {
        self.designation.nominal()
    }

    /// The pitch, rounded to the nearest picometre where it does not end there, as for 1/13 in.
    #[field]
    pub fn thread_pitch(&self) -> Size {
        self.designation.pitch()
    }

    /// The basic pitch diameter: nominal - 0.649519 · pitch, to 0.001 mm or 0.0001 in.
    #[field]
    pub const fn basic_pitch_diameter(&self) -> Size {
        self.basic.pitch_diameter
    }

    /// The basic minor diameter: nominal - 1.082532 · pitch, to 0.001 mm or 0.0001 in.
    #[field]
    pub const fn basic_minor(&self) -> Size {
        self.basic.minor
    }

    /// Limits of the major diameter of an external thread. That of an internal thread has only a least size.
    #[field]
    pub fn major(&self) -> Option<Limits> {
        self.diameters?.major
    }

    /// The least major diameter; absent without a tolerance class.
    #[field]
    pub fn major_least(&self) -> Option<Size> {
        Some(self.diameters?.major_least)
    }

    /// Limits of the pitch diameter; absent without a tolerance class.
    #[field]
    pub fn pitch_diameter(&self) -> Option<Limits> {
        Some(self.diameters?.pitch_diameter)
    }

    /// Limits of the minor diameter of an internal thread. That of an external thread has only a greatest size.
    #[field]
    pub fn minor(&self) -> Option<Limits> {
        self.diameters?.minor
    }

    /// The greatest minor diameter; absent without a tolerance class. Of a UNR thread it is a reference: the greatest
    /// major diameter - 1.190785 · pitch, rounded to 0.0001 in.
    #[field]
    pub fn minor_greatest(&self) -> Option<Size> {
        Some(self.diameters?.minor_greatest)
    }
}

impl fmt::Display for Thread {
    /// Writes a designation that reads back as the same thread.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.designation.to_string())
    }
}

impl FromStr for Thread {
    type Err = ThreadError;

    /// As [`Thread::parse`].
    fn from_str(text: &str) -> Result<Thread, ThreadError> {
        Thread::parse(text)
    }
}

//! Classes of ISO 2768 as drawings name them.
use super::{GeneralFeature, GeneralToleranceError};
use crate::error::excerpt;
use std::fmt;
use std::str::FromStr;

/// A class of general tolerances: a letter for sizes and angles, one for form and position, or both.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct GeneralClass {
    size: Option<u8>,
    form: Option<u8>,
}

const SIZE_LETTERS: [char; 4] = ['f', 'm', 'c', 'v'];
const FORM_LETTERS: [char; 3] = ['H', 'K', 'L'];

/// The place of the first letter of a text among some, and the rest of the text.
fn letter<'t>(text: &'t str, letters: &[char]) -> (Option<u8>, &'t str) {
    let place = letters.iter().position(|letter| text.starts_with(*letter));
    match place.and_then(|place| u8::try_from(place).ok()) {
        Some(place) => (Some(place), text.get(1..).unwrap_or_default()),
        None => (None, text),
    }
}

impl GeneralClass {
    /// Reads `m`, `mK`, `K`, and any of them behind the name of the standard: `ISO 2768-mK`, `ISO 2768-1 m`.
    ///
    /// # Errors
    /// [`GeneralToleranceError::Class`].
    pub fn parse(text: &str) -> Result<GeneralClass, GeneralToleranceError> {
        let refused = || GeneralToleranceError::Class { text: excerpt(text) };
        let own = text.trim();
        let own = own.strip_prefix("DIN").map_or(own, str::trim_start);
        let named = own.strip_prefix("ISO").map(str::trim_start).and_then(|own| own.strip_prefix("2768"));
        let own = match named {
            // The part and its edition say no more than the letter does.
            Some(rest) => {
                let part = ["-1", "-2"].iter().find_map(|part| rest.strip_prefix(part));
                let rest = part.map_or(rest, |rest| rest.strip_prefix(":1989").unwrap_or(rest)).trim_start();
                rest.strip_prefix('-').unwrap_or(rest).trim_start()
            }
            None => own,
        };
        let (size, rest) = letter(own, &SIZE_LETTERS);
        let (form, rest) = letter(rest, &FORM_LETTERS);
        match rest.is_empty() && (size.is_some() || form.is_some()) {
            true => Ok(GeneralClass { size, form }),
            false => Err(refused()),
        }
    }

    /// The row of the tables of sizes.
    pub(super) fn size_row(self, feature: GeneralFeature) -> Result<usize, GeneralToleranceError> {
        let none = GeneralToleranceError::NoClass {
            class: self,
            feature,
            letters: "f, m, c and v",
            example: "ISO 2768-mK",
        };
        self.size.map(usize::from).ok_or(none)
    }

    /// The row of the tables of form and position.
    pub(super) fn form_row(self, feature: GeneralFeature) -> Result<usize, GeneralToleranceError> {
        let none = GeneralToleranceError::NoClass {
            class: self,
            feature,
            letters: "H, K and L",
            example: "ISO 2768-mK",
        };
        self.form.map(usize::from).ok_or(none)
    }
}

impl FromStr for GeneralClass {
    type Err = GeneralToleranceError;

    /// As [`GeneralClass::parse`].
    fn from_str(text: &str) -> Result<GeneralClass, GeneralToleranceError> {
        GeneralClass::parse(text)
    }
}

impl fmt::Display for GeneralClass {
    /// `ISO 2768-mK`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let letter = |place: Option<u8>, letters: &[char]| {
            place
                .and_then(|place| letters.get(usize::from(place)).copied())
                .map_or(String::new(), String::from)
        };
        write!(f, "ISO 2768-{}{}", letter(self.size, &SIZE_LETTERS), letter(self.form, &FORM_LETTERS))
    }
}

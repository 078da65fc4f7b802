//! Classes of ISO 2768, features and general tolerances in text.
use crate::error::excerpt;
use crate::limits::{GeneralClass, GeneralFeature, GeneralToleranceError};
use std::str::FromStr;

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
        let (size, rest) = letter(own, &GeneralClass::SIZE_LETTERS);
        let (form, rest) = letter(rest, &GeneralClass::FORM_LETTERS);
        match rest.is_empty() && (size.is_some() || form.is_some()) {
            true => Ok(GeneralClass { size, form }),
            false => Err(refused()),
        }
    }
}

impl FromStr for GeneralClass {
    type Err = GeneralToleranceError;

    /// As [`GeneralClass::parse`].
    fn from_str(text: &str) -> Result<GeneralClass, GeneralToleranceError> {
        GeneralClass::parse(text)
    }
}

impl GeneralFeature {
    /// Reads a name, as [`GeneralFeature::name`] gives it.
    ///
    /// # Errors
    /// [`GeneralToleranceError::Feature`].
    pub fn parse(text: &str) -> Result<GeneralFeature, GeneralToleranceError> {
        let known = GeneralFeature::ALL.into_iter().find(|known| known.name() == text.trim());
        known.ok_or_else(|| GeneralToleranceError::Feature { text: excerpt(text) })
    }
}

/// Splits `2 mm edge ISO 2768-m` into the size, the feature and the class; nothing where the text names no ISO 2768.
pub(crate) fn split(text: &str) -> Option<(&str, GeneralFeature, &str)> {
    let at = text.find("ISO 2768").or_else(|| text.find("ISO2768"))?;
    let (size, class) = text.split_at_checked(at)?;
    let size = size.trim_end();
    let size = size.strip_suffix("DIN").map_or(size, str::trim_end);
    Some(match size.strip_suffix("edge") {
        Some(size) => (size.trim_end(), GeneralFeature::Edge, class),
        None => (size, GeneralFeature::Length, class),
    })
}

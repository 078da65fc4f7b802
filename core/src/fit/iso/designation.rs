//! Reads designations of ISO 286.
use super::class::{Member, POSITIONS, ToleranceClass};
use crate::error::excerpt;
use crate::limits::FitError;
use crate::quantity::Units;
use crate::{Limits, Size};
use tenths_macros::function;

/// The places in [`POSITIONS`] of those with one letter, by the letter.
#[rustfmt::skip]
static SINGLE: [Option<u8>; 26] = [
    Some(0), Some(1), Some(2), Some(4), Some(5), Some(7), Some(9), Some(10), None, Some(12), Some(13), None,
    Some(14), Some(15), None, Some(16), None, Some(17), Some(18), Some(19), Some(20), Some(21), None, Some(22),
    Some(23), Some(24),
];

/// Reads a size and one class.
#[inline]
pub(crate) fn read_one(text: &str) -> Result<(Size, ToleranceClass), FitError> {
    let (nominal, rest) = read_size(text)?;
    match class(rest) {
        Some(class) => Ok((nominal, class)),
        None if rest.contains('/') => Err(FitError::TwoClasses { text: excerpt(text.trim()) }),
        None => Err(no_class(rest, text)),
    }
}

/// Reads a size and the classes of hole and shaft.
pub(crate) fn read_fit(text: &str) -> Result<(Size, ToleranceClass, ToleranceClass), FitError> {
    let (nominal, rest) = read_size(text)?;
    let Some((hole, shaft)) = rest.split_once('/') else {
        class(rest).ok_or_else(|| no_class(rest, text))?;
        return Err(FitError::OneClass { text: excerpt(text.trim()) });
    };
    let read = |part: &str| class(part.trim()).ok_or_else(|| no_class(part.trim(), text));
    let (hole, shaft) = (read(hole)?, read(shaft)?);
    match (hole.member, shaft.member) {
        (Member::Hole, Member::Shaft) => Ok((nominal, hole, shaft)),
        _ => Err(FitError::Members { text: excerpt(text.trim()) }),
    }
}

/// Reads a class.
pub(crate) fn read_class(text: &str) -> Result<ToleranceClass, FitError> {
    class(text).ok_or_else(|| no_class(text, text))
}

/// A plain decimal of millimetres, with or without a sign of diameter before it, and what follows it.
#[inline]
fn read_size(text: &str) -> Result<(Size, &str), FitError> {
    /// Decimals of a millimetre down to a picometre, and what each count of them leaves.
    const PLACES: usize = 9;
    const REST: [i64; PLACES + 1] =
        [1_000_000_000, 100_000_000, 10_000_000, 1_000_000, 100_000, 10_000, 1000, 100, 10, 1];
    let plain = text.trim();
    let number = plain.strip_prefix(['⌀', 'Ø', 'ø']).map_or(plain, str::trim_start);
    let (mut picometres, mut place, mut digits, mut end) = (0_i64, None, 0, 0);
    for byte in number.bytes() {
        match (byte, place) {
            (b'0'..=b'9', None) => {
                picometres = picometres.saturating_mul(10).saturating_add(i64::from(byte - b'0'));
                digits += 1;
            }
            (b'0'..=b'9', Some(at)) => {
                digits += 1;
                if at < PLACES {
                    picometres = picometres.saturating_mul(10).saturating_add(i64::from(byte - b'0'));
                    place = Some(at + 1);
                } else if byte != b'0' {
                    return Err(Size::parse_in(&number[..=end], Some(Units::Metric))
                        .map_or_else(FitError::from, |_| FitError::Syntax { text: excerpt(plain) }));
                }
            }
            (b'.', None) => place = Some(0),
            _ => break,
        }
        end += 1;
    }
    let rest = &number[end..];
    if digits == 0 {
        return Err(match class(rest.split('/').next().unwrap_or(rest).trim()) {
            Some(_) if end == 0 => FitError::NoSize { text: excerpt(plain) },
            _ => FitError::Syntax { text: excerpt(plain) },
        });
    }
    let nominal = picometres.saturating_mul(REST[place.unwrap_or(0)]);
    if !(1..=3150 * Units::Metric.picometres()).contains(&nominal) {
        return Err(FitError::NominalSize { text: excerpt(plain) });
    }
    Ok((Size::from_picometres(nominal), rest.trim_start()))
}

/// The class of a text, if it is one.
#[inline]
fn class(text: &str) -> Option<ToleranceClass> {
    let letters = text.bytes().take_while(u8::is_ascii_alphabetic).count();
    let (letters, digits) = text.as_bytes().split_at(letters);
    let is_hole = letters.first()?.is_ascii_uppercase();
    if letters.iter().any(|letter| letter.is_ascii_uppercase() != is_hole) {
        return None;
    }
    let position = match *letters {
        [one] => SINGLE[usize::from(one.to_ascii_lowercase() - b'a')]?,
        [one, other] => match [one.to_ascii_lowercase(), other.to_ascii_lowercase()] {
            [b'c', b'd'] => 3,
            [b'e', b'f'] => 6,
            [b'f', b'g'] => 8,
            [b'j', b's'] => 11,
            [b'z', third @ b'a'..=b'c'] => third - b'a' + 25,
            _ => return None,
        },
        _ => return None,
    };
    let grade = match *digits {
        [b'0', b'1'] => 0,
        [one @ b'0'..=b'9'] => one - b'0' + 1,
        [b'1', one @ b'0'..=b'8'] => one - b'0' + 11,
        _ => return None,
    };
    let member = if is_hole { Member::Hole } else { Member::Shaft };
    Some(ToleranceClass { member, position, grade })
}

/// Why a text is no class.
#[cold]
fn no_class(class: &str, text: &str) -> FitError {
    let letters = class.bytes().take_while(u8::is_ascii_alphabetic).count();
    let (letters, digits) = class.split_at(letters);
    let known = POSITIONS.iter().flatten().any(|name| *name == letters);
    if letters.is_empty() || !digits.chars().all(|c| c.is_ascii_digit()) {
        return FitError::Syntax { text: excerpt(text.trim()) };
    }
    if !known {
        return FitError::Position { class: excerpt(class), letters: excerpt(letters) };
    }
    if digits.is_empty() {
        return FitError::NoGrade { class: excerpt(class) };
    }
    FitError::Grade { class: excerpt(class), grade: excerpt(digits) }
}

/// Limits of a designation of ISO 286, in millimetres as the standard has it: `25 H7`, `30js6`.
///
/// Capitals are holes and small letters shafts. Deviations of js and JS are half the tolerance, unrounded.
///
/// The figures are those of ISO 286:2010, from reprints and in part from memory: check a class that matters against
/// the standard. cd, ef and fg above 10 mm, which that edition added, are left out.
///
/// # Errors
/// Any [`FitError`] that speaks of ISO 286.
///
/// ```
/// use tenths::{Limits, iso_limits};
/// assert_eq!(iso_limits("25 H7")?, Limits::parse("25 +0.021/0 mm")?);
/// assert_eq!(iso_limits("25g6")?, Limits::parse("25 -0.007/-0.020 mm")?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[function(c = "tenths_iso_limits", gives = "limits", only_c, example("25 H7"))]
pub fn iso_limits(
    /// Size and class, such as `25 H7`.
    designation: &str,
) -> Result<Limits, FitError> {
    let (nominal, class) = read_one(designation)?;
    class.limits(nominal)
}

/// Limits of a designation of ISO 286, with js and JS as older tables have them.
///
/// An odd tolerance of the grades 7 to 11 is first rounded down to an even number of micrometres, so that the deviations are
/// whole: 25 JS7 is ±0.010 mm, not ±0.0105 mm. Other classes are the same either way.
///
/// # Errors
/// As [`iso_limits`].
#[function(c = "tenths_iso_limits_rounded_js", gives = "limits", only_c, example("25 JS7"))]
pub fn iso_limits_rounded_js(
    /// Size and class, such as `25 JS7`.
    designation: &str,
) -> Result<Limits, FitError> {
    let (nominal, class) = read_one(designation)?;
    class.limits_with_rounded_js(nominal)
}

impl ToleranceClass {
    /// Reads a class without its size, `H7` or `js6`.
    ///
    /// # Errors
    /// [`FitError::Position`], [`FitError::NoGrade`] and [`FitError::Grade`].
    pub fn parse(text: &str) -> Result<ToleranceClass, FitError> {
        read_class(text.trim())
    }

    /// Reads a nominal size in millimetres and its class, `25 H7`.
    ///
    /// # Errors
    /// As [`iso_limits`], without those of the tables.
    pub fn read(designation: &str) -> Result<(Size, ToleranceClass), FitError> {
        read_one(designation)
    }
}

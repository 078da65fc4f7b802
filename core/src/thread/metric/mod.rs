//! Limits of ISO metric threads, ISO 965-1.
mod table;

use super::diameters::{Basic, Diameters, ThreadError};
use super::profile::{TO_MINOR, TO_PITCH};
use crate::{Limits, Size};
use std::fmt;
use table::{COARSE, PITCH_DIAMETERS, PITCHES, PitchRow};

/// The standard, with its edition.
pub(super) const STANDARD: &str = "ISO 965-1:1998";

/// Where a tolerance lies. Capitals are for internal threads.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum Position {
    E,
    F,
    G,
    H,
}

/// Grade and position of the tolerance of one diameter, such as `6g`.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
struct Zone {
    grade: u8,
    position: Position,
}

/// A tolerance class of metric threads: that of the pitch diameter, then that of the crest, as in `5g6g`; in one
/// where they are the same.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct MetricClass {
    pub internal: bool,
    pitch: Zone,
    crest: Zone,
}

impl fmt::Display for Zone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let position = ["e", "f", "g", "h"][self.position as usize];
        write!(f, "{}{position}", self.grade)
    }
}

impl fmt::Display for MetricClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let crest = if self.pitch == self.crest { String::new() } else { self.crest.to_string() };
        let text = format!("{}{crest}", self.pitch);
        f.write_str(&if self.internal { text.to_uppercase() } else { text })
    }
}

impl MetricClass {
    /// Reads `6g`, `5g6g`, `6H`, `5H6H`.
    pub(super) fn parse(text: &str) -> Option<MetricClass> {
        let characters: Vec<char> = text.chars().take(5).collect();
        let zone = |grade: &char, letter: &char| {
            let (position, internal) = match letter {
                'e' => (Position::E, false),
                'f' => (Position::F, false),
                'g' => (Position::G, false),
                'h' => (Position::H, false),
                'G' => (Position::G, true),
                'H' => (Position::H, true),
                _ => return None,
            };
            let grade = grade.to_digit(10).and_then(|grade| u8::try_from(grade).ok())?;
            Some((Zone { grade, position }, internal))
        };
        let ((pitch, internal), (crest, other)) = match characters.as_slice() {
            [grade, letter] => (zone(grade, letter)?, zone(grade, letter)?),
            [grade, letter, crest_grade, crest_letter] => {
                (zone(grade, letter)?, zone(crest_grade, crest_letter)?)
            }
            _ => return None,
        };
        (internal == other).then_some(MetricClass { internal, pitch, crest })
    }
}

/// The pitch of a nominal diameter in the coarse series.
pub(super) fn coarse_pitch(nominal: Size) -> Option<Size> {
    let row = COARSE.iter().find(|(diameter, _)| micrometres(*diameter) == nominal);
    row.map(|(_, pitch)| micrometres(*pitch))
}

const fn micrometres(count: i64) -> Size {
    Size::from_picometres(count * PICOMETRES)
}

const PICOMETRES: i64 = 1_000_000;

fn missing(text: &str, what: String) -> ThreadError {
    ThreadError::NotInStandard { text: text.into(), what, standard: STANDARD }
}

/// Whole micrometres. `text` is the designation, for messages.
fn counts(sizes: [Size; 2], text: &str) -> Result<[i64; 2], ThreadError> {
    match sizes.iter().all(|size| size.picometres() % PICOMETRES == 0) {
        true => Ok(sizes.map(|size| size.picometres() / PICOMETRES)),
        false => Err(missing(text, "diameter or pitch finer than a micrometre".into())),
    }
}

/// The basic diameters. `text` is the designation, for messages.
pub(super) fn basic(nominal: Size, pitch: Size, text: &str) -> Result<Basic, ThreadError> {
    let [nominal, pitch] = counts([nominal, pitch], text)?;
    // Sizes reach 2^53 µm, beyond which a float would no longer count them.
    let drop = |part: f64| (part * pitch as f64).round() as i64;
    if nominal <= drop(TO_MINOR) {
        return Err(ThreadError::NoMinorDiameter { text: text.into() });
    }
    let [pitch_diameter, minor] = [TO_PITCH, TO_MINOR].map(|part| micrometres(nominal - drop(part)));
    Ok(Basic { pitch_diameter, minor })
}

/// The limits of a class. `text` is the designation, for messages.
pub(super) fn diameters(
    nominal: Size,
    pitch: Size,
    class: MetricClass,
    text: &str,
) -> Result<Diameters, ThreadError> {
    let missing = |what: String| missing(text, what);
    let Basic { pitch_diameter, minor } = basic(nominal, pitch, text)?;
    let [nominal, pitch] = counts([nominal, pitch], text)?;
    let [basic_pitch, basic_minor] = counts([pitch_diameter, minor], text)?;
    let by_pitch = PITCHES.iter().find(|row| row.pitch == pitch);
    let by_pitch = by_pitch.ok_or_else(|| missing(format!("pitch of {} mm", decimal(pitch))))?;
    let by_diameter = PITCH_DIAMETERS
        .iter()
        .find(|row| row.pitch == pitch && row.over < nominal && nominal <= row.up_to)
        .ok_or_else(|| missing(format!("pitch of {} mm at this diameter", decimal(pitch))))?;

    let zone = |zone: Zone, tolerance: Option<i64>, diameter: &str| {
        let deviation = deviation(by_pitch, zone.position, class.internal)
            .ok_or_else(|| missing(format!("position of {class} for a pitch of {} mm", decimal(pitch))))?;
        let grade = || missing(format!("grade {} of the {diameter} diameter for this thread", zone.grade));
        Ok::<_, ThreadError>((deviation, tolerance.filter(|&figure| figure > 0).ok_or_else(grade)?))
    };
    let grade = |zone: Zone, first: u8| usize::from(zone.grade).checked_sub(first.into());
    let figure = |figures: &[i64], at: Option<usize>| at.and_then(|at| figures.get(at)).copied();
    let limits = |basic, upper, lower| {
        Limits::with_deviations(micrometres(basic), micrometres(upper), micrometres(lower))
    };

    if class.internal {
        let (from, width) = zone(class.pitch, figure(&by_diameter.internal, grade(class.pitch, 4)), "pitch")?;
        let (crest, height) = zone(class.crest, figure(&by_pitch.minor, grade(class.crest, 4)), "minor")?;
        let minor = limits(basic_minor, crest + height, crest)?;
        return Ok(Diameters {
            major: None,
            major_least: micrometres(nominal + from),
            pitch_diameter: limits(basic_pitch, from + width, from)?,
            minor: Some(minor),
            minor_greatest: minor.upper(),
        });
    }
    // Grades 4, 6 and 8.
    let even = grade(class.crest, 4).filter(|steps| steps % 2 == 0).map(|steps| steps / 2);
    let (from, width) = zone(class.pitch, figure(&by_diameter.external, grade(class.pitch, 3)), "pitch")?;
    let (crest, height) = zone(class.crest, figure(&by_pitch.major, even), "major")?;
    let major = limits(nominal, crest, crest - height)?;
    Ok(Diameters {
        major: Some(major),
        major_least: major.lower(),
        pitch_diameter: limits(basic_pitch, from, from - width)?,
        minor: None,
        minor_greatest: micrometres(basic_minor + from),
    })
}

/// The limit of a tolerance that is nearest to the basic profile, counted from it.
fn deviation(row: &PitchRow, position: Position, internal: bool) -> Option<i64> {
    let [e, f, g] = row.external;
    let figure = match position {
        Position::H => return Some(0),
        Position::G if internal => row.internal,
        Position::G => -g,
        Position::F => -f,
        Position::E => -e,
    };
    (figure != 0).then_some(figure)
}

/// Micrometres as millimetres.
fn decimal(count: i64) -> String {
    micrometres(count).decimal(crate::Units::Metric)
}

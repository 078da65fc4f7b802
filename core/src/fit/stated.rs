//! Limits in text: the notation of drawings, or a class or a member of a fit by its designation.
use super::iso::{Member, ToleranceClass};
use super::{Fit, inch, iso};
use crate::general_tolerance::{self, GeneralClass, GeneralFeature, GeneralTolerance};
use crate::limits::{FitError, Limits, LimitsError};
use crate::quantity::Units;
use crate::size::Size;
use std::str::FromStr;

impl Limits {
    /// Reads drawing notation with its unit.
    ///
    /// - A tolerance: `1.420 ±.005 in`, `1.420 +/-.005 in`, `7/16 ±1/64 in`.
    /// - Deviations, the upper one first: `12 +0/-0.011 mm`, `12 +0 -0.011 mm`, `25 -0.007/-0.020 mm`. Each
    ///   has its sign, which touches the number; zero may go without.
    /// - Two limits, the lower one first: `1.415..1.425 in`, `1.415 - 1.425 in` (with spaces). In either order:
    ///   `1.425/1.415 in`. Two whole numbers around a slash are a fraction instead: `7/16`. Three dots and `…` read
    ///   as two, `12...13 mm`, but `0...6 mm` is refused, since it could also be 0 to .6 mm.
    /// - A maximum: `12 max mm`, `max 12 mm`, `12 mm max`. Its lower limit is zero and its nominal size the
    ///   maximum.
    /// - `25 H7`, `20h9`: a class of ISO 286, always in millimetres.
    /// - `1/2 in FN2 hole`, `0.75 in RC4 shaft`: one member of a fit of ASME B4.1.
    /// - `120 mm ISO 2768-m`, `2 mm edge ISO 2768-mK`: a size or a broken edge with its general tolerance.
    ///
    /// The unit stands at one number, and serves all, or at each. With two different units it stands at each.
    ///
    /// # Errors
    /// Any [`LimitsError`]. A size without a tolerance and a minimum without a maximum are no limits.
    pub fn parse(text: &str) -> Result<Limits, LimitsError> {
        Limits::parse_in(text, None)
    }

    /// Reads text as [`Limits::parse`] does; without any unit, numbers are in inches or millimetres as
    /// `default` says.
    ///
    /// # Errors
    /// As [`Limits::parse`].
    pub fn parse_in(text: &str, default: Option<Units>) -> Result<Limits, LimitsError> {
        Limits::parse_notation(text, default)
            .or_else(|error| Class::read(text, default, error).map(|(limits, _)| limits))
    }

    /// Reads text as [`Limits::parse_in`] does, and tells the designation, if the limits are stated by one.
    ///
    /// # Errors
    /// As [`Limits::parse`].
    pub fn parse_stated(
        text: &str,
        default: Option<Units>,
    ) -> Result<(Limits, Option<Designation>), LimitsError> {
        match Limits::parse_notation(text, default) {
            Ok(limits) => Ok((limits, None)),
            Err(error) => {
                Class::read(text, default, error).map(|(limits, class)| (limits, Some(class.tell())))
            }
        }
    }
}

impl Limits {
    /// Reads text as [`Limits::parse_stated`] does, and a size alone, or one that is an `edge`, by a general tolerance.
    ///
    /// # Errors
    /// As [`Limits::parse`].
    pub fn parse_general(
        text: &str,
        class: GeneralClass,
    ) -> Result<(Limits, Option<Designation>), LimitsError> {
        let edge = text.trim_end().strip_suffix("edge");
        match (Limits::parse_stated(text, None), edge) {
            (Err(LimitsError::NoTolerance { .. }), _) | (Err(_), Some(_)) => {
                let feature = if edge.is_some() { GeneralFeature::Edge } else { GeneralFeature::Length };
                let size = edge.unwrap_or(text).trim_start().trim_start_matches(['⌀', 'Ø', 'ø']);
                let (limits, class) = Class::general(Size::parse(size)?, feature, class)?;
                Ok((limits, Some(class.tell())))
            }
            (read, _) => read,
        }
    }
}

impl FromStr for Limits {
    type Err = LimitsError;

    /// As [`Limits::parse`].
    fn from_str(text: &str) -> Result<Limits, LimitsError> {
        Limits::parse(text)
    }
}

/// What limits are stated by: a class of ISO 286, a member of a fit of ASME B4.1, or a general tolerance.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Designation {
    /// Text that reads back as the same limits: `25 H7`, `0.5 in FN2 hole`.
    pub text: String,
    /// The standard with its edition.
    pub standard: &'static str,
}

/// A designation as it was read.
enum Class {
    Iso(Size, ToleranceClass),
    Inch(Fit, Member),
    General(Size, GeneralFeature, GeneralClass),
}

impl Class {
    /// Reads a designation, or gives what is wrong: with the text as a designation if it was meant for one, with
    /// `error` if not.
    fn read(text: &str, default: Option<Units>, error: LimitsError) -> Result<(Limits, Class), LimitsError> {
        if let Some((size, feature, class)) = general_tolerance::split(text) {
            let size = Size::parse_in(size.trim_start_matches(['⌀', 'Ø', 'ø']), default)?;
            return Class::general(size, feature, GeneralClass::parse(class)?);
        }
        let meant = |fault: FitError| LimitsError::Designation(Box::new(fault));
        if let Some((fit, member)) = inch::split_member(text) {
            let (size, name) = fit.rsplit_once(char::is_whitespace).unwrap_or(("", fit));
            let size = Size::parse_in(size, default).map_err(|fault| meant(fault.into()))?;
            let fit = Fit::inch(name, size).map_err(meant)?;
            let limits = if member == Member::Hole { fit.hole() } else { fit.shaft() };
            return Ok((limits, Class::Inch(fit, member)));
        }
        let read = || {
            let (nominal, class) = ToleranceClass::read(text)?;
            Ok((class.limits(nominal)?, Class::Iso(nominal, class)))
        };
        read().map_err(|fault| match fault {
            FitError::Syntax { .. } | FitError::NoSize { .. } => error,
            // It was meant for one if it ends in a grade.
            fault if text.trim_end().ends_with(|end: char| end.is_ascii_digit()) => meant(fault),
            _ => error,
        })
    }

    fn general(
        size: Size,
        feature: GeneralFeature,
        class: GeneralClass,
    ) -> Result<(Limits, Class), LimitsError> {
        let limits = GeneralTolerance::limits_of(class, feature, size)?;
        Ok((limits, Class::General(size, feature, class)))
    }

    fn tell(&self) -> Designation {
        match self {
            Class::Iso(nominal, class) => {
                let mut text = nominal.decimal(Units::Metric);
                text.extend([" ", class.position(), class.grade()]);
                Designation { text, standard: iso::STANDARD }
            }
            Class::Inch(fit, member) => {
                Designation { text: format!("{fit} {}", member.name()), standard: inch::STANDARD }
            }
            Class::General(size, feature, class) => {
                let edge = if *feature == GeneralFeature::Edge { " edge" } else { "" };
                let text = format!("{size}{edge} {class}");
                Designation { text, standard: general_tolerance::SIZES }
            }
        }
    }
}

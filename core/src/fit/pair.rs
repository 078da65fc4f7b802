//! A hole and a shaft that go together.
use super::FitError;
use super::inch::{self, InchFit};
use super::iso::{self, ToleranceClass};
use super::statistics::{FitStatistics, fit_statistics};
use crate::error::excerpt;
use crate::object::{Choice, Restored, Told};
use crate::quantity::{Length, Ratio, Units};
use crate::{Limits, LimitsError, Size};
use std::{fmt, str::FromStr};
use tenths_macros::{Choice, Object, accessors};

/// Whether a fit is loose, tight, or may be either.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum FitKind {
    /// The shaft is never larger than the hole.
    Clearance,
    /// It may be larger or smaller.
    Transition,
    /// It is never smaller.
    Interference,
}

/// Whether the hole H or the shaft h is the one that many fits share.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum FitBasis {
    /// A hole H, whose least size is the nominal one: one reamer serves many shafts.
    Hole,
    /// A shaft h, whose greatest size is the nominal one: one bar as bought serves many holes.
    Shaft,
}

impl FitBasis {
    /// The basis of a name: `hole` or `shaft`.
    ///
    /// # Errors
    /// [`FitError::Basis`].
    pub fn parse(name: &str) -> Result<FitBasis, FitError> {
        FitBasis::of_name(name.trim()).ok_or_else(|| FitError::Basis { text: excerpt(name) })
    }
}

/// A hole and a shaft with their limits, by a designation of ISO 286, by an inch fit of ASME B4.1, or as given.
///
/// Clearance is positive and interference negative, on the diameter.
///
/// ```
/// use tenths::{Fit, Size};
/// let fit = Fit::parse("25 H7/p6")?;
/// assert_eq!(fit.kind().name(), "interference");
/// assert_eq!(fit.min_clearance(), Size::parse("-0.035 mm")?);
/// assert_eq!(fit.max_clearance(), Size::parse("-0.001 mm")?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Object)]
#[object(accessors, summary)]
pub struct Fit {
    origin: Origin,
    hole: Limits,
    shaft: Limits,
    max_clearance: Size,
    min_clearance: Size,
}

/// Where the limits come from.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum Origin {
    Iso { hole: ToleranceClass, shaft: ToleranceClass },
    Inch(InchFit),
    Given,
}

impl Fit {
    /// Reads a fit of ISO 286 in millimetres, `25 H7/g6`, or one of ASME B4.1 with its size, `1.5 in FN2`.
    ///
    /// # Errors
    /// Any [`FitError`].
    pub fn parse(text: &str) -> Result<Fit, FitError> {
        if let Some((size, name)) = text.trim().rsplit_once(char::is_whitespace)
            && InchFit::is_name(name)
        {
            return Fit::inch(name, Size::parse(size)?);
        }
        let (nominal, hole, shaft) = iso::read_fit(text)?;
        Fit::iso(nominal, hole, shaft)
    }

    /// A fit of two classes of ISO 286.
    ///
    /// # Errors
    /// [`FitError::NominalSize`] and [`FitError::NotTabulated`]; [`FitError::Members`] unless the classes are those of
    /// a hole and of a shaft.
    pub fn iso(nominal: Size, hole: ToleranceClass, shaft: ToleranceClass) -> Result<Fit, FitError> {
        if (hole.member(), shaft.member()) != (iso::Member::Hole, iso::Member::Shaft) {
            return Err(FitError::Members { text: format!("{hole}/{shaft}") });
        }
        Fit::of(Origin::Iso { hole, shaft }, hole.limits(nominal)?, shaft.limits(nominal)?)
    }

    /// A fit of ASME B4.1 by its name: RC1 to RC9, LC1 to LC11, LT1 to LT6, LN1 to LN3, FN1 to FN5.
    ///
    /// [`Fit::source`] tells where its figures were seen: those of LC are from memory.
    ///
    /// # Errors
    /// [`FitError::InchFit`] and [`FitError::InchSize`].
    pub fn inch(name: &str, nominal: Size) -> Result<Fit, FitError> {
        let found = InchFit::find(name, nominal)?;
        let [hole, shaft] = found.limits(nominal)?;
        Fit::of(Origin::Inch(found), hole, shaft)
    }

    /// A fit of limits as they are, of no standard.
    ///
    /// # Errors
    /// [`FitError::Limits`] where a clearance is out of range.
    pub fn between(hole: Limits, shaft: Limits) -> Result<Fit, FitError> {
        Fit::of(Origin::Given, hole, shaft)
    }

    fn of(origin: Origin, hole: Limits, shaft: Limits) -> Result<Fit, FitError> {
        let out_of_range = || LimitsError::OutOfRange { nominal: hole.nominal() };
        let max_clearance = hole.upper().checked_sub(shaft.lower()).ok_or_else(out_of_range)?;
        let min_clearance = hole.lower().checked_sub(shaft.upper()).ok_or_else(out_of_range)?;
        Ok(Fit { origin, hole, shaft, max_clearance, min_clearance })
    }

    /// The classes of hole and shaft, where the fit is one of ISO 286.
    pub const fn classes(&self) -> Option<(ToleranceClass, ToleranceClass)> {
        match self.origin {
            Origin::Iso { hole, shaft } => Some((hole, shaft)),
            _ => None,
        }
    }

    /// What the clearance does where both parts are normal in process, centred in their tolerances, with these
    /// capabilities: the mean, and the answers of [`fit_statistics`].
    ///
    /// # Errors
    /// [`Error::Argument`](crate::Error::Argument) for a capability that is not positive, and for limits without a
    /// tolerance.
    pub fn statistics(&self, hole_cp: f64, shaft_cp: f64) -> Result<(Length, FitStatistics), crate::Error> {
        let length = |size: Size| Length::millimetres(size.to_float(Units::Metric));
        let mean = length(self.min_clearance.midpoint_down(self.max_clearance));
        let (hole, shaft) = (length(self.hole.tolerance()), length(self.shaft.tolerance()));
        Ok((mean, fit_statistics(mean, hole, shaft, Ratio::new(hole_cp), Ratio::new(shaft_cp))?))
    }

    /// Names for the tolerances of hole and shaft in a drawing.
    pub(super) fn labels(&self) -> [String; 2] {
        match self.origin {
            Origin::Iso { hole, shaft } => [hole.to_string(), shaft.to_string()],
            Origin::Inch(found) => [format!("{} hole", found.name()), format!("{} shaft", found.name())],
            Origin::Given => ["hole".into(), "shaft".into()],
        }
    }

    /// The side in whose units the standard counts.
    pub(super) const fn is_inch(&self) -> bool {
        matches!(self.origin, Origin::Inch(_))
    }
}

#[accessors]
impl Fit {
    /// The nominal size, that of the hole where the two were given.
    #[field]
    pub const fn nominal(&self) -> Size {
        self.hole.nominal()
    }

    /// Limits of the hole.
    #[field]
    pub const fn hole(&self) -> Limits {
        self.hole
    }

    /// Limits of the shaft.
    #[field]
    pub const fn shaft(&self) -> Limits {
        self.shaft
    }

    /// What the largest hole leaves about the smallest shaft; negative if that still interferes.
    #[field]
    pub const fn max_clearance(&self) -> Size {
        self.max_clearance
    }

    /// What the smallest hole leaves about the largest shaft; negative if they interfere.
    #[field]
    pub const fn min_clearance(&self) -> Size {
        self.min_clearance
    }

    /// Whether the fit is loose, tight, or may be either. Line to line counts as loose where it is the tightest, and as
    /// tight where it is the loosest.
    #[field]
    pub fn kind(&self) -> FitKind {
        match (self.min_clearance, self.max_clearance) {
            (least, _) if !least.is_negative() => FitKind::Clearance,
            (_, greatest) if !greatest.is_positive() => FitKind::Interference,
            _ => FitKind::Transition,
        }
    }

    /// Hole basis, where the hole starts at the nominal size, or shaft basis, where the shaft ends there; hole basis
    /// where both do, and none where neither does.
    #[field]
    pub fn basis(&self) -> Option<FitBasis> {
        if self.hole.lower() == self.nominal() {
            return Some(FitBasis::Hole);
        }
        (self.shaft.upper() == self.nominal()).then_some(FitBasis::Shaft)
    }

    /// The standard with its edition, if the fit is one of a standard.
    #[field]
    pub const fn standard(&self) -> Option<&'static str> {
        match self.origin {
            Origin::Iso { .. } => Some(iso::STANDARD),
            Origin::Inch(_) => Some(inch::STANDARD),
            Origin::Given => None,
        }
    }

    /// Where the figures come from.
    #[field]
    pub fn source(&self) -> &'static str {
        match self.origin {
            Origin::Iso { .. } => iso::SOURCE,
            Origin::Inch(found) => found.source(),
            Origin::Given => "limits as given",
        }
    }

    /// What stands for the fit in designations: `H7/g6` or `FN2`; none for limits as given.
    #[field]
    pub fn symbol(&self) -> Option<String> {
        match self.origin {
            Origin::Iso { hole, shaft } => Some(format!("{hole}/{shaft}")),
            Origin::Inch(found) => Some(found.name().into()),
            Origin::Given => None,
        }
    }

    /// Whether figures of this fit are from memory, in part at least.
    #[field]
    pub fn is_from_memory(&self) -> bool {
        self.source().contains("memory")
    }

    /// The designation, which reads as the same fit; none for limits as given.
    #[field]
    pub fn designation(&self) -> Option<String> {
        self.standard().map(|_| self.to_string())
    }
}

/// By its designation, or as limits that were given.
impl Restored for Fit {
    fn restore(told: &Told) -> Option<Fit> {
        match told.get::<Option<String>>("designation")? {
            Some(designation) => Fit::parse(&designation).ok(),
            None => Fit::between(told.get("hole")?, told.get("shaft")?).ok(),
        }
    }
}

impl fmt::Display for Fit {
    /// Writes a designation that reads back as the same fit, or the limits where there is none.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (inch, metric) = (Units::Inch, Units::Metric);
        let nominal = self.nominal();
        f.pad(&match self.origin {
            Origin::Iso { hole, shaft } => format!("{} {hole}/{shaft}", nominal.decimal(metric)),
            Origin::Inch(found) => match nominal.format(inch) {
                // A size that is no decimal of inches is one of millimetres.
                rounded if rounded.starts_with('≈') => {
                    format!("{} {}", nominal.format(metric), found.name())
                }
                exact => format!("{exact} {}", found.name()),
            },
            Origin::Given => {
                let units = match (self.hole.natural_units(), self.shaft.natural_units()) {
                    (Units::Inch, Units::Inch) => inch,
                    _ => metric,
                };
                format!("hole {}, shaft {}", self.hole.format(units), self.shaft.format(units))
            }
        })
    }
}

impl FromStr for Fit {
    type Err = FitError;

    /// As [`Fit::parse`].
    fn from_str(text: &str) -> Result<Fit, FitError> {
        Fit::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Quantity;

    fn fit(text: &str) -> Fit {
        Fit::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    #[test]
    fn kinds_at_line_to_line() {
        // EN ISO 286-1, terms of clearance and interference fit: line to line is the end of either.
        for (text, kind) in [
            ("25 H7/h6", FitKind::Clearance),
            ("25 H7/g6", FitKind::Clearance),
            ("25 H7/k6", FitKind::Transition),
            ("8 P7/h6", FitKind::Interference),
            ("25 H7/p6", FitKind::Interference),
            ("1.5 in LC1", FitKind::Clearance),
            ("1.5 in LT3", FitKind::Transition),
            ("1 1/2 in FN2", FitKind::Interference),
        ] {
            assert_eq!(fit(text).kind(), kind, "{text}");
        }
    }

    #[test]
    fn a_fit_reads_back() {
        for text in ["25 H7/g6", "0.5 JS7/h6", "1.5 in FN2", "38.1 mm FN2", "7/16 in RC9"] {
            assert_eq!(fit(&fit(text).to_string()), fit(text));
        }
        assert_eq!(fit("25H7 / g6"), fit("⌀25 H7/g6"));
        assert_eq!(fit("25 H7/g6").basis(), Some(FitBasis::Hole));
        assert_eq!(fit("25 P7/h6").basis(), Some(FitBasis::Shaft));
        assert_eq!(fit("25 F7/g6").basis(), None);
    }

    #[test]
    fn limits_as_given_make_a_fit_of_no_standard() {
        let limits = |text: &str| Limits::parse(text).unwrap_or_else(|error| panic!("{error}"));
        let fit = Fit::between(limits("10.1..10.2 mm"), limits("9.9..10 mm")).unwrap();
        assert_eq!((fit.standard(), fit.symbol(), fit.source()), (None, None, "limits as given"));
        assert_eq!(fit.max_clearance(), Size::from_picometres(300_000_000));
        let far = Limits::between(Size::from_picometres(i64::MIN), Size::from_picometres(-1)).unwrap();
        assert!(Fit::between(limits("1..2 mm"), far).is_err());
    }

    // 25 H7/g6: 21 and 13 µm of tolerance, 24 µm of clearance in the middle; 21/6 and 13/6 µm make 4.116 µm.
    #[test]
    fn statistics_stand_on_the_limits() {
        let (mean, statistics) = fit("25 H7/g6").statistics(1.0, 1.0).unwrap();
        assert_eq!(mean.in_units(Units::Metric), 0.024);
        assert!((statistics.clearance_deviation.in_units(Units::Metric) - 0.0041164).abs() < 5e-8);
        assert!(fit("25 H7/g6").statistics(0.0, 1.0).is_err());
    }

    #[test]
    fn refusals_say_why() {
        for (text, why) in [
            ("25 H7", "is not a valid fit"),
            ("25 g6/H7", "expected the hole first"),
            ("25 H7/G6", "expected the hole first"),
            ("25 H7/p", "`p` needs a tolerance grade, such as `p7`"),
            ("H7/g6", "needs its nominal size"),
            ("4000 H7/g6", "up to 3150 mm"),
            ("25 KRR7/h6", "no position `KRR`"),
            ("1.5 in FN9", "FN1 to FN5"),
            ("30 in FN2", "above 0 in and up to 19.69 in"),
            ("0.5 in FN3", "above 0.95 in"),
            ("1.5 FN2", "needs a unit"),
            ("25 H7/t6/h5", "is not a valid tolerance designation"),
        ] {
            let error = Fit::parse(text).unwrap_err().to_string();
            assert!(error.contains(why), "{text}: {error}");
        }
    }
}

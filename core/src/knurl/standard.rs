//! Knurls of the standards by their designation: pitch, growth and, for inch pitches, tolerances.
use super::table::{self, InchRow, KnurlPattern, Profile, TOLERANCES};
use crate::error::excerpt;
use crate::{Limits, Size};
use std::f64::consts::PI;
use std::fmt;
use tenths_macros::{Object, accessors};

const PICOMETRES_PER_INCH: i64 = 25_400_000_000;
/// Ten-thousandths of an inch are the unit of the inch table.
const PER_TENTH: i64 = PICOMETRES_PER_INCH / 10_000;
/// Hundredths of a millimetre are the unit of the metric one.
const PER_HUNDREDTH: i64 = 10_000_000;

/// A knurl of DIN 82 by profile and pitch, or of ASME B94.6 by diametral pitch, pattern and tolerance class.
///
/// Growth is what the standard takes off a diameter over crests for its blank, and an estimate: it leaves out rounded
/// teeth and the metal, so roll a trial piece.
///
/// ```
/// use tenths::{Knurl, Size};
/// let knurl = Knurl::parse("RKV 1.0")?;
/// assert_eq!(knurl.blank(Size::parse("20 mm").unwrap())?, Size::parse("19.67 mm").unwrap());
/// # Ok::<(), tenths::KnurlError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Object)]
#[object(accessors, designation)]
pub struct Knurl(Kind);

#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum Kind {
    /// A profile, and the pitch in hundredths of a millimetre.
    Din(&'static Profile, i64),
    /// A row of the inch table, a pattern, and the tolerance class from 0 for I.
    Inch(&'static InchRow, KnurlPattern, usize),
}

/// The deviations that a tolerance class of ASME B94.6 gives a knurl.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Object)]
pub struct KnurlTolerance {
    /// Upper deviation of the diameter over the crests.
    pub crest_upper: Size,
    /// Lower deviation of the diameter over the crests.
    pub crest_lower: Size,
    /// Upper deviation of the blank.
    pub blank_upper: Size,
    /// Lower deviation of the blank.
    pub blank_lower: Size,
}

/// Why text is not a valid knurl designation, or a knurl has no such figure.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum KnurlError {
    /// The text is not in a notation that is known.
    #[error(
        "`{text}` is not a valid knurl designation; expected e.g. `RAA 0.8` after DIN 82, or `96 DP`, `96 DP diagonal`, `96 DP class II` after ASME B94.6"
    )]
    Syntax {
        /// The text as given.
        text: String,
    },
    /// A pitch that the standard does not have.
    #[error("{standard} has no pitch {pitch}: it has {pitches}")]
    Pitch {
        /// The standard.
        standard: &'static str,
        /// The pitch as given.
        pitch: String,
        /// The pitches there are.
        pitches: &'static str,
    },
    /// A tolerance class for straight knurls only.
    #[error("tolerance class {class} is for straight knurls only")]
    StraightOnly {
        /// The class.
        class: &'static str,
    },
    /// The standard gives no growth for the pattern.
    #[error("{standard} gives no growth for {pattern} knurls: use knurl_growth_raised for an estimate")]
    NoGrowth {
        /// The standard.
        standard: &'static str,
        /// The pattern.
        pattern: &'static str,
    },
    /// The standard gives no tolerances here.
    #[error("the tolerances of {standard} are not included: give the limits of the drawing")]
    NoTolerance {
        /// The standard.
        standard: &'static str,
    },
    /// A size that is zero, negative or out of range beside the knurl.
    #[error("{size} is not a possible diameter for this knurl: it must be greater than 0")]
    Diameter {
        /// The size as given.
        size: Size,
    },
}

impl Knurl {
    /// Reads a designation: `RAA 0.8`, `DIN 82-RAA 0.8`, `96 DP`, `96 DP diagonal`, `96 DP raised class I`.
    ///
    /// An inch knurl is straight and of tolerance class I unless the text says otherwise.
    ///
    /// # Errors
    /// [`KnurlError::Syntax`], [`KnurlError::Pitch`] and [`KnurlError::StraightOnly`].
    pub fn parse(text: &str) -> Result<Knurl, KnurlError> {
        let syntax = || KnurlError::Syntax { text: excerpt(text) };
        let plain = text.trim();
        let plain = plain.strip_prefix("DIN 82").map_or(plain, |rest| rest.trim_start_matches(['-', ' ']));
        let mut words = plain.split_whitespace();
        let (first, second) = (words.next().ok_or_else(syntax)?, words.next().ok_or_else(syntax)?);
        if second == "DP" {
            return inch(first, &words.collect::<Vec<_>>()).ok_or_else(syntax)?;
        }
        let profile = table::PROFILES.iter().find(|profile| profile.name == first).ok_or_else(syntax)?;
        if words.next().is_some() {
            return Err(syntax());
        }
        let pitch = Size::parse(&format!("{} mm", second.replace(',', "."))).map_err(|_| syntax())?;
        let known =
            table::DIN_PITCHES.iter().find(|&&hundredths| hundredths * PER_HUNDREDTH == pitch.picometres());
        known.map(|&hundredths| Knurl(Kind::Din(profile, hundredths))).ok_or_else(|| KnurlError::Pitch {
            standard: table::DIN,
            pitch: excerpt(second),
            pitches: "0.5, 0.6, 0.8, 1.0, 1.2 and 1.6 mm",
        })
    }

    /// The blank for a diameter over the crests: that diameter less the growth.
    ///
    /// # Errors
    /// [`KnurlError::NoGrowth`], and [`KnurlError::Diameter`] where nothing would be left.
    pub fn blank(&self, crests: Size) -> Result<Size, KnurlError> {
        let blank = crests.checked_sub(self.growth()?);
        blank.filter(|blank| blank.is_positive()).ok_or(KnurlError::Diameter { size: crests })
    }

    /// Limits of the diameter over the crests of an inch knurl, from the nominal one.
    ///
    /// # Errors
    /// [`KnurlError::NoTolerance`] for a metric knurl, [`KnurlError::Diameter`].
    pub fn crest_limits(&self, nominal: Size) -> Result<Limits, KnurlError> {
        self.limits(nominal, |tolerance| (tolerance.crest_upper, tolerance.crest_lower))
    }

    /// Limits of the blank of an inch knurl, from the nominal one.
    ///
    /// # Errors
    /// [`KnurlError::NoTolerance`] for a metric knurl, [`KnurlError::Diameter`].
    pub fn blank_limits(&self, nominal: Size) -> Result<Limits, KnurlError> {
        self.limits(nominal, |tolerance| (tolerance.blank_upper, tolerance.blank_lower))
    }

    fn limits(
        &self,
        nominal: Size,
        of: impl Fn(KnurlTolerance) -> (Size, Size),
    ) -> Result<Limits, KnurlError> {
        let tolerance = self.tolerance().ok_or(KnurlError::NoTolerance { standard: self.standard() })?;
        let (upper, lower) = of(tolerance);
        let limits = Limits::with_deviations(nominal, upper, lower).ok();
        let sound = limits.filter(|limits| limits.lower().is_positive());
        sound.ok_or(KnurlError::Diameter { size: nominal })
    }
}

#[accessors]
impl Knurl {
    /// The designation, which reads as the same knurl.
    #[field]
    pub fn designation(&self) -> String {
        self.to_string()
    }

    /// How its grooves run.
    #[field]
    pub fn pattern(&self) -> KnurlPattern {
        match self.0 {
            Kind::Din(profile, _) => profile.pattern,
            Kind::Inch(_, pattern, _) => pattern,
        }
    }

    /// The standard with its edition.
    #[field]
    pub fn standard(&self) -> &'static str {
        match self.0 {
            Kind::Din(..) => table::DIN,
            Kind::Inch(..) => table::ASME,
        }
    }

    /// The pitch; of an inch knurl π / diametral pitch, to the nearest picometre.
    #[field]
    pub fn pitch(&self) -> Size {
        Size::from_picometres(match self.0 {
            Kind::Din(_, hundredths) => hundredths * PER_HUNDREDTH,
            Kind::Inch(row, ..) => {
                (PI * PICOMETRES_PER_INCH as f64 / row.diametral_pitch as f64).round() as i64
            }
        })
    }

    /// What the diameter grows by: the standard's factor of the pitch, or its depth of the tooth.
    ///
    /// # Errors
    /// [`KnurlError::NoGrowth`] for an inch knurl of raised points.
    #[field]
    pub fn growth(&self) -> Result<Size, KnurlError> {
        let picometres = match self.0 {
            Kind::Din(profile, hundredths) => hundredths * PER_HUNDREDTH / 100 * profile.factor,
            Kind::Inch(row, KnurlPattern::Straight, _) => row.straight_depth * PER_TENTH,
            Kind::Inch(row, KnurlPattern::Diagonal, _) => row.diagonal_depth * PER_TENTH,
            Kind::Inch(_, pattern, _) => {
                return Err(KnurlError::NoGrowth { standard: table::ASME, pattern: pattern.name() });
            }
        };
        Ok(Size::from_picometres(picometres))
    }

    /// The deviations of an inch knurl by its tolerance class; a metric knurl has none.
    #[field]
    pub fn tolerance(&self) -> Option<KnurlTolerance> {
        let Kind::Inch(row, _, class) = self.0 else { return None };
        let tolerance = &TOLERANCES[class][row.place];
        let size = |tenths: i64| Size::from_picometres(tenths * PER_TENTH);
        Some(KnurlTolerance {
            crest_upper: size(tolerance.crest_upper),
            crest_lower: size(tolerance.crest_lower),
            blank_upper: size(tolerance.blank_upper),
            blank_lower: size(tolerance.blank_lower),
        })
    }
}

/// An inch knurl from its pitch and the words after `DP`; none where they make no sense.
fn inch(pitch: &str, words: &[&str]) -> Option<Result<Knurl, KnurlError>> {
    let diametral_pitch: i64 = pitch.parse().ok()?;
    let (pattern, words) = match words {
        ["straight", rest @ ..] => (KnurlPattern::Straight, rest),
        ["diagonal", rest @ ..] => (KnurlPattern::Diagonal, rest),
        ["raised", rest @ ..] => (KnurlPattern::Raised, rest),
        rest => (KnurlPattern::Straight, rest),
    };
    let class = match words {
        [] => 0,
        ["class", class] => table::CLASSES.iter().position(|name| name == class)?,
        _ => return None,
    };
    if class > 0 && pattern != KnurlPattern::Straight {
        return Some(Err(KnurlError::StraightOnly { class: table::CLASSES[class] }));
    }
    let row = table::INCH_ROWS.iter().find(|row| row.diametral_pitch == diametral_pitch);
    Some(row.map(|row| Knurl(Kind::Inch(row, pattern, class))).ok_or_else(|| KnurlError::Pitch {
        standard: table::ASME,
        pitch: excerpt(pitch),
        pitches: "64, 96, 128 and 160 teeth to an inch of diameter",
    }))
}

/// The designation, which reads as the same knurl.
impl fmt::Display for Knurl {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Kind::Din(profile, hundredths) => {
                write!(f, "{} {}.{}", profile.name, hundredths / 100, hundredths % 100 / 10)
            }
            Kind::Inch(row, pattern, class) => {
                write!(f, "{} DP {} class {}", row.diametral_pitch, pattern.name(), table::CLASSES[class])
            }
        }
    }
}

impl std::str::FromStr for Knurl {
    type Err = KnurlError;

    fn from_str(text: &str) -> Result<Knurl, KnurlError> {
        Knurl::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(text: &str) -> Size {
        Size::parse(text).unwrap()
    }

    // DIN 82:1973, d2 = d1 - f · t: the line RKV read in print, the other factors from memory.
    #[test]
    fn blanks_of_the_metric_standard() {
        for (knurl, crests, blank) in [
            ("RKV 1.0", "20 mm", "19.67 mm"),
            ("DIN 82-RAA 0.8", "16 mm", "15.6 mm"),
            ("RGE 1", "25 mm", "24.33 mm"),
            ("DIN 82 RBL 0,5", "10 mm", "9.75 mm"),
            ("RKE 1.6", "32 mm", "30.928 mm"),
        ] {
            assert_eq!(Knurl::parse(knurl).unwrap().blank(size(crests)), Ok(size(blank)), "{knurl}");
        }
    }

    // Machinery's Handbook, 31st ed., p. 1060, table 4: class I row read in print, the others from memory.
    #[test]
    fn limits_of_the_inch_standard() {
        let limits = |knurl: &str| {
            let limits = Knurl::parse(knurl).unwrap().crest_limits(size("0.5 in")).unwrap();
            (limits.lower(), limits.upper())
        };
        assert_eq!(limits("96 DP"), (size("0.490 in"), size("0.504 in")));
        assert_eq!(limits("64 DP raised class I"), (size("0.488 in"), size("0.505 in")));
        assert_eq!(limits("160 DP class III"), (size("0.497 in"), size("0.500 in")));
        let blank = Knurl::parse("128 DP").unwrap().blank_limits(size("0.25 in")).unwrap();
        assert_eq!((blank.lower(), blank.upper()), (size("0.2493 in"), size("0.2507 in")));
    }

    #[test]
    fn every_designation_reads_back() {
        for text in ["RGV 1.2", "64 DP diagonal class I", "128 DP straight class II"] {
            let knurl = Knurl::parse(text).unwrap();
            assert_eq!(knurl.to_string(), text);
            assert_eq!(Knurl::parse(&knurl.to_string()), Ok(knurl));
        }
    }

    #[test]
    fn refusals_say_why() {
        let told = |text: &str| Knurl::parse(text).unwrap_err().to_string();
        assert_eq!(
            told("RAA 0.7"),
            "DIN 82:1973 has no pitch 0.7: it has 0.5, 0.6, 0.8, 1.0, 1.2 and 1.6 mm"
        );
        assert!(told("100 DP").contains("64, 96, 128 and 160"));
        assert_eq!(told("96 DP diagonal class II"), "tolerance class II is for straight knurls only");
        for text in
            ["", "RAA", "XAA 0.8", "RAA 0.8 mm", "RAA x", "96", "x DP", "96 DP class IV", "96 DP class I I"]
        {
            assert!(told(text).contains("is not a valid knurl designation; expected"), "{text}");
        }
        assert!(Knurl::parse("96 DP raised").unwrap().blank(size("0.5 in")).is_err());
        assert!(Knurl::parse("RAA 1.6").unwrap().blank(size("0.8 mm")).is_err());
        assert!(Knurl::parse("RAA 1.6").unwrap().crest_limits(size("20 mm")).is_err());
        assert!(Knurl::parse("96 DP").unwrap().crest_limits(size("0.009 in")).is_err());
    }
}

//! Standard tapers of tools and spindles by their designation.
mod table;

use crate::error::excerpt;
use crate::math::atan_degrees;
use crate::quantity::{Angle, Quantity, Ratio};
use crate::{Size, Units};
use std::{fmt, str::FromStr};
pub use table::TaperFamily;
use table::{FAMILIES, Family, Row};
use tenths_macros::{Object, accessors};

/// A standard taper: how much the diameter changes over the length, and how large it is at its gauge line.
///
/// ```
/// use tenths::{Quantity, Size, StandardTaper};
/// let taper = StandardTaper::parse("MT3")?;
/// assert_eq!(taper.to_string(), "Morse 3");
/// assert_eq!(taper.large_diameter(), Size::parse("0.938 in").unwrap());
/// assert_eq!(format!("{:.5}", 12.0 * taper.taper().metric()), "0.60235");
/// assert_eq!(format!("{:.4}", taper.half_angle().metric()), "1.4377");
/// # Ok::<(), tenths::TaperError>(())
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Object)]
#[object(accessors, designation)]
pub struct StandardTaper {
    family: TaperFamily,
    row: u8,
}

/// Why text is not a standard taper.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum TaperError {
    /// The text is not in a form that is known.
    #[error(
        "`{text}` is not a standard taper; expected e.g. `Morse 3` or `MT3`, `metric 80`, `7:24 No. 40`, `Jarno 7` or \
         `Brown & Sharpe 9`"
    )]
    Syntax {
        /// The text as given.
        text: String,
    },
    /// The family has no taper of this number.
    #[error("there is no {family} {number}; the sizes are {known}")]
    Number {
        /// The family.
        family: &'static str,
        /// The number as given.
        number: String,
        /// The numbers there are.
        known: String,
    },
}

impl StandardTaper {
    /// Reads a designation: `Morse 3`, `MT3`, `MK 3`; `metric 80`, `ME 80`; `7:24 No. 40`, `7/24 40`, `ISO 40`, `SK
    /// 40`, `BT 40`, of which the holders differ and the taper is one; `Jarno 7`; `Brown & Sharpe 9`, `B&S 9`. Capitals
    /// do not matter. The half number of Morse is `4 1/2` or `4.5`.
    ///
    /// # Errors
    /// Any [`TaperError`].
    pub fn parse(text: &str) -> Result<StandardTaper, TaperError> {
        let syntax = || TaperError::Syntax { text: excerpt(text.trim()) };
        let lower = text.trim().to_lowercase();
        let begins = |family: &'static Family| {
            let rest = family.aliases.iter().find_map(|name| lower.strip_prefix(name));
            rest.map(|rest| (family, rest))
        };
        let (found, rest) = FAMILIES.iter().find_map(begins).ok_or_else(syntax)?;
        let mut number = rest.trim_start();
        for word in ["taper", "no.", "no", "#", "-"] {
            number = number.strip_prefix(word).unwrap_or(number).trim_start();
        }
        if !number.starts_with(|first: char| first.is_ascii_digit()) {
            return Err(syntax());
        }
        let number = match number {
            "4.5" | "4-1/2" | "4½" => "4 1/2",
            other => other,
        };
        match found.rows.iter().position(|row| row.number == number) {
            Some(row) => Ok(StandardTaper { family: found.family, row: row as u8 }),
            None => Err(TaperError::Number {
                family: found.name,
                number: excerpt(number),
                known: found.rows.iter().map(|row| row.number).collect::<Vec<_>>().join(", "),
            }),
        }
    }

    /// Every taper that is known, by family and size.
    pub fn all() -> impl Iterator<Item = StandardTaper> {
        FAMILIES.iter().flat_map(|family| {
            (0..family.rows.len() as u8).map(|row| StandardTaper { family: family.family, row })
        })
    }

    /// The side in which the standard counts.
    pub const fn units(self) -> Units {
        match self.family {
            TaperFamily::Metric => Units::Metric,
            _ => Units::Inch,
        }
    }

    fn row(self) -> &'static Row {
        &FAMILIES[self.family as usize].rows[usize::from(self.row)]
    }
}

#[accessors]
impl StandardTaper {
    /// The designation, which reads as the same taper.
    #[field]
    pub fn designation(self) -> String {
        self.to_string()
    }

    /// The family.
    #[field]
    pub const fn family(self) -> TaperFamily {
        self.family
    }

    /// The number, `3` or `4 1/2`.
    #[field]
    pub fn number(self) -> &'static str {
        self.row().number
    }

    /// Change of the diameter over the length, as the formulas of [`super::taper`] take it.
    #[field]
    pub fn taper(self) -> Ratio {
        let [numerator, denominator] = self.row().taper;
        Ratio::new(numerator as f64 / denominator as f64)
    }

    /// Angle from side to side: 2 atan(taper / 2).
    #[field]
    pub fn included_angle(self) -> Angle {
        Angle::degrees(2.0 * atan_degrees(0.5 * self.taper().metric()))
    }

    /// Angle from axis to side, to which a compound slide is set.
    #[field]
    pub fn half_angle(self) -> Angle {
        Angle::degrees(atan_degrees(0.5 * self.taper().metric()))
    }

    /// Diameter at the large end, or of a steep taper at its gauge line.
    #[field]
    pub fn large_diameter(self) -> Size {
        Size::from_picometres(self.row().large)
    }

    /// Diameter at the small end, where the table has one.
    #[field]
    pub fn small_diameter(self) -> Option<Size> {
        self.row().small.map(|[small, _]| Size::from_picometres(small))
    }

    /// Length between the two diameters, where the table has one. Sockets and shanks of other lengths are in use, above
    /// all of Brown & Sharpe tapers, which keep the diameter of the small end.
    #[field]
    pub fn length(self) -> Option<Size> {
        self.row().small.map(|[_, length]| Size::from_picometres(length))
    }

    /// The standard, or the rule, that gives the taper.
    #[field]
    pub fn standard(self) -> &'static str {
        FAMILIES[self.family as usize].standard
    }

    /// Where the figures come from.
    #[field]
    pub fn source(self) -> &'static str {
        self.row().source
    }

    /// Whether figures of this taper are from memory.
    #[field]
    pub fn is_from_memory(self) -> bool {
        self.source().contains("memory")
    }
}

impl fmt::Display for StandardTaper {
    /// Writes a designation that reads back as the same taper.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{} {}", self.family.name(), self.number()))
    }
}

impl FromStr for StandardTaper {
    type Err = TaperError;

    /// As [`StandardTaper::parse`].
    fn from_str(text: &str) -> Result<StandardTaper, TaperError> {
        StandardTaper::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taper(text: &str) -> StandardTaper {
        StandardTaper::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn inches(size: Size) -> f64 {
        size.to_float(Units::Inch)
    }

    #[test]
    fn designations_read_back() {
        for taper in StandardTaper::all() {
            assert_eq!(taper.to_string().parse(), Ok(taper));
        }
        for (text, told) in [
            ("MT3", "Morse 3"),
            ("mt 0", "Morse 0"),
            ("MK-4", "Morse 4"),
            ("Morse taper No. 4.5", "Morse 4 1/2"),
            ("ME 80", "metric 80"),
            ("ISO 40", "7:24 No. 40"),
            ("7/24 #50", "7:24 No. 50"),
            ("SK30", "7:24 No. 30"),
            ("b&s 9", "Brown & Sharpe 9"),
            ("JARNO 20", "Jarno 20"),
        ] {
            assert_eq!(taper(text).to_string(), told, "{text}");
        }
    }

    #[test]
    fn refusals_say_why() {
        for (text, why) in [
            ("Morse 8", "there is no Morse 8; the sizes are 0, 1, 2, 3, 4, 4 1/2, 5, 6, 7"),
            ("Jarno 1", "there is no Jarno 1"),
            ("Morse", "is not a standard taper; expected"),
            ("3", "is not a standard taper"),
            ("", "is not a standard taper"),
            ("7:24 No. 41", "there is no 7:24 No. 41"),
        ] {
            let error = StandardTaper::parse(text).unwrap_err().to_string();
            assert!(error.contains(why), "{text}: {error}");
        }
    }

    // The two ends, the length and the taper of a row are printed apart, and have to fit: to half of a ten-thousandth
    // of an inch, in which the ends are given.
    #[test]
    fn ends_and_length_give_the_taper() {
        let mut rows = 0;
        for taper in StandardTaper::all() {
            let (Some(small), Some(length)) = (taper.small_diameter(), taper.length()) else { continue };
            let grown = inches(small) + taper.taper().metric() * inches(length);
            let large = inches(taper.large_diameter());
            assert!((grown - large).abs() < 0.51e-4, "{taper}: {grown} and {large}");
            rows += 1;
        }
        assert_eq!(rows, 9 + 19 + 16);
    }

    // Diameters at the large end in ISO 296, in thousandths of a millimetre, from memory, as reprints in millimetres
    // have them too: those of the inch table, rounded.
    #[test]
    fn morse_tapers_are_those_of_iso_296() {
        let metric = [9045, 12_065, 17_780, 23_825, 31_267, 44_399, 63_348];
        for (number, micrometres) in [0, 1, 2, 3, 4, 5, 6].into_iter().zip(metric) {
            let found = taper(&format!("Morse {number}")).large_diameter().picometres();
            assert_eq!((found + 500_000) / 1_000_000, micrometres, "Morse {number}");
        }
        // The ratios of ISO 296 and DIN 228, 1 : x, from memory.
        let ratios = [19.212, 20.047, 20.020, 19.922, 19.254, 19.002, 19.180];
        for (number, ratio) in [0, 1, 2, 3, 4, 5, 6].into_iter().zip(ratios) {
            let found = 1.0 / taper(&format!("Morse {number}")).taper().metric();
            assert!((found - ratio).abs() < 0.0006, "Morse {number}: 1 : {found}");
        }
        // Half angles in degrees, to four places: a reprint of the inch table.
        let angles = [1.4908, 1.4287, 1.4307, 1.4377, 1.4876, 1.5073, 1.4933, 1.4894];
        for (number, angle) in [0, 1, 2, 3, 4, 5, 6, 7].into_iter().zip(angles) {
            let found = taper(&format!("Morse {number}")).half_angle().metric();
            assert!((found - angle).abs() < 1e-4, "Morse {number}: {found}°");
        }
    }

    // The Jarno rule: eighths, tenths and halves of an inch by the number.
    #[test]
    fn jarno_tapers_keep_their_rule() {
        for n in 2..=20 {
            let jarno = taper(&format!("Jarno {n}"));
            let ends = [jarno.large_diameter(), jarno.small_diameter().unwrap(), jarno.length().unwrap()];
            let rule = [format!("{n}/8 in"), format!("{} in", f64::from(n) / 10.0), format!("{n}/2 in")];
            assert_eq!(ends, rule.map(|text| Size::parse(&text).unwrap()));
            assert_eq!(jarno.taper().metric(), 0.05);
        }
    }

    // 7:24 is 3 1/2 in per foot, and 16° 35' 40" from side to side: common practice. ISO 297 has 31.75, 44.45, 57.15,
    // 69.85 and 107.95 mm, from memory.
    #[test]
    fn steep_tapers_are_one_taper() {
        for steep in StandardTaper::all().filter(|taper| taper.family() == TaperFamily::Steep) {
            assert_eq!(steep.taper().metric(), 7.0 / 24.0);
            assert!((steep.included_angle().metric() - (16.0 + 35.0 / 60.0 + 40.0 / 3600.0)).abs() < 2e-4);
        }
        for (number, diameter) in
            [("30", "31.75"), ("40", "44.45"), ("45", "57.15"), ("50", "69.85"), ("60", "107.95")]
        {
            let found = taper(&format!("7:24 No. {number}")).large_diameter();
            assert_eq!(found, Size::parse(&format!("{diameter} mm")).unwrap());
        }
    }

    #[test]
    fn metric_tapers_are_named_by_their_diameter() {
        for metric in StandardTaper::all().filter(|taper| taper.family() == TaperFamily::Metric) {
            assert_eq!(metric.large_diameter().format(Units::Metric), format!("{} mm", metric.number()));
            assert_eq!(metric.taper().metric(), 0.05);
        }
    }

    #[test]
    fn diameters_rise_with_the_number() {
        for pair in StandardTaper::all().collect::<Vec<_>>().windows(2) {
            let [one, next] = pair else { continue };
            assert!(one.family() != next.family() || one.large_diameter() < next.large_diameter(), "{next}");
        }
        let tapers = StandardTaper::all().map(|taper| (12.0 * taper.taper().metric(), taper.family()));
        for (per_foot, family) in tapers {
            let range = match family {
                TaperFamily::Morse => 0.598..0.632,
                TaperFamily::BrownSharpe => 0.499..0.517,
                TaperFamily::Steep => 3.4999..3.5001,
                TaperFamily::Metric | TaperFamily::Jarno => 0.5999..0.6001,
            };
            assert!(range.contains(&per_foot), "{family:?}: {per_foot}");
        }
    }
}

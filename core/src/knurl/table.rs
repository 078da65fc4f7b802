//! Pitches, growth and tolerances of knurls in the standards.
use tenths_macros::Choice;

/// How the grooves of a knurl run, and what stands between them.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum KnurlPattern {
    /// Grooves along the axis.
    Straight,
    /// Grooves one way round, at 30 degrees.
    Diagonal,
    /// Grooves two ways, points raised.
    Raised,
    /// Grooves two ways, points indented.
    Indented,
}

/// The metric standard with its edition.
pub(super) const DIN: &str = "DIN 82:1973";
/// The inch standard with its edition.
pub(super) const ASME: &str = "ASME B94.6-1984";

/// A profile of the metric standard.
#[derive(PartialEq, Eq, Hash, Debug)]
pub(super) struct Profile {
    pub name: &'static str,
    pub pattern: KnurlPattern,
    /// Growth for a groove of 90 degrees, in hundredths of the pitch.
    pub factor: i64,
}

const fn profile(name: &'static str, pattern: KnurlPattern, factor: i64) -> Profile {
    Profile { name, pattern, factor }
}

/// Source: DIN 82:1973. The line RKV was read in print, the other factors are from memory; all are what conservation of
/// volume gives, rounded. ISO 13444 keeps profiles and pitches (from memory).
pub(super) static PROFILES: [Profile; 7] = [
    profile("RAA", KnurlPattern::Straight, 50),
    profile("RBL", KnurlPattern::Diagonal, 50),
    profile("RBR", KnurlPattern::Diagonal, 50),
    profile("RGE", KnurlPattern::Raised, 67),
    profile("RGV", KnurlPattern::Indented, 33),
    profile("RKE", KnurlPattern::Raised, 67),
    profile("RKV", KnurlPattern::Indented, 33),
];

/// Pitches in hundredths of a millimetre. Source: DIN 82:1973, from memory.
pub(super) static DIN_PITCHES: [i64; 6] = [50, 60, 80, 100, 120, 160];

/// A pitch of the inch standard, with depths of the tooth in ten-thousandths of an inch.
#[derive(PartialEq, Eq, Hash, Debug)]
pub(super) struct InchRow {
    /// Its place in the list, and in that of tolerances.
    pub place: usize,
    /// Teeth to an inch of diameter.
    pub diametral_pitch: i64,
    pub straight_depth: i64,
    /// At 30 degrees.
    pub diagonal_depth: i64,
}

const fn row(place: usize, diametral_pitch: i64, straight_depth: i64, diagonal_depth: i64) -> InchRow {
    InchRow { place, diametral_pitch, straight_depth, diagonal_depth }
}

/// Source: ASME B94.6-1984 as in Machinery's Handbook, table 2 of knurls; depths from memory. They are the sharp tooth
/// of 90 degrees cut off to whole thousandths.
pub(super) static INCH_ROWS: [InchRow; 4] =
    [row(0, 64, 240, 210), row(1, 96, 160, 140), row(2, 128, 120, 100), row(3, 160, 90, 80)];

/// Tolerance classes of the inch standard; II and III are for straight knurls only.
pub(super) static CLASSES: [&str; 3] = ["I", "II", "III"];

/// Deviations in ten-thousandths of an inch.
pub(super) struct Tolerance {
    pub crest_upper: i64,
    pub crest_lower: i64,
    pub blank_upper: i64,
    pub blank_lower: i64,
}

const fn tolerance(crest_upper: i64, crest_lower: i64, blank_upper: i64, blank_lower: i64) -> Tolerance {
    Tolerance { crest_upper, crest_lower, blank_upper, blank_lower }
}

/// By class, then by pitch in the order of [`INCH_ROWS`].
///
/// Source: Machinery's Handbook, 31st ed. (Industrial Press 2020), p. 1059-1060, table 4. Class I was read in print,
/// classes II and III are from memory.
pub(super) static TOLERANCES: [[Tolerance; 4]; 3] = [
    [
        tolerance(50, -120, 15, -15),
        tolerance(40, -100, 10, -10),
        tolerance(30, -80, 7, -7),
        tolerance(20, -60, 5, -5),
    ],
    [
        tolerance(0, -100, 15, -15),
        tolerance(0, -90, 10, -10),
        tolerance(0, -80, 7, -7),
        tolerance(0, -60, 5, -5),
    ],
    [
        tolerance(0, -60, 0, -15),
        tolerance(0, -50, 0, -10),
        tolerance(0, -40, 0, -7),
        tolerance(0, -30, 0, -5),
    ],
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::knurl::knurl_growth_base;
    use std::f64::consts::PI;

    // The factors are those of conservation of volume: 1/2, 2/3 and 1/3 of the pitch at 90 degrees, rounded.
    #[test]
    fn factors_are_those_of_the_pattern() {
        for profile in &PROFILES {
            let exact = match profile.pattern {
                KnurlPattern::Straight | KnurlPattern::Diagonal => 50.0,
                KnurlPattern::Raised => 200.0 / 3.0,
                KnurlPattern::Indented => 100.0 / 3.0,
            };
            assert_eq!(profile.factor, f64::round(exact) as i64, "{}", profile.name);
        }
    }

    // A coarser pitch has deeper teeth and wider tolerances, and a better class is never the wider.
    #[test]
    fn depths_and_tolerances_fall_with_the_pitch() {
        assert!(DIN_PITCHES.is_sorted());
        for (k, row) in INCH_ROWS.iter().enumerate() {
            assert_eq!(row.place, k);
            let sharp = 1e4 * knurl_growth_base(PI / row.diametral_pitch as f64, 90.0);
            // Cut off to thousandths, and at most one and a half below the sharp tooth.
            assert!(row.straight_depth as f64 <= sharp && sharp - 15.0 < row.straight_depth as f64);
            let diagonal = sharp * 0.75f64.sqrt();
            assert!(row.diagonal_depth as f64 <= diagonal && diagonal - 15.0 < row.diagonal_depth as f64);
        }
        let width = |t: &Tolerance| (t.crest_upper - t.crest_lower, t.blank_upper - t.blank_lower);
        for class in &TOLERANCES {
            for pair in class.windows(2) {
                assert!(width(&pair[0]).0 > width(&pair[1]).0 && width(&pair[0]).1 > width(&pair[1]).1);
            }
        }
        for pair in TOLERANCES.windows(2) {
            for (wide, close) in pair[0].iter().zip(&pair[1]) {
                assert!(width(wide).0 > width(close).0 && width(wide).1 >= width(close).1);
                assert!(wide.crest_upper >= close.crest_upper && wide.crest_lower <= close.crest_lower);
            }
        }
    }
}

//! Finds fits for a wanted clearance or interference.
use super::FitError;
use super::iso::{Member, ToleranceClass};
use super::pair::{Fit, FitBasis};
use crate::Size;
use std::fmt;
use tenths_macros::{Choice, Object};

/// How much a standard recommends a fit; the most recommended are the least.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Choice)]
pub enum Preference {
    /// One of the ten preferred fits of ASME B4.2-1978 (R2009), which are among those of ISO 286-1.
    Preferred,
    /// One of the fits that ISO 286-1:2010 recommends, its list from memory.
    Recommended,
    /// Any other.
    Other,
}

/// A fit that holds a wish.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Object)]
#[object(summary)]
pub struct FitChoice {
    /// The fit.
    pub fit: Fit,
    /// How much it is recommended.
    pub preference: Preference,
    /// The tolerances of hole and shaft together: of fits that are recommended alike, the widest comes first.
    pub tolerance: Size,
    /// How far the middle of its clearance is from the middle of the wish: of fits as wide, the nearest comes first.
    pub off_middle: Size,
}

impl fmt::Display for FitChoice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}", self.fit, self.preference.name())
    }
}

/// The class that is basic, and those that go with it.
type Partners = &'static [(&'static str, &'static [&'static str])];

/// Preferred fits of hole and shaft basis: ASME B4.2-1978, table 1.
static PREFERRED: [Partners; 2] = [
    &[
        ("H11", &["c11"]),
        ("H9", &["d9"]),
        ("H8", &["f7"]),
        ("H7", &["g6", "h6", "k6", "n6", "p6", "s6", "u6"]),
    ],
    &[
        ("h11", &["C11"]),
        ("h9", &["D9"]),
        ("h7", &["F8"]),
        ("h6", &["G7", "H7", "K7", "N7", "P7", "S7", "U7"]),
    ],
];

/// Recommended fits of hole and shaft basis: ISO 286-1:2010, the tables of recommended fits, from memory.
static RECOMMENDED: [Partners; 2] = [
    &[
        ("H6", &["g5", "h5", "js5", "k5", "m5", "n5", "p5"]),
        ("H7", &["f6", "g6", "h6", "js6", "k6", "m6", "n6", "p6", "r6", "s6", "t6", "u6", "x6"]),
        ("H8", &["e7", "f7", "h7", "js7", "k7", "m7", "s7", "u7", "d8", "e8", "f8", "h8"]),
        ("H9", &["d8", "e8", "f8", "h8"]),
        ("H10", &["b9", "c9", "d9", "e9", "h9"]),
        ("H11", &["b11", "c11", "d10", "h10"]),
    ],
    &[
        ("h5", &["G6", "H6", "JS6", "K6", "M6", "N6", "P6"]),
        ("h6", &["F7", "G7", "H7", "JS7", "K7", "M7", "N7", "P7", "R7", "S7", "T7", "U7", "X7"]),
        ("h7", &["E8", "F8", "H8"]),
        ("h8", &["D9", "E9", "F9", "H9"]),
        ("h9", &["E8", "F8", "H8", "D9", "E9", "F9", "H9", "B11", "C10", "D10", "H10"]),
    ],
];

/// Fits of ISO 286 whose clearance stays between `least` and `greatest`, both included, the best ones first.
/// Interference is negative: a wish for 0.010 to 0.040 mm of it is -0.040 to -0.010 mm.
///
/// Preferred fits come first, then recommended ones, then all others whose basic member has a grade from 4 to 13 and
/// whose shaft is of the grade of the hole or up to two grades finer, as is usual. Among fits that are recommended
/// alike, the one with the widest tolerances of hole and shaft together comes first, as the cheapest to make; of two
/// as wide, that whose middle is nearest to the middle of the wish. The list is empty where no fit holds the wish.
///
/// # Errors
/// [`FitError::Wish`] where the least clearance is above the greatest, [`FitError::NominalSize`].
pub fn select_fits(
    nominal: Size,
    least: Size,
    greatest: Size,
    basis: FitBasis,
) -> Result<Vec<FitChoice>, FitError> {
    if least > greatest {
        return Err(FitError::Wish { least, greatest });
    }
    // Every size that the standard covers has H7.
    ToleranceClass::parse("H7")?.limits(nominal)?;
    let wanted = i128::from(least.picometres()) + i128::from(greatest.picometres());
    let mut found = Vec::new();
    for (hole, shaft) in pairs(basis) {
        let Ok(fit) = Fit::iso(nominal, hole, shaft) else { continue };
        if fit.min_clearance() < least || fit.max_clearance() > greatest {
            continue;
        }
        let middle =
            i128::from(fit.min_clearance().picometres()) + i128::from(fit.max_clearance().picometres());
        let width = fit.hole().tolerance().picometres() + fit.shaft().tolerance().picometres();
        let twice_off = (middle - wanted).abs();
        let choice = FitChoice {
            fit,
            preference: preference(basis, hole, shaft),
            tolerance: Size::from_picometres(width),
            // Both middles lie within the wish.
            off_middle: Size::from_picometres(i64::try_from(twice_off / 2).unwrap_or(i64::MAX)),
        };
        found.push(((choice.preference, -width, twice_off, hole, shaft), choice));
    }
    found.sort_by_key(|(rank, _)| *rank);
    Ok(found.into_iter().map(|(_, choice)| choice).collect())
}

/// The pairs of classes that are tried: all with a basic member of a usual grade, and a partner of a grade beside it.
fn pairs(basis: FitBasis) -> impl Iterator<Item = (ToleranceClass, ToleranceClass)> {
    let (basic, other) = match basis {
        FitBasis::Hole => (Member::Hole, Member::Shaft),
        FitBasis::Shaft => (Member::Shaft, Member::Hole),
    };
    let is_usual = |class: &ToleranceClass| class.is_basic() && USUAL_GRADES.contains(&class.grade_place());
    let all = ToleranceClass::all(basic).filter(is_usual);
    let all = all.flat_map(move |basic| ToleranceClass::all(other).map(move |other| (basic, other)));
    let ordered = all.map(move |(one, other)| match basis {
        FitBasis::Hole => (one, other),
        FitBasis::Shaft => (other, one),
    });
    ordered.filter(move |(hole, shaft)| {
        let finer = hole.grade_place().checked_sub(shaft.grade_place());
        finer.is_some_and(|finer| finer <= 2) || preference(basis, *hole, *shaft) < Preference::Other
    })
}

/// The places of IT4 to IT13, one past their numbers.
const USUAL_GRADES: std::ops::RangeInclusive<u8> = 5..=14;

fn preference(basis: FitBasis, hole: ToleranceClass, shaft: ToleranceClass) -> Preference {
    let (basic, other) = match basis {
        FitBasis::Hole => (hole, shaft),
        FitBasis::Shaft => (shaft, hole),
    };
    let is = |class: ToleranceClass, name: &str| {
        name.strip_prefix(class.position()).is_some_and(|grade| grade == class.grade())
    };
    let has = |table: &[Partners; 2]| {
        let mut rows = table[basis as usize].iter();
        rows.any(|(name, others)| is(basic, name) && others.iter().any(|name| is(other, name)))
    };
    if has(&PREFERRED) {
        Preference::Preferred
    } else if has(&RECOMMENDED) {
        Preference::Recommended
    } else {
        Preference::Other
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn select(nominal: &str, least: &str, greatest: &str, basis: FitBasis) -> Vec<FitChoice> {
        let size = |text| Size::parse(text).unwrap();
        select_fits(size(nominal), size(least), size(greatest), basis).unwrap()
    }

    fn symbols(choices: &[FitChoice]) -> Vec<String> {
        choices.iter().filter_map(|choice| choice.fit.symbol()).collect()
    }

    // The extremes are those of the preferred fits at 25 mm, ASME B4.2: a wish of just these must give the fit, and
    // one a micrometre closer must not.
    #[test]
    fn a_preferred_fit_holds_its_own_extremes() {
        let of = |least: &str, greatest: &str, basis| symbols(&select("25 mm", least, greatest, basis));
        for (fit, least, greatest, closer) in [
            ("H7/g6", "0.007 mm", "0.041 mm", "0.040 mm"),
            ("H11/c11", "0.110 mm", "0.370 mm", "0.369 mm"),
            ("H7/k6", "-0.015 mm", "0.019 mm", "0.018 mm"),
        ] {
            assert_eq!(of(least, greatest, FitBasis::Hole)[0], fit);
            assert!(!of(least, closer, FitBasis::Hole).contains(&fit.to_string()), "{fit}");
        }
        assert!(of("-0.035 mm", "-0.001 mm", FitBasis::Hole).contains(&"H7/p6".into()));
        assert!(of("-0.035 mm", "-0.001 mm", FitBasis::Shaft).contains(&"P7/h6".into()));
    }

    #[test]
    fn fits_come_in_rank_and_all_hold_the_wish() {
        for basis in [FitBasis::Hole, FitBasis::Shaft] {
            let choices = select("40 mm", "0.01 mm", "0.3 mm", basis);
            assert!(choices.windows(2).all(|pair| pair[0].preference <= pair[1].preference));
            for preference in [Preference::Preferred, Preference::Recommended, Preference::Other] {
                let mut tolerances =
                    choices.iter().filter(|choice| choice.preference == preference).map(|choice| {
                        choice.fit.hole().tolerance().picometres()
                            + choice.fit.shaft().tolerance().picometres()
                    });
                assert!(tolerances.clone().count() > 0, "{preference:?}");
                let first = tolerances.next();
                assert!(tolerances.all(|tolerance| Some(tolerance) <= first));
            }
            let (least, greatest) = (Size::from_picometres(10_000_000), Size::from_picometres(300_000_000));
            for FitChoice { fit, .. } in &choices {
                assert!(fit.min_clearance() >= least && fit.max_clearance() <= greatest, "{fit}");
                assert_eq!(fit.basis(), Some(basis), "{fit}");
            }
        }
    }

    #[test]
    fn every_listed_fit_is_one() {
        for (basis, k) in [(FitBasis::Hole, 0), (FitBasis::Shaft, 1)] {
            let tried: Vec<_> = pairs(basis).collect();
            for (basic, others) in PREFERRED[k].iter().chain(RECOMMENDED[k]) {
                for other in *others {
                    let (one, other) =
                        (ToleranceClass::parse(basic).unwrap(), ToleranceClass::parse(other).unwrap());
                    let pair = if basis == FitBasis::Hole { (one, other) } else { (other, one) };
                    assert!(tried.contains(&pair), "{pair:?}");
                    assert!(preference(basis, pair.0, pair.1) < Preference::Other);
                }
            }
        }
    }

    #[test]
    fn a_wish_that_no_fit_holds_gives_none() {
        assert!(select("25 mm", "0 mm", "0.001 mm", FitBasis::Hole).is_empty());
        let size = |count| Size::from_picometres(count);
        let reversed = select_fits(size(25_000_000_000), size(1), size(0), FitBasis::Hole);
        assert!(matches!(reversed, Err(FitError::Wish { .. })));
        let far = select_fits(size(i64::MAX), size(i64::MIN), size(i64::MAX), FitBasis::Hole);
        assert!(matches!(far, Err(FitError::NominalSize { .. })));
    }
}

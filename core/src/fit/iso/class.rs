//! Tolerance classes and their limits.
use super::tables::{GRADES, J_HOLES, J_SHAFTS, NO, RANGES, SHAFTS, STEPS};
use crate::limits::FitError;
use crate::quantity::Units;
use crate::{Limits, Size};
use std::fmt;
use tenths_macros::Choice;

/// The standard of these limits, with its edition.
pub const STANDARD: &str = "ISO 286:2010";

/// Where the figures come from.
pub const SOURCE: &str = "ISO 286, figures of textbook and catalogue reprints, some from memory";

/// A hole, which takes a shaft in, or a shaft.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Choice)]
pub enum Member {
    /// An internal feature, such as a bore or a slot; its classes have capitals.
    Hole,
    /// An external feature, such as a shaft or a key; its classes have small letters.
    Shaft,
}

/// The positions of a tolerance, in the order of the standard.
pub(super) static POSITIONS: [[&str; 2]; 28] = [
    ["A", "a"],
    ["B", "b"],
    ["C", "c"],
    ["CD", "cd"],
    ["D", "d"],
    ["E", "e"],
    ["EF", "ef"],
    ["F", "f"],
    ["FG", "fg"],
    ["G", "g"],
    ["H", "h"],
    ["JS", "js"],
    ["J", "j"],
    ["K", "k"],
    ["M", "m"],
    ["N", "n"],
    ["P", "p"],
    ["R", "r"],
    ["S", "s"],
    ["T", "t"],
    ["U", "u"],
    ["V", "v"],
    ["X", "x"],
    ["Y", "y"],
    ["Z", "z"],
    ["ZA", "za"],
    ["ZB", "zb"],
    ["ZC", "zc"],
];

/// Places in [`POSITIONS`].
const B: usize = 1;
const H: usize = 10;
const JS: usize = 11;
const J: usize = 12;
const K: usize = 13;
const M: usize = 14;
const N: usize = 15;

/// The place of a grade: 0 for IT01, 1 for IT0, and then IT1 to IT18.
const fn it(grade: usize) -> usize {
    grade + 1
}

static GRADE_NAMES: [&str; 20] = [
    "01", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "16", "17",
    "18",
];

/// The standard tolerance of a grade from IT1 to IT18 in the range that holds `millimetres`, in picometres; 0 where the
/// standard has none.
pub(crate) fn grade_tolerance(grade: u8, millimetres: i64) -> i64 {
    let row = GRADES.get(RANGES.partition_point(|&end| end < millimetres));
    row.and_then(|row| row.get(it(usize::from(grade)))).map_or(0, |&tenths| i64::from(tenths) * TENTH)
}

/// Up to 500 mm, in [`RANGES`]: the range of the last row there.
const TO_500: usize = 12;
/// The range above 250 and up to 315 mm, where M6 has a figure of its own.
const TO_315: usize = 10;

const MICROMETRE: i64 = 1_000_000;
const TENTH: i64 = MICROMETRE / 10;

/// A tolerance class: a hole or a shaft, the position of its tolerance, and the grade, as in `H7` and `js6`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct ToleranceClass {
    pub(super) member: Member,
    /// A place in [`POSITIONS`].
    pub(super) position: u8,
    /// A place in [`GRADE_NAMES`].
    pub(super) grade: u8,
}

/// The classes of a hole or a shaft that every part within `limits` satisfies, the closest tolerances first.
///
/// The nominal size is that of the limits. Bar stock of 12 +0/-0.011 mm, for one, is h6 as bought.
pub fn iso_classes(limits: &Limits, member: Member) -> Vec<ToleranceClass> {
    let mut classes: Vec<(i64, ToleranceClass)> = ToleranceClass::all(member)
        .filter_map(|class| {
            let zone = class.limits(limits.nominal()).ok()?;
            zone.contains(limits).then(|| (zone.tolerance().picometres(), class))
        })
        .collect();
    classes.sort_unstable();
    classes.into_iter().map(|(_, class)| class).collect()
}

impl ToleranceClass {
    /// Every class of a member, whether or not the standard has figures for it.
    pub(in crate::fit) fn all(member: Member) -> impl Iterator<Item = ToleranceClass> {
        let positions = 0..POSITIONS.len() as u8;
        positions.flat_map(move |position| {
            (0..GRADE_NAMES.len() as u8).map(move |grade| ToleranceClass { member, position, grade })
        })
    }

    /// Whether it is for holes or for shafts.
    pub const fn member(self) -> Member {
        self.member
    }

    /// The letters: `H`, `js`.
    pub fn position(self) -> &'static str {
        POSITIONS[usize::from(self.position)][self.member as usize]
    }

    /// The grade as designations have it: `01`, `0`, `1` to `18`.
    pub fn grade(self) -> &'static str {
        GRADE_NAMES[usize::from(self.grade)]
    }

    /// Steps from IT01, for comparing grades.
    pub(in crate::fit) const fn grade_place(self) -> u8 {
        self.grade
    }

    /// Whether it is a basic hole H or a basic shaft h.
    pub(in crate::fit) const fn is_basic(self) -> bool {
        self.position as usize == H
    }

    /// The limits at a nominal size.
    ///
    /// # Errors
    /// [`FitError::NominalSize`] and [`FitError::NotTabulated`].
    #[inline]
    pub fn limits(self, nominal: Size) -> Result<Limits, FitError> {
        match self.deviations(nominal) {
            Some([lower, upper]) => {
                let size = Size::from_picometres;
                Ok(Limits::with_deviations(nominal, size(upper), size(lower))?)
            }
            None => Err(self.missing(nominal)),
        }
    }

    /// As [`ToleranceClass::limits`], with js and JS of the grades 7 to 11 as older tables have them: an odd
    /// tolerance is first rounded down to an even number of micrometres.
    ///
    /// # Errors
    /// As [`ToleranceClass::limits`].
    pub fn limits_with_rounded_js(self, nominal: Size) -> Result<Limits, FitError> {
        let limits = self.limits(nominal)?;
        let grade = usize::from(self.grade);
        if usize::from(self.position) != JS || !(it(7)..=it(11)).contains(&grade) {
            return Ok(limits);
        }
        let half = limits.upper_deviation().picometres();
        let half = half - half % MICROMETRE;
        let size = Size::from_picometres;
        Ok(Limits::with_deviations(nominal, size(half), size(-half))?)
    }

    /// Lower and upper deviation in picometres, where the standard has figures.
    fn deviations(self, nominal: Size) -> Option<[i64; 2]> {
        const MILLIMETRE: i64 = Units::Metric.picometres();
        let (nominal, grade) = (nominal.picometres(), usize::from(self.grade));
        if nominal <= 0 {
            return None;
        }
        let whole = (nominal - 1) / MILLIMETRE + 1;
        let range = RANGES.partition_point(|&end| end < whole);
        let step = STEPS.partition_point(|&end| end < whole);
        let tolerance = GRADES.get(range)?[grade];
        let small = nominal <= MILLIMETRE;
        if tolerance == 0 || (small && grade >= it(14)) {
            return None;
        }
        let tolerance = i64::from(tolerance) * TENTH;
        if usize::from(self.position) == JS {
            return Some([-tolerance / 2, tolerance / 2]);
        }
        let place = DeviationKey { position: usize::from(self.position), grade, range, step, small };
        let end = match self.member {
            Member::Hole => place.hole()?,
            Member::Shaft => place.shaft()?,
        };
        Some(match end {
            End::Lower(lower) => [lower, lower + tolerance],
            End::Upper(upper) => [upper - tolerance, upper],
        })
    }

    #[cold]
    fn missing(self, nominal: Size) -> FitError {
        let class = self.to_string();
        let millimetres = |count: i64| Size::from_picometres(count * Units::Metric.picometres());
        if !nominal.is_positive() || nominal > millimetres(RANGES[RANGES.len() - 1]) {
            return FitError::NominalSize { text: format!("{} {class}", nominal.decimal(Units::Metric)) };
        }
        let grades: Vec<&str> = (0..GRADE_NAMES.len() as u8)
            .map(|grade| ToleranceClass { grade, ..self })
            .filter(|class| class.deviations(nominal).is_some())
            .map(ToleranceClass::grade)
            .collect();
        let instead = match grades[..] {
            [] => {
                let has = |end: &&i64| self.any_grade(millimetres(**end));
                let place = |end: Option<&i64>| end.and_then(|end| STEPS.iter().position(|step| step == end));
                match (place(STEPS.iter().find(has)), STEPS.iter().rev().find(has)) {
                    (Some(first), Some(last)) => {
                        let over = first.checked_sub(1).map_or(0, |before| STEPS[before]);
                        // Some positions are not used for the smallest sizes.
                        let over = if over == 0 && !self.any_grade(millimetres(1)) { 1 } else { over };
                        format!("{} covers sizes above {over} and up to {last} mm", self.position())
                    }
                    _ => format!("it has no {} at that size", self.position()),
                }
            }
            [only] => format!("{} has only grade {only} at that size", self.position()),
            [first, .., last] => format!("{} has grades {first} to {last} at that size", self.position()),
        };
        FitError::NotTabulated { class, nominal, instead }
    }

    fn any_grade(self, nominal: Size) -> bool {
        (0..GRADE_NAMES.len() as u8)
            .any(|grade| ToleranceClass { grade, ..self }.deviations(nominal).is_some())
    }
}

impl fmt::Display for ToleranceClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.position(), self.grade())
    }
}

/// Where to look up a fundamental deviation.
struct DeviationKey {
    position: usize,
    grade: usize,
    range: usize,
    step: usize,
    /// Up to 1 mm, where some classes are not used.
    small: bool,
}

/// A fundamental deviation in picometres: the end of the tolerance that is nearest to the nominal size.
enum End {
    Lower(i64),
    Upper(i64),
}

impl DeviationKey {
    fn shaft(&self) -> Option<End> {
        if self.position == J {
            let row = match self.grade {
                grade if grade == it(5) || grade == it(6) => 0,
                grade if grade == it(7) => 1,
                grade if grade == it(8) => 2,
                _ => return None,
            };
            return figure(*J_SHAFTS[row].get(self.range)?).map(End::Lower);
        }
        let deviation = self.tabulated()?;
        Some(match self.position {
            ..=H => End::Upper(deviation),
            K if !(it(4)..=it(7)).contains(&self.grade) => End::Lower(0),
            _ => End::Lower(deviation),
        })
    }

    /// A hole mirrors the shaft of its letter; above H, what delta and the exceptions of ISO 286-1 add comes on top.
    fn hole(&self) -> Option<End> {
        if self.position == J {
            let row = self.grade.checked_sub(it(6)).filter(|&row| row < J_HOLES.len())?;
            return figure(*J_HOLES[row].get(self.range)?).map(End::Upper);
        }
        let mirrored = -self.tabulated()?;
        if self.position <= H {
            return Some(End::Lower(mirrored));
        }
        let last = if self.position <= N { it(8) } else { it(7) };
        let coarse = self.grade > last;
        let upper = match self.position {
            K | M | N if coarse && self.range > TO_500 => return None,
            K if coarse && self.range > 0 => return None,
            N if coarse && self.small => return None,
            N if coarse && self.range > 0 => 0,
            M if self.grade == it(6) && self.range == TO_315 => -9 * MICROMETRE,
            _ if coarse => mirrored,
            _ => mirrored + self.delta()?,
        };
        Some(End::Upper(upper))
    }

    /// The deviation of the shaft, k as in the grades 4 to 7.
    fn tabulated(&self) -> Option<i64> {
        if self.small && self.position <= B {
            return None;
        }
        figure(SHAFTS[self.position][self.step])
    }

    /// The tolerance less that of the next finer grade; none up to 3 mm and above 500 mm.
    fn delta(&self) -> Option<i64> {
        if self.range == 0 || self.range > TO_500 {
            return Some(0);
        }
        let row = &GRADES[self.range];
        (self.grade >= it(3)).then(|| i64::from(row[self.grade] - row[self.grade - 1]) * TENTH)
    }
}

fn figure(micrometres: i16) -> Option<i64> {
    (micrometres != NO).then_some(i64::from(micrometres) * MICROMETRE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::iso::designation::{iso_limits, read_one};
    use proptest::prelude::*;

    fn limits(text: &str) -> Limits {
        iso_limits(text).unwrap_or_else(|error| panic!("{error}"))
    }

    fn deviations(text: &str) -> [i64; 2] {
        let limits = limits(text);
        [limits.upper_deviation().picometres(), limits.lower_deviation().picometres()]
    }

    #[test]
    fn designations_are_read_in_every_form() {
        let expected = Limits::parse("25 +0.021/0 mm").unwrap();
        for text in ["25 H7", "25H7", " 25.000  H7 ", "⌀25 H7", "Ø 25H7", "025 H7", "25.0000000000000 H7"]
        {
            assert_eq!(limits(text), expected, "{text}");
        }
        assert_eq!(limits("0.5 h6").nominal(), Size::from_picometres(500_000_000));
        assert_eq!(limits(".5 h6"), limits("0.5h6"));
    }

    #[test]
    fn refusals_say_why() {
        for (text, why) in [
            ("", "is not a valid tolerance designation"),
            ("25", "is not a valid tolerance designation"),
            ("25 7", "is not a valid tolerance designation"),
            ("H7", "`H7` needs its nominal size in millimetres, such as `25 H7`"),
            ("KRR7", "is not a valid tolerance designation"),
            ("25 KRR7", "`KRR7` has no position `KRR`: holes are A to ZC in capitals"),
            ("25 Js6", "has no position `Js`"),
            ("25 i6", "has no position `i`"),
            ("25 H", "`H` needs a tolerance grade, such as `H7`"),
            ("25 H19", "`H19` has no grade `19`: the grades are 01, 0 and 1 to 18"),
            ("25 H07", "has no grade `07`"),
            ("25 H7/g6", "is a fit of two parts"),
            ("25 H7/p", "is a fit of two parts"),
            ("25 mm H7", "is not a valid tolerance designation"),
            ("-25 H7", "is not a valid tolerance designation"),
            ("25,5 H7", "is not a valid tolerance designation"),
            ("0 H7", "above 0 and up to 3150 mm"),
            ("3150.1 H7", "above 0 and up to 3150 mm"),
            ("99999999999999999999999999 H7", "above 0 and up to 3150 mm"),
            ("25.0000000001 H7", "not a whole number of picometres"),
            ("20 t6", "ISO 286 has no t6 at 20 mm: t covers sizes above 24 and up to 3150 mm"),
            ("0.8 a9", "a covers sizes above 1 and up to 500 mm"),
            ("25 j9", "j has grades 5 to 7 at that size"),
            ("25 J5", "J has grades 6 to 8 at that size"),
            ("25 K9", "K has grades 3 to 8 at that size"),
            ("600 N9", "N has grades 1 to 8 at that size"),
            ("12 cd7", "cd covers sizes above 0 and up to 10 mm"),
            ("1 h14", "h has grades 01 to 13 at that size"),
            ("600 h0", "h has grades 1 to 18 at that size"),
            ("600 JS01", "JS has grades 1 to 18 at that size"),
        ] {
            let error = iso_limits(text).unwrap_err().to_string();
            assert!(error.contains(why), "{text}: {error}");
        }
    }

    // ISO 286-1: js is half the tolerance. IT7 of 25 mm is 21 µm; the older tables round to ±10.
    #[test]
    fn js_is_unrounded_and_rounded_on_demand() {
        assert_eq!(deviations("25 js7"), [10_500_000, -10_500_000]);
        assert_eq!(deviations("2 JS01"), [150_000, -150_000]);
        let rounded = |text: &str| {
            let (nominal, class) = read_one(text).unwrap();
            class.limits_with_rounded_js(nominal).unwrap().upper_deviation().picometres()
        };
        assert_eq!(["25 js7", "25 JS7", "25 js6"].map(rounded), [10_000_000, 10_000_000, 6_500_000]);
        assert_eq!(rounded("25 h7"), 0);
    }

    // ISO 286-1, note to the table of holes: M6 from 250 to 315 mm has an upper deviation of -9 µm, not -11.
    #[test]
    fn m6_has_its_exception() {
        assert_eq!(deviations("300 M6")[0], -9_000_000);
        assert_eq!(deviations("315 M6")[0], -9_000_000);
        // -20 µm and a delta of IT7 less IT6, 52 - 32.
        assert_eq!(deviations("300 M7")[0], 0);
    }

    // The general rule of ISO 286-1 mirrors holes and shafts, so that H8/f7 has the extremes of F8/h7.
    #[test]
    fn holes_mirror_shafts_where_no_exception_stands() {
        for place in (0..POSITIONS.len()).filter(|place| ![JS, J, K, N].contains(place)) {
            let [hole, shaft] = POSITIONS[place];
            for size in [2, 8, 25, 100, 400, 600, 2000] {
                let (Ok(hole), Ok(shaft)) =
                    (iso_limits(&format!("{size} {hole}9")), iso_limits(&format!("{size} {shaft}9")))
                else {
                    continue;
                };
                assert_eq!(
                    hole.upper_deviation().checked_neg(),
                    Some(shaft.lower_deviation()),
                    "{size} {place}"
                );
            }
        }
    }

    // Bar stock h6 is 12 +0/-0.011 mm: ISO 286-2.
    #[test]
    fn classes_of_limits_come_closest_first() {
        let names = |text: &str, member| -> Vec<String> {
            iso_classes(&Limits::parse(text).unwrap(), member).iter().map(ToString::to_string).collect()
        };
        let shafts = names("12 +0/-0.011 mm", Member::Shaft);
        assert_eq!(shafts[0], "h6");
        assert!(shafts.contains(&"h7".into()) && !shafts.contains(&"h5".into()));
        assert_eq!(names("12 +0.018/0 mm", Member::Hole)[0], "H7");
        assert!(names("4000 +1/0 mm", Member::Hole).is_empty());
        assert!(names("12 ±5 mm", Member::Hole).is_empty());
    }

    #[test]
    fn every_class_reads_back() {
        for class in Member::ALL.into_iter().flat_map(ToleranceClass::all) {
            assert_eq!(ToleranceClass::parse(&class.to_string()), Ok(class));
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(10_000))]

        #[test]
        fn no_designation_panics(
            any in "\\PC*",
            near in "(⌀|Ø)?[0-9]{0,5}\\.?[0-9]{0,11} ?[A-Za-z]{0,3}[0-9]{0,3}(/[a-z]{0,2}[0-9]{0,2})?",
            nominal in 1i64..3_200_000_000_000,
            place in 0usize..1120,
        ) {
            for text in [&any, &near] {
                if let Err(error) = iso_limits(text) {
                    prop_assert!(error.to_string().len() > 30, "{}", error);
                }
                let _ = crate::Fit::parse(text);
            }
            let class = Member::ALL.into_iter().flat_map(ToleranceClass::all).nth(place);
            if let Some(Err(error)) = class.map(|class| class.limits(Size::from_picometres(nominal))) {
                let text = error.to_string();
                prop_assert!(text.contains(" at that size") || text.contains("covers sizes") || text.contains("up to 3150 mm"), "{}", text);
            }
        }
    }
}

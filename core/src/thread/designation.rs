//! Reads thread designations.
use super::diameters::{Basic, Diameters, ThreadError};
use super::metric::{self, MetricClass};
use super::unified::{self, Series, UnifiedClass, UnifiedThread, series};
use crate::error::{excerpt, shortened};
use crate::{Size, Units};
use std::fmt;

/// What a designation says.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) struct Designation {
    form: Form,
    pub left_hand: bool,
}

#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
enum Form {
    Metric { nominal: Size, pitch: Size, class: Option<MetricClass> },
    Unified { thread: UnifiedThread, class: Option<UnifiedClass> },
}

/// Longer than any designation.
const LONGEST: usize = 60;
const METRIC_CLASSES: &str = "expected e.g. 4h, 6g or 5g6g for a screw, 6H or 5H6H for a nut, one class only";
const UNIFIED_CLASSES: &str = "expected 1A, 2A or 3A for a screw, 1B, 2B or 3B for a nut";

impl Designation {
    pub fn parse(text: &str) -> Result<Designation, ThreadError> {
        let syntax = || ThreadError::Syntax { text: excerpt(text) };
        let whole = text.trim();
        if whole.len() > LONGEST {
            return Err(syntax());
        }
        let (rest, left_hand) = match whole.strip_suffix("-LH") {
            Some(rest) => (rest, true),
            None => (whole, false),
        };
        let form = if let Some(rest) = rest.strip_prefix('M') {
            metric_form(rest, text)
        } else if let Some((size, rest)) = rest.split_once("UN") {
            unified_form(size, rest, text)
        } else {
            Err(syntax())
        };
        Ok(Designation { form: form?, left_hand })
    }

    pub fn basic(&self, text: &str) -> Result<Basic, ThreadError> {
        let text = &shortened(text);
        match self.form {
            Form::Metric { nominal, pitch, .. } => metric::basic(nominal, pitch, text),
            Form::Unified { thread, .. } => thread.basic(text),
        }
    }

    /// The limits of the class, if there is one.
    pub fn diameters(&self, text: &str) -> Result<Option<Diameters>, ThreadError> {
        let text = &shortened(text);
        match self.form {
            Form::Metric { nominal, pitch, class } => {
                class.map(|class| metric::diameters(nominal, pitch, class, text)).transpose()
            }
            Form::Unified { thread, class } => class.map(|class| thread.diameters(class)).transpose(),
        }
    }

    pub fn is_internal(&self) -> Option<bool> {
        match self.form {
            Form::Metric { class, .. } => Some(class?.internal),
            Form::Unified { class, .. } => Some(class?.internal),
        }
    }

    /// The classes that the thread can have, for messages.
    pub const fn classes(&self) -> &'static str {
        match self.form {
            Form::Metric { .. } => METRIC_CLASSES,
            Form::Unified { .. } => UNIFIED_CLASSES,
        }
    }

    pub const fn nominal(&self) -> Size {
        match self.form {
            Form::Metric { nominal, .. } => nominal,
            Form::Unified { thread, .. } => unified::size(thread.nominal),
        }
    }

    pub fn pitch(&self) -> Size {
        match self.form {
            Form::Metric { pitch, .. } => pitch,
            Form::Unified { thread, .. } => {
                let inch = 2 * Units::Inch.picometres();
                Size::from_picometres((inch + thread.half_threads / 2) / thread.half_threads)
            }
        }
    }

    pub fn class(&self) -> Option<String> {
        match self.form {
            Form::Metric { class, .. } => class.map(|class| class.to_string()),
            Form::Unified { class, .. } => class.map(|class| class.to_string()),
        }
    }

    pub const fn standard(&self) -> &'static str {
        match self.form {
            Form::Metric { .. } => metric::STANDARD,
            Form::Unified { .. } => unified::STANDARD,
        }
    }
}

/// What stands behind `M`: a diameter, perhaps a pitch, and a class.
fn metric_form(rest: &str, text: &str) -> Result<Form, ThreadError> {
    let syntax = || ThreadError::Syntax { text: excerpt(text) };
    let (sizes, class) = match rest.split_once('-') {
        Some((sizes, class)) => (sizes, Some(class.trim())),
        None => (rest, None),
    };
    let (nominal, pitch) = match sizes.split_once(['x', 'X', '×']) {
        Some((nominal, pitch)) => (nominal, Some(pitch)),
        None => (sizes, None),
    };
    let size = |text: &str| match decimal(text) {
        Some(digits) => Ok(Size::parse_in(digits, Some(Units::Metric))?),
        None => Err(syntax()),
    };
    let nominal = size(nominal)?;
    let pitch = pitch.map(size).transpose()?;
    let read = |class| {
        let read = MetricClass::parse(class);
        read.ok_or_else(|| ThreadError::Class { class: excerpt(class), need: METRIC_CLASSES })
    };
    let class = class.map(read).transpose()?;
    let pitch = pitch.or_else(|| metric::coarse_pitch(nominal));
    let pitch = pitch.ok_or_else(|| ThreadError::NoPitch { text: excerpt(text) })?;
    if !nominal.is_positive() || !pitch.is_positive() {
        return Err(syntax());
    }
    Ok(Form::Metric { nominal, pitch, class })
}

/// What stands before `UN`, a diameter and threads per inch, and what behind it, the series and a class.
fn unified_form(size: &str, rest: &str, text: &str) -> Result<Form, ThreadError> {
    let syntax = || ThreadError::Syntax { text: excerpt(text) };
    let (diameter, threads) = size.trim_end().rsplit_once('-').ok_or_else(syntax)?;
    let (series, class) = match rest.split_once('-') {
        Some((series, class)) => (series.trim(), Some(class.trim())),
        None => (rest.trim(), None),
    };
    let (rounded_root, series) = match series.strip_prefix('R') {
        Some(series) => (true, series),
        None => (false, series),
    };
    let series = match series {
        "C" => Series::Coarse,
        "F" => Series::Fine,
        "EF" => Series::ExtraFine,
        "" => Series::Constant,
        "S" => Series::Special,
        _ => return Err(syntax()),
    };
    // Threads per inch to a half, read as a length so that nothing is rounded.
    let doubled = decimal(threads).ok_or_else(syntax)?;
    let doubled = Size::parse_in(doubled, Some(Units::Metric))?.checked_mul(2).ok_or_else(syntax)?;
    let one = Units::Metric.picometres();
    let half_threads = doubled.picometres() / one;
    if doubled.picometres() % one != 0 || !(2..=400).contains(&half_threads) {
        return Err(syntax());
    }
    let nominal = unified_diameter(diameter.trim(), half_threads, text)?;
    let missing = |what: &str| ThreadError::NotInStandard {
        text: excerpt(text),
        what: what.into(),
        standard: unified::STANDARD,
    };
    let tenth = unified::size(1).picometres();
    let is_fraction = diameter.contains('/');
    if nominal.picometres() % tenth != 0 && !is_fraction {
        return Err(missing("diameter finer than 0.0001 in"));
    }
    let nominal = unified::nearest(nominal.picometres(), tenth);
    if !(600..=60_000).contains(&nominal) {
        return Err(missing("diameter below 0.06 in or above 6 in"));
    }
    if !series.has(nominal, half_threads) {
        return Err(ThreadError::Series { text: excerpt(text), instead: series.has_instead(nominal) });
    }
    let read = |class| {
        let read = UnifiedClass::parse(class);
        read.ok_or_else(|| ThreadError::Class { class: excerpt(class), need: UNIFIED_CLASSES })
    };
    let class = class.map(read).transpose()?;
    Ok(Form::Unified { thread: UnifiedThread { nominal, half_threads, series, rounded_root }, class })
}

/// A numbered size, or inches as a decimal or a fraction.
fn unified_diameter(diameter: &str, half_threads: i64, text: &str) -> Result<Size, ThreadError> {
    let syntax = || ThreadError::Syntax { text: excerpt(text) };
    if let Some(digits) = diameter.strip_prefix('#') {
        return numbered(digits.trim()).map(unified::size).ok_or_else(syntax);
    }
    if let Some(nominal) = means_number(diameter, half_threads) {
        return Ok(unified::size(nominal));
    }
    let inches = diameter.trim_end_matches(['"', '″']);
    let plain = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | '-' | ' ');
    if !inches.starts_with(|c: char| c.is_ascii_digit() || c == '.') || !inches.chars().all(plain) {
        return Err(syntax());
    }
    Ok(Size::parse_in(inches, Some(Units::Inch))?)
}

/// The diameter of a numbered size.
fn numbered(digits: &str) -> Option<i64> {
    let number: i64 = digits.parse().ok()?;
    series::NUMBERED.iter().find(|row| row.0 == number).map(|row| row.1)
}

/// The numbered size that digits mean without a sign before them: with 32 threads an inch 6 is a number, with 4 it is inches.
fn means_number(digits: &str, half_threads: i64) -> Option<i64> {
    numbered(digits).filter(|&nominal| series::is_numbered(nominal, half_threads))
}

/// A plain decimal number without sign or exponent.
fn decimal(text: &str) -> Option<&str> {
    let digits = text.trim();
    let plain = digits.chars().all(|c| c.is_ascii_digit() || c == '.');
    (plain && digits.contains(|c: char| c.is_ascii_digit())).then_some(digits)
}

impl fmt::Display for Designation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.form {
            Form::Metric { nominal, pitch, .. } => {
                let [nominal, pitch] = [nominal, pitch].map(|size| size.decimal(Units::Metric));
                write!(f, "M{nominal}x{pitch}")?;
            }
            Form::Unified { thread, .. } => {
                let UnifiedThread { nominal, half_threads, series, rounded_root } = thread;
                match series::NUMBERED.iter().find(|row| row.1 == nominal) {
                    Some((number, _)) => write!(f, "#{number}")?,
                    None => f.write_str(&inches(nominal))?,
                }
                if means_number(&inches(nominal), half_threads).is_some() {
                    f.write_str(".0")?;
                }
                let root = if rounded_root { "R" } else { "" };
                write!(f, "-{} UN{root}{series}", half_threads as f64 / 2.0)?;
            }
        }
        if let Some(class) = self.class() {
            write!(f, "-{class}")?;
        }
        if self.left_hand { f.write_str("-LH") } else { Ok(()) }
    }
}

/// Ten-thousandths of an inch as `1 1/8`, or as a decimal where no sixty-fourths come to them.
fn inches(count: i64) -> String {
    const INCH: i64 = 10_000;
    let parts = unified::nearest(count * 64, INCH);
    if unified::nearest(parts * INCH, 64) != count {
        return unified::size(count).decimal(Units::Inch);
    }
    let (whole, mut rest, mut parts) = (parts / 64, parts % 64, 64);
    while rest > 0 && rest % 2 == 0 {
        (rest, parts) = (rest / 2, parts / 2);
    }
    match (whole, rest) {
        (_, 0) => format!("{whole}"),
        (0, _) => format!("{rest}/{parts}"),
        _ => format!("{whole} {rest}/{parts}"),
    }
}

#[cfg(test)]
mod tests {
    use crate::{Size, Thread};
    use proptest::prelude::*;

    fn thread(text: &str) -> Thread {
        Thread::parse(text).unwrap_or_else(|error| panic!("{error}"))
    }

    #[test]
    fn designations_are_written_in_one_way() {
        for (text, written) in [
            ("M10-6H", "M10x1.5-6H"),
            (" M 10 × 1.25 - 5g6g ", "M10x1.25-5g6g"),
            ("M3.5x0.60-4h-LH", "M3.5x0.6-4h-LH"),
            ("M10X1-6g6g", "M10x1-6g"),
            ("1/4-20 UNC-2A", "1/4-20 UNC-2A"),
            (".250-20UNC-2A", "1/4-20 UNC-2A"),
            ("10-24 UNC-2B", "#10-24 UNC-2B"),
            ("#10-24 UNC-2B", "#10-24 UNC-2B"),
            ("0.190-24 UNC-2B", "#10-24 UNC-2B"),
            ("1-8 UNC-3A", "1-8 UNC-3A"),
            ("1-64 UNC-3A", "#1-64 UNC-3A"),
            ("1-1/8-8 UN-2B", "1 1/8-8 UN-2B"),
            ("2-4.5 UNRC-1A-LH", "2-4.5 UNRC-1A-LH"),
            ("1/2\"-28 UNS-2A", "1/2-28 UNS-2A"),
            ("0.51-28 UNS-2A", "0.51-28 UNS-2A"),
            ("19/64-36 UNS-2A", "19/64-36 UNS-2A"),
            ("0.2969-36 UNS-2A", "19/64-36 UNS-2A"),
            ("1 19/64-36 UNS-2A", "1 19/64-36 UNS-2A"),
            ("9/32-32 UNS-2B", "9/32-32 UNS-2B"),
            ("1/4-20 UNC", "1/4-20 UNC"),
            (".250-20 UNRC-LH", "1/4-20 UNRC-LH"),
            ("M10", "M10x1.5"),
        ] {
            let thread = thread(text);
            assert_eq!(thread.to_string(), written);
            assert_eq!(Thread::parse(written), Ok(thread));
        }
    }

    #[test]
    fn a_refusal_says_why() {
        for (text, why) in [
            ("", "is not a valid thread designation"),
            ("M", "is not a valid thread designation"),
            ("M10x-6g", "is not a valid thread designation"),
            ("M0x1-6g", "is not a valid thread designation"),
            ("M-10x1-6g", "is not a valid thread designation"),
            ("MJ10x1.5-6g", "is not a valid thread designation"),
            ("M16xPh3P1.5-6g", "is not a valid thread designation"),
            ("UNC", "is not a valid thread designation"),
            ("1/4-20 UNX-2A", "is not a valid thread designation"),
            ("1/4-20.25 UNC-2A", "is not a valid thread designation"),
            ("-1/4-20 UNC-2A", "is not a valid thread designation"),
            ("#7-20 UNC-2A", "is not a valid thread designation"),
            ("M10-6", "is not a tolerance class of this thread"),
            ("M10-6H/6g", "is not a tolerance class of this thread"),
            ("M10-6H6g", "is not a tolerance class of this thread"),
            ("1/4-20 UNC-4A", "is not a tolerance class of this thread"),
            ("M13-6g", "needs a pitch"),
            ("1/4-28 UNC-2A", "it has 20 threads per inch at this diameter"),
            ("5/16-40 UNF-2A", "it has 24 threads per inch at this diameter"),
            ("0.3-20 UNF-2A", "it does not have this diameter"),
            ("1-14 UN-2A", "it has 4, 6, 8, 12, 16, 20, 28 or 32 threads per inch"),
            ("M10-5g", "has no grade 5 of the major diameter"),
            ("M10-9H", "has no grade 9 of the pitch diameter"),
            ("M1.6-6e", "has no position of 6e for a pitch of 0.35 mm"),
            ("M10x1.1-6g", "has no pitch of 1.1 mm"),
            ("M10x2-6g", "has no pitch of 2 mm at this diameter"),
            ("M400x6-6g", "has no pitch of 6 mm at this diameter"),
            ("M10.0000001x1.5-6g", "has no diameter or pitch finer than a micrometre"),
            ("M1x1-6g", "the pitch leaves no minor diameter"),
            ("M0.000000000001x1-6g", "not a whole number of picometres"),
            ("1/4-4 UNS-2A", "the pitch leaves no minor diameter"),
            ("1/3-20 UNS-2A", "not a whole number of picometres"),
            ("M10-", "not a tolerance class of this thread"),
            ("1/4-4 UNS", "the pitch leaves no minor diameter"),
            ("M1x1", "the pitch leaves no minor diameter"),
            ("0.25001-20 UNS-2A", "has no diameter finer than 0.0001 in"),
            ("7-8 UN-2A", "has no diameter below 0.06 in or above 6 in"),
        ] {
            let error = Thread::parse(text).expect_err(text).to_string();
            assert!(error.contains(why), "{text}: {error}");
        }
        assert!(Thread::parse(&"M1".repeat(1_000_000)).unwrap_err().to_string().len() < 300);
    }

    #[test]
    fn a_thread_without_a_class_has_basic_sizes_alone() {
        let basic = thread("1/4-20 UNC");
        let nut = thread("1/4-20 UNC-2B");
        assert_eq!(
            [basic.nominal(), basic.basic_pitch_diameter(), basic.basic_minor()],
            [nut.nominal(), nut.basic_pitch_diameter(), nut.basic_minor()]
        );
        assert_eq!((basic.major(), basic.pitch_diameter(), basic.minor()), (None, None, None));
        assert_eq!((basic.major_least(), basic.minor_greatest(), basic.is_internal()), (None, None, None));
        for (text, need) in [("1/4-20 UNC", "1A, 2A or 3A"), ("M10", "4h, 6g or 5g6g")] {
            let refused = Thread::parse_with_class(text).unwrap_err().to_string();
            assert!(refused.contains("needs a tolerance class") && refused.contains(need), "{refused}");
        }
        assert_eq!(Thread::parse_with_class("M10-6H"), Thread::parse("M10-6H"));
    }

    #[test]
    fn a_pitch_in_inches_is_the_nearest_picometre() {
        // 25.4 / 13 = 1.953846153846…
        assert_eq!(thread("1/2-13 UNC-2A").thread_pitch(), Size::parse("1.953846154 mm").unwrap());
        assert_eq!(thread("1/4-20 UNC-2A").thread_pitch(), Size::parse("0.05 in").unwrap());
    }

    #[test]
    fn six_inches_are_not_the_number_six() {
        let inches = Thread::parse("6.0-32 UN").unwrap();
        assert_eq!(
            (inches.nominal(), inches.to_string()),
            (Size::parse("6 in").unwrap(), "6.0-32 UN".into())
        );
        assert_eq!(
            Thread::parse("6-32 UN").map(|thread| thread.nominal()),
            Size::parse("0.138 in").map_err(Into::into)
        );
        assert_eq!(Thread::parse(&inches.to_string()), Ok(inches));
        assert_eq!(Thread::parse("6-4 UN").unwrap().to_string(), "6-4 UN");
    }

    fn any_text() -> impl Strategy<Value = String> {
        prop_oneof![
            any::<String>(),
            "M[0-9]{1,3}(\\.[0-9]{1,12})?([xX×][0-9.]{0,4})?-?[0-9]?[a-zA-Z]?([0-9][a-zA-Z])?(-LH)?",
            "M(1[02468]|2[04]|[3-8])-[3-9][efghGH]([3-9][efghGH])?",
            "(#?[0-9]{1,2}|[0-9 ]{0,2}[0-9]/[0-9]{1,2}|[0-9]?\\.[0-9]{0,5})-[0-9.]{1,3} ?UNR?(C|F|EF|S)?(-[0-4][A-C])?",
            "(1/4|5/16|1|2 1/2|#8|0\\.7)-([4-9]|[1-3][0-9]) UNS?-[123][AB]",
            "[-M#UNCF0-9A-Za-z./x ]{0,70}",
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(10_000))]

        #[test]
        fn any_text_is_a_thread_or_refused_for_a_reason(text in any_text()) {
            match Thread::parse(&text) {
                Ok(thread) => {
                    prop_assert_eq!(Thread::parse(&thread.to_string()), Ok(thread));
                    prop_assert!(thread.minor_greatest() < thread.major_least() || thread.major_least().is_none());
                    prop_assert!(Size::ZERO < thread.thread_pitch() && thread.thread_pitch() < thread.nominal());
                    prop_assert!(thread.pitch_diameter().is_none_or(|limits| limits.tolerance() > Size::ZERO));
                    let basic = [Size::ZERO, thread.basic_minor(), thread.basic_pitch_diameter(), thread.nominal()];
                    prop_assert!(basic.is_sorted_by(|a, b| a < b), "{:?}", basic);
                    let has_class = thread.tolerance_class().is_some();
                    prop_assert_eq!(thread.pitch_diameter().is_some(), has_class);
                    prop_assert_eq!(thread.is_internal().is_some(), has_class);
                }
                Err(error) => {
                    let told = error.to_string();
                    prop_assert!(told.contains('`') && (20..400).contains(&told.len()), "{}", told);
                }
            }
        }
    }
}

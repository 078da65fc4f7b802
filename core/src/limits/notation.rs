//! Limits in the notation of drawings.
use super::error::LimitsError;
use super::size_limits::Limits;
use crate::error::excerpt;
use crate::number::{Scanner, Sign};
use crate::quantity::Units;
use crate::size::LengthUnit;
use crate::size::text::Term;
use crate::size::{Size, SizeError};

impl Limits {
    /// Reads drawing notation alone, without classes and fits.
    pub(crate) fn parse_notation(text: &str, default: Option<Units>) -> Result<Limits, LimitsError> {
        match Notation::read(text)? {
            Notation::Deviations(terms) => {
                let [nominal, upper, lower] = sizes(terms, default, text)?;
                Limits::with_deviations(nominal, upper, lower)
            }
            Notation::Between(terms) => {
                let [lower, upper] = sizes(terms, default, text)?;
                Limits::between(lower, upper)
            }
            Notation::Either(terms) => {
                let [one, other] = sizes(terms, default, text)?;
                Limits::between(one.min(other), one.max(other))
            }
            Notation::Dots { lower, upper, fraction } => {
                let between = |upper| {
                    let [lower, upper] = sizes([lower, upper], default, text)?;
                    Limits::between(lower, upper)
                };
                // A fraction below the lower limit cannot have been meant.
                match (between(upper), between(fraction)) {
                    (Ok(limits), Ok(other)) if limits != other => {
                        let [whole, fraction] = [limits, other].map(|read| read.format(read.natural_units()));
                        Err(LimitsError::ThreeDots { text: excerpt(text), whole, fraction })
                    }
                    (read, _) => read,
                }
            }
        }
    }
}

/// The numbers of a text by what they are for.
enum Notation {
    /// The nominal size, the upper and the lower deviation.
    Deviations([Term; 3]),
    /// The lower and the upper limit.
    Between([Term; 2]),
    /// Two limits in either order.
    Either([Term; 2]),
    /// Two limits around three dots, of which the last could be the point of a fraction.
    Dots { lower: Term, upper: Term, fraction: Term },
}

impl Notation {
    const WORDS: &[&str] = &["max", "min"];

    fn read(text: &str) -> Result<Notation, LimitsError> {
        let mut scanner = Scanner::new(text);
        let notation = Notation::scan(&mut scanner, text)?;
        if scanner.at_end() { Ok(notation) } else { Err(LimitsError::Syntax { text: excerpt(text) }) }
    }

    fn scan(scanner: &mut Scanner<'_>, text: &str) -> Result<Notation, LimitsError> {
        let syntax = || LimitsError::Syntax { text: excerpt(text) };
        if scanner.take_word("min") {
            return Err(LimitsError::NoUpperLimit { text: excerpt(text) });
        }
        let is_maximum = scanner.take_word("max");
        let mut first = scanner.term(Notation::WORDS)?.ok_or_else(syntax)?;
        if scanner.take_word("min") {
            return Err(LimitsError::NoUpperLimit { text: excerpt(text) });
        }
        if is_maximum || scanner.take_word("max") {
            first.unit = first.unit.or(scanner.unit(Notation::WORDS)?);
            let is_size = first.is_unsigned();
            return is_size.then(|| Notation::maximum(first)).ok_or_else(syntax);
        }
        if scanner.at_end() {
            return Err(LimitsError::NoTolerance { text: excerpt(text) });
        }
        let unsigned = |scanner: &mut Scanner<'_>| -> Result<Term, LimitsError> {
            scanner.term(Notation::WORDS)?.filter(Term::is_unsigned).ok_or_else(syntax)
        };
        if scanner.take(&["±", "+/-", "+/−"]) {
            let tolerance = unsigned(scanner)?;
            return Ok(Notation::Deviations([first, tolerance, tolerance.with_sign(Sign::Minus)]));
        }
        if scanner.take(&["…"]) {
            let upper = scanner.term(Notation::WORDS)?.ok_or_else(syntax)?;
            return Ok(Notation::Between([first, upper]));
        }
        if scanner.take(&[".."]) {
            let mut behind = *scanner;
            let dots = behind.take_touching(".");
            let four = dots && behind.take_touching(".");
            let fraction = scanner.term(Notation::WORDS)?;
            if !dots {
                return Ok(Notation::Between([first, fraction.ok_or_else(syntax)?]));
            }
            let fraction = fraction.filter(|_| scanner.at_end());
            let upper = behind.term(Notation::WORDS)?.filter(|_| !four).ok_or_else(syntax)?;
            *scanner = behind;
            return Ok(match fraction {
                Some(fraction) => Notation::Dots { lower: first, upper, fraction },
                None => Notation::Between([first, upper]),
            });
        }
        if scanner.take_spaced(&["-", "−", "–"]) {
            return Ok(Notation::Between([first, unsigned(scanner)?]));
        }
        let apart = first.unit.is_some() || scanner.at_space();
        if scanner.take(&["/"]) {
            // `12/0` is neither a fraction nor likely to be meant as limits; in `12/8/10` either slash could be a
            // fraction's.
            let other = unsigned(scanner)?;
            let mistakable = other.is_zero() || !apart && (first.is_fraction() || other.is_fraction());
            return if mistakable { Err(syntax()) } else { Ok(Notation::Either([first, other])) };
        }
        let upper = Notation::deviation(scanner)?.ok_or_else(syntax)?;
        scanner.take(&["/"]);
        let lower = Notation::deviation(scanner)?;
        let lower = lower.ok_or_else(|| LimitsError::OneDeviation { text: excerpt(text) })?;
        Ok(Notation::Deviations([first, upper, lower]))
    }

    fn maximum(maximum: Term) -> Notation {
        Notation::Deviations([maximum, Term::ZERO, maximum.with_sign(Sign::Minus)])
    }

    fn deviation(scanner: &mut Scanner<'_>) -> Result<Option<Term>, SizeError> {
        let term = scanner.term(Notation::WORDS)?;
        Ok(term.filter(|term| !term.is_unsigned() || term.is_zero()))
    }
}

/// The sizes of `terms`, each in its own unit or in the one that stands in the text.
fn sizes<const N: usize>(
    terms: [Term; N],
    default: Option<Units>,
    text: &str,
) -> Result<[Size; N], LimitsError> {
    let mut stated = terms.iter().filter_map(|term| term.unit);
    let unit: Option<&LengthUnit> = stated.next().or(default.map(Into::into));
    let unit = unit.ok_or_else(|| SizeError::MissingUnit { text: excerpt(text) })?;
    let is_mixed = stated.any(|other| other != unit);
    if is_mixed && terms.iter().any(|term| term.unit.is_none() && !term.is_zero()) {
        return Err(LimitsError::MixedUnits { text: excerpt(text) });
    }
    let mut sizes = [Size::ZERO; N];
    for (size, term) in sizes.iter_mut().zip(terms) {
        *size = term.size(term.unit.unwrap_or(unit), text)?;
    }
    Ok(sizes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::limits::size_limits::tests::{limits, size};
    use proptest::prelude::*;

    // ASME B4.1: FN2 from 0.40 to 0.71 in has a hole of +0.7/0 and a shaft of +1.6/+1.2 thousandths; RC4 from 0.71 to
    // 1.19 in a shaft of -0.8/-1.6.
    #[test]
    fn members_of_inch_fits_are_limits() {
        for (text, limits) in [
            ("1/2 in FN2 hole", ".5 +.0007/0 in"),
            ("0.5 in FN2 shaft", ".5 +.0016/+.0012 in"),
            (" .75 in  RC4   shaft ", ".75 -.0008/-.0016 in"),
        ] {
            assert_eq!(Limits::parse(text), Limits::parse(limits), "{text}");
        }
        let bare = Limits::parse_in(".5 FN2 hole", Some(Units::Inch));
        assert_eq!(bare, Limits::parse("0.5 in FN2 hole"));
        for (text, why) in [
            ("0.5 FN2 hole", "needs a unit"),
            ("FN2 hole", "is not a valid size"),
            ("0.5 in FN9 hole", "FN1 to FN5"),
            ("30 in FN2 hole", "up to 19.69 in"),
            ("0.5 in FN2 bore", "is not a valid form of limits"),
            ("0.5 in FN2hole", "is not a valid form of limits"),
            ("0.5 in hole", "is not a valid form of limits"),
        ] {
            let error = Limits::parse(text).unwrap_err().to_string();
            assert!(error.contains(why), "{text}: {error}");
        }
    }

    // m is a unit and a position of ISO 286 too, whose m6 lies from 8 to 21 µm above sizes of 18 to 30 mm.
    #[test]
    fn metres_are_no_classes() {
        for text in ["25 m6", "25m6"] {
            assert_eq!(Limits::parse(text), Limits::parse("25 +0.021/+0.008 mm"), "{text}");
        }
        assert_eq!(Limits::parse("3 m ±1 mm"), Limits::parse("3000 ±1 mm"));
        assert_eq!(Limits::parse("2.5 ±0.01 cm"), Limits::parse("24.9..25.1 mm"));
        assert_eq!(Limits::parse("1 m max"), Limits::parse("1000 max mm"));
    }

    #[test]
    fn limits_tell_what_they_are_stated_by() {
        for (text, told) in [
            ("25H7", Some(("25 H7", "ISO 286:2010"))),
            ("⌀20 h9", Some(("20 h9", "ISO 286:2010"))),
            ("1/2 in FN2 hole", Some(("0.5 in FN2 hole", "ASME B4.1-1967"))),
            ("12 mm RC4 shaft", Some(("12 mm RC4 shaft", "ASME B4.1-1967"))),
            ("25 +0.021/0 mm", None),
        ] {
            let (limits, by) = Limits::parse_stated(text, None).unwrap();
            assert_eq!(Limits::parse(text), Ok(limits));
            assert_eq!(by.as_ref().map(|by| (&*by.text, by.standard)), told);
            if let Some(by) = by {
                assert_eq!(Limits::parse(&by.text), Ok(limits));
            }
        }
    }

    // ISO 286-2: 25 H7 is +0.021/0, 20 h9 is 0/-0.052.
    #[test]
    fn classes_of_iso_286_are_limits_in_millimetres() {
        for (class, limits) in [("25 H7", "25 +0.021/0 mm"), (" 20h9", "20 +0/-0.052 mm")] {
            assert_eq!(Limits::parse_in(class, Some(Units::Inch)).unwrap(), Limits::parse(limits).unwrap());
        }
        let told = |text: &str| Limits::parse(text).unwrap_err().to_string();
        assert!(told("25 H19").contains("no grade `19`"), "{}", told("25 H19"));
        assert!(told("25 Q7").contains("no position `Q`"), "{}", told("25 Q7"));
        assert!(told("25 mm").contains("has no tolerance"), "{}", told("25 mm"));
        assert!(told("H7").contains("H7"), "{}", told("H7"));
    }

    #[test]
    fn drawing_notation_is_read() {
        for (text, nominal, lower, upper) in [
            ("1.420 ±.005 in", "1.42 in", "1.415 in", "1.425 in"),
            ("1.420 +/-.005 in", "1.42 in", "1.415 in", "1.425 in"),
            ("1.420\" ± .005\"", "1.42 in", "1.415 in", "1.425 in"),
            ("12 +0/-0.011 mm", "12 mm", "11.989 mm", "12 mm"),
            ("12 mm +0/-0.011", "12 mm", "11.989 mm", "12 mm"),
            ("12 +0.018/0 mm", "12 mm", "12 mm", "12.018 mm"),
            ("12 0/-0.011 mm", "12 mm", "11.989 mm", "12 mm"),
            ("12 +1/0 mm", "12 mm", "12 mm", "13 mm"),
            ("12 +0 -0.011 mm", "12 mm", "11.989 mm", "12 mm"),
            ("25 -0.007/-0.020 mm", "25 mm", "24.98 mm", "24.993 mm"),
            ("25 +15 µm/+2 µm", "25 µm", "27 µm", "40 µm"),
            ("25 mm +15 µm/+2 µm", "25 mm", "25.002 mm", "25.015 mm"),
            (".4375 ±.0005 in", "7/16 in", "0.437 in", "0.438 in"),
            ("7/16 ±1/64 in", "7/16 in", "27/64 in", "29/64 in"),
            ("1 7/16 +1/64 -0 in", "1-7/16 in", "1-7/16 in", "1-29/64 in"),
            ("1.415..1.425 in", "1.42 in", "1.415 in", "1.425 in"),
            ("1.415 - 1.425 in", "1.42 in", "1.415 in", "1.425 in"),
            ("12 mm – 13 mm", "12.5 mm", "12 mm", "13 mm"),
            ("1.425/1.415 in", "1.42 in", "1.415 in", "1.425 in"),
            ("1.415/1.425 in", "1.42 in", "1.415 in", "1.425 in"),
            ("12 mm/11 mm", "11.5 mm", "11 mm", "12 mm"),
            ("-0.5..0.5 mm", "0 mm", "-0.5 mm", "0.5 mm"),
            ("0.5 in ±0.1 mm", "12.7 mm", "12.6 mm", "12.8 mm"),
            ("0.5 in +0/-0.1 mm", "12.7 mm", "12.6 mm", "12.7 mm"),
            ("12 max mm", "12 mm", "0 mm", "12 mm"),
            ("max 12 mm", "12 mm", "0 mm", "12 mm"),
            ("12 mm MAX", "12 mm", "0 mm", "12 mm"),
        ] {
            let found = limits(text);
            let expected = [nominal, lower, upper].map(size);
            assert_eq!([found.nominal(), found.lower(), found.upper()], expected, "{text}");
        }
        let bare = Limits::parse_in("1.420 ±.005", Some(Units::Inch));
        assert_eq!(bare, Ok(limits("1.420 ±.005 in")));
        assert_eq!(Limits::parse_in("12 ±.5 mm", Some(Units::Inch)), Ok(limits("12 ±.5 mm")));
    }

    #[test]
    fn what_is_no_limits_is_refused() {
        let kind = |text: &str| match Limits::parse(text) {
            Ok(limits) => panic!("{text} is {limits}"),
            Err(LimitsError::Syntax { .. }) => "syntax",
            Err(LimitsError::NoTolerance { .. }) => "no tolerance",
            Err(LimitsError::OneDeviation { .. }) => "one deviation",
            Err(LimitsError::NoUpperLimit { .. }) => "minimum",
            Err(LimitsError::MixedUnits { .. }) => "mixed",
            Err(LimitsError::Reversed { .. } | LimitsError::ReversedDeviations { .. }) => "reversed",
            Err(LimitsError::Size(SizeError::MissingUnit { .. })) => "no unit",
            Err(LimitsError::Size(SizeError::OffGrid { .. })) => "grid",
            Err(LimitsError::Size(SizeError::UnknownUnit { .. })) => "unit",
            Err(LimitsError::OutOfRange { .. } | LimitsError::Size(SizeError::OutOfRange { .. })) => "range",
            Err(other) => panic!("{text}: {other}"),
        };
        for (expected, texts) in [
            ("syntax", &["", "±.005 in", "1.42 ± in", "1.42 ±-.005 in", "1.42 ±.005 in x", "max -5 mm"][..]),
            (
                "syntax",
                &["12/0 mm", "12.5/-0.5 mm", "12 - -13 mm", "12 .. mm", "12 + 0/-1 mm", "12 0.5/0.2 mm"],
            ),
            ("no tolerance", &["7/16 in", "12 mm", "16/8 in", "12"]),
            ("one deviation", &["12 +0.5 mm", "12 -0.5 mm", "12 +1/2 in", "12 +0.5/0.2 mm"]),
            ("minimum", &["12 min mm", "min 12 mm", "12 mm min"]),
            ("mixed", &["0.5 in +1/64 -0.1 mm", "12 +1 in/-1 mm"]),
            ("reversed", &["12 -0.011/+0 mm", "1.425..1.415 in", "1 - 7/16 in", "25 -0.020/-0.007 mm"]),
            ("no unit", &["1.420 ±.005", "12 max"]),
            ("grid", &["1/3 ±.005 in", "12/11 ±1 mm"]),
            ("unit", &["12 H", "12 ±1 parsec"]),
            ("range", &["9e9 ±9e9 mm", "-9e9..9e9 mm"]),
        ] {
            for text in texts {
                assert_eq!(kind(text), expected, "{text}");
            }
        }
        assert_eq!(
            Limits::parse("25 -0.020/-0.007 mm").unwrap_err().to_string(),
            "the lower deviation, -0.007 mm, is above the upper deviation, -0.02 mm: write the upper one first"
        );
    }

    #[test]
    fn three_dots_are_a_range_where_it_is_clear_which() {
        for (text, clear) in [
            ("12...13 mm", "12..13 mm"),
            ("12...12.5 mm", "12..12.5 mm"),
            ("0 ... 6 mm", "0..6 mm"),
            ("0... 6 mm", "0..6 mm"),
            (".504 mm... .512 mm", "0.504..0.512 mm"),
            ("7/16...1/2 in", "7/16..1/2 in"),
            ("0…6 mm", "0..6 mm"),
            (".504….512 in", "0.504..0.512 in"),
            ("-1 … 1 mm", "-1..1 mm"),
            ("0...0 mm", "0..0 mm"),
        ] {
            assert_eq!(Limits::parse(text), Limits::parse(clear), "{text}");
        }
        for text in ["0...6 mm", ".504...512 in", "0 ...6 mm", "-5...5 mm", "0 in...6 in"] {
            assert!(matches!(Limits::parse(text), Err(LimitsError::ThreeDots { .. })), "{text}");
        }
        assert_eq!(
            Limits::parse("0...6 mm").unwrap_err().to_string(),
            "`0...6 mm` could mean 0..6 mm or 0..0.6 mm: write one of these, with two dots"
        );
        for text in ["0....6 mm", "12....13 mm", "0.....6 mm", "13...12 mm", "0…", "…6 mm", "0.. …6 mm"]
        {
            assert!(Limits::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_slash_between_limits_is_no_fraction_s() {
        for text in ["12/8/10 mm", "1/2/3 in", "1/2/3/4 in", "1 1/2/2 in", ".5/1/2 in"] {
            assert!(matches!(Limits::parse(text), Err(LimitsError::Syntax { .. })), "{text}");
        }
        for (text, clear) in [
            ("1/2 / 3/4 in", "0.5..0.75 in"),
            ("1/2\"/3/4\"", "0.5..0.75 in"),
            ("3/4 in/1/2 in", "0.5..0.75 in"),
        ] {
            assert_eq!(Limits::parse(text), Limits::parse(clear), "{text}");
        }
    }

    proptest! {
        #[test]
        fn no_text_panics(text in "\\PC*", near in "[-+±./0-9 ]{0,24}(max|in|mm|µm|\")?[-+±./0-9 ]{0,12}(in)?") {
            let _ = Limits::parse(&text);
            let _ = Limits::parse_in(&near, Some(Units::Inch));
        }

        #[test]
        fn both_forms_read_back(nominal in -99_999i64..99_999, upper in -999i64..999, tolerance in 0i64..999) {
            let deviation = |count: i64| Size::from_picometres(count * 254_000);
            let limits =
                Limits::with_deviations(deviation(nominal), deviation(upper), deviation(upper - tolerance))?;
            for units in Units::ALL {
                prop_assert_eq!(Limits::parse(&limits.format_deviations(units)), Ok(limits));
                let both = Limits::parse(&limits.format(units))?;
                prop_assert_eq!((both.lower(), both.upper()), (limits.lower(), limits.upper()));
            }
        }
    }
}

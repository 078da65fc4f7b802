use super::tables::{ANGLES, EDGES, FLATNESS, LENGTHS, NONE, PERPENDICULARITY, RUN_OUT, SYMMETRY, Table};
use super::{GeneralClass, GeneralFeature, GeneralTolerance, GeneralToleranceError};
use crate::limits::Limits;
use crate::quantity::Units;
use crate::size::Size;

fn size(text: &str) -> Size {
    Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
}

fn made(class: &str, feature: GeneralFeature, of: &str) -> Result<GeneralTolerance, GeneralToleranceError> {
    GeneralTolerance::new(GeneralClass::parse(class)?, feature, size(of))
}

/// Figures never fall with the size and never from a class to the next coarser one.
fn rises<const C: usize, const R: usize>(table: &Table<C, R>) {
    assert!(table.ends.windows(2).all(|pair| pair[0] < pair[1]));
    for row in &table.rows {
        let figures: Vec<i32> = row.iter().copied().filter(|figure| *figure != NONE).collect();
        assert!(!figures.is_empty() && figures.windows(2).all(|pair| pair[0] <= pair[1]), "{row:?}");
    }
    for rows in table.rows.windows(2) {
        for (finer, coarser) in rows[0].iter().zip(&rows[1]) {
            assert!(*finer == NONE || *coarser == NONE || finer <= coarser, "{rows:?}");
        }
    }
}

#[test]
fn tables_rise_with_size_and_class() {
    rises(&LENGTHS);
    rises(&EDGES);
    rises(&FLATNESS);
    rises(&PERPENDICULARITY);
    rises(&SYMMETRY);
    rises(&RUN_OUT);
    // Longer sides have closer angles.
    for row in &ANGLES.rows {
        assert!(row.windows(2).all(|pair| pair[0] > pair[1]), "{row:?}");
    }
    for rows in ANGLES.rows.windows(2) {
        assert!(rows[0].iter().zip(&rows[1]).all(|(finer, coarser)| finer <= coarser), "{rows:?}");
    }
    // Figures are preferred numbers.
    for figure in LENGTHS.rows.iter().flatten().chain(FLATNESS.rows.iter().flatten()) {
        let mut leading = *figure;
        while leading >= 100 && leading % 10 == 0 {
            leading /= 10;
        }
        assert!(
            [0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25, 30, 40, 50, 60, 80].contains(&leading),
            "{figure}"
        );
    }
}

// ISO 2768-1: 120 mm is the end of its range, and 0.5 mm the beginning of the first.
#[test]
fn a_size_at_the_end_of_a_range_belongs_to_it() {
    for (text, deviations) in [
        ("120 mm ISO 2768-m", "120 ±0.3 mm"),
        ("120.000000001 mm ISO 2768-m", "120.000000001 ±0.5 mm"),
        ("0.5 mm ISO 2768-f", "0.5 ±0.05 mm"),
        ("3 mm edge ISO 2768-mK", "3 ±0.2 mm"),
        ("3.1 mm edge ISO 2768-1 c", "3.1 ±1 mm"),
        ("4 in DIN ISO 2768 - m", "4 in ±0.3 mm"),
        ("⌀20 mm ISO 2768-m", "20 ±0.2 mm"),
        ("4000 mm ISO 2768-v", "4000 ±8 mm"),
    ] {
        assert_eq!(Limits::parse(text), Limits::parse(deviations), "{text}");
    }
    let bare = Limits::parse_in("120 ISO 2768-m", Some(Units::Metric));
    assert_eq!(bare, Limits::parse("120 ±0.3 mm"));
    let (_, by) = Limits::parse_stated("120.0 mm ISO 2768-mK", None).unwrap();
    let by = by.unwrap();
    assert_eq!((&*by.text, by.standard), ("120 mm ISO 2768-mK", "ISO 2768-1:1989"));
}

#[test]
fn what_has_no_general_tolerance_is_refused() {
    for (text, why) in [
        ("0.499999999 mm ISO 2768-m", "it covers sizes from 0.5 mm up to 4000 mm: state the tolerance"),
        ("2001 mm ISO 2768-f", "it covers sizes from 0.5 mm up to 2000 mm"),
        ("3 mm ISO 2768-v", "it covers sizes over 3 mm up to 4000 mm"),
        ("0 mm ISO 2768-m", "gives no tolerance for a length of 0 mm"),
        ("-5 mm ISO 2768-m", "gives no tolerance for a length of -5 mm"),
        ("0.4 mm edge ISO 2768-m", "gives no tolerance for a broken edge of 0.4 mm"),
        (
            "20 mm ISO 2768-K",
            "ISO 2768-K has no class for a length: name one of f, m, c and v, e.g. `ISO 2768-mK`",
        ),
        ("20 mm ISO 2768-x", "is not a class of ISO 2768"),
        ("20 mm ISO 2768", "is not a class of ISO 2768"),
        ("20 mm ISO 2768-mKm", "is not a class of ISO 2768"),
        ("20 ISO 2768-m", "needs a unit"),
        ("ISO 2768-m", "is not a valid size"),
    ] {
        let error = Limits::parse(text).unwrap_err().to_string();
        assert!(error.contains(why), "{text}: {error}");
    }
    let error = made("m", GeneralFeature::Flatness, "20 mm").unwrap_err().to_string();
    assert!(error.contains("ISO 2768-m has no class for flatness: name one of H, K and L"), "{error}");
    let error = made("H", GeneralFeature::Flatness, "3001 mm").unwrap_err().to_string();
    assert!(error.contains("sizes over 0 mm up to 3000 mm"), "{error}");
    assert!(
        GeneralFeature::parse("size").unwrap_err().to_string().contains("length, edge, angle, straightness")
    );
}

// ISO 2768-2, 5.1.2: roundness keeps the tolerance of the diameter and that of run-out (from memory).
#[test]
fn roundness_keeps_the_closer_of_two_tolerances() {
    let tolerance = |class, of| made(class, GeneralFeature::Roundness, of).unwrap().tolerance;
    assert_eq!(tolerance("fH", "2 mm"), Some(size("0.1 mm")));
    assert_eq!(tolerance("fK", "2 mm"), Some(size("0.1 mm")));
    assert_eq!(tolerance("mK", "20 mm"), Some(size("0.2 mm")));
    assert_eq!(tolerance("mL", "20 mm"), Some(size("0.4 mm")));
}

// ISO 2768-2, 5.2.2: the larger of the tolerance of the distance and that of straightness or flatness (from memory).
#[test]
fn parallelism_keeps_the_larger_of_two_tolerances() {
    let made = |class, distance, length| {
        let class = GeneralClass::parse(class)?;
        super::general_tolerance(size(distance), class, GeneralFeature::Parallelism, length)
    };
    for (class, distance, length, tolerance) in [
        ("fH", "20 mm", "50 mm", "0.2 mm"),
        ("fL", "20 mm", "50 mm", "0.4 mm"),
        ("mH", "20 mm", "3000 mm", "0.4 mm"),
        ("mK", "120 mm", "100 mm", "0.6 mm"),
    ] {
        let made = made(class, distance, Some(size(length))).unwrap();
        assert_eq!(
            (made.tolerance, made.limits),
            (Some(size(tolerance)), None),
            "{class} {distance} {length}"
        );
        assert_eq!(made.standard, "ISO 2768-2:1989");
    }
    for (class, length, why) in [
        ("m", Some("50 mm"), "ISO 2768-m has no class for flatness"),
        ("K", Some("50 mm"), "ISO 2768-K has no class for a length"),
        ("mK", Some("3001 mm"), "up to 3000 mm"),
        ("mK", None, "Fix: give the longer one as `length`"),
    ] {
        let error = made(class, "20 mm", length.map(size)).unwrap_err().to_string();
        assert!(error.contains(why), "{class}: {error}");
    }
    let class = GeneralClass::parse("mK").unwrap();
    let of_run_out =
        super::general_tolerance(size("20 mm"), class, GeneralFeature::RunOut, Some(size("9 mm")));
    let error = of_run_out.unwrap_err().to_string();
    assert_eq!(error, "`length` is for parallelism alone, not for run-out. Fix: leave it out");
}

#[test]
fn a_general_tolerance_says_what_it_comes_to() {
    for (class, feature, of, told) in [
        ("m", GeneralFeature::Length, "120 mm", "length: 120 ±0.3 mm by ISO 2768-m"),
        ("ISO 2768-2 K", GeneralFeature::RunOut, "20 mm", "run_out: 0.2 mm by ISO 2768-K for 20 mm"),
        ("f", GeneralFeature::Angle, "60 mm", "angle: ±20′ by ISO 2768-f for a side of 60 mm"),
    ] {
        assert_eq!(made(class, feature, of).unwrap().to_string(), told);
    }
    for (text, read) in [("mK", "ISO 2768-mK"), ("L", "ISO 2768-L"), ("DIN ISO 2768-1:1989-c", "ISO 2768-c")]
    {
        assert_eq!(GeneralClass::parse(text).unwrap().to_string(), read);
    }
}

//! The figures of ISO 286 and ASME B4.1 in `tests/published`, which come from outside the project, against the limits.
use tenths::{Fit, FitError, Limits, Size, iso_limits};

const GRADES: &str = include_str!("published/iso286_grades.csv");
const SHAFTS: &str = include_str!("published/iso286_shafts.csv");
const HOLES: &str = include_str!("published/iso286_holes.csv");
const DELTAS: &str = include_str!("published/iso286_delta.csv");
const LIMITS: &str = include_str!("published/iso286_limits.csv");
const INCH: &str = include_str!("published/asme_b4_1.csv");

/// The lines of a file, each of as many fields.
fn lines<const N: usize>(text: &'static str) -> Vec<[&'static str; N]> {
    let fields = |line: &'static str| line.split(';').collect::<Vec<_>>().try_into().ok();
    let lines: Vec<_> = text.lines().filter(|line| !line.starts_with("# ")).collect();
    assert!(lines.iter().all(|line| !line.contains("://")));
    lines.into_iter().map(|line| fields(line).unwrap_or_else(|| panic!("{N} fields: {line}"))).collect()
}

/// A figure in a unit, exactly.
fn size(figure: &str, unit: &str) -> Size {
    Size::parse(&format!("{figure} {unit}")).unwrap_or_else(|error| panic!("{error}"))
}

/// A figure in thousandths of an inch.
fn thousandths(figure: &str) -> Size {
    Size::from_picometres(size(figure, "in").picometres() / 1000)
}

/// The sizes to try in a range: just above its lower end, and its upper end.
fn ends(over: &str, up_to: &str) -> [String; 2] {
    let above = size(over, "mm").checked_add(Size::from_picometres(1)).unwrap();
    // Some classes are not used up to 1 mm.
    let above = if over == "0" { "1.000000001".into() } else { above.decimal(tenths::Units::Metric) };
    [above, up_to.into()]
}

fn class_limits(size: &str, class: &str) -> Limits {
    iso_limits(&format!("{size} {class}")).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn grades_are_as_published() {
    let lines = lines::<5>(GRADES);
    assert_eq!(lines.len(), 404);
    for [over, up_to, grade, tolerance, _] in lines {
        for nominal in ends(over, up_to) {
            for letter in ["h", "H", "js"] {
                let limits = class_limits(&nominal, &grade.replace("IT", letter));
                assert_eq!(limits.tolerance(), size(tolerance, "µm"), "{nominal} {grade}");
            }
        }
    }
}

/// The grades, as numbers of IT, that a field stands for: `all`, `<=IT8`, `IT5,IT6`, `IT4-IT7`, `<=IT8 except IT6`.
fn grades(field: &str) -> Vec<i32> {
    let number = |text: &str| text.trim_start_matches("IT").parse::<i32>().unwrap();
    let part = |part: &str| -> Vec<i32> {
        if part == "all" {
            (1..=18).collect()
        } else if let Some(last) = part.strip_prefix("<=") {
            (1..=number(last)).collect()
        } else if let Some(first) = part.strip_prefix(">=") {
            (number(first)..=18).collect()
        } else if let Some(before) = part.strip_prefix('>') {
            (number(before) + 1..=18).collect()
        } else if let Some((first, last)) = part.split_once('-') {
            (number(first)..=number(last)).collect()
        } else {
            vec![number(part)]
        }
    };
    let (kept, dropped) = field.split_once(" except ").unwrap_or((field, ""));
    let all = kept.split(',').flat_map(part);
    all.filter(|grade| dropped.is_empty() || *grade != number(dropped)).collect()
}

fn has_deviation(nominal: &str, class: &str, which: &str, deviation: Size) {
    let limits = class_limits(nominal, class);
    let got = match which {
        "es" | "ES" => limits.upper_deviation(),
        _ => limits.lower_deviation(),
    };
    assert_eq!(got, deviation, "{nominal} {class}");
}

#[test]
fn deviations_of_shafts_are_as_published() {
    let lines = lines::<7>(SHAFTS);
    assert_eq!(lines.len(), 658);
    for [letter, over, up_to, field, deviation, which, _] in lines {
        for (nominal, grade) in
            ends(over, up_to).iter().flat_map(|end| grades(field).into_iter().map(move |grade| (end, grade)))
        {
            let class = format!("{letter}{grade}");
            if deviation == "IT/2" {
                let limits = class_limits(nominal, &class);
                assert_eq!(limits.lower_deviation().checked_neg(), Some(limits.upper_deviation()), "{class}");
            } else {
                has_deviation(nominal, &class, which, size(deviation, "µm"));
            }
        }
    }
}

#[test]
fn deviations_of_holes_are_as_published() {
    let deltas = lines::<5>(DELTAS);
    assert_eq!(deltas.len(), 78);
    let lines = lines::<8>(HOLES);
    assert_eq!(lines.len(), 958);
    let mut with_delta = 0;
    for [letter, over, up_to, field, deviation, which, adds, _] in lines {
        for nominal in ends(over, up_to) {
            for grade in grades(field) {
                let class = format!("{letter}{grade}");
                if deviation == "IT/2" {
                    let limits = class_limits(&nominal, &class);
                    assert_eq!(
                        limits.lower_deviation().checked_neg(),
                        Some(limits.upper_deviation()),
                        "{class}"
                    );
                    continue;
                }
                let mut expected = size(deviation, "µm");
                if adds == "1" {
                    let is_row = |row: &&[&str; 5]| {
                        let up_to = size(up_to, "mm");
                        size(row[0], "mm") < up_to
                            && up_to <= size(row[1], "mm")
                            && row[2] == format!("IT{grade}")
                    };
                    let Some(row) = deltas.iter().find(is_row) else {
                        // No delta stands for the finest grades, so that there is no class either.
                        let refusal = iso_limits(&format!("{nominal} {class}"));
                        assert!(
                            grade < 3 && matches!(refusal, Err(FitError::NotTabulated { .. })),
                            "{class}"
                        );
                        continue;
                    };
                    with_delta += 1;
                    expected = expected.checked_add(size(row[3], "µm")).unwrap();
                }
                has_deviation(&nominal, &class, which, expected);
            }
        }
    }
    assert!(with_delta > 2000, "{with_delta}");
}

#[test]
fn limits_and_fits_are_as_published() {
    let lines = lines::<7>(LIMITS);
    assert_eq!(lines.len(), 209);
    for [nominal, class, upper, lower, greatest, least, _] in lines {
        let text = format!("{nominal} {class}");
        if class.contains('/') {
            let fit = Fit::parse(&text).unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(fit.max_clearance(), size(greatest, "µm"), "{text}");
            assert_eq!(fit.min_clearance(), size(least, "µm"), "{text}");
        } else {
            let limits = class_limits(nominal, class);
            assert_eq!(limits.upper_deviation(), size(upper, "µm"), "{text}");
            assert_eq!(limits.lower_deviation(), size(lower, "µm"), "{text}");
        }
    }
}

#[test]
fn inch_fits_are_as_published() {
    let lines = lines::<8>(INCH);
    assert_eq!(lines.len(), 492);
    for [name, over, up_to, hole_lower, hole_upper, shaft_lower, shaft_upper, source] in lines {
        let above = size(over, "in").checked_add(Size::from_picometres(1)).unwrap();
        for nominal in [above, size(up_to, "in")] {
            let fit = Fit::inch(name, nominal).unwrap_or_else(|error| panic!("{error}"));
            let deviations = |limits: Limits| [limits.lower_deviation(), limits.upper_deviation()];
            assert_eq!(
                deviations(fit.hole()),
                [hole_lower, hole_upper].map(thousandths),
                "{name} over {over}"
            );
            assert_eq!(
                deviations(fit.shaft()),
                [shaft_lower, shaft_upper].map(thousandths),
                "{name} over {over}"
            );
            assert_eq!(fit.source().contains("memory"), source.contains("memory"), "{name} over {over}");
            // LC is from memory in every row.
            assert!(!name.starts_with("LC") || fit.source().starts_with("memory"), "{name}");
        }
    }
}

/// Time of a lookup, for information: no criterion, since the machine may be busy.
#[test]
fn lookups_take_their_time() {
    let designations: Vec<String> = LIMITS
        .lines()
        .filter(|line| !line.starts_with("# "))
        .filter_map(|line| line.split(';').nth(1).map(|class| (line.split(';').next(), class)))
        .filter_map(|(size, class)| Some(format!("{} {class}", size?)))
        .filter(|text| !text.contains('/'))
        .collect();
    let start = std::time::Instant::now();
    let rounds = 500;
    let good: usize = (0..rounds)
        .map(|_| designations.iter().filter(|text| iso_limits(std::hint::black_box(text)).is_ok()).count())
        .sum();
    let count = rounds * designations.len();
    println!("{:.0} ns a lookup", start.elapsed().as_nanos() as f64 / count as f64);
    assert_eq!(good, count);
}

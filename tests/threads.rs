//! The figures of `tests/published/thread_limits.csv`, which come from outside the project, against the limits.
mod evidence;

use std::collections::BTreeSet;
use tenths::{Size, Thread};

const FIGURES: &str = include_str!("published/thread_limits.csv");

/// The quantity of that name, exactly.
fn quantity(thread: &Thread, name: &str) -> Option<Size> {
    let pitch_diameter = thread.pitch_diameter()?;
    match name {
        "major_upper" => thread.major().map(|limits| limits.upper()),
        "major_lower" => thread.major_least(),
        "major_tolerance" => thread.major().map(|limits| limits.tolerance()),
        "pitch_diameter_upper" => Some(pitch_diameter.upper()),
        "pitch_diameter_lower" => Some(pitch_diameter.lower()),
        "pitch_diameter_tolerance" => Some(pitch_diameter.tolerance()),
        "minor_upper" => thread.minor_greatest(),
        "minor_lower" => thread.minor().map(|limits| limits.lower()),
        "minor_tolerance" => thread.minor().map(|limits| limits.tolerance()),
        // What lies between the basic profile and the limit nearest to it.
        "allowance" => match thread.major() {
            Some(major) => thread.nominal().checked_sub(major.upper()),
            None => thread.major_least()?.checked_sub(thread.nominal()),
        },
        _ => None,
    }
}

/// Checks a line; gives its designation.
fn check(line: &str) -> Result<&str, String> {
    let [designation, name, figure, seen, source] = line.split(';').collect::<Vec<_>>()[..] else {
        return Err("a line has five fields".into());
    };
    evidence::check(seen, source)?;
    let thread = Thread::parse_with_class(designation).map_err(|error| error.to_string())?;
    let figure = Size::parse(figure).map_err(|error| error.to_string())?;
    match quantity(&thread, name) {
        Some(got) if got == figure => Ok(designation),
        Some(got) => Err(format!("{name} is {got}, not {figure}")),
        None => Err(format!("no such quantity: {name}")),
    }
}

fn lines() -> impl Iterator<Item = &'static str> {
    FIGURES.lines().filter(|line| !line.starts_with("# "))
}

#[test]
fn threads_have_the_published_limits() {
    let faults: Vec<String> =
        lines().filter_map(|line| Some(format!("{line}: {}", check(line).err()?))).collect();
    assert!(faults.is_empty(), "{} of {} lines:\n{}", faults.len(), lines().count(), faults.join("\n"));
}

// Both standards, both members and all classes of Unified threads are held against a figure.
#[test]
fn the_figures_cover_both_standards() {
    let threads: Vec<Thread> =
        lines().filter_map(|line| Thread::parse(line.split(';').next()?).ok()).collect();
    let kinds: BTreeSet<_> = threads.iter().map(|thread| (thread.standard(), thread.is_internal())).collect();
    assert_eq!(kinds.len(), 4);
    let classes: BTreeSet<String> = threads.iter().filter_map(Thread::tolerance_class).collect();
    for class in ["4g6g", "6g", "6h", "4H", "5H", "6G", "6H", "1A", "2A", "3A", "1B", "2B", "3B"] {
        assert!(classes.contains(class), "{class}");
    }
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    assert_eq!(check("M8-6g;major_upper;7.972 mm;print;source"), Ok("M8-6g"));
    for (line, complaint) in [
        ("M8-6g;major_upper;7.973 mm;print;source", "not 7.973 mm"),
        ("M8-6g;major_uper;7.972 mm;print;source", "no such quantity"),
        ("M8-6H;major_upper;7.972 mm;print;source", "no such quantity"),
        ("M8;major_upper;7.972 mm;print;source", "needs a tolerance class"),
        ("M8-6g;major_upper;7.972;print;source", "needs a unit"),
        ("M8-6g;major_upper;7.972 mm;here;source", "how the figure was seen"),
        ("M8-6g;major_upper;7.972 mm;print", "five fields"),
    ] {
        let fault = check(line).unwrap_err();
        assert!(fault.contains(complaint), "`{fault}` for {line}");
    }
}

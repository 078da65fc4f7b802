//! The sets of locators of `tests/published/locating.csv`, which come from outside the project.
mod evidence;

use tenths::Units;
use tenths::workholding::{Locating, Locator};

const LOCATING: &str = include_str!("published/locating.csv");

fn numbers(text: &str) -> Result<[f64; 6], Box<dyn std::error::Error>> {
    let numbers = text.split(' ').map(str::parse).collect::<Result<Vec<f64>, _>>()?;
    numbers.try_into().map_err(|_| "six numbers".into())
}

/// The numbers of each part of a field.
fn parts(text: &str) -> Result<Vec<[f64; 6]>, Box<dyn std::error::Error>> {
    text.split('|').filter(|part| !part.is_empty()).map(numbers).collect()
}

fn line(line: &str) -> Result<(), Box<dyn std::error::Error>> {
    let [locators, held, free, seen, source] = line.split(';').collect::<Vec<_>>()[..] else {
        return Err("a line has five fields".into());
    };
    evidence::check(seen, source)?;
    let locators: Vec<Locator> = parts(locators)?
        .into_iter()
        .map(|[x, y, z, a, b, c]| Locator { position: [x, y, z], normal: [a, b, c] })
        .collect();
    let made = Locating::new(&locators, &[], None, Units::Metric)?;
    if made.held != held.parse::<usize>()? || made.redundant != locators.len() - made.held {
        return Err(format!("{made}").into());
    }
    let wanted = parts(free)?;
    let near = |a: &[f64], b: &[f64]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-6);
    let good = wanted.len() == made.free.len()
        && wanted.iter().zip(&made.free).all(|(wanted, made)| {
            near(&wanted[..3], &made.translation) && near(&wanted[3..], &made.rotation)
        });
    if good { Ok(()) } else { Err(format!("{:?}", made.free).into()) }
}

#[test]
fn locators_hold_what_is_published() {
    let lines = LOCATING.lines().filter(|line| !line.starts_with("# "));
    let faults: Vec<String> =
        lines.clone().filter_map(|text| Some(format!("{text}: {}", line(text).err()?))).collect();
    assert!(lines.count() >= 7 && faults.is_empty(), "{}", faults.join("\n"));
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    let good = "0 0 0 0 0 1|100 0 0 0 0 1|50 80 0 0 0 1;3;1 0 0 0 0 0|0 1 0 0 0 0|0 0 0 0 0 1;memory;source";
    assert!(line(good).is_ok());
    for (from, to) in
        [(";3;", ";4;"), ("1 0 0 0 0 0|", ""), ("0 0 0 0 0 1;", "0 0 1 0 0 1;"), ("memory", "here")]
    {
        assert!(line(&good.replace(from, to)).is_err(), "{from} as {to}");
    }
}

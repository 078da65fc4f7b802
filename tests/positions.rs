//! The figures of `tests/published/positions.csv`, which come from outside the project.
mod evidence;

use tenths::{Limits, MaterialCondition, MeasuredFeature, Member, PositionCheck, Size};

const POSITIONS: &str = include_str!("published/positions.csv");

type Fault = Box<dyn std::error::Error>;

fn feature_of([member, condition, limits, actual]: [&str; 4]) -> Result<Option<MeasuredFeature>, Fault> {
    if member.is_empty() {
        return Ok(None);
    }
    let member = Member::ALL.into_iter().find(|known| known.name() == member).ok_or("no such member")?;
    Ok(Some(MeasuredFeature {
        member,
        condition: MaterialCondition::parse(condition)?,
        limits: Limits::parse(limits)?,
        actual: Size::parse(actual)?,
    }))
}

fn line(line: &str) -> Result<(), Fault> {
    let [x, y, z, tolerance, member, condition, limits, actual, error, bonus, allowed, verdict, seen, source] =
        line.split(';').collect::<Vec<_>>()[..]
    else {
        return Err("a line has fourteen fields".into());
    };
    evidence::check(seen, source)?;
    let feature = feature_of([member, condition, limits, actual])?;
    let z = if z.is_empty() { Size::ZERO } else { Size::parse(z)? };
    let check =
        PositionCheck::new([Size::parse(x)?, Size::parse(y)?, z], Size::parse(tolerance)?, feature.as_ref())?;
    let got =
        (check.error, check.bonus, check.allowed, if check.accepted() { "accepted" } else { "rejected" });
    let want = (Size::parse(error)?, Size::parse(bonus)?, Size::parse(allowed)?, verdict);
    if got == want { Ok(()) } else { Err(format!("{got:?}, not {want:?}").into()) }
}

#[test]
fn positions_are_judged_as_published() {
    let lines = POSITIONS.lines().filter(|line| !line.starts_with("# "));
    let faults: Vec<String> =
        lines.clone().filter_map(|text| Some(format!("{text}: {}", line(text).err()?))).collect();
    assert!(lines.count() >= 14 && faults.is_empty(), "{}", faults.join("\n"));
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    let good = "0.03 mm;0.04 mm;;0.1 mm;;;;;0.1 mm;0 mm;0.1 mm;accepted;print;source";
    assert!(line(good).is_ok());
    for (from, to) in [("accepted", "rejected"), ("print", "here"), (";source", ""), ("0.03", "0.031")] {
        assert!(line(&good.replace(from, to)).is_err(), "{from} as {to}");
    }
}

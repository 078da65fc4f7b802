//! The figures of `tests/published/sampling*.csv`, which come from outside the project.
mod evidence;

use std::collections::HashMap;
use tenths::inspect::sampling::{
    InspectionLevel, InspectionSeverity, LotModel, PlanPerformance, PlanRequest, Quality, SamplingPlan,
    SamplingStage, SigmaKnowledge, VariablesPlan, two_point_plan, zero_acceptance_plan,
};

const SAMPLING: &str = include_str!("published/sampling.csv");
const NORMAL: &str = include_str!("published/sampling_single_normal.csv");
const LETTERS: &str = include_str!("published/sampling_code_letters.csv");

type Fault = Box<dyn std::error::Error>;

fn lines(file: &str) -> impl Iterator<Item = Vec<&str>> {
    file.lines().filter(|line| !line.starts_with("# ")).map(|line| line.split(';').collect())
}

/// What is given, by its name.
fn given(text: &str) -> HashMap<&str, &str> {
    text.split(' ').map(|word| word.split_once('=').unwrap_or((word, ""))).collect()
}

fn stages(text: &str) -> Result<Vec<SamplingStage>, Fault> {
    let stage = |text: &str| -> Result<SamplingStage, Fault> {
        let [size, accept, reject] = text.split('/').collect::<Vec<_>>()[..] else {
            return Err("three numbers".into());
        };
        let accept = if accept == "-" { None } else { Some(accept.parse()?) };
        Ok(SamplingStage { sample_size: size.parse()?, accept, reject: reject.parse()? })
    };
    text.split(',').map(stage).collect()
}

fn plan(call: &str, given: &HashMap<&str, &str>) -> Result<SamplingPlan, Fault> {
    let text = |name: &str| given.get(name).copied().ok_or_else(|| format!("{name} is missing"));
    let number = |name: &str| -> Result<f64, Fault> { Ok(text(name)?.parse()?) };
    let lot = given.get("lot").map(|lot| lot.parse()).transpose()?;
    Ok(match call {
        "standard" => SamplingPlan::of_standard(&PlanRequest {
            level: InspectionLevel::parse(text("level")?)?,
            severity: InspectionSeverity::parse(text("severity")?)?,
            ..PlanRequest::new(lot.ok_or("no lot")?, number("aql")?)
        })?,
        "stages" => SamplingPlan::of_stages(&stages(text("samples")?)?, lot, InspectionSeverity::Normal)?,
        "zero" => zero_acceptance_plan(lot, Quality::Ltpd(number("ltpd")?), number("risk")?)?,
        "two_points" => {
            let risks = [number("producer_risk")?, number("consumer_risk")?];
            two_point_plan(number("aql")?, number("ltpd")?, risks[0], risks[1])?
        }
        _ => return Err("no such call".into()),
    })
}

fn line(fields: &[&str]) -> Result<(), Fault> {
    let [call, words, quantity, figure, seen, source] = fields[..] else {
        return Err("a line has six fields".into());
    };
    evidence::check(seen, source)?;
    let given = given(words);
    if call == "variables" {
        return met(variables(&given, quantity)?, figure);
    }
    let plan = plan(call, &given)?;
    let exact = |got: String| if got == figure { Ok(()) } else { Err(format!("{got}, not {figure}").into()) };
    match quantity {
        "code_letter" => return exact(plan.code_letter.unwrap_or_default().into()),
        "plan_letter" => return exact(plan.plan_letter.unwrap_or_default().into()),
        "sample_size" => return exact(plan.sample_size.to_string()),
        "accept" => return exact(plan.accept.ok_or("none")?.to_string()),
        "reject" => return exact(plan.reject.to_string()),
        _ => {}
    }
    let model = given.get("model").map_or(Ok(LotModel::Binomial), |model| LotModel::parse(model))?;
    let performance: PlanPerformance = match given.get("p") {
        Some(p) => plan.performance(p.parse()?, model)?,
        None if given.contains_key("worst") => plan.worst_outgoing(model)?,
        None => return Err("no quality".into()),
    };
    let got = match quantity {
        "fraction" => performance.fraction,
        "acceptance_probability" => performance.acceptance_probability,
        "average_outgoing_quality" => performance.average_outgoing_quality,
        "average_sample_number" => performance.average_sample_number,
        "average_total_inspection" => performance.average_total_inspection.ok_or("no lot")?,
        _ => return Err("no such quantity".into()),
    };
    met(got, figure)
}

/// A figure is met within half a unit of its last digit.
fn met(got: f64, figure: &str) -> Result<(), Fault> {
    let digits = figure.split_once('.').map_or(0, |(_, digits)| digits.len());
    let within: f64 = format!("0.5e-{digits}").parse()?;
    let value: f64 = figure.parse()?;
    match (got - value).abs() <= within * (1.0 + 1e-9) + 1e-13 * value.abs() {
        true => Ok(()),
        false => Err(format!("{got:?}, not {figure}").into()),
    }
}

/// A figure of a plan by variables.
fn variables(given: &HashMap<&str, &str>, quantity: &str) -> Result<f64, Fault> {
    let text = |name: &str| given.get(name).copied().ok_or_else(|| format!("{name} is missing"));
    let number = |name: &str| -> Result<f64, Fault> { Ok(text(name)?.parse()?) };
    let risks = [number("producer_risk")?, number("consumer_risk")?];
    let sigma = SigmaKnowledge::parse(text("sigma")?)?;
    let plan = VariablesPlan::new(number("aql")?, number("ltpd")?, risks[0], risks[1], sigma)?;
    Ok(match quantity {
        "sample_size" => plan.sample_size as f64,
        "k" => plan.k,
        "acceptance_probability" => plan.acceptance_probability(number("p")?)?,
        _ => return Err("no such quantity".into()),
    })
}

#[test]
fn plans_are_as_published() {
    let faults: Vec<String> =
        lines(SAMPLING).filter_map(|fields| Some(format!("{fields:?}: {}", line(&fields).err()?))).collect();
    assert!(lines(SAMPLING).count() >= 140 && faults.is_empty(), "{}", faults.join("\n"));
}

// What a driver that passes everything would let through.
#[test]
fn faulty_lines_are_caught() {
    let good = "stages;samples=89/2/3 p=0.01;acceptance_probability;0.9397;memory;source";
    let check = |text: &str| line(&text.split(';').collect::<Vec<_>>());
    assert!(check(good).is_ok());
    for (from, to) in [
        ("0.9397", "0.9398"),
        ("89", "88"),
        ("/2/3", "/2/4"),
        ("memory", "here"),
        ("acceptance_probability", "fraction"),
    ] {
        assert!(check(&good.replace(from, to)).is_err(), "{from} as {to}");
    }
}

/// A lot whose code letter at level II is this one.
fn lot_of(letter: &str) -> u64 {
    let row = lines(LETTERS).find(|row| row[7] == letter);
    row.map_or(600_000, |row| row[1].parse().unwrap_or(600_000))
}

#[test]
fn every_cell_of_the_master_table_is_as_published() {
    let mut count = 0;
    for row in lines(NORMAL) {
        let [letter, aql, _, use_letter, use_size, accept, reject, seen, source] = row[..] else {
            panic!("{row:?}")
        };
        evidence::check(seen, source).unwrap();
        // R is the letter of no lot at level II.
        let (lot, level) = if letter == "R" {
            (600_000, InspectionLevel::III)
        } else {
            (lot_of(letter), InspectionLevel::II)
        };
        let asked = PlanRequest { level, ..PlanRequest::new(lot, aql.parse().unwrap()) };
        let plan = SamplingPlan::of_standard(&asked).unwrap();
        assert_eq!(plan.code_letter.as_deref(), Some(letter), "{row:?}");
        assert_eq!(plan.plan_letter.as_deref(), Some(use_letter), "{row:?}");
        assert_eq!(plan.sample_size, use_size.parse::<u64>().unwrap().min(lot), "{row:?}");
        assert_eq!(plan.whole_lot(), plan.sample_size == lot, "{row:?}");
        assert_eq!((plan.accept, plan.reject), (accept.parse().ok(), reject.parse().unwrap()), "{row:?}");
        count += 1;
    }
    assert_eq!(count, 16 * 26);
}

#[test]
fn code_letters_are_as_published() {
    let mut count = 0;
    for row in lines(LETTERS) {
        evidence::check(row[9], row[10]).unwrap();
        for lot in row[..2]
            .iter()
            .filter_map(|lot| lot.parse::<u64>().ok())
            .chain([1_000_000_000].repeat(usize::from(row[1].is_empty())))
        {
            for (level, letter) in InspectionLevel::ALL.iter().zip(&row[2..]) {
                let asked = PlanRequest { level: *level, ..PlanRequest::new(lot, 1.0) };
                let plan = SamplingPlan::of_standard(&asked).unwrap();
                assert_eq!(plan.code_letter.as_deref(), Some(*letter), "{lot} {level:?}");
                count += 1;
            }
        }
    }
    assert_eq!(count, 15 * 2 * 7);
}

//! Runs a formula, by its name, over the rows of a CSV table: `cut_table [FORMULA inch|metric PATH]`.
//!
//! The head of the table names arguments of the formula; those with a default may be missing. The results are a
//! CSV table too, and remarks on rows go to standard error. No formula is written into this program: a host program
//! can offer its users everything in `tenths::formulas()`.
use std::error::Error;
use std::fmt::Write;
use std::process::ExitCode;
use tenths::Units;
use tenths::formula::{Argument, Formula};
use tenths::{find, formulas};

/// Rough turning with carbide. The third cut goes beyond the middle of the bar, the fourth lacks its feed, and the
/// last has an exponent that its source does not state.
const CUTS: &str = "\
spindle_speed,workpiece_diameter,feed_per_revolution,depth,travel,nose_radius,kc11,mc
1500,25,0.2,1.5,60,0.8,1775,0.24
1200,25,0.25,2,60,0.8,1775,0.24
1500,25,0.2,15,60,0.8,1775,0.24
1500,25,,1.5,60,0.8,1775,0.24
2400,18,0.15,1,42,0.4,700,0.45
";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match run(&words.iter().map(String::as_str).collect::<Vec<_>>()) {
        Ok((table, remarks)) => {
            print!("{table}");
            eprint!("{remarks}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

/// The results of the command, and the remarks on rows.
pub fn run(words: &[&str]) -> Result<(String, String), Box<dyn Error>> {
    match *words {
        [] => evaluate(look_up("turning_cut")?, Units::Metric, CUTS),
        [name, units, path] => evaluate(look_up(name)?, units.parse()?, &std::fs::read_to_string(path)?),
        _ => Err("usage: cut_table [FORMULA inch|metric PATH]".into()),
    }
}

fn look_up(name: &str) -> Result<&'static Formula, String> {
    find(name).ok_or_else(|| {
        let names = formulas().map(|formula| formula.name);
        let like: Vec<_> = names.filter(|known| known.contains(name)).collect();
        format!("no formula is called `{name}`; {} have that in their name: {}", like.len(), like.join(", "))
    })
}

fn evaluate(formula: &Formula, units: Units, text: &str) -> Result<(String, String), Box<dyn Error>> {
    let columns = read(formula, units, text)?;
    let count = columns[0].len();
    let mut results = vec![vec![0.0; count]; formula.outputs.len()];
    let mut told = Vec::new();
    let given: Vec<&[f64]> = columns.iter().map(Vec::as_slice).collect();
    let mut wanted: Vec<&mut [f64]> = results.iter_mut().map(Vec::as_mut_slice).collect();
    formula.batch_telling(units, &given, &mut wanted, &mut |row| told.push(row.number))?;

    let heads = formula.outputs.iter().enumerate().map(|(k, output)| {
        format!("{} {}", formula.output_name(k), output.kind.unit(units).label).trim_end().to_owned()
    });
    let mut table = heads.collect::<Vec<_>>().join(",") + "\n";
    for row in 0..count {
        let cells: Vec<_> = results.iter().map(|column| figure(column[row])).collect();
        writeln!(table, "{}", cells.join(","))?;
    }
    let mut remarks = String::new();
    for row in told {
        let numbers: Vec<f64> = columns.iter().map(|column| column[row]).collect();
        match formula.check(units, &numbers) {
            Ok(advice) => {
                advice.iter().try_for_each(|one| writeln!(remarks, "row {}: take care: {one}", row + 1))?
            }
            Err(error) => writeln!(remarks, "row {}: no answer: {error}", row + 1)?,
        }
    }
    Ok((table, remarks))
}

/// A column for each argument in the order of a call; NaN stands for an empty cell.
fn read(formula: &Formula, units: Units, text: &str) -> Result<Vec<Vec<f64>>, String> {
    let mut lines = text.lines().map(|line| line.split(',').map(str::trim).collect::<Vec<_>>());
    let heads = lines.next().unwrap_or_default();
    if let Some(head) = heads.iter().find(|head| formula.arguments.iter().all(|known| known.name != **head)) {
        return Err(format!("{formula:?} takes no `{head}`"));
    }
    let rows: Vec<_> = lines.collect();
    if let Some(row) = rows.iter().position(|cells| cells.len() != heads.len()) {
        return Err(format!("row {} has {} cells, not {}", row + 1, rows[row].len(), heads.len()));
    }
    let column = |argument: &Argument| match heads.iter().position(|head| *head == argument.name) {
        Some(place) => rows.iter().map(|cells| number(cells[place])).collect(),
        None => match argument.default(units) {
            Some(default) => Ok(vec![default; rows.len()]),
            None => Err(format!("the table has no column `{}`: {}", argument.name, argument.doc)),
        },
    };
    formula.arguments.iter().map(column).collect()
}

fn number(cell: &str) -> Result<f64, String> {
    if cell.is_empty() { Ok(f64::NAN) } else { cell.parse().map_err(|_| format!("`{cell}` is not a number")) }
}

/// Five figures of a number, and nothing for NaN.
fn figure(number: f64) -> String {
    let scientific = format!("{number:.4e}");
    let exponent = scientific.split_once('e').and_then(|(_, exponent)| exponent.parse::<i32>().ok());
    exponent.map_or_else(String::new, |exponent| format!("{number:.*}", (4 - exponent).max(0) as usize))
}

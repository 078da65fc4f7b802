//! Prints a sheet of a plan: the path of the plan, the kind of sheet and the format may follow, as in
//! `process_sheet examples/plans/jig_rest_pin.json cards html`.
use std::process::ExitCode;
use tenths::{Plan, SheetKind};

fn main() -> ExitCode {
    match sheet() {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn sheet() -> Result<String, Box<dyn std::error::Error>> {
    let given: Vec<String> = std::env::args().skip(1).collect();
    let text = match given.first() {
        Some(path) => std::fs::read_to_string(path)?,
        None => include_str!("plans/roller_axle.json").into(),
    };
    let kind = given.get(1).map_or(Ok(SheetKind::Process), |kind| SheetKind::parse(kind))?;
    let format = given.get(2).map_or("markdown", String::as_str);
    Ok(Plan::from_json(&text)?.evaluate()?.to_format(kind, format)?)
}

//! Prints the process sheet of a plan: of the demo, or of the document whose path is given.
use std::process::ExitCode;
use tenths::Plan;

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
    let text = match std::env::args_os().nth(1) {
        Some(path) => std::fs::read_to_string(path)?,
        None => include_str!("plans/roller_axle.json").into(),
    };
    Ok(Plan::from_json(&text)?.evaluate()?.to_markdown())
}

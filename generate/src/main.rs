//! Writes every generated and committed file: `cargo run -p tenths-generate`; with `-- --check` it compares.
//!
//! `-- c-checks DIRECTORY` writes the generated C tests, and `-- parity-json FILE` the rows that all interfaces must
//! agree on.
mod abi;
mod c;
mod c_checks;
mod c_numbers;
mod class_pages;
mod conformance;
mod cpp;
mod evidence;
mod example;
mod exports;
mod faults;
mod function_bindings;
mod function_pages;
mod functions;
mod header;
mod layout;
mod object_pages;
mod object_stubs;
mod objects;
mod option_pages;
mod option_stubs;
mod options;
mod parity;
mod plan;
mod python_types;
mod reference;
mod sides;
mod stacks;
mod stubs;
mod text;
mod unit_slips;
mod units;

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use text::{Outcome, Text};

/// Makes the text of a file of the project, whose root it is given.
type Make = fn(&Path) -> Text;

/// The generated files by their paths in the project, in the order of writing: some are made from those above.
const OUTPUTS: &[(&str, Make)] = &[
    ("ffi/src/formulas.rs", c::formulas),
    ("ffi/src/functions.rs", functions::functions),
    ("ffi/src/objects.rs", objects::objects),
    ("ffi/src/options.rs", options::options),
    ("ffi/include/tenths.h", header::header),
    ("ffi/abi.txt", abi::snapshot),
    ("ffi/include/tenths_calls.hpp", cpp::calls),
    ("python/src/functions.rs", function_bindings::bindings),
    ("python/tenths/inch.pyi", stubs::inch),
    ("python/tenths/metric.pyi", stubs::metric),
    ("python/tenths/_formula.pyi", stubs::results),
    ("python/tenths/_tenths.pyi", object_stubs::module),
    ("python/tenths/_charts.pyi", |root| option_stubs::module(root, "_charts.pyi")),
    ("python/tenths/_cutting_plan.pyi", |root| option_stubs::module(root, "_cutting_plan.pyi")),
    ("python/tenths/_gauge_study.pyi", |root| option_stubs::module(root, "_gauge_study.pyi")),
    ("docs/formulas.md", reference::page),
    ("docs/functions.md", function_pages::page),
    ("docs/classes.md", class_pages::page),
    ("docs/objects.md", object_pages::page),
    ("docs/options.md", option_pages::page),
    ("docs/units.md", units::page),
    ("docs/plan.schema.json", plan::schema),
    ("docs/plan.md", plan::page),
    ("docs/sheet.schema.json", plan::sheet_schema),
    ("docs/sheet.md", plan::sheet_page),
    ("docs/findings.md", plan::findings_page),
    ("docs/conformance.md", conformance::page),
    ("tests/published/README.md", conformance::readme),
];

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let outcome = match arguments[..] {
        [] => each_output(write),
        ["--check"] => each_output(compare),
        ["c-checks", directory] => {
            let (root, directory) = (root(), Path::new(directory));
            c_checks::write(&root, directory).and_then(|()| layout::write(&root, directory))
        }
        ["parity-json", file] => parity::json().and_then(|text| Ok(std::fs::write(file, text)?)),
        _ => Err("usage: tenths-generate [--check | c-checks DIRECTORY | parity-json FILE]".into()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("tenths-generate: {error}");
            ExitCode::FAILURE
        }
    }
}

fn root() -> PathBuf {
    [env!("CARGO_MANIFEST_DIR"), ".."].iter().collect()
}

fn each_output(mut treat: impl FnMut(&Path, &str) -> Outcome) -> Outcome {
    let root = root();
    for (path, make) in OUTPUTS {
        let text = make(&root)?;
        treat(&root.join(path), &text).map_err(|error| format!("{path}: {error}"))?;
    }
    Ok(())
}

fn write(path: &Path, text: &str) -> Outcome {
    if std::fs::read_to_string(path).is_ok_and(|old| old == text) {
        return Ok(());
    }
    if let Some(directory) = path.parent() {
        std::fs::create_dir_all(directory)?;
    }
    Ok(std::fs::write(path, text)?)
}

fn compare(path: &Path, text: &str) -> Outcome {
    match std::fs::read_to_string(path)? == text {
        true => Ok(()),
        false => Err("differs from what `cargo run -p tenths-generate` writes".into()),
    }
}

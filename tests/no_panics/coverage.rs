//! A public function that no test here calls is noticed: the names in the sources of `core` are looked for in these tests.
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// What is not called here, and why not.
#[rustfmt::skip]
const EXCEPTIONS: &[(&str, &[&str])] = &[
    ("is in a private module: text that reaches it is tried through what is public", &[
        "is_numbered", "Code::of", "Designation::basic", "Designation::classes", "Designation::diameters",
        "Designation::is_internal", "Designation::nominal", "Designation::parse", "Designation::pitch",
        "Designation::standard",
    ]),
    ("makes records when the crate is compiled", &[
        "module_name", "Argument::new", "Constant::new", "Domain::above", "Domain::at_least",
        "Domain::at_most", "Domain::below", "Domain::narrowed_to", "FieldKind::pure", "Output::described", "Output::new",
    ]),
    ("is called by every typed function and every record, with what they have checked", &[
        "Formula::admit", "Formula::evaluate_base", "Formula::holds", "Formula::metric_defaults",
    ]),
    ("is unsafe, and called by every batch", &["Formula::batch_raw", "Formula::batch_raw_watched"]),
    ("is called by every batch of many rows", &["Column::from_row", "ColumnMut::from_row"]),
    ("is called by every `parse` of a choice", &["UnknownName::or_named"]),
    ("is within the search for the best cut", &[
        "Argument::in_power_laws", "FormulaOutput::formula", "Limits::binds", "Limits::count", "Limits::is_least", "Limits::is_straight",
        "Limits::name", "Limits::new", "Limits::place_of", "Limits::value",
    ]),
    ("is what a macro writes for each choice of a sampling plan, which `process.rs` calls", &["parse"]),
];

/// A public function: the type that it belongs to, if it belongs to one, and its name.
#[derive(PartialEq, Eq, PartialOrd, Ord, Debug)]
struct Public {
    of: Option<String>,
    name: String,
}

impl Public {
    fn path(&self) -> String {
        self.of.iter().map(|of| format!("{of}::")).chain([self.name.clone()]).collect()
    }
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = vec![];
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        match path.is_dir() {
            true => found.extend(sources(&path)),
            false => found.extend(path.extension().is_some_and(|end| end == "rs").then_some(path)),
        }
    }
    found
}

/// The words of Rust code: names with the paths that they stand in.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':')).map(|word| word.trim_matches(':'))
}

/// The name at the start of a declaration, after `pub fn` or the like.
fn name_after<'a>(line: &'a str, starts: &[&str]) -> Option<&'a str> {
    let rest = starts.iter().find_map(|start| line.strip_prefix(start))?;
    rest.split(|c: char| !(c.is_alphanumeric() || c == '_')).next()
}

/// The functions that a source makes public. Formulas are left out, of which `typed.rs` has a list of its own, and functions
/// with a record, which `functions.rs` calls.
fn public_functions(text: &str, is_public: impl Fn(&str) -> bool) -> Vec<Public> {
    let code = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    let (mut found, mut of, mut has_record) = (vec![], None, false);
    for line in code.lines() {
        if let Some(head) = line.strip_prefix("impl") {
            // `impl<F: Function> Propagation<F> {`; of a trait there is nothing to list.
            let head =
                if head.starts_with('<') { head.split_once("> ").map_or("", |(_, rest)| rest) } else { head };
            of = (!head.contains(" for "))
                .then(|| words(head).find(|word| !word.is_empty()).unwrap_or_default().to_string());
        } else if line == "}" {
            of = None;
        }
        let line = line.trim_start();
        has_record |= line.starts_with("#[formula") || line.starts_with("#[function(");
        let Some(name) = name_after(line, &["pub fn ", "pub const fn ", "pub unsafe fn "]) else { continue };
        if !has_record && of.as_deref().is_none_or(&is_public) {
            found.push(Public { of: of.clone(), name: name.to_string() });
        }
        has_record = false;
    }
    found
}

#[test]
fn every_public_function_is_called_or_excepted() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let core: Vec<String> =
        sources(&root.join("core/src")).iter().map(|path| fs::read_to_string(path).unwrap()).collect();
    let types: Vec<&str> = core
        .iter()
        .flat_map(|text| text.lines())
        .filter_map(|line| name_after(line, &["pub struct ", "pub enum "]))
        .collect();
    let mut functions: Vec<Public> =
        core.iter().flat_map(|text| public_functions(text, |name| types.contains(&name))).collect();
    functions.sort();
    functions.dedup();
    assert!(functions.len() > 300, "{} public functions were found", functions.len());
    let tests: Vec<String> = sources(&root.join("tests/no_panics"))
        .iter()
        .filter(|path| !path.ends_with("coverage.rs"))
        .map(|path| fs::read_to_string(path).unwrap())
        .collect();
    let called: Vec<&str> = tests.iter().flat_map(|text| words(text)).collect();
    let mut bearers = BTreeMap::new();
    functions.iter().for_each(|function| *bearers.entry(&function.name).or_insert(0) += 1);
    // A name that several types have says nothing alone: then it is written with its type.
    let is_called = |function: &Public| {
        let alone = bearers[&function.name] == 1
            && called.iter().any(|word| word.rsplit("::").next() == Some(&function.name));
        let of_module = |word: &&str| {
            let (module, name) = word.rsplit_once("::").unwrap_or_default();
            function.of.is_none() && name == function.name && module.starts_with(char::is_lowercase)
        };
        alone || called.iter().any(of_module) || called.contains(&function.path().as_str())
    };
    let excepted: Vec<&str> = EXCEPTIONS.iter().flat_map(|(_, paths)| paths.iter().copied()).collect();
    let is_excepted = |function: &Public| excepted.contains(&function.path().as_str());
    let left: Vec<String> =
        functions.iter().filter(|one| !is_called(one) && !is_excepted(one)).map(Public::path).collect();
    assert!(left.is_empty(), "call these in tests/no_panics, or say here why not:\n{}", left.join("\n"));
    let is_needed = |path: &&&str| functions.iter().any(|one| one.path() == **path && !is_called(one));
    let idle: Vec<_> = excepted.iter().filter(|path| !is_needed(path)).collect();
    assert!(idle.is_empty(), "no exceptions are needed for {idle:?}");
}

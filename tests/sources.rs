//! Sources name works, not the places where a copy was found.
mod evidence;

use evidence::{check, place_of_a_copy};
use std::path::Path;

/// Every file of the published figures, by its name and text.
fn files() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let paths = folder.read_dir().unwrap().map(|entry| entry.unwrap().path());
    let name = |path: &Path| path.file_name().unwrap().to_string_lossy().into_owned();
    paths.map(|path| (name(&path), std::fs::read_to_string(&path).unwrap())).collect()
}

#[test]
fn no_published_figure_names_a_host() {
    let mut lines = 0;
    let mut faults = vec![];
    for (file, text) in files() {
        for (number, line) in (1..).zip(text.lines()) {
            lines += 1;
            faults.extend(place_of_a_copy(line).map(|found| format!("{file}:{number}: {found}")));
        }
    }
    assert!(faults.is_empty(), "{} of {lines} lines:\n{}", faults.len(), faults.join("\n"));
    assert!(lines > 15_000, "{lines}");
}

#[test]
fn no_record_names_a_host() {
    for formula in tenths::formulas() {
        assert_eq!(place_of_a_copy(formula.source), None, "{}", formula.name);
        assert_eq!(place_of_a_copy(formula.doc), None, "{}", formula.name);
    }
    for material in tenths::material::materials() {
        for (group, source) in material.sources.groups() {
            let told = source.map(|source| source.to_string()).unwrap_or_default();
            assert_eq!(place_of_a_copy(&told), None, "{} {group}", material.designation);
        }
    }
}

/// Makers stand in the source alone: what a formula is called and what its arguments are is nobody's.
#[test]
fn no_description_names_a_maker() {
    const MAKERS: [&str; 12] = [
        "Sandvik",
        "Coromant",
        "Seco",
        "Kennametal",
        "Walter",
        "Mitsubishi",
        "Tungaloy",
        "Iscar",
        "Kyocera",
        "Dijet",
        "Handbook",
        "Yamawa",
    ];
    for formula in tenths::formulas() {
        let arguments = formula.arguments.iter().map(|argument| argument.doc);
        let outputs = formula.outputs.iter().map(|output| output.doc);
        for text in arguments.chain(outputs).chain([formula.doc]) {
            let named = MAKERS.iter().find(|maker| text.contains(**maker));
            assert_eq!(named, None, "{}: {text}", formula.name);
        }
    }
}

#[test]
fn what_is_no_source_is_told() {
    for (source, found) in [
        ("Tool catalogue (info.5y1.org document 480983)", "info.5y1.org"),
        ("see https://example", "://"),
        ("givens read in a stored page", "stored page"),
        ("memory, agrees with a web copy of the table", "web copy"),
        ("a lecture on example.com.", "example.com"),
        ("Drilling formulas of a maker's kind", "maker's kind"),
    ] {
        assert!(place_of_a_copy(source).is_some_and(|place| place.starts_with(found)), "{source}");
        assert!(check("print", source).unwrap_err().contains("no source"), "{source}");
    }
    for source in
        ["ISO 286-2:1988/Cor.1:2006", "S. Timoshenko, p. 3.141", "M3x0.5-6g, Ex. 8.16", "Vol.2, no.4"]
    {
        assert_eq!(place_of_a_copy(source), None, "{source}");
        assert_eq!(check("print", source), Ok(()));
    }
    assert!(check("seen", "ISO 286").unwrap_err().contains("how the figure was seen"));
    assert!(check("print", " ").is_err());
}

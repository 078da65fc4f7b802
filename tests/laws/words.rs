//! Words: every formula, argument and result is told, and every formula is in the registry.
use std::collections::BTreeSet;
use std::path::Path;
use tenths::registry::objects;
use tenths::{find, formulas};

/// Whether a doc text is there, and begins with a sentence that ends on its first line.
fn told(doc: &str) -> bool {
    doc.lines().next().is_some_and(|line| line.ends_with('.') && line.len() > 10)
}

#[test]
fn everything_is_told() {
    for f in formulas() {
        assert!(told(f.doc), "{f:?}: its first line is no sentence");
        assert!(!f.source.is_empty(), "{f:?}: no source");
        for a in f.arguments {
            assert!(a.doc.trim_end().ends_with('.'), "{f:?}: {} is not told", a.name);
            assert!(a.doc.starts_with(char::is_uppercase), "{f:?}: {} is not told", a.name);
        }
        for (k, output) in f.outputs.iter().enumerate() {
            let name = f.output_name(k);
            assert_eq!(output.name.is_empty(), f.outputs.len() == 1, "{f:?}: {name}");
            assert!(
                output.doc.len() > 3 && output.doc.trim_end().ends_with('.'),
                "{f:?}: {name} has no meaning"
            );
            assert!(output.doc.starts_with(char::is_uppercase), "{f:?}: {name} has no meaning");
        }
        for rule in f.rules {
            let told = rule.arguments.iter().all(|&k| rule.text.contains(f.arguments[k].name));
            assert!(told && !rule.arguments.is_empty(), "{f:?}: {}", rule.text);
        }
        // A plain number is a ratio, a count or money; anything else has a unit to name.
        let kinds = f.arguments.iter().map(|a| a.kind).chain(f.outputs.iter().map(|o| o.kind));
        for kind in kinds {
            let plain = ["Ratio", "Count", "Money"].contains(&kind.name);
            assert!(kind.units.iter().all(|unit| unit.label.is_empty() == plain), "{f:?}: {}", kind.name);
        }
    }
}

/// Phrases that say nothing where they stand, or that a native speaker would stumble over.
const STUMBLING: [&str; 39] = [
    "As above",
    "unless told otherwise",
    "Null is let pass",
    "manieth",
    " lest ",
    "thereof",
    "whereof",
    "wherein",
    "hereby",
    "that is none",
    "` is no number",
    "is no thread",
    "is no text",
    "is no part",
    "is no formula",
    "to mend it",
    "anyhow",
    "tells that",
    "tells the size",
    "tells so",
    "told in the unit",
    "is told by",
    "at every face",
    "for every face",
    "C face",
    "Python face",
    "can do of it",
    "the other way round",
    "whatever the",
    "reckon",
    "likewise",
    "in whatever order",
    "beside plain",
    "lies outside its domain",
    "asked for this cut",
    "shall find",
    "beyond theory",
    "bears on safety",
    "any finite number will do",
];

#[test]
fn every_text_of_a_record_is_plain_english() {
    for f in formulas() {
        let arguments = f.arguments.iter().map(|argument| argument.doc);
        let outputs = f.outputs.iter().map(|output| output.doc);
        let rules = f.rules.iter().map(|rule| rule.text);
        arguments
            .chain(outputs)
            .chain(rules)
            .chain(f.caution)
            .chain([f.doc])
            .for_each(|text| check(f.name, text));
    }
    for record in objects() {
        record.fields().map(|field| field.doc).chain([record.doc]).for_each(|text| check(record.name, text));
    }
}

fn check(of: &str, text: &str) {
    let found = STUMBLING.iter().find(|phrase| text.contains(**phrase));
    assert_eq!(found, None, "{of}: {text}");
}

/// What people read outside of the records: pages by hand and generated ones, the C header, Python's docs and stubs,
/// and the messages and docs of the sources.
const PAGES: [&str; 12] = [
    "README.md",
    "CHANGELOG.md",
    "DEVELOPERS.md",
    "docs",
    "examples",
    "ffi/include",
    "ffi/src",
    "python/stubs",
    "python/tenths",
    "python/src",
    "core/src",
    "tests/published/README.md",
];

/// The texts of a file, or of those below a folder.
fn pages(path: &Path) -> Vec<(String, String)> {
    if path.is_dir() {
        let paths = path.read_dir().unwrap().map(|entry| entry.unwrap().path());
        return paths.flat_map(|path| pages(&path)).collect();
    }
    // A compiled module that stands among the sources is no text.
    let text = std::fs::read_to_string(path);
    text.map(|text| vec![(path.display().to_string(), text)]).unwrap_or_default()
}

#[test]
fn every_page_is_plain_english() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for page in PAGES {
        let texts = pages(&root.join(page));
        assert!(!texts.is_empty(), "{page} is not there");
        for (path, text) in texts {
            text.lines().enumerate().for_each(|(k, line)| check(&format!("{path}:{}", k + 1), line));
        }
    }
}

#[test]
fn names_are_unique() {
    let mut names = BTreeSet::new();
    for f in formulas() {
        assert!(names.insert(f.name), "{f:?} twice");
        assert!(find(f.name).is_some_and(|found| std::ptr::eq(found, f)));
        let own: BTreeSet<&str> = f.arguments.iter().map(|a| a.name).collect();
        assert_eq!(own.len(), f.arguments.len(), "{f:?}");
        let outputs: BTreeSet<&str> = (0..f.outputs.len()).map(|k| f.output_name(k)).collect();
        assert_eq!(outputs.len(), f.outputs.len(), "{f:?}");
        assert!(outputs.is_disjoint(&own), "{f:?}: a result with the name of an argument");
    }
}

/// The arguments of formulas, as name and doc comment, in a source file.
fn documented_arguments(text: &str) -> Vec<(String, String)> {
    let mut found = vec![];
    for formula in text.split("#[formula").skip(1) {
        let signature = formula.split_once("pub fn ").and_then(|(_, rest)| rest.split_once("\n) ->"));
        let Some((signature, _)) = signature else { continue };
        let mut doc = String::new();
        for line in signature.lines().map(str::trim).skip(1) {
            if let Some(text) = line.strip_prefix("/// ") {
                doc = format!("{doc} {text}");
            } else if let Some((name, _)) = line.rsplit_once(": ").filter(|_| line.ends_with(',')) {
                let name = name.rsplit(' ').next().unwrap_or_default().to_string();
                found.push((name, std::mem::take(&mut doc)));
            }
        }
    }
    found.retain(|(_, doc)| !doc.is_empty());
    found
}

#[test]
fn an_argument_that_recurs_is_a_term_of_the_vocabulary() {
    let core = Path::new(env!("CARGO_MANIFEST_DIR")).join("core/src");
    let all: Vec<_> = pages(&core).iter().flat_map(|(_, text)| documented_arguments(text)).collect();
    assert!(all.len() > 100, "the sources are read");
    let mut seen = BTreeSet::new();
    for argument in all {
        let (name, doc) = &argument;
        assert!(!seen.contains(&argument), "{name}:{doc} Define it once, in core/macros/src/vocabulary/");
        seen.insert(argument);
    }
}

/// Attributes of formulas in the sources below a folder.
fn attributes(folder: &Path) -> usize {
    let paths = folder.read_dir().unwrap().map(|entry| entry.unwrap().path());
    let count = |path: &Path| match path.is_dir() {
        true => attributes(path),
        false => {
            let text = std::fs::read_to_string(path).unwrap_or_default();
            // Unit tests, at the foot of a file, may have formulas of their own.
            let code = text.split("#[cfg(test)]").next().unwrap_or_default();
            code.lines().filter(|line| line.trim_start().starts_with("#[formula")).count()
        }
    };
    paths.map(|path| count(&path)).sum()
}

#[test]
fn no_formula_is_left_out_of_the_registry() {
    let sources = Path::new(env!("CARGO_MANIFEST_DIR")).join("core/src");
    assert_eq!(attributes(&sources), formulas().count());
}

//! The C header, from the sources of the C interface: cbindgen's text, with contents at its top, a heading for each
//! topic, and each struct before the first function that takes it.
use crate::marked::homes;
use crate::objects::c_type_name;
use crate::text::Text;
use std::collections::HashMap;
use std::fmt::Write;
use std::path::Path;
use tenths::registry::options;

const FUNCTIONS_BEGIN: &str = "#ifdef __cplusplus\nextern \"C\" {\n#endif // __cplusplus\n";
const FUNCTIONS_END: &str = "\n#ifdef __cplusplus\n}  // extern \"C\"\n";
const INCLUDES: &str = "#include <stddef.h>\n";
const WIDTH: usize = 108;

pub(crate) fn header(root: &Path) -> Text {
    let ffi = root.join("ffi");
    let config = cbindgen::Config::from_file(ffi.join("cbindgen.toml"))?;
    let mut text = vec![];
    cbindgen::Builder::new().with_crate(&ffi).with_config(config).generate()?.write(&mut text);
    arranged(&String::from_utf8(text)?, &places(root)?)
}

/// Where a function stands in the header: under its topic, which is that of its formula or what its file says of itself, in
/// the order of the files and of the functions in them.
struct Place {
    topic: String,
    order: (String, usize),
}

fn places(root: &Path) -> Result<HashMap<String, Place>, Box<dyn std::error::Error>> {
    let mut places = HashMap::new();
    let mut homes: Vec<_> = homes(root)?.into_iter().collect();
    for entry in std::fs::read_dir(root.join("ffi/src"))? {
        let path = entry?.path();
        let module = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = std::fs::read_to_string(path)?;
        let mut add = |name: &str, at: usize| {
            // The library as a whole stands first.
            let file = if module == "lib" { String::new() } else { module.clone() };
            let order = (file, at);
            places.insert(name.to_string(), Place { topic: topic_of(&text).into(), order });
        };
        for (at, _) in text.match_indices("extern \"C\" fn ").filter(|_| module != "exports") {
            let rest = text[at..].split(" fn ").nth(1).unwrap_or_default();
            add(rest.split('(').next().unwrap_or_default(), at);
        }
        for (name, _) in homes.extract_if(.., |(_, home)| *home == module) {
            let short = name.strip_prefix("tenths_").unwrap_or_default();
            // What frees a handle stands last.
            add(&name, text.find(&format!("fn {short}(")).unwrap_or(text.len()));
        }
    }
    let mut rename = |name: String, topic: String| {
        if let Some(place) = places.get_mut(&name) {
            place.topic = topic;
        }
    };
    for function in tenths::registry::functions() {
        rename(function.c_name.to_string(), function.topic());
    }
    for formula in tenths::formulas() {
        let topic = format!("Formulas of {}", formula.topic().replace('_', " "));
        rename(format!("tenths_{}_init", formula.name), topic.clone());
        rename(format!("tenths_{}", formula.name), topic);
    }
    Ok(places)
}

/// What a file says of itself in its first line, up to its first colon or period.
fn topic_of(text: &str) -> &str {
    let about = text.lines().next().and_then(|line| line.strip_prefix("//! ")).unwrap_or("Objects");
    let about = about.split(": ").next().and_then(|about| about.split(". ").next()).unwrap_or_default();
    about.trim_end_matches('.')
}

/// `text` is one block of lines for each definition and each function, with empty lines between them.
fn arranged(text: &str, places: &HashMap<String, Place>) -> Text {
    let (before, rest) = text.split_once(FUNCTIONS_BEGIN).ok_or("the header has no functions")?;
    let (functions, after) = rest.split_once(FUNCTIONS_END).ok_or("the functions have no end")?;
    let (head, definitions) = before.split_once(INCLUDES).ok_or("the header has no includes")?;
    let (mut top, mut movable) = (vec![], vec![]);
    let definitions: Vec<_> = definitions.trim_end().split("\n\n").collect();
    for block in &definitions {
        match struct_of(block) {
            Some(name) if !definitions.iter().any(|other| other != block && mentions(other, name)) => {
                movable.push((name, *block));
            }
            _ => top.push(*block),
        }
    }
    let mut sections: Vec<(&str, Vec<&str>)> = vec![];
    let mut body = String::new();
    for (topic, name, block) in functions_of(functions, places)? {
        if sections.last().is_none_or(|(last, _)| *last != topic) {
            write!(body, "\n/* ---- {topic} ---- */\n")?;
            sections.push((topic, vec![]));
        }
        // The function that sets the arguments of a formula goes without saying.
        if let Some((_, names)) = sections.last_mut()
            && !name.strip_suffix("_init").is_some_and(|formula| places.contains_key(formula))
        {
            names.push(name);
        }
        for (_, taken) in movable.extract_if(.., |(struct_name, _)| mentions(block, struct_name)) {
            write!(body, "\n{taken}\n")?;
        }
        write!(body, "\n{block}\n")?;
    }
    top.extend(movable.iter().map(|(_, block)| *block));
    let arranged = format!(
        "{head}{}{INCLUDES}{}\n\n{FUNCTIONS_BEGIN}{body}{FUNCTIONS_END}{after}",
        contents(&sections),
        top.join("\n\n")
    );
    // C90 has no comments to the end of the line.
    Ok(["extern \"C\"", "__cplusplus"]
        .iter()
        .fold(arranged, |text, ended| text.replace(&format!("// {ended}"), &format!("/* {ended} */"))))
}

/// Topic, name and block of each function. One that sets the defaults of options stands before the first that takes
/// them, under its topic.
fn functions_of<'a>(
    text: &'a str,
    places: &'a HashMap<String, Place>,
) -> Result<Vec<(&'a str, &'a str, &'a str)>, String> {
    let structs: Vec<_> = options().iter().map(|record| c_type_name(record.name)).collect();
    let (mut waiting, mut found) = (vec![], vec![]);
    for block in text.trim().split("\n\n") {
        let name = function_of(block).ok_or_else(|| format!("not a function: {block}"))?;
        match structs.iter().find(|options| name.strip_suffix("_init") == Some(options)) {
            Some(options) => waiting.push((options, name, block)),
            None => found.push((name, block)),
        }
    }
    let mut placed = vec![];
    for (name, block) in found {
        placed.push((places.get(name).ok_or_else(|| format!("{name} has no topic"))?, name, block));
    }
    placed.sort_by_key(|(place, ..)| &place.order);
    let mut functions = vec![];
    for (Place { topic, .. }, name, block) in placed {
        let topic = topic.as_str();
        let taken = waiting.extract_if(.., |(options, ..)| mentions(block, options));
        functions.extend(taken.map(|(_, name, block)| (topic, name, block)));
        functions.push((topic, name, block));
    }
    match waiting.first() {
        Some((options, ..)) => Err(format!("no function takes {options}")),
        None => Ok(functions),
    }
}

/// The topics and their functions, as a comment.
fn contents(sections: &[(&str, Vec<&str>)]) -> String {
    let mut text = String::from(
        "/*\n * A call rounds to nearest and traps nothing, whatever floating-point mode its caller has set, and leaves that \
         mode as it was\n * (x86-64 and AArch64; elsewhere call in the usual mode). A function of the caller's that it calls \
         runs in the usual mode.\n *\n * Contents, with the headings to search for. A struct stands before the first function that takes it; \
         handles,\n * constants, and structs inside others stand first.\n *\n",
    );
    for (topic, names) in sections {
        text += &format!(" * - {topic}:\n");
        let mut line = String::from(" *  ");
        for name in names {
            if line.len() + 1 + name.len() > WIDTH {
                text += &line;
                text += "\n";
                line.truncate(" *  ".len());
            }
            line += " ";
            line += name;
        }
        text += &line;
        text += "\n";
    }
    text + " */\n\n"
}

/// The name of the struct that a block defines.
fn struct_of(block: &str) -> Option<&str> {
    block.split_once("typedef struct ")?.1.split_once(" {").map(|(name, _)| name)
}

/// The name of the function that a block declares.
fn function_of(block: &str) -> Option<&str> {
    let declared = block.rsplit("*/\n").next()?.split_once('(')?.0;
    declared.rsplit([' ', '*', '\n']).next().filter(|name| name.starts_with("tenths_"))
}

/// Whether the code of a block, comments apart, has this name in it.
fn mentions(block: &str, name: &str) -> bool {
    let code = block.lines().filter(|line| !line.trim_start().starts_with(['*', '/']));
    let part = |c: char| !(c.is_alphanumeric() || c == '_');
    code.flat_map(|line| line.split(part)).any(|word| word == name)
}

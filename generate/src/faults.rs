//! The generated C program of faults: every export, described by the types of its parameters for `faults.h`.
//!
//! No export is named here. One whose parameters are of no kind that the program can make is an error.
use crate::abi::FirstSizes;
use crate::exports::{Exports, Function, Struct};
use crate::parity::Row;
use crate::text::Text;
use std::collections::BTreeSet;
use std::path::Path;
use tenths::Units;

pub(crate) fn program(root: &Path) -> Text {
    let (exports, first) = (Exports::read(root)?, FirstSizes::read(root));
    let mut text = String::from("#include \"calls.h\"\n#include \"faults.h\"\n\n");
    for handle in &exports.handles {
        text += &format!(
            "static void drop_{handle}(void *p) {{ {handle}_free(({handle} *)p); }}\n\
             static const struct handle handle_{handle} = {{make_{handle}, drop_{handle}}};\n\n"
        );
    }
    for function in exports.functions.iter().filter(|function| function.name.ends_with("_clear")) {
        let (name, object) = (&function.name, &function.parameters[0].0);
        // Not every one is used: some objects cross only within others.
        text += &format!("static inline void call_{name}(void *object) {{ {name}(({object})object); }}\n\n");
    }
    let mut table = String::new();
    for function in &exports.functions {
        let described: Result<Vec<_>, String> =
            (0..function.parameters.len()).map(|k| parameter(function, k, &exports, &first)).collect();
        text += &call(function, &described?)?;
        table += &format!(
            "    {{\"{name}\", call_of_{name}, {}, {}, parameters_of_{name}, quoted_by_{name}, shown_by_{name}}},\n",
            u8::from(function.result == "tenths_status"),
            function.parameters.len(),
            name = function.name,
        );
    }
    text += &format!("static const struct export exports[] = {{\n{table}}};\n\n{}", themes());
    let plan = document(root)?;
    let sheet = tenths::Plan::from_json(&plan)?.evaluate()?.to_json();
    text += &format!("static const char plan[] = {{{}}};\n", bytes(&plan));
    text += &format!("static const char sheet[] = {{{}}};\n", bytes(&sheet));
    text += &format!("static const char machine[] = \"{}\";\n", MACHINE.replace('"', "\\\""));
    text += &format!("static const char variation[] = \"{}\";\n", VARIATION.replace('"', "\\\""));
    text += &format!("static const char request[] = \"{}\";\n", REQUEST.replace('"', "\\\""));
    text += &format!("static const char standards[] = \"{}\";\n", STANDARDS.replace('"', "\\\""));
    text += "static const struct document all_documents[] = {{plan, sizeof plan}, {sheet, sizeof sheet}, {machine, sizeof machine - 1}, \
             {variation, sizeof variation - 1}, {request, sizeof request - 1}, {standards, sizeof standards - 1}};\n";
    text += "\nint main(void) {\n    size_t k;\n    themes = all_themes;\n    \
             theme_count = sizeof all_themes / sizeof *all_themes;\n    documents = all_documents;\n    \
             document_count = sizeof all_documents / sizeof *all_documents;\n    \
             for (k = 0; k < sizeof formulas / sizeof *formulas; k++) odd_numbers(&formulas[k]);\n    \
             for (k = 0; k < sizeof exports / sizeof *exports; k++) faults(&exports[k]);\n    return finish();\n}\n";
    Ok(text)
}

/// A machine that can make any cut.
const MACHINE: &str =
    r#"{"units": "metric", "least_spindle_speed": 1e-300, "greatest_spindle_speed": 1e300}"#;

/// A number that varies in any plan.
const VARIATION: &str =
    r#"{"count": 3, "varying": [{"place": "/bar/bar_length", "nominal": 144, "plus": 1, "minus": -1}]}"#;

/// A part to draft a plan for.
const REQUEST: &str = r#"{"units": "metric", "material": "SAE 1045", "quantity": 1, "features": [{"kind": "step", "diameter": 20, "length": 25}]}"#;

/// Standards that suit any plan.
const STANDARDS: &str = r#"{"tenths_standards": 1, "units": "metric"}"#;

/// A parameter: the initializer of its `struct parameter`, and how its value is passed.
struct Described {
    initializer: String,
    passed: String,
}

fn parameter(
    function: &Function,
    place: usize,
    exports: &Exports,
    first: &FirstSizes,
) -> Result<Described, String> {
    let kind_of = |place: usize| function.parameters.get(place).map(|(ty, _)| ty.as_str());
    let (ty, name) = &function.parameters[place];
    let inner = ty.strip_suffix('*').map(|inner| inner.strip_prefix("const ").unwrap_or(inner));
    let item = exports.structs.iter().find(|item| Some(item.name.as_str()) == inner);
    let handle = exports.handles.iter().find_map(|name| Some((name, handle_kind(function, ty, name)?)));
    let previous = place.checked_sub(1).and_then(kind_of);
    let (mut fields, mut bytes) = (String::new(), "0".to_string());
    let kind = match ty.as_str() {
        "tenths_units" => "UNITS",
        "int8_t" | "int32_t" | "int64_t" | "uint8_t" | "uint32_t" | "uint64_t" | "tenths_status" | "bool" => {
            "WHOLE"
        }
        "double" => "NUMBER",
        "size_t" if matches!(previous, Some("const char*" | "const uint8_t*")) && name.contains("length") => {
            "LENGTH"
        }
        "size_t" => "COUNT",
        "const char*" => "TEXT",
        "const uint8_t*" if kind_of(place + 1) == Some("size_t") => "BYTES",
        "const size_t*" => "INDICES",
        "const uint64_t*" => "COUNTS",
        "char*" | "uint8_t*" if kind_of(place + 1) == Some("size_t") => "BUFFER",
        "char*" => "OWNED",
        "tenths_function" => "CALLBACK",
        "void*" => "CONTEXT",
        "char**" | "const char**" => "TEXT_OUT",
        "const double*" => "NUMBERS",
        "double*" => "RESULT",
        _ => match (item, inner) {
            _ if handle.is_some() => handle.map_or("", |(_, kind)| kind),
            (Some(item), _) => {
                fields = letters(item);
                match item.fields.first() {
                    Some((_, name)) if name == "struct_size" => {
                        let first = first.bytes(&item.name);
                        bytes = first.ok_or("a struct is not in the snapshot yet")?.to_string();
                        fields.remove(0);
                        // What was not filled can only be empty.
                        if function.name.ends_with("_clear") { "EMPTY" } else { "SIZED" }
                    }
                    _ if fields.chars().all(|field| "iw".contains(field)) => "ROWS",
                    _ if ty.starts_with("const ") && fields.chars().all(|field| "pw".contains(field)) => {
                        "COLUMNS"
                    }
                    _ => return Err(unknown(function, ty)),
                }
            }
            (
                None,
                Some(
                    "uint8_t" | "int8_t" | "uint32_t" | "int32_t" | "tenths_status" | "tenths_lot_verdict"
                    | "tenths_feed_bound",
                ),
            ) => "PLACES",
            (None, Some("uint64_t" | "int64_t" | "size_t")) => "PLACES",
            _ => return Err(unknown(function, ty)),
        },
    };
    if kind == "SIZED" && ty.starts_with("const ") && fields.contains('x') {
        return Err(unknown(function, ty));
    }
    // What a handle leads to is not known in C, nor is nothing.
    let size = match inner {
        Some(inner) if handle.is_none() && inner != "void" => format!("sizeof({inner})"),
        _ => "0".into(),
    };
    let writable = u8::from(inner.is_some() && !ty.starts_with("const "));
    let may_be = |word| may_be(word, &function.doc, name);
    let optional = match kind {
        "NUMBER" => u8::from(may_be(" infinite")),
        "TEXT" if may_be(" any text") => 2,
        _ => u8::from(may_be(" null")),
    };
    let handle = handle.map_or("NULL".into(), |(name, _)| format!("&handle_{name}"));
    let clear = format!("{}_clear", item.map_or("", |item| &item.name));
    let clears = kind == "SIZED" && writable == 1 && exports.functions.iter().any(|one| one.name == clear);
    let clear = if clears { format!("call_{clear}") } else { "NULL".into() };
    let initializer =
        format!("{{{kind}, {size}, {bytes}, \"{fields}\", {writable}, {optional}, {handle}, {clear}}}");
    let passed = match kind {
        "NUMBER" => format!("v[{place}].number"),
        "CALLBACK" => format!("v[{place}].function"),
        "LENGTH" | "COUNT" => format!("v[{place}].size"),
        "UNITS" | "WHOLE" => format!("({ty})v[{place}].whole"),
        _ => format!("({ty})v[{place}].pointer"),
    };
    Ok(Described { initializer, passed })
}

fn unknown(function: &Function, ty: &str) -> String {
    format!(
        "{}: no faults are known for a parameter of type {ty}: add its kind to tests/c/faults.h",
        function.name
    )
}

/// A letter for each field of a struct.
fn letters(item: &Struct) -> String {
    let letter = |(ty, _): &(String, String)| match ty.as_str() {
        "double" => 'd',
        "double*" | "const double*" => 'p',
        "size_t" | "ptrdiff_t" | "int64_t" | "uint64_t" => 'w',
        "int32_t" | "uint32_t" | "tenths_units" | "tenths_status" => 'i',
        "const char*" => 't',
        "tenths_progress" | "void*" => 'h',
        pointer if pointer.starts_with("const tenths_") && pointer.ends_with('*') => 'h',
        _ => 'x',
    };
    item.fields.iter().map(letter).collect()
}

/// The kind of a parameter that has to do with handles of this name.
fn handle_kind(function: &Function, ty: &str, name: &str) -> Option<&'static str> {
    match ty.strip_prefix("const ").unwrap_or(ty).strip_prefix(name)? {
        "*" if function.name == format!("{name}_free") => Some("OWNED"),
        "*" => Some("HANDLE"),
        "**" => Some("HANDLE_OUT"),
        "* const*" => Some("HANDLES"),
        _ => None,
    }
}

/// Whether the documentation says, before its promises of safety, that a parameter may be null, infinite or any text: a
/// sentence or part of one that has its name in backquotes and that word.
fn may_be(word: &str, doc: &str, name: &str) -> bool {
    let doc = doc.split("# Safety").next().unwrap_or_default().replace('\n', " ");
    doc.split(['.', ';', ':']).any(|part| part.contains(&format!("`{name}`")) && part.contains(word))
}

fn call(function: &Function, parameters: &[Described]) -> Result<String, String> {
    let name = &function.name;
    let passed: Vec<_> = parameters.iter().map(|parameter| parameter.passed.as_str()).collect();
    let call = format!("{name}({})", passed.join(", "));
    let body = match function.result.as_str() {
        "tenths_status" => format!("return {call};"),
        // Constant text may be null, and otherwise ends.
        "const char*" => {
            format!("const char *text = {call}; return text == NULL ? 0 : (tenths_status)(strlen(text) & 0);")
        }
        _ => format!("(void){call}; return 0;"),
    };
    let initializers: Vec<_> = parameters.iter().map(|parameter| parameter.initializer.as_str()).collect();
    let initializers = if initializers.is_empty() {
        "{WHOLE, 0, 0, \"\", 0, 0, NULL, NULL}".into()
    } else {
        initializers.join(", ")
    };
    let quoted: String = quoted(&function.doc).iter().map(|text| format!("\"{text}\", ")).collect();
    let shown = match example(function)? {
        Some(arguments) => {
            let arguments: Vec<_> = arguments.iter().map(|argument| shown(argument)).collect();
            format!("static const struct shown shown_by_{name}[] = {{{}}};\n", arguments.join(", "))
        }
        None => format!("#define shown_by_{name} NULL\n"),
    };
    Ok(format!(
        "{shown}static const char *const quoted_by_{name}[] = {{{quoted}NULL}};\n\
         static tenths_status call_of_{name}(const union value *v) {{ (void)v; {body} }}\n\
         static const struct parameter parameters_of_{name}[] = {{{initializers}}};\n\n"
    ))
}

/// The arguments of the call that the documentation of an export shows, if it shows one. What is shown has to be a call
/// of the export as it is.
fn example(function: &Function) -> Result<Option<Vec<String>>, String> {
    let doc = function.doc.replace('\n', " ");
    let Some((_, call)) = doc.split_once(&format!("`{}(", function.name)) else { return Ok(None) };
    let (mut arguments, mut depth, mut is_text) = (vec![String::new()], 0, false);
    for letter in call.chars() {
        match letter {
            '"' => is_text = !is_text,
            '(' if !is_text => depth += 1,
            ')' if !is_text && depth == 0 => break,
            ')' if !is_text => depth -= 1,
            ',' if !is_text && depth == 0 => {
                arguments.push(String::new());
                continue;
            }
            _ => {}
        }
        if let Some(argument) = arguments.last_mut() {
            argument.push(letter);
        }
    }
    let arguments: Vec<String> = arguments.iter().map(|argument| argument.trim().to_string()).collect();
    match arguments.len() == function.parameters.len() {
        true => Ok(Some(arguments)),
        false => Err(format!(
            "{}: its documentation shows {} arguments, and it has {}",
            function.name,
            arguments.len(),
            function.parameters.len()
        )),
    }
}

/// An argument as the program can use it: a number, a constant, a text or null. Variables it makes itself.
fn shown(argument: &str) -> String {
    match argument {
        "NULL" => "{1, 0, 0, NULL}".into(),
        "INFINITY" | "-INFINITY" => format!("{{1, {argument}, 0, NULL}}"),
        text if text.starts_with('"') => format!("{{1, 0, 0, {text}}}"),
        constant if constant.starts_with("TENTHS_") => format!("{{1, 0, {constant}, NULL}}"),
        number if number.parse::<f64>().is_ok() => format!("{{1, {number}, (int64_t)({number}), NULL}}"),
        _ => "{0, 0, 0, NULL}".into(),
    }
}

/// What a documentation has between quotes or backquotes, which calls may take as text.
fn quoted(doc: &str) -> BTreeSet<&str> {
    let between = |mark: char| doc.split(mark).skip(1).step_by(2);
    let plain = |text: &&str| text.is_ascii() && !text.contains(['"', '`', '\\', '(', '\n', '>']);
    between('"').chain(between('`')).filter(plain).collect()
}

/// The names of each formula, its arguments and its results: what text in one call may speak of.
fn themes() -> String {
    let (mut words, mut table) = (String::new(), String::new());
    let rows = crate::parity::rows();
    for formula in tenths::formulas() {
        let sound =
            |row: &&Row| row.formula.name == formula.name && row.units == Units::Metric && row.answer.is_ok();
        let row =
            rows.iter().find(sound).map_or(vec![0.0; formula.arguments.len()], |row| row.arguments.clone());
        let row: Vec<_> = row.iter().map(|x| format!("{x:e}")).collect();
        let own: BTreeSet<_> = (formula.arguments.iter().map(|argument| argument.name))
            .chain((0..formula.outputs.len()).map(|k| formula.output_name(k)))
            .chain([formula.name])
            .collect();
        let quoted: Vec<_> = own.iter().map(|word| format!("\"{word}\"")).collect();
        let (name, inputs, outputs) = (formula.name, formula.arguments.len(), formula.outputs.len());
        words += &format!("static const char *const words_of_{name}[] = {{{}}};\n", quoted.join(", "));
        words += &format!("static const double row_of_{name}[] = {{{}}};\n", row.join(", "));
        table += &format!(
            "    {{\"{name}\", {inputs}, {outputs}, {}, words_of_{name}, row_of_{name}}},\n",
            own.len()
        );
    }
    format!("{words}\nstatic const struct theme all_themes[] = {{\n{table}}};\n\n")
}

/// A document as bytes: a literal of its length is more than every compiler takes.
fn bytes(text: &str) -> String {
    text.bytes().map(|byte| format!("'\\x{byte:02x}'")).collect::<Vec<_>>().join(",")
}

/// A plan document: a short one, since it is read some thousand times.
fn document(root: &Path) -> Text {
    Ok(std::fs::read_to_string(root.join("examples/plans/jig_rest_pin.json"))?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unknown_type_is_an_error() {
        let of = |ty: &str| {
            let (name, parameters) = ("tenths_new".into(), vec![(ty.into(), "given".into())]);
            let function = Function { name, parameters, result: "tenths_status".into(), doc: String::new() };
            let first = FirstSizes::read(Path::new("nowhere"));
            parameter(&function, 0, &Exports::default(), &first).map(|described| described.initializer)
        };
        assert_eq!(of("double*").as_deref(), Ok("{RESULT, sizeof(double), 0, \"\", 1, 0, NULL, NULL}"));
        assert!(of("float*").is_err_and(|error| error.starts_with("tenths_new: no faults are known")));
        assert!(of("const tenths_new*").is_err());
    }

    #[test]
    fn a_handle_is_known_by_its_pointer() {
        let function = |name: &str| Function {
            name: name.into(),
            parameters: vec![],
            result: "tenths_status".into(),
            doc: String::new(),
        };
        let of = |name: &str, ty: &str| handle_kind(&function(name), ty, "tenths_box");
        assert_eq!(of("tenths_use", "const tenths_box*"), Some("HANDLE"));
        assert_eq!(of("tenths_box_free", "tenths_box*"), Some("OWNED"));
        assert_eq!(of("tenths_box_new", "tenths_box**"), Some("HANDLE_OUT"));
        assert_eq!(of("tenths_join", "const tenths_box* const*"), Some("HANDLES"));
        assert_eq!(of("tenths_use", "const tenths_boxes*"), None);
    }

    #[test]
    fn what_may_be_null_is_told_by_the_documentation() {
        let doc = "Bit k of `advice` (which\nmay be null) tells more. The `plan` is text.\n\
                   # Safety\n`plan` is null or valid.";
        assert_eq!(["advice", "plan"].map(|name| may_be(" null", doc, name)), [true, false]);
    }
}

//! The generated C test of the binary interface: the header, as a compiler lays it out, against the snapshot.
use crate::text::{Outcome, Text};
use std::path::Path;

pub(crate) fn write(root: &Path, directory: &Path) -> Outcome {
    std::fs::create_dir_all(directory)?;
    let snapshot = std::fs::read_to_string(root.join("ffi/abi.txt"))?;
    Ok(std::fs::write(directory.join("layout.c"), program(&snapshot)?)?)
}

fn program(snapshot: &str) -> Text {
    let mut text = String::from(
        "#include \"check.h\"\n#include \"tenths.h\"\n\n\
         /* What does not fit the header does not compile: types of functions and of fields. */\n\
         int main(void) {\n    \
         CHECK(sizeof(void *) == 8); /* the snapshot is that of a 64-bit machine */\n",
    );
    let (mut functions, mut structs, mut owner) = (0, 0, "");
    for line in snapshot.lines().skip(2).filter(|line| !line.is_empty()) {
        let unclear = || format!("ffi/abi.txt: `{line}` is unclear");
        if let Some(head) = line.strip_prefix("struct ") {
            let [name, "size", size, ..] = head.split_whitespace().collect::<Vec<_>>()[..] else {
                return Err(unclear().into());
            };
            (owner, structs) = (name, structs + 1);
            text += &format!("    CHECK(sizeof({name}) == {size});\n");
        } else if line.starts_with(' ') {
            text += &field(line, owner).ok_or_else(unclear)?;
        } else {
            functions += 1;
            text += &function(line).ok_or_else(unclear)?;
        }
    }
    if functions == 0 || structs == 0 {
        return Err("ffi/abi.txt lists nothing".into());
    }
    Ok(text + "    return finish();\n}\n")
}

/// `    8 double pitch`
fn field(line: &str, owner: &str) -> Option<String> {
    let (offset, rest) = line.trim_start().split_once(' ')?;
    let (ty, name) = rest.rsplit_once(' ')?;
    Some(format!(
        "    {{ {owner} s; {ty} *type = &s.{name}; (void)type; CHECK(offsetof({owner}, {name}) == {offset}); }}\n"
    ))
}

/// `tenths_status tenths_flat_depth(tenths_units units, double diameter, double remaining, double* flat_depth)`
fn function(line: &str) -> Option<String> {
    let (head, parameters) = line.strip_suffix(')')?.split_once('(')?;
    let (result, name) = head.rsplit_once(' ')?;
    let parameters = if parameters.is_empty() { "void" } else { parameters };
    Some(format!("    {{ {result} (*type)({parameters}) = {name}; CHECK(type != NULL); }}\n"))
}

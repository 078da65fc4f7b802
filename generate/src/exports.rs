//! What the C interface exports, read from its sources.
use std::path::Path;
use syn::{Expr, FnArg, Item, Lit, Meta, MetaNameValue, ReturnType, Type};

/// An exported function in the words of C.
pub(crate) struct Function {
    pub(crate) name: String,
    /// Type and name of each parameter.
    pub(crate) parameters: Vec<(String, String)>,
    pub(crate) result: String,
    /// Its documentation.
    pub(crate) doc: String,
}

/// A struct that crosses the border.
pub(crate) struct Struct {
    pub(crate) name: String,
    /// Type and name of each field.
    pub(crate) fields: Vec<(String, String)>,
}

#[derive(Default)]
pub(crate) struct Exports {
    pub(crate) functions: Vec<Function>,
    pub(crate) structs: Vec<Struct>,
    /// Structs of which C knows no more than the name.
    pub(crate) handles: Vec<String>,
}

impl Exports {
    /// Reads all sources of the C interface, in the order of names.
    pub(crate) fn read(root: &Path) -> Result<Exports, Box<dyn std::error::Error>> {
        let mut paths = vec![];
        for entry in std::fs::read_dir(root.join("ffi/src"))? {
            paths.push(entry?.path());
        }
        let mut exports = Exports::default();
        for path in paths.iter().filter(|path| path.extension().is_some_and(|end| end == "rs")) {
            let file = syn::parse_file(&std::fs::read_to_string(path)?)
                .map_err(|error| format!("{}: {error}", path.display()))?;
            file.items.iter().try_for_each(|item| exports.add(item))?;
        }
        exports.functions.sort_by(|a, b| a.name.cmp(&b.name));
        exports.structs.sort_by(|a, b| a.name.cmp(&b.name));
        Ok(exports)
    }

    fn add(&mut self, item: &Item) -> Result<(), String> {
        match item {
            Item::Fn(function) if function.sig.abi.is_some() => {
                let parameter = |input: &FnArg| match input {
                    FnArg::Typed(typed) => Ok((c_type(&typed.ty)?, words(&typed.pat))),
                    FnArg::Receiver(_) => Err("an export has no self".into()),
                };
                let parameters = function.sig.inputs.iter().map(parameter).collect::<Result<_, String>>()?;
                let result = match &function.sig.output {
                    ReturnType::Default => "void".into(),
                    ReturnType::Type(_, ty) => c_type(ty)?,
                };
                let (name, doc) = (function.sig.ident.to_string(), doc(&function.attrs));
                self.functions.push(Function { name, parameters, result, doc });
            }
            Item::Struct(item)
                if item.ident.to_string().starts_with("tenths_")
                    && !item.attrs.iter().any(|attribute| attribute.path().is_ident("repr")) =>
            {
                self.handles.push(item.ident.to_string());
            }
            Item::Struct(item) if item.ident.to_string().starts_with("tenths_") => {
                let field =
                    |f: &syn::Field| Ok((c_type(&f.ty)?, f.ident.as_ref().map_or(String::new(), words)));
                let fields = item.fields.iter().map(field).collect::<Result<_, String>>()?;
                self.structs.push(Struct { name: item.ident.to_string(), fields });
            }
            _ => {}
        }
        Ok(())
    }
}

/// The doc comments among attributes, as lines.
pub(crate) fn doc(attributes: &[syn::Attribute]) -> String {
    let mut text = String::new();
    for attribute in attributes.iter().filter(|attribute| attribute.path().is_ident("doc")) {
        if let Meta::NameValue(MetaNameValue { value: Expr::Lit(literal), .. }) = &attribute.meta
            && let Lit::Str(line) = &literal.lit
        {
            text += line.value().trim();
            text.push('\n');
        }
    }
    text
}

fn words(tokens: impl quote::ToTokens) -> String {
    tokens.to_token_stream().to_string()
}

/// The C spelling of a Rust type.
fn c_type(ty: &Type) -> Result<String, String> {
    if let Type::Ptr(pointer) = ty {
        let inner = c_type(&pointer.elem)?;
        return Ok(match (pointer.mutability, inner.ends_with('*')) {
            (Some(_), _) => format!("{inner}*"),
            (None, false) => format!("const {inner}*"),
            // What is constant is the pointer that this one leads to.
            (None, true) => format!("{inner} const*"),
        });
    }
    let name = words(ty);
    // A path may lead to the type.
    Ok(match name.rsplit(' ').next().unwrap_or_default() {
        "f64" => "double".into(),
        "usize" => "size_t".into(),
        "isize" => "ptrdiff_t".into(),
        "bool" => "bool".into(),
        "c_char" => "char".into(),
        "c_void" => "void".into(),
        "u8" | "u32" | "u64" => format!("uint{}_t", &name[1..]),
        "i8" | "i32" | "i64" => format!("int{}_t", &name[1..]),
        own if own.starts_with("tenths_") => own.into(),
        other => return Err(format!("type {other} cannot cross to C")),
    })
}

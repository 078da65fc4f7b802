//! What the sources of the C interface say of their exports: the functions and handles under `#[export]`, and the types
//! that are written by hand.
use quote::ToTokens;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use syn::parse::{Parse, ParseStream};
use syn::{Attribute, Ident, Item, Token};

/// The generated file, which holds no marks.
const FILE: &str = "exports.rs";

/// What stands in `#[export(…)]`: what C calls the results, and `array = count` where a count is not called `count`.
#[derive(Default)]
pub(crate) struct Marked {
    pub(crate) results: Vec<Wanted>,
    pub(crate) counts: BTreeMap<String, String>,
}

/// A result: `name`, `name[length]` of an array, `name?` of one that may be null.
pub(crate) struct Wanted {
    pub(crate) name: String,
    pub(crate) length: Option<String>,
    pub(crate) optional: bool,
}

impl Parse for Marked {
    fn parse(input: ParseStream) -> syn::Result<Self> {
        let mut marked = Self::default();
        while !input.is_empty() {
            let name: Ident = input.parse()?;
            if input.peek(Token![=]) {
                input.parse::<Token![=]>()?;
                marked.counts.insert(name.to_string(), input.parse::<Ident>()?.to_string());
            } else {
                let mut length = None;
                if input.peek(syn::token::Bracket) {
                    let inner;
                    syn::bracketed!(inner in input);
                    length = Some(words(inner.parse::<syn::Expr>()?));
                }
                let optional = input.parse::<Option<Token![?]>>()?.is_some();
                marked.results.push(Wanted { name: name.to_string(), length, optional });
            }
            if !input.is_empty() {
                input.parse::<Token![,]>()?;
            }
        }
        Ok(marked)
    }
}

/// The mark of an item, if it has one.
pub(crate) fn marked(attributes: &[Attribute]) -> syn::Result<Option<Marked>> {
    let Some(mark) = attributes.iter().find(|attribute| attribute.path().is_ident("export")) else {
        return Ok(None);
    };
    match mark.meta {
        syn::Meta::Path(_) => Ok(Some(Marked::default())),
        _ => mark.parse_args().map(Some),
    }
}

/// The sources that are written by hand, each with the name of its module.
pub(crate) fn modules(root: &Path) -> Result<Vec<(String, syn::File)>, Box<dyn std::error::Error>> {
    let mut found = vec![];
    for entry in std::fs::read_dir(root.join("ffi/src"))? {
        let path = entry?.path();
        let text = std::fs::read_to_string(&path)?;
        if path.ends_with(FILE) || !text.contains("#[export") && !text.contains("pub struct tenths_") {
            continue;
        }
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let file = syn::parse_file(&text).map_err(|error| format!("{}: {error}", path.display()))?;
        found.push((name, file));
    }
    found.sort_by(|(one, _), (other, _)| one.cmp(other));
    Ok(found)
}

/// The modules of the functions under `#[export]`, by their names in C.
pub(crate) fn homes(root: &Path) -> Result<BTreeMap<String, String>, Box<dyn std::error::Error>> {
    let mut homes = BTreeMap::new();
    for (module, file) in modules(root)? {
        for item in &file.items {
            match item {
                Item::Fn(function) if marked(&function.attrs)?.is_some() => {
                    homes.insert(format!("tenths_{}", function.sig.ident), module.clone());
                }
                Item::Struct(handle) if marked(&handle.attrs)?.is_some() => {
                    homes.insert(format!("{}_free", handle.ident), module.clone());
                }
                _ => {}
            }
        }
    }
    Ok(homes)
}

/// The types of C that are written by hand.
#[derive(Default)]
pub(crate) struct Types {
    /// The module of each.
    homes: BTreeMap<String, String>,
    /// Structs of numbers and pointers.
    pub(crate) plain: BTreeSet<String>,
    /// Those that begin with their size.
    pub(crate) sized: BTreeSet<String>,
}

impl Types {
    pub(crate) fn add(&mut self, module: &str, item: &Item) {
        let name = match item {
            Item::Struct(item) => {
                let name = item.ident.to_string();
                let first = item.fields.iter().next().and_then(|field| field.ident.as_ref());
                if first.is_some_and(|first| first == "struct_size") {
                    self.sized.insert(name.clone());
                }
                if item.attrs.iter().any(|attribute| attribute.path().is_ident("repr")) {
                    self.plain.insert(name.clone());
                }
                name
            }
            Item::Type(item) => item.ident.to_string(),
            _ => return,
        };
        let generated = ["objects", "options", "formulas"].contains(&module);
        if name.starts_with("tenths_") && !generated {
            self.homes.insert(name, module.into());
        }
    }

    /// A line for each type that a text names.
    pub(crate) fn imports(&self, text: &str) -> String {
        let words: BTreeSet<_> = text.split(|c: char| !c.is_alphanumeric() && c != '_').collect();
        let mut lines: Vec<_> = self.homes.iter().filter(|(name, _)| words.contains(name.as_str())).collect();
        lines.sort_by_key(|(name, module)| (*module, *name));
        lines.iter().map(|(name, module)| format!("use crate::{module}::{name};\n")).collect()
    }
}

/// Tokens without spaces.
pub(crate) fn words(tokens: impl ToTokens) -> String {
    tokens.to_token_stream().to_string().replace(' ', "")
}

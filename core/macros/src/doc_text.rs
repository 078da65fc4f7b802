//! Doc comments as text.

/// The text of the doc comments among `attributes`.
pub fn doc_text(attributes: &[syn::Attribute]) -> String {
    let lines = attributes.iter().filter_map(|attribute| match &attribute.meta {
        syn::Meta::NameValue(syn::MetaNameValue {
            path,
            value: syn::Expr::Lit(syn::ExprLit { lit: syn::Lit::Str(text), .. }),
            ..
        }) if path.is_ident("doc") => Some(text.value()),
        _ => None,
    });
    lines.map(|line| line.strip_prefix(' ').unwrap_or(&line).to_string()).collect::<Vec<_>>().join("\n")
}

/// What documentation says in words, without the example in Rust that may end it: every interface shows it.
pub fn words(doc: &str) -> &str {
    doc.split("\n\n```").next().unwrap_or_default().trim_end()
}

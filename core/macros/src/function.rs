//! The record of a function that makes an object.
use crate::doc_text::{doc_text, words};
use crate::object::field;
use proc_macro2::TokenStream;
use quote::{ToTokens, format_ident, quote};
use syn::{
    Attribute, Expr, FnArg, GenericArgument, Ident, ItemFn, LitStr, Pat, PatType, PathArguments, Result,
    ReturnType, Token, Type, parenthesized,
    parse::{Parse, ParseStream},
    punctuated::Punctuated,
    spanned::Spanned,
};

/// What stands in `#[function(…)]`.
#[derive(Default)]
struct Options {
    c: Option<LitStr>,
    gives: Option<LitStr>,
    example: String,
    only_c: bool,
}

impl Parse for Options {
    fn parse(input: ParseStream) -> Result<Self> {
        let mut options = Self::default();
        while !input.is_empty() {
            let key: Ident = input.parse()?;
            match key.to_string().as_str() {
                "c" => {
                    input.parse::<Token![=]>()?;
                    options.c = Some(input.parse()?);
                }
                "gives" => {
                    input.parse::<Token![=]>()?;
                    options.gives = Some(input.parse()?);
                }
                "example" => {
                    let body;
                    parenthesized!(body in input);
                    let arguments = Punctuated::<Expr, Token![,]>::parse_terminated(&body)?;
                    let written =
                        arguments.iter().map(|one| one.to_token_stream().to_string().replace("- ", "-"));
                    options.example = written.collect::<Vec<_>>().join(", ");
                }
                "only_c" => options.only_c = true,
                _ => return Err(syn::Error::new(key.span(), "expected c, gives, example or only_c")),
            }
            if !input.is_empty() {
                input.parse::<Token![,]>()?;
            }
        }
        Ok(options)
    }
}

/// An argument: its record, how it is read from its value, and how it is passed.
struct Argument {
    name: Ident,
    sentence: String,
    record: TokenStream,
    read: TokenStream,
    passed: TokenStream,
}

impl Argument {
    fn parse(place: usize, input: &mut PatType) -> Result<Self> {
        let Pat::Ident(pattern) = &*input.pat else {
            return Err(syn::Error::new(input.pat.span(), "expected a name"));
        };
        let name = pattern.ident.clone();
        let attributes = std::mem::take(&mut input.attrs);
        let default = marked(&attributes, "default").map(Attribute::parse_args::<Expr>).transpose()?;
        let text = marked(&attributes, "text");
        let is_text = text.is_some();
        let is_choice = text.is_some_and(|text| matches!(text.meta, syn::Meta::List(_)));
        let by_name = marked(&attributes, "by_name").is_some();
        let (ty, passed) = owned(&input.ty, &name);
        let kind: Type = if is_text { text_of(&ty)? } else { ty.clone() };
        let record = field(&name, &kind, &attributes)?;
        let default = match (default, optional(&ty).is_some()) {
            (Some(value), _) if is_text => quote!(Some(|| ::tenths::object::Value::Text(#value.into()))),
            (Some(value), _) => quote!(Some(|| {
                let usual: #ty = #value;
                ::tenths::object::FieldValue::value(&usual)
            })),
            (None, true) => quote!(Some(|| ::tenths::object::Value::Absent)),
            (None, false) => quote!(None),
        };
        let names = match is_choice {
            true => quote!(<#ty as ::tenths::object::Choice>::NAMES),
            false => quote!(&[]),
        };
        let bits = bits(optional(&ty).unwrap_or(&ty));
        let given = quote!(ARGUMENTS[#place].field.read::<#kind>(values.get(#place))?);
        let read = match (is_text, optional(&ty)) {
            (false, _) => quote!(let #name: #ty = #given;),
            (true, None) => quote! {
                let #name = match <#ty>::parse(&#given) {
                    Ok(#name) => #name,
                    Err(error) => return Ok(Err(error.into())),
                };
            },
            (true, Some(inner)) => quote! {
                let #name = match #given.map(|text| <#inner>::parse(&text)).transpose() {
                    Ok(#name) => #name,
                    Err(error) => return Ok(Err(error.into())),
                };
            },
        };
        let record = quote!(::tenths::object::FunctionArgument {
            field: #record, default: #default, names: #names, bits: #bits, by_name: #by_name,
        });
        let sentence = doc_text(&attributes).replace('\n', " ");
        Ok(Self { name, sentence, record, read, passed })
    }
}

fn marked<'a>(attributes: &'a [Attribute], name: &str) -> Option<&'a Attribute> {
    attributes.iter().find(|attribute| attribute.path().is_ident(name))
}

/// `T` of `Option<T>`.
fn optional(ty: &Type) -> Option<&Type> {
    match ty {
        Type::Path(path) => match path.path.segments.last() {
            Some(last) if last.ident == "Option" => argument_of(&last.arguments, 0),
            _ => None,
        },
        _ => None,
    }
}

fn argument_of(arguments: &PathArguments, place: usize) -> Option<&Type> {
    match arguments {
        PathArguments::AngleBracketed(arguments) => match arguments.args.iter().nth(place) {
            Some(GenericArgument::Type(ty)) => Some(ty),
            _ => None,
        },
        _ => None,
    }
}

/// The type that owns what an argument borrows, and how one of it is passed.
fn owned(ty: &Type, name: &Ident) -> (Type, TokenStream) {
    match (ty, optional(ty)) {
        (Type::Reference(reference), _) => (owner(&reference.elem), quote!(&#name)),
        (_, Some(Type::Reference(reference))) => {
            let owner = owner(&reference.elem);
            let passed = match &*reference.elem {
                Type::Path(path) if !path.path.is_ident("str") => quote!(#name.as_ref()),
                _ => quote!(#name.as_deref()),
            };
            (syn::parse_quote!(Option<#owner>), passed)
        }
        _ => (ty.clone(), quote!(#name)),
    }
}

fn owner(ty: &Type) -> Type {
    match ty {
        Type::Slice(slice) => {
            let element = &slice.elem;
            syn::parse_quote!(Vec<#element>)
        }
        Type::Path(path) if path.path.is_ident("str") => syn::parse_quote!(String),
        other => other.clone(),
    }
}

/// The type of the text that an argument is read from.
fn text_of(ty: &Type) -> Result<Type> {
    Ok(match optional(ty) {
        Some(_) => syn::parse_quote!(Option<String>),
        None => syn::parse_quote!(String),
    })
}

fn bits(ty: &Type) -> u32 {
    match ty.to_token_stream().to_string().as_str() {
        "u32" => 32,
        "u64" => 64,
        _ => 0,
    }
}

pub(crate) fn expand(options: TokenStream, item: TokenStream) -> Result<TokenStream> {
    let options: Options = syn::parse2(options)?;
    let mut item: ItemFn = syn::parse2(item)?;
    let name = item.sig.ident.clone();
    let doc = doc_text(&item.attrs);
    // A section such as `# Errors` is for those who call it in Rust.
    let (told, sections) = doc.split_once("\n\n# ").unwrap_or((&doc, ""));
    let (told, in_words) = (told.trim_end(), words(told));
    let mut arguments = vec![];
    for (place, input) in item.sig.inputs.iter_mut().enumerate() {
        let FnArg::Typed(input) = input else {
            return Err(syn::Error::new(input.span(), "it must be a plain function"));
        };
        arguments.push(Argument::parse(place, input)?);
    }
    let ReturnType::Type(_, output) = &item.sig.output else {
        return Err(syn::Error::new(item.sig.span(), "it must give a result"));
    };
    let Type::Path(path) = &**output else {
        return Err(syn::Error::new(output.span(), "expected a Result"));
    };
    let given = path.path.segments.last().map(|last| &last.arguments);
    let pair = given.and_then(|given| Some((argument_of(given, 0)?, argument_of(given, 1)?)));
    let Some((result, error)) = pair else {
        return Err(syn::Error::new(output.span(), "expected Result<T, E>"));
    };
    let lines = arguments.iter().map(|one| format!("- `{}`: {}", one.name, one.sentence));
    let lines = lines.collect::<Vec<_>>().join("\n");
    let sections = if sections.is_empty() { String::new() } else { format!("\n\n# {sections}") };
    let whole = format!("{told}\n\nArguments:\n{lines}{sections}");
    item.attrs.retain(|attribute| !attribute.path().is_ident("doc"));
    let (vis, text) = (&item.vis, name.to_string());
    let (record, record_doc) =
        (format_ident!("{}", text.to_uppercase()), format!("The record of [`{text}`]."));
    if options.example.is_empty() {
        return Err(syn::Error::new(name.span(), "it must show a call: example(…)"));
    }
    let c_name = options.c.map_or(format!("tenths_make_{text}"), |name| name.value());
    let gives = options.gives.map_or("result".into(), |name| name.value());
    let (example, in_python) = (options.example, !options.only_c);
    let records = arguments.iter().map(|argument| &argument.record);
    let reads = arguments.iter().map(|argument| &argument.read);
    let passed = arguments.iter().map(|argument| &argument.passed);
    Ok(quote! {
        #[doc = #whole]
        #item

        #[doc = #record_doc]
        #vis static #record: ::tenths::object::Function<#result, #error> = {
            const ARGUMENTS: &[::tenths::object::FunctionArgument] = &[#(#records),*];
            fn body(
                values: &[::tenths::object::Value],
            ) -> Result<Result<#result, #error>, ::tenths::object::OptionError> {
                #(#reads)*
                Ok(#name(#(#passed),*))
            }
            fn attempt(values: &[::tenths::object::Value]) -> Option<::tenths::object::Value> {
                Some(::tenths::object::FieldValue::value(&body(values).ok()?.ok()?))
            }
            ::tenths::object::Function {
                record: ::tenths::object::FunctionRecord {
                    name: #text,
                    c_name: #c_name,
                    module: module_path!(),
                    doc: #in_words,
                    arguments: ARGUMENTS,
                    result_name: #gives,
                    result: <#result as ::tenths::object::FieldValue>::FIELD,
                    example: #example,
                    in_python: #in_python,
                    attempt,
                },
                body,
            }
        };
    })
}

//! The record of an object, what its methods tell, and choices among names.
use crate::doc_text::{doc_text, words};
use proc_macro2::TokenStream;
use quote::quote;
use syn::{
    Attribute, Expr, Fields, FnArg, GenericArgument, Ident, ImplItem, ItemEnum, ItemImpl, ItemStruct, Lit,
    LitStr, PathArguments, Result, ReturnType, Token, Type, Visibility,
    parse::{Parse, ParseStream},
    spanned::Spanned,
};

/// What stands in `#[object(…)]`.
#[derive(Default)]
struct Options {
    accessors: bool,
    summary: bool,
    restore: bool,
    designation: bool,
    tuple: bool,
}

impl Parse for Options {
    fn parse(input: ParseStream) -> Result<Self> {
        let mut options = Self::default();
        while !input.is_empty() {
            let key: Ident = input.parse()?;
            match key.to_string().as_str() {
                "accessors" => options.accessors = true,
                "summary" => options.summary = true,
                "restore" => options.restore = true,
                "designation" => options.designation = true,
                "tuple" => options.tuple = true,
                _ => {
                    return Err(syn::Error::new(
                        key.span(),
                        "expected accessors, summary, restore, designation or tuple",
                    ));
                }
            }
            if !input.is_empty() {
                input.parse::<Token![,]>()?;
            }
        }
        Ok(options)
    }
}

/// The record of a field.
pub(crate) fn field(name: &Ident, ty: &Type, attributes: &[Attribute]) -> Result<TokenStream> {
    let (text, doc) = (name.to_string(), words(&doc_text(attributes)).to_string());
    if doc.is_empty() {
        return Err(syn::Error::new(name.span(), "a field of an object says what it means"));
    }
    let pure = attributes.iter().any(|attribute| attribute.path().is_ident("pure")).then(|| quote!(.pure()));
    Ok(quote!(::tenths::object::Field {
        name: #text,
        doc: #doc,
        kind: <#ty as ::tenths::object::FieldValue>::FIELD #pure,
    }))
}

pub(crate) fn object(item: TokenStream) -> Result<TokenStream> {
    let item: ItemStruct = syn::parse2(item)?;
    let name = &item.ident;
    let mut options = Options::default();
    for attribute in item.attrs.iter().filter(|attribute| attribute.path().is_ident("object")) {
        options = attribute.parse_args()?;
    }
    let shown: Vec<_> =
        item.fields.iter().filter(|field| matches!(field.vis, Visibility::Public(_))).collect();
    let names: Vec<_> = shown.iter().filter_map(|field| field.ident.as_ref()).collect();
    let records = shown.iter().zip(&names).map(|(shown, name)| field(name, &shown.ty, &shown.attrs));
    let records = records.collect::<Result<Vec<_>>>()?;
    if options.restore && shown.len() < item.fields.len() {
        return Err(syn::Error::new(name.span(), "an object with private fields is restored by hand"));
    }
    let texts = names.iter().map(|name| name.to_string());
    let restore = options.restore.then(|| {
        quote! {
            impl ::tenths::object::Restored for #name {
                fn restore(told: &::tenths::object::Told) -> Option<Self> {
                    Some(#name { #(#names: told.get(#texts)?),* })
                }
            }
        }
    });
    let designated = options.designation.then(|| {
        quote! {
            impl ::tenths::object::Restored for #name {
                fn restore(told: &::tenths::object::Told) -> Option<Self> {
                    told.get::<String>("designation")?.parse().ok()
                }
            }
        }
    });
    let readable = (options.restore || options.designation).then(|| {
        quote! {
            impl ::tenths::object::Readable for #name {
                fn read(value: &::tenths::object::Value) -> Option<Self> {
                    match value {
                        ::tenths::object::Value::Object(told) => ::tenths::object::Restored::restore(told),
                        _ => None,
                    }
                }
            }
        }
    });
    let (told, told_values) = match options.accessors {
        true => (quote!(#name::ACCESSORS), quote!(values.extend(self.accessor_values());)),
        false => (quote!(&[]), quote!()),
    };
    let summary = match options.summary {
        true => quote!(Some(self.to_string().into())),
        false => quote!(None),
    };
    let (text, doc, tuple) = (name.to_string(), words(&doc_text(&item.attrs)).to_string(), options.tuple);
    Ok(quote! {
        impl ::tenths::object::Object for #name {
            const RECORD: &'static ::tenths::object::ObjectRecord = {
                static RECORD: ::tenths::object::ObjectRecord = ::tenths::object::ObjectRecord {
                    name: #text,
                    doc: #doc,
                    fields: [&[#(#records),*], #told],
                    tuple: #tuple,
                };
                &RECORD
            };

            fn tell(&self) -> ::tenths::object::Told {
                #[allow(unused_mut, reason = "where no method tells more")]
                let mut values = vec![#(::tenths::object::FieldValue::value(&self.#names)),*];
                #told_values
                ::tenths::object::Told { record: Self::RECORD, values, summary: #summary }
            }
        }

        impl ::tenths::object::FieldValue for #name {
            const FIELD: ::tenths::object::FieldKind =
                ::tenths::object::FieldKind::Object(<Self as ::tenths::object::Object>::RECORD);

            fn value(&self) -> ::tenths::object::Value {
                ::tenths::object::Value::Object(::tenths::object::Object::tell(self))
            }
        }

        #restore
        #designated
        #readable
    })
}

/// The type of what a method tells: `T` of `Result<T, E>` is optional.
fn told_type(output: &ReturnType) -> Result<(TokenStream, bool)> {
    let ReturnType::Type(_, ty) = output else {
        return Err(syn::Error::new(output.span(), "an accessor has a result"));
    };
    if let Type::Path(path) = &**ty
        && let Some(last) = path.path.segments.last()
        && last.ident == "Result"
        && let PathArguments::AngleBracketed(arguments) = &last.arguments
        && let Some(GenericArgument::Type(inner)) = arguments.args.first()
    {
        return Ok((quote!(Option<#inner>), true));
    }
    Ok((quote!(#ty), false))
}

pub(crate) fn accessors(item: TokenStream) -> Result<TokenStream> {
    let mut item: ItemImpl = syn::parse2(item)?;
    let ty = item.self_ty.clone();
    let (mut records, mut values) = (vec![], vec![]);
    for member in &mut item.items {
        let ImplItem::Fn(method) = member else { continue };
        let marked = method.attrs.iter().position(|attribute| attribute.path().is_ident("field"));
        let Some(marked) = marked else { continue };
        method.attrs.remove(marked);
        let name = &method.sig.ident;
        if !matches!(method.sig.inputs.first(), Some(FnArg::Receiver(_))) || method.sig.inputs.len() != 1 {
            return Err(syn::Error::new(name.span(), "a field is told from the object alone"));
        }
        let (told, fallible) = told_type(&method.sig.output)?;
        let told: Type = syn::parse2(told)?;
        // A section such as `# Errors` is for those who call the method.
        let mut attributes = method.attrs.clone();
        let section = attributes
            .iter()
            .position(|attribute| doc_text(std::slice::from_ref(attribute)).starts_with("# "));
        attributes.truncate(section.unwrap_or(attributes.len()));
        records.push(field(name, &told, &attributes)?);
        method.attrs.retain(|attribute| !attribute.path().is_ident("pure"));
        let call = match fallible {
            true => quote!(self.#name().ok()),
            false => quote!(self.#name()),
        };
        values.push(quote!(<#told as ::tenths::object::FieldValue>::value(&#call)));
    }
    Ok(quote! {
        #item

        impl #ty {
            const ACCESSORS: &'static [::tenths::object::Field] = &[#(#records),*];

            fn accessor_values(&self) -> Vec<::tenths::object::Value> {
                vec![#(#values),*]
            }
        }
    })
}

/// The name of a variant: what `#[name = "…"]` says, or its own with small letters and underscores.
fn variant_name(variant: &syn::Variant) -> Result<String> {
    for attribute in variant.attrs.iter().filter(|attribute| attribute.path().is_ident("name")) {
        let Expr::Lit(literal) = &attribute.meta.require_name_value()?.value else { continue };
        if let Lit::Str(text) = &literal.lit {
            return Ok(LitStr::value(text));
        }
    }
    let mut name = String::new();
    for letter in variant.ident.to_string().chars() {
        if letter.is_uppercase() && !name.is_empty() {
            name.push('_');
        }
        name.extend(letter.to_lowercase());
    }
    Ok(name)
}

pub(crate) fn choice(item: TokenStream) -> Result<TokenStream> {
    let item: ItemEnum = syn::parse2(item)?;
    let (name, vis) = (&item.ident, &item.vis);
    if let Some(variant) = item.variants.iter().find(|variant| !matches!(variant.fields, Fields::Unit)) {
        return Err(syn::Error::new(variant.span(), "a choice has no fields"));
    }
    let variants: Vec<_> = item.variants.iter().map(|variant| &variant.ident).collect();
    let texts = item.variants.iter().map(variant_name).collect::<Result<Vec<_>>>()?;
    let count = texts.len();
    let name_doc = format!("One of {}.", list(&texts));
    Ok(quote! {
        impl #name {
            /// Every one.
            #vis const ALL: [#name; #count] = [#(#name::#variants),*];

            #[doc = #name_doc]
            #vis const fn name(self) -> &'static str {
                match self {
                    #(#name::#variants => #texts),*
                }
            }
        }

        impl ::tenths::object::Choice for #name {
            const ALL: &'static [#name] = &#name::ALL;
            const NAMES: &'static [&'static str] = &[#(#texts),*];
            fn place(self) -> usize {
                self as usize
            }
        }

        impl ::tenths::object::FieldValue for #name {
            const FIELD: ::tenths::object::FieldKind =
                ::tenths::object::FieldKind::Choice(<Self as ::tenths::object::Choice>::NAMES);
            fn value(&self) -> ::tenths::object::Value {
                ::tenths::object::Value::Choice(*self as usize)
            }
        }

        impl ::tenths::object::Readable for #name {
            fn read(value: &::tenths::object::Value) -> Option<Self> {
                match value {
                    ::tenths::object::Value::Choice(place) => #name::ALL.get(*place).copied(),
                    _ => None,
                }
            }
        }
    })
}

/// Names in backquotes: `a`, `b` or `c`.
fn list(names: &[String]) -> String {
    let quoted: Vec<_> = names.iter().map(|name| format!("`{name}`")).collect();
    match quoted.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => quoted.concat(),
    }
}

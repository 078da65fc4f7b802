//! The record of options.
use crate::doc_text::doc_text;
use crate::object::field;
use proc_macro2::TokenStream;
use quote::quote;
use syn::{ItemStruct, Result};

/// Whether a field or a struct bears this attribute.
fn is_marked(attributes: &[syn::Attribute], name: &str) -> bool {
    attributes.iter().any(|attribute| attribute.path().is_ident(name))
}

pub(crate) fn expand(item: TokenStream) -> Result<TokenStream> {
    let item: ItemStruct = syn::parse2(item)?;
    let name = &item.ident;
    let (generics, arguments, bounds) = item.generics.split_for_impl();
    let told: Vec<_> = item.fields.iter().filter(|field| !is_marked(&field.attrs, "apart")).collect();
    let names: Vec<_> = told.iter().filter_map(|field| field.ident.as_ref()).collect();
    let types: Vec<_> = told.iter().map(|field| &field.ty).collect();
    let records = told.iter().zip(&names).map(|(told, name)| field(name, &told.ty, &told.attrs));
    let records = records.collect::<Result<Vec<_>>>()?;
    let apart = (told.len() < item.fields.len()).then(|| quote!(..Self::default()));
    let (text, doc, at) = (name.to_string(), doc_text(&item.attrs), 0..told.len());
    let watched = is_marked(&item.attrs, "watched");
    Ok(quote! {
        impl #generics ::tenths::object::Options for #name #arguments #bounds {
            const RECORD: &'static ::tenths::object::OptionsRecord = {
                const FIELDS: &[::tenths::object::Field] = &[#(#records),*];
                fn defaults() -> Vec<::tenths::object::Value> {
                    let usual = #name::default();
                    vec![#(<#types as ::tenths::object::FieldValue>::value(&usual.#names)),*]
                }
                static RECORD: ::tenths::object::OptionsRecord = ::tenths::object::OptionsRecord {
                    name: #text,
                    doc: #doc,
                    fields: FIELDS,
                    defaults,
                    watched: #watched,
                };
                &RECORD
            };

            fn of_values(values: &[::tenths::object::Value]) -> Result<Self, ::tenths::object::OptionError> {
                Ok(Self {
                    #(#names: <Self as ::tenths::object::Options>::RECORD.fields[#at].read(values.get(#at))?,)*
                    #apart
                })
            }
        }
    })
}

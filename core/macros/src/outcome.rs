//! A struct of quantities as the result of a formula.
use crate::demands::stated_range;
use crate::doc_text::doc_text;
use proc_macro2::TokenStream;
use quote::{format_ident, quote};
use syn::{Fields, ItemStruct, Result, spanned::Spanned};

pub(crate) fn expand(item: TokenStream) -> Result<TokenStream> {
    let item: ItemStruct = syn::parse2(item)?;
    let (name, vis) = (&item.ident, &item.vis);
    let Fields::Named(fields) = &item.fields else {
        return Err(syn::Error::new(item.span(), "a result has named fields"));
    };
    let names: Vec<_> = fields.named.iter().filter_map(|field| field.ident.as_ref()).collect();
    let types: Vec<_> = fields.named.iter().map(|field| &field.ty).collect();
    let ranges = fields.named.iter().map(|field| {
        match field.attrs.iter().find(|attribute| attribute.path().is_ident("range")) {
            Some(attribute) => stated_range(&field.ty, attribute),
            None => Ok(quote!(::tenths::formula::StatedRange::EVERYWHERE)),
        }
    });
    let ranges = ranges.collect::<Result<Vec<_>>>()?;
    let docs: Vec<_> = fields.named.iter().map(|field| doc_text(&field.attrs)).collect();
    let bare = format_ident!("Bare{name}");
    let bare_doc = format!("[`{name}`] as bare numbers in base units of one side.");
    let at = 0..names.len();
    Ok(quote! {
        #[doc = #bare_doc]
        #[derive(Clone, Copy, Debug)]
        #vis struct #bare { #(#[doc = #docs] #vis #names: f64),* }

        impl ::tenths::formula::Outcome for #name {
            type Bare = #bare;
            const OUTPUTS: &'static [::tenths::formula::Output] = &[
                #(::tenths::formula::Output::new::<#types>(stringify!(#names), #docs, #ranges)),*
            ];
            fn from_metric(bare: #bare) -> Self {
                Self { #(#names: <#types as ::tenths::Quantity>::from_metric(bare.#names)),* }
            }
            #[inline(always)]
            fn write(bare: #bare, base: &mut [f64]) { #(base[#at] = bare.#names;)* }
        }
    })
}

//! One argument of a formula: its name, quantity, meaning, and what it must be.
use crate::demands::{Demands, expressions};
use crate::doc_text::doc_text;
use crate::vocabulary::Vocabulary;
use proc_macro2::TokenStream;
use quote::{ToTokens, quote};
use syn::{Attribute, FnArg, Ident, Pat, PatType, Result, Type, spanned::Spanned};

pub(crate) struct Argument {
    pub name: Ident,
    pub ty: Type,
    doc: String,
    demands: Demands,
    /// The expression that makes its record.
    pub record: TokenStream,
}

fn trends(attribute: &Attribute, rising: bool) -> Result<Vec<TokenStream>> {
    let outputs = match &attribute.meta {
        syn::Meta::Path(_) => vec![String::new()],
        _ => expressions(attribute)?.iter().map(|e| e.to_token_stream().to_string()).collect(),
    };
    Ok(outputs.iter().map(|o| quote!(::tenths::formula::Trend { output: #o, rising: #rising })).collect())
}

impl Argument {
    /// What it means, and what it must be.
    pub fn sentence(&self) -> String {
        format!("{} {}", self.doc.replace('\n', " "), self.demands.sentence(&self.ty)).trim_end().to_string()
    }

    /// An argument without a doc comment is a term of the vocabulary: the one that `#[term(…)]` names, or the one of
    /// its own name.
    pub fn parse(input: &FnArg, vocabulary: &Vocabulary) -> Result<Self> {
        let FnArg::Typed(PatType { attrs, pat, ty, .. }) = input else {
            return Err(syn::Error::new(input.span(), "a formula is a plain function"));
        };
        let Pat::Ident(pattern) = &**pat else {
            return Err(syn::Error::new(pat.span(), "expected a name"));
        };
        let name = pattern.ident.clone();
        let mut term = None;
        let mut slopes = vec![];
        let mut demands = Demands::default();
        let mut power_law = false;
        for attribute in attrs.iter().filter(|attribute| !attribute.path().is_ident("doc")) {
            if attribute.path().is_ident("increasing") {
                slopes.extend(trends(attribute, true)?);
            } else if attribute.path().is_ident("decreasing") {
                slopes.extend(trends(attribute, false)?);
            } else if attribute.path().is_ident("power_law") {
                power_law = true;
            } else if attribute.path().is_ident("term") {
                term = Some(attribute.parse_args::<Ident>()?);
            } else if !demands.take(attribute)? {
                return Err(syn::Error::new(attribute.span(), "no such attribute of an argument"));
            }
        }
        let mut doc = doc_text(attrs);
        let mut domain = demands.domain(ty);
        if term.is_some() && !doc.is_empty() {
            return Err(syn::Error::new(
                name.span(),
                "its term says what it means: drop the doc comment or the term",
            ));
        }
        if doc.is_empty() {
            let term = vocabulary.term(term.as_ref().unwrap_or(&name), ty)?;
            demands = demands.on_top_of(&term.demands, &name)?;
            let (whole, own) = (term.demands.domain(ty), demands.domain(ty));
            domain = quote!(#whole.narrowed_to(#own));
            doc = term.doc.clone();
        }
        let (text, range, default) = (name.to_string(), demands.range(ty), demands.default_value(ty));
        let record = quote!(::tenths::formula::Argument::new::<#ty>(
            #text, #doc, &[#(#slopes),*],
            ::tenths::formula::Side {
                domain: #domain,
                range: #range,
                usual: ::tenths::formula::StatedRange::EVERYWHERE,
                default: #default,
            },
        ));
        let record = if power_law { quote!(#record.in_power_laws()) } else { record };
        Ok(Self { name, ty: (**ty).clone(), doc, demands, record })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use syn::parse_quote;

    /// What the macro says of an argument, or the words that its docs print.
    fn told(input: FnArg) -> std::result::Result<String, String> {
        let argument = Argument::parse(&input, &Vocabulary::read().unwrap());
        argument.map(|argument| argument.sentence()).map_err(|error| error.to_string())
    }

    #[test]
    fn bounds_that_contradict_each_other_stop_the_build() {
        let twice = |end: &str| Err(format!("the {end} of this argument is stated twice"));
        assert_eq!(
            told(parse_quote!(
                /// Angle.
                #[above(0.0)]
                #[within(0.0, 90.0)]
                angle: Angle
            )),
            twice("lower end")
        );
        assert_eq!(
            told(parse_quote!(
                /// Angle.
                #[within(0.0, 90.0)]
                #[below(90.0)]
                angle: Angle
            )),
            twice("upper end")
        );
        assert_eq!(
            told(parse_quote!(
                /// Angle.
                #[default(1.0)]
                #[default(2.0)]
                angle: Angle
            )),
            twice("default")
        );
    }

    #[test]
    fn a_term_is_printed_in_full_with_what_a_formula_adds() {
        assert_eq!(
            told(parse_quote!(entering_angle: Angle)).unwrap(),
            "Entering angle, from the machined surface to the edge: 90° is a square shoulder. Greater than 0°, at most 90°; \
             default 90°."
        );
        assert_eq!(
            told(parse_quote!(#[term(drill_diameter)] #[at_most(9.0)] diameter: Length)).unwrap(),
            "Diameter of the drill. Greater than 0, at most 9."
        );
        assert_eq!(
            told(parse_quote!(reference_feed: Length)).unwrap(),
            "Feed at which C holds. Greater than 0; default 1 mm."
        );
        assert_eq!(
            told(parse_quote!(mc: Ratio)).unwrap(),
            "Exponent of the material, 0.14 to 0.36 for most. At least 0, at most 1; its source covers 0.1 to 0.4."
        );
    }

    #[test]
    fn a_term_is_known_of_its_quantity_and_says_all_itself() {
        let unknown = "`girth` is not in the vocabulary: give the argument a doc comment";
        assert_eq!(told(parse_quote!(girth: Length)).unwrap_err(), unknown);
        assert_eq!(told(parse_quote!(#[term(girth)] size: Length)).unwrap_err(), unknown);
        assert_eq!(
            told(parse_quote!(mc: Angle)).unwrap_err(),
            "`mc` has the quantity Ratio in the vocabulary, not Angle"
        );
        assert!(told(parse_quote!(start_diameter: Size)).is_ok(), "a size is a length");
        assert!(told(parse_quote!(#[default(1.0)] efficiency: Ratio)).is_ok());
        assert_eq!(
            told(parse_quote!(#[default(1.0)] wear_factor: Ratio)).unwrap_err(),
            "its term has a default already"
        );
        let twice = told(parse_quote!(
            /// Something else.
            #[term(mc)]
            exponent: Ratio
        ));
        assert!(twice.unwrap_err().starts_with("its term says what it means"));
    }
}

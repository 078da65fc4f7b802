//! One argument of a formula: its name, quantity, and what its attributes ask of it.
use proc_macro2::TokenStream;
use quote::{ToTokens, quote};
use syn::{
    Attribute, Expr, FnArg, Ident, Pat, PatType, Path, Result, Token, Type, punctuated::Punctuated,
    spanned::Spanned,
};

pub(crate) struct Argument {
    pub name: Ident,
    pub ty: Type,
    pub doc: String,
    /// What the attributes say in words, for the documentation.
    pub demands: Vec<String>,
    /// The expression that makes its record.
    pub record: TokenStream,
}

/// A value in an attribute, in metric base units: a bare number where the unit is plain, or an expression of
/// the argument's own type.
pub(crate) fn value(ty: &Type, value: &Expr) -> TokenStream {
    let inner = match value {
        Expr::Unary(negated) => &*negated.expr,
        other => other,
    };
    match inner {
        Expr::Lit(_) => quote!(::tenths::formula::bare(<#ty as ::tenths::Quantity>::KIND, #value)),
        _ => quote!({
            const VALUE: #ty = #value;
            VALUE.base()
        }),
    }
}

/// A bound of a stated range, where `..` leaves that end open.
fn bound(ty: &Type, expr: &Expr, open: TokenStream) -> TokenStream {
    match expr {
        Expr::Range(range) if range.start.is_none() && range.end.is_none() => open,
        _ => value(ty, expr),
    }
}

/// The range that `#[range(low, high)]` states.
pub(crate) fn stated_range(ty: &Type, attribute: &Attribute) -> Result<TokenStream> {
    let [low, high] = pair(attribute)?;
    let (low, high) = (bound(ty, &low, quote!(f64::NEG_INFINITY)), bound(ty, &high, quote!(f64::INFINITY)));
    Ok(quote!(::tenths::formula::Range(#low, #high)))
}

fn expressions(attribute: &Attribute) -> Result<Vec<Expr>> {
    let list = attribute.parse_args_with(Punctuated::<Expr, Token![,]>::parse_terminated)?;
    Ok(list.into_iter().collect())
}

fn one(attribute: &Attribute) -> Result<Expr> {
    <[Expr; 1]>::try_from(expressions(attribute)?)
        .map(|[value]| value)
        .map_err(|_| syn::Error::new(attribute.span(), "expected (value)"))
}

fn pair(attribute: &Attribute) -> Result<[Expr; 2]> {
    <[Expr; 2]>::try_from(expressions(attribute)?)
        .map_err(|_| syn::Error::new(attribute.span(), "expected (low, high)"))
}

fn trends(attribute: &Attribute, rising: bool) -> Result<Vec<TokenStream>> {
    let outputs = match &attribute.meta {
        syn::Meta::Path(_) => vec![String::new()],
        _ => expressions(attribute)?.iter().map(|e| e.to_token_stream().to_string()).collect(),
    };
    Ok(outputs.iter().map(|o| quote!(::tenths::formula::Trend { output: #o, rising: #rising })).collect())
}

impl Argument {
    /// What it means, and in brackets what it must be.
    pub fn sentence(&self) -> String {
        let meaning = self.doc.replace('\n', " ");
        match self.demands.is_empty() {
            true => meaning,
            false => format!("{meaning} ({})", self.demands.join(", ")),
        }
    }

    pub fn parse(input: &FnArg) -> Result<Self> {
        let FnArg::Typed(PatType { attrs, pat, ty, .. }) = input else {
            return Err(syn::Error::new(input.span(), "a formula is a plain function"));
        };
        let Pat::Ident(pattern) = &**pat else {
            return Err(syn::Error::new(pat.span(), "expected a name"));
        };
        let mut domain = quote!(::tenths::formula::Domain::FINITE);
        let mut range = quote!(::tenths::formula::Range::EVERYWHERE);
        let mut default = quote!(None);
        let mut like: Option<Path> = None;
        let mut slopes = vec![];
        let mut demands = vec![];
        for attribute in attrs {
            let Some(key) = attribute.path().get_ident() else { continue };
            let text = |e: &Expr| e.to_token_stream().to_string().replace(" :: ", "::");
            match key.to_string().as_str() {
                "doc" => {}
                "positive" => {
                    domain = quote!(#domain.above(0.0));
                    demands.push("positive".to_string());
                }
                "non_negative" => {
                    domain = quote!(#domain.at_least(0.0));
                    demands.push("zero or more".to_string());
                }
                "whole" => {
                    domain = quote!(#domain.whole());
                    demands.push("whole".to_string());
                }
                "above" => {
                    let low = one(attribute)?;
                    demands.push(format!("above {}", text(&low)));
                    let low = value(ty, &low);
                    domain = quote!(#domain.above(#low));
                }
                "below" => {
                    let high = one(attribute)?;
                    demands.push(format!("below {}", text(&high)));
                    let high = value(ty, &high);
                    domain = quote!(#domain.below(#high));
                }
                "within" => {
                    let [low, high] = pair(attribute)?;
                    demands.push(format!("from {} to {}", text(&low), text(&high)));
                    let (low, high) = (value(ty, &low), value(ty, &high));
                    domain = quote!(#domain.at_least(#low).at_most(#high));
                }
                "range" => {
                    range = stated_range(ty, attribute)?;
                }
                "default" => {
                    let given = one(attribute)?;
                    demands.push(format!("{} unless told otherwise", text(&given)));
                    let given = value(ty, &given);
                    default = quote!(Some(#given));
                }
                "like" => like = Some(attribute.parse_args::<Path>()?),
                "increasing" => slopes.extend(trends(attribute, true)?),
                "decreasing" => slopes.extend(trends(attribute, false)?),
                _ => return Err(syn::Error::new(key.span(), "no such attribute of an argument")),
            }
        }
        let (name, mut doc) = (pattern.ident.clone(), crate::doc_text(attrs));
        let text = name.to_string();
        let record = if let Some(formula) = like {
            if attrs
                .iter()
                .any(|a| !["like", "increasing", "decreasing"].iter().any(|key| a.path().is_ident(key)))
            {
                return Err(syn::Error::new(
                    name.span(),
                    "an argument like another has only trends of its own",
                ));
            }
            let mut record = formula.clone();
            let last = &mut record.segments.last_mut().expect("a path has a segment").ident;
            let formula_name = last.to_string();
            *last = Ident::new(&formula_name.to_uppercase(), last.span());
            let path = formula.to_token_stream().to_string().replace(' ', "");
            doc = format!("as in [`{formula_name}`]({path})");
            quote!(::tenths::formula::Argument::like::<#ty>(#text, &[#(#slopes),*], &#record))
        } else {
            quote!(::tenths::formula::Argument::new::<#ty>(
                #text, #doc, &[#(#slopes),*],
                ::tenths::formula::Side {
                    domain: #domain,
                    range: #range,
                    usual: ::tenths::formula::Range::EVERYWHERE,
                    default: #default,
                },
            ))
        };
        Ok(Self { name, ty: (**ty).clone(), doc, demands, record })
    }
}

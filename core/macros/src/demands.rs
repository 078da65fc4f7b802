//! What an argument must be: the ends of its domain, the range that its source states, its default.
use proc_macro2::TokenStream;
use quote::{ToTokens, quote};
use syn::{
    Attribute, Expr, ExprCall, ExprRange, Lit, Result, Token, Type, punctuated::Punctuated, spanned::Spanned,
};

/// One end of a domain, and whether it belongs to the domain.
#[derive(Clone)]
struct End {
    value: Expr,
    closed: bool,
}

/// What the attributes of an argument ask of it.
#[derive(Clone, Default)]
pub(crate) struct Demands {
    low: Option<End>,
    high: Option<End>,
    whole: bool,
    range: Option<[Expr; 2]>,
    default: Option<Expr>,
}

impl Demands {
    /// Takes what an attribute asks, and says whether it is one that asks something.
    ///
    /// What is stated twice is refused: of two ends the second would reopen what the first had closed.
    pub fn take(&mut self, attribute: &Attribute) -> Result<bool> {
        let zero = || syn::parse_quote!(0.0);
        let Some(key) = attribute.path().get_ident() else { return Ok(false) };
        match key.to_string().as_str() {
            "positive" => self.start(zero(), false, attribute)?,
            "non_negative" => self.start(zero(), true, attribute)?,
            "above" => self.start(one(attribute)?, false, attribute)?,
            "at_least" => self.start(one(attribute)?, true, attribute)?,
            "below" => self.stop(one(attribute)?, false, attribute)?,
            "at_most" => self.stop(one(attribute)?, true, attribute)?,
            "within" => {
                let [low, high] = pair(attribute)?;
                self.start(low, true, attribute)?;
                self.stop(high, true, attribute)?;
            }
            "whole" => self.whole = true,
            "range" => set(&mut self.range, pair(attribute)?, "range", attribute)?,
            "default" => set(&mut self.default, one(attribute)?, "default", attribute)?,
            _ => return Ok(false),
        }
        Ok(true)
    }

    fn start(&mut self, value: Expr, closed: bool, attribute: &Attribute) -> Result<()> {
        set(&mut self.low, End { value, closed }, "lower end", attribute)
    }

    fn stop(&mut self, value: Expr, closed: bool, attribute: &Attribute) -> Result<()> {
        set(&mut self.high, End { value, closed }, "upper end", attribute)
    }

    /// These on top of what a term of the vocabulary asks: an end of a domain takes the place of the term's.
    pub fn on_top_of(self, term: &Demands, place: &impl Spanned) -> Result<Demands> {
        let twice = |what| Err(syn::Error::new(place.span(), format!("its term has a {what} already")));
        if self.range.is_some() && term.range.is_some() {
            return twice("range");
        }
        if self.default.is_some() && term.default.is_some() {
            return twice("default");
        }
        let term = term.clone();
        Ok(Demands {
            low: self.low.or(term.low),
            high: self.high.or(term.high),
            whole: self.whole || term.whole,
            range: self.range.or(term.range),
            default: self.default.or(term.default),
        })
    }

    /// The domain, in metric base units.
    pub fn domain(&self, ty: &Type) -> TokenStream {
        let mut domain = quote!(::tenths::formula::Domain::FINITE);
        if let Some(End { value: low, closed }) = &self.low {
            let low = value(ty, low);
            domain = if *closed { quote!(#domain.at_least(#low)) } else { quote!(#domain.above(#low)) };
        }
        if let Some(End { value: high, closed }) = &self.high {
            let high = value(ty, high);
            domain = if *closed { quote!(#domain.at_most(#high)) } else { quote!(#domain.below(#high)) };
        }
        if self.whole { quote!(#domain.whole()) } else { domain }
    }

    /// The range that the source states, in metric base units.
    pub fn range(&self, ty: &Type) -> TokenStream {
        self.range
            .as_ref()
            .map_or(quote!(::tenths::formula::StatedRange::EVERYWHERE), |range| range_of(ty, range))
    }

    /// The default, in metric base units.
    pub fn default_value(&self, ty: &Type) -> TokenStream {
        match &self.default {
            Some(default) => {
                let default = value(ty, default);
                quote!(Some(#default))
            }
            None => quote!(None),
        }
    }

    /// In words: `Greater than 0, at most 90°; default 45°.`
    pub fn sentence(&self, ty: &Type) -> String {
        let end = |end: &Option<End>, closed: &str, open: &str| {
            end.as_ref()
                .map(|end| format!("{} {}", if end.closed { closed } else { open }, words(ty, &end.value)))
        };
        let domain = [
            self.whole.then(|| "a whole number".to_string()),
            end(&self.low, "at least", "greater than"),
            end(&self.high, "at most", "less than"),
        ];
        let domain = domain.into_iter().flatten().collect::<Vec<_>>().join(", ");
        let range = self.range.as_ref().map(|[low, high]| match (is_open(low), is_open(high)) {
            (false, true) => format!("its source covers {} and more", words(ty, low)),
            (true, false) => format!("its source covers up to {}", words(ty, high)),
            _ => format!("its source covers {} to {}", words(ty, low), words(ty, high)),
        });
        let default = self.default.as_ref().map(|default| format!("default {}", words(ty, default)));
        let parts: Vec<_> =
            [Some(domain), range, default].into_iter().flatten().filter(|p| !p.is_empty()).collect();
        let text = parts.join("; ");
        match text.split_at_checked(1) {
            Some((first, rest)) => format!("{}{rest}.", first.to_uppercase()),
            None => text,
        }
    }
}

/// The range that `#[range(low, high)]` states.
pub(crate) fn stated_range(ty: &Type, attribute: &Attribute) -> Result<TokenStream> {
    Ok(range_of(ty, &pair(attribute)?))
}

fn range_of(ty: &Type, [low, high]: &[Expr; 2]) -> TokenStream {
    let low = if is_open(low) { quote!(f64::NEG_INFINITY) } else { value(ty, low) };
    let high = if is_open(high) { quote!(f64::INFINITY) } else { value(ty, high) };
    quote!(::tenths::formula::StatedRange(#low, #high))
}

/// Whether `..` leaves that end of a range open.
fn is_open(end: &Expr) -> bool {
    matches!(end, Expr::Range(ExprRange { start: None, end: None, .. }))
}

/// A value in an attribute, in metric base units: a bare number where the unit is plain, or an expression of
/// the argument's own type.
pub(crate) fn value(ty: &Type, value: &Expr) -> TokenStream {
    match number(value) {
        Some(_) => quote!(::tenths::formula::bare(<#ty as ::tenths::Quantity>::KIND, #value)),
        None => quote!({
            const VALUE: #ty = #value;
            VALUE.base()
        }),
    }
}

/// A number as it stands in an attribute.
fn number(value: &Expr) -> Option<f64> {
    match value {
        Expr::Unary(negated) => number(&negated.expr).map(|number| -number),
        Expr::Lit(literal) => match &literal.lit {
            Lit::Float(float) => float.base10_parse().ok(),
            Lit::Int(int) => int.base10_parse().ok(),
            _ => None,
        },
        _ => None,
    }
}

/// The units that the constructors of quantities take.
const UNITS: [(&str, &str); 6] = [
    ("Length::millimetres", " mm"),
    ("Length::inches", " in"),
    ("Temperature::celsius", " °C"),
    ("TemperatureDifference::kelvin", " K"),
    ("ExpansionCoefficient::per_kelvin", " 1/K"),
    ("Ratio::new", ""),
];

/// A value as a reader would write it: `90°`, `1 in`.
fn words(ty: &Type, value: &Expr) -> String {
    if let Some(number) = number(value) {
        let is_angle = ty.to_token_stream().to_string().ends_with("Angle");
        return format!("{number}{}", if is_angle { "°" } else { "" });
    }
    let code = |tokens: &dyn Fn() -> String| tokens().replace(' ', "");
    if let Expr::Call(ExprCall { func, args, .. }) = value {
        let constructor = code(&|| func.to_token_stream().to_string());
        let unit = UNITS.iter().find(|(known, _)| *known == constructor);
        if let (Some((_, unit)), Some(number)) = (unit, args.first().and_then(number)) {
            return format!("{number}{unit}");
        }
    }
    format!("`{}`", value.to_token_stream())
}

fn set<T>(slot: &mut Option<T>, value: T, what: &str, attribute: &Attribute) -> Result<()> {
    if slot.is_some() {
        return Err(syn::Error::new(
            attribute.span(),
            format!("the {what} of this argument is stated twice"),
        ));
    }
    *slot = Some(value);
    Ok(())
}

pub(crate) fn expressions(attribute: &Attribute) -> Result<Vec<Expr>> {
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

//! A formula: the checked function, its body on bare numbers, and its record.
use crate::argument::Argument;
use crate::demands::value;
use crate::doc_text::doc_text;
use crate::vocabulary::Vocabulary;
use proc_macro2::TokenStream;
use quote::{format_ident, quote};
use syn::{
    Expr, Ident, ItemFn, LitStr, Result, ReturnType, Token, Type, parenthesized,
    parse::{Parse, ParseStream},
    punctuated::Punctuated,
    visit::Visit,
};

struct Constant {
    name: Ident,
    ty: Type,
    value: Expr,
}

struct Rule {
    condition: Expr,
    text: LitStr,
}

struct Inverse {
    argument: Ident,
    solution: Expr,
}

#[derive(Default)]
struct Options {
    source: Option<LitStr>,
    result: Option<LitStr>,
    cautions: Vec<Ident>,
    constants: Vec<Constant>,
    rules: Vec<Rule>,
    inverses: Vec<Inverse>,
}

impl Parse for Options {
    fn parse(input: ParseStream) -> Result<Self> {
        let mut options = Self::default();
        while !input.is_empty() {
            let key: Ident = input.parse()?;
            if key == "source" {
                input.parse::<Token![=]>()?;
                options.source = Some(input.parse()?);
            } else if key == "result" {
                input.parse::<Token![=]>()?;
                options.result = Some(input.parse()?);
            } else {
                let body;
                parenthesized!(body in input);
                match key.to_string().as_str() {
                    "caution" => {
                        options.cautions.extend(Punctuated::<Ident, Token![,]>::parse_terminated(&body)?);
                    }
                    "constant" => {
                        let name = body.parse()?;
                        body.parse::<Token![:]>()?;
                        let ty = body.parse()?;
                        body.parse::<Token![=]>()?;
                        options.constants.push(Constant { name, ty, value: body.parse()? });
                    }
                    "rule" => {
                        let condition = body.parse()?;
                        body.parse::<Token![,]>()?;
                        options.rules.push(Rule { condition, text: body.parse()? });
                    }
                    "inverse" => {
                        let argument = body.parse()?;
                        body.parse::<Token![=]>()?;
                        options.inverses.push(Inverse { argument, solution: body.parse()? });
                    }
                    _ => {
                        return Err(syn::Error::new(
                            key.span(),
                            "expected source, result, caution, constant, rule or inverse",
                        ));
                    }
                }
            }
            if !input.is_empty() {
                input.parse::<Token![,]>()?;
            }
        }
        Ok(options)
    }
}

/// Which of `names` an expression speaks of.
fn mentioned(names: &[&Ident], expr: &Expr) -> Vec<usize> {
    struct Seen<'a>(&'a [&'a Ident], Vec<usize>);
    impl<'ast> Visit<'ast> for Seen<'_> {
        fn visit_ident(&mut self, ident: &'ast Ident) {
            self.1.extend(self.0.iter().position(|name| *name == ident));
        }
    }
    let mut seen = Seen(names, vec![]);
    seen.visit_expr(expr);
    seen.1.sort_unstable();
    seen.1.dedup();
    seen.1
}

/// What the only result is: the first sentence of the documentation, without the expression after its colon.
fn meaning(text: &str) -> String {
    let line = text.lines().next().unwrap_or_default();
    let end = [": ", ". "].iter().filter_map(|mark| line.find(mark)).min();
    let name = end.map_or(line, |end| &line[..end]);
    format!("{}.", name.trim_end_matches('.'))
}

/// The documentation of the checked function: the author's text, then caution, arguments, rules and source.
fn documentation(
    name: &Ident,
    text: &str,
    caution: Option<&str>,
    source: &str,
    arguments: &[Argument],
    rules: &[Rule],
) -> String {
    let caution = caution.map_or(String::new(), |caution| format!("\n\n# Caution\n{caution}"));
    let mut doc = format!("{text}{caution}\n\n# Arguments\n");
    for argument in arguments {
        doc += &format!("- `{}`: {}\n", argument.name, argument.sentence());
    }
    if arguments.len() > MAX_PLAIN_ARGUMENTS {
        doc += &format!("\nBy name: [`{}`].\n", input_name(name));
    }
    doc += "\n# Errors\n[`Error`](::tenths::Error) if an argument is outside its domain";
    for rule in rules {
        doc += &format!("; {}", rule.text.value());
    }
    doc + ".\n\n# Source\n" + source + "\n"
}

/// More arguments than one can keep apart by place have names in a struct too.
const MAX_PLAIN_ARGUMENTS: usize = 4;

/// The struct of the arguments of `function` by name.
fn input_struct(function: &ItemFn, arguments: &[Argument], record: &Ident, result: &Type) -> TokenStream {
    let (vis, name) = (&function.vis, &function.sig.ident);
    let input = input_name(name);
    let names: Vec<&Ident> = arguments.iter().map(|a| &a.name).collect();
    let types = arguments.iter().map(|a| &a.ty);
    let docs = arguments.iter().map(Argument::sentence);
    let doc = format!(
        "The arguments of [`{name}`] by name.\n\n`..Default::default()` gives those that have a default; of the \
         others, one that is left out is refused."
    );
    let evaluate_doc = format!("[`{name}`] of these arguments.\n\n# Errors\nAs there.");
    quote! {
        #[doc = #doc]
        #[derive(Clone, Copy, PartialEq, Debug)]
        #vis struct #input {
            #(#[doc = #docs] pub #names: #types,)*
        }

        impl Default for #input {
            fn default() -> Self {
                let [#(#names),*] = #record.metric_defaults();
                Self { #(#names: ::tenths::Quantity::from_metric(#names)),* }
            }
        }

        impl #input {
            #[doc = #evaluate_doc]
            pub fn evaluate(self) -> ::std::result::Result<#result, ::tenths::Error> {
                #name(#(self.#names),*)
            }
        }
    }
}

/// `PressFitInput` of `press_fit`.
fn input_name(formula: &Ident) -> Ident {
    let capital = |word: &str| word[..1].to_uppercase() + &word[1..];
    format_ident!("{}Input", formula.to_string().split('_').map(capital).collect::<String>())
}

pub(crate) fn expand(options: TokenStream, item: TokenStream) -> Result<TokenStream> {
    let options: Options = syn::parse2(options)?;
    let function: ItemFn = syn::parse2(item)?;
    let (name, vis, block) = (&function.sig.ident, &function.vis, &function.block);
    let (base, record) = (format_ident!("{name}_base"), format_ident!("{}", name.to_string().to_uppercase()));
    let ReturnType::Type(_, result) = &function.sig.output else {
        return Err(syn::Error::new(name.span(), "a formula has a result"));
    };
    let vocabulary = Vocabulary::read()?;
    let arguments = function.sig.inputs.iter().map(|input| Argument::parse(input, &vocabulary));
    let arguments = arguments.collect::<Result<Vec<_>>>()?;
    let text = doc_text(&function.attrs);
    let source = options.source.as_ref().map(LitStr::value).unwrap_or_default();
    if source.is_empty() || text.is_empty() {
        return Err(syn::Error::new(name.span(), "a formula has a doc comment and a source"));
    }
    let meaning = options.result.as_ref().map_or_else(|| meaning(&text), LitStr::value);
    let caution = crate::caution::text(&options.cautions)?;
    let doc = documentation(name, &text, caution.as_deref(), &source, &arguments, &options.rules);
    let caution = match caution {
        Some(text) => quote!(Some(#text)),
        None => quote!(None),
    };
    let input =
        (arguments.len() > MAX_PLAIN_ARGUMENTS).then(|| input_struct(&function, &arguments, &record, result));
    let attributes = function.attrs.iter().filter(|a| !a.path().is_ident("doc"));

    let names: Vec<&Ident> = arguments.iter().map(|a| &a.name).collect();
    let types: Vec<&Type> = arguments.iter().map(|a| &a.ty).collect();
    let records = arguments.iter().map(|a| &a.record);
    let constant_names: Vec<&Ident> = options.constants.iter().map(|c| &c.name).collect();
    let constant_types: Vec<&Type> = options.constants.iter().map(|c| &c.ty).collect();
    let constant_values: Vec<TokenStream> =
        options.constants.iter().map(|c| value(&c.ty, &c.value)).collect();
    let all: Vec<&Ident> = names.iter().chain(&constant_names).copied().collect();
    let all_types: Vec<&Type> = types.iter().chain(&constant_types).copied().collect();
    let (inputs, count) = (all.len(), names.len());
    // In code that is handed one number an input, every name stands for what the body sees.
    let bare = quote!(#(let #all = <#all_types as ::tenths::Quantity>::bare_of(#all, units);)*);

    let conditions: Vec<_> = options.rules.iter().map(|r| &r.condition).collect();
    let texts: Vec<_> = options.rules.iter().map(|r| &r.text).collect();
    let spoken = options.rules.iter().map(|r| mentioned(&names, &r.condition));
    let rules = conditions.iter().zip(&texts).zip(spoken).map(|((condition, text), spoken)| {
        quote!(::tenths::formula::Rule {
            text: #text,
            arguments: &[#(#spoken),*],
            #[allow(unused_variables)]
            holds: |units, x| {
                let Some(&[#(#all),*]) = x.first_chunk::<#inputs>() else { return false };
                #bare
                #condition
            },
        })
    });
    let rule_numbers = 0..options.rules.len();
    let mut inverses = vec![];
    for Inverse { argument, solution } in &options.inverses {
        let Some(at) = names.iter().position(|n| *n == argument) else {
            return Err(syn::Error::new(argument.span(), "no such argument"));
        };
        inverses.push(quote!(::tenths::formula::Inverse {
            argument: #at,
            #[allow(unused_variables)]
            solve: |units, x, #name| {
                let Some(&[#(#all),*]) = x.first_chunk::<#inputs>() else { return f64::NAN };
                #bare
                #solution
            },
        }));
    }
    let name_text = name.to_string();
    let record_doc = format!("The record of [`{name}`].");
    let base_doc = format!("[`{name}`] without checks, in any consistent base units.");

    Ok(quote! {
        #[doc = #base_doc]
        #[inline(always)]
        #[allow(clippy::too_many_arguments)]
        pub(crate) fn #base(#(#all: <#all_types as ::tenths::Quantity>::Bare),*)
            -> <#result as ::tenths::formula::Outcome>::Bare #block

        #[doc = #doc]
        #(#attributes)*
        #[allow(clippy::too_many_arguments)]
        #vis fn #name(#(#names: #types),*) -> ::std::result::Result<#result, ::tenths::Error> {
            let metric = [#(::tenths::Quantity::metric(#names)),*];
            #record.admit(::tenths::Units::Metric, &metric)?;
            #(let #names = ::tenths::Quantity::bare(#names);)*
            #(let #constant_names: f64 = #constant_values;)*
            #(if !(#conditions) {
                return Err(#record.broken(#rule_numbers, ::tenths::Units::Metric, &metric));
            })*
            #record.finish::<#result>(#base(#(#all),*))
        }

        #input

        #[doc = #record_doc]
        #vis static #record: ::tenths::Formula = {
            const OUTPUTS: usize = <#result as ::tenths::formula::Outcome>::OUTPUTS.len();
            const RESULTS: [::tenths::formula::Output; OUTPUTS] =
                ::tenths::formula::Output::described(<#result as ::tenths::formula::Outcome>::OUTPUTS, #meaning);
            struct Body;
            impl ::tenths::formula::Body<#inputs, OUTPUTS> for Body {
                const CONSTANTS: usize = #inputs - #count;
                const EXACT: bool = false #(|| <#types as ::tenths::Quantity>::EXACT)*;
                #[inline(always)]
                fn run(units: ::tenths::Units, x: [f64; #inputs]) -> [f64; OUTPUTS] {
                    let mut y = [f64::NAN; OUTPUTS];
                    // Exact bodies are integer arithmetic, which needs a sound row; others give NaN by themselves.
                    if Self::EXACT && !#record.holds(units, &x[..#count]) {
                        return y;
                    }
                    let [#(#all),*] = x;
                    #bare
                    <#result as ::tenths::formula::Outcome>::write(#base(#(#all),*), &mut y);
                    #(if !(#conditions) { y[0] = f64::NAN; })*
                    y
                }
            }
            ::tenths::Formula {
                name: #name_text,
                module: ::tenths::formula::module_name(module_path!()),
                doc: #text,
                caution: #caution,
                source: #source,
                arguments: &[#(#records),*],
                constants: &[#(::tenths::formula::Constant::new::<#constant_types>(
                    stringify!(#constant_names), #constant_values)),*],
                outputs: &RESULTS,
                rules: &[#(#rules),*],
                inverses: &[#(#inverses),*],
                code: ::tenths::formula::Code::of::<Body, #inputs, OUTPUTS>(),
            }
        };
    })
}

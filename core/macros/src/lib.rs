//! Writes the record of a formula of the `tenths` crate.
//!
//! `#[formula]` turns a plain function on quantities into three things: the function itself, checked; its
//! body on bare numbers, for other formulas of the crate to build on; and its record, from which every interface
//! is made. `#[derive(Outcome)]` makes a struct of quantities a result.
mod argument;
mod caution;
mod demands;
mod doc_text;
mod formula;
mod function;
mod object;
mod options;
mod outcome;
mod vocabulary;

use proc_macro::TokenStream;

/// Makes a formula of a function on quantities.
///
/// The first sentence of the doc comment names the result, up to its colon if it has one: in every interface that is
/// the meaning of a single result. `result = "…"` gives that meaning where the sentence does not.
///
/// Options: `source = "…"`, `caution(kind, …)` where the result concerns safety, of the kinds of harm in `caution.rs`,
/// `constant(name: Quantity = value)` for a dimensional number inside an empirical
/// formula, `rule(condition, "text")` between arguments, `inverse(argument = expression)` where the
/// expression may use the other arguments, the constants and the outputs (the only output bears the
/// formula's name).
///
/// On an argument: `#[positive]`, `#[non_negative]`, `#[above(v)]`, `#[at_least(v)]`, `#[below(v)]`, `#[at_most(v)]`,
/// `#[within(low, high)]` and `#[whole]` make its hard domain, each end stated once; `#[range(low, high)]` the range
/// that the source states (`..` for an open end), `#[default(v)]` its default, `#[increasing(outputs)]` and
/// `#[decreasing(outputs)]` the outputs that never fall or never rise with it (none named: the only output), and
/// `#[power_law]` that every output is a constant times a power of it, the exponent 0 included.
///
/// An argument that recurs is a term of `vocabulary.rs`. Without a doc comment an argument takes meaning, domain, range
/// and default from the term of its name; `#[term(name)]` names another one. Its own attributes may narrow the domain.
#[proc_macro_attribute]
pub fn formula(options: TokenStream, item: TokenStream) -> TokenStream {
    formula::expand(options.into(), item.into()).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// Makes a struct of quantities the result of a formula; the docs of its fields go to every interface.
///
/// Beside the struct stands `Bare…` of the same fields as bare numbers, which the body of the formula gives.
/// `#[range(low, high)]` on a field is the range that the source states for that result.
#[proc_macro_derive(Outcome, attributes(range))]
pub fn outcome(item: TokenStream) -> TokenStream {
    outcome::expand(item.into()).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// Makes the record of an object, from which every interface is made; see `tenths::object`.
///
/// The public fields of the struct are told, each with its documentation. `#[object(…)]` takes `accessors` where an
/// `impl` under `#[accessors]` tells more, `summary` where `Display` says what the object comes to, `restore` where it
/// can be put together from its fields again, `designation` where its field of that name reads as the same object, and
/// `tuple` where it unpacks in Python.
#[proc_macro_derive(Object, attributes(object, pure))]
pub fn object(item: TokenStream) -> TokenStream {
    object::object(item.into()).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// Makes the record of the options of a function, from which every interface reads them; see `tenths::object`.
///
/// The struct has a `Default`, and its fields are the options, each with its documentation. A field marked `#[apart]` is not
/// an option: it comes with the data of the call. `#[pure]` marks a plain number that never has a unit. `#[watched]` on the
/// struct says that the work is long: in C a watch then goes with the options.
#[proc_macro_derive(Options, attributes(apart, pure, watched))]
pub fn options(item: TokenStream) -> TokenStream {
    options::expand(item.into()).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// Makes the record of a function that makes an object, from which C and Python call it; see `tenths::object`.
///
/// The function gives a `Result`, and each argument says what it means in a doc comment. Options: `c = "…"` is the name of
/// its export where that is not `tenths_make_` with its own name, `gives = "…"` what C calls the result, `example(…)` the
/// arguments of a call to show, numbers, texts and `null`, and `only_c` where Python has a class for it.
///
/// On an argument: `#[default(v)]` is its default in Python; `#[text]` says that its type is read from text by `parse`, of
/// which `v` is then text, and `#[text(choice)]` that its names are all there is; `#[by_name]` that Python takes it by name alone; `#[pure]` marks a plain number that never has a
/// unit. An `Option` is absent by default.
#[proc_macro_attribute]
pub fn function(options: TokenStream, item: TokenStream) -> TokenStream {
    function::expand(options.into(), item.into()).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// Makes fields of an object of those methods of an `impl` that are marked `#[field]`.
///
/// A method that may fail tells nothing where it does.
#[proc_macro_attribute]
pub fn accessors(_: TokenStream, item: TokenStream) -> TokenStream {
    object::accessors(item.into()).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// Makes an enumeration without fields a choice among names: `ALL`, `name`, and a field of objects.
///
/// A variant is named as it is written, with small letters and underscores, or by `#[name = "…"]`.
#[proc_macro_derive(Choice, attributes(name))]
pub fn choice(item: TokenStream) -> TokenStream {
    object::choice(item.into()).unwrap_or_else(syn::Error::into_compile_error).into()
}

/// Marks a function of the C interface for which the generator writes the export, `tenths_` before its name.
///
/// Its parameters are what it works with, such as `Units`, `&str` or `&[f64]`; the export reads them from what C gives. The
/// names in `#[export(…)]` are what C calls the results, and `array = count` names the count of an array that is not
/// called `count`. A handle under `#[export(name)]` gets the function that frees it.
#[proc_macro_attribute]
pub fn export(_: TokenStream, item: TokenStream) -> TokenStream {
    item
}

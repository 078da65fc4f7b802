//! The vocabulary: arguments that recur, each defined once under the name that the trade has for it.
//!
//! A term is written as an argument of a formula is: meaning, what it must be, name, quantity. An argument without a doc
//! comment takes all of it from the term of its own name, or from the one that `#[term(…)]` names. Attributes of its own
//! may narrow the domain, and add a range or a default where the term has none.
//!
//! The terms stand here, and not in the crate, because the docs of a function must be literal text: so the docs of each
//! formula print them in full.
mod cutting;
mod drilling;
mod economics;
mod fit;
mod shape;
mod stock;
mod thread;
mod tolerance;
mod workholding;

use crate::demands::Demands;
use crate::doc_text::doc_text;
use quote::ToTokens;
use syn::{Field, Ident, Result, Token, Type, parse::Parser, punctuated::Punctuated};

pub(crate) struct Term {
    name: Ident,
    ty: Type,
    pub doc: String,
    pub demands: Demands,
}

pub(crate) struct Vocabulary(Vec<Term>);

impl Vocabulary {
    pub fn read() -> Result<Self> {
        let topics = [
            cutting::terms(),
            drilling::terms(),
            economics::terms(),
            fit::terms(),
            shape::terms(),
            stock::terms(),
            thread::terms(),
            tolerance::terms(),
            workholding::terms(),
        ];
        let mut terms = vec![];
        for topic in topics {
            let fields = Punctuated::<Field, Token![,]>::parse_terminated_with;
            let fields =
                (|input: syn::parse::ParseStream| fields(input, Field::parse_named)).parse2(topic)?;
            for field in fields {
                terms.push(Term::of(field)?);
            }
        }
        Ok(Self(terms))
    }

    /// The term of this name, for an argument of this quantity.
    pub fn term(&self, name: &Ident, ty: &Type) -> Result<&Term> {
        let Some(term) = self.0.iter().find(|term| term.name == *name) else {
            let message = format!("`{name}` is not in the vocabulary: give the argument a doc comment");
            return Err(syn::Error::new(name.span(), message));
        };
        let [known, given] = [&term.ty, ty].map(|ty| ty.to_token_stream().to_string());
        // A size is a length that is read exactly.
        if known == given || (known == "Length" && given == "Size") {
            return Ok(term);
        }
        Err(syn::Error::new(
            name.span(),
            format!("`{name}` has the quantity {known} in the vocabulary, not {given}"),
        ))
    }
}

impl Term {
    fn of(field: Field) -> Result<Self> {
        let name = field.ident.expect("the fields are parsed as named ones");
        let mut demands = Demands::default();
        for attribute in field.attrs.iter().filter(|attribute| !attribute.path().is_ident("doc")) {
            if !demands.take(attribute)? {
                return Err(syn::Error::new(name.span(), format!("no such attribute of the term `{name}`")));
            }
        }
        Ok(Self { doc: doc_text(&field.attrs), name, ty: field.ty, demands })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn each_term_has_one_meaning() {
        let vocabulary = Vocabulary::read().unwrap();
        let mut names = BTreeSet::new();
        for term in &vocabulary.0 {
            assert!(names.insert(term.name.to_string()), "{} twice", term.name);
            assert!(term.doc.ends_with('.') && term.doc.starts_with(char::is_uppercase), "{}", term.name);
        }
    }
}

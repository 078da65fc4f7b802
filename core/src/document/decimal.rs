//! Exact decimals in a document: money, and shares that pieces and money are counted by.
use super::decode::{Context, Decode, mismatch, readable};
use super::fault::Place;
use super::node::{Content, Node};
use super::shape::Shape;
use crate::money::Exact;
use crate::quantity::Units;
use serde_json::Value;

/// A decimal of a document, exact: a number, taken to nine decimals, or text such as `"12.50"`.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Decimal(pub(crate) Exact);

impl Decimal {
    /// Zero.
    pub const ZERO: Decimal = Decimal(Exact::ZERO);

    /// The number as a float: never compute money with it.
    pub fn to_f64(self) -> f64 {
        self.0.to_f64()
    }
}

impl Decode for Decimal {
    const SHAPE: &'static Shape = &Shape::Decimal;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Self> {
        match node.content() {
            Content::Number(number) if number.abs() <= 1e12 => Some(Decimal(Exact::of_float(*number))),
            Content::Text(text) => readable(text, read, at, context),
            Content::Number(_) | Content::Long(_) => {
                let told = node.told(node.number().unwrap_or_default());
                readable("", |_| Err(too_large(&told)), at, context)
            }
            _ => mismatch::<Self>(node, at, context),
        }
    }

    fn measure(&self, _: Units) -> Option<f64> {
        Some(self.to_f64())
    }

    fn written(&self) -> Value {
        let number = self.to_f64();
        if number.fract() == 0.0 { (number as i64).into() } else { number.into() }
    }
}

fn too_large(told: &str) -> String {
    format!("must be at most 1 000 000 000 000, with at most nine decimals, not {told}")
}

fn read(text: &str) -> Result<Decimal, String> {
    let exact =
        Exact::parse(text).ok_or_else(|| format!("`{text}` is not a decimal; expected e.g. `12.50`"))?;
    let is_kept = exact.has_decimals(Exact::PLACES) && exact.to_f64().abs() <= 1e12;
    if is_kept { Ok(Decimal(exact)) } else { Err(too_large(text)) }
}

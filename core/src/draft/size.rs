//! A size of a feature: limits, or a size alone with a general tolerance.
use crate::document::decode::{Context, Decode, mismatch, readable};
use crate::document::fault::Place;
use crate::document::limits::DrawingLimits;
use crate::document::node::{Content, Node};
use crate::document::shape::Shape;
use crate::general_tolerance::GeneralClass;
use crate::{Limits, Size, Units};

/// The general tolerance of an inch draft, each way: common practice of title blocks, no source.
const BLOCK: Size = Size::from_picometres(127_000_000);

/// A size of a feature, and the text by which a plan states it.
#[derive(Clone, PartialEq, Debug)]
pub struct FeatureSize {
    /// Its limits.
    pub limits: Limits,
    /// As a plan states it.
    pub text: String,
}

impl FeatureSize {
    /// A size alone, with the general tolerance of a draft: ISO 2768-m, in an inch draft ±.005 in.
    pub(super) fn alone(size: Size, units: Units) -> Result<FeatureSize, String> {
        let limits = match units {
            Units::Inch => Limits::with_deviations(size, BLOCK, BLOCK.checked_neg().unwrap_or(Size::ZERO)),
            Units::Metric => {
                let class = GeneralClass::parse("ISO 2768-m").map_err(|error| error.to_string())?;
                Limits::parse_general(&size.format(units), class).map(|(limits, _)| limits)
            }
        };
        limits.map(|limits| FeatureSize::of(limits, units)).map_err(|error| error.to_string())
    }

    pub(super) fn of(limits: Limits, units: Units) -> FeatureSize {
        FeatureSize { limits, text: limits.format(units) }
    }
}

impl Decode for FeatureSize {
    const SHAPE: &'static Shape = &Shape::Limits;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<FeatureSize> {
        let units = context.units;
        match node.content() {
            Content::Number(_) => {
                let size = Size::decode(node, at, context)?;
                let made = positive(size).and_then(|size| FeatureSize::alone(size, units));
                made.map_err(|message| context.fault(crate::document::FaultKind::OutOfRange, at, || message))
                    .ok()
            }
            Content::Text(text) => match Size::parse(text) {
                Ok(size) => {
                    let alone = |_: &str| positive(size).and_then(|size| FeatureSize::alone(size, units));
                    readable(text, alone, at, context)
                }
                Err(_) => {
                    let limits = DrawingLimits::decode(node, at, context)?.limits;
                    Some(FeatureSize { limits, text: text.trim().into() })
                }
            },
            Content::Object(_) => {
                let limits = DrawingLimits::decode(node, at, context)?.limits;
                Some(FeatureSize::of(limits, units))
            }
            _ => mismatch::<Self>(node, at, context),
        }
    }

    fn measure(&self, units: Units) -> Option<f64> {
        Some(self.limits.lower().to_float(units))
    }

    fn label(units: Units) -> &'static str {
        units.length_label()
    }
}

fn positive(size: Size) -> Result<Size, String> {
    let message = || format!("must be greater than 0, not {}", size.format(size.natural_units()));
    if size.is_positive() { Ok(size) } else { Err(message()) }
}

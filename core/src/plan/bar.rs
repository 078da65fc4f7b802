//! The bar stock as bought.
use crate::Size;
use crate::document::form::*;
use crate::quantity::RoughnessRa;

objects! {
    /// Bar stock as bought.
    Bar {
        /// Its section.
        form: Form,
        /// Its diameter, or its width across flats, as bought.
        limits: StatedLimits where Positive,
        /// The length of a bar.
        bar_length: Size where Positive,
        /// What is cut off the end of a new bar.
        end_trim: Size where NonNegative = Size::ZERO,
        /// What the machine cannot use of each bar.
        remnant: Size where NonNegative = Size::ZERO,
        /// How it is finished.
        finish: Option<String>,
        /// The greatest roughness Ra that the finish leaves.
        roughness: Option<DocumentNumber<RoughnessRa>> where Positive,
        /// The greatest deviation of form, straightness included, over the length of a part.
        form_deviation: Option<Size> where NonNegative,
    }
}

choices! {
    /// The section of a bar.
    Form {
        /// Round.
        Round = "round",
        /// Hexagonal.
        Hexagon = "hexagon",
        /// Square.
        Square = "square",
    }
}

//! What the drawing asks for.
use crate::document::form::*;
use crate::quantity::{Ratio, RoughnessRa};
use crate::{Limits, Size};

objects! {
    /// Something that the drawing asks for and that inspection answers.
    Characteristic {
        /// Its number on the drawing, by which operations name it.
        number: u32 where Positive,
        /// What it is called.
        name: Option<String>,
        /// What is measured.
        kind: CharacteristicKind,
        /// The limits of the drawing, plating included.
        limits: DrawingLimits where NonNegative,
        /// How size and form go together.
        requirement: Requirement,
        /// The greatest roughness Ra.
        roughness: Option<DocumentNumber<RoughnessRa>> where Positive,
        /// The greatest deviation of form: roundness and straightness of a diameter, flatness of faces.
        form_deviation: Option<Size> where NonNegative,
        /// The plating that the limits include; without it the surface is bare.
        plating: Option<Plating>,
        /// How it is inspected.
        inspection: String,
        /// The gauge that it is to be proved with.
        gauge: Option<GaugeKind>,
        /// The least Cpk that the process must be shown to have.
        capability: Option<DocumentNumber<Ratio>> where Positive,
    }

    /// A plating.
    Plating {
        /// What it is.
        name: String,
        /// Its least and greatest thickness on a surface.
        thickness: Limits where NonNegative,
    }
}

choices! {
    /// What is measured.
    CharacteristicKind {
        /// An outer diameter.
        Diameter = "diameter",
        /// An inner diameter.
        Bore = "bore",
        /// The distance of two parallel flats, or of a flat and the far side of a round.
        AcrossFlats = "across_flats",
        /// The distance of two faces along the axis.
        Length = "length",
        /// The distance of two other outer faces.
        Width = "width",
        /// The distance of two inner faces.
        Slot = "slot",
        /// From a face to a floor, or the size of a chamfer.
        Depth = "depth",
    }

    /// How size and form go together.
    Requirement {
        /// No point of the surface passes the envelope of perfect form at the maximum material size.
        Envelope = "envelope",
        /// Each local size keeps the limits; form has a tolerance of its own.
        Independency = "independency",
    }

    /// A pair of go and no-go gauges.
    GaugeKind {
        /// Plugs for a bore.
        Plug = "plug",
        /// Rings for a diameter.
        Ring = "ring",
        /// A length gauge.
        Length = "length",
    }
}

impl CharacteristicKind {
    /// With its article, for messages.
    pub(super) fn words(self) -> &'static str {
        match self {
            CharacteristicKind::Diameter => "a diameter",
            CharacteristicKind::Bore => "a bore",
            CharacteristicKind::AcrossFlats => "a size across flats",
            CharacteristicKind::Length => "a length",
            CharacteristicKind::Width => "a width",
            CharacteristicKind::Slot => "a slot",
            CharacteristicKind::Depth => "a depth",
        }
    }
}

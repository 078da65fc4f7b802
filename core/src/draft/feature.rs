//! The features of a part, as a request states them.
use super::size::FeatureSize;
use crate::document::DocumentNumber;
use crate::document::decode::{Context, Decode, decode_field, decode_name, decode_tag, sort_fields};
use crate::document::fault::Place;
use crate::document::node::Node;
use crate::document::objects::{choices, objects, tagged};
use crate::document::shape::{Bound, ChoiceName, DocumentField, Object, Shape};
use crate::plan::Pattern;
use crate::quantity::{Angle, Length, RoughnessRa};

objects! {
    /// A turned step, or the plain outside of the part.
    Step {
        /// Its diameter: `20 g6`, `20 ±0.05 mm`, or a size alone with the general tolerance.
        diameter: FeatureSize where Positive,
        /// Its length along the axis.
        length: FeatureSize where Positive,
        /// The greatest roughness Ra.
        roughness: Option<DocumentNumber<RoughnessRa>> where Positive,
        /// What it is called.
        name: Option<String>,
    }

    /// A hole along the axis.
    Hole {
        /// Its diameter: `8 H7`, or a size alone with the general tolerance.
        diameter: FeatureSize where Positive,
        /// Its depth at full diameter; without it the hole goes through.
        depth: Option<FeatureSize> where Positive,
        /// The end that it is made from.
        end: End = End::First,
        /// The greatest roughness Ra.
        roughness: Option<DocumentNumber<RoughnessRa>> where Positive,
        /// What it is called.
        name: Option<String>,
    }

    /// A thread: an outside one is a step of its own, an inside one is along the axis.
    ThreadFeature {
        /// The thread with its tolerance class: `M12-6g` outside, `M6-6H` inside.
        thread: String,
        /// Its length; an inside one without it goes through.
        length: Option<FeatureSize> where Positive,
        /// The end that an inside one is made from.
        end: End = End::First,
        /// The step that an outside one is cut on, by its place in the list of features, from 1; without it the thread is a
        /// step of its own.
        on: Option<u32> where Positive,
        /// What it is called.
        name: Option<String>,
    }

    /// Flats milled on a step.
    Flats {
        /// From flat to flat, or of a single one to the far side.
        across: FeatureSize where Positive,
        /// How many.
        flats: u32 where Positive = 2,
        /// The step that has them, by its place in the list of features, from 1; without it the step before.
        on: Option<u32> where Positive,
        /// What they are called.
        name: Option<String>,
    }

    /// A knurl rolled on a step.
    KnurlFeature {
        /// Its pattern.
        pattern: Pattern = Pattern::Straight,
        /// Its pitch, normal to the groove.
        pitch: DocumentNumber<Length> where Positive,
        /// Angle of the grooves to the axis.
        helix_angle: DocumentNumber<Angle> where BelowRight = DocumentNumber::new(0.0),
        /// The diameter over the crests, where the drawing states it.
        diameter: Option<FeatureSize> where Positive,
        /// Its length; without it that of the step.
        length: Option<FeatureSize> where Positive,
        /// The step that has it, by its place in the list of features, from 1; without it the step before.
        on: Option<u32> where Positive,
        /// What it is called.
        name: Option<String>,
    }

    /// A groove turned into a step.
    Groove {
        /// The diameter of its floor.
        diameter: FeatureSize where Positive,
        /// Its width.
        width: FeatureSize where Positive,
        /// The step that has it, by its place in the list of features, from 1; without it the step before.
        on: Option<u32> where Positive,
        /// What it is called.
        name: Option<String>,
    }

    /// A keyseat milled into a step, for a parallel key.
    KeyseatFeature {
        /// Its width: `6 P9`, or the width of the key alone with the general tolerance.
        width: FeatureSize where Positive,
        /// Its length.
        length: FeatureSize where Positive,
        /// The step that has it, by its place in the list of features, from 1; without it the step before.
        on: Option<u32> where Positive,
        /// What it is called.
        name: Option<String>,
    }

    /// A chamfer, or a broken edge.
    Chamfer {
        /// Its size along the axis.
        size: FeatureSize where Positive,
        /// What it is called.
        name: Option<String>,
    }

    /// A hole across the axis, through the step.
    CrossHole {
        /// Its diameter.
        diameter: FeatureSize where Positive,
        /// How many.
        holes: u32 where Positive = 1,
        /// The step that has it, by its place in the list of features, from 1; without it the step before.
        on: Option<u32> where Positive,
        /// What it is called.
        name: Option<String>,
    }
}

choices! {
    /// An end of the part.
    End {
        /// The end at which the list of steps begins.
        First = "first",
        /// The end at which it ends.
        Second = "second",
    }
}

tagged! {
    /// A feature of a part.
    Feature by "kind" {
        /// A turned step.
        Step = "step",
        /// A hole along the axis.
        Hole = "hole",
        /// A thread.
        ThreadFeature = "thread",
        /// Flats.
        Flats = "flats",
        /// A knurl.
        KnurlFeature = "knurl",
        /// A groove.
        Groove = "groove",
        /// A keyseat.
        KeyseatFeature = "keyseat",
        /// A chamfer.
        Chamfer = "chamfer",
        /// A hole across the axis.
        CrossHole = "cross_hole",
    }
}

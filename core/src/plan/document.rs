//! The plan document: from drawing and bar to the order of operations.
use super::bar::Bar;
use super::characteristic::Characteristic;
use super::hub::{Joint, few_joints};
use super::linear_stack::{LinearStack, bounded_work};
use super::metal::Metal;
use super::operation::Operation;
use super::rates::Rates;
use super::routing::{Routing, few_routings};
use crate::GeneralClass;
use crate::document::Version;
use crate::document::form::*;
use crate::quantity::Units;

objects! {
    /// A plan: one part from its drawing to its process sheet.
    Document {
        /// The version of this form of document.
        tenths_plan: Version,
        /// What fixes the unit of every bare number. Text always carries its own.
        units: Units,
        /// The part to make.
        part: Part,
        /// What the bar is made of.
        material: Metal,
        /// The class of general tolerances that the drawing names, such as `ISO 2768-mK`. With it the limits of a
        /// characteristic may be a size alone, `120 mm`, or a broken edge, `2 mm edge`.
        general_tolerance: Option<GeneralClass>,
        /// What the drawing asks for.
        characteristics: Vec<Characteristic>,
        /// The bar stock as bought.
        bar: Bar,
        /// The operations, in the order of the work.
        operations: Vec<Operation>,
        /// What this way to make the part is called beside others; without it `main`.
        routing: Option<String>,
        /// Other ways to make the part, to be compared with `operations`.
        routings: Vec<Routing> = Vec::new(),
        /// A joint of this part and a hub, where there is one.
        joint: Option<Joint>,
        /// The joints of this part and hubs, where there are several; each has a `name`.
        joints: Vec<Joint> = Vec::new(),
        /// What dimensions add up to in assembly.
        stacks: Vec<LinearStack> = Vec::new(),
        /// What the shop charges by, for a quote.
        rates: Option<Rates>,
    } => rules {
        routings, routing => few_routings;
        joints => few_joints;
        stacks => bounded_work;
    }

    /// The part to make.
    Part {
        /// Its name.
        name: String,
        /// Its number.
        number: Option<String>,
        /// How many to make.
        quantity: u32 where Positive,
    }
}

//! What a starting value says.
use super::family::MaterialFamily;
use crate::object::UnknownName;
use crate::quantity::{Length, SurfaceSpeed};
use std::borrow::Cow;
use tenths_macros::{Choice, Object};

/// An operation that cuts.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum CutOperation {
    /// Turning, along the axis or across it; also boring and grooving, for want of figures of their own.
    Turning,
    /// Milling with the face of a cutter.
    FaceMilling,
    /// Milling with an end mill: its side, slots, flats.
    EndMilling,
    /// Drilling in solid metal.
    Drilling,
    /// Reaming a drilled hole.
    Reaming,
    /// Tapping.
    Tapping,
    /// Sawing with a band.
    Sawing,
    /// Rolling a knurl.
    Knurling,
}

impl CutOperation {
    /// The operation of a name: its own, such as `turning`, or that of an operation of a plan, such as `turn`.
    ///
    /// # Errors
    /// [`UnknownName`].
    pub fn parse(name: &str) -> Result<CutOperation, UnknownName> {
        let plain = name.trim().to_ascii_lowercase().replace([' ', '-'], "_");
        match CutOperation::of_plan(&plain) {
            Some(operation) => Ok(operation),
            None => UnknownName::or_named("a cutting operation", &plain),
        }
    }

    /// The operation that an operation of a plan is, by the name of its kind.
    pub(crate) fn of_plan(kind: &str) -> Option<CutOperation> {
        Some(match kind {
            "turn" | "face" | "bore" | "groove" | "part_off" | "chamfer" => CutOperation::Turning,
            "mill_flats" | "mill_slot" | "mill_side" | "mill_pocket" => CutOperation::EndMilling,
            "mill_face" => CutOperation::FaceMilling,
            "drill" | "centre_drill" | "countersink" => CutOperation::Drilling,
            "ream" => CutOperation::Reaming,
            "tap" => CutOperation::Tapping,
            "saw" => CutOperation::Sawing,
            "knurl" => CutOperation::Knurling,
            _ => return None,
        })
    }
}

/// What the cutting edge is made of.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum ToolMaterial {
    /// High-speed steel, cobalt grades included.
    HighSpeedSteel,
    /// Carbide: solid, brazed or an insert, coated or not.
    Carbide,
    /// A band of spring steel with teeth of high-speed steel.
    Bimetal,
}

impl ToolMaterial {
    /// The material of a name, `HSS` and `high-speed steel` among them.
    ///
    /// # Errors
    /// [`UnknownName`].
    pub fn parse(name: &str) -> Result<ToolMaterial, UnknownName> {
        let plain = name.trim().to_ascii_lowercase().replace([' ', '-'], "_");
        match &*plain {
            "hss" => Ok(ToolMaterial::HighSpeedSteel),
            _ => UnknownName::or_named("a tool material", &plain),
        }
    }
}

/// What a feed is counted by.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum FeedBasis {
    /// For a revolution.
    Revolution,
    /// For a tooth, or a flute.
    Tooth,
    /// The pitch of the thread for a revolution.
    Pitch,
    /// The source gives no feed.
    NotGiven,
}

/// How a value is known.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Choice)]
pub enum ValueSeen {
    /// Read in print.
    Published,
    /// Read in print, and to be confirmed: the page was damaged, without heads, or read in two lists.
    ToConfirm,
    /// Computed from what was read in print.
    Computed,
    /// Common practice, without a source.
    CommonPractice,
}

/// A speed and a feed to start from, as one source gives them.
///
/// A starting value: the data of the makers of tool and machine come first. Where a source spans several depths, the high
/// speed belongs to the low feed.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct StartingValue {
    /// The family of the material that is cut.
    pub family: MaterialFamily,
    /// The material as the source has it, with its hardness or condition.
    pub material: Cow<'static, str>,
    /// The operation.
    pub operation: CutOperation,
    /// What the source says of the operation beside, such as `slot` or `roughing`; empty where it says no more.
    pub detail: Cow<'static, str>,
    /// What the cutting edge is made of.
    pub tool: ToolMaterial,
    /// The tool as the source has it.
    pub tool_name: Cow<'static, str>,
    /// The smallest diameter of tool that it is for; of a saw, the size of the work.
    pub diameter_lower: Option<Length>,
    /// The largest diameter of tool that it is for.
    pub diameter_upper: Option<Length>,
    /// The lower surface speed.
    pub speed_lower: SurfaceSpeed,
    /// The higher surface speed.
    pub speed_upper: SurfaceSpeed,
    /// The lower feed.
    pub feed_lower: Option<Length>,
    /// The higher feed.
    pub feed_upper: Option<Length>,
    /// What the feed is counted by.
    pub feed_basis: FeedBasis,
    /// How the value is known.
    pub seen: ValueSeen,
    /// Where it comes from.
    pub source: Cow<'static, str>,
    /// The grades that the source names, with spaces between.
    pub grades: Cow<'static, str>,
}

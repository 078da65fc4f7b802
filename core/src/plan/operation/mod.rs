//! The operations of a plan: a file for each kind, and here their list. A new kind is a file with its fields and its
//! [`Kind`], its `mod` and its line in the list.
mod bore;
mod broach;
mod center_drill;
mod common;
mod countersink;
mod deburr;
mod drill;
mod face;
mod grind;
mod groove;
mod inspect;
mod keyseat;
mod kind;
mod knurl;
mod mill;
mod mill_flats;
mod other;
mod part_off;
mod prelude;
mod press;
mod ream;
mod saw;
mod shrink;
mod tap;
mod tools;
mod treatment;
mod turn;
mod turn_thread;

pub use bore::*;
pub use broach::*;
pub use center_drill::*;
pub use common::Common;
pub use countersink::*;
pub use deburr::*;
pub use drill::*;
pub use face::*;
pub use grind::*;
pub use groove::*;
pub use inspect::*;
pub use keyseat::*;
pub(super) use kind::{Done, Kind, Turned};
pub use knurl::*;
pub use mill::*;
pub use mill_flats::*;
pub use other::*;
pub use part_off::*;
pub use press::*;
pub use ream::*;
pub use saw::*;
pub use shrink::*;
pub use tap::*;
pub use tools::*;
pub use treatment::*;
pub use turn::*;
pub use turn_thread::*;

use super::holding::Workholding;
use crate::document::form::*;

/// The list of kinds: the enumeration, and each one's `Kind`.
macro_rules! kinds {
    ($($(#[doc = $doc:literal])* $kind:ident = $name:literal),* $(,)?) => {
        tagged! {
            /// The work of an operation.
            Work by "kind" beside Common { $($(#[doc = $doc])* $kind = $name),* }
        }

        impl Work {
            /// What its kind says of it.
            pub(super) fn kind(&self) -> &dyn Kind {
                match self { $(Work::$kind(own) => own),* }
            }
        }
    };
}

kinds! {
    /// Cuts the parts from the bar.
    Saw = "saw",
    /// Mills flats.
    MillFlats = "mill_flats",
    /// Turns a diameter.
    Turn = "turn",
    /// Turns a face.
    Face = "face",
    /// Drills holes.
    Drill = "drill",
    /// Taps holes.
    Tap = "tap",
    /// Breaks edges.
    Deburr = "deburr",
    /// Rolls a knurl.
    Knurl = "knurl",
    /// Presses the hub on.
    Press = "press",
    /// Shrinks the hub on.
    Shrink = "shrink",
    /// Inspects parts.
    Inspect = "inspect",
    /// Parts the work off on the lathe.
    PartOff = "part_off",
    /// Drills centres.
    CenterDrill = "center_drill",
    /// Bores a hole larger.
    Bore = "bore",
    /// Reams holes.
    Ream = "ream",
    /// Countersinks holes.
    Countersink = "countersink",
    /// Turns a groove.
    Groove = "groove",
    /// Turns an external thread.
    TurnThread = "turn_thread",
    /// Mills a side, a face, a slot or a pocket.
    Mill = "mill",
    /// Mills a keyseat.
    Keyseat = "keyseat",
    /// Grinds a diameter or a face.
    Grind = "grind",
    /// Broaches or shapes.
    Broach = "broach",
    /// Heat-treats parts.
    HeatTreat = "heat_treat",
    /// Plates parts.
    Plate = "plate",
    /// Washes parts.
    Wash = "wash",
    /// Has something done outside the shop.
    Outside = "outside",
    /// Any other work.
    Other = "other",
}

impl Work {
    /// How many holes it makes; other work counts as one.
    pub(super) fn holes(&self) -> u32 {
        match self {
            Work::Drill(drill) => drill.holes,
            Work::Tap(tap) => tap.holes,
            Work::CenterDrill(drill) => drill.holes,
            Work::Ream(ream) => ream.holes,
            Work::Countersink(countersink) => countersink.holes,
            _ => 1,
        }
    }
}

/// An operation: what all kinds have, and the work of its own.
#[derive(Clone, PartialEq, Debug)]
pub struct Operation {
    /// What operations of every kind have.
    pub common: Common,
    /// The work of its kind.
    pub work: Work,
}

impl Decode for Operation {
    const SHAPE: &'static Shape = Work::SHAPE;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Operation> {
        let common = match node.content() {
            Content::Object(_) => Common::decode_fields(node, Beside::Anything, at, context),
            _ => None,
        };
        let work = Work::decode(node, at, context);
        Some(Operation { common: common?, work: work? })
    }
}

impl Operation {
    /// Its number as the shop writes it: its own, or 10 times its place, which is counted from 0 here.
    pub fn number(&self, place: usize) -> u32 {
        let tens = || u32::try_from(place).unwrap_or(u32::MAX).saturating_add(1).saturating_mul(10);
        self.common.number.unwrap_or_else(tens)
    }

    /// How it holds the work, where it says so.
    pub fn holding(&self) -> Option<&Workholding> {
        self.work.kind().holding()
    }

    /// The characteristics that it makes.
    pub fn makes(&self) -> &[Reference] {
        self.work.kind().makes()
    }
}

/// Notes each operation whose number does not rise above that of the one before.
pub(super) fn judge_numbers(operations: &[Operation], context: &mut Context) {
    let mut before = 0;
    for (index, operation) in operations.iter().enumerate() {
        let number = operation.number(index);
        if number <= before {
            let list = Place::ROOT.field("operations");
            let (one, is_own) = (list.index(index), operation.common.number.is_some());
            context.fault(FaultKind::Conflict, one.field("number"), || {
                let of = if is_own { "" } else { ", 10 times the place of this operation," };
                format!(
                    "numbers of operations must rise: {number}{of} comes after {before}; expected e.g. {}",
                    { before.saturating_add(10) }
                )
            });
        }
        before = before.max(number);
    }
}

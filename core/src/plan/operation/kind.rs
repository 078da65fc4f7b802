//! What every kind of operation says of itself.
use crate::Size;
use crate::document::DocumentError;
use crate::document::Reference;
use crate::document::fault::Place;
use crate::plan::characteristic::CharacteristicKind;
use crate::plan::evaluation::Evaluation;
use crate::plan::holding::{CutForces, Workholding};
use crate::plan::seat::Seat;
use crate::plan::sheet::Figure;
use crate::plan::workpiece::End;

/// What an operation comes to.
pub(in crate::plan) struct Done {
    /// What it does.
    pub(in crate::plan) name: String,
    pub(in crate::plan) figures: Vec<Figure>,
    /// Minutes for a part.
    pub(in crate::plan) minutes: f64,
}

/// A cut round the outside of the work.
pub(in crate::plan) struct Turned {
    /// The field that says how deep it is, by which its sizes are judged.
    pub(in crate::plan) field: &'static str,
    /// The diameter that it starts from, where the plan states it.
    pub(in crate::plan) start: Option<Size>,
    /// The diameter that it leaves; nothing where it goes past the centre.
    pub(in crate::plan) left: Option<Size>,
    /// Where it lies: from which end, and how far.
    pub(in crate::plan) reach: Option<(End, Size)>,
}

/// A kind of operation: its file has its fields, and here what follows from them.
pub(in crate::plan) trait Kind {
    /// The characteristics that it makes.
    fn makes(&self) -> &[Reference] {
        &[]
    }

    /// The characteristics that it looks at.
    fn checks(&self) -> &[Reference] {
        &[]
    }

    /// What it can make.
    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[]
    }

    /// Its tool or tools, in words.
    fn tool(&self) -> Option<&str> {
        None
    }

    /// The step seat that the work lies in.
    fn seat(&self) -> Option<&Seat> {
        None
    }

    /// How it holds the work, where it says so.
    fn holding(&self) -> Option<&Workholding> {
        None
    }

    /// How it can hurt or mislead.
    fn cautions(&self) -> &'static [&'static str];

    /// Whether it makes chips or dust of the metal.
    fn makes_chips(&self) -> bool {
        true
    }

    /// Whether it leaves burrs that a file has to take off.
    fn leaves_burrs(&self) -> bool {
        false
    }

    /// The grade of ISO 286 that its sizes keep with care: common practice, no source. Nothing where that depends on
    /// too much.
    fn closest_grade(&self) -> Option<u8> {
        None
    }

    /// The outside diameter that it cuts, if it cuts one.
    fn turned(&self, _: &Evaluation<'_>) -> Option<Turned> {
        None
    }

    /// Whether work that sticks out of the jaws bends away from its tool.
    fn bends_work(&self) -> bool {
        false
    }

    /// What it comes to.
    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError>;

    /// What is to be set at the machine, and the sizes before and after.
    fn settings(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        vec![]
    }

    /// The forces of its cut; nothing where the material does not tell them.
    fn forces(
        &self,
        _: &Evaluation<'_>,
        _: Place<'_>,
        _: &[Figure],
    ) -> Result<Option<CutForces>, DocumentError> {
        Ok(None)
    }
}

/// `a hole`, `4 holes`.
pub(super) fn several(count: u32, what: &str) -> String {
    if count == 1 { ["a ", what].concat() } else { format!("{count} {what}s") }
}

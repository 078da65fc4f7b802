//! Levels, severities, kinds, laws and knowledge of sigma by their names.
use super::error::SamplingError;
use super::kinds::{InspectionLevel, InspectionSeverity, LotModel, PlanKind, SigmaKnowledge};
use crate::error::excerpt;
use crate::object::Choice as _;

/// Reads one of some names.
macro_rules! parse {
    ($($type:ident: $what:literal)*) => {$(
        impl $type {
            /// The one of this name.
            ///
            /// # Errors
            /// [`SamplingError::Unknown`].
            pub fn parse(text: &str) -> Result<$type, SamplingError> {
                let expected = || match $type::NAMES.split_last() {
                    Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
                    None => String::new(),
                };
                $type::of_name(text.trim()).ok_or_else(|| SamplingError::Unknown {
                    what: $what,
                    text: excerpt(text),
                    expected: expected(),
                })
            }
        }
    )*};
}

parse! {
    InspectionLevel: "an inspection level"
    InspectionSeverity: "a severity of inspection"
    PlanKind: "a kind of plan"
    SigmaKnowledge: "knowledge of sigma"
    LotModel: "a model"
}

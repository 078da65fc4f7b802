//! Levels, severities, kinds, laws and knowledge of sigma by their names.
use super::error::SamplingError;
use super::kinds::{InspectionLevel, InspectionSeverity, LotModel, PlanKind, SigmaKnowledge};
use crate::object::UnknownName;

/// Reads one of some names.
macro_rules! parse {
    ($($type:ident: $what:literal)*) => {$(
        impl $type {
            /// The one of this name.
            ///
            /// # Errors
            /// [`SamplingError::Name`].
            pub fn parse(text: &str) -> Result<$type, SamplingError> {
                Ok(UnknownName::or_named($what, text)?)
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

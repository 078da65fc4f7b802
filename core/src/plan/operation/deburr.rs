//! Breaking edges.
use super::prelude::*;

objects! {
    /// Breaks edges.
    Deburr {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// What with.
        tool: Option<String>,
        /// The time for a part.
        time: DocumentNumber<Time> where NonNegative,
    }
}

impl Kind for Deburr {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Depth, CharacteristicKind::Width]
    }

    fn tool(&self) -> Option<&str> {
        self.tool.as_deref()
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::EDGES]
    }

    fn evaluate(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Result<Done, DocumentError> {
        let name = self.tool.as_ref().map_or("Deburr".into(), |tool| ["Deburr with ", tool].concat());
        Ok(Done { name, figures: vec![], minutes: self.time.value() })
    }
}

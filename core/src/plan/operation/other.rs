//! Work outside the shop, and work that no other kind describes.
use super::prelude::*;

/// All that such work may make: the library cannot know better.
const ANY: &[CharacteristicKind] = {
    use CharacteristicKind::{AcrossFlats, Bore, Depth, Diameter, Length, Slot, Width};
    &[Diameter, Bore, AcrossFlats, Length, Width, Slot, Depth]
};

objects! {
    /// Has something done outside the shop.
    Outside {
        /// What is done, and by whom.
        name: String,
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The price of a part, in the currency of the quote.
        cost: Option<DocumentNumber<Money>> where NonNegative,
        /// The time that the shop itself spends on a part.
        time: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }

    /// Any other work.
    Other {
        /// What is done.
        name: String,
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// What it costs for a part beside its time, in the currency of the quote.
        cost: Option<DocumentNumber<Money>> where NonNegative,
        /// The time for a part.
        time: DocumentNumber<Time> where NonNegative,
    }
}

impl Kind for Outside {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        ANY
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[]
    }

    fn makes_chips(&self) -> bool {
        false
    }

    fn evaluate(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Result<Done, DocumentError> {
        let name = ["Outside: ", &*self.name].concat();
        Ok(Done { name, figures: vec![], minutes: self.time.value() })
    }
}

impl Kind for Other {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        ANY
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT]
    }

    fn evaluate(&self, _: &mut Evaluation<'_>, _: Place<'_>) -> Result<Done, DocumentError> {
        Ok(Done { name: self.name.clone(), figures: vec![], minutes: self.time.value() })
    }
}

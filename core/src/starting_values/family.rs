//! Families of materials that cut alike.
use crate::material::{self, Material, MaterialError};
use crate::object::Choice as _;
use tenths_macros::Choice;

/// A family of materials that cut alike.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Choice)]
pub enum MaterialFamily {
    /// Resulphurised and leaded steel.
    FreeMachiningSteel,
    /// Plain steel of up to about 0.3 % carbon.
    LowCarbonSteel,
    /// Plain steel of about 0.3 to 0.6 % carbon.
    MediumCarbonSteel,
    /// Low-alloy steel, annealed or normalised.
    AlloySteel,
    /// Low-alloy steel, quenched and tempered to about 40 HRC at most.
    HardenedAlloySteel,
    /// Tool steel, annealed, and other steel of high carbon.
    ToolSteel,
    /// Hardened steel.
    HardenedSteel,
    /// Stainless steel.
    StainlessSteel,
    /// Cast iron.
    CastIron,
    /// Aluminium.
    Aluminium,
    /// Brass, bronze and copper.
    CopperAlloy,
    /// Titanium.
    Titanium,
}

impl MaterialFamily {
    /// The family of a material of the table; none where the table of starting values has no such family, as for
    /// nickel, magnesium and plastics.
    pub fn of(material: &Material) -> Option<MaterialFamily> {
        use MaterialFamily::*;
        let name = &*material.name;
        // In order: what is said of the condition goes before what is said of the metal.
        let words = [
            ("hardened", "", HardenedSteel),
            ("", "prehard", HardenedAlloySteel),
            ("free-machining austenitic", "", StainlessSteel),
            ("stainless", "", StainlessSteel),
            ("free-machining steel", "", FreeMachiningSteel),
            ("resulfurized", "", FreeMachiningSteel),
            ("low-carbon steel", "", LowCarbonSteel),
            ("structural steel", "", LowCarbonSteel),
            ("medium-carbon steel", "", MediumCarbonSteel),
            ("low-alloy steel", "", AlloySteel),
            ("carburizing steel", "", AlloySteel),
            ("tool steel", "", ToolSteel),
            ("tool steel", "", ToolSteel),
            ("-steel", "", ToolSteel),
            ("high-carbon steel", "", ToolSteel),
            ("bearing steel", "", ToolSteel),
            ("shock-resisting", "", ToolSteel),
            ("hot-work", "", ToolSteel),
            ("high-speed steel", "", ToolSteel),
            ("iron", "", CastIron),
            ("aluminium", "", Aluminium),
            ("brass", "", CopperAlloy),
            ("bronze", "", CopperAlloy),
            ("copper", "", CopperAlloy),
            ("titanium", "", Titanium),
        ];
        let name = name.to_ascii_lowercase();
        // Nickel-copper cuts as nickel does.
        if name.contains("nickel") {
            return None;
        }
        let fits = |word: &str, text: &str| !word.is_empty() && text.contains(word);
        words
            .iter()
            .find(|(of_name, of_condition, _)| {
                fits(of_name, &name) || fits(of_condition, &material.condition)
            })
            .map(|(_, _, family)| *family)
    }
}

/// What is cut: a material of the table, or a family.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Stuff {
    Material(&'static Material),
    Family(MaterialFamily),
}

impl Stuff {
    pub(super) fn parse(name: &str) -> Result<Stuff, MaterialError> {
        let plain = name.trim().to_ascii_lowercase().replace([' ', '-'], "_");
        match MaterialFamily::of_name(&plain) {
            Some(family) => Ok(Stuff::Family(family)),
            None => material::find(name).map(Stuff::Material),
        }
    }

    pub(super) fn family(self) -> Option<MaterialFamily> {
        match self {
            Stuff::Material(material) => MaterialFamily::of(material),
            Stuff::Family(family) => Some(family),
        }
    }
}

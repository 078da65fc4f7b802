//! Materials of the caller's own, beside those of the table.
use super::error::MaterialError;
use super::name::{find_among, folds, names};
use super::record::{IsoGroup, Material, Provenance, Source, Sources};
use super::table::materials;
use crate::document::decode::{Context, Decode, decode_field, decode_name, sort_fields};
use crate::document::fault::{FaultKind, Place};
use crate::document::node::{Node, Tree};
use crate::document::objects::objects;
use crate::document::shape::{Bound, ChoiceName, DocumentField, Object, Shape};
use crate::document::{DocumentError, DocumentNumber, Version};
use crate::quantity::*;
use std::borrow::Cow;
use std::collections::BTreeSet;

objects! {
    /// Materials of your own.
    OwnMaterials {
        /// The version of this form of document.
        tenths_materials: Version,
        /// What fixes the unit of every bare number. Text always carries its own.
        units: Units,
        /// The materials.
        materials: Vec<OwnMaterial>,
    }

    /// A material of your own: what is left out is unknown.
    OwnMaterial {
        /// What it is called.
        designation: String,
        /// Other names.
        aliases: Vec<String> = Vec::new(),
        /// Heat treatment or form, where the designation comes in several.
        condition: Option<String>,
        /// What it is: low-alloy steel.
        name: Option<String>,
        /// Group after ISO 513.
        iso_group: Option<IsoGroup>,
        /// Hardness with its scale.
        hardness: Option<String>,
        /// Density.
        density: Option<DocumentNumber<Density>> where Positive,
        /// Modulus of elasticity.
        modulus: Option<DocumentNumber<Modulus>> where Positive,
        /// Poisson's ratio.
        poisson: Option<DocumentNumber<Ratio>> where BelowHalf,
        /// Coefficient of linear expansion.
        expansion: Option<DocumentNumber<ExpansionCoefficient>>,
        /// Yield strength.
        yield_strength: Option<DocumentNumber<Stress>> where Positive,
        /// Specific cutting force at a chip of 1 mm by 1 mm.
        kc11: Option<DocumentNumber<Stress>> where Positive,
        /// Kienzle's exponent.
        mc: Option<DocumentNumber<Ratio>> where BelowOne,
        /// Power at the cutter for unit removal rate, sharp tool.
        unit_power: Option<DocumentNumber<UnitPower>> where Positive,
        /// Starting surface speed for high-speed steel.
        speed_hss: Option<DocumentNumber<SurfaceSpeed>> where Positive,
        /// Starting surface speed for carbide.
        speed_carbide: Option<DocumentNumber<SurfaceSpeed>> where Positive,
        /// Taylor's exponent n for high-speed steel.
        taylor_hss: Option<DocumentNumber<Ratio>> where BelowOne,
        /// Taylor's exponent n for carbide.
        taylor_carbide: Option<DocumentNumber<Ratio>> where BelowOne,
        /// Where the figures came from.
        source: Option<String>,
        /// What else to know before using them.
        notes: Vec<String> = Vec::new(),
        /// How its dust, its chips or its heat can hurt.
        cautions: Vec<String> = Vec::new(),
    }
}

impl IsoGroup {
    const CHOICES: &'static [ChoiceName] = &[
        ChoiceName { name: "P", doc: " Steel." },
        ChoiceName { name: "M", doc: " Austenitic and duplex stainless steel." },
        ChoiceName { name: "K", doc: " Cast iron." },
        ChoiceName { name: "N", doc: " Non-ferrous metals and plastics." },
        ChoiceName { name: "S", doc: " Heat-resistant alloys and titanium." },
        ChoiceName { name: "H", doc: " Hardened steel and iron." },
    ];
}

impl Decode for IsoGroup {
    const SHAPE: &'static Shape = &Shape::Choice(IsoGroup::CHOICES);

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<IsoGroup> {
        decode_name(node, IsoGroup::ALL.iter().map(|group| group.name()), at, context)
            .map(|index| IsoGroup::ALL[index])
    }
}

impl OwnMaterial {
    fn into_material(self, units: Units) -> Material {
        fn typed<Q: Quantity>(reading: Option<DocumentNumber<Q>>, units: Units) -> Option<Q> {
            reading.map(|reading| Q::new_in(reading.value(), units))
        }
        let text = |text: Option<String>| Cow::Owned(text.unwrap_or_default());
        let texts = |texts: Vec<String>| texts.into_iter().map(Cow::Owned).collect();
        let own = self.source.map_or(Cow::Borrowed("the caller's own figure, without a source"), Cow::Owned);
        let source = Source { provenance: Provenance::Own, text: own };
        Material {
            designation: self.designation.into(),
            aliases: texts(self.aliases),
            condition: text(self.condition),
            name: text(self.name),
            iso_group: self.iso_group,
            vdi_group: None,
            hardness: text(self.hardness),
            sources: Sources {
                physical: source.clone(),
                strength: source.clone(),
                cutting_force: self.kc11.map(|_| source.clone()),
                unit_power: source.clone(),
                speeds: source.clone(),
                tool_life: source,
            },
            notes: texts(self.notes),
            cautions: texts(self.cautions),
            density: typed(self.density, units),
            modulus: typed(self.modulus, units),
            poisson: typed(self.poisson, units),
            expansion: typed(self.expansion, units),
            yield_strength: typed(self.yield_strength, units),
            kc11: typed(self.kc11, units),
            mc: typed(self.mc, units),
            unit_power: typed(self.unit_power, units),
            speed_hss: typed(self.speed_hss, units),
            speed_carbide: typed(self.speed_carbide, units),
            taylor_hss: typed(self.taylor_hss, units),
            taylor_carbide: typed(self.taylor_carbide, units),
        }
    }
}

/// The table of materials, and the caller's own beside it.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Materials {
    own: Vec<Material>,
}

impl Materials {
    /// The table alone.
    pub const fn table() -> Materials {
        Materials { own: Vec::new() }
    }

    /// The same with materials of a JSON document: `{"tenths_materials": 1, "units": "metric", "materials": [...]}`,
    /// whose fields are those of [`OwnMaterial`].
    ///
    /// A name that is taken already is a fault: nothing of the table is replaced in silence. Call yours
    /// differently, or give it a condition of its own.
    ///
    /// # Errors
    /// [`DocumentError`] with every fault of the document, each with its place.
    pub fn extended(&self, text: &str) -> Result<Materials, DocumentError> {
        let tree = Tree::parse(text)?;
        let node = tree.root();
        let units = Units::of_document(&node);
        let mut context = Context::new(units, BTreeSet::new());
        let document = OwnMaterials::decode(&node, Place::ROOT, &mut context);
        let own = document.map_or(Vec::new(), |document| document.materials);
        let own: Vec<Material> = own.into_iter().map(|own| own.into_material(units)).collect();
        self.judge_names(&own, &mut context);
        let faults = context.into_faults();
        match faults.count() {
            0 => Ok(Materials { own: self.own.iter().cloned().chain(own).collect() }),
            _ => Err(faults.into()),
        }
    }

    fn judge_names(&self, own: &[Material], context: &mut Context) {
        let full = |material: &Material| {
            let condition: String = folds(&material.condition).collect();
            let grades = names(material).map(|name| folds(name).collect::<String>() + "," + &condition);
            grades.collect::<BTreeSet<_>>()
        };
        let mut taken: BTreeSet<String> = self.iter().flat_map(full).collect();
        let list = Place::ROOT.field("materials");
        for (index, material) in own.iter().enumerate() {
            let place = list.index(index);
            let place = place.field("designation");
            if folds(&material.designation).next().is_none() {
                context.fault(FaultKind::OutOfRange, place, || "a material must have a name".into());
            } else if full(material).iter().any(|name| taken.contains(name)) {
                context.fault(FaultKind::GivenTwice, place, || {
                    format!(
                        "the table already has a material named `{material}`: give yours another name or its own condition"
                    )
                });
            }
            taken.extend(full(material));
        }
    }

    /// All of them, those of the table first.
    pub fn iter(&self) -> impl Iterator<Item = &Material> + Clone {
        materials().iter().chain(&self.own)
    }

    /// Finds a material as [`find`](super::find()) does.
    ///
    /// # Errors
    /// As there.
    pub fn find(&self, name: &str) -> Result<&Material, MaterialError> {
        find_among(self.iter(), name)
    }

    /// Those of a group.
    pub fn by_iso_group(&self, group: IsoGroup) -> impl Iterator<Item = &Material> + Clone {
        self.iter().filter(move |material| material.iso_group == Some(group))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const OWN: &str = r#"{"tenths_materials": 1, "units": "inch", "materials": [
        {"designation": "Shop steel 7", "aliases": ["S7 special"], "iso_group": "P", "kc11": "1600 N/mm²",
         "mc": 0.23, "modulus": 30, "density": 0.283, "source": "own trials"},
        {"designation": "SAE 1045", "condition": "our heat 17", "speed_carbide": 400}]}"#;

    #[test]
    fn own_materials_stand_beside_the_table() {
        let all = Materials::table().extended(OWN).unwrap();
        assert_eq!(all.iter().count(), materials().len() + 2);
        let own = all.find("s7 SPECIAL").unwrap();
        // Text is in psi first, as the numbers of the document are, and told as it was written.
        let told =
            |name: &str, units| Material::PROPERTIES.iter().find(|one| one.name == name)?.of(own, units);
        assert_eq!(told("kc11", Units::Metric), Some(1600.0));
        assert_eq!(told("modulus", Units::Inch), Some(30.0));
        assert_eq!((own.yield_strength, &*own.condition), (None, ""));
        assert_eq!(own.sources.strength.to_string(), "own: own trials");
        assert_eq!(own.to_string(), "Shop steel 7");
        // 400 ft/min, by the definition of the foot.
        let heat =
            all.find("SAE 1045, our heat 17").unwrap().speed_carbide.map(|s| s.in_units(Units::Metric));
        assert!(heat.is_some_and(|speed| (speed - 400.0 * 0.3048).abs() < 1e-9), "{heat:?}");
        assert!(all.find("1045").unwrap_err().to_string().contains("our heat 17"));
        assert_eq!(all.by_iso_group(IsoGroup::P).filter(|m| m.designation == "Shop steel 7").count(), 1);
        assert!(super::super::find("Shop steel 7").is_err());
    }

    #[test]
    fn every_fault_is_told_at_once_with_its_place() {
        let text = r#"{"tenths_materials": 1, "units": "metric", "materials": [
            {"designation": "A", "kc11": -5, "mc": 1.2, "modulus": "200 mm", "densty": 7.8},
            {"designation": "AISI 304", "condition": "Annealed", "poisson": 0.5, "iso_group": "Q"},
            {"kc11": 1500}, {"designation": " "}]}"#;
        let error = Materials::table().extended(text).unwrap_err();
        let places: Vec<&str> = error.faults().iter().map(|fault| &*fault.place).collect();
        let expected = [
            "/materials/0/densty",
            "/materials/0/modulus",
            "/materials/0/kc11",
            "/materials/0/mc",
            "/materials/1/iso_group",
            "/materials/1/poisson",
            "/materials/2/designation",
        ];
        assert_eq!(places, expected, "{error}");
        assert!(error.to_string().starts_with("the document has 7 faults"), "{error}");
    }

    #[test]
    fn names_that_are_taken_are_refused() {
        let with = |materials: &str| {
            let text = format!(r#"{{"tenths_materials": 1, "units": "metric", "materials": [{materials}]}}"#);
            Materials::table().extended(&text).map(|_| ()).unwrap_err().to_string()
        };
        let taken = with(r#"{"designation": "aisi304", "condition": "ANNEALED"}"#);
        assert!(taken.contains("/materials/0/designation: the table already has a material"), "{taken}");
        let twice = with(r#"{"designation": "A"}, {"designation": "B", "aliases": ["a"]}"#);
        assert!(twice.contains("/materials/1/designation"), "{twice}");
        assert!(with(r#"{"designation": ","}"#).contains("must have a name"));
    }
}

//! Figures of a material: those of the document before those of the table.
use super::document::Metal;
use crate::Units;
use crate::document::DocumentNumber;
use crate::material::Material;
use crate::quantity::Quantity;

impl Metal {
    pub(super) fn title(&self) -> String {
        match (&self.name, &self.designation) {
            (Some(name), _) => name.clone(),
            (None, Some(designation)) => designation.0.to_string(),
            (None, None) => "as stated".into(),
        }
    }

    /// A figure in the shop unit of a side.
    fn known<Q: Quantity>(
        &self,
        own: Option<DocumentNumber<Q>>,
        of_table: fn(&Material) -> Option<Q>,
        units: Units,
    ) -> Option<f64> {
        own.map(DocumentNumber::value).or_else(|| Some(of_table(self.designation?.0)?.in_units(units)))
    }

    /// Modulus and Poisson's ratio.
    pub(super) fn elasticity(&self, units: Units) -> Option<[f64; 2]> {
        let modulus = self.known(self.modulus, |m| m.modulus, units)?;
        Some([modulus, self.known(self.poisson, |m| m.poisson, units)?])
    }

    /// kc1.1 and mc.
    pub(super) fn cutting_force(&self, units: Units) -> Option<[f64; 2]> {
        let kc11 = self.known(self.kc11, |m| m.kc11, units)?;
        Some([kc11, self.known(self.mc, |m| m.mc, units)?])
    }

    pub(super) fn yield_strength(&self, units: Units) -> Option<f64> {
        self.known(self.yield_strength, |m| m.yield_strength, units)
    }

    pub(super) fn density(&self, units: Units) -> Option<f64> {
        self.known(self.density, |m| m.density, units)
    }

    /// The coefficient of linear expansion.
    pub(super) fn expansion(&self, units: Units) -> Option<f64> {
        self.known(self.expansion, |m| m.expansion, units)
    }
}

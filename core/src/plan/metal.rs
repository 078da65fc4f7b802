//! What parts are made of: figures of the document before those of the table of materials.
use crate::document::form::*;
use crate::error::shortened;
use crate::material::{self, Material};
use crate::quantity::*;

objects! {
    /// A material: one of the table, with figures of your own before those of the table, or all your own.
    Metal {
        /// Its designation in the table of materials.
        designation: Option<MetalDesignation>,
        /// What it is called, where it is not of the table.
        name: Option<String>,
        /// Modulus of elasticity.
        modulus: Option<DocumentNumber<Modulus>> where Positive,
        /// Poisson's ratio.
        poisson: Option<DocumentNumber<Ratio>> where BelowHalf,
        /// Density.
        density: Option<DocumentNumber<Density>> where Positive,
        /// Coefficient of linear expansion.
        expansion: Option<DocumentNumber<ExpansionCoefficient>> where NonNegative,
        /// Yield strength.
        yield_strength: Option<DocumentNumber<Stress>> where Positive,
        /// Specific cutting force at a chip of 1 mm by 1 mm.
        kc11: Option<DocumentNumber<Stress>> where Positive,
        /// Kienzle's exponent.
        mc: Option<DocumentNumber<Ratio>> where BelowOne,
    } => rules {
        designation, modulus, poisson => has_elasticity;
    }
}

fn has_elasticity(
    designation: &Option<MetalDesignation>,
    modulus: &Option<DocumentNumber<Modulus>>,
    poisson: &Option<DocumentNumber<Ratio>>,
) -> Option<String> {
    let known = designation.is_some() || (modulus.is_some() && poisson.is_some());
    (!known).then(|| "a material needs its `designation`, or `modulus` and `poisson` of your own".into())
}

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

/// A material of the table.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct MetalDesignation(pub &'static Material);

impl Decode for MetalDesignation {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<MetalDesignation> {
        let name = decode_text(node, at, context)?;
        material::find(name)
            .map(MetalDesignation)
            .map_err(|_| {
                let error = material::find(&shortened(name)).err().map(|error| error.to_string());
                context.fault(FaultKind::NotThere, at, || error.unwrap_or_default());
            })
            .ok()
    }
}

//! A material: its figures, and where they came from.
use super::error::MaterialError;
use crate::quantity::{
    Density, ExpansionCoefficient, Kind, Modulus, Quantity, Ratio, Stress, SurfaceSpeed, UnitPower, Units,
};
use std::borrow::Cow;
use std::fmt;

/// How far a figure can be trusted.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Provenance {
    /// Seen in print, where the text of the source says.
    Published,
    /// Some figures of the group were seen in print, as the text of the source says; the rest were not.
    PartlyPublished,
    /// Common practice, without a source.
    CommonPractice,
    /// Written down from memory.
    Memory,
    /// Brought by the caller.
    Own,
}

impl Provenance {
    /// Its name in words: `partly published`.
    pub const fn name(self) -> &'static str {
        match self {
            Provenance::Published => "published",
            Provenance::PartlyPublished => "partly published",
            Provenance::CommonPractice => "common practice",
            Provenance::Memory => "memory",
            Provenance::Own => "own",
        }
    }
}

/// Where a group of figures came from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Source {
    /// How far the figures can be trusted.
    pub provenance: Provenance,
    /// The work they were seen in, or what they are.
    pub text: Cow<'static, str>,
}

/// `published: Machinery's Handbook, …`.
impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.provenance.name(), self.text)
    }
}

/// The sources of a material's figures, by group.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sources {
    /// Density, modulus, Poisson's ratio and expansion.
    pub physical: Source,
    /// Yield strength and hardness.
    pub strength: Source,
    /// kc1.1 and mc; none where the material has neither.
    pub cutting_force: Option<Source>,
    /// Unit power.
    pub unit_power: Source,
    /// Surface speeds.
    pub speeds: Source,
    /// Taylor's exponents.
    pub tool_life: Source,
}

impl Sources {
    /// Each group by its name.
    pub fn groups(&self) -> [(&'static str, Option<&Source>); 6] {
        [
            ("physical", Some(&self.physical)),
            ("strength", Some(&self.strength)),
            ("cutting_force", self.cutting_force.as_ref()),
            ("unit_power", Some(&self.unit_power)),
            ("speeds", Some(&self.speeds)),
            ("tool_life", Some(&self.tool_life)),
        ]
    }
}

/// A number that a material may have.
#[derive(Debug)]
pub struct Property {
    /// Its name.
    pub name: &'static str,
    /// What it is.
    pub doc: &'static str,
    /// Its quantity.
    pub kind: &'static Kind,
    get: fn(&Material, Units) -> Option<f64>,
}

impl Property {
    /// The number of a material in the shop unit of a side, where it is known.
    pub fn of(&self, material: &Material, units: Units) -> Option<f64> {
        (self.get)(material, units)
    }
}

/// The reading of a quantity, of 15 digits where those mean the same but for the roundings of a conversion there and
/// back, so that a short decimal comes out as one.
fn reading<Q: Quantity>(value: Q, units: Units) -> f64 {
    let exact = value.in_units(units);
    let short = format!("{exact:.14e}").parse().unwrap_or(exact);
    let is_near = (short - exact).abs() <= 2.0 * f64::EPSILON * exact.abs();
    if is_near || Q::new_in(short, units).metric() == value.metric() { short } else { exact }
}

/// The struct with its numbers, and the list of them, from one table.
macro_rules! material {
    ($(#[doc = $doc:literal])* $name:ident { $($texts:tt)* } numbers {
        $(#[doc = $number_doc:literal] $number:ident: $kind:ty,)*
    }) => {
        $(#[doc = $doc])*
        #[derive(Clone, PartialEq, Debug)]
        pub struct $name { $($texts)* $(#[doc = $number_doc] pub $number: Option<$kind>,)* }

        impl $name {
            /// The numbers that a material may have, in order.
            pub const PROPERTIES: &'static [Property] = &[$(Property {
                name: stringify!($number),
                doc: $number_doc,
                kind: <$kind>::KIND,
                get: |material, units| material.$number.map(|number| reading(number, units)),
            }),*];
        }
    };
}

material! {
    /// A material in one condition. Figures are at room temperature.
    Material {
        /// Grade by its standard: `SAE 4140`.
        pub designation: Cow<'static, str>,
        /// Other names of the grade; those of another standard may be its nearest equivalent.
        pub aliases: Cow<'static, [Cow<'static, str>]>,
        /// Heat treatment or form: `annealed`.
        pub condition: Cow<'static, str>,
        /// What it is: `Low-alloy steel`.
        pub name: Cow<'static, str>,
        /// Group after ISO 513.
        pub iso_group: Option<IsoGroup>,
        /// Group after VDI 3323, by which [`kc11`](Self::kc11) and [`mc`](Self::mc) were looked up.
        pub vdi_group: Option<u8>,
        /// Typical hardness with its scale: `197 HB`.
        pub hardness: Cow<'static, str>,
        /// Where the figures came from.
        pub sources: Sources,
        /// What else to know before using them.
        pub notes: Cow<'static, [Cow<'static, str>]>,
        /// How its dust, its chips or its heat can hurt, and what is usual against it. None does not mean that nothing
        /// can; the safety data sheet of the supplier and local rules come first.
        pub cautions: Cow<'static, [Cow<'static, str>]>,
    }
    numbers {
        /// Density.
        density: Density,
        /// Modulus of elasticity.
        modulus: Modulus,
        /// Poisson's ratio.
        poisson: Ratio,
        /// Coefficient of linear expansion.
        expansion: ExpansionCoefficient,
        /// Yield strength; none for grey iron, which breaks before it yields.
        yield_strength: Stress,
        /// Specific cutting force at a chip of 1 mm by 1 mm.
        kc11: Stress,
        /// Kienzle's exponent.
        mc: Ratio,
        /// Power at the cutter for unit removal rate, sharp tool.
        unit_power: UnitPower,
        /// Starting surface speed for high-speed steel; none where it does not cut the material.
        speed_hss: SurfaceSpeed,
        /// Starting surface speed for carbide.
        speed_carbide: SurfaceSpeed,
        /// Taylor's exponent n for high-speed steel.
        taylor_hss: Ratio,
        /// Taylor's exponent n for carbide.
        taylor_carbide: Ratio,
    }
}

/// `SAE 4140, annealed`.
impl fmt::Display for Material {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &*self.condition {
            "" => write!(f, "{}", self.designation),
            condition => write!(f, "{}, {condition}", self.designation),
        }
    }
}

/// Group of workpiece materials after ISO 513.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum IsoGroup {
    /// Steel, ferritic and martensitic stainless among it.
    P,
    /// Austenitic and duplex stainless steel.
    M,
    /// Cast iron.
    K,
    /// Non-ferrous metals and plastics.
    N,
    /// Heat-resistant alloys and titanium.
    S,
    /// Hardened steel and iron.
    H,
}

impl IsoGroup {
    /// The groups in their order.
    pub const ALL: [IsoGroup; 6] =
        [IsoGroup::P, IsoGroup::M, IsoGroup::K, IsoGroup::N, IsoGroup::S, IsoGroup::H];

    /// Its letter.
    pub const fn name(self) -> &'static str {
        ["P", "M", "K", "N", "S", "H"][self as usize]
    }

    /// The group of a letter.
    ///
    /// # Errors
    /// [`MaterialError::Group`] for anything else.
    pub fn parse(letter: &str) -> Result<IsoGroup, MaterialError> {
        let known = IsoGroup::ALL.into_iter().find(|group| group.name().eq_ignore_ascii_case(letter.trim()));
        known.ok_or_else(|| MaterialError::Group(crate::error::excerpt(letter)))
    }
}

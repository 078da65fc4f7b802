//! Materials: figures to start from, with where each came from.
//!
//! **Caution.** These are typical figures for a grade, not for the bar in the rack. Many, and nearly all of
//! the yield strengths and hardnesses, were written down from memory; [`Source`] says which. Before anything
//! depends on one, take the mill's certificate, and for speeds and forces the tool maker's data.

mod table;

use crate::quantity::{Density, ExpansionCoefficient, Modulus, Ratio, Stress, SurfaceSpeed, UnitPower};
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
}

/// Where a group of figures came from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Source {
    /// How far the figures can be trusted.
    pub provenance: Provenance,
    /// The work they were seen in, or what they are.
    pub text: &'static str,
}

/// The sources of a material's figures, by group.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
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

/// A material in one condition. Figures are at room temperature.
#[derive(Clone, PartialEq, Debug)]
pub struct Material {
    /// Grade by its standard: `SAE 4140`.
    pub designation: &'static str,
    /// Another designation of the same grade.
    pub synonym: Option<&'static str>,
    /// Heat treatment or form: `annealed`.
    pub condition: &'static str,
    /// What it is: `Low-alloy steel`.
    pub name: &'static str,
    /// Group after ISO 513.
    pub iso_group: IsoGroup,
    /// Group after VDI 3323, by which [`kc11`](Self::kc11) and [`mc`](Self::mc) were looked up.
    pub vdi_group: Option<u8>,
    /// Density.
    pub density: Density,
    /// Modulus of elasticity.
    pub modulus: Modulus,
    /// Poisson's ratio.
    pub poisson: Ratio,
    /// Coefficient of linear expansion.
    pub expansion: ExpansionCoefficient,
    /// Yield strength; none for grey iron, which breaks before it yields.
    pub yield_strength: Option<Stress>,
    /// Typical hardness with its scale: `197 HB`.
    pub hardness: &'static str,
    /// Specific cutting force at a chip of 1 mm by 1 mm.
    pub kc11: Option<Stress>,
    /// Kienzle's exponent.
    pub mc: Option<Ratio>,
    /// Power at the cutter for unit removal rate, sharp tool.
    pub unit_power: UnitPower,
    /// Starting surface speed for high-speed steel; none where it does not cut the material.
    pub speed_hss: Option<SurfaceSpeed>,
    /// Starting surface speed for carbide.
    pub speed_carbide: SurfaceSpeed,
    /// Taylor's exponent n for high-speed steel.
    pub taylor_hss: Option<Ratio>,
    /// Taylor's exponent n for carbide.
    pub taylor_carbide: Ratio,
    /// Where the figures came from.
    pub sources: Sources,
    /// What else to know before using them.
    pub notes: &'static [&'static str],
}

/// `SAE 4140, annealed`.
impl fmt::Display for Material {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}", self.designation, self.condition)
    }
}

/// Why a name finds no material.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
pub enum MaterialError {
    /// No material has this designation.
    #[error("no material is called `{name}`{}", question(candidates))]
    Unknown {
        /// The name as given.
        name: String,
        /// A few that are like it, or nothing.
        candidates: String,
    },
    /// The designation has several conditions.
    #[error("`{name}` needs its condition: {candidates}")]
    Ambiguous {
        /// The name as given.
        name: String,
        /// The materials that it may mean.
        candidates: String,
    },
}

fn question(candidates: &str) -> String {
    if candidates.is_empty() { String::new() } else { format!(": is it {candidates}?") }
}

/// Every material of the table.
pub fn materials() -> &'static [Material] {
    table::MATERIALS
}

/// Finds a material by designation, `AISI 304`, or by designation and condition, `SAE 4140, annealed`.
///
/// Letter case, spaces and commas do not matter; everything else must match.
///
/// # Errors
/// [`MaterialError`] where no grade has that designation, or where it stands in several conditions and the
/// name has none. Both name a few candidates.
pub fn find(name: &str) -> Result<&'static Material, MaterialError> {
    let first = folds(name).next();
    let fits = |material: &&Material| {
        designations(material).filter(|own| folds(own).next() == first).any(|own| {
            folds(name).eq(folds(own)) || folds(name).eq(folds(own).chain(folds(material.condition)))
        })
    };
    let found: Vec<_> = materials().iter().filter(fits).collect();
    match found[..] {
        [material] => Ok(material),
        [] => Err(MaterialError::Unknown { name: name.into(), candidates: list(&alike(name)) }),
        _ => Err(MaterialError::Ambiguous { name: name.into(), candidates: list(&found) }),
    }
}

fn designations(material: &Material) -> impl Iterator<Item = &'static str> {
    [Some(material.designation), material.synonym].into_iter().flatten()
}

/// The letters of a name without what does not matter in it.
fn folds(text: &str) -> impl Iterator<Item = char> {
    text.chars().filter(|c| !c.is_whitespace() && *c != ',').map(|c| c.to_ascii_lowercase())
}

fn folded(text: &str) -> String {
    folds(text).collect()
}

/// Materials whose designation, condition or name contains `name`, or that share a number with it.
fn alike(name: &str) -> Vec<&'static Material> {
    let wanted = folded(name);
    let is_like = |material: &&Material| {
        designations(material).any(|own| {
            let whole = folded(own) + &folded(material.condition) + &folded(material.name);
            whole.contains(&wanted) || numbers(own).any(|own| numbers(name).any(|asked| asked == own))
        })
    };
    if wanted.is_empty() { Vec::new() } else { materials().iter().filter(is_like).collect() }
}

/// The numbers in a designation that are long enough to tell a grade.
fn numbers(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_ascii_digit()).filter(|digits| digits.len() > 2)
}

/// The first few of a list, with a count of the rest.
fn list(materials: &[&Material]) -> String {
    const FEW: usize = 5;
    let named: Vec<String> = materials.iter().take(FEW).map(|material| format!("`{material}`")).collect();
    match materials.len().saturating_sub(FEW) {
        0 => named.join(" or "),
        more => format!("{} or one of {more} more", named.join(" or ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Quantity, Units};

    fn metric<Q: Quantity>(value: Q) -> f64 {
        value.in_units(Units::Metric)
    }

    fn assert_within(material: &Material, what: &str, value: f64, low: f64, high: f64) {
        assert!(low <= value && value <= high, "{material}: {what} {value} is outside {low} to {high}");
    }

    // Bounds of density g/cm³, modulus GPa, Poisson's ratio and expansion 1e-6/K for each kind of metal: from
    // memory, wide enough for any grade and too narrow for a slipped digit or decimal point.
    #[test]
    fn physical_figures_lie_where_those_of_their_kind_do() {
        for material in materials() {
            let bounds = match (material.iso_group, material.name) {
                (IsoGroup::P | IsoGroup::H, _) => [7.6, 8.2, 185.0, 215.0, 0.26, 0.31, 9.5, 13.0],
                (IsoGroup::M, _) => [7.7, 8.1, 190.0, 205.0, 0.26, 0.31, 12.5, 17.5],
                (IsoGroup::K, _) => [7.0, 7.4, 90.0, 180.0, 0.25, 0.32, 10.0, 12.5],
                (IsoGroup::S, name) if name.contains("itanium") => {
                    [4.4, 4.6, 100.0, 118.0, 0.31, 0.36, 8.0, 9.5]
                }
                (IsoGroup::S, _) => [8.1, 8.9, 175.0, 215.0, 0.27, 0.33, 12.5, 14.5],
                (_, name) if name.contains("aluminium") => [2.6, 2.9, 68.0, 74.0, 0.32, 0.34, 21.0, 24.0],
                (_, name) if name.contains("Magnesium") => [1.7, 1.9, 43.0, 47.0, 0.28, 0.36, 25.0, 27.0],
                (_, name) if ["brass", "bronze", "copper"].iter().any(|metal| name.contains(metal)) => {
                    [8.2, 9.0, 95.0, 135.0, 0.29, 0.35, 16.0, 21.0]
                }
                _ => [0.9, 2.2, 0.4, 3.5, 0.34, 0.47, 50.0, 190.0],
            };
            assert_within(material, "density", metric(material.density), bounds[0], bounds[1]);
            assert_within(material, "modulus", metric(material.modulus), bounds[2], bounds[3]);
            assert_within(material, "Poisson's ratio", metric(material.poisson), bounds[4], bounds[5]);
            assert_within(material, "expansion", 1e6 * metric(material.expansion), bounds[6], bounds[7]);
        }
    }

    // Metals yield below a hundredth of the modulus, plastics below a thirtieth; and below the tensile
    // strength, which is about 3.45 MPa for each point of Brinell hardness. Common practice, no source.
    #[test]
    fn yield_is_below_what_modulus_and_hardness_allow() {
        for material in materials() {
            let modulus = material.modulus.metric();
            let Some(limit) = material.yield_strength.map(metric) else {
                assert!(material.name.contains("Grey cast iron"), "{material}: no yield strength");
                continue;
            };
            let share = if modulus > 20e3 { 100.0 } else { 30.0 };
            assert_within(material, "yield", limit, modulus / 500.0 / 5.0, modulus / share);
            if let Some(brinell) = material.hardness.strip_suffix(" HB") {
                let brinell: f64 = brinell.parse().unwrap();
                assert_within(material, "yield by hardness", limit / brinell, 1.0, 3.45);
            }
        }
    }

    #[test]
    fn hardness_names_a_scale() {
        for material in materials() {
            let scale = ["HB", "HRB", "HRC", "Rockwell", "Shore"];
            assert!(scale.iter().any(|scale| material.hardness.ends_with(scale)), "{material}");
        }
    }

    // The group of VDI 3323 fixes that of ISO 513 and, in the guide, kc1.1 and mc. Ranges from memory.
    #[test]
    fn figures_by_group_agree_within_the_group() {
        for material in materials() {
            let Some(group) = material.vdi_group else {
                assert_eq!((material.kc11, material.mc, material.iso_group), (None, None, IsoGroup::N));
                continue;
            };
            let iso_group = match group {
                1..=13 => IsoGroup::P,
                14 => IsoGroup::M,
                15..=20 => IsoGroup::K,
                21..=30 => IsoGroup::N,
                31..=37 => IsoGroup::S,
                _ => IsoGroup::H,
            };
            assert_eq!(material.iso_group, iso_group, "{material}");
            for other in materials().iter().filter(|other| other.vdi_group == Some(group)) {
                assert_eq!((material.kc11, material.mc), (other.kc11, other.mc), "{material}; {other}");
            }
        }
    }

    // Unit power is energy for unit volume, so it nearly equals the specific force. Those of copper differ
    // widely, as their note says. The bounds are drawn around the table: they catch a slip of the pen.
    #[test]
    fn unit_power_agrees_with_specific_force() {
        for material in materials() {
            let Some(kc11) = material.kc11 else { continue };
            let ratio = material.unit_power.metric() / kc11.metric();
            let high = if material.name.contains("copper") { 3.6 } else { 2.0 };
            assert_within(material, "unit power over kc1.1", ratio, 0.75, high);
        }
    }

    // Bounds of the speeds drawn around the table; those of n are the textbook's.
    #[test]
    fn speeds_and_exponents_are_in_order() {
        for material in materials() {
            let carbide = metric(material.speed_carbide);
            assert_within(material, "speed of carbide", carbide, 20.0, 500.0);
            assert_within(material, "n of carbide", metric(material.taylor_carbide), 0.2, 0.3);
            assert_eq!(material.speed_hss.is_some(), material.taylor_hss.is_some(), "{material}");
            if let (Some(speed), Some(n)) = (material.speed_hss, material.taylor_hss) {
                assert_within(material, "carbide over high-speed steel", carbide / metric(speed), 1.9, 6.0);
                assert_within(material, "n of high-speed steel", metric(n), 0.1, 0.15);
            }
            assert_eq!(material.speed_hss.is_none(), material.iso_group == IsoGroup::H, "{material}");
        }
    }

    #[test]
    fn every_figure_has_its_source() {
        for material in materials() {
            let sources = material.sources;
            assert_eq!(sources.cutting_force.is_some(), material.kc11.is_some(), "{material}");
            let always =
                [sources.physical, sources.strength, sources.unit_power, sources.speeds, sources.tool_life];
            for source in always.into_iter().chain(sources.cutting_force) {
                assert!(source.text.len() > 10, "{material}");
                assert!(!source.text.contains("  "), "{material}: {}", source.text);
            }
            assert!(material.notes.iter().all(|note| note.len() > 10 && !note.contains("  ")), "{material}");
        }
    }

    #[test]
    fn every_material_is_found_by_its_names() {
        assert_eq!(materials().len(), 55);
        for material in materials() {
            assert_eq!(find(&material.to_string()), Ok(material));
            let synonym = material.synonym.unwrap_or(material.designation);
            assert_eq!(find(&format!("{synonym} {}", material.condition).to_uppercase()), Ok(material));
        }
    }

    #[test]
    fn case_and_spacing_do_not_matter() {
        let designation = |name| find(name).map(|material| material.designation);
        assert_eq!(designation(" sae12l14 "), Ok("SAE 12L14"));
        assert_eq!(designation("uns s17400"), Ok("17-4 PH"));
        assert_eq!(find("sae 4140 ANNEALED").map(|material| material.condition), Ok("annealed"));
    }

    #[test]
    fn names_that_do_not_fit_one_material_are_refused_with_candidates() {
        let message = |name| find(name).map(|_| ()).unwrap_err().to_string();
        assert_eq!(
            message("SAE 4140"),
            "`SAE 4140` needs its condition: `SAE 4140, annealed` or `SAE 4140, prehard 28-32 HRC`"
        );
        assert_eq!(message("6061-T651"), "no material is called `6061-T651`: is it `6061-T6, T6`?");
        assert_eq!(
            message("brass"),
            "no material is called `brass`: is it `C36000, half hard` or `C26000, half hard`?"
        );
        assert!(message("tool steel").ends_with("or one of 2 more?"), "{}", message("tool steel"));
        assert_eq!(message("unobtainium"), "no material is called `unobtainium`");
        assert_eq!(message(" , "), "no material is called ` , `");
    }

    // Guards the order of the columns and their units, by figures that the sources print.
    #[test]
    fn figures_stand_in_their_columns() {
        let steel = find("ASTM A36").unwrap();
        assert_eq!([metric(steel.modulus), metric(steel.poisson)], [200.0, 0.29]);
        assert_eq!(metric(steel.expansion), 11.7e-6);
        assert_eq!(steel.yield_strength, Some(Stress::megapascals(250.0)));
        assert_eq!(steel.sources.strength.provenance, Provenance::PartlyPublished);
        let aluminium = find("6061-T6").unwrap();
        assert_eq!(metric(aluminium.expansion), 23.4e-6);
        let power = find("SAE 1018").unwrap();
        assert!((power.unit_power.in_units(Units::Inch) - 0.69).abs() < 1e-12);
        assert_eq!(power.sources.unit_power.provenance, Provenance::Published);
    }
}

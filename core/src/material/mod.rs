//! Materials: figures to start from, with where each came from.
//!
//! **Caution.** These are typical figures for a grade, not for the bar in the rack. Many, and nearly all of
//! the yield strengths and hardnesses, were written down from memory; [`Source`] says which. Before anything
//! depends on one, take the mill's certificate, and for speeds and forces the tool maker's data.

mod error;
mod hardness;
mod name;
mod own;
mod record;
mod table;

pub use error::MaterialError;
pub use hardness::{HardnessComparison, HardnessError, HardnessScale};
pub use name::find;
pub use own::{Materials, OwnMaterial, OwnMaterials};
pub use record::*;
pub use table::materials;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Quantity, Stress, Units};

    fn metric<Q: Quantity>(value: Q) -> f64 {
        value.in_units(Units::Metric)
    }

    fn known<Q: Quantity>(value: Option<Q>) -> f64 {
        value.unwrap().in_units(Units::Metric)
    }

    fn assert_within(material: &Material, what: &str, value: f64, low: f64, high: f64) {
        assert!(low <= value && value <= high, "{material}: {what} {value} is outside {low} to {high}");
    }

    // Bounds of density g/cm³, modulus GPa, Poisson's ratio and expansion 1e-6/K for each kind of metal: from
    // memory, wide enough for any grade and too narrow for a slipped digit or decimal point.
    #[test]
    fn physical_figures_lie_where_those_of_their_kind_do() {
        for material in materials() {
            let bounds = match (material.iso_group.unwrap(), &*material.name) {
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
            assert_within(material, "density", known(material.density), bounds[0], bounds[1]);
            assert_within(material, "modulus", known(material.modulus), bounds[2], bounds[3]);
            assert_within(material, "Poisson's ratio", known(material.poisson), bounds[4], bounds[5]);
            assert_within(material, "expansion", 1e6 * known(material.expansion), bounds[6], bounds[7]);
        }
    }

    // Metals yield below a hundredth of the modulus, plastics below a thirtieth; and below the tensile
    // strength, which is about 3.45 MPa for each point of Brinell hardness. Common practice, no source.
    #[test]
    fn yield_is_below_what_modulus_and_hardness_allow() {
        for material in materials() {
            let modulus = material.modulus.unwrap().metric();
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
                assert_eq!((material.kc11, material.mc, material.iso_group), (None, None, Some(IsoGroup::N)));
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
            assert_eq!(material.iso_group, Some(iso_group), "{material}");
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
            let ratio = material.unit_power.unwrap().metric() / kc11.metric();
            let high = if material.name.contains("copper") { 3.6 } else { 2.0 };
            assert_within(material, "unit power over kc1.1", ratio, 0.75, high);
        }
    }

    // Bounds of the speeds drawn around the table; those of n are the textbook's.
    #[test]
    fn speeds_and_exponents_are_in_order() {
        for material in materials() {
            let carbide = known(material.speed_carbide);
            assert_within(material, "speed of carbide", carbide, 20.0, 500.0);
            assert_within(material, "n of carbide", known(material.taylor_carbide), 0.2, 0.3);
            assert_eq!(material.speed_hss.is_some(), material.taylor_hss.is_some(), "{material}");
            if let (Some(speed), Some(n)) = (material.speed_hss, material.taylor_hss) {
                assert_within(material, "carbide over high-speed steel", carbide / metric(speed), 1.9, 6.0);
                assert_within(material, "n of high-speed steel", metric(n), 0.1, 0.15);
            }
            assert_eq!(material.speed_hss.is_none(), material.iso_group == Some(IsoGroup::H), "{material}");
        }
    }

    #[test]
    fn every_figure_has_its_source() {
        for material in materials() {
            let sources = &material.sources;
            assert_eq!(sources.cutting_force.is_some(), material.kc11.is_some(), "{material}");
            let always = [
                &sources.physical,
                &sources.strength,
                &sources.unit_power,
                &sources.speeds,
                &sources.tool_life,
            ];
            for source in always.into_iter().chain(&sources.cutting_force) {
                assert!(source.text.len() > 10, "{material}");
                assert!(!source.text.contains("  "), "{material}: {}", source.text);
            }
            assert!(material.notes.iter().all(|note| note.len() > 10 && !note.contains("  ")), "{material}");
        }
    }

    // Which metals hold lead, and what each can do, is common knowledge of the trade, from memory.
    #[test]
    fn what_can_hurt_has_its_caution() {
        for (name, words) in [
            ("C17200", "beryllium"),
            ("AZ31B", "burn"),
            ("Ti-6Al-4V", "fire"),
            ("Ti grade 2", "fire"),
            ("SAE 12L14", "lead"),
            ("C36000", "lead"),
            ("C93200", "lead"),
            ("Alloy 718", "cobalt"),
            ("AISI 316", "chromium"),
            ("PTFE", "fume"),
            ("PVC-U", "hydrogen chloride"),
        ] {
            let cautions = &find(name).unwrap().cautions;
            assert!(cautions.iter().any(|caution| caution.contains(words)), "{name}: {cautions:?}");
        }
        // The kinds of material go by their groups and names, so that a row added later is not forgotten.
        for material in materials() {
            let hurts =
                matches!(material.iso_group, Some(IsoGroup::M | IsoGroup::K | IsoGroup::S | IsoGroup::H))
                    || ["stainless", "aluminium", "Magnesium", "Beryllium", "itanium"]
                        .iter()
                        .any(|kind| material.name.contains(kind));
            assert!(!hurts || !material.cautions.is_empty(), "{material}");
            for caution in material.cautions.iter() {
                assert!(caution.len() > 30 && !caution.contains("  ") && !caution.contains(';'), "{caution}");
                assert!(!caution.ends_with('.'), "{caution}");
            }
        }
    }

    // Guards the order of the columns and their units, by figures that the sources print.
    #[test]
    fn figures_stand_in_their_columns() {
        let steel = find("ASTM A36").unwrap();
        assert_eq!([known(steel.modulus), known(steel.poisson)], [200.0, 0.29]);
        assert_eq!(known(steel.expansion), 11.7e-6);
        assert_eq!(steel.yield_strength, Some(Stress::megapascals(250.0)));
        assert_eq!(steel.sources.strength.provenance, Provenance::PartlyPublished);
        let aluminium = find("6061-T6").unwrap();
        assert_eq!(known(aluminium.expansion), 23.4e-6);
        let power = find("SAE 1018").unwrap();
        assert!((power.unit_power.unwrap().in_units(Units::Inch) - 0.69).abs() < 1e-12);
        assert_eq!(power.sources.unit_power.provenance, Provenance::Published);
    }
}

//! The table of materials: typical figures for a grade, not for the bar in the rack.
use crate::describe::fill_grown;
use crate::guard::{guard, side, tenths_units, text};
use crate::status::{Failure, tenths_status};
use std::ffi::{CString, c_char};
use std::mem::offset_of;
use std::sync::LazyLock;
use tenths::Units;
use tenths::material::{self, IsoGroup, Material, materials};

/// A material in one condition. Numbers are NaN where they are not known; texts are constants, not to be freed, and
/// empty where there are none. Set `struct_size` before the call.
///
/// The figures are typical for the grade, and many are from memory: read the sources, and before anything depends
/// on one take the mill's certificate, and for speeds and forces the tool maker's data.
#[repr(C)]
pub struct tenths_material {
    /// Size of this struct as the caller was compiled: `sizeof(tenths_material)`.
    pub struct_size: usize,
    /// Grade by its standard: `SAE 4140`.
    pub designation: *const c_char,
    /// Heat treatment or form: `annealed`.
    pub condition: *const c_char,
    /// What it is: `Low-alloy steel`.
    pub name: *const c_char,
    /// Other names of the grade, separated by commas.
    pub aliases: *const c_char,
    /// Group after ISO 513: one of P, M, K, N, S, H.
    pub iso_group: *const c_char,
    /// Typical hardness with its scale: `197 HB`.
    pub hardness: *const c_char,
    /// Notes, separated by semicolons.
    pub notes: *const c_char,
    /// Where density, modulus, Poisson's ratio and expansion came from.
    pub source_physical: *const c_char,
    /// Where yield strength and hardness came from.
    pub source_strength: *const c_char,
    /// Where kc1.1 and mc came from.
    pub source_cutting_force: *const c_char,
    /// Where unit power came from.
    pub source_unit_power: *const c_char,
    /// Where the surface speeds came from.
    pub source_speeds: *const c_char,
    /// Where Taylor's exponents came from.
    pub source_tool_life: *const c_char,
    /// Density [lb/in³, g/cm³].
    pub density: f64,
    /// Modulus of elasticity [10⁶ psi, GPa].
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Coefficient of linear expansion [1/°F, 1/K].
    pub expansion: f64,
    /// Yield strength [psi, MPa].
    pub yield_strength: f64,
    /// Specific cutting force at a chip of 1 mm by 1 mm [psi, MPa].
    pub kc11: f64,
    /// Kienzle's exponent.
    pub mc: f64,
    /// Power at the cutter for unit removal rate, sharp tool [hp/(in³/min), kW/(cm³/min)].
    pub unit_power: f64,
    /// Starting surface speed for high-speed steel [ft/min, m/min].
    pub speed_hss: f64,
    /// Starting surface speed for carbide [ft/min, m/min].
    pub speed_carbide: f64,
    /// Taylor's exponent n for high-speed steel.
    pub taylor_hss: f64,
    /// Taylor's exponent n for carbide.
    pub taylor_carbide: f64,
    /// How its dust, chips or heat can hurt, and the usual protection, separated by semicolons. Empty does not mean
    /// that it is safe; the safety data sheet of the supplier and local rules come first.
    pub cautions: *const c_char,
}

/// The texts of a material as C has them.
struct Texts {
    full_name: CString,
    designation: CString,
    condition: CString,
    name: CString,
    aliases: CString,
    iso_group: CString,
    hardness: CString,
    notes: CString,
    cautions: CString,
    sources: [CString; 6],
}

static TEXTS: LazyLock<Vec<Texts>> = LazyLock::new(|| materials().iter().map(Texts::of).collect());

impl Texts {
    fn of(material: &Material) -> Texts {
        // No text of the table has a NUL in it.
        let text = |text: String| CString::new(text).unwrap_or_default();
        let sources = material.sources.groups();
        Texts {
            full_name: text(material.to_string()),
            designation: text(material.designation.to_string()),
            condition: text(material.condition.to_string()),
            name: text(material.name.to_string()),
            aliases: text(material.aliases.join(", ")),
            iso_group: text(material.iso_group.map_or("", IsoGroup::name).into()),
            hardness: text(material.hardness.to_string()),
            notes: text(material.notes.join("; ")),
            cautions: text(material.cautions.join("; ")),
            sources: sources.map(|(_, source)| text(source.map_or(String::new(), ToString::to_string))),
        }
    }
}

fn told(index: usize, units: Units) -> Result<tenths_material, Failure> {
    let (material, texts) = (at(materials(), index)?, at(&TEXTS, index)?);
    let [physical, strength, cutting_force, unit_power, speeds, tool_life] = &texts.sources;
    let number = |name: &str| {
        let property = Material::PROPERTIES.iter().find(|property| property.name == name);
        property.and_then(|property| property.of(material, units)).unwrap_or(f64::NAN)
    };
    Ok(tenths_material {
        struct_size: size_of::<tenths_material>(),
        designation: texts.designation.as_ptr(),
        condition: texts.condition.as_ptr(),
        name: texts.name.as_ptr(),
        aliases: texts.aliases.as_ptr(),
        iso_group: texts.iso_group.as_ptr(),
        hardness: texts.hardness.as_ptr(),
        notes: texts.notes.as_ptr(),
        source_physical: physical.as_ptr(),
        source_strength: strength.as_ptr(),
        source_cutting_force: cutting_force.as_ptr(),
        source_unit_power: unit_power.as_ptr(),
        source_speeds: speeds.as_ptr(),
        source_tool_life: tool_life.as_ptr(),
        density: number("density"),
        modulus: number("modulus"),
        poisson: number("poisson"),
        expansion: number("expansion"),
        yield_strength: number("yield_strength"),
        kc11: number("kc11"),
        mc: number("mc"),
        unit_power: number("unit_power"),
        speed_hss: number("speed_hss"),
        speed_carbide: number("speed_carbide"),
        taylor_hss: number("taylor_hss"),
        taylor_carbide: number("taylor_carbide"),
        cautions: texts.cautions.as_ptr(),
    })
}

fn at<T>(list: &[T], index: usize) -> Result<&T, Failure> {
    let missing = Failure::Index { formula: "the table", what: "materials", count: list.len(), index };
    list.get(index).ok_or(missing)
}

/// Finds a material of the table by designation or alias, in a condition where the grade comes in several:
/// `tenths_material_find(TENTHS_METRIC, "SAE 4140", "annealed", &material)`.
///
/// Letter case, spaces and commas do not matter, and SAE, AISI, ASTM or UNS before a grade may be left out.
/// `condition` may be null. If no material or more than one has the name, the message lists similar ones.
///
/// # Safety
/// The texts end with a NUL; `material` is valid for as many bytes as its `struct_size` says.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_material_find(
    units: tenths_units,
    designation: *const c_char,
    condition: *const c_char,
    material: *mut tenths_material,
) -> tenths_status {
    guard(|| {
        let units = side(units)?;
        // SAFETY: the caller's promise.
        let mut name = unsafe { text(designation, "designation") }?.to_owned();
        if !condition.is_null() {
            name += ", ";
            // SAFETY: the caller's promise.
            name += unsafe { text(condition, "condition") }?;
        }
        let found = material::find(&name)?;
        let index = materials().iter().position(|own| std::ptr::eq(own, found)).unwrap_or(usize::MAX);
        // SAFETY: the caller's promise.
        unsafe {
            fill_grown(
                material,
                "tenths_material",
                offset_of!(tenths_material, cautions),
                told(index, units)?,
            )
        }
    })
}

/// Number of materials in the table.
#[unsafe(no_mangle)]
pub extern "C" fn tenths_material_count() -> usize {
    materials().len()
}

/// Name of material number `index`, from 0 up, by which `tenths_material_find` finds it; null past the last. A constant
/// text, not to be freed.
#[unsafe(no_mangle)]
pub extern "C" fn tenths_material_name(index: usize) -> *const c_char {
    TEXTS.get(index).map_or(std::ptr::null(), |texts| texts.full_name.as_ptr())
}

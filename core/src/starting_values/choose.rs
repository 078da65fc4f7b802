//! The rows that suit a cut, the closest first.
use super::error::StartingValueError;
use super::family::Stuff;
use super::record::{CutOperation, FeedBasis, StartingValue, ToolMaterial, ValueSeen};
use super::table::all_starting_values;
use crate::material::{Material, Provenance};
use crate::quantity::{Length, Quantity};
use std::borrow::Cow;

/// The starting values that were read for a material, an operation, a tool and its diameter, the closest first.
///
/// `material` is a name of the table of materials, `SAE 1045`, or a family, `medium_carbon_steel`. Rows for this grade go
/// before those for its family, rows for this diameter before those for any, rows with a feed before those without, and
/// rows seen in print before others. Rows that are for other diameters are left out.
///
/// # Errors
/// [`StartingValueError`] where a name is not known, the diameter is not positive, or no source was read for it.
pub fn starting_values(
    material: &str,
    operation: CutOperation,
    tool: Option<ToolMaterial>,
    diameter: Option<Length>,
) -> Result<Vec<StartingValue>, StartingValueError> {
    if let Some(diameter) = diameter.map(Quantity::metric).filter(|d| !(d.is_finite() && *d > 0.0)) {
        return Err(StartingValueError::Diameter(diameter));
    }
    let stuff = Stuff::parse(material).map_err(StartingValueError::Material)?;
    let rows = chosen(stuff, operation, tool, diameter);
    match rows.is_empty() {
        true => Err(StartingValueError::NoValues(asked(material, operation, tool, diameter))),
        false => Ok(rows),
    }
}

/// The rows for a material of the table of materials; none where there are none.
pub(crate) fn of_material(
    material: &'static Material,
    operation: CutOperation,
    tool: Option<ToolMaterial>,
    diameter: Option<Length>,
) -> Vec<StartingValue> {
    chosen(Stuff::Material(material), operation, tool, diameter)
}

fn asked(
    material: &str,
    operation: CutOperation,
    tool: Option<ToolMaterial>,
    diameter: Option<Length>,
) -> String {
    let tool = tool.map_or(String::new(), |tool| format!(" with {}", tool.name()));
    let diameter = diameter.map_or(String::new(), |d| format!(" at a diameter of {} mm", d.metric()));
    format!("{} {}{tool}{diameter}", operation.name(), crate::error::excerpt(material)).replace('_', " ")
}

fn chosen(
    stuff: Stuff,
    operation: CutOperation,
    tool: Option<ToolMaterial>,
    diameter: Option<Length>,
) -> Vec<StartingValue> {
    let family = stuff.family();
    let suits = |row: &&StartingValue| {
        Some(row.family) == family
            && row.operation == operation
            && tool.is_none_or(|tool| row.tool == tool)
            && holds(row, operation, diameter)
    };
    let mut rows: Vec<StartingValue> = all_starting_values().iter().filter(suits).cloned().collect();
    // The sort is stable: rows that are as close keep the order of the table.
    rows.sort_by_key(|row| {
        let of_diameter = diameter.is_some() && row.diameter_lower.or(row.diameter_upper).is_some();
        (!names(row, stuff), !of_diameter, row.feed_lower.is_none(), row.seen)
    });
    rows.extend(own_speeds(stuff, operation, tool));
    rows
}

/// Whether a row is for this diameter. The size of the work under a saw does not bound its speed.
fn holds(row: &StartingValue, operation: CutOperation, diameter: Option<Length>) -> bool {
    let Some(diameter) = diameter.filter(|_| operation != CutOperation::Sawing).map(Quantity::metric) else {
        return true;
    };
    // Ends in inches were read as millimetres of a few digits.
    let near = 1e-3 * diameter;
    row.diameter_lower.is_none_or(|least| least.metric() <= diameter + near)
        && row.diameter_upper.is_none_or(|most| diameter <= most.metric() + near)
}

/// Whether a row names the grade.
fn names(row: &StartingValue, stuff: Stuff) -> bool {
    let Stuff::Material(material) = stuff else { return false };
    row.grades.split(' ').any(|grade| !grade.is_empty() && material.designation.contains(grade))
}

/// The speeds that the table of materials has for turning this grade.
fn own_speeds(stuff: Stuff, operation: CutOperation, tool: Option<ToolMaterial>) -> Vec<StartingValue> {
    let (Stuff::Material(material), CutOperation::Turning) = (stuff, operation) else { return vec![] };
    let Some(family) = stuff.family() else { return vec![] };
    let seen = match material.sources.speeds.provenance {
        Provenance::Published | Provenance::PartlyPublished => ValueSeen::Published,
        _ => ValueSeen::CommonPractice,
    };
    let speeds =
        [(ToolMaterial::HighSpeedSteel, material.speed_hss), (ToolMaterial::Carbide, material.speed_carbide)];
    let wanted = speeds.into_iter().filter(|(own, _)| tool.is_none_or(|tool| tool == *own));
    let row = |(tool, speed): (ToolMaterial, Option<_>)| {
        let speed = speed?;
        Some(StartingValue {
            family,
            material: Cow::Owned(material.to_string()),
            operation,
            detail: Cow::Borrowed("table of materials"),
            tool,
            tool_name: Cow::Borrowed(tool.name()),
            diameter_lower: None,
            diameter_upper: None,
            speed_lower: speed,
            speed_upper: speed,
            feed_lower: None,
            feed_upper: None,
            feed_basis: FeedBasis::NotGiven,
            seen,
            source: material.sources.speeds.text.clone(),
            grades: Cow::Borrowed(""),
        })
    };
    wanted.filter_map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::materials;
    use crate::starting_values::MaterialFamily;
    use crate::{Quantity, Units};

    const CARBIDE: Option<ToolMaterial> = Some(ToolMaterial::Carbide);
    const STEEL: Option<ToolMaterial> = Some(ToolMaterial::HighSpeedSteel);

    // The Ferrous Metals Data Book, chapter 9, table 9-3: 1045 of 175 to 225 HB, coated carbide, 415 to 785 ft/min at
    // 0.007 to 0.020 in/rev; high-speed steel 85 to 130 ft/min.
    #[test]
    fn the_closest_row_is_that_of_the_grade() {
        let rows = starting_values("SAE 1045", CutOperation::Turning, CARBIDE, None).unwrap();
        let told = |value: f64| (value * 1e6).round() / 1e6;
        let [low, high] = [rows[0].speed_lower, rows[0].speed_upper].map(|v| told(v.in_units(Units::Inch)));
        let feed = rows[0].feed_lower.map(|feed| told(feed.in_units(Units::Inch)));
        assert_eq!((low, high, feed), (415.0, 785.0, Some(0.007)), "{:?}", rows[0]);
        let rows = starting_values("C45", CutOperation::Turning, STEEL, None).unwrap();
        assert_eq!(told(rows[0].speed_lower.in_units(Units::Inch)), 85.0);
    }

    // US Navy training manual 14345: drills of 1/4 to 1/2 in, 0.004 to 0.007 in/rev.
    #[test]
    fn a_diameter_chooses_its_rows() {
        let rows =
            starting_values("low_carbon_steel", CutOperation::Drilling, STEEL, Some(Length::inches(0.375)))
                .unwrap();
        let feed = rows[0].feed_lower.unwrap().in_units(Units::Inch);
        assert!((feed - 0.004).abs() < 1e-9, "{:?}", rows[0]);
        let holds = |row: &StartingValue| row.diameter_lower.is_none_or(|least| least.metric() < 9.6);
        assert!(rows.iter().all(holds));
    }

    #[test]
    fn metals_have_a_family_and_the_rest_say_so() {
        let without: Vec<_> = materials()
            .iter()
            .filter(|material| MaterialFamily::of(material).is_none())
            .map(|material| &*material.designation)
            .collect();
        let expected = [
            "Alloy 718",
            "Alloy 625",
            "Alloy 400",
            "AZ31B",
            "POM-C",
            "PA66",
            "PE-UHMW",
            "PTFE",
            "PC",
            "PVC-U",
        ];
        assert_eq!(without, expected);
        for (name, family) in [
            ("SAE 1144", MaterialFamily::FreeMachiningSteel),
            ("SAE 4140, prehard 28-32 HRC", MaterialFamily::HardenedAlloySteel),
            ("SAE 4140, annealed", MaterialFamily::AlloySteel),
            ("AISI D2, hardened 60 HRC", MaterialFamily::HardenedSteel),
            ("AISI D2, annealed", MaterialFamily::ToolSteel),
            ("AISI 416", MaterialFamily::StainlessSteel),
            ("ASTM A36", MaterialFamily::LowCarbonSteel),
            ("C17200", MaterialFamily::CopperAlloy),
        ] {
            assert_eq!(MaterialFamily::of(crate::material::find(name).unwrap()), Some(family), "{name}");
        }
    }

    #[test]
    fn what_there_is_not_is_said() {
        let refused = |material: &str, diameter: Option<f64>| {
            let diameter = diameter.map(Length::millimetres);
            starting_values(material, CutOperation::Turning, CARBIDE, diameter).unwrap_err().to_string()
        };
        assert_eq!(
            refused("Alloy 718", None),
            "the table has no starting values for turning Alloy 718 with carbide. Fix: take the data of the tool's maker"
        );
        assert_eq!(refused("SAE 1045", Some(-1.0)), "diameter must be greater than 0 mm, not -1 mm");
        assert!(refused("unobtainium", None).contains("no material is called"));
        assert!(CutOperation::parse("milling").unwrap_err().to_string().contains("face_milling"));
        assert_eq!(CutOperation::parse("Face milling"), Ok(CutOperation::FaceMilling));
        assert_eq!(CutOperation::parse("mill_flats"), Ok(CutOperation::EndMilling));
        assert_eq!(ToolMaterial::parse("HSS"), Ok(ToolMaterial::HighSpeedSteel));
    }
}

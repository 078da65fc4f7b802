//! Sawing.
use super::cut::third;
use super::facts::{COMMON, Facts, three_digits};
use super::filling::Filling;
use crate::material::IsoGroup;
use crate::quantity::{Quantity, SawingRate, SurfaceSpeed};
use crate::starting_values::{CutOperation, MaterialFamily, ToolMaterial};

pub(super) fn saw(work: &mut Filling<'_, '_>) {
    let facts = work.facts;
    if let Some(longest) = facts.longest() {
        let (number, shown) = (longest.number, format!("number {}", longest.number));
        work.put("cut_length", number.into(), shown, "the longest length of the drawing");
    }
    work.put_number(
        "kerf",
        facts.either(0.0625, 1.6),
        facts.length(),
        "a band saw: common practice, no source",
    );
    let [speed, rate] = [SurfaceSpeed::KIND, SawingRate::KIND].map(|kind| kind.unit(facts.units).label);
    let speeds = facts.speeds(CutOperation::Sawing, ToolMaterial::Bimetal, None);
    let ranges = work.inside("blade", |blade| {
        blade.put_text("name", "a bimetal band", COMMON);
        blade.recommend(speeds, None);
        if let Some(rates) = rates(facts) {
            blade.put_range(
                "sawing_rate",
                rates,
                rate,
                "by the family of the material: common practice, no source",
            );
        }
        [blade.range("surface_speed", SurfaceSpeed::KIND), blade.range("sawing_rate", SawingRate::KIND)]
    });
    let units = [("surface_speed", speed), ("sawing_rate", rate)];
    for ((name, unit), range) in units.into_iter().zip(ranges.into_iter().flatten()) {
        let Some(range) = range else { continue };
        let reason = format!("a third of the way up {} to {} {unit}", range[0], range[1]);
        work.put_number(name, three_digits(third(range)), unit, reason);
    }
    work.put_handling(0.3);
}

/// Sawing rates of a bimetal band, in cm²/min, turned into the units of the document: common practice, from memory.
fn rates(facts: &Facts<'_>) -> Option<[f64; 2]> {
    let turned = |metric: [f64; 2]| {
        metric.map(|rate| three_digits(SawingRate::square_centimetres_per_minute(rate).in_units(facts.units)))
    };
    let material = facts.material?;
    let Some(family) = MaterialFamily::of(material) else {
        // Nickel is sawn as slowly as titanium; magnesium and plastics as fast as brass.
        let is_tough = material.iso_group == Some(IsoGroup::S);
        return Some(turned(if is_tough { [3.0, 8.0] } else { [40.0, 100.0] }));
    };
    let metric = match family {
        MaterialFamily::FreeMachiningSteel | MaterialFamily::LowCarbonSteel => [25.0, 60.0],
        MaterialFamily::MediumCarbonSteel => [15.0, 35.0],
        MaterialFamily::AlloySteel | MaterialFamily::CastIron => [12.0, 30.0],
        MaterialFamily::HardenedAlloySteel | MaterialFamily::ToolSteel | MaterialFamily::StainlessSteel => {
            [8.0, 20.0]
        }
        MaterialFamily::Aluminium => [60.0, 200.0],
        MaterialFamily::CopperAlloy => [40.0, 100.0],
        MaterialFamily::Titanium => [4.0, 10.0],
        MaterialFamily::HardenedSteel => return None,
    };
    Some(turned(metric))
}

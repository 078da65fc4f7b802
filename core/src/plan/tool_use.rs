//! What the quantity takes of each tool: edges by the life that the rates state, or that Taylor's law estimates.
use super::document::Document;
use super::metal::{Metal, MetalDesignation};
use super::operation::Operation;
use super::rates::ToolRate;
use super::sheet::{OperationLines, ToolLine};
use crate::cutting::tool_life::tool_life;
use crate::page::shown;
use crate::quantity::{Quantity, Ratio, SurfaceSpeed, Units};
use std::collections::BTreeMap;

/// How long an edge lasts at the starting speed of the table of materials: high-speed steel and carbide, in minutes. Common
/// practice, no source.
const LIFE_AT_START: [f64; 2] = [60.0, 15.0];
/// Work to which the starting speeds of the table, which are those of turning, apply.
const TURNING: [&str; 3] = ["turn", "face", "bore"];

/// Of the lives of an edge, what a part takes, and in words how long a life is and what it is from.
struct Wear {
    lives: f64,
    basis: String,
    /// What it is from alone, for a tool whose life differs from operation to operation.
    rule: String,
    /// Edges of a new tool, regrinds included; where the rates say so.
    edges_of_tool: Option<f64>,
}

/// The tools in the order of their first use.
pub(super) fn tool_lines(document: &Document, operations: &[OperationLines]) -> Vec<ToolLine> {
    let mut lines: Vec<ToolLine> = vec![];
    let mut edges_of: Vec<Option<f64>> = vec![];
    let mut places = BTreeMap::new();
    for (operation, own) in document.operations.iter().zip(operations) {
        let Some(name) = &own.tool else { continue };
        let place = *places.entry(name.as_str()).or_insert(lines.len());
        let wear = wear(document, operation, own);
        if place == lines.len() {
            let nothing = ToolLine {
                name: name.clone(),
                operations: vec![],
                minutes_per_part: Some(0.0),
                edges_per_part: Some(0.0),
                edges: None,
                tools: None,
                life: wear.as_ref().map(|wear| wear.basis.clone()),
            };
            lines.push(nothing);
            edges_of.push(wear.as_ref().and_then(|wear| wear.edges_of_tool));
        }
        let line = &mut lines[place];
        let minutes = own.figures.get("cutting_time").map(|time| time.value);
        line.operations.push(own.number);
        line.minutes_per_part = line.minutes_per_part.zip(minutes).map(|(so_far, more)| so_far + more);
        // Where lives differ between operations, only their rule is shown; where one is not known, nothing is.
        let told = wear.as_ref().map(|wear| match line.life.as_ref() == Some(&wear.basis) {
            true => wear.basis.clone(),
            false => wear.rule.clone(),
        });
        line.life = line.life.take().and(told);
        line.edges_per_part = line.edges_per_part.zip(wear).map(|(so_far, wear)| so_far + wear.lives);
    }
    for (line, edges_of) in lines.iter_mut().zip(edges_of) {
        let edges = line.edges_per_part.map(|each| whole(each * f64::from(document.part.quantity)));
        line.edges = edges.map(|edges| edges as u64);
        line.tools = edges.zip(edges_of).map(|(edges, of_tool)| whole(edges / of_tool) as u64);
    }
    lines
}

/// Rounded up, but for the noise of the last digits.
fn whole(count: f64) -> f64 {
    (count * (1.0 - 1e-12)).ceil()
}

fn wear(document: &Document, operation: &Operation, lines: &OperationLines) -> Option<Wear> {
    let tools = document.rates.as_ref().map_or(&[][..], |rates| &rates.tools);
    let named = tools.iter().find(|tool| Some(&tool.name) == lines.tool.as_ref());
    let for_kind = || tools.iter().find(|tool| tool.kind.as_deref() == Some(operation.work.name()));
    match named.or_else(for_kind) {
        Some(rate) => stated(rate, operation, lines),
        None => estimated(&document.material, document.units, lines),
    }
}

/// By the life that the rates state.
fn stated(rate: &ToolRate, operation: &Operation, lines: &OperationLines) -> Option<Wear> {
    let (lives, basis) = match (rate.life, rate.life_holes, rate.life_pieces) {
        (Some(life), ..) => {
            let cutting = lines.figures.get("cutting_time")?.value;
            (cutting / life.value(), format!("{}, by the rates", shown::time(life.value())))
        }
        (_, Some(life), _) => {
            (f64::from(operation.work.holes()) / f64::from(life), format!("{life} holes, by the rates"))
        }
        (.., pieces) => {
            let pieces = pieces?.to_f64();
            (1.0 / pieces, format!("{} parts, by the rates", shown::stated(pieces)))
        }
    };
    let edges = f64::from(rate.edges) * (f64::from(rate.regrinds) + 1.0);
    Some(Wear { lives, rule: basis.clone(), basis, edges_of_tool: Some(edges) })
}

/// By Taylor's law from the starting speed and the exponent of the table of materials, for a tool whose name says what it is of.
fn estimated(material: &Metal, units: Units, lines: &OperationLines) -> Option<Wear> {
    let MetalDesignation(metal) = material.designation.filter(|_| TURNING.contains(&&*lines.kind))?;
    let tool = lines.tool.as_ref()?.to_lowercase();
    let is_any = |words: &[&str]| words.iter().any(|word| tool.contains(word));
    let (start, n, life, of) = if is_any(&["carbide"]) {
        (metal.speed_carbide?, metal.taylor_carbide?, LIFE_AT_START[1], "carbide")
    } else if is_any(&["high-speed steel", "hss"]) {
        (metal.speed_hss?, metal.taylor_hss?, LIFE_AT_START[0], "high-speed steel")
    } else {
        return None;
    };
    let figure = |key: &str| lines.figures.get(key).map(|figure| figure.value);
    let (speed, cutting) = (figure("surface_speed")?, figure("cutting_time")?);
    let at = life_at(SurfaceSpeed::new_in(speed, units), start, n, life)?;
    let rule = format!(
        "an estimate: Taylor's law from {} at the starting speed of {metal} for {of}",
        shown::time(life)
    );
    let basis = format!("{}, {rule}", shown::time(at));
    let lives = cutting / at;
    lives.is_finite().then_some(Wear { lives, basis, rule, edges_of_tool: None })
}

/// The life at a speed, in minutes, where one is known at another speed: Taylor's law, of which C is the speed of unit life.
fn life_at(speed: SurfaceSpeed, start: SurfaceSpeed, n: Ratio, life: f64) -> Option<f64> {
    let at = life * tool_life(speed, start, n).ok()?.metric();
    (at.is_finite() && at > 0.0).then_some(at)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Taylor: twice the speed at n = 0.25 leaves a sixteenth of the life. Worked by hand.
    #[test]
    fn life_follows_taylor() {
        let [start, twice] = [100.0, 200.0].map(SurfaceSpeed::metres_per_minute);
        let (n, life) = (Ratio::new(0.25), 16.0);
        assert!((life_at(start, start, n, life).unwrap() - 16.0).abs() < 1e-9);
        assert!((life_at(twice, start, n, life).unwrap() - 1.0).abs() < 1e-9);
        assert_eq!(life_at(SurfaceSpeed::metres_per_minute(0.0), start, n, life), None);
    }
}

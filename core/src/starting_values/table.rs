//! The rows of the table, in the units of their sources.
use super::family::MaterialFamily;
use super::record::{CutOperation, FeedBasis, StartingValue, ToolMaterial, ValueSeen};
use crate::object::Choice as _;
use crate::quantity::{Length, SurfaceSpeed};
use std::borrow::Cow;
use std::sync::LazyLock;

const VALUES: &str = include_str!("values.tsv");
const SOURCES: &str = include_str!("sources.tsv");

/// Every row of the table, in its order.
pub fn all_starting_values() -> &'static [StartingValue] {
    static ROWS: LazyLock<Vec<StartingValue>> = LazyLock::new(|| {
        let sources: Vec<&str> = SOURCES.lines().filter_map(|line| Some(line.split_once('\t')?.1)).collect();
        VALUES.lines().filter_map(|line| row(line, &sources)).collect()
    });
    &ROWS
}

/// A line of the table; the tests see that every line is read.
fn row(line: &'static str, sources: &[&'static str]) -> Option<StartingValue> {
    let mut fields = line.split('\t');
    let mut next = || fields.next();
    let family = MaterialFamily::of_name(next()?)?;
    let [grades, material] = [next()?, next()?];
    let operation = CutOperation::of_name(next()?)?;
    let detail = next()?;
    let tool = ToolMaterial::of_name(next()?)?;
    let tool_name = next()?;
    let millimetres = |text: &str| text.parse().ok().map(Length::millimetres);
    let [from, to] = [next()?, next()?].map(millimetres);
    let speed = match next()? {
        "ft" => SurfaceSpeed::feet_per_minute,
        _ => SurfaceSpeed::metres_per_minute,
    };
    let [low, high] = [next()?, next()?].map(|text| text.parse().ok().map(speed));
    let feed = match next()? {
        "in" => Length::inches,
        _ => Length::millimetres,
    };
    let [least, most] = [next()?, next()?].map(|text| text.parse().ok().map(feed));
    let feed_basis = FeedBasis::of_name(next()?).unwrap_or(FeedBasis::NotGiven);
    let seen = ValueSeen::of_name(next()?)?;
    let source = sources.get(next()?.parse::<usize>().ok()?.checked_sub(1)?)?;
    Some(StartingValue {
        family,
        material: Cow::Borrowed(material),
        operation,
        detail: Cow::Borrowed(detail),
        tool,
        tool_name: Cow::Borrowed(tool_name),
        diameter_lower: from,
        diameter_upper: to,
        speed_lower: low?,
        speed_upper: high?,
        feed_lower: least,
        feed_upper: most,
        feed_basis,
        seen,
        source: Cow::Borrowed(source),
        grades: Cow::Borrowed(grades),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Units;
    use crate::quantity::Quantity;

    #[test]
    fn every_line_is_read_and_in_order() {
        let lines = VALUES.lines().filter(|line| !line.starts_with('#')).count();
        assert_eq!(all_starting_values().len(), lines);
        for row in all_starting_values() {
            // Bounds around the table, which a slipped digit or unit leaves.
            let [low, high] = [row.speed_lower, row.speed_upper].map(|speed| speed.in_units(Units::Metric));
            assert!(1.0 < low && low <= high && high <= 1000.0, "{row:?}");
            assert_eq!(row.feed_lower.is_some(), row.feed_upper.is_some(), "{row:?}");
            if let (Some(least), Some(most)) = (row.feed_lower, row.feed_upper) {
                let [least, most] = [least, most].map(Quantity::metric);
                assert!(0.004 < least && least <= most && most <= 2.5, "{row:?}");
                assert_ne!(row.feed_basis, FeedBasis::NotGiven, "{row:?}");
            }
            if let (Some(from), Some(to)) = (row.diameter_lower, row.diameter_upper) {
                assert!(0.0 < from.metric() && from.metric() <= to.metric(), "{row:?}");
            }
            assert!(row.source.len() > 10, "{row:?}");
        }
    }

    // Carbide cuts faster than high-speed steel in every family and operation, and free-machining steel faster than
    // alloy steel: common practice, no source.
    #[test]
    fn speeds_rise_with_the_tool_and_the_ease_of_cutting() {
        let middle = |family, operation, tool| {
            let rows = all_starting_values()
                .iter()
                .filter(move |row| (row.family, row.operation, row.tool) == (family, operation, tool));
            let all: Vec<f64> = rows.map(|row| row.speed_lower.metric() + row.speed_upper.metric()).collect();
            (!all.is_empty()).then(|| all.iter().sum::<f64>() / all.len() as f64)
        };
        let mut compared = 0;
        for family in MaterialFamily::ALL {
            for operation in CutOperation::ALL {
                let [steel, carbide] = [ToolMaterial::HighSpeedSteel, ToolMaterial::Carbide]
                    .map(|tool| middle(family, operation, tool));
                let (Some(steel), Some(carbide)) = (steel, carbide) else { continue };
                assert!(carbide > steel, "{family:?} {operation:?}: {steel} {carbide}");
                compared += 1;
            }
        }
        assert!(compared >= 15, "{compared}");
        for (easy, hard) in [
            (MaterialFamily::FreeMachiningSteel, MaterialFamily::AlloySteel),
            (MaterialFamily::Aluminium, MaterialFamily::LowCarbonSteel),
            (MaterialFamily::LowCarbonSteel, MaterialFamily::StainlessSteel),
            (MaterialFamily::AlloySteel, MaterialFamily::HardenedAlloySteel),
        ] {
            let of = |family| middle(family, CutOperation::Turning, ToolMaterial::HighSpeedSteel);
            if let (Some(easy), Some(hard)) = (of(easy), of(hard)) {
                assert!(easy > hard, "{easy} {hard}");
            }
        }
    }
}

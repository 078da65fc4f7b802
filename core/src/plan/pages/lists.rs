//! Lists for the store, the saw and the inspector.
use super::words::{cautions, list, or_empty};
use crate::page::{Part, Shown, Table, plain, shown};
use crate::plan::sheet::*;

/// A count that may be left out: nothing then.
fn count(count: Option<u64>) -> Shown<'static> {
    count.map_or("".into(), |count| count.to_string().into())
}

impl Sheet {
    pub(super) fn tool_list<'s>(&'s self) -> Vec<Part<'s>> {
        let row = |(place, tool): (usize, &'s ToolLine)| -> [Shown<'s>; 10] {
            let minutes =
                |pieces: f64| tool.minutes_per_part.map_or("".into(), |one| shown::time(one * pieces).into());
            [
                (place + 1).to_string().into(),
                (&*tool.name).into(),
                list(&tool.operations).into(),
                minutes(1.0),
                minutes(self.quantity.into()),
                // A blank keeps the column, to write in the life that the shop has seen.
                tool.life.as_deref().unwrap_or(" ").into(),
                tool.edges_per_part.map_or("".into(), |edges| shown::number(edges).into()),
                count(tool.edges),
                count(tool.tools),
                " ".into(),
            ]
        };
        let head = [
            "",
            "tool",
            "operation",
            "in the cut, a part",
            "in the cut, the quantity",
            "life between edges",
            "edges, a part",
            "edges, the quantity",
            "new tools",
            "drawn",
        ];
        let mut parts = vec![self.lead()];
        if self.tools.is_empty() {
            parts.push(Part::Paragraph(plain("No operation names a tool.")));
        } else {
            parts.push(Part::Table(Table::new(head, self.tools.iter().enumerate().map(row))));
            let mut words =
                "Edges are for the good quantity, rounded up: add those for parts that are scrapped."
                    .to_string();
            if self.tools.iter().any(|tool| tool.life.is_none()) {
                words.push_str(
                    " Where no life is shown, write in the one that your shop has seen or that the maker of the tool gives: \
                     the edges are the time in the cut for the quantity over that life, rounded up.",
                );
            }
            parts.push(Part::Paragraph(plain(words)));
        }
        parts.extend(self.foot());
        parts
    }

    /// What is set up, in the order of the work.
    pub(super) fn setups<'s>(&'s self) -> Vec<Part<'s>> {
        let row = |one: &'s OperationLines| -> [Shown<'s>; 9] {
            let setup = if one.setup > 0.0 { shown::time(one.setup).into() } else { "".into() };
            [
                one.number.to_string().into(),
                (&*one.name).into(),
                or_empty(&one.machine),
                or_empty(&one.station),
                or_empty(&one.holding),
                or_empty(&one.tool),
                or_empty(&one.coolant),
                setup,
                " ".into(),
            ]
        };
        let head =
            ["No.", "operation", "machine", "station", "work holding", "tool", "coolant", "set-up", "done"];
        let rows = self.operations.iter().map(row);
        let mut parts = vec![self.lead(), Part::Table(Table::new(head, rows))];
        let setups: f64 = self.operations.iter().map(|one| one.setup).sum();
        if setups > 0.0 {
            let words = format!("All set-ups: {} for the quantity.", shown::time(setups));
            parts.push(Part::Paragraph(plain(words)));
        }
        parts.extend(self.foot());
        parts
    }

    pub(super) fn cut_list<'s>(&'s self) -> Vec<Part<'s>> {
        let BarLines { kerf, end_trim, remnant, part_length, parts_per_bar, bars, .. } = &self.bar;
        let mut parts = vec![self.lead()];
        parts.extend(self.bar_lines().into_iter().map(|line| Part::Paragraph(plain(line))));
        let rows: [(&str, Shown<'s>); 7] = [
            ("pieces to cut", self.quantity.to_string().into()),
            ("length of a piece", or_empty(part_length)),
            ("width of the cut", or_empty(kerf)),
            ("cut off the end of a new bar", (&**end_trim).into()),
            ("left in the machine", (&**remnant).into()),
            ("pieces from a bar", count(*parts_per_bar)),
            ("bars", count(*bars)),
        ];
        let rows = rows.into_iter().filter(|(_, value)| !value.is_empty());
        let rows = rows.map(|(name, value)| [name.into(), value, " ".into()]);
        parts.push(Part::Table(Table::new(["", "planned", "done"], rows)));
        for saw in self.operations.iter().filter(|operation| operation.kind == "saw") {
            parts.push(Part::Heading(format!("Operation {}: {}", saw.number, saw.name).into()));
            parts.push(Part::Table(self.asked(&saw.characteristics)));
            parts.push(super::words::settings(saw));
            parts.push(cautions(&saw.cautions));
        }
        parts.extend(self.foot());
        parts
    }

    pub(super) fn gauge_list<'s>(&'s self) -> Vec<Part<'s>> {
        let mut parts = vec![self.lead()];
        if !self.gauges.is_empty() {
            parts.push(Part::Heading("Limit gauges".into()));
            parts.extend(self.gauge_parts());
        }
        let checked = |number: u32| {
            let looks =
                |one: &&OperationLines| one.kind == "inspect" && one.characteristics.contains(&number);
            list(&self.operations.iter().filter(looks).map(|one| one.number).collect::<Vec<_>>())
        };
        let row = |one: &'s CharacteristicLine| -> [Shown<'s>; 8] {
            let [number, name, limits, _, roughness, form, _] = one.drawn();
            [number, name, limits, roughness, form, one.proof(), checked(one.number).into(), " ".into()]
        };
        let head = [
            "No.",
            "characteristic",
            "limits",
            "Ra, at most",
            "form deviation, at most",
            "gauge with",
            "inspected in",
            "drawn",
        ];
        parts.push(Part::Heading("Every characteristic".into()));
        parts.push(Part::Table(Table::new(head, self.characteristics.iter().map(row))));
        parts.extend(self.foot());
        parts
    }
}

//! What a document says, read as far as it can be: what is faulty is left to the decoder.
use crate::decimals;
use crate::document::decode::{Context, Decode};
use crate::document::fault::Place;
use crate::document::limits::DrawingLimits;
use crate::document::node::{Content, Node};
use crate::material::{self, Material};
use crate::quantity::*;
use crate::starting_values::{self, CutOperation, FeedBasis, StartingValue, ToolMaterial};
use crate::{GeneralClass, Limits, Thread};
use std::collections::{BTreeMap, BTreeSet};

/// A characteristic of the drawing.
pub(super) struct Asked {
    pub(super) number: u32,
    pub(super) kind: String,
    pub(super) limits: Limits,
    pub(super) roughness: Option<f64>,
}

/// What the whole document says.
pub(super) struct Facts<'n> {
    pub(super) units: Units,
    pub(super) root: Node<'n>,
    pub(super) material: Option<&'static Material>,
    pub(super) characteristics: Vec<Asked>,
    /// The limits of the bar, given or proposed.
    pub(super) bar: Option<Limits>,
    /// The numbers of the characteristics with their places, in order of the numbers.
    places: BTreeMap<u32, usize>,
    /// The place among them of the longest length.
    longest: Option<usize>,
}

/// Speeds and feeds for a cut, in the units of the document.
pub(super) struct Speeds {
    pub(super) speed: [f64; 2],
    pub(super) feed: [f64; 2],
    pub(super) speed_source: String,
    pub(super) feed_source: String,
}

impl<'n> Facts<'n> {
    pub(super) fn of(root: Node<'n>) -> Facts<'n> {
        let units = Units::of_document(&root);
        let mut context = Context::new(units, BTreeSet::new());
        context.general = GeneralClass::of_document(&root);
        let named = root.get("material").and_then(|metal| text(metal.get("designation")?));
        let list = root.get("characteristics").into_iter().flat_map(|list| list.parts());
        let characteristics: Vec<Asked> = list.filter_map(|one| asked(one, &mut context, units)).collect();
        let places = characteristics.iter().enumerate().map(|(place, one)| (one.number, place)).collect();
        let lengths = (0..characteristics.len()).filter(|&place| characteristics[place].kind == "length");
        let longest = lengths.max_by_key(|&place| characteristics[place].limits.upper());
        let bar = root.get("bar").and_then(|bar| limits(bar.get("limits")?, &mut context));
        let material = named.and_then(|name| material::find(name).ok());
        Facts { units, root, material, characteristics, bar, places, longest }
    }

    /// One of two figures: of an inch plan, of a metric one.
    pub(super) fn either<T: Copy>(&self, inch: T, metric: T) -> T {
        [inch, metric][self.units as usize]
    }

    pub(super) fn length(&self) -> &'static str {
        self.units.length_label()
    }

    /// The characteristic of a number.
    pub(super) fn asked(&self, number: u32) -> Option<&Asked> {
        self.characteristics.get(*self.places.get(&number)?)
    }

    /// The characteristics of a kind that an operation makes.
    pub(super) fn made(&self, operation: Node<'_>, kind: &str) -> Option<&Asked> {
        let numbers = operation.get("makes")?.parts().filter_map(|one| one.number());
        numbers.filter_map(|number| self.asked(number as u32)).find(|one| one.kind == kind)
    }

    /// The least roughness Ra that an operation has to make.
    pub(super) fn finish(&self, operation: Node<'_>) -> Option<f64> {
        let numbers = operation.get("makes")?.parts().filter_map(|one| one.number());
        numbers.filter_map(|number| self.asked(number as u32)?.roughness).reduce(f64::min)
    }

    /// The longest length of the drawing.
    pub(super) fn longest(&self) -> Option<&Asked> {
        self.characteristics.get(self.longest?)
    }

    /// The operations of the document.
    pub(super) fn operations(&self) -> impl Iterator<Item = Node<'n>> + Clone {
        self.root.get("operations").into_iter().flat_map(|list| list.parts())
    }

    /// A number of an object, in the unit of the document.
    pub(super) fn number(&self, node: Node<'_>, name: &str, kind: &Kind) -> Option<f64> {
        read(node.get(name)?, kind, self.units)
    }

    /// The starting values for a cut; where the table has none, shares of the speeds of the material and of the diameter.
    pub(super) fn speeds(
        &self,
        operation: CutOperation,
        tool: ToolMaterial,
        diameter: Option<f64>,
    ) -> Option<Speeds> {
        let material = self.material?;
        let length = diameter.map(|diameter| Length::new_in(diameter, self.units));
        let rows = starting_values::of_material(material, operation, Some(tool), length);
        let (speed, speed_source) = match rows.first() {
            Some(row) => {
                let ends = [row.speed_lower, row.speed_upper].map(|speed| speed.in_units(self.units));
                (range(ends), told(row))
            }
            None => self.share_of_turning(material, operation, tool)?,
        };
        let with_feed = rows.iter().find_map(|row| Some((row, [row.feed_lower?, row.feed_upper?])));
        let (feed, feed_source) = match with_feed {
            Some((row, ends)) => {
                let (flutes, told) = flutes(operation, row);
                (range(ends.map(|feed| flutes * feed.in_units(self.units))), told)
            }
            None => (self.usual_feed(operation, diameter)?, COMMON.into()),
        };
        Some(Speeds { speed, feed, speed_source, feed_source })
    }

    /// Speeds for an operation that no source was read for, as a share of the speed for turning: common practice, no source.
    fn share_of_turning(
        &self,
        material: &Material,
        operation: CutOperation,
        tool: ToolMaterial,
    ) -> Option<([f64; 2], String)> {
        let turning = match tool {
            ToolMaterial::Carbide => material.speed_carbide?,
            ToolMaterial::HighSpeedSteel | ToolMaterial::Bimetal => material.speed_hss?,
        };
        let share = match operation {
            CutOperation::Turning | CutOperation::FaceMilling | CutOperation::EndMilling => 1.0,
            CutOperation::Drilling | CutOperation::Knurling => 0.8,
            CutOperation::Sawing => 1.5,
            CutOperation::Reaming => 0.4,
            CutOperation::Tapping => 0.3,
        };
        let speed = share * turning.in_units(self.units);
        let source = &material.sources.speeds.text;
        let told = format!("{share} times the speed for turning {material}, {source}; the share is {COMMON}");
        Some((range([speed, speed]), told))
    }

    /// Feeds for an operation that no source was read for: common practice, no source.
    fn usual_feed(&self, operation: CutOperation, diameter: Option<f64>) -> Option<[f64; 2]> {
        let share = |low: f64, high: f64| diameter.map(|diameter| [low * diameter, high * diameter]);
        let feed = match operation {
            CutOperation::Turning => Some(self.either([0.004, 0.012], [0.1, 0.3])),
            CutOperation::FaceMilling => Some(self.either([0.003, 0.008], [0.08, 0.2])),
            CutOperation::Knurling => Some(self.either([0.004, 0.016], [0.1, 0.4])),
            CutOperation::EndMilling => share(0.003, 0.006),
            CutOperation::Drilling | CutOperation::Reaming => share(0.01, 0.02),
            // Neither is fed by the turn.
            CutOperation::Tapping | CutOperation::Sawing => Some([0.0, 0.0]),
        };
        feed.map(|feed| feed.map(three_digits))
    }
}

/// What a rule without a source is called.
pub(super) const COMMON: &str = "common practice, no source";

/// The ends of a range; of a single figure, from four fifths of it.
fn range([low, high]: [f64; 2]) -> [f64; 2] {
    let low = if low < high { low } else { 0.8 * low };
    [low, high].map(three_digits)
}

/// What a feed is taken by, and how it is told: of a reamer, whose sources count by the flute, six flutes.
fn flutes(operation: CutOperation, row: &StartingValue) -> (f64, String) {
    match (operation, row.feed_basis) {
        (CutOperation::Reaming, FeedBasis::Tooth) => (6.0, format!("{}; six flutes", told(row))),
        _ => (1.0, told(row)),
    }
}

fn told(row: &StartingValue) -> String {
    format!("{} ({}; {})", row.source, row.material, row.seen.name().replace('_', " "))
}

/// The number of a node, in the unit of the document.
fn read(node: Node<'_>, kind: &Kind, units: Units) -> Option<f64> {
    match node.content() {
        Content::Text(text) => kind.read(text, units).ok(),
        _ => node.number(),
    }
    .filter(|number| number.is_finite())
}

pub(super) fn text(node: Node<'_>) -> Option<&str> {
    match node.content() {
        Content::Text(text) => Some(text),
        _ => None,
    }
}

fn limits(node: Node<'_>, context: &mut Context) -> Option<Limits> {
    DrawingLimits::decode(&node, Place::ROOT, context).map(|limits| limits.limits)
}

fn asked(node: Node<'_>, context: &mut Context, units: Units) -> Option<Asked> {
    Some(Asked {
        number: node.get("number")?.number()? as u32,
        kind: text(node.get("kind")?)?.into(),
        limits: limits(node.get("limits")?, context)?,
        roughness: node.get("roughness").and_then(|ra| read(ra, RoughnessRa::KIND, units)),
    })
}

/// The external thread that a tool turns: nominal diameter and pitch.
pub(super) fn outside_thread(node: Node<'_>) -> Option<(crate::Size, crate::Size)> {
    let thread = Thread::parse_with_class(text(node.get("thread")?)?).ok()?;
    Some((thread.nominal(), thread.thread_pitch()))
}

/// The internal thread that a tap cuts: nominal diameter, pitch and limits of the minor diameter.
pub(super) fn thread(tap: Node<'_>) -> Option<(crate::Size, crate::Size, Limits)> {
    let thread = Thread::parse_with_class(text(tap.get("thread")?)?).ok()?;
    Some((thread.nominal(), thread.thread_pitch(), thread.minor()?))
}

/// A figure to three digits, as a table prints it.
pub(super) fn three_digits(value: f64) -> f64 {
    format!("{value:.2e}").parse().unwrap_or(value)
}

/// A length without the noise of its last digits.
pub(super) fn to_a_millionth(length: f64) -> f64 {
    decimals::rounded(length, 6)
}

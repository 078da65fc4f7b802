//! The characteristics of a draft, and its operations in a workable order.
use super::allowances::allowances;
use super::feature::{End, Feature};
use super::layout::{AxialHole, Layout};
use super::request::DraftRequest;
use crate::document::fault::Faults;
use crate::{Limits, Size, Units};
use serde_json::{Value, json};

/// What a draft comes to.
pub(super) struct Route<'r> {
    pub(super) request: &'r DraftRequest,
    pub(super) layout: &'r Layout<'r>,
    pub(super) characteristics: Vec<Value>,
    pub(super) operations: Vec<Value>,
}

impl<'r> Route<'r> {
    /// The route for a layout; what cannot be made is noted.
    pub(super) fn of(request: &'r DraftRequest, layout: &'r Layout<'r>, faults: &mut Faults) -> Route<'r> {
        let mut route = Route { request, layout, characteristics: vec![], operations: vec![] };
        let holes = layout.holes(request, faults);
        let whole = route.characteristic("length", "length over all", &layout.length.text, None);
        let facing = allowances(request.units).facing;
        route.operation(
            json!({"kind": "saw", "cut_length": whole, "facing_allowance": route.text(facing)}),
            "the parts come off the bar first, with something left for facing both ends",
        );
        for end in [End::First, End::Second] {
            route.end(end, whole, &holes, faults);
        }
        route.across(faults);
        let chamfers = route.chamfers(faults);
        route.operation(
            json!({"kind": "deburr", "makes": chamfers}),
            "burrs come off before anything is gauged: a burr is read as size",
        );
        route.operation(json!({"kind": "inspect"}), "every size is looked at once it is made");
        route
    }

    /// A size as the document takes it. What does not end as a decimal, such as a few turns of an inch thread, becomes the next
    /// thousandth above.
    pub(super) fn text(&self, size: Size) -> String {
        let units = self.request.units;
        let thousandth = match units {
            Units::Inch => 25_400_000,
            Units::Metric => 1_000_000,
        };
        let text = size.format(units);
        match text.starts_with('≈') {
            true => Size::from_picometres((size.picometres() / thousandth + 1) * thousandth).format(units),
            false => text,
        }
    }

    /// Adds a characteristic and gives its number.
    pub(super) fn characteristic(
        &mut self,
        kind: &str,
        name: &str,
        limits: &str,
        roughness: Option<f64>,
    ) -> usize {
        let number = self.characteristics.len() + 1;
        let mut own = json!({"number": number, "name": name, "kind": kind, "limits": limits});
        if let Some(roughness) = roughness {
            own["roughness"] = roughness.into();
        }
        self.characteristics.push(own);
        number
    }

    /// Says how the characteristic that was added last is inspected: common practice, no source.
    pub(super) fn inspected_by(&mut self, how: &str) {
        if let Some(last) = self.characteristics.last_mut() {
            last["inspection"] = how.into();
        }
    }

    pub(super) fn operation(&mut self, mut fields: Value, reason: &str) {
        fields["reason"] = reason.into();
        self.operations.push(fields);
    }

    /// The work at an end: its face, the steps that are turned from it, its grooves, knurls and threads, its holes.
    fn end(&mut self, end: End, whole: usize, holes: &[AxialHole<'r>], faults: &mut Faults) {
        let (face, reason) = match end {
            End::First => (json!({"kind": "face"}), "the first face is what lengths are set from"),
            End::Second => (
                json!({"kind": "face", "makes": [whole]}),
                "the part is turned round, and its second face makes the length",
            ),
        };
        self.operation(face, reason);
        let (layout, largest) = (self.layout, self.layout.largest);
        let places: Vec<usize> = match end {
            End::First => (0..=largest).rev().collect(),
            End::Second => (largest + 1..layout.segments.len()).collect(),
        };
        for &place in &places {
            self.turn(place);
        }
        for &place in &places {
            self.on_segment(&layout.segments[place], faults);
        }
        for hole in holes.iter().filter(|hole| hole.end == end) {
            self.hole(hole);
        }
    }

    /// Turns a segment, from the largest outward.
    fn turn(&mut self, place: usize) {
        let (layout, units) = (self.layout, self.request.units);
        let Some(segment) = layout.segments.get(place) else { return };
        let threaded = match &self.request.features[segment.feature] {
            Feature::ThreadFeature(own) => Some(&own.thread),
            _ => None,
        };
        let given =
            segment.name.map(Into::into).or_else(|| threaded.map(|thread| format!("thread {thread}")));
        let given = given.unwrap_or_else(|| format!("step {}", segment.feature + 1));
        let name = if threaded.is_some() { format!("major diameter of {given}") } else { given.clone() };
        let diameter = self.characteristic("diameter", &name, &segment.diameter.text, segment.roughness);
        if threaded.is_some() {
            self.inspected_by("micrometer; the thread by go and no-go ring gauges");
        }
        let mut makes = vec![diameter];
        // The largest closes the length over all: its own is not stated twice.
        if place != layout.largest {
            let name = format!("length of {given}");
            makes.push(self.characteristic("length", &name, &segment.length.text, None));
        }
        let own = allowances(units);
        let bar = self.request.bar.as_ref().and_then(|bar| bar.limits).map(|bar| bar.upper());
        let bar = bar.or_else(|| {
            let largest = layout.segments.get(layout.largest)?.diameter.limits.upper();
            let (text, _) = crate::plan::proposed_bar(largest, units)?;
            Limits::parse(&text).ok().map(|limits| limits.upper())
        });
        let start = layout.start(place).map(|from| from.limits.upper()).or(bar);
        let travel = layout.run(place).and_then(|run| run.checked_add(own.approach));
        let (Some(start), Some(travel)) = (start, travel) else { return };
        let travel = self.text(travel);
        let limits = &segment.diameter.limits;
        let is_fine = segment.roughness.is_some_and(|ra| ra <= own.fine) || limits.tolerance() < own.close;
        let before = limits.middle().checked_add(own.finishing).filter(|_| is_fine);
        let mut from = start;
        if let Some(to) = before.filter(|to| *to < start) {
            let radius = 0.5 * (start.to_float(units) - to.to_float(units));
            let passes = (radius / own.roughing).ceil().max(1.0) as u32;
            let Some((depth, left)) = roughed(start, to, passes, own.step) else { return };
            self.operation(
                json!({"kind": "turn", "diameter": self.text(start), "depth": self.text(depth), "passes": passes,
                       "travel": travel}),
                "roughed to leave an even finishing pass",
            );
            from = left;
        }
        self.operation(
            json!({"kind": "turn", "makes": makes, "diameter": self.text(from), "travel": travel}),
            match is_fine {
                true => "finished in a pass of its own, for the size and the finish asked for",
                false => "turned from the largest diameter outward, so that each step has metal behind it",
            },
        );
    }
}

/// The depth of equal passes from one diameter toward another, in whole steps of the machine, and the diameter that they leave.
fn roughed(from: Size, to: Size, passes: u32, step: Size) -> Option<(Size, Size)> {
    let both = i64::from(passes).checked_mul(2)?;
    let exact = from.checked_sub(to)?.picometres() / both;
    let depth = Size::from_picometres(exact).round_down(step).ok().filter(|depth| depth.is_positive())?;
    Some((depth, from.checked_sub(depth.checked_mul(both)?)?))
}

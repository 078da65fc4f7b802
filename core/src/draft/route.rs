//! The characteristics of a draft, and its operations in a workable order.
use super::feature::*;
use super::layout::{AxialHole, FEATURES, Layout, RUN_OUT, Segment, conflict};
use super::request::DraftRequest;
use crate::document::fault::{FaultKind, Faults, Place};
use crate::document::shape::Shape;
use crate::plan::Document;
use crate::{Limits, Size, Thread, Units};
use serde_json::{Value, json};

/// Whether a plan has operations of a kind.
fn has_kind(kind: &str) -> bool {
    let field = Document::OBJECT.fields.iter().find(|field| field.name == "operations");
    match field.map(|field| field.shape) {
        Some(Shape::List(Shape::Tagged(_, variants, _))) => variants.iter().any(|(name, _)| *name == kind),
        _ => false,
    }
}

/// Notes a feature that no operation of a plan makes.
fn lacks(kind: &str, what: &str, place: Place<'_>, faults: &mut Faults) -> bool {
    let lacks = !has_kind(kind);
    if lacks {
        faults.add(FaultKind::NotThere, place, || {
            format!("no operation of a plan makes {what}. Fix: leave it out, and add the work by hand")
        });
    }
    lacks
}

/// The step that a thread is cut on.
fn thread_on(feature: &Feature) -> Option<u32> {
    match feature {
        Feature::ThreadFeature(own) => own.on,
        _ => None,
    }
}

/// What a draft comes to.
pub(super) struct Route<'r> {
    request: &'r DraftRequest,
    layout: &'r Layout<'r>,
    pub(super) characteristics: Vec<Value>,
    pub(super) operations: Vec<Value>,
}

/// Steps of a lathe draft, of an inch one and a metric one: common practice, no source.
struct Allowances {
    /// Left on a part for facing both ends.
    facing: Size,
    /// In front of a cut.
    approach: Size,
    /// Left on a diameter for a finishing pass.
    finishing: Size,
    /// The deepest roughing pass, on the radius.
    roughing: f64,
    /// A tolerance below which a diameter is finished in a pass of its own.
    close: Size,
    /// A roughness, in the unit of the side, at which it is too.
    fine: f64,
}

fn allowances(units: Units) -> Allowances {
    let [thousandth, micrometre] =
        [25_400_000_i64, 1_000_000].map(|unit| move |count: i64| Size::from_picometres(unit * count));
    match units {
        Units::Inch => Allowances {
            facing: thousandth(80),
            approach: thousandth(80),
            finishing: thousandth(20),
            roughing: 0.08,
            close: thousandth(2),
            fine: 63.0,
        },
        Units::Metric => Allowances {
            facing: micrometre(2000),
            approach: micrometre(2000),
            finishing: micrometre(500),
            roughing: 2.0,
            close: micrometre(50),
            fine: 1.6,
        },
    }
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

    fn text(&self, size: Size) -> String {
        size.format(self.request.units)
    }

    /// Adds a characteristic and gives its number.
    fn characteristic(&mut self, kind: &str, name: &str, limits: &str, roughness: Option<f64>) -> usize {
        let number = self.characteristics.len() + 1;
        let mut own = json!({"number": number, "name": name, "kind": kind, "limits": limits});
        if let Some(roughness) = roughness {
            own["roughness"] = roughness.into();
        }
        self.characteristics.push(own);
        number
    }

    fn operation(&mut self, mut fields: Value, reason: &str) {
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
        let given = segment.name.map_or_else(|| format!("step {}", segment.feature + 1), Into::into);
        let diameter = self.characteristic("diameter", &given, &segment.diameter.text, segment.roughness);
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
            let passes = (radius / own.roughing).ceil().max(1.0);
            let depth: f64 = format!("{:.6}", radius / passes).parse().unwrap_or(radius);
            self.operation(
                json!({"kind": "turn", "diameter": self.text(start), "depth": depth, "passes": passes as u32,
                       "travel": travel}),
                "roughed to leave an even finishing pass",
            );
            from = to;
        }
        self.operation(
            json!({"kind": "turn", "makes": makes, "diameter": self.text(from), "travel": travel}),
            match is_fine {
                true => "finished in a pass of its own, for the size and the finish asked for",
                false => "turned from the largest diameter outward, so that each step has metal behind it",
            },
        );
    }

    /// Grooves, knurls and threads of a segment, in the order in which each leaves the next what it needs.
    fn on_segment(&mut self, segment: &Segment<'r>, faults: &mut Faults) {
        if let (Some(_), Feature::ThreadFeature(own)) =
            (&segment.thread, &self.request.features[segment.feature])
        {
            self.thread(segment.feature, &own.thread, segment.length.limits.nominal(), segment, faults);
        }
        for (feature, one) in self.request.features.iter().enumerate() {
            match one {
                Feature::Groove(groove) if self.is_on(feature, groove.on, segment, faults) => {
                    self.groove(feature, groove, segment, faults);
                }
                Feature::ThreadFeature(ThreadFeature { on: Some(_), thread, length, .. })
                    if self.is_outside(thread) && self.is_on(feature, thread_on(one), segment, faults) =>
                {
                    let long = length.as_ref().unwrap_or(segment.length).limits.nominal();
                    self.thread(feature, thread, long, segment, faults);
                }
                Feature::KnurlFeature(knurl) if self.is_on(feature, knurl.on, segment, faults) => {
                    self.knurl(feature, knurl, segment, faults);
                }
                _ => {}
            }
        }
    }

    fn is_on(&self, feature: usize, on: Option<u32>, segment: &Segment<'r>, faults: &mut Faults) -> bool {
        // A carrier that is not there is noted once.
        let is_noted = faults.count() > 0 && on.is_some();
        let mut other = Faults::default();
        let carrier = self.layout.carrier(feature, on, if is_noted { &mut other } else { faults });
        carrier.is_some_and(|own| own.feature == segment.feature)
    }

    fn knurl(&mut self, feature: usize, knurl: &'r KnurlFeature, segment: &Segment<'r>, faults: &mut Faults) {
        let place = FEATURES.index(feature);
        let long = knurl.length.as_ref().map_or(segment.length.limits.nominal(), |own| own.limits.nominal());
        self.must_fit(long, segment, "a knurl", place.field("length"), faults);
        let name = knurl.name.clone().unwrap_or_else(|| format!("knurl {}", feature + 1));
        let crests =
            knurl.diameter.as_ref().map(|crests| self.characteristic("diameter", &name, &crests.text, None));
        let blank = segment.diameter.limits.format(self.request.units);
        let mut fields = json!({
            "kind": "knurl", "pattern": knurl.pattern.name(), "pitch": knurl.pitch.value(), "blank": blank,
            "travel": self.text(long), "makes": crests.into_iter().collect::<Vec<_>>(),
        });
        if knurl.helix_angle.value() != 0.0 {
            fields["helix_angle"] = knurl.helix_angle.value().into();
        }
        self.operation(fields, "rolled on the finished step: a knurl only grows");
    }

    fn is_outside(&self, thread: &str) -> bool {
        Thread::parse_with_class(thread).is_ok_and(|thread| thread.is_internal() == Some(false))
    }

    /// Cuts an outside thread on its finished step.
    fn thread(
        &mut self,
        feature: usize,
        thread: &str,
        long: Size,
        segment: &Segment<'r>,
        faults: &mut Faults,
    ) {
        let place = FEATURES.index(feature);
        if lacks("turn_thread", "outside threads", place, faults) {
            return;
        }
        let pitch = Thread::parse_with_class(thread).map_or(Size::ZERO, |own| own.thread_pitch());
        let travel = pitch.checked_mul(3).and_then(|approach| long.checked_add(approach));
        let fields = json!({
            "kind": "turn_thread", "thread": thread, "diameter": self.text(segment.diameter.limits.upper()),
            "travel": self.text(travel.unwrap_or(long)),
        });
        self.operation(fields, "threads follow the turned diameter, before holes weaken the end");
    }

    fn groove(&mut self, feature: usize, groove: &'r Groove, segment: &Segment<'r>, faults: &mut Faults) {
        let place = FEATURES.index(feature);
        if lacks("groove", "grooves", place, faults) {
            return;
        }
        self.must_fit(groove.width.limits.nominal(), segment, "a groove", place.field("width"), faults);
        if groove.diameter.limits.upper() >= segment.diameter.limits.lower() {
            let message = format!(
                "a groove of {} does not cut into feature {}, which is {} across. Fix: make it smaller",
                groove.diameter.text,
                segment.feature + 1,
                segment.diameter.text
            );
            return conflict(faults, place.field("diameter"), message);
        }
        let name = groove.name.clone().unwrap_or_else(|| format!("groove {}", feature + 1));
        let floor = self.characteristic("diameter", &name, &groove.diameter.text, None);
        let width = self.characteristic("slot", &format!("width of {name}"), &groove.width.text, None);
        let fields = json!({
            "kind": "groove", "makes": [floor, width], "diameter": self.text(segment.diameter.limits.upper()),
            "floor_diameter": self.text(groove.diameter.limits.middle()),
            "width": self.text(groove.width.limits.middle()),
        });
        self.operation(fields, "grooves follow the turned diameter, before threads and knurls");
    }

    fn must_fit(
        &self,
        length: Size,
        segment: &Segment<'_>,
        what: &str,
        place: Place<'_>,
        faults: &mut Faults,
    ) {
        let room = segment.length.limits.nominal();
        if length > room {
            let message = format!(
                "{what} {} long does not go on feature {}, which is {} long",
                self.text(length),
                segment.feature + 1,
                self.text(room)
            );
            conflict(faults, place, message);
        }
    }

    /// Drills a hole, and taps it where it is a thread.
    fn hole(&mut self, hole: &AxialHole<'r>) {
        let name = hole.name.map_or_else(|| format!("hole {}", hole.feature + 1), Into::into);
        let bore = self.characteristic("bore", &name, &hole.text, hole.roughness);
        let deep = hole.asked.map(|asked| {
            let name = format!("depth of {name}");
            self.characteristic("depth", &name, &asked.text, None)
        });
        let whole = self.layout.length.limits.upper();
        let through = hole.bore.nominal().to_float(self.request.units);
        let breakthrough: f64 = format!("{:.3}", 0.3 * through).parse().unwrap_or(through);
        // A close hole is drilled smaller, then reamed.
        let is_close = hole.thread.is_none() && self.is_close(hole) && has_kind("ream");
        let mut drill = match is_close {
            true => {
                let under = self.before_reaming(hole);
                json!({"kind": "drill", "tool": {"diameter": self.text(under)}})
            }
            false => json!({"kind": "drill", "makes": [bore]}),
        };
        match (hole.depth, &hole.thread) {
            (None, _) => {
                drill["depth"] = self.text(whole).into();
                drill["breakthrough"] = breakthrough.into();
            }
            (Some(depth), Some(_)) => drill["depth"] = self.text(depth).into(),
            (Some(_), None) if is_close => drill["makes"] = json!([deep]),
            (Some(_), None) => drill["makes"] = json!([bore, deep]),
        }
        self.operation(
            drill,
            "holes follow the outside, from the deepest to the largest, while the end runs true",
        );
        if is_close {
            let mut ream = json!({"kind": "ream", "makes": [bore]});
            if hole.depth.is_none() {
                ream["breakthrough"] = breakthrough.into();
            }
            self.operation(ream, "reamed after its drill, for the size and the finish asked for");
        }
        let Some(thread) = &hole.thread else { return };
        let designation = match &self.request.features[hole.feature] {
            Feature::ThreadFeature(own) => own.thread.clone(),
            _ => thread.designation(),
        };
        let mut tap =
            json!({"kind": "tap", "makes": deep.into_iter().collect::<Vec<_>>(), "thread": designation});
        if hole.depth.is_none() {
            let over =
                thread.thread_pitch().checked_mul(RUN_OUT - 1).and_then(|over| whole.checked_add(over));
            tap["travel"] = self.text(over.unwrap_or(whole)).into();
        }
        self.operation(tap, "tapped right after its drill");
    }

    /// Whether a hole is closer or finer than a drill leaves it: common practice, no source.
    fn is_close(&self, hole: &AxialHole<'_>) -> bool {
        let own = allowances(self.request.units);
        hole.bore.tolerance() < own.close || hole.roughness.is_some_and(|ra| ra <= own.fine)
    }

    /// The drill before a reamer, which leaves about 0.2 mm, above 10 mm 0.3 mm, in steps of 0.1 mm or .001 in: common
    /// practice, no source.
    fn before_reaming(&self, hole: &AxialHole<'_>) -> Size {
        let left = if hole.bore.nominal() > Size::from_picometres(10_000_000_000) { 300 } else { 200 };
        let step = match self.request.units {
            Units::Inch => Size::from_picometres(25_400_000),
            Units::Metric => Size::from_picometres(100_000_000),
        };
        let under = hole.bore.middle().checked_sub(Size::from_picometres(left * 1_000_000));
        under.and_then(|under| under.round_down(step).ok()).unwrap_or(hole.bore.lower())
    }

    /// Flats and holes across the axis.
    fn across(&mut self, faults: &mut Faults) {
        let (request, layout) = (self.request, self.layout);
        for (feature, one) in request.features.iter().enumerate() {
            match one {
                Feature::Flats(flats) => {
                    if let Some(segment) = layout.carrier(feature, flats.on, faults) {
                        self.flats(feature, flats, segment, faults);
                    }
                }
                Feature::CrossHole(hole) => {
                    if let Some(segment) = layout.carrier(feature, hole.on, faults) {
                        self.cross_hole(feature, hole, segment, faults);
                    }
                }
                _ => {}
            }
        }
    }

    fn flats(&mut self, feature: usize, flats: &'r Flats, segment: &Segment<'r>, faults: &mut Faults) {
        if flats.across.limits.upper() >= segment.diameter.limits.lower() {
            let message = format!(
                "flats of {} across do not cut into feature {}, which is {} across. Fix: make them smaller",
                flats.across.text,
                segment.feature + 1,
                segment.diameter.text
            );
            return conflict(faults, FEATURES.index(feature).field("across"), message);
        }
        let name = flats.name.clone().unwrap_or_else(|| format!("flats {}", feature + 1));
        let across = self.characteristic("across_flats", &name, &flats.across.text, None);
        self.operation(
            json!({"kind": "mill_flats", "makes": [across], "across": across, "flats": flats.flats}),
            "milled after turning, so that no turning cut is interrupted",
        );
    }

    fn cross_hole(
        &mut self,
        feature: usize,
        hole: &'r CrossHole,
        segment: &Segment<'r>,
        faults: &mut Faults,
    ) {
        let bore = hole.diameter.limits.upper();
        let across = segment.diameter.limits;
        let room = segment.length.limits.nominal().min(across.lower());
        if bore >= room {
            let message = format!(
                "a cross hole of {} does not fit into feature {}, which is {} across and {} long",
                self.text(bore),
                segment.feature + 1,
                segment.diameter.text,
                self.text(segment.length.limits.nominal())
            );
            return conflict(faults, FEATURES.index(feature).field("diameter"), message);
        }
        let name = hole.name.clone().unwrap_or_else(|| format!("cross hole {}", feature + 1));
        let number = self.characteristic("bore", &name, &hole.diameter.text, None);
        let size = hole.diameter.limits.nominal().to_float(self.request.units);
        let breakthrough: f64 = format!("{:.3}", 0.3 * size).parse().unwrap_or(size);
        self.operation(
            json!({"kind": "drill", "makes": [number], "holes": hole.holes, "depth": self.text(across.upper()),
                   "breakthrough": breakthrough}),
            "drilled across after turning, so that no turning cut is interrupted",
        );
    }

    /// The characteristics of the chamfers.
    fn chamfers(&mut self, faults: &mut Faults) -> Vec<usize> {
        let request = self.request;
        let smallest = self.layout.segments.iter().map(|one| one.diameter.limits.lower()).min();
        let mut numbers = vec![];
        for (feature, one) in request.features.iter().enumerate() {
            let Feature::Chamfer(chamfer) = one else { continue };
            let size = chamfer.size.limits.upper();
            if let Some(least) =
                smallest.filter(|least| size.checked_mul(2).is_none_or(|both| both >= *least))
            {
                let message = format!(
                    "a chamfer of {} on both sides leaves nothing of a diameter of {}",
                    chamfer.size.text,
                    self.text(least)
                );
                conflict(faults, FEATURES.index(feature).field("size"), message);
            }
            let name = chamfer.name.clone().unwrap_or_else(|| format!("chamfer {}", feature + 1));
            numbers.push(self.characteristic("depth", &name, &chamfer.size.text, None));
        }
        numbers
    }
}

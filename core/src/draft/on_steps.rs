//! What is made on the steps of a draft: grooves, knurls, threads, flats, cross holes, chamfers.
use super::feature::*;
use super::kinds::has_kind;
use super::layout::{FEATURES, Segment, conflict};
use super::route::Route;
use crate::document::fault::{FaultKind, Faults, Place};
use crate::{Size, Thread};
use serde_json::json;

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

impl<'r> Route<'r> {
    /// Grooves, knurls and threads of a segment, in the order in which each leaves the next what it needs.
    pub(super) fn on_segment(&mut self, segment: &Segment<'r>, faults: &mut Faults) {
        for (feature, one) in self.request.features.iter().enumerate() {
            if let Feature::Groove(groove) = one
                && self.is_on(feature, groove.on, segment, faults)
            {
                self.groove(feature, groove, segment, faults);
            }
        }
        if let (Some(_), Feature::ThreadFeature(own)) =
            (&segment.thread, &self.request.features[segment.feature])
        {
            self.thread(segment.feature, &own.thread, segment.length.limits.nominal(), segment, faults);
        }
        for (feature, one) in self.request.features.iter().enumerate() {
            match one {
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

    /// Flats, keyseats and holes across the axis.
    pub(super) fn across(&mut self, faults: &mut Faults) {
        let (request, layout) = (self.request, self.layout);
        for (feature, one) in request.features.iter().enumerate() {
            match one {
                Feature::Flats(flats) => {
                    if let Some(segment) = layout.carrier(feature, flats.on, faults) {
                        self.flats(feature, flats, segment, faults);
                    }
                }
                Feature::KeyseatFeature(keyseat) => {
                    if let Some(segment) = layout.carrier(feature, keyseat.on, faults) {
                        self.keyseat(feature, keyseat, segment, faults);
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
        // The depth counts from the step.
        let fields = json!({"kind": "mill_flats", "makes": [across], "across": across, "flats": flats.flats,
                            "diameter": self.text(segment.diameter.limits.upper())});
        self.operation(fields, "milled after turning, so that no turning cut is interrupted");
    }

    fn keyseat(
        &mut self,
        feature: usize,
        keyseat: &'r KeyseatFeature,
        segment: &Segment<'r>,
        faults: &mut Faults,
    ) {
        let place = FEATURES.index(feature);
        self.must_fit(keyseat.length.limits.nominal(), segment, "a keyseat", place.field("length"), faults);
        if keyseat.width.limits.upper() >= segment.diameter.limits.lower() {
            let message = format!(
                "a keyseat {} wide does not go into feature {}, which is {} across. Fix: take a narrower key",
                keyseat.width.text,
                segment.feature + 1,
                segment.diameter.text
            );
            return conflict(faults, place.field("width"), message);
        }
        let name = keyseat.name.clone().unwrap_or_else(|| format!("keyseat {}", feature + 1));
        let width = self.characteristic("slot", &format!("width of {name}"), &keyseat.width.text, None);
        let long = self.characteristic("length", &format!("length of {name}"), &keyseat.length.text, None);
        let fields = json!({
            "kind": "keyseat", "makes": [width, long], "diameter": self.text(segment.diameter.limits.upper()),
        });
        self.operation(fields, "milled after turning, so that no turning cut is interrupted");
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
    pub(super) fn chamfers(&mut self, faults: &mut Faults) -> Vec<usize> {
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

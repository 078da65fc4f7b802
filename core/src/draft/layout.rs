//! The part along its axis, and whether the features fit in it.
use super::feature::*;
use super::request::DraftRequest;
use super::size::FeatureSize;
use crate::document::fault::{FaultKind, Faults, Place};
use crate::{Limits, Size, Thread, Units};

/// Pitches between the end of a thread and the floor of its hole: common practice, no source.
pub(super) const RUN_OUT: i64 = 4;

/// A length of the part with one diameter.
#[derive(Clone)]
pub(super) struct Segment<'r> {
    /// The feature that it is, counted from 0.
    pub(super) feature: usize,
    pub(super) diameter: FeatureSize,
    pub(super) length: &'r FeatureSize,
    pub(super) roughness: Option<f64>,
    pub(super) name: Option<&'r str>,
    /// The outside thread that it is.
    pub(super) thread: Option<Thread>,
}

/// The part: its segments in their order, and its length.
pub(super) struct Layout<'r> {
    pub(super) units: Units,
    pub(super) segments: Vec<Segment<'r>>,
    pub(super) length: FeatureSize,
    /// The place among the segments of the largest.
    pub(super) largest: usize,
}

pub(super) static FEATURES: Place<'static> = Place::ROOT.field("features");
pub(super) static BAR: Place<'static> = Place::ROOT.field("bar");

pub(super) fn conflict(faults: &mut Faults, place: Place<'_>, message: String) {
    faults.add(FaultKind::Conflict, place, || message);
}

impl<'r> Layout<'r> {
    /// The layout of a request, or what does not fit.
    pub(super) fn of(request: &'r DraftRequest, faults: &mut Faults) -> Option<Layout<'r>> {
        let units = request.units;
        let mut segments = vec![];
        for (feature, one) in request.features.iter().enumerate() {
            segments.extend(segment(feature, one, units, faults));
        }
        let largest =
            (0..segments.len()).max_by_key(|&k| (segments[k].diameter.limits.upper(), std::cmp::Reverse(k)));
        let Some(largest) = largest else {
            conflict(faults, FEATURES, "a part needs at least one step, e.g. {\"kind\": \"step\", \"diameter\": \"20 h9\", \"length\": 50}".into());
            return None;
        };
        let sum =
            segments.iter().try_fold(Size::ZERO, |sum, one| sum.checked_add(one.length.limits.nominal()))?;
        let whole = match &request.length {
            Some(length) => length.clone(),
            None => FeatureSize::alone(sum, units)
                .map_err(|message| conflict(faults, FEATURES, format!("the length over all: {message}")))
                .ok()?,
        };
        if !whole.limits.accepts(sum) {
            let message = format!(
                "the steps add up to {}, and the part is to be {} long. Fix: change a step, or leave out `length`",
                sum.format(units),
                whole.text
            );
            conflict(faults, Place::ROOT.field("length"), message);
        }
        let layout = Layout { units, segments, length: whole, largest };
        layout.check_threads_on_steps(request, faults);
        Some(layout)
    }

    /// The segment that a feature is on: the one of that place in the list, or the nearest before it.
    pub(super) fn carrier(
        &self,
        feature: usize,
        on: Option<u32>,
        faults: &mut Faults,
    ) -> Option<&Segment<'r>> {
        let found = match on {
            Some(number) => self.segments.iter().find(|one| one.feature + 1 == number as usize),
            None => self.segments.iter().rev().find(|one| one.feature < feature).or(self.segments.first()),
        };
        if found.is_none() {
            let steps: Vec<String> = self.segments.iter().map(|one| (one.feature + 1).to_string()).collect();
            let message = format!(
                "feature {} is not a step; the steps are features {}",
                on.unwrap_or_default(),
                steps.join(", ")
            );
            conflict(faults, FEATURES.index(feature).field("on"), message);
        }
        found
    }

    /// The segments from an end on, as far as a depth reaches.
    pub(super) fn reached(&self, end: End, depth: Size) -> Vec<&Segment<'r>> {
        let mut from = Size::ZERO;
        let mut order: Vec<&Segment<'r>> = self.segments.iter().collect();
        if end == End::Second {
            order.reverse();
        }
        let reached = order.into_iter().take_while(|one| {
            let is_before = from < depth;
            from = from.checked_add(one.length.limits.nominal()).unwrap_or(from);
            is_before
        });
        reached.collect()
    }

    /// The diameter that a segment is turned from: the least that was turned over it before; nothing for the bar.
    pub(super) fn start(&self, place: usize) -> Option<&FeatureSize> {
        let inward: Vec<usize> = match place < self.largest {
            true => (place + 1..=self.largest).rev().collect(),
            false => (self.largest..place).collect(),
        };
        let upper = |k: usize| self.segments[k].diameter.limits.upper();
        // A turn covers what lies further out as far as nothing larger stands there.
        let covers = |from: usize| {
            let (low, high) = (from.min(place), from.max(place));
            (low..=high).all(|k| upper(k) <= upper(from))
        };
        let covering = inward.into_iter().filter(|&k| covers(k)).min_by_key(|&k| upper(k))?;
        Some(&self.segments[covering].diameter)
    }

    /// How far the turn of a segment goes: over it, and over all that is no larger further out.
    pub(super) fn run(&self, place: usize) -> Option<Size> {
        let upper = |k: usize| self.segments[k].diameter.limits.upper();
        let outward: Vec<usize> = match place <= self.largest {
            true => (0..=place).rev().collect(),
            false => (place..self.segments.len()).collect(),
        };
        let covered = outward.into_iter().take_while(|&k| upper(k) <= upper(place));
        covered.map(|k| self.segments[k].length.limits.nominal()).try_fold(Size::ZERO, Size::checked_add)
    }

    fn check_threads_on_steps(&self, request: &DraftRequest, faults: &mut Faults) {
        for (feature, one) in request.features.iter().enumerate() {
            let Feature::ThreadFeature(ThreadFeature { thread, length, on: Some(on), .. }) = one else {
                continue;
            };
            let place = FEATURES.index(feature);
            let Some(step) = self.carrier(feature, Some(*on), faults) else { continue };
            let Ok(own) = Thread::parse_with_class(thread) else { continue };
            if own.nominal() != step.diameter.limits.nominal() {
                let message = format!(
                    "{thread} does not go on a step of {}: the step must be {}",
                    step.diameter.text,
                    own.nominal().format(self.units)
                );
                conflict(faults, place.field("thread"), message);
            }
            if let Some(length) =
                length.as_ref().filter(|own| own.limits.nominal() > step.length.limits.nominal())
            {
                let message = format!(
                    "a thread {} long does not go on a step {} long. Fix: shorten the thread, or lengthen the step",
                    length.limits.nominal().format(self.units),
                    step.length.limits.nominal().format(self.units)
                );
                conflict(faults, place.field("length"), message);
            }
        }
    }
}

fn segment<'r>(feature: usize, one: &'r Feature, units: Units, faults: &mut Faults) -> Option<Segment<'r>> {
    let place = FEATURES.index(feature);
    match one {
        Feature::Step(step) => Some(Segment {
            feature,
            diameter: step.diameter.clone(),
            length: &step.length,
            roughness: step.roughness.map(|ra| ra.value()),
            name: step.name.as_deref(),
            thread: None,
        }),
        Feature::ThreadFeature(own) => {
            let thread = match Thread::parse_with_class(&own.thread) {
                Ok(thread) => thread,
                Err(error) => {
                    faults.add(FaultKind::Unreadable, place.field("thread"), || error.to_string());
                    return None;
                }
            };
            if thread.is_internal() != Some(false) || own.on.is_some() {
                return None;
            }
            let Some(length) = &own.length else {
                let message = "is missing: an outside thread needs its length".to_string();
                faults.add(FaultKind::Missing, place.field("length"), || message);
                return None;
            };
            let diameter = FeatureSize::of(thread.major()?, units);
            Some(Segment {
                feature,
                diameter,
                length,
                roughness: None,
                name: own.name.as_deref(),
                thread: Some(thread),
            })
        }
        _ => None,
    }
}

/// A hole along the axis, plain or tapped.
pub(super) struct AxialHole<'r> {
    pub(super) feature: usize,
    /// Its limits before it is tapped.
    pub(super) bore: Limits,
    pub(super) text: String,
    /// Its depth at full diameter, thread and run-out included; nothing for a through hole.
    pub(super) depth: Option<Size>,
    /// The depth that the drawing asks for.
    pub(super) asked: Option<&'r FeatureSize>,
    pub(super) end: End,
    pub(super) roughness: Option<f64>,
    pub(super) name: Option<&'r str>,
    pub(super) thread: Option<Thread>,
}

impl<'r> Layout<'r> {
    /// The holes along the axis, those of each end with the deepest first.
    pub(super) fn holes(&self, request: &'r DraftRequest, faults: &mut Faults) -> Vec<AxialHole<'r>> {
        let mut holes: Vec<AxialHole<'r>> = vec![];
        for (feature, one) in request.features.iter().enumerate() {
            let hole = match one {
                Feature::Hole(hole) => Some(AxialHole {
                    feature,
                    bore: hole.diameter.limits,
                    text: hole.diameter.text.clone(),
                    depth: hole.depth.as_ref().map(|depth| depth.limits.nominal()),
                    asked: hole.depth.as_ref(),
                    end: hole.end,
                    roughness: hole.roughness.map(|ra| ra.value()),
                    name: hole.name.as_deref(),
                    thread: None,
                }),
                Feature::ThreadFeature(own) => self.tapped(feature, own),
                _ => None,
            };
            let Some(hole) = hole else { continue };
            self.check_hole(&hole, &holes, faults);
            holes.push(hole);
        }
        // A through hole is the deepest.
        holes.sort_by_key(|hole| {
            (hole.end as usize, std::cmp::Reverse(hole.depth.unwrap_or(Size::from_picometres(i64::MAX))))
        });
        holes
    }

    fn tapped(&self, feature: usize, own: &'r ThreadFeature) -> Option<AxialHole<'r>> {
        let thread = Thread::parse_with_class(&own.thread).ok()?;
        let minor = thread.minor().filter(|_| thread.is_internal() == Some(true))?;
        let room = thread.thread_pitch().checked_mul(RUN_OUT)?;
        let deep = |length: &FeatureSize| length.limits.upper().checked_add(room);
        Some(AxialHole {
            feature,
            bore: minor,
            text: minor.format(self.units),
            depth: own.length.as_ref().and_then(deep),
            asked: own.length.as_ref(),
            end: own.end,
            roughness: None,
            name: own.name.as_deref(),
            thread: Some(thread),
        })
    }

    fn check_hole(&self, hole: &AxialHole<'_>, others: &[AxialHole<'_>], faults: &mut Faults) {
        let place = FEATURES.index(hole.feature);
        let (units, whole) = (self.units, self.length.limits.nominal());
        let field = if hole.thread.is_some() { "length" } else { "depth" };
        if let Some(depth) = hole.depth.filter(|depth| *depth >= whole) {
            let (deep, remedy) = match &hole.thread {
                Some(_) => (
                    format!(
                        "the hole of this thread, {} with the run-out of the tap, goes",
                        depth.format(units)
                    ),
                    "shorten the thread, or leave out `length` for a through hole",
                ),
                None => (
                    format!("a hole {} deep goes", depth.format(units)),
                    "make it less deep, or leave out `depth` for a through hole",
                ),
            };
            let message =
                format!("{deep} through the part, which is {} long. Fix: {remedy}", whole.format(units));
            return conflict(faults, place.field(field), message);
        }
        let outer = match &hole.thread {
            Some(thread) => thread.nominal(),
            None => hole.bore.upper(),
        };
        let wall = |one: &&Segment<'_>| outer >= one.diameter.limits.lower();
        let thin = self.reached(hole.end, hole.depth.unwrap_or(whole)).into_iter().find(wall);
        if let Some(thin) = thin {
            let message = format!(
                "a hole of {} does not fit into feature {}, which is {} across and which it goes into. Fix: make the hole \
                 smaller or less deep, or the step larger",
                outer.format(units),
                thin.feature + 1,
                thin.diameter.text
            );
            let field = if hole.thread.is_some() { "thread" } else { "diameter" };
            return conflict(faults, place.field(field), message);
        }
        self.check_beside(hole, others, faults);
    }

    /// Two holes of one axis: those of an end are of different size, the larger the less deep; those of both ends do not meet.
    fn check_beside(&self, hole: &AxialHole<'_>, others: &[AxialHole<'_>], faults: &mut Faults) {
        let whole = self.length.limits.nominal();
        let deep = |hole: &AxialHole<'_>| hole.depth.unwrap_or(whole);
        for other in others {
            let place = FEATURES.index(hole.feature);
            let number = other.feature + 1;
            let is_through = hole.depth.is_none() || other.depth.is_none();
            let meets = deep(hole).checked_add(deep(other)).is_none_or(|sum| sum >= whole);
            let is_larger = hole.bore.nominal() > other.bore.nominal();
            let message = if hole.bore.nominal() == other.bore.nominal()
                && (hole.end == other.end || is_through)
            {
                format!("feature {number} is a hole of the same size there already")
            } else if hole.end == other.end && is_larger == (deep(hole) > deep(other)) {
                format!(
                    "of two holes from one end the larger must be the less deep, and feature {number} is in its way"
                )
            } else if hole.end != other.end && meets && !is_through {
                format!("this hole meets feature {number}, which comes from the other end")
            } else {
                continue;
            };
            conflict(faults, place, format!("{message}. Fix: change a depth, or leave one of them out"));
        }
    }
}

//! The feed of each segment by itself, in a loop that is compiled for the widest registers.
use super::columns::PathColumns;
use super::cut::{BareCut, FeedBound};
use super::engagement::width_ratio;
use crate::math::{arc_versine, powf_quick};
use crate::simd::{WideLoop, run_wide};
use std::f64::consts::PI;

/// What is worked out for each segment.
pub(super) struct Segments<'a> {
    pub(super) feeds: &'a mut [f64],
    pub(super) chips: &'a mut [f64],
    /// Bounds by their places.
    pub(super) bounds: &'a mut [i32],
}

/// Limits that nobody asked for are left out of the loop.
struct Feeds<'a, 'b, const FORCE: bool, const POWER: bool, const CURVE: bool> {
    cut: &'a BareCut,
    path: &'a PathColumns<'a>,
    to: &'a mut Segments<'b>,
}

/// Feeds, largest chips and bounds of all segments; a segment that cannot be has a feed of NaN, one that nothing bounds an
/// infinite one.
pub(super) fn feeds(cut: &BareCut, path: &PathColumns<'_>, to: &mut Segments<'_>) {
    let limits = [cut.force, cut.power, cut.acceleration].map(|limit| limit < f64::INFINITY);
    match limits {
        [false, false, false] => run_wide(Feeds::<false, false, false> { cut, path, to }),
        [true, false, false] => run_wide(Feeds::<true, false, false> { cut, path, to }),
        [false, true, false] => run_wide(Feeds::<false, true, false> { cut, path, to }),
        [true, true, false] => run_wide(Feeds::<true, true, false> { cut, path, to }),
        [false, false, true] => run_wide(Feeds::<false, false, true> { cut, path, to }),
        [true, false, true] => run_wide(Feeds::<true, false, true> { cut, path, to }),
        [false, true, true] => run_wide(Feeds::<false, true, true> { cut, path, to }),
        [true, true, true] => run_wide(Feeds::<true, true, true> { cut, path, to }),
    }
}

impl<const FORCE: bool, const POWER: bool, const CURVE: bool> WideLoop
    for Feeds<'_, '_, FORCE, POWER, CURVE>
{
    type Output = ();

    #[inline(always)]
    fn run(self) {
        let Feeds { cut, path, to } = self;
        let of = Numbers::of(cut);
        let columns = path.lengths.iter().zip(path.curvatures).zip(path.radial_widths).zip(path.axial_depths);
        let places = to.feeds.iter_mut().zip(to.chips.iter_mut()).zip(to.bounds.iter_mut());
        for ((((length, curvature), width), depth), ((feed, chip), bound)) in columns.zip(places) {
            let segment = of.segment::<FORCE, POWER, CURVE>(*length, *curvature, *width, *depth);
            (*feed, *chip, *bound) = segment;
        }
    }
}

/// What is the same for all segments.
#[derive(Clone, Copy)]
struct Numbers {
    cut: BareCut,
    per_diameter: f64,
    per_passing: f64,
    /// Exponent that leads from a force to a chip.
    power: f64,
    /// What of a force is left for a chip, for unit depth.
    force: f64,
    drive: f64,
    force_bound: i32,
}

impl Numbers {
    #[inline(always)]
    fn of(cut: &BareCut) -> Numbers {
        Numbers {
            cut: *cut,
            per_diameter: 1.0 / cut.diameter,
            per_passing: 1.0 / cut.passing,
            power: 1.0 / (1.0 - cut.mc),
            force: cut.force * cut.sine / cut.kc,
            drive: 2.0 * cut.power * cut.sine / (cut.diameter * cut.passing * cut.kc),
            force_bound: cut.force_bound as i32,
        }
    }

    /// Feed, largest chip and bound of a segment.
    #[inline(always)]
    fn segment<const FORCE: bool, const POWER: bool, const CURVE: bool>(
        &self,
        length: f64,
        curvature: f64,
        width: f64,
        depth: f64,
    ) -> (f64, f64, i32) {
        let cut = &self.cut;
        let (share, bend) = (width * self.per_diameter, curvature * cut.diameter);
        let ratio = width_ratio(share, bend);
        let cuts = ratio > 0.0 && depth > 0.0;
        let near = ratio.min(0.5);
        // The largest chip over the chip load.
        let largest = cut.sine * (2.0 * (near * (1.0 - near)).sqrt());
        let arc = arc_versine(2.0 * ratio);
        let per_largest = 1.0 / largest;
        let mut load = cut.chip * per_largest;
        let mut bound = FeedBound::ChipThickness as i32;
        if FORCE {
            let engaged = (cut.teeth * arc * (0.5 / PI)).ceil().max(1.0);
            let chip = powf_quick(self.force / (engaged * depth), self.power);
            let least = chip * per_largest;
            // A limit that is not a number is not passed over.
            bound = if least >= load { bound } else { self.force_bound };
            load = if least >= load { load } else { least };
        }
        if POWER {
            let mean = powf_quick(self.drive / (arc * depth), self.power);
            let least = mean * arc / (2.0 * cut.sine * ratio);
            bound = if least >= load { bound } else { FeedBound::Power as i32 };
            load = if least >= load { load } else { least };
        }
        let mut feed = if cuts { load * cut.passing } else { f64::INFINITY };
        bound = if cut.feed < feed { FeedBound::FeedRate as i32 } else { bound };
        feed = feed.min(cut.feed);
        if CURVE {
            let across = (cut.acceleration / curvature.abs()).sqrt();
            bound = if across < feed { FeedBound::Curve as i32 } else { bound };
            feed = feed.min(across);
        }
        let sound = length > 0.0
            && length < f64::INFINITY
            && (-2.0..f64::INFINITY).contains(&bend)
            && (0.0..=1.0).contains(&share)
            && (0.0..f64::INFINITY).contains(&depth);
        feed = if sound { feed } else { f64::NAN };
        let chip = if cuts { feed * self.per_passing * largest } else { 0.0 };
        (feed, chip, bound)
    }
}

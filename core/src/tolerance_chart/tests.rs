//! Charts at random against every corner of their working dimensions, and the errors.
use super::chart::MAX_LENGTH;
use super::*;
use crate::Limits;
use crate::object::{Object as _, Restored as _};
use crate::size::Size;
use proptest::prelude::*;
use std::collections::BTreeSet;

fn limits(text: &str) -> Limits {
    Limits::parse(text).unwrap_or_else(|error| panic!("{error}"))
}

fn size(text: &str) -> Size {
    Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
}

/// Draws of small numbers from a seed.
struct Draws(u64);

impl Draws {
    fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % end
    }

    fn limits(&mut self) -> Limits {
        let lower = self.below(4_000) as i64 - 1_000;
        Limits::between(picometres(lower), picometres(lower + self.below(60) as i64)).unwrap()
    }

    /// Two different numbers.
    fn two_below(&mut self, end: usize) -> [usize; 2] {
        let one = self.below(end);
        [one, (one + 1 + self.below(end - 1)) % end]
    }
}

fn picometres(count: i64) -> Size {
    Size::from_picometres(count)
}

const NAMES: [&str; 5] = ["a", "b", "c", "d", "e"];

/// A chart in which every face comes to be: some in the stock, the others and more by cuts.
fn random_chart(draws: &mut Draws, mut working: impl FnMut(&mut Draws) -> Working) -> OperationChart {
    let count = 2 + draws.below(4);
    let mut chart = OperationChart::new();
    for name in &NAMES[..count] {
        chart = chart.face(name, if draws.below(2) == 0 { Facing::Left } else { Facing::Right });
    }
    let mut order: Vec<usize> = (0..count).collect();
    for k in 0..count {
        order.swap(k, k + draws.below(count - k));
    }
    let given = 1 + draws.below(count);
    chart = chart.datum(NAMES[order[0]]);
    for k in 1..given {
        let [one, other] = [NAMES[order[k]], NAMES[order[draws.below(k)]]];
        let (face, from) = if draws.below(2) == 0 { (one, other) } else { (other, one) };
        let working = working(draws);
        chart = chart.stock(face, from, working);
    }
    let mut there = given;
    while there < count || draws.below(3) > 0 && chart.cuts.len() < 7 {
        let makes = there < count && draws.below(2) == 0;
        let [face, from] = match makes {
            true => [there, draws.below(there)],
            false if there > 1 => draws.two_below(there),
            false => continue,
        };
        let mut cut = Cut::new("10", NAMES[order[face]], NAMES[order[from]], working(draws));
        if !makes {
            cut = cut.removing(picometres(draws.below(40) as i64));
        }
        there += usize::from(makes);
        chart = chart.cut(cut);
    }
    chart
}

/// Where the faces are, and what the cuts remove, when each working dimension has a size.
fn made(chart: &OperationChart, sizes: &[i64]) -> (Vec<i64>, Vec<Option<i64>>) {
    let place = |name: &str| chart.faces.iter().position(|face| face.name == name).unwrap();
    let mut at: Vec<Option<i64>> = vec![None; chart.faces.len()];
    at[place(&chart.datums[0])] = Some(0);
    let beside =
        |face: usize, from: usize, at: i64, size: i64| if from < face { at + size } else { at - size };
    for (stock, size) in chart.stock.iter().zip(sizes) {
        let [face, from] = [place(&stock.face), place(&stock.from)];
        match (at[face], at[from]) {
            (None, Some(datum)) => at[face] = Some(beside(face, from, datum, *size)),
            (Some(datum), None) => at[from] = Some(beside(from, face, datum, *size)),
            _ => panic!("the stock is given in the order of its faces"),
        }
    }
    let mut removals = vec![];
    for (cut, size) in chart.cuts.iter().zip(&sizes[chart.stock.len()..]) {
        let [face, from] = [place(&cut.face), place(&cut.from)];
        let new = beside(face, from, at[from].unwrap(), *size);
        let outward = if chart.faces[face].facing == Facing::Left { -1 } else { 1 };
        removals.push(at[face].map(|old| (old - new) * outward));
        at[face] = Some(new);
    }
    (at.into_iter().map(Option::unwrap).collect(), removals)
}

/// The least and the greatest of each, over all corners.
fn corners(chart: &OperationChart) -> (Vec<[i64; 2]>, Vec<Option<[i64; 2]>>) {
    let ends: Vec<[i64; 2]> = chart
        .working()
        .map(|(_, working)| match working {
            Working::Limits(limits) => [limits.lower(), limits.upper()].map(Size::picometres),
            Working::Holds(_) => panic!("no limits"),
        })
        .collect();
    let place = |name: &str| chart.faces.iter().position(|face| face.name == name).unwrap();
    let mut dimensions = vec![[i64::MAX, i64::MIN]; chart.drawing.len()];
    let mut removals = vec![None; chart.cuts.len()];
    let widen = |range: &mut [i64; 2], size: i64| *range = [range[0].min(size), range[1].max(size)];
    for corner in 0..1_u32 << ends.len() {
        let sizes: Vec<i64> =
            ends.iter().enumerate().map(|(k, ends)| ends[(corner >> k & 1) as usize]).collect();
        let (at, removed) = made(chart, &sizes);
        for (range, dimension) in dimensions.iter_mut().zip(&chart.drawing) {
            let [one, other] = [place(&dimension.face), place(&dimension.from)];
            widen(range, at[one.max(other)] - at[one.min(other)]);
        }
        for (range, removed) in removals.iter_mut().zip(removed) {
            if let Some(removed) = removed {
                widen(range.get_or_insert([i64::MAX, i64::MIN]), removed);
            }
        }
    }
    (dimensions, removals)
}

fn ends(limits: &Limits) -> [i64; 2] {
    [limits.lower(), limits.upper()].map(Size::picometres)
}

/// A chart whose drawing gives every face a place, by a tree of dimensions.
fn random_task(draws: &mut Draws, widest: usize) -> OperationChart {
    let mut chart = random_chart(draws, |draws| Working::Holds(picometres(1 + draws.below(20) as i64)));
    for (k, name) in NAMES.iter().enumerate().take(chart.faces.len()).skip(1) {
        let other = draws.below(k);
        let lower = draws.below(4_000) as i64;
        let limits =
            Limits::between(picometres(lower), picometres(lower + draws.below(widest) as i64)).unwrap();
        chart = chart.drawing(&format!("{k}"), name, NAMES[other], limits);
    }
    chart
}

proptest! {
    #[test]
    fn every_corner_lies_within_and_the_ends_are_reached(seed: u64) {
        let draws = &mut Draws(seed);
        let mut chart = random_chart(draws, |draws| Working::Limits(draws.limits()));
        for k in 0..3 {
            let [one, other] = draws.two_below(chart.faces.len());
            let limits = draws.limits();
            chart = chart.drawing(&format!("{k}"), NAMES[one], NAMES[other], limits);
        }
        let result = chart.evaluate()?;
        let (dimensions, removals) = corners(&chart);
        for (told, range) in result.dimensions.iter().zip(&dimensions) {
            prop_assert_eq!(&ends(&told.made.unwrap()), range);
            let [lower, upper] = ends(&told.limits.unwrap());
            prop_assert_eq!(told.good, Some(lower <= range[0] && range[1] <= upper));
            prop_assert_eq!(told.lower_margin, Some(picometres(range[0] - lower)));
            prop_assert_eq!(told.upper_margin, Some(picometres(upper - range[1])));
        }
        let told: Vec<_> = result.removals.iter().map(|told| (told.number, ends(&told.made.unwrap()))).collect();
        let brute: Vec<_> = removals.iter().enumerate().filter_map(|(k, range)| Some((k, (*range)?))).collect();
        prop_assert_eq!(told, brute);
        for told in &result.removals {
            let wanted = chart.cuts[told.number].least_removal;
            prop_assert_eq!(told.good, Some(told.made.unwrap().lower() >= wanted));
        }
        let bad = result.dimensions.iter().chain(&result.removals).filter(|told| told.good == Some(false));
        prop_assert_eq!(result.findings.len(), bad.count());
        prop_assert_eq!(result.good, result.findings.is_empty());
        prop_assert_eq!(&result.chart(), &chart);
        prop_assert_eq!(ChartResult::restore(&result.tell()), Some(result));
    }

    #[test]
    fn derived_dimensions_are_sound_if_the_processes_can_hold_the_drawing(
        seed: u64, widest in prop_oneof![Just(30_usize), Just(400)], step in 1_i64..6,
    ) {
        let chart = random_task(&mut Draws(seed), widest);
        let result = chart.derive(Some(picometres(step)))?;
        let derived = result.chart();
        let (dimensions, removals) = corners(&derived);
        // What each process holds to either side, in steps.
        let holds: Vec<i64> = chart.working().map(|(_, working)| match working {
            Working::Holds(holds) => holds.picometres().unsigned_abs().div_ceil(2 * step as u64) as i64,
            Working::Limits(_) => panic!("nothing was given"),
        }).collect();
        let chain = |row: &ChartRow| -> Vec<usize> {
            row.signs.iter().enumerate().filter(|(_, sign)| **sign != 0).map(|(k, _)| k).collect()
        };
        let shares: Vec<i64> = derived.working().map(|(_, working)| match working {
            Working::Limits(limits) => limits.upper_deviation().picometres() / step,
            Working::Holds(_) => panic!("nothing stays open"),
        }).collect();
        for ((_, working), (share, holds)) in derived.working().zip(shares.iter().zip(&holds)) {
            let Working::Limits(limits) = working else { panic!("nothing stays open") };
            prop_assert!(share >= holds);
            prop_assert!(ends(&limits).iter().all(|end| end % step == 0));
            prop_assert_eq!(limits.upper_deviation().checked_neg(), Some(limits.lower_deviation()));
        }
        let mut bounded = BTreeSet::new();
        for (told, (dimension, range)) in result.dimensions.iter().zip(chart.drawing.iter().zip(&dimensions)) {
            let [lower, upper] = ends(&dimension.limits);
            // The best mean on the grid, found by trying them all.
            let room = (lower / step - 1..=upper / step + 1).map(|mean| (mean * step - lower).min(upper - mean * step));
            let room = room.max().unwrap().div_euclid(step);
            let links = chain(told);
            let needed: i64 = links.iter().map(|&k| holds[k]).sum();
            prop_assert_eq!(told.good, Some(needed <= room));
            prop_assert_eq!(lower <= range[0] && range[1] <= upper, needed <= room);
            let given: i64 = links.iter().map(|&k| shares[k]).sum();
            if given + links.len() as i64 > room {
                bounded.extend(links);
            }
        }
        // No share could be larger: some drawing dimension of its chain has less than a step for each link left.
        for told in &result.dimensions {
            prop_assert!(chain(told).iter().all(|k| bounded.contains(k)));
        }
        for (cut, removal) in derived.cuts.iter().zip(&removals) {
            prop_assert!(removal.is_none_or(|removal| removal[0] >= cut.least_removal.picometres()));
        }
        prop_assert!(result.removals.iter().all(|told| told.good == Some(true)));
        prop_assert_eq!(result, derived.evaluate()?);
    }

    #[test]
    fn no_chart_panics(
        faces in 0_usize..4,
        steps in prop::collection::vec((0_usize..5, 0_usize..5, any::<i64>(), any::<i64>(), any::<bool>()), 0..8),
        resolution in prop_oneof![Just(None), any::<i64>().prop_map(Some)],
    ) {
        let mut chart = OperationChart::new();
        for name in &NAMES[..faces] {
            chart = chart.face(name, Facing::Left);
        }
        for (k, (face, from, one, other, open)) in steps.into_iter().enumerate() {
            let limits = Limits::between(picometres(one.min(other)), picometres(one.max(other)));
            let Ok(limits) = limits else { continue };
            let working = if open { Working::Holds(picometres(one)) } else { limits.into() };
            let [face, from] = [NAMES[face], NAMES[from]];
            chart = match k % 3 {
                0 => chart.stock(face, from, working),
                1 => chart.cut(Cut::new("10", face, from, working).removing(picometres(other))),
                _ => chart.drawing("x", face, from, limits),
            };
        }
        let _ = (chart.evaluate(), chart.derive(resolution.map(picometres)));
    }
}

#[test]
fn the_widest_charts_are_derived_in_time_and_in_range() {
    // A ladder of faces, each cut from the one before, and the drawing from the first to each: long chains.
    let names: Vec<String> = (0..MAX_ENTRIES).map(|k| k.to_string()).collect();
    let greatest = MAX_LENGTH.picometres();
    let drawn = Limits::between(picometres(-greatest), picometres(greatest)).unwrap();
    for (holds, resolution) in [(1, 1), (greatest, 1), (greatest, i64::MAX), (1, 7)] {
        let mut chart = OperationChart::new().datum("0");
        for name in &names {
            chart = chart.face(name, Facing::Right);
        }
        for k in 1..MAX_ENTRIES {
            let cut = Cut::new("10", &names[k], &names[k - 1], Working::Holds(picometres(holds)));
            chart = chart.cut(cut).drawing("x", &names[k], "0", drawn);
        }
        match chart.derive(Some(picometres(resolution))) {
            Ok(derived) => assert_eq!(derived.good, holds == 1),
            Err(error) => assert!(matches!(error, ChartError::OutOfRange { .. }) && holds > 1, "{error}"),
        }
    }
}

#[test]
fn faults_are_told() {
    let faces =
        || OperationChart::new().face("a", Facing::Left).face("b", Facing::Right).face("c", Facing::Right);
    let chart = || faces().stock("b", "a", limits("10 ±0.1 mm"));
    let cut = |face: &str, from: &str| Cut::new("10", face, from, limits("9 ±0.1 mm"));
    let told = |chart: OperationChart| chart.evaluate().unwrap_err().to_string();
    for (chart, message) in [
        (chart().face("a", Facing::Left), "two faces are named `a`"),
        (chart().cut(cut("b", "x")), "operation 10, `b` from `x`: there is no face `x`"),
        (faces().datum("x"), "datum: there is no face `x`"),
        (chart().cut(cut("b", "b")), "this one is from `b` to itself"),
        (chart().cut(cut("b", "c")), "operation 10, `b` from `c`: the face `c` does not exist yet"),
        (
            chart().drawing("L", "c", "a", limits("9 ±1 mm")),
            "drawing dimension `L`: the face `c` does not exist yet",
        ),
        (chart().stock("a", "b", limits("9 ±1 mm")), "stock `a` from `b`: the distance follows"),
        (
            faces().datum("a").datum("b").drawing("L", "b", "a", limits("9 ±1 mm")),
            "drawing dimension `L`: no chain of working dimensions joins",
        ),
        (
            faces().datum("a").datum("b").datum("c").cut(cut("b", "a")),
            "`b` from `a`: no chain of working dimensions",
        ),
        (
            chart().cut(cut("b", "a").removing(size("-1 mm"))),
            "the least removal must be zero or more, not -1 mm",
        ),
        (chart().cut(cut("c", "a").removing(size("1 mm"))), "the cut makes a new face"),
        (faces().stock("b", "a", Working::Holds(size("1 mm"))), "stock `b` from `a`: there are no limits"),
        (chart().cut(Cut::new("10", "b", "a", limits("0..9e8 mm"))), "out of range"),
        (
            (0..=MAX_ENTRIES).fold(chart(), |chart, _| chart.cut(cut("b", "a"))),
            "a chart takes at most 200 cuts, not 201",
        ),
    ] {
        let error = told(chart);
        assert!(error.contains(message), "{error}");
    }
    assert_eq!(Facing::parse("up").unwrap_err().to_string(), "a face must face left or right, not `up`");
    assert!(chart().evaluate().unwrap().good);
}

#[test]
fn faults_of_deriving_are_told() {
    let holds = |text: &str| Working::Holds(size(text));
    let chart = |text: &str| {
        let faces =
            ["a", "b", "c"].iter().fold(OperationChart::new(), |chart, name| chart.face(name, Facing::Right));
        let chart = faces.datum("a").cut(Cut::new("10", "b", "a", holds(text)));
        chart.cut(Cut::new("10", "c", "a", holds(text))).drawing("b", "b", "a", limits("9 ±1 mm"))
    };
    let told = |chart: OperationChart| chart.derive(None).unwrap_err().to_string();
    assert!(told(chart("1 mm")).contains("operation 10, `c` from `a`: no drawing dimension"));
    assert!(told(chart("0 mm")).contains("a process cannot hold a tolerance of 0 mm"));
    let full = chart("1 mm").drawing("c", "c", "b", limits("9 ±1 mm"));
    assert!(full.derive(None).unwrap().good);
    assert_eq!(
        full.derive(Some(Size::ZERO)).unwrap_err().to_string(),
        "the resolution must be greater than 0, not 0 mm"
    );
    assert!(
        told(full.drawing("d", "c", "a", limits("9 ±1 mm")))
            .contains("drawing dimension `d`: the distance follows")
    );
}

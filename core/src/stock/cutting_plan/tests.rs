use super::*;
use crate::Units;
use crate::size::Size;
use crate::watch::{Stopped, Watch};

fn mm(length: f64) -> Size {
    Size::from_float(length, Units::Metric).unwrap()
}

fn plan(
    pieces: &[(f64, u64)],
    bars: &[(f64, Option<u64>, Option<f64>)],
    kerf: f64,
) -> Result<CuttingPlan, CuttingError> {
    let pieces: Vec<_> =
        pieces.iter().map(|&(length, count)| OrderedPiece { length: mm(length), count }).collect();
    let bars: Vec<_> = bars
        .iter()
        .map(|&(length, available, price)| CuttingBar { length: mm(length), available, price })
        .collect();
    cutting_plan(&pieces, &bars, &CuttingOptions { kerf: mm(kerf), ..Default::default() }, &Watch::new())
}

#[test]
fn the_last_piece_needs_no_cut() {
    // 5 · 1197 + 4 · 3 = 5997, by arithmetic of lengths.
    let plan = plan(&[(1197.0, 25)], &[(5997.0, None, None)], 3.0).unwrap();
    assert_eq!((plan.bars, plan.proven, plan.layouts.len()), (5, true, 1));
    assert_eq!((plan.layouts[0].times, plan.layouts[0].leftover), (5, Size::ZERO));
    assert_eq!(plan.utilisation, 5985.0 / 5997.0);
    assert_eq!(plan.kerf_share, 12.0 / 5997.0);
}

#[test]
fn the_last_cut_takes_what_there_is() {
    // 1000 - 3 · 300 - 2 · 40 = 20 is left for the third cut, which would take 40.
    let plan = plan(&[(300.0, 3)], &[(1000.0, None, None)], 40.0).unwrap();
    assert_eq!((plan.bars, plan.layouts[0].leftover, plan.kerf_share), (1, Size::ZERO, 0.1));
}

#[test]
fn no_piece_is_cut_that_nobody_wants() {
    let pieces = [(2100.0, 7), (1500.0, 7), (1150.0, 7)];
    let plan = plan(&pieces, &[(6000.0, None, None)], 0.0).unwrap();
    for (length, count) in pieces {
        let cut = |layout: &CuttingLayout| {
            let of = layout.pieces.iter().filter(|piece| piece.length == mm(length));
            of.map(|piece| piece.count * layout.times).sum::<u64>()
        };
        assert_eq!(plan.layouts.iter().map(cut).sum::<u64>(), count, "{length}");
    }
}

#[test]
fn nothing_wanted_takes_no_bar() {
    let plan = plan(&[(100.0, 0)], &[(6000.0, None, Some(6.0))], 2.0).unwrap();
    assert_eq!((plan.bars, plan.cost, plan.proven, plan.utilisation), (0, Some(0.0), true, 0.0));
}

#[test]
fn a_bar_no_longer_than_its_trim_holds_nothing() {
    let bars = [CuttingBar { length: mm(60.0), available: None, price: None }];
    let options = CuttingOptions { end_trim: mm(60.0), ..Default::default() };
    let plan = cutting_plan(&[], &bars, &options, &Watch::new()).unwrap();
    assert_eq!((plan.bars, plan.proven), (0, true));
}

#[test]
fn free_bars_cost_nothing() {
    let plan =
        plan(&[(1000.0, 12)], &[(3000.0, Some(4), Some(0.0)), (6000.0, None, Some(5.5))], 0.0).unwrap();
    assert_eq!((plan.cost, plan.bars, plan.proven), (Some(0.0), 4, true));
}

#[test]
fn what_cannot_be_is_refused_in_plain_words() {
    let refused = |result: Result<CuttingPlan, CuttingError>| result.unwrap_err().to_string();
    let bars = [(6000.0, None, None)];
    assert_eq!(
        refused(plan(&[(6000.0, 1), (6000.001, 1)], &bars, 3.0)),
        "a piece of 6000.001 mm does not fit: the longest bar leaves 6000 mm for one piece"
    );
    assert_eq!(
        refused(plan(&[(0.0, 1)], &bars, 3.0)),
        "a length of piece must be greater than zero, not 0 mm"
    );
    assert_eq!(refused(plan(&[(10.0, 1)], &bars, -1.0)), "the kerf must be zero or more, not -1 mm");
    assert_eq!(
        refused(plan(&[(10.0, 1)], &[(6000.0, None, None), (3000.0, None, Some(2.0))], 0.0)),
        "some bars have a price and some have none: give a price for each kind of bar, or for none"
    );
    assert_eq!(
        refused(plan(&[(1000.0, 13)], &[(6000.0, Some(2), None)], 0.0)),
        "the bars do not hold all pieces: 2 of 6000 mm"
    );
    assert!(matches!(plan(&[(1.0, 1)], &[], 0.0), Err(CuttingError::NoBars)));
    assert!(matches!(
        plan(&[(1.0, 1)], &[(10.0, None, Some(f64::NAN))], 0.0),
        Err(CuttingError::Price { .. })
    ));
}

#[test]
fn a_search_without_work_gives_what_it_has_and_no_proof() {
    let pieces: Vec<_> =
        (0..40).map(|k| OrderedPiece { length: mm(311.0 + 61.7 * f64::from(k)), count: 9 }).collect();
    let bars = [CuttingBar { length: mm(6000.0), available: None, price: None }];
    let limited = CuttingOptions { work_limit: Some(100_000), ..Default::default() };
    match cutting_plan(&pieces, &bars, &limited, &Watch::new()) {
        Ok(plan) => assert!(plan.proven || plan.gap > 0.0),
        Err(error) => assert_eq!(error, CuttingError::NoPlanYet),
    }
    let watch = Watch::new();
    watch.stop();
    let stopped = cutting_plan(&pieces, &bars, &CuttingOptions::default(), &watch);
    assert_eq!(stopped, Err(CuttingError::Stopped(Stopped)));
}

//! One cutting plan for several orders, with each order's share of it.
use super::cutting_plan::{
    CuttingBar, CuttingError, CuttingOptions, CuttingPlan, OrderedPiece, cutting_plan,
};
use crate::size::Size;
use crate::watch::Watch;
use tenths_macros::Object;

/// Pieces that are wanted for one order.
#[derive(Clone, PartialEq, Debug)]
pub struct CuttingOrder {
    /// The name or number of the order.
    pub name: String,
    /// The pieces.
    pub pieces: Vec<OrderedPiece>,
}

/// An order's share of the bars.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct OrderShare {
    /// The order.
    pub order: String,
    /// Its pieces.
    #[pure]
    pub pieces: u64,
    /// The length of its pieces.
    pub length: Size,
    /// Its share of the plan: what its pieces take, with their facing and a kerf each, of what all pieces take.
    #[pure]
    pub share: f64,
    /// That share of the number of bars.
    #[pure]
    pub bars: f64,
    /// That share of the cost, where the bars have prices.
    #[pure]
    pub cost: Option<f64>,
}

/// Which pieces of a layout are for which order.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct OrderCut {
    /// The layout, counted from 1 in the order of the plan.
    #[pure]
    pub layout: u64,
    /// The order.
    pub order: String,
    /// The length of a piece.
    pub length: Size,
    /// How many, of all bars of that layout together.
    #[pure]
    pub count: u64,
}

/// A cutting plan for several orders.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct SharedCuttingPlan {
    /// The plan of all pieces together.
    pub plan: CuttingPlan,
    /// The share of each order, in the order they were given.
    pub shares: Vec<OrderShare>,
    /// What is cut for whom. Pieces of one length go to the order that was given first until it has them all.
    pub cuts: Vec<OrderCut>,
}

/// One plan for the pieces of several orders, which share the bars, and what part of it is each order's.
///
/// What the bars lose to cuts, trim and leftovers is borne in proportion to what the pieces of an order take.
///
/// # Errors
/// [`CuttingError`], also where an order has no name of its own.
pub fn shared_cutting_plan(
    orders: &[CuttingOrder],
    bars: &[CuttingBar],
    options: &CuttingOptions,
    watch: &Watch<'_>,
) -> Result<SharedCuttingPlan, CuttingError> {
    for (at, order) in orders.iter().enumerate() {
        if orders[..at].iter().any(|other| other.name == order.name) {
            return Err(CuttingError::OrderTwice { name: crate::error::excerpt(&order.name) });
        }
    }
    let pieces: Vec<OrderedPiece> = orders.iter().flat_map(|order| order.pieces.iter().copied()).collect();
    let plan = cutting_plan(&pieces, bars, options, watch)?;
    let each = |piece: &OrderedPiece| {
        let taken = [piece.length, options.facing_allowance, options.kerf];
        taken.iter().map(|size| i128::from(size.picometres())).sum::<i128>() * i128::from(piece.count)
    };
    let taken = |order: &CuttingOrder| order.pieces.iter().map(each).sum::<i128>();
    let all: i128 = orders.iter().map(taken).sum();
    let shares = orders.iter().map(|order| share(order, taken(order), all, &plan));
    Ok(SharedCuttingPlan { shares: shares.collect::<Result<_, _>>()?, cuts: cuts(orders, &plan), plan })
}

fn share(
    order: &CuttingOrder,
    taken: i128,
    all: i128,
    plan: &CuttingPlan,
) -> Result<OrderShare, CuttingError> {
    let share = if all == 0 { 0.0 } else { taken as f64 / all as f64 };
    let length =
        order.pieces.iter().map(|piece| i128::from(piece.length.picometres()) * i128::from(piece.count));
    Ok(OrderShare {
        order: order.name.clone(),
        pieces: order.pieces.iter().map(|piece| piece.count).sum(),
        length: i64::try_from(length.sum::<i128>())
            .map(Size::from_picometres)
            .map_err(|_| CuttingError::TooLarge)?,
        share,
        bars: share * plan.bars as f64,
        cost: plan.cost.map(|cost| share * cost),
    })
}

/// Hands the pieces of the layouts to the orders that want them, the first order first.
fn cuts(orders: &[CuttingOrder], plan: &CuttingPlan) -> Vec<OrderCut> {
    let mut wanted: Vec<(usize, OrderedPiece)> = orders
        .iter()
        .enumerate()
        .flat_map(|(at, order)| order.pieces.iter().map(move |piece| (at, *piece)))
        .collect();
    let mut cuts: Vec<OrderCut> = Vec::new();
    for (layout, number) in plan.layouts.iter().zip(1..) {
        for piece in &layout.pieces {
            let mut left = piece.count * layout.times;
            for (at, want) in wanted.iter_mut().filter(|want| want.1.length == piece.length) {
                let count = want.count.min(left);
                if count == 0 {
                    continue;
                }
                want.count -= count;
                left -= count;
                let order = &orders[*at].name;
                match cuts.last_mut() {
                    Some(last)
                        if (last.layout, last.length) == (number, piece.length) && last.order == *order =>
                    {
                        last.count += count;
                    }
                    _ => cuts.push(OrderCut {
                        layout: number,
                        order: order.clone(),
                        length: piece.length,
                        count,
                    }),
                }
            }
        }
    }
    cuts
}

impl std::fmt::Display for SharedCuttingPlan {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "SharedCuttingPlan of {} orders; {}", self.shares.len(), self.plan)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(length: i64) -> Size {
        Size::from_picometres(length * 1_000_000_000)
    }

    fn order(name: &str, pieces: &[(i64, u64)]) -> CuttingOrder {
        let piece = |&(length, count): &(i64, u64)| OrderedPiece { length: mm(length), count };
        CuttingOrder { name: name.into(), pieces: pieces.iter().map(piece).collect() }
    }

    fn planned(orders: &[CuttingOrder], kerf: i64) -> Result<SharedCuttingPlan, CuttingError> {
        let bars = [CuttingBar { length: mm(6000), available: None, price: Some(30.0) }];
        let options = CuttingOptions { kerf: mm(kerf), ..Default::default() };
        shared_cutting_plan(orders, &bars, &options, &Watch::new())
    }

    // Apart, 2 pieces of 4000 and 2 of 2000 take 2 bars and 1 bar; together 2 bars of 4000 + 2000, all used: by hand.
    #[test]
    fn orders_share_bars() {
        let made = planned(&[order("a", &[(4000, 2)]), order("b", &[(2000, 2)])], 0).unwrap();
        assert_eq!((made.plan.bars, made.plan.cost, made.plan.proven), (2, Some(60.0), true));
        let shares: Vec<_> = made.shares.iter().map(|share| (share.share, share.bars, share.cost)).collect();
        assert_eq!(shares, [(2.0 / 3.0, 4.0 / 3.0, Some(40.0)), (1.0 / 3.0, 2.0 / 3.0, Some(20.0))]);
        assert_eq!(made.cuts.iter().map(|cut| (cut.layout, cut.count)).collect::<Vec<_>>(), [(1, 2), (1, 2)]);
    }

    #[test]
    fn pieces_of_one_length_go_to_the_first_order_first() {
        let made = planned(&[order("a", &[(1000, 4)]), order("b", &[(1000, 8), (500, 0)])], 0).unwrap();
        let cut =
            |name: &str| made.cuts.iter().filter(|cut| cut.order == name).map(|cut| cut.count).sum::<u64>();
        assert_eq!((cut("a"), cut("b"), made.plan.bars), (4, 8, 2));
        assert_eq!(made.cuts[0].order, "a");
    }

    #[test]
    fn nothing_wanted_shares_nothing() {
        let made = planned(&[order("a", &[]), order("b", &[(1000, 0)])], 3).unwrap();
        assert!(made.shares.iter().all(|share| share.share == 0.0 && share.cost == Some(0.0)));
        assert!(made.cuts.is_empty());
        let twice = planned(&[order("a", &[]), order("a", &[])], 3).unwrap_err().to_string();
        assert_eq!(twice, "two orders are named \"a\": give each order a name of its own");
    }
}

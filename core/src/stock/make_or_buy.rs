//! Ways to get a size: which of them meet the drawing, what they cost, and at what quantity they break even.
use super::error::StockError;
use crate::error::excerpt;
use crate::limits::Limits;
use tenths_macros::Object;

/// A way to get a size: bought as it is, cut from a larger bar, ground.
#[derive(Clone, PartialEq, Debug)]
pub struct Supply {
    /// What it is called.
    pub name: String,
    /// The limits that it keeps, such as those of the bar's tolerance class; none where it is made to the drawing.
    pub limits: Option<Limits>,
    /// What it costs once: setting up, ordering.
    pub fixed: f64,
    /// What each piece costs.
    pub each: f64,
}

/// A way to get a size, judged.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct SupplyRow {
    /// What it is called.
    pub name: String,
    /// The limits that it keeps; absent where it is made to the drawing.
    pub limits: Option<Limits>,
    /// Whether all it may give is within the limits of the drawing.
    pub meets: bool,
    /// What it costs once.
    #[pure]
    pub fixed: f64,
    /// What each piece costs.
    #[pure]
    pub each: f64,
    /// What the quantity costs.
    #[pure]
    pub cost: f64,
    /// What a piece costs with its part of the fixed cost; absent where nothing is wanted.
    #[pure]
    pub cost_each: Option<f64>,
    /// The least quantity at which it is the cheapest that meets the drawing; absent where it never is.
    #[pure]
    pub cheapest_from: Option<u64>,
    /// The greatest such quantity; absent where it never is the cheapest, or always is from there on.
    #[pure]
    pub cheapest_to: Option<u64>,
}

/// Where one way becomes cheaper than another.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct BreakEven {
    /// The way that is cheapest below.
    pub below: String,
    /// The way that is cheapest above.
    pub above: String,
    /// The quantity at which both cost the same, seldom a whole number.
    #[pure]
    pub quantity: f64,
    /// The least whole quantity at which the second is cheaper.
    #[pure]
    pub cheaper_from: u64,
}

/// Ways to get a size of a drawing, side by side.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct MakeOrBuy {
    /// The limits of the drawing.
    pub drawing: Limits,
    /// How many pieces are wanted.
    #[pure]
    pub quantity: u64,
    /// The cheapest way that meets the drawing; absent where none does.
    pub best: Option<String>,
    /// Every way, in the order given.
    pub rows: Vec<SupplyRow>,
    /// Where the cheapest way changes, by rising quantity.
    pub break_evens: Vec<BreakEven>,
}

/// Amounts of money are compared as whole numbers of this part, so that no rounding decides.
const BILLION: f64 = 1e9;
/// The greatest amount of money.
const MAX_MONEY: f64 = 1e9;
/// More pieces are not counted.
const MAX_PIECES: u64 = 1_000_000_000_000;

/// Judges ways to get a size of a drawing: whether the limits of each lie within those of the drawing, what the quantity
/// costs, and at what quantity another way becomes the cheapest.
///
/// Stock as bought meets a size where all that its tolerance class allows is good; a bar that happens to measure well
/// does not count. Money is compared to a billionth; of ways that cost the same, the one that is given first counts.
///
/// ```
/// use tenths::Limits;
/// use tenths::stock::{Supply, make_or_buy};
/// let limits = |text| Limits::parse(text).unwrap();
/// let ways = [
///     Supply { name: "as bought".into(), limits: Some(limits("20 h11")), fixed: 0.0, each: 1.1 },
///     Supply { name: "turned".into(), limits: None, fixed: 62.0, each: 9.35 },
///     Supply { name: "ground".into(), limits: None, fixed: 415.0, each: 6.9 },
/// ];
/// let judged = make_or_buy(limits("20 h9"), &ways, 100)?;
/// assert_eq!(judged.best.as_deref(), Some("turned"));
/// assert_eq!(judged.break_evens[0].cheaper_from, 145);
/// # Ok::<(), tenths::stock::StockError>(())
/// ```
///
/// # Errors
/// [`StockError`] if no way is given, two have the same name, or an amount or the quantity is out of range.
pub fn make_or_buy(drawing: Limits, ways: &[Supply], quantity: u64) -> Result<MakeOrBuy, StockError> {
    check(ways, quantity)?;
    let lines: Vec<Line> = ways.iter().map(Line::of).collect();
    let meets: Vec<bool> =
        ways.iter().map(|way| way.limits.is_none_or(|limits| drawing.contains(&limits))).collect();
    let candidates: Vec<usize> = (0..ways.len()).filter(|&way| meets[way]).collect();
    let steps = cheapest(&lines, &candidates);
    let best = candidates.iter().copied().min_by_key(|&way| (lines[way].cost(quantity), way));
    let rows = ways.iter().enumerate().map(|(at, way)| {
        let place = steps.iter().position(|step| step.way == at);
        let next = place.and_then(|place| steps.get(place + 1));
        let cost = lines[at].cost(quantity) as f64 / BILLION;
        SupplyRow {
            name: way.name.clone(),
            limits: way.limits,
            meets: meets[at],
            fixed: way.fixed,
            each: way.each,
            cost,
            cost_each: (quantity > 0).then(|| cost / quantity as f64),
            cheapest_from: place.map(|place| steps[place].from),
            cheapest_to: next.map(|next| next.from - 1),
        }
    });
    let break_evens = steps.windows(2).map(|two| BreakEven {
        below: ways[two[0].way].name.clone(),
        above: ways[two[1].way].name.clone(),
        quantity: lines[two[0].way].meeting(&lines[two[1].way]),
        cheaper_from: two[1].from,
    });
    Ok(MakeOrBuy {
        drawing,
        quantity,
        best: best.map(|way| ways[way].name.clone()),
        rows: rows.collect(),
        break_evens: break_evens.collect(),
    })
}

fn check(ways: &[Supply], quantity: u64) -> Result<(), StockError> {
    if ways.is_empty() {
        return Err(StockError::Nothing { what: "ways to get the size" });
    }
    if quantity > MAX_PIECES {
        return Err(StockError::TooLarge);
    }
    for (at, way) in ways.iter().enumerate() {
        for (what, amount) in [("the fixed cost", way.fixed), ("the cost of each piece", way.each)] {
            if !(0.0..=MAX_MONEY).contains(&amount) {
                return Err(StockError::Money { what, name: excerpt(&way.name), amount });
            }
        }
        if ways[..at].iter().any(|other| other.name == way.name) {
            return Err(StockError::Twice { what: "way", name: excerpt(&way.name) });
        }
    }
    Ok(())
}

/// What a way costs by quantity, in billionths.
struct Line {
    fixed: i128,
    each: i128,
}

impl Line {
    fn of(way: &Supply) -> Self {
        let whole = |amount: f64| (amount * BILLION).round() as i128;
        Self { fixed: whole(way.fixed), each: whole(way.each) }
    }

    fn cost(&self, quantity: u64) -> i128 {
        self.fixed + self.each * i128::from(quantity)
    }

    /// The quantity at which two ways cost the same.
    fn meeting(&self, other: &Self) -> f64 {
        (other.fixed - self.fixed) as f64 / (self.each - other.each) as f64
    }

    /// The least quantity at which another way is cheaper, if its pieces are.
    fn overtaken(&self, other: &Self) -> Option<u64> {
        let saved = self.each - other.each;
        let more = other.fixed - self.fixed;
        (saved > 0).then(|| u64::try_from(more.max(0) / saved + 1).unwrap_or(u64::MAX))
    }
}

/// A way that is the cheapest from a quantity on.
struct Step {
    way: usize,
    from: u64,
}

/// The cheapest ways by rising quantity, from one piece on.
fn cheapest(lines: &[Line], candidates: &[usize]) -> Vec<Step> {
    let first = candidates.iter().copied().min_by_key(|&way| (lines[way].cost(1), way));
    let mut steps: Vec<Step> = first.map(|way| Step { way, from: 1 }).into_iter().collect();
    while let Some(last) = steps.last() {
        let next = candidates
            .iter()
            .filter_map(|&way| Some((lines[last.way].overtaken(&lines[way])?, way)))
            .min_by_key(|&(from, way)| (from, lines[way].cost(from), way));
        match next {
            Some((from, way)) if from <= MAX_PIECES => steps.push(Step { way, from }),
            _ => break,
        }
    }
    steps
}

impl std::fmt::Display for MakeOrBuy {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.best {
            Some(best) => {
                write!(f, "MakeOrBuy: {best} is the cheapest of {} for {}", self.rows.len(), self.quantity)
            }
            None => write!(f, "MakeOrBuy: none of {} ways meets {}", self.rows.len(), self.drawing),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn way(name: &str, fixed: f64, each: f64) -> Supply {
        Supply { name: name.into(), limits: None, fixed, each }
    }

    fn judged(ways: &[Supply], quantity: u64) -> MakeOrBuy {
        make_or_buy(Limits::parse("20 h9").unwrap(), ways, quantity).unwrap()
    }

    // 62 + 9.35 q and 415 + 6.90 q meet at 353 / 2.45 = 144.08; at 144 the first costs less: by hand.
    #[test]
    fn two_ways_break_even() {
        let ways = [way("turned", 62.0, 9.35), way("ground", 415.0, 6.9)];
        let at = judged(&ways, 145);
        assert_eq!((at.break_evens[0].quantity * 1e6).round() / 1e6, 144.081633);
        assert_eq!((at.break_evens[0].cheaper_from, at.best.as_deref()), (145, Some("ground")));
        assert_eq!(judged(&ways, 144).best.as_deref(), Some("turned"));
        assert_eq!((at.rows[0].cheapest_from, at.rows[0].cheapest_to), (Some(1), Some(144)));
        assert_eq!((at.rows[1].cost, at.rows[0].cost), (1415.5, 1417.75));
    }

    // 40 + 5.50 q and 220 + 4 q both cost 700 at 120: the second is cheaper from 121 on.
    #[test]
    fn a_tie_leaves_the_first() {
        let ways = [way("a", 40.0, 5.5), way("b", 220.0, 4.0)];
        let tie = judged(&ways, 120);
        assert_eq!((tie.break_evens[0].quantity, tie.break_evens[0].cheaper_from), (120.0, 121));
        assert_eq!((tie.best.as_deref(), tie.rows[0].cost, tie.rows[1].cost), (Some("a"), 700.0, 700.0));
    }

    // Whatever the quantity, the step that it falls in is the cheapest way.
    #[test]
    fn the_steps_agree_with_the_costs() {
        let ways = [
            way("a", 5.0, 9.0),
            way("b", 60.0, 7.0),
            way("c", 30.0, 8.0),
            way("d", 100.0, 6.5),
            way("e", 0.0, 12.0),
        ];
        let drawn = judged(&ways, 1);
        for quantity in 1..500 {
            let at = judged(&ways, quantity);
            let cheapest = drawn.rows.iter().find(|row| {
                row.cheapest_from.is_some_and(|from| from <= quantity)
                    && row.cheapest_to.is_none_or(|to| quantity <= to)
            });
            let cost = |name: &str| at.rows.iter().find(|row| row.name == name).unwrap().cost;
            assert_eq!(cost(&cheapest.unwrap().name), cost(at.best.as_deref().unwrap()), "{quantity}");
        }
    }

    #[test]
    fn stock_meets_a_size_where_its_whole_class_does() {
        let bought =
            |class: &str| Supply { limits: Some(Limits::parse(class).unwrap()), ..way(class, 0.0, 1.0) };
        let at = judged(&[bought("20 h9"), bought("20 h8"), bought("20 h11"), bought("20 k6")], 10);
        assert_eq!(at.rows.iter().map(|row| row.meets).collect::<Vec<_>>(), [true, true, false, false]);
        let none = judged(&[bought("20 h11")], 10);
        assert_eq!((none.best, none.rows[0].cheapest_from, none.break_evens.len()), (None, None, 0));
    }

    #[test]
    fn prices_of_zero_and_a_million_pieces() {
        let free = judged(&[way("free", 0.0, 0.0), way("dear", 1.0, 1.0)], 1_000_000);
        assert_eq!(
            (free.best.as_deref(), free.rows[0].cost, free.rows[1].cost),
            (Some("free"), 0.0, 1_000_001.0)
        );
        assert_eq!((free.rows[0].cheapest_to, free.break_evens.len()), (None, 0));
        let nothing = judged(&[way("a", 3.0, 1.0)], 0);
        assert_eq!((nothing.rows[0].cost, nothing.rows[0].cost_each), (3.0, None));
    }

    #[test]
    fn what_cannot_be_is_refused_in_plain_words() {
        let refused =
            |ways: &[Supply]| make_or_buy(Limits::parse("20 h9").unwrap(), ways, 1).unwrap_err().to_string();
        assert_eq!(refused(&[]), "there are no ways to get the size: give at least one");
        let need = "the fixed cost of \"a\" must be zero or more and at most 1 000 000 000, not NaN";
        assert_eq!(refused(&[way("a", f64::NAN, 1.0)]), need);
        assert_eq!(
            refused(&[way("a", 0.0, 1.0), way("a", 0.0, 1.0)]),
            "\"a\" is named twice: give each way a name of its own"
        );
    }
}

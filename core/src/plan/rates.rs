//! The rates that a quote is worked out from: machines, material, tools, outside work, and what comes on top.
use crate::Size;
use crate::document::Decimal;
use crate::document::fault::DocumentError;
use crate::document::form::*;
use crate::document::node::Tree;
use crate::quantity::{Mass, Ratio, Time, Units};

objects! {
    /// What a shop charges by. Money is in decimals, exact, without a sign of the currency.
    Rates {
        /// The currency, as the quote shows it: `EUR`, `USD`.
        currency: String,
        /// The decimals of an amount of money: 2 for cents, 0 where the currency has nothing smaller.
        decimals: u32 = 2,
        /// How a tie is rounded. Every line of a quote is rounded once.
        rounding: TieRounding = TieRounding::HalfEven,
        /// Which price governs.
        price_governs: PriceGoverns = PriceGoverns::Each,
        /// Where pieces to start are rounded up.
        starts: StartsRounded = StartsRounded::EachOperation,
        /// The machines and benches, each with its rate.
        machines: Vec<MachineRate> = Vec::new(),
        /// Which machine, set-up time and scrap hold for a kind of operation that does not say so itself. The first entry
        /// with the kind counts.
        operations: Vec<OperationRate> = Vec::new(),
        /// Operations whose running time falls as the pieces add up. The first entry with the number or the kind counts.
        learning: Vec<LearningRate> = Vec::new(),
        /// What the material costs.
        material: Option<MaterialRate>,
        /// What tools cost, and how long they last.
        tools: Vec<ToolRate> = Vec::new(),
        /// Work that is done outside the shop.
        outside: Vec<OutsideRate> = Vec::new(),
        /// What it takes to move a lot to the next machine.
        moves: Option<MoveRate>,
        /// Money for each lot: papers, packing, dispatch.
        order_handling: Decimal where NonNegative = Decimal::ZERO,
        /// Administration and sales, as a share of the manufacturing cost.
        admin: Decimal where NonNegative = Decimal::ZERO,
        /// The margin: the share of the price that is not cost. 0.2 leaves 20 percent of the price.
        margin: Option<Decimal> where Share,
        /// The markup: what is added to the cost, as a share of the cost. 0.25 adds a quarter of the cost.
        markup: Option<Decimal> where NonNegative,
        /// The least that a lot is sold for.
        minimum_charge: Decimal where NonNegative = Decimal::ZERO,
    } => rules {
        decimals => few_decimals;
        margin, markup => margin_or_markup;
    }

    /// A machine or a bench.
    MachineRate {
        /// Its name, by which operations name it.
        name: String,
        /// Money for an hour, that of the operator included unless `labour` stands beside it.
        rate: Decimal where NonNegative,
        /// Money for an hour of the operator that comes on top of the rate.
        labour: Decimal where NonNegative = Decimal::ZERO,
    }

    /// What holds for kinds of operation.
    OperationRate {
        /// The kinds of operation.
        kinds: Vec<String>,
        /// The machine.
        machine: String,
        /// The time to set up for a lot.
        setup: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
        /// The share of pieces that the operation scraps.
        scrap: Decimal where Share = Decimal::ZERO,
    }

    /// How the running time of operations falls: a doubling of the pieces brings it to a rate.
    LearningRate {
        /// The kinds of operation.
        kinds: Vec<String> = Vec::new(),
        /// The operations by their numbers as the process sheet writes them.
        operations: Vec<u32> = Vec::new(),
        /// What the rate is of: it makes a third of difference or so.
        model: LearningModel,
        /// What a doubling of the pieces brings the time to: 0.9 for 90 percent.
        rate: DocumentNumber<Ratio> where Positive,
        /// The piece that takes the time of the plan: 1 for a time of the first piece, more for that of a practised hand. By the
        /// cumulative average it is the mean of all pieces up to that one.
        planned_piece: u32 where Positive = 1,
        /// Pieces that were made before this lot and are still in the hands.
        made_before: u32 = 0,
    } => rules {
        kinds, operations => learns_somewhere;
        rate => rate_of_learning;
        planned_piece, made_before => few_pieces;
    }

    /// What the material costs, by exactly one of the four prices.
    MaterialRate {
        /// Money for a kilogram, or in an inch plan a pound.
        price_per_mass: Option<Decimal> where NonNegative,
        /// Money for a metre, or in an inch plan a foot.
        price_per_length: Option<Decimal> where NonNegative,
        /// Money for a bar.
        price_per_bar: Option<Decimal> where NonNegative,
        /// Money for a blank, where pieces are not cut from bars.
        price_each: Option<Decimal> where NonNegative,
        /// Money that scrap fetches for a kilogram or a pound; it needs `finished_mass`.
        scrap_price: Option<Decimal> where NonNegative,
        /// The mass of a finished piece.
        finished_mass: Option<DocumentNumber<Mass>> where Positive,
        /// What is left of the last bar is kept, and credited at its price, from this length on; without it nothing is.
        remnant_kept_from: Option<Size> where Positive,
    } => rules {
        price_per_mass, price_per_length, price_per_bar, price_each => one_price;
        scrap_price, finished_mass, price_each => scrap_is_weighed;
    }

    /// A tool that wears, by exactly one life.
    ToolRate {
        /// Its name: that of the tool in an operation.
        name: String,
        /// The kind of operation that it is for, where the tool is not named there.
        kind: Option<String>,
        /// Money for a new one.
        price: Decimal where NonNegative,
        /// The edges that it has, each of which lasts for one life.
        edges: u32 where Positive = 1,
        /// How often it is reground, each time for another life.
        regrinds: u32 = 0,
        /// Money for a regrind.
        regrind_price: Decimal where NonNegative = Decimal::ZERO,
        /// The cutting time that an edge lasts for.
        life: Option<DocumentNumber<Time>> where Positive,
        /// The holes that an edge lasts for.
        life_holes: Option<u32> where Positive,
        /// The pieces that an edge lasts for.
        life_pieces: Option<Decimal> where Positive,
        /// The time to change or turn an edge.
        change: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        life, life_holes, life_pieces => one_life;
    }

    /// Work that is done outside the shop, by exactly one of its prices.
    OutsideRate {
        /// What it is.
        name: String,
        /// The kinds of operation that it is for, which then need no machine; without them it is charged for each good piece.
        kinds: Vec<String> = Vec::new(),
        /// Money for a piece.
        price: Option<Decimal> where NonNegative,
        /// Money for a kilogram or a pound of finished pieces; it needs `finished_mass` of the material.
        price_per_mass: Option<Decimal> where NonNegative,
        /// The least that a lot is charged.
        minimum: Decimal where NonNegative = Decimal::ZERO,
        /// Money for each lot to send and fetch it.
        freight: Decimal where NonNegative = Decimal::ZERO,
    } => rules {
        price, price_per_mass => one_outside_price;
    }

    /// What it takes to move a lot to the next machine.
    MoveRate {
        /// The time of a move.
        time: DocumentNumber<Time> where NonNegative,
        /// Money for an hour.
        rate: Decimal where NonNegative,
    }
}

choices! {
    /// What a rate of learning is of.
    LearningModel {
        /// The time of a piece: piece 2 n takes the rate times the time of piece n.
        Unit = "unit",
        /// The mean time of all pieces so far: the mean of 2 n pieces is the rate times the mean of n.
        CumulativeAverage = "cumulative_average",
    }

    /// How a tie is rounded.
    TieRounding {
        /// To the even last digit.
        HalfEven = "half_even",
        /// Away from zero.
        HalfUp = "half_up",
    }

    /// Which price governs.
    PriceGoverns {
        /// The price each, rounded once; the total is the quantity times it, and a line tells the rounding.
        Each = "each",
        /// The price of the lot; the price each is shown rounded, and what it leaves is told as the residue.
        Lot = "lot",
    }

    /// Where pieces to start are rounded up.
    StartsRounded {
        /// At every operation, backwards from the good pieces.
        EachOperation = "each_operation",
        /// Once, from the rolled yield.
        Rolled = "rolled",
    }
}

impl Rates {
    /// Reads rates from JSON text, in the units of a plan.
    ///
    /// # Errors
    /// [`DocumentError`] with every fault, each with its place in the text. Kinds of operation and names of machines are
    /// judged when a plan is quoted.
    pub fn from_json(text: &str, units: Units) -> Result<Rates, DocumentError> {
        let tree = Tree::parse(text)?;
        let mut context = Context::new(units, Default::default());
        let rates = Rates::decode(&tree.root(), Place::ROOT, &mut context);
        let faults = context.into_faults();
        rates.filter(|_| faults.count() == 0).ok_or_else(|| faults.into())
    }
}

fn learns_somewhere(kinds: &[String], operations: &[u32]) -> Option<String> {
    let none = kinds.is_empty() && operations.is_empty();
    none.then(|| "names no operation: give `kinds`, `operations` or both".into())
}

fn rate_of_learning(rate: &DocumentNumber<Ratio>) -> Option<String> {
    let rate = rate.value();
    (!(0.5..=1.0).contains(&rate))
        .then(|| format!("a rate of learning must be 0.5 to 1, e.g. 0.9 for 90 percent, not {rate}"))
}

/// The most pieces of learning before a lot.
const MAX_LEARNT: u32 = 100_000_000;

fn few_pieces(planned: &u32, before: &u32) -> Option<String> {
    let most = planned.max(before);
    (*most > MAX_LEARNT)
        .then(|| format!("learning counts at most {MAX_LEARNT} pieces before a lot, not {most}"))
}

fn few_decimals(decimals: &u32) -> Option<String> {
    (*decimals > 4).then(|| format!("an amount has 0 to 4 decimals, not {decimals}"))
}

fn margin_or_markup(margin: &Option<Decimal>, markup: &Option<Decimal>) -> Option<String> {
    match (margin, markup) {
        (Some(_), Some(_)) => {
            Some("give `margin`, a share of the price, or `markup`, a share of the cost, and not both".into())
        }
        _ => None,
    }
}

fn one_price(
    mass: &Option<Decimal>,
    length: &Option<Decimal>,
    bar: &Option<Decimal>,
    each: &Option<Decimal>,
) -> Option<String> {
    let given = [mass, length, bar, each].iter().filter(|price| price.is_some()).count();
    (given != 1)
        .then(|| "give one of `price_per_mass`, `price_per_length`, `price_per_bar` and `price_each`".into())
}

fn scrap_is_weighed(
    scrap: &Option<Decimal>,
    finished: &Option<DocumentNumber<Mass>>,
    each: &Option<Decimal>,
) -> Option<String> {
    match (scrap, finished, each) {
        (Some(_), None, _) => {
            Some("the value of scrap needs the mass of a finished piece: give `finished_mass`".into())
        }
        (Some(_), Some(_), Some(_)) => Some(
            "the scrap of blanks is not weighed: leave out `scrap_price`, or buy by mass, length or bar"
                .into(),
        ),
        _ => None,
    }
}

fn one_life(
    life: &Option<DocumentNumber<Time>>,
    holes: &Option<u32>,
    pieces: &Option<Decimal>,
) -> Option<String> {
    let given = usize::from(life.is_some()) + usize::from(holes.is_some()) + usize::from(pieces.is_some());
    (given != 1).then(|| "give one of `life`, `life_holes` and `life_pieces`".into())
}

fn one_outside_price(each: &Option<Decimal>, mass: &Option<Decimal>) -> Option<String> {
    (each.is_some() == mass.is_some()).then(|| "give one of `price` and `price_per_mass`".into())
}

//! The question in whole numbers, as the search reads it.

/// What is wanted of one length of piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Demand {
    /// What a piece takes of a bar, in picometres: its length and one kerf.
    pub weight: i64,
    /// How many are wanted.
    pub count: i64,
}

/// One kind of bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bar {
    /// What its pieces may take, in picometres: its length less its trim, and one kerf that the last piece does
    /// not need.
    pub capacity: i64,
    /// What it costs, in whole units of the objective.
    pub cost: i64,
    /// How many there are, if that is limited.
    pub available: Option<i64>,
}

/// Pieces to cut and bars to cut them from. Costs have no common divisor, so that a bound can be rounded up to the
/// next whole number.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    pub demands: Vec<Demand>,
    pub bars: Vec<Bar>,
}

/// What one bar is cut into.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) struct Pattern {
    /// Which kind of bar.
    pub bar: usize,
    /// Which pieces, by their place in the problem, in rising order, and how many of each.
    pub pieces: Vec<(usize, i64)>,
}

impl Pattern {
    /// The pattern without the pieces that nobody wants any more.
    pub fn clipped(&self, demands: &[i64]) -> Self {
        let wanted = |&(piece, count): &(usize, i64)| (piece, count.min(demands[piece]));
        Self { bar: self.bar, pieces: self.pieces.iter().map(wanted).filter(|piece| piece.1 > 0).collect() }
    }
}

impl Pattern {
    /// Whether the pattern, or a larger one, becomes this one when it is clipped to `wanted`, and did not when
    /// `before` was wanted.
    pub fn stands_for_others(&self, problem: &Problem, before: &[i64], wanted: &[i64]) -> bool {
        let mut counts = vec![0; wanted.len()];
        self.pieces.iter().for_each(|&(piece, count)| counts[piece] = count);
        let taken: i64 =
            self.pieces.iter().map(|&(piece, count)| problem.demands[piece].weight * count).sum();
        let rest = problem.bars[self.bar].capacity - taken;
        counts.iter().enumerate().any(|(piece, &count)| {
            wanted[piece] < count
                || (wanted[piece] == count && before[piece] > count && problem.demands[piece].weight <= rest)
        })
    }
}

/// Patterns with the number of bars that are cut by each.
pub(super) type Layouts = Vec<(Pattern, i64)>;

impl Problem {
    /// What layouts cost.
    pub fn cost(&self, layouts: &Layouts) -> i64 {
        layouts.iter().map(|(pattern, times)| self.bars[pattern.bar].cost * times).sum()
    }
}

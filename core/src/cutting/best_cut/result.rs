//! The best cut as it is handed out.
use super::flat::flat_range;
use super::limits::Limits;
use super::model::Model;
use super::search::Found;
use crate::error::{WithUnit, to_digits};
use crate::math::exp;
use crate::object::ByName;
use crate::quantity::Units;
use tenths_macros::Object;

/// The best cut of a formula within limits, and how surely.
///
/// A starting point for a trial: forces are known within about a fifth, and tool life less surely. Whether the grip
/// holds, the tool is sound and the guards are in place is not judged here.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct BestCut {
    /// The formula.
    pub formula: String,
    /// The unit system of every number: those are in its shop units.
    pub system: Units,
    /// The objective, at its best.
    #[pure]
    pub objective: f64,
    /// No cut within the limits has a lower objective; of one that is kept high, none has a higher. Absent where a
    /// function of the caller's is the objective, of which nothing is known between the points that were tried.
    #[pure]
    pub lower_bound: Option<f64>,
    /// The chosen arguments, and behind them the unknowns.
    pub chosen: ByName<f64>,
    /// All arguments of the formula, the chosen ones among them.
    pub arguments: ByName<f64>,
    /// The results of the formula for them.
    pub results: ByName<f64>,
    /// What was worked out beside the formula: time, tool life, edges for a piece, laws of the caller.
    pub figures: ByName<f64>,
    /// The limits at which the cut stands, by the names of the figures that they limit.
    pub binding: Vec<String>,
    /// What one unit more of room at a binding limit is worth, in units of the objective.
    pub prices: ByName<f64>,
    /// The least that each chosen argument may be, the others as they are, before the objective is a hundredth worse or
    /// a limit is in the way.
    pub flat_from: ByName<f64>,
    /// The greatest that each may be, on the same terms.
    pub flat_to: ByName<f64>,
    /// The chosen arguments as the machine can be set, the best of them; empty without steps.
    pub set: ByName<f64>,
    /// The objective with them.
    #[pure]
    pub set_objective: Option<f64>,
    /// Limits of the machine that the formula has no figure for.
    pub unchecked: Vec<String>,
}

impl std::fmt::Display for BestCut {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let chosen = self.chosen.iter().map(|(name, &value)| format!("{name} {}", to_digits(value, 5)));
        write!(f, "{}: {}", self.formula, chosen.collect::<Vec<_>>().join(", "))?;
        write!(f, "; objective {}", WithUnit(to_digits(self.objective, 6), ""))?;
        match self.binding.is_empty() {
            true => write!(f, "; no limit binds"),
            false => write!(f, "; bound by {}", self.binding.join(", ")),
        }
    }
}

/// The result of a search.
pub(super) fn result(model: &Model<'_>, limits: &Limits<'_>, found: &Found) -> BestCut {
    let row = tidied(model, limits, &found.row);
    let figures = model.exact(&row).unwrap_or_default();
    let mut best = plain(model, limits, &row, &figures);
    let (objective, bound) = (model.objective(&figures), model.objective_of(found.bound));
    best.objective = objective;
    best.lower_bound = Some(if model.inverted { bound.max(objective) } else { bound.min(objective) });
    let worth = if model.inverted { objective } else { objective - model.constant };
    let price_of = |name: &str| {
        let named =
            (0..limits.count()).filter(|&limit| limits.name(limit) == name && limits.binds(limit, &figures));
        let price = |limit: usize| {
            let rows = found.program.rows.iter().zip(&found.least.prices);
            let price: f64 = rows.filter(|(row, _)| row.limit == Some(limit)).map(|(_, price)| price).sum();
            price * worth / limits.value(limit, &figures)
        };
        named.map(price).fold(0.0, f64::max)
    };
    let is_straight = |name: &&String| !model.bent.iter().any(|&place| model.name(place) == **name);
    best.prices =
        best.binding.iter().filter(is_straight).map(|name| (name.clone(), price_of(name))).collect();
    let flat: Vec<_> = (0..model.straight.len() + model.bent.len())
        .map(|k| flat_range(model, limits, found, &row, k))
        .collect();
    let name = |place: usize| model.name(place).to_owned();
    best.flat_from = flat.iter().map(|&(place, low, _)| (name(place), low)).collect();
    best.flat_to = flat.iter().map(|&(place, _, high)| (name(place), high)).collect();
    best
}

/// A cut with its figures and the limits at which it stands, without objective, bound or prices.
pub(super) fn plain(model: &Model<'_>, limits: &Limits<'_>, row: &[f64], figures: &[f64]) -> BestCut {
    let problem = model.problem;
    let (formula, arguments) = (problem.formula, problem.formula.arguments.len());
    let by_place = |place: usize| (model.name(place).to_owned(), row[place]);
    let mut binding: Vec<String> = vec![];
    let mut bind = |name: &str| {
        if !binding.iter().any(|known| known == name) {
            binding.push(name.into());
        }
    };
    (0..limits.count())
        .filter(|&limit| limits.binds(limit, figures))
        .for_each(|limit| bind(limits.name(limit)));
    for (&place, stretch) in model.bent.iter().zip(&model.stretches) {
        if row[place] == stretch.low || row[place] == stretch.high {
            bind(model.name(place));
        }
    }
    let chosen = problem.choose.iter();
    let chosen = chosen.filter_map(|choice| formula.arguments.iter().position(|a| a.name == choice.name));
    let chosen = chosen.chain(arguments..model.width());
    let none = || std::iter::empty::<(String, f64)>().collect();
    BestCut {
        formula: formula.name.into(),
        system: problem.units,
        objective: f64::NAN,
        lower_bound: None,
        chosen: chosen.map(by_place).collect(),
        arguments: (0..arguments).map(by_place).collect(),
        results: (0..formula.outputs.len())
            .map(|k| (formula.output_name(k), figures[model.width() + k]))
            .collect(),
        figures: model.derived_of(figures).map(|(name, value)| (name.to_owned(), value)).collect(),
        binding,
        prices: none(),
        flat_from: none(),
        flat_to: none(),
        set: none(),
        set_objective: None,
        unchecked: limits.unchecked.iter().map(|&name| name.into()).collect(),
    }
}

/// The row with short numbers, such as the end of a range for what is a millionth of a millionth within it, where the
/// limits still hold; another chosen argument may give way by as little.
fn tidied(model: &Model<'_>, limits: &Limits<'_>, row: &[f64]) -> Vec<f64> {
    let mut tidy = row.to_vec();
    let rounding = !model.exact(row).is_some_and(|figures| limits.hold(&figures, false));
    let holds = |row: &[f64]| model.exact(row).is_some_and(|figures| limits.hold(&figures, rounding));
    let ranges = model.ranges.iter().map(|&(low, high)| [exp(low), exp(high)]);
    for (&place, ends) in model.straight.iter().zip(ranges) {
        let own = row[place];
        let near = |short: &f64| (short - own).abs() <= 1e-8 * own;
        let mut shorts = ends.into_iter().map(|end| to_digits(end, 12)).chain([to_digits(own, 6)]);
        let Some(short) = shorts.find(near) else { continue };
        let share = 2.0 * (short - own).abs() / own;
        let others = model.straight.iter().filter(|&&other| other != place);
        let nudges = others.flat_map(|&other| [(other, 1.0 - share), (other, 1.0 + share)]);
        for (other, by) in std::iter::once((place, 1.0)).chain(nudges) {
            let mut tried = tidy.clone();
            tried[place] = short;
            tried[other] *= by;
            if holds(&tried) {
                tidy = tried;
                break;
            }
        }
    }
    tidy
}

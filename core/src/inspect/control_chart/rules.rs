//! Patterns of points that a stable process seldom makes.
use tenths_macros::Choice;

/// A set of numbered rules. Rule 1 of each set is a point beyond the control limits.
///
/// Every window of points that ends at a point and holds the pattern breaks the rule there, whether or not that last
/// point lies beyond the line itself. No window reaches into another phase.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default, Choice)]
pub enum RuleSet {
    /// Rule 1 alone: a point beyond the limits.
    Limits,
    /// The four of Western Electric: 2, two of three beyond two standard deviations on one side; 3, four of five beyond
    /// one; 4, eight in a row on one side of the centre.
    #[default]
    WesternElectric,
    /// The eight of Nelson: 2, nine in a row on one side of the centre; 3, six in a row that rise or fall; 4, fourteen
    /// that alternate; 5, two of three beyond two standard deviations on one side; 6, four of five beyond one; 7, fifteen
    /// within one; 8, eight beyond one on either side.
    Nelson,
}

/// A pattern: a number, and whether it ends at a point. Distances are from the centre, in standard deviations.
type Rule = (usize, fn(&[f64]) -> bool);

/// Source: Western Electric, Statistical Quality Control Handbook, 1956, tests for instability; as in the
/// NIST/SEMATECH e-Handbook, 6.3.2.
const WESTERN_ELECTRIC: &[Rule] =
    &[(2, |d| beyond(d, 2.0, 2, 3)), (3, |d| beyond(d, 1.0, 4, 5)), (4, |d| beyond(d, 0.0, 8, 8))];

/// Source: L. S. Nelson, The Shewhart Control Chart: Tests for Special Causes, Journal of Quality Technology 16 (1984).
const NELSON: &[Rule] = &[
    (2, |d| beyond(d, 0.0, 9, 9)),
    (3, |d| last(d, 6).is_some_and(|d| runs(d, 1.0) || runs(d, -1.0))),
    (4, |d| last(d, 14).is_some_and(alternates)),
    (5, |d| beyond(d, 2.0, 2, 3)),
    (6, |d| beyond(d, 1.0, 4, 5)),
    (7, |d| last(d, 15).is_some_and(|d| d.iter().all(|x| x.abs() < 1.0))),
    (8, |d| last(d, 8).is_some_and(|d| d.iter().all(|x| x.abs() > 1.0))),
];

/// The rules after the first that end at a point.
pub(super) fn broken(set: RuleSet, distances: &[f64], place: usize) -> Vec<usize> {
    let rules = match set {
        RuleSet::Limits => &[],
        RuleSet::WesternElectric => WESTERN_ELECTRIC,
        RuleSet::Nelson => NELSON,
    };
    let before = distances.get(..=place).unwrap_or(distances);
    rules.iter().filter(|(_, ends)| ends(before)).map(|(number, _)| *number).collect()
}

fn last(distances: &[f64], count: usize) -> Option<&[f64]> {
    distances.get(distances.len().checked_sub(count)?..)
}

/// Whether `count` of the last `window` points lie beyond a line on one side. The window may not be full yet.
fn beyond(distances: &[f64], line: f64, count: usize, window: usize) -> bool {
    let seen = &distances[distances.len().saturating_sub(window)..];
    let above = seen.iter().filter(|distance| **distance > line).count();
    let below = seen.iter().filter(|distance| **distance < -line).count();
    above >= count || below >= count
}

/// Whether each point lies further on in a direction than the one before.
fn runs(distances: &[f64], direction: f64) -> bool {
    distances.windows(2).all(|pair| direction * (pair[1] - pair[0]) > 0.0)
}

/// Whether each step goes the other way than the one before.
fn alternates(distances: &[f64]) -> bool {
    distances.windows(3).all(|three| (three[1] - three[0]) * (three[2] - three[1]) < 0.0)
}

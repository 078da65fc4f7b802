//! Which limits cannot hold together, and what would end it.
use super::limits::{Limits, slack};
use super::problem::{Contradiction, LimitChange};
use super::program::{MAX_UNKNOWNS, Program, Row, Vector};
use crate::math::exp;

/// Limits that meet but for this, in logarithms, hold together.
const MEETS: f64 = 1e-9;

/// The limits that contradict each other in the programme in which they are nearest to meeting.
pub(super) fn contradiction(limits: &Limits<'_>, programs: impl Iterator<Item = Program>) -> Contradiction {
    let nearest = programs
        .map(|program| (excess(&program, |_| true), program))
        .min_by(|(a, _), (b, _)| a.1.total_cmp(&b.1));
    let Some(((_, share), program)) = nearest else {
        return Contradiction { limits: vec![], share: f64::INFINITY };
    };
    let needed = irreducible(&program);
    let changes = needed.iter().map(|row| {
        let limit = row.limit.unwrap_or_default();
        let alone = excess(&program, |other| same(other, row));
        let (place, least) = (limits.place_of(limit), limits.is_least(limit));
        // The point of a programme gives the spindle speed, at which a curve has a value.
        let figures = figures(limits, &alone.0);
        let value = limits.value(limit, &figures);
        let by = if least { exp(-alone.1) } else { exp(alone.1) };
        LimitChange {
            name: limits.name(limit).into(),
            least,
            limit: value,
            needed: (alone.1.is_finite() && alone.1 < 12.0).then_some(value * by),
            unit: limits.model.unit(place),
        }
    });
    Contradiction { limits: changes.collect(), share: exp(share) - 1.0 }
}

/// A point, and by how much the rows that give must give there; infinity where that does not help.
fn excess(program: &Program, give: impl Fn(&Row) -> bool) -> (Vector, f64) {
    let mut middle = [0.0; MAX_UNKNOWNS];
    for (to, (low, high)) in middle.iter_mut().zip(&program.ranges) {
        *to = 0.5 * (low + high);
    }
    // First the rows that do not give must hold by themselves.
    let fixed: Vec<Row> = program.rows.iter().filter(|row| !give(row)).copied().collect();
    let only_fixed = Program { rows: fixed, ..program.clone() };
    let worst =
        |rows: &[Row], at: &Vector| rows.iter().map(|row| -slack(row, at)).fold(f64::NEG_INFINITY, f64::max);
    let mut start = middle;
    if !only_fixed.rows.is_empty() {
        let (at, left) = only_fixed.widest(middle, worst(&only_fixed.rows, &middle), |_| true);
        if left > MEETS {
            return (middle, f64::INFINITY);
        }
        start = at;
    }
    let mut open = program.clone();
    if worst(&only_fixed.rows, &start) >= 0.0 {
        open.rows.iter_mut().filter(|row| !give(row)).for_each(|row| row.bound += 2.0 * MEETS);
    }
    let giving: Vec<Row> = open.rows.iter().filter(|row| give(row)).copied().collect();
    open.widest(start, worst(&giving, &start), give)
}

/// Rows of which each is needed: without any one of them the others meet.
fn irreducible(program: &Program) -> Vec<Row> {
    let mut kept = program.clone();
    let mut at = 0;
    while at < kept.rows.len() {
        let row = kept.rows.remove(at);
        if excess(&kept, |_| true).1 <= MEETS {
            kept.rows.insert(at, row);
            at += 1;
        }
    }
    kept.rows.retain(|row| row.limit.is_some());
    kept.rows
}

fn same(a: &Row, b: &Row) -> bool {
    a.limit == b.limit && a.limit.is_some()
}

/// The figures at the point of a programme, for the value of a limit there.
fn figures(limits: &Limits<'_>, at: &Vector) -> Vec<f64> {
    let row = limits.model.row(at, &limits.model.stretches);
    let count = limits.model.figures(&limits.model.stretches).len();
    limits.model.exact(&row).unwrap_or_else(|| vec![f64::NAN; count])
}

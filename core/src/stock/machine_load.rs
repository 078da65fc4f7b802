//! The time that orders take on one machine, against their due dates.
use super::error::StockError;
use crate::error::excerpt;
use crate::quantity::{Quantity, Time};
use tenths_macros::Object;

/// An order that a machine is to make.
#[derive(Clone, PartialEq, Debug)]
pub struct MachineOrder {
    /// The name or number of the order.
    pub name: String,
    /// Pieces to make, scrap and all.
    pub quantity: u64,
    /// Time of setting up.
    pub setup: Time,
    /// Time for each piece.
    pub cycle: Time,
    /// When the order is due, in time from now; below zero where it is overdue.
    pub due: Time,
}

/// When an order is made.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(restore)]
pub struct MachineLoadRow {
    /// The order.
    pub order: String,
    /// Its pieces.
    #[pure]
    pub quantity: u64,
    /// What it takes: setting up, and the cycles of its pieces.
    pub time: Time,
    /// When it starts, from now.
    pub starts: Time,
    /// When it ends, from now.
    pub ends: Time,
    /// When it is due, from now.
    pub due: Time,
    /// How late it is; zero where it is on time.
    pub late: Time,
}

/// The orders on a machine, the first due first.
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct MachineLoad {
    /// The orders in the order of their making.
    pub rows: Vec<MachineLoadRow>,
    /// When the last of them ends, from now.
    pub ends: Time,
    /// How many orders are late.
    #[pure]
    pub late_orders: u64,
    /// How late the latest of them is.
    pub latest: Time,
}

/// Puts orders on one machine, the first due first, and tells when each starts and ends and how late it is.
///
/// Orders that are due together keep the order in which they are given. No other sequence makes the latest order less
/// late, where all orders can start at once and one follows the other; another may make fewer of them late. Times are
/// running time of the machine: count the hours of a shift yourself. `busy` is how long the machine is busy before.
///
/// # Errors
/// [`StockError`] where there are no orders, two have one name, or a time cannot be.
pub fn machine_load(orders: &[MachineOrder], busy: Time) -> Result<MachineLoad, StockError> {
    if orders.is_empty() {
        return Err(StockError::Nothing { what: "orders" });
    }
    check_time("the busy time", "the machine", busy, false)?;
    for (at, order) in orders.iter().enumerate() {
        if orders[..at].iter().any(|other| other.name == order.name) {
            return Err(StockError::Twice { what: "order", name: excerpt(&order.name) });
        }
        check_time("the set-up time", &order.name, order.setup, false)?;
        check_time("the time for a piece", &order.name, order.cycle, false)?;
        check_time("the due time", &order.name, order.due, true)?;
    }
    let mut sequence: Vec<&MachineOrder> = orders.iter().collect();
    sequence.sort_by(|a, b| a.due.metric().total_cmp(&b.due.metric()));
    let mut now = busy.metric();
    let rows: Vec<MachineLoadRow> = sequence.into_iter().map(|order| row(order, &mut now)).collect();
    let late = |row: &MachineLoadRow| row.late.metric();
    Ok(MachineLoad {
        ends: Time::minutes(now),
        late_orders: rows.iter().filter(|row| late(row) > 0.0).count() as u64,
        latest: Time::minutes(rows.iter().map(late).fold(0.0, f64::max)),
        rows,
    })
}

fn row(order: &MachineOrder, now: &mut f64) -> MachineLoadRow {
    // An order of nothing needs no set-up.
    let setup = if order.quantity == 0 { 0.0 } else { order.setup.metric() };
    let time = setup + order.quantity as f64 * order.cycle.metric();
    let starts = *now;
    *now += time;
    MachineLoadRow {
        order: order.name.clone(),
        quantity: order.quantity,
        time: Time::minutes(time),
        starts: Time::minutes(starts),
        ends: Time::minutes(*now),
        due: order.due,
        late: Time::minutes((*now - order.due.metric()).max(0.0)),
    }
}

/// Times are told apart up to about ten thousand years of minutes.
const MAX_MINUTES: f64 = 5e9;

fn check_time(what: &'static str, name: &str, time: Time, signed: bool) -> Result<(), StockError> {
    let minutes = time.metric();
    let least = if signed { -MAX_MINUTES } else { 0.0 };
    match least <= minutes && minutes <= MAX_MINUTES {
        true => Ok(()),
        false => Err(StockError::Time { what, name: excerpt(name), minutes, signed }),
    }
}

impl std::fmt::Display for MachineLoad {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { rows, ends, late_orders, latest } = self;
        let plural = if rows.len() == 1 { "" } else { "s" };
        write!(f, "MachineLoad: {} order{plural} in {} min, {late_orders} late", rows.len(), ends.metric())?;
        match *late_orders {
            0 => Ok(()),
            _ => write!(f, " by up to {} min", latest.metric()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn order(name: &str, time: f64, due: f64) -> MachineOrder {
        let [setup, cycle, due] = [0.0, time, due].map(Time::minutes);
        MachineOrder { name: name.into(), quantity: 1, setup, cycle, due }
    }

    // J. Heizer and B. Render, Operations Management, sequencing of five jobs by earliest due date (from memory): B A D C E,
    // flow times 2, 8, 11, 19 and 28, late 0, 0, 0, 1 and 5.
    #[test]
    fn the_first_due_comes_first() {
        let jobs = [("A", 6.0, 8.0), ("B", 2.0, 6.0), ("C", 8.0, 18.0), ("D", 3.0, 15.0), ("E", 9.0, 23.0)];
        let orders = jobs.map(|(name, time, due)| order(name, time, due));
        let load = machine_load(&orders, Time::minutes(0.0)).unwrap();
        let rows: Vec<_> =
            load.rows.iter().map(|row| (&*row.order, row.ends.metric(), row.late.metric())).collect();
        assert_eq!(
            rows,
            [("B", 2.0, 0.0), ("A", 8.0, 0.0), ("D", 11.0, 0.0), ("C", 19.0, 1.0), ("E", 28.0, 5.0)]
        );
        assert_eq!((load.late_orders, load.latest.metric(), load.ends.metric()), (2, 5.0, 28.0));
    }

    // By brute force over all sequences of some orders: none has a smaller greatest lateness.
    #[test]
    fn no_sequence_is_less_late() {
        fn least(orders: &[(f64, f64)], now: f64) -> f64 {
            (0..orders.len())
                .map(|next| {
                    let mut rest = orders.to_vec();
                    let (time, due) = rest.remove(next);
                    (now + time - due).max(least(&rest, now + time))
                })
                .reduce(f64::min)
                .unwrap_or(f64::NEG_INFINITY)
        }
        let mut seed = 7u64;
        let mut number = |below: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            ((seed >> 33) % below) as f64
        };
        for _ in 0..50 {
            let jobs: Vec<(f64, f64)> = (0..6).map(|_| (1.0 + number(9), number(30))).collect();
            let named = jobs.iter().enumerate().map(|(at, &(time, due))| order(&at.to_string(), time, due));
            let load = machine_load(&named.collect::<Vec<_>>(), Time::minutes(0.0)).unwrap();
            assert_eq!(load.latest.metric(), least(&jobs, 0.0).max(0.0));
        }
    }

    #[test]
    fn what_cannot_be_is_refused_in_plain_words() {
        let refused =
            |orders: &[MachineOrder]| machine_load(orders, Time::minutes(0.0)).unwrap_err().to_string();
        assert_eq!(refused(&[]), "there are no orders: give at least one");
        let twice = refused(&[order("7", 1.0, 1.0), order("7", 1.0, 1.0)]);
        assert_eq!(twice, "\"7\" is named twice: give each order a name of its own");
        let need = "the time for a piece of \"7\" must be 0 to 5000000000 min, not -1 min";
        assert_eq!(refused(&[order("7", -1.0, 1.0)]), need);
        let need = "the due time of \"7\" must be -5000000000 to 5000000000 min, not NaN min";
        assert_eq!(refused(&[order("7", 1.0, f64::NAN)]), need);
    }

    #[test]
    fn an_order_of_nothing_takes_no_time() {
        let none = MachineOrder { quantity: 0, setup: Time::minutes(30.0), ..order("7", 5.0, 10.0) };
        let load = machine_load(&[none], Time::minutes(15.0)).unwrap();
        assert_eq!((load.rows[0].time.metric(), load.latest.metric()), (0.0, 5.0));
    }
}

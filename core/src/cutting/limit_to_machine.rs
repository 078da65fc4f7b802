//! The nearest cut that a machine can make, and what bound it.
use super::machine::Machine;
use super::{drilling_cut, milling_cut, turning_cut};
use crate::Error;
use crate::error::{WithUnit, rounded};
use crate::formula::{Formula, MAX_OUTPUTS};
use crate::quantity::Units;
use tenths_macros::Object;

/// Arguments that tell the feed, of which a formula has one.
const FEEDS: [&str; 2] = ["chip_load", "feed_per_revolution"];
/// Results that are the load of the motor, the better one first.
const POWERS: [&str; 2] = ["motor_power", "cutting_power"];
/// Results that are the force of the feeding axis.
const AXIS_FORCES: [&str; 3] = ["feed_force", "thrust", "thrust_force"];

/// A limit of a machine that a cut exceeds.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(summary, tuple)]
pub struct MachineLimit {
    /// The argument or result of the formula.
    pub what: &'static str,
    /// What the cut needs.
    pub wanted: f64,
    /// The limit of the machine.
    pub limit: f64,
    /// Whether the limit is the least, rather than the most.
    pub least: bool,
    /// The unit of both numbers; empty for a plain one.
    pub unit: &'static str,
}

impl std::fmt::Display for MachineLimit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let MachineLimit { what, wanted, limit, least, unit } = *self;
        let side = if least { "least" } else { "most" };
        write!(
            f,
            "{what}: {} wanted, {} at {side}",
            WithUnit(rounded(wanted), unit),
            WithUnit(rounded(limit), unit)
        )
    }
}

/// A cut fitted to a machine, as close to the wanted cut as the machine allows.
#[derive(Clone, PartialEq, Debug)]
pub struct LimitedCut {
    /// Arguments of the formula, in shop units: those of the call, but for spindle speed and feed where they had
    /// to give.
    pub arguments: Vec<f64>,
    /// The results of the formula for them.
    pub results: Vec<f64>,
    /// Everything that the cut as wanted asked for beyond the machine, in the order in which it was judged: first
    /// the spindle speed, then the rest at the spindle speed that was left. Empty, and the arguments are as they
    /// were to the bit.
    pub bounds: Vec<MachineLimit>,
    /// What is still beyond the machine at the least feed. Empty where the cut fits.
    pub exceeded: Vec<MachineLimit>,
    /// Limits of the machine on which the formula has no result to judge by, such as `greatest_axis_force`.
    pub unchecked: Vec<&'static str>,
}

impl LimitedCut {
    /// Whether the machine can make the limited cut.
    pub fn fits(&self) -> bool {
        self.exceeded.is_empty()
    }
}

/// A line for each bound, for what is still exceeded and for what is unchecked; nothing where there is none.
impl std::fmt::Display for LimitedCut {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let bounds = self.bounds.iter().map(MachineLimit::to_string);
        let exceeded = self.exceeded.iter().map(|bound| format!("exceeded: {bound}"));
        let unchecked = self.unchecked.iter().map(|limit| {
            let limit = limit.replace('_', " ");
            format!(
                "not checked: the {limit} of the machine, because the formula has no result to compare with it"
            )
        });
        let lines: Vec<String> = bounds.chain(exceeded).chain(unchecked).collect();
        f.write_str(&lines.join("\n"))
    }
}

/// Why a cut could not be fitted to a machine.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
#[non_exhaustive]
pub enum LimitError {
    /// The formula lacks an argument or a result that a cut on a machine needs.
    #[error("{formula} cannot be fitted to a machine: it has no {lacks}{}", instead(*sibling))]
    Unsuited {
        /// Name of the formula.
        formula: &'static str,
        /// What it lacks.
        lacks: &'static str,
        /// The formula whose name this one begins with, where that can be fitted: `turning_cut` for
        /// `turning_cut_for_target`.
        sibling: Option<&'static str>,
    },
    /// The spindle speed lies below the range of the machine; raising it would cut faster than is wanted.
    #[error(
        "spindle_speed must be at least {least} rev/min, the lowest of the machine, not {wanted} rev/min"
    )]
    BelowRange {
        /// Spindle speed wanted.
        wanted: f64,
        /// Least one of the machine.
        least: f64,
    },
    /// A least feed that is not a positive number.
    #[error("least_feed must be greater than 0, not {0}")]
    LeastFeed(f64),
    /// The cut as wanted has no answer.
    #[error(transparent)]
    Formula(#[from] Error),
}

fn instead(sibling: Option<&str>) -> String {
    sibling.map_or_else(String::new, |sibling| format!("; use {sibling}"))
}

/// Fits a cut to a machine: the closest cut to the wanted one that the machine can make, and what bound it.
///
/// It works on any formula with the arguments `spindle_speed` and `chip_load` or `feed_per_revolution`, by the
/// results `feed_rate`, `motor_power` (or `cutting_power`, where there is no other), `torque` and `feed_force` or
/// `thrust`, whose numbers rise with the feed. `x` and `least_feed` are in shop units of `units`.
///
/// - A spindle speed above the range comes down to it, and the feed per tooth or revolution stays. One below the range is
///   an error.
/// - Where feed rate, power, torque or axis force are then too much, the feed comes down, at that speed and at the same
///   depth and width, to the greatest that fits, and never below `least_feed`, under which a tool rubs instead of
///   cutting. Without a `least_feed` it may come down to anything above zero: look at it.
/// - Where the least feed is still too much, or the feed rate is below the least of the machine, the cut does not fit:
///   take less depth or width, or another tool. What is still too much stands in `exceeded`.
///
/// Forces are known within about a fifth, so leave a margin. The machine maker's limits and those of chuck,
/// holder and tool come first.
///
/// # Errors
/// [`LimitError`] for a formula of another kind, a spindle speed below the range, and a cut that has no answer.
pub fn limit_to_machine(
    formula: &'static Formula,
    units: Units,
    x: &[f64],
    machine: &Machine,
    least_feed: Option<f64>,
) -> Result<LimitedCut, LimitError> {
    let seeker = Seeker::new(formula, units, machine)?;
    if let Some(least) = least_feed.filter(|&least| !(least > 0.0 && least.is_finite())) {
        return Err(LimitError::LeastFeed(least));
    }
    seeker.results(x)?;
    let mut arguments = x.to_vec();
    let mut bounds = seeker.limit_spindle(&mut arguments)?;
    let mut results = seeker.results(&arguments)?;
    let mut exceeded = seeker.exceeded(&arguments, &results);
    bounds.extend(&exceeded);
    // Less feed does not help where there is too little already.
    if exceeded.iter().any(|bound| !bound.least) {
        seeker.reduce_feed(&mut arguments, least_feed);
        results = seeker.results(&arguments)?;
        exceeded = seeker.exceeded(&arguments, &results);
        // The feed may have come down below what the machine feeds at least.
        bounds.extend(exceeded.iter().filter(|bound| bound.least));
    }
    Ok(LimitedCut { arguments, results, bounds, exceeded, unchecked: seeker.unchecked() })
}

/// A formula and a machine, with the places of what they share.
struct Seeker<'a> {
    formula: &'static Formula,
    units: Units,
    machine: &'a Machine,
    spindle_speed: usize,
    feed: usize,
    feed_rate: Option<usize>,
    power: Option<usize>,
    torque: Option<usize>,
    axis_force: Option<usize>,
}

/// The formula of a whole cut of this name.
fn cut_named(name: &str) -> Option<&'static Formula> {
    let cuts = [milling_cut::FORMULAS, turning_cut::FORMULAS, drilling_cut::FORMULAS];
    cuts.into_iter().flatten().copied().find(|formula| formula.name == name)
}

impl<'a> Seeker<'a> {
    fn new(formula: &'static Formula, units: Units, machine: &'a Machine) -> Result<Self, LimitError> {
        Self::of(formula, units, machine).map_err(|lacks| {
            let beginnings = std::iter::successors(Some(formula.name), |name| Some(name.rsplit_once('_')?.0));
            let is_suited = |other: &&'static Formula| Self::of(other, units, machine).is_ok();
            let sibling = beginnings.skip(1).filter_map(cut_named).find(is_suited).map(|found| found.name);
            LimitError::Unsuited { formula: formula.name, lacks, sibling }
        })
    }

    /// The seeker, or what the formula lacks.
    fn of(formula: &'static Formula, units: Units, machine: &'a Machine) -> Result<Self, &'static str> {
        let argument = |names: &[&str]| formula.arguments.iter().position(|own| names.contains(&own.name));
        let result = |names: &[&str]| {
            let place = |name: &&str| (0..formula.outputs.len()).find(|&k| formula.output_name(k) == *name);
            names.iter().find_map(place)
        };
        let seeker = Seeker {
            formula,
            units,
            machine,
            spindle_speed: argument(&["spindle_speed"]).ok_or("argument spindle_speed")?,
            feed: argument(&FEEDS).ok_or("argument chip_load or feed_per_revolution")?,
            feed_rate: result(&["feed_rate"]),
            power: result(&POWERS),
            torque: result(&["torque"]),
            axis_force: result(&AXIS_FORCES),
        };
        match seeker.feed_rate.or(seeker.power).or(seeker.torque).or(seeker.axis_force) {
            Some(_) => Ok(seeker),
            None => Err("result feed_rate, power, torque or force"),
        }
    }

    fn results(&self, x: &[f64]) -> Result<Vec<f64>, Error> {
        let mut results = vec![f64::NAN; self.formula.outputs.len()];
        self.formula.call(self.units, x, &mut results)?;
        Ok(results)
    }

    /// Brings the spindle speed down to the highest one.
    fn limit_spindle(&self, x: &mut [f64]) -> Result<Vec<MachineLimit>, LimitError> {
        let wanted = x[self.spindle_speed];
        let (least, limit) = self.machine.spindle_speeds(self.units);
        if wanted < least {
            return Err(LimitError::BelowRange { wanted, least });
        }
        if wanted <= limit {
            return Ok(vec![]);
        }
        x[self.spindle_speed] = limit;
        let argument = &self.formula.arguments[self.spindle_speed];
        let unit = argument.unit(self.units).label;
        Ok(vec![MachineLimit { what: argument.name, wanted, limit, least: false, unit }])
    }

    /// The results that are limited: their places, the limits at this spindle speed, and whether those are the
    /// least.
    fn limits(&self, x: &[f64]) -> impl Iterator<Item = (usize, f64, bool)> {
        let (machine, units, n) = (self.machine, self.units, x[self.spindle_speed]);
        let limits = [
            (self.feed_rate, machine.greatest_feed_rate(units), false),
            (self.power, machine.power_at(n, units), false),
            (self.torque, machine.torque_at(n, units), false),
            (self.axis_force, machine.greatest_axis_force(units), false),
            (self.feed_rate, machine.least_feed_rate(units), true),
        ];
        limits.into_iter().filter_map(|(place, limit, least)| Some((place?, limit?, least)))
    }

    /// What is beyond the machine.
    fn exceeded(&self, x: &[f64], results: &[f64]) -> Vec<MachineLimit> {
        let beyond = |&(place, limit, least): &(usize, f64, bool)| match least {
            true => results[place] < limit,
            false => results[place] > limit,
        };
        let bound = |(place, limit, least): (usize, f64, bool)| MachineLimit {
            what: self.formula.output_name(place),
            wanted: results[place],
            limit,
            least,
            unit: self.formula.outputs[place].kind.unit(self.units).label,
        };
        self.limits(x).filter(beyond).map(bound).collect()
    }

    /// Whether nothing is too much at a feed.
    fn feeds(&self, x: &mut [f64], feed: f64) -> bool {
        x[self.feed] = feed;
        let mut results = [f64::NAN; MAX_OUTPUTS];
        let results = &mut results[..self.formula.outputs.len()];
        match self.formula.call(self.units, x, results) {
            Ok(_) => self.limits(x).all(|(place, limit, least)| least || results[place] <= limit),
            Err(_) => false,
        }
    }

    /// Brings the feed down to the greatest that fits, or to the least where none does.
    ///
    /// By bisection over the floats, whose order is that of their bits: some sixty calls for any law of the
    /// force.
    fn reduce_feed(&self, x: &mut [f64], least_feed: Option<f64>) {
        let wanted = x[self.feed];
        let least = least_feed.unwrap_or(f64::MIN_POSITIVE).min(wanted);
        if !self.feeds(x, least) {
            // A least feed that nobody stated, or which has no answer, is none to leave behind.
            x[self.feed] = least;
            if least_feed.is_none() || self.results(x).is_err() {
                x[self.feed] = wanted;
            }
            return;
        }
        let (mut low, mut high) = (least.to_bits(), wanted.to_bits());
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            match self.feeds(x, f64::from_bits(middle)) {
                true => low = middle,
                false => high = middle,
            }
        }
        x[self.feed] = f64::from_bits(low);
    }

    /// The limits of the machine that no result speaks of.
    fn unchecked(&self) -> Vec<&'static str> {
        let (machine, units) = (self.machine, self.units);
        let tells = [
            ("least_feed_rate", machine.least_feed_rate(units).is_some(), self.feed_rate),
            ("greatest_feed_rate", machine.greatest_feed_rate(units).is_some(), self.feed_rate),
            ("power", machine.power_at(1.0, units).is_some(), self.power),
            ("torque", machine.torque_at(1.0, units).is_some(), self.torque),
            ("greatest_axis_force", machine.greatest_axis_force(units).is_some(), self.axis_force),
        ];
        tells.iter().filter(|(_, has, place)| *has && place.is_none()).map(|(name, ..)| *name).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::super::machine::MachineData;
    use super::super::milling_cut::MILLING_CUT;
    use super::*;
    use crate::quantity::*;
    use tenths_macros::{Outcome, formula};

    const METRIC: Units = Units::Metric;
    /// With 2 teeth · 0.1 mm · 1000 rev/min it feeds 200 mm/min and takes off 3 · 5 · 200 mm³/min; at 2000 N/mm²
    /// that is 6e6 N·mm/min or 0.1 kW, at the motor 0.1 / 0.8 = 0.125 kW, and by 2π · 1000 rev/min 0.954 930 N·m.
    const SIDE_CUT: [f64; 14] =
        [10.0, 2.0, 1000.0, 0.1, 5.0, 3.0, 2000.0, 0.0, 90.0, 0.0, 0.0, 0.01, 1.0, 0.8];
    const SPINDLE: usize = 2;
    const FEED: usize = 3;

    fn machine(more: &str) -> Machine {
        let text = format!(
            r#"{{"units": "metric", "least_spindle_speed": 100, "greatest_spindle_speed": 8000{more}}}"#
        );
        Machine::from_json(&text).unwrap()
    }

    fn limited(machine: &Machine, x: &[f64], least_feed: Option<f64>) -> LimitedCut {
        limit_to_machine(&MILLING_CUT, METRIC, x, machine, least_feed).unwrap()
    }

    fn near(got: f64, wanted: f64) {
        assert!((got - wanted).abs() <= 1e-12 * wanted.abs(), "{got} is not {wanted}");
    }

    fn told(bounds: &[MachineLimit]) -> Vec<&'static str> {
        bounds.iter().map(|bound| bound.what).collect()
    }

    #[test]
    fn a_cut_that_fits_stays_to_the_bit() {
        let curve = r#", "greatest_feed_rate": 200, "greatest_axis_force": 1,
            "curve": [{"spindle_speed": 1000, "power": 0.126, "torque": 0.956}]"#;
        let cut = limited(&machine(curve), &SIDE_CUT, Some(0.01));
        let mut results = [0.0; 12];
        MILLING_CUT.call(METRIC, &SIDE_CUT, &mut results).unwrap();
        assert_eq!((cut.arguments.as_slice(), cut.results.as_slice()), (&SIDE_CUT[..], &results[..]));
        assert!(cut.fits() && cut.bounds.is_empty());
        assert_eq!(cut.unchecked, ["greatest_axis_force"]);
        let told = "not checked: the greatest axis force of the machine, because the formula has no result to compare with it";
        assert_eq!(cut.to_string(), told);
    }

    #[test]
    fn the_spindle_comes_down_and_the_chip_stays() {
        let mut x = SIDE_CUT;
        x[SPINDLE] = 9000.0;
        let cut = limited(&machine(""), &x, None);
        assert_eq!((cut.arguments[SPINDLE], cut.arguments[FEED]), (8000.0, 0.1));
        let bound = MachineLimit {
            what: "spindle_speed",
            wanted: 9000.0,
            limit: 8000.0,
            least: false,
            unit: "rev/min",
        };
        assert_eq!(cut.bounds, [bound]);
        assert_eq!(bound.to_string(), "spindle_speed: 9000 rev/min wanted, 8000 rev/min at most");
        near(cut.results[1], 1600.0);
        x[SPINDLE] = 50.0;
        let error = limit_to_machine(&MILLING_CUT, METRIC, &x, &machine(""), None);
        assert_eq!(error, Err(LimitError::BelowRange { wanted: 50.0, least: 100.0 }));
    }

    #[test]
    fn the_feed_rate_binds() {
        let cut = limited(&machine(r#", "greatest_feed_rate": 150"#), &SIDE_CUT, Some(0.02));
        near(cut.arguments[FEED], 0.075);
        assert!(cut.results[1] <= 150.0 && cut.fits());
        assert_eq!(told(&cut.bounds), ["feed_rate"]);
        // A feed rate that the machine does not hold cannot be mended by less feed.
        let slow = limited(&machine(r#", "least_feed_rate": 250"#), &SIDE_CUT, None);
        assert!(!slow.fits() && slow.exceeded[0].least && slow.arguments == SIDE_CUT);
    }

    /// 0.2 N·m to 4775 rev/min, where 2π · 4774.648 · 0.2 / 6e4 is 0.1 kW, and 0.1 kW from there on.
    const CURVE: &str = r#", "curve": [{"spindle_speed": 4774.648292756860, "power": 0.1, "torque": 0.2}]"#;

    #[test]
    fn torque_binds_below_the_base_speed_and_power_above() {
        let below = limited(&machine(CURVE), &SIDE_CUT, None);
        // Power at 1000 rev/min is 0.1 · 1000 / 4774.648 = 0.020 944 kW of the motor, 0.8 of that at the cut: 0.1 mm ·
        // 0.020 944 / 0.125. The torque of the spindle alone would leave 0.020 944.
        near(below.arguments[FEED], 0.1 * 0.1 * 1000.0 / 4_774.648_292_756_86 / 0.125);
        assert_eq!(told(&below.bounds), ["motor_power", "torque"]);
        let torque = r#", "curve": [{"spindle_speed": 2000, "torque": 0.5}]"#;
        let below = limited(&machine(torque), &SIDE_CUT, None);
        near(below.arguments[FEED], 0.1 * 0.5 / 0.954_929_658_551_372);
        assert_eq!(told(&below.bounds), ["torque"]);
        let mut fast = SIDE_CUT;
        (fast[SPINDLE], fast[FEED]) = (6000.0, 0.02);
        // 240 mm/min take 0.15 kW of the motor, and 0.1 kW · 60 / (2π · 100) = 0.159 N·m is what the curve gives.
        let above = limited(&machine(CURVE), &fast, None);
        near(above.arguments[FEED], 0.02 / 1.5);
        assert_eq!(told(&above.bounds), ["motor_power", "torque"]);
        assert!(above.fits() && above.results[10] <= 0.1);
    }

    // With Kienzle's exponent power goes with feed^(1 - mc), so feed with power^(1 / 0.75).
    #[test]
    fn the_feed_falls_by_the_law_of_the_force() {
        let mut x = SIDE_CUT;
        x[7] = 0.25;
        let mut results = [0.0; 12];
        MILLING_CUT.call(METRIC, &x, &mut results).unwrap();
        let power = r#", "curve": [{"spindle_speed": 500, "power": 0.1}]"#;
        let cut = limited(&machine(power), &x, None);
        let wanted = 0.1 * crate::math::powf(0.1 / results[10], 1.0 / 0.75);
        assert!(wanted < 0.1);
        near(cut.arguments[FEED], wanted);
    }

    #[test]
    fn a_cut_that_cannot_be_made_says_so() {
        let power = machine(r#", "curve": [{"spindle_speed": 500, "power": 0.1}]"#);
        // 0.08 mm would fit.
        let cut = limited(&power, &SIDE_CUT, Some(0.09));
        assert_eq!(cut.arguments[FEED], 0.09);
        assert!(!cut.fits());
        let [bound, exceeded] = [cut.bounds[0], cut.exceeded[0]];
        assert_eq!(cut.to_string(), format!("{bound}\nexceeded: {exceeded}"));
        assert_eq!((told(&cut.bounds), told(&cut.exceeded)), (vec!["motor_power"], vec!["motor_power"]));
        near(cut.exceeded[0].wanted, 0.1125);
        near(cut.bounds[0].wanted, 0.125);
        // A least feed above the one wanted raises nothing.
        assert_eq!(limited(&power, &SIDE_CUT, Some(0.2)).arguments, SIDE_CUT);
        let none = machine(r#", "curve": [{"spindle_speed": 500, "power": 0}]"#);
        let cut = limited(&none, &SIDE_CUT, None);
        assert!(!cut.fits() && cut.arguments == SIDE_CUT);
        for least in [0.0, -1.0, f64::NAN] {
            let error = limit_to_machine(&MILLING_CUT, METRIC, &SIDE_CUT, &power, Some(least));
            assert!(matches!(error, Err(LimitError::LeastFeed(_))));
        }
    }

    #[derive(Clone, Copy, PartialEq, Debug, Outcome)]
    pub struct Push {
        /// Feed rate.
        pub feed_rate: FeedRate,
        /// Thrust.
        pub thrust: Force,
    }

    /// A thrust of 1000 N for each millimetre of feed.
    #[formula(source = "made up for this test", constant(stiffness: Force = Force::newtons(1000.0)),
        constant(unit_feed: Length = Length::millimetres(1.0)))]
    fn push(
        /// Spindle speed.
        #[positive]
        spindle_speed: SpindleSpeed,
        /// Feed.
        #[positive]
        feed_per_revolution: Length,
    ) -> Push {
        BarePush {
            feed_rate: spindle_speed * feed_per_revolution,
            thrust: stiffness * (feed_per_revolution / unit_feed),
        }
    }

    #[test]
    fn the_axis_force_binds_in_both_systems() {
        let machine = machine(r#", "greatest_axis_force": 250, "least_feed_rate": 400"#);
        let cut = limit_to_machine(&PUSH, METRIC, &[2000.0, 0.4], &machine, None).unwrap();
        near(cut.arguments[1], 0.25);
        assert!(cut.fits() && told(&cut.bounds) == ["thrust"]);
        let inch = limit_to_machine(&PUSH, Units::Inch, &[2000.0, 0.4 / 25.4], &machine, None).unwrap();
        near(inch.arguments[1] * 25.4, 0.25);
        assert_eq!(inch.bounds[0].unit, "lbf");
        // What the force leaves, 250 mm/min, is less than the machine holds.
        let slow = limit_to_machine(&PUSH, METRIC, &[1000.0, 0.5], &machine, None).unwrap();
        assert_eq!(told(&slow.bounds), ["thrust", "feed_rate"]);
        assert!(!slow.fits() && slow.exceeded[0].least);
    }

    #[test]
    fn other_formulas_are_refused() {
        let machine = Machine::new(MachineData { name: Some("lathe".into()), ..machine("").data().clone() });
        let refused = |name: &str, x: &[f64]| {
            let formula = crate::find(name).unwrap();
            limit_to_machine(formula, METRIC, x, machine.as_ref().unwrap(), None).unwrap_err().to_string()
        };
        for name in ["milling_cut", "turning_cut", "drilling_cut"] {
            let told = refused(&format!("{name}_for_target"), &[]);
            assert!(told.ends_with(&format!("no argument spindle_speed; use {name}")), "{told}");
        }
        assert!(refused("flat_depth", &[20.0, 18.0]).ends_with("no argument spindle_speed"));
        assert!(refused("surface_speed", &[20.0, 18.0]).contains("no argument chip_load"));
        assert!(refused("milling_cut", &SIDE_CUT[1..]).contains("takes 14 arguments, not 13"));
        let mut cut = SIDE_CUT;
        cut[FEED] = -0.1;
        assert!(refused("milling_cut", &cut).contains("chip_load must be greater than 0 mm"));
    }
}

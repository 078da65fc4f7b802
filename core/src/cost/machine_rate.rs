//! What an hour of a machine costs: its running time in a year, and the rate built up from purchase, life and use.
use crate::formula::Formula;
use crate::math::powf;
use crate::quantity::*;
use tenths_macros::{Outcome, formula};

/// The hours of a year by what they are used for.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct YearOfMachine {
    /// The hours of all shifts.
    pub shift_time: Time,
    /// Those of holidays.
    pub holiday_time: Time,
    /// Those in which the machine stands for lack of work, people or material.
    pub standstill_time: Time,
    /// Those in which it is maintained.
    pub maintenance_time: Time,
    /// Those in which it runs.
    pub running_time: Time,
}

/// Running time of a machine in a year: shift time less holidays, standstill and maintenance.
///
/// Standstill and maintenance are shares of the shift time less holidays.
#[formula(source = "VDI 3258 (from memory): T_L = T_G - T_ST - T_IH")]
pub fn machine_running_time(
    /// Days worked in a week.
    #[within(0.0, 7.0)]
    days_per_week: Ratio,
    /// Shifts in a day.
    #[within(0.0, 24.0)]
    shifts: Ratio,
    /// Length of a shift.
    #[non_negative]
    shift_length: Time,
    /// Working days of the year that are holidays.
    #[within(0.0, 366.0)]
    #[default(0.0)]
    holidays: Ratio,
    /// Share of the time without work, people or material.
    #[within(0.0, 1.0)]
    #[default(0.0)]
    standstill_share: Ratio,
    /// Share of the time in maintenance.
    #[within(0.0, 1.0)]
    #[default(0.0)]
    maintenance_share: Ratio,
    /// Weeks of the year.
    #[within(0.0, 53.0)]
    #[default(52.0)]
    weeks: Ratio,
) -> YearOfMachine {
    let day = shifts * shift_length;
    let (shift_time, holiday_time) = (weeks * days_per_week * day, holidays * day);
    let open = shift_time - holiday_time;
    let (standstill_time, maintenance_time) = (open * standstill_share, open * maintenance_share);
    let running_time = open - standstill_time - maintenance_time;
    BareYearOfMachine { shift_time, holiday_time, standstill_time, maintenance_time, running_time }
}

/// What an hour of a machine costs, item by item.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct MachineHour {
    /// Loss of value, in a straight line from the replacement value to the salvage.
    pub depreciation: HourlyRate,
    /// Interest on the mean of purchase price and salvage.
    pub interest: HourlyRate,
    /// Rent of the floor.
    pub room: HourlyRate,
    /// Energy.
    pub energy: HourlyRate,
    /// Maintenance.
    pub maintenance: HourlyRate,
    /// The sum of these, with other costs by the hour.
    pub machine: HourlyRate,
    /// Works overhead on machine and labour.
    pub overhead: HourlyRate,
    /// Machine, labour and overhead.
    pub total: HourlyRate,
}

/// Rate of a machine hour: depreciation + interest + room + energy + maintenance, with labour and works overhead.
///
/// Depreciation is (replacement - salvage + disposal) / (life · running time), interest (price + salvage) / 2 · share / running
/// time, room area · price · 12 / running time, energy power · price.
#[formula(
    source = "VDI 3258 (from memory); straight-line depreciation as business courses teach it",
    rule(salvage <= replacement_value + disposal_cost, "salvage must be at most replacement_value with disposal_cost")
)]
pub fn machine_hour_rate(
    /// Price that was paid.
    #[non_negative]
    #[increasing(interest, machine, total)]
    purchase_price: Money,
    /// What the same machine costs when this one is worn out; as a rule the purchase price with the rise of prices.
    #[non_negative]
    replacement_value: Money,
    life_years: Ratio,
    running_time: Time,
    #[default(0.0)] interest_share: Ratio,
    /// What the machine is sold for at its end.
    #[non_negative]
    #[default(0.0)]
    salvage: Money,
    /// What it costs to remove it.
    #[non_negative]
    #[default(0.0)]
    disposal_cost: Money,
    /// Floor that it stands on, in m² or ft².
    #[non_negative]
    #[default(0.0)]
    floor_area: Ratio,
    /// Rent of a m² or a ft² of floor for a month.
    #[non_negative]
    #[default(0.0)]
    room_price: Money,
    /// Electric power that it draws on average, in kW.
    #[non_negative]
    #[default(0.0)]
    mean_kilowatts: Ratio,
    /// Money for a kWh, as the price of an hour at 1 kW.
    #[non_negative]
    #[default(0.0)]
    energy_price: HourlyRate,
    /// Maintenance in a year.
    #[non_negative]
    #[default(0.0)]
    maintenance_cost: Money,
    /// Other costs by the hour, such as coolant and tools.
    #[non_negative]
    #[default(0.0)]
    #[increasing(machine, total)]
    other_rate: HourlyRate,
    /// Labour at the machine by the hour, as `labour_hour_rate` gives it.
    #[non_negative]
    #[default(0.0)]
    #[increasing(total)]
    labour_rate: HourlyRate,
    /// Works overhead, as a share of machine and labour.
    #[non_negative]
    #[default(0.0)]
    #[increasing(overhead, total)]
    overhead_share: Ratio,
) -> MachineHour {
    let depreciation = (replacement_value - salvage + disposal_cost) / (life_years * running_time);
    let interest = 0.5 * (purchase_price + salvage) * interest_share / running_time;
    let room = floor_area * room_price * 12.0 / running_time;
    let energy = mean_kilowatts * energy_price;
    let maintenance = maintenance_cost / running_time;
    let machine = depreciation + interest + room + energy + maintenance + other_rate;
    let overhead = overhead_share * (machine + labour_rate);
    let total = machine + labour_rate + overhead;
    BareMachineHour { depreciation, interest, room, energy, maintenance, machine, overhead, total }
}

/// Rate of labour at a machine: wage · (1 + on-cost) · operators.
#[formula(
    source = "Common practice, no source",
    inverse(wage = labour_hour_rate / ((1.0 + on_cost_share) * operators))
)]
pub fn labour_hour_rate(
    #[term(hourly_wage)]
    #[increasing]
    wage: HourlyRate,
    /// What comes on top of the wage, as a share of it.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    on_cost_share: Ratio,
    /// Operators at the machine: 0.5 where one minds two.
    #[positive]
    #[default(1.0)]
    #[increasing]
    operators: Ratio,
) -> HourlyRate {
    wage * (1.0 + on_cost_share) * operators
}

/// Rate of a machine at another running time: fixed cost of a year / running time + variable rate.
#[formula(
    source = "Common practice, no source",
    inverse(fixed_cost = (rate_at_running_time - variable_rate) * running_time),
    inverse(running_time = fixed_cost / (rate_at_running_time - variable_rate))
)]
pub fn rate_at_running_time(
    /// Costs of a year that do not depend on use.
    #[non_negative]
    #[increasing]
    fixed_cost: Money,
    #[decreasing] running_time: Time,
    /// Costs of an hour in use.
    #[non_negative]
    #[default(0.0)]
    #[increasing]
    variable_rate: HourlyRate,
) -> HourlyRate {
    fixed_cost / running_time + variable_rate
}

/// Below this interest over the whole life the closed form would lose digits, and its series has them all.
const SMALL: f64 = 1e-4;

/// Capital recovery factor: i · (1 + i)^n / ((1 + i)^n - 1), and 1 / n without interest.
///
/// Times the investment it is the even payment at the end of each year that pays it back with interest.
#[formula(
    source = "M. P. Groover, Automation, Production Systems and CIM, equipment rate; engineering economy at large"
)]
pub fn capital_recovery_factor(interest_share: Ratio, life_years: Ratio) -> Ratio {
    let (i, n) = (interest_share, life_years);
    let series = (1.0 + 0.5 * i * (n + 1.0) + i * i * (n * n - 1.0) / 12.0) / n;
    let closed = i / (1.0 - powf(1.0 + i, -n));
    if i * n < SMALL && i < SMALL { series } else { closed }
}

/// What an hour of equipment and its operator costs, with interest on what is not paid back yet.
#[derive(Clone, Copy, PartialEq, Debug, Outcome)]
pub struct EquipmentHour {
    /// The even cost of a year: capital recovery less the sinking fund of the salvage.
    pub annual_cost: Money,
    /// The equipment without overhead.
    pub equipment: HourlyRate,
    /// The equipment with its overhead.
    pub equipment_with_overhead: HourlyRate,
    /// The labour with its overhead.
    pub labour_with_overhead: HourlyRate,
    /// Both.
    pub total: HourlyRate,
}

/// Rate of equipment by capital recovery: labour · (1 + overhead) + annual cost / running time · (1 + overhead).
#[formula(
    source = "M. P. Groover, Automation, Production Systems and CIM, equipment rate (from memory)",
    rule(salvage <= investment, "salvage must be at most investment")
)]
pub fn equipment_hour_rate(
    /// What the equipment costs, put up and running.
    #[non_negative]
    #[increasing(annual_cost, equipment, equipment_with_overhead, total)]
    investment: Money,
    life_years: Ratio,
    interest_share: Ratio,
    running_time: Time,
    /// What it is sold for at its end.
    #[non_negative]
    #[default(0.0)]
    salvage: Money,
    /// Overhead on the equipment, as a share.
    #[non_negative]
    #[default(0.0)]
    machine_overhead: Ratio,
    #[term(hourly_wage)]
    #[default(0.0)]
    #[increasing(labour_with_overhead, total)]
    wage: HourlyRate,
    /// Overhead on the wage, as a share.
    #[non_negative]
    #[default(0.0)]
    #[increasing(labour_with_overhead, total)]
    labour_overhead: Ratio,
) -> EquipmentHour {
    let recovery = capital_recovery_factor_base(interest_share, life_years);
    let annual_cost = investment * recovery - salvage * (recovery - interest_share);
    let equipment = annual_cost / running_time;
    let equipment_with_overhead = equipment * (1.0 + machine_overhead);
    let labour_with_overhead = wage * (1.0 + labour_overhead);
    let total = equipment_with_overhead + labour_with_overhead;
    BareEquipmentHour { annual_cost, equipment, equipment_with_overhead, labour_with_overhead, total }
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[
    &MACHINE_RUNNING_TIME,
    &MACHINE_HOUR_RATE,
    &LABOUR_HOUR_RATE,
    &RATE_AT_RUNNING_TIME,
    &CAPITAL_RECOVERY_FACTOR,
    &EQUIPMENT_HOUR_RATE,
];

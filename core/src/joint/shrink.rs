//! Shrunk joints: how hot the hub, or how cold the shaft, so that one slips over the other.
use crate::formula::Formula;
use crate::quantity::*;
use tenths_macros::formula;

#[inline(always)]
fn heated(
    opening: f64,
    hub_expansion: f64,
    shaft_expansion: f64,
    shaft_temperature: f64,
    room_temperature: f64,
) -> f64 {
    let opening = opening - shaft_expansion * (room_temperature - shaft_temperature);
    room_temperature + opening.max(0.0) / hub_expansion
}

#[inline(always)]
fn cooled(opening: f64, shaft_expansion: f64, room_temperature: f64) -> f64 {
    room_temperature - opening / shaft_expansion
}

/// Temperature to which a hub must be heated to go over its shaft with a clearance.
///
/// Room + ((greatest interference + clearance) / d - α_shaft · (room - shaft)) / α_hub, with the shaft cold or at room
/// temperature; a shaft so cold that it goes in without heat asks for no more than the room's temperature. The
/// clearance is for the time that it takes: often 0.001 of the diameter. A hub that would have to be hotter than its
/// limit is refused: it tempers or softens. Cool the shaft as well, or take less interference. What cools on the way to
/// the shaft comes on top.
#[formula(
    source = "Linear expansion, in the form of DIN 7190-1 (from memory)",
    caution(heat_and_cold, joint),
    rule(
        heated((interference + clearance) / diameter, hub_expansion, shaft_expansion, shaft_temperature, room_temperature)
            <= temperature_limit,
        "the temperature that interference and clearance over diameter ask for, with hub_expansion, shaft_expansion, \
         shaft_temperature and room_temperature, must be at most temperature_limit"
    )
)]
pub fn joining_temperature(
    #[term(joining_interference)]
    #[increasing]
    interference: Length,
    #[term(joining_clearance)]
    #[increasing]
    clearance: Length,
    #[term(joint_diameter)]
    #[decreasing]
    diameter: Length,
    /// Coefficient of expansion of the hub, for the range of the heating.
    #[positive]
    hub_expansion: ExpansionCoefficient,
    /// Temperature that the metal of the hub bears without harm: below the tempering of a hardened steel, below the
    /// ageing of an aluminium alloy.
    #[above(Temperature::celsius(-273.15))]
    temperature_limit: Temperature,
    /// Coefficient of expansion of the shaft, for the range of the cooling; without effect where
    /// `shaft_temperature` is `room_temperature`.
    #[non_negative]
    #[default(0.0)]
    shaft_expansion: ExpansionCoefficient,
    /// Temperature of the shaft.
    #[above(Temperature::celsius(-273.15))]
    #[default(Temperature::celsius(20.0))]
    shaft_temperature: Temperature,
    room_temperature: Temperature,
) -> Temperature {
    // The limit only bounds the answer.
    let _ = temperature_limit;
    heated(
        (interference + clearance) / diameter,
        hub_expansion,
        shaft_expansion,
        shaft_temperature,
        room_temperature,
    )
}

/// Temperature to which a shaft must be cooled to go into a hub at room temperature with a clearance.
///
/// Room - (greatest interference + clearance) / (d · α_shaft). A shaft that would have to be colder than its limit is
/// refused: heat the hub as well. Coefficients of expansion fall with the temperature, so take one for the range, or
/// the shaft stays too large.
#[formula(
    source = "Linear expansion, in the form of DIN 7190-1 (from memory)",
    caution(heat_and_cold, joint),
    rule(
        cooled((interference + clearance) / diameter, shaft_expansion, room_temperature) >= temperature_limit,
        "the temperature that interference and clearance over diameter ask for, with shaft_expansion and \
         room_temperature, must be at least temperature_limit"
    )
)]
pub fn cooling_temperature(
    #[term(joining_interference)]
    #[decreasing]
    interference: Length,
    #[term(joining_clearance)]
    #[decreasing]
    clearance: Length,
    #[term(joint_diameter)]
    #[increasing]
    diameter: Length,
    /// Coefficient of expansion of the shaft, for the range of the cooling.
    #[positive]
    #[increasing]
    shaft_expansion: ExpansionCoefficient,
    /// Temperature that the bath reaches, or below which the metal of the shaft is harmed: -78 °C for dry ice, -196 °C
    /// for liquid nitrogen.
    #[above(Temperature::celsius(-273.15))]
    #[default(Temperature::celsius(-196.0))]
    temperature_limit: Temperature,
    room_temperature: Temperature,
) -> Temperature {
    // The limit only bounds the answer.
    let _ = temperature_limit;
    cooled((interference + clearance) / diameter, shaft_expansion, room_temperature)
}

/// The formulas of this module.
pub static FORMULAS: &[&Formula] = &[&JOINING_TEMPERATURE, &COOLING_TEMPERATURE];

#[cfg(test)]
mod tests {
    use super::*;

    // Linear expansion by hand: 0.12 mm of 60 mm at 11.5e-6 are 174 K above 20 °C.
    #[test]
    fn heating_above_the_limit_is_refused() {
        let heated = |limit| {
            let mut y = [0.0];
            JOINING_TEMPERATURE
                .call(Units::Metric, &[0.06, 0.06, 60.0, 11.5e-6, limit, 0.0, 20.0, 20.0], &mut y)
                .map(|_| y[0])
        };
        assert!((heated(200.0).unwrap() - 193.913_043).abs() < 1e-6);
        let refusal = heated(180.0).unwrap_err().to_string();
        assert!(refusal.contains("must be at most temperature_limit"), "{refusal}");
    }

    // By hand: a shaft at 20 °C in a room of 25 °C is 0.0055 mm smaller over 100 mm at 11e-6, and the hub needs
    // 5 K less at 11e-6.
    #[test]
    fn the_shaft_counts_where_its_temperature_is_not_the_room_s() {
        let heated = |shaft_expansion, room| {
            let mut y = [0.0];
            let x = [0.1, 0.05, 100.0, 11e-6, 400.0, shaft_expansion, 20.0, room];
            JOINING_TEMPERATURE.call(Units::Metric, &x, &mut y).unwrap();
            y[0]
        };
        assert_eq!(heated(0.0, 20.0), heated(11e-6, 20.0));
        assert!((heated(0.0, 25.0) - heated(11e-6, 25.0) - 5.0).abs() < 1e-9);
        let doc = JOINING_TEMPERATURE.arguments.iter().find(|a| a.name == "shaft_expansion").unwrap().doc;
        assert!(doc.contains("without effect where\n`shaft_temperature` is `room_temperature`"), "{doc}");
    }
}

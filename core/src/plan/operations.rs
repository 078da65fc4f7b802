//! The operations: cutting data, workholding and time.
use super::caution;
use super::document::*;
use super::evaluate::{Evaluation, OPERATIONS, minutes, no_answer};
use super::sheet::{Figure, OperationLines};
use crate::Limits;
use crate::cutting::milling::MILLING_REMOVAL_RATE;
use crate::cutting::sawing::SAWING_TIME;
use crate::cutting::speed::{CHIP_LOAD, FEED_PER_REVOLUTION, SURFACE_SPEED};
use crate::cutting::time::CUTTING_TIME;
use crate::document::fault::Place;
use crate::document::{DocumentError, DocumentNumber, Reference};
use crate::finding::FindingCode;
use crate::knurl::blank::KNURL_TEETH;
use crate::knurl::{KNURL_GROWTH, KNURL_GROWTH_INDENTED, KNURL_GROWTH_RAISED};
use crate::quantity::{Area, Length, Quantity, Time};
use crate::shape::flat::{FLAT_DEPTH, FLAT_WIDTH};
use crate::workholding::{screw::SCREW_PRELOAD, seat::SEAT_MARGIN};
use std::f64::consts::FRAC_PI_4;

/// Half of √3: the area of a hexagon over the square of its width across flats.
const HEXAGON: f64 = 0.866_025_403_784_438_6;
/// How far the preload of a screw scatters either way: common practice.
const PRELOAD_SCATTER: f64 = 0.3;

/// `a hole`, `4 holes`.
pub(super) fn several(count: u32, what: &str) -> String {
    if count == 1 { ["a ", what].concat() } else { format!("{count} {what}s") }
}

/// Figures that the plan states, as those to be set.
fn set_at_machine(figures: Vec<Figure>) -> impl Iterator<Item = Figure> {
    figures.into_iter().map(|figure| Figure { set: true, ..figure })
}

impl Evaluation<'_> {
    pub(super) fn operation(
        &mut self,
        index: usize,
        operation: &Operation,
    ) -> Result<OperationLines, DocumentError> {
        let place = OPERATIONS.index(index);
        let numbers = |references: &[Reference]| references.iter().map(|r| r.0).collect::<Vec<_>>();
        let mut characteristics = numbers(operation.makes());
        let (name, mut figures, minutes_per_part) = match operation {
            Operation::Saw(saw) => self.saw(place, saw)?,
            Operation::MillFlats(mill) => self.mill(place, mill)?,
            Operation::Turn(turn) => self.turn(place, turn)?,
            Operation::Face(face) => self.face(place, face)?,
            Operation::Drill(drill) => self.drill(place, drill)?,
            Operation::Tap(tap) => self.tap(place, tap)?,
            Operation::Deburr(deburr) => {
                let name = match &deburr.tool {
                    Some(tool) => ["Deburr with ", tool].concat(),
                    None => "Deburr".into(),
                };
                (name, vec![], minutes(deburr.time))
            }
            Operation::Knurl(knurl) => self.knurl(place, knurl)?,
            Operation::Press(press) => ("Press the hub on".into(), vec![], minutes(press.time)),
            Operation::Inspect(inspect) => {
                characteristics = numbers(&inspect.checks);
                let every = f64::from(inspect.every);
                let name = match inspect.every {
                    1 => "Inspect every part".into(),
                    every => format!("Inspect one part in every {every}"),
                };
                (name, vec![], minutes(inspect.time) / every)
            }
        };
        self.holding(place, operation, &mut figures)?;
        Ok(OperationLines {
            number: index as u32 + 1,
            kind: operation.name().into(),
            name,
            tool: operation.tool(),
            holding: self.held(operation),
            characteristics,
            figures: set_at_machine(self.settings(place, operation)).chain(figures).collect(),
            minutes_per_part,
            cautions: caution::of_operation(operation, &self.document.material),
        })
    }

    pub(super) fn time(&self, value: f64) -> Figure {
        Figure::new("cutting time", value, Time::KIND.unit(self.units).label)
    }

    fn saw(&mut self, place: Place<'_>, saw: &Saw) -> Result<(String, Vec<Figure>, f64), DocumentError> {
        let bar = &self.document.bar;
        let across = self.float(bar.limits.upper());
        let area = across
            * across
            * match bar.form {
                Form::Round => FRAC_PI_4,
                Form::Square => 1.0,
                Form::Hexagon => HEXAGON,
            };
        let time = self.figure(place, "cutting time", &SAWING_TIME, &[area, saw.sawing_rate.value()])?;
        let section = Figure::new("section", area, Area::KIND.unit(self.units).label);
        let total = time.value + minutes(saw.handling);
        Ok((["Saw with ", &saw.blade.name].concat(), vec![section, time], total))
    }

    /// A figure that the plan states itself.
    pub(super) fn stated<Q: Quantity>(&self, name: &'static str, reading: DocumentNumber<Q>) -> Figure {
        Figure::new(name, reading.value(), Q::KIND.unit(self.units).label)
    }

    fn mill(
        &mut self,
        place: Place<'_>,
        mill: &MillFlats,
    ) -> Result<(String, Vec<Figure>, f64), DocumentError> {
        let (spindle, feed) = (mill.spindle_speed.value(), mill.feed_rate.value());
        let tool = &mill.tool;
        let mut speed =
            self.figure(place, "surface speed", &SURFACE_SPEED, &[tool.diameter.value(), spindle])?;
        self.judge(place.field("spindle_speed"), &mut speed, &tool.surface_speed);
        let mut chip =
            self.figure(place, "chip load", &CHIP_LOAD, &[feed, f64::from(tool.teeth), spindle])?;
        self.judge(place.field("feed_rate"), &mut chip, &tool.chip_load);
        let removal = [mill.axial_depth.value(), mill.radial_width.value(), feed];
        let removal = self.figure(place, "removal rate", &MILLING_REMOVAL_RATE, &removal)?;
        let mut figures = Vec::with_capacity(10);
        figures.extend([speed, chip, removal]);
        if let Some(across) = self.limits_of(mill.across.0).map(|across| *across.limits) {
            let bar = self.float(self.document.bar.limits.upper());
            let across = self.float(across.middle());
            // Opposite flats share what is taken off between them.
            let remaining = if mill.flats == 1 { across } else { 0.5 * (bar + across) };
            // Flats that are no smaller than the bar are judged with the sizes that cuts leave.
            if remaining <= bar {
                let place = place.field("across");
                figures.push(self.figure(place, "depth of a flat", &FLAT_DEPTH, &[bar, remaining])?);
                figures.push(self.figure(place, "width of a flat", &FLAT_WIDTH, &[bar, remaining])?);
            }
        }
        if let Some(seat) = &mill.seat {
            self.seat(place.field("seat"), seat, &mut figures)?;
        }
        let pass = self.figure(place, "time of a pass", &CUTTING_TIME, &[mill.travel.value(), feed])?;
        let cutting = self.time(pass.value * f64::from(mill.flats) * f64::from(mill.passes));
        let total = cutting.value + minutes(mill.handling);
        figures.push(cutting);
        let flats = several(mill.flats, "flat");
        Ok((["Mill ", &flats, " with ", &tool.name].concat(), figures, total))
    }

    /// The seat is judged at the largest bar, in exact sizes.
    fn seat(
        &mut self,
        place: Place<'_>,
        seat: &Seat,
        figures: &mut Vec<Figure>,
    ) -> Result<(), DocumentError> {
        let largest = self.document.bar.limits.upper();
        let margin = [self.float(largest), self.float(seat.depth)];
        figures.push(self.figure(place, "seat margin", &SEAT_MARGIN, &margin)?);
        let twice = seat.depth.checked_mul(2).ok_or_else(|| no_answer(place, "the seat is too deep"))?;
        if twice <= largest {
            let message = format!(
                "a wall of {} does not reach past the middle of the largest bar, {}: it cannot hold it",
                seat.depth.format(self.units),
                largest.format(self.units)
            );
            self.find(
                FindingCode::SeatTooShallow,
                place,
                message,
                "use a seat deeper than half the largest bar",
            );
        }
        let Screw { diameter, torque, nut_factor } = &seat.screw;
        let preload = [torque.value(), diameter.value(), nut_factor.value()];
        let preload = self.figure(place.field("screw"), "screw preload", &SCREW_PRELOAD, &preload)?;
        let scattered = |name, factor: f64| Figure::new(name, preload.value * factor, preload.unit.clone());
        let [low, high] = [
            scattered("screw preload, low", 1.0 - PRELOAD_SCATTER),
            scattered("screw preload, high", 1.0 + PRELOAD_SCATTER),
        ];
        figures.extend([low, preload, high]);
        Ok(())
    }

    /// After knurling the diameter lies between the smallest blank, not yet grown, and the largest at full form.
    fn knurl(
        &mut self,
        place: Place<'_>,
        knurl: &Knurl,
    ) -> Result<(String, Vec<Figure>, f64), DocumentError> {
        let blank = knurl.blank.unwrap_or(*self.document.bar.limits);
        let (least, greatest) = (self.float(blank.lower()), self.float(blank.upper()));
        let (pitch, angle) = (knurl.pitch.value(), knurl.profile_angle.value());
        let growth = match knurl.pattern {
            Pattern::Straight | Pattern::Diagonal => &KNURL_GROWTH,
            Pattern::Raised => &KNURL_GROWTH_RAISED,
            Pattern::Indented => &KNURL_GROWTH_INDENTED,
        };
        let growth = self.figure(place, "growth at full form", growth, &[pitch, angle])?;
        let mut speed =
            self.figure(place, "surface speed", &SURFACE_SPEED, &[greatest, knurl.spindle_speed.value()])?;
        self.judge(place.field("spindle_speed"), &mut speed, &knurl.tool.surface_speed);
        let feed = [knurl.feed_rate.value(), knurl.spindle_speed.value()];
        let feed = self.figure(place, "feed per revolution", &FEED_PER_REVOLUTION, &feed)?;
        let middle = self.float(blank.middle());
        let teeth = self.figure(
            place,
            "teeth on the blank",
            &KNURL_TEETH,
            &[middle, pitch, knurl.helix_angle.value()],
        )?;
        let unit = Length::KIND.unit(self.units).label;
        let diameter = |name, value| Figure::new(name, value, unit);
        // Whole teeth on the circumference track; the blank nearest by is as much larger or smaller.
        let tracking = middle * teeth.value.round() / teeth.value;
        let time = self.figure(
            place,
            "cutting time",
            &CUTTING_TIME,
            &[knurl.travel.value(), knurl.feed_rate.value()],
        )?;
        let total = time.value + minutes(knurl.handling);
        self.judge_knurl(place, knurl, &blank, growth.value);
        self.judge_teeth(place, &blank, teeth.value / middle, tracking);
        let figures = vec![
            speed,
            feed,
            diameter("diameter, least", least),
            diameter("diameter, greatest", greatest + growth.value),
            growth,
            teeth,
            diameter("blank for whole teeth", tracking),
            time,
        ];
        let pattern = match knurl.pattern {
            Pattern::Straight => "straight knurl",
            Pattern::Diagonal => "diagonal knurl",
            Pattern::Raised => "knurl of raised diamonds",
            Pattern::Indented => "knurl of indented diamonds",
        };
        Ok((["Roll a ", pattern, " with ", &knurl.tool.name].concat(), figures, total))
    }

    /// Whether every blank of these limits can be rolled to the diameters that the knurl makes.
    fn judge_knurl(&mut self, place: Place<'_>, knurl: &Knurl, blank: &Limits, growth: f64) {
        for number in &knurl.makes {
            let asked = match self.limits_of(number.0) {
                Some(c) if c.kind == CharacteristicKind::Diameter => *c.limits,
                _ => continue,
            };
            let is_over = blank.upper() > asked.upper();
            let is_under = self.float(blank.lower()) + growth < self.float(asked.lower());
            if !is_over && !is_under {
                continue;
            }
            let [blank, asked] = [blank, &asked].map(|limits| limits.format(self.units));
            let (message, remedy) = if is_over {
                let message = format!("the blank, {blank}, may be over the limits of the knurl, {asked}");
                (message, "turn the blank smaller: a knurl only grows")
            } else {
                let message = format!("the smallest blank, of {blank}, stays under {asked} at full form");
                (message, "use a larger blank or a coarser pitch")
            };
            self.find(FindingCode::KnurlOutOfReach, place, message, remedy);
        }
    }

    /// A wheel tracks in its own grooves where a whole number of teeth goes round the blank.
    fn judge_teeth(&mut self, place: Place<'_>, blank: &Limits, teeth_per_diameter: f64, tracking: f64) {
        let [least, most] = [blank.lower(), blank.upper()].map(|d| self.float(d) * teeth_per_diameter);
        if most.floor() < least {
            let unit = Length::KIND.unit(self.units).label;
            let message = format!(
                "{least:.2} to {most:.2} teeth go round the blank, never a whole number; a blank of {tracking:.3} {unit} takes a whole number"
            );
            let remedy = "turn the blank to that diameter, or watch that the wheel tracks on the first turn";
            self.find(FindingCode::KnurlMayNotTrack, place, message, remedy);
        }
    }
}

//! Sawing the parts from the bar.
use super::prelude::*;
use crate::cutting::sawing::SAWING_TIME;
use crate::plan::bar::Form;
use std::f64::consts::FRAC_PI_4;

objects! {
    /// Cuts the parts from the bar.
    Saw {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The length characteristic that parts are cut for.
        cut_length: Reference,
        /// The width of the cut.
        kerf: Size where NonNegative,
        /// What each part is cut longer by, for facing.
        facing_allowance: Size where NonNegative = Size::ZERO,
        /// The blade.
        blade: Blade,
        /// The speed of the blade.
        surface_speed: DocumentNumber<SurfaceSpeed> where Positive,
        /// The section cut through in unit time.
        sawing_rate: DocumentNumber<SawingRate> where Positive,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }

    /// A saw blade, with what its maker recommends for the material.
    Blade {
        /// What it is.
        name: String,
        /// The recommended speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended sawing rates.
        sawing_rate: Range<SawingRate> where Positive,
    }
}

/// Half of √3: the area of a hexagon over the square of its width across flats.
const HEXAGON: f64 = 0.866_025_403_784_438_6;

impl Kind for Saw {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Length]
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.blade.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::SAW]
    }

    fn leaves_burrs(&self) -> bool {
        true
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let across = work.float(work.bar.limits.upper());
        let area = across
            * across
            * match work.bar.form {
                Form::Round => FRAC_PI_4,
                Form::Square => 1.0,
                Form::Hexagon => HEXAGON,
            };
        let time = work.figure(place, "cutting time", &SAWING_TIME, &[area, self.sawing_rate.value()])?;
        let minutes = time.value + self.handling.value();
        let figures = vec![work.plain::<Area>("section", area), time];
        Ok(Done { name: ["Saw with ", &self.blade.name].concat(), figures, minutes })
    }

    fn settings(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Vec<Figure> {
        let mut speed = work.stated("surface speed", self.surface_speed);
        work.judge(place.field("surface_speed"), &mut speed, &self.blade.surface_speed);
        let mut rate = work.stated("sawing rate", self.sawing_rate);
        work.judge(place.field("sawing_rate"), &mut rate, &self.blade.sawing_rate);
        let names = ["sawn length, least", "sawn length, greatest"];
        let mut settings = vec![speed, rate];
        settings.extend(work.limits_or(self.cut_length, names, self.facing_allowance));
        settings.push(work.size("kerf", self.kerf));
        settings
    }
}

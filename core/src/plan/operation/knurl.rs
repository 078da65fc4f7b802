//! Rolling a knurl.
use super::prelude::*;
use crate::cutting::speed::{FEED_PER_REVOLUTION, SURFACE_SPEED};
use crate::cutting::time::CUTTING_TIME;
use crate::knurl::blank::KNURL_TEETH;
use crate::knurl::{KNURL_GROWTH, KNURL_GROWTH_INDENTED, KNURL_GROWTH_RAISED};

objects! {
    /// Rolls a knurl.
    Knurl {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The pattern of the knurl.
        pattern: Pattern,
        /// Pitch, normal to the groove.
        pitch: DocumentNumber<Length> where Positive,
        /// Included angle of the tooth.
        profile_angle: DocumentNumber<Angle> where BelowStraight = DocumentNumber::new(90.0),
        /// Angle of the grooves to the axis: zero for a straight knurl alone.
        helix_angle: DocumentNumber<Angle> where BelowRight = DocumentNumber::new(0.0),
        /// The blank before knurling; without it the bar as bought.
        blank: Option<Limits> where Positive,
        /// The knurling tool.
        tool: KnurlTool,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed rate along the axis.
        feed_rate: DocumentNumber<FeedRate> where Positive,
        /// Travel along the axis.
        travel: DocumentNumber<Length> where Positive,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        helix_angle, pattern => suits_pattern;
    }

    /// A knurling tool, with what its maker recommends for the material.
    KnurlTool {
        /// What it is.
        name: String,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
    }
}

choices! {
    /// The pattern of a knurl.
    Pattern {
        /// Grooves along the axis.
        Straight = "straight",
        /// Grooves of one helix.
        Diagonal = "diagonal",
        /// Crossing grooves, points raised.
        Raised = "raised",
        /// Crossing ridges, points indented.
        Indented = "indented",
    }
}

fn suits_pattern(helix: &DocumentNumber<Angle>, pattern: &Pattern) -> Option<String> {
    let helix = helix.value();
    match pattern {
        Pattern::Straight if helix != 0.0 => {
            Some(format!("the helix of a straight knurl must be left out, not {helix}°"))
        }
        Pattern::Diagonal if helix == 0.0 => Some("a diagonal knurl needs its helix, such as 30".into()),
        _ => None,
    }
}

impl Kind for Knurl {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        &[CharacteristicKind::Diameter]
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.tool.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::CHUCK, caution::KNURL]
    }

    fn makes_chips(&self) -> bool {
        false
    }

    /// After knurling the diameter lies between the smallest blank, not yet grown, and the largest at full form.
    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let blank = self.blank.unwrap_or(*work.bar.limits);
        let (least, greatest) = (work.float(blank.lower()), work.float(blank.upper()));
        let (pitch, angle) = (self.pitch.value(), self.profile_angle.value());
        let growth = match self.pattern {
            Pattern::Straight | Pattern::Diagonal => &KNURL_GROWTH,
            Pattern::Raised => &KNURL_GROWTH_RAISED,
            Pattern::Indented => &KNURL_GROWTH_INDENTED,
        };
        let growth = work.figure(place, "growth at full form", growth, &[pitch, angle])?;
        let mut speed =
            work.figure(place, "surface speed", &SURFACE_SPEED, &[greatest, self.spindle_speed.value()])?;
        work.judge(place.field("spindle_speed"), &mut speed, &self.tool.surface_speed);
        let feed = [self.feed_rate.value(), self.spindle_speed.value()];
        let feed = work.figure(place, "feed per revolution", &FEED_PER_REVOLUTION, &feed)?;
        let middle = work.float(blank.middle());
        let teeth = work.figure(
            place,
            "teeth on the blank",
            &KNURL_TEETH,
            &[middle, pitch, self.helix_angle.value()],
        )?;
        // Whole teeth on the circumference track; the blank nearest by is as much larger or smaller.
        let tracking = middle * teeth.value.round() / teeth.value;
        let time = work.figure(
            place,
            "cutting time",
            &CUTTING_TIME,
            &[self.travel.value(), self.feed_rate.value()],
        )?;
        let minutes = time.value + self.handling.value();
        judge_knurl(work, place, &self.makes, &blank, growth.value);
        judge_teeth(work, place, &blank, teeth.value / middle, tracking);
        let figures = vec![
            speed,
            feed,
            work.plain::<Length>("diameter, least", least),
            work.plain::<Length>("diameter, greatest", greatest + growth.value),
            growth,
            teeth,
            work.plain::<Length>("blank for whole teeth", tracking),
            time,
        ];
        let pattern = match self.pattern {
            Pattern::Straight => "straight knurl",
            Pattern::Diagonal => "diagonal knurl",
            Pattern::Raised => "knurl of raised diamonds",
            Pattern::Indented => "knurl of indented diamonds",
        };
        Ok(Done { name: ["Roll a ", pattern, " with ", &self.tool.name].concat(), figures, minutes })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let blank = self.blank.unwrap_or(*work.bar.limits);
        vec![
            work.stated("spindle speed", self.spindle_speed),
            work.stated("feed rate", self.feed_rate),
            work.stated("travel", self.travel),
            work.size("blank, least", blank.lower()),
            work.size("blank, greatest", blank.upper()),
            work.stated("pitch", self.pitch),
            work.stated("profile angle", self.profile_angle),
            work.stated("helix angle", self.helix_angle),
        ]
    }
}

/// Whether every blank of these limits can be rolled to the diameters that the knurl makes.
fn judge_knurl(
    work: &mut Evaluation<'_>,
    place: Place<'_>,
    makes: &[Reference],
    blank: &Limits,
    growth: f64,
) {
    for number in makes {
        let asked = match work.limits_of(number.0) {
            Some(c) if c.kind == CharacteristicKind::Diameter => *c.limits,
            _ => continue,
        };
        let is_over = blank.upper() > asked.upper();
        let is_under = work.float(blank.lower()) + growth < work.float(asked.lower());
        if !is_over && !is_under {
            continue;
        }
        let [blank, asked] = [blank, &asked].map(|limits| limits.format(work.units));
        let (message, remedy) = if is_over {
            let message = format!("the blank, {blank}, may be over the limits of the knurl, {asked}");
            (message, "turn the blank smaller: a knurl only grows")
        } else {
            let message = format!("the smallest blank, of {blank}, stays under {asked} at full form");
            (message, "use a larger blank or a coarser pitch")
        };
        work.find(FindingCode::KnurlOutOfReach, place, message, remedy);
    }
}

/// A wheel tracks in its own grooves where a whole number of teeth goes round the blank.
fn judge_teeth(
    work: &mut Evaluation<'_>,
    place: Place<'_>,
    blank: &Limits,
    teeth_per_diameter: f64,
    tracking: f64,
) {
    let [least, most] = [blank.lower(), blank.upper()].map(|d| work.float(d) * teeth_per_diameter);
    if most.floor() < least {
        let unit = Length::KIND.unit(work.units).label;
        let message = format!(
            "{least:.2} to {most:.2} teeth go round the blank, never a whole number; a blank of {tracking:.3} {unit} takes a whole number"
        );
        let remedy = "turn the blank to that diameter, or watch that the wheel tracks on the first turn";
        work.find(FindingCode::KnurlMayNotTrack, place, message, remedy);
    }
}

//! Grinding: cylindrical, centreless, and of a flat.
use super::prelude::*;
use crate::cutting::grinding::{
    CENTRELESS_FEED_RATE, GRINDING_PASSES, GRINDING_WHEEL_SPEED, SURFACE_GRINDING_TIME,
    TRAVERSE_GRINDING_TIME,
};
use crate::cutting::time::CUTTING_TIME;

objects! {
    /// Grinds a diameter or a face.
    ///
    /// Caution: a wheel that bursts kills. Ring-test it, never run it faster than its marking, keep the guard on and stand
    /// aside while it comes up to speed.
    Grind {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// How it is ground.
        method: GrindingMethod,
        /// The diameter before grinding; without it that of the bar. Of a diameter only.
        diameter: Option<Size> where Positive,
        /// The end that a diameter is ground from; with `length` it tells where the step lies.
        end: End = End::First,
        /// How far the ground step reaches from that end; without it its place is not judged.
        length: Option<Size> where Positive,
        /// What is ground off: on the radius of a diameter, or off a face.
        stock: Size where Positive,
        /// What a pass takes off, on the radius of a diameter, or off a face.
        infeed: Size where Positive,
        /// Passes without infeed at the end.
        spark_out_passes: u32 = 0,
        /// The wheel.
        wheel: Wheel,
        /// Speed of the wheel's spindle.
        wheel_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Travel of a pass, overrun included.
        travel: DocumentNumber<Length> where Positive,
        /// Travel in one turn of the work; of a cylindrical grind.
        traverse_feed: Option<DocumentNumber<Length>> where Positive,
        /// Speed of the work; of a cylindrical grind.
        work_speed: Option<DocumentNumber<SpindleSpeed>> where Positive,
        /// Diameter of the regulating wheel; of a centreless grind.
        regulating_wheel_diameter: Option<DocumentNumber<Length>> where Positive,
        /// Speed of the regulating wheel; of a centreless grind.
        regulating_wheel_speed: Option<DocumentNumber<SpindleSpeed>> where Positive,
        /// Tilt of the regulating wheel; of a centreless grind.
        tilt_angle: Option<DocumentNumber<Angle>> where BelowStraight,
        /// Width of the face; of a surface grind.
        width: Option<DocumentNumber<Length>> where Positive,
        /// What the wheel moves across from stroke to stroke; of a surface grind.
        crossfeed: Option<DocumentNumber<Length>> where Positive,
        /// Speed of the table; of a surface grind.
        table_speed: Option<DocumentNumber<SurfaceSpeed>> where Positive,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        method, traverse_feed, work_speed => turns;
        method, regulating_wheel_diameter, regulating_wheel_speed, tilt_angle => regulates;
        method, width, crossfeed, table_speed => strokes;
        infeed, stock => within_stock;
    }

    /// A grinding wheel.
    Wheel {
        /// What it is.
        name: String,
        /// Its diameter.
        diameter: DocumentNumber<Length> where Positive,
        /// The greatest surface speed that is marked on it.
        rated_speed: DocumentNumber<SurfaceSpeed> where Positive,
    }
}

choices! {
    /// How it is ground.
    GrindingMethod {
        /// A diameter, between centres or in a chuck, the wheel travelling along it.
        Cylindrical = "cylindrical",
        /// A diameter, fed through between the wheel and a regulating wheel.
        Centerless = "centerless",
        /// A face, on a table that moves to and fro.
        Surface = "surface",
    }
}

/// Fields that one method needs and the others do not have.
fn needs(method: GrindingMethod, own: GrindingMethod, given: &[bool], fields: &str) -> Option<String> {
    match method == own {
        true => (!given.iter().all(|one| *one)).then(|| format!("a {} grind needs {fields}", own.name())),
        false => given.iter().any(|one| *one).then(|| {
            format!("{fields} belong to a {} grind: leave them out of a {} one", own.name(), method.name())
        }),
    }
}

fn turns(
    method: &GrindingMethod,
    feed: &Option<DocumentNumber<Length>>,
    speed: &Option<DocumentNumber<SpindleSpeed>>,
) -> Option<String> {
    let given = [feed.is_some(), speed.is_some()];
    needs(*method, GrindingMethod::Cylindrical, &given, "`traverse_feed` and `work_speed`")
}

fn regulates(
    method: &GrindingMethod,
    diameter: &Option<DocumentNumber<Length>>,
    speed: &Option<DocumentNumber<SpindleSpeed>>,
    tilt: &Option<DocumentNumber<Angle>>,
) -> Option<String> {
    let fields = "`regulating_wheel_diameter`, `regulating_wheel_speed` and `tilt_angle`";
    let given = [diameter.is_some(), speed.is_some(), tilt.is_some()];
    needs(*method, GrindingMethod::Centerless, &given, fields)
}

fn strokes(
    method: &GrindingMethod,
    width: &Option<DocumentNumber<Length>>,
    crossfeed: &Option<DocumentNumber<Length>>,
    speed: &Option<DocumentNumber<SurfaceSpeed>>,
) -> Option<String> {
    let given = [width.is_some(), crossfeed.is_some(), speed.is_some()];
    needs(*method, GrindingMethod::Surface, &given, "`width`, `crossfeed` and `table_speed`")
}

fn within_stock(infeed: &Size, stock: &Size) -> Option<String> {
    (infeed > stock).then(|| {
        let [infeed, stock] = crate::size::alike([*infeed, *stock]);
        format!("an infeed of {infeed} is more than the stock of {stock}")
    })
}

impl Grind {
    /// Minutes of all passes.
    fn time(&self, work: &mut Evaluation<'_>, place: Place<'_>, passes: f64) -> Result<f64, DocumentError> {
        let travel = self.travel.value();
        if let (Some(feed), Some(speed)) = (self.traverse_feed, self.work_speed) {
            let x = [travel, feed.value(), speed.value(), passes];
            return Ok(work.results(place, &TRAVERSE_GRINDING_TIME, &x)?[0]);
        }
        if let (Some(width), Some(crossfeed), Some(speed)) = (self.width, self.crossfeed, self.table_speed) {
            let x = [travel, width.value(), crossfeed.value(), speed.value(), passes];
            return Ok(work.results(place, &SURFACE_GRINDING_TIME, &x)?[0]);
        }
        let regulating = (self.regulating_wheel_diameter, self.regulating_wheel_speed, self.tilt_angle);
        let (Some(diameter), Some(speed), Some(tilt)) = regulating else { return Ok(0.0) };
        let x = [diameter.value(), speed.value(), tilt.value()];
        let [feed, ..] = work.results(place, &CENTRELESS_FEED_RATE, &x)?;
        Ok(work.results(place, &CUTTING_TIME, &[travel, feed])?[0] * passes)
    }
}

impl Kind for Grind {
    fn makes(&self) -> &[Reference] {
        &self.makes
    }

    fn can_make(&self) -> &'static [CharacteristicKind] {
        use CharacteristicKind::{AcrossFlats, Bore, Diameter, Length, Slot, Width};
        match self.method {
            GrindingMethod::Surface => &[Length, Width, AcrossFlats, Slot],
            GrindingMethod::Centerless => &[Diameter],
            GrindingMethod::Cylindrical => &[Diameter, Bore],
        }
    }

    fn tool(&self) -> Option<&str> {
        Some(&self.wheel.name)
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[caution::CUT, caution::GRIND]
    }

    fn closest_grade(&self) -> Option<u8> {
        Some(4)
    }

    fn turned(&self, work: &Evaluation<'_>) -> Option<Turned> {
        let is_outside = self
            .makes
            .iter()
            .all(|number| work.limits_of(number.0).is_some_and(|c| c.kind == CharacteristicKind::Diameter));
        let taken = self.stock.checked_mul(2);
        let from = work.bar_or(self.diameter);
        let left = taken.and_then(|taken| from.checked_sub(taken)).filter(|left| left.is_positive());
        let reach = self.length.map(|length| (self.end, length));
        let cut = Turned { field: "stock", start: self.diameter, left, reach };
        (self.method != GrindingMethod::Surface && is_outside).then_some(cut)
    }

    fn evaluate(&self, work: &mut Evaluation<'_>, place: Place<'_>) -> Result<Done, DocumentError> {
        let wheel = &self.wheel;
        let x = [wheel.diameter.value(), self.wheel_speed.value(), wheel.rated_speed.value()];
        let y = work.results(place.field("wheel_speed"), &GRINDING_WHEEL_SPEED, &x)?;
        let told = |name, output| work.output(&GRINDING_WHEEL_SPEED, name, output, &y);
        let mut figures = vec![told("wheel speed", 0), told("share of its rating", 1)];
        let [stock, infeed] = [self.stock, self.infeed].map(|size| work.float(size));
        let passes = [stock, infeed, f64::from(self.spark_out_passes)];
        let passes = work.figure(place, "passes", &GRINDING_PASSES, &passes)?;
        let cutting = self.time(work, place, passes.value)?;
        figures.extend([passes, work.time(cutting)]);
        let how = match self.method {
            GrindingMethod::Cylindrical => "Grind the diameter with ",
            GrindingMethod::Centerless => "Grind centreless with ",
            GrindingMethod::Surface => "Grind the face with ",
        };
        Ok(Done { name: [how, &wheel.name].concat(), figures, minutes: cutting + self.handling.value() })
    }

    fn settings(&self, work: &mut Evaluation<'_>, _: Place<'_>) -> Vec<Figure> {
        let mut settings = vec![work.stated("wheel spindle speed", self.wheel_speed)];
        if let Some(Turned { left: Some(left), .. }) = self.turned(work) {
            settings.push(work.size("start diameter", work.bar_or(self.diameter)));
            settings.push(work.size("finish diameter", left));
        } else {
            settings.push(work.size("ground off", self.stock));
        }
        settings.extend([
            work.size("infeed of a pass", self.infeed),
            count("passes to spark out", self.spark_out_passes),
            work.stated("travel of a pass", self.travel),
        ]);
        settings.extend(self.work_speed.map(|speed| work.stated("work speed", speed)));
        settings.extend(self.traverse_feed.map(|feed| work.stated("travel in a turn of the work", feed)));
        settings
            .extend(self.regulating_wheel_speed.map(|speed| work.stated("regulating wheel speed", speed)));
        settings.extend(self.tilt_angle.map(|tilt| work.stated("tilt of the regulating wheel", tilt)));
        settings.extend(self.table_speed.map(|speed| work.stated("table speed", speed)));
        settings.extend(self.crossfeed.map(|feed| work.stated("crossfeed", feed)));
        settings
    }
}

//! The plan document: from drawing and bar to the order of operations.
use super::linear_stack::{LinearStack, bounded_work};
use super::rates::Rates;
use crate::document::Version;
use crate::document::decode::{
    Context, Decode, DocumentNumber, Reference, decode_field, decode_name, decode_tag, decode_text,
    sort_fields,
};
use crate::document::fault::{FaultKind, Place};
use crate::document::limits::{DrawingLimits, Range, StatedLimits};
use crate::document::node::Node;
use crate::document::objects::{choices, objects, tagged};
use crate::document::shape::{Bound, ChoiceName, Field, Object, Shape};
use crate::error::shortened;
use crate::material::Material;
use crate::quantity::*;
use crate::size::alike;
use crate::{GeneralClass, Limits, Size, Thread, material};

objects! {
    /// A plan: one part from its drawing to its process sheet.
    Document {
        /// The version of this form of document.
        tenths_plan: Version,
        /// What fixes the unit of every bare number. Text always carries its own.
        units: Units,
        /// The part to make.
        part: Part,
        /// What the bar is made of.
        material: Metal,
        /// The class of general tolerances that the drawing names, such as `ISO 2768-mK`. With it the limits of a
        /// characteristic may be a size alone, `120 mm`, or a broken edge, `2 mm edge`.
        general_tolerance: Option<GeneralClass>,
        /// What the drawing asks for.
        characteristics: Vec<Characteristic>,
        /// The bar stock as bought.
        bar: Bar,
        /// The operations, in the order of the work.
        operations: Vec<Operation>,
        /// A pressed joint of this part and a hub.
        joint: Option<Joint>,
        /// What dimensions add up to in assembly.
        stacks: Vec<LinearStack> = Vec::new(),
        /// What the shop charges by, for a quote.
        rates: Option<Rates>,
    } => rules {
        stacks => bounded_work;
    }

    /// The part to make.
    Part {
        /// Its name.
        name: String,
        /// Its number.
        number: Option<String>,
        /// How many to make.
        quantity: u32 where Positive,
    }

    /// A material: one of the table, with figures of your own before those of the table, or all your own.
    Metal {
        /// Its designation in the table of materials.
        designation: Option<Designation>,
        /// What it is called, where it is not of the table.
        name: Option<String>,
        /// Modulus of elasticity.
        modulus: Option<DocumentNumber<Modulus>> where Positive,
        /// Poisson's ratio.
        poisson: Option<DocumentNumber<Ratio>> where BelowHalf,
        /// Density.
        density: Option<DocumentNumber<Density>> where Positive,
        /// Coefficient of linear expansion.
        expansion: Option<DocumentNumber<ExpansionCoefficient>> where NonNegative,
        /// Yield strength.
        yield_strength: Option<DocumentNumber<Stress>> where Positive,
        /// Specific cutting force at a chip of 1 mm by 1 mm.
        kc11: Option<DocumentNumber<Stress>> where Positive,
        /// Kienzle's exponent.
        mc: Option<DocumentNumber<Ratio>> where BelowOne,
    } => rules {
        designation, modulus, poisson => has_elasticity;
    }

    /// Something that the drawing asks for and that inspection answers.
    Characteristic {
        /// Its number on the drawing, by which operations name it.
        number: u32 where Positive,
        /// What it is called.
        name: Option<String>,
        /// What is measured.
        kind: CharacteristicKind,
        /// The limits of the drawing, plating included.
        limits: DrawingLimits where NonNegative,
        /// How size and form go together.
        requirement: Requirement,
        /// The greatest roughness Ra.
        roughness: Option<DocumentNumber<RoughnessRa>> where Positive,
        /// The greatest deviation of form: roundness and straightness of a diameter, flatness of faces.
        form_deviation: Option<Size> where NonNegative,
        /// The plating that the limits include; without it the surface is bare.
        plating: Option<Plating>,
        /// How it is inspected.
        inspection: String,
        /// The gauge that it is to be proved with.
        gauge: Option<GaugeKind>,
        /// The least Cpk that the process must be shown to have.
        capability: Option<DocumentNumber<Ratio>> where Positive,
    }

    /// A plating.
    Plating {
        /// What it is.
        name: String,
        /// Its least and greatest thickness on a surface.
        thickness: Limits where NonNegative,
    }

    /// Bar stock as bought.
    Bar {
        /// Its section.
        form: Form,
        /// Its diameter, or its width across flats, as bought.
        limits: StatedLimits where Positive,
        /// The length of a bar.
        bar_length: Size where Positive,
        /// What is cut off the end of a new bar.
        end_trim: Size where NonNegative = Size::ZERO,
        /// What the machine cannot use of each bar.
        remnant: Size where NonNegative = Size::ZERO,
        /// How it is finished.
        finish: Option<String>,
        /// The greatest roughness Ra that the finish leaves.
        roughness: Option<DocumentNumber<RoughnessRa>> where Positive,
        /// The greatest deviation of form, straightness included, over the length of a part.
        form_deviation: Option<Size> where NonNegative,
    }

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

    /// Mills flats on a round bar.
    MillFlats {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The characteristic across the flats: from flat to flat, or for a single one to the far side.
        across: Reference,
        /// How many flats. One stands alone; an even number lies in opposite pairs.
        flats: u32 where Positive,
        /// The cutter.
        tool: Cutter,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed rate of the table.
        feed_rate: DocumentNumber<FeedRate> where Positive,
        /// Depth of one pass along the axis of the cutter, toward the axis of the bar.
        axial_depth: DocumentNumber<Length> where Positive,
        /// Width of the cut across the cutter.
        radial_width: DocumentNumber<Length> where Positive,
        /// Passes for each flat.
        passes: u32 where Positive = 1,
        /// Travel of one pass, approach and overrun included.
        travel: DocumentNumber<Length> where Positive,
        /// The step seat that holds the bar.
        seat: Option<Seat>,
        /// How the work is held; with it the sheet tells the safety of the clamping.
        holding: Option<Workholding>,
        /// The time to load, turn and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        flats => one_or_even;
        radial_width, tool => within_cutter;
    }

    /// A milling cutter, with what its maker recommends for the material.
    Cutter {
        /// What it is.
        name: String,
        /// Its diameter.
        diameter: DocumentNumber<Length> where Positive,
        /// How many teeth it has.
        teeth: u32 where Positive,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended chip loads.
        chip_load: Range<Length> where Positive,
    }

    /// A step seat: a round bar lies in a corner, and a clamp screw holds it against floor and wall.
    ///
    /// Caution: screw preload scatters by about 30 percent either way, and is tension in the screw, not yet force on the
    /// part. Try the clamping before cutting: a part that comes loose is thrown.
    Seat {
        /// Height of the wall above the floor.
        depth: Size where Positive,
        /// The clamp screw.
        screw: Screw,
    }

    /// A clamp screw.
    Screw {
        /// Its nominal diameter.
        diameter: DocumentNumber<Length> where Positive,
        /// The torque that it is tightened with.
        torque: DocumentNumber<Torque> where Positive,
        /// The nut factor of torque over tension.
        nut_factor: DocumentNumber<Ratio> where Positive = DocumentNumber::new(0.2),
    }

    /// How an operation holds the work, against which forces its safety is judged.
    ///
    /// Caution: friction and clamping force vary widely, and a part that comes loose is thrown. Measure the force, keep a margin, and
    /// follow the data of the makers of machine and workholding.
    Workholding {
        /// The way of holding.
        by: HoldingKind,
        /// The force of all clamps together; of a chuck or collet the grip at rest.
        clamp_force: DocumentNumber<Force> where Positive,
        /// The coefficient of friction between work and clamps: 0.1 to 0.2 for smooth steel, up to 0.45 for serrated jaws.
        friction: DocumentNumber<Ratio> where Positive,
        /// The faces that share the friction under straps or in a vice; without it 1 and 2.
        faces: Option<u32> where Positive,
        /// The diameter at which a chuck, collet or V-block holds the work; without it that of the bar.
        grip_diameter: Option<DocumentNumber<Length>> where Positive,
        /// The grip that speed takes from a chuck.
        grip_lost: DocumentNumber<Force> where NonNegative = DocumentNumber::new(0.0),
        /// The safety wanted against the forces of the cut.
        safety: DocumentNumber<Ratio> where Positive = DocumentNumber::new(2.0),
        /// How far from the jaws the tool cuts, at most; with it the bending of turned work is judged.
        overhang: Option<DocumentNumber<Length>> where Positive,
        /// The distance from the jaws to the centre of a tailstock, where one carries the work.
        tailstock: Option<DocumentNumber<Length>> where Positive,
        /// The points that locate the work; with them the sheet tells which motions they leave.
        locators: Vec<LocatorPoint> = Vec::new(),
    } => rules {
        by, grip_lost => lost_by_chuck;
        by, faces => shared_by_flat_faces;
        overhang, tailstock => before_tailstock;
    }

    /// A point that locates the work, about any origin.
    LocatorPoint {
        /// Its place along x.
        x: DocumentNumber<Length>,
        /// Its place along y.
        y: DocumentNumber<Length>,
        /// Its place along z.
        z: DocumentNumber<Length>,
        /// The part along x of the direction in which it pushes the work.
        i: DocumentNumber<Ratio> = DocumentNumber::new(0.0),
        /// The part along y of that direction.
        j: DocumentNumber<Ratio> = DocumentNumber::new(0.0),
        /// The part along z of that direction.
        k: DocumentNumber<Ratio> = DocumentNumber::new(0.0),
    } => rules {
        i, j, k => has_direction;
    }

    /// Turns a diameter along the axis.
    Turn {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The diameter before the cut; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// Depth of a pass, on the radius.
        depth: DocumentNumber<Length> where Positive,
        /// Passes.
        passes: u32 where Positive = 1,
        /// Travel of a pass, approach and overrun included.
        travel: DocumentNumber<Length> where Positive,
        /// The tool.
        tool: TurningTool,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed per revolution.
        feed_per_revolution: DocumentNumber<Length> where Positive,
        /// The power of the machine's motor.
        motor_power: Option<DocumentNumber<Power>> where Positive,
        /// How the work is held; with it the sheet tells the safety of the clamping.
        holding: Option<Workholding>,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        feed_per_revolution, tool => within_nose;
    }

    /// Turns a face across the axis.
    Face {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The diameter at which the cut begins; without it that of the bar.
        diameter: Option<Size> where Positive,
        /// The diameter at which the cut ends; zero for the centre.
        inner_diameter: Size where NonNegative = Size::ZERO,
        /// Depth of a pass, along the axis.
        depth: DocumentNumber<Length> where Positive,
        /// Passes.
        passes: u32 where Positive = 1,
        /// The tool.
        tool: TurningTool,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed per revolution.
        feed_per_revolution: DocumentNumber<Length> where Positive,
        /// The power of the machine's motor.
        motor_power: Option<DocumentNumber<Power>> where Positive,
        /// How the work is held; with it the sheet tells the safety of the clamping.
        holding: Option<Workholding>,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    } => rules {
        feed_per_revolution, tool => within_nose;
    }

    /// A turning tool, with what its maker recommends for the material.
    TurningTool {
        /// What it is.
        name: String,
        /// Its nose radius.
        nose_radius: DocumentNumber<Length> where Positive,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended feeds per revolution.
        feed_per_revolution: Range<Length> where Positive,
    }

    /// Drills holes in solid metal.
    Drill {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The drill.
        tool: DrillTool,
        /// Depth of a hole at its full diameter; the thickness of the work for a through hole.
        depth: DocumentNumber<Length> where Positive,
        /// Distance from where the feed begins to the surface.
        approach: DocumentNumber<Length> where NonNegative = DocumentNumber::new(0.0),
        /// How far the full diameter runs out of the far side of a through hole.
        breakthrough: DocumentNumber<Length> where NonNegative = DocumentNumber::new(0.0),
        /// How many holes.
        holes: u32 where Positive = 1,
        /// Spindle speed.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Feed per revolution.
        feed_per_revolution: DocumentNumber<Length> where Positive,
        /// The power of the machine's motor.
        motor_power: Option<DocumentNumber<Power>> where Positive,
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }

    /// A drill, with what its maker recommends for the material.
    DrillTool {
        /// What it is.
        name: String,
        /// Its diameter.
        diameter: DocumentNumber<Length> where Positive,
        /// Included angle of its point.
        point_angle: DocumentNumber<Angle> where BelowStraight = DocumentNumber::new(118.0),
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
        /// The recommended feeds per revolution.
        feed_per_revolution: Range<Length> where Positive,
    }

    /// Taps holes.
    Tap {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// The internal thread with its tolerance class: `M6-6H` or `1/4-20 UNC-2B`.
        thread: TappedThread,
        /// Diameter of the hole before tapping.
        hole_diameter: DocumentNumber<Length> where Positive,
        /// Path of the tap in one direction, from the start above the hole to the depth.
        travel: DocumentNumber<Length> where Positive,
        /// How many holes.
        holes: u32 where Positive = 1,
        /// The tap.
        tool: TapTool,
        /// Spindle speed on the way in.
        spindle_speed: DocumentNumber<SpindleSpeed> where Positive,
        /// Spindle speed on the way out, as a multiple of that on the way in.
        reverse_ratio: DocumentNumber<Ratio> where Positive = DocumentNumber::new(1.0),
        /// The time to load and unload a part.
        handling: DocumentNumber<Time> where NonNegative = DocumentNumber::new(0.0),
    }

    /// A tap, with what its maker recommends for the material.
    TapTool {
        /// What it is.
        name: String,
        /// The recommended surface speeds.
        surface_speed: Range<SurfaceSpeed> where Positive,
    }

    /// Breaks edges.
    Deburr {
        /// The characteristics that it makes.
        makes: Vec<Reference> = Vec::new(),
        /// What with.
        tool: Option<String>,
        /// The time for a part.
        time: DocumentNumber<Time> where NonNegative,
    }

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

    /// Presses the hub of the joint on.
    ///
    /// Caution: pressing can burst a hub or throw a part, and heating can burn. Stand clear behind a guard, keep the part
    /// in line, and stop where the force rises above the one expected.
    Press {
        /// The force that the press can give.
        capacity: Option<DocumentNumber<Force>> where Positive,
        /// The time for a part.
        time: DocumentNumber<Time> where NonNegative,
    }

    /// Inspects parts.
    Inspect {
        /// The characteristics that it looks at.
        checks: Vec<Reference>,
        /// Inspect one part in every this many; 1 inspects all.
        every: u32 where Positive = 1,
        /// The time for an inspected part.
        time: DocumentNumber<Time> where NonNegative,
    }

    /// A plain pressed joint: this part is the shaft.
    ///
    /// Caution: the figures are starting points. A joint whose failure can injure needs the review of a licensed engineer.
    PlainJoint {
        /// The characteristic that is pressed in.
        shaft: Reference,
        /// The bore of the hub.
        bore: StatedLimits where Positive,
        /// Outer diameter of the hub.
        hub_outer_diameter: Size where Positive,
        /// Length of contact.
        length: DocumentNumber<Length> where Positive,
        /// Bore of a hollow shaft.
        shaft_bore: Size where NonNegative = Size::ZERO,
        /// What the hub is made of.
        hub_material: Metal,
        /// Roughness Rz of the bore of the hub; without it the bore counts as smooth, and the sheet says so.
        hub_roughness: Option<DocumentNumber<RoughnessRz>> where NonNegative,
        /// Roughness Rz of the shaft; without it, 4 times the Ra that the drawing allows there, marked as assumed.
        shaft_roughness: Option<DocumentNumber<RoughnessRz>> where NonNegative,
        /// Temperature of the hub in service, with that of the shaft; limits hold at 20 °C.
        hub_temperature: Option<DocumentNumber<Temperature>>,
        /// Temperature of the shaft in service.
        shaft_temperature: Option<DocumentNumber<Temperature>>,
        /// The highest speed of rotation in service.
        rotational_speed: Option<DocumentNumber<SpindleSpeed>> where NonNegative,
        /// The lower and the upper coefficient of friction that may be met.
        friction: Range<Ratio> where Positive,
        /// The torque that the joint has to hold.
        torque: Option<DocumentNumber<Torque>> where Positive,
        /// The axial force that the joint has to hold.
        axial_force: Option<DocumentNumber<Force>> where Positive,
        /// The gauge that the bore is to be proved with.
        gauge: Option<GaugeKind>,
    } => rules {
        hub_outer_diameter, bore => around_bore;
        shaft_bore, bore => inside_bore;
        hub_temperature, shaft_temperature => both_or_neither;
    }

    /// A joint whose knurled shaft, this part, cuts its own way into a smooth bore. What it holds is an estimate.
    ///
    /// Caution: prove each design by a trial. A joint whose failure can injure needs the review of a licensed engineer.
    KnurledJoint {
        /// The characteristic that is pressed in: the diameter over the crests, which a knurling operation makes.
        shaft: Reference,
        /// The bore of the hub.
        bore: StatedLimits where Positive,
        /// Outer diameter of the hub.
        hub_outer_diameter: Size where Positive,
        /// Length of contact.
        length: DocumentNumber<Length> where Positive,
        /// What the hub is made of.
        hub_material: Metal,
        /// The torque that the joint has to hold.
        torque: Option<DocumentNumber<Torque>> where Positive,
        /// The gauge that the bore is to be proved with.
        gauge: Option<GaugeKind>,
    } => rules {
        hub_outer_diameter, bore => around_bore;
    }
}

choices! {
    /// What is measured.
    CharacteristicKind {
        /// An outer diameter.
        Diameter = "diameter",
        /// An inner diameter.
        Bore = "bore",
        /// The distance of two parallel flats, or of a flat and the far side of a round.
        AcrossFlats = "across_flats",
        /// The distance of two faces along the axis.
        Length = "length",
        /// The distance of two other outer faces.
        Width = "width",
        /// The distance of two inner faces.
        Slot = "slot",
        /// From a face to a floor, or the size of a chamfer.
        Depth = "depth",
    }

    /// How size and form go together.
    Requirement {
        /// No point of the surface passes the envelope of perfect form at the maximum material size.
        Envelope = "envelope",
        /// Each local size keeps the limits; form has a tolerance of its own.
        Independency = "independency",
    }

    /// How work is held.
    HoldingKind {
        /// Straps press it on a rest.
        Strap = "strap",
        /// The jaws of a vice.
        Vice = "vice",
        /// The jaws of a chuck.
        Chuck = "chuck",
        /// A collet.
        Collet = "collet",
        /// A V-block with a clamp opposite the V.
        VBlock = "v_block",
    }

    /// The section of a bar.
    Form {
        /// Round.
        Round = "round",
        /// Hexagonal.
        Hexagon = "hexagon",
        /// Square.
        Square = "square",
    }

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

    /// A pair of go and no-go gauges.
    GaugeKind {
        /// Plugs for a bore.
        Plug = "plug",
        /// Rings for a diameter.
        Ring = "ring",
        /// A length gauge.
        Length = "length",
    }
}

tagged! {
    /// An operation.
    Operation by "kind" {
        /// Cuts the parts from the bar.
        Saw = "saw",
        /// Mills flats.
        MillFlats = "mill_flats",
        /// Turns a diameter.
        Turn = "turn",
        /// Turns a face.
        Face = "face",
        /// Drills holes.
        Drill = "drill",
        /// Taps holes.
        Tap = "tap",
        /// Breaks edges.
        Deburr = "deburr",
        /// Rolls a knurl.
        Knurl = "knurl",
        /// Presses the hub on.
        Press = "press",
        /// Inspects parts.
        Inspect = "inspect",
    }
}

tagged! {
    /// A pressed joint of this part and a hub.
    Joint by "kind" {
        /// A smooth shaft in a smooth bore.
        PlainJoint = "plain",
        /// A knurled shaft in a smooth bore.
        KnurledJoint = "knurled",
    }
}

impl Joint {
    /// The bore of the hub, and the gauge that it is to be proved with.
    pub fn bore(&self) -> (&StatedLimits, Option<GaugeKind>) {
        match self {
            Joint::PlainJoint(joint) => (&joint.bore, joint.gauge),
            Joint::KnurledJoint(joint) => (&joint.bore, joint.gauge),
        }
    }
}

impl Operation {
    /// How it holds the work, where it says so.
    pub fn holding(&self) -> Option<&Workholding> {
        match self {
            Operation::MillFlats(MillFlats { holding, .. })
            | Operation::Turn(Turn { holding, .. })
            | Operation::Face(Face { holding, .. }) => holding.as_ref(),
            _ => None,
        }
    }

    /// The characteristics that it makes.
    pub fn makes(&self) -> &[Reference] {
        match self {
            Operation::Saw(Saw { makes, .. })
            | Operation::MillFlats(MillFlats { makes, .. })
            | Operation::Turn(Turn { makes, .. })
            | Operation::Face(Face { makes, .. })
            | Operation::Drill(Drill { makes, .. })
            | Operation::Tap(Tap { makes, .. })
            | Operation::Deburr(Deburr { makes, .. })
            | Operation::Knurl(Knurl { makes, .. }) => makes,
            Operation::Press(_) | Operation::Inspect(_) => &[],
        }
    }
}

fn lost_by_chuck(by: &HoldingKind, lost: &DocumentNumber<Force>) -> Option<String> {
    let grips = matches!(by, HoldingKind::Chuck | HoldingKind::Collet);
    (!grips && lost.value() != 0.0)
        .then(|| format!("a {} loses no grip to speed: leave out `grip_lost`", by.name().replace('_', "-")))
}

fn shared_by_flat_faces(by: &HoldingKind, faces: &Option<u32>) -> Option<String> {
    let is_flat = matches!(by, HoldingKind::Strap | HoldingKind::Vice);
    (!is_flat && faces.is_some()).then(|| "`faces` are of straps and a vice: leave them out".into())
}

fn before_tailstock(
    overhang: &Option<DocumentNumber<Length>>,
    tailstock: &Option<DocumentNumber<Length>>,
) -> Option<String> {
    match (overhang.map(DocumentNumber::value), tailstock.map(DocumentNumber::value)) {
        (Some(at), Some(end)) if at > end => {
            Some(format!("the tool cuts at most as far from the jaws as the tailstock, {end}, not at {at}"))
        }
        (None, Some(_)) => Some("a tailstock needs the place of the cut: give `overhang`".into()),
        _ => None,
    }
}

fn has_direction(
    i: &DocumentNumber<Ratio>,
    j: &DocumentNumber<Ratio>,
    k: &DocumentNumber<Ratio>,
) -> Option<String> {
    let none = [i, j, k].into_iter().all(|one| one.value() == 0.0);
    none.then(|| {
        "a locator needs a direction: give `i`, `j` or `k`, e.g. `\"k\": 1` for one below the work".into()
    })
}

fn has_elasticity(
    designation: &Option<Designation>,
    modulus: &Option<DocumentNumber<Modulus>>,
    poisson: &Option<DocumentNumber<Ratio>>,
) -> Option<String> {
    let known = designation.is_some() || (modulus.is_some() && poisson.is_some());
    (!known).then(|| "a material needs its `designation`, or `modulus` and `poisson` of your own".into())
}

fn one_or_even(flats: &u32) -> Option<String> {
    let odd = *flats != 1 && !flats.is_multiple_of(2);
    odd.then(|| format!("flats must be one, or an even number in opposite pairs, not {flats}"))
}

fn within_cutter(width: &DocumentNumber<Length>, tool: &Cutter) -> Option<String> {
    let (width, diameter) = (width.value(), tool.diameter.value());
    (width > diameter).then(|| format!("a cutter of {diameter} cannot cut a width of {width}"))
}

fn within_nose(feed: &DocumentNumber<Length>, tool: &TurningTool) -> Option<String> {
    let (feed, radius) = (feed.value(), tool.nose_radius.value());
    (feed > 2.0 * radius).then(|| format!("a feed of {feed} is more than twice the nose radius, {radius}"))
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

fn around_bore(hub: &Size, bore: &StatedLimits) -> Option<String> {
    let thin = *hub <= bore.upper();
    thin.then(|| {
        let [hub, bore] = alike([*hub, bore.upper()]);
        format!("the hub, {hub}, must be wider than its bore and shaft, {bore}")
    })
}

fn inside_bore(shaft_bore: &Size, bore: &StatedLimits) -> Option<String> {
    let wide = *shaft_bore >= bore.lower();
    wide.then(|| {
        let [inner, shaft] = alike([*shaft_bore, bore.lower()]);
        format!("the bore of the shaft, {inner}, must be narrower than the shaft, {shaft}")
    })
}

fn both_or_neither(
    hub: &Option<DocumentNumber<Temperature>>,
    shaft: &Option<DocumentNumber<Temperature>>,
) -> Option<String> {
    let alone = hub.is_some() != shaft.is_some();
    alone.then(|| {
        "needs the temperature of hub and shaft: give `hub_temperature` and `shaft_temperature`".into()
    })
}

/// An internal thread.
#[derive(Clone, PartialEq, Debug)]
pub struct TappedThread {
    /// Its designation as given.
    pub designation: String,
    /// Its nominal diameter.
    pub nominal: Size,
    /// Its pitch.
    pub pitch: Size,
    /// Limits of its minor diameter, which is the hole before tapping.
    pub minor: Limits,
}

impl Decode for TappedThread {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<TappedThread> {
        let designation = decode_text(node, at, context)?;
        let fault = match Thread::parse_with_class(&shortened(designation))
            .map(|thread| (thread, thread.minor()))
        {
            // Internal threads alone have two limits of the minor diameter.
            Ok((thread, Some(minor))) => {
                let (nominal, pitch) = (thread.nominal(), thread.thread_pitch());
                return Some(TappedThread { designation: designation.into(), nominal, pitch, minor });
            }
            Ok(_) => format!("`{designation}` is an external thread; expected an internal one, e.g. `M6-6H`"),
            Err(error) => error.to_string(),
        };
        context.fault(FaultKind::Unreadable, at, || fault);
        None
    }
}

/// A material of the table.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Designation(pub &'static Material);

impl Decode for Designation {
    const SHAPE: &'static Shape = &Shape::Text;

    fn decode(node: &Node<'_>, at: Place<'_>, context: &mut Context) -> Option<Designation> {
        let name = decode_text(node, at, context)?;
        material::find(name)
            .map(Designation)
            .map_err(|_| {
                let error = material::find(&shortened(name)).err().map(|error| error.to_string());
                context.fault(FaultKind::NotThere, at, || error.unwrap_or_default());
            })
            .ok()
    }
}

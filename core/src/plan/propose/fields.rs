//! Which fields may be left out, and the rule by which each is then proposed: for the schema and the page of fields.

/// A field that may be left out.
#[derive(Debug)]
pub struct Proposed {
    /// The object that has it, as its table is named.
    pub object: &'static str,
    /// Its name.
    pub field: &'static str,
    /// What is proposed.
    pub rule: &'static str,
}

const SPEED: &str = "a third of the way up the recommended speeds, at most 4000 rev/min";
const RECOMMENDED: &str = "the starting values of the material";
const HANDLING: &str = "common practice, where the operation leaves out more";

/// Every field that may be left out, and what is then proposed. What has a default as well keeps it where its operation
/// leaves out nothing else, so that a complete document means what it always meant.
pub const fn proposed_fields() -> &'static [Proposed] {
    FIELDS
}

const fn field(object: &'static str, field: &'static str, rule: &'static str) -> Proposed {
    Proposed { object, field, rule }
}

const FIELDS: &[Proposed] = &[
    field("Document", "bar", "a round bar for the largest diameter, from the lists of bars"),
    field("Bar", "form", "round"),
    field("Bar", "limits", "the next size of the lists of bars above the largest diameter"),
    field("Bar", "bar_length", "3 m, or 12 ft"),
    field("Characteristic", "requirement", "independency in a metric plan, envelope in an inch one"),
    field("Characteristic", "inspection", "what suits its kind and tolerance"),
    field("Saw", "cut_length", "the longest length of the drawing"),
    field("Saw", "kerf", "1.6 mm, or 1/16 in"),
    field("Saw", "blade", "a bimetal band"),
    field("Saw", "surface_speed", "a third of the way up the recommended speeds"),
    field("Saw", "sawing_rate", "a third of the way up the recommended rates"),
    field("Saw", "handling", HANDLING),
    field("Blade", "name", "a bimetal band"),
    field("Blade", "surface_speed", RECOMMENDED),
    field("Blade", "sawing_rate", "common practice, by the family of the material"),
    field("MillFlats", "tool", "an end mill of carbide"),
    field("MillFlats", "spindle_speed", SPEED),
    field("MillFlats", "feed_rate", "a third of the way up the recommended chip loads"),
    field("MillFlats", "axial_depth", "what is to go, in equal passes"),
    field("MillFlats", "radial_width", "three quarters of the cutter"),
    field("MillFlats", "passes", "as many as keep a pass within half of the cutter's diameter"),
    field("MillFlats", "travel", "one crossing of the flat, the cutter clear at both ends"),
    field("MillFlats", "handling", HANDLING),
    field("Cutter", "name", "an end mill of carbide"),
    field("Cutter", "diameter", "one that covers the flat in one crossing, of common sizes"),
    field("Cutter", "teeth", "4"),
    field("Cutter", "surface_speed", RECOMMENDED),
    field("Cutter", "chip_load", RECOMMENDED),
    field("Turn", "depth", "what is to go, in equal passes"),
    field("Turn", "passes", "as many as keep a pass within 2 mm, or 0.08 in"),
    field("Turn", "travel", "the length that it makes, or the whole part, and an approach"),
    field("Turn", "tool", "a carbide insert"),
    field("Turn", "spindle_speed", SPEED),
    field(
        "Turn",
        "feed_per_revolution",
        "a third of the way up the recommended feeds, less where the finish asks for it",
    ),
    field("Turn", "handling", HANDLING),
    field("Face", "depth", "what the saw leaves for facing, shared among the faces"),
    field("Face", "tool", "a carbide insert"),
    field("Face", "spindle_speed", SPEED),
    field(
        "Face",
        "feed_per_revolution",
        "a third of the way up the recommended feeds, less where the finish asks for it",
    ),
    field("Face", "handling", HANDLING),
    field("TurningTool", "name", "a carbide insert"),
    field("TurningTool", "nose_radius", "0.8 mm, or 1/32 in"),
    field("TurningTool", "surface_speed", RECOMMENDED),
    field("TurningTool", "feed_per_revolution", RECOMMENDED),
    field("Drill", "depth", "the depth of the drawing, or what the tap needs"),
    field("Drill", "tool", "a drill of high-speed steel"),
    field("Drill", "approach", "2 mm, or 0.08 in, where the operation leaves out more"),
    field("Drill", "spindle_speed", SPEED),
    field("Drill", "feed_per_revolution", "a third of the way up the recommended feeds"),
    field("Drill", "handling", HANDLING),
    field("DrillTool", "name", "a drill of high-speed steel"),
    field("DrillTool", "diameter", "the hole that the drawing or the tap asks for"),
    field("DrillTool", "surface_speed", RECOMMENDED),
    field("DrillTool", "feed_per_revolution", RECOMMENDED),
    field("Tap", "hole_diameter", "the hole that is drilled before"),
    field("Tap", "travel", "the depth of the drawing, or short of the floor of the hole"),
    field("Tap", "tool", "a tap of high-speed steel"),
    field("Tap", "spindle_speed", SPEED),
    field("Tap", "handling", HANDLING),
    field("TapTool", "name", "a tap of high-speed steel"),
    field("TapTool", "surface_speed", RECOMMENDED),
    field("Deburr", "time", "0.2 min"),
    field("Knurl", "tool", "knurling wheels"),
    field("Knurl", "spindle_speed", SPEED),
    field("Knurl", "feed_rate", "a third of the way up the feeds of common practice"),
    field("Knurl", "travel", "the length of the joint, or the diameter of the blank"),
    field("Knurl", "handling", HANDLING),
    field("KnurlTool", "name", "knurling wheels"),
    field("KnurlTool", "surface_speed", RECOMMENDED),
    field("Press", "time", "0.5 min"),
    field("Inspect", "checks", "every characteristic, where one inspection alone leaves them out"),
    field("Inspect", "time", "0.3 min for each characteristic"),
];

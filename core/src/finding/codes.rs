//! Every code that a finding may have: the one table from which findings take their severity, and from which their page
//! comes.
use super::found::{Finding, Severity};
use std::borrow::Cow;

/// The codes, by topic: the meaning of each, its name, how much it weighs, and what to do about it as a rule. Of several
/// severities the usual one stands first.
macro_rules! codes {
    ($($topic:literal { $($(#[doc = $doc:literal])* $code:ident = $name:literal [$($severity:ident),+] $remedy:literal)* })*) => {
        /// What a finding is about. Its name stays the same, for programs.
        #[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
        pub enum FindingCode { $($($(#[doc = $doc])* $code,)*)* }

        const CODES: &[Row] = &[$($(Row {
            code: FindingCode::$code,
            name: $name,
            topic: $topic,
            severities: &[$(Severity::$severity),+],
            meaning: concat!($($doc),*),
            remedy: $remedy,
        },)*)*];
    };
}

struct Row {
    code: FindingCode,
    name: &'static str,
    topic: &'static str,
    severities: &'static [Severity],
    meaning: &'static str,
    remedy: &'static str,
}

codes! {
    "Figures" {
        /// A speed, feed or rate lies outside the range that the maker of the tool recommends for the material.
        OutsideRecommendation = "outside_recommendation" [Warning] "Change the speed or the feed, or choose a tool that suits it."
        /// A number is far from those that are usual: often it is in the wrong unit.
        UnusualValue = "unusual_value" [Warning] "Check its unit; if it is right, prove the result on a trial piece."
        /// A formula was used outside the range of its source.
        OutsideSource = "outside_source" [Warning] "Take the result with care, and prove it on a trial piece."
        /// There are more findings than a sheet lists; the severity is that of the gravest of the others.
        MoreFindings = "more_findings" [Note, Warning, Error] "Correct the listed ones, then evaluate the plan again."
    }
    "Drawing and bar" {
        /// No operation makes a characteristic, and the bar as bought does not meet it.
        NotMade = "not_made" [Error] "Name it in the `makes` of an operation, or order stock that meets it."
        /// Two operations make the same characteristic.
        MadeTwice = "made_twice" [Warning] "Name it once, in the operation that finishes it."
        /// The scatter of the plating uses up the tolerance.
        PlatingScatter = "plating_scatter" [Error] "Ask for closer plating or wider limits."
        /// No part can be cut from a bar.
        BarTooShort = "bar_too_short" [Error] "Order longer bars."
        /// A number names a characteristic of the wrong kind for this place.
        WrongKind = "wrong_kind" [Error] "Name one of the kind that the message gives."
        /// An operation cannot make a characteristic of this kind.
        CannotMake = "cannot_make" [Error] "Name it in the operation that cuts it."
    }
    "Order of the work" {
        /// No operation cuts the parts off the bar, so parts and bars are not counted.
        NotSawn = "not_sawn" [Warning] "Add a `saw` operation."
        /// Work is done on the whole bar, before the parts are cut off; an error where a hub is pressed on.
        BeforeSawing = "before_sawing" [Warning, Error] "Move the saw before it."
        /// A second operation saws the parts off.
        SawnTwice = "sawn_twice" [Error] "Keep one `saw` operation."
        /// There is a joint, and no operation presses or shrinks the hub on.
        NotPressed = "not_pressed" [Warning] "Add a `press` or a `shrink` operation, or remove the joint."
        /// A second operation joins the same hub.
        PressedTwice = "pressed_twice" [Error] "Keep one operation that joins it."
        /// An operation presses or shrinks, and the plan has no joint.
        PressWithoutJoint = "press_without_joint" [Error] "Describe the hub and its fit in `joint`, or remove the operation."
        /// The hub is put on before its seat is made.
        PressedBeforeMade = "pressed_before_made" [Error] "Join it after the operation that makes the seat."
        /// Burrs are left where parts are measured, clamped or sent away.
        NotDeburred = "not_deburred" [Warning] "Deburr in between: a burr is gauged as size, and cuts hands."
        /// The work is clamped or located on burrs.
        ClampedOnBurr = "clamped_on_burr" [Warning] "Deburr before the work is clamped."
        /// Parts are measured, clamped, coated or joined with scale on them.
        ScaleLeft = "scale_left" [Warning] "Clean the parts in between, or harden them where no scale forms."
        /// The metal has been hardened beyond what the operation cuts; an error where the tool would break.
        TooHard = "too_hard" [Warning, Error] "Do it before hardening, or grind."
        /// A plated size is cut after plating.
        CutAfterPlating = "cut_after_plating" [Error] "Plate after the last cut, with the limits before plating."
        /// An operation plates a size whose limits do not say so.
        PlatingNotStated = "plating_not_stated" [Warning] "State the `plating` of the characteristic."
    }
    "Sizes that cuts leave" {
        /// The passes remove the whole size.
        CutPastCentre = "cut_past_centre" [Error] "Use a smaller depth, or fewer passes."
        /// The size before the cut is already below the limits.
        StockTooSmall = "stock_too_small" [Error] "Order a larger bar, or check the size before the cut."
        /// The passes leave a size over its limits.
        CutTooShallow = "cut_too_shallow" [Error] "Cut deeper, or in more passes."
        /// The passes leave a size under its limits.
        CutTooDeep = "cut_too_deep" [Error] "Use a smaller depth, or fewer passes."
        /// A cut ends where it starts, or beyond.
        CutsNothing = "cuts_nothing" [Error] "End at a smaller diameter, or at 0 for the centre."
        /// Parts are sawn longer than their limits, and no operation faces them.
        NotFaced = "not_faced" [Error] "Add a `face` operation, or leave out the allowance."
        /// A cut starts at a diameter that the bar does not have.
        LargerThanBar = "larger_than_bar" [Error] "Start at the diameter of the bar, or order a larger bar."
        /// A cut, a hole or a contact is longer than the part.
        BeyondPart = "beyond_part" [Error] "Check the length, or the `cut_length` of the saw."
        /// A flat is wider than the cut and its travel.
        FlatNotCovered = "flat_not_covered" [Error] "Use a wider cut or a larger cutter."
        /// More flats are milled than a hexagonal or square bar has faces.
        MoreFlatsThanFaces = "more_flats_than_faces" [Error] "Mill as many as the bar has faces or fewer, or take a round bar."
        /// On a hexagonal or square bar the depth of a flat counts from its faces.
        FlatsOnFaces = "flats_on_faces" [Note] "Set the bar by its faces before milling, or take a round bar."
        /// A cut starts at a diameter that nothing before it leaves; an error where another one is known to be there.
        StartNotThere = "start_not_there" [Warning, Error] "Turn to it first, or start at the diameter that is there."
        /// The tool cuts air: less metal is there than the cut leaves.
        CutsAir = "cuts_air" [Error] "Remove the operation, or turn the larger diameter first."
        /// A cut takes off a thread or flats, or a part of them, that an operation before it makes.
        TakesOff = "takes_off" [Error, Warning] "Do it before the thread or the flats, or on another step."
        /// Steps from both ends meet.
        StepsOverlap = "steps_overlap" [Error] "Shorten one of the steps."
        /// A tolerance is closer than the operation is stated to hold.
        ProcessTooCoarse = "process_too_coarse" [Warning] "Finish it by a closer process, such as reaming or grinding."
        /// A tolerance is closer than such an operation usually holds.
        CloserThanUsual = "closer_than_usual" [Warning] "Finish it by a closer process, or state what yours is proved to hold as `holds`."
    }
    "Machine, tool and workholding" {
        /// The cut needs more power than the motor has.
        MotorTooWeak = "motor_too_weak" [Error] "Use a smaller depth or feed, or a lower speed."
        /// The feed marks alone are rougher than the drawing allows.
        FinishTooRough = "finish_too_rough" [Error] "Reduce the feed, or use a larger nose radius."
        /// The wall of a step seat does not reach past the middle of the bar.
        SeatTooShallow = "seat_too_shallow" [Error] "Use a seat deeper than half the largest bar."
        /// A step seat is planned for a bar that is not round.
        SeatForRoundBar = "seat_for_round_bar" [Warning] "Hold the bar by its faces, and leave out the seat."
        /// The forces of the cut are not known, so the clamping is not judged.
        HoldingNotJudged = "holding_not_judged" [Note] "Give `kc11` and `mc` of the material, or prove the clamping by a trial."
        /// The clamping has less safety than is wanted; an error where the work comes loose.
        HoldsTooLittle = "holds_too_little" [Warning, Error] "Clamp harder, or take a lighter cut."
        /// The clamping counts on more force than the screw may give.
        ClampForceBeyondScrew = "clamp_force_beyond_screw" [Warning] "Count on the low preload at most, or tighten more if the maker of the screw allows it."
        /// The locators leave a motion of the work free.
        FreedomLeft = "freedom_left" [Warning] "Add a locator, or make sure that the clamps hold that motion by friction."
        /// More locators than motions they stop: the work rests on some of them and not on all.
        TooManyLocators = "too_many_locators" [Note] "Take the extra ones away, or make them adjustable."
        /// The cut bends the work by more than the tolerance of its diameter.
        BendsTooFar = "bends_too_far" [Warning] "Support the work by a tailstock, hold it shorter, or take a lighter last cut."
        /// The jaws cover what is to be cut.
        JawsInTheWay = "jaws_in_the_way" [Error] "Hold the part by its other end, hold less of it, or cut the rest after turning it round."
        /// The tool bends by more than the tolerance.
        ToolBendsTooFar = "tool_bends_too_far" [Warning] "Hold the tool shorter, use a thicker one, or take a lighter last cut."
        /// The jaws close on a thread.
        ClampedOnThread = "clamped_on_thread" [Warning] "Cut the thread in the last set-up, or hold it in a threaded bush or in soft jaws."
        /// A boring bar does not fit into its hole.
        BarDoesNotFit = "bar_does_not_fit" [Error] "Use a thinner boring bar."
    }
    "Holes and threads" {
        /// A drill is as large as the bar.
        DrillTooLarge = "drill_too_large" [Error] "Use a smaller drill."
        /// A drill is outside the limits of its hole.
        DrillOffSize = "drill_off_size" [Error] "Use a drill whose diameter is within them, preferably near the lower limit."
        /// A hole is drilled to a depth outside its limits.
        DrillOffDepth = "drill_off_depth" [Error] "Drill to a depth within them."
        /// More holes are tapped than are drilled.
        TooFewHoles = "too_few_holes" [Error] "Drill as many holes as are tapped."
        /// No hole is drilled before the tap.
        TapWithoutHole = "tap_without_hole" [Error] "Drill before tapping."
        /// The tap needs another hole than was drilled; a warning where a hole is opened that nothing drills.
        HoleNotDrilled = "hole_not_drilled" [Error, Warning] "Set `hole_diameter` to the hole that is drilled, or change the drill."
        /// The hole is outside the limits of the minor diameter of the thread.
        HoleOffSize = "hole_off_size" [Error] "Use a drill whose diameter is within them."
        /// The tap runs into the floor of the hole; a warning where it runs far out of a through hole.
        TapTooDeep = "tap_too_deep" [Warning, Error] "Shorten the travel, or drill deeper."
        /// The thread is not as deep as the drawing asks for.
        ThreadTooShallow = "thread_too_shallow" [Error] "Drill and tap deeper."
        /// The hole leaves too little or too much thread.
        PercentThread = "percent_thread" [Warning] "Drill smaller for more thread, larger for less."
        /// A reamer is outside the limits of its hole.
        ReamerOffSize = "reamer_off_size" [Error] "Use one whose diameter is within them, preferably near the lower limit."
        /// A reamer finds no metal in its hole.
        NoReamingAllowance = "no_reaming_allowance" [Error] "Drill smaller than the reamer."
        /// The hole leaves too little or too much for the reamer.
        ReamingAllowance = "reaming_allowance" [Warning] "Drill smaller for more, larger for less."
        /// A reamer runs into the floor of its hole.
        ReamsTooDeep = "reams_too_deep" [Error] "Ream less deep, or drill deeper."
        /// The blank of a thread is outside the limits of its major diameter.
        BlankOffSize = "blank_off_size" [Error] "Turn the blank to them first, and state it as `diameter`."
    }
    "Knurls" {
        /// Not every blank can be rolled to the diameters that the drawing asks for.
        KnurlOutOfReach = "knurl_out_of_reach" [Error] "Change the blank or the pitch: a knurl only grows."
        /// No whole number of teeth goes round the blank.
        KnurlMayNotTrack = "knurl_may_not_track" [Note] "Turn the blank to the diameter that the message gives, or watch that the wheel tracks on the first turn."
    }
    "Joint" {
        /// At its loosest the joint has no interference left.
        JointMayBeLoose = "joint_may_be_loose" [Error] "Move the limits of shaft or bore until the least interference holds the load."
        /// At its tightest the hub or the shaft yields.
        JointYields = "joint_yields" [Error] "Lower the greatest interference, or use a stronger or thicker part."
        /// The joint cannot hold its load.
        JointSlips = "joint_slips" [Error] "Raise the least interference, lengthen the contact, or lower the load."
        /// Pressing may take more force than the press gives.
        PressTooWeak = "press_too_weak" [Error] "Use a larger press, or heat the hub."
        /// The hub is too cool, or the shaft too warm, to slip over its largest shaft with the clearance.
        DoesNotSlipOn = "does_not_slip_on" [Error] "Heat the hub more, or cool the shaft."
        /// A hub is heated more than common steels bear.
        HubTooHot = "hub_too_hot" [Warning] "Cool the shaft as well, or ask the maker of the metal what it bears."
        /// The figures of a knurled joint are an estimate.
        Estimate = "estimate" [Warning] "Prove the joint by a push-out trial, and by one under torque."
        /// No operation knurls the shaft of a knurled joint in grooves of one direction.
        NotKnurled = "not_knurled" [Error] "Name it in the `makes` of an operation that rolls a straight or a diagonal knurl."
        /// The grooves of the knurl are full before the greatest overlap.
        KnurlOverfilled = "knurl_overfilled" [Error] "Enlarge the bore, roll a lower knurl, or use a coarser pitch."
        /// A yield strength is not known, so what depends on it was not checked.
        YieldUnknown = "yield_unknown" [Warning] "State the `yield_strength`."
        /// A yield strength is a typical figure of the table.
        TypicalStrength = "typical_strength" [Note] "State the `yield_strength` of the certificate that came with the material."
        /// The roughness of the shaft is assumed from the Ra that the drawing allows.
        RoughnessAssumed = "roughness_assumed" [Note] "State `shaft_roughness` as measured."
        /// The joint is judged without an effect, because a number that it needs is not stated or not known.
        LeftOut = "left_out" [Note, Warning] "State the number that the message names."
    }
    "Inspection" {
        /// No operation inspects the parts, or one characteristic of them.
        NotInspected = "not_inspected" [Warning] "Name it in the `checks` of an `inspect` operation."
        /// An inspection checks nothing.
        InspectsNothing = "inspects_nothing" [Warning] "Name characteristics in its `checks`."
        /// The inspection interval is longer than the batch.
        InspectsNoPart = "inspects_no_part" [Warning] "Inspect more often."
        /// A characteristic is inspected before it is made; a warning where it is inspected again later.
        InspectedBeforeMade = "inspected_before_made" [Error, Warning] "Inspect it after the operation that makes it."
        /// There is no gauge of the standard for a characteristic.
        NoGauge = "no_gauge" [Warning] "Measure it, with an instrument that suits its tolerance."
        /// The form of a gauge does not fit what it is to prove.
        WrongGauge = "wrong_gauge" [Error] "Take plugs for a bore, rings for a diameter, and a length gauge for the rest."
        /// Gauges do not show the capability that is asked for.
        GaugedCapability = "gauged_capability" [Warning] "Measure a sample of parts as well."
        /// The parts that are planned are too few to show the capability that is asked for.
        TooFewForCapability = "too_few_for_capability" [Warning] "Take readings of earlier batches too, or agree on another proof."
        /// The pieces of a first article do not show the capability that the plan asks for.
        CapabilityNotShown = "capability_not_shown" [Note, Warning, Error] "Measure more pieces, or improve the process."
    }
    "Stacks and tolerance charts" {
        /// A closing dimension is outside its limits; a warning where it is within them statistically.
        StackDoesNotClose = "stack_does_not_close" [Error, Warning] "Tighten the contributor that has most of it, or shift nominal sizes."
        /// The cuts do not keep a dimension of the drawing.
        DimensionDoesNotClose = "dimension_does_not_close" [Error] "Locate the cut from the face of the drawing dimension, hold the chain closer, or shift its means."
        /// A cut may remove less than it must; an error where it may miss the face.
        TooLittleStock = "too_little_stock" [Warning, Error] "Leave more stock in the cut before, or hold the dimensions of the chain closer."
    }
    "Quotes" {
        /// The sheet has no quote: the rates of the plan do not cover its work or its material, or it has too many operations.
        NotQuoted = "not_quoted" [Warning] "Complete the `rates` as the message says."
        /// The quoted plan has errors.
        QuotedWithErrors = "quoted_with_errors" [Error] "Correct the plan, then quote it again."
        /// A tool of the plan has no price, so its wear is not in the quote.
        ToolNotPriced = "tool_not_priced" [Note] "Add it to `tools` of the rates, with its price and its life."
    }
}

impl FindingCode {
    /// Every code, by topic.
    pub fn all() -> impl ExactSizeIterator<Item = FindingCode> + Clone {
        CODES.iter().map(|row| row.code)
    }

    /// The code of that name.
    pub fn named(name: &str) -> Option<FindingCode> {
        CODES.iter().find(|row| row.name == name).map(|row| row.code)
    }

    fn row(self) -> &'static Row {
        // Rows stand in the order of the codes.
        &CODES[self as usize]
    }

    /// Its name, which stays the same.
    pub fn name(self) -> &'static str {
        self.row().name
    }

    /// What it speaks of.
    pub fn topic(self) -> &'static str {
        self.row().topic
    }

    /// How much a finding of it weighs; of several severities the usual one is the first.
    pub fn severities(self) -> &'static [Severity] {
        self.row().severities
    }

    /// What it means.
    pub fn meaning(self) -> &'static str {
        self.row().meaning.trim()
    }

    /// What to do about it, as a rule. A finding says what to do at its place.
    pub fn remedy(self) -> &'static str {
        self.row().remedy
    }

    /// A finding of this code, as grave as it usually is.
    pub(crate) fn found(
        self,
        place: String,
        message: String,
        remedy: impl Into<Cow<'static, str>>,
    ) -> Finding {
        Weighed::from(self).found(place, message, remedy)
    }
}

/// A code with the severity that it has at a place.
#[derive(Clone, Copy)]
pub(crate) struct Weighed {
    code: FindingCode,
    pub(crate) severity: Severity,
}

impl From<FindingCode> for Weighed {
    fn from(code: FindingCode) -> Weighed {
        Weighed { code, severity: code.severities()[0] }
    }
}

/// A code of several severities, with one of them; with any other it weighs as much as its gravest.
impl From<(FindingCode, Severity)> for Weighed {
    fn from((code, severity): (FindingCode, Severity)) -> Weighed {
        let listed = code.severities();
        let gravest = listed.iter().copied().max().unwrap_or(severity);
        Weighed { code, severity: if listed.contains(&severity) { severity } else { gravest } }
    }
}

impl Weighed {
    pub(crate) fn found(
        self,
        place: String,
        message: String,
        remedy: impl Into<Cow<'static, str>>,
    ) -> Finding {
        Finding { code: self.code.name(), severity: self.severity, place, message, remedy: remedy.into() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn each_row_stands_at_the_place_of_its_code() {
        for code in FindingCode::all() {
            assert_eq!(FindingCode::named(code.name()), Some(code));
            assert_eq!(code.row().code, code);
        }
    }

    #[test]
    fn names_meanings_and_severities_are_well_formed() {
        let names: BTreeSet<_> = FindingCode::all().map(FindingCode::name).collect();
        assert_eq!(names.len(), FindingCode::all().len());
        for code in FindingCode::all() {
            let is_snake = |c: char| c.is_ascii_lowercase() || c == '_';
            assert!(code.name().chars().all(is_snake), "{}", code.name());
            assert!(code.meaning().ends_with('.') && code.remedy().ends_with('.'), "{}", code.name());
            let severities: BTreeSet<_> = code.severities().iter().collect();
            assert_eq!(severities.len(), code.severities().len(), "{}", code.name());
        }
    }

    #[test]
    fn a_severity_that_is_not_listed_becomes_the_gravest() {
        let weighed = |severity| Weighed::from((FindingCode::TapTooDeep, severity)).severity;
        assert_eq!(weighed(Severity::Warning), Severity::Warning);
        assert_eq!(weighed(Severity::Note), Severity::Error);
        assert_eq!(Weighed::from(FindingCode::TapTooDeep).severity, Severity::Warning);
    }
}

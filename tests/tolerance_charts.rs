//! Tolerance charts with figures from outside the code: a textbook's, and some worked by hand.
use tenths::tolerance_chart::{Cut, Facing, Working};
use tenths::{Limits, OperationChart, Severity, Size, Units};

fn limits(text: &str) -> Limits {
    Limits::parse(text).unwrap_or_else(|error| panic!("{error}"))
}

fn size(text: &str) -> Size {
    Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
}

/// Whether limits are the same two sizes; their nominal sizes may differ.
fn same(one: Limits, other: &str) -> bool {
    (one.lower(), one.upper()) == (limits(other).lower(), limits(other).upper())
}

fn working(working: Working) -> Limits {
    match working {
        Working::Limits(limits) => limits,
        Working::Holds(_) => panic!("the working dimension has no limits"),
    }
}

/// A sleeve 50 -0.17 long, whose bore leaves a wall 10 -0.36 that cannot be measured: the bore is made to depth.
fn sleeve(length: impl Into<Working>, depth: impl Into<Working>) -> OperationChart {
    OperationChart::new()
        .face("left end", Facing::Left)
        .face("bottom", Facing::Left)
        .face("right end", Facing::Right)
        .datum("left end")
        .cut(Cut::new("10", "right end", "left end", length))
        .cut(Cut::new("20", "bottom", "left end", depth))
        .drawing("length", "right end", "left end", limits("50 +0/-0.17 mm"))
        .drawing("wall", "bottom", "right end", limits("10 +0/-0.36 mm"))
}

/// A textbook example of a measuring datum that is not the drawing's: 50 -0.17 and 10 -0.36 call for a depth of
/// 40 +0.19. From memory; by hand, 50 - 40 = 10 and 49.83 - 40.19 = 9.64.
#[test]
fn the_depth_of_a_sleeve() {
    let result = sleeve(limits("50 +0/-0.17 mm"), limits("40 +0.19/0 mm")).evaluate().unwrap();
    let wall = &result.dimensions[1];
    assert!(same(wall.made.unwrap(), "9.64..10 mm") && wall.good == Some(true) && result.good);
    assert_eq!([wall.lower_margin, wall.upper_margin], [Some(Size::ZERO); 2]);
    assert_eq!((&*wall.chain, &*wall.signs), ("- 20 bottom + 10 right end", &[1, -1][..]));
    // A depth of 40 ±0.1 is 0.1 mm too little at the one end, and has the drawing's 0.36 less 0.37 at the other.
    let result = sleeve(limits("50 +0/-0.17 mm"), limits("40 ±0.1 mm")).evaluate().unwrap();
    let wall = &result.dimensions[1];
    assert_eq!([wall.lower_margin, wall.upper_margin], ["0.09 mm", "-0.1 mm"].map(|text| Some(size(text))));
    let finding = &result.findings[0];
    assert_eq!((finding.code, finding.severity), ("dimension_does_not_close", Severity::Error));
    assert_eq!(finding.place, "/drawing/1");
    assert_eq!(
        finding.message,
        "`wall` comes out at 9.73..10.1 mm, a tolerance of 0.37 mm where the drawing has 0.36 mm: 0.1 mm above \
         the upper limit"
    );
}

/// The same example the other way: the length allows its process 0.17 / 0.1 of what it needs and the wall
/// 0.36 / 0.2, so that the length takes 0.17 and leaves 0.36 - 0.17 = 0.19 for the depth.
#[test]
fn the_depth_of_a_sleeve_is_derived() {
    let holds = Working::Holds(size("0.1 mm"));
    let result = sleeve(holds, holds).derive(None).unwrap();
    assert!(result.good);
    let derived = result.chart();
    assert!(same(working(derived.cuts[0].working), "49.83..50 mm"));
    assert!(same(working(derived.cuts[1].working), "40..40.19 mm"));
    // On a grid of 0.01 mm, 49.915 and 9.82 are made at 49.92 and 9.82, which leaves 0.08 and 0.18 to either side.
    let result = sleeve(holds, holds).derive(Some(size("0.01 mm"))).unwrap();
    assert!(result.good);
    let derived = result.chart();
    assert!(same(working(derived.cuts[0].working), "49.84..50 mm"));
    assert!(same(working(derived.cuts[1].working), "40..40.2 mm"));
    // Processes that hold 0.2 need 0.4 for the wall, 0.04 more than there is, and the length 0.03 more.
    let holds = Working::Holds(size("0.2 mm"));
    let result = sleeve(holds, holds).derive(None).unwrap();
    let margins: Vec<_> =
        result.dimensions.iter().map(|told| [told.lower_margin, told.upper_margin]).collect();
    assert_eq!(margins, [[Some(size("-0.015 mm")); 2], [Some(size("-0.02 mm")); 2]]);
}

/// A shouldered pin: stock, both ends faced, the shoulder turned from the left end and ground from the right one.
fn pin(steps: [Working; 5]) -> OperationChart {
    let [stock, left, right, turned, ground] = steps;
    OperationChart::new()
        .in_units(Units::Inch)
        .face("left end", Facing::Left)
        .face("shoulder", Facing::Right)
        .face("right end", Facing::Right)
        .stock("right end", "left end", stock)
        .cut(Cut::new("10", "left end", "right end", left).removing(size(".020 in")))
        .cut(Cut::new("20", "right end", "left end", right).removing(size(".015 in")))
        .cut(Cut::new("20", "shoulder", "left end", turned))
        .cut(Cut::new("30", "shoulder", "right end", ground).removing(size(".008 in")))
        .drawing("overall", "right end", "left end", limits("4.000 ±.005 in"))
        .drawing("step", "shoulder", "right end", limits("1.500 ±.004 in"))
}

/// Worked by hand. Each drawing dimension is made by one cut, which takes all of its tolerance: 4.000 ±.005 and
/// 1.500 ±.004. Removals are their least and half the tolerances of their chains:
/// - grinding removes turned - overall + ground: .008 + .002 + .005 + .004 = .019, so turned = 4.000 - 1.500 + .019
/// - facing right removes left - overall: .015 + .005 + .005 = .025, so left = 4.025
/// - facing left removes stock - left: .020 + .030 + .005 = .055, so stock = 4.080
#[test]
fn the_working_dimensions_of_a_pin() {
    let holds =
        [".060 in", ".010 in", ".004 in", ".004 in", ".002 in"].map(|text| Working::Holds(size(text)));
    for resolution in [None, Some(size(".001 in"))] {
        let result = pin(holds).derive(resolution).unwrap();
        let derived = result.chart();
        assert_eq!(working(derived.stock[0].working), limits("4.080 ±.030 in"));
        let cuts: Vec<_> = derived.cuts.iter().map(|cut| working(cut.working)).collect();
        assert_eq!(
            cuts,
            ["4.025 ±.005 in", "4.000 ±.005 in", "2.519 ±.002 in", "1.500 ±.004 in"].map(limits)
        );
        assert!(result.good);
        let removals: Vec<_> = result.removals.iter().map(|told| (told.number, told.made)).collect();
        let expected = [(0, ".055 ±.035 in"), (1, ".025 ±.010 in"), (3, ".019 ±.011 in")];
        assert_eq!(removals, expected.map(|(cut, text)| (cut, Some(limits(text)))));
        assert!(result.removals.iter().all(|told| told.lower_margin == Some(Size::ZERO)));
    }
}

/// Worked by hand: .004 less stock than above leaves .016 ±.035 to the first cut, and it may miss the face by .019;
/// a turned shoulder of 2.515 leaves .015 ±.011 to grind, of which .004 is too little.
#[test]
fn too_little_stock_is_found() {
    let steps = ["4.041 ±.030 in", "4.025 ±.005 in", "4.000 ±.005 in", "2.515 ±.002 in", "1.500 ±.004 in"];
    let result = pin(steps.map(|text| limits(text).into())).evaluate().unwrap();
    let told: Vec<_> =
        result.findings.iter().map(|found| (found.severity, &*found.place, &*found.message)).collect();
    assert_eq!(
        told,
        [
            (
                Severity::Error,
                "/cuts/0",
                "operation 10, `left end` from `right end`: the cut removes -0.019..0.051 in and must remove at \
                 least 0.02 in; it may miss the face"
            ),
            (
                Severity::Warning,
                "/cuts/3",
                "operation 30, `shoulder` from `right end`: the cut removes 0.004..0.026 in and must remove at \
                 least 0.008 in"
            ),
        ]
    );
    assert!(result.dimensions.iter().all(|told| told.good == Some(true)));
}

/// Worked by hand: stock that is bought at 4.070 ±.030 keeps its limits, and leaves .045 ±.035 to the first cut.
#[test]
fn given_limits_are_kept() {
    let holds = [".010 in", ".004 in", ".004 in", ".002 in"].map(|text| Working::Holds(size(text)));
    let [left, right, turned, ground] = holds;
    let result = pin([limits("4.070 ±.030 in").into(), left, right, turned, ground]).derive(None).unwrap();
    let derived = result.chart();
    assert_eq!(working(derived.stock[0].working), limits("4.070 ±.030 in"));
    // The mean of the second cut's stock still follows from its removal.
    assert_eq!(working(derived.cuts[0].working), limits("4.025 ±.005 in"));
    assert_eq!(result.removals[0].made, Some(limits(".045 ±.035 in")));
    assert_eq!(result.findings.len(), 1);
}

/// A chart of diameters: the axis is a face, and removals are on the diameter. Worked by hand: 30.6 - 0.1 - 30.02 =
/// 0.48 and 30.6 + 0.1 - 30.0 = 0.7 outside; in the bore 20 - 19.7 = 0.3 and 20.02 - 19.5 = 0.52.
#[test]
fn diameters_are_charted_from_an_axis() {
    let result = OperationChart::new()
        .face("axis", Facing::Left)
        .face("bore", Facing::Left)
        .face("outside", Facing::Right)
        .stock("bore", "axis", limits("19.5..19.7 mm"))
        .cut(Cut::new("10", "outside", "axis", limits("30.6 ±0.1 mm")))
        .cut(Cut::new("20", "outside", "axis", limits("30..30.02 mm")).removing(size("0.4 mm")))
        .cut(Cut::new("20", "bore", "axis", limits("20..20.02 mm")))
        .evaluate()
        .unwrap();
    let removals: Vec<_> = result.removals.iter().map(|told| told.made.unwrap().to_string()).collect();
    assert_eq!(removals, ["0.48..0.7 mm", "0.3..0.52 mm"]);
}

"""Ordinary uses of every public name, for a type checker and to run: `test_typing.py` does both, in metric and in inch units.

Each result stands under the type that a caller would write, so that a stub that says less than that is an error.
"""

import pathlib
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy
from numpy.typing import NDArray

import tenths
from tenths import Size
from tenths import metric as shop

AXLE = pathlib.Path(__file__).parents[2] / "examples" / "plans" / "roller_axle.json"
# Every number of a cut carries its unit, so that both namespaces take it.
CUT: dict[str, Any] = {
    "minimise": "cost",
    "rates": {"hourly_rate": 60, "edge_cost": 2, "tool_change_time": 1},
    "workpiece_diameter": "80 mm",
    "travel": "250 mm",
    "nose_radius": "1.2 mm",
    "kc11": "1700 N/mm²",
    "mc": 0.25,
}
CHOOSE = {"surface_speed": ("10 m/min", "500 m/min"), "feed_per_revolution": ("0.05 mm", "0.5 mm")}
LIFE = {"taylor_c": "300 m/min", "taylor_n": 0.25}


def package() -> None:
    version: str = tenths.__version__
    sides: list[str] = [tenths.inch.surface_speed.system, tenths.metric.surface_speed.system]
    assert version and sides == ["inch", "metric"]


def sizes() -> None:
    size = tenths.Size("25 mm") + "0.5 mm"
    count: int = (2 * size).picometres
    limits = tenths.Limits.between(size, "26 mm")
    tolerance: Size = limits.tolerance
    good: bool = limits.accepts(size) and limits.contains("25.6..25.9 mm")
    assert count and good and tolerance < size
    try:
        tenths.Limits("no size")
    except tenths.DomainError as error:
        faults: list[tuple[str, str]] | list[tuple[int, str, str]] | None = error.faults
        assert faults is None and error.argument is None


def judged_readings() -> None:
    decision = tenths.Decision("10..10.1 mm", "0.02 mm")
    verdict: str = decision.judge("10.05 mm")
    one: str | None = shop.judge(decision, "10.05 mm", resolution="0.001 mm")
    many: NDArray[numpy.object_] = shop.judge(decision, ["10.05 mm", "10.099 mm"])
    assert verdict == one == many[0] and decision.judge([Size("10.05 mm")])[0] == verdict


def formulas() -> None:
    speed: float = shop.surface_speed("50 mm", 700)
    many: NDArray[numpy.float64] = shop.surface_speed(numpy.array([50.0, 60.0]), 700)
    mixed: NDArray[numpy.float64] = shop.surface_speed([tenths.Size("50 mm"), tenths.Size("60 mm")], Decimal(700))
    exact: float = shop.surface_speed(Fraction(50), Decimal(700))
    diameter: float = shop.surface_speed.solve_for("diameter", speed, spindle_speed=700)
    remarks: tenths.Remarks = shop.press_fit.check(
        "0.02 mm", "25 mm", "50 mm", "30 mm", "210000 GPa", hub_poisson=0.3, shaft_modulus="200 GPa", shaft_poisson=0.3, friction=0.12
    )
    remark: tenths.Remark = remarks[0]
    advice: list[tenths.Remark] = list(remarks.advice)
    cut = shop.turning_cut_for_target("100 m/min", "50 mm", "0.2 mm", "2 mm", "100 mm", "0.8 mm", "1700 N/mm²", 0.25)
    results: tenths.Results = cut
    power: float = cut.motor_power
    formula: tenths.Formula = results.formula
    about: dict[str, dict[str, Any]] = formula.arguments
    units: dict[str, str] = shop.turning_cut.units
    text: str = shop.surface_speed.explain("50 mm", 700)
    assert power > 0 and exact > 0 and many.shape == mixed.shape == (2,) and diameter > 0 and text and units and about
    assert advice == [remark] and remark.message


def descriptions() -> None:
    released: int = tenths.release_memory()
    found: tenths.Formulas = tenths.formulas().find("surface speed")
    description: tenths.Description = found["surface_speed"]
    arguments: list[dict[str, Any]] = description.arguments
    names: list[str] = list(found)
    assert arguments and names


def materials() -> None:
    all_of_them: tenths.Materials = shop.materials()
    steel: tenths.Material = shop.material("SAE 4140", "annealed")
    force: float | None = steel.kc11
    assert force and len(all_of_them.find("4140"))
    rows: tenths.Rows[tenths.StartingValue] = tenths.starting_values("SAE 1045", "turning", tool="carbide")
    value: tenths.StartingValue = rows[0]
    table: list[dict[str, Any]] = rows.to_dicts()
    assert value.speed_lower < value.speed_upper and table
    hardness: tenths.HardnessComparison = shop.compare_hardness("45 HRC")
    tensile: float | None = hardness.tensile_strength
    assert tensile


def fits() -> None:
    fit = tenths.Fit("25 H7/g6")
    clearance: Size = fit.max_clearance
    limits: tenths.Limits = tenths.iso_limits("25 H7")
    classes: list[str] = tenths.iso_classes(limits, "hole")
    choices: Sequence[tenths.FitChoice] = tenths.select_fits("25 mm", "0.005 mm", "0.05 mm")
    selection: tenths.FitSelection = tenths.fit_selection("25 mm", "0.005 mm", "0.05 mm")
    chosen: tenths.Fit = choices[0].fit
    reamer: tenths.Limits = tenths.reamer_limits("10 H7")
    lower: float
    lower, upper = shop.iso_limits("25 H7")
    lowers: NDArray[numpy.float64]
    lowers, _ = shop.iso_limits(["25 H7", "30 H7"])
    tolerance: tenths.GeneralTolerance = tenths.general_tolerance("120 mm", "ISO 2768-mK")
    allowed: tenths.Limits | None = tolerance.limits
    accepted: bool = shop.accepts("25 H7", "25.01 mm")
    assert clearance and classes and chosen.kind == "clearance" and reamer.tolerance and lower < upper and len(lowers) == 2
    assert allowed and accepted
    joint = shop.press_joint(
        "0.03 mm", "0.07 mm", "50 mm", "90 mm", "50 mm", hub_modulus="205 GPa", hub_poisson=0.3, shaft_modulus="205 GPa",
        shaft_poisson=0.3, holding_friction=0.12, pressing_friction=0.08, hub_yield="310 N/mm²", shaft_yield="310 N/mm²",
    )  # fmt: skip
    findings: list[tenths.Finding] = shop.joint_findings(joint)
    assert findings == []


def gauges() -> None:
    plug: tenths.Gauge = tenths.plug_gauge("25 +0.021/0 mm", wear="0.002 mm")
    member: tenths.GaugeMember = plug.go
    master: tenths.Limits = tenths.check_master("1 in", "X")
    others: list[tenths.Gauge] = [
        tenths.ring_gauge("25 0/-0.021 mm"),
        tenths.snap_gauge("25 0/-0.021 mm"),
        tenths.length_gauge("25 ±0.05 mm"),
        tenths.flush_pin_gauge("1.000 +.010/0 in"),
    ]
    assert member.proves and master.tolerance and len(others) == 4


def standard_parts() -> None:
    thread = tenths.Thread("M10-6H")
    minor: tenths.Limits | None = thread.minor
    taper = tenths.StandardTaper("Morse 3")
    tapers: list[tenths.StandardTaper] = tenths.StandardTaper.all()
    knurl = tenths.Knurl("DIN 82-RAA 1")
    blank: Size = knurl.blank("20 mm")
    tolerance: tenths.KnurlTolerance | None = knurl.tolerance
    assert minor and taper in tapers and blank and (tolerance is None or tolerance.crest_upper)


def positions() -> None:
    check = tenths.PositionCheck("0.03 mm", "0.04 mm", "0.2 mm")
    error: Size = check.error
    hole: tenths.HolePosition = shop.hole_position([(1.1, 2, 0), (1, 2.1, 0), (0.9, 2, 0)], (1, 2), ".01 in")
    circle: tenths.FormFit = hole.circle
    form: tenths.FormFit = shop.fit_form("circle", [(10, 0), (0, 10.1), (-10, 0), (0, -10.1)])
    judged: tenths.PositionCheck = hole.check
    assert error == "0.1 mm" and circle.radius and form.radius and judged.error


def decisions() -> None:
    budget: tenths.UncertaintyBudget = tenths.uncertainty_budget(
        shop.surface_speed, {"diameter": tenths.Estimate(50, 0.1), "spindle_speed": (800, 5, -5)}, samples=1000
    )
    row: tenths.UncertaintyRow = budget.rows[0]
    checked: tenths.MonteCarlo | None = budget.monte_carlo
    decision = tenths.Decision("10..10.1 mm", "0.02 mm", rule="ISO 14253-1")
    verdict: str = decision.judge("10.05 mm")
    assert row.standard_uncertainty > 0 and checked and verdict


def inspection() -> None:
    plan = tenths.Plan.from_json(AXLE.read_text(encoding="utf-8"))
    table: tenths.ReadingTable = tenths.readings_from_csv(b"number,measured\n1,144\n", units="mm")
    article: tenths.FirstArticle = tenths.first_article(plan, table)
    verdict: tenths.CharacteristicVerdict = article.verdicts[0]
    measured: Size | None = verdict.measured
    by_number: tenths.FirstArticle = tenths.first_article(plan, {1: [144, "144.1 mm"]})
    page: str = article.to_html()
    assert measured == "144 mm" and page and by_number.pieces == 2


def capability() -> None:
    made: tenths.Capability = shop.capability([9.98, 10.01, 10.0, 10.03], (9.9, 10.1))
    interval: tenths.CapabilityInterval = made.cpk_interval
    drift: tenths.ToolDrift = shop.tool_drift([9.98, 10.01, 10.0, 10.03], (9.9, 10.1))
    least: float | None = interval.lower
    assert made.cpk > 0 and least is not None and drift.count == 4


def control_charts() -> None:
    chart: tenths.ControlChart = tenths.control_chart("c", [4, 5, 6, 30])
    series: tenths.ControlSeries = chart.location
    point: tenths.ControlPoint = series.points[0]
    broken: tenths.BrokenRule = series.broken[0]
    phase: tenths.ChartPhase = chart.phases[0]
    constants: tenths.ChartConstants = tenths.chart_constants(5)
    length: float = tenths.average_run_length("i_mr", 1.0)
    lengths: NDArray[numpy.float64] = tenths.average_run_length("i_mr", [0.0, 1.0])
    assert point.value == 4 and broken.point and phase.first and constants.d2 > 2 and length > lengths[1] - 1


def sampling_plans() -> None:
    plan: tenths.SamplingPlan = tenths.sampling_plan(1000, 1.0)
    stage: tenths.SamplingStage = plan.stages[0]
    performance: tenths.PlanPerformance = plan.performance(0.01)
    chance: float = plan.acceptance_probability(0.01)
    curve: tenths.Rows[tenths.PlanPerformance] = plan.curve([0.01, 0.02])
    switching: tenths.Switching = tenths.Switching().after(plan, 1)
    variables: tenths.VariablesPlan = tenths.variables_plan(1.0, 8.0)
    others: list[tenths.SamplingPlan] = [
        tenths.two_point_plan(1.0, 5.0),
        tenths.zero_acceptance_plan(1000, ltpd=5.0),
        tenths.staged_plan([(20, 0, 2), (20, 1, 2)]),
    ]
    assert stage.sample_size and performance.acceptance_probability == chance and len(curve) == 2
    assert switching.severity and variables.k and others


def gauge_studies() -> None:
    readings = [[[1.0, 2.0], [2.0, 4.0]], [[5.0, 6.0], [7.0, 9.0]]]
    study: tenths.GaugeStudy = tenths.gauge_study(readings, tolerance=20)
    gauge: tenths.VarianceComponent = study.gauge
    row: tenths.VarianceRow = study.table[0]
    many: dict[str, NDArray[numpy.float64]] = tenths.gauge_studies([readings, readings])
    zone: tenths.AttributeZone = tenths.attribute_zone([9.8, 9.9, 10.0], [0, 0.5, 1], 9.9)
    bias: tenths.GaugeBias = tenths.gauge_bias([5.9, 6.1, 6.2], 6)
    line: tenths.Regression = tenths.regression([1.0, 2.0, 3.0], [2.1, 3.9, 6.2])
    linearity: tenths.GaugeLinearity = tenths.gauge_linearity([2, 4, 6], [[2.1, 2.0], [4.1, 4.2], [6.0, 6.3]])
    stability: tenths.GaugeStability = tenths.gauge_stability([5.9, 6.1, 6.2, 6.0])
    agreement: tenths.AttributeAgreement = tenths.attribute_agreement([["ok", "ok"], ["bad", "ok"], ["bad", "bad"]])
    kappa: tenths.Kappa = agreement.all
    scores: tenths.Rows[tenths.AppraiserScore] = agreement.scores
    assert gauge.sd > 0 and row.source and many and zone.parts == 3 and bias.count == 3 and line.slope > 0
    assert linearity.line.count and stability.chart.kind and kappa.agreement and len(scores) == 2


def stacks() -> None:
    stack: tenths.Stack = shop.Stack().add("plate", "10 mm", "0.1 mm", "-0.2 mm", count=3).add("shim", "1 mm ±0.01 mm", sensitivity=-1)
    limits: tenths.Limits = stack.worst_case()
    band: tenths.Band = stack.rss()
    statistics: tenths.Statistics = stack.statistics()
    contribution: tenths.Contribution = stack.contributions()[0]
    spread: tenths.Spread = stack.spread("static")
    within: tenths.SpreadWithin = spread.within(29.0, 29.5)
    curve = tenths.CostCurve.reciprocal(1, least=0.001)
    allocation: tenths.Allocation = stack.allocate({"plate": curve}, worst_case="0.4 mm")
    allocated: tenths.AllocatedTolerance = allocation.tolerances[0]
    sample: tenths.Sample = stack.sample(1000, 1, limits=("29.7 mm", "30.1 mm"))
    share: tenths.Fraction | None = sample.fraction_out
    blocks: list[tenths.Blocks] = [
        stack.sample_blocks(first, count, n=20_000, seed=1) for first, count in tenths.split_blocks(20_000, 2)
    ]
    folded: tenths.Sample = tenths.fold_blocks(blocks)
    assert limits.tolerance and band.tolerance and statistics.sigma and contribution.name == "plate" and within.lower
    assert allocated.half_band and share is not None and folded.count == 20_000


def varying_inputs() -> None:
    # No dict of its own, and whole numbers as coefficients: both are only read.
    inputs: Mapping[str, object] = {"diameter": shop.varying("20 mm", "0.1 mm", "-0.1 mm"), "spindle_speed": (1000, 5, -5)}
    correlations: dict[tuple[str, str], int] = {("diameter", "spindle_speed"): 0}
    speed: tenths.Propagation = shop.propagate(shop.surface_speed, inputs, correlations=correlations)
    cut: tenths.Propagation = shop.propagate(
        shop.turning_cut_for_target, {"surface_speed": "100 m/min", "workpiece_diameter": "50 ±0.1 mm", "feed_per_revolution": "0.2 mm",
         "depth": "2 mm", "travel": "100 mm", "nose_radius": "0.8 mm", "kc11": "1700 N/mm²", "mc": 0.25},
        output="spindle_speed",
    )  # fmt: skip
    sums: tenths.Propagation = shop.propagate(numpy.add, {"a": (1, 0.1, -0.1), "b": 2})
    method: tenths.Propagation = shop.surface_speed.propagate(output="surface_speed", diameter="20 ±0.1 mm", spindle_speed=1000)
    extremes: tenths.Extremes = speed.extremes
    moments: tenths.Moments = sums.moments
    given: tenths.Input = speed.inputs["diameter"]
    law: tenths.Distribution = given.distribution
    loop: tenths.VectorLoop = shop.VectorLoop().unknown("x", 100).unknown("rod", 350)
    loop = loop.link("r", "theta").link("l", "rod").link("x", 180)
    lengths: tenths.Propagation = shop.propagate(loop, {"r": "30 ±0.1 mm", "l": "100 mm", "theta": 40}, output="x")
    assert extremes.lower < extremes.upper and moments.sigma and law.name == "normal" and cut.nominal and method.unit
    assert lengths.nominal


def tolerance_charts() -> None:
    chart = (
        tenths.OperationChart()
        .face("left end", "left")
        .face("right end", "right")
        .stock("right end", "left end", "1.1 ±.01 in")
        .cut("10", "right end", "left end", "1 ±.01 in", least_removal=".1 in")
        .drawing("length", "right end", "left end", "1 ±.005 in")
    )
    result: tenths.ChartResult = chart.evaluate()
    row: tenths.ChartRow = result.dimensions[0]
    good: bool | None = row.good
    assert good is False


def machines() -> None:
    mill: tenths.Machine = shop.Machine(
        least_spindle_speed=100, greatest_spindle_speed=8000, curve=[{"spindle_speed": 1000, "power": "5 kW"}]
    )
    cut: dict[str, float | str] = {
        "cutter_diameter": "10 mm", "teeth": 2, "spindle_speed": 9000, "chip_load": "0.1 mm", "radial_width": "5 mm",
        "axial_depth": "3 mm", "kc11": "2000 N/mm²", "mc": 0.0,
    }  # fmt: skip
    limited: tenths.LimitedCut = shop.limit_to_machine(shop.milling_cut, mill, **cut)
    bound: tenths.MachineLimit = limited.bounds[0]
    arguments: dict[str, float] = limited.arguments
    step: float = shop.lower_spindle_step(600, [355, 500, 710])
    feeds: tenths.PathFeeds = shop.path_feeds(
        ["40 mm", "8 mm"], "3 mm", "2 mm", [0, "200 1/m"], cutter_diameter="10 mm", teeth=3, spindle_speed=7000,
        chip_thickness="0.06 mm", kc11="700 N/mm²", mc=0.25, machine=mill,
    )  # fmt: skip
    assert bound.limit < bound.wanted and arguments and step == 500 and feeds.total_time > 0


def chatter() -> None:
    mode: tenths.VibrationMode = shop.tool_mode("12 mm", "50 mm", modulus="600 GPa", density="14.5 g/cm³")
    stability: tenths.Stability = shop.stability([mode], "2000 N/mm²")
    lobe: tenths.LobePoint = stability.lobes("9000 rpm", "20000 rpm")[0]
    cut: tenths.StableCut = stability.cut_at(9000)
    depth: float = stability.depth(9000)
    measured: tenths.Stability = shop.stability_from_response(
        [400, 500, 600], [1e-4, 0, -1e-4], [-1e-4, -1e-3, -1e-4], specific_cutting_force="2000 N/mm²"
    )
    point: tenths.ResponsePoint = measured.response[1]
    assert lobe.depth > 0 and cut.depth == depth and point.frequency == 500


def best_cuts() -> None:
    best: tenths.BestCut = shop.best_cut(
        shop.turning_cut_for_target, CHOOSE, {"tool_life": ("10 min", None)}, depth="2 mm", tool_life=LIFE, **CUT
    )
    by_name: float = best.chosen["surface_speed"]
    weighed: tenths.BestCut = shop.best_cut(
        shop.turning_cut_for_target, CHOOSE, depth="2 mm", **CUT | {"minimise": {"motor_power": 1, "cutting_force": 2}}
    )
    table: tenths.CutTable = shop.best_cuts(
        shop.turning_cut_for_target, [{"depth": "2 mm"}, {"depth": "3 mm"}], choose=CHOOSE, tool_life=LIFE, **CUT
    )
    row: int | None = table.best_row
    passes: tenths.BestPasses = shop.best_passes(
        shop.turning_cut_for_target, "4 mm", rough={"choose": CHOOSE}, rough_depths=("1 mm", "3 mm"), step="1 mm", tool_life=LIFE, **CUT
    )
    one: tenths.CutPass = passes.passes[0]
    trials: tenths.TaylorFit = shop.fit_taylor([100, 150, 200, 250], [60, 21, 10, 5.5])
    life: tenths.PredictedLife = trials.predict("150 m/min")
    spread: tenths.CutSpread = shop.best_cut_spread(
        shop.turning_cut_for_target, CHOOSE, depth="2 mm", tool_life=trials, samples=10, **CUT
    )
    any_formula: tenths.Formula = best.cut.formula
    again: tenths.BestCut = shop.best_cut(any_formula, CHOOSE, depth="2 mm", tool_life=LIFE, **CUT)
    assert by_name and weighed.objective and row is not None and one.depth and life.tool_life and spread.samples == 10 and again.objective


def workholding() -> None:
    locators: list[tenths.Locator] = [
        *tenths.plane_contact((0, 0, 0), (90, 0, 0), (0, 60, 0)),
        *tenths.line_contact((0, 60, 5), (90, 60, 5), "-y"),
    ]
    more: list[tenths.Locator] = [*tenths.two_pins((0, 0, 0), (90, 0, 0)), *tenths.vee_block((0, 0, 0), (50, 0, 0), "z", 20)]
    locating: tenths.Locating = tenths.locating(locators, [((40, 30, 20), "-z", 3)], friction=0.2)
    motion: tenths.FreeMotion = locating.free[0]
    clamp: tenths.Clamp = locating.clamps[0]
    force: float = shop.clamp_force("strap", 600, 2, 2)
    safety: tenths.ClampSafety = shop.clamp_safety(1000, (30, 40, 20), 0.2)
    assert motion.words and clamp.force == 3 and force and safety.enough and more


def stock() -> None:
    plan: tenths.CuttingPlan = tenths.cutting_plan([("1 m", 5)], ["3 m"], "3 mm")
    layout: tenths.CuttingLayout = plan.layouts[0]
    piece: tenths.CutLength = layout.pieces[0]
    pieces: dict[str, list[tuple[str, int]]] = {"A": [("4 m", 2)], "B": [("2 m", 2)]}
    shared: tenths.SharedCuttingPlan = tenths.shared_cutting_plan(pieces, [("6 m", None, 30)])
    share: tenths.OrderShare = shared.shares[0]
    cut: tenths.OrderCut = shared.cuts[0]
    order: tenths.BarOrder = tenths.bars_to_buy(190, "3 m", Decimal("45.5"), 3, units="mm")
    size: tenths.BarSize = tenths.next_bar_size("6.2 in", "inch hot rolled")
    sizes: tenths.Rows[tenths.BarSize] = tenths.bar_sizes("inch hot rolled")
    mass: float = shop.bar_mass("round", "20 mm", "3000 mm", "7.85 g/cm³")
    each: float = shop.bar_mass_per_length("tube", "30 mm", "7.85 g/cm³", wall="3 mm")
    assert piece.count and share.order == cut.order == "A" and order.bars and size in sizes and mass > 0 and each > 0


def money() -> None:
    cents: Decimal = tenths.round_money("10.005")
    parts: tuple[Decimal, ...] = tenths.split_money(cents, [1, 2])
    starts: tenths.StartQuantities = tenths.start_quantities(100, [0.03, 0.05])
    order: tenths.DiscountedOrder = tenths.discounted_order(1000, 200, 0.25, [(1, 100), (101, 90), (301, 85)])
    tier: tenths.OrderTier = order.tiers[0]
    price: tenths.QuantityBreak = tenths.quantity_breaks([(1, 14.2), (10, 11.75)])[0]
    load: tenths.MachineLoad = tenths.machine_load([("A", 10, 30, 6, "2 h"), ("B", 5, "20 min", 4, 60)])
    loaded: tenths.MachineLoadRow = load.rows[0]
    judged: tenths.MakeOrBuy = tenths.make_or_buy("20 h9", [("bought", "20 h11", 0, 1), ("turned", None, 62, 9.35), ("ground", None, 415, 6.9)], 9)
    supply: tenths.SupplyRow = judged.rows[0]
    even: tenths.BreakEven = judged.break_evens[0]
    assert sum(parts) == cents and starts.rolled and tier.price and price.price and loaded.order and supply.name and even.quantity


def plans() -> None:
    plan: tenths.Plan = tenths.draft_plan(
        units="metric", material="SAE 1045", quantity=1, features=[{"kind": "step", "diameter": "20 h9", "length": 25}]
    )
    assumption: tenths.Assumption = plan.assumptions[0]
    sheet: tenths.Sheet = plan.evaluate()
    findings: list[tenths.Finding] = sheet.findings
    page: str = sheet.to_html("cards")
    whole: Any = sheet.to_dict()["operations"]
    assert assumption.place and page and whole and all(finding.message for finding in findings)


def quotes() -> None:
    plan = tenths.Plan.from_json(AXLE.read_text(encoding="utf-8"))
    prices: tenths.PriceList = plan.quote([1, 25])
    quote: tenths.Quote = prices[1]
    line: tenths.QuoteLine = quote.lines[0]
    amounts: Iterator[Decimal] = (one.total for one in prices)
    routes: tenths.RouteComparison = plan.break_even(plan, 3)
    stretch: tenths.RouteStretch = routes.stretches[0]
    routings: tenths.RoutingComparison = plan.compare_routings(25, 3)
    routing: tenths.RoutingQuote = routings.routings[0]
    cheapest: tenths.CheapestStretch = routings.stretches[0]
    varied: tenths.PriceRange = plan.price_range(25, {"/rates/machines/2/rate": "64.5 ±6"}, 20)
    percentile: tenths.PricePercentile = varied.percentiles[0]
    drivers: tenths.PriceDrivers = plan.price_drivers(25)
    driver: tenths.PriceDriver = drivers.drivers[0]
    lot: tenths.EconomicLot = plan.economic_lot(1000, 0.2)
    assert line.amount and sum(amounts) > 0 and stretch.cheaper and routing.total and cheapest.cheapest
    assert percentile.total and driver.swing and lot.quantity


def common_to_objects() -> None:
    objects: list[tenths.Object] = [tenths.Fit("25 H7/g6"), tenths.plug_gauge("25 H7"), tenths.chart_constants(5)]
    data: list[dict[str, Any]] = [one.to_dict() for one in objects]
    row: tenths.Row = shop.Stack().add("plate", "10 mm ±0.1 mm").rss()
    values: tuple[Any, ...] = tuple(row)
    rows: tenths.Rows[tenths.Object] = tenths.Rows(objects)
    assert len(data) == len(rows) and len(values) == 3


TOPICS = (
    package, sizes, formulas, descriptions, materials, fits, gauges, standard_parts, positions, decisions, inspection, capability,
    control_charts, sampling_plans, gauge_studies, stacks, varying_inputs, tolerance_charts, machines, chatter, best_cuts,
    workholding, stock, money, plans, quotes, common_to_objects,
)  # fmt: skip

if __name__ == "__main__":
    for topic in TOPICS:
        topic()

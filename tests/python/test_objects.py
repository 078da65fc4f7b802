"""What every object has, whatever its record."""

import collections.abc
import copy
import pickle

import pytest
import tenths

CHART = (
    tenths.OperationChart()
    .face("left end", "left")
    .face("right end", "right")
    .stock("right end", "left end", "1.1 ±.01 in")
    .cut("10", "right end", "left end", "1 ±.01 in", least_removal=".1 in")
    .drawing("length", "right end", "left end", "1 ±.005 in")
    .evaluate()
)
STACK = tenths.metric.Stack().add("plate", 10, 0.1, -0.2, count=3).add("<shim>", "1 mm ±0.01 mm", sensitivity=-1)
BUDGET = tenths.uncertainty_budget(
    tenths.metric.surface_speed, {"diameter": tenths.Estimate(50, 0.1), "spindle_speed": (800, 5, -5)}, samples=1000
)

PROPAGATION = tenths.metric.surface_speed.propagate(diameter=(20, 0.1, -0.1), spindle_speed=1000)
FIT = tenths.metric.fit_taylor([100, 150, 200, 250], [60, 21, 10, 5.5])
MILL = tenths.metric.Machine(least_spindle_speed=100, greatest_spindle_speed=8000)

ARTICLE = tenths.first_article(tenths.Plan.from_json(open("examples/plans/roller_axle.json", encoding="utf-8").read()), {1: 144})

SHARED = tenths.shared_cutting_plan({"A": [("4 m", 2)], "B": [("2 m", 2)]}, [("6 m", None, 30)])
LOAD = tenths.machine_load([("A", 10, 30, 6, "2 h"), ("B", 5, "20 min", 4, 60)])
AXLE = tenths.Plan.from_json(open("examples/plans/roller_axle.json", encoding="utf-8").read())
PRICES, ROUTES, DRIVERS = AXLE.quote([1, 25]), AXLE.break_even(AXLE, 3), AXLE.price_drivers(25)
SIDE_BY_SIDE = AXLE.compare_routings(25, 3)
RANGE = AXLE.price_range(25, {"/rates/machines/2/rate": "64.5 ±6"}, 20)
ORDER = tenths.discounted_order(1000, 200, 0.25, [(1, 100), (101, 90), (301, 85)])
DRAFT = tenths.draft_plan(
    units="metric", material="SAE 1045", quantity=1, features=[{"kind": "step", "diameter": "20 h9", "length": 25}]
)
JUDGED = tenths.make_or_buy("20 h9", [("bought", "20 h11", 0, 1), ("turned", None, 62, 9.35), ("ground", None, 415, 6.9)], 9)

OBJECTS = [
    PRICES,
    PRICES[1],
    PRICES[1].lines[0],
    ROUTES,
    ROUTES.stretches[0],
    SIDE_BY_SIDE,
    SIDE_BY_SIDE.routings[0],
    SIDE_BY_SIDE.stretches[0],
    RANGE,
    RANGE.percentiles[0],
    DRIVERS,
    DRIVERS.drivers[0],
    AXLE.economic_lot(1000, 0.2),
    ORDER,
    ORDER.tiers[0],
    tenths.start_quantities(100, [0.03, 0.05]),
    tenths.quantity_breaks([(1, 14.2), (10, 11.75)])[0],
    tenths.plug_gauge("25 +0.021/0 mm"),
    tenths.plug_gauge("25 +0.021/0 mm").go,
    tenths.flush_pin_gauge("1.000 +.010/0 in"),
    tenths.Decision("10..10.1 mm", "0.02 mm"),
    tenths.fit_selection("25 mm", "0.007 mm", "0.041 mm"),
    tenths.PositionCheck("0.03 mm", "0.04 mm", "0.1 mm"),
    tenths.general_tolerance("120 mm", "ISO 2768-mK"),
    tenths.metric.fit_form("circle", [(10, 0), (0, 10.1), (-10, 0), (0, -10.1)]),
    tenths.inch.hole_position([(1.1, 2, 0), (1, 2.1, 0), (0.9, 2, 0)], (1, 2), ".01 in"),
    ARTICLE,
    ARTICLE.verdicts[0],
    tenths.sampling_plan(1000, 1.0),
    tenths.sampling_plan(1000, 1.0).stages[0],
    tenths.sampling_plan(1000, 1.0).performance(0.01),
    tenths.Switching().after_all("A3 R0"),
    tenths.variables_plan(1.0, 8.0),
    tenths.Estimate(10.002, 0.0006, 5),
    BUDGET,
    BUDGET.rows[0],
    BUDGET.monte_carlo,
    tenths.Thread("1/4-20 UNC-2B"),
    tenths.Thread("M10"),
    CHART,
    CHART.dimensions[0],
    tenths.Finding,
    STACK.rss(),
    STACK.statistics(),
    STACK.contributions()[0],
    STACK.allocate({"plate": tenths.CostCurve.reciprocal(1, least=0.01)}, worst_case=0.4).tolerances[1],
    STACK.spread("static"),
    STACK.spread("static").within(29.7, float("inf")),
    STACK.sample(1000, 1, limits=(29.9, 30.1)).fraction_out,
    STACK.allocate({"plate": tenths.CostCurve.reciprocal(1, least=0.01)}, worst_case=0.4),
    PROPAGATION.extremes,
    PROPAGATION.moments,
    FIT,
    FIT.predict("150 m/min"),
    tenths.metric.limit_to_machine(
        tenths.metric.milling_cut, MILL, cutter_diameter=10, teeth=2, spindle_speed=9000, chip_load=0.1, radial_width=5,
        axial_depth=3, kc11=2000, mc=0.0,
    ).bounds[0],
    tenths.metric.stability([(500, 10000, 0.05)], 2000),
    tenths.metric.stability([(500, 10000, 0.05)], 2000).modes[0],
    tenths.inch.tool_mode(0.5, 2, modulus=87, density=0.52, direction=30),
    tenths.metric.stability([(500, 10000, 0.05)], 2000).cut_at(9000),
    tenths.metric.stability([(500, 10000, 0.05)], 2000).lobes(9000, 20000)[0],
    tenths.metric.stability_from_response([400, 500, 600], [1e-4, 0, -1e-4], [-1e-4, -1e-3, -1e-4], specific_cutting_force=2000).response[1],
    tenths.control_chart("xbar_r", [[1, 2, 3], [2, 3, 5], [9, 9, 8]]),
    tenths.control_chart("c", [4, 5, 6, 30]).location.broken[0],
    tenths.chart_constants(5),
    tenths.locating([((0, 0, 0), "z"), ((9, 0, 0), "z")], [((4, 0, 5), "-z")], friction=0.2),
    tenths.locating([((0, 0, 0), "z")]).free[0],
    tenths.line_contact((0, 0, 0), (9, 0, 0), "z")[0],
    tenths.locating([((0, 0, 0), "z")], [((0, 0, 5), "-z", 3)]).clamps[0],
    tenths.metric.clamp_safety(1000, (30, 40, 20), 0.2),
    tenths.cutting_plan([("1 m", 5)], ["3 m"], "3 mm"),
    tenths.cutting_plan([("1 m", 5)], ["3 m"], "3 mm").layouts[0],
    tenths.cutting_plan([("1 m", 5)], ["3 m"], "3 mm").layouts[0].pieces[0],
    SHARED,
    SHARED.shares[0],
    SHARED.cuts[0],
    tenths.bars_to_buy(190, "3 m", "45 mm", "3 mm"),
    tenths.next_bar_size("6.2 in", "inch hot rolled"),
    tenths.starting_values("SAE 1045", "turning", tool="carbide")[0],
    DRAFT.assumptions[0],
    LOAD,
    LOAD.rows[0],
    JUDGED,
    JUDGED.rows[0],
    JUDGED.break_evens[0],
    tenths.inch.compare_hardness("45 HRC"),
    tenths.gauge_study([[[1, 2], [2, 4]], [[5, 6], [7, 9]]], tolerance=20),
    tenths.gauge_study([[[1, 2], [2, 4]], [[5, 6], [7, 9]]]).gauge,
    tenths.attribute_zone([9.8, 9.9, 10.0], [0, 0.5, 1], 9.9),
    tenths.gauge_bias([5.9, 6.1, 6.2], 6),
    tenths.gauge_stability([5.9, 6.1, 6.2, 6.0]),
    tenths.attribute_agreement([["ok", "ok"], ["bad", "ok"], ["bad", "bad"]]),
    tenths.metric.capability([9.98, 10.01, 10.0, 10.03], "10 ±0.1 mm"),
    tenths.metric.capability([9.98, 10.01, 10.0, 10.03], (9.9, 10.1)).cp_interval,
    tenths.metric.tool_drift([9.98, 10.01, 10.0, 10.03], (9.9, 10.1)),
]
# What tells quantities in the units of a namespace, and has no units of its own.
OF_NAMESPACE = (
    tenths.TaylorFit, tenths.PredictedLife, tenths.VibrationMode, tenths.LobePoint, tenths.StableCut, tenths.ResponsePoint,
    tenths.ClampSafety, tenths.HardnessComparison, tenths.StartingValue,
)  # fmt: skip
CUT = {
    "choose": {"surface_speed": (10, 500), "feed_per_revolution": (0.05, 0.5)}, "minimise": "cost", "workpiece_diameter": 80, "travel": 250,
    "nose_radius": 1.2, "kc11": 1700, "mc": 0.25, "rates": {"hourly_rate": 60, "edge_cost": 2},
}
LIFE = {"taylor_c": 300, "taylor_n": 0.25}
PASSES = tenths.metric.best_passes(
    tenths.metric.turning_cut_for_target, 4, rough={}, rough_depths=(1, 3), step=1, tool_life=LIFE, **CUT
)
OBJECTS += [
    tenths.metric.best_cut(tenths.metric.turning_cut_for_target, depth=2, tool_life=LIFE, **CUT),
    tenths.metric.best_cut_spread(tenths.metric.turning_cut_for_target, depth=2, tool_life=FIT, samples=10, **CUT),
    PASSES,
    PASSES.passes[0],
]
ROWS = [one for one in OBJECTS if isinstance(one, tenths.Row)]


def _objects():
    plan = tenths.Plan.from_json(open("examples/plans/roller_axle.json", encoding="utf-8").read())
    return [plan.evaluate().findings[0] if one is tenths.Finding else one for one in OBJECTS]


def _fields(made):
    """The fields as plain data, without the units of a namespace, which are none."""
    return {name: value for name, value in made.to_dict().items() if name in type(made).__match_args__}


@pytest.fixture(params=range(len(OBJECTS)))
def made(request):
    return _objects()[request.param]


def test_an_object_is_a_value(made):
    for other in (pickle.loads(pickle.dumps(made)), copy.copy(made), copy.deepcopy(made)):
        assert other == made and hash(other) == hash(made) and type(other) is type(made)
        assert repr(other) == repr(made)
    assert made != "text" and made != _objects()[(len(OBJECTS) - 1) if made == _objects()[0] else 0]


def test_fields_cannot_be_set(made):
    for name in type(made).__match_args__:
        with pytest.raises(AttributeError, match="frozen"):
            setattr(made, name, None)
        with pytest.raises(AttributeError, match="frozen"):
            delattr(made, name)
    with pytest.raises(AttributeError):
        made.something_else = 1


def test_fields_are_documented(made):
    for name in type(made).__match_args__:
        assert len(getattr(type(made), name).__doc__) > 5


def test_plain_data_has_every_field(made):
    fields = type(made).__match_args__
    # An object of a namespace says which one it is.
    of_namespace = isinstance(made, OF_NAMESPACE)
    assert tuple(made.to_dict()) == ((*fields, "units") if of_namespace else fields)
    # Only plain data: what json takes.
    import json

    json.dumps(made.to_dict())


def test_a_notebook_shows_the_fields(made):
    shown = made._repr_html_()
    assert shown.startswith("<table><caption>") and shown.endswith("</table>")
    present = [name for name, value in _fields(made).items() if value not in (None, "", []) and not isinstance(value, dict)]
    for name in present:
        assert name.replace("_", " ") in shown, name


@pytest.mark.libraries
def test_a_frame_has_a_column_for_each_field(made):
    frame = made.to_frame()
    if made is CHART:
        # Its rows are those of its lists, in one table.
        made, rows = made.working[0], 4
    elif made is ARTICLE:
        made, rows = made.verdicts[0], len(made.verdicts)
    elif isinstance(made, tenths.ControlChart):
        made, rows = made.phases[0], 1
    elif isinstance(made, tenths.CuttingPlan):
        made, rows = made.layouts[0], 2
    elif isinstance(made, tenths.Locating):
        made, rows = made.free[0], len(made.free)
    elif isinstance(made, tenths.BestPasses):
        made, rows = made.passes[0], 2
    elif isinstance(made, tenths.CuttingLayout):
        made, rows = made.pieces[0], 1
    elif isinstance(made, tenths.Stability):
        made, rows = made.modes[0], 1
    elif isinstance(made, tenths.SharedCuttingPlan):
        made, rows = made.shares[0], 2
    elif isinstance(made, tenths.MachineLoad):
        made, rows = made.rows[0], 2
    elif isinstance(made, tenths.MakeOrBuy):
        made, rows = made.rows[0], 3
    elif isinstance(made, tenths.SamplingPlan):
        made, rows = made.stages[0], 1
    elif made is PRICES:
        made, rows = made[0], 2
    elif isinstance(made, tenths.Quote):
        made, rows = made.lines[0], len(made.lines)
    elif made is ROUTES:
        made, rows = made.stretches[0], 1
    elif made is SIDE_BY_SIDE:
        made, rows = made.routings[0], len(made.routings)
    elif made is RANGE:
        made, rows = made.percentiles[0], len(made.percentiles)
    elif made is DRIVERS:
        made, rows = made.drivers[0], len(made.drivers)
    elif made is ORDER:
        made, rows = made.tiers[0], 3
    elif isinstance(made, tenths.Allocation):
        made, rows = made.tolerances[0], 2
    elif made is BUDGET:
        made, rows = made.rows[0], 2
    elif isinstance(made, tenths.FitSelection):
        made, rows = made.choices[0], len(made.choices)
    elif isinstance(made, tenths.GaugeStudy):
        made, rows = made.table[0], 5
    elif isinstance(made, tenths.AttributeAgreement):
        # One of all pairs; without a reference and with one trial there are no other lists of these.
        made, rows = made.pairs[0], 1
    else:
        rows = 1
    assert len(frame) == rows
    for name, value in _fields(made).items():
        assert any(column == name or column.startswith(name + "_") for column in frame.columns), name
    limits = next((name for name in type(made).__match_args__ if isinstance(getattr(made, name), tenths.Limits)), None)
    if limits:
        assert frame[f"{limits}_lower"][0] == getattr(made, limits).lower.to_float("mm")
        assert made.to_frame("in")[f"{limits}_lower"][0] == getattr(made, limits).lower.to_float("in")


def test_classes_of_objects_are_not_called():
    for name in ("Gauge", "GaugeMember", "Finding", "Object"):
        with pytest.raises(TypeError, match="come from functions and methods"):
            getattr(tenths, name)()


def test_pickles_of_other_values_are_refused():
    from tenths import _tenths

    rule = _tenths._restore
    good = tenths.Decision("10..10.1 mm", "0.02 mm").__reduce__()[1]
    assert rule(*good) == tenths.Decision("10..10.1 mm", "0.02 mm")
    with pytest.raises(ValueError, match="'Nothing' is not an object"):
        rule("Nothing", *good[1:])
    with pytest.raises(ValueError, match="do not make this object"):
        rule(*good[:3], good[3][:-1])
    with pytest.raises(TypeError):
        rule(*good[:3], [1.0, *good[3][1:]])


def test_markup_in_text_shows_as_written():
    from tenths import _tenths

    # A class with methods tells its own summary; that of any other is kept as it was.
    made = OBJECTS[1].__reduce__()[1]

    shown = _tenths._restore(made[0], None, "<script>alert(1)</script>", made[3])._repr_html_()
    assert "<script>" not in shown and "&lt;script&gt;" in shown


@pytest.mark.parametrize("row", ROWS, ids=lambda row: type(row).__name__)
def test_some_objects_unpack_as_tuples(row):
    values = tuple(row)
    assert row == values and values == row
    # Values by name are dicts, and a tuple with such has no hash.
    assert any(isinstance(value, dict) for value in values) or hash(row) == hash(values)
    assert row != values[:-1] and row != (*values, None)
    assert len(row) == len(values) and row[0] == values[0] and row[-1] == values[-1] and row[1:] == values[1:]
    assert row._asdict() == dict(zip(row._fields, values))
    assert [getattr(row, name) for name in row._fields] == list(values)
    assert isinstance(row, collections.abc.Sequence) and values[0] in row
    with pytest.raises(IndexError):
        row[len(values)]


def test_only_a_row_with_a_value_is_a_number():
    fraction = STACK.sample(1000, 1, limits=(29.9, 30.1)).fraction_out
    assert float(fraction) == fraction.value
    with pytest.raises(TypeError, match="Band is not a single number"):
        float(STACK.rss())


def test_what_follows_from_the_fields_of_a_row_is_no_part_of_it():
    mean, tolerance, exceeds = band = STACK.rss()
    assert (band.lower, band.upper, band.units) == (mean - tolerance, mean + tolerance, "metric") and not exceeds
    assert band._fields == ("mean", "tolerance", "exceeds_worst_case")
    assert type(band).__match_args__ == (*band._fields, "lower", "upper", "units")


def test_rows_show_themselves_as_a_table():
    rows = STACK.contributions()
    assert isinstance(rows, tuple) and rows == tuple(rows) and hash(rows) == hash(tuple(rows))
    heads, *lines = repr(rows).splitlines()
    assert heads.split() == ["name", "rss", "variance", "worst_case"]
    assert [line.split()[0] for line in lines] == ["plate", "<shim>"]
    shown = rows._repr_html_()
    assert "<th>worst case</th>" in shown and "&lt;shim&gt;" in shown and "<shim>" not in shown
    assert rows.to_dicts() == [row.to_dict() for row in rows]
    assert repr(tenths.Rows()) == "()" and tenths.Rows().to_dicts() == []
    again = pickle.loads(pickle.dumps(rows))
    assert again == rows and type(again) is tenths.Rows


@pytest.mark.libraries
def test_rows_are_a_frame():
    import pandas as pd

    rows = STACK.contributions()
    assert rows.to_frame().equals(pd.DataFrame(rows)) and rows.to_frame().equals(pd.DataFrame(rows.to_dicts()))
    assert len(tenths.Rows().to_frame()) == 0
    gauges = tenths.Rows(tenths.plug_gauge(text) for text in ("25 +0.021/0 mm", "30 +0.021/0 mm"))
    assert list(gauges.to_frame("in").part_lower) == [gauge.part.lower.to_float("in") for gauge in gauges]


def test_a_spread_before_limits():
    spread = STACK.spread("centred")
    found = spread.within(29.0, 29.5)
    assert found.spread == spread and (found.lower, found.upper) == (29.0, 29.5)
    assert found.z_lower == spread.z_lower(29.0) and found.fraction_above == spread.fraction_above(29.5)
    for limits in [(1.0, 0.0), (float("nan"), 1.0)]:
        with pytest.raises(ValueError, match="the lower limit comes first, not"):
            spread.within(*limits)


def test_a_pickled_spread_goes_through_its_checks():
    restore, (name, *rest, values) = tenths.Spread(1.0, 0.5, 0.25).__reduce__()
    assert restore(name, *rest, values) == tenths.Spread(1.0, 0.5, 0.25)
    with pytest.raises(ValueError, match="do not make this object"):
        restore(name, *rest, (1.0, 0.5, -0.25))


def test_plain_numbers_show_the_units_of_their_object_and_pure_ones_none():
    inches = tenths.inch.Stack().add("plate", 0.4, 0.004, -0.008, count=3)
    for stack, unit in ((STACK, "mm"), (inches, "in")):
        html = stack.statistics()._repr_html_()
        assert f"{stack.statistics().mean:g} {unit}</td>" in html
        assert html.count(f" {unit}</td>") == 2
        assert stack.rss()._repr_html_().count(f" {unit}</td>") == 4
    assert STACK.spread("static")._repr_html_().count(" mm</td>") == 0


@pytest.mark.libraries
def test_a_frame_tells_the_units_of_its_columns():
    assert STACK.statistics().to_frame().attrs["units"] == {"mean": "mm", "sigma": "mm", "skewness": "", "kurtosis": ""}
    fit = tenths.Fit("25 H7/g6")
    assert set(fit.to_frame("in").attrs["units"].values()) == {"in"}
    assert set(fit.to_frame().attrs["units"].values()) == {"mm"}
    assert CHART.to_frame("in").attrs["units"]["limits_lower"] == "in"


def test_values_by_name():
    extremes = PROPAGATION.extremes
    assert extremes.at_lower == {"diameter": 19.9} and extremes.monotonic == {"diameter": True}
    assert extremes.to_dict()["at_upper"] == {"diameter": 20.1}
    assert "<td>diameter: 19.9</td>" in extremes._repr_html_()


def test_a_fit_tells_its_units():
    assert FIT.units == FIT.to_dict()["units"] == "metric" and len(FIT.covariance) == len(FIT.covariance[0]) == 2
    assert " m/min</td>" in FIT._repr_html_()
    inches = tenths.inch.fit_taylor([100, 150, 200, 250], [60, 21, 10, 5.5])
    assert " ft/min</td>" in inches._repr_html_() and inches.taylor_n == pytest.approx(FIT.taylor_n, rel=1e-12)
    assert inches.taylor_c == pytest.approx(FIT.taylor_c, rel=1e-9) and inches != FIT

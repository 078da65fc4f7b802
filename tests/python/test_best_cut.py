"""The best cut within limits: published cases, an independent search that never beats it, and what callers give."""

import json
import math
import pickle
import random
import runpy
from pathlib import Path
from types import MappingProxyType

import numpy
import pytest
import tenths
from tenths import metric as shop

PUBLISHED = Path(__file__).parents[1] / "published" / "best_cuts.csv"
TURNING = {
    "rates": {"hourly_rate": 48, "edge_cost": 2, "tool_change_time": 1},
    "tool_life": {"taylor_c": 300, "taylor_n": 0.25, "feed_exponent": 0.35},
    "workpiece_diameter": 80,
    "depth": 3,
    "travel": 250,
    "nose_radius": 1.2,
    "kc11": 1700,
    "mc": 0.25,
}
CHOOSE = {"surface_speed": (10, 500), "feed_per_revolution": (0.05, 0.6)}
LATHE = shop.Machine(
    least_spindle_speed=50,
    greatest_spindle_speed=3000,
    curve=[{"spindle_speed": 300, "power": 3}, {"spindle_speed": 900, "power": 6}, {"spindle_speed": 2000, "power": 4}],
)


def turning(limits=None, choose=CHOOSE, **options):
    given = {name: value for name, value in TURNING.items() if name not in choose}
    return shop.best_cut(shop.turning_cut_for_target, choose, limits, **{**given, **options})


def fields(text):
    return [] if text == "-" else [part.replace("=", " ", 1).split(" ", 1) for part in text.split(", ")]


def ends(text):
    return tuple(float(end) if end else None for end in text.split(".."))


def law(text):
    factor, *powers = text.removeprefix("= ").split()
    return float(factor), {name: float(by) for name, by in (power.split("^") for power in powers)}


def published():
    for line in PUBLISHED.read_text(encoding="utf-8").splitlines():
        if not line.startswith("#"):
            yield pytest.param(line.split(";"), id=line.split(";")[0])


@pytest.mark.parametrize("line", list(published()))
def test_published_cuts_are_reached_and_proven(line):
    space = getattr(tenths, line[1])
    rates = None if line[8] == "-" else line[8].split()
    life = None if line[9] == "-" else line[9].split()
    sum_of = {name: float(weight) for name, weight in fields(line[7])} if " " in line[7] else line[7]
    best = space.best_cut(
        getattr(space, line[2]),
        {name: ends(text) for name, text in fields(line[4]) if name[0] != "+"},
        {name: ends(text) for name, text in fields(line[5])},
        unknowns={name[1:]: ends(text) for name, text in fields(line[4]) if name[0] == "+"},
        minimise=sum_of,
        laws={name: law(text.strip()) for name, text in fields(line[6].replace(" = ", "=")) },
        rates=rates and dict(zip(("hourly_rate", "edge_cost", "tool_change_time", "handling_time"), map(float, rates), strict=True)),
        tool_life=life
        and dict(
            zip(
                ("taylor_c", "taylor_n", "feed_exponent", "depth_exponent", "reference_feed", "reference_depth"),
                map(float, life),
                strict=True,
            )
        ),
        path_length=None if line[10] == "-" else float(line[10]),
        **{name: float(value) for name, value in fields(line[3])},
    )
    tolerance = float(line[13])
    assert best.objective == pytest.approx(float(line[12]), rel=tolerance)
    assert best.lower_bound <= best.objective == pytest.approx(best.lower_bound, rel=1e-8)
    for name, value in fields(line[11]):
        assert best.chosen[name] == pytest.approx(float(value), rel=max(math.sqrt(tolerance), 2e-4))


def cost(cut, speed, feed, rates, life):
    """Cost of a piece as the textbooks have it, of columns of speed and feed."""
    lasts = (life["taylor_c"] / (speed * feed ** life.get("feed_exponent", 0.0))) ** (1 / life["taylor_n"])
    minute = rates["hourly_rate"] / 60
    return minute * cut.time + (minute * rates["tool_change_time"] + rates["edge_cost"]) * cut.time / lasts, lasts


def by_grid(problem, limits, count=48):
    """The least cost within limits of a grid, and of a finer one about its best point."""
    low = {name: ends[0] for name, ends in problem["choose"].items()}
    high = {name: ends[1] for name, ends in problem["choose"].items()}
    least = math.inf
    for _ in range(7):
        speed = numpy.geomspace(low["surface_speed"], high["surface_speed"], count)[:, None]
        feed = numpy.geomspace(low["feed_per_revolution"], high["feed_per_revolution"], count)[None, :]
        cut = shop.turning_cut_for_target(surface_speed=speed, feed_per_revolution=feed, **problem["fixed"])
        costs, lasts = cost(cut, speed, feed, problem["rates"], problem["life"])
        costs = numpy.where(numpy.isfinite(costs), costs, math.inf)
        for name, (lower, upper) in limits.items():
            figure = lasts if name == "tool_life" else getattr(cut, name)
            costs[(figure < (lower or 0)) | (figure > (upper or math.inf))] = math.inf
        place = numpy.unravel_index(numpy.argmin(costs), costs.shape)
        if math.isinf(costs[place]):
            return least
        least = min(least, costs[place])
        for name, column, at in [("surface_speed", speed[:, 0], place[0]), ("feed_per_revolution", feed[0], place[1])]:
            low[name], high[name] = column[max(at - 2, 0)], column[min(at + 2, count - 1)]
    return least


def test_no_search_beats_the_best_cut_of_random_problems():
    draw = random.Random(17)
    solved = 0
    for _ in range(200):
        nose = draw.uniform(0.4, 1.6)
        problem = {
            "choose": {"surface_speed": (20, draw.uniform(150, 900)), "feed_per_revolution": (0.05, draw.uniform(0.2, min(0.8, 2 * nose)))},
            "rates": {"hourly_rate": draw.uniform(20, 200), "edge_cost": draw.uniform(0.5, 10), "tool_change_time": draw.uniform(0, 5)},
            "life": {"taylor_c": draw.uniform(80, 600), "taylor_n": draw.uniform(0.1, 0.6), "feed_exponent": draw.uniform(0, 0.6)},
            "fixed": {
                "workpiece_diameter": draw.uniform(20, 300),
                "depth": draw.uniform(0.5, 6),
                "travel": draw.uniform(20, 500),
                "nose_radius": nose,
                "kc11": draw.uniform(600, 3000),
                "mc": draw.uniform(0.1, 0.4),
            },
        }
        every = {
            "motor_power": (None, draw.uniform(1, 30)),
            "cutting_force": (None, draw.uniform(500, 8000)),
            "roughness_ra": (None, draw.uniform(0.8, 12)),
            "tool_life": (draw.uniform(2, 60), None),
            "spindle_speed": (None, draw.uniform(300, 4000)),
            "chip_thickness": (draw.uniform(0.02, 0.12), None),
        }
        limits = {name: every[name] for name in draw.sample(sorted(every), draw.randint(0, 5))}
        grid = by_grid(problem, limits)
        try:
            best = shop.best_cut(
                shop.turning_cut_for_target, problem["choose"], limits, minimise="cost", rates=problem["rates"],
                tool_life=problem["life"], **problem["fixed"],
            )
        except tenths.DomainError as error:
            assert "cannot hold together" in str(error) and math.isinf(grid)
            continue
        solved += 1
        assert best.lower_bound <= best.objective == pytest.approx(best.lower_bound, rel=1e-8)
        assert grid >= best.lower_bound * (1 - 1e-9)
        assert best.objective <= grid * (1 + 1e-9)
        figures = {**best.figures, **best.results}
        for name, (lower, upper) in limits.items():
            assert (lower or 0) * (1 - 1e-9) <= figures[name] <= (upper or math.inf) * (1 + 1e-9)
    assert solved > 120


@pytest.mark.libraries
def test_differential_evolution_does_not_beat_it():
    scipy = pytest.importorskip("scipy.optimize")
    limits = {"motor_power": (None, 7.5), "roughness_ra": (None, 3.2), "tool_life": (15, None)}
    best = turning(limits, minimise="cost")
    fixed = {name: TURNING[name] for name in ("workpiece_diameter", "depth", "travel", "nose_radius", "kc11", "mc")}

    def objective(point):
        speed, feed = numpy.exp(point)
        cut = shop.turning_cut_for_target(surface_speed=speed, feed_per_revolution=feed, **fixed)
        value, lasts = cost(cut, speed, feed, TURNING["rates"], TURNING["tool_life"])
        return value if cut.motor_power <= 7.5 and cut.roughness_ra <= 3.2 and lasts >= 15 else 1e9

    bounds = [tuple(map(math.log, CHOOSE[name])) for name in CHOOSE]
    found = scipy.differential_evolution(objective, bounds, seed=3, tol=1e-12, maxiter=400)
    assert best.lower_bound <= found.fun <= best.objective * (1 + 1e-3)


def test_prices_are_what_a_unit_more_saves():
    limits = {"motor_power": (None, 7.5), "cutting_force": (None, 2500), "tool_life": (15, None)}
    best = turning(limits, minimise="cost")
    for name, price in best.prices.items():
        for way in (-1, 1):
            lower, upper = limits[name]
            moved = {**limits, name: (lower and lower * (1 - way * 1e-4), upper and upper * (1 + way * 1e-4))}
            saved = best.objective - turning(moved, minimise="cost").objective
            assert saved == pytest.approx(way * price * (lower or upper) * 1e-4, rel=0.01, abs=1e-9)
    assert set(best.binding) == set(best.prices) and len(best.binding) == 2


def test_the_optimum_is_flat_to_a_hundredth():
    best = turning({"roughness_ra": (None, 3.2)}, minimise="cost")
    for name in best.chosen:
        for value in (best.flat_from[name], best.flat_to[name]):
            pinned = turning({"roughness_ra": (None, 3.2)}, {**{n: (v, v) for n, v in best.chosen.items()}, name: (value, value)}, minimise="cost")
            assert pinned.objective <= best.objective * 1.0101
    assert best.flat_to["surface_speed"] > 1.05 * best.chosen["surface_speed"]


def test_a_machine_joins_its_limits_and_its_curve():
    best = turning(minimise="time", machine=LATHE)
    assert "motor_power" in best.binding
    assert best.lower_bound <= best.objective == pytest.approx(best.lower_bound, rel=2e-7)
    fits = shop.limit_to_machine(
        shop.turning_cut, LATHE, spindle_speed=best.cut.spindle_speed * (1 - 1e-9),
        **{name: value * (1 - 1e-9) if name == "feed_per_revolution" else value for name, value in best.arguments.items() if name != "surface_speed"},
    )
    assert fits.fits and not fits.bounds


def test_both_unit_systems_choose_the_same_cut():
    inch = tenths.inch.best_cut(
        tenths.inch.turning_cut_for_target, {"surface_speed": ("10 m/min", "500 m/min"), "feed_per_revolution": ("0.05 mm", "0.6 mm")},
        {"motor_power": (None, "7.5 kW"), "roughness_ra": (None, "3.2 µm")}, minimise="cost", rates=TURNING["rates"],
        tool_life={"taylor_c": "300 m/min", "taylor_n": 0.25, "feed_exponent": 0.35}, workpiece_diameter="80 mm", depth="3 mm",
        travel="250 mm", nose_radius="1.2 mm", kc11="1700 MPa", mc=0.25,
    )
    metric = turning({"motor_power": (None, 7.5), "roughness_ra": (None, 3.2)}, minimise="cost")
    assert inch.objective == pytest.approx(metric.objective, rel=1e-8)
    assert inch.chosen["feed_per_revolution"] * 25.4 == pytest.approx(metric.chosen["feed_per_revolution"], rel=1e-7)


def test_objectives_by_name_by_sum_and_by_function():
    limits = {"motor_power": (None, 30), "roughness_ra": ("1 µm", "6.3 µm")}
    time, edges = turning(limits, minimise="time"), turning(limits, minimise="edge_use")
    both = turning(limits, minimise={"time": 1.0, "edge_use": 5.0})
    assert both.objective <= time.objective + 5 * time.figures["edge_use"]
    assert edges.figures["edge_use"] < both.figures["edge_use"] < time.figures["edge_use"]
    most = turning(limits, maximise="removal_rate")
    assert most.objective == most.cut.removal_rate <= most.lower_bound == pytest.approx(most.objective, rel=1e-8)
    own = turning(limits, minimise=lambda figures: figures["time"] + 5 * figures["edge_use"])
    assert own.lower_bound is None
    assert turning(limits, maximise=lambda figures: figures["removal_rate"]).objective == pytest.approx(most.objective, rel=1e-3)
    with pytest.raises(ZeroDivisionError):
        turning(limits, minimise=lambda figures: 1 / 0)


def test_own_laws_limit_the_cut():
    best = turning({"deflection": (None, 0.03)}, minimise="cost", laws={"deflection": (2e-5, {"cutting_force": 1})})
    assert best.figures["deflection"] == pytest.approx(0.03) and best.binding == ("deflection",)
    assert best.cut.cutting_force == pytest.approx(1500)


def test_the_cut_that_a_shop_would_set():
    best = turning(
        {"motor_power": (None, 7.5)}, minimise="cost",
        steps={"spindle_speed": [280, 355, 450, 560], "feed_per_revolution": [0.2, 0.25, 0.315, 0.4, 0.5]},
    )
    spindle = best.set["surface_speed"] * 1000 / (math.pi * 80)
    assert min(abs(spindle - step) for step in (280, 355, 450, 560)) < 1e-6
    assert best.set["feed_per_revolution"] in (0.2, 0.25, 0.315, 0.4, 0.5)
    assert best.set_objective >= best.objective


MILLING = {"cutter_diameter": 20, "teeth": 4, "kc11": 1700, "mc": 0.25}


def test_milling_and_drilling():
    milled = shop.best_cut(
        shop.milling_cut, {"spindle_speed": (500, 8000), "chip_load": (0.02, 0.2), "radial_width": (1, 20)},
        {"motor_power": (None, 4), "chip_thickness_max": (None, 0.12)}, maximise="removal_rate", axial_depth=6, **MILLING,
    )
    # Of a width it is only known that power and chip rise with it, so that the bound is less close.
    assert milled.cut.motor_power <= 4 * (1 + 1e-9)
    assert milled.objective <= milled.lower_bound == pytest.approx(milled.objective, rel=1e-3)
    costed = shop.best_cut(
        shop.milling_cut, {"spindle_speed": (500, 8000), "chip_load": (0.02, 0.2)}, {"motor_power": (None, 4)}, minimise="cost",
        volume=50, rates=TURNING["rates"], tool_life={"taylor_c": 250, "taylor_n": 0.2}, radial_width=10, axial_depth=6, **MILLING,
    )
    assert costed.figures["time"] == pytest.approx(50 / costed.cut.removal_rate)
    drilled = shop.best_cut(
        shop.drilling_cut, {"spindle_speed": (200, 6000), "feed_per_revolution": (0.05, 0.4)}, {"thrust": (None, 3000)}, minimise="cost",
        rates=TURNING["rates"], tool_life={"taylor_c": 40, "taylor_n": 0.15}, diameter=12, depth=30, kc11=1700, mc=0.25,
    )
    assert drilled.cut.thrust == pytest.approx(3000) or "feed_per_revolution" in drilled.binding
    with pytest.raises(tenths.DomainError, match="no depth of cut"):
        shop.best_cut(
            shop.drilling_cut, {"spindle_speed": (200, 6000)}, minimise="cost", rates=TURNING["rates"], feed_per_revolution=0.2,
            tool_life={"taylor_c": 40, "taylor_n": 0.15, "depth_exponent": 0.1}, diameter=12, depth=30, kc11=1700, mc=0.25,
        )


def test_contradictory_limits_say_what_would_help():
    with pytest.raises(tenths.DomainError) as raised:
        turning({"roughness_ra": (None, 6.3), "motor_power": (None, 5), "removal_rate": (200, None)}, minimise="cost")
    text = str(raised.value)
    assert "motor_power at most 5 kW" in text and "removal_rate at least 200 cm³/min" in text and "roughness" not in text
    helped = float(text.split("removal_rate at least ")[2].split()[0])
    limits = {"roughness_ra": (None, 6.3), "motor_power": (None, 5)}
    turning({**limits, "removal_rate": (helped, None)}, minimise="cost")
    with pytest.raises(tenths.DomainError, match="cannot hold together"):
        turning({**limits, "removal_rate": (helped * 1.001, None)}, minimise="cost")


@pytest.mark.parametrize(
    "limits, options, said",
    [
        ({"moter_power": (None, 5)}, {}, "`moter_power`"),
        ({"motor_power": 5}, {}, "two numbers"),
        ({"motor_power": (5, 1)}, {}, "above its greatest"),
        ({"motor_power": (None, -1)}, {}, "greater than 0, not -1"),
        ({"motor_power": (None, math.nan)}, {}, "NaN"),
        ({}, {"rates": {"hourly": 5}}, "rates has no 'hourly'"),
        ({}, {"rates": None}, "give rates"),
        ({}, {"tool_life": None}, "give tool_life"),
        ({}, {"tool_life": {"taylor_c": 300}}, "needs taylor_n"),
        ({}, {"tool_life": {"taylor_c": 300, "taylor_n": 0}}, "taylor_n must be greater than 0"),
        ({}, {"rates": {"hourly_rate": -1}}, "hourly_rate must be 0 or more"),
        ({}, {"depth": 60}, "half the workpiece_diameter"),
        ({}, {"deptt": 3}, "no argument 'deptt'"),
        ({}, {"surface_speed": 100}, "chosen and given"),
        ({}, {"volume": 5}, "has a time"),
        ({}, {"minimise": {}}, "sum to minimise is empty"),
        ({}, {"minimise": {"cost": -1}}, "greater than 0, not -1"),
        ({}, {"minimise": None}, "minimise or maximise"),
        ({}, {"steps": {"roughness_ra": [1]}}, None),
        ({}, {"steps": {"time": [1]}}, "no chosen argument alone"),
        ({}, {"laws": {"time": (1, {})}}, "name of its own"),
        ({}, {"laws": {"x": (0, {})}}, "greater than 0, not 0"),
        ({}, {"machine": shop.Machine(least_spindle_speed=50, greatest_spindle_speed=3000, curve=[{"spindle_speed": 1000, "power": 0}])}, "power"),
    ],
)
def test_what_cannot_be_is_refused_in_words(limits, options, said):
    if said is None:
        assert turning(limits, **{"minimise": "cost", **options}).set
        return
    with pytest.raises((tenths.DomainError, TypeError), match=said):
        turning(limits, **{"minimise": "cost", **options})


def test_choices_that_cannot_be_are_refused():
    for choose, said in [
        ({"surface_speed": (500, 10)}, "the lower first"),
        ({"speed": (10, 500)}, "no argument 'speed'"),
        ({}, "at least one argument"),
        ({"surface_speed": "fast"}, "two numbers"),
        ({"surface_speed": (-5, 100)}, None),
    ]:
        given = {} if "feed_per_revolution" in choose else {"feed_per_revolution": 0.2}
        given |= {} if "surface_speed" in choose else {"surface_speed": 100}
        if said is None:
            assert turning(None, choose, minimise="cost", **given).chosen["surface_speed"] > 0
            continue
        with pytest.raises((tenths.DomainError, TypeError), match=said):
            turning(None, choose, minimise="cost", **given)
    with pytest.raises(ValueError, match="tenths.inch"):
        shop.best_cut(tenths.inch.turning_cut_for_target, CHOOSE, minimise="cost")


def test_counts_and_listed_values_are_all_tried():
    given = {"axial_depth": 8, "radial_width": 6, "volume": 40, "rates": TURNING["rates"], "tool_life": {"taylor_c": 250, "taylor_n": 0.2}}
    given |= {name: value for name, value in MILLING.items() if name != "teeth"}
    choose, limits = {"spindle_speed": (500, 6000), "chip_load": (0.03, 0.15)}, {"motor_power": (None, 5), "feed_rate": (None, 1500)}
    alone = {teeth: shop.best_cut(shop.milling_cut, choose, limits, minimise="cost", teeth=teeth, **given).objective for teeth in (2, 3, 4, 5)}
    for teeth in ([2, 3, 4, 5], range(2, 6), numpy.array([5, 4, 3, 2]), (2, 5)):
        best = shop.best_cut(shop.milling_cut, {**choose, "teeth": teeth}, limits, minimise="cost", **given)
        assert best.objective == min(alone.values()) == alone[best.chosen["teeth"]]
        assert best.lower_bound <= best.objective == pytest.approx(best.lower_bound, rel=1e-8)
    # A larger nose gives the same roughness at a faster feed.
    rough = turning({"roughness_ra": (None, 1.6)}, {**CHOOSE, "nose_radius": ["0.4 mm", 0.8, 1.6]}, minimise="cost")
    assert rough.chosen["nose_radius"] == 1.6 and pickle.loads(pickle.dumps(rough)) == rough
    own = turning({"roughness_ra": (None, 1.6)}, {**CHOOSE, "nose_radius": [0.4, 1.6]}, minimise=lambda figures: figures["time"] + 5 * figures["edge_use"])
    assert own.chosen["nose_radius"] == 1.6
    # A spindle with steps, where its speed is an argument.
    stepped = shop.best_cut(shop.milling_cut, {"spindle_speed": [800, 1250, 2000], "teeth": [3, 4]}, limits, minimise="cost", chip_load=0.1, **given)
    assert stepped.chosen["spindle_speed"] in (800, 1250, 2000) and list(stepped.chosen) == ["spindle_speed", "teeth"]
    with pytest.raises(tenths.DomainError, match="no whole number from 2.2 to 2.8"):
        shop.best_cut(shop.milling_cut, {**choose, "teeth": (2.2, 2.8)}, minimise="cost", **given)
    with pytest.raises(tenths.DomainError, match="teeth"):
        shop.best_cut(shop.milling_cut, {**choose, "teeth": [2.5]}, minimise="cost", **given)
    with pytest.raises(tenths.DomainError, match="at least one"):
        turning(choose={**CHOOSE, "depth": []}, minimise="cost")
    with pytest.raises(TypeError, match="a list of values to choose from"):
        turning(choose={**CHOOSE, "depth": (1, 2, 3)}, minimise="cost")


def test_unknowns_of_the_caller_are_chosen_too():
    laws = {"falling": (8, {"x": -1}), "rising": (2, {"x": 1})}
    given = {"laws": laws, "unknowns": {"x": (0.001, 1000)}, "minimise": {"falling": 1, "rising": 1}}
    best = turning(None, {"feed_per_revolution": (0.1, 0.2)}, surface_speed=100, **given)
    assert best.objective == pytest.approx(8) and best.chosen["x"] == pytest.approx(2, rel=1e-3)
    bound = turning({"x": (4, None)}, {}, surface_speed=100, feed_per_revolution=0.2, **given)
    assert bound.binding == ("x",) and bound.prices["x"] == pytest.approx(1.5)
    for unknowns, said in [({"depth": (1, 2)}, "a name of its own"), ({"x": (0, 2)}, "above 0"), ({"x": 3}, "two numbers")]:
        with pytest.raises((tenths.DomainError, TypeError), match=said):
            turning(None, CHOOSE, minimise="cost", unknowns=unknowns)


def test_passes_make_up_the_stock_and_no_other_depths_cost_less():
    given = {name: value for name, value in TURNING.items() if name != "depth"}
    rough = {"choose": {"surface_speed": (50, 300), "feed_per_revolution": (0.1, 0.5)}, "limits": {"motor_power": (None, 7.5)}}
    finish = {"choose": {"surface_speed": (50, 400), "feed_per_revolution": (0.05, 0.3)}, "limits": {"roughness_ra": (None, 1.6)}}
    passes = {"rough_depths": (1, 3), "finish_depths": (0.5, 1), "step": 0.5, "pass_time": 0.2}
    best = shop.best_passes(shop.turning_cut_for_target, 5, rough=rough, finish=finish, **passes, minimise="cost", **given)
    assert sum(one.depth for one in best.passes) == pytest.approx(5) and best.passes[-1].finishing

    def value(cut, depth, off):
        one = shop.best_cut(shop.turning_cut_for_target, minimise="cost", **{**given, **cut, "depth": depth, "workpiece_diameter": 80 - 2 * off})
        return one.objective + 0.8 * 0.2

    def least(off):
        left = 5 - off
        ways = [value(finish, left, off)] if left in (0.5, 1.0) else []
        ways += [value(rough, d, off) + least(off + d) for d in (1.0, 1.5, 2.0, 2.5, 3.0) if d < left and left - d >= 0.5]
        return min(ways, default=math.inf)

    assert best.objective == pytest.approx(least(0.0), rel=1e-8)
    bored = shop.best_passes(shop.turning_cut_for_target, 5, rough=rough, finish=finish, **passes, minimise="cost", diameter="rises", **given)
    assert bored.passes[0].arguments["workpiece_diameter"] == pytest.approx(80 + 2 * bored.passes[0].depth)
    faced = shop.best_passes(shop.turning_cut_for_target, 5, rough=rough, **passes, minimise="time", diameter="stays", equal=True, **given)
    assert len({one.depth for one in faced.passes}) == 1 and not faced.passes[-1].finishing
    with pytest.raises(tenths.DomainError, match="make up a stock"):
        shop.best_passes(shop.turning_cut_for_target, 5, rough=rough, finish=finish, **{**passes, "rough_depths": (4.9, 4.95)}, minimise="cost", **given)
    assert pickle.loads(pickle.dumps(best)) == best


def test_many_cuts_are_the_same_on_any_number_of_threads():
    rows = [{"workpiece_diameter": d, "kc11": k} for d in (20, 50, 100, 1) for k in (700, 1700, 2600)]
    common = {name: value for name, value in TURNING.items() if name not in ("workpiece_diameter", "kc11")}
    one, four = (
        shop.best_cuts(shop.turning_cut_for_target, rows, choose=CHOOSE, limits={"motor_power": (None, 5)}, minimise="cost", threads=n, **common)
        for n in (1, 4)
    )
    assert one == four and len(one) == 12
    costs = [cut.objective if cut else math.inf for cut in one]
    assert one.best_row == costs.index(min(costs))
    assert one[9] is None and "half the workpiece_diameter" in one.reasons[9]
    assert one[4] == shop.best_cut(shop.turning_cut_for_target, CHOOSE, {"motor_power": (None, 5)}, minimise="cost", **common, **rows[4])
    with pytest.raises(ValueError, match="threads"):
        shop.best_cuts(shop.turning_cut_for_target, rows, choose=CHOOSE, minimise="cost", threads=0, **common)


def test_a_stable_depth_is_a_limit_like_any_other():
    stability = shop.stability([(600, 8000, 0.03)], 2200)
    choose = {"surface_speed": (150, 300), "depth": (0.2, 5)}
    given = {"minimise": None, "maximise": "removal_rate", "feed_per_revolution": 0.2}
    best = turning(choose=choose, stability=stability, **given)
    assert best.binding == ("stable_depth",) and best.prices["stable_depth"] > 0
    assert best.chosen["depth"] == pytest.approx(stability.depth(best.cut.spindle_speed), rel=1e-6)
    # No faster cut on a grid is stable at a depth that removes more.
    for speed in numpy.linspace(150, 300, 1500):
        depth = min(5, stability.depth(shop.spindle_speed(speed, 80)))
        assert 1000 * speed * 0.2 * depth <= best.lower_bound * 1000 * (1 + 1e-6)
    # A depth that is fixed leaves the speeds at which it is stable.
    deep = stability.deepest(600, 1200).depth
    only = turning({"spindle_speed": (600, 1200)}, CHOOSE | {"feed_per_revolution": (0.1, 0.2)}, minimise="cost", depth=0.98 * deep, stability=stability)
    assert stability.depth(only.cut.spindle_speed) >= 0.98 * deep * (1 - 1e-9)
    with pytest.raises(ValueError, match="stable_depth at most"):
        turning({"spindle_speed": (600, 1200)}, CHOOSE, minimise="cost", depth=1.2 * deep, stability=stability)
    with pytest.raises(TypeError, match=r"stability must be a Stability, as metric\.stability gives it, not list"):
        turning(stability=[(600, 8000, 0.03)])


@pytest.mark.libraries
def test_a_frame_of_rows_gives_a_frame():
    pandas = pytest.importorskip("pandas")
    rows = pandas.DataFrame({"workpiece_diameter": [20, 80], "depth": [1, 3]}, index=["pin", "bar"])
    common = {name: value for name, value in TURNING.items() if name not in rows}
    made = shop.best_cuts(shop.turning_cut_for_target, rows, choose=CHOOSE, minimise="cost", **common).to_frame()
    assert list(made.index) == ["pin", "bar"] and made.loc["bar", "surface_speed"] > 0


def test_the_spread_follows_the_scatter_of_the_trials():
    tight = shop.fit_taylor([100, 150, 200, 250, 300], [60.5, 21.2, 10.1, 5.61, 3.4])
    loose = shop.fit_taylor([100, 150, 200, 250, 300], [60, 25, 8, 6.5, 2.5])
    given = {name: value for name, value in TURNING.items() if name != "tool_life"}
    spread = {}
    for name, fit in (("tight", tight), ("loose", loose)):
        call = {"choose": CHOOSE, "limits": {"roughness_ra": (None, 3.2)}, "minimise": "cost", "tool_life": fit}
        spread[name] = shop.best_cut_spread(shop.turning_cut_for_target, **call, samples=400, **given)
        assert spread[name] == shop.best_cut_spread(shop.turning_cut_for_target, **call, samples=400, threads=3, **given)
        best = shop.best_cut(shop.turning_cut_for_target, **call, **given)
        assert spread[name].chosen_low["surface_speed"] < best.chosen["surface_speed"] < spread[name].chosen_high["surface_speed"]
    wide = {name: one.chosen_high["surface_speed"] - one.chosen_low["surface_speed"] for name, one in spread.items()}
    assert wide["loose"] > 2 * wide["tight"] and spread["loose"].mean_loss > spread["tight"].mean_loss > 0


EXAMPLES = Path(__file__).parents[2] / "examples" / "python"


def test_the_example_runs(capsys):
    runpy.run_path(str(EXAMPLES / "best_cut.py"), run_name="__main__")
    told = capsys.readouterr().out
    assert "proven: no cut costs less" in told and "the last to finish" in told and "Fix: allow removal_rate at least" in told


@pytest.mark.libraries
def test_the_notebook_runs():
    pytest.importorskip("pandas")
    cells = json.loads((EXAMPLES / "best_cut.ipynb").read_text(encoding="utf-8"))["cells"]
    names = {}
    for cell in cells:
        if cell["cell_type"] == "code":
            exec("".join(cell["source"]), names)
    costs = [cut.objective for cut in names["table"]]
    assert costs == sorted(costs, reverse=True) and costs[2] == names["best"].objective
    assert "stable_depth" in names["deep"].binding
    assert names["spread"].chosen_low["surface_speed"] <= names["best"].chosen["surface_speed"] <= names["spread"].chosen_high["surface_speed"]


def test_any_mapping_will_do_where_a_dict_is_read():
    limits, frozen = {"tool_life": (10, None)}, MappingProxyType
    given = {**TURNING, "rates": frozen(TURNING["rates"]), "tool_life": frozen(TURNING["tool_life"])}
    (row,) = shop.best_cuts(shop.turning_cut_for_target, [frozen({"limits": frozen(limits)})], choose=frozen(CHOOSE), minimise="cost", **given)
    assert row == turning(limits, minimise="cost")
    weights = {"motor_power": 1.0, "cutting_force": 0.5}
    assert turning(limits, minimise=frozen(weights)) == turning(limits, minimise=weights)

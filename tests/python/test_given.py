"""Counts, decimals and mappings: what stands for a number or a dict is taken wherever one is, and a refusal says so in words."""

import types
from collections.abc import Mapping
from decimal import Decimal

import numpy
import pytest

import tenths
from tenths import inch, metric

PLAN = tenths.Plan.from_json(open("examples/plans/roller_axle.json", encoding="utf-8").read())
STACK = metric.Stack().add("length", "20 ±0.1 mm").add("groove", "5 +0.05/-0 mm", sensitivity=-1)
MOVES = metric.surface_speed.propagate(diameter=(50.0, 0.1, -0.1), spindle_speed=1000)
CUT = {
    "choose": {"surface_speed": (10, 500), "feed_per_revolution": (0.05, 0.5)}, "minimise": "cost", "workpiece_diameter": 80, "travel": 250,
    "nose_radius": 1.2, "kc11": 1700, "mc": 0.25, "rates": {"hourly_rate": 60, "edge_cost": 2}, "depth": 2,
}  # fmt: skip
LIFE = {"taylor_c": 300, "taylor_n": 0.25}
FIT = metric.fit_taylor([100, 150, 200, 250], [60, 21, 10, 5.5])
TURN = metric.turning_cut_for_target
VARYING = {"/bar/bar_length": "3000 ±10 mm"}
SPEED = {"diameter": tenths.Estimate(50, 0.1), "spindle_speed": (800, 5, -5)}
BARS = ([("1 m", 2)], ["6 m"])


def spread(**given):
    return metric.best_cut_spread(TURN, tool_life=FIT, **{"samples": 2, **CUT, **given})


# A call for each count that a function takes: of the count, which 2 suits.
COUNTS = {
    "Stack.sample n": lambda n: STACK.sample(n, 1),
    "Stack.sample seed": lambda n: STACK.sample(2, n),
    "Stack.sample threads": lambda n: STACK.sample(2, 1, threads=n),
    "Stack.sample_blocks first": lambda n: STACK.sample_blocks(n, 1, n=100_000, seed=1),
    "Stack.sample_blocks count": lambda n: STACK.sample_blocks(0, n, n=100_000, seed=1),
    "Stack.add count": lambda n: metric.Stack().add("plate", "2 ±0.1 mm", count=n),
    "Propagation.sample n": lambda n: MOVES.sample(n, 1),
    "Propagation.sample threads": lambda n: MOVES.sample(2, 1, threads=n),
    "Plan.quote quantities": lambda n: PLAN.quote(n),
    "Plan.quote a quantity": lambda n: PLAN.quote([n]),
    "Plan.break_even up_to": lambda n: PLAN.break_even(PLAN, n),
    "Plan.compare_routings quantity": lambda n: PLAN.compare_routings(n, 3),
    "Plan.compare_routings up_to": lambda n: PLAN.compare_routings(3, n),
    "Plan.price_range quantity": lambda n: PLAN.price_range(n, VARYING, 2),
    "Plan.price_range n": lambda n: PLAN.price_range(2, VARYING, n),
    "Plan.price_range seed": lambda n: PLAN.price_range(2, VARYING, 2, n),
    "Plan.price_range threads": lambda n: PLAN.price_range(2, VARYING, 2, threads=n),
    "Plan.price_drivers quantity": lambda n: PLAN.price_drivers(n),
    "Plan.economic_lot annual_demand": lambda n: PLAN.economic_lot(n, 0.2),
    "Plan.propagate n": lambda n: PLAN.propagate(VARYING, n),
    "Plan.propagate seed": lambda n: PLAN.propagate(VARYING, 2, n),
    "Plan.propagate threads": lambda n: PLAN.propagate(VARYING, 2, threads=n),
    "uncertainty_budget seed": lambda n: tenths.uncertainty_budget(metric.surface_speed, SPEED, samples=1000, seed=n),
    "uncertainty_budget threads": lambda n: tenths.uncertainty_budget(metric.surface_speed, SPEED, samples=1000, threads=n),
    "round_money decimals": lambda n: tenths.round_money("32.065", n),
    "start_quantities good": lambda n: tenths.start_quantities(n, [0.03]),
    "quantity_breaks": lambda n: tenths.quantity_breaks([(1, 14.2), (n, 11.75)]),
    "sampling_plan lot": lambda n: tenths.sampling_plan(n, 1.0),
    "chart_constants n": lambda n: tenths.chart_constants(n),
    "average_run_length size": lambda n: tenths.average_run_length("xbar_r", 1.0, size=n),
    "cutting_plan threads": lambda n: tenths.cutting_plan(*BARS, threads=n),
    "cutting_plan pieces": lambda n: tenths.cutting_plan([("1 m", n)], ["6 m"]),
    "cutting_plan work_limit": lambda n: tenths.cutting_plan(*BARS, work_limit=n),
    "shared_cutting_plan threads": lambda n: tenths.shared_cutting_plan({"A": BARS[0]}, BARS[1], threads=n),
    "first_article pieces": lambda n: tenths.first_article(PLAN, {1: 144}, pieces=n),
    "stability teeth": lambda n: metric.stability([(500, 10000, 0.05)], 2000, n, entry_angle=0, exit_angle=90),
    "best_cuts threads": lambda n: metric.best_cuts(TURN, [{}], tool_life=LIFE, threads=n, **CUT),
    "best_cut_spread samples": lambda n: spread(samples=n),
    "best_cut_spread seed": lambda n: spread(seed=n),
    "best_cut_spread threads": lambda n: spread(threads=n),
}


@pytest.mark.parametrize("name", COUNTS)
def test_a_count_is_any_whole_number_and_nothing_else(name):
    call = COUNTS[name]
    made = call(2)
    for same in (numpy.int16(2), Decimal(2), Decimal("2.0")):
        assert call(same) == made
    with pytest.raises(ValueError, match="must be (a whole number, zero or more|1 or more, or None .*), not -1"):
        call(-1)
    for odd in (2.5, Decimal("2.5"), Decimal("nan"), "2", True, [2]):
        if not (isinstance(odd, list) and name == "Plan.quote quantities"):
            with pytest.raises(TypeError, match="must be (a )?whole number"):
                call(odd)


@pytest.mark.parametrize("name", COUNTS)
def test_a_count_beyond_what_is_counted_is_no_overflow(name):
    for far in (2**63, 2**64, 10**30):
        try:
            COUNTS[name](far)
        except ValueError as refused:
            assert str(refused)


def test_sizes_out_of_range_are_refused_in_words():
    for far in (2**63, -(10**30)):
        with pytest.raises(tenths.DomainError, match="a size lies within"):
            tenths.Size("1 mm") * far


def frozen(given):
    """A mapping that is no dict, all through."""
    if isinstance(given, dict):
        return types.MappingProxyType({name: frozen(value) for name, value in given.items()})
    return given


LOOP = metric.VectorLoop().unknown("x", 50.0).unknown("phi", 60.0).link("x", 0).link("a", 90).link("b", "180 + phi")
CURVE = tenths.CostCurve.reciprocal(1.0, 0.1, least=0.001)
MAPPINGS = {
    "propagate": (lambda given: metric.propagate(metric.surface_speed, given), {"diameter": (50, 0.1, -0.1), "spindle_speed": 800}),
    "uncertainty_budget": (lambda given: tenths.uncertainty_budget(metric.surface_speed, given), SPEED),
    "freedom": (lambda given: tenths.uncertainty_budget(metric.surface_speed, SPEED, freedom=given), {"spindle_speed": 5}),
    "correlations": (
        lambda given: metric.surface_speed.propagate(diameter=(50, 1, -1), spindle_speed=(800, 5, -5), correlations=given),
        {("diameter", "spindle_speed"): Decimal("0.5")},
    ),
    "allocate": (lambda given: STACK.allocate(given, rss=0.05), {"length": CURVE, "groove": CURVE}),
    "Plan.propagate": (lambda given: PLAN.propagate(given, 3), {"/bar/bar_length": {"limits": "3000 ±10 mm"}}),
    "Plan.price_range": (lambda given: PLAN.price_range(3, given, 3), {"/bar/bar_length": (Decimal(3000), Decimal(10), -10)}),
    "Plan.from_json standards": (
        lambda given: tenths.Plan.from_json(PLAN.to_json(), standards=given),
        {"tenths_standards": 1, "units": "metric"},
    ),
    "VectorLoop.solve": (LOOP.solve, {"a": 30, "b": Decimal(60)}),
    "VectorLoop.propagate": (lambda given: LOOP.propagate("x", given), {"a": (30, 0.1, -0.1), "b": 60}),
    "Stack.from_dict": (tenths.Stack.from_dict, STACK.to_dict()),
    "Distribution.from_dict": (tenths.Distribution.from_dict, {"name": "triangular", "mode": Decimal("0.5")}),
}


@pytest.mark.parametrize("name", MAPPINGS)
def test_any_mapping_is_a_dict(name):
    call, given = MAPPINGS[name]
    assert isinstance(frozen(given), Mapping) and not isinstance(frozen(given), dict)
    assert call(frozen(given)) == call(given)


def test_rates_are_any_mapping_with_decimals():
    plan = tenths.draft_plan(
        units="metric", material="SAE 1045", quantity=Decimal(4), features=[frozen({"kind": "step", "diameter": "30 h9", "length": Decimal("25.5")})]
    )
    machines = [{"name": "lathe", "rate": Decimal("62.50")}]
    work = [{"kinds": ["saw", "face", "turn", "deburr", "inspect"], "machine": "lathe", "setup": 10}]
    rates = {"currency": "EUR", "machines": machines, "operations": work, "material": {"price_per_mass": Decimal("1.9")}, "margin": 0.2}
    made = plan.quote([1, 40], rates)
    assert plan.quote([1, Decimal(40)], frozen(rates)) == made
    assert plan.quote([numpy.int64(1), 40], {**rates, "machines": [frozen(machines[0])], "margin": numpy.float64(0.2)}) == made


@pytest.mark.parametrize("given", [[("diameter", 50)], "diameter", 5, None])
def test_what_is_no_mapping_is_refused(given):
    with pytest.raises(TypeError, match="expected a dict or another mapping"):
        tenths.uncertainty_budget(metric.surface_speed, given)


def test_decimals_stand_for_numbers():
    half = Decimal("0.5")
    assert inch.surface_speed(half, Decimal(1500)) == inch.surface_speed(0.5, 1500)
    assert inch.surface_speed([half, 1], 1500).tolist() == inch.surface_speed([0.5, 1], 1500).tolist()
    assert tenths.Distribution.normal(cp=Decimal("1.33")) == tenths.Distribution.normal(cp=1.33)
    assert STACK.rss().tolerance == metric.Stack().add("length", Decimal(20), Decimal("0.1"), Decimal("-0.1")).add(
        "groove", Decimal(5), Decimal("0.05"), 0, sensitivity=Decimal(-1)
    ).rss().tolerance
    assert tenths.start_quantities(100, [Decimal("0.03")]) == tenths.start_quantities(100, [0.03])
    assert metric.surface_speed.solve_for("diameter", Decimal(200), spindle_speed=Decimal(1500)) == metric.surface_speed.solve_for(
        "diameter", 200, spindle_speed=1500
    )

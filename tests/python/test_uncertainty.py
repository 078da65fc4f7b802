"""Uncertainty of measurement: the figures of tests/published/uncertainty.csv, and what the objects do."""

import math
import pathlib
import pickle

import numpy
import pytest

import tenths
from tenths import Decision, Distribution, DomainError, Estimate, Size, metric, uncertainty_budget

FILE = pathlib.Path(__file__).parent.parent / "published" / "uncertainty.csv"
LINES = [line.split(";") for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith("# ")]


def input_of(value, law, spread):
    if law == "normal":
        return Estimate(value, spread)
    return value, spread, -spread, Distribution.beta(0.5, 0.5) if law == "arcsine" else law


def end_gauge(standard, d1, d2, d3, difference, mean, cyclic, alpha, temperature):
    return standard + d1 + d2 + d3 - standard * (difference * (mean + cyclic) + alpha * temperature)


def model_of(name):
    if name == "end_gauge":
        return end_gauge
    if name == "resistance":
        return lambda volt, ampere, phase: volt * numpy.cos(phase) / ampere
    weights = [float(weight) for weight in name.split(" ")]
    return lambda *columns: sum(weight * column for weight, column in zip(weights, columns, strict=True))


def figure_of(name, coverage, correlations, inputs, quantity):
    if name == "readings":
        return getattr(Estimate.of_readings([float(reading) for reading in inputs.split(" ")]), quantity)
    words = [text.split(" ") for text in inputs.split(",")]
    given = {word: input_of(float(value), law, float(spread)) for word, value, law, spread, _ in words}
    freedom = {word: float(number) for word, _, _, _, number in words}
    pairs = [text.split(" ") for text in correlations.split(",") if text]
    pairs = {(one, other): float(coefficient) for one, other, coefficient in pairs} or None
    budget = uncertainty_budget(model_of(name), given, float(coverage), freedom=freedom, correlations=pairs)
    what, colon, row = quantity.partition(":")
    if colon:
        field = {"u": "standard_uncertainty", "part": "contribution"}[what]
        return next(getattr(one, field) for one in budget.rows if one.name == row)
    return getattr(budget, quantity)


def test_published_budgets():
    assert len(LINES) >= 35
    for *given, figure, _seen, _source in LINES:
        got, within = figure_of(*given), 0.5 * 10.0 ** -len(figure.partition(".")[2])
        assert abs(got - float(figure)) <= max(within, 1e-8 * abs(float(figure))) * (1 + 1e-9), (given, got)


def test_a_formula_is_a_model():
    inputs = {"diameter": Estimate(50, 0.004, 9), "spindle_speed": (800, 5, -5, "uniform")}
    budget = uncertainty_budget(metric.surface_speed, inputs, freedom={"spindle_speed": 50})
    # By hand: both are factors of the result, so relative uncertainties add.
    relative = math.hypot(0.004 / 50, 5 / math.sqrt(3) / 800)
    assert budget.value == pytest.approx(metric.surface_speed(50, 800), rel=1e-12)
    assert budget.combined == pytest.approx(budget.value * relative, rel=1e-9)
    assert (budget.unit, budget.output, budget.for_decision) == ("m/min", "surface_speed", None)
    assert [row.degrees_of_freedom for row in budget.rows] == [9, 50]
    assert sum(row.share for row in budget.rows) == pytest.approx(100)
    assert "diameter" in budget._repr_html_()
    assert budget == pickle.loads(pickle.dumps(budget))


def test_a_decision_takes_a_budget():
    inputs = {"reading": Estimate.of_readings([10.003, 10.001, 10.004]), "certificate": Estimate.of_certificate(0, 0.002)}
    budget = uncertainty_budget(lambda reading, certificate: reading + certificate, inputs, unit="mm")
    # By hand: the readings have a variance of 7/3 μm², and their mean 7/9; the certificate has 1 μm². The effective degrees
    # of freedom are (16/9)² / ((7/9)² / 2) = 512/49. Student's factor of 10 for 95.45 percent, by scipy, is 2.283678.
    assert budget.combined == pytest.approx(0.004 / 3, rel=1e-9)
    assert budget.effective_freedom == pytest.approx(512 / 49, rel=1e-9)
    assert budget.for_decision == Size("0.003044905 mm")
    decision = Decision("10..10.1 mm", budget)
    assert decision == Decision("10..10.1 mm", budget.for_decision)
    speed = uncertainty_budget(metric.surface_speed, {"diameter": Estimate(50, 0.1), "spindle_speed": 800})
    with pytest.raises(DomainError, match="not in mm or in"):
        Decision("10..10.1 mm", speed)


def test_a_model_is_sampled():
    inputs = {name: (0, math.sqrt(3), -math.sqrt(3), "uniform") for name in "abcd"}
    budget = uncertainty_budget(lambda a, b, c, d: a + b + c + d, inputs, samples=200_000, seed=3)
    sample = budget.monte_carlo
    # JCGM 101:2008, 9.2.3, from memory.
    assert sample.shortest_upper == pytest.approx(3.88, abs=0.06) and sample.count == 200_000
    again = uncertainty_budget(lambda a, b, c, d: a + b + c + d, inputs, samples=200_000, seed=3, threads=2)
    assert again == budget
    normal = {name: Estimate(0, 1) for name in "abcd"}
    assert uncertainty_budget(lambda a, b, c, d: a + b + c + d, normal, samples=200_000).monte_carlo.agrees
    speed = {"diameter": Estimate(50, 0.1, 4), "spindle_speed": 800}
    one, two = (uncertainty_budget(metric.surface_speed, speed, samples=50_000, threads=n) for n in (1, 2))
    assert one == two and one.monte_carlo.seed == 1


@pytest.mark.libraries
def test_a_budget_is_a_frame_and_readings_may_be_a_series():
    import pandas

    budget = uncertainty_budget(metric.surface_speed, {"diameter": Estimate(50, 0.1), "spindle_speed": (800, 5, -5)})
    frame = budget.to_frame()
    assert isinstance(frame, pandas.DataFrame) and list(frame["name"]) == ["diameter", "spindle_speed"]
    readings = [10.003, 10.001, 10.004]
    assert Estimate.of_readings(pandas.Series(readings)) == Estimate.of_readings(readings)


def test_readings_of_any_kind():
    readings = [10.003, 10.001, 10.004]
    for kind in (numpy.array(readings), tuple(readings), numpy.ma.array(readings)):
        assert Estimate.of_readings(kind) == Estimate.of_readings(readings)
    masked = numpy.ma.array(readings, mask=[False, True, False])
    for bad, why in (
        (masked, "readings: reading 2 is masked. Fix: leave it out"),
        ([1.0], "1 reading shows no spread"),
        ([], "0 readings show no spread"),
        ([1, math.inf], "readings: reading 2 is inf. Fix: leave it out"),
        ([1, None, 2], "readings: reading 2 is NaN"),
    ):
        with pytest.raises(DomainError, match=why):
            Estimate.of_readings(bad)
    for bad, why in (([[1, 2], [3, 4]], "one row"), (["a", "b"], "must be numbers, not text")):
        with pytest.raises(TypeError, match=why):
            Estimate.of_readings(bad)


@pytest.mark.parametrize(
    ("options", "why"),
    [
        ({"coverage": 95}, "the coverage must be greater than 0 and less than 1, e.g. 0.95, not 95"),
        ({"freedom": {"c": 5}}, "freedom names `c`, which is not an input"),
        ({"freedom": {"a": 0}}, "degrees of freedom of `a` must be 1 or more"),
        ({"samples": 1 << 30}, "an interval needs every value of the sample"),
    ],
)
def test_refusals(options, why):
    with pytest.raises(DomainError) as raised:
        uncertainty_budget(lambda a, b: a - b, {"a": Estimate(1, 0.1), "b": Estimate(1, 0.1)}, **options)
    assert why in str(raised.value)


def test_a_formula_keeps_its_side():
    with pytest.raises(DomainError, match="a formula of tenths.inch in tenths.metric"):
        uncertainty_budget(tenths.inch.surface_speed, {"diameter": 2, "spindle_speed": 500}, units="metric")
    budget = uncertainty_budget(tenths.inch.surface_speed, {"diameter": Estimate(2, 0.01), "spindle_speed": 500})
    assert budget.unit == "ft/min"


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (lambda: Estimate(True, 1), "value must be a number, not True"),
        (lambda: Estimate(numpy.True_, 1), "value must be a number, not"),
        (lambda: Estimate("5", 1), "value must be a number, not '5'"),
        (lambda: Estimate(5, None), "standard_uncertainty must be a number, not None"),
        (lambda: Estimate(5, 1, "9"), "degrees_of_freedom must be a number, not '9'"),
        (lambda: Estimate.of_certificate(5, "0.1 mm"), "expanded must be a number, not '0.1 mm'"),
        (lambda: Estimate.of_certificate(5, 0.1, True), "coverage_factor must be a number, not True"),
        (lambda: uncertainty_budget(abs, {"x": Estimate(1, 0.1)}, coverage=True), "'coverage' must be one number, not bool"),
    ],
)
def test_what_is_not_a_number_is_refused_by_its_name(call, why):
    with pytest.raises(TypeError, match=why):
        call()


@pytest.mark.libraries
def test_an_estimate_takes_no_quantity():
    unit = pytest.importorskip("pint").UnitRegistry().mm
    with pytest.raises(TypeError, match="value must be a number, not .*5"):
        Estimate(5 * unit, 1)


def test_a_coverage_may_be_in_percent():
    inputs = {"x": Estimate(1, 0.1)}
    assert uncertainty_budget(abs, inputs, coverage="99 %") == uncertainty_budget(abs, inputs, 0.99)
    assert Estimate.of_certificate(1, 0.2) == Estimate.of_certificate(1, 0.2, 2) == Estimate(1, 0.1)


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (lambda: budget_of_two(freedom={"x": 50}), "freedom names `x`, which is an Estimate that has its own"),
        (lambda: budget_of_two(correlations={("x", "y"): 0.5, ("y", "x"): -0.5}), "correlations give `[xy]` and `[xy]` twice"),
        (lambda: budget_of_two(samples=999), "an interval needs 1000 samples or more, not 999"),
        (lambda: Estimate.of_certificate(0, 0.002, 95), "a coverage factor must be from 1 to 10, e.g. 2 for about 95 percent"),
    ],
)
def test_arguments_that_contradict_each_other_are_refused(call, why):
    with pytest.raises(tenths.DomainError, match=why):
        call()


def budget_of_two(**options):
    return uncertainty_budget(lambda x, y: x + y, {"x": Estimate(0, 1, 5), "y": Estimate(0, 1, 5)}, **options)


def test_a_function_in_inches_takes_sizes_in_inches():
    budget = uncertainty_budget(lambda x: x, {"x": "5 ±0.1 mm"}, unit="in")
    assert budget.value == pytest.approx(5 / 25.4)
    assert budget.rows[0].distribution == "normal"


def test_a_decision_takes_no_budget_of_a_model_that_bends():
    # The cosine of an angle about 0: the first order is blind to it.
    inputs = {"length": Estimate(100, 0.0005), "angle": Estimate(0, 0.02)}
    budget = uncertainty_budget(lambda length, angle: length * numpy.cos(angle), inputs, unit="mm", samples=20_000)
    assert budget.advice.startswith("The model bends") and budget.advice in str(budget)
    with pytest.raises(tenths.DomainError, match="The model bends .* Fix: give half of it as the uncertainty"):
        tenths.Decision("99.99..100.01 mm", budget)

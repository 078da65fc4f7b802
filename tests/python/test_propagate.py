"""Functions and formulas whose inputs vary: worked figures, every kind of input, and the objects."""

import functools
import json
import pickle
from types import MappingProxyType

import numpy as np
import pytest

import tenths
from tenths import Distribution, Fit, Limits, Size, inch, metric

HUB = dict(hub_modulus=210, hub_poisson=0.3, shaft_modulus=210, shaft_poisson=0.3, friction=0.12)


def clutch(hub, roller, ring):
    return np.degrees(np.arccos((hub + roller) / (ring - roller)))


def over_pins(width, pin, angle):
    return width + pin * (1 + 1 / np.tan(np.radians(angle) / 2))


def chord(diameter, angle):
    return diameter * np.sin(np.radians(angle) / 2)


def radius(chord, height):
    return chord**2 / (8 * height) + height / 2


CLUTCH = {"hub": (27.645, 0.0125, -0.0125), "roller": "11.43 ±0.01 mm", "ring": "50.8 ±0.0125 mm"}
# Function, inputs; nominal value, derivatives, least and greatest value, mean to the second order, mean and standard
# deviation of normal inputs by quadrature, percent of the variance. The clutch is the one-way clutch of J. Fortini,
# Dimensioning for Interchangeable Manufacture (1967), whose angle is printed as 7.0184°; the rest was computed with scipy.
# The others are handbook geometry, computed with scipy.
CASES = {
    "clutch": (
        clutch,
        CLUTCH,
        7.0183898033677,
        [-11.910472501133, -23.731699653325, 11.821227152192],
        (6.4621833636755, 7.5332639026118),
        (7.0175877685131, 7.017587084873, 0.10561988571074),
        [22.094936094504, 56.140002659303, 21.765061246193],
    ),
    "dovetail": (
        over_pins,
        {"width": "40 ±0.05 mm", "pin": Limits("10 ±0.005 mm"), "angle": "60 ±0.1 deg"},
        67.320508075689,
        [1.0, 2.7320508075689, -0.34906585039887],
        (67.222011336389, 67.419145244526),
        (67.320513938054, 67.320513938059, 0.020830199801974),
        [64.019302575252, 4.7784657975193, 31.202231627229],
    ),
    "bolt circle": (
        chord,
        {"diameter": (120, 0.1, "-0.1 mm"), "angle": metric.varying(60, 0.05, -0.05)},
        60.0,
        [0.5, 0.90689968211711],
        (59.904687098002, 60.095377053816),
        (59.99999936538, 59.99999936538, 0.022499796673362),
        [54.870677036125, 45.129322963875],
    ),
    "radius": (
        radius,
        {"chord": metric.varying(60, "0.02 mm", Size("-0.02 mm")), "height": "4.99..5.01 mm"},
        92.5,
        [3.0, -17.5],
        (92.265489021956, 92.735490981964),
        (92.500041111111, 92.500041111165, 0.06166677333365),
        [10.518626734843, 89.481373265157],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_worked_figures(case):
    function, inputs, nominal, derivatives, extremes, (second_order, mean, sigma), shares = CASES[case]
    found = metric.propagate(function, inputs)
    assert found.nominal == pytest.approx(nominal, rel=1e-12)
    assert found.extremes[:2] == pytest.approx(extremes, rel=1e-12)
    assert all(found.extremes.monotonic.values())
    assert function(*found.extremes.at_upper.values()) == pytest.approx(found.extremes.upper, rel=1e-15)
    assert list(found.moments.derivatives.values()) == pytest.approx(derivatives, rel=1e-6)
    assert found.moments.mean == pytest.approx(second_order, rel=1e-9)
    # The angle bends beyond a parabola.
    assert found.moments.sigma == pytest.approx(sigma, rel=4e-4 if case == "clutch" else 1e-5)
    assert list(found.moments.contributions.values()) == pytest.approx(shares, rel=1e-6)
    sample = found.sample(1_000_000, 17)
    assert sample.mean == pytest.approx(mean, abs=5 * sample.mean_error)
    assert sample.sigma == pytest.approx(sigma, abs=5 * sample.sigma_error)


def test_a_printed_angle():
    assert round(metric.propagate(clutch, CLUTCH).nominal, 4) == 7.0184


def test_other_laws():
    # A product of independent uniform inputs: var = vx vy + vx my² + vy mx².
    inputs = {"x": (10, 1, -1, "uniform"), "y": metric.varying(5, 0.5, -0.5, Distribution.uniform())}
    product = metric.propagate(np.multiply, inputs)
    assert product.moments.mean == pytest.approx(50, rel=1e-12)
    assert product.moments.sigma == pytest.approx(16.694444444444**0.5, rel=1e-9)
    # Diametral error of a position: 2 · Rayleigh, whose mean and shares beyond a diameter are known.
    inputs = {"x": (0, 0.09, -0.09), "y": (0, 0.09, -0.09)}
    sample = metric.propagate(lambda x, y: 2 * np.hypot(x, y), inputs).sample(1_000_000, 4, limits=(None, 0.15))
    assert sample.mean == pytest.approx(0.07519884823893, abs=5 * sample.mean_error)
    assert sample.sigma == pytest.approx(0.039308182653722, abs=5 * sample.sigma_error)
    out = sample.fraction_out_at(1 - 1e-6)
    assert out.lower < 0.043936933623407 < out.upper < 0.046
    assert sample.percentile(95) == pytest.approx(0.14686480984085, rel=2e-3)
    # The greatest of five standard normal values: d2 / 2 of control charts.
    greatest = metric.propagate(lambda *x: np.max(x, axis=0), {name: (0, 3, -3) for name in "abcde"})
    sample = greatest.sample(1_000_000, 9)
    assert sample.mean == pytest.approx(1.1629644736405, abs=5 * sample.mean_error)


def test_extremes_within_the_box_are_searched_for():
    found = metric.propagate(lambda x, y: (x - 0.3) ** 2 - y, {"x": (0, 1, -1), "y": (0, 1, -1)}).extremes
    assert found.monotonic == {"x": False, "y": True}
    assert (found.lower, found.upper) == pytest.approx((-1, 2.69), abs=1e-12)
    assert found.at_lower == pytest.approx({"x": 0.3, "y": 1}, abs=1e-6)


def test_correlated_inputs():
    inputs = {"a": (10, 0.3, -0.3), "b": (5, 0.6, -0.6)}
    found = metric.propagate(np.subtract, inputs, correlations={("a", "b"): 0.5})
    # σ² = 0.1² + 0.2² - 2 · 0.5 · 0.1 · 0.2, by hand.
    assert found.moments.sigma == pytest.approx(0.03**0.5, rel=1e-9)
    assert found.correlations == {("a", "b"): 0.5}
    sample = found.sample(400_000, 2)
    assert sample.sigma == pytest.approx(0.03**0.5, abs=5 * sample.sigma_error)
    assert pickle.loads(pickle.dumps(found)).sample(1000, 1) == found.sample(1000, 1)
    with pytest.raises(tenths.DomainError, match="only normal"):
        metric.propagate(np.add, {"a": 1, "b": (5, 1, -1, "uniform")}, correlations={("a", "b"): 0.5})
    with pytest.raises(tenths.DomainError, match="`c` is unknown"):
        metric.propagate(np.subtract, inputs, correlations={("a", "c"): 0.5})
    with pytest.raises(TypeError, match="a dict such as"):
        metric.propagate(np.subtract, inputs, correlations={"a": 0.5})


def ends(shop, value, name="x"):
    given = shop.propagate(np.positive, {name: value}).inputs[name]
    return given.nominal, given.lower, given.upper


def test_every_kind_of_input():
    assert ends(metric, 3) == (3, 3, 3)
    assert ends(metric, np.float64(0.5)) == (0.5, 0.5, 0.5)
    assert ends(inch, Size("25.4 mm")) == (1, 1, 1) == ends(inch, "25.4 mm")
    assert ends(inch, Limits("25.4 +2.54/0 mm")) == (1, 1, 1.1)
    assert ends(metric, "25 H7") == (25, 25, 25.021)
    assert ends(metric, "20 ±2 °C") == (20, 18, 22)
    assert ends(metric, "100 +5/-2 N") == (100, 98, 105)
    assert ends(metric, "0.12") == (0.12, 0.12, 0.12)
    assert ends(metric, ("1 in", 0.1, -0.1)) == (25.4, 25.4 - 0.1, 25.4 + 0.1)
    fit = Fit("25 H7/p6")
    # -35 to -1 µm of clearance; and the hole's and shaft's standard deviations are 21/6 and 13/6 µm.
    assert ends(metric, fit) == pytest.approx((-0.018, -0.035, -0.001))
    assert ends(metric, fit, "interference") == pytest.approx((0.018, 0.001, 0.035))
    law = metric.propagate(np.positive, {"x": fit}).inputs["x"].distribution
    assert law.to_dict()["sigma"] == pytest.approx((21**2 + 13**2) ** 0.5 / 6000, rel=1e-12)


@pytest.mark.libraries
def test_a_quantity_as_an_input():
    import pint

    length = pint.UnitRegistry().Quantity(1, "inch")
    assert ends(metric, length) == (25.4, 25.4, 25.4)


@pytest.mark.parametrize(
    ("value", "error", "why"),
    [
        ([1, 2], TypeError, "x: expected a number, a tuple"),
        (None, TypeError, "x: expected a number, a tuple"),
        ((1, 2), TypeError, "x: a tuple is"),
        ((1, 0.1, [2]), TypeError, "must be one number"),
        ((1, -0.1, 0.1), ValueError, "x: 1.1 to 0.9 are not valid limits"),
        ((1, 0.1, -0.1, "bell"), ValueError, "is not a distribution"),
        (float("nan"), ValueError, "are not valid limits"),
        ("nonsense", ValueError, "x: "),
        ("68 ±5 °F", ValueError, "x: the unit of .* belongs to several quantities"),
        (inch.varying(1, 0.1, -0.1), ValueError, "an input of tenths.inch in tenths.metric"),
    ],
)
def test_a_wrong_input_is_refused(value, error, why):
    with pytest.raises(error, match=why):
        metric.propagate(np.positive, {"x": value})


class Odd(Exception):
    pass


def test_exceptions_of_a_callable_come_out_as_themselves():
    def refuse(x):
        raise Odd(len(x))

    found = metric.propagate(refuse, {"x": (1, 0.1, -0.1)})
    with pytest.raises(Odd, match="1$"):
        found.nominal
    with pytest.raises(Odd, match="16384$"):
        found.sample(100_000, 1, threads=2)
    for ask in (lambda: found.extremes, lambda: found.moments, lambda: found.sample_blocks(0, 1, n=1, seed=1)):
        with pytest.raises(Odd):
            ask()
    with pytest.raises(ValueError, match=r"shape \(2,\) for inputs of shape \(1,\)"):
        metric.propagate(lambda x: np.ones(2), {"x": 1}).nominal
    for odd in (lambda x: x + 1j, lambda x: None, lambda x: "1"):
        with pytest.raises((TypeError, ValueError)):
            metric.propagate(odd, {"x": 1}).nominal
    with pytest.raises(TypeError):
        metric.propagate(np.add, {"x": 1}).nominal
    # What was raised once does not come out again.
    with pytest.raises(tenths.DomainError, match="a sample must have"):
        found.sample(0, 1)


def test_what_is_given_to_a_callable():
    seen = []

    def record(x, y):
        seen.append((x.shape, x.dtype, x.flags.writeable, y[0]))
        x += y
        return x

    found = metric.propagate(record, {"x": (1, 0.1, -0.1), "y": 2})
    sample = found.sample(40_000, 1)
    assert seen == [((rows,), np.float64, True, 2.0) for rows in (16384, 16384, 40_000 - 2 * 16384)]
    assert sample == metric.propagate(np.add, {"x": (1, 0.1, -0.1), "y": 2}).sample(40_000, 1)
    assert metric.propagate(lambda x: 3, {"x": (1, 0.1, -0.1)}).sample(100, 1).mean == 3
    assert metric.propagate(lambda x: x > 1, {"x": (1, 0.1, -0.1)}).sample(100, 1).maximum == 1


def test_samples_without_a_value_are_counted():
    def root(x):
        return np.sqrt(np.where(x < 0, np.nan, x))

    found = metric.propagate(root, {"x": (0, 1, -1, "uniform")})
    sample = found.sample(100_000, 1, limits=(None, 0.5))
    assert sample.undefined == pytest.approx(50_000, abs=1000)
    assert len(sample.values) == sample.count - sample.undefined and not np.isnan(sample.values).any()
    # A quarter of the roots lie within.
    assert sample.fraction_out.value == pytest.approx(0.875, abs=0.01)
    assert "undefined" in sample._repr_html_()
    with pytest.raises(tenths.DomainError, match="not defined at x = -1"):
        found.extremes
    assert "not defined at x = " in found._repr_html_()
    assert metric.propagate(root, {"x": 4}).nominal == 2


def test_blocks_of_a_function():
    found = metric.propagate(clutch, CLUTCH)
    whole = found.sample(50_000, 3, limits=(6.9, 7.1))
    blocks = [found.sample_blocks(k, 1, n=50_000, seed=3, limits=(6.9, 7.1)) for k in (3, 1, 0, 2)]
    assert tenths.fold_blocks(pickle.loads(pickle.dumps(blocks))) == whole


def test_objects_are_values():
    found = metric.propagate(clutch, CLUTCH)
    again = pickle.loads(pickle.dumps(found))
    assert again == found and again.moments == found.moments and again.function is clutch
    assert found != metric.propagate(clutch, {**CLUTCH, "hub": 27})
    assert found != metric.propagate(over_pins, CLUTCH)
    assert repr(found) == "<propagation of clutch by hub, roller, ring>"
    assert (found.units, found.output, found.unit) == ("metric", None, None)
    assert found.extremes is found.extremes and found.moments is found.moments
    told = json.loads(json.dumps(found.to_dict(), allow_nan=False))
    assert told["nominal"] == found.nominal and told["moments"]["sigma"] == found.moments.sigma
    shown = found._repr_html_()
    assert "<td>roller</td>" in shown and "7.01839" in shown and "searched" not in shown
    fixed = metric.propagate(np.positive, {"x": 1})
    json.dumps(fixed.to_dict(), allow_nan=False)
    assert "searched" not in fixed._repr_html_()
    given = metric.varying(1, 0.5, -0.5, "uniform")
    assert pickle.loads(pickle.dumps(given)) == given and given.distribution == Distribution.uniform()
    assert given != metric.varying(1, 0.5, -0.5) and given.units == "metric"
    with pytest.raises(tenths.DomainError, match="lower one comes first"):
        metric.varying(1, -0.5, 0.5)
    partial = metric.propagate(functools.partial(np.multiply, 2), {"x": "1 ±0.1 mm"})
    assert "partial" in repr(partial) and pickle.loads(pickle.dumps(partial)).nominal == 2
    with pytest.raises(AttributeError):
        found.nominal = 1


JOINT = dict(diameter=20, hub_outer_diameter=40, length=20, **HUB)


def press(interference):
    return metric.press_fit(interference, 20, 40, 20, **HUB)


def test_a_formula():
    joint = metric.press_fit.propagate(interference="0.03 ±0.01 mm", **JOINT)
    assert joint._fields == type(press(0.03))._fields
    pressure = joint.pressure
    # The pressure is proportional to the interference.
    assert pressure.nominal == press(0.03).pressure
    assert (pressure.output, pressure.unit, pressure.function) == ("pressure", "MPa", metric.press_fit)
    assert pressure.extremes[:2] == pytest.approx((press(0.02).pressure, press(0.04).pressure), rel=1e-12)
    assert pressure.moments.sigma == pytest.approx(press(0.01).pressure / 3, rel=1e-9)
    assert pressure == metric.press_fit.propagate(output="pressure", interference="0.03 ±0.01 mm", **JOINT)
    assert pressure == metric.propagate(
        metric.press_fit, {"interference": "0.03 ±0.01 mm", **JOINT}, output="pressure"
    )
    assert pickle.loads(pickle.dumps(pressure)) == pressure != joint.torque
    sample = pressure.sample(100_000, 5, limits=(None, press(0.035).pressure), threads=1)
    assert pressure.sample(100_000, 5, limits=(None, press(0.035).pressure), threads=2) == sample
    # Beyond 1.5 standard deviations of a normal law: 6.68 percent, by a table.
    assert sample.fraction_out.value == pytest.approx(0.0668, abs=0.003)
    blocks = [pressure.sample_blocks(*part, n=100_000, seed=5) for part in tenths.split_blocks(100_000, 4)]
    assert tenths.fold_blocks(blocks) == pressure.sample(100_000, 5)
    # The same draws go through the formula as through a Python function of it.
    by_callable = metric.propagate(lambda x: press(x).pressure, {"interference": "0.03 ±0.01 mm"})
    np.testing.assert_allclose(by_callable.sample(50_000, 5).values, pressure.sample(50_000, 5).values, rtol=1e-12)
    assert "pressure" in repr(pressure) and "MPa" in pressure._repr_html_()
    by_fit = metric.press_fit.propagate(interference=Fit("20 H7/s6"), **JOINT).pressure
    assert by_fit.inputs["interference"].lower == pytest.approx(Fit("20 H7/s6").max_clearance.to_float("mm") * -1)


def test_a_formula_of_one_result():
    speed = inch.surface_speed.propagate(diameter="12.7 ±0.254 mm", spindle_speed="1500 ±15 rpm")
    # π · 0.5 in · 1500 rpm / 12; 2 and 1 percent.
    assert speed.nominal == pytest.approx(196.3495, rel=1e-6)
    assert speed.extremes.upper == pytest.approx(196.3495 * 1.02 * 1.01, rel=1e-6)
    assert speed.moments.first_order_sigma == pytest.approx(196.3495 * 0.05**0.5 * 0.1 / 3, rel=1e-6)
    assert (speed.output, speed.unit) == ("surface_speed", "ft/min")
    assert repr(speed) == "<propagation of surface_speed by diameter, spindle_speed>"
    # An argument with a default needs no input, and what does not vary is not told.
    fixed = metric.parts_per_bar.propagate(bar_length=3000, part_length=100, kerf=3)
    assert "facing_allowance" in fixed.inputs and "by bar_length, part_length, kerf, facing" in repr(fixed)
    trimmed = metric.parts_per_bar.propagate(bar_length="3000 ±20 mm", part_length=100, kerf=3)
    assert repr(trimmed) == "<propagation of parts_per_bar by bar_length>"


def test_only_what_varies_is_listed():
    # The modulus spreads, and has no two limits; the length has two, and does not spread.
    given = {
        **JOINT,
        "interference": "0.03 ±0.01 mm",
        "hub_modulus": (206, 0, 0, Distribution.process(206, 5)),
        "length": (20, 0.1, -0.1, Distribution.process(20, 0)),
    }
    joint = metric.press_fit.propagate(output="axial_force", **given)
    assert list(joint.inputs) == list(metric.press_fit.arguments)
    extremes, moments = joint.extremes, joint.moments
    for listed in (extremes.at_lower, extremes.at_upper, extremes.monotonic):
        assert set(listed) == {"interference", "length"}
    assert set(moments.derivatives) == set(moments.contributions) == {"interference", "hub_modulus"}
    assert sum(moments.contributions.values()) == pytest.approx(100)
    told = json.loads(json.dumps(joint.to_dict(), allow_nan=False))
    assert set(told["moments"]["derivatives"]) == {"interference", "hub_modulus"}
    assert "<td>hub_outer_diameter</td>" in joint._repr_html_()
    fixed = metric.propagate(np.positive, {"x": 1})
    assert fixed.extremes == (1, 1, {}, {}, {}) and fixed.moments.contributions == {}


@pytest.mark.parametrize(
    ("call", "error", "why"),
    [
        (lambda: metric.surface_speed.propagate(diameter=1), ValueError, "the input spindle_speed is missing"),
        (lambda: metric.surface_speed.propagate(diametre=1), ValueError, "`diametre` is unknown; expected one of diameter"),
        (lambda: metric.surface_speed.propagate(output="x", diameter=1, spindle_speed=1), ValueError, "`x` is unknown"),
        (lambda: metric.surface_speed.propagate(diameter=1, spindle_speed=Size("1 mm")), TypeError, "not a length"),
        (lambda: metric.surface_speed.propagate(diameter=1, spindle_speed="1 ±0.1 mm"), ValueError, "spindle_speed"),
        (lambda: metric.surface_speed.propagate(diameter="5 ±6 mm", spindle_speed=1).extremes, ValueError, "diameter"),
        (
            lambda: metric.surface_speed.propagate(diameter=1, spindle_speed=1).sample(9, 1, limits="1..2 mm"),
            TypeError,
            "no length",
        ),
        (lambda: metric.propagate(inch.surface_speed, {}), ValueError, "a formula of tenths.inch in tenths.metric"),
        (lambda: metric.propagate(np.add, {"x": 1}, output="x"), TypeError, "only a formula"),
        (lambda: metric.propagate(3, {"x": 1}), TypeError, "a callable"),
        (lambda: metric.propagate(np.add, {}), ValueError, "1 to 64 inputs"),
    ],
)
def test_a_refusal_says_why(call, error, why):
    with pytest.raises(error, match=why):
        call()


def test_deviations_of_a_temperature():
    steel = {"reading": 4, "part_expansion": "6.4e-6 1/°F", "scale_temperature": 68, "scale_expansion": 0}
    results = [
        inch.length_at_20.propagate(output="length", part_temperature=given, **steel)
        for given in ("20 ±5 °C", (68, 9, -9), ("20 °C", 9, -9))
    ]
    assert len({result.extremes.lower for result in results}) == 1
    assert results[0].inputs["part_temperature"].upper == 77
    # A part at 77 °F is 9 · 6.4e-6 · 4 in too long, by hand.
    assert results[0].extremes.lower == pytest.approx(4 - 4 * 9 * 6.4e-6, rel=1e-8)
    with pytest.raises(TypeError, match="deviations of a temperature are bare numbers"):
        inch.length_at_20.propagate(part_temperature=("68 °F", "9 °F", "-9 °F"), **steel)


def test_any_mapping_of_inputs_will_do():
    inputs, correlations = {"diameter": (20, 0.1, -0.1), "spindle_speed": (1000, 5, -5)}, {("diameter", "spindle_speed"): 0.5}
    wanted = metric.propagate(metric.surface_speed, inputs, correlations=correlations)
    assert metric.propagate(metric.surface_speed, MappingProxyType(inputs), correlations=MappingProxyType(correlations)) == wanted


# ISO 286-2: 25 H7 is 25 +0.021/0 mm; of a uniform law the variance is the square of the width over 12.
def test_limits_of_any_form_take_a_distribution():
    fit = tenths.Fit("25 H7/g6")
    width = 25.021 - 25
    for given in ("25 H7", tenths.Limits("25 H7"), fit.hole):
        for law in ("uniform", tenths.Distribution.uniform()):
            made = metric.surface_speed.propagate(diameter=(given, law), spindle_speed=1000).inputs["diameter"]
            assert (made.lower, made.upper, made.distribution) == (25, 25.021, tenths.Distribution.uniform())
            assert metric.varying(given, distribution=law) == made
        assert metric.varying(given).distribution.name == "normal"
    hole = metric.propagate(lambda d: d, {"d": (fit.hole, "uniform")})
    assert hole.moments.sigma == pytest.approx(width / 12**0.5, rel=1e-6)
    assert metric.varying("60 ±0.1 deg", distribution="uniform").upper == 60.1
    clearance = metric.varying(fit)
    assert (clearance.lower, clearance.upper, clearance.distribution.name) == (0.007, 0.041, "process")
    assert metric.varying(fit, distribution="triangular").distribution.name == "triangular"
    stack = metric.Stack().add("hole", fit.hole, distribution="uniform").add("shaft", "25 g6", sensitivity=-1, distribution="uniform")
    assert (stack.worst_case().lower, stack.worst_case().upper) == (tenths.Size("0.007 mm"), tenths.Size("0.041 mm"))
    with pytest.raises(TypeError, match="or limits and a distribution such as"):
        metric.surface_speed.propagate(diameter=(25, 0.1), spindle_speed=1000)
    with pytest.raises(TypeError, match="plus and minus go together"):
        metric.varying(25, 0.1)
    with pytest.raises(tenths.DomainError, match="is not a"):
        metric.surface_speed.propagate(diameter=("25 H7", "unform"), spindle_speed=1000)


def difference(a, b, c=0.0):
    return a - b - c


def test_inputs_go_by_the_names_of_the_parameters():
    one_by_one = np.vectorize(lambda a, b: a - b)
    for function in (difference, lambda a, b: a - b, lambda *, b, a: a - b, functools.partial(difference, c=0.0), one_by_one):
        made = metric.propagate(function, {"b": (1, 0.1, -0.1), "a": 5})
        assert made.nominal == 4 and list(made.inputs) == ["b", "a"]
    again = pickle.loads(pickle.dumps(metric.propagate(difference, {"c": 1, "b": 2, "a": 5})))
    assert again.nominal == 2
    budget = tenths.uncertainty_budget(lambda a, b: a - b, {"b": tenths.Estimate(1, 0.1), "a": tenths.Estimate(5, 0.2)})
    assert budget.value == 4 and [row.name for row in budget.rows] == ["b", "a"]
    # Other names go by their places.
    assert metric.propagate(difference, {"long": 5, "short": 1}).nominal == 4
    assert metric.propagate(lambda *columns: columns[0] - columns[1], {"b": 5, "a": 1}).nominal == 4
    assert metric.propagate(np.subtract, {"b": 5, "a": 1}).nominal == 4


@pytest.mark.parametrize("inputs", [{"b": 1, "whole": 5}, {"whole": 5, "a": 1}, {"a": 5, "b": 1, "d": 0, "c": 2}])
def test_an_input_never_goes_to_the_parameter_of_another(inputs):
    with pytest.raises(TypeError, match="would not go to the parameter .* by its place. Fix: name every input after"):
        metric.propagate(difference, inputs)


def test_a_function_that_takes_no_arrays_is_told_so():
    import math

    for call in (
        lambda function, spread: metric.propagate(function, {"a": (1, 0.1, -0.1)}).moments,
        lambda function, spread: tenths.uncertainty_budget(function, {"a": tenths.Estimate(1, 0.1)}),
    ):
        with pytest.raises(TypeError, match=r"the function gets arrays.*numpy\.sin for math\.sin"):
            call(lambda a: math.sin(a), 0.1)
        with pytest.raises(TypeError, match="the function must give an array of numbers, not 'one'"):
            call(lambda a: "one", 0.1)

"""The cheapest tolerances of a stack: closed forms, published factors, scipy's optimiser, and the objects."""

import json
import pickle
import re

import pytest

import tenths
from tenths import CostCurve, Distribution, Limits, Size, inch, metric


def stack_of(*parts, shop=metric):
    """Dimensions of 10 with these half bands and sensitivities."""
    stack = shop.Stack()
    for half, sensitivity in parts:
        stack.add(f"d{len(stack)}", 10, half, -half, sensitivity)
    return stack


def reciprocal(scale, power=1.0, least=1e-4, greatest=None):
    return CostCurve.reciprocal(scale, power, least=least, greatest=greatest, fixed=1)


def bands(found):
    return [row.half_band for row in found.tolerances]


def test_equal_powers_give_the_closed_form():
    # Lagrange's condition, by hand: t goes as (B / s)^(1/2) for a worst case, (B / s²)^(1/3) for a root of squares.
    stack = stack_of((0.1, 1), (0.1, -4))
    curves = {"d0": reciprocal(1), "d1": reciprocal(4)}
    assert bands(stack.allocate(curves, worst_case=0.5)) == pytest.approx([0.1, 0.1], rel=1e-12)
    ratio = 0.25 ** (1 / 3)
    first = (0.25 / (1 + 16 * ratio**2)) ** 0.5
    found = stack.allocate(curves, rss=0.5)
    assert bands(found) == pytest.approx([first, first * ratio], rel=1e-12)
    assert found.cost == pytest.approx(2 + 1 / first + 4 / (first * ratio), rel=1e-12)
    # The saving is what a wider target saves.
    wide, narrow = (stack.allocate(curves, rss=half).cost for half in (0.501, 0.499))
    assert found.saving == pytest.approx((narrow - wide) / 0.002, rel=1e-4)


def test_curves_with_corners():
    # By hand: of the savings for each hundredth, the largest are taken first.
    stack = stack_of((0.1, 1), (0.1, -1))
    curves = {0: CostCurve.points([(0.01, 20), (0.03, 10), (0.06, 7)]), 1: CostCurve.points([(0.01, 9), (0.05, 5)])}
    costs = [stack.allocate(curves, worst_case=half).cost for half in (0.02, 0.03, 0.04, 0.07, 0.11)]
    assert costs == pytest.approx([29, 24, 19, 16, 12], rel=1e-12)
    assert stack.allocate(curves, worst_case=0.2).saving == 0


PROBLEMS = [
    # half bands and sensitivities; curves; bounds
    ([1, 1, 2, 0.5], [reciprocal(2), reciprocal(1, 0.5), reciprocal(4), reciprocal(0.5, 2)]),
    ([1, 1, -1], [CostCurve.exponential(10, 20, least=1e-4), CostCurve.exponential(5, 10, least=1e-4), reciprocal(0.2, 0.8)]),
    (
        [1, 1, -2, 0.5],
        [reciprocal(2, 1, 0.05, 0.08), reciprocal(1, 0.5, 0.05, 1), reciprocal(4, 1, 0.06, 1), reciprocal(0.5, 2, 0.05, 1)],
    ),
]


@pytest.mark.libraries
@pytest.mark.parametrize("target", ["worst_case", "rss", "half_band"])
@pytest.mark.parametrize(("sensitivities", "curves"), PROBLEMS)
def test_against_an_optimiser(sensitivities, curves, target):
    import numpy as np
    from scipy.optimize import minimize
    from scipy.stats import norm

    def cost_of(data, half):
        if data["name"] == "reciprocal":
            return data["fixed"] + data["scale"] * half ** -data["power"]
        return data["fixed"] + data["scale"] * np.exp(-data["rate"] * half)

    # A normal law with Cp = 1 has a third of the half band as its sigma. Logarithms of half bands are alike in scale.
    half, rate = 0.4, 0.01
    room = half if target == "worst_case" else half**2 if target == "rss" else 9 * (half / norm.isf(rate / 2)) ** 2
    power = 1 if target == "worst_case" else 2
    weights = np.abs(sensitivities) ** power
    told = [curve.to_dict() for curve in curves]
    reference = minimize(
        lambda logs: sum(cost_of(data, half) for data, half in zip(told, np.exp(logs))),
        [np.log(min(max(0.05, curve.least), curve.greatest)) for curve in curves],
        bounds=[(np.log(curve.least), np.log(min(curve.greatest, 10))) for curve in curves],
        constraints={"type": "ineq", "fun": lambda logs: 1 - weights @ np.exp(power * logs) / room},
        method="SLSQP",
        options={"ftol": 1e-11, "maxiter": 1000},
    )
    assert reference.success
    stack = stack_of(*((0.1, sensitivity) for sensitivity in sensitivities))
    asked = {target: half, **({"rate": rate} if target == "half_band" else {})}
    found = stack.allocate(dict(enumerate(curves)), **asked)
    assert found.cost == pytest.approx(reference.fun, rel=1e-7) and found.cost <= reference.fun * (1 + 1e-8)
    assert bands(found) == pytest.approx(np.exp(reference.x), rel=1e-4)
    assert weights @ np.array(bands(found)) ** power <= room * (1 + 1e-9)
    assert [row.cost for row in found.tolerances] == pytest.approx([c.at(t) for c, t in zip(curves, bands(found))])


def test_bounds_are_told():
    # scipy (SLSQP) as in tests/allocation.rs.
    sensitivities, curves = PROBLEMS[2]
    found = stack_of(*((0.1, s) for s in sensitivities)).allocate(dict(enumerate(curves)), worst_case="0.4 mm")
    assert bands(found) == pytest.approx([0.08, 0.05, 0.0862116, 0.1951538], rel=1e-5)
    assert [(row.is_least, row.is_greatest) for row in found.tolerances] == [
        (False, True),
        (True, False),
        (False, False),
        (False, False),
    ]


def test_proportional_scaling():
    # K. W. Chase, ADCATS 99-6: factors 0.47222 and 1.39526 (from memory, and worked out).
    halves = [0.0015, 0.0025, 0.0025, 0.008, 0.002, 0.006, 0.002]
    stack = stack_of(*((half, 1) for half in halves), shop=inch)
    fixed = ["d0", 1, "d2"]
    assert stack.proportional_factor(fixed, worst_case=0.015) == pytest.approx(0.0085 / 0.018, rel=1e-12)
    assert stack.proportional_factor(fixed, rss=Size(".015 in")) == pytest.approx(1.39526315, rel=1e-8)
    assert stack.proportional_factor(worst_case=0.049) == pytest.approx(2, rel=1e-12)
    with pytest.raises(tenths.DomainError, match="leave nothing to scale"):
        stack.proportional_factor(range(7), rss=0.015)
    for arguments in [{}, {"rss": 1, "worst_case": 1}]:
        with pytest.raises(TypeError, match="one target"):
            stack.proportional_factor(fixed, **arguments)


def test_what_is_applied_keeps_the_target():
    stack = stack_of((0.1, 1), (0.05, -1), (0.1, 2))
    found = stack.allocate({"d0": reciprocal(1, 0.8), 2: reciprocal(3, 1.3)}, worst_case=0.3)
    assert found.tolerances[1] == ("d1", 0.05, None, False, False)
    for step in ["1 µm", 0.001, Size("0.001 mm")]:
        applied = found.apply(step)
        worst, before = applied.worst_case(), stack.worst_case()
        # At most a step of each half band is lost.
        assert Size("0.594 mm") <= worst.tolerance <= Size("0.6 mm")
        assert worst.upper - before.upper == before.lower - worst.lower
        assert applied.to_dict()["contributors"][1] == stack.to_dict()["contributors"][1]
    assert found.stack == stack != applied
    with pytest.raises(ValueError):
        found.apply(0)
    # The share of a sample beyond the target is the one asked for.
    rate = 0.01
    kept = stack.allocate({0: reciprocal(1), 2: reciprocal(3)}, half_band=0.3, rate=rate).apply(Size.from_picometres(1))
    middle = kept.rss().mean
    out = kept.sample(200_000, 1, limits=(middle - 0.3, middle + 0.3)).fraction_out_at(1 - 1e-6)
    assert out.lower < rate < out.upper


def test_names_that_repeat():
    stack = metric.Stack().add("plate", 10, 0.1, -0.1).add("plate", 10, 0.1, -0.1).add("shim", 1, 0.1, -0.1, count=3)
    found = stack.allocate({0: reciprocal(1), 1: reciprocal(1), "shim": reciprocal(1)}, worst_case=0.5)
    # Three pieces cost and take three times as much: all alike.
    assert bands(found) == pytest.approx([0.1] * 3, rel=1e-12) and found.cost == pytest.approx(55, rel=1e-12)
    with pytest.raises(tenths.DomainError, match="2 are named `plate`: give the number"):
        stack.allocate({"plate": reciprocal(1)}, worst_case=0.5)


def test_they_are_values():
    stack = stack_of((0.1, 1), (0.05, -1), shop=inch).add("<pin>", "1 ±.001 in").correlate(0, 1, 0.5)
    found = stack.allocate({"d0": reciprocal(1), "<pin>": CostCurve.points([(0.001, 5), (0.002, 4)])}, worst_case=0.2)
    again = pickle.loads(pickle.dumps(found))
    assert again == found and again.apply(0.001) == found.apply(0.001)
    assert found != stack.allocate({"d0": reciprocal(1)}, worst_case=0.2)
    told = json.loads(json.dumps(found.to_dict(), allow_nan=False))
    assert (told["units"], told["cost"], told["tolerances"][1]["cost"]) == ("inch", found.cost, None)
    assert repr(found) == f"<allocation of 2 of 3 tolerances: cost {found.cost}, saving {found.saving}>"
    page = found._repr_html_()
    assert "&lt;pin&gt;" in page and "<td>yes</td>" in page and "cost" in page and page.count("<table>") == 2
    assert [line.split()[0] for line in repr(found.tolerances).splitlines()] == ["name", "d0", "d1", "<pin>"]
    with pytest.raises(AttributeError):
        found.cost = 0
    make, (*given, cost, saving) = found.__reduce__()
    for rows in [(stack.rss(),) * 3, found.tolerances[:2], (1, 2, 3)]:
        with pytest.raises((TypeError, ValueError)):
            make(given[0], rows, cost, saving)
    # What is added later is not of it.
    stack.add("more", 1, 0.1, -0.1)
    assert len(found.apply(0.001)) == 3
    for curve in [reciprocal(1, 0.5, greatest=2), CostCurve.exponential(3, 2, least=0.1), CostCurve.points([(1, 2), (2, 1)])]:
        assert pickle.loads(pickle.dumps(curve)) == curve == eval(repr(curve))
        assert CostCurve.from_dict(json.loads(json.dumps(curve.to_dict(), allow_nan=False))) == curve
    assert reciprocal(1) != reciprocal(2) and reciprocal(1).greatest == float("inf")
    assert repr(reciprocal(2)) == "CostCurve.reciprocal(scale=2.0, power=1.0, fixed=1.0, least=0.0001)"
    # 1 + 2 / 0.25 and 3 e^-1, by hand; half way between two points.
    assert reciprocal(2).at(0.25) == 9 and CostCurve.points([(1, 2), (2, 1)]).at(1.5) == 1.5
    assert CostCurve.exponential(3, 2, least=0.1).at(0.5) == pytest.approx(1.1036383235, rel=1e-9)


@pytest.mark.libraries
def test_a_frame():
    import pandas as pd

    rows = stack_of((0.1, 1), (0.05, -1)).allocate({"d0": reciprocal(1)}, worst_case=0.2).tolerances
    frame = rows.to_frame()
    assert frame.equals(pd.DataFrame(rows)) and frame.equals(pd.DataFrame(rows.to_dicts()))
    assert list(frame) == ["name", "half_band", "cost", "is_least", "is_greatest"]
    assert frame.half_band[0] == pytest.approx(0.15) and pd.isna(frame.cost[1])


STACK = stack_of((0.1, 1), (0.05, -1))


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (
            lambda: STACK.allocate({"d0": reciprocal(1, least=0.02)}, worst_case=0.06),
            "the target of 0.06 cannot be kept: with every tolerance as narrow as its process holds it is 0.07",
        ),
        (lambda: STACK.allocate({"d2": reciprocal(1)}, rss=1), "`d2` is unknown; expected one of d0, d1"),
        (lambda: STACK.allocate({-1: reciprocal(1)}, rss=1), "the place must be a whole number, zero or more, not -1"),
        (lambda: STACK.allocate({2: reciprocal(1)}, rss=1), "`2` is unknown"),
        (lambda: STACK.allocate({0: reciprocal(1), "d0": reciprocal(1)}, rss=1), "2 are named `d0`"),
        (lambda: STACK.allocate({"d0": reciprocal(1)}, rss=float("nan")), "the target, a half band, must be greater than 0"),
        (lambda: STACK.allocate({"d0": reciprocal(1)}, half_band=1, rate=1), "the rate of defects must be between"),
        (lambda: STACK.allocate({"d0": reciprocal(1, least=0)}, rss=1), "the least must be positive"),
        (lambda: metric.Stack().allocate({}, rss=1), "no contributors"),
        (
            lambda: metric.Stack()
            .add("a", 1, 0.1, -0.1, distribution=Distribution.normal(shift=0.2))
            .allocate({"a": reciprocal(1)}, half_band=1, rate=0.1),
            "a: a rate of defects needs distributions about the middles",
        ),
        (lambda: CostCurve.reciprocal(-1, least=1), "reciprocal: scale must be positive, not -1"),
        (lambda: CostCurve.exponential(1, float("nan"), least=1), "exponential: rate must be positive"),
        (lambda: CostCurve.points([(1, 2)]), "points: a curve must have at least two points"),
        (lambda: CostCurve.points([(1, 9), (2, 8), (3, 1)]), "a smaller saving"),
        (lambda: reciprocal(1, least=2, greatest=1), "half bands from 2 to 1 leave no choice"),
        (lambda: reciprocal(1).at(0), "a half band must be positive"),
        (lambda: CostCurve.from_dict({"name": "at"}), "is one of reciprocal"),
    ],
)
def test_a_refusal_says_why(call, why):
    with pytest.raises(ValueError, match=re.escape(why)):
        call()


@pytest.mark.parametrize(
    "call",
    [
        lambda: STACK.allocate({"d0": reciprocal(1)}),
        lambda: STACK.allocate({"d0": reciprocal(1)}, rss=1, worst_case=1),
        lambda: STACK.allocate({"d0": reciprocal(1)}, half_band=1),
        lambda: STACK.allocate({"d0": reciprocal(1)}, rss=1, rate=0.1),
        lambda: STACK.allocate({"d0": 1.0}, rss=1),
        lambda: STACK.allocate([reciprocal(1)], rss=1),
        lambda: STACK.allocate({"d0": reciprocal(1)}, rss=Limits("1 ±0.1 mm")),
        lambda: CostCurve.reciprocal(1),
        lambda: CostCurve(),
    ],
)
def test_a_wrong_type_is_refused(call):
    with pytest.raises(TypeError):
        call()

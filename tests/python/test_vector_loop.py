"""Vector loops: a published clutch, the closed forms of clutch and slider crank, and the objects."""

import json
import math
import pickle
import re

import numpy as np
import pytest

import tenths
from tenths import Distribution, Limits, Size, inch, metric

# Hub a, roller c, ring e. The contact angle of 7.0184° is published (K. W. Chase's example, from memory).
CLUTCH = {"a": (27.645, 0.0125, -0.0125), "c": (11.43, 0.01, -0.01), "e": (50.8, 0.0125, -0.0125)}
NOMINAL = {name: band[0] for name, band in CLUTCH.items()}


def clutch(shop=metric):
    around = shop.VectorLoop().unknown("phi", 5).unknown("b", 4)
    return around.link("a", 90).link("c", "90").link("b", 0).link("e", "270 - phi").link("c", "90 - phi")


def contact(a, c, e):
    return np.degrees(np.arccos((a + c) / (e - c)))


def crank():
    around = metric.VectorLoop().unknown("x", 100).unknown("rod", 350)
    return around.link("r", "theta").link("l", "rod").link("x", 180)


def test_a_published_clutch():
    around = clutch()
    assert around.inputs == ["a", "c", "e"] and len(around) == 5
    found = around.solve(NOMINAL)
    assert list(found) == ["phi", "b"] and round(found["phi"], 4) == 7.0184
    assert found["phi"] == pytest.approx(contact(27.645, 11.43, 50.8), rel=1e-11)
    assert found["b"] == pytest.approx(math.sqrt(39.37**2 - 39.075**2), rel=1e-11)


def test_a_propagation_is_that_of_the_closed_form():
    around, closed = clutch().propagate("phi", CLUTCH), metric.propagate(contact, CLUTCH)
    assert around.nominal == clutch().solve(NOMINAL)["phi"] == pytest.approx(closed.nominal, rel=1e-11)
    assert around.extremes[:2] == pytest.approx(closed.extremes[:2], rel=1e-11)
    assert around.extremes.at_lower == closed.extremes.at_lower and all(around.extremes.monotonic.values())
    assert around.moments[:4] == pytest.approx(closed.moments[:4], rel=1e-6)
    # The derivatives of the closed form, by hand: over sin phi.
    sine = -math.sin(math.radians(around.nominal)) * math.pi / 180
    slopes = {"a": 1 / 39.37, "c": 1 / 39.37 + 39.075 / 39.37**2, "e": -39.075 / 39.37**2}
    for name, slope in slopes.items():
        assert around.moments.derivatives[name] == pytest.approx(slope / sine, rel=1e-7)
    sample = around.sample(50_000, 3, limits=(6.5, 7.5))
    np.testing.assert_allclose(sample.values, closed.sample(50_000, 3).values, rtol=1e-9)
    assert around.sample(50_000, 3, limits=("6.5 deg", 7.5), threads=1) == sample
    blocks = [around.sample_blocks(*portion, n=50_000, seed=3, limits=(6.5, 7.5)) for portion in tenths.split_blocks(50_000, 2)]
    assert tenths.fold_blocks(blocks) == sample
    assert (around.output, around.unit, around.units) == ("phi", "°", "metric")
    across = clutch().propagate("b", CLUTCH)
    assert (across.output, across.unit) == ("b", "mm")
    assert across.sample(100, 1, limits="4..5.5 mm").limits == (4, 5.5)
    with pytest.raises(TypeError, match="no length"):
        around.sample(100, 1, limits="6..7 mm")


@pytest.mark.parametrize("theta", [0, 20, 60, 90, 140, 179])
def test_the_slider_crank(theta):
    found = crank().solve({"r": 30, "theta": theta, "l": 90})
    height = 30 * math.sin(math.radians(theta))
    assert found["x"] == pytest.approx(30 * math.cos(math.radians(theta)) + math.sqrt(90**2 - height**2), rel=1e-12)
    assert found["rod"] == pytest.approx(360 - math.degrees(math.asin(height / 90)), rel=1e-12)


def test_the_other_closure():
    # Of the two triangles with sides of 3 and 5 and that angle, the one near the guesses.
    for guess, x in [(5, 4), (-5, -4)]:
        around = metric.VectorLoop().unknown("x", guess).unknown("y", 180 if guess < 0 else 0)
        around.link("x", 0).link(3, 90).link(5, "180 + y")
        assert around.solve() == around.solve({}) and around.solve()["x"] == pytest.approx(x, rel=1e-12)


def test_numbers_and_text_with_units():
    around = inch.VectorLoop().unknown("x", 1).unknown("y", 1)
    around.link("25.4 mm", 0).link(Size("1/2 in"), "90 deg").link(1e-7, 12.5).link("x", "180°").link("y", -90)
    assert around.links == [("1", "0"), ("0.5", "90"), ("0.0000001", "12.5"), ("x", "180"), ("y", "-90")]
    assert around.solve() == {"x": pytest.approx(1, abs=2e-7), "y": pytest.approx(0.5, abs=2e-7)}
    # Inputs by their names, each in the unit of what it is.
    by_hand = crank().solve({"r": 30, "theta": 20, "l": 90})
    assert crank().solve({"r": "30 mm", "theta": "20 deg", "l": Size("90 mm")}) == {
        name: pytest.approx(value, rel=1e-12) for name, value in by_hand.items()
    }
    texts = {"r": "30 ±0.05 mm", "theta": "20 ±1 deg", "l": Limits("90 ±0.1 mm")}
    tuples = {"r": (30, 0.05, -0.05), "theta": (20, 1, -1), "l": (90, 0.1, -0.1)}
    assert crank().propagate("x", texts).extremes[:2] == pytest.approx(crank().propagate("x", tuples).extremes[:2])
    # Inches at one face are 25.4 mm at the other.
    metres = clutch().propagate("b", {name: Limits(f"{band[0]} ±{band[1]} mm") for name, band in CLUTCH.items()})
    inches = clutch(inch).propagate("b", {name: Limits(f"{band[0]} ±{band[1]} mm") for name, band in CLUTCH.items()})
    assert inches.nominal * 25.4 == pytest.approx(metres.nominal, rel=1e-11) and inches.unit == "in"


def test_laws_and_correlations():
    law = Distribution.normal(cp=1.5)
    given = {name: (*band, law) for name, band in CLUTCH.items()}
    plain, tied = (clutch().propagate("phi", given, correlations=pairs) for pairs in (None, {("a", "e"): 0.9}))
    assert tied.correlations == {("a", "e"): 0.9}
    # Variances of the tangent plane, by hand.
    da, dc, de = (plain.moments.derivatives[name] for name in "ace")
    sigmas = 0.0125 / 4.5, 0.01 / 4.5
    plain_variance = (da**2 + de**2) * sigmas[0] ** 2 + dc**2 * sigmas[1] ** 2
    tied_variance = plain_variance + 2 * 0.9 * da * de * sigmas[0] ** 2
    assert plain.moments.first_order_sigma == pytest.approx(plain_variance**0.5, rel=1e-9)
    assert tied.moments.first_order_sigma == pytest.approx(tied_variance**0.5, rel=1e-9)


def test_they_are_values():
    around = clutch()
    given = around.propagate("phi", CLUTCH, correlations={("a", "c"): 0.5})
    for each in [around, given]:
        assert pickle.loads(pickle.dumps(each)) == each
    assert pickle.loads(pickle.dumps(given)).sample(1000, 1) == given.sample(1000, 1)
    assert tenths.VectorLoop.from_dict(json.loads(json.dumps(around.to_dict()))) == around
    assert metric.propagate(around, CLUTCH, output="phi", correlations={("a", "c"): 0.5}) == given
    assert given != around.propagate("b", CLUTCH) and given.function == around != clutch(inch)
    assert repr(around) == "<metric loop of 5 vectors for phi and b by a, c, e>"
    assert repr(metric.VectorLoop()) == "<metric loop of 0 vectors for nothing>"
    assert repr(given) == "<propagation of vector loop.phi by a, c, e>"
    assert around.unknowns == {"phi": 5, "b": 4} and around.units == "metric"
    assert "270 - phi" in around._repr_html_() and "°" in given._repr_html_()
    assert json.loads(json.dumps(given.to_dict()))["output"] == "phi"
    # What is added later is not of the propagation.
    assert around.link(0, 0) is around and given.function != around and len(given.function) == 5
    with pytest.raises(TypeError):
        hash(around)


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (lambda: clutch().unknown("x", 1), "`x` would be a third"),
        (lambda: metric.VectorLoop().unknown("x", 1).unknown("x", 1), "`x` is an unknown already"),
        (lambda: metric.VectorLoop().unknown("x y", 1), "`x y` is not a valid name"),
        (lambda: metric.VectorLoop().unknown("x", float("nan")), "the guess for `x` must be finite"),
        (lambda: metric.VectorLoop().link("a + b", 0), "`a + b` is not a length or an angle"),
        (lambda: metric.VectorLoop().link("a", "1e-3"), "`1e-3` is not a length or an angle"),
        (lambda: metric.VectorLoop().link(float("inf"), 0), "must be finite, not inf"),
        (lambda: metric.VectorLoop().unknown("x", 1).solve(), "has two unknowns, not 1"),
        (lambda: metric.VectorLoop().unknown("x", 1).unknown("y", 1).solve(), "no vector uses the unknown `x`"),
        (lambda: clutch().solve({"a": 1, "c": 1}), "the input e is missing"),
        (lambda: clutch().solve({**NOMINAL, "d": 1}), "`d` is unknown; expected one of a, c, e"),
        (lambda: clutch().solve({**NOMINAL, "a": float("inf")}), "does not close"),
        (lambda: clutch().propagate("d", CLUTCH), "`d` is unknown; expected one of phi, b"),
        (lambda: clutch().propagate("phi", {"a": 1}), "the input c is missing"),
        (lambda: clutch().propagate("phi", {**CLUTCH, "d": 1}), "`d` is unknown"),
        (lambda: crank().solve({"r": 30, "theta": 90, "l": 20}), "at r = 30, theta = 90, l = 20: the loop does not close"),
        (lambda: crank().propagate("x", {"r": 30, "theta": 90, "l": 20}).nominal, "does not close"),
        (lambda: inch.propagate(clutch(), CLUTCH, output="phi"), "a vector loop of tenths.metric in tenths.inch"),
        (lambda: tenths.VectorLoop.from_dict({"units": "inch"}), "the vector loop has no 'unknowns'"),
    ],
)
def test_a_refusal_says_why(call, why):
    with pytest.raises(ValueError, match=re.escape(why)):
        call()


@pytest.mark.parametrize(
    "call",
    [
        lambda: metric.VectorLoop().link(None, 0),
        lambda: metric.VectorLoop().link(0, Size("1 mm")),
        lambda: metric.propagate(clutch(), CLUTCH),
        lambda: crank().propagate("x", {"r": 30, "theta": Limits("20 ±1 mm"), "l": 90}),
        lambda: clutch().solve([1, 2, 3]),
    ],
)
def test_a_wrong_type_is_refused(call):
    with pytest.raises(TypeError):
        call()

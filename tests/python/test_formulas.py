"""How a formula behaves as a Python callable and as a ufunc."""

import copy
import decimal
import fractions
import inspect
import math
import pickle
import pydoc
import subprocess
import sys

import numpy as np
import pytest

import tenths
from tenths import inch, metric

EVERY = [getattr(side, name) for side in (inch, metric) for name in tenths.formulas()]
HUB = dict(hub_modulus=210, hub_poisson=0.3, shaft_modulus=210, shaft_poisson=0.3, friction=0.12)


def test_scalars_come_by_place_by_name_and_as_text():
    expected = math.pi * 0.5 * 1500 / 12
    assert inch.surface_speed(0.5, 1500) == pytest.approx(expected, rel=1e-15)
    for call in (
        inch.surface_speed(diameter=0.5, spindle_speed=1500),
        inch.surface_speed(0.5, spindle_speed=np.int64(1500)),
        inch.surface_speed(np.float32(0.5), True * 1500),
        inch.surface_speed(fractions.Fraction(1, 2), decimal.Decimal(1500)),
        inch.surface_speed("0.5 in", "1500 rev/min"),
        inch.surface_speed(tenths.Size("1/2 in"), 1500),
    ):
        assert call == inch.surface_speed(0.5, 1500)
        assert type(call) is float
    assert inch.surface_speed("12.7 mm", 1500) == pytest.approx(expected, rel=1e-15)


@pytest.mark.parametrize(
    "call, message",
    [
        (lambda: inch.surface_speed(), "missing required argument: 'diameter'"),
        (lambda: inch.surface_speed(1, 2, 3), "takes 2 positional arguments but 3 were given"),
        (lambda: inch.screw_preload(1, 2, 0.2), "takes 2 positional arguments but 3 were given"),
        (lambda: inch.surface_speed(1, speed=2), "unexpected keyword argument 'speed'"),
        (lambda: inch.surface_speed(1, 2, diameter=3), "multiple values for argument 'diameter'"),
        (lambda: inch.surface_speed(1j, 2), "surface_speed: 'diameter' must be a number"),
        (lambda: inch.surface_speed(np.complex64(1j), 2), "surface_speed: 'diameter' must be a number"),
        (lambda: inch.surface_speed(np.timedelta64(1, "m"), 2), "surface_speed: 'diameter' must be a number"),
        (lambda: inch.surface_speed.check(1j, 2), "surface_speed: 'diameter' must be a number"),
        (lambda: inch.surface_speed.check(None, 2), "surface_speed: 'diameter' must be a number"),
        (lambda: inch.surface_speed.check(1, tenths.Size("1 in")), "spindle_speed is not a length"),
        (lambda: inch.surface_speed(None, 2), "surface_speed: 'diameter' must be a number"),
        (lambda: inch.surface_speed(1, tenths.Size("1 in")), "spindle_speed is not a length"),
    ],
)
def test_wrong_calls_are_type_errors(call, message):
    with pytest.raises(TypeError, match=message):
        call()


def test_a_number_outside_its_domain_is_named():
    with pytest.raises(tenths.DomainError) as raised:
        inch.surface_speed(-1, 1500)
    error = raised.value
    assert isinstance(error, ValueError)
    assert str(error) == "surface_speed: diameter must be greater than 0 in, not -1 in"
    assert (error.formula, error.argument, error.value) == ("surface_speed", "diameter", -1.0)
    assert error.must_be == "greater than 0 in" and error.rule is None
    copied = pickle.loads(pickle.dumps(error))
    assert (str(copied), copied.argument, copied.output) == (str(error), "diameter", None)
    for number in (math.nan, math.inf, -math.inf):
        with pytest.raises(tenths.DomainError, match="spindle_speed must be"):
            inch.surface_speed(1, number)
    with pytest.raises(tenths.DomainError, match="diameter: `1 kg` is no|`kg` is not a unit"):
        inch.surface_speed("1 kg", 1500)
    with pytest.raises(tenths.DomainError, match="needs a unit: in or mm"):
        inch.surface_speed("1", 1500)
    with pytest.raises(tenths.DomainError, match="hub_outer_diameter must be greater than diameter .*20 mm"):
        metric.press_fit(0.02, 20, 15, 20, **HUB)


def test_arrays_keep_going():
    diameters = np.array([1.0, -1.0, np.nan, 2.0])
    with np.errstate(invalid="ignore"):
        speeds = metric.surface_speed(diameters, 1000)
    assert np.isnan(speeds).tolist() == [False, True, True, False]
    assert speeds[3] == metric.surface_speed(2, 1000)
    with np.errstate(all="raise"):
        metric.surface_speed(np.array([1.0, np.nan]), 1000)  # NaN in, NaN out, is not invalid
        with pytest.raises(FloatingPointError):
            metric.surface_speed(diameters, 1000)
    with pytest.raises(tenths.DomainError, match="row 1: surface_speed: diameter .*not -1 mm"):
        metric.surface_speed(diameters, 1000, on_error="raise")
    remarks = metric.surface_speed.check(diameters, 1000)
    assert [(r.row, r.kind, r.concerns) for r in remarks] == [
        ((1,), "error", "diameter"),
        ((2,), "error", "diameter"),
    ]


def test_what_a_call_does_on_an_error_can_be_said():
    speed = metric.surface_speed
    assert math.isnan(speed(-1, 1000, on_error="nan"))
    assert all(map(math.isnan, metric.press_fit(0.02, 20, 15, 20, **HUB, on_error="nan")))
    assert speed(1, 1000, on_error="nan") == speed(1, 1000, on_error="raise") == speed(1, 1000)
    with pytest.raises(tenths.DomainError):
        speed(-1, 1000, on_error="raise")
    for number in (1.0, np.ones(2)):
        with pytest.raises(ValueError, match="on_error must be 'nan' or 'raise', not 'ignore'"):
            speed(number, 1000, on_error="ignore")
    assert list(speed(np.ones(2), 1000, on_error="raise")) == [speed(1, 1000)] * 2
    assert isinstance(metric.press_fit([0.02], 20, 40, 20, **HUB, on_error="raise"), tenths.Results)
    with pytest.raises(tenths.DomainError, match="row 0: .*; row 1: .*; row 2: .*; and 7 more") as raised:
        speed(-np.ones(10), 1000, on_error="raise")
    assert (raised.value.formula, raised.value.argument, raised.value.value) == ("surface_speed", "diameter", -1)


def test_advice_is_data():
    (remark,) = metric.press_fit.check(0.02, 20, 40, 20, **HUB | {"hub_modulus": 0.21})
    assert (remark.kind, remark.concerns, remark.value) == ("advice", "hub_modulus", 0.21)
    assert "outside the usual 1 GPa to 750 GPa" in metric.press_fit.explain(0.02, 20, 40, 20, **HUB | {"hub_modulus": 0.21})
    assert metric.press_fit.check(0.02, 20, 40, 20, **HUB) == []


def test_advice_concerns_results_too():
    # In a slot the mean chip is 2/π of the chip load: 0.0382 and 0.0637 mm, by hand; the tables start at 0.05 mm.
    slot = {"radial_width": 20, "axial_depth": 5, "kc11": 1700, "mc": 0.25}
    thin, thick = (metric.milling_cut.check(20, 4, 3000, load, **slot) for load in (0.06, 0.1))
    (remark,) = thin
    assert thick == [] and (remark.kind, remark.concerns) == ("advice", "chip_thickness_mean")
    assert remark.value == pytest.approx(0.06 * 2 / math.pi)
    assert remark.message == "chip_thickness_mean is 0.0382 mm, but the source covers 0.05 mm to 2.5 mm"
    loads = np.array([0.1, 0.06, -1, np.nan, 0.06])
    remarks = metric.milling_cut.check(20, 4, 3000, loads, **slot)
    assert [(r.row, r.kind, r.concerns) for r in remarks] == [
        ((2,), "error", "chip_load"),
        ((3,), "error", "chip_load"),
        ((1,), "advice", "chip_thickness_mean"),
        ((4,), "advice", "chip_thickness_mean"),
    ]
    assert remarks[3].value == remark.value
    about = tenths.formulas()["milling_cut"].results[5]
    assert about["metric"]["stated_range"] == "0.05 mm to 2.5 mm"
    assert about["metric"]["stated_low"] == 0.05 and about["inch"]["stated_high"] == pytest.approx(2.5 / 25.4)
    assert "The source covers 0.05 mm to 2.5 mm." in metric.milling_cut.__doc__


def test_memory_layouts():
    rng = np.random.default_rng(7)
    a, b = rng.uniform(1, 50, (40, 60)), rng.uniform(100, 5000, 60)
    f = metric.surface_speed
    expected = f(a.copy(), np.broadcast_to(b, a.shape).copy())
    assert np.array_equal(f(a, b), expected)
    assert np.array_equal(f(a[::-3, ::2], b[::2]), expected[::-3, ::2])
    assert np.array_equal(f(a.T, b[:, None]), expected.T)
    assert np.array_equal(f(np.asfortranarray(a), b), expected)
    assert f(np.empty((0, 3)), 1.0).shape == (0, 3)
    inplace = a.copy()
    assert f.ufunc(inplace, b, out=inplace) is inplace
    assert np.array_equal(inplace, expected)
    shifted = a.ravel().copy()
    before = f(shifted[:-1].copy(), 2.0)
    f.ufunc(shifted[:-1], 2.0, out=shifted[1:])
    assert np.array_equal(shifted[1:], before)
    chain, total = a.ravel()[:50] / 10, [a.ravel()[0] / 10]
    for value in chain[1:]:
        total.append(f(total[-1], float(value)))
    assert np.array_equal(f.ufunc.accumulate(chain), total)
    out = np.full(3, -9.0)
    f.ufunc(np.array([-1.0, 1.0, 2.0]), 1.0, out=out, where=np.array([False, True, True]))
    assert out[0] == -9.0


def test_the_import_warns_of_nothing():
    subprocess.run([sys.executable, "-W", "error", "-c", "import tenths"], check=True)


@pytest.mark.libraries
def test_other_libraries_keep_their_own():
    import pandas as pd

    f = metric.surface_speed
    with pytest.raises(tenths.DomainError, match="row a: .*spindle_speed.* not NaN; row b: .*diameter.* not NaN"):
        f(pd.Series([1.0], index=["a"]), pd.Series([1.0], index=["b"]), on_error="raise")
    series = pd.Series([1.0, 2.0], index=["x", "unit"])
    assert list(f(series, 1000.0).index) == ["x", "unit"]
    assert isinstance(f(series[:1], 1000), pd.Series)
    frame = pd.DataFrame({"unit": [1.0], "dimensionality": [2.0]})
    assert list(f(frame, 1000).columns) == ["unit", "dimensionality"]
    masked = f(np.ma.array([1.0, 2.0], mask=[False, True]), 1000)
    assert masked.mask.tolist() == [False, True] and masked[0] == f(1, 1000)


@pytest.mark.parametrize("formula", EVERY, ids=repr)
def test_a_formula_tells_about_itself(formula):
    signature = inspect.signature(formula)
    assert list(signature.parameters) == list(formula.arguments)
    for name, parameter in signature.parameters.items():
        about = formula.arguments[name]
        keyword_only = parameter.kind is inspect.Parameter.KEYWORD_ONLY
        assert keyword_only == (about["default"] is not None)
        assert about["meaning"] and about["must_be"]
        assert name in formula.__doc__
    assert formula.source in formula.__doc__
    assert formula.source and set(formula.units) == set(formula.arguments) | set(formula.outputs)
    assert formula.__name__ in pydoc.plain(pydoc.render_doc(formula))
    assert pickle.loads(pickle.dumps(formula)) is formula
    assert copy.deepcopy(formula) is formula
    assert isinstance(formula.ufunc, np.ufunc)
    assert formula.ufunc.nin == len(formula.arguments) and formula.ufunc.nout == len(formula.outputs)


def test_several_results_have_names():
    joint = metric.press_fit(0.02, 20, 40, 20, **HUB)
    assert joint._fields == tuple(metric.press_fit.outputs)
    assert pickle.loads(pickle.dumps(joint)) == joint
    joints = metric.press_fit(np.array([0.02, 0.03]), 20, 40, 20, **HUB)
    assert joints.pressure[0] == joint.pressure
    assert type(joints) is type(joint)


class Carried:
    """A quantity with a unit of its own, as such libraries make them."""

    dimensionality = {"[length]": 1}
    magnitude = 12.0
    units = "mm"

    def __array__(self, dtype=None, copy=None):
        return np.array(self.magnitude)  # as such libraries do, with a warning


def test_a_unit_is_never_stripped():
    with pytest.raises(TypeError, match="carries a unit of its own"):
        inch.surface_speed(Carried(), 1000)
    with pytest.raises(TypeError, match="carries a unit of its own"):
        inch.surface_speed(np.array([1.0]), Carried())
    with pytest.raises(TypeError, match="carries a unit of its own"):
        inch.surface_speed.check(Carried(), 1000)
    with pytest.raises(TypeError, match="carries a unit of its own"):
        inch.accepts("12 ±1 mm", Carried())

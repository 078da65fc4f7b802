"""Formulas solved for an argument, as Python calls it."""

import math

import numpy as np
import pytest

import tenths
from tenths import inch, metric

JOINT = dict(diameter=1, hub_outer_diameter=2, length=1, hub_modulus=30, hub_poisson=0.292, shaft_modulus=30)
JOINT |= dict(shaft_poisson=0.292, friction=0.15)


def test_numbers_text_and_sizes():
    # Common practice: d = 12 v / (π n).
    expected = 12 * 200 / (math.pi * 1500)
    solve = inch.surface_speed.solve_for
    assert solve("diameter", 200, spindle_speed=1500) == pytest.approx(expected, rel=1e-15)
    assert type(solve("diameter", 200, spindle_speed=1500)) is float
    assert solve("diameter", "200 ft/min", spindle_speed="1500 rev/min") == solve("diameter", 200, spindle_speed=1500)
    assert solve("diameter", "60.96 m/min", spindle_speed=1500) == pytest.approx(expected, rel=1e-14)
    assert solve("spindle_speed", np.float32(200), diameter=tenths.Size("1 in")) == solve(
        "spindle_speed", 200, diameter=1
    )
    depth = metric.flat_depth.solve_for("remaining", tenths.Size("1/4 in"), diameter="25.4 mm")
    assert depth == pytest.approx(25.4 - 6.35, rel=1e-15)


def test_one_of_several_results_is_named_and_defaults_apply():
    # Solutions manual to Shigley, 8th ed., problem 3-68: 22 500 psi from 0.002 in.
    solve = inch.press_fit.solve_for
    found = solve("interference", 22500, output="pressure", **JOINT)
    assert found == pytest.approx(0.002, rel=0.5 / 22500)
    hollow = solve("interference", 22500, output="pressure", shaft_bore=0.5, **JOINT)
    assert inch.press_fit(hollow, shaft_bore=0.5, **JOINT).pressure == pytest.approx(22500, rel=1e-13)
    assert hollow > found


def test_arrays_broadcast_and_keep_going():
    solve = inch.surface_speed.solve_for
    wanted, speeds = np.array([[100.0], [200.0], [-1.0]]), np.array([500.0, 1000.0, 1500.0, np.nan])
    with pytest.warns(RuntimeWarning, match="invalid value"):
        found = solve("diameter", wanted, spindle_speed=speeds)
    assert found.shape == (3, 4) and np.isnan(found[2]).all() and np.isnan(found[:, 3]).all()
    for row, column in np.ndindex(2, 3):
        alone = solve("diameter", float(wanted[row, 0]), spindle_speed=float(speeds[column]))
        assert found[row, column] == alone
    assert np.array_equal(solve("diameter", [100, 200], spindle_speed=500), found[:2, 0])
    assert np.array_equal(solve("diameter", wanted[::-1][1:, 0], spindle_speed=500), found[:2, 0][::-1])
    with np.errstate(all="raise"):
        assert np.isnan(solve("diameter", [np.nan], spindle_speed=1)).all()
        with pytest.raises(FloatingPointError):
            solve("diameter", [-1.0], spindle_speed=1)


@pytest.mark.libraries
def test_a_series_keeps_its_labels():
    import pandas as pd

    solve = metric.surface_speed.solve_for
    series = solve("diameter", pd.Series([100.0, 200.0], index=["a", "b"]), spindle_speed=500)
    assert list(series.index) == ["a", "b"] and series["b"] == solve("diameter", 200.0, spindle_speed=500)


def test_a_long_array_is_the_same_row_by_row():
    wanted = np.linspace(10, 90, 2500)  # longer than the rows that are gathered at a time
    joint = JOINT | {"hub_outer_diameter": np.linspace(1.5, 3, 2500)}
    found = metric.press_fit.solve_for("interference", wanted, output="pressure", **joint)
    for row in (0, 1023, 1024, 2499):
        one = joint | {"hub_outer_diameter": joint["hub_outer_diameter"][row].item()}
        alone = metric.press_fit.solve_for("interference", wanted[row].item(), output="pressure", **one)
        assert found[row] == alone


def test_what_has_no_solution():
    solve = inch.surface_speed.solve_for
    with pytest.raises(tenths.DomainError, match="no value gives surface_speed = -1 ft/min: here the result is between"):
        solve("diameter", -1, spindle_speed=1500)
    assert math.isnan(solve("diameter", -1, spindle_speed=1500, on_error="nan"))
    with pytest.raises(tenths.DomainError, match="spindle_speed must be at least 0 rev/min, not -5"):
        solve("diameter", 1, spindle_speed=-5)
    with pytest.raises(tenths.DomainError, match="hub_outer_diameter must be greater than diameter"):
        inch.press_fit.solve_for("interference", 1, output="pressure", **JOINT | {"hub_outer_diameter": 0.5})
    wanted = np.array([1.0, -1.0, -2.0, -3.0, -4.0])
    with pytest.raises(tenths.DomainError, match="^row 1: .*; row 2: .*; row 3: .*; and 1 more$") as raised:
        solve("diameter", wanted, spindle_speed=1500, on_error="raise")
    assert (raised.value.formula, raised.value.argument) == ("surface_speed", "diameter")
    assert len(solve("diameter", wanted[:1], spindle_speed=1500, on_error="raise")) == 1


@pytest.mark.parametrize(
    "call, kind, message",
    [
        (lambda: inch.feed_rate.solve_for("teeth", 1, chip_load=1, spindle_speed=1), ValueError, "it is a count"),
        (lambda: inch.feed_rate.solve_for("teeth", [1], chip_load=1, spindle_speed=1), ValueError, "it is a count"),
        (lambda: inch.parts_per_bar.solve_for("kerf", 1), ValueError, "the formula counts"),
        (lambda: inch.press_fit.solve_for("diameter", 1, output="pressure"), ValueError, "not known to rise or fall steadily"),
        (lambda: inch.press_fit.solve_for("interference", 1), ValueError, "give the result to solve from: pressure, "),
        (lambda: inch.press_fit.solve_for("interference", 1, output="x"), ValueError, "`x` is not one of its results"),
        (lambda: inch.surface_speed.solve_for("speed", 1), ValueError, "it has no argument `speed`; its arguments are diameter, "),
        (lambda: inch.surface_speed.solve_for("diameter", "1 kg", spindle_speed=1), ValueError, "expected ft/min, m/min, ft/s or m/s"),
        (lambda: inch.surface_speed.solve_for("diameter", 1), TypeError, "missing required argument: 'spindle_speed'"),
        (lambda: inch.surface_speed.solve_for("diameter", 1, diameter=2), TypeError, "solves for 'diameter'"),
        (lambda: inch.surface_speed.solve_for("diameter", 1, speed=2), TypeError, "unexpected keyword argument"),
        (lambda: inch.surface_speed.solve_for("diameter", 1, 1500), TypeError, "positional argument"),
        (lambda: inch.surface_speed.solve_for("diameter", 1j, spindle_speed=2), TypeError, "must be a number"),
        (lambda: inch.surface_speed.solve_for("diameter", None, spindle_speed=2), TypeError, "must be a number"),
        (lambda: inch.surface_speed.solve_for("diameter", tenths.Size("1 in"), spindle_speed=2), TypeError, "length"),
        (lambda: inch.surface_speed.solve_for("diameter", 1, spindle_speed=2, on_error="no"), ValueError, "on_error"),
    ],
)
def test_refused_calls_say_why(call, kind, message):
    with pytest.raises(kind, match=message):
        call()

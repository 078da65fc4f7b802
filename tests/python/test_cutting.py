"""Fits of tool life against numpy's least squares, and cuts within a machine."""

import html
import pickle

import numpy as np
import pytest

import tenths
from tenths import inch, metric

SPEEDS = [120.0, 150.0, 180.0, 200.0, 240.0, 260.0]
LIVES = [61.0, 27.5, 14.2, 10.9, 5.1, 4.4]
FEEDS = [0.2, 0.25, 0.2, 0.3, 0.2, 0.25]
DEPTHS = [1.0, 2.0, 3.0, 1.5, 1.0, 2.5]


def by_numpy(*columns):
    """The slopes of ln life, their covariance with the intercept, and the residual deviation."""
    x = np.column_stack([np.ones(len(LIVES)), *(np.log(column) for column in columns)])
    b, _, _, _ = np.linalg.lstsq(x, np.log(LIVES), rcond=None)
    left = np.log(LIVES) - x @ b
    variance = left @ left / (len(LIVES) - x.shape[1])
    return x, b, variance * np.linalg.inv(x.T @ x), np.sqrt(variance)


def constants(b):
    """n, ln C, and the other exponents, from the intercept and slopes of ln life."""
    return np.array([-1 / b[1], -b[0] / b[1], *(b[2:] / b[1])])


@pytest.mark.parametrize("columns", [(SPEEDS,), (SPEEDS, FEEDS), (SPEEDS, FEEDS, DEPTHS)])
def test_a_fit_is_that_of_numpy(columns):
    _, b, covariance, deviation = by_numpy(*columns)
    fit = metric.fit_taylor(SPEEDS, LIVES, *columns[1:])
    wanted = constants(b)
    names = ["feed_exponent", "depth_exponent"][: len(columns) - 1]
    got = [fit.taylor_n, np.log(fit.taylor_c), *(getattr(fit, name) for name in names)]
    assert got == pytest.approx(wanted, rel=1e-9)
    # Derivatives by small steps, where the fit has them in closed form.
    steps = np.eye(len(b)) * 1e-6
    slopes = np.column_stack([(constants(b + step) - constants(b - step)) / 2e-6 for step in steps])
    assert np.array(fit.covariance) == pytest.approx(slopes @ covariance @ slopes.T, rel=1e-5)
    assert fit.taylor_n_error == pytest.approx(np.sqrt(fit.covariance[0][0]))
    assert fit.ln_c_error == pytest.approx(np.sqrt(fit.covariance[1][1]))
    assert fit.residual_deviation == pytest.approx(deviation, rel=1e-9)
    spread = np.log(LIVES) - np.mean(np.log(LIVES))
    assert fit.r_squared == pytest.approx(1 - deviation**2 * (len(LIVES) - len(b)) / (spread @ spread), rel=1e-9)
    at = [220.0, 0.22, 1.2][: len(columns)]
    row = np.array([1.0, *np.log(at)])
    life = fit.predict(*at)
    assert np.log(life.tool_life) == pytest.approx(row @ b, rel=1e-9)
    assert life.line_error == pytest.approx(np.sqrt(row @ covariance @ row), rel=1e-8)
    assert life.edge_error == pytest.approx(np.sqrt(row @ covariance @ row + deviation**2), rel=1e-8)


def test_a_fit_is_a_value():
    fit = metric.fit_taylor(SPEEDS, np.array(LIVES))
    assert fit == metric.fit_taylor([f"{v} m/min" for v in SPEEDS], LIVES)
    assert pickle.loads(pickle.dumps(fit)) == fit
    assert fit.to_dict()["taylor_n"] == fit.taylor_n and "TaylorFit(trials=6" in repr(fit)
    feet = inch.fit_taylor([f"{v} m/min" for v in SPEEDS], LIVES)
    assert feet.taylor_c * 0.3048 == pytest.approx(fit.taylor_c, rel=1e-9)
    assert feet.ln_c_error == pytest.approx(fit.ln_c_error, rel=1e-9)
    with pytest.raises(AttributeError):
        fit.taylor_n = 1.0


@pytest.mark.parametrize(
    "given, message",
    [
        (([100, 50], [5, 9]), "at least 3 trials"),
        (([100, 100, 100], [5, 9, 7]), "surface speeds must vary"),
        (([100, 50, 25], [5, -9, 7]), "trial 1: lives must be positive"),
        (([100, 50, 25], [5, 4, 3]), "life does not fall"),
        (([100, 50, 25], [5, 9]), "lives must have one value for each surface speed: 3, not 2"),
    ],
)
def test_trials_that_tell_no_line_are_refused(given, message):
    with pytest.raises(tenths.DomainError, match=message):
        metric.fit_taylor(*given)


# By hand: 200 mm/min, 3000 mm³/min and 2000 N/mm² are 0.1 kW, 0.125 kW of the motor at 0.8.
CUT = dict(
    cutter_diameter=10, teeth=2, spindle_speed=1000, chip_load=0.1, radial_width=5, axial_depth=3, kc11=2000, mc=0
)
MILL = metric.Machine(
    least_spindle_speed=100, greatest_spindle_speed=8000, curve=[{"spindle_speed": 500, "power": 0.1}], name="mill"
)


def test_the_feed_comes_down_to_the_power():
    limited = metric.limit_to_machine(metric.milling_cut, MILL, **CUT)
    assert limited.fits and limited.arguments["chip_load"] == pytest.approx(0.08, rel=1e-12)
    (bound,) = limited.bounds
    assert (bound.what, bound.limit, bound.least, bound.unit) == ("motor_power", 0.1, False, "kW")
    assert bound.wanted == pytest.approx(0.125, rel=1e-12)
    assert str(bound) == "motor_power: 0.125 kW wanted, 0.1 kW at most"
    assert limited.cut == metric.milling_cut(**limited.arguments)
    assert limited.to_dict()["fits"] is True and limited.to_dict()["bounds"][0]["unit"] == "kW"
    stuck = metric.limit_to_machine(metric.milling_cut, MILL, least_feed="0.09 mm", **CUT)
    assert not stuck.fits and stuck.exceeded[0].what == "motor_power"
    assert stuck.arguments["chip_load"] == 0.09


def test_a_limited_cut_is_read_with_its_units():
    limited = metric.limit_to_machine(metric.milling_cut, MILL, least_feed="0.09 mm", **CUT)
    lines = str(limited).splitlines()
    assert lines[0] == "milling_cut, beyond what the machine gives"
    words = [line.split() for line in lines]
    # 2 teeth · 0.09 mm · 1000 rev/min; by hand 0.125 kW · 0.9.
    for row in ("chip_load 0.09 mm", "teeth 2", "feed_rate 180 mm/min", "motor_power 0.1125 kW"):
        assert row.split() in words
    assert "Still too much: motor_power: 0.1125 kW wanted, 0.1 kW at most." in lines
    assert "motor_power: 0.125 kW wanted, 0.1 kW at most." in lines
    shown = limited._repr_html_()
    assert "<td>chip_load</td><td>0.09</td><td>mm</td>" in shown and "<p>Still too much: motor_power" in shown
    assert "function" not in repr(limited) and pickle.loads(pickle.dumps(limited)) == limited
    assert limited.to_dict()["formula"] == "milling_cut" and limited.to_dict()["units"] == "metric"
    feeder = inch.Machine(least_spindle_speed=100, greatest_spindle_speed=8000, greatest_axis_force=100)
    given = CUT | {"cutter_diameter": "10 mm", "chip_load": "0.1 mm", "radial_width": 0.2, "axial_depth": 0.1}
    limited = inch.limit_to_machine(inch.milling_cut, feeder, **given)
    assert limited.unchecked == ["greatest_axis_force"]
    note = "Not checked: the greatest axis force of the machine, because milling_cut has no result for it."
    lines = str(limited).splitlines()
    assert lines[-1] == note and lines[0] == "milling_cut, within what the machine gives"
    assert html.escape(note) in limited._repr_html_() and "<td>ft/min</td>" in limited._repr_html_()


def test_a_cut_that_fits_is_not_touched():
    given = CUT | {"chip_load": 0.07}
    limited = metric.limit_to_machine(metric.milling_cut, MILL, **given)
    assert limited.bounds == () and limited.cut == metric.milling_cut(**given)
    assert limited.arguments.items() >= given.items()


def test_what_cannot_be_asked_is_refused():
    with pytest.raises(tenths.DomainError, match="at least 100 rev/min, the lowest of the machine"):
        metric.limit_to_machine(metric.milling_cut, MILL, **CUT | {"spindle_speed": 50})
    with pytest.raises(tenths.DomainError, match="no argument spindle_speed"):
        metric.limit_to_machine(metric.flat_depth, MILL, 20, 18)
    target = dict.fromkeys(list(metric.milling_cut_for_target.arguments), 1)
    with pytest.raises(tenths.DomainError, match="no argument spindle_speed; use milling_cut"):
        metric.limit_to_machine(metric.milling_cut_for_target, MILL, **target)
    with pytest.raises(tenths.DomainError, match="chip_load must be greater"):
        metric.limit_to_machine(metric.milling_cut, MILL, **CUT | {"chip_load": -1})
    with pytest.raises(tenths.DomainError, match="500 rev/min is above greatest_spindle_speed, 100 rev/min") as refused:
        metric.Machine(least_spindle_speed=500, greatest_spindle_speed=100)
    assert [place for place, _ in refused.value.faults] == ["/least_spindle_speed"]
    with pytest.raises(TypeError, match="does not take 'speed'"):
        metric.Machine(least_spindle_speed=5, greatest_spindle_speed=100, curve=[{"speed": 1}])


def test_a_machine_is_a_value():
    again = tenths.Machine.from_json(MILL.to_json())
    assert again == MILL == pickle.loads(pickle.dumps(MILL)) and MILL.to_dict()["name"] == "mill"
    hp = inch.Machine(least_spindle_speed=100, greatest_spindle_speed=8000, greatest_feed_rate="2540 mm/min")
    assert hp.to_dict()["greatest_feed_rate"] == pytest.approx(100.0)
    assert hp != MILL

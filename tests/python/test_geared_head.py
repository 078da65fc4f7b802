"""The nearest lower step of a geared head: of one speed and of arrays."""

import numpy as np
import pytest

import tenths
from tenths import inch, metric

STEPS = [355, 45, 90, 180, 250]


def test_one_speed():
    for shop in (inch, metric):
        assert shop.lower_spindle_step(249.9, STEPS) == 180.0
        assert shop.lower_spindle_step("250 rpm", ["250 rev/min", 45.0]) == 250.0
        assert shop.lower_spindle_step(np.int64(90), np.array(STEPS)) == 90.0
    with pytest.raises(tenths.DomainError, match="at least 45 rev/min, the lowest of the steps"):
        metric.lower_spindle_step(44.9, STEPS)
    for wanted, steps in [(100, []), (np.nan, STEPS), (np.inf, STEPS), (100, [90, -1]), ([100], []), ([100], [90, -1])]:
        with pytest.raises(tenths.DomainError):
            metric.lower_spindle_step(wanted, steps)
    for wanted, steps in [(None, STEPS), (100, [None]), ([None], STEPS), ([1j], STEPS)]:
        with pytest.raises(TypeError):
            metric.lower_spindle_step(wanted, steps)


def test_arrays():
    wanted = np.array([[45.0, 89.999, 90.0], [1e9, 180.0, 354.0]])
    assert metric.lower_spindle_step(wanted, STEPS).tolist() == [[45.0, 45.0, 90.0], [355.0, 180.0, 250.0]]
    assert metric.lower_spindle_step([50, 100], ["45 rpm", 90]).tolist() == [45.0, 90.0]
    with np.errstate(invalid="raise"):
        assert np.isnan(metric.lower_spindle_step([np.nan, 50.0], STEPS)).tolist() == [True, False]
        with pytest.raises(FloatingPointError):
            metric.lower_spindle_step([44.0, 50.0], STEPS)
    with np.errstate(invalid="ignore"):
        assert np.isnan(metric.lower_spindle_step([44.0, np.inf, 50.0], STEPS)).tolist() == [True, True, False]


def test_arrays_and_single_speeds_agree():
    wanted = np.linspace(45.0, 400.0, 1001)
    assert metric.lower_spindle_step(wanted, STEPS).tolist() == [inch.lower_spindle_step(w, STEPS) for w in wanted]

"""Decisions about a process: drift of a tool from readings, proofs, pre-control."""

import pickle

import numpy
import pytest
import tenths
from tenths import inch, metric

GENERATOR = numpy.random.default_rng(7)
PARTS = numpy.arange(1, 200, 4)
READINGS = 9.98 + 0.0003 * PARTS + GENERATOR.normal(0, 0.004, PARTS.size)


@pytest.mark.libraries
def test_the_line_is_that_of_scipy():
    from scipy import stats

    made = metric.tool_drift(READINGS, (9.95, 10.10), PARTS)
    line = stats.linregress(PARTS, READINGS)
    assert made.drift_per_part == pytest.approx(line.slope, rel=1e-10)
    assert made.drift_p == pytest.approx(line.pvalue, rel=1e-8)
    half = stats.t.ppf(0.975, PARTS.size - 2) * line.stderr
    assert made.drift_interval == pytest.approx((line.slope - half, line.slope + half), rel=1e-9)
    left = READINGS - line.intercept - line.slope * PARTS
    deviation = numpy.sqrt((left**2).sum() / (PARTS.size - 2))
    assert made.deviation == pytest.approx(deviation, rel=1e-9)
    assert made.parts_between_offsets == 1 + int((0.15 - 6 * deviation) / line.slope)
    assert made.least_parts_between_offsets == 1 + int((0.15 - 6 * deviation) / (line.slope + half))
    assert made.parts_left == int((10.10 - 3 * deviation - line.intercept - line.slope * PARTS[-1]) / line.slope)
    assert made.aim == pytest.approx(10.025 - (0.15 - 6 * deviation) / 2)
    assert made.offset == pytest.approx(made.aim - made.last)


def test_a_higher_capability_leaves_fewer_parts():
    parts = [metric.tool_drift(READINGS, "10.025 ±0.075 mm", PARTS, capability=cpk).parts_between_offsets for cpk in (1, 1.33, 1.67)]
    assert parts == sorted(parts, reverse=True) and len(set(parts)) == 3


def test_inches_and_millimetres_agree():
    one, other = (side.tool_drift(data, "10 ±0.1 mm", PARTS) for side, data in ((metric, READINGS), (inch, READINGS / 25.4)))
    assert one.parts_between_offsets == other.parts_between_offsets
    assert one.offset / 25.4 == pytest.approx(other.offset)
    assert pickle.loads(pickle.dumps(one)) == one and one != other
    assert "parts between offsets" in str(one)


@pytest.mark.parametrize(
    "data, limits, parts, message",
    [
        ([], (9, 11), None, "a drift needs 3 or more readings, not 0"),
        ([10, 10.1], (9, 11), None, "a drift needs 3 or more readings, not 2"),
        ([10, float("nan"), 10.1], (9, 11), None, "reading 2 is NaN"),
        ([10, 10.1, 10.2], (11, 9), None, "lower limit 11 must be below the upper limit 9"),
        ([10, 10.1, 10.2], (None, None), None, "needs a lower limit, an upper limit or both"),
        ([10, 10.1, 10.2], (9, 11), [1, 2], "2 part numbers were given; expected one for each of 3 readings"),
        ([10, 10.1, 10.2], (9, 11), [1, 3, 2], "part number 2 at reading 3 must be a whole number above"),
        ([10, 10.1, 10.2], (9, 11), [1, 2.5, 3], "part number 2.5 at reading 2"),
        ([[10, 10.1, 10.2]], (9, 11), None, "data must be one row of numbers, not 2 dimensions"),
    ],
)
def test_what_cannot_be_is_refused(data, limits, parts, message):
    with pytest.raises(tenths.DomainError, match=message):
        metric.tool_drift(data, limits, parts)


def test_a_drift_over_a_setting_or_in_another_unit_is_noticed():
    run = [9.95 + 0.001 * part + 0.0003 * (-1) ** part for part in range(30)]
    assert metric.tool_drift(run, (9.9, 10.1)).advice == ""
    assert "was the tool set there?" in metric.tool_drift(run + run, (9.9, 10.1)).advice
    inches = [size / 25.4 for size in run]
    for limits in ((9.9, 10.1), (None, 10.1)):
        assert "in the same unit" in metric.tool_drift(inches, limits).advice
        assert "in the same unit" in metric.capability(inches, limits).advice


def test_what_is_shown_and_what_it_takes_are_inverse():
    readings = metric.readings_to_show_capability(1.67, 1.33, chance=0.5)
    assert metric.capability_to_show(1.33, readings) <= 1.67 < metric.capability_to_show(1.33, readings - 1)
    assert metric.capability_shown(metric.capability_to_show(1.33, 50), 50) == pytest.approx(1.33)
    pieces = metric.setup_pieces(0.9)
    assert metric.good_share_shown(pieces) >= 0.9 > metric.good_share_shown(pieces - 1)


def test_samples_show_a_capability_as_often_as_they_are_said_to():
    readings = int(metric.readings_to_show_capability(1.67, 1.33))
    drawn = numpy.random.default_rng(3).normal(0, 1, (4000, readings))
    mean, deviation = drawn.mean(1), drawn.std(1, ddof=1)
    cpk = (3 * 1.67 - numpy.abs(mean)) / (3 * deviation)
    shown = (metric.capability_shown(cpk, readings) >= 1.33).mean()
    assert shown == pytest.approx(0.9, abs=0.03)


def test_the_risks_of_pre_control_are_those_of_drawn_pieces():
    risks = metric.pre_control_risks(0.1, 0.02, process_offset=0.01)
    pairs = numpy.random.default_rng(5).normal(0.01, 0.02, (200_000, 2))
    zone = numpy.where(abs(pairs) > 0.05, 2, numpy.where(abs(pairs) > 0.025, 1, 0))
    runs = (zone[:, 0] == 0) | ((zone[:, 0] == 1) & (zone[:, 1] == 0))
    yellows = (zone == 1).all(1)
    again = yellows & (numpy.sign(pairs[:, 0]) == numpy.sign(pairs[:, 1]))
    assert risks.runs == pytest.approx(runs.mean(), abs=0.005)
    assert risks.sets_again == pytest.approx(again.mean(), abs=0.005)
    assert risks.stops == pytest.approx(1 - runs.mean() - again.mean(), abs=0.005)
    assert risks.runs + risks.sets_again + risks.stops == pytest.approx(1)


def test_an_offset_of_the_other_sign_is_the_same():
    assert metric.pre_control_risks(0.1, 0.02, process_offset=0.03) == metric.pre_control_risks(0.1, 0.02, process_offset=-0.03)
    nothing = metric.pre_control_risks(0.1, 1e-6, process_offset=0.04)
    assert (nothing.setup_passes, nothing.runs, nothing.sets_again) == (0, 0, 1)


def test_taylor_gives_the_parts_between_offsets():
    life = metric.tool_life(200, 350, 0.25)
    drift = metric.drift_per_part(0.3, 6, 0.5, life)
    plan = metric.parts_between_offsets(0.05, 0.003, drift)
    assert plan.parts == 1 + (0.05 - 0.018) // drift
    assert plan.first_part == pytest.approx(0.016)

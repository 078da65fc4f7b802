"""Feeds along a toolpath, against the formulas of whole cuts and against geometry and motion written out here."""

import math

import numpy as np
import pytest

from tenths import inch, metric

CUT = {"cutter_diameter": 10, "teeth": 3, "spindle_speed": 6000, "chip_thickness": 0.05, "kc11": 1700, "mc": 0.25}
KEYS = ("cutter_diameter", "teeth", "spindle_speed", "kc11", "mc")


def figures(feed, width, depth):
    load = feed / (CUT["teeth"] * CUT["spindle_speed"])
    return metric.milling_cut(chip_load=load, radial_width=width, axial_depth=depth, **{key: CUT[key] for key in KEYS})


def test_limits_are_those_of_the_whole_cut():
    generator = np.random.default_rng(7)
    count = 400
    width, depth = generator.uniform(0.05, 10, count), generator.uniform(0.5, 20, count)
    limits = {"greatest_force": 900, "greatest_power": 1.2, "greatest_feed_rate": 1500, "stiffness": 4000, "greatest_deflection": 0.15}
    made = metric.path_feeds(np.full(count, 2.0), width, depth, **CUT, **limits)
    cut = figures(made.feed_rate, width, depth)
    force = cut.tooth_force * np.maximum(1, np.ceil(cut.teeth_engaged - 1e-12))
    shares = {
        "chip_thickness": cut.chip_thickness_max / 0.05,
        "deflection": force / 4000 / 0.15,  # 600 N, before the 900 N of the force.
        "power": cut.cutting_power / 1.2,
        "feed_rate": made.feed_rate / 1500,
    }
    assert set(made.bound) == set(shares)
    for name, share in shares.items():
        assert share.max() <= 1 + 1e-9
        assert share[made.bound == name] == pytest.approx(1, rel=1e-9)
    assert made.total_time == pytest.approx((2.0 / made.feed_rate).sum())


def test_a_curve_changes_the_engagement():
    # The largest chip over the arc found on a fine grid of the cutter's rim: what lies within the wall before the cut.
    for width, radius, inside in ((2, 15, True), (2, 15, False), (4, 30, True), (0.3, 6, False)):
        angles = np.linspace(0, math.pi, 200001)
        outward = 1 if inside else -1
        x, y = radius + outward * 5 * np.cos(angles), 5 * np.sin(angles)
        distance = np.hypot(x, y)
        before = radius + outward * 5 - outward * width
        cutting = distance > before if inside else distance < before
        largest = np.sin(angles[cutting]).max()
        made = metric.path_feeds(1, width, 5, outward / radius, **CUT)
        assert made.feed_rate[0] * largest / 18000 == pytest.approx(0.05, rel=1e-4)


def motion(lengths, feeds, acceleration):
    """The time by small steps: as fast as each segment lets it, and slow enough for all that follow."""
    step = 0.002
    place = np.arange(0, sum(lengths), step)
    segment = np.minimum(np.searchsorted(np.cumsum(lengths), place, side="right"), len(lengths) - 1)
    square = np.array(feeds)[segment] ** 2
    for k in range(1, len(square)):
        square[k] = min(square[k], (square[k - 1] if k > 1 else 0.0) + 2 * acceleration * step)
    square[0] = 0
    square = np.append(square, 0.0)
    for k in range(len(square) - 2, -1, -1):
        square[k] = min(square[k], square[k + 1] + 2 * acceleration * step)
    speed = np.sqrt(square)
    return (2 * step / (speed[1:] + speed[:-1])).sum()


def test_speeds_meet_from_one_segment_to_the_next():
    lengths, widths = [3.0, 0.4, 8.0, 1.0, 5.0], [1, 10, 0.5, 4, 2]
    free = metric.path_feeds(lengths, widths, 8, **CUT, greatest_power=1)
    made = metric.path_feeds(lengths, widths, 8, **CUT, greatest_power=1, acceleration=0.2)
    wanted = motion(lengths, free.feed_rate / 60, 200) / 60
    assert made.total_time == pytest.approx(wanted, rel=5e-3) and made.total_time > free.total_time
    assert "acceleration" in made.bounds and (made.feed_rate <= free.feed_rate).all()
    curve = metric.path_feeds(50, 0.1, 1, 0.5, **CUT, acceleration=0.2, start_feed_rate=600, end_feed_rate=600)
    assert curve.bound[0] == "curve" and curve.feed_rate[0] == pytest.approx(60 * math.sqrt(200 * 2))


@pytest.mark.libraries
def test_units_frames_and_scalars():
    made = metric.path_feeds([5, 5], 1, 8, ["50 1/m", 0], **CUT, greatest_power="1 kW", acceleration="2000 mm/s²")
    frame = made.to_frame()
    assert list(frame.columns) == ["feed_rate", "bound", "chip_thickness", "time"] and len(made) == 2
    assert frame.attrs["units"]["feed_rate"] == "mm/min" and made.to_dict()["units"] == "metric"
    texts = {"cutter_diameter": "10 mm", "chip_thickness": "0.05 mm", "kc11": "1700 MPa"}
    other = inch.path_feeds(["5 mm", "5 mm"], "1 mm", "8 mm", ["50 1/m", 0], **{**CUT, **texts}, greatest_power="1 kW", acceleration="2 m/s²")
    assert other.feed_rate * 25.4 == pytest.approx(made.feed_rate) and other.total_time == pytest.approx(made.total_time)
    assert "2 segments in" in str(made) and "rub" not in str(made)
    thin = metric.path_feeds(5, 10, 8, **CUT, greatest_power=0.2, least_chip_thickness=0.02)
    assert thin.rubbing == 1 and "1 rub" in str(thin)


# By hand: 8 of 10 kW reach the cutter, and 10 N·m at 6000 rev/min are 2π kW.
def test_a_machine_adds_its_limits():
    curve = [{"spindle_speed": 1000, "power": 2}, {"spindle_speed": 6000, "power": 10, "torque": 10}]
    limits = {"least_spindle_speed": 100, "greatest_spindle_speed": 8000, "greatest_feed_rate": 2500, "greatest_acceleration": "3 m/s²"}
    mill = metric.Machine(**limits, curve=curve)
    cut = {**CUT, "spindle_speed": 6000}
    on = metric.path_feeds([5, 5], 10, 20, **cut, machine=mill)
    by_hand = metric.path_feeds([5, 5], 10, 20, **cut, greatest_power=2 * math.pi, greatest_feed_rate=2500, acceleration=3)
    assert on.feed_rate == pytest.approx(by_hand.feed_rate) and on.total_time == pytest.approx(by_hand.total_time)
    weak = metric.path_feeds([500], 10, 20, **cut, machine=mill, efficiency=0.05)
    assert weak.bounds == {"power": 1}
    assert metric.path_feeds([500], 10, 20, **cut, greatest_power=0.5).feed_rate == pytest.approx(weak.feed_rate)
    assert type(mill).from_json(mill.to_json()).to_json() == mill.to_json()
    slow = metric.Machine(**limits, least_feed_rate=400, curve=[{"spindle_speed": 1000, "power": 0.1}])
    with pytest.raises(ValueError, match="segment 0: its limits allow .* mm/min, and the lowest feed rate is 400 mm/min"):
        metric.path_feeds([500], 10, 20, **cut, machine=slow)
    for given, said in [
        ({"spindle_speed": 9000, "machine": mill}, "must be within the machine's, 100 to 8000 rev/min, not 9000 rev/min"),
        ({"machine": mill, "efficiency": 80}, "efficiency must be greater than 0 and at most 1, not 80"),
        ({"machine": limits}, "machine must be a Machine, not dict"),
        ({"machine": metric.Machine(**limits, curve=[{"spindle_speed": 6000, "power": 0}])}, "the machine has no power at 6000 rev/min"),
    ]:
        with pytest.raises((TypeError, ValueError), match=said):
            metric.path_feeds([5], 1, 8, **{**cut, **given})


@pytest.mark.parametrize(
    ("given", "text"),
    [
        ({"length": [5, 0]}, "segment 1: length must be greater than 0, not 0 mm"),
        ({"length": [5, math.nan]}, "segment 1: length must be greater than 0, not NaN mm"),
        ({"radial_width": 11}, "radial_width must be from 0 to the cutter's diameter, not 11 mm"),
        ({"axial_depth": -1}, "axial_depth must be zero or more, not -1 mm"),
        ({"curvature": -0.21}, "the centre runs no closer than the cutter's radius, not -0.21 1/mm"),
        ({"radial_width": 0}, "segment 0 cuts nothing"),
        ({"radial_width": [1, 2, 3]}, "not of different lengths: length 2, radial_width 3"),
        ({"teeth": 2.5}, "path_feeds: teeth must be a whole number, zero or more, not 2.5"),
        ({"mc": 1}, "mc must be from 0 to 0.9, not 1"),
        ({"stiffness": 100}, "give both"),
        ({"kc11": None}, "'kc11' must be one number"),
        ({"acceleration": 0}, "acceleration must be greater than 0, not 0 m/s²"),
        ({"acceleration": 1, "start_feed_rate": 90000}, "start_feed_rate of 90000 mm/min is more than"),
        ({"least_chip_thickness": 0.06}, "least_chip_thickness must be at most chip_thickness, not 0.06 mm"),
    ],
)
def test_what_cannot_be_is_refused(given, text):
    with pytest.raises((TypeError, ValueError)) as told:
        metric.path_feeds(**{"length": [5, 5], "radial_width": 1, "axial_depth": 8, **CUT, **given})
    assert text in str(told.value)

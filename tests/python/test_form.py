"""Form from points: the figures of tests/published/forms.csv, made data, and holes in a datum frame."""

import pathlib
import pickle

import numpy
import pytest

import tenths
from tenths import inch, metric

FILE = pathlib.Path(__file__).parent.parent / "published" / "forms.csv"
LINES = [line.split(";") for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith("# ")]
RING = [(10.0, 0.0), (0.0, 10.02), (-10.0, 0.0), (0.0, -10.02)]


def test_published_forms():
    assert len(LINES) >= 23
    for feature, criterion, columns, points, name, figure, _seen, _source in LINES:
        rows = numpy.array(points.split(" "), dtype=float).reshape(-1, int(columns))
        fit = metric.fit_form(feature, rows, criterion)
        got = fit.centre["xyz".index(name[-1])] if name.startswith("centre_") else getattr(fit, name)
        places = len(figure.partition(".")[2])
        assert abs(got - float(figure)) <= 0.501 * 10.0**-places, (feature, criterion, name)


def test_a_fit_tells_where_it_deviates():
    fit = metric.fit_form("circle", RING, "minimum zone")
    assert fit.deviation == pytest.approx(0.02) and fit.radius == pytest.approx(10.01) and fit.units == "metric"
    assert fit.highest in (1, 3) and fit.lowest in (0, 2) and len(fit.deviations) == fit.count == 4
    assert fit.centre == pytest.approx((0, 0)) and fit.direction == ()
    assert repr(fit) == "<circle through 4 points by minimum zone: radius 10.01 mm, deviation 0.02 mm>"
    assert fit == pickle.loads(pickle.dumps(fit))
    assert inch.fit_form("circle", RING).units == "inch"


@pytest.mark.parametrize("dtype", ["f8", "f4", "i4"])
def test_points_of_any_real_dtype(dtype):
    points = (numpy.array(RING) * 100).astype(dtype)
    assert metric.fit_form("circle", points).radius == pytest.approx(1001, abs=1e-6)
    assert metric.fit_form("circle", points[::-1]).radius == pytest.approx(1001, abs=1e-6)


@pytest.mark.libraries
def test_points_of_other_libraries():
    import pandas
    import pint

    frame = pandas.DataFrame(RING, columns=["x", "y"]).sample(frac=1, random_state=3)
    assert metric.fit_form("circle", frame).radius == pytest.approx(10.01)
    in_inches = numpy.array(RING) / 25.4 * pint.UnitRegistry().inch
    assert metric.fit_form("circle", in_inches).radius == pytest.approx(10.01)


@pytest.mark.parametrize(
    ("feature", "points", "error", "why"),
    [
        ("square", RING, tenths.DomainError, "`square` is not a feature; expected line, plane"),
        ("plane", RING, tenths.DomainError, "a plane needs points of 3 coordinates, not 2"),
        ("circle", RING[:2], tenths.DomainError, "a circle needs at least 3 points, not 2"),
        ("circle", [], tenths.DomainError, "a circle needs at least 3 points, not 0"),
        ("circle", [*RING, (numpy.nan, 0)], tenths.DomainError, "coordinate x of point 4 must be finite, not NaN"),
        ("circle", [(1, 1), (2, 2), (3, 3)], tenths.DomainError, "the points do not fix a circle"),
        ("circle", [1.0, 2.0], TypeError, "a row of 2 or 3 coordinates"),
        ("circle", [("1 mm", 2)], TypeError, "points must be numbers, not text"),
        ("circle", numpy.ma.array(RING, mask=[[1, 0]] + 3 * [[0, 0]]), TypeError, "masked"),
    ],
)
def test_what_fixes_no_feature_is_refused(feature, points, error, why):
    with pytest.raises(error, match=why):
        metric.fit_form(feature, points)
    with pytest.raises(tenths.DomainError, match="is not a criterion"):
        metric.fit_form("circle", RING, "best")


# The centre at 30.03, 20.04 misses 30, 20 by 0.05, a diameter of 0.1.
def test_a_hole_is_placed_in_its_datum_frame():
    turns = numpy.radians(numpy.arange(0, 360, 45))
    hole = numpy.c_[30.03 + 6.04 * numpy.cos(turns), 20.04 + 6.04 * numpy.sin(turns), 0 * turns - 4]
    datums = [[(0, 0, 0), (80, 0, 0), (0, 60, 0)], [(0, 5, -3), (0, 55, -8)], [(40, 0, -5)]]
    # Turned and moved, as the part lies on the machine.
    turn = numpy.array([[2, 2, -1], [-1, 2, 2], [2, -1, 2]]) / 3

    def moved(points):
        return numpy.asarray(points) @ turn.T + [100, -50, 20]

    made = metric.hole_position(moved(hole), (30, "20 mm"), 0.1001, datums=[moved(one) for one in datums])
    assert (made.x, made.y, made.diameter) == pytest.approx((30.03, 20.04, 12.08))
    assert made.check.accepted and made.check.error.to_float("mm") == pytest.approx(0.1)
    assert made == pickle.loads(pickle.dumps(made)) and isinstance(made.check, tenths.PositionCheck)
    inside = metric.hole_position(hole, (30, 20), "0.05 mm", condition="MMC", limits="12..12.15 mm")
    assert inside.check.bonus.to_float("mm") == pytest.approx(0.08) and inside.check.accepted
    with pytest.raises(tenths.DomainError, match="give all or none"):
        metric.hole_position(hole, (30, 20), 0.1, condition="MMC")
    with pytest.raises(tenths.DomainError, match="the secondary datum plane needs at least 2 points, not 1"):
        metric.hole_position(hole, (30, 20), 0.1, datums=[datums[0], datums[2], datums[2]])
    with pytest.raises(tenths.DomainError, match="outside its limits"):
        metric.hole_position(hole, (30, 20), 0.1, condition="MMC", limits="12.1..12.15 mm")


@pytest.mark.parametrize(
    ("nominal", "options", "error", "why"),
    [
        ((20, 30, 0), {}, TypeError, "nominal must be two distances.*; 3 given"),
        (20, {}, TypeError, "nominal must be two distances.*; 1 given"),
        ((20, 30), {"datums": [RING]}, TypeError, "datums must be the points of three planes; 1 given"),
        ((20, 30), {"condition": "RFS"}, tenths.DomainError, "condition is 'MMC' or 'LMC': leave it out for RFS"),
        ((20, 30), {"condition": "RFS", "limits": "12 H7"}, tenths.DomainError, "leave it out for RFS"),
    ],
)
def test_what_places_no_hole_is_refused(nominal, options, error, why):
    with pytest.raises(error, match=why):
        metric.hole_position([(x, y, 0) for x, y in RING], nominal, 0.1, **options)


def test_a_feature_has_a_name():
    with pytest.raises(TypeError, match="feature must be text such as 'circle', not None"):
        metric.fit_form(None, RING)

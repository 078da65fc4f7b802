"""Control charts: published figures, what is taken for readings, and what is refused."""

import math
import pathlib

import numpy
import pytest
import tenths

PUBLISHED = pathlib.Path("tests/published")
KNOWN = ("centre", "sigma", "weight", "slack", "decision")


def _lines(name):
    text = (PUBLISHED / name).read_text(encoding="utf-8")
    return [line for line in text.splitlines() if not line.startswith("#")]


def _numbers(text):
    return [float(word) for word in text.split()]


def _chart(fields):
    _, _, kind, data, sizes, centre, sigma, constants, rules, weight, slack, decision = fields
    given = dict(zip(KNOWN, (centre, sigma, weight, slack, decision)))
    given = {name: float(value) for name, value in given.items() if value}
    sizes = _numbers(sizes)[0] if sizes else None
    return tenths.control_chart(kind, _numbers(data), sizes=sizes, constants=constants, rules=rules, **given)


def _figure(chart, quantity):
    name, _, number = quantity.partition(" ")
    if name == "rule":
        return [broken.point for broken in chart.location.broken if broken.rule == int(number)]
    if name == "point":
        return [chart.location.points[int(number) - 1].value]
    if name == "sigma":
        return [chart.phases[0].sigma]
    series, _, line = quantity.partition(".")
    return [getattr(getattr(chart, series), line)]


def test_charts_meet_their_sources():
    count = 0
    for line in _lines("control_charts.csv"):
        fields = line.split(";")
        if fields[0] == "chart":
            chart = _chart(fields)
            continue
        _, quantity, value, within, _, source = fields
        assert _figure(chart, quantity) == pytest.approx(_numbers(value), abs=float(within) * (1 + 1e-9) + 1e-12), source
        count += 1
    assert count >= 50


def test_constants_meet_their_table():
    head, *rows = [line.split(",") for line in _lines("chart_constants.csv")]
    names = {"A": "a", "A2": "a2", "A3": "a3", "B3": "b3", "B4": "b4", "B5": "b5", "B6": "b6", "E2": "e2"}
    names |= {f"D{k}": f"d{k}_limit" for k in range(1, 5)}
    for row in rows:
        exact, printed = (tenths.chart_constants(int(row[0]), source) for source in ("exact", "printed"))
        for column, figure in list(zip(head, row))[1:]:
            of = column.removesuffix("_printed")
            got = getattr(printed if of != column else exact, names.get(of, of))
            assert got == pytest.approx(float(figure), abs=0 if of != column else 1.01e-6), (row[0], column)


def test_subgroups_come_in_many_forms():
    rows = [[1.0, 2, 3], [2, 3, 5], [1, 1, 4]]
    table = tenths.control_chart("xbar_r", rows)
    flat = numpy.ravel(rows)
    for other in (
        tenths.control_chart("xbar_r", numpy.array(rows)),
        tenths.control_chart("xbar_r", flat, sizes=3),
        tenths.control_chart("xbar_r", flat, sizes=[3, 3, 3]),
        tenths.control_chart("xbar_r", flat, subgroup=["b", "b", "b", "a", "a", "a", "c", "c", "c"]),
        tenths.control_chart("xbar_r", numpy.array(rows, dtype="i2")),
    ):
        assert other == table
    mixed = tenths.control_chart("xbar_r", [1.0, 2, 2, 3, 1, 3, 5, 1, 4], subgroup=list("abbaabcac"))
    assert [point.size for point in mixed.location.points] == [4, 3, 2]
    ragged = tenths.control_chart("xbar_s", [[1.0, 2], [1, 2, 4], [2, 1]])
    assert ragged.location.upper is None and ragged.location.centre == pytest.approx(13 / 7)
    assert ragged.location.points[1].upper < ragged.location.points[0].upper


@pytest.mark.libraries
def test_frames_and_series_are_taken():
    import pandas

    rows = [[1.0, 2, 3], [2, 3, 5], [1, 1, 4]]
    assert tenths.control_chart("xbar_s", pandas.DataFrame(rows)) == tenths.control_chart("xbar_s", rows)
    series = pandas.Series([1.0, 2, 4, 3], index=[9, 8, 7, 6])
    assert tenths.control_chart("i_mr", series) == tenths.control_chart("i_mr", [1, 2, 4, 3])
    nullable = pandas.Series([1.0, None, 4], dtype="Float64")
    with pytest.raises(tenths.DomainError, match="reading 2 is NaN"):
        tenths.control_chart("i_mr", nullable)
    with pytest.raises(TypeError, match="column 'data' must be numbers"):
        tenths.control_chart("i_mr", pandas.Series(["1.0", "2.0"]))
    points = tenths.control_chart("i_mr", series).location.points.to_frame()
    assert list(points["value"]) == [1, 2, 4, 3]


def test_missing_readings_and_text_are_refused_with_their_place():
    for data, error, message in (
        ([1.0, math.nan, 2], tenths.DomainError, "reading 2 is NaN"),
        ([1.0, None, 2], tenths.DomainError, "reading 2 is NaN"),
        ([1.0, math.inf, 2], tenths.DomainError, "reading 2 is inf"),
        (numpy.ma.array([1.0, 2, 3], mask=[0, 0, 1]), tenths.DomainError, "reading 3 is masked"),
        (["1", "2"], TypeError, "data must be numbers, not text"),
        ([1.0, "2", None], TypeError, "must be numbers|must be a number"),
        ([True, False], TypeError, "reading 1 must be a number, not True"),
        ([], tenths.DomainError, "too few points, 0"),
    ):
        with pytest.raises(error, match=message):
            tenths.control_chart("i_mr", data)
    with pytest.raises(tenths.DomainError, match="reading 2, 1 is NaN"):
        tenths.control_chart("xbar_r", [[1, 2], [math.nan, 3]])
    with pytest.raises(tenths.DomainError, match="not a kind of control chart"):
        tenths.control_chart("xbar", [1, 2])
    with pytest.raises(tenths.DomainError, match="needs the readings in each subgroup"):
        tenths.control_chart("xbar_r", [1, 2])
    with pytest.raises(TypeError, match="neither sizes nor subgroup"):
        tenths.control_chart("xbar_r", [[1, 2], [2, 3]], sizes=2)
    with pytest.raises(tenths.DomainError, match="phase 'a' comes back at point 5"):
        tenths.control_chart("c", [1, 2, 3, 4, 5, 6], phases=list("aabbaa"))
    with pytest.raises(tenths.DomainError, match="sigmas must be"):
        tenths.control_chart("c", [1, 2, 3], sigmas=0)


def test_phases_have_limits_of_their_own():
    data = [10.0, 10.2, 9.9, 10.1, 20.0, 20.4, 19.8, 20.2]
    chart = tenths.control_chart("i_mr", data, phases=["before"] * 4 + ["after"] * 4)
    assert [(phase.first, phase.last) for phase in chart.phases] == [(1, 4), (5, 8)]
    assert not chart.location.broken and chart.location.centre is None
    assert chart.phases[1].centre == pytest.approx(numpy.mean(data[4:]))


def test_limits_are_those_of_numpy():
    table = numpy.random.default_rng(7).normal(25, 0.01, (30, 5))
    chart = tenths.control_chart("xbar_s", table, rules="limits")
    constants = tenths.chart_constants(5)
    mean, deviation = table.mean(), table.std(axis=1, ddof=1).mean()
    assert chart.location.centre == pytest.approx(mean, rel=1e-14)
    assert chart.location.upper == pytest.approx(mean + constants.a3 * deviation, rel=1e-13)
    assert chart.dispersion.lower == 0 and chart.dispersion.upper == pytest.approx(constants.b4 * deviation, rel=1e-12)
    wide = tenths.control_chart("xbar_s", table, rules="limits", sigmas=2)
    ratio = (wide.location.upper - mean) / (chart.location.upper - mean)
    assert ratio == pytest.approx(2 / 3, rel=1e-9)


def test_run_lengths_are_those_of_printed_tables():
    """1/p with scipy; CUSUM and EWMA as in Montgomery, Introduction to Statistical Quality Control (from memory)."""
    shewhart = tenths.average_run_length("i_mr", [0, 0.5, 1, 1.5, 2, 3])
    exact = [370.39834734496, 155.22420075263, 43.89468171854, 14.967685005614, 6.302962987143, 1.9999999960536]
    assert shewhart == pytest.approx(exact, rel=1e-9)
    assert tenths.average_run_length("xbar_r", 0.5, size=4) == pytest.approx(exact[2], rel=1e-9)
    assert tenths.average_run_length("cusum", [0, 1]) == pytest.approx([465, 10.4], rel=0.003)
    assert tenths.average_run_length("ewma", [0, 1], weight=0.1, sigmas=2.814) == pytest.approx([500, 10.3], rel=0.01)
    with pytest.raises(tenths.DomainError, match="a run length is given for .*, not for p"):
        tenths.average_run_length("p", 1)


@pytest.mark.parametrize(("shift", "weight", "sigmas"), [(1, 0.2, 3), (2, 0.02, 10), (3, 0.1, 8)])
def test_an_ewma_runs_as_long_as_samples_of_it(shift, weight, sigmas):
    draw = numpy.random.default_rng(4)
    runs = []
    for _ in range(600):
        z, count = 0.0, 0
        while abs(z) <= sigmas * (weight / (2 - weight)) ** 0.5:
            z, count = weight * draw.normal(shift) + (1 - weight) * z, count + 1
        runs.append(count)
    expected = tenths.average_run_length("ewma", shift, weight=weight, sigmas=sigmas)
    assert numpy.mean(runs) == pytest.approx(expected, abs=4 * numpy.std(runs) / 600**0.5)


@pytest.mark.parametrize(
    ("kind", "option"),
    [
        ("i_mr", {"weight": 0.5}),
        ("i_mr", {"slack": 1}),
        ("ewma", {"decision": 4}),
        ("cusum", {"weight": 0.1}),
        ("cusum", {"sigmas": 2}),
        ("p", {"span": 5}),
        ("c", {"decision": 9}),
        ("xbar_r", {"span": 3}),
    ],
)
def test_an_option_that_a_chart_does_not_take_is_refused(kind, option):
    sizes = {"p": 50, "xbar_r": 2}.get(kind)
    data = [1.0, 2, 1, 3, 2, 4]
    with pytest.raises(tenths.DomainError, match=f"{kind} takes no {next(iter(option))}"):
        tenths.control_chart(kind, data, sizes=sizes, **option)
    # The usual one asks for nothing.
    usual = {"weight": 0.2, "slack": 0.5, "decision": 5.0, "span": 2, "sigmas": 3.0}
    assert tenths.control_chart(kind, data, sizes=sizes, **usual) == tenths.control_chart(kind, data, sizes=sizes)


def test_a_run_length_takes_the_options_of_its_chart():
    with pytest.raises(tenths.DomainError, match="i_mr takes no weight"):
        tenths.average_run_length("i_mr", 1, weight=0.1)


@pytest.mark.parametrize("data", [[[1, 2], [3, 4.0]], [[1, 2], [3]], [1, 2], "text"])
def test_a_kind_that_there_is_not_is_said_first(data):
    with pytest.raises(tenths.DomainError, match="`xbar` is not a kind of control chart; expected xbar_r"):
        tenths.control_chart("xbar", data)

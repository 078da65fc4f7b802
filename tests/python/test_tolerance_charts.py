"""Tolerance charts: the figures of tests/tolerance_charts.rs through the Python interface, and the objects."""

import copy
import pickle
import re

import pytest

import tenths
from tenths import Limits, OperationChart, Size


def sleeve(**depth):
    """A sleeve 50 -0.17 long, whose bore leaves a wall 10 -0.36; the textbook's depth is 40 +0.19. From memory."""
    return (
        OperationChart()
        .face("left end", "left")
        .face("bottom", "left")
        .face("right end", "right")
        .datum("left end")
        .cut("10", "right end", "left end", "50 +0/-0.17 mm")
        .cut("20", "bottom", "left end", **depth)
        .drawing("length", "right end", "left end", Limits("50 +0/-0.17 mm"))
        .drawing("wall", "bottom", "right end", "10 +0/-0.36 mm")
    )


def pin(turned=None):
    """A shouldered pin, worked by hand in tests/tolerance_charts.rs."""
    return (
        OperationChart("in")
        .face("left end", "left")
        .face("shoulder", "right")
        .face("right end", "right")
        .stock("right end", "left end", holds=".060 in")
        .cut("10", "left end", "right end", holds=".010 in", least_removal=".020 in")
        .cut("20", "right end", "left end", holds=Size(".004 in"), least_removal=".015 in")
        .cut("20", "shoulder", "left end", turned, holds=None if turned else ".004 in")
        .cut("30", "shoulder", "right end", holds=".002 in", least_removal=Size(".008 in"))
        .drawing("overall", "right end", "left end", "4.000 ±.005 in")
        .drawing("step", "shoulder", "right end", "1.500 ±.004 in")
    )


def same(limits, text):
    return (limits.lower, limits.upper) == (Limits(text).lower, Limits(text).upper)


def test_the_depth_of_a_sleeve():
    result = sleeve(limits="40 +0.19/0 mm").evaluate()
    length, wall = result.dimensions
    assert result.good and wall.good and same(wall.made, "9.64..10 mm")
    assert wall.lower_margin == wall.upper_margin == Size("0 mm")
    assert (wall.kind, wall.name, wall.face, wall.from_face) == ("drawing", "wall", "bottom", "right end")
    assert (wall.chain, wall.signs) == ("- 20 bottom + 10 right end", (1, -1))
    assert (length.chain, length.signs) == ("+ 10 right end", (1, 0))
    result = sleeve(limits="40 ±0.1 mm").evaluate()
    assert not result.good and result.dimensions[1].upper_margin == Size("-0.1 mm")
    (finding,) = result.findings
    assert (finding.code, finding.severity, finding.place) == ("dimension_does_not_close", "error", "/drawing/1")
    assert "0.1 mm above the upper limit" in finding.message


def test_the_depth_of_a_sleeve_is_derived():
    chart = sleeve(holds="0.1 mm")
    with pytest.raises(tenths.DomainError, match="`bottom` from `left end`: there are no limits"):
        chart.evaluate()
    result = chart.derive()
    # The length was given: 0.36 less its 0.17.
    assert same(result.working[1].limits, "40..40.19 mm") and result.good
    assert chart.to_dict()["working"][1]["holds"] == "0.1 mm"  # it stays as it was
    assert result.chart.evaluate() == result
    assert not sleeve(holds="0.2 mm").derive().good


@pytest.mark.parametrize("resolution", [None, ".001 in", Size(".001 in")])
def test_the_working_dimensions_of_a_pin(resolution):
    result = pin().derive(resolution)
    assert [row.limits for row in result.working] == [
        Limits(text) for text in ("4.080 ±.030 in", "4.025 ±.005 in", "4.000 ±.005 in", "2.519 ±.002 in", "1.500 ±.004 in")
    ]
    assert [row.made for row in result.removals] == [
        Limits(text) for text in (".055 ±.035 in", ".025 ±.010 in", ".019 ±.011 in")
    ]
    assert [row.lower_margin for row in result.removals] == [Size("0 mm")] * 3
    assert {row.upper_margin for row in result.removals} == {None}
    assert result.good and result.findings == ()


def test_too_little_stock_is_found():
    result = pin("2.515 ±.002 in").derive()
    assert [(finding.severity, finding.place) for finding in result.findings] == [("warning", "/cuts/3")]
    assert "removes 0.004..0.026 in and must remove at least 0.008 in" in result.findings[0].message
    assert result.removals[2].lower_margin == Size("-.004 in") and result.removals[2].good is False


def test_charts_and_results_are_values():
    chart, result = pin(), pin().derive(".001 in")
    assert copy.deepcopy(chart) == chart == pickle.loads(pickle.dumps(chart)) != result.chart
    assert pickle.loads(pickle.dumps(result)) == result
    for row in [*result.working, *result.dimensions, *result.removals]:
        assert pickle.loads(pickle.dumps(row)) == row and row.kind in repr(row)
    opened = pin().cut("40", "shoulder", "left end", "2.5 ±.1 in").datum("shoulder")  # limits and tolerances, in that order
    assert pickle.loads(pickle.dumps(opened)) == opened and copy.copy(opened).to_dict() == opened.to_dict()
    twin = copy.copy(chart)
    assert twin.datum("shoulder") is twin != chart
    with pytest.raises(AttributeError):
        result.good = True
    with pytest.raises(TypeError):
        hash(chart)
    assert (chart.unit, chart.faces) == ("in", ["left end", "shoulder", "right end"])
    assert repr(chart) == "<tolerance chart: 3 faces, 4 cuts, 2 drawing dimensions>"
    assert hash(result) == hash(copy.copy(result)) and result != pin("2.515 ±.002 in").derive()
    assert repr(result) == "<tolerance chart: 2 of 2 dimensions close, 3 of 3 removals suffice>"


def test_plain_data_and_tables():
    result = pin().derive(".001 in")
    told = result.to_dict()
    assert list(told)[:5] == ["good", "working", "dimensions", "removals", "findings"]
    assert (told["units"], told["facings"], told["datums"]) == ("inch", ["left", "right", "right"], [])
    assert told["dimensions"][1]["made"]["lower"] == "37.9984 mm"  # 1.496 in
    assert told["removals"][-1]["chain"] == "+ 30 shoulder - 20 right end + 20 shoulder"
    assert [row.number for row in result.removals] == [0, 1, 3]
    html = pin("2.515 ±.002 in").face("<b>", "left").derive()._repr_html_()
    assert "4.05..4.11 in" in html and html.count("<table>") == html.count("</table>") == 5
    assert "too_little_stock" in html and "&lt;b&gt;" in html and "<b>" not in html
    # Nothing is found, and there is no table of it.
    assert result._repr_html_().count("<table>") == 4
    assert "&lt;b&gt;" in pin().stock("<b>", "left end", "1 ±.1 in")._repr_html_()
    assert "<td>0.06 in</td>" in pin()._repr_html_()


@pytest.mark.libraries
def test_a_frame():
    frame = pin().derive(".001 in").to_frame()
    assert frame.kind.tolist() == ["stock", *["cut"] * 4, *["drawing"] * 2, *["removal"] * 3]
    assert (frame.limits_lower[0], frame.limits_upper[0]) == (4.05, 4.11)
    removals = frame[frame.kind == "removal"]
    assert removals.made_lower.tolist() == [0.02, 0.015, 0.008] and removals.good.all()
    assert pin().derive(".001 in").to_frame("mm").limits_lower[0] == 102.87


def test_faults():
    chart = OperationChart().face("a", "left").face("b", "right")
    for fault, message in [
        (lambda: OperationChart("m"), "`m` is not a system of units"),
        (lambda: OperationChart().face("a", "up"), "a face must face left or right, not `up`"),
        (lambda: chart.drawing("L", "a", "b", "5..4 mm"), "is above the upper limit"),
        (lambda: copy.copy(chart).face("a", "left").evaluate(), "two faces are named `a`"),
        (lambda: copy.copy(chart).cut("10", "a", "b", "5 ±1 mm").evaluate(), "the face `b` does not exist yet"),
        (lambda: copy.copy(chart).cut("10", "a", "a", "5 ±1 mm").evaluate(), "from `a` to itself"),
        (lambda: chart.derive("0 mm"), "the resolution must be greater than 0, not 0 mm"),
        (lambda: copy.copy(chart).datum("a").cut("10", "b", "a", holds="-1 mm").derive(), "cannot hold"),
    ]:
        with pytest.raises(tenths.DomainError, match=re.escape(message)):
            fault()
    for arguments in [{}, {"limits": "5 ±1 mm", "holds": "1 mm"}]:
        with pytest.raises(TypeError, match="give either the limits or"):
            chart.stock("b", "a", **arguments)
    with pytest.raises(TypeError, match="expected Limits or text"):
        chart.stock("b", "a", 5)

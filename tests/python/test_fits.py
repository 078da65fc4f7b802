"""Fits: the figures of tests/published, the objects, and columns of designations."""

import pathlib
import pickle
import re

import numpy as np
import pytest

import tenths
from tenths import Fit, Limits, Size, inch, iso_limits, metric

PUBLISHED = pathlib.Path(__file__).parent.parent / "published"


def lines(name):
    text = (PUBLISHED / name).read_text(encoding="utf-8")
    return [line.split(";") for line in text.splitlines() if not line.startswith("# ")]


def micrometres(figure):
    return Size(f"{figure} µm")


def test_published_limits_and_fits():
    rows = lines("iso286_limits.csv")
    assert len(rows) == 209
    for size, name, upper, lower, greatest, least, _ in rows:
        if "/" in name:
            fit = Fit(f"{size} {name}")
            assert (fit.max_clearance, fit.min_clearance) == (micrometres(greatest), micrometres(least)), name
        else:
            nominal = Size(f"{size} mm")
            limits = iso_limits(f"{size} {name}")
            assert (limits.upper - nominal, limits.lower - nominal) == (micrometres(upper), micrometres(lower)), name


def test_published_inch_fits():
    rows = lines("asme_b4_1.csv")
    assert len(rows) == 492
    for name, _, up_to, *figures, source in rows:
        fit = Fit.inch(name, f"{up_to} in")
        limits = (fit.hole.lower, fit.hole.upper, fit.shaft.lower, fit.shaft.upper)
        # A thousandth of an inch is 25 400 000 pm.
        got = [limit.picometres - fit.nominal.picometres for limit in limits]
        assert got == [round(float(figure) * 100) * 254_000 for figure in figures], (name, up_to)
        assert ("memory" in fit.source) == ("memory" in source)


def test_a_fit_is_a_value():
    fit = Fit("25 H7/p6")
    assert (fit.kind, fit.basis, fit.standard, fit.symbol) == ("interference", "hole", "ISO 286:2010", "H7/p6")
    assert fit.max_clearance == "-0.001 mm" and fit.min_clearance == "-0.035 mm"
    assert repr(fit) == "Fit('25 H7/p6')" and fit == Fit("25H7/p6") and hash(fit) == hash(Fit("25H7/p6"))
    own = Fit.between("10.1..10.2 mm", "9.9..10 mm")
    for each in (fit, own, Fit.inch("FN2", "1.5 in"), Fit.inch("FN2", "38.1 mm")):
        assert pickle.loads(pickle.dumps(each)) == each
    assert fit.to_dict()["hole"] == {"nominal": "25 mm", "lower": "25 mm", "upper": "25.021 mm"}
    assert [zone["label"] for zone in fit.zones("mm")] == ["H7", "p6"]
    assert fit.zones("mm")[1] == {"member": "shaft", "label": "p6", "lower": 0.022, "upper": 0.035}
    assert fit.to_svg().startswith("<svg ") and "+35 µm" in fit.to_svg()
    with pytest.raises(AttributeError):
        fit.hole = own.hole


def test_statistics():
    # 3 and 4 µm make 5; the middle of the clearance, 10 µm, is two of them: 0.02275 beyond, by a table of the normal law.
    found = Fit.between("25..25.018 mm", "24.987..25.011 mm").statistics("mm")
    assert found["mean_clearance"] == 0.01
    assert found["clearance_deviation"] == pytest.approx(0.005)
    assert found["interference_probability"] == pytest.approx(0.02275, abs=5e-6)
    with pytest.raises(tenths.DomainError):
        Fit("25 H7/g6").statistics("mm", hole_cp=0.0)


def test_selection():
    best = tenths.select_fits("25 mm", "0.007 mm", Size("0.041 mm"))[0]
    assert (best.fit, best.preference) == (Fit("25 H7/g6"), "preferred")
    assert pickle.loads(pickle.dumps(best)) == best
    choices = tenths.select_fits("25 mm", "-0.035 mm", "-0.001 mm", basis="shaft")
    assert Fit("25 P7/h6") in [choice.fit for choice in choices]
    assert len(tenths.select_fits("25 mm", "0 mm", "0.001 mm")) == 0
    assert tenths.iso_classes("12 +0/-0.011 mm", "shaft")[0] == "h6"
    with pytest.raises(tenths.DomainError, match="`bore` is not a basis of fits; expected hole or shaft"):
        tenths.select_fits("25 mm", "0 mm", "1 mm", basis="bore")


# By hand at 25 mm, ISO 286-2: H7 has 21 µm, g6 13 µm and 7 µm to 41 µm of clearance, whose middle is 24 µm.
def test_a_selection_says_what_it_considered_and_how_it_ranks():
    wish = ("25 mm", "0.007 mm", "0.061 mm")
    selection = tenths.fit_selection(*wish)
    assert tuple(selection.choices) == tuple(tenths.select_fits(*wish))
    best = selection.choices[0]
    assert (best.tolerance, best.off_middle) == (Size("0.034 mm"), Size("0.010 mm"))
    assert "H4 to H13" in selection.considered and "preferred fits of ASME B4.2 first" in selection.ranking
    assert "h4 to h13" in tenths.fit_selection(*wish, "shaft").considered
    grades = [re.match(r"25 H(\d+)/[a-z]+(\d+)$", choice.fit.designation).groups() for choice in selection.choices]
    assert all(4 <= int(hole) <= 13 and 0 <= int(hole) - int(shaft) <= 2 for hole, shaft in grades)
    assert "best 25 H7/g6" in repr(selection) and "25 H7/f6  recommended" in repr(selection.choices)


@pytest.mark.libraries
def test_choices_are_a_table():
    choices = tenths.select_fits("25 mm", "0.007 mm", "0.061 mm")
    for frame in (choices.to_frame(), tenths.fit_selection("25 mm", "0.007 mm", "0.061 mm").to_frame()):
        assert len(frame) == len(choices) and frame["fit_designation"][0] == "25 H7/g6"
        assert frame["tolerance"][0] == 0.034 and frame["off_middle"][0] == 0.01
        ranks = frame["preference"].map({"preferred": 0, "recommended": 1, "other": 2})
        order = list(zip(ranks, -frame["tolerance"], frame["off_middle"].round(9)))
        assert order == sorted(order)
    assert choices.to_frame("in")["fit_nominal"][0] == Size("25 mm").to_float("in")


def test_rounded_js():
    assert iso_limits("25 js7") == Limits("25 ±0.0105 mm")
    assert iso_limits("25 js7", rounded_js=True) == Limits("25 ±0.01 mm")
    assert metric.iso_limits("25 JS7", rounded_js=True) == (24.99, 25.01)
    lower, upper = metric.iso_limits(["25 js7", "25 h7"], rounded_js=True)
    assert (lower.tolist(), upper.tolist()) == ([24.99, 24.979], [25.01, 25.0])
    assert metric.iso_limits(["25 js7"])[1].tolist() == [25.0105]


# 50 H7/k6 may have 23 µm of clearance: ISO 286-2. 0.023 mm are 0.0009 in.
def test_findings_of_a_joint():
    material = {"hub_modulus": 206, "hub_poisson": 0.3, "shaft_modulus": 206, "shaft_poisson": 0.3}
    rest = {"holding_friction": 0.12, "pressing_friction": 0.2, "hub_yield": 300, "shaft_yield": 300, **material}
    loose = metric.press_joint(-0.023, 0.018, 50, 90, 50, **rest)
    [found] = metric.joint_findings(loose)
    assert (found.code, found.severity, found.place) == ("joint_may_be_loose", "error", "/interference_at_loosest")
    assert "-0.023 mm" in found.message and isinstance(found, tenths.Finding)
    yields = metric.press_joint(0.03, 0.12, 50, 90, 50, **rest)
    assert [found.code for found in metric.joint_findings(yields)] == ["joint_yields"]
    assert metric.joint_findings(metric.press_joint(0.03, 0.07, 50, 90, 50, **rest)) == []
    inches = inch.press_joint._results._make(loose)._replace(interference_at_loosest=-0.0009)
    assert "-0.0009 in" in inch.joint_findings(inches)[0].message
    with pytest.raises(TypeError, match="takes the results of tenths.metric.press_joint, not tuple"):
        metric.joint_findings(tuple(loose))
    joints = metric.press_joint([-0.023, 0.03], [0.018, 0.07], 50, 90, 50, **rest)
    assert metric.joint_findings(joints) == [[found], []]
    assert metric.joint_findings(joints._make(column.reshape(1, 2) for column in joints)) == [[[found], []]]
    assert metric.joint_findings(metric.press_joint(np.array([]), 0.018, 50, 90, 50, **rest)) == []
    hidden = metric.press_joint(np.ma.masked_less([-0.023, 0.03], 0), 0.07, 50, 90, 50, **rest)
    assert metric.joint_findings(hidden) == [[], []]
    with np.errstate(invalid="ignore"):
        nothing = metric.press_joint([0.03, 0.03], [0.07, 0.02], 50, 90, 50, **rest)
    sound, none = metric.joint_findings(nothing)
    assert sound == [] and [found.code for found in none] == ["joint_may_be_loose", "joint_yields", "joint_yields"]


# The reserve of the surface force: 30 N·m at 25 mm are 1200 N, with 500 N along 1300 N; a loose pair holds nothing.
def test_one_pair_of_a_joint():
    material = {"hub_modulus": 206, "hub_poisson": 0.3, "shaft_modulus": 206, "shaft_poisson": 0.3}
    rest = {"holding_friction": 0.12, "pressing_friction": 0.2, "hub_yield": 300, "shaft_yield": 300, **material}
    pair = metric.assembled_joint([-0.01, 0.0], 50, 90, 50, **rest, torque_load=30, axial_load=500)
    assert pair.holding_reserve.tolist() == [-1300.0, -1300.0] and pair.hub_yield_reserve.tolist() == [300.0, 300.0]


def test_members_of_inch_fits_are_limits():
    # ASME B4.1: FN2 from 0.40 to 0.71 in has a hole of +0.7/0 thousandths of an inch.
    assert Limits("1/2 in FN2 hole") == Limits(".5 +.0007/0 in") == Fit("0.5 in FN2").hole
    assert repr(Fit("0.5 in FN2").hole) == "Limits('0.5 +0.0007/-0 in')"
    with pytest.raises(tenths.DomainError, match="up to 19.69 in"):
        Limits("30 in FN2 shaft")


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("KRR7", "is not a valid tolerance designation"),
        ("25 KRR7", "has no position"),
        ("H7", "needs its nominal size"),
        ("4000 H7", "up to 3150 mm"),
        ("25 H7/p", "fit of two parts"),
        ("20 t6", "above 24"),
    ],
)
def test_a_refusal_says_why(text, why):
    for call in (iso_limits, metric.iso_limits):
        with pytest.raises(tenths.DomainError, match=why):
            call(text)


def test_columns():
    assert metric.iso_limits("25 H7") == (25.0, 25.021)
    assert inch.iso_limits("25.4 h7") == (Size("25.379 mm").to_float("in"), 1.0)
    with pytest.warns(RuntimeWarning, match="invalid"):
        lower, _ = metric.iso_limits(["25 H7", "25 H19", 5])
    np.testing.assert_array_equal(lower, [25, np.nan, np.nan])
    with pytest.raises(tenths.DomainError, match="row 1: .*no grade `19`"):
        metric.iso_limits([["25 H7", "25 H19"]], on_error="raise")
    with pytest.raises(TypeError, match="tenths.metric"):
        iso_limits(["25 H7"])


@pytest.mark.libraries
def test_a_series_of_designations():
    import pandas as pd

    column = pd.Series(["25 H7", None, "25 g6", float("nan"), pd.NA], index=[3, 5, 7, 9, 11])
    lower, upper = metric.iso_limits(column)
    assert lower.index.equals(column.index)
    np.testing.assert_array_equal(lower, [25, np.nan, 24.98, np.nan, np.nan])
    np.testing.assert_array_equal(upper, [25.021, np.nan, 24.993, np.nan, np.nan])


def test_reamers_are_as_the_rule_of_din_1420_has_them():
    # The worked example that makers of reamers print: 10.050 to 10.058 mm.
    limits = tenths.reamer_limits("10 D8")
    assert (limits.lower, limits.upper) == (tenths.Size("10.05 mm"), tenths.Size("10.058 mm"))
    assert tenths.reamer_limits(tenths.Limits("12 H7")) == tenths.Limits("12.008..12.015 mm")
    with pytest.raises(ValueError, match="too wide"):
        tenths.reamer_limits("10 +0.001/0 mm")

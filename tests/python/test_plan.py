"""The plan document through the Python face; its numbers are checked by hand in tests/plan.rs."""

import json
import pathlib
import pickle

import pytest

import tenths

DEMO = (pathlib.Path(__file__).parents[2] / "examples/plans/roller_axle.json").read_text(encoding="utf-8")


def test_a_sheet():
    plan = tenths.Plan.from_json(DEMO)
    sheet = plan.evaluate()
    assert [finding.code for finding in sheet.findings] == ["outside_recommendation", "knurl_may_not_track", "typical_strength"]
    assert sheet.findings[0].severity == "warning"
    assert sheet.findings[0].place == "/operations/3/spindle_speed"
    assert set(sheet.findings[0].to_dict()) == {"code", "severity", "place", "message", "remedy"}
    # (3000 - 10 - 60) / (148.3 + 0.5 + 1.6) = 19.48
    assert sheet.to_dict()["bar"]["parts_per_bar"] == 19
    assert json.loads(sheet.to_json()) == sheet.to_dict()
    assert sheet.to_markdown().startswith("# Process sheet: Roller axle")
    assert sheet._repr_markdown_() == str(sheet) == sheet.to_markdown()
    assert pickle.loads(pickle.dumps(plan)) == plan


def test_all_faults_at_once():
    document = json.loads(DEMO)
    document["part"]["quantity"] = -1
    document["joint"]["shaft"] = 77
    document["operations"][2]["wobble"] = 1
    with pytest.raises(tenths.DomainError) as raised:
        tenths.Plan.from_json(json.dumps(document))
    places = [place for place, _ in raised.value.faults]
    assert sorted(places) == ["/joint/shaft", "/operations/2/wobble", "/part/quantity"]
    with pytest.raises(tenths.DomainError, match="line 1, column"):
        tenths.Plan.from_json("no JSON")

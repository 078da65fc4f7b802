"""Starting values, what a plan leaves out, and plans drafted from features."""

import copy
import json
import pathlib
import pickle
from types import MappingProxyType

import numpy
import pytest

import tenths

ROOT = pathlib.Path(__file__).parent.parent.parent
DEMO = json.loads((ROOT / "examples" / "plans" / "roller_axle.json").read_text(encoding="utf-8"))
STEP = {"kind": "step", "diameter": "20 h9", "length": 25, "roughness": 1.6}
HOLE = {"kind": "hole", "diameter": 8, "depth": 20}


def draft(*features, **more):
    given = {"units": "metric", "material": "SAE 1045", "quantity": 25, "features": features} | more
    return tenths.draft_plan(**given)


def test_starting_values_have_their_source_and_the_units_asked_for():
    # The Ferrous Metals Data Book, chapter 9, table 9-3: 415 to 785 ft/min at 0.007 to 0.020 in a revolution.
    inch = tenths.starting_values("SAE 1045", "turning", tool="carbide", units="in")[0]
    assert (inch.speed_lower, inch.speed_upper) == (pytest.approx(415), pytest.approx(785))
    assert (inch.feed_lower, inch.feed_basis, inch.seen) == (pytest.approx(0.007), "revolution", "published")
    metric = tenths.starting_values("C45", "turn", tool="carbide")[0]
    assert metric.speed_lower == pytest.approx(415 * 0.3048)
    drills = tenths.starting_values("aluminium", "drilling", tool="HSS", diameter="1/4 in")
    assert drills == tenths.starting_values("aluminium", "drilling", tool="HSS", diameter=6.35)
    assert pickle.loads(pickle.dumps(metric)) == metric


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("butter", "turning"), "no material is called `butter`"),
        (("SAE 1045", "tickling"), "`tickling` is not a cutting operation"),
        (("Alloy 718", "turning"), "has no starting values"),
    ],
)
def test_what_has_no_starting_values_says_so(arguments, words):
    with pytest.raises(tenths.DomainError, match=words):
        tenths.starting_values(*arguments)
    with pytest.raises(tenths.DomainError, match="is not a tool material"):
        tenths.starting_values("SAE 1045", "turning", tool="cheese")
    with pytest.raises(tenths.DomainError, match="greater than 0"):
        tenths.starting_values("SAE 1045", "drilling", diameter=-1)


def test_what_a_plan_leaves_out_is_assumed_and_listed():
    plan = copy.deepcopy(DEMO)
    assert len(tenths.Plan.from_json(json.dumps(plan)).assumptions) == 0
    del plan["operations"][5]["tool"], plan["operations"][5]["spindle_speed"]
    read = tenths.Plan.from_json(json.dumps(plan))
    places = [one.place for one in read.assumptions]
    assert "/operations/5/tool/diameter" in places and "/operations/5/spindle_speed" in places
    assert read.evaluate().to_dict()["assumed"][0].keys() == {"place", "value", "reason"}
    assert "## Assumed" in read.evaluate().to_markdown()
    completed = json.loads(read.completed_json())
    assert completed["operations"][5]["tool"]["diameter"] == 5
    assert json.loads(read.to_json()) == plan
    assert pickle.loads(pickle.dumps(read)) == read


def test_an_assumed_number_can_vary():
    plan = copy.deepcopy(DEMO)
    del plan["operations"][5]["spindle_speed"]
    read = tenths.Plan.from_json(json.dumps(plan))
    speed = next(one for one in read.assumptions if one.place == "/operations/5/spindle_speed")
    middle = float(speed.value.split()[0])
    made = read.propagate({speed.place: (middle, 100, -100)}, 50, outputs=["/minutes_per_part"])
    assert made["outputs"][0]["spread"]["sigma"] > 0


def test_standards_come_as_text_or_as_plain_data():
    plan = copy.deepcopy(DEMO)
    del plan["operations"][1]["time"]
    standards = {"tenths_standards": 1, "units": "metric", "operations": [{"kind": "deburr", "time": 0.9}]}
    text = json.dumps(plan)
    read = tenths.Plan.from_json(text, standards=standards)
    assert read == tenths.Plan.from_json(text, standards=json.dumps(standards))
    assert [(one.value, one.reason) for one in read.assumptions] == [("0.9 min", "your standards, /operations/0")]
    again = pickle.loads(pickle.dumps(read))
    assert again == read and list(again.assumptions) == list(read.assumptions)
    with pytest.raises(tenths.DomainError) as caught:
        tenths.Plan.from_json(text, standards={"tenths_standards": 1, "units": "metric", "operation": []})
    assert caught.value.faults[0][0] == "/standards/operation"


def test_a_draft_is_a_plan_without_errors():
    plan = draft(STEP, HOLE, name="Bush", number="B-1")
    sheet = plan.evaluate()
    assert isinstance(plan, tenths.Plan)
    assert all(one.severity != "error" for one in sheet.findings)
    assert len(plan.assumptions) > 20
    data = sheet.to_dict()
    assert (data["part"], data["part_number"], data["quantity"]) == ("Bush", "B-1", 25)
    assert pickle.loads(pickle.dumps(plan)) == plan
    assert tenths.Plan.from_json(plan.to_json()) == plan


def test_features_take_sizes_limits_and_numpy():
    plain = draft(STEP, HOLE)
    given = {**STEP, "diameter": tenths.Limits("20 h9"), "length": numpy.float64(25)}
    same = draft(given, {**HOLE, "diameter": numpy.int64(8), "depth": tenths.Size("20 mm")}, quantity=numpy.int32(25))
    assert [one["limits"] for one in json.loads(same.to_json())["characteristics"]][1:] != []
    assert same.evaluate().to_dict()["minutes_per_part"] == pytest.approx(plain.evaluate().to_dict()["minutes_per_part"])
    with pytest.raises(TypeError, match="a document cannot have"):
        draft({**STEP, "length": object()})


@pytest.mark.parametrize(
    ("features", "more", "place", "words"),
    [
        ((STEP, {**HOLE, "diameter": 25}), {}, "/features/1/diameter", "does not fit into feature 1"),
        ((STEP, {**HOLE, "depth": 25}), {}, "/features/1/depth", "goes through the part"),
        ((STEP,) * 2000, {}, "/features", "at most 200 features, not 2000"),
        ((STEP,), {"quantity": 0}, "/quantity", "must be greater than 0, not 0"),
        ((STEP,), {"units": "feet"}, "/units", "not accepted"),
        ((), {}, "/features", "at least one step"),
        (({**STEP, "diametre": 3},), {}, "/features/0/diametre", "did you mean `diameter`"),
        ((STEP, {"kind": "thread", "thread": "M20-6g", "length": 30, "on": 1}), {}, "/features/1/length", "a thread 30 mm long"),
    ],
)
def test_what_is_impossible_in_the_shop_is_refused_at_its_place(features, more, place, words):
    with pytest.raises(tenths.DomainError) as caught:
        draft(*features, **more)
    assert any(at == place and words in message for at, message in caught.value.faults), caught.value


def test_any_mapping_will_do_for_a_feature():
    assert draft(MappingProxyType(STEP), MappingProxyType(HOLE)) == draft(STEP, HOLE)

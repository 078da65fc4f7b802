"""The plan document through the Python interface; its numbers are checked by hand in tests/plan.rs."""

import copy
import json
import pathlib
import pickle

import jsonschema
import pytest

import tenths

ROOT = pathlib.Path(__file__).parents[2]
DEMOS = {path.name: path.read_text(encoding="utf-8") for path in sorted((ROOT / "examples/plans").glob("*.json"))}
DEMO = DEMOS["roller_axle.json"]
JOINED = [name for name, text in DEMOS.items() if "joint" in json.loads(text)]


def test_a_sheet():
    plan = tenths.Plan.from_json(DEMO)
    sheet = plan.evaluate()
    assert [finding.code for finding in sheet.findings] == [
        "freedom_left",
        "outside_recommendation",
        "outside_source",
        "knurl_may_not_track",
        "roughness_assumed",
        "typical_strength",
    ]
    assert sheet.findings[0].severity == "warning"
    assert sheet.findings[1].place == "/operations/3/spindle_speed"
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


def test_a_stack():
    stack = tenths.Plan.from_json(DEMO).evaluate().to_dict()["stacks"][0]
    assert (stack["wanted"], stack["worst_case"], stack["closes_in_worst_case"]) == ("5.2..7 mm", "5.4..6.8 mm", True)
    figures = {key: figure["value"] for key, figure in stack["figures"].items()}
    # Worked in tests/plan_stacks.rs.
    assert figures["mean"] == pytest.approx(6.12932331, abs=1e-8)
    assert figures["standard_deviation"] == pytest.approx(0.0106532309**0.5, abs=1e-8)
    document = json.loads(DEMO)
    document["stacks"][0] |= {"wanted": "5.6..6.8 mm", "sample": {"count": 1000, "seed": 3}}
    sheet = tenths.Plan.from_json(json.dumps(document)).evaluate()
    finding = next(finding for finding in sheet.findings if finding.code == "stack_does_not_close")
    assert (finding.severity, finding.place) == ("warning", "/stacks/0")
    assert "a tolerance of 0.2 mm" in finding.remedy
    assert sheet.to_dict()["stacks"][0]["sampled"]["count"] == 1000


SPEED = "/operations/2/spindle_speed"


def test_numbers_that_vary():
    plan = tenths.Plan.from_json(DEMO)
    numbers = plan.propagate({SPEED: (1700, 150, -150)}, 20_000, 3, outputs=["/operations/2/figures/surface_speed/value"])
    # The cutter passes 90 m/min at 90 000 / (16 pi) = 1790.4931 rev/min; 0.03515858 is scipy.stats.norm.sf of that.
    found = next(one for one in numbers["findings"] if one["place"] == SPEED)
    assert (found["code"], found["severity"]) == ("outside_recommendation", "warning")
    share = found["share"]
    assert abs(share["fraction"] - 0.03515858) < 5 * (0.0351586 * 0.9648414 / 20_000) ** 0.5
    assert share["lower"] < share["fraction"] < share["upper"]
    assert share["count"] == round(share["fraction"] * 20_000)
    spread = numbers["outputs"][0]["spread"]
    assert abs(spread["mean"] - 85.451320) < 5 * 2.513274 / 20_000**0.5
    assert [percent for percent, _ in spread["percentiles"]] == [0.135, 2.5, 50, 97.5, 99.865]
    again = {"outputs": ["/operations/2/figures/surface_speed/value"], "threads": 2}
    for same in ("1700 ±150 rev/min", ("1700", "+150", "-150"), {"limits": "1700 ±150 rev/min", "cp": 1}):
        assert plan.propagate({SPEED: same}, 20_000, 3, **again) == numbers
    assert plan.propagate({SPEED: (1700, 150, -150)}, 20_000, 4, **again) != numbers


def test_a_bad_variation_is_refused():
    plan = tenths.Plan.from_json(DEMO)
    for varying, place in [
        ({"/joint/lenght": (18, 1, -1)}, "/varying/0/place"),
        ({SPEED: "1700 rev/min"}, "/varying/0/limits"),
        ({SPEED: {"nominal": 1}}, "/varying/0/limits"),
        ({SPEED: (1, -1, 1)}, "/varying/0"),
        ({}, "/varying"),
    ]:
        with pytest.raises(tenths.DomainError) as raised:
            plan.propagate(varying, 10)
        assert [at for at, _ in raised.value.faults] == [place]
    with pytest.raises(tenths.DomainError, match="/count"):
        plan.propagate({SPEED: (1, 0, 0)}, 1_000_001)
    with pytest.raises(tenths.DomainError, match="/outputs/0"):
        plan.propagate({SPEED: (1500, 0, 0)}, 1, outputs=["/quantity"])
    with pytest.raises(ValueError, match="JSON"):
        plan.propagate({SPEED: (float("nan"), 0, 0)}, 1)
    with pytest.raises(TypeError):
        plan.propagate({SPEED: 1500}, 1)


VALIDATOR = jsonschema.Draft202012Validator(tenths.Plan.schema())


def test_the_schema_is_one_and_is_the_published_one():
    jsonschema.Draft202012Validator.check_schema(tenths.Plan.schema())
    assert tenths.Plan.schema() == json.loads((ROOT / "docs/plan.schema.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", DEMOS)
def test_a_general_validator_accepts_the_demos(name):
    assert list(VALIDATOR.iter_errors(json.loads(DEMOS[name]))) == []
    tenths.Plan.from_json(DEMOS[name])


def accepted(document):
    """Whether the validator and the decoder take a document, each for itself."""
    try:
        tenths.Plan.from_json(json.dumps(document))
        decoded = True
    except tenths.DomainError:
        decoded = False
    return VALIDATOR.is_valid(document), decoded


def places(value, path=()):
    """Every place of a document."""
    yield path
    if isinstance(value, dict | list):
        for key in value if isinstance(value, dict) else range(len(value)):
            yield from places(value[key], (*path, key))


def put(document, path, value):
    changed = copy.deepcopy(document)
    at = changed
    for step in path[:-1]:
        at = at[step]
    at[path[-1]] = value
    return changed


def without(document, path):
    changed = copy.deepcopy(document)
    at = changed
    for step in path[:-1]:
        at = at[step]
    del at[path[-1]]
    return changed


# A rule between fields, the reading of a size or thread, the table of materials, or a name in rates may refuse a change at these.
BEYOND_THE_FORM = {
    "bar_length", "bore", "depth", "designation", "end_trim", "facing_allowance", "form_deviation", "hub_material",
    "hub_outer_diameter", "kerf", "limits", "material", "modulus", "number", "pitch", "poisson", "remnant", "thread",
    "units", "dimension", "wanted", "locators", "cp", "cpk", "mean", "hub_temperature", "shaft_temperature",
    "rates", "thickness", "end", "grip_length", "pilot_diameter", "pilot_length", "floor_diameter", "stock", "infeed",
}  # fmt: skip


@pytest.mark.parametrize("name", DEMOS)
def test_validator_and_decoder_agree_on_the_form(name):
    document = json.loads(DEMOS[name])
    # One place for each field, though lists have many items.
    by_field = {tuple(0 if isinstance(step, int) else step for step in path): path for path in places(document)}
    refused = 0
    for path in filter(None, by_field.values()):
        wrong = [put(document, path, value) for value in (True, {}, "7 parsec")]
        if isinstance(path[-1], str):
            wrong.append(without(document, path))
        for changed in wrong:
            by_schema, decoded = accepted(changed)
            # Sizes of the work are exact, and read as such; the same names of tools are plain numbers.
            is_size = len(path) == 3 and path[-1] in ("diameter", "length", "width") or path[-2:] == ("tool", "width")
            assert by_schema == decoded or (by_schema and (is_size or BEYOND_THE_FORM & set(path))), (path, changed)
            refused += not by_schema
    assert refused > 150


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("part", "colour"), "red"),
        (("operations", 0, "wobble"), 1),
        (("units",), "furlong"),
        (("characteristics", 1, "requirement"), "sloppy"),
        (("operations", 1, "kind"), "glue"),
        (("joint", "kind"), "glued"),
        (("part", "quantity"), 2.5),
        (("part", "quantity"), 0),
        (("bar", "bar_length"), [3000]),
        (("operations", 0, "surface_speed"), "65 furlong"),
        (("operations", 0, "surface_speed"), 0),
        (("operations", 0, "blade", "surface_speed"), {"lower": -1, "upper": 80}),
        (("tenths_plan",), 2),
    ],
)
@pytest.mark.parametrize("name", JOINED)
def test_wrong_documents_are_refused_by_both(name, path, value):
    assert accepted(put(json.loads(DEMOS[name]), path, value)) == (False, False)


@pytest.mark.parametrize("name", JOINED)
@pytest.mark.parametrize("path", [("units",), ("part", "name"), ("characteristics", 0, "limits"), ("operations", 0, "kind"), ("joint", "bore")])
def test_missing_fields_are_refused_by_both(name, path):
    assert accepted(without(json.loads(DEMOS[name]), path)) == (False, False)


def test_a_name_shows_with_what_does_not_print_escaped():
    document = json.loads(DEMO)
    document["part"]["name"] = "axle\x1b[31m\n\u2028\u202e Ø 'n'"
    plan = tenths.Plan.from_json(json.dumps(document))
    for shown in (repr(plan), repr(plan.evaluate())):
        assert shown.isprintable() and "\\x1b[31m\\n\\u2028\\u202e Ø 'n'" in shown, shown


def test_a_byte_order_mark_is_read_and_not_returned():
    marked = tenths.Plan.from_json("\ufeff" + DEMO)
    assert marked.to_json() == DEMO
    assert pickle.loads(pickle.dumps(marked)) == marked
    assert tenths.Plan.from_json(marked.to_json()).evaluate().to_dict()["operations"] == marked.evaluate().to_dict()["operations"]


def with_joints_and_routings():
    document = json.loads(DEMO)
    roller = document.pop("joint") | {"name": "roller"}
    document["joints"] = [roller, roller | {"name": "spacer", "length": 10}]
    document["operations"][8:9] = [
        {"kind": "press", "joint": "roller", "time": 0.6},
        {"kind": "shrink", "joint": "spacer", "hub_temperature": "300 °C", "shaft_temperature": -150, "time": 2},
    ]
    document["routings"] = [{"name": "as before", "operations": json.loads(json.dumps(document["operations"]))}]
    return document


def test_several_joints_and_routings_pass_the_schema_and_are_evaluated():
    document = with_joints_and_routings()
    assert list(VALIDATOR.iter_errors(document)) == []
    plan = tenths.Plan.from_json(json.dumps(document))
    sheet = plan.evaluate()
    data = sheet.to_dict()
    assert data["joint"] is None and [joint["name"] for joint in data["joints"]] == ["roller", "spacer"]
    validator = jsonschema.Draft202012Validator(tenths.Sheet.schema())
    assert list(validator.iter_errors(data)) == []
    assert tenths.Sheet.from_json(sheet.to_json()) == sheet
    assert any(finding.message.startswith("joint `spacer`: ") for finding in sheet.findings)
    assert plan.routings["as before"].evaluate().to_dict()["joints"] == data["joints"]
    held = plan.propagate({"/joints/1/length": (10, 1, -1)}, 50, outputs=["/joints/1/loosest/torque_held/value"])
    assert held["outputs"][0]["spread"]["maximum"] > held["outputs"][0]["spread"]["minimum"]
    document["routings"][0]["operations"][8]["joint"] = "rollr"
    with pytest.raises(tenths.DomainError, match="/routings/0/operations/8/joint: .*did you mean `roller`"):
        tenths.Plan.from_json(json.dumps(document))

"""What formulas say about themselves: enough to find one, understand it and call it."""

import copy
import html
import html.parser
import pickle

import pytest

import tenths


def test_a_formula_is_found_understood_and_called():
    found = tenths.formulas().find("chip load")
    assert "chip_load" in found and "surface_speed" not in found
    about = found["chip_load"]
    text = repr(about)
    for part in (
        "tenths.inch.chip_load(feed_rate [in/min], teeth, spindle_speed [rev/min]) -> chip_load [in]",
        "tenths.metric.chip_load(feed_rate [mm/min], teeth, spindle_speed [rev/min]) -> chip_load [mm]",
        "Source: ",
        "Number of teeth",
    ):
        assert part in text
    # Common practice: feed rate / (teeth · spindle speed).
    assert about.inch(40, 4, 1000) == pytest.approx(0.01, rel=1e-15)
    assert about.metric.system == "metric"


def test_the_arguments_tell_their_bounds():
    text = " ".join(repr(tenths.formulas()["milling_cut"]).split())
    told = "Rake angle that the figures of the material hold for. Must be at least -30° and at most 30°."
    assert f"{told} The source covers 0° to 6°. Default 0." in text
    # The unit of a zero is left out; other numbers are told on both sides.
    assert "Depth of cut along the axis of the cutter. Must be greater than 0. kc11" in text
    about = tenths.formulas()["specific_cutting_force"]
    stated = [side.arguments["chip_thickness"]["stated_range"] for side in (about.inch, about.metric)]
    assert stated[1] == "0.05 mm to 2.5 mm"
    assert f"The source covers {stated[0]} or {stated[1]}." in " ".join(repr(about).split())


def test_the_arguments_tell_what_is_usual():
    about = tenths.formulas()["whipping_speed"]
    usual = [side.arguments["density"]["usual_range"] for side in (about.inch, about.metric)]
    assert usual[1] == "0.5 g/cm³ to 25 g/cm³"
    assert f"Usual is {usual[0]} or {usual[1]}." in " ".join(repr(about).split())
    shown = about._repr_html_()
    assert "<th>usual range</th>" in shown and f"<td>{usual[0]} or {usual[1]}</td>" in shown
    plain = tenths.formulas()["hexagon_across_corners"]
    assert "Usual" not in repr(plain) and "<th>usual range</th>" in plain._repr_html_()


def test_formulas_are_a_mapping_to_read_and_search():
    formulas = tenths.formulas()
    assert formulas is tenths.formulas() and list(formulas) == tenths._tenths._names()
    assert all(isinstance(row, tenths.Description) and row.name == name for name, row in formulas.items())
    topics = [row.topic for row in formulas.values()]
    assert all(topics.index(topic) + topics.count(topic) > k for k, topic in enumerate(topics)), "topics are mixed"
    for name, row in formulas.items():
        assert f"    {name}(" in repr(formulas) and row.topic in repr(formulas)
    assert f"{len(formulas)} formulas" in repr(formulas)
    assert len(formulas.find("phlogiston")) == 0 and repr(formulas.find("phlogiston")) == "0 formulas"
    assert set(formulas.find("SHIGLEY")) == {name for name, row in formulas.items() if "Shigley" in row.source}
    with pytest.raises(KeyError):
        formulas["no such thing"]
    with pytest.raises(TypeError):
        formulas["x"] = None


@pytest.mark.parametrize(
    "said, first",
    [
        ("sfm", "surface_speed"),
        ("RPM", "spindle_speed"),
        ("mrr", "milling_removal_rate"),
        ("css", "surface_speed"),
        ("horsepower", "cutting_power"),
        ("keyways", "keyseat_chord_height"),
        ("weight", "kerf_mass"),
        ("bar mass", "bar_mass"),
        ("minimum cost", "tool_life_for_least_cost"),
        ("plug gage", "plug_gauge"),
        ("roll tap", "forming_tap_drill"),
        ("hacksaw", "sawing_time"),
        ("Brinell", "compare_hardness"),
        ("vee-block", "vee_block"),
        ("thread", "Thread"),
        ("stack", "Stack"),
        ("tap drill", "tap_drill"),
    ],
)
def test_the_words_of_a_shop_find_what_they_mean(said, first):
    assert next(iter(tenths.formulas().find(said))) == first


def test_a_search_finds_functions_and_classes_too():
    found = tenths.formulas().find("tolerance stack")
    assert found["Stack"].value is tenths.metric.Stack and "tenths.metric.Stack" in repr(found["Stack"])
    assert "best_cut" in tenths.formulas().find("feeds and speeds") and "names" in repr(found)
    # What was found is searched by itself.
    assert "Stack" not in tenths.formulas().find("sine").find("stack")
    assert [row["name"] for row in tenths.formulas().find("Brinell").to_dicts()][:1] == ["compare_hardness"]
    assert "<td>Stack</td>" in found._repr_html_()


def test_a_search_says_what_the_library_does_not_do():
    for said in ("welding", "G-code", "sheet metal"):
        found = tenths.formulas().find(said)
        assert len(found) == 0 and repr(found).endswith("not in this library")


def test_a_caution_stands_wherever_a_formula_is_told():
    told = {name: row.caution for name, row in tenths.formulas().items() if row.caution is not None}
    assert "licensed engineer" in told["compound_tube"] and "chuck_speed_share" in told["spindle_speed"]
    assert "surface_speed" not in told and len(told) > 30
    for name, caution in told.items():
        about = tenths.formulas()[name]
        assert f"Caution: {caution}" in " ".join(repr(about).split()), name
        assert f"<strong>Caution:</strong> {html.escape(caution)}" in about._repr_html_(), name
        assert about.to_dict()["caution"] == caution
        for formula in (about.inch, about.metric):
            assert formula.caution == caution and f"Caution: {caution}" in formula.__doc__, name
    plain = tenths.formulas()["surface_speed"]
    assert plain.inch.caution is None and "Caution" not in repr(plain) + plain._repr_html_() + plain.inch.__doc__
    assert "grinding_wheel_speed" in tenths.formulas().find("ring test")


@pytest.mark.libraries
def test_a_table_of_dicts():
    import pandas as pd

    frame = pd.DataFrame(tenths.formulas().to_dicts()).set_index("name")
    assert frame.loc["surface_speed", "arguments"] == "diameter, spindle_speed"
    assert frame.loc["press_fit", "results"].startswith("pressure, hub_hoop_stress")
    assert not frame.isna().any().any() and (frame["source"] != "").all()


class Balanced(html.parser.HTMLParser):
    """Fails on tags that do not match."""

    def __init__(self):
        super().__init__()
        self.open, self.cells = [], 0

    def handle_starttag(self, tag, attrs):
        self.open.append(tag)
        self.cells += tag == "td"

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def test_a_notebook_shows_tables():
    shown = [tenths.formulas(), *tenths.formulas().values(), tenths.inch.press_fit]
    for thing in shown:
        parser = Balanced()
        parser.feed(thing._repr_html_())
        assert not parser.open and parser.cells > 3
    assert "<script" not in tenths.formulas()._repr_html_() and "-&gt;" in tenths.formulas()._repr_html_()


@pytest.mark.parametrize("about", tenths.formulas().values(), ids=lambda about: about.name)
def test_a_form_could_be_built(about):
    assert pickle.loads(pickle.dumps(about)) == about and copy.deepcopy(about) == about
    with pytest.raises(AttributeError):
        about.name = "x"
    for system in ("inch", "metric"):
        call = getattr(about, system)
        assert about.doc.splitlines()[0] == about.summary and about.summary in call.__doc__
        assert [argument["name"] for argument in about.arguments] == list(call.arguments)
        assert [result["name"] for result in about.results] == call.outputs
        for argument in about.arguments:
            side, own = argument[system], call.arguments[argument["name"]]
            assert (side["unit"], side["default"], side["must_be"]) == (own["unit"], own["default"], own["must_be"])
            assert (side["low"] is None or side["high"] is None) or side["low"] < side["high"]
            assert (side["stated_range"] is None) == (side["stated_low"] is None and side["stated_high"] is None)
            for output in call.outputs:
                # Told to be solvable: then it is asked for what is missing, or there is no solution, and no refusal.
                given = {"output": output} if len(call.outputs) > 1 else {}
                with pytest.raises((TypeError, ValueError)) as raised:
                    call.solve_for(argument["name"], float("nan"), **given)
                refused = "cannot be solved for" in str(raised.value) and "wanted result" not in str(raised.value)
                assert refused == (output not in argument["solvable_from"]), raised.value


def test_changes_to_what_is_told_change_nothing():
    about = tenths.formulas()["surface_speed"]
    about.arguments[0]["name"] = "x"
    about.to_dict()["rules"].append("x")
    assert about.arguments[0]["name"] == "diameter" and about.rules == []

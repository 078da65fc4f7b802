"""What every object has, whatever its record."""

import copy
import pickle

import pytest
import tenths

CHART = (
    tenths.OperationChart()
    .face("left end", "left")
    .face("right end", "right")
    .stock("right end", "left end", "1.1 ±.01 in")
    .cut("10", "right end", "left end", "1 ±.01 in", least_removal=".1 in")
    .drawing("length", "right end", "left end", "1 ±.005 in")
    .evaluate()
)
OBJECTS = [
    tenths.plug_gauge("25 +0.021/0 mm"),
    tenths.plug_gauge("25 +0.021/0 mm").go,
    tenths.flush_pin_gauge("1.000 +.010/0 in"),
    tenths.Decision("10..10.1 mm", "0.02 mm"),
    tenths.PositionCheck("0.03 mm", "0.04 mm", "0.1 mm"),
    tenths.Thread("1/4-20 UNC-2B"),
    tenths.Thread("M10"),
    CHART,
    CHART.dimensions[0],
    tenths.Finding,
]


def _objects():
    plan = tenths.Plan.from_json(open("examples/plans/roller_axle.json", encoding="utf-8").read())
    return [*(one for one in OBJECTS if one is not tenths.Finding), plan.evaluate().findings[0]]


@pytest.fixture(params=range(len(OBJECTS)))
def made(request):
    return _objects()[request.param]


def test_an_object_is_a_value(made):
    for other in (pickle.loads(pickle.dumps(made)), copy.copy(made), copy.deepcopy(made)):
        assert other == made and hash(other) == hash(made) and type(other) is type(made)
        assert repr(other) == repr(made)
    assert made != "text" and made != _objects()[(len(OBJECTS) - 1) if made == _objects()[0] else 0]


def test_fields_cannot_be_set(made):
    for name in type(made).__match_args__:
        with pytest.raises(AttributeError, match="frozen"):
            setattr(made, name, None)
        with pytest.raises(AttributeError, match="frozen"):
            delattr(made, name)
    with pytest.raises(AttributeError):
        made.something_else = 1


def test_fields_are_documented(made):
    for name in type(made).__match_args__:
        assert len(getattr(type(made), name).__doc__) > 5


def test_plain_data_has_every_field(made):
    assert tuple(made.to_dict()) == type(made).__match_args__
    # Only plain data: what json takes.
    import json

    json.dumps(made.to_dict())


def test_a_notebook_shows_the_fields(made):
    shown = made._repr_html_()
    assert shown.startswith("<table><caption>") and shown.endswith("</table>")
    present = [name for name, value in made.to_dict().items() if value not in (None, "", []) and not isinstance(value, dict)]
    for name in present:
        assert name.replace("_", " ") in shown, name


@pytest.mark.libraries
def test_a_frame_has_a_column_for_each_field(made):
    frame = made.to_frame()
    if made is CHART:
        # Its rows are those of its lists, in one table.
        made, rows = made.working[0], 4
    else:
        rows = 1
    assert len(frame) == rows
    for name, value in made.to_dict().items():
        assert any(column == name or column.startswith(name + "_") for column in frame.columns), name
    limits = next((name for name in type(made).__match_args__ if isinstance(getattr(made, name), tenths.Limits)), None)
    if limits:
        assert frame[f"{limits}_lower"][0] == getattr(made, limits).lower.to_float("mm")
        assert made.to_frame("in")[f"{limits}_lower"][0] == getattr(made, limits).lower.to_float("in")


def test_classes_of_objects_are_not_called():
    for name in ("Gauge", "GaugeMember", "Finding", "Object"):
        with pytest.raises(TypeError, match="come from functions and methods"):
            getattr(tenths, name)()


def test_pickles_of_other_values_are_refused():
    from tenths import _tenths

    rule = _tenths._restore
    good = tenths.Decision("10..10.1 mm", "0.02 mm").__reduce__()[1]
    assert rule(*good) == tenths.Decision("10..10.1 mm", "0.02 mm")
    with pytest.raises(ValueError, match="no object 'Nothing'"):
        rule("Nothing", *good[1:])
    with pytest.raises(ValueError, match="not those of such an object"):
        rule(*good[:3], good[3][:-1])
    with pytest.raises(TypeError):
        rule(*good[:3], [1.0, *good[3][1:]])


def test_markup_in_text_shows_as_written():
    made = _objects()[-1].__reduce__()[1]
    from tenths import _tenths

    shown = _tenths._restore(made[0], None, "<script>alert(1)</script>", made[3])._repr_html_()
    assert "<script>" not in shown and "&lt;script&gt;" in shown

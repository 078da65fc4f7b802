"""Threads: the figures of tests/published/thread_limits.csv, and the object."""

import pathlib
import pickle

import pytest

import tenths
from tenths import Limits, Size, Thread

TEXT = (pathlib.Path(__file__).parent.parent / "published" / "thread_limits.csv").read_text(encoding="utf-8")
LINES = [line.split(";") for line in TEXT.splitlines() if not line.startswith("# ")]


def quantity(thread, name):
    """The quantity of that name, exactly."""
    diameter, _, what = name.rpartition("_")
    if name == "allowance":
        return thread.major_least - thread.nominal if thread.is_internal else thread.nominal - thread.major.upper
    if (diameter, what) == ("major", "lower"):
        return thread.major_least
    if (diameter, what) == ("minor", "upper"):
        return thread.minor_greatest
    return getattr(getattr(thread, diameter), what)


def test_published_limits():
    assert len(LINES) > 500
    wrong = [line for line in LINES if quantity(Thread(line[0]), line[1]) != Size(line[2])]
    assert not wrong


def test_a_thread_is_a_value():
    thread = Thread("M10-6g")
    assert str(thread) == "M10x1.5-6g" and repr(thread) == "Thread('M10x1.5-6g')"
    assert thread == Thread("M10x1.5-6g6g") and hash(thread) == hash(Thread("M10x1.5-6g"))
    assert thread != Thread("M10-6h") and thread != "M10x1.5-6g"
    for text in ("M10-6g", "#10-24 UNC-2B", "1 1/8-8 UNR-3A-LH"):
        assert pickle.loads(pickle.dumps(Thread(text))) == Thread(text)
    assert thread.pitch_diameter == Limits("9.026 -0.032/-0.164 mm")
    assert (thread.nominal, thread.thread_pitch, thread.tolerance_class) == ("10 mm", "1.5 mm", "6g")
    assert thread.minor is None and thread.major == Limits("10 -0.032/-0.268 mm")
    nut = Thread("1/4-20 UNC-2B-LH")
    assert nut.is_internal and nut.is_left_hand and nut.major is None
    assert nut.standard == "ASME B1.1-2003"
    with pytest.raises(AttributeError):
        nut.nominal = Size("1 in")


def test_a_thread_is_plain_data():
    assert Thread("M10-6g").to_dict() == {
        "designation": "M10x1.5-6g",
        "standard": "ISO 965-1:1998",
        "tolerance_class": "6g",
        "is_internal": False,
        "is_left_hand": False,
        "nominal": "10 mm",
        "thread_pitch": "1.5 mm",
        "basic_pitch_diameter": "9.026 mm",
        "basic_minor": "8.376 mm",
        "major": {"nominal": "10 mm", "lower": "9.732 mm", "upper": "9.968 mm"},
        "major_least": "9.732 mm",
        "pitch_diameter": {"nominal": "9.026 mm", "lower": "8.862 mm", "upper": "8.994 mm"},
        "minor": None,
        "minor_greatest": "8.344 mm",
    }


def test_a_thread_without_a_class_has_basic_sizes():
    thread = Thread("1/4-20 UNC")
    assert [thread.nominal, thread.basic_pitch_diameter, thread.basic_minor] == ["0.25 in", "0.2175 in", "0.1959 in"]
    assert str(thread) == "1/4-20 UNC" and pickle.loads(pickle.dumps(thread)) == thread
    for name in ("tolerance_class", "is_internal", "major", "major_least", "pitch_diameter", "minor", "minor_greatest"):
        assert getattr(thread, name) is None and thread.to_dict()[name] is None, name


def test_the_docs_state_the_rule_of_the_rounded_root():
    assert "greatest major diameter - 1.190785 · pitch, rounded to 0.0001 in" in " ".join(Thread.minor_greatest.__doc__.split())


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("M13-6g", "needs a pitch"),
        ("M1x1-6g", "leaves no minor diameter"),
        ("1/4-28 UNC-2A", "it has 20 threads per inch"),
        ("", "is not a valid thread designation"),
    ],
)
def test_a_refusal_says_why(text, why):
    with pytest.raises(tenths.DomainError, match=why):
        Thread(text)

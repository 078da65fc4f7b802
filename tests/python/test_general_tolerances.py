"""General tolerances: the figures of tests/published/general_tolerances.csv, as limits and in plans."""

import json
import pathlib
import pickle

import pytest

import tenths

ROOT = pathlib.Path(__file__).parent.parent.parent
FILE = ROOT / "tests" / "published" / "general_tolerances.csv"
LINES = [line.split(";") for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith("# ")]


def figure(size, general_class, feature):
    try:
        made = tenths.general_tolerance(size, general_class, feature)
    except tenths.DomainError:
        return "none"
    if made.angle_deviation is not None:
        return f"{round(made.angle_deviation * 60)} minutes"
    across = made.tolerance.picometres // (2 if made.limits else 1)
    return f"{across // 1_000_000} um"


def test_published_general_tolerances():
    assert len(LINES) >= 250
    for general_class, feature, size, want, _seen, _source in LINES:
        assert figure(size, general_class, feature) == want, (general_class, feature, size)
        if feature == "length" and want != "none":
            limits = tenths.Limits(f"{size} {general_class}")
            assert limits == tenths.general_tolerance(size, general_class).limits


def test_a_general_tolerance_is_a_value():
    made = tenths.general_tolerance("120 mm", "mK")
    assert made == tenths.general_tolerance(tenths.Size("120 mm"), "ISO 2768-mK", "length") == pickle.loads(pickle.dumps(made))
    assert made.limits == tenths.Limits("120 ±0.3 mm") and repr(made) == "<length: 120 ±0.3 mm by ISO 2768-mK>"
    assert (made.standard, made.seen) == ("ISO 2768-1:1989", "reprints")
    assert tenths.general_tolerance("20 mm", "mK", "run_out").seen == "memory"


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (("0.4 mm", "m"), "it covers sizes from 0.5 mm up to 4000 mm"),
        (("20 mm", "K"), "ISO 2768-K has no class for a length: name one of f, m, c and v"),
        (("20 mm", "m", "flatness"), "has no class for flatness"),
        (("20 mm", "q"), "`q` is not a class of ISO 2768"),
        (("20 mm", "m", "size"), "`size` has no general tolerance; expected length, edge"),
        (("20 mm", "mK", "parallelism"), "Fix: give the longer one as `length`"),
        (("20 mm", "mK", "flatness", "50 mm"), "`length` is for parallelism alone, not for flatness"),
    ],
)
def test_refusals_say_why(arguments, why):
    with pytest.raises(tenths.DomainError, match=why):
        tenths.general_tolerance(*arguments)


# ISO 2768-2, 5.2.2: the larger of the tolerance of the distance and that of straightness or flatness (from memory).
def test_parallelism_keeps_the_larger_of_two_tolerances():
    def tolerance(general_class, length):
        return tenths.general_tolerance("20 mm", general_class, "parallelism", length).tolerance

    assert [tolerance("fH", "50 mm"), tolerance("fL", "50 mm")] == [tenths.Size("0.2 mm"), tenths.Size("0.4 mm")]


def test_a_plan_gives_sizes_their_general_tolerance():
    document = json.loads((ROOT / "examples" / "plans" / "roller_axle.json").read_text(encoding="utf-8"))
    document["characteristics"][0]["limits"] = "144 mm"
    with pytest.raises(tenths.DomainError, match="has no tolerance"):
        tenths.Plan.from_json(json.dumps(document))
    document["general_tolerance"] = "ISO 2768-mK"
    sheet = tenths.Plan.from_json(json.dumps(document)).evaluate().to_dict()
    assert sheet["characteristics"][0]["limits"] == "143.5..144.5 mm"

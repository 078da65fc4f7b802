"""Measured positions against their tolerances: the figures of tests/published/positions.csv, and the object."""

import pathlib
import pickle

import pytest

import tenths
from tenths import Limits, PositionCheck, Size

FILE = pathlib.Path(__file__).parent.parent / "published" / "positions.csv"
LINES = [line.split(";") for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith("# ")]
HOLE = {"member": "hole", "condition": "MMC", "limits": "12..12.15 mm"}


def check_of(x, y, z, tolerance, member, condition, limits, actual):
    options = {"z": z, "member": member, "condition": condition, "limits": limits, "actual": actual}
    return PositionCheck(x, y, tolerance, **{name: value for name, value in options.items() if value})


def test_published_positions():
    assert len(LINES) >= 14
    for *given, error, bonus, allowed, verdict, _seen, _source in LINES:
        check = check_of(*given)
        assert (check.error, check.bonus, check.allowed) == (Size(error), Size(bonus), Size(allowed)), given
        assert check.accepted == (verdict == "accepted"), given


def test_a_check_is_a_value():
    check = PositionCheck("0.11 mm", Size("-0.07 mm"), "0.2 mm", **HOLE, actual="12.08 mm")
    same = PositionCheck("0.11 mm", "-0.07 mm", "0.2 mm", **HOLE | {"limits": Limits("12..12.15 mm")}, actual="12.08 mm")
    assert check == same == pickle.loads(pickle.dumps(check)) and hash(check) == hash(same)
    assert check != PositionCheck("0.11 mm", "-0.07 mm", "0.2 mm")
    assert repr(check) == "<position accepted: error 0.260768097 mm of 0.28 mm>"
    assert "<caption>position accepted" in check._repr_html_() and "0.28 mm" in check._repr_html_()
    assert check.to_dict() == {
        "error": "0.260768097 mm",
        "bonus": "0.08 mm",
        "allowed": "0.28 mm",
        "accepted": True,
    }
    with pytest.raises(AttributeError):
        check.error = Size("1 mm")


@pytest.mark.parametrize(
    ("options", "why"),
    [
        (HOLE | {"actual": "12.16 mm"}, "a hole of 12.16 mm is outside its limits"),
        (HOLE, "give all or none"),
        (HOLE | {"actual": "12.1 mm", "condition": "RFS"}, "`RFS` is not a material condition"),
        (HOLE | {"actual": "12.1 mm", "member": "pin"}, "member must be 'hole' or 'shaft'"),
    ],
)
def test_refusals_say_why(options, why):
    with pytest.raises(tenths.DomainError, match=why):
        PositionCheck("0.03 mm", "0.04 mm", "0.1 mm", **options)
    with pytest.raises(tenths.DomainError, match="must be zero or more"):
        PositionCheck("0.03 mm", "0.04 mm", "-0.1 mm")

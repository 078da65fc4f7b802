"""Knurls of the standards. Figures: DIN 82:1973 and Machinery's Handbook, 31st ed., p. 1060, table 4; only the line RKV
and class I were read in print, the others are from memory."""

import pickle

import pytest
import tenths
from tenths import Knurl, Limits, Size


@pytest.mark.parametrize(
    ("designation", "crests", "blank"),
    [("RKV 1.0", "20 mm", "19.67 mm"), ("RAA 0.8", "16 mm", "15.6 mm"), ("RKE 1.6", "32 mm", "30.928 mm")],
)
def test_blanks(designation, crests, blank):
    assert Knurl(designation).blank(crests) == Size(blank)


def test_limits():
    crests = Knurl("96 DP").crest_limits("0.5 in")
    assert (crests.lower, crests.upper) == (Size("0.490 in"), Size("0.504 in"))
    assert isinstance(crests, Limits)
    blank = Knurl("128 DP class III").blank_limits(Size("0.25 in"))
    assert (blank.lower, blank.upper) == (Size("0.2493 in"), Size("0.25 in"))


def test_the_object():
    knurl = Knurl("DIN 82-RAA 0,8")
    assert repr(knurl) == "Knurl('RAA 0.8')" and knurl == Knurl("RAA 0.8") != Knurl("RAA 1.0")
    assert pickle.loads(pickle.dumps(knurl)) == knurl and hash(knurl) == hash(Knurl("RAA 0.8"))
    assert knurl.to_dict()["pitch"] == "0.8 mm" and knurl.growth == Size("0.4 mm")
    assert Knurl("96 DP raised").growth is None


def test_refusals_say_why():
    for text, why in [("RAA 0.7", "has no pitch 0.7"), ("96 DP class IV", "is not a valid knurl designation")]:
        with pytest.raises(tenths.DomainError, match=why):
            Knurl(text)
    with pytest.raises(tenths.DomainError, match="the tolerances of DIN 82:1973 are not included"):
        Knurl("RAA 0.8").crest_limits("20 mm")

"""Standard tapers: reprinted tables of Morse tapers (0.938 in, 0.60235 in per foot, 1.4377 degrees), the Jarno rule."""

import pickle

import pytest
import tenths
from tenths import Size, StandardTaper, inch


def test_a_taper_is_a_value():
    taper = StandardTaper("MT3")
    assert (repr(taper), str(taper)) == ("StandardTaper('Morse 3')", "Morse 3")
    assert (taper.large_diameter, taper.small_diameter) == (Size("0.938 in"), Size("0.778 in"))
    assert inch.taper_per_foot(taper.taper) == pytest.approx(0.60235, abs=1e-12)
    assert taper.half_angle == pytest.approx(1.4377, abs=5e-5) and taper.included_angle == 2 * taper.half_angle
    assert pickle.loads(pickle.dumps(taper)) == taper and hash(taper) == hash(StandardTaper("Morse 3"))
    assert taper.to_dict()["large_diameter"] == "23.8252 mm"
    assert StandardTaper("7:24 No. 40").length is None


def test_the_jarno_rule():
    jarno = {int(taper.number): taper for taper in StandardTaper.all() if taper.family == "Jarno"}
    assert sorted(jarno) == list(range(2, 21))
    for number, taper in jarno.items():
        ends = (taper.large_diameter, taper.small_diameter, taper.length)
        assert ends == (Size(f"{number}/8 in"), Size(f"{number / 10} in"), Size(f"{number}/2 in"))


def test_all_are_sorted_and_sourced():
    tapers = StandardTaper.all()
    assert tapers == sorted(tapers) and all(taper.source and taper.standard for taper in tapers)
    assert "memory" in StandardTaper("metric 80").source


def test_refusals_say_why():
    for text, why in [("Morse 8", "there is no Morse 8"), ("40", "is not a standard taper")]:
        with pytest.raises(tenths.DomainError, match=why):
            StandardTaper(text)

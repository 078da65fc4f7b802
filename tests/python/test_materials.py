"""The table of materials, and one's own beside it."""

import csv
import pathlib
import pickle

import numpy as np
import pytest

import tenths
from tenths import inch, metric

PUBLISHED = pathlib.Path(__file__).parents[1] / "published" / "materials.tsv"


def test_materials_have_the_published_figures():
    rows = list(csv.DictReader(PUBLISHED.open(encoding="utf-8"), delimiter="\t", quoting=csv.QUOTE_NONE))
    assert len(rows) > 100
    for row in rows:
        material = getattr(tenths, row["units"]).material(row["material"])
        assert getattr(material, row["property"]) == float(row["value"]), row


def test_a_material_goes_straight_into_a_formula():
    m = metric.material("C45")
    # kc1.1 1500 N/mm² and mc 0.22 of group 2 at a chip of 0.1 mm: 1500 · 0.1^-0.22 = 2489.4, worked by hand.
    assert metric.specific_cutting_force(m.kc11, 0.1, m.mc) == pytest.approx(2489.4, abs=0.05)
    assert inch.material("C45").kc11 * 0.00689476 == pytest.approx(1500, rel=1e-6)  # 1 psi is 0.00689476 N/mm²
    assert inch.material("C45").unit_power == 0.78 and inch.material("C45").units == "inch"


def test_a_material_is_frozen_comparable_and_pickled():
    m = metric.material("SAE 4140", "annealed")
    assert m == metric.material("sae4140 ANNEALED") == pickle.loads(pickle.dumps(m))
    assert hash(m) == hash(pickle.loads(pickle.dumps(m)))
    assert m != inch.material("SAE 4140", "annealed") and m != 1
    with pytest.raises(AttributeError, match="cannot be changed"):
        m.kc11 = 1
    m.to_dict()["aliases"].append("mine")
    m.sources["physical"] = None
    assert "mine" not in m.aliases and m.sources["physical"]
    assert metric.material("PTFE").kc11 is None
    for part in ("SAE 4140, annealed", "ISO 513 group P", "kc11", "1775 MPa", "published: Machinery's Handbook"):
        assert part in repr(m) and part.replace("'", "&#x27;") in m._repr_html_()


def test_the_table_is_read_and_searched():
    table = metric.materials()
    assert table is metric.materials() and len(table) == 55 and table.units == "metric"
    assert table["1.4301"] is table["AISI 304, annealed"] and "304" in table and "unobtainium" not in table
    assert set(table.by_iso_group("k")) == {name for name, m in table.items() if m.iso_group == "K"}
    assert len(table.by_iso_group("P", "M")) == len(table.by_iso_group("P")) + len(table.by_iso_group("M"))
    assert {m.designation for m in table.find("grey IRON").values()} == {"ASTM A48 class 30", "ASTM A48 class 40"}
    with pytest.raises(ValueError, match="P, M, K, N, S and H, not `X`"):
        table.by_iso_group("X")
    with pytest.raises(KeyError, match="needs its condition: `SAE 4140, annealed`"):
        metric.material("SAE 4140")
    with pytest.raises(KeyError, match="no material is called `brass`: did you mean `C36000, half hard`"):
        table["brass"]
    with pytest.raises(KeyError, match="not among these"):
        table.by_iso_group("K")["C45"]
    assert "55 materials, metric units" in repr(table) and repr(table).count("\n") == 56
    assert table._repr_html_().count("<tr>") == 56
    assert pickle.loads(pickle.dumps(table)) == table
    assert repr(table.find("nothing at all")).endswith("0 materials, metric units")


def test_what_can_hurt_is_told_wherever_a_material_shows_itself():
    table = metric.materials()
    copper = table["C17200"]
    assert "beryllium" in copper.cautions[0]
    for text in (repr(copper), copper._repr_html_(), table._repr_html_(), str(copper.to_dict())):
        assert "dust and fume of beryllium" in text
    assert "Caution: dust and fume of beryllium" in repr(copper)
    told = repr(table).splitlines()[-1]
    assert told.startswith("55 materials, metric units; with cautions") and "AZ31B, H24" in told
    assert repr(table.find("4140")).endswith("2 materials, metric units")
    assert table["SAE 1018"].cautions == () and "Caution" not in repr(table["SAE 1018"])
    assert "C93200, as cast" in table.find("lead recycling")
    rows = {row["designation"]: row for row in table.to_dicts()}
    assert "burn fiercely" in rows["AZ31B"]["cautions"] and rows["SAE 1018"]["cautions"] == ""
    own = table.extended([{"designation": "<b>", "cautions": ["<i>hot</i>"]}])["<b>"]
    assert own.cautions == ("<i>hot</i>",) and "Caution: &lt;i&gt;hot" in own._repr_html_()


def test_own_materials_stand_beside_the_table():
    own = [
        {"designation": "Shop steel", "iso_group": "P", "kc11": 1600, "mc": np.float32(0.25), "modulus": "30 Mpsi"},
        {"designation": "SAE 1045", "condition": "our heat 17", "kc11": float("nan"), "yield_strength": None},
    ]
    table = metric.materials().extended(own)
    assert len(table) == 57 and len(metric.materials()) == 55
    assert (table["shop STEEL"].kc11, table["Shop steel"].mc) == (1600, 0.25)
    assert table["Shop steel"].modulus == pytest.approx(206.84, abs=0.005)  # 30 · 6.894757
    assert table["SAE 1045, our heat 17"].kc11 is None
    again = pickle.loads(pickle.dumps(table))
    assert again == table and again["Shop steel"].kc11 == 1600
    assert len(table.by_iso_group("P")) == len(metric.materials().by_iso_group("P")) + 1
    # 1600 bare in the inch namespace is 1600 psi, not N/mm²: the namespace fixes the unit.
    assert inch.materials().extended(own)["Shop steel"].kc11 == 1600
    text = '{"tenths_materials": 1, "units": "metric", "materials": [{"designation": "A", "kc11": 1000}]}'
    assert inch.materials().extended(text)["A"].kc11 == pytest.approx(145_037.7, abs=0.05)  # psi in 1000 N/mm²


def test_faults_of_own_materials_are_told_together():
    taken = {"designation": "PTFE", "condition": "moulded"}
    own = [{"designation": "A", "kc11": -1, "densty": 7.8}, {"kc11": float("inf")}, taken]
    with pytest.raises(tenths.DomainError) as caught:
        metric.materials().extended(own)
    places = [place for place, _ in caught.value.faults]
    assert places == ["/materials/0/densty", "/materials/0/kc11", "/materials/1/designation", "/materials/1/kc11"]
    assert "did you mean `density`?" in str(caught.value)
    with pytest.raises(tenths.DomainError, match="the table already has a material named `PTFE, moulded`"):
        metric.materials().extended(own[2:])
    for wrong in ({"designation": "A"}, 7, ["A"]):
        with pytest.raises(TypeError):
            metric.materials().extended(wrong)


@pytest.mark.libraries
def test_own_materials_come_from_a_table_of_pandas():
    import pandas as pd

    frame = pd.DataFrame({"designation": ["X", "Y"], "kc11": [1500, None], "iso_group": ["P", pd.NA]})
    table = metric.materials().extended(frame)
    assert table["X"].kc11 == 1500 and table["Y"].kc11 is None and table["Y"].iso_group is None
    back = pd.DataFrame(table.to_dicts()).set_index("designation")
    assert back.loc["X", "kc11"] == 1500 and "published" in back.loc["SAE 1018", "source_unit_power"]

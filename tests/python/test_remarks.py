"""What check and explain say of the rows of a table."""

import numpy as np
import pytest
from tenths import Remark, Remarks, metric

STEEL = {"hub_poisson": 0.3, "shaft_modulus": 210, "shaft_poisson": 0.3, "friction": 0.1}


def test_every_row_is_judged_as_a_single_call_judges_it():
    rng = np.random.default_rng(3)
    outer = rng.choice([40.0, 15.0, np.nan], 500)
    modulus = rng.choice([210.0, 0.5, -1.0], 500)
    friction = rng.choice([0.1, 1.5], 500)
    remarks = metric.press_fit.check(0.02, 20, outer, 20, modulus, **STEEL | {"friction": friction})
    alone = [
        Remark((row, *place.row), *place[1:])
        for row in range(500)
        for place in metric.press_fit.check(
            0.02, 20, outer[row], 20, modulus[row], **STEEL | {"friction": friction[row]}
        )
    ]
    assert {(remark.kind, remark.concerns) for remark in alone} == {
        ("error", None),
        ("error", "hub_outer_diameter"),
        ("error", "hub_modulus"),
        ("advice", "hub_modulus"),
        ("advice", "friction"),
    }

    # Errors come first.
    alone.sort(key=lambda remark: remark.kind != "error")

    # NaN is no less a value for being unequal to itself.
    def rows(of):
        return [tuple(map(str, remark)) for remark in of]

    assert rows(remarks) == rows(alone)
    assert rows(remarks[-3:]) == rows(alone[-3:]) and str(remarks[7]) == str(alone[7])
    assert [bool(x) for x in remarks.refused] == [
        any(r.row == (k,) and r.kind == "error" for r in alone) for k in range(500)
    ]
    assert [bool(x) for x in remarks.advised] == [
        any(r.row == (k,) and r.kind == "advice" for r in alone) for k in range(500)
    ]


@pytest.mark.libraries
def test_masks_select_rows_of_a_table():
    import pandas as pd

    table = pd.DataFrame({"diameter": [10.0, -1.0, 30.0]})
    remarks = metric.surface_speed.check(table.diameter, 1000)
    assert list(table[~remarks.refused].diameter) == [10.0, 30.0]
    assert pd.DataFrame(remarks.to_dicts()).concerns.tolist() == ["diameter"]
    assert len(metric.surface_speed.check(np.ones((0, 3)), 1000)) == 0


def test_shapes_are_broadcast():
    remarks = metric.surface_speed.check(np.array([[1.0], [-1.0]]), [100.0, -2.0, 300.0])
    assert [remark.row for remark in remarks] == [(0, 1), (1, 0), (1, 1), (1, 2)]
    assert remarks.refused.shape == (2, 3)
    assert "row 1, 0: error: surface_speed: diameter" in str(remarks)


def test_a_million_bad_rows_do_not_flood_a_screen():
    text = metric.surface_speed.explain(-np.ones(1_000_000), 1000)
    assert text.count("\n") == 20
    assert text.endswith("and 999980 more with errors; in all of 1000000 rows 1000000 without an answer, 0 with advice")
    remarks = metric.surface_speed.check(-np.ones(1_000_000), 1000)
    assert len(remarks) == 1_000_000 and remarks[-1].row == (999_999,)
    assert remarks._repr_html_().count("<tr>") == 21
    with pytest.raises(IndexError):
        remarks[1_000_000]


def test_a_single_call_has_remarks_too():
    (remark,) = metric.surface_speed.check(-1, 1000)
    assert remark == Remark((), "error", "diameter", -1, "surface_speed: diameter must be greater than 0 mm, not -1 mm")
    nothing = metric.surface_speed.check(1, 1000)
    assert isinstance(nothing, Remarks) and not nothing and nothing == []
    assert str(nothing) == metric.surface_speed.explain(1, 1000) == "surface_speed: nothing to remark"
    assert metric.surface_speed.explain("-1 mm", 1000) == "error: " + remark.message
    assert nothing != 3 and remark in metric.surface_speed.check(-1, 1000)

"""Formulas on tables: columns by name, labels that meet, rows that are named where they fail."""

import inspect
import warnings

import numpy as np
import pytest
from tenths import DomainError, inch, metric

pytestmark = pytest.mark.libraries
CUT = {"cutter_diameter": 20, "teeth": 4, "radial_width": 8, "axial_depth": 5, "kc11": 1700, "mc": 0.25}


@pytest.fixture
def table():
    import pandas as pd

    index = ["roughing", "finishing", "slot"]
    return pd.DataFrame(
        {"spindle_speed": [2000.0, 3000.0, 2500.0], "feed": [0.1, 0.05, -0.1], "job": ["a", "b", "c"]}, index=index
    )


def test_a_table_goes_in_as_a_table(table):
    with pytest.warns(RuntimeWarning, match="row slot: .*chip_load"):
        made = metric.milling_cut.on(table, columns={"chip_load": "feed"}, **CUT)
    assert list(made.index) == list(table.index) and list(made.columns) == metric.milling_cut.outputs
    alone = metric.milling_cut(spindle_speed=3000.0, chip_load=0.05, **CUT)
    assert tuple(made.loc["finishing"]) == tuple(alone)
    assert made.loc["slot"].isna().all() and made.attrs["units"]["torque"] == "N·m"
    assert list(made.attrs["units"]) == metric.milling_cut.outputs


def test_results_stand_beside_the_columns_of_the_table(table):
    table.attrs["units"] = {"spindle_speed": "rev/min"}
    diameters = table.assign(diameter=[10.0, 20.0, 30.0])
    made = metric.surface_speed.on(diameters, join=True)
    assert list(made.columns) == [*diameters.columns, "surface_speed"] and "surface_speed" not in diameters
    assert made.surface_speed["slot"] == metric.surface_speed(30.0, 2500.0)
    assert made.attrs["units"] == {"spindle_speed": "rev/min", "surface_speed": "m/min"}
    with pytest.raises(ValueError, match="already has a column 'surface_speed'"):
        metric.surface_speed.on(made, join=True)


def test_a_column_says_why_a_row_has_no_answer(table):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        made = metric.milling_cut.on(table, columns={"chip_load": "feed"}, remarks="why", **CUT)
    assert made.why["roughing"] == "" and made.why["finishing"].startswith("advice: chip_thickness_mean is")
    assert made.why["slot"].startswith("error: milling_cut: chip_load must be greater than 0 mm")
    with pytest.raises(DomainError, match="row slot: .*chip_load"):
        metric.milling_cut.on(table, columns={"chip_load": "feed"}, on_error="raise", **CUT)


def test_constants_go_before_columns_and_text_is_read(table):
    made = metric.surface_speed.on(table, diameter="1 in", join=True)
    assert made.surface_speed["slot"] == metric.surface_speed("1 in", 2500)
    made = metric.surface_speed.on(table.assign(diameter=10.0), spindle_speed=100)
    assert list(made.surface_speed) == [metric.surface_speed(10.0, 100)] * 3
    with pytest.raises(TypeError, match="no argument comes from the table"):
        metric.surface_speed.on(table, diameter=10, spindle_speed=100)
    made = metric.surface_speed.on(table.assign(diameter=["10 mm", "1 in", 3]))
    assert made.surface_speed["finishing"] == metric.surface_speed("1 in", 3000)


def test_a_wrong_name_is_told_with_the_nearest(table):
    with pytest.raises(TypeError, match=r"has no argument 'chip_laod'. Is it 'chip_load'\?"):
        metric.milling_cut.on(table, columns={"chip_laod": "feed"}, **CUT)
    with pytest.raises(KeyError, match=r"no column 'fed' for 'chip_load'. Is it 'feed'\?"):
        metric.milling_cut.on(table, columns={"chip_load": "fed"}, **CUT)
    with pytest.raises(TypeError, match="the table has no column 'chip_load'. Name its column in columns="):
        metric.milling_cut.on(table, **CUT)
    with pytest.raises(TypeError, match="'mc' is given both as a column and as a constant"):
        metric.milling_cut.on(table, columns={"chip_load": "feed", "mc": "feed"}, **CUT)


def test_what_would_lose_answers_is_refused(table):
    import pandas as pd

    diameters = table.assign(diameter=10.0)
    with pytest.raises(ValueError, match="remarks='surface_speed' is the name of a result"):
        metric.surface_speed.on(diameters, remarks="surface_speed")
    with pytest.raises(TypeError, match="'frame' must be a DataFrame, not list"):
        metric.surface_speed.on([1.0, 2.0], spindle_speed=3)
    twice = pd.DataFrame([[1.0, 2.0, 3.0]], columns=["diameter", "diameter", "spindle_speed"])
    with pytest.raises(ValueError, match="several columns called 'diameter'"):
        metric.surface_speed.on(twice)


def test_a_label_of_several_levels_is_told_in_words():
    import pandas as pd

    levels = pd.MultiIndex.from_tuples([(1, "x"), (2, "y")])
    assert str(metric.surface_speed.check(pd.Series([1.0, -2.0], index=levels), 3.0)).startswith("row 2, y: error")
    with pytest.warns(RuntimeWarning, match="row 2, y: "):
        metric.surface_speed(pd.Series([1.0, -2.0], index=levels), 3.0)


def test_no_argument_has_the_name_of_an_option():
    # But for one, whose threads are those of a screw: there the name is the argument's.
    options = set(inspect.signature(metric.surface_speed.on).parameters) - {"threads"}
    formulas = [value for value in vars(metric).values() if type(value).__name__ == "Formula"]
    assert len(formulas) > 300 and not any(options & set(formula.arguments) for formula in formulas)
    assert [formula.__name__ for formula in formulas if "threads" in formula.arguments] == ["thread_pitch"]


def test_labels_meet_in_check_as_in_the_call():
    import pandas as pd

    diameters = pd.Series([10.0, -20.0, 30.0], index=["a", "b", "c"])
    speeds = pd.Series([100.0, 200.0, 300.0], index=["c", "b", "a"])
    with pytest.warns(RuntimeWarning, match="1 of 3 rows have no answer; row b: surface_speed: diameter must"):
        answers = metric.surface_speed(diameters, speeds)
    remarks = metric.surface_speed.check(diameters, speeds)
    assert answers["a"] == metric.surface_speed(10.0, 300.0)
    assert [(remark.row, remark.value) for remark in remarks] == [(("b",), -20.0)]
    assert remarks.refused.index.equals(answers.index) and (remarks.refused == answers.isna()).all()
    assert "row b: error" in metric.surface_speed.explain(diameters, speeds)
    with pytest.raises(DomainError, match="row b: surface_speed: diameter must .*, not -20 mm"):
        metric.surface_speed(diameters, speeds, on_error="raise")


def test_a_label_that_one_side_lacks_is_a_row_without_an_answer():
    import pandas as pd

    diameters, speeds = pd.Series([10.0, 20.0], index=[1, 2]), pd.Series([100.0, 200.0], index=[2, 3])
    answers = metric.surface_speed(diameters, speeds)
    remarks = metric.surface_speed.check(diameters, speeds)
    assert list(answers.index) == [1, 2, 3] == list(remarks.refused.index)
    assert [remark.row[0] for remark in remarks.errors] == [1, 3]
    with pytest.raises(DomainError, match="row 1: .*spindle_speed.* not NaN"):
        metric.surface_speed(diameters, speeds, on_error="raise")


def test_frames_and_arrays_of_coordinates_meet_too():
    import pandas as pd
    import xarray as xr

    frame = pd.DataFrame({"x": [1.0, -2.0], "y": [3.0, 4.0]}, index=["p", "q"])
    other = pd.DataFrame({"y": [30.0, 40.0], "x": [10.0, 20.0]}, index=["q", "p"])
    with pytest.warns(RuntimeWarning, match="1 of 4 rows"):
        answers = metric.surface_speed(frame, other)
    refused = metric.surface_speed.check(frame, other).refused
    assert np.array_equal(refused, answers.isna()) and refused.sum() == 1
    rows, columns = xr.DataArray([1.0, -2.0], dims="row"), xr.DataArray([3.0, 4.0, 5.0], dims="column")
    with pytest.warns(RuntimeWarning, match="3 of 6 rows"):
        answers = metric.surface_speed(rows, columns)
    assert np.array_equal(metric.surface_speed.check(rows, columns).refused, np.isnan(answers))


def test_errors_come_before_advice_and_apart():
    moduli = np.full(1000, 0.5)  # GPa: there is an answer, with advice
    moduli[[700, 900]] = -1.0
    steel = {"hub_poisson": 0.3, "shaft_modulus": 210, "shaft_poisson": 0.3, "friction": 0.1}
    remarks = metric.press_fit.check(0.02, 20, 40, 20, moduli, **steel)
    assert [remark.row for remark in remarks[:2]] == [(700,), (900,)] and remarks[2].kind == "advice"
    assert len(remarks.errors) == 2 and len(remarks.advice) == 998
    assert {remark.kind for remark in remarks.advice} == {"advice"}
    text = str(remarks)
    assert text.index("row 900: error") < text.index("row 0: advice") and "and 978 more of advice" in text


def test_a_warning_points_at_the_line_that_called():
    def call():
        metric.surface_speed(np.array([np.nan, -1.0, -2.0]), 100.0)

    for run in (call, lambda: metric.milling_cut(**CUT, spindle_speed=np.array([-1.0]), chip_load=0.1)):
        with warnings.catch_warnings(record=True) as found:
            warnings.simplefilter("always")
            run()
        assert [warning.filename for warning in found] == [__file__]
        assert "rows have no answer; row" in str(found[0].message)
        assert run is not call or "2 of 3 rows have no answer; row 1" in str(found[0].message)
    with np.errstate(invalid="ignore"), warnings.catch_warnings():
        warnings.simplefilter("error")
        call()
    with np.errstate(invalid="raise"), pytest.raises(FloatingPointError):
        call()


def test_quantities_are_warned_of_at_the_callers_line():
    import pint

    registry = pint.UnitRegistry()
    with warnings.catch_warnings(record=True) as found:
        warnings.simplefilter("always")
        inch.surface_speed(np.array([1.0, -1.0]) * registry.inch, 100.0)
    assert [warning.filename for warning in found] == [__file__]

"""The results of a formula that has several: they unpack, and show themselves as tables with units."""

import copy
import pickle
import re

import numpy as np
import pytest

import tenths
from tenths import inch, metric

try:
    import pandas as pd
except ImportError:
    pd = None

HUB = dict(hub_modulus=210, hub_poisson=0.3, shaft_modulus=210, shaft_poisson=0.3, friction=0.12)
SEVERAL = [
    value
    for namespace in (inch, metric)
    for value in vars(namespace).values()
    if isinstance(value, tenths.Formula) and len(value.outputs) > 1
]


def press(interference, namespace=metric):
    return namespace.press_fit(interference, 20, 40, 20, **HUB)


def test_they_unpack_and_are_found_by_name_and_place():
    joint = press(0.02)
    pressure, *others, torque = joint
    assert (pressure, torque) == (joint.pressure, joint.torque) == (joint["pressure"], joint[-1])
    assert len(joint) == 2 + len(others) == 7 and list(reversed(joint))[0] == torque
    assert joint[1:3] == tuple(others[:2]) and joint == tuple(joint) and hash(joint) == hash(tuple(joint))
    assert list(joint.keys()) == list(joint._fields) == metric.press_fit.outputs == list(joint.units)
    assert joint.to_dict() == joint._asdict() == dict(joint) == dict(zip(joint._fields, joint))
    assert joint.formula is metric.press_fit and joint.units["pressure"] == "MPa"
    for copied in (copy.copy(joint), copy.deepcopy(joint), pickle.loads(pickle.dumps(joint))):
        assert copied == joint and type(copied) is type(joint)
    assert joint != press(0.03) and joint._replace(torque=1.0)[:-1] == joint[:-1]
    with pytest.raises(ValueError):
        joint._replace(other=1.0)
    assert metric.press_fit(0.02, 20, 40, 20, **HUB) != inch.press_fit._results._make(joint)
    np.testing.assert_array_equal(np.asarray(joint), tuple(joint))


@pytest.mark.parametrize("formula", SEVERAL, ids=lambda formula: f"{formula.system}.{formula.__name__}")
def test_each_name_is_free_and_documented(formula):
    made = formula._results._make(range(len(formula.outputs)))
    for place, name in enumerate(formula.outputs):
        assert getattr(made, name) == made[name] == place and name not in dir(dict)
        assert getattr(type(made), name).__doc__
    assert made.units == {name: formula.units[name] for name in formula.outputs}


def test_they_cannot_be_changed():
    joint = press(0.02)
    before = tuple(joint)
    changes = [
        lambda: joint.__setitem__("pressure", 1),
        lambda: joint.__delitem__("pressure"),
        lambda: joint.update(pressure=1),
        lambda: joint.setdefault("other", 1),
        lambda: joint.pop("pressure"),
        lambda: joint.popitem(),
        lambda: joint.clear(),
        lambda: joint.__ior__({"pressure": 1}),
    ]
    for change in changes:
        with pytest.raises(TypeError, match="the results of press_fit cannot be changed"):
            change()
    with pytest.raises(AttributeError):
        joint.pressure = 1
    assert tuple(joint) == before


@pytest.mark.libraries
def test_single_numbers_show_their_units():
    joint = press(0.02)
    assert "torque" in str(joint) and re.search(r"pressure +78.75  MPa\n", str(joint))
    html = joint._repr_html_()
    assert html.startswith("<table>") and "<td>hub hoop stress</td><td>131.25</td><td>MPa</td>" in html
    assert "<td>psi</td>" in press(0.001, inch)._repr_html_()
    frame = joint.to_frame()
    assert frame.shape == (1, 7) and frame.pressure[0] == joint.pressure
    assert frame.attrs["units"] == joint.units


@pytest.mark.libraries
def test_a_frame_has_a_row_for_each_row_of_the_input():
    joints = press(np.linspace(0.01, 0.04, 1_000))
    for frame in (joints.to_frame(), pd.DataFrame(joints)):
        assert frame.shape == (1_000, 7) and list(frame) == metric.press_fit.outputs
        np.testing.assert_array_equal(frame.torque, joints.torque)
    html = joints._repr_html_()
    assert "<th>pressure, MPa</th>" in html and "of 1,000 rows" in html and html.count("<tr>") == 21
    assert pd.DataFrame([press(0.02), press(0.03)]).pressure[1] == press(0.03).pressure


@pytest.mark.libraries
def test_the_index_is_kept_and_each_series_has_its_name():
    given = pd.Series([0.02, 0.03], index=["a", "b"], name="interference")
    joints = press(given)
    assert [series.name for series in joints] == metric.press_fit.outputs
    for frame in (joints.to_frame(), pd.DataFrame(joints)):
        assert list(frame.index) == ["a", "b"] and frame.pressure["b"] == press(0.03).pressure
    assert "<td>b</td><td>118.125</td>" in joints._repr_html_()


@pytest.mark.libraries
def test_frames_of_other_arrays():
    grid = press(np.array([[0.02, 0.03], [0.01, 0.02]])).to_frame()
    assert grid.torque[0, 1] == press(0.03).torque and grid.shape == (4, 7)
    masked = press(np.ma.array([0.02, 0.03], mask=[False, True])).to_frame()
    assert masked.pressure[0] == press(0.02).pressure and masked.isna().sum().tolist() == [1] * 7
    xarray = pytest.importorskip("xarray")
    labelled = press(xarray.DataArray([0.02, 0.03], dims="k", coords={"k": [5, 6], "other": ("k", [1, 2])}))
    assert labelled.torque.name == "torque" and labelled.to_frame().shape == (2, 7)
    assert labelled.to_frame().torque[6] == press(0.03).torque


@pytest.mark.libraries
def test_frames_of_dask_stay_lazy():
    frames = pytest.importorskip("dask.dataframe")
    joints = press(frames.from_pandas(pd.Series([0.02, 0.03], index=["a", "b"]), npartitions=2))
    frame = joints.to_frame()
    assert isinstance(frame, frames.DataFrame) and "dask" in joints._repr_html_().lower()
    computed = frame.compute()
    assert list(computed.index) == ["a", "b"] and list(computed) == metric.press_fit.outputs
    assert computed.torque.tolist() == press([0.02, 0.03]).torque.tolist()


@pytest.mark.filterwarnings("error")
@pytest.mark.libraries
def test_quantities_become_numbers_of_the_units_that_are_told():
    registry = pytest.importorskip("pint").UnitRegistry()
    joints = press(registry.Quantity([20.0, 30.0], "um"))
    assert joints.to_frame().pressure.tolist() == pytest.approx(press([0.02, 0.03]).pressure.tolist(), rel=1e-15)
    assert "<td>118.125</td>" in joints._repr_html_()
    assert press(registry.Quantity(20.0, "um")).to_frame().attrs["units"]["torque"] == "N·m"


def test_findings_are_those_of_the_joint_of_their_namespace():
    with pytest.raises(TypeError, match=r"of tenths\.metric\.press_joint, not those of tenths\.metric\.press_fit"):
        metric.joint_findings(press(0.02))
    with pytest.raises(TypeError, match="press_joint, not tuple"):
        metric.joint_findings((1.0,) * 12)

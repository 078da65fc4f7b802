"""Arrays of every kind that numpy dispatches, and the libraries that make them."""

import pickle

import numpy as np
import pytest

import tenths
from tenths import inch, metric

speed = metric.surface_speed
HUB = dict(hub_modulus=210, hub_poisson=0.3, shaft_modulus=210, shaft_poisson=0.3, friction=0.12)
ONE, TWO, TEN = (speed(d, 1000) for d in (1, 2, 10))


def press(interference, **given):
    return metric.press_fit(interference, 20, 40, 20, **HUB, **given)


@pytest.mark.parametrize("dtype", ["f2", "f4", "f8", ">f8", "i1", "u2", ">i4", "i8", "u8"])
def test_every_type_of_real_number_is_computed_in_doubles(dtype):
    made = speed(np.array([1, 1], dtype), 1000)
    assert made.dtype == np.float64 and made.tolist() == [ONE, ONE]


@pytest.mark.parametrize(
    "values",
    [
        np.ones(2, "?"),
        np.ones(2, "c16"),
        np.ones(2, "m8[s]"),
        np.ones(2, "M8[s]"),
        np.zeros(2, [("d", "f8")]),
        np.array([b"1 mm"]),
        np.array([1, 1j], object),
        [1, None],
        [1, 1j],
        [[1.0], "1 mm", None],
    ],
    ids=str,
)
def test_what_is_no_real_number_is_refused(values):
    with pytest.raises(TypeError):
        speed(values, 1000)


def test_more_digits_than_a_double_has_are_not_cut_from_arrays():
    if np.dtype("g").itemsize > 8:
        with pytest.raises(TypeError, match="not supported for the input types"):
            speed(np.ones(2, "g"), 1000)
    assert speed(np.longdouble(1), 1000) == ONE


def test_an_array_without_dimensions_is_a_single_number():
    made = speed(np.array(1.0), np.array(1000))
    assert type(made) is float and made == ONE
    with pytest.raises(tenths.DomainError, match="diameter must be greater than 0 mm, not -1 mm"):
        speed(np.array(-1.0), 1000)
    assert speed(np.array("1 mm"), 1000) == ONE
    with pytest.raises(TypeError):
        speed(np.array(1, "m8[ns]"), 1000)
    itself = np.empty((), object)
    itself[()] = itself
    with pytest.raises((TypeError, tenths.DomainError)):
        speed(itself, 1000)


def test_an_int_too_large_for_a_float_is_outside_every_domain():
    for number in (10**400, -(10**400)):
        with pytest.raises(tenths.DomainError, match="diameter must be finite and greater than 0 mm") as raised:
            speed(number, 1000)
        assert raised.value.argument == "diameter"
        assert np.isnan(speed(number, 1000, on_error="nan"))
        with pytest.raises(tenths.DomainError, match="row 1: .*diameter"):
            speed([1, number], 1000, on_error="raise")


def test_a_ufunc_pickles_by_name():
    for formula in (inch.surface_speed, metric.surface_speed, metric.press_fit):
        assert pickle.loads(pickle.dumps(formula.ufunc)) is formula.ufunc
    assert inch.surface_speed.ufunc is not metric.surface_speed.ufunc


def test_shapes_and_layouts():
    grid = np.arange(1.0, 7.0).reshape(2, 3)
    expected = np.array([[speed(d, 1000) for d in row] for row in grid.tolist()])
    assert np.array_equal(speed(grid.T, 1000), expected.T)
    assert np.array_equal(speed(grid[::-1, ::2], 1000), expected[::-1, ::2])
    assert speed(grid[:, None, :], np.ones((4, 1))).shape == (2, 4, 3)
    assert speed(grid.tolist(), [[1000], [1000]]).shape == (2, 3)
    assert speed([], 1000).shape == speed(np.empty(0), 1000).shape == (0,)
    with pytest.raises(ValueError):
        speed(np.ones(2), np.ones(3))
    fixed = grid.copy()
    fixed.flags.writeable = False
    assert np.array_equal(speed(fixed, 1000), expected)
    packed = np.zeros(6, np.dtype([("flag", "u1"), ("d", "f8")]))
    packed["d"] = grid.ravel()
    assert not packed["d"].flags.aligned
    assert np.array_equal(speed(packed["d"], 1000), expected.ravel())


def test_out_and_where():
    out = np.full(3, -9.0)
    given = np.array([-1.0, 1.0, 2.0])
    with np.errstate(all="raise"):
        assert speed.ufunc(given, 1000.0, out=out, where=given > 0) is out
    assert out.tolist() == [-9, ONE, TWO]
    single = np.empty(3, "f4")
    speed.ufunc([1.0, 2.0, 2.0], 1000.0, out=single)
    assert single[0] == np.float32(ONE)
    out.flags.writeable = False
    with pytest.raises(ValueError, match="read-only"):
        speed.ufunc(given, 1000.0, out=out)


def test_a_masked_row_is_no_fault():
    diameters = np.ma.array([1.0, -1.0, np.nan, 2.0], mask=[False, True, True, False])
    with np.errstate(all="raise"):
        for made in (speed(diameters, 1000), speed(diameters, 1000, on_error="raise")):
            assert made.mask.tolist() == [False, True, True, False]
            assert made.compressed().tolist() == [ONE, TWO]
        assert len(speed.check(diameters, 1000)) == 0
        fits = press(np.ma.array([0.02, -1], mask=[0, 1]), on_error="raise")
        assert [y.mask.tolist() for y in fits] == [[False, True]] * 7
        assert fits.pressure[0] == press(0.02).pressure
    with pytest.raises(tenths.DomainError, match="^row 2: [^;]*$"):
        speed(np.ma.array([1.0, -1.0, -2.0], mask=[0, 1, 0]), 1000, on_error="raise")
    with np.errstate(invalid="raise"), pytest.raises(FloatingPointError):
        speed(np.ma.array([-1.0, 1.0], mask=[0, 1]), 1000)
    counts = speed(np.ma.array([[1], [-2]], mask=[[0], [1]]), np.array([1000, 1000]))
    assert counts.mask.tolist() == [[False, False], [True, True]]
    texts = speed(np.ma.array(["1 mm", "?"], mask=[0, 1]), 1000)
    assert texts[0] == ONE and texts.mask.tolist() == [False, True]


@pytest.mark.libraries
def test_pandas():
    import pandas as pd

    series = pd.Series([1.0, 2.0, np.nan], index=list("abc"), name="bore")
    made = speed(series, 1000)
    assert list(made.index) == list("abc") and made.name == "bore"
    assert made["a"] == ONE and made.isna().tolist() == [False, False, True]
    nullable = speed(series.astype("Float64"), 1000)
    assert nullable.dtype == "Float64" and nullable.isna().tolist() == [False, False, True]
    assert speed(pd.Series([1, None], dtype="Int64"), 1000).isna().tolist() == [False, True]
    frame = pd.DataFrame({"d": [1.0, 2.0], "n": [1000, 1000], "text": ["1 mm", "10 mm"]}, index=[7, 9])
    assert speed(frame["d"], frame["n"]).to_dict() == {7: ONE, 9: TWO}
    assert speed(frame[["d", "text"]], 1000).loc[9].tolist() == [TWO, TEN]
    shuffled = speed(series[:2], pd.Series([1000.0, 500.0], index=["b", "a"]))
    assert shuffled["b"] == TWO and shuffled["a"] == speed(1, 500)
    with pytest.raises(tenths.DomainError, match="row c: .*NaN"):
        speed(series.astype("Float64"), 1000, on_error="raise")
    fits = press(pd.Series([0.02, 0.03], index=["a", "b"]))
    assert fits.pressure["a"] == press(0.02).pressure and list(fits.torque.index) == ["a", "b"]


@pytest.mark.libraries
@pytest.mark.parametrize("dtype", [object, "string", "category", None])
def test_columns_of_text(dtype):
    import pandas as pd

    column = pd.Series(["1 mm", None, "0.01 kg", "10 mm"], index=list("abcd"), dtype=dtype)
    with pytest.raises(tenths.DomainError, match="row c: surface_speed: diameter: `kg` is not a unit") as raised:
        speed(column, 1000)
    assert raised.value.argument == "diameter"
    made = speed(column.drop("c"), "1000 rpm")
    assert made["a"] == ONE and made["d"] == TEN and made.isna().tolist() == [False, True, False]
    assert inch.accepts("12 ±3 mm", column.drop("c")).tolist() == [False, False, True]


@pytest.mark.libraries
def test_xarray():
    import xarray as xr

    diameters = xr.DataArray([1.0, 2.0], dims="bore", coords={"bore": ["a", "b"]})
    speeds = xr.DataArray([1000.0, 500.0, 100.0], dims="step")
    made = speed(diameters, speeds)
    assert made.dims == ("bore", "step") and list(made.bore.values) == ["a", "b"]
    assert made.sel(bore="b")[0] == TWO
    fits = press(diameters / 100, on_error="raise")
    assert fits.pressure.sel(bore="b") == press(0.02).pressure and fits.torque.dims == ("bore",)
    texts = xr.DataArray(np.array(["1 mm", "2 mm"]), dims="bore")
    assert speed(texts, speeds).sel(bore=1, step=0) == TWO
    assert speed(xr.Dataset({"d": diameters}), 1000).d[0] == ONE


@pytest.mark.libraries
def test_dask():
    import dask.array as array

    diameters = array.from_array(np.array([1.0, 2.0, 10.0]), chunks=2)
    made = speed(diameters, 1000)
    assert isinstance(made, array.Array) and made.chunks == ((2, 1),)
    assert made.compute().tolist() == [ONE, TWO, TEN]
    fits = press(diameters / 100)
    assert all(isinstance(y, array.Array) and y.chunks == ((2, 1),) for y in fits)
    assert fits.pressure.compute()[1] == press(0.02).pressure
    assert press(diameters / 100, on_error="raise").torque.compute()[1] == press(0.02).torque
    texts = array.from_array(np.array(["1 mm", "2 mm"], object), chunks=1)
    assert speed(texts, 1000).compute().tolist() == [ONE, TWO]


@pytest.mark.libraries
@pytest.mark.filterwarnings("ignore:invalid value:RuntimeWarning")
def test_dask_raises_for_rows():
    import dask.array as array

    bad = array.from_array(np.array([0.02, 0.01, -1.0]), chunks=2)
    for call in (lambda: press(bad, on_error="raise"), lambda: speed(bad, 1000, on_error="raise")):
        with pytest.raises(tenths.DomainError, match="^row 2: "):
            call()


@pytest.mark.libraries
def test_dask_within_xarray():
    import dask.array as array
    import xarray as xr

    lazy = xr.DataArray(array.from_array(np.array([0.02, 0.03]), chunks=1), dims="part")
    made = press(lazy).pressure
    assert isinstance(made.data, array.Array) and made.dims == ("part",)
    assert made.compute()[0] == press(0.02).pressure

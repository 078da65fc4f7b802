"""What a call takes for numbers besides floats: columns of text, quantities of pint, arrays of other libraries."""

import contextlib
import functools
import pickle
import sys

import numpy

from ._tenths import Formula, _own_decimals

_PLAIN = {int, float, numpy.float64, numpy.int64}


def column(wanted, values):
    """The numbers of an array or a list, in the unit wanted; what numpy refuses or dispatches as it is."""
    if _is_quantity(values):
        bare = magnitude(values, wanted.formula, wanted.argument, wanted.quantity, wanted.unit)
        return own_decimals(bare) if wanted.exact else bare
    if isinstance(values, (list, tuple)):
        return _of_list(wanted, values, ())
    if _any_is([values], "pandas", "DataFrame") and (wanted.exact or not _dtype_kinds(values).isdisjoint("OSTU")):
        # Each column as it is, before a common type changes its numbers.
        return values.apply(functools.partial(column, wanted))
    kinds = _dtype_kinds(values)
    if kinds.isdisjoint("OSTU"):
        _refuse_other(wanted, values, kinds)
        return own_decimals(values) if wanted.exact else values
    if _any_is([values], "dask.dataframe", "Series"):
        return values.map_partitions(functools.partial(column, wanted), meta=(values.name, "f8"))
    if isinstance(values, numpy.ma.MaskedArray):
        mask = numpy.ma.getmaskarray(values)
        return numpy.ma.array(column(wanted, values.astype(object).filled(numpy.nan)), mask=mask)
    try:
        return numpy.frompyfunc(lambda value: _item(wanted, value), 1, 1)(values.astype(object)).astype(float)
    except (TypeError, ValueError):
        labels = values.index if _any_is([values], "pandas", "Series") else None
        for place, value in numpy.ndenumerate(numpy.asarray(values, dtype=object)):
            _item(wanted, value, place if labels is None else (labels[place[0]],))
        raise


def floats(values):
    """An array of floats, from what a ufunc would take as one: no text, complex number or None."""
    values = numpy.asarray(values)
    return values.astype(float, casting="same_kind" if values.dtype.kind == "f" else "safe", copy=False)


def _refuse_other(wanted, values, kinds):
    """Something that is not a number is refused by the name of its argument, before numpy refuses it without."""
    if not kinds and not hasattr(type(values), "__array_ufunc__"):
        with contextlib.suppress(ValueError):
            kinds = {numpy.asarray(values).dtype.kind}
    if kinds - {"", *"iuf"}:
        what = getattr(values, "dtype", None) or type(values).__name__
        expected = f"a number, text such as '12 {wanted.unit}'" if wanted.unit else "a number"
        raise TypeError(f"{wanted.formula}: '{wanted.argument}' must be {expected} or an array of these, not {what}")


def own_decimals(values):
    """Floats of another precision as the floats of their own shortest decimals, as a Size is read from a number.

    Two things keep the exact value of a float32: a formula that takes no Sizes, which computes in floats, and
    the ``.ufunc`` of any formula called directly, whose numbers numpy converts before they can be read.
    """
    if _any_is([values], "dask.dataframe", "Series", "DataFrame"):
        return values.map_partitions(own_decimals)
    if _any_is([values], "xarray", "DataArray", "Dataset", "Variable"):
        import xarray

        return xarray.apply_ufunc(own_decimals, values, dask="parallelized", output_dtypes=[float], keep_attrs=True)
    if _any_is([values], "dask.array", "Array"):
        return values.map_blocks(own_decimals, dtype=float)
    dtype = getattr(values, "dtype", None)
    if getattr(dtype, "kind", "") != "f" or dtype.itemsize == 8:
        return values
    if isinstance(values, numpy.ma.MaskedArray):
        return numpy.ma.array(own_decimals(values.data), mask=numpy.ma.getmaskarray(values))
    if isinstance(values, numpy.ndarray):
        return _own_decimals_of(values)
    if isinstance(dtype, numpy.dtype):  # a series or an index of pandas'
        labels = {"index": values.index} if hasattr(values, "index") else {}
        return type(values)(_own_decimals_of(numpy.asarray(values)), name=values.name, **labels)
    wide = "double[pyarrow]" if dtype.name.endswith("[pyarrow]") else "Float64"
    return values.astype(wide).map(_own_decimal_of_single, na_action="ignore").astype(wide)


def _own_decimals_of(array):
    if array.dtype.itemsize == 4:
        return _own_decimals(numpy.ascontiguousarray(array).astype("=f4").tobytes()).reshape(array.shape)
    unique, places = numpy.unique(array, return_inverse=True)
    return numpy.array([float(str(number)) for number in unique])[places].reshape(array.shape)


def _own_decimal_of_single(number):
    return float(str(numpy.float32(number)))


def _dtype_kinds(values):
    """The kinds of the columns, of which a DataFrame has several."""
    dtypes = getattr(values, "dtypes", None) if hasattr(type(values), "dtypes") else None
    if dtypes is None or not numpy.iterable(dtypes):
        dtypes = [values.dtype] if hasattr(type(values), "dtype") else []
    return {getattr(dtype, "kind", "") for dtype in dtypes}


def _of_list(wanted, values, place):
    if _PLAIN.issuperset(map(type, values)):
        array = numpy.asarray(values)
        if array.dtype.kind in "iuf":
            return array
    read = []
    for k, value in enumerate(values):
        if isinstance(value, (list, tuple)):
            read.append(_of_list(wanted, value, (*place, k)))
        else:
            read.append(_item(wanted, value, (*place, k), listed=True))
    return numpy.array(read, dtype=float)


def _item(wanted, value, place=None, listed=False):
    """The number of one row, which is told of an error; a list may hold arrays, and a column may have gaps."""
    try:
        if not listed and is_missing(value):
            return numpy.nan
        number = wanted.number(value)
        if number is None and listed and hasattr(type(value), "__array__"):
            number = column(wanted, value)
        if number is None:
            raise TypeError(f"{wanted.formula}: {wanted.argument}: {value!r:.60} is not a number")
        return number
    except (TypeError, ValueError) as error:
        if place is not None:
            error.args = (f"row {', '.join(map(str, place))}: {error}",)
        raise


def is_missing(value):
    """What stands in a column where there is no value: None and pandas.NA."""
    return value is None or ("pandas" in sys.modules and value is sys.modules["pandas"].NA)


# Where pint writes a unit in another way. A label that serves two quantities stands with the quantity's name.
_PINT = {
    "rev/min": "revolution/minute",
    "10⁶ psi": "megapsi",
    "°": "degree",
    ("Temperature", "°F"): "degF",
    ("Temperature", "°C"): "degC",
    ("TemperatureDifference", "°F"): "delta_degF",
    "1/°F": "1/delta_degF",
}


def _pint_unit(quantity, label):
    return _PINT.get((quantity, label)) or _PINT.get(label, label)


def _is_quantity(value):
    return hasattr(type(value), "_REGISTRY") and hasattr(type(value), "magnitude")


def magnitude(value, formula, argument, quantity, label):
    """The magnitude of a quantity of pint's in a unit of ours."""
    # To pint a radian is 1, so that it would take hertz for radians a second and inch · rpm for a speed.
    roots = str(value._REGISTRY.Quantity(1.0, value.units).to_root_units().units) if value.units else ""
    if ("radian" in roots) != (quantity in ("Angle", "SpindleSpeed")):
        turns = "has an angle in its unit" if "radian" in roots else "has no angle in its unit"
        raise TypeError(f"{formula}: '{argument}' in {value.units} {turns}: convert it to {label or 'a plain number'}")
    unit = _pint_unit(quantity, label)
    try:
        return value.to(unit).magnitude
    except Exception as error:
        if type(error).__module__.split(".")[0] != "pint":
            raise
        raise TypeError(
            f"{formula}: '{argument}' in {value.units} cannot be converted to {label or 'a plain number'}"
        ) from error


def call_with_quantities(formula, given, on_error):
    """A call where some arguments are quantities of pint's, with results that are such quantities."""
    registry = next(value._REGISTRY for value in given.values() if _is_quantity(value))
    bare = {
        name: column(formula._wanted(name), value) if _is_quantity(value) else value for name, value in given.items()
    }
    if on_error is not None:
        bare["on_error"] = on_error
    return to_pint(formula, formula(**bare), registry)


def to_pint(formula, result, registry=None):
    """A result of a formula as quantities of pint's."""
    units = [_pint_unit(kind, formula.units[name]) for kind, name in zip(formula._output_quantities(), formula.outputs)]
    if len(units) == 1:
        return quantity_of(result, units[0], registry)
    return type(result)._make(quantity_of(value, unit, registry) for value, unit in zip(result, units, strict=True))


def quantity_of(number, unit, registry=None):
    """A number with a unit of pint's, in its application's registry where none is given."""
    if registry is None:
        import pint

        registry = pint.get_application_registry()
    return registry.Quantity(number, unit)


def ufuncs(namespace, module):
    """What looks for the ufunc of a formula of a namespace in a module, where a pickle then finds it by name."""

    def look_up(name):
        formula = vars(namespace).get(name)
        if not isinstance(formula, Formula):
            raise AttributeError(f"module '{module}' has no attribute '{name}'")
        return formula.ufunc

    return look_up


def apply(ufunc, args):
    """The ufunc on arrays of any library that numpy dispatches to, where numpy alone would not do."""
    if _any_is(args, "dask.dataframe", "Series", "DataFrame"):
        return _apply_to_partitions(ufunc, args)
    if any(isinstance(value, numpy.ma.MaskedArray) for value in args):
        return _apply_masked(ufunc, args)
    if ufunc.nout > 1:
        if _any_is(args, "xarray", "DataArray", "Dataset", "Variable"):
            import xarray

            many = [[]] * ufunc.nout
            return xarray.apply_ufunc(functools.partial(_call, ufunc), *args, output_core_dims=many, dask="allowed")
        if _any_is(args, "dask.array", "Array"):
            import dask.array

            signature = ",".join(["()"] * ufunc.nin) + "->" + ",".join(["()"] * ufunc.nout)
            return dask.array.apply_gufunc(ufunc, signature, *args, output_dtypes=[float] * ufunc.nout)
    return ufunc(*args)


def _apply_to_partitions(ufunc, args):
    """The ufunc on each partition of Dask's series, which stay as lazy as they were."""
    frames = [getattr(value, "_meta", value) for value in args]
    made = ufunc(*frames)
    if ufunc.nout == 1:
        return sys.modules["dask.dataframe"].map_partitions(_OfPartition(ufunc), *args, meta=made)
    results = sys.modules["dask.dataframe"].map_partitions(_OfPartition(ufunc), *args, meta=_side_by_side(made))
    return tuple(results[k].rename(one.name) for k, one in enumerate(made))


class _OfPartition:
    """A ufunc that Dask can tell from another one, since it pickles by name; several results are a DataFrame."""

    def __init__(self, ufunc):
        self.ufunc = ufunc

    def __call__(self, *args):
        made = self.ufunc(*args)
        return made if self.ufunc.nout == 1 else _side_by_side(made)

    def __dask_tokenize__(self):
        return "tenths", pickle.dumps(self.ufunc)


def _side_by_side(series):
    """Series of pandas' as the columns of a frame."""
    return sys.modules["pandas"].DataFrame(dict(enumerate(series)))


def _call(ufunc, *args):
    return apply(ufunc, args)


def _any_is(args, module, *names):
    """Whether an argument is of a class of a module, which its maker has imported."""
    module = sys.modules.get(module)
    classes = tuple(getattr(module, name) for name in names) if module else ()
    return any(isinstance(value, classes) for value in args)


def mask_of(args):
    """Which rows the mask of any argument hides."""
    return functools.reduce(numpy.logical_or, map(numpy.ma.getmaskarray, args))


def _apply_masked(ufunc, args):
    """Rows under a mask have no answer, whatever stands there, and are no fault."""
    mask = mask_of(args)
    bare = [
        value.astype(float, casting="same_kind").filled(numpy.nan) if isinstance(value, numpy.ma.MaskedArray) else value for value in args
    ]
    results = ufunc(*bare)
    if ufunc.nout == 1:
        return numpy.ma.array(results, mask=numpy.broadcast_to(mask, numpy.shape(results)))
    return tuple(numpy.ma.array(result, mask=numpy.broadcast_to(mask, result.shape)) for result in results)

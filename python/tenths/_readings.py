"""Readings for statistics: numbers alone, none of them missing, in an array of floats."""

import numbers
import sys

import numpy

from . import _numbers
from ._tenths import DomainError


def readings(name, values):
    """The numbers of a list, an array, a series or a frame, as floats; missing ones are refused with their place."""
    array = floats(name, values)
    finite = numpy.isfinite(array)
    if not finite.all():
        missing = ~finite
        value = array[missing].flat[0]
        raise DomainError(f"{name}: {_place(missing)} is {'NaN' if value != value else value}. Fix: leave it out")
    return array


def floats(name, values):
    """The same, for a caller that looks for missing ones itself; those under a mask are refused."""
    if _numbers._is_quantity(values):
        raise TypeError(f"{name} must be plain numbers: give the magnitude in one unit")
    if hasattr(type(values), "to_numpy"):
        values = _of_pandas(name, values)
    if isinstance(values, numpy.ma.MaskedArray):
        mask = numpy.ma.getmaskarray(values)
        if mask.any():
            raise DomainError(f"{name}: {_place(mask)} is masked. Fix: leave it out")
        values = values.data
    try:
        array = numpy.asarray(values)
    except ValueError as error:
        raise DomainError(f"{name}: rows of different lengths have no table; give rows of one length") from error
    if array.dtype.kind == "O":
        array = _of_objects(name, array)
    if array.dtype.kind not in "iuf" and array.size:
        raise TypeError(f"{name} must be numbers, not {_kind(array)}")
    return _numbers.own_decimals(array).astype(float, copy=False)


def row(name, values):
    """The numbers of one row, as `readings` takes them."""
    array = readings(name, values)
    if array.ndim != 1:
        raise DomainError(f"{name} must be one row of numbers, not {array.ndim} dimensions")
    return array


def _of_pandas(name, values):
    """The values of a series or a frame, whose missing ones become NaN."""
    pandas = sys.modules["pandas"]
    columns = values if isinstance(values, pandas.DataFrame) else {name: values}
    for label in columns:
        kind = columns[label].dtype.kind
        if kind not in "iuf" and not (kind == "O" and _all_numbers(columns[label])):
            raise TypeError(f"{name}: column {label!r} must be numbers, not {columns[label].dtype}")
    return values.to_numpy(dtype=float, na_value=numpy.nan)


def _all_numbers(values):
    return all(_is_real(value) for value in values if value is not None)


def _is_real(value):
    return isinstance(value, numbers.Real) and not isinstance(value, (bool, numpy.bool_))


def _of_objects(name, array):
    for place, value in numpy.ndenumerate(array):
        if value is not None and not (_is_real(value) or _is_decimal(value)):
            raise TypeError(f"{name}: {_number(place)} must be a number, not {value!r:.40}")
    return numpy.array([numpy.nan if value is None else float(value) for value in array.flat]).reshape(array.shape)


def _is_decimal(value):
    return type(value).__name__ == "Decimal"


def _kind(array):
    kinds = {"U": "text", "S": "bytes", "b": "true and false", "c": "complex numbers", "M": "dates", "m": "times"}
    return kinds.get(array.dtype.kind, str(array.dtype))


def _place(marked):
    """Where the first that is marked stands, counted from 1."""
    return _number(numpy.argwhere(marked)[0])


def _number(place):
    return "reading " + ", ".join(str(k + 1) for k in place)

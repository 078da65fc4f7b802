"""Readings for statistics: numbers alone, none of them missing, in an array of floats."""

import numpy

from . import _frames, _numbers
from ._tenths import DomainError


def readings(name, values):
    """The numbers of a list, an array, a series or a frame, as floats; missing ones are refused with their place."""
    array = floats(name, values)
    finite = numpy.isfinite(array)
    if not finite.all():
        missing = ~finite
        value = array[missing].flat[0]
        raise DomainError(f"{_place(name, missing)} is {'NaN' if value != value else value}. Fix: leave it out")
    return array


def floats(name, values):
    """The same, for a caller that looks for missing ones itself; those under a mask are refused."""
    if _numbers._is_quantity(values):
        raise TypeError(f"{name} must be plain numbers: give the magnitude in one unit")
    if _frames.is_frame(values):
        columns = [_of_column(name, label, column) for label, column in _frames.columns(name, values).items()]
        return numpy.column_stack(columns) if columns else numpy.empty((len(values), 0))
    if _frames.is_series(values):
        return _of_column(name, name, values)
    if isinstance(values, numpy.ma.MaskedArray):
        mask = numpy.ma.getmaskarray(values)
        if mask.any():
            raise DomainError(f"{_place(name, mask)} is masked. Fix: leave it out")
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


def _of_column(name, label, values):
    """The numbers of a series, whose missing ones become NaN."""
    if not _frames.is_numeric(values):
        raise TypeError(f"{name}: column {label!r} must be numbers, not {values.dtype}")
    return _frames.floats(values)


def _of_objects(name, array):
    for place, value in numpy.ndenumerate(array):
        if value is not None and not _frames.is_number(value):
            raise TypeError(f"{_number(name, place)} must be a number, not {value!r:.40}")
    return numpy.array([numpy.nan if value is None else float(value) for value in array.flat]).reshape(array.shape)


def _kind(array):
    kinds = {"U": "text", "S": "bytes", "b": "true and false", "c": "complex numbers", "M": "dates", "m": "times"}
    return kinds.get(array.dtype.kind, str(array.dtype))


def _place(name, marked):
    """Where the first that is marked stands."""
    return _number(name, numpy.argwhere(marked)[0])


def _number(name, place):
    """A place counted from 1; of a single number its name alone."""
    return f"{name}: reading {', '.join(str(k + 1) for k in place)}" if len(place) else name

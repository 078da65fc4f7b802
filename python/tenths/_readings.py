"""Readings for statistics: numbers alone, none of them missing, in an array of floats."""

from collections.abc import Iterable, Mapping, Set

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
    if type(values) is not numpy.ndarray:
        values = _unwrapped(name, values)
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


def check_order(**given):
    """Refuses series and frames that go together by their places, and have their rows in another order by their labels."""
    labelled = [(name, values.index) for name, values in given.items() if _frames.has_index(values)]
    for name, index in labelled[1:]:
        first, other = labelled[0]
        # Where the lengths differ, the caller knows what was to be expected.
        if len(index) == len(other) and not index.equals(other):
            raise DomainError(
                f"{first} and {name} have different indexes. Fix: bring them into one order, e.g. {name}.reindex({first}.index); "
                f"or give {name}.to_numpy() where its order is that of {first}"
            )


def _unwrapped(name, values):
    """An array, or what numpy makes one of; what only looks like that is refused."""
    if values is None:
        raise TypeError(f"{name} must be numbers, not None")
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
        return values.data
    refuse_unordered(name, values)
    if isinstance(values, (list, tuple)):
        _look_through(name, values)
    return values


def _of_column(name, label, values):
    """The numbers of a series, whose missing ones become NaN."""
    if not _frames.is_numeric(values):
        raise TypeError(f"{name}: column {label!r} must be numbers, not {values.dtype}")
    return _frames.floats(values)


def refuse_unordered(name, values):
    """A set has no order, and a generator or a view no places."""
    if isinstance(values, Set) and not hasattr(values, "mapping"):
        raise TypeError(f"{name} must be a list or an array, not a set, which keeps no order and drops equal readings")
    if isinstance(values, Iterable) and not hasattr(type(values), "__getitem__") and not hasattr(type(values), "__array__"):
        raise TypeError(f"{name} must be a list or an array, not {type(values).__name__}. Fix: list({name})")
    if isinstance(values, Mapping):
        raise TypeError(f"{name} must be a list or an array, not {type(values).__name__}")


def _look_through(name, values, place=()):
    """Refuses in a list what numpy would take for a number: True, False, and quantities, whose unit it drops."""
    kinds = set(map(type, values))
    odd = {kind for kind in kinds if kind in (bool, numpy.bool_, list, tuple) or hasattr(kind, "_REGISTRY")}
    if not odd:
        return
    for k, value in enumerate(values):
        if isinstance(value, (list, tuple)):
            _look_through(name, value, (*place, k))
        elif type(value) in odd:
            fix = "" if isinstance(value, (bool, numpy.bool_)) else ". Fix: give the magnitudes in one unit"
            raise TypeError(f"{_number(name, (*place, k))} must be a number, not {value!r:.40}{fix}")


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

"""Series and frames of pandas and polars, neither of which is imported."""

import importlib
import numbers
import sys

import numpy

from . import _numbers
from ._tenths import DomainError

_LIBRARIES = ("pandas", "polars")


def is_frame(values):
    """Whether it is a DataFrame."""
    return _is(values, "DataFrame")


def is_series(values):
    """Whether it is a Series, or an index of pandas'."""
    return _is(values, "Series") or _is(values, "Index")


def has_index(values):
    """Whether its rows have labels."""
    return (is_frame(values) or _is(values, "Series")) and hasattr(type(values), "index")


def columns(name, frame):
    """The columns of a frame by their names, no two of which are alike."""
    names = list(frame.columns)
    for place, column in enumerate(names):
        if column in names[:place]:
            raise DomainError(f"{name}: two columns are called {column!r}. Fix: rename one of them")
    return {column: frame[column] for column in names}


def of_pandas(frame):
    """A frame of either library as one of pandas'."""
    named = columns("data", frame)
    if not any(map(_is_polars, named.values())):
        return frame
    return importlib.import_module("pandas").DataFrame({name: column.to_list() for name, column in named.items()})


def is_numeric(series):
    """Whether a series holds numbers, and nothing else but gaps."""
    if _is_polars(series):
        return series.dtype.is_numeric()
    kind = series.dtype.kind
    return kind in "iuf" or (kind == "O" and all(value is None or is_number(value) for value in series))


def is_number(value):
    """Whether it is a real number, which True and False are not."""
    return isinstance(value, numbers.Real) and not isinstance(value, bool) or type(value).__name__ == "Decimal"


def floats(series):
    """The floats of a series of numbers, NaN for its gaps."""
    if _is_polars(series):
        wide = series if series.dtype.is_float() else series.cast(sys.modules["polars"].Float64)
        return _numbers.own_decimals(wide.to_numpy())
    return _numbers.own_decimals(series).to_numpy(dtype=float, na_value=numpy.nan)


def _is(values, name):
    return any(
        isinstance(values, getattr(sys.modules[library], name, ())) for library in _LIBRARIES if library in sys.modules
    )


def _is_polars(values):
    return type(values).__module__.partition(".")[0] == "polars"

"""Formulas on tables: columns by name, and rows that meet by their labels."""

import difflib
import functools
import sys
import warnings

import numpy

from . import _numbers
from ._remarks import row_in_words

__all__ = ["broadcast", "on", "warn"]


def broadcast(columns, is_single):
    """Columns as broadcast arrays of floats, which rows a mask hides, and the labels of the rows, if any."""
    columns, labels = _aligned(columns, is_single)
    arrays = numpy.broadcast_arrays(*map(_numbers.floats, columns))
    absent = numpy.False_
    if any(isinstance(column, numpy.ma.MaskedArray) for column in columns):
        absent = numpy.broadcast_to(_numbers.mask_of(columns), arrays[0].shape)
    return arrays, absent, labels


def _aligned(columns, is_single):
    """The columns with their rows in one order, as arithmetic would put them, and the labels of the rows if pandas has any.

    Rows of series meet by their labels, those of arrays by their place. Where a label is missing the number is NaN.
    """
    if _numbers._any_is(columns, "xarray", "DataArray"):
        return _aligned_arrays(columns, is_single), None
    for kind in ("Series", "DataFrame"):
        found = [column for column in columns if _numbers._any_is([column], "pandas", kind)]
        if found and not _numbers._any_is(columns, "pandas", *{"Series", "DataFrame"} - {kind}):
            axes = found[0].axes
            for other in found[1:]:
                axes = [own if own.equals(given) else own.union(given) for own, given in zip(axes, other.axes)]
            labels = dict(zip(("index", "columns"), axes))
            columns = [
                column.reindex(**labels) if any(column is one for one in found) else column for column in columns
            ]
            return columns, axes[0] if kind == "Series" else None
    return columns, None


def _aligned_arrays(columns, is_single):
    """Arrays of xarray's by their coordinates; a call with several results wants these to be the same."""
    import xarray

    arrays = [column for column in columns if isinstance(column, xarray.DataArray)]
    joined = xarray.align(*arrays, join=xarray.get_options()["arithmetic_join"] if is_single else "exact")
    broadcast = iter(xarray.broadcast(*joined))
    return [next(broadcast) if isinstance(column, xarray.DataArray) else column for column in columns]


def on(formula, frame, columns, join, remarks, on_error, constants):
    """A formula on a DataFrame: see `Formula.on`."""
    if not (hasattr(frame, "columns") and hasattr(frame, "index")):
        raise TypeError(f"{formula.__name__}: 'frame' must be a DataFrame, not {type(frame).__name__}")
    if remarks in formula.outputs:
        raise ValueError(f"{formula.__name__}: remarks={remarks!r} is the name of a result: give the column another one")
    options = {} if on_error is None else {"on_error": on_error}
    if "threads" in constants and "threads" not in formula.arguments:
        options["threads"] = constants.pop("threads")
    given = _given(formula, frame, dict(columns or {}), constants)
    result = formula(**given, **options)
    if len(formula.outputs) == 1:
        made = result.to_frame(formula.outputs[0])
        made.attrs["units"] = {name: formula.units[name] for name in formula.outputs}
    else:
        made = result.to_frame()
    if remarks is not None:
        made[remarks] = _told(formula.check(**given), made.index)
    if not join:
        return made
    twice = made.columns.intersection(frame.columns)
    if len(twice):
        raise ValueError(f"{formula.__name__}: the table already has a column {twice[0]!r}: rename it, or leave join out")
    units = {**frame.attrs.get("units", {}), **made.attrs["units"]}
    joined = frame.assign(**{name: made[name] for name in made.columns})
    joined.attrs["units"] = units
    return joined


def _given(formula, frame, columns, constants):
    """The arguments of a call by name: constants, then columns of the table."""
    for name in (*columns, *constants):
        if name not in formula.arguments:
            raise TypeError(f"{formula.__name__}() has no argument {name!r}{_nearest(name, formula.arguments)}")
        if name in columns and name in constants:
            raise TypeError(f"{formula.__name__}(): {name!r} is given both as a column and as a constant")
    for name, column in columns.items():
        if column not in frame.columns:
            raise KeyError(f"the table has no column {column!r} for {name!r}{_nearest(column, frame.columns)}")
    own = {name: name for name in formula.arguments if name in frame.columns and name not in constants}
    chosen = {**own, **columns}
    for column in chosen.values():
        if list(frame.columns).count(column) > 1:
            raise ValueError(f"{formula.__name__}: the table has several columns called {column!r}: rename them")
    given = {name: frame[column] for name, column in chosen.items()} | constants
    missing = [name for name, about in formula.arguments.items() if name not in given and about["default"] is None]
    if missing:
        hint = _nearest(missing[0], frame.columns, " Name its column in columns=, or give a number.")
        raise TypeError(f"{formula.__name__}(): the table has no column {missing[0]!r}{hint}")
    if not given.keys() - constants:
        raise TypeError(f"{formula.__name__}(): no argument comes from the table; call it without one")
    return given


def _nearest(name, names, otherwise=""):
    near = difflib.get_close_matches(str(name), map(str, names), 1)
    return f". Is it {near[0]!r}?" if near else f".{otherwise}" if otherwise else ""


def _told(found, index):
    """What is remarked on each row in words, an empty text where nothing is."""
    import pandas

    told = numpy.full(found.refused.size, "", dtype=object)
    for part in (found.errors, found.advice):
        for place, remark in zip(part._rows, part):
            told[place] += ("; " if told[place] else "") + f"{remark.kind}: {remark.message}"
    return pandas.Series(told, index=index)


def warn(formula, result, args):
    """Warns of the rows without an answer, at the line outside this package that made the call."""
    columns, absent, labels = broadcast(args, len(formula.outputs) == 1)
    first = numpy.asarray(result if len(formula.outputs) == 1 else result[0], dtype=float)
    # A gap in the input is a gap in the answer, and no fault.
    missing = numpy.isnan(first) & ~absent & ~functools.reduce(numpy.logical_or, map(numpy.isnan, columns))
    if first.shape != columns[0].shape or not missing.any():
        return
    row = numpy.unravel_index(missing.argmax(), missing.shape)
    remark = formula._remarks([float(column[row]) for column in columns])[0]
    place = row_in_words(row if labels is None else (labels[row[0]],))
    told = f"{missing.sum()} of {missing.size} rows have no answer; row {place}: {remark[-1]}"
    warnings.warn(told, RuntimeWarning, stacklevel=_callers_level())


def _callers_level():
    level, frame = 2, sys._getframe(2)
    while frame.f_back and frame.f_globals.get("__name__", "").partition(".")[0] == "tenths":
        level, frame = level + 1, frame.f_back
    return level

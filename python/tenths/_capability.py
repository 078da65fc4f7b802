"""Capability of processes: what is taken for readings, limits and subgroups."""

import numpy

from . import _frames, _labels, _tenths
from ._options import takes
from ._readings import check_order, floats
from ._rows import Rows
from ._tenths import DomainError, Limits


def faces(units, module):
    """The function `capability` for the namespace of a unit system."""
    unit = {"inch": "inches", "metric": "millimetres"}[units]
    length = _tenths._wanted_length(units, "capability", "limits")

    def capability(data, limits, subgroup=None, **options):
        table, names = _table(data)
        pairs = _limits_of_columns(length, limits, names)
        subgroups = None
        if subgroup is not None:
            check_order(**_labelled(data), subgroup=subgroup)
            table, subgroups = _labels.grouped(table, subgroup)
        columns = numpy.array(table.T, order="C")  # a copy that nobody else can write to
        made = _tenths._capability(units, columns, len(table), names, pairs, subgroups, options)
        return made[0] if names is None else Rows(made)

    capability.__module__, capability.__qualname__ = module, "capability"
    capability.__doc__ = f"""The capability of a process: Cp, Cpk, Pp, Ppk and Cpm with intervals, expected ppm, normality.

    ``data`` are the readings of one characteristic in the order of making, in {unit}, or a table with a column for each
    characteristic: a DataFrame, a dict of columns, or an array of two dimensions. A table gives a row for each column.

    ``limits`` are a pair, either of which may be None; text such as '10 ±0.05 mm'; or Limits. For a table they hold for
    every column, or are a dict by the name of the column or a list of them in order. ``subgroup`` is the number of readings
    in each subgroup, or a label for each reading. Missing readings are refused: leave them out.

    A capability says something about the future only if the process is stable: look at a control chart first.
    """
    return {"capability": takes("CapabilityOptions", "target")(capability)}


def _table(data):
    """Readings as a table with a column for each characteristic, and their names: how many of an array, none of one."""
    if isinstance(data, dict) or _frames.is_frame(data):
        data = data if isinstance(data, dict) else _frames.columns("data", data)
        columns = [floats(str(name), column) for name, column in data.items()]
        if {column.ndim for column in columns} - {1} or len({len(column) for column in columns}) > 1:
            raise DomainError("the columns must have one row of readings each, all of the same length")
        return numpy.column_stack(columns) if columns else numpy.empty((0, 0)), [str(name) for name in data]
    table = floats("data", data)
    if table.ndim == 1:
        return table[:, None], None
    if table.ndim != 2:
        raise DomainError(f"data must have one dimension or two, not {table.ndim}")
    if len(table) == 1 and table.size > 1:
        raise DomainError(f"data is a table with one reading in each of {table.size} columns. Fix: give one row as a plain list")
    return table, table.shape[1]


def _labelled(data):
    """What has an index of rows: the columns of a dict, or the whole."""
    return {f"data[{name!r}]": column for name, column in data.items()} if isinstance(data, dict) else {"data": data}


def _limits_of_columns(length, limits, names):
    """A pair of limits for each column, or one for all of them."""
    if names is None:
        return [pair(length, limits)]
    if isinstance(limits, dict):
        names = [str(k) for k in range(names)] if isinstance(names, int) else names
        missing = [name for name in names if name not in limits]
        unknown = [name for name in limits if name not in names]
        if missing or unknown:
            raise DomainError(f"no {'limits' if missing else 'column'} for {(missing or unknown)[0]!r}")
        return [pair(length, limits[name]) for name in names]
    if isinstance(limits, list) and not (len(limits) == 2 and all(map(_is_end, limits))):
        count = names if isinstance(names, int) else len(names)
        if len(limits) != count:
            raise DomainError(f"{len(limits)} limits were given for {count} columns; expected one for each")
        return [pair(length, one) for one in limits]
    return [pair(length, limits)]


def _is_end(value):
    return value is None or isinstance(value, (int, float, numpy.number))


def pair(length, limits, name="capability"):
    """The lower and the upper limit, or None."""
    if isinstance(limits, str):
        limits = Limits(limits)
    if isinstance(limits, Limits):
        return _one(length, limits.lower, name), _one(length, limits.upper, name)
    try:
        lower, upper = limits
    except (TypeError, ValueError):
        raise TypeError(
            f"limits must be a pair such as (9.9, 10.1) or (None, 0.05), text such as '10 ±0.1 mm', or Limits, not {limits!r:.60}"
        ) from None
    return tuple(None if end is None else _one(length, end, name) for end in (lower, upper))


def _one(length, value, name="capability"):
    number = length.number(value)
    if number is None:
        raise TypeError(f"{name}: {value!r:.60} is not a number, text or Size")
    return number

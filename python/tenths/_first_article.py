"""First-article inspection: what is taken for readings, and where CSV comes from."""

import numbers
import os
from collections.abc import Mapping

import numpy

from ._tenths import Plan, ReadingTable, Size, _first_article, _readings_from_csv


def first_article(
    plan,
    readings=None,
    *,
    rule="simple",
    uncertainty=None,
    pieces=None,
    measured_with=None,
    by=None,
    date=None,
):
    """The verdicts on what was measured of a part, by its plan; without readings the form to fill in.

    ``readings`` has the numbers of the characteristics as keys: a dict, a Series, or a DataFrame with a column for each
    piece; or it is what ``readings_from_csv`` gave. A reading is a number in the units of the plan, a Size, text with its unit
    such as ``"1.752 in"``, or what gauges did, ``"go entered, no-go refused"``; a list of them is of several pieces. None, NaN
    and masked entries are not measured, and so missing.

    ``rule`` is a decision rule as of ``Decision``, ``uncertainty`` the expanded uncertainty of measurement as a Size or text, or
    a dict of them by number, whose key None stands for all others. Gauges are judged by what they did, under any rule.
    ``pieces`` are to be measured, by default as many as there are readings of. ``measured_with`` is an instrument, or a dict of
    them by number; ``by`` and ``date`` say who measured and when. A table from CSV has these three in its columns.
    """
    if not isinstance(plan, Plan):
        raise TypeError(f"expected a Plan, not {type(plan).__name__}. Fix: Plan.from_json(text)")
    for name, text in (("rule", rule), ("by", by), ("date", date)):
        if not isinstance(text, str) and (text is not None or name == "rule"):
            raise TypeError(f"{name} must be text, not {text!r:.40}")
    if isinstance(readings, ReadingTable):
        given = [name for name, value in (("measured_with", measured_with), ("by", by), ("date", date)) if value is not None]
        if given:
            raise TypeError(f"readings from CSV have {given[0]} in their columns: leave the argument out")
    else:
        readings = [
            (number, piece, value)
            for number, values in _by_number({} if readings is None else readings).items()
            for piece, value in enumerate(values, 1)
            if not _is_missing(value)
        ]
    if isinstance(uncertainty, Mapping):
        of_each = {_number(key): size for key, size in uncertainty.items() if key is not None}
        uncertainty = uncertainty.get(None)
    else:
        of_each = {}
    if isinstance(measured_with, Mapping):
        instruments = {_number(key): text for key, text in measured_with.items()}
    elif measured_with is None or isinstance(readings, ReadingTable):
        instruments = {}
    else:
        instruments = {number: measured_with for number, _, _ in readings}
    return _first_article(plan, readings, rule, uncertainty, of_each, pieces, instruments, by, date)


def readings_from_csv(source, *, units=None, columns=None, decimal_comma=False, delimiter=None):
    """Readings from CSV, as a spreadsheet or a measuring machine writes it: headings in the first row, a reading in each other.

    ``source`` is the text, its bytes, or the path of a file as a ``pathlib.Path``, in UTF-8. ``units``, 'mm' or 'in', are those
    of bare numbers. ``columns`` gives the headings of the columns that are not called ``number``, ``piece``, ``measured``,
    ``unit``, ``measured with``, ``by`` or ``date``: ``{"number": "Feature", "measured": "Actual"}``. ``delimiter`` is ',', ';'
    or a tab, by default the one that the first row has most of, or that a line such as ``sep=;`` before it names. With
    ``decimal_comma`` decimals are apart by a comma, and a point is refused.

    Raises DomainError with every fault; its ``faults`` are tuples of row, column and message.
    """
    if isinstance(source, os.PathLike):
        with open(source, "rb") as file:
            source = file.read()
    elif isinstance(source, str):
        if source and not any(mark in source for mark in "\n\r,;\t"):
            raise TypeError(f"{source!r} looks like a path, not like CSV. Fix: pathlib.Path({source!r})")
        source = source.encode()
    elif isinstance(source, (bytearray, memoryview)):
        source = bytes(source)
    elif not isinstance(source, bytes):
        raise TypeError(f"expected CSV as text or bytes, or a pathlib.Path, not {type(source).__name__}")
    if columns is not None and not isinstance(columns, Mapping):
        raise TypeError(f'columns must be a dict such as {{"measured": "Actual"}}, not {columns!r:.40}')
    return _readings_from_csv(source, units, dict(columns or {}), bool(decimal_comma), delimiter)


def _by_number(readings):
    """Lists of readings by number. Numbers that come again are of further pieces."""
    if hasattr(readings, "iterrows"):
        pairs = ((number, list(row)) for number, row in zip(readings.index, readings.itertuples(index=False, name=None)))
    elif hasattr(readings, "items"):
        pairs = readings.items()
    else:
        raise TypeError(
            f"expected readings by number, e.g. {{1: 12.005}}, or a ReadingTable, not {type(readings).__name__}"
        )
    lists = {}
    for number, values in pairs:
        lists.setdefault(_number(number), []).extend(_pieces(values))
    return lists


def _number(key):
    """The number of a characteristic."""
    if isinstance(key, str) and key.strip().isdecimal():
        key = int(key)
    if isinstance(key, numbers.Real) and not isinstance(key, (bool, numpy.bool_)) and 0 < key < 2**32 and key == int(key):
        return int(key)
    raise TypeError(f"a characteristic is given by its number, e.g. 3, not {key!r}")


def _pieces(values):
    """The readings of one characteristic."""
    if values is None or isinstance(values, (str, bytes, Size, numbers.Real)) or _is_missing(values):
        return [values]
    if isinstance(values, (list, tuple)):
        return list(values)
    if numpy.ndim(getattr(values, "magnitude", values)) == 0:
        return [values]
    return list(values)


def _is_missing(value):
    if value is None or type(value).__name__ in ("NAType", "NaTType", "MaskedConstant"):
        return True
    return isinstance(value, numbers.Real) and value != value

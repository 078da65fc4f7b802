"""The parts of a formula that are written in Python: rows of arrays, signatures."""

import functools
import importlib
import inspect

import numpy

from . import _numbers, _remarks, _tables
from ._remarks import Remarks
from ._tables import on

__all__ = ["compute", "find", "on", "wanted"]


def find(system, name):
    """The formula of a namespace; what a pickle names."""
    return getattr(importlib.import_module(f"tenths.{system}"), name)


def wanted(system, name, argument):
    """What the formula of a namespace asks of an argument; what a pickle names."""
    return find(system, name)._wanted(argument)


@functools.cache
def defaults(formula):
    """The default of every argument by name, None where it has none."""
    return {name: about["default"] for name, about in formula.arguments.items()}


def signature(formula):
    """Arguments with a default are keyword-only."""
    kinds = inspect.Parameter
    return inspect.Signature(
        [
            kinds(name, kinds.POSITIONAL_OR_KEYWORD) if default is None else kinds(name, kinds.KEYWORD_ONLY, default=default)
            for name, default in defaults(formula).items()
        ]
    )


def _rows(formula, args, kwargs):
    """The arguments of a call, in the order of the record, as `broadcast` gives columns."""
    bound = signature(formula).bind(*args, **(kwargs or {}))
    bound.apply_defaults()
    columns = []
    for name, value in bound.arguments.items():
        wanted = formula._wanted(name)
        number = wanted.number(value)
        columns.append(_numbers.column(wanted, value) if number is None else numpy.float64(number))
    return _tables.broadcast(columns, len(formula.outputs) == 1)


def check(formula, args, kwargs):
    """The remarks on every row of a call."""
    return Remarks(formula, *_rows(formula, args, kwargs))


def explain(formula, args, kwargs):
    """The remarks on a call as text, a line each, of which the first ones are shown."""
    return str(check(formula, args, kwargs))


def raise_for_rows(formula, args):
    """The ufunc, where the first rows without an answer make an exception."""
    with numpy.errstate(invalid="ignore"):
        result = _numbers.apply(formula.ufunc, args)
    return _remarks.raise_for_rows(formula, result, *_tables.broadcast(args, len(formula.outputs) == 1))


def compute(ufunc, args, is_plain, system, name):
    """The ufunc on arrays; the first row without an answer is warned of by its name, where numpy would warn without."""
    call = ufunc if is_plain else lambda *args: _numbers.apply(ufunc, args)
    if numpy.geterr()["invalid"] != "warn":
        return call(*args)
    flagged = []
    with numpy.errstate(invalid="call", call=lambda *_: flagged.append(True)):
        result = call(*args)
    if flagged:
        _tables.warn(find(system, name), result, args)
    return result

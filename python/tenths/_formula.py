"""The parts of a formula that are written in Python: rows of arrays, signatures."""

import functools
import importlib
import inspect

import numpy

from . import _numbers, _remarks, _tenths
from ._remarks import Remarks

__all__ = ["find", "wanted"]


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
    """The arguments of a call as broadcast arrays of floats, in the order of the record, and the rows under a mask."""
    bound = signature(formula).bind(*args, **(kwargs or {}))
    bound.apply_defaults()
    columns = []
    for name, value in bound.arguments.items():
        wanted = formula._wanted(name)
        number = wanted.number(value)
        columns.append(_numbers.column(wanted, value) if number is None else numpy.float64(number))
    return _broadcast(columns)


def _broadcast(columns):
    """Columns as broadcast arrays of floats, and which rows a mask hides."""
    arrays = numpy.broadcast_arrays(*map(_floats, columns))
    if not any(isinstance(column, numpy.ma.MaskedArray) for column in columns):
        return arrays, numpy.False_
    return arrays, numpy.broadcast_to(_numbers.mask_of(columns), arrays[0].shape)


def _floats(values):
    """An array of floats, from what a ufunc would take as one: no text, complex number or None."""
    values = numpy.asarray(values)
    return values.astype(float, casting="same_kind" if values.dtype.kind == "f" else "safe", copy=False)


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
    return _remarks.raise_for_rows(formula, result, *_broadcast(args))

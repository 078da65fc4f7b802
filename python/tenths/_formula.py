"""What a formula does that is better said in Python: rows of arrays, signatures, named results."""

import collections
import importlib
import inspect

import numpy

from . import _remarks, _tenths
from ._remarks import Remarks

__all__ = ["find"]


def find(system, name):
    """The formula of a namespace; what a pickle names."""
    return getattr(importlib.import_module(f"tenths.{system}"), name)


def signature(formula):
    """Arguments with a default are keyword-only."""
    kinds = inspect.Parameter
    return inspect.Signature(
        [
            kinds(name, kinds.POSITIONAL_OR_KEYWORD)
            if about["default"] is None
            else kinds(name, kinds.KEYWORD_ONLY, default=about["default"])
            for name, about in formula.arguments.items()
        ]
    )


_RESULTS = {}


def result_type(formula_name, fields):
    """The named tuple of a formula of several results, one for both sides, found by pickle in this module."""
    if formula_name not in _RESULTS:
        name = "".join(word.capitalize() for word in formula_name.split("_"))
        made = collections.namedtuple(name, fields, module=__name__)
        made.__doc__ = f"The results of {formula_name}."
        _RESULTS[formula_name] = globals()[name] = made
        __all__.append(name)
    return _RESULTS[formula_name]


def _rows(formula, args, kwargs):
    """The arguments of a call as broadcast arrays of floats, in the order of the record."""
    bound = signature(formula).bind(*args, **(kwargs or {}))
    bound.apply_defaults()
    columns = []
    for name, value in bound.arguments.items():
        number = formula._number(name, value)
        columns.append(_floats(value) if number is None else numpy.float64(number))
    return numpy.broadcast_arrays(*columns)


def _floats(values):
    """An array of floats, from what a ufunc would take as one: no text, complex number or None."""
    values = numpy.asarray(values)
    return values.astype(float, casting="same_kind" if values.dtype.kind == "f" else "safe", copy=False)


def check(formula, args, kwargs):
    """The remarks on every row of a call."""
    return Remarks(formula, _rows(formula, args, kwargs))


def explain(formula, args, kwargs):
    """The remarks on a call as text, a line each, of which the first ones are shown."""
    return str(check(formula, args, kwargs))


def raise_for_rows(formula, args):
    """The ufunc, where the first rows without an answer make an exception."""
    with numpy.errstate(invalid="ignore"):
        result = formula.ufunc(*args)
    return _remarks.raise_for_rows(formula, result, numpy.broadcast_arrays(*map(_floats, args)))


def accepts(system, module):
    """The judge of readings in the unit of a namespace."""

    def accepts(limits, readings, resolution=None):
        least, greatest = _tenths._good_readings(limits, system, resolution)
        if hasattr(type(readings), "dimensionality") or hasattr(type(readings), "unit"):
            raise TypeError("the readings carry a unit of their own, which is never stripped: pass their magnitude")
        if isinstance(readings, (int, float, numpy.floating, numpy.integer)):
            return bool(least <= readings <= greatest)
        if not hasattr(type(readings), "dtype"):
            readings = _floats(readings)
        return (readings >= least) & (readings <= greatest)

    unit = {"inch": "inches", "metric": "millimetres"}[system]
    accepts.__module__ = module
    accepts.__qualname__ = "accepts"
    accepts.__doc__ = f"""Whether readings in {unit}, one or an array, are within limits, both of which are good.

    Limits are Limits or drawing notation. Without a resolution a reading is its shortest decimal, so that 1.425
    is good against 1.420 ±.005; with one, the step of the instrument in {unit}, a reading within a millionth of
    a step of a whole number of steps is taken as that number of steps. NaN is never good.
    """
    return accepts
